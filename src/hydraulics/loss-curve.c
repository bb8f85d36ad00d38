/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Losses of devices by points; the functions stand in fitting.h. */

#include "hydraulics/loss-curve.h"

HydraulicsStatus
loss_curve_from_points (guint n_points, const double *flow_m3s, const double *head_m, LossCurve *ret_curve)
{
  LossCurve curve = {.n_points = n_points + 1};

  if (n_points < 1 || n_points >= LOSS_POINTS_MAX)
    return HYDRAULICS_INVALID_ARGUMENT;
  for (guint i = 0; i < n_points; i++) {
    curve.flow_m3s[i + 1] = flow_m3s[i];
    curve.head_m[i + 1] = head_m[i];
    if (!isfinite (flow_m3s[i]) || !isfinite (head_m[i]) || flow_m3s[i] <= curve.flow_m3s[i] ||
        head_m[i] <= curve.head_m[i])
      return HYDRAULICS_INVALID_ARGUMENT;
  }
  if (n_points == 1)
    curve.slope_sm2[1] = 2.0 * head_m[0] / flow_m3s[0];
  else
    monotone_cubic_slopes (curve.n_points, curve.flow_m3s, curve.head_m, curve.slope_sm2);
  *ret_curve = curve;
  return HYDRAULICS_OK;
}

HydraulicsStatus
loss_curve_head (const LossCurve *curve, double flow_m3s, double *ret_head_m, double *ret_slope_sm2)
{
  double slope;

  if (!isfinite (flow_m3s) || curve->n_points < 2 || curve->n_points > LOSS_POINTS_MAX)
    return HYDRAULICS_INVALID_ARGUMENT;
  double head = loss_curve_at (curve, flow_m3s, &slope);
  if (!isfinite (head) || !isfinite (slope))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_head_m = head;
  *ret_slope_sm2 = slope;
  return fabs (flow_m3s) > curve->flow_m3s[curve->n_points - 1] ? HYDRAULICS_OUT_OF_RANGE : HYDRAULICS_OK;
}
