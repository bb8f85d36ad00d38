/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* The head curve of a pump without the checks of pump_head(), inline for the network. Not for use outside this folder. */

#include "hydraulics/monotone-cubic.h"
#include "hydraulics/pump.h"

#include <math.h>

/* A power law goes on as it is up to this multiple of its run-out flow, and along its tangent after. */
#define PUMP_POWER_LAW_REACH 2.0

/* Head at speed 1 for @flow >= 0 and its slope. */
static inline double
pump_curve_at (const PumpCurve *curve, double flow, double *ret_slope)
{
  if (curve->n_points == 0) {
    double at = fmin (flow, PUMP_POWER_LAW_REACH * curve->flow_at_end_m3s);
    double fall = curve->c == 2.0 ? curve->b * at * at : curve->b * pow (at, curve->c);
    double slope = at > 0.0 ? -curve->c * fall / at : 0.0;
    *ret_slope = slope;
    return curve->a - fall + slope * (flow - at);
  }

  guint last = curve->n_points - 1;
  double head;
  if (flow < curve->flow_m3s[0]) {
    *ret_slope = curve->slope_sm2[0];
    return curve->head_m[0] + curve->slope_sm2[0] * (flow - curve->flow_m3s[0]);
  }
  if (flow > curve->flow_m3s[last]) {
    double mean = (curve->head_m[last] - curve->head_m[0]) / (curve->flow_m3s[last] - curve->flow_m3s[0]);
    *ret_slope = fmin (curve->slope_sm2[last], mean);
    return curve->head_m[last] + *ret_slope * (flow - curve->flow_m3s[last]);
  }
  monotone_cubic_at (curve->n_points, curve->flow_m3s, curve->head_m, curve->slope_sm2, flow, &head,
                     ret_slope);
  return head;
}

/* The same of a pump that is off its curve by a factor in head or in flow, whichever makes it the stronger (the weaker,
 * below 1). */
static inline double
pump_curve_off (const PumpCurve *curve, double tolerance, double flow, double *ret_slope)
{
  if (tolerance == 1.0)
    return pump_curve_at (curve, flow, ret_slope);

  double slope_by_head, slope_by_flow;
  double by_head = tolerance * pump_curve_at (curve, flow, &slope_by_head),
         by_flow = pump_curve_at (curve, flow / tolerance, &slope_by_flow);
  bool head_decides = tolerance > 1.0 ? by_head > by_flow : by_head < by_flow;

  *ret_slope = head_decides ? tolerance * slope_by_head : slope_by_flow / tolerance;
  return head_decides ? by_head : by_flow;
}

/* As pump_head(), for valid arguments. */
static inline double
pump_curve_head (const PumpCurve *curve, double speed, double tolerance, double flow, double *ret_slope)
{
  double q = fabs (flow);

  if (speed <= 0.0) {
    double part = q / curve->flow_at_end_m3s;
    *ret_slope = -2.0 * tolerance * curve->a * part / curve->flow_at_end_m3s;
    return -copysign (tolerance * curve->a * part * part, flow);
  }
  double head = pump_curve_off (curve, tolerance, q / speed, ret_slope);
  *ret_slope *= speed;
  if (flow < 0.0)
    head = 2.0 * tolerance * curve->a - head;
  return speed * speed * head;
}
