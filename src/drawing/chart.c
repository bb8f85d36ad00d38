/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/chart-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define TICKS 6

/* Dashes by curve, in widths of its line; the first is whole. */
static const double dashes[][4] = {{0, 0, 0, 0},     {7, 3, 7, 3}, {2, 2, 2, 2},
                                   {8, 2.5, 2, 2.5}, {4, 2, 4, 2}, {12, 3, 12, 3}};

double
chart_step (double most, unsigned wanted)
{
  if (!(most > 0) || !isfinite (most) || wanted == 0)
    return 1;
  double rough = most / wanted, power = pow (10, floor (log10 (rough)));
  double share = rough / power;
  return (share <= 1.0000001 ? 1 : share <= 2.0000001 ? 2 : share <= 5.0000001 ? 5 : 10) * power;
}

int
chart_dash (unsigned index, double width, double ret_lengths[4])
{
  const double *dash = dashes[index % G_N_ELEMENTS (dashes)];

  for (unsigned i = 0; i < 4; i++)
    ret_lengths[i] = dash[i] * width;
  return dash[0] > 0 ? 4 : 0;
}

double
chart_x (const ChartFrame *frame, double flow_m3s)
{
  return frame->x + flow_m3s / frame->flow_max_m3s * frame->width;
}

double
chart_y (const ChartFrame *frame, double head_m)
{
  return frame->y + frame->height - head_m / frame->head_max_m * frame->height;
}

unsigned
chart_curve_length (const ChartCurve *curve)
{
  unsigned n = 0;
  while (n < curve->n && isfinite (curve->flow_m3s[n]) && isfinite (curve->head_m[n]))
    n++;
  return n;
}

Color
chart_color (const Palette *palette, const ChartCurve *curve, unsigned index)
{
  return curve->kind == CHART_LOOP ? palette->ink : palette->curves[index % N_CURVE_COLORS];
}

static unsigned
n_curves (const ChartData *data)
{
  return MIN (data->n_curves, CHART_MAX_CURVES);
}

/* The axes reach a round number past all that is drawn; pumps decide, as the loop may rise without end. */
static void
find_extent (const ChartData *data, double *ret_flow, double *ret_head)
{
  double flow = 0, head = 0;
  for (unsigned i = 0; i < n_curves (data); i++) {
    const ChartCurve *curve = &data->curves[i];
    for (unsigned k = 0; k < chart_curve_length (curve) && curve->kind == CHART_PUMP; k++) {
      flow = MAX (flow, curve->flow_m3s[k]);
      head = MAX (head, curve->head_m[k]);
    }
  }
  if (isfinite (data->target_high_m3s))
    flow = MAX (flow, data->target_high_m3s);
  if (isfinite (data->drain_limit_m3s) && data->drain_limit_m3s < 1.6 * flow)
    flow = MAX (flow, data->drain_limit_m3s);
  *ret_flow = flow > 0 ? flow : 1e-3;
  *ret_head = head > 0 ? head : 1;
}

bool
chart_text (Chart *c, const char *text, double x, double y, double size, double align, Color color)
{
  double width, height;
  text_engine_measure (c->engine, text, size, false, &width, &height);
  ChartBox box = {x - align * width, y, width, height};
  for (unsigned i = 0; i < c->taken->len; i++) {
    ChartBox other = g_array_index (c->taken, ChartBox, i);
    if (box.x < other.x + other.width && other.x < box.x + box.width && box.y < other.y + other.height &&
        other.y < box.y + box.height)
      return false;
  }
  g_array_append_val (c->taken, box);
  color_set (c->cr, color);
  text_engine_draw (c->engine, c->cr, text, box.x, box.y, size, false, false);
  return true;
}

static double
crisp (const Chart *c, double at)
{
  double scale = c->view->device_scale;
  return scale > 0 ? (floor (at * scale) + 0.5) / scale : at;
}

static void
rule (const Chart *c, double x0, double y0, double x1, double y1)
{
  cairo_move_to (c->cr, crisp (c, x0), crisp (c, y0));
  cairo_line_to (c->cr, crisp (c, x1), crisp (c, y1));
  cairo_stroke (c->cr);
}

/* Grid in hair, numbers in soft ink; the unit is written once, at the end of its axis. */
static void
paint_axis (Chart *c, Quantity quantity, const Unit *unit, double step, double most, bool across)
{
  double size = 0.94 * c->view->text;
  const ChartFrame *f = &c->frame;
  cairo_set_dash (c->cr, NULL, 0, 0);
  cairo_set_line_width (c->cr, 0.5 * c->view->line);
  for (unsigned i = 0; i * step <= most * 1.0000001 && i < 100; i++) {
    /* Below 1 a step is one part of a whole number: 3 / 5 is the 0.6 that 3 x 0.2 is not. */
    double value = unit_to_si (unit, step < 1 ? i / round (1 / step) : i * step);
    g_autofree char *text = units_format_number (value, quantity, c->style, unit, UNITS_EXACT);
    color_set (c->cr, i == 0 ? c->palette->soft : c->palette->hair);
    if (across) {
      double x = chart_x (f, value);
      rule (c, x, f->y, x, f->y + f->height);
      chart_text (c, text, x, f->y + f->height + 0.35 * size, size, 0.5, c->palette->soft);
    } else {
      double y = chart_y (f, value);
      rule (c, f->x, y, f->x + f->width, y);
      chart_text (c, text, f->x - 0.5 * size, y - 0.62 * size, size, 1, c->palette->soft);
    }
  }
}

static void
paint_titles (Chart *c, const Unit *flow, const Unit *head)
{
  double size = 0.94 * c->view->text;
  const ChartFrame *f = &c->frame;
  g_autofree char *flow_symbol = units_symbol (flow, c->style), *head_symbol = units_symbol (head, c->style);
  /* Translators: name of an axis and its unit. */
  g_autofree char *across = g_strdup_printf (_ ("Flow, %s"), flow_symbol);
  g_autofree char *up = g_strdup_printf (_ ("Head, %s"), head_symbol);
  chart_text (c, across, f->x + f->width, f->y + f->height + 1.9 * size, size, 1, c->palette->ink);
  chart_text (c, up, f->x - 2.4 * size, f->y - 2.6 * size, size, 0, c->palette->ink);
}

static void
paint_band (Chart *c)
{
  const ChartFrame *f = &c->frame;
  double low = c->data->target_low_m3s, high = c->data->target_high_m3s;
  if (!isfinite (low) || !isfinite (high) || high <= low)
    return;
  double x0 = CLAMP (chart_x (f, low), f->x, f->x + f->width);
  double x1 = CLAMP (chart_x (f, high), f->x, f->x + f->width);
  if (!c->palette->hatched) {
    color_set (c->cr, c->palette->water);
    cairo_rectangle (c->cr, x0, f->y, x1 - x0, f->height);
    cairo_fill (c->cr);
  }
  color_set (c->cr, c->palette->surface);
  cairo_set_line_width (c->cr, 0.5 * c->view->line);
  cairo_set_dash (c->cr, NULL, 0, 0);
  rule (c, x0, f->y, x0, f->y + f->height);
  rule (c, x1, f->y, x1, f->y + f->height);
  chart_text (c, _ ("Target"), (x0 + x1) / 2, f->y - 1.35 * c->view->text, 0.94 * c->view->text, 0.5,
              c->palette->surface);
}

static void
paint_limit (Chart *c)
{
  const ChartFrame *f = &c->frame;
  double limit = c->data->drain_limit_m3s, wide = c->view->line;
  if (!isfinite (limit) || limit < 0 || limit > f->flow_max_m3s)
    return;
  double x = chart_x (f, limit), pattern[] = {12 * wide, 1.5 * wide, wide, 1.5 * wide, wide, 1.5 * wide};
  color_set (c->cr, c->palette->stop);
  cairo_set_line_width (c->cr, wide);
  cairo_set_dash (c->cr, pattern, 6, 0);
  rule (c, x, f->y, x, f->y + f->height);
  cairo_set_dash (c->cr, NULL, 0, 0);
  double y = f->y - 1.35 * c->view->text, size = 0.94 * c->view->text;
  if (!chart_text (c, _ ("Drain limit"), x, y, size, 0.5, c->palette->stop))
    chart_text (c, _ ("Drain limit"), x, y - 1.2 * c->view->text, size, 0.5, c->palette->stop);
}

static void
paint_curve (const Chart *c, unsigned index)
{
  const ChartCurve *curve = &c->data->curves[index];
  bool chosen = (int) index == c->data->chosen || curve->kind == CHART_LOOP;
  double width = (chosen ? 1.5 : 1) * c->view->line;
  double lengths[4];
  const int n = chart_dash (index, width, lengths);
  cairo_set_dash (c->cr, lengths, curve->kind == CHART_LOOP ? 0 : n, 0);
  cairo_set_line_width (c->cr, width);
  cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_ROUND);
  color_set (c->cr, chart_color (c->palette, curve, index));
  cairo_new_path (c->cr);
  for (unsigned i = 0; i < chart_curve_length (curve); i++)
    cairo_line_to (c->cr, CLAMP (chart_x (&c->frame, curve->flow_m3s[i]), -1e4, 1e4),
                   CLAMP (chart_y (&c->frame, curve->head_m[i]), -1e4, 1e4));
  cairo_stroke (c->cr);
}

/* Where a pump meets the loop: a dot ringed with the sheet, so that it stands off both lines. */
static void
paint_duty (const Chart *c, unsigned index)
{
  const ChartCurve *curve = &c->data->curves[index];
  if (!isfinite (curve->duty_flow_m3s) || !isfinite (curve->duty_head_m) || curve->kind == CHART_LOOP)
    return;
  double r = ((int) index == c->data->chosen ? 0.38 : 0.28) * c->view->text;
  double x = chart_x (&c->frame, curve->duty_flow_m3s), y = chart_y (&c->frame, curve->duty_head_m);
  if (x < c->frame.x || x > c->frame.x + c->frame.width || y < c->frame.y || y > c->frame.y + c->frame.height)
    return;
  cairo_set_dash (c->cr, NULL, 0, 0);
  cairo_new_path (c->cr);
  cairo_arc (c->cr, x, y, r, 0, 2 * G_PI);
  color_set (c->cr, chart_color (c->palette, curve, index));
  cairo_fill_preserve (c->cr);
  color_set (c->cr, c->palette->sheet);
  cairo_set_line_width (c->cr, c->view->line);
  cairo_stroke (c->cr);
}

static void
find_frame (Chart *c, double *ret_flow_step, double *ret_head_step)
{
  const Unit *flow = units_unit_for (QUANTITY_FLOW, c->style),
             *head = units_unit_for (QUANTITY_HEAD, c->style);
  double most_flow, most_head, text = c->view->text;
  find_extent (c->data, &most_flow, &most_head);
  double shown_flow = unit_from_si (flow, 1.02 * most_flow),
         shown_head = unit_from_si (head, 1.02 * most_head);
  *ret_flow_step = chart_step (shown_flow, TICKS);
  *ret_head_step = chart_step (shown_head, TICKS);
  c->frame.flow_max_m3s = unit_to_si (flow, ceil (shown_flow / *ret_flow_step) * *ret_flow_step);
  c->frame.head_max_m = unit_to_si (head, ceil (shown_head / *ret_head_step) * *ret_head_step);
  c->frame.x = 4.2 * text;
  c->frame.y = 4.2 * text;
  c->frame.width = MAX (text, c->view->width - 5.8 * text);
  c->frame.height = MAX (text, c->view->height - 8.2 * text);
}

ChartFrame
chart_paint (cairo_t *cr, const ChartData *data, const DrawingView *view, const Palette *palette,
             const NumberStyle *style, TextEngine *engine)
{
  Chart c = {.cr = cr, .data = data, .view = view, .palette = palette, .style = style, .engine = engine};
  c.taken = g_array_new (FALSE, FALSE, sizeof (ChartBox));
  const Unit *flow = units_unit_for (QUANTITY_FLOW, style), *head = units_unit_for (QUANTITY_HEAD, style);
  double flow_step, head_step;
  find_frame (&c, &flow_step, &head_step);
  cairo_save (cr);
  color_set (cr, palette->sheet);
  cairo_rectangle (cr, 0, 0, view->width, view->height);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  paint_band (&c);
  paint_axis (&c, QUANTITY_FLOW, flow, flow_step, unit_from_si (flow, c.frame.flow_max_m3s), true);
  paint_axis (&c, QUANTITY_HEAD, head, head_step, unit_from_si (head, c.frame.head_max_m), false);
  paint_titles (&c, flow, head);
  paint_limit (&c);
  cairo_save (cr);
  cairo_rectangle (cr, c.frame.x, c.frame.y, c.frame.width, c.frame.height);
  cairo_clip (cr);
  for (unsigned i = 0; i < n_curves (data); i++)
    paint_curve (&c, i);
  cairo_restore (cr);
  for (unsigned i = 0; i < n_curves (data); i++)
    paint_duty (&c, i);
  chart_names (&c);
  cairo_restore (cr);
  g_array_unref (c.taken);
  return c.frame;
}
