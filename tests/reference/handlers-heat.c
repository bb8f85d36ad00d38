/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/heat.h"
#include "hydraulics/water.h"

/* The rows are for fresh water, no lid, and the published factor unless they say otherwise. */
static HydraulicsStatus
run_evaporation_rate (Given *given, double *ret_got)
{
  Evaporation evaporation = {
      .area_m2 = given_number (given, "area_m2"),
      .water_c = given_number (given, "water_t_c"),
      .salinity_g_kg = 0.0,
      .air_c = given_number (given, "air_t_c"),
      .relative_humidity = given_number (given, "relative_humidity"),
      .air_speed_m_s = given_number (given, "air_speed_m_per_s"),
      .activity_factor = 1.0,
      .open_share = 1.0,
  };

  return heat_evaporation_rate (&evaporation, ret_got);
}

static HydraulicsStatus
run_saturation_pressure (Given *given, double *ret_got)
{
  return water_saturation_pressure (given_number (given, "t_c"), ret_got);
}

static HydraulicsStatus
run_conduction_loss (Given *given, double *ret_got)
{
  return heat_conduction_loss (given_number (given, "u_value_w_per_m2_k"), given_number (given, "area_m2"),
                               given_number (given, "water_t_c"), given_number (given, "air_t_c"), ret_got);
}

static HydraulicsStatus
run_glass_u_value (Given *given, double *ret_got)
{
  return heat_pane_u_value (
      given_number (given, "thickness_m"), given_number (given, "conductivity_w_per_m_k"),
      given_number (given, "inner_h_w_per_m2_k"), given_number (given, "outer_h_w_per_m2_k"), ret_got);
}

static HydraulicsStatus
run_heater_power (Given *given, double *ret_got)
{
  HeatBalance balance = {
      .evaporation_kg_s = given_number (given, "evaporation_kg_per_s"),
      .latent_heat_j_kg = given_number (given, "latent_heat_j_per_kg"),
      .ua_w_k = given_number (given, "ua_w_per_k"),
      .water_c = given_number (given, "water_t_c"),
      .air_c = given_number (given, "air_t_c"),
      .pump_heat_w = given_number (given, "pump_heat_w"),
      .lamp_heat_w = given_number (given, "lamp_heat_w"),
  };

  return heat_heater_power (&balance, ret_got);
}

static HydraulicsStatus
run_energy_cost (Given *given, double *ret_got)
{
  return heat_energy_cost (given_number (given, "power_w"), given_number (given, "hours_per_day"),
                           given_number (given, "days"), given_number (given, "price_per_kwh"), ret_got);
}

static HydraulicsStatus
run_warm_up_time (Given *given, double *ret_got)
{
  WarmUp warm_up = {
      .volume_m3 = given_number (given, "volume_m3"),
      .density_kg_m3 = given_number (given, "density_kg_per_m3"),
      .specific_heat_j_kgk = given_number (given, "specific_heat_j_per_kg_k"),
      .start_c = given_number (given, "start_t_c"),
      .end_c = given_number (given, "end_t_c"),
      .power_w = given_number (given, "power_w"),
      .ua_w_k = given_number (given, "ua_w_per_k"),
      .air_c = given_number (given, "air_t_c"),
  };

  return heat_warm_up_time (&warm_up, ret_got);
}

const Handler heat_handlers[] = {
    {"evaporation_rate", run_evaporation_rate}, {"saturation_pressure", run_saturation_pressure},
    {"conduction_loss", run_conduction_loss},   {"glass_u_value", run_glass_u_value},
    {"heater_power", run_heater_power},         {"energy_cost", run_energy_cost},
    {"warmup_time", run_warm_up_time},          {NULL, NULL},
};
