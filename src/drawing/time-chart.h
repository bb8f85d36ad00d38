/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Traces over time: how far each vessel's water stands under its rim through a rehearsal, with the events marked, so that
 * whatever crosses the line of the rim is on the floor; or what flows. Each vessel has its own colour and dash; two rehearsals may share
 * the axis, the second in thin lines. Data come as plain arrays in SI; painted by cairo like the drawing. */
#pragma once

#include "drawing/palette.h"
#include "drawing/text.h"
#include "drawing/view.h"
#include "units/format.h"

#define TIME_CHART_MAX_TRACES 24

typedef struct {
  const char *name; /* NULL: not named, as the second of a pair */
  unsigned n;
  const double *time_s, *value; /* n of each, time rising, in the unit of the quantity; NAN leaves a gap */
  unsigned kind;                /* colour and dash, the same for a vessel in both rehearsals */
  bool thin;
} TimeTrace;

typedef struct {
  double time_s;
  const char *letter; /* beside its mark; NULL for a mark alone */
  bool grave;         /* water leaves a vessel, or a pump runs dry */
} TimeMark;

typedef struct {
  unsigned n_traces;
  const TimeTrace *traces;
  unsigned n_marks;
  const TimeMark *marks;
  Quantity quantity; /* QUANTITY_LENGTH: height over the rim, below 0 under it; or QUANTITY_FLOW */
  double end_s;      /* right end of the axis */
  double now_s;      /* where the cursor stands; NAN for none */
  const char *up;    /* name of the upright axis, without its unit */
} TimeChart;

/* The plot in user units, and what its edges mean. */
typedef struct {
  double x, y, width, height;
  double end_s, low, high;
} TimeFrame;

/* Where a time stands on an axis that ends with `end_s` (> 0), 0 to 1, and back. The axis runs with the root of the time:
 * most of a failure happens in its first seconds, and its last drops fall for many minutes. */
double time_chart_share (double time_s, double end_s);
double time_chart_time_at (double share, double end_s);

/* Fills the sheet's colour over the view's size and paints the chart. Returns the frame of the plot. */
TimeFrame time_chart_paint (cairo_t *cr, const TimeChart *chart, const DrawingView *view,
                            const Palette *palette, const NumberStyle *style, TextEngine *engine);

/* Time under a place of the plot, from 0 to the end. */
double time_chart_time (const TimeFrame *frame, double x);
