/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/time-chart.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/chart-private.h"

#define TICKS_UP 5
/* Least that an axis spans. */
#define LEAST_SPAN_M   0.02
#define LEAST_SPAN_M3S 1e-5

typedef struct {
  cairo_t *cr;
  const TimeChart *chart;
  const DrawingView *view;
  const Palette *palette;
  const NumberStyle *style;
  TextEngine *engine;
  TimeFrame frame;
} Job;

double
time_chart_share (double time_s, double end_s)
{
  return sqrt (MAX (time_s, 0) / end_s);
}

double
time_chart_time_at (double share, double end_s)
{
  const double kept = CLAMP (share, 0, 1);

  return kept * kept * end_s;
}

double
time_chart_time (const TimeFrame *frame, double x)
{
  return frame->width > 0 ? time_chart_time_at ((x - frame->x) / frame->width, frame->end_s) : 0;
}

static double
x_of (const Job *job, double time_s)
{
  return job->frame.x + time_chart_share (time_s, job->frame.end_s) * job->frame.width;
}

static double
y_of (const Job *job, double value)
{
  const TimeFrame *f = &job->frame;

  return f->y + (f->high - value) / (f->high - f->low) * f->height;
}

static double
crisp (const Job *job, double at)
{
  const double scale = job->view->device_scale;

  return scale > 0 ? (floor (at * scale) + 0.5) / scale : at;
}

static void
line (const Job *job, double x0, double y0, double x1, double y1)
{
  cairo_move_to (job->cr, crisp (job, x0), crisp (job, y0));
  cairo_line_to (job->cr, crisp (job, x1), crisp (job, y1));
  cairo_stroke (job->cr);
}

/* Text with its left end, middle or right end (align 0, 0.5, 1) at x and its middle at y. Gives its width. */
static double
text (const Job *job, const char *words, double x, double y, double align, bool bold, Color color)
{
  const double size = 0.94 * job->view->text;
  double width, height;

  text_engine_measure (job->engine, words, size, bold, &width, &height);
  color_set (job->cr, color);
  text_engine_draw (job->engine, job->cr, words, x - align * width, y - height / 2, size, bold, false);
  return width;
}

/* Heights have a rim at 0; flows do not. */
static bool
has_rim (const Job *job)
{
  return job->chart->quantity == QUANTITY_LENGTH;
}

/* From the rim, which is always seen, down to the lowest trace and up to the highest. */
static void
find_extent (Job *job, double *ret_step)
{
  const Unit *unit = units_unit_for (job->chart->quantity, job->style);
  double low = 0, high = 0;

  for (unsigned i = 0; i < MIN (job->chart->n_traces, TIME_CHART_MAX_TRACES); i++)
    for (unsigned k = 0; k < job->chart->traces[i].n; k++) {
      const double value = job->chart->traces[i].value[k];

      if (isfinite (value)) {
        low = MIN (low, value);
        high = MAX (high, value);
      }
    }
  if (has_rim (job))
    low = MIN (low, -LEAST_SPAN_M);
  else
    high = MAX (high, LEAST_SPAN_M3S);
  *ret_step = unit_to_si (unit, chart_step (unit_from_si (unit, high - low), TICKS_UP));
  job->frame.low = floor (low / *ret_step) * *ret_step;
  job->frame.high = (ceil (high / *ret_step) + (high > 0 ? 0 : 0.5)) * *ret_step;
}

/* Round times, each with its own unit, as close as their texts allow. */
static void
paint_time_axis (const Job *job)
{
  static const double rounds[] = {0,     1,      2,      5,      10,      20,      30,     60,    120,
                                  300,   600,    1200,   1800,   3600,    7200,    14400,  21600, 43200,
                                  86400, 172800, 345600, 604800, 1209600, 2592000, 5184000};
  const TimeFrame *f = &job->frame;
  const double size = job->view->text;
  double free_from = -INFINITY;

  for (unsigned i = 0; i < G_N_ELEMENTS (rounds) && rounds[i] <= f->end_s; i++) {
    const double x = x_of (job, rounds[i]);
    g_autofree char *time =
        units_format (rounds[i], QUANTITY_TIME, job->style,
                      units_unit_for_value (rounds[i], QUANTITY_TIME, job->style), UNITS_EXACT);

    if (x < free_from)
      continue;
    color_set (job->cr, job->palette->hair);
    line (job, x, f->y, x, f->y + f->height);
    free_from = x + text (job, time, x, f->y + f->height + 0.9 * size, 0.5, false, job->palette->soft) + size;
  }
}

static void
paint_value_axis (const Job *job, double step)
{
  const TimeFrame *f = &job->frame;
  const Unit *unit = units_unit_for (job->chart->quantity, job->style);
  const double size = job->view->text;
  const int from = (int) ceil (f->low / step - 1e-9), to = (int) floor (f->high / step + 1e-9);
  g_autofree char *symbol = units_symbol (unit, job->style);

  for (int i = from; i <= to && i - from < 100; i++) {
    const double y = y_of (job, i * step);
    g_autofree char *number =
        units_format_number (i * step, job->chart->quantity, job->style, unit, UNITS_MEASURE);

    color_set (job->cr, job->palette->hair);
    line (job, f->x, y, f->x + f->width, y);
    text (job, number, f->x - 0.5 * size, y, 1, false, job->palette->soft);
  }
  /* Translators: name of an axis and its unit. */
  g_autofree char *name = g_strdup_printf (_ ("%s, %s"), job->chart->up, symbol);
  text (job, name, 0.6 * size, f->y - 2.3 * size, 0, false, job->palette->ink);
}

/* What is above the rim runs over it. */
static void
paint_rim (const Job *job)
{
  const TimeFrame *f = &job->frame;
  const double y = y_of (job, 0);

  color_set (job->cr, job->palette->stop);
  cairo_set_line_width (job->cr, job->view->line);
  line (job, f->x, y, f->x + f->width, y);
  /* Translators: the line in a chart above which water runs over the rim of its vessel. */
  text (job, _ ("Rim"), f->x + f->width + 0.5 * job->view->text, y, 0, true, job->palette->stop);
}

static Color
color_of (const Job *job, const TimeTrace *trace)
{
  return job->palette->curves[trace->kind % N_CURVE_COLORS];
}

static void
paint_trace (const Job *job, const TimeTrace *trace)
{
  const double wide = (trace->thin ? 0.6 : 1.3) * job->view->line;
  double lengths[4];
  const int n_lengths = chart_dash (trace->kind, wide, lengths);
  bool down = false;

  color_set (job->cr, color_of (job, trace));
  cairo_set_line_width (job->cr, wide);
  cairo_set_line_join (job->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash (job->cr, lengths, n_lengths, 0);
  cairo_new_path (job->cr);
  for (unsigned i = 0; i < trace->n; i++) {
    const double x = x_of (job, trace->time_s[i]), y = y_of (job, trace->value[i]);

    if (!isfinite (x) || !isfinite (y)) {
      down = false;
      continue;
    }
    if (down)
      cairo_line_to (job->cr, CLAMP (x, -1e4, 1e4), CLAMP (y, -1e4, 1e4));
    else
      cairo_move_to (job->cr, CLAMP (x, -1e4, 1e4), CLAMP (y, -1e4, 1e4));
    down = true;
  }
  cairo_stroke (job->cr);
  cairo_set_dash (job->cr, NULL, 0, 0);
}

/* A named trace and where its name wants to stand and stands. */
typedef struct {
  const TimeTrace *trace;
  double wanted_y, y;
} Name;

static int
compare_names (const void *a, const void *b)
{
  const double ya = ((const Name *) a)->wanted_y, yb = ((const Name *) b)->wanted_y;

  return (ya > yb) - (ya < yb);
}

/* The last value that is known. */
static bool
last_value (const TimeTrace *trace, double *ret_value)
{
  for (unsigned i = trace->n; i > 0; i--)
    if (isfinite (trace->value[i - 1])) {
      *ret_value = trace->value[i - 1];
      return true;
    }
  return false;
}

/* Names right of the plot in the order of the ends, pushed apart, each joined to its end. */
static void
paint_names (const Job *job)
{
  const TimeFrame *f = &job->frame;
  const double pitch = 1.25 * job->view->text, rim = y_of (job, 0), bottom = f->y + f->height;
  Name names[TIME_CHART_MAX_TRACES];
  unsigned n = 0;
  double below;

  for (unsigned i = 0; i < MIN (job->chart->n_traces, TIME_CHART_MAX_TRACES); i++) {
    const TimeTrace *trace = &job->chart->traces[i];
    double value;

    if (trace->name != NULL && last_value (trace, &value))
      names[n++] = (Name){.trace = trace, .wanted_y = y_of (job, value)};
  }
  qsort (names, n, sizeof names[0], compare_names);
  below = has_rim (job) ? rim + pitch : f->y;
  for (unsigned i = 0; i < n; i++) {
    names[i].y = MAX (names[i].wanted_y, below);
    below = names[i].y + pitch;
  }
  /* Back up from the bottom where they ran past it. */
  below = bottom + pitch / 2;
  for (unsigned i = n; i > 0; i--) {
    names[i - 1].y = MIN (names[i - 1].y, below);
    below = names[i - 1].y - pitch;
  }
  for (unsigned i = 0; i < n; i++) {
    const Color color = color_of (job, names[i].trace);

    color_set (job->cr, color);
    cairo_set_line_width (job->cr, 0.5 * job->view->line);
    cairo_move_to (job->cr, f->x + f->width, names[i].wanted_y);
    cairo_line_to (job->cr, f->x + f->width + 0.9 * job->view->text, names[i].y);
    cairo_stroke (job->cr);
    text (job, names[i].trace->name, f->x + f->width + 1.2 * job->view->text, names[i].y, 0, false, color);
  }
}

/* A tick over the plot for each event; grave ones run through it. Letters that would touch are left out. */
static void
paint_marks (const Job *job)
{
  const TimeFrame *f = &job->frame;
  const double size = job->view->text;
  double free_from = f->x - size;

  cairo_set_line_width (job->cr, 0.5 * job->view->line);
  for (unsigned i = 0; i < job->chart->n_marks; i++) {
    const TimeMark *mark = &job->chart->marks[i];
    const double x = x_of (job, mark->time_s);

    if (!(mark->time_s >= 0) || mark->time_s > f->end_s)
      continue;
    color_set (job->cr, mark->grave ? job->palette->stop : job->palette->soft);
    line (job, x, f->y - 0.45 * size, x, mark->grave ? f->y + f->height : f->y);
    if (mark->letter != NULL && x - 0.4 * size >= free_from)
      free_from = x + 0.6 * size +
                  text (job, mark->letter, x, f->y - 1.1 * size, 0.5, mark->grave,
                        mark->grave ? job->palette->stop : job->palette->soft) /
                      2;
  }
}

static void
paint_cursor (const Job *job)
{
  const TimeFrame *f = &job->frame;
  const double x = x_of (job, job->chart->now_s), size = job->view->text;

  if (!isfinite (x) || x < f->x - 1 || x > f->x + f->width + 1)
    return;
  color_set (job->cr, job->palette->selected);
  cairo_set_line_width (job->cr, job->view->line);
  line (job, x, f->y, x, f->y + f->height);
  cairo_new_path (job->cr);
  cairo_move_to (job->cr, x - 0.4 * size, f->y + f->height + 0.45 * size);
  cairo_line_to (job->cr, x + 0.4 * size, f->y + f->height + 0.45 * size);
  cairo_line_to (job->cr, x, f->y + f->height);
  cairo_close_path (job->cr);
  cairo_fill (job->cr);
}

static double
widest_name (const Job *job)
{
  double widest = 4 * job->view->text;

  for (unsigned i = 0; i < MIN (job->chart->n_traces, TIME_CHART_MAX_TRACES); i++) {
    double width, height;

    if (job->chart->traces[i].name == NULL)
      continue;
    text_engine_measure (job->engine, job->chart->traces[i].name, 0.94 * job->view->text, false, &width,
                         &height);
    widest = MAX (widest, width);
  }
  return MIN (widest, 0.3 * job->view->width);
}

TimeFrame
time_chart_paint (cairo_t *cr, const TimeChart *chart, const DrawingView *view, const Palette *palette,
                  const NumberStyle *style, TextEngine *engine)
{
  Job job = {cr, chart, view, palette, style, engine, {0, 0, 0, 0, 0, 0, 0}};
  const double size = view->text;
  double step;

  job.frame.end_s = chart->end_s > 0 && isfinite (chart->end_s) ? chart->end_s : 1;
  job.frame.x = 4.2 * size;
  job.frame.y = 3.4 * size;
  job.frame.width = MAX (size, view->width - 6.2 * size - widest_name (&job));
  job.frame.height = MAX (size, view->height - 5.2 * size);
  find_extent (&job, &step);
  cairo_save (cr);
  color_set (cr, palette->sheet);
  cairo_rectangle (cr, 0, 0, view->width, view->height);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, 0.5 * view->line);
  paint_time_axis (&job);
  paint_value_axis (&job, step);
  if (has_rim (&job))
    paint_rim (&job);
  paint_marks (&job);
  cairo_save (cr);
  cairo_rectangle (cr, job.frame.x, job.frame.y - view->line, job.frame.width,
                   job.frame.height + 2 * view->line);
  cairo_clip (cr);
  for (unsigned i = 0; i < MIN (chart->n_traces, TIME_CHART_MAX_TRACES); i++)
    paint_trace (&job, &chart->traces[i]);
  cairo_restore (cr);
  paint_names (&job);
  paint_cursor (&job);
  cairo_restore (cr);
  return job.frame;
}
