/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Mouse, touch and wheel. One drag gesture serves all buttons: what a press becomes is decided when it moves. */
#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-private.h"
#include "design/edit.h"

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
  else if (canvas_measuring (self) || self->activity == CANVAS_BANDING)
    name = "crosshair";
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

/* Control or Alt leaves snapping off, Shift keeps to one axis. */
static CanvasHold
hold_of (GtkEventController *controller)
{
  const GdkModifierType state = gtk_event_controller_get_current_event_state (controller);

  return ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 ? CANVAS_HOLD_FREE : 0) |
         ((state & GDK_SHIFT_MASK) != 0 ? CANVAS_HOLD_STRAIGHT : 0);
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
  if (self->document == NULL)
    return;
  if (canvas_measuring (self))
    canvas_measure_move (self, x, y, hold_of (GTK_EVENT_CONTROLLER (controller)));
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

/* Twice on a run that is chosen adds a corner there; on anything else it goes to the values. */
static void
click_twice (Canvas *self)
{
  const Part *part = canvas_part_of (self, canvas_selected (self));

  if (part == NULL)
    return;
  if (part_kind (part) == PART_DRAIN || part_kind (part) == PART_RETURN)
    canvas_insert_corner (self);
  else
    canvas_edit (self, part_key (part));
}

static void
click (Canvas *self, double x, double y, CanvasHold hold)
{
  const Part *part = canvas_part_of (self, clicked_part (self, x, y));
  CanvasPart *child = canvas_child (self, part != NULL ? part_key (part) : NULL);

  if (self->press_twice) {
    click_twice (self);
    return;
  }
  if ((hold & CANVAS_HOLD_STRAIGHT) != 0) {
    part = canvas_part_of (self, scene_pick (self->scene, &self->view, x, y, PICK_TOLERANCE, -1));
    if (part != NULL)
      selection_toggle (self->selection, part_key (part));
    return;
  }
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
  canvas_untell (self);
  if (!canvas_entry_finish (self))
    canvas_entry_cancel (self);
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
  } else {
    canvas_hold (self, part_key (canvas_part_of (self, self->press_part)), self->press_handle);
  }
  update_hover (self);
}

/* The handle of the running level where the water line of the chosen chamber is under the press. */
static gboolean
grabs_level (Canvas *self, int part, unsigned *ret_number)
{
  for (unsigned i = 0; i < scene_n_handles (self->scene, part); i++) {
    const SceneHandle *handle = scene_handle (self->scene, part, i);

    if (handle->moves[0].field == FIELD_CHAMBER_LEVEL &&
        fabs (view_y (&self->view, handle->z) - self->press_y) <= HANDLE_REACH) {
      *ret_number = i;
      return TRUE;
    }
  }
  return FALSE;
}

/* The thing in hand: a handle, or a chosen part by its body; -1 where the drawing itself is. */
static int
grabbed (Canvas *self, unsigned *ret_number)
{
  const int picked = canvas_pick (self, self->press_x, self->press_y);
  const Part *part = canvas_part_of (self, picked);

  *ret_number = self->press_handle;
  if (self->press_part >= 0)
    return self->press_part;
  if (part == NULL || !selection_contains (self->selection, part_key (part)))
    return -1;
  if (part_kind (part) == PART_CHAMBER)
    return grabs_level (self, picked, ret_number) ? picked : -1;
  /* The body of a run is its pieces: a drag bends them. */
  if (part_kind (part) == PART_DRAIN)
    return -1;
  for (unsigned i = 0; i < scene_n_handles (self->scene, picked); i++)
    if (scene_handle (self->scene, picked, i)->body) {
      *ret_number = i;
      return picked;
    }
  return -1;
}

/* A chosen run pulled by its body gets a corner there, in the same step of the history. */
static gboolean
begin_bend (Canvas *self)
{
  Design *design = document_get_design (self->document);
  const Part *run = canvas_part_of (self, canvas_pick (self, self->press_x, self->press_y));
  char key[MAX_KEY_BYTES + 1];
  g_autoptr (Design) bent = NULL;
  Problem problem = {.code = PROBLEM_NONE};
  double station;

  if (run == NULL || (part_kind (run) != PART_DRAIN && part_kind (run) != PART_RETURN) ||
      g_strcmp0 (part_key (run), selection_get_key (self->selection)) != 0 ||
      !canvas_station_at (self, design, run, self->press_x, self->press_y, &station, NULL))
    return FALSE;
  bent = edit_add_corner (design, part_key (run), station, key, &problem);
  if (bent == NULL) {
    g_autofree char *sentence = g_strdup_printf (_ ("Not possible: %s."), _ (problem_text (problem.code)));

    canvas_tell (self, sentence);
    return FALSE;
  }
  document_begin (self->document, _ ("Add corner"));
  document_apply (self->document, bent, _ ("Add corner"));
  if (canvas_drag_begin (self, design_index (document_get_design (self->document), key), 0)) {
    self->drag.made = TRUE;
    return TRUE;
  }
  document_cancel (self->document);
  return FALSE;
}

/* A number typed while dragging is for the handle, wherever the keyboard was before: in a list of the inspector, say. */
static void
take_keyboard (Canvas *self)
{
  CanvasPart *child = canvas_child (self, selection_get_key (self->selection));

  if (gtk_widget_get_focus_child (GTK_WIDGET (self)) == NULL)
    gtk_widget_grab_focus (child != NULL ? GTK_WIDGET (child) : GTK_WIDGET (self));
}

/* What a press becomes now that it moves. */
static CanvasActivity
begin_activity (Canvas *self, CanvasHold hold)
{
  unsigned number;
  const int part = grabbed (self, &number);

  if (part < 0 && (hold & CANVAS_HOLD_STRAIGHT) != 0)
    return CANVAS_BANDING;
  if ((part >= 0 && canvas_drag_begin (self, part, number)) || (part < 0 && begin_bend (self)))
    return CANVAS_DRAGGING;
  return CANVAS_PANNING;
}

static void
on_drag (GtkGestureDrag *gesture, double dx, double dy, Canvas *self)
{
  const CanvasHold hold = hold_of (GTK_EVENT_CONTROLLER (gesture));

  if (self->activity != CANVAS_PANNING && (canvas_measuring (self) || canvas_entry_is_open (self)))
    return;
  if (self->activity == CANVAS_PRESSED) {
    if (!gtk_drag_check_threshold (GTK_WIDGET (self), 0, 0, (int) dx, (int) dy))
      return;
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
    take_keyboard (self);
    self->activity = begin_activity (self, hold);
    /* A corner in hand is what the person works on, not its run. */
    if (self->activity == CANVAS_DRAGGING && !selection_contains (self->selection, self->drag.key))
      selection_set_key (self->selection, self->drag.key);
    update_hover (self);
  }
  if (self->activity == CANVAS_BANDING) {
    canvas_band_to (self, dx, dy);
  } else if (self->activity == CANVAS_DRAGGING) {
    canvas_drag_to (self, dx, dy, hold);
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
  const CanvasHold hold = hold_of (GTK_EVENT_CONTROLLER (gesture));

  self->activity = CANVAS_IDLE;
  if (was == CANVAS_PANNING)
    canvas_settle (self);
  else if (canvas_entry_is_open (self))
    return;
  else if (was == CANVAS_DRAGGING)
    canvas_drag_end (self);
  else if (was == CANVAS_BANDING)
    canvas_band_end (self);
  else if (was == CANVAS_PRESSED && canvas_measuring (self))
    canvas_measure_click (self, self->press_x, self->press_y, hold);
  else if (was == CANVAS_PRESSED)
    click (self, self->press_x, self->press_y, hold);
  if (self->document != NULL)
    update_hover (self);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, Canvas *self)
{
  self->activity = CANVAS_IDLE;
  if (self->document == NULL)
    return;
  if (canvas_entry_is_open (self))
    canvas_entry_cancel (self);
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

static void
on_pressed (GtkGestureClick *gesture, int n_press, double x, double y, Canvas *self)
{
  self->press_twice = n_press % 2 == 0;
}

/* The secondary button: on what is under it, unless that is among the chosen parts. */
static void
on_menu (GtkGestureClick *gesture, int n_press, double x, double y, Canvas *self)
{
  const Part *part;

  if (self->document == NULL)
    return;
  canvas_measure_end (self);
  part = canvas_part_of (self, canvas_pick (self, x, y));
  if (part == NULL)
    selection_set_key (self->selection, NULL);
  else if (!selection_contains (self->selection, part_key (part)))
    selection_set_key (self->selection, part_key (part));
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  canvas_menu_popup (self, x, y);
}

static void
add_clicks (Canvas *self)
{
  GtkGesture *twice = gtk_gesture_click_new (), *menu = gtk_gesture_click_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  g_signal_connect (menu, "pressed", G_CALLBACK (on_menu), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (menu));
  g_signal_connect (twice, "pressed", G_CALLBACK (on_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (twice));
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
  add_clicks (self);
  self->drag_gesture = drag;
}
