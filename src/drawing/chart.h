/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The chart of the pump bench: head over flow, with curves of pumps, of the loop, the drain's limit and the band of the
 * target. Data come as plain arrays in SI; axes have round numbers of the reader's unit; every curve has its own colour
 * and dash and its name at its end. Painted by cairo like the drawing. */
#pragma once

#include "drawing/palette.h"
#include "drawing/text.h"
#include "drawing/view.h"
#include "units/format.h"

#define CHART_MAX_CURVES 12

typedef enum {
  CHART_PUMP, /* a candidate: own colour and dash */
  CHART_LOOP  /* the loop's head: ink, wide */
} ChartCurveKind;

typedef struct {
  ChartCurveKind kind;
  const char *name;
  unsigned n;
  const double *flow_m3s, *head_m;   /* n of each, flow rising; what is not finite ends the curve there */
  double duty_flow_m3s, duty_head_m; /* where it meets the loop, marked by a dot; NAN for none */
} ChartCurve;

typedef struct {
  unsigned n_curves; /* at most CHART_MAX_CURVES are drawn */
  const ChartCurve *curves;
  int chosen;                             /* index of the curve in use: drawn wide, or -1 */
  double drain_limit_m3s;                 /* NAN for none */
  double target_low_m3s, target_high_m3s; /* NAN for none */
} ChartData;

/* A place on the chart and back, for the pointer. */
typedef struct {
  double x, y, width, height;      /* of the plot, user units */
  double flow_max_m3s, head_max_m; /* at its right and upper edge */
} ChartFrame;

/* Round steps for an axis that reaches `most` (shown unit, > 0) in about `wanted` steps: 1, 2 or 5 times a power of ten. */
double chart_step (double most, unsigned wanted);

/* Fills the sheet's colour over the view's size and paints the chart. Returns the frame of the plot. */
ChartFrame chart_paint (cairo_t *cr, const ChartData *data, const DrawingView *view, const Palette *palette,
                        const NumberStyle *style, TextEngine *engine);

/* Index of the curve within `tolerance` of a place, or -1. */
int chart_pick (const ChartData *data, const ChartFrame *frame, double x, double y, double tolerance);
