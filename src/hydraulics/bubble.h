/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* How fast air bubbles rise and grains settle in still water: whether a bubble trap holds what the drain brings down.
 * Diameters are those of the sphere of equal volume; the air weighs 1.2 kg/m3. Real bubbles scatter by 10 to 20 %.
 * HYDRAULICS_INVALID_ARGUMENT for NaN, infinity, or what is not above 0. */

#include "hydraulics/status.h"

typedef struct {
  double density_kg_m3;
  double dynamic_viscosity_pa_s;
  double surface_tension_n_m; /* not used by settling grains */
} BubbleWater;

typedef enum {
  BUBBLE_STOKES,              /* g drho d2 / (18 mu), contaminated, Reynolds number below 1 */
  BUBBLE_HADAMARD_RYBCZYNSKI, /* g drho d2 / (12 mu), clean, Reynolds number below 1 */
  BUBBLE_RIGID_SPHERE,        /* standard drag of a sphere, contaminated, up to 0.5 mm */
  BUBBLE_GRACE,               /* contaminated and wobbling, group H above 2 and Eotvos number below 40 */
  BUBBLE_MENDELSON,           /* sqrt (2 sigma / (rho d) + g d / 2), clean, above 1.3 mm */
  BUBBLE_SPHERICAL_CAP,       /* 0.711 sqrt (g d drho / rho), Eotvos number above 40 */
  N_BUBBLE_FORMULAS
} BubbleFormula;

/**
 * bubble_rise_velocity:
 * @formula: one relation by name
 * @diameter_m: above 0
 * @ret_velocity_m_s: (out): terminal velocity of one bubble, upwards
 * Returns: HYDRAULICS_OUT_OF_RANGE with the number outside the validity noted at the formula; without one for
 *   BUBBLE_GRACE below H = 2, where it tends to a negative velocity
 * Source: Clift, Grace & Weber, Bubbles, Drops, and Particles (1978): chapter 3, Eqs. 7-4 to 7-7 and 8-11; the drag of
 *   the sphere by Cheng, Powder Technology 189 (2009); Mendelson, AIChE Journal 13 (1967), from memory.
 */
HydraulicsStatus bubble_rise_velocity (BubbleFormula formula, double diameter_m, const BubbleWater *water,
                                       double *ret_velocity_m_s);

/**
 * bubble_tank_rise_velocity:
 * @diameter_m: above 0
 * @ret_velocity_m_s: (out): rise in the water of an aquarium, never clean: rigid sphere, then BUBBLE_GRACE from H = 2 on,
 *   then spherical cap from Eotvos number 40. Continuous at the first joint: the sphere's rise is held at the value with
 *   which BUBBLE_GRACE begins, some 13 % below it
 */
HydraulicsStatus bubble_tank_rise_velocity (double diameter_m, const BubbleWater *water,
                                            double *ret_velocity_m_s);

/**
 * bubble_smallest_held:
 * @down_velocity_m_s: of the water in the chamber, above 0
 * @ret_diameter_m: (out): smallest bubble that still rises against it, by bubble_tank_rise_velocity()
 * Returns: HYDRAULICS_NO_SOLUTION if even wobbling bubbles of some 3 mm are carried down
 */
HydraulicsStatus bubble_smallest_held (double down_velocity_m_s, const BubbleWater *water,
                                       double *ret_diameter_m);

/**
 * settling_velocity:
 * @diameter_m: of a smooth sphere, above 0
 * @grain_density_kg_m3: above 0
 * @ret_velocity_m_s: (out): terminal velocity downwards; negative if the grain is lighter than the water
 * Returns: HYDRAULICS_OUT_OF_RANGE with the number above a Reynolds number of 200,000
 * Source: force balance with the drag of Cheng, Powder Technology 189 (2009).
 */
HydraulicsStatus settling_velocity (double diameter_m, double grain_density_kg_m3, const BubbleWater *water,
                                    double *ret_velocity_m_s);
