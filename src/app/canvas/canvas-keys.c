/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The keyboard: Tab walks the parts in the order of flow and leaves at the ends. Space takes the focused part up, Enter
 * goes to its values. The arrows move the handle of the part that was taken up, and walk while none was. */
#include <glib/gi18n.h>

#include "app/canvas/canvas-private.h"

#define KEY_ZOOM 1.25

static CanvasPart *
focused (Canvas *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self));

  return child != NULL && DOWNCOMER_IS_CANVAS_PART (child) ? DOWNCOMER_CANVAS_PART (child) : NULL;
}

static void
focus_part (Canvas *self, CanvasPart *part)
{
  canvas_nudge_end (self);
  gtk_widget_grab_focus (GTK_WIDGET (part));
  canvas_reveal (self, canvas_part_get_index (part));
}

gboolean
canvas_move_focus (GtkWidget *widget, GtkDirectionType direction)
{
  Canvas *self = DOWNCOMER_CANVAS (widget);
  const int step = direction == GTK_DIR_TAB_FORWARD ? 1 : -1;
  GtkWidget *child = gtk_widget_get_focus_child (widget);
  CanvasPart *from = focused (self), *to = NULL;

  /* Within the entries of a handle Tab goes round. */
  if (child != NULL && child == self->entry)
    return gtk_widget_child_focus (child, direction) || canvas_entry_finish (self);
  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return FALSE;
  if (self->selection == NULL)
    return FALSE;
  if (from != NULL)
    to = canvas_next_child (self, from, step);
  else if (!gtk_widget_has_focus (widget) || step > 0)
    /* Coming in: to the part in work, else to the first or the last. */
    to = canvas_child (self, selection_get_key (self->selection));
  if (to == NULL && from == NULL && (step > 0 || !gtk_widget_has_focus (widget)))
    to = canvas_next_child (self, NULL, step);
  if (to == NULL)
    return FALSE;
  focus_part (self, to);
  return TRUE;
}

static gboolean
walk (Canvas *self, int step)
{
  CanvasPart *to = canvas_next_child (self, focused (self), step);

  if (to == NULL)
    gtk_widget_error_bell (GTK_WIDGET (self));
  else
    focus_part (self, to);
  return TRUE;
}

static gboolean
arrow (Canvas *self, SceneAxis axis, int direction, gboolean far)
{
  CanvasPart *part = focused (self);
  const gboolean taken_up =
      part == NULL || g_strcmp0 (canvas_part_get_key (part), selection_get_key (self->selection)) == 0;

  if (taken_up && canvas_can_nudge (self)) {
    if (!canvas_nudge (self, axis, direction, far) && !canvas_dragging (self))
      canvas_tell (self, axis == AXIS_X ? _ ("In this view this part does not move sideways.")
                                        : _ ("In this view this part does not move up or down."));
    return TRUE;
  }
  return walk (self, axis == AXIS_X ? direction : -direction);
}

static gboolean
escape (Canvas *self)
{
  if (canvas_measuring (self)) {
    canvas_measure_end (self);
    return TRUE;
  }
  if (canvas_dragging (self)) {
    canvas_drag_cancel (self);
    canvas_update_cursor (self);
    return TRUE;
  }
  if (selection_get_key (self->selection) == NULL)
    return FALSE;
  selection_set_key (self->selection, NULL);
  return TRUE;
}

static gboolean
enter (Canvas *self)
{
  CanvasPart *part = focused (self);
  const char *key = part != NULL ? canvas_part_get_key (part) : selection_get_key (self->selection);

  if (key == NULL)
    return FALSE;
  canvas_edit (self, key);
  return TRUE;
}

static gboolean
is_arrow (guint keyval, SceneAxis *ret_axis, int *ret_direction)
{
  static const struct {
    guint keyval, pad;
    SceneAxis axis;
    int direction;
  } arrows[] = {{GDK_KEY_Left, GDK_KEY_KP_Left, AXIS_X, -1},
                {GDK_KEY_Right, GDK_KEY_KP_Right, AXIS_X, 1},
                {GDK_KEY_Up, GDK_KEY_KP_Up, AXIS_Z, 1},
                {GDK_KEY_Down, GDK_KEY_KP_Down, AXIS_Z, -1}};

  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    if (keyval == arrows[i].keyval || keyval == arrows[i].pad) {
      *ret_axis = arrows[i].axis;
      *ret_direction = arrows[i].direction;
      return TRUE;
    }
  return FALSE;
}

/* A digit or sign that begins a number, meant for the handle in hand: where none is, zero and signs zoom. */
static gboolean
begins_number (Canvas *self, guint keyval, char ret_text[8])
{
  const gunichar c = gdk_keyval_to_unicode (keyval);
  const gboolean in_hand = canvas_dragging (self) || self->held_key != NULL;

  if (!(g_unichar_isdigit (c) && (in_hand || c != '0')) &&
      !(canvas_dragging (self) && (c == '-' || c == '.' || c == ',')))
    return FALSE;
  ret_text[g_unichar_to_utf8 (c, ret_text)] = '\0';
  return canvas_dragging (self) || canvas_can_nudge (self);
}

/* Letters that add to the run in work, and remove or measure. */
static gboolean
letter (Canvas *self, guint keyval)
{
  switch (gdk_keyval_to_lower (keyval)) {
  case GDK_KEY_v:
    return canvas_insert (self, "valve"), TRUE;
  case GDK_KEY_u:
    return canvas_insert (self, "union"), TRUE;
  case GDK_KEY_c:
    return canvas_insert (self, "check-valve"), TRUE;
  case GDK_KEY_b:
    return canvas_insert (self, "bulkhead"), TRUE;
  case GDK_KEY_t:
    return canvas_insert_tee (self), TRUE;
  case GDK_KEY_k:
    return canvas_insert_corner (self), TRUE;
  case GDK_KEY_m:
    return canvas_measure_begin (self), TRUE;
  default:
    return FALSE;
  }
}

/* Keys without a modifier but Shift. */
static gboolean
plain_key (Canvas *self, guint keyval)
{
  char number[8];

  if (begins_number (self, keyval, number))
    return canvas_entry_open (self, number);
  switch (keyval) {
  case GDK_KEY_Delete:
  case GDK_KEY_KP_Delete:
  case GDK_KEY_BackSpace:
    return canvas_delete (self);
  case GDK_KEY_Menu:
    canvas_menu_popup_at_part (self);
    return TRUE;
  case GDK_KEY_Escape:
    return escape (self);
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
  case GDK_KEY_ISO_Enter:
    return enter (self);
  case GDK_KEY_space:
  case GDK_KEY_KP_Space:
    if (!self->space_down)
      self->space_used = self->activity != CANVAS_IDLE;
    self->space_down = TRUE;
    canvas_update_cursor (self);
    return TRUE;
  case GDK_KEY_Page_Up:
  case GDK_KEY_KP_Page_Up:
    return canvas_size_step (self, 1), TRUE;
  case GDK_KEY_Page_Down:
  case GDK_KEY_KP_Page_Down:
    return canvas_size_step (self, -1), TRUE;
  case GDK_KEY_plus:
  case GDK_KEY_equal:
  case GDK_KEY_KP_Add:
    canvas_zoom (self, KEY_ZOOM);
    return TRUE;
  case GDK_KEY_minus:
  case GDK_KEY_KP_Subtract:
    canvas_zoom (self, 1 / KEY_ZOOM);
    return TRUE;
  case GDK_KEY_0:
  case GDK_KEY_KP_0:
    canvas_fit (self);
    return TRUE;
  default:
    return letter (self, keyval);
  }
}

static gboolean
with_control (Canvas *self, guint keyval)
{
  switch (keyval) {
  case GDK_KEY_a:
    return canvas_choose_all (self), TRUE;
  case GDK_KEY_c:
    return canvas_copy (self), TRUE;
  case GDK_KEY_x:
    return canvas_cut (self), TRUE;
  case GDK_KEY_v:
    return canvas_paste (self), TRUE;
  case GDK_KEY_d:
    return canvas_duplicate (self), TRUE;
  default:
    return FALSE;
  }
}

static gboolean
on_key (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, Canvas *self)
{
  SceneAxis axis;
  int direction;

  if (self->selection == NULL || canvas_entry_is_open (self))
    return FALSE;
  canvas_untell (self);
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) == 0 &&
      is_arrow (keyval, &axis, &direction))
    return arrow (self, axis, direction, (state & GDK_SHIFT_MASK) != 0);
  /* Any other key ends the undo step of a row of nudges, also the Control of Control+Z before its Z. */
  if (keyval != GDK_KEY_Shift_L && keyval != GDK_KEY_Shift_R)
    canvas_nudge_end (self);
  if (keyval == GDK_KEY_F10 && (state & GDK_SHIFT_MASK) != 0) {
    canvas_menu_popup_at_part (self);
    return TRUE;
  }
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) == GDK_CONTROL_MASK &&
      with_control (self, gdk_keyval_to_lower (keyval)))
    return TRUE;
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return FALSE;
  return plain_key (self, keyval);
}

/* Space chooses when it is let go, unless it served to pan. */
static void
on_key_released (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                 Canvas *self)
{
  CanvasPart *part = focused (self);

  if ((keyval != GDK_KEY_space && keyval != GDK_KEY_KP_Space) || !self->space_down)
    return;
  self->space_down = FALSE;
  if (!self->space_used && part != NULL && (state & GDK_SHIFT_MASK) != 0)
    selection_toggle (self->selection, canvas_part_get_key (part));
  else if (!self->space_used && part != NULL)
    selection_set_key (self->selection, canvas_part_get_key (part));
  canvas_update_cursor (self);
}

static void
on_focus_left (GtkEventControllerFocus *controller, Canvas *self)
{
  self->space_down = FALSE;
  if (self->document != NULL)
    canvas_nudge_end (self);
}

void
canvas_add_keys (Canvas *self)
{
  GtkEventController *keys = gtk_event_controller_key_new (), *focus = gtk_event_controller_focus_new ();

  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect (keys, "key-released", G_CALLBACK (on_key_released), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect (focus, "leave", G_CALLBACK (on_focus_left), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}
