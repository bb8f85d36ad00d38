/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Losses of tees by the split of flow, and laying lengths; the functions stand in fitting.h. */

#include "hydraulics/fitting.h"

#include <math.h>
#include <stdbool.h>

/* Everything a leg's K depends on: share of the branch in the combined flow, (branch / run)^2 of the bores, angle. */
typedef struct {
  double share, area, angle;
} TeeState;

/* Angles at which Crane's F is tabulated: 1.74, 1.41, 1, 0 at 30, 45, 60 and 90 degrees. */
static double
converging_f (double angle)
{
  if (angle <= 45.0)
    return 1.74 + (angle - 30.0) / 15.0 * (1.41 - 1.74);
  if (angle <= 60.0)
    return 1.41 + (angle - 45.0) / 15.0 * (1.0 - 1.41);
  return 1.0 - (angle - 60.0) / 30.0;
}

/* Crane's factors jump at some shares of the branch. A flow that settles there would find no rest, so the new value is
 * reached on a straight line over the next hundredth of the share. */
static double
over_a_jump (double share, double jump, double before, double after)
{
  double part = (share - jump) / 0.01;

  return part <= 0.0 ? before : part >= 1.0 ? after : before + part * (after - before);
}

static double
converging_branch (const TeeState *t)
{
  double c = t->area <= 0.35 ? 1.0 : over_a_jump (t->share, 0.4, 0.9 * (1.0 - t->share), 0.55);
  double fast = t->share / t->area, rest = 1.0 - t->share;

  return c *
         (1.0 + fast * fast - 2.0 * rest * rest - converging_f (t->angle) / t->area * t->share * t->share);
}

static double
converging_run (const TeeState *t)
{
  double rest = 1.0 - t->share;

  if (t->angle >= 75.0)
    return 1.55 * t->share - t->share * t->share;
  return 1.0 - rest * rest - converging_f (t->angle) / t->area * t->share * t->share;
}

static double
diverging_g (const TeeState *t)
{
  if (t->angle >= 75.0)
    return t->area <= 2.0 / 3.0 ? 1.0 : 1.0 + 0.3 * t->share * t->share;
  if (t->area <= 0.35)
    return over_a_jump (t->share, 0.4, 1.1 - 0.7 * t->share, 0.85);
  return over_a_jump (t->share, 0.6, 1.0 - 0.6 * t->share, 0.6);
}

static double
diverging_branch (const TeeState *t)
{
  double fast = t->share / t->area;

  if (t->angle < 60.0 || t->area <= 4.0 / 9.0)
    return diverging_g (t) * (1.0 + fast * fast - 2.0 * fast * cos (t->angle * G_PI / 180.0));
  return diverging_g (t) * (1.0 + 0.3 * fast * fast);
}

static double
diverging_run (const TeeState *t)
{
  double m = t->area <= 0.4    ? 0.4
             : t->share <= 0.5 ? 2.0 * (2.0 * t->share - 1.0)
                               : 0.3 * (2.0 * t->share - 1.0);

  return m * t->share * t->share;
}

HydraulicsStatus
tee_k (TeeFlow flow, double run_m, double branch_m, double run_flow_m3s, double branch_flow_m3s,
       double angle_deg, TeeLoss *ret_loss)
{
  double combined = run_flow_m3s + branch_flow_m3s, ratio = branch_m / run_m;

  if (!isfinite (ratio) || !isfinite (combined) || !isfinite (angle_deg) || run_m <= 0.0 || branch_m <= 0.0 ||
      ratio > 2.0 || run_flow_m3s < 0.0 || branch_flow_m3s < 0.0 || combined <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  if (angle_deg < 30.0 || angle_deg > 90.0)
    return HYDRAULICS_OUT_OF_RANGE;
  TeeState state = {branch_flow_m3s / combined, ratio * ratio, angle_deg};
  switch (flow) {
  case TEE_DIVERGING:
    *ret_loss = (TeeLoss){diverging_run (&state), diverging_branch (&state)};
    return HYDRAULICS_OK;
  case TEE_CONVERGING:
    *ret_loss = (TeeLoss){converging_run (&state), converging_branch (&state)};
    return HYDRAULICS_OK;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

typedef struct {
  double nominal;
  double length[N_LAYING_SHAPES];
} LayingRow;

/* Least G, J and N of ASTM D2466 and D2467, inch; from memory. */
static const LayingRow inch_rows[] = {
    {0.5, {0.500, 0.250, 0.094}},  {0.75, {0.563, 0.313, 0.094}}, {1.0, {0.688, 0.313, 0.094}},
    {1.25, {0.844, 0.375, 0.094}}, {1.5, {0.969, 0.438, 0.094}},  {2.0, {1.219, 0.625, 0.094}},
    {2.5, {1.469, 0.688, 0.188}},  {3.0, {1.844, 0.750, 0.188}},  {4.0, {2.313, 1.000, 0.188}},
};

/* Z lengths of the ISO series, mm; from memory. */
static const LayingRow metric_rows[] = {
    {20.0, {11.0, 5.0, 3.0}},  {25.0, {13.5, 6.0, 3.0}},  {32.0, {17.0, 7.5, 3.0}},
    {40.0, {21.0, 9.5, 3.0}},  {50.0, {26.0, 11.5, 3.0}}, {63.0, {32.5, 14.0, 3.0}},
    {75.0, {38.5, 16.5, 4.0}}, {90.0, {46.0, 19.5, 5.0}}, {110.0, {56.0, 23.5, 6.0}},
};

HydraulicsStatus
fitting_laying_length (SocketSeries series, LayingShape shape, double nominal, double *ret_length_m)
{
  bool metric = series == SOCKET_ISO_727_PVC_U;
  const LayingRow *rows = metric ? metric_rows : inch_rows;
  guint n = metric ? G_N_ELEMENTS (metric_rows) : G_N_ELEMENTS (inch_rows);

  if (series >= N_SOCKET_SERIES || shape >= N_LAYING_SHAPES || !isfinite (nominal))
    return HYDRAULICS_INVALID_ARGUMENT;
  for (guint i = 0; i < n; i++) {
    if (fabs (rows[i].nominal - nominal) <= 1e-6) {
      *ret_length_m = rows[i].length[shape] * (metric ? 1e-3 : 0.0254);
      return HYDRAULICS_OK;
    }
  }
  return HYDRAULICS_OUT_OF_RANGE;
}
