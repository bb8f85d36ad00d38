/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Shared by chart.c (frame, axes, curves) and chart-names.c (texts that must not overlap). */
#pragma once

#include "drawing/chart.h"

typedef struct {
  double x, y, width, height;
} ChartBox;

typedef struct {
  cairo_t *cr;
  const ChartData *data;
  const DrawingView *view;
  const Palette *palette;
  const NumberStyle *style;
  TextEngine *engine;
  ChartFrame frame;
  GArray *taken; /* ChartBox of every text placed */
} Chart;

double chart_x (const ChartFrame *frame, double flow_m3s);
double chart_y (const ChartFrame *frame, double head_m);

/* Points of a curve that are finite, from the first. */
unsigned chart_curve_length (const ChartCurve *curve);

/* Colour of a curve by its index. */
Color chart_color (const Palette *palette, const ChartCurve *curve, unsigned index);

/* Dash of a curve by its index for a line of some width: how many lengths there are in `ret_lengths`, 0 for a whole line. */
int chart_dash (unsigned index, double width, double ret_lengths[4]);

/* Writes the names at the ends of the curves; the chosen one first. What finds no room is left out. */
void chart_names (Chart *chart);

/* Writes a text with its middle or left end at x, unless something stands there; true when it was written. */
bool chart_text (Chart *chart, const char *text, double x, double y, double size, double align, Color color);
