/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Openings below the surface, slots that reach it, and V-notches: flow at a head and head at a flow. */

#include "hydraulics/status.h"

/**
 * orifice_discharge:
 * @discharge_coefficient: 0 to 1, about 0.61 for a sharp edge (USBR Water Measurement Manual, chapter 9)
 * @area_m2: of the opening, > 0
 * @head_m: surface over the centre of a free opening, or difference of levels across a drowned one; 0 or more
 * @ret_flow_m3s: (out): Cd A sqrt(2 g h) (Torricelli; USBR Water Measurement Manual, chapter 9)
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus orifice_discharge (double discharge_coefficient, double area_m2, double head_m,
                                    double *ret_flow_m3s);

/**
 * orifice_head:
 * The inverse of orifice_discharge(): @ret_head_m for @flow_m3s, 0 or more.
 * Returns: OK; NO_SOLUTION for a flow through a coefficient of 0; INVALID_ARGUMENT
 */
HydraulicsStatus orifice_head (double discharge_coefficient, double area_m2, double flow_m3s,
                               double *ret_head_m);

/**
 * slot_discharge:
 * @discharge_coefficient: 0 to 1
 * @width_m: > 0
 * @head_top_m: surface over the upper edge; negative counts as 0: the slot runs as a weir
 * @head_bottom_m: surface over the lower edge, at least @head_top_m, 0 or more
 * @ret_flow_m3s: (out): (2/3) Cd b sqrt(2g) (h2^1.5 - h1^1.5), the strips of the opening each under its own
 *   head
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus slot_discharge (double discharge_coefficient, double width_m, double head_top_m,
                                 double head_bottom_m, double *ret_flow_m3s);

typedef enum {
  NOTCH_KINDSVATER_SHEN, /* full angle 20 to 100 degrees */
  NOTCH_CONE,            /* 90 degrees only */
  NOTCH_FORMULA_COUNT
} NotchFormula;

/**
 * notch_discharge:
 * @formula: Kindsvater-Shen: (8/15) Ce sqrt(2g) tan(angle/2) (h + kh)^2.5 with Ce and kh by the usual fits
 *   in degrees (Shen, USGS WSP 1617-B; ISO 1438), kh brought smoothly to zero below 3 mm as in
 *   weir_discharge(); cone: 2.49 h^2.48 in feet (USBR Water Measurement Manual, chapter 7)
 * @angle_deg: full angle of the notch, degrees, more than 0 and less than 180
 * @head_m: surface over the point of the notch, 0 or more
 * @ret_flow_m3s: (out): flow, m3/s
 * Returns: OK; OUT_OF_RANGE with a value outside 20 to 100 degrees, without one for a cone of another angle
 *   than 90; INVALID_ARGUMENT
 */
HydraulicsStatus notch_discharge (NotchFormula formula, double angle_deg, double head_m,
                                  double *ret_flow_m3s);

/**
 * notch_head:
 * The inverse of notch_discharge(): @ret_head_m for @flow_m3s, 0 or more.
 * Returns: as notch_discharge(); OUT_OF_RANGE without a value above 1000 m of head
 */
HydraulicsStatus notch_head (NotchFormula formula, double angle_deg, double flow_m3s, double *ret_head_m);
