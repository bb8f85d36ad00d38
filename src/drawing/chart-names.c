/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Names at the ends of curves, placed so that none covers another or, where it can be had, a curve; and picking. */
#include "drawing/chart-private.h"

#include <math.h>

static double
distance (double x, double y, double x0, double y0, double x1, double y1)
{
  double dx = x1 - x0, dy = y1 - y0, square = dx * dx + dy * dy;
  double t = square > 0 ? CLAMP (((x - x0) * dx + (y - y0) * dy) / square, 0, 1) : 0;
  return hypot (x - x0 - t * dx, y - y0 - t * dy);
}

static bool
segment_meets (double x0, double y0, double x1, double y1, ChartBox b)
{
  double p[] = {x0 - x1, x1 - x0, y0 - y1, y1 - y0};
  double q[] = {x0 - b.x, b.x + b.width - x0, y0 - b.y, b.y + b.height - y0};
  double from = 0, to = 1;
  for (unsigned i = 0; i < 4; i++) {
    if (fabs (p[i]) < 1e-12 && q[i] < 0)
      return false;
    if (p[i] < -1e-12)
      from = MAX (from, q[i] / p[i]);
    else if (p[i] > 1e-12)
      to = MIN (to, q[i] / p[i]);
  }
  return from <= to;
}

/* The last point of a curve inside the plot, user units. */
static bool
end_of (const Chart *c, const ChartCurve *curve, double *ret_x, double *ret_y)
{
  const ChartFrame *f = &c->frame;
  bool found = false;
  for (unsigned i = 0; i < chart_curve_length (curve); i++) {
    double x = chart_x (f, curve->flow_m3s[i]), y = chart_y (f, curve->head_m[i]);
    if (x < f->x - 1 || x > f->x + f->width + 1 || y < f->y - 1 || y > f->y + f->height + 1)
      continue;
    *ret_x = x;
    *ret_y = y;
    found = true;
  }
  return found;
}

/* How many curves run through a box. */
static unsigned
crossed (const Chart *c, ChartBox box)
{
  unsigned n = 0;
  for (unsigned i = 0; i < MIN (c->data->n_curves, CHART_MAX_CURVES); i++) {
    const ChartCurve *curve = &c->data->curves[i];
    for (unsigned k = 1; k < chart_curve_length (curve); k++)
      if (segment_meets (chart_x (&c->frame, curve->flow_m3s[k - 1]),
                         chart_y (&c->frame, curve->head_m[k - 1]), chart_x (&c->frame, curve->flow_m3s[k]),
                         chart_y (&c->frame, curve->head_m[k]), box)) {
        n++;
        break;
      }
  }
  double limit = isfinite (c->data->drain_limit_m3s) ? chart_x (&c->frame, c->data->drain_limit_m3s) : -1;
  return n + (limit > box.x && limit < box.x + box.width);
}

static bool
is_free (const Chart *c, ChartBox box)
{
  const ChartFrame *f = &c->frame;
  if (box.x < f->x || box.y < f->y || box.x + box.width > c->view->width ||
      box.y + box.height > f->y + f->height)
    return false;
  for (unsigned i = 0; i < c->taken->len; i++) {
    ChartBox other = g_array_index (c->taken, ChartBox, i);
    if (box.x < other.x + other.width && other.x < box.x + box.width && box.y < other.y + other.height &&
        other.y < box.y + box.height)
      return false;
  }
  return true;
}

static void
name_curve (Chart *c, unsigned index)
{
  const ChartCurve *curve = &c->data->curves[index];
  double x = 0, y = 0, width, height, text = c->view->text;
  bool bold = (int) index == c->data->chosen;
  if (curve->name == NULL || !end_of (c, curve, &x, &y))
    return;
  text_engine_measure (c->engine, curve->name, text, bold, &width, &height);
  ChartBox best = {0, 0, 0, 0};
  double least = INFINITY;
  /* Around the end of the curve, farther and farther; a crossed curve weighs as much as four letters' heights. */
  for (unsigned ring = 0; ring < 10; ring++)
    for (unsigned i = 0; i < 16; i++) {
      double angle = 2 * G_PI * i / 16, far = (0.5 + 0.8 * ring) * text;
      ChartBox box = {x + cos (angle) * (far + width / 2) - width / 2,
                      y - sin (angle) * (far + height / 2) - height / 2, width, height};
      double cost = far / text + 4 * crossed (c, box);
      if (cost < least && is_free (c, box)) {
        least = cost;
        best = box;
      }
    }
  if (!isfinite (least))
    return;
  g_array_append_val (c->taken, best);
  color_set (c->cr, chart_color (c->palette, curve, index));
  double to_x = CLAMP (x, best.x, best.x + best.width), to_y = CLAMP (y, best.y, best.y + best.height);
  if (hypot (to_x - x, to_y - y) > 1.4 * text) {
    cairo_set_line_width (c->cr, 0.5 * c->view->line);
    cairo_set_dash (c->cr, NULL, 0, 0);
    cairo_move_to (c->cr, x, y);
    cairo_line_to (c->cr, to_x, to_y);
    cairo_stroke (c->cr);
  }
  text_engine_draw (c->engine, c->cr, curve->name, best.x, best.y, text, bold, false);
}

void
chart_names (Chart *chart)
{
  unsigned n = MIN (chart->data->n_curves, CHART_MAX_CURVES);
  if (chart->data->chosen >= 0 && (unsigned) chart->data->chosen < n)
    name_curve (chart, (unsigned) chart->data->chosen);
  for (unsigned i = 0; i < n; i++)
    if ((int) i != chart->data->chosen)
      name_curve (chart, i);
}

int
chart_pick (const ChartData *data, const ChartFrame *frame, double x, double y, double tolerance)
{
  int nearest = -1;
  double least = tolerance;
  for (unsigned i = 0; i < MIN (data->n_curves, CHART_MAX_CURVES); i++) {
    const ChartCurve *curve = &data->curves[i];
    for (unsigned k = 1; k < chart_curve_length (curve); k++) {
      double d =
          distance (x, y, chart_x (frame, curve->flow_m3s[k - 1]), chart_y (frame, curve->head_m[k - 1]),
                    chart_x (frame, curve->flow_m3s[k]), chart_y (frame, curve->head_m[k]));
      if (d <= least) {
        least = d;
        nearest = (int) i;
      }
    }
  }
  return nearest;
}
