/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Several pipes in one box: each sees the same level, their flows add up. */

#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/drain.h"

#include <math.h>
#include <stddef.h>

/* How far from a level that is known a new one is looked for before the whole range is. */
#define NEAR_M 0.04

typedef struct {
  const DrainBranch *branches;
  unsigned n_branches;
  const Fluid *water;
} Box;

HydraulicsStatus
drain_branches_flow (const DrainBranch *branches, unsigned n_branches, const Fluid *water, double box_level_m,
                     DrainShares *ret_shares)
{
  DrainShares shares = {.total_m3s = 0.0};

  if (n_branches == 0 || !isfinite (box_level_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (n_branches > DRAIN_BRANCHES_MAX)
    return HYDRAULICS_TOO_LARGE;
  for (unsigned i = 0; i < n_branches; i++) {
    if (branches[i].shut)
      continue;
    HydraulicsStatus status = drain_flow (&branches[i].pipe, water, branches[i].primed, box_level_m,
                                          &shares.share_m3s[i], &shares.regime[i]);
    if (status != HYDRAULICS_OK)
      return status;
    shares.total_m3s += shares.share_m3s[i];
  }
  *ret_shares = shares;
  return HYDRAULICS_OK;
}

static HydraulicsStatus
total_relation (double level_m, const void *data, double *ret_flow_m3s)
{
  const Box *box = data;
  DrainShares shares;
  HydraulicsStatus status =
      drain_branches_flow (box->branches, box->n_branches, box->water, level_m, &shares);

  if (status == HYDRAULICS_OK)
    *ret_flow_m3s = shares.total_m3s;
  return status;
}

/* The lowest level at which one open branch would carry the whole flow alone; infinite if all are shut. */
static HydraulicsStatus
lowest_level (const Box *box, double flow_m3s, double *ret_level_m)
{
  double lowest_m = INFINITY;

  for (unsigned i = 0; i < box->n_branches; i++) {
    const DrainBranch *branch = &box->branches[i];
    double level_m = INFINITY;
    if (branch->shut)
      continue;
    HydraulicsStatus status =
        drain_level (&branch->pipe, box->water, branch->primed, flow_m3s, &level_m, NULL);
    if (status != HYDRAULICS_OK)
      return status;
    lowest_m = fmin (lowest_m, level_m);
  }
  *ret_level_m = lowest_m;
  return HYDRAULICS_OK;
}

static HydraulicsStatus
level_from_afar (const Box *box, double flow_m3s, double *ret_level_m)
{
  double low_m = INFINITY, high_m = INFINITY;
  HydraulicsStatus status = lowest_level (box, 0.0, &low_m);

  if (status == HYDRAULICS_OK)
    status = lowest_level (box, flow_m3s, &high_m);
  if (status != HYDRAULICS_OK)
    return status;
  if (!isfinite (low_m))
    return HYDRAULICS_NO_SOLUTION;
  /* One branch alone carries the flow at the upper end; a rounding step higher it surely does. */
  high_m += 1e-12 * (1.0 + fabs (high_m));
  return bracket_invert (total_relation, box, flow_m3s, low_m, high_m, ret_level_m);
}

HydraulicsStatus
drain_branches_level (const DrainBranch *branches, unsigned n_branches, const Fluid *water, double flow_m3s,
                      double near_m, double *ret_level_m, DrainShares *ret_shares)
{
  const Box box = {branches, n_branches, water};
  HydraulicsStatus status = HYDRAULICS_NO_SOLUTION;
  double level_m = NAN;
  DrainShares shares;

  if (n_branches == 0 || !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (n_branches > DRAIN_BRANCHES_MAX)
    return HYDRAULICS_TOO_LARGE;
  /* Without flow any level below the lips would do. */
  if (isfinite (near_m) && flow_m3s > 0.0)
    status = bracket_near (total_relation, &box, flow_m3s, near_m, NEAR_M, &level_m);
  if (status != HYDRAULICS_OK)
    status = level_from_afar (&box, flow_m3s, &level_m);
  if (status == HYDRAULICS_OK)
    status = drain_branches_flow (branches, n_branches, water, level_m, &shares);
  if (status != HYDRAULICS_OK)
    return status;
  *ret_level_m = level_m;
  if (ret_shares != NULL)
    *ret_shares = shares;
  return HYDRAULICS_OK;
}
