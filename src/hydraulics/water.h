/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Properties of fresh and sea water at one standard atmosphere: what it weighs, how it flows, how it evaporates.
 * Temperatures are in degC (ITS-90), salinities in g of dissolved salt per kg of solution (TEOS-10 Absolute Salinity).
 *
 * Common to all functions here: the range is 0 to 40 degC and 0 to 45 g/kg. Outside it they return
 * HYDRAULICS_OUT_OF_RANGE and no number; HYDRAULICS_INVALID_ARGUMENT for NaN, infinity or a negative salinity. */

#include "hydraulics/status.h"

#define WATER_TEMPERATURE_MIN_C 0.0
#define WATER_TEMPERATURE_MAX_C 40.0
#define WATER_SALINITY_MAX_G_KG 45.0

/**
 * water_density:
 * @ret_density_kg_m3: (out): mass of solution per volume
 * Source: UNESCO EOS-80 at atmospheric pressure (Technical Papers in Marine Science 44, 1983), fed with t68 =
 *   1.00024 t90 and practical salinity = 35/35.16504 x Absolute Salinity. Against TEOS-10 (gsw) and IAPWS-95 within 2e-5
 *   over the whole range, though the source itself ends at practical salinity 42.
 */
HydraulicsStatus water_density (double temperature_c, double salinity_g_kg, double *ret_density_kg_m3);

/**
 * water_dynamic_viscosity:
 * @ret_viscosity_pa_s: (out): dynamic viscosity
 * Source: fresh water by IAPWS SR6-08 (2011), liquid water at 0.1 MPa, which agrees with IAPWS R12-08 within 1e-4; the
 *   factor of the salt by Sharqawy, Lienhard & Zubair, Desalination and Water Treatment 16 (2010), Eq. 22: stated 1.5 %.
 */
HydraulicsStatus water_dynamic_viscosity (double temperature_c, double salinity_g_kg,
                                          double *ret_viscosity_pa_s);

/**
 * water_specific_heat:
 * @ret_specific_heat_j_kgk: (out): isobaric, per kg of solution
 * Source: Millero, Perron & Desnoyers 1973 as UNESCO Technical Papers in Marine Science 44 (1983) prints it. Within
 *   0.13 % of TEOS-10 (gsw) over the range.
 */
HydraulicsStatus water_specific_heat (double temperature_c, double salinity_g_kg,
                                      double *ret_specific_heat_j_kgk);

/**
 * water_vapour_pressure:
 * @ret_pressure_pa: (out): saturation pressure over the liquid, without the small enhancement by air
 * Source: IAPWS R7-97 (IF97) region 4, Eq. 30; lowered by salt after Nayar, Sharqawy, Banchik & Lienhard, Desalination
 *   390 (2016), quoted from memory; its water activity is within 6e-4 of TEOS-10 (gsw) over the range.
 */
HydraulicsStatus water_vapour_pressure (double temperature_c, double salinity_g_kg, double *ret_pressure_pa);

/* Air that a room or a conservatory can have, degC. */
#define WATER_AIR_MIN_C (-20.0)
#define WATER_AIR_MAX_C 60.0

/**
 * water_saturation_pressure:
 * @air_c: WATER_AIR_MIN_C to WATER_AIR_MAX_C
 * @ret_pressure_pa: (out): saturation pressure of fresh water in air of that temperature, Pa, for its humidity
 * Returns: HYDRAULICS_OUT_OF_RANGE (no output) outside that range
 * Source: as water_vapour_pressure(); below 0 degC the same equation goes on over supercooled water, which is up to 25 Pa
 *   more than over ice: under 1 % of what drives evaporation.
 */
HydraulicsStatus water_saturation_pressure (double air_c, double *ret_pressure_pa);

/**
 * water_latent_heat:
 * @ret_latent_heat_j_kg: (out): heat taken by each kg of water that evaporates
 * Source: Sharqawy, Lienhard & Zubair 2010, Eq. 37 (a fit to IAPWS-95, within 6e-5 here). Per kg of vapour, so their
 *   factor (1 - S) has no place; the remaining effect of salt is below 0.15 % (gsw) and left out.
 */
HydraulicsStatus water_latent_heat (double temperature_c, double salinity_g_kg, double *ret_latent_heat_j_kg);

/**
 * water_surface_tension:
 * @ret_tension_n_m: (out): against air, of clean water; oils and food lower it
 * Source: IAPWS R1-76 (2014); the factor of the salt by Nayar, Panchanathan, McKinley & Lienhard, J. Phys. Chem. Ref.
 *   Data 43 (2014), quoted from memory.
 */
HydraulicsStatus water_surface_tension (double temperature_c, double salinity_g_kg, double *ret_tension_n_m);

/**
 * water_salt_mass:
 * @volume_m3: of the finished solution, 0 or more
 * @ret_salt_kg: (out): dry dissolved salt = volume x density x salinity; a salt mix holds crystal water and moisture on
 *   top of this
 * Source: definition of salinity, with water_density().
 */
HydraulicsStatus water_salt_mass (double volume_m3, double temperature_c, double salinity_g_kg,
                                  double *ret_salt_kg);

/**
 * water_mass:
 * @volume_m3: 0 or more
 * @density_kg_m3: above 0
 * @ret_mass_kg: (out): volume x density
 */
HydraulicsStatus water_mass (double volume_m3, double density_kg_m3, double *ret_mass_kg);

/* All properties of one water, for callers that need several. */
typedef struct {
  double density_kg_m3;
  double dynamic_viscosity_pa_s;
  double specific_heat_j_kgk;
  double vapour_pressure_pa;
  double latent_heat_j_kg;
  double surface_tension_n_m;
} Water;

/**
 * water_properties:
 * @ret_water: (out): every property above at this temperature and salinity
 */
HydraulicsStatus water_properties (double temperature_c, double salinity_g_kg, Water *ret_water);
