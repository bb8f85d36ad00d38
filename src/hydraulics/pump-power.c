/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/constants.h"
#include "hydraulics/pump.h"

#include <math.h>
#include <string.h>

HydraulicsStatus
pump_hydraulic_power (double flow_m3s, double head_m, double density_kgm3, double *ret_power_w)
{
  double power = density_kgm3 * GRAVITY_M_S2 * flow_m3s * head_m;

  if (!isfinite (power) || !isfinite (density_kgm3) || density_kgm3 <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_power_w = power;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_shaft_power (double flow_m3s, double head_m, double density_kgm3, double efficiency, double *ret_power_w)
{
  double hydraulic;

  if (!isfinite (efficiency) || efficiency <= 0.0 || efficiency > 1.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = pump_hydraulic_power (flow_m3s, head_m, density_kgm3, &hydraulic);
  if (status != HYDRAULICS_OK)
    return status;
  *ret_power_w = hydraulic / efficiency;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_efficiency_estimate (double mains_power_w, double *ret_efficiency)
{
  const double small_w = 10.0, large_w = 1000.0, small_efficiency = 0.15, large_efficiency = 0.50;

  if (!isfinite (mains_power_w) || mains_power_w <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  double part = log (fmin (fmax (mains_power_w, small_w), large_w) / small_w) / log (large_w / small_w);
  *ret_efficiency = small_efficiency + part * (large_efficiency - small_efficiency);
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_npsh_available (double surface_pressure_pa, double vapour_pressure_pa, double density_kgm3,
                     double surface_above_pump_m, double suction_loss_m, double *ret_npsh_m)
{
  double npsh = (surface_pressure_pa - vapour_pressure_pa) / (density_kgm3 * GRAVITY_M_S2) +
                surface_above_pump_m - suction_loss_m;

  if (!isfinite (npsh) || density_kgm3 <= 0.0 || surface_pressure_pa < 0.0 || vapour_pressure_pa < 0.0 ||
      suction_loss_m < 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_npsh_m = npsh;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_suction_cover (double flow_m3s, double mouth_m, double *ret_cover_m)
{
  if (!isfinite (flow_m3s) || flow_m3s <= 0.0 || !isfinite (mouth_m) || mouth_m <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  double velocity = flow_m3s / (G_PI_4 * mouth_m * mouth_m);
  double cover = mouth_m * (1.0 + 2.3 * velocity / sqrt (GRAVITY_M_S2 * mouth_m));
  if (!isfinite (cover))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_cover_m = cover;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_grade_from_key (const char *key, PumpGrade *ret_grade)
{
#define GRADE_KEY(member, key, flow_up, flow_down, head_up, head_down) key,
  static const char *const keys[] = {PUMP_GRADES (GRADE_KEY)};
#undef GRADE_KEY

  for (guint i = 0; i < N_PUMP_GRADES; i++) {
    if (strcmp (keys[i], key) == 0) {
      *ret_grade = (PumpGrade) i;
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

HydraulicsStatus
pump_grade_band (PumpGrade grade, PumpBand *ret_band)
{
#define GRADE_BAND(member, key, flow_up, flow_down, head_up, head_down)                                      \
  {flow_up, flow_down, head_up, head_down},
  static const PumpBand bands[] = {PUMP_GRADES (GRADE_BAND)};
#undef GRADE_BAND

  if (grade >= N_PUMP_GRADES)
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_band = bands[grade];
  return HYDRAULICS_OK;
}
