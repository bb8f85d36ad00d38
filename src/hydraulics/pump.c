/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/pump.h"

#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/pump-curve.h"

static bool
points_are_valid (guint n_points, const double *flow_m3s, const double *head_m)
{
  if (n_points < 2 || n_points > PUMP_POINTS_MAX)
    return false;
  for (guint i = 0; i < n_points; i++) {
    if (!isfinite (flow_m3s[i]) || !isfinite (head_m[i]) || flow_m3s[i] < 0.0 || head_m[i] < 0.0)
      return false;
    if (i > 0 && (flow_m3s[i] <= flow_m3s[i - 1] || head_m[i] > head_m[i - 1]))
      return false;
  }
  return head_m[n_points - 1] < head_m[0];
}

HydraulicsStatus
pump_curve_from_points (guint n_points, const double *flow_m3s, const double *head_m, PumpCurve *ret_curve)
{
  if (!points_are_valid (n_points, flow_m3s, head_m))
    return HYDRAULICS_INVALID_ARGUMENT;

  PumpCurve curve = {
      .kind = PUMP_CURVE_POINTS, .n_points = n_points, .flow_at_end_m3s = flow_m3s[n_points - 1]};
  for (guint i = 0; i < n_points; i++) {
    curve.flow_m3s[i] = flow_m3s[i];
    curve.head_m[i] = head_m[i];
  }
  monotone_cubic_slopes (n_points, flow_m3s, head_m, curve.slope_sm2);
  curve.a = head_m[0] - curve.slope_sm2[0] * flow_m3s[0];
  *ret_curve = curve;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_curve_from_power_law (double a, double b, double c, PumpCurve *ret_curve)
{
  if (!argument_is_positive (a) || !argument_is_positive (b) || !isfinite (c) || c < 0.5 || c > 5.0)
    return HYDRAULICS_INVALID_ARGUMENT;

  double end = pow (a / b, 1.0 / c);
  if (!argument_is_positive (end))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_curve = (PumpCurve){.kind = PUMP_CURVE_POWER_LAW, .a = a, .b = b, .c = c, .flow_at_end_m3s = end};
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_curve_from_three_points (const double flow_m3s[3], const double head_m[3], PumpCurve *ret_curve)
{
  if (!points_are_valid (3, flow_m3s, head_m) || flow_m3s[0] != 0.0 || head_m[1] >= head_m[0] ||
      head_m[2] >= head_m[1])
    return HYDRAULICS_INVALID_ARGUMENT;

  double c = log ((head_m[0] - head_m[1]) / (head_m[0] - head_m[2])) / log (flow_m3s[1] / flow_m3s[2]);
  if (!isfinite (c) || c < 0.5 || c > 5.0)
    return HYDRAULICS_OUT_OF_RANGE;
  return pump_curve_from_power_law (head_m[0], (head_m[0] - head_m[1]) / pow (flow_m3s[1], c), c, ret_curve);
}

HydraulicsStatus
pump_curve_estimate (double shutoff_head_m, double largest_flow_m3s, PumpCurve *ret_curve)
{
  if (!argument_is_positive (shutoff_head_m) || !argument_is_positive (largest_flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;

  PumpCurve curve;
  HydraulicsStatus status = pump_curve_from_power_law (
      shutoff_head_m, shutoff_head_m / (largest_flow_m3s * largest_flow_m3s), 2.0, &curve);
  if (status != HYDRAULICS_OK)
    return status;
  curve.kind = PUMP_CURVE_ESTIMATE;
  *ret_curve = curve;
  return HYDRAULICS_OK;
}

/* OK and OUT_OF_RANGE are both followed by an answer; a speed of 0 only where @rest_is_allowed. */
static HydraulicsStatus
judge_speed (double speed, bool rest_is_allowed)
{
  if (!isfinite (speed) || speed < 0.0 || (speed <= 0.0 && !rest_is_allowed))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (speed > 0.0 && (speed < PUMP_SPEED_MIN || speed > PUMP_SPEED_MAX))
    return HYDRAULICS_OUT_OF_RANGE;
  return HYDRAULICS_OK;
}

static PumpRange
range_of (const PumpCurve *curve, double speed, double tolerance, double flow)
{
  if (flow > curve->flow_at_end_m3s * speed * tolerance)
    return PUMP_BEYOND_CURVE;
  if (flow < 0.0 || (curve->n_points > 0 && flow < curve->flow_m3s[0] * speed))
    return PUMP_BELOW_CURVE;
  return PUMP_ON_CURVE;
}

HydraulicsStatus
pump_head (const PumpCurve *curve, double speed, double tolerance, double flow_m3s, PumpHead *ret_head)
{
  HydraulicsStatus status = judge_speed (speed, true);

  if (status == HYDRAULICS_INVALID_ARGUMENT || !argument_is_positive (tolerance) || !isfinite (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  PumpHead head = {.range = range_of (curve, speed, tolerance, flow_m3s)};
  head.head_m = pump_curve_head (curve, speed, tolerance, flow_m3s, &head.slope_sm2);
  if (!isfinite (head.head_m) || !isfinite (head.slope_sm2))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_head = head;
  return status;
}

typedef struct {
  const PumpCurve *curve;
  double speed, tolerance;
} ReadyPump;

/* The head with its sign turned, so that it never falls with the flow. */
static HydraulicsStatus
negative_head_at_flow (double flow, const void *data, double *ret_value)
{
  const ReadyPump *pump = data;
  double slope;

  *ret_value = -pump_curve_head (pump->curve, pump->speed, pump->tolerance, flow, &slope);
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_flow_at_head (const PumpCurve *curve, double speed, double tolerance, double head_m,
                   double *ret_flow_m3s)
{
  HydraulicsStatus status = judge_speed (speed, true);
  ReadyPump pump = {curve, speed, tolerance};
  double at_rest = 0.0, at_high = 0.0, flow = 0.0;

  if (status == HYDRAULICS_INVALID_ARGUMENT || !argument_is_positive (tolerance) || !isfinite (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  negative_head_at_flow (0.0, &pump, &at_rest);
  if (-at_rest < head_m)
    return HYDRAULICS_NO_SOLUTION;
  if (-at_rest > head_m) {
    double high = curve->flow_at_end_m3s * fmax (speed, PUMP_SPEED_MIN);
    for (int i = 0;
         i < 400 && negative_head_at_flow (high, &pump, &at_high) == HYDRAULICS_OK && at_high < -head_m; i++)
      high *= 2.0;
    HydraulicsStatus found = bracket_invert (negative_head_at_flow, &pump, -head_m, 0.0, high, &flow);
    if (found != HYDRAULICS_OK)
      return found;
  }
  *ret_flow_m3s = flow;
  return status;
}

static HydraulicsStatus
scale_by_speed (double value, double speed, double factor, double *ret_value)
{
  HydraulicsStatus status = judge_speed (speed, false);

  if (status == HYDRAULICS_INVALID_ARGUMENT || !isfinite (value) || !isfinite (value * factor))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_value = value * factor;
  return status;
}

HydraulicsStatus
pump_affinity_flow (double flow_m3s, double speed, double *ret_flow_m3s)
{
  return scale_by_speed (flow_m3s, speed, speed, ret_flow_m3s);
}

HydraulicsStatus
pump_affinity_head (double head_m, double speed, double *ret_head_m)
{
  return scale_by_speed (head_m, speed, speed * speed, ret_head_m);
}

HydraulicsStatus
pump_affinity_power (double shaft_power_w, double speed, double *ret_power_w)
{
  return scale_by_speed (shaft_power_w, speed, speed * speed * speed, ret_power_w);
}
