/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench-curve.h"

#include "design/curve.h"
#include "hydraulics/pump.h"

bool
bench_curve_through (const char *points, BenchCurve *ret_curve)
{
  CurvePoints given;
  PumpCurve curve;

  if (!curve_read (points, &given) ||
      pump_curve_from_points (given.n, given.flow_m3s, given.head_m, &curve) != HYDRAULICS_OK)
    return false;
  ret_curve->n = BENCH_POINTS;
  for (unsigned i = 0; i < BENCH_POINTS; i++) {
    PumpHead head = {0};

    ret_curve->flow_m3s[i] = curve.flow_at_end_m3s * i / (BENCH_POINTS - 1);
    pump_head (&curve, 1, 1, ret_curve->flow_m3s[i], &head);
    ret_curve->head_m[i] = head.head_m;
  }
  return true;
}
