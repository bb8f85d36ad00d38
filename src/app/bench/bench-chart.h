/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The chart of pumps and loop as a widget. It is filled anew as a whole, from begin to end; arrays are copied. Signal
 * "chosen" (int: index of the curve) when a curve is clicked. Its picture is said in words by its description. */
#pragma once

#include <gtk/gtk.h>

#include "app/bench/bench-figures.h"
#include "app/common/theme.h"
#include "drawing/chart.h"

#define DOWNCOMER_TYPE_BENCH_CHART (bench_chart_get_type ())
G_DECLARE_FINAL_TYPE (BenchChart, bench_chart, DOWNCOMER, BENCH_CHART, GtkWidget)

/* The colours follow the theme; without one they are those of the light ground. */
void bench_chart_set_theme (BenchChart *chart, Theme *theme);
Theme *bench_chart_get_theme (BenchChart *chart);

void bench_chart_begin (BenchChart *chart, const NumberStyle *style);
/* Adds a curve and returns its index, or -1 where it has no points or there is no more room. The duty point may be NAN. */
int bench_chart_add (BenchChart *chart, ChartCurveKind kind, const char *name, const BenchCurve *curve,
                     double duty_flow_m3s, double duty_head_m);
void bench_chart_set_limits (BenchChart *chart, double drain_limit_m3s, double target_low_m3s,
                             double target_high_m3s);
/* `chosen` is drawn wide, -1 for none. */
void bench_chart_end (BenchChart *chart, int chosen, const char *description);

unsigned bench_chart_n_curves (BenchChart *chart);
