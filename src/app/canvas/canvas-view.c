/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Zoom, pan and fit. The view is always that of the whole widget. */
#include <math.h>

#include "app/canvas/canvas-private.h"

#define KEPT_IN_VIEW  64.0 /* logical pixels of the drawing that no pan can lose */
#define SETTLE_MS     150
#define PULSE_US      180000
#define LARGEST_SCALE 20000.0 /* 20 px a millimetre */

void
canvas_view_changed (Canvas *self)
{
  self->picked_x = self->picked_y = (double) NAN;
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
fit (Canvas *self)
{
  if (self->scene == NULL || self->view.width < 1 || self->view.height < 1)
    return;
  self->view = layout_fit (self->scene, &self->view, self->engine);
  self->outline = scene_outline (self->scene);
}

void
canvas_fit (Canvas *canvas)
{
  g_return_if_fail (DOWNCOMER_IS_CANVAS (canvas));
  canvas->fitted = TRUE;
  canvas->moving = FALSE;
  fit (canvas);
  canvas_view_changed (canvas);
}

void
canvas_view_resized (Canvas *self, int width, int height)
{
  const double device_scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));

  if (self->view.width == width && self->view.height == height && self->view.device_scale == device_scale)
    return;
  self->picked_x = self->picked_y = (double) NAN;
  self->view.device_scale = device_scale;
  /* What was in the middle stays there. */
  self->view.origin_x += round ((width - self->view.width) / 2);
  self->view.origin_y += round ((height - self->view.height) / 2);
  self->view.width = width;
  self->view.height = height;
  if (self->fitted)
    fit (self);
}

void
canvas_view_follow (Canvas *self)
{
  const SceneBox now = scene_outline (self->scene), was = self->outline;
  const gboolean same = now.x0 == was.x0 && now.x1 == was.x1 && now.z0 == was.z0 && now.z1 == was.z1;

  /* The drawing stays put while only its water or its insides change, and under a hand that drags it. */
  if (self->fitted && !same && !canvas_dragging (self) && self->nudge_source == 0)
    fit (self);
  canvas_view_changed (self);
}

/* Whole device pixels, so that a node drawn once can be moved without a blur. */
static double
whole (Canvas *self, double coordinate)
{
  return round (coordinate * self->view.device_scale) / self->view.device_scale;
}

static void
keep_in_view (Canvas *self)
{
  DrawingView *view = &self->view;
  const SceneBox box = scene_outline (self->scene);
  const double left = box.x0 * view->scale, right = box.x1 * view->scale;
  const double top = -box.z1 * view->scale, bottom = -box.z0 * view->scale;

  view->origin_x =
      whole (self, CLAMP (view->origin_x, KEPT_IN_VIEW - right, view->width - KEPT_IN_VIEW - left));
  view->origin_y =
      whole (self, CLAMP (view->origin_y, KEPT_IN_VIEW - bottom, view->height - KEPT_IN_VIEW - top));
}

void
canvas_settle (Canvas *self)
{
  g_clear_handle_id (&self->settle_source, g_source_remove);
  if (self->untold)
    canvas_sync_children (self);
  if (self->moving || self->base_view.quick) {
    self->moving = FALSE;
    gtk_widget_queue_draw (GTK_WIDGET (self));
  }
}

static gboolean
on_settle (gpointer data)
{
  Canvas *self = DOWNCOMER_CANVAS (data);

  if (self->activity == CANVAS_PANNING || document_in_gesture (self->document))
    return G_SOURCE_CONTINUE;
  self->settle_source = 0;
  canvas_settle (self);
  return G_SOURCE_REMOVE;
}

void
canvas_settle_later (Canvas *self)
{
  g_clear_handle_id (&self->settle_source, g_source_remove);
  self->settle_source = g_timeout_add (SETTLE_MS, on_settle, self);
}

void
canvas_pan (Canvas *self, double dx, double dy)
{
  if (self->scene == NULL)
    return;
  self->fitted = FALSE;
  self->moving = TRUE;
  self->view.origin_x += dx;
  self->view.origin_y += dy;
  keep_in_view (self);
  canvas_settle_later (self);
  canvas_view_changed (self);
}

void
canvas_zoom_at (Canvas *self, double x, double y, double factor)
{
  DrawingView whole_drawing;
  double scale;

  if (self->scene == NULL || !(factor > 0) || self->view.width < 1)
    return;
  /* From half of what fits to a few millimetres across. */
  whole_drawing = layout_fit (self->scene, &self->view, self->engine);
  scale = CLAMP (self->view.scale * factor, MIN (whole_drawing.scale / 2, self->view.scale),
                 MAX (LARGEST_SCALE, self->view.scale));
  self->fitted = FALSE;
  self->view = drawing_view_zoom (&self->view, x, y, scale / self->view.scale);
  keep_in_view (self);
  canvas_view_changed (self);
}

void
canvas_zoom (Canvas *canvas, double factor)
{
  g_return_if_fail (DOWNCOMER_IS_CANVAS (canvas));
  canvas_zoom_at (canvas, canvas->view.width / 2, canvas->view.height / 2, factor);
}

void
canvas_show_layer (Canvas *canvas, SceneLayer layer, gboolean shown)
{
  unsigned layers;

  g_return_if_fail (DOWNCOMER_IS_CANVAS (canvas) && layer < N_SCENE_LAYERS);
  layers = canvas->view.layers;
  canvas->view.layers = shown ? layers | LAYER_BIT (layer) : layers & ~LAYER_BIT (layer);
  if (canvas->view.layers == layers)
    return;
  if (canvas->fitted)
    fit (canvas);
  canvas_view_changed (canvas);
}

void
canvas_reveal (Canvas *self, int part)
{
  const float width = (float) self->view.width, height = (float) self->view.height;
  const graphene_rect_t room = GRAPHENE_RECT_INIT (0, 0, width, height);
  graphene_rect_t box, seen;
  graphene_point_t middle;
  float largest;

  if (!canvas_part_box (self, part, &box) || width < 1 || height < 1)
    return;
  /* Half of it in view, or half of the view full of it, is enough. */
  if (graphene_rect_intersection (&box, &room, &seen) &&
      graphene_rect_get_area (&seen) * 2 >=
          MIN (graphene_rect_get_area (&box), graphene_rect_get_area (&room)))
    return;
  largest = MAX (box.size.width / width, box.size.height / height);
  graphene_rect_get_center (&box, &middle);
  self->fitted = FALSE;
  self->view.origin_x += (double) (width / 2 - middle.x);
  self->view.origin_y += (double) (height / 2 - middle.y);
  if (largest > 0.9f)
    canvas_zoom_at (self, self->view.width / 2, self->view.height / 2, (double) (0.8f / largest));
  keep_in_view (self);
  canvas_view_changed (self);
}

void
canvas_stop_pulse (Canvas *self)
{
  const guint tick = self->pulse_tick;

  self->pulse_tick = 0;
  if (tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), tick);
  self->pulse = 0;
}

static gboolean
on_pulse (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Canvas *self = DOWNCOMER_CANVAS (widget);
  const gint64 now = gdk_frame_clock_get_frame_time (clock);

  if (self->pulse_start == 0)
    self->pulse_start = now;
  self->pulse = 1 - (double) (now - self->pulse_start) / PULSE_US;
  gtk_widget_queue_draw (widget);
  if (self->pulse > 0)
    return G_SOURCE_CONTINUE;
  self->pulse = 0;
  self->pulse_tick = 0;
  return G_SOURCE_REMOVE;
}

void
canvas_pulse (Canvas *self)
{
  gboolean animations = TRUE;

  canvas_stop_pulse (self);
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animations, NULL);
  if (!animations)
    return;
  self->pulse = 1;
  self->pulse_start = 0;
  self->pulse_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), on_pulse, NULL, NULL);
}
