/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/fitting.h"

#include "hydraulics/argument.h"
#include "hydraulics/pipe.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

/* Sizes for which Crane's factors are used, m. */
#define BORE_LEAST_M 0.005
#define BORE_MOST_M  1.0

#define NUMBER_OF_KIND(member, key, number) [FITTING_##member] = (number),
static const double crane_factor[N_FITTING_KINDS] = {FITTING_CRANE_KINDS (NUMBER_OF_KIND)};
static const double fixed_k[N_FITTING_KINDS] = {FITTING_FIXED_KINDS (NUMBER_OF_KIND)};
#undef NUMBER_OF_KIND

#define KEY_OF_KIND_3(member, key, number) [FITTING_##member] = (key),
#define KEY_OF_KIND_2(member, key)         [FITTING_##member] = (key),
static const char *const keys[N_FITTING_KINDS] = {FITTING_CRANE_KINDS (KEY_OF_KIND_3) FITTING_FIXED_KINDS (
    KEY_OF_KIND_3) FITTING_SHAPED_KINDS (KEY_OF_KIND_2)};
#undef KEY_OF_KIND_2
#undef KEY_OF_KIND_3

typedef struct {
  double x, y;
} TablePoint;

/* Crane TP-410 (editions before 2009), f_T of 1/2, 3/4, 1, 1 1/4, 1 1/2, 2, 3, 4, 5, 6 and 8 inch, over the bore of
 * schedule 40 pipe, m. */
static const TablePoint friction_factors[] = {
    {0.0158, 0.027}, {0.0209, 0.025}, {0.0266, 0.023}, {0.0351, 0.022}, {0.0409, 0.021}, {0.0525, 0.019},
    {0.0779, 0.018}, {0.1023, 0.017}, {0.1282, 0.016}, {0.1541, 0.015}, {0.2027, 0.014}};

/* Crane TP-410, 90 degree pipe bends: n over r/d; and rounded entrances: K over r/d. */
static const TablePoint bend_factors[] = {{1.0, 20.0},  {1.5, 14.0},  {2.0, 12.0},  {3.0, 12.0},
                                          {4.0, 14.0},  {6.0, 17.0},  {8.0, 24.0},  {10.0, 30.0},
                                          {12.0, 34.0}, {14.0, 38.0}, {16.0, 42.0}, {20.0, 50.0}};
static const TablePoint rounded_entrances[] = {{0.0, 0.5},   {0.02, 0.28}, {0.04, 0.24},
                                               {0.06, 0.15}, {0.10, 0.09}, {0.15, 0.04}};

static double
on_straight_lines (const TablePoint *table, guint n, double x)
{
  guint i = 0;

  while (i + 2 < n && x > table[i + 1].x)
    i++;
  double t = fmin ((x - table[i].x) / (table[i + 1].x - table[i].x), 1.0);
  return table[i].y + t * (table[i + 1].y - table[i].y);
}

HydraulicsStatus
fitting_kind_from_key (const char *key, FittingKind *ret_kind)
{
  for (guint i = 0; i < N_FITTING_KINDS; i++) {
    if (strcmp (keys[i], key) == 0) {
      *ret_kind = (FittingKind) i;
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

const char *
fitting_kind_key (FittingKind kind)
{
  return kind < N_FITTING_KINDS ? keys[kind] : NULL;
}

/* 2 log10 (rr / 3.7), whose inverse square is the friction factor of fully rough flow; steel of 0.00015 ft. */
static double
rough_root (double bore_m)
{
  const double steel_roughness_m = 4.572e-5;

  return 2.0 * log10 (steel_roughness_m / (3.7 * bore_m));
}

HydraulicsStatus
fitting_turbulent_friction (double bore_m, double *ret_factor)
{
  if (!isfinite (bore_m) || bore_m <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  if (bore_m < BORE_LEAST_M || bore_m > BORE_MOST_M)
    return HYDRAULICS_OUT_OF_RANGE;
  const TablePoint *first = &friction_factors[0],
                   *last = &friction_factors[G_N_ELEMENTS (friction_factors) - 1];
  double inside = fmin (fmax (bore_m, first->x), last->x);
  double root = rough_root (bore_m), inside_root = rough_root (inside);
  *ret_factor = on_straight_lines (friction_factors, G_N_ELEMENTS (friction_factors), inside) *
                (inside_root * inside_root) / (root * root);
  return HYDRAULICS_OK;
}

static HydraulicsStatus
bend_k (double bore_m, double radius_to_bore, double *ret_k)
{
  double factor;

  if (!isfinite (radius_to_bore) || radius_to_bore < 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  if (radius_to_bore < bend_factors[0].x || radius_to_bore > bend_factors[G_N_ELEMENTS (bend_factors) - 1].x)
    return HYDRAULICS_OUT_OF_RANGE;
  HydraulicsStatus status = fitting_turbulent_friction (bore_m, &factor);
  if (status == HYDRAULICS_OK)
    *ret_k = on_straight_lines (bend_factors, G_N_ELEMENTS (bend_factors), radius_to_bore) * factor;
  return status;
}

HydraulicsStatus
fitting_k (FittingKind kind, double bore_m, double shape, double *ret_k)
{
  if (kind >= N_FITTING_KINDS)
    return HYDRAULICS_INVALID_ARGUMENT;
  if (crane_factor[kind] > 0.0) {
    double factor;
    HydraulicsStatus status = fitting_turbulent_friction (bore_m, &factor);
    if (status == HYDRAULICS_OK)
      *ret_k = crane_factor[kind] * factor;
    return status;
  }
  if (kind == FITTING_BEND_90)
    return bend_k (bore_m, shape, ret_k);
  if (kind == FITTING_ENTRANCE_ROUNDED || kind == FITTING_USER) {
    if (!isfinite (shape) || shape < 0.0)
      return HYDRAULICS_INVALID_ARGUMENT;
    *ret_k = kind == FITTING_USER
                 ? shape
                 : on_straight_lines (rounded_entrances, G_N_ELEMENTS (rounded_entrances), shape);
    return HYDRAULICS_OK;
  }
  *ret_k = fixed_k[kind];
  return HYDRAULICS_OK;
}

HydraulicsStatus
fitting_k_by_nominal (FittingKind kind, double nominal, double shape, double *ret_k)
{
  PipeDimensions size;
  HydraulicsStatus status = pipe_size (PIPE_ASTM_D1785_SCHEDULE_40, nominal, &size);

  return status == HYDRAULICS_OK ? fitting_k (kind, size.bore_m, shape, ret_k) : status;
}

HydraulicsStatus
fitting_turbulent_friction_by_nominal (double nominal, double *ret_factor)
{
  PipeDimensions size;
  HydraulicsStatus status = pipe_size (PIPE_ASTM_D1785_SCHEDULE_40, nominal, &size);

  return status == HYDRAULICS_OK ? fitting_turbulent_friction (size.bore_m, ret_factor) : status;
}

HydraulicsStatus
fitting_rounded_entrance_k (double radius_m, double bore_m, double *ret_k)
{
  if (!isfinite (bore_m) || bore_m <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  return fitting_k (FITTING_ENTRANCE_ROUNDED, bore_m, radius_m / bore_m, ret_k);
}

HydraulicsStatus
fitting_k_on_bore (double k, double bore_m, double other_bore_m, double *ret_k)
{
  if (!isfinite (k) || !argument_is_positive (bore_m) || !argument_is_positive (other_bore_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  double ratio2 = (other_bore_m / bore_m) * (other_bore_m / bore_m);
  *ret_k = k * ratio2 * ratio2;
  return HYDRAULICS_OK;
}

/* (small / large)^2, or NaN unless both are positive and in order. */
static double
area_ratio (double small_m, double large_m)
{
  if (!argument_is_positive (small_m) || !argument_is_positive (large_m) || small_m > large_m)
    return NAN;
  return (small_m / large_m) * (small_m / large_m);
}

/* The end of every relation on this page: a number, or a value that was not possible. */
static HydraulicsStatus
answer (double k, double *ret_k)
{
  if (!isfinite (k))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_k = k;
  return HYDRAULICS_OK;
}

HydraulicsStatus
fitting_expansion_k (double small_m, double large_m, double *ret_k)
{
  double rest = 1.0 - area_ratio (small_m, large_m);

  return answer (rest * rest, ret_k);
}

HydraulicsStatus
fitting_contraction_k (double large_m, double small_m, double *ret_k)
{
  return answer (0.5 * (1.0 - area_ratio (small_m, large_m)), ret_k);
}

HydraulicsStatus
fitting_reducer_k (double from_m, double to_m, double cone_angle_deg, double *ret_k)
{
  if (!argument_is_positive (cone_angle_deg) || cone_angle_deg > 180.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  double rest = 1.0 - area_ratio (fmin (from_m, to_m), fmax (from_m, to_m));
  double half_sine = sin (cone_angle_deg * G_PI / 360.0);
  if (from_m > to_m)
    return answer ((cone_angle_deg <= 45.0 ? 0.8 * half_sine : 0.5 * sqrt (half_sine)) * rest, ret_k);
  return answer ((cone_angle_deg <= 45.0 ? 2.6 * half_sine : 1.0) * rest * rest, ret_k);
}

static bool
is_discharge_coefficient (double coefficient)
{
  return argument_is_positive (coefficient) && coefficient <= 1.0;
}

HydraulicsStatus
fitting_orifice_k (double orifice_m, double bore_m, double discharge_coefficient, double *ret_k)
{
  double b2 = area_ratio (orifice_m, bore_m), c = discharge_coefficient;

  if (!is_discharge_coefficient (c))
    return HYDRAULICS_INVALID_ARGUMENT;
  double root = sqrt (1.0 - b2 * b2 * (1.0 - c * c)) / (c * b2) - 1.0;
  return answer (root * root, ret_k);
}

HydraulicsStatus
fitting_nozzle_k (double nozzle_m, double bore_m, double discharge_coefficient, double *ret_k)
{
  if (!is_discharge_coefficient (discharge_coefficient))
    return HYDRAULICS_INVALID_ARGUMENT;
  double effective = discharge_coefficient * area_ratio (nozzle_m, bore_m);
  return answer (1.0 / (effective * effective), ret_k);
}

HydraulicsStatus
fitting_screen_k (double open_fraction, double *ret_k)
{
  if (!argument_is_positive (open_fraction) || open_fraction > 1.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  double root = (0.707 * sqrt (1.0 - open_fraction) + 1.0 - open_fraction) / open_fraction;
  return answer (root * root, ret_k);
}
