/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/load.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/constants.h"

HydraulicsStatus
load_hydrostatic_force (const WettedPanel *panel, double density_kg_m3, double *ret_force_n)
{
  if (!argument_is_not_negative (panel->width_m) || !argument_is_not_negative (panel->height_m) ||
      !argument_is_not_negative (panel->top_depth_m) || !argument_is_positive (density_kg_m3))
    return HYDRAULICS_INVALID_ARGUMENT;
  double centroid_m = panel->top_depth_m + 0.5 * panel->height_m;
  return answer_if_finite (density_kg_m3 * GRAVITY_M_S2 * centroid_m * panel->width_m * panel->height_m,
                           ret_force_n);
}

HydraulicsStatus
load_centre_of_pressure (double top_depth_m, double height_m, double *ret_depth_m)
{
  if (!argument_is_not_negative (top_depth_m) || !argument_is_positive (height_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  double centroid_m = top_depth_m + 0.5 * height_m;
  return answer_if_finite (centroid_m + height_m / 12.0 * (height_m / centroid_m), ret_depth_m);
}

HydraulicsStatus
load_floor_pressure (double mass_kg, double area_m2, double *ret_pressure_pa)
{
  if (!argument_is_not_negative (mass_kg) || !argument_is_positive (area_m2))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (mass_kg * GRAVITY_M_S2 / area_m2, ret_pressure_pa);
}
