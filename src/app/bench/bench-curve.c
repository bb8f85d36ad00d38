/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/bench-curve.h"

#include "solver/system.h"

bool
bench_curve_through (const char *points, BenchCurve *ret_curve)
{
  PumpCurve curve;

  if (!solver_pump_curve (points, &curve))
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
