/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Measuring between two points of the drawing: M begins, a click sets each point, Escape ends. Points snap to corners,
 * edges and handles. With exactly two parts chosen M measures between their middles, so it works without a pointer. */
#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-private.h"
#include "units/format.h"

#define REACH 8.0 /* logical pixels */
#define TICK  6.0

gboolean
canvas_measuring (Canvas *self)
{
  return self->measure.on;
}

/* The nearest of the points offered to a place. */
typedef struct {
  double x, y, nearest; /* the place; how near the best one is */
  ScenePoint point;
} Nearest;

static void
offer (Canvas *self, Nearest *best, double x, double z)
{
  const double distance = hypot (view_x (&self->view, x) - best->x, view_y (&self->view, z) - best->y);

  if (distance >= best->nearest)
    return;
  best->nearest = distance;
  best->point = (ScenePoint){x, z};
}

/* Corners and middles of edges of a part, and its middle. */
static void
offer_box (Canvas *self, Nearest *best, SceneBox box)
{
  const double x[] = {box.x0, (box.x0 + box.x1) / 2, box.x1}, z[] = {box.z0, (box.z0 + box.z1) / 2, box.z1};

  for (unsigned i = 0; i < 3; i++)
    for (unsigned k = 0; k < 3; k++)
      offer (self, best, x[i], z[k]);
}

static ScenePoint
point_at (Canvas *self, double x, double y, CanvasHold hold)
{
  Nearest best = {x, y, REACH, {view_to_x (&self->view, x), view_to_z (&self->view, y)}};

  if ((hold & CANVAS_HOLD_FREE) == 0) {
    for (int part = 0; part < (int) scene_n_parts (self->scene); part++) {
      SceneBox box;

      if (scene_part_bounds (self->scene, part, &box))
        offer_box (self, &best, box);
    }
    for (unsigned i = 0; i < scene_n_handles (self->scene, -1); i++)
      offer (self, &best, scene_handle (self->scene, -1, i)->x, scene_handle (self->scene, -1, i)->z);
  }
  if ((hold & CANVAS_HOLD_STRAIGHT) != 0 && self->measure.n > 0) {
    const ScenePoint from = self->measure.points[0];

    if (fabs (best.point.x - from.x) < fabs (best.point.z - from.z))
      best.point.x = from.x;
    else
      best.point.z = from.z;
  }
  return best.point;
}

static char *
length_words (Canvas *self, double metres)
{
  return units_format (metres, QUANTITY_LENGTH, document_get_style (self->document), NULL, UNITS_BUILD);
}

static void
say (Canvas *self)
{
  CanvasMeasure *m = &self->measure;
  const double dx = m->points[1].x - m->points[0].x, dz = m->points[1].z - m->points[0].z;
  g_autofree char *whole = length_words (self, hypot (dx, dz));
  g_autofree char *across = length_words (self, fabs (dx));
  g_autofree char *height = length_words (self, fabs (dz));
  g_autofree char *markup =
      g_markup_printf_escaped (_ ("Distance <b>%s</b>\nacross %s, in height %s"), whole, across, height);

  canvas_show_note (self, view_x (&self->view, m->points[1].x), view_y (&self->view, m->points[1].z), markup);
}

/* The middle of a part. */
static gboolean
middle_of (Canvas *self, const char *key, ScenePoint *ret_point)
{
  const int index = design_index (document_get_design (self->document), key);
  const SceneHandle *handle;
  SceneBox box;

  if (index >= 0 && scene_part_bounds (self->scene, index, &box)) {
    *ret_point = (ScenePoint){(box.x0 + box.x1) / 2, (box.z0 + box.z1) / 2};
    return TRUE;
  }
  handle = index >= 0 ? scene_handle (self->scene, index, 0) : NULL;
  if (handle != NULL)
    *ret_point = (ScenePoint){handle->x, handle->z};
  return handle != NULL;
}

void
canvas_measure_begin (Canvas *self)
{
  CanvasMeasure *m = &self->measure;

  if (self->scene == NULL || canvas_dragging (self))
    return;
  canvas_nudge_end (self);
  *m = (CanvasMeasure){.on = TRUE};
  if (selection_count (self->selection) == 2 &&
      middle_of (self, selection_get_keys (self->selection)[1], &m->points[0]) &&
      middle_of (self, selection_get_keys (self->selection)[0], &m->points[1])) {
    m->n = 2;
    say (self);
  } else {
    m->hover = point_at (self, self->pointer_x, self->pointer_y, CANVAS_HOLD_NONE);
    canvas_show_note (self, self->pointer_inside ? self->pointer_x : self->view.width / 2,
                      self->pointer_inside ? self->pointer_y : self->view.height / 2,
                      _ ("Measure: click the first point, Escape ends."));
  }
  canvas_update_cursor (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
canvas_measure_end (Canvas *self)
{
  if (!self->measure.on)
    return;
  self->measure.on = FALSE;
  canvas_hide_note (self);
  canvas_update_cursor (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
canvas_measure_move (Canvas *self, double x, double y, CanvasHold hold)
{
  CanvasMeasure *m = &self->measure;

  m->hover = point_at (self, x, y, hold);
  if (m->n == 1) {
    m->points[1] = m->hover;
    say (self);
  }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
canvas_measure_click (Canvas *self, double x, double y, CanvasHold hold)
{
  CanvasMeasure *m = &self->measure;
  const ScenePoint point = point_at (self, x, y, hold);

  if (m->n == 1) {
    m->points[1] = point;
    m->n = 2;
  } else {
    m->points[0] = m->points[1] = point;
    m->n = 1;
  }
  say (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Drawing: the two points with short ticks across, the line between, and the legs of the triangle in thin. */

static void
cross (cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x - TICK, y - TICK);
  cairo_line_to (cr, x + TICK, y + TICK);
  cairo_move_to (cr, x - TICK, y + TICK);
  cairo_line_to (cr, x + TICK, y - TICK);
}

void
canvas_measure_snapshot (Canvas *self, GtkSnapshot *snapshot)
{
  const CanvasMeasure *m = &self->measure;
  const Color color = canvas_palette (self)->selected;
  const double dashes[] = {4, 3};
  cairo_t *cr;
  double x0, y0, x1, y1;

  if (!m->on)
    return;
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) self->view.width, (float) self->view.height));
  cairo_set_source_rgb (cr, color.red, color.green, color.blue);
  cairo_set_line_width (cr, 1.5);
  if (m->n != 2)
    cross (cr, view_x (&self->view, m->hover.x), view_y (&self->view, m->hover.z));
  if (m->n > 0) {
    x0 = view_x (&self->view, m->points[0].x);
    y0 = view_y (&self->view, m->points[0].z);
    x1 = view_x (&self->view, m->points[1].x);
    y1 = view_y (&self->view, m->points[1].z);
    cross (cr, x0, y0);
    cross (cr, x1, y1);
    cairo_move_to (cr, x0, y0);
    cairo_line_to (cr, x1, y1);
    cairo_stroke (cr);
    cairo_set_dash (cr, dashes, 2, 0);
    cairo_set_line_width (cr, 1);
    cairo_move_to (cr, x0, y0);
    cairo_line_to (cr, x1, y0);
    cairo_line_to (cr, x1, y1);
  }
  cairo_stroke (cr);
  cairo_destroy (cr);
}
