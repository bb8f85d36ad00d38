/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/quiet.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/constants.h"
#include "hydraulics/open_channel.h"

#include <glib.h>
#include <math.h>
#include <stdbool.h>

#define INCH_M         0.0254
#define US_GALLON_M3   (231.0 * INCH_M * INCH_M * INCH_M)
#define US_GPM_M3S     (US_GALLON_M3 / 60.0)
#define STACK_FILL_MAX (1.0 / 3.0)

/* Flow of a superficial Froude number of 1. */
static double
unit_froude_flow (double bore_m)
{
  return G_PI / 4.0 * bore_m * bore_m * sqrt (GRAVITY_M_S2 * bore_m);
}

HydraulicsStatus
quiet_froude_number (double bore_m, double flow_m3s, double *ret_froude)
{
  if (!argument_is_positive (bore_m) || !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (flow_m3s / unit_froude_flow (bore_m), ret_froude);
}

HydraulicsStatus
quiet_self_venting_flow (double bore_m, double number, QuietFroudeBasis basis, double *ret_flow_m3s)
{
  if (!argument_is_positive (bore_m) || !argument_is_not_negative (number))
    return HYDRAULICS_INVALID_ARGUMENT;

  switch (basis) {
  case QUIET_FROUDE_SUPERFICIAL:
    return answer_if_finite (number * unit_froude_flow (bore_m), ret_flow_m3s);
  case QUIET_FROUDE_J_STAR:
    return answer_if_finite (number * 4.0 / G_PI * unit_froude_flow (bore_m), ret_flow_m3s);
  case QUIET_FROUDE_BASIS_COUNT:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

HydraulicsStatus
quiet_self_venting_diameter (double flow_m3s, double froude, double *ret_bore_m)
{
  if (!argument_is_not_negative (flow_m3s) || !argument_is_positive (froude))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (pow (flow_m3s / (froude * unit_froude_flow (1.0)), 0.4), ret_bore_m);
}

HydraulicsStatus
quiet_stack_flow (double bore_m, double fill_ratio, double *ret_flow_m3s)
{
  if (!argument_is_positive (bore_m) || !argument_is_share (fill_ratio))
    return HYDRAULICS_INVALID_ARGUMENT;
  double gpm = 27.8 * pow (fill_ratio, 5.0 / 3.0) * pow (bore_m / INCH_M, 8.0 / 3.0);
  HydraulicsStatus status = answer_if_finite (gpm * US_GPM_M3S, ret_flow_m3s);
  /* A third given in decimals is still a third. */
  bool in_range = fill_ratio <= STACK_FILL_MAX * (1.0 + 1e-9);
  return status == HYDRAULICS_OK && !in_range ? HYDRAULICS_OUT_OF_RANGE : status;
}

static HydraulicsStatus
sloped_flow (const QuietSlopedRun *run, double *ret_flow_m3s)
{
  const OpenChannel channel = {
      .bore_m = run->bore_m, .slope = run->slope, .law = OPEN_CHANNEL_MANNING, .manning_n = run->manning_n};

  if (!(run->depth_ratio > 0.0))
    return HYDRAULICS_INVALID_ARGUMENT;
  return open_channel_flow (&channel, run->depth_ratio, ret_flow_m3s);
}

HydraulicsStatus
quiet_limit (double bore_m, double stack_fill, const QuietSlopedRun *runs, unsigned n_runs,
             QuietLimit *ret_limit)
{
  QuietLimit limit = {.kind = QUIET_LIMIT_SELF_VENTING, .sloped_m3s = INFINITY};

  if (!(stack_fill > 0.0))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = quiet_self_venting_flow (bore_m, QUIET_SELF_VENTING_FROUDE,
                                                     QUIET_FROUDE_SUPERFICIAL, &limit.self_venting_m3s);
  if (status == HYDRAULICS_OK)
    status = quiet_stack_flow (bore_m, stack_fill, &limit.stack_m3s);
  if (status != HYDRAULICS_OK)
    return status == HYDRAULICS_OUT_OF_RANGE ? HYDRAULICS_INVALID_ARGUMENT : status;

  limit.flow_m3s = limit.self_venting_m3s;
  if (limit.stack_m3s < limit.flow_m3s) {
    limit.flow_m3s = limit.stack_m3s;
    limit.kind = QUIET_LIMIT_STACK;
  }
  for (unsigned i = 0; i < n_runs; i++) {
    double flow_m3s = 0.0;
    status = sloped_flow (&runs[i], &flow_m3s);
    if (status != HYDRAULICS_OK)
      return status;
    limit.sloped_m3s = fmin (limit.sloped_m3s, flow_m3s);
    if (flow_m3s < limit.flow_m3s) {
      limit.flow_m3s = flow_m3s;
      limit.kind = QUIET_LIMIT_SLOPED_RUN;
      limit.run = i;
    }
  }
  *ret_limit = limit;
  return HYDRAULICS_OK;
}
