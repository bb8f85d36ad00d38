/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/tank.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"

HydraulicsStatus
tank_water_volume (const TankBox *box, double fill_height_m, double *ret_volume_m3)
{
  double inside_length_m = box->outside_length_m - 2.0 * box->pane_thickness_m;
  double inside_width_m = box->outside_width_m - 2.0 * box->pane_thickness_m;

  if (!argument_is_not_negative (box->pane_thickness_m) ||
      !argument_is_not_negative (box->bottom_thickness_m) || !argument_is_positive (inside_length_m) ||
      !argument_is_positive (inside_width_m) ||
      !argument_is_positive (box->outside_height_m - box->bottom_thickness_m) || !isfinite (fill_height_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (fill_height_m < box->bottom_thickness_m || fill_height_m > box->outside_height_m)
    return HYDRAULICS_OUT_OF_RANGE;
  return answer_if_finite (inside_length_m * inside_width_m * (fill_height_m - box->bottom_thickness_m),
                           ret_volume_m3);
}
