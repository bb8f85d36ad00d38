/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Valves by opening; the functions stand in fitting.h. */

#include "hydraulics/fitting.h"

#include <math.h>

typedef struct {
  double closing; /* degrees, or eighths of the lift taken away */
  double k;
} Setting;

/* Weisbach's tables, as in Perry's Chemical Engineers' Handbook. */
static const Setting cock[] = {{0.0, 0.0},   {5.0, 0.05},   {10.0, 0.29},  {15.0, 0.75}, {20.0, 1.56},
                               {25.0, 3.10}, {30.0, 5.47},  {35.0, 9.68},  {40.0, 17.3}, {45.0, 31.2},
                               {50.0, 52.6}, {55.0, 106.0}, {60.0, 206.0}, {65.0, 486.0}};
static const Setting butterfly[] = {{0.0, 0.0},   {5.0, 0.24},  {10.0, 0.52},  {15.0, 0.90},  {20.0, 1.54},
                                    {25.0, 2.51}, {30.0, 3.91}, {35.0, 6.22},  {40.0, 10.8},  {45.0, 18.7},
                                    {50.0, 32.6}, {55.0, 58.8}, {60.0, 118.0}, {65.0, 256.0}, {70.0, 751.0}};
static const Setting gate[] = {{0.0, 0.0},  {1.0, 0.07}, {2.0, 0.26}, {3.0, 0.81},
                               {4.0, 2.06}, {5.0, 5.52}, {6.0, 17.0}, {7.0, 97.8}};

/* Where a cock of full bore is shut, degrees. */
#define COCK_SHUT_DEG 82.5

static double
in_table (const Setting *table, guint n, double closing)
{
  guint i = 0;

  while (i + 2 < n && closing > table[i + 1].closing)
    i++;
  double t = (closing - table[i].closing) / (table[i + 1].closing - table[i].closing);
  if (i == 0)
    return t * table[1].k;
  return table[i].k * pow (table[i + 1].k / table[i].k, t);
}

/* Beyond the tables the loss is that of the area that is left, as of an orifice: K ~ 1 / area^2. Two circles that part
 * leave a lens of area ~ distance^1.5; a disc that closes leaves 1 - sin. */
static double
cock_k (double angle)
{
  const Setting *last = &cock[G_N_ELEMENTS (cock) - 1];

  if (angle <= last->closing)
    return in_table (cock, G_N_ELEMENTS (cock), angle);
  if (angle >= COCK_SHUT_DEG)
    return INFINITY;
  double ratio = (COCK_SHUT_DEG - last->closing) / (COCK_SHUT_DEG - angle);
  return last->k * ratio * ratio * ratio;
}

static double
butterfly_k (double angle)
{
  const Setting *last = &butterfly[G_N_ELEMENTS (butterfly) - 1];
  const double radian = G_PI / 180.0;

  if (angle <= last->closing)
    return in_table (butterfly, G_N_ELEMENTS (butterfly), angle);
  if (angle >= 90.0)
    return INFINITY;
  double ratio = (1.0 - sin (last->closing * radian)) / (1.0 - sin (angle * radian));
  return last->k * ratio * ratio;
}

static double
gate_k (double opening)
{
  const Setting *last = &gate[G_N_ELEMENTS (gate) - 1];
  double eighths = 8.0 * (1.0 - opening);

  if (eighths <= last->closing)
    return in_table (gate, G_N_ELEMENTS (gate), eighths);
  if (opening <= 0.0)
    return INFINITY;
  return last->k * pow (0.125 / opening, 2.5);
}

HydraulicsStatus
valve_k_at_angle (ValveKind kind, double closing_angle_deg, double *ret_k)
{
  if (!isfinite (closing_angle_deg) || closing_angle_deg < 0.0 || closing_angle_deg > 90.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  switch (kind) {
  case VALVE_BALL:
    *ret_k = cock_k (closing_angle_deg);
    return HYDRAULICS_OK;
  case VALVE_BUTTERFLY:
    *ret_k = butterfly_k (closing_angle_deg);
    return HYDRAULICS_OK;
  case VALVE_GATE:
  case N_VALVE_KINDS:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

static double
closing_k (ValveKind kind, double opening)
{
  switch (kind) {
  case VALVE_GATE:
    return gate_k (opening);
  case VALVE_BALL:
    return cock_k (90.0 * (1.0 - opening));
  case VALVE_BUTTERFLY:
    return butterfly_k (90.0 * (1.0 - opening));
  case N_VALVE_KINDS:
    break;
  }
  return NAN;
}

static HydraulicsStatus
open_k (ValveKind kind, double bore_m, double *ret_k)
{
  static const FittingKind open_kinds[N_VALVE_KINDS] = {[VALVE_GATE] = FITTING_GATE_VALVE,
                                                        [VALVE_BALL] = FITTING_BALL_VALVE,
                                                        [VALVE_BUTTERFLY] = FITTING_BUTTERFLY_VALVE};

  if (kind >= N_VALVE_KINDS)
    return HYDRAULICS_INVALID_ARGUMENT;
  return fitting_k (open_kinds[kind], bore_m, 0.0, ret_k);
}

HydraulicsStatus
valve_k (ValveKind kind, double bore_m, double opening, double *ret_k)
{
  double open;

  if (!isfinite (opening) || opening < 0.0 || opening > 1.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = open_k (kind, bore_m, &open);
  if (status == HYDRAULICS_OK)
    *ret_k = open + closing_k (kind, opening);
  return status;
}

HydraulicsStatus
valve_opening_for_k (ValveKind kind, double bore_m, double k, double *ret_opening)
{
  double open;

  if (!isfinite (k) || k <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = open_k (kind, bore_m, &open);
  if (status != HYDRAULICS_OK)
    return status;
  if (k < open)
    return HYDRAULICS_NO_SOLUTION;

  /* K may be infinite at one end, so the sign is all that bisection can use. */
  double low = 0.0, high = 1.0;
  for (int i = 0; i < 60; i++) {
    double middle = 0.5 * (low + high);
    if (open + closing_k (kind, middle) > k)
      low = middle;
    else
      high = middle;
  }
  *ret_opening = high;
  return HYDRAULICS_OK;
}
