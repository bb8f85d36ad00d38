/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A curve of a chart as plain arrays. */
#pragma once

#include <stdbool.h>

#define BENCH_POINTS 97

typedef struct {
  unsigned n;
  double flow_m3s[BENCH_POINTS], head_m[BENCH_POINTS];
} BenchCurve;

/* The curve through canonical points at full speed, as the solver takes it; false where they are no curve. */
bool bench_curve_through (const char *points, BenchCurve *ret_curve);
