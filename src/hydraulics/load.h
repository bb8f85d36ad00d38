/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* What water does to a panel and weight to a floor. Advice only: structure and floor are checked by a licensed person,
 * and local codes govern. HYDRAULICS_INVALID_ARGUMENT for NaN, infinity or a sign that the quantity cannot have. */

#include "hydraulics/status.h"

/* A vertical rectangle under water. */
typedef struct {
  double width_m;
  double height_m;
  double top_depth_m; /* of its upper edge under the surface, 0 or more */
} WettedPanel;

/**
 * load_hydrostatic_force:
 * @density_kg_m3: of the water, above 0
 * @ret_force_n: (out): rho g (top + h/2) w h, gauge, at right angles to the panel
 * Source: hydrostatics; pressure grows linearly with depth.
 */
HydraulicsStatus load_hydrostatic_force (const WettedPanel *panel, double density_kg_m3, double *ret_force_n);

/**
 * load_centre_of_pressure:
 * @ret_depth_m: (out): depth under the surface at which the force acts: yc + h2/(12 yc), yc = top + h/2
 * Source: hydrostatics: first over second moment of the wetted rectangle about the surface line.
 */
HydraulicsStatus load_centre_of_pressure (double top_depth_m, double height_m, double *ret_depth_m);

/**
 * load_floor_pressure:
 * @mass_kg: 0 or more
 * @area_m2: that really bears, above 0: the feet, not the outline, unless a plate spreads the weight
 * @ret_pressure_pa: (out): m g / A, g = 9.80665 m/s2
 * Source: definition.
 */
HydraulicsStatus load_floor_pressure (double mass_kg, double area_m2, double *ret_pressure_pa);
