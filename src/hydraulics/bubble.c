/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/bubble.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/constants.h"

#include <stddef.h>

#define AIR_DENSITY_KG_M3     1.2
#define CREEPING_REYNOLDS_MAX 1.0
#define DRAG_REYNOLDS_MAX     2e5
#define RIGID_SPHERE_MAX_M    0.5e-3
#define MENDELSON_MIN_M       1.3e-3
#define CAP_EOTVOS_MIN        40.0
#define GRACE_H_MIN           2.0
#define GRACE_H_BREAK         59.3
#define GRACE_VISCOSITY_PA_S  0.0009
#define CAP_FACTOR            0.711
#define HELD_SURELY           1e-12 /* so much larger than by rounding */

static bool
water_is_sound (const BubbleWater *water)
{
  return argument_is_positive (water->density_kg_m3) && argument_is_positive (water->dynamic_viscosity_pa_s);
}

static bool
water_bears_bubbles (const BubbleWater *water)
{
  return water_is_sound (water) && argument_is_positive (water->surface_tension_n_m) &&
         water->density_kg_m3 > AIR_DENSITY_KG_M3;
}

static double
reynolds_number (double velocity_m_s, double diameter_m, const BubbleWater *water)
{
  return velocity_m_s * diameter_m * water->density_kg_m3 / water->dynamic_viscosity_pa_s;
}

static double
eotvos_number (double diameter_m, const BubbleWater *water)
{
  return GRAVITY_M_S2 * (water->density_kg_m3 - AIR_DENSITY_KG_M3) * diameter_m * diameter_m /
         water->surface_tension_n_m;
}

static double
morton_number (const BubbleWater *water)
{
  return GRAVITY_M_S2 * pow (water->dynamic_viscosity_pa_s, 4.0) *
         (water->density_kg_m3 - AIR_DENSITY_KG_M3) /
         (pow (water->density_kg_m3, 2.0) * pow (water->surface_tension_n_m, 3.0));
}

/* Cd Re2 of a rigid sphere. */
static double
sphere_drag (double reynolds)
{
  return 24.0 * reynolds * pow (1.0 + 0.27 * reynolds, 0.43) +
         0.47 * reynolds * reynolds * (1.0 - exp (-0.04 * pow (reynolds, 0.38)));
}

static HydraulicsStatus
drag_relation (double reynolds, const void *data, double *ret_value)
{
  *ret_value = sphere_drag (reynolds);
  return HYDRAULICS_OK;
}

/* Velocity of a rigid sphere under the buoyancy of @difference_kg_m3 (above 0). The force balance says Cd Re2 = 4/3 Ar.
 * Its left side grows with Re and is never below 24 Re, so the root lies between 0 and the Reynolds number of Stokes. */
static double
sphere_velocity (double diameter_m, double difference_kg_m3, const BubbleWater *water, double *ret_reynolds)
{
  double archimedes = GRAVITY_M_S2 * difference_kg_m3 * water->density_kg_m3 * pow (diameter_m, 3.0) /
                      pow (water->dynamic_viscosity_pa_s, 2.0);
  double reynolds = NAN;

  bracket_invert (drag_relation, NULL, 4.0 / 3.0 * archimedes, 0.0, archimedes / 18.0, &reynolds);
  *ret_reynolds = reynolds;
  return reynolds * water->dynamic_viscosity_pa_s / (water->density_kg_m3 * diameter_m);
}

/* Re3 / (Cd Re2), which grows with Re: the square of Re over 24 and more where the drag is more than that of Stokes. */
static HydraulicsStatus
swiftness_relation (double reynolds, const void *data, double *ret_value)
{
  *ret_value = reynolds > 0.0 ? reynolds * reynolds * reynolds / sphere_drag (reynolds) : 0.0;
  return HYDRAULICS_OK;
}

/* Diameter of the rigid sphere that has a velocity: the force balance without the diameter. Infinite where it would be past
 * the drag law. */
static double
sphere_diameter (double velocity_m_s, double difference_kg_m3, const BubbleWater *water)
{
  double swiftness = pow (water->density_kg_m3, 2.0) * pow (velocity_m_s, 3.0) /
                     (4.0 / 3.0 * GRAVITY_M_S2 * difference_kg_m3 * water->dynamic_viscosity_pa_s);
  double reynolds = NAN;

  if (bracket_invert (swiftness_relation, NULL, swiftness, 0.0, DRAG_REYNOLDS_MAX, &reynolds) !=
      HYDRAULICS_OK)
    return INFINITY;
  return reynolds * water->dynamic_viscosity_pa_s / (water->density_kg_m3 * velocity_m_s);
}

static double
grace_group (double diameter_m, const BubbleWater *water)
{
  return 4.0 / 3.0 * eotvos_number (diameter_m, water) * pow (morton_number (water), -0.149) *
         pow (water->dynamic_viscosity_pa_s / GRACE_VISCOSITY_PA_S, -0.14);
}

/* The diameter at which Grace's group has a given value: the group grows with the square of the diameter. */
static double
grace_diameter (double group, const BubbleWater *water)
{
  return sqrt (group / grace_group (1.0, water));
}

static double
grace_velocity (double diameter_m, const BubbleWater *water)
{
  double h = grace_group (diameter_m, water);
  double j = h <= GRACE_H_BREAK ? 0.94 * pow (h, 0.757) : 3.42 * pow (h, 0.441);

  return water->dynamic_viscosity_pa_s / (water->density_kg_m3 * diameter_m) *
         pow (morton_number (water), -0.149) * (j - 0.857);
}

static double
cap_velocity (double diameter_m, const BubbleWater *water)
{
  double relative = (water->density_kg_m3 - AIR_DENSITY_KG_M3) / water->density_kg_m3;

  return CAP_FACTOR * sqrt (GRAVITY_M_S2 * diameter_m * relative);
}

static double
creeping_velocity (double diameter_m, const BubbleWater *water, double factor)
{
  return GRAVITY_M_S2 * (water->density_kg_m3 - AIR_DENSITY_KG_M3) * diameter_m * diameter_m /
         (factor * water->dynamic_viscosity_pa_s);
}

/* Gives the number and says whether the relation was made for it. */
static HydraulicsStatus
answer_within (double velocity_m_s, bool inside, double *ret_velocity_m_s)
{
  HydraulicsStatus status = answer_if_finite (velocity_m_s, ret_velocity_m_s);

  return status == HYDRAULICS_OK && !inside ? HYDRAULICS_OUT_OF_RANGE : status;
}

HydraulicsStatus
bubble_rise_velocity (BubbleFormula formula, double diameter_m, const BubbleWater *water,
                      double *ret_velocity_m_s)
{
  double velocity_m_s = 0.0, reynolds = 0.0;

  if (!argument_is_positive (diameter_m) || !water_bears_bubbles (water))
    return HYDRAULICS_INVALID_ARGUMENT;
  switch (formula) {
  case BUBBLE_STOKES:
  case BUBBLE_HADAMARD_RYBCZYNSKI:
    velocity_m_s = creeping_velocity (diameter_m, water, formula == BUBBLE_STOKES ? 18.0 : 12.0);
    reynolds = reynolds_number (velocity_m_s, diameter_m, water);
    return answer_within (velocity_m_s, reynolds < CREEPING_REYNOLDS_MAX, ret_velocity_m_s);
  case BUBBLE_RIGID_SPHERE:
    velocity_m_s = sphere_velocity (diameter_m, water->density_kg_m3 - AIR_DENSITY_KG_M3, water, &reynolds);
    return answer_within (velocity_m_s, diameter_m <= RIGID_SPHERE_MAX_M, ret_velocity_m_s);
  case BUBBLE_GRACE:
    if (!(grace_group (diameter_m, water) > GRACE_H_MIN))
      return HYDRAULICS_OUT_OF_RANGE;
    return answer_within (grace_velocity (diameter_m, water),
                          eotvos_number (diameter_m, water) < CAP_EOTVOS_MIN, ret_velocity_m_s);
  case BUBBLE_MENDELSON:
    velocity_m_s = sqrt (2.0 * water->surface_tension_n_m / (water->density_kg_m3 * diameter_m) +
                         0.5 * GRAVITY_M_S2 * diameter_m);
    return answer_within (velocity_m_s, diameter_m >= MENDELSON_MIN_M, ret_velocity_m_s);
  case BUBBLE_SPHERICAL_CAP:
    return answer_within (cap_velocity (diameter_m, water),
                          eotvos_number (diameter_m, water) >= CAP_EOTVOS_MIN, ret_velocity_m_s);
  case N_BUBBLE_FORMULAS:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

HydraulicsStatus
bubble_tank_rise_velocity (double diameter_m, const BubbleWater *water, double *ret_velocity_m_s)
{
  double reynolds = 0.0;

  if (!argument_is_positive (diameter_m) || !water_bears_bubbles (water))
    return HYDRAULICS_INVALID_ARGUMENT;
  double wobbling_from_m = grace_diameter (GRACE_H_MIN, water);
  if (diameter_m < wobbling_from_m) {
    double sphere_m_s =
        sphere_velocity (diameter_m, water->density_kg_m3 - AIR_DENSITY_KG_M3, water, &reynolds);
    return answer_if_finite (fmin (sphere_m_s, grace_velocity (wobbling_from_m, water)), ret_velocity_m_s);
  }
  if (eotvos_number (diameter_m, water) < CAP_EOTVOS_MIN)
    return answer_if_finite (grace_velocity (diameter_m, water), ret_velocity_m_s);
  return answer_if_finite (cap_velocity (diameter_m, water), ret_velocity_m_s);
}

static HydraulicsStatus
wobbling_relation (double diameter_m, const void *data, double *ret_velocity_m_s)
{
  *ret_velocity_m_s = grace_velocity (diameter_m, data);
  return HYDRAULICS_OK;
}

HydraulicsStatus
bubble_smallest_held (double down_velocity_m_s, const BubbleWater *water, double *ret_diameter_m)
{
  if (!argument_is_positive (down_velocity_m_s) || !water_bears_bubbles (water))
    return HYDRAULICS_INVALID_ARGUMENT;
  /* The rise grows with the diameter up to the break of Grace's curve and is nowhere faster below the caps. */
  double wobbling_from_m = grace_diameter (GRACE_H_MIN, water);
  double break_m = grace_diameter (GRACE_H_BREAK, water);
  if (!isfinite (break_m) || !(down_velocity_m_s <= grace_velocity (break_m, water)))
    return HYDRAULICS_NO_SOLUTION;
  double held_m = INFINITY;
  if (down_velocity_m_s <= grace_velocity (wobbling_from_m, water))
    held_m = fmin (sphere_diameter (down_velocity_m_s, water->density_kg_m3 - AIR_DENSITY_KG_M3, water),
                   wobbling_from_m);
  else
    bracket_invert (wobbling_relation, water, down_velocity_m_s, wobbling_from_m, break_m, &held_m);
  return answer_if_finite (held_m * (1.0 + HELD_SURELY), ret_diameter_m);
}

HydraulicsStatus
settling_velocity (double diameter_m, double grain_density_kg_m3, const BubbleWater *water,
                   double *ret_velocity_m_s)
{
  double reynolds = 0.0;

  if (!argument_is_positive (diameter_m) || !argument_is_positive (grain_density_kg_m3) ||
      !water_is_sound (water))
    return HYDRAULICS_INVALID_ARGUMENT;
  double difference_kg_m3 = grain_density_kg_m3 - water->density_kg_m3;
  if (difference_kg_m3 == 0.0) {
    *ret_velocity_m_s = 0.0;
    return HYDRAULICS_OK;
  }
  double speed_m_s = sphere_velocity (diameter_m, fabs (difference_kg_m3), water, &reynolds);
  return answer_within (copysign (speed_m_s, difference_kg_m3), reynolds <= DRAG_REYNOLDS_MAX,
                        ret_velocity_m_s);
}
