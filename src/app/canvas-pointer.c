/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Mouse, touch and wheel. One drag gesture serves all buttons: what a press becomes is decided when it moves. */
#include <math.h>

#include "app/canvas-private.h"

#define SAME_PLACE  4.0
#define WHEEL_ZOOM  1.2
#define WHEEL_PAN   60.0 /* logical pixels a click */
#define SMOOTH_ZOOM 100.0

static void
set_cursor (Canvas *self, const char *name)
{
  GdkCursor *now = gtk_widget_get_cursor (GTK_WIDGET (self));
  const char *is = now != NULL ? gdk_cursor_get_name (now) : NULL;

  if (g_strcmp0 (name, is) != 0)
    gtk_widget_set_cursor_from_name (GTK_WIDGET (self), name);
}

/* The way a handle goes; along both axes for one with two. */
static const char *
handle_cursor (const SceneHandle *handle)
{
  if (handle->n_moves > 1)
    return "move";
  return handle->moves[0].axis == AXIS_X ? "ew-resize" : "ns-resize";
}

void
canvas_update_cursor (Canvas *self)
{
  const char *name = NULL;
  int part;
  unsigned number;

  if (self->activity == CANVAS_PANNING)
    name = "grabbing";
  else if (self->activity == CANVAS_DRAGGING)
    name = handle_cursor (&self->drag.handle);
  else if (self->space_down)
    name = "grab";
  else if (self->pointer_inside && self->document != NULL &&
           canvas_handle_at (self, self->pointer_x, self->pointer_y, &part, &number))
    name = handle_cursor (scene_handle (self->scene, part, number));
  set_cursor (self, name);
}

static void
update_hover (Canvas *self)
{
  const gboolean free = self->pointer_inside && self->activity == CANVAS_IDLE;
  const int part = free ? canvas_pick (self, self->pointer_x, self->pointer_y) : -1;

  canvas_update_cursor (self);
  if (part == self->hovered)
    return;
  self->hovered = part;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_motion (GtkEventControllerMotion *controller, double x, double y, Canvas *self)
{
  /* Some drivers repeat the last motion. */
  if (self->pointer_inside && self->pointer_x == x && self->pointer_y == y)
    return;
  self->pointer_x = x;
  self->pointer_y = y;
  self->pointer_inside = TRUE;
  if (self->document != NULL)
    update_hover (self);
}

static void
on_leave (GtkEventControllerMotion *controller, Canvas *self)
{
  self->pointer_inside = FALSE;
  if (self->document != NULL)
    update_hover (self);
}

/* What a click chooses: the part whose handle it hits, else the topmost part; again on the same place the one below. */
static int
clicked_part (Canvas *self, double x, double y)
{
  const gboolean again = hypot (x - self->click_x, y - self->click_y) <= SAME_PLACE;

  if (self->press_part >= 0 && (!again || self->press_part != canvas_selected (self)))
    return self->press_part;
  return scene_pick (self->scene, &self->view, x, y, PICK_TOLERANCE, again ? canvas_selected (self) : -1);
}

static void
click (Canvas *self, double x, double y)
{
  const Part *part = canvas_part_of (self, clicked_part (self, x, y));
  CanvasPart *child = canvas_child (self, part != NULL ? part_key (part) : NULL);

  self->click_x = x;
  self->click_y = y;
  selection_set_key (self->selection, part != NULL ? part_key (part) : NULL);
  gtk_widget_grab_focus (child != NULL ? GTK_WIDGET (child) : GTK_WIDGET (self));
}

static void
on_press (GtkGestureDrag *gesture, double x, double y, Canvas *self)
{
  const guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  GdkDevice *device = gtk_event_controller_get_current_event_device (GTK_EVENT_CONTROLLER (gesture));

  if (self->document == NULL || button > GDK_BUTTON_MIDDLE) {
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
    return;
  }
  canvas_nudge_end (self);
  self->by_touch = device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHSCREEN;
  self->activity = CANVAS_PRESSED;
  self->press_x = self->pan_x = x;
  self->press_y = self->pan_y = y;
  self->press_part = -1;
  if (button == GDK_BUTTON_MIDDLE || self->space_down) {
    self->activity = CANVAS_PANNING;
    self->space_used = TRUE;
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  } else if (!canvas_handle_at (self, x, y, &self->press_part, &self->press_handle)) {
    self->press_part = -1;
  }
  update_hover (self);
}

/* The thing in hand: a handle, or a selected device, pump or outlet by its body; -1 where the drawing itself is. */
static int
grabbed (Canvas *self, unsigned *ret_number)
{
  const unsigned by_body = 1u << PART_DEVICE | 1u << PART_PUMP | 1u << PART_OUTLET | 1u << PART_TEE;
  const int selected = canvas_selected (self);
  const Part *part = canvas_part_of (self, selected);

  *ret_number = self->press_handle;
  if (self->press_part >= 0)
    return self->press_part;
  *ret_number = 0;
  if (part != NULL && (by_body & 1u << part_kind (part)) != 0 &&
      canvas_pick (self, self->press_x, self->press_y) == selected)
    return selected;
  return -1;
}

static void
on_drag (GtkGestureDrag *gesture, double dx, double dy, Canvas *self)
{
  const GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));

  if (self->activity == CANVAS_PRESSED) {
    unsigned number;
    const int part = grabbed (self, &number);

    if (!gtk_drag_check_threshold (GTK_WIDGET (self), 0, 0, (int) dx, (int) dy))
      return;
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
    self->activity = part >= 0 && canvas_drag_begin (self, part, number) ? CANVAS_DRAGGING : CANVAS_PANNING;
    /* A corner in hand is what the person works on, not its run. */
    if (self->activity == CANVAS_DRAGGING)
      selection_set_key (self->selection, self->drag.key);
    update_hover (self);
  }
  if (self->activity == CANVAS_DRAGGING) {
    canvas_drag_to (self, dx, dy, (state & GDK_SHIFT_MASK) == 0);
  } else if (self->activity == CANVAS_PANNING) {
    canvas_pan (self, self->press_x + dx - self->pan_x, self->press_y + dy - self->pan_y);
    self->pan_x = self->press_x + dx;
    self->pan_y = self->press_y + dy;
  }
}

static void
on_release (GtkGestureDrag *gesture, double dx, double dy, Canvas *self)
{
  const CanvasActivity was = self->activity;

  self->activity = CANVAS_IDLE;
  if (was == CANVAS_DRAGGING)
    canvas_drag_end (self);
  else if (was == CANVAS_PANNING)
    canvas_settle (self);
  else if (was == CANVAS_PRESSED)
    click (self, self->press_x, self->press_y);
  if (self->document != NULL)
    update_hover (self);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, Canvas *self)
{
  self->activity = CANVAS_IDLE;
  if (self->document == NULL)
    return;
  canvas_drag_cancel (self);
  canvas_settle (self);
  update_hover (self);
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, Canvas *self)
{
  self->pinch_scale = 1;
}

static void
on_pinch (GtkGestureZoom *gesture, double scale, Canvas *self)
{
  double x, y;

  if (self->activity == CANVAS_DRAGGING || self->document == NULL || !(scale > 0) ||
      !gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    return;
  canvas_zoom_at (self, x, y, scale / self->pinch_scale);
  self->pinch_scale = scale;
}

static gboolean
on_scroll (GtkEventControllerScroll *controller, double dx, double dy, Canvas *self)
{
  const GdkModifierType state =
      gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  const gboolean wheel = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_WHEEL;
  const double length = wheel ? WHEEL_PAN : 1;

  if (self->document == NULL || self->activity == CANVAS_DRAGGING)
    return FALSE;
  if ((state & GDK_CONTROL_MASK) != 0) {
    const gboolean known = self->pointer_inside;

    /* The event carries no place: that of the last motion. */
    canvas_zoom_at (self, known ? self->pointer_x : self->view.width / 2,
                    known ? self->pointer_y : self->view.height / 2,
                    pow (WHEEL_ZOOM, wheel ? -dy : -dy / SMOOTH_ZOOM));
  } else if ((state & GDK_SHIFT_MASK) != 0 && dx == 0) {
    canvas_pan (self, -dy * length, 0);
  } else {
    canvas_pan (self, -dx * length, -dy * length);
  }
  update_hover (self);
  return TRUE;
}

void
canvas_add_pointer (Canvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkGesture *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new ();

  g_signal_connect (motion, "enter", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  gtk_widget_add_controller (widget, scroll);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_press), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_release), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (on_cancel), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_gesture_group (drag, pinch);
  self->drag_gesture = drag;
}
