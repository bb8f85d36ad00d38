/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* loss_curve_head() without its checks, inline for the network. Not for use outside this folder. */

#include "hydraulics/fitting.h"
#include "hydraulics/monotone-cubic.h"

#include <math.h>

static inline double
loss_curve_at (const LossCurve *curve, double flow, double *ret_slope)
{
  guint last = curve->n_points - 1;
  double q = fabs (flow), end = curve->flow_m3s[last], head;

  if (q <= end) {
    monotone_cubic_at (curve->n_points, curve->flow_m3s, curve->head_m, curve->slope_sm2, q, &head,
                       ret_slope);
  } else {
    double over = q - end, bend = curve->head_m[last] / (end * end);
    head = curve->head_m[last] + over * (curve->slope_sm2[last] + bend * over);
    *ret_slope = curve->slope_sm2[last] + 2.0 * bend * over;
  }
  return copysign (head, flow);
}
