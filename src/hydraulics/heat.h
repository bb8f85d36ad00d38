/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Evaporation, the heat balance of the water, and what it costs: sizes of heater, chiller and top-off reservoir.
 * HYDRAULICS_INVALID_ARGUMENT in every function for NaN, infinity, or a sign that the quantity cannot have. */

#include "hydraulics/status.h"

typedef struct {
  double area_m2;           /* free surface, 0 or more */
  double water_c;           /* 0 to 40 degC */
  double salinity_g_kg;     /* 0 to 45; lowers the vapour pressure by some 2 % at 35 */
  double air_c;             /* WATER_AIR_MIN_C to WATER_AIR_MAX_C, degC */
  double relative_humidity; /* 0 to 1 */
  double air_speed_m_s;     /* over the surface, 0 or more; a fan or a draught goes in here */
  double activity_factor;   /* 1 as published for a pool in use; 0.5 for still water, the likely case here */
  double open_share;        /* of the surface that no lid covers, 0 to 1 */
} Evaporation;

/**
 * heat_evaporation_rate:
 * @ret_rate_kg_s: (out): water lost to the air, w = A (pw - pa) (0.089 + 0.0782 V) / Y with pressures in kPa and the
 *   latent heat Y in kJ/kg; negative when moist air condenses on colder water
 * Returns: HYDRAULICS_OUT_OF_RANGE without a number outside the temperatures and salinity above, with the number for
 *   an air speed above 1.5 m/s
 * Source: ASHRAE Handbook, HVAC Applications (natatoriums), after Carrier 1918; good to some 30 %. Measured quiet
 *   pools lose 26 % less than at activity factor 1 (ASHRAE Transactions 104, 1998).
 */
HydraulicsStatus heat_evaporation_rate (const Evaporation *evaporation, double *ret_rate_kg_s);

/**
 * heat_reservoir_days:
 * @reservoir_volume_m3: usable water of the top-off reservoir, 0 or more
 * @evaporation_kg_s: above 0; HYDRAULICS_NO_SOLUTION at 0 or below, where a reservoir never empties
 * @density_kg_m3: of the fresh water in it
 * @ret_days: (out): days until the reservoir is empty
 * Source: definition.
 */
HydraulicsStatus heat_reservoir_days (double reservoir_volume_m3, double evaporation_kg_s,
                                      double density_kg_m3, double *ret_days);

/**
 * heat_pane_u_value:
 * @thickness_m: of the pane, 0 or more
 * @conductivity_w_mk: 1.0 soda lime glass (EN 673), 0.19 acrylic
 * @inner_h_w_m2k: surface coefficient on the water side
 * @outer_h_w_m2k: surface coefficient on the air side
 * @ret_u_w_m2k: (out): 1 / (1/hi + t/lambda + 1/ho)
 * Source: EN 673, ISO 6946.
 */
HydraulicsStatus heat_pane_u_value (double thickness_m, double conductivity_w_mk, double inner_h_w_m2k,
                                    double outer_h_w_m2k, double *ret_u_w_m2k);

/**
 * heat_conduction_loss:
 * @u_w_m2k: thermal transmittance, 0 or more
 * @area_m2: 0 or more
 * @ret_loss_w: (out): U A (water - air), positive out of the water
 * Source: definition of the transmittance, ISO 6946.
 */
HydraulicsStatus heat_conduction_loss (double u_w_m2k, double area_m2, double water_c, double air_c,
                                       double *ret_loss_w);

typedef struct {
  double evaporation_kg_s; /* negative: condensation, which heats */
  double latent_heat_j_kg;
  double ua_w_k; /* transmittance times area, summed over all walls */
  double water_c, air_c;
  double pump_heat_w; /* that part of the pumps' power which ends in the water */
  double lamp_heat_w; /* the same of the lamps */
} HeatBalance;

/**
 * heat_heater_power:
 * @ret_power_w: (out): what holds the water temperature: evaporation x latent heat + UA (water - air) - pump - lamp;
 *   negative: so much must be taken out by a chiller or a fan
 * Source: steady heat balance.
 */
HydraulicsStatus heat_heater_power (const HeatBalance *balance, double *ret_power_w);

typedef struct {
  double volume_m3, density_kg_m3, specific_heat_j_kgk;
  double start_c, end_c;
  double power_w; /* all heat put in; negative: taken out */
  double ua_w_k;  /* 0 or more */
  double air_c;
} WarmUp;

/**
 * heat_warm_up_time:
 * @ret_time_s: (out): time in which mixed water goes from start to end, from m c dT/dt = P - UA (T - air)
 * Returns: HYDRAULICS_NO_SOLUTION if the end is never reached with this power
 * Source: lumped heat balance in closed form.
 */
HydraulicsStatus heat_warm_up_time (const WarmUp *warm_up, double *ret_time_s);

/**
 * heat_energy_cost:
 * @power_w: 0 or more, while switched on
 * @hours_per_day: 0 to 24
 * @days: 0 or more
 * @price_per_kwh: 0 or more, in any currency
 * @ret_cost: (out): in the currency of the price
 * Source: definition; a kilowatt-hour is 3.6 MJ.
 */
HydraulicsStatus heat_energy_cost (double power_w, double hours_per_day, double days, double price_per_kwh,
                                   double *ret_cost);
