/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/heat.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/water.h"

#define SECONDS_PER_DAY       86400.0
#define WATT_HOURS_PER_KWH    1000.0
#define AIR_SPEED_MAX_M_S     1.5
#define CARRIER_STILL         0.089  /* W/(m2 Pa) in still air */
#define CARRIER_PER_AIR_SPEED 0.0782 /* more of it for each m/s */

static bool
is_share (double value)
{
  return isfinite (value) && value >= 0.0 && value <= 1.0;
}

HydraulicsStatus
heat_evaporation_rate (const Evaporation *evaporation, double *ret_rate_kg_s)
{
  double at_water_pa = 0.0, at_air_pa = 0.0, latent_j_kg = 0.0;
  HydraulicsStatus status;

  if (!argument_is_not_negative (evaporation->area_m2) || !is_share (evaporation->relative_humidity) ||
      !argument_is_not_negative (evaporation->air_speed_m_s) ||
      !argument_is_not_negative (evaporation->activity_factor) || !is_share (evaporation->open_share))
    return HYDRAULICS_INVALID_ARGUMENT;
  status = water_vapour_pressure (evaporation->water_c, evaporation->salinity_g_kg, &at_water_pa);
  if (status == HYDRAULICS_OK)
    status = water_latent_heat (evaporation->water_c, evaporation->salinity_g_kg, &latent_j_kg);
  if (status == HYDRAULICS_OK)
    status = water_saturation_pressure (evaporation->air_c, &at_air_pa);
  if (status != HYDRAULICS_OK)
    return status;

  double difference_pa = at_water_pa - evaporation->relative_humidity * at_air_pa;
  double transfer = CARRIER_STILL + CARRIER_PER_AIR_SPEED * evaporation->air_speed_m_s;
  status = answer_if_finite (evaporation->activity_factor * evaporation->open_share * evaporation->area_m2 *
                                 difference_pa * transfer / latent_j_kg,
                             ret_rate_kg_s);
  if (status == HYDRAULICS_OK && evaporation->air_speed_m_s > AIR_SPEED_MAX_M_S)
    return HYDRAULICS_OUT_OF_RANGE;
  return status;
}

HydraulicsStatus
heat_reservoir_days (double reservoir_volume_m3, double evaporation_kg_s, double density_kg_m3,
                     double *ret_days)
{
  if (!argument_is_not_negative (reservoir_volume_m3) || !isfinite (evaporation_kg_s) ||
      !argument_is_positive (density_kg_m3))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (evaporation_kg_s <= 0.0)
    return HYDRAULICS_NO_SOLUTION;
  return answer_if_finite (reservoir_volume_m3 * density_kg_m3 / evaporation_kg_s / SECONDS_PER_DAY,
                           ret_days);
}

HydraulicsStatus
heat_pane_u_value (double thickness_m, double conductivity_w_mk, double inner_h_w_m2k, double outer_h_w_m2k,
                   double *ret_u_w_m2k)
{
  if (!argument_is_not_negative (thickness_m) || !argument_is_positive (conductivity_w_mk) ||
      !argument_is_positive (inner_h_w_m2k) || !argument_is_positive (outer_h_w_m2k))
    return HYDRAULICS_INVALID_ARGUMENT;
  double resistance_m2k_w = 1.0 / inner_h_w_m2k + thickness_m / conductivity_w_mk + 1.0 / outer_h_w_m2k;
  return answer_if_finite (1.0 / resistance_m2k_w, ret_u_w_m2k);
}

HydraulicsStatus
heat_conduction_loss (double u_w_m2k, double area_m2, double water_c, double air_c, double *ret_loss_w)
{
  if (!argument_is_not_negative (u_w_m2k) || !argument_is_not_negative (area_m2) || !isfinite (water_c) ||
      !isfinite (air_c))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (u_w_m2k * area_m2 * (water_c - air_c), ret_loss_w);
}

HydraulicsStatus
heat_heater_power (const HeatBalance *balance, double *ret_power_w)
{
  if (!isfinite (balance->evaporation_kg_s) || !argument_is_positive (balance->latent_heat_j_kg) ||
      !argument_is_not_negative (balance->ua_w_k) || !isfinite (balance->water_c) ||
      !isfinite (balance->air_c) || !argument_is_not_negative (balance->pump_heat_w) ||
      !argument_is_not_negative (balance->lamp_heat_w))
    return HYDRAULICS_INVALID_ARGUMENT;
  double evaporating_w = balance->evaporation_kg_s * balance->latent_heat_j_kg;
  double conducted_w = balance->ua_w_k * (balance->water_c - balance->air_c);
  return answer_if_finite (evaporating_w + conducted_w - balance->pump_heat_w - balance->lamp_heat_w,
                           ret_power_w);
}

HydraulicsStatus
heat_warm_up_time (const WarmUp *warm_up, double *ret_time_s)
{
  if (!argument_is_not_negative (warm_up->volume_m3) || !argument_is_positive (warm_up->density_kg_m3) ||
      !argument_is_positive (warm_up->specific_heat_j_kgk) || !isfinite (warm_up->start_c) ||
      !isfinite (warm_up->end_c) || !isfinite (warm_up->power_w) ||
      !argument_is_not_negative (warm_up->ua_w_k) || !isfinite (warm_up->air_c))
    return HYDRAULICS_INVALID_ARGUMENT;

  double capacity_j_k = warm_up->volume_m3 * warm_up->density_kg_m3 * warm_up->specific_heat_j_kgk;
  double rise_k = warm_up->end_c - warm_up->start_c;
  if (rise_k == 0.0) {
    *ret_time_s = 0.0;
    return HYDRAULICS_OK;
  }
  /* The logarithm of the closed form is taken of 1 - x, x being the share of the starting power that the losses have
   * eaten at the end: so it stays exact down to UA = 0, where the time is m c dT / P. */
  double net_w = warm_up->power_w - warm_up->ua_w_k * (warm_up->start_c - warm_up->air_c);
  double eaten = warm_up->ua_w_k * rise_k / net_w;
  if (net_w == 0.0 || (net_w > 0.0) != (rise_k > 0.0) || eaten >= 1.0)
    return HYDRAULICS_NO_SOLUTION;
  double stretch = eaten > 0.0 ? -log1p (-eaten) / eaten : 1.0;
  return answer_if_finite (capacity_j_k * rise_k / net_w * stretch, ret_time_s);
}

HydraulicsStatus
heat_energy_cost (double power_w, double hours_per_day, double days, double price_per_kwh, double *ret_cost)
{
  if (!argument_is_not_negative (power_w) || !argument_is_not_negative (hours_per_day) ||
      hours_per_day > 24.0 || !argument_is_not_negative (days) || !argument_is_not_negative (price_per_kwh))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (power_w * hours_per_day * days / WATT_HOURS_PER_KWH * price_per_kwh, ret_cost);
}
