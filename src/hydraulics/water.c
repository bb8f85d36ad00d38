/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/water.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/constants.h"

/* EOS-80 was written for the temperature scale of 1968 and for practical salinity. */
#define T68_PER_T90                     1.00024
#define PRACTICAL_PER_ABSOLUTE_SALINITY (35.0 / 35.16504)

/* Critical temperature of water, K (IAPWS R2-83). */
#define CRITICAL_TEMPERATURE_K 647.096

static HydraulicsStatus
check_range (double temperature_c, double salinity_g_kg)
{
  if (!isfinite (temperature_c) || !argument_is_not_negative (salinity_g_kg))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (temperature_c < WATER_TEMPERATURE_MIN_C || temperature_c > WATER_TEMPERATURE_MAX_C ||
      salinity_g_kg > WATER_SALINITY_MAX_G_KG)
    return HYDRAULICS_OUT_OF_RANGE;
  return HYDRAULICS_OK;
}

static double
density (double t68, double s)
{
  double pure = 999.842594 +
                t68 * (6.793952e-2 +
                       t68 * (-9.095290e-3 + t68 * (1.001685e-4 + t68 * (-1.120083e-6 + t68 * 6.536332e-9))));
  double a = 8.24493e-1 + t68 * (-4.0899e-3 + t68 * (7.6438e-5 + t68 * (-8.2467e-7 + t68 * 5.3875e-9)));
  double b = -5.72466e-3 + t68 * (1.0227e-4 - t68 * 1.6546e-6);

  return pure + s * (a + b * sqrt (s) + 4.8314e-4 * s);
}

static double
dynamic_viscosity (double t, double s)
{
  double reduced = (t + CELSIUS_ZERO_K) / 300.0;
  double fresh = 1e-6 * (280.68 * pow (reduced, -1.9) + 511.45 * pow (reduced, -7.7) +
                         61.131 * pow (reduced, -19.6) + 0.45903 * pow (reduced, -40.0));
  double a = 1.541 + t * (1.998e-2 - t * 9.52e-5);
  double b = 7.974 + t * (-7.561e-2 + t * 4.724e-4);
  double share = 1e-3 * s;

  return fresh * (1.0 + share * (a + b * share));
}

static double
specific_heat (double t68, double s)
{
  double pure = 4217.4 + t68 * (-3.720283 + t68 * (0.1412855 + t68 * (-2.654387e-3 + t68 * 2.093236e-5)));
  double a = -7.643575 + t68 * (0.1072763 - t68 * 1.38385e-3);
  double b = 0.1770383 + t68 * (-4.07718e-3 + t68 * 5.148e-5);

  return pure + s * (a + b * sqrt (s));
}

static double
vapour_pressure (double t, double s)
{
  double kelvin = t + CELSIUS_ZERO_K;
  double v = kelvin - 0.23855557567849 / (kelvin - 0.65017534844798e3);
  double a = v * v + 0.11670521452767e4 * v - 0.72421316703206e6;
  double b = -0.17073846940092e2 * v * v + 0.12020824702470e5 * v - 0.32325550322333e7;
  double c = 0.14915108613530e2 * v * v - 0.48232657361591e4 * v + 0.40511340542057e6;
  double fresh = 1e6 * pow (2.0 * c / (sqrt (b * b - 4.0 * a * c) - b), 4.0);

  return fresh * exp (-s * (4.5818e-4 + 2.0443e-6 * s));
}

static double
latent_heat (double t)
{
  return 2.501e6 + t * (-2.369e3 + t * (2.678e-1 + t * (-8.103e-3 - t * 2.079e-5)));
}

static double
surface_tension (double t, double s)
{
  double distance = 1.0 - (t + CELSIUS_ZERO_K) / CRITICAL_TEMPERATURE_K;
  double fresh = 0.2358 * pow (distance, 1.256) * (1.0 - 0.625 * distance);

  return fresh * (1.0 + s * (3.766e-4 + 2.347e-6 * t));
}

HydraulicsStatus
water_properties (double temperature_c, double salinity_g_kg, Water *ret_water)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);
  double t68 = T68_PER_T90 * temperature_c;
  double practical = PRACTICAL_PER_ABSOLUTE_SALINITY * salinity_g_kg;

  if (status != HYDRAULICS_OK)
    return status;
  *ret_water = (Water){
      .density_kg_m3 = density (t68, practical),
      .dynamic_viscosity_pa_s = dynamic_viscosity (temperature_c, salinity_g_kg),
      .specific_heat_j_kgk = specific_heat (t68, practical),
      .vapour_pressure_pa = vapour_pressure (temperature_c, salinity_g_kg),
      .latent_heat_j_kg = latent_heat (temperature_c),
      .surface_tension_n_m = surface_tension (temperature_c, salinity_g_kg),
  };
  return HYDRAULICS_OK;
}

HydraulicsStatus
water_density (double temperature_c, double salinity_g_kg, double *ret_density_kg_m3)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);

  if (status == HYDRAULICS_OK)
    *ret_density_kg_m3 =
        density (T68_PER_T90 * temperature_c, PRACTICAL_PER_ABSOLUTE_SALINITY * salinity_g_kg);
  return status;
}

HydraulicsStatus
water_dynamic_viscosity (double temperature_c, double salinity_g_kg, double *ret_viscosity_pa_s)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);

  if (status == HYDRAULICS_OK)
    *ret_viscosity_pa_s = dynamic_viscosity (temperature_c, salinity_g_kg);
  return status;
}

HydraulicsStatus
water_specific_heat (double temperature_c, double salinity_g_kg, double *ret_specific_heat_j_kgk)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);

  if (status == HYDRAULICS_OK)
    *ret_specific_heat_j_kgk =
        specific_heat (T68_PER_T90 * temperature_c, PRACTICAL_PER_ABSOLUTE_SALINITY * salinity_g_kg);
  return status;
}

HydraulicsStatus
water_vapour_pressure (double temperature_c, double salinity_g_kg, double *ret_pressure_pa)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);

  if (status == HYDRAULICS_OK)
    *ret_pressure_pa = vapour_pressure (temperature_c, salinity_g_kg);
  return status;
}

HydraulicsStatus
water_saturation_pressure (double air_c, double *ret_pressure_pa)
{
  if (!isfinite (air_c))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (air_c < WATER_AIR_MIN_C || air_c > WATER_AIR_MAX_C)
    return HYDRAULICS_OUT_OF_RANGE;
  *ret_pressure_pa = vapour_pressure (air_c, 0);
  return HYDRAULICS_OK;
}

HydraulicsStatus
water_latent_heat (double temperature_c, double salinity_g_kg, double *ret_latent_heat_j_kg)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);

  if (status == HYDRAULICS_OK)
    *ret_latent_heat_j_kg = latent_heat (temperature_c);
  return status;
}

HydraulicsStatus
water_surface_tension (double temperature_c, double salinity_g_kg, double *ret_tension_n_m)
{
  HydraulicsStatus status = check_range (temperature_c, salinity_g_kg);

  if (status == HYDRAULICS_OK)
    *ret_tension_n_m = surface_tension (temperature_c, salinity_g_kg);
  return status;
}

HydraulicsStatus
water_salt_mass (double volume_m3, double temperature_c, double salinity_g_kg, double *ret_salt_kg)
{
  double density_kg_m3 = 0.0;

  if (!argument_is_not_negative (volume_m3))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = water_density (temperature_c, salinity_g_kg, &density_kg_m3);
  if (status != HYDRAULICS_OK)
    return status;
  return answer_if_finite (volume_m3 * density_kg_m3 * 1e-3 * salinity_g_kg, ret_salt_kg);
}

HydraulicsStatus
water_mass (double volume_m3, double density_kg_m3, double *ret_mass_kg)
{
  if (!argument_is_not_negative (volume_m3) || !argument_is_positive (density_kg_m3))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (volume_m3 * density_kg_m3, ret_mass_kg);
}
