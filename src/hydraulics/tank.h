/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* How much water stands in a box of panes. */

#include "hydraulics/status.h"

typedef struct {
  double outside_length_m, outside_width_m, outside_height_m;
  double pane_thickness_m; /* of the four sides */
  double
      bottom_thickness_m; /* the bottom pane lies between or under the sides: the floor of the water is this high */
} TankBox;

/**
 * tank_water_volume:
 * @box: outside sizes above 0, thicknesses 0 or more and leaving room for water
 * @fill_height_m: from the underside of the bottom pane to the surface
 * @ret_volume_m3: (out): (L - 2t)(W - 2t)(fill - bottom); nothing is taken off for rock, sand or devices
 * Returns: HYDRAULICS_OUT_OF_RANGE for a surface over the upper edge or under the bottom pane
 */
HydraulicsStatus tank_water_volume (const TankBox *box, double fill_height_m, double *ret_volume_m3);
