/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Exact values of the handle in hand: a number typed during a drag, or right after a handle was taken, opens one entry for
 * each way that the handle goes. Enter sets them as one step of the history, Escape leaves everything as it was. */
#include <glib/gi18n.h>

#include "app/canvas/canvas-moves.h"
#include "app/canvas/canvas-private.h"
#include "app/common/quantity-entry.h"
#include "app/common/quantity-words.h"
#include "report/words.h"

#define AXIS_DATA "axis"

gboolean
canvas_entry_is_open (Canvas *self)
{
  return self->entry != NULL && gtk_widget_get_visible (self->entry);
}

static void
close_entry (Canvas *self)
{
  gtk_widget_set_visible (self->entry, FALSE);
  gtk_widget_grab_focus (canvas_child (self, selection_get_key (self->selection)) != NULL
                             ? GTK_WIDGET (canvas_child (self, selection_get_key (self->selection)))
                             : GTK_WIDGET (self));
}

void
canvas_entry_cancel (Canvas *self)
{
  if (!canvas_entry_is_open (self))
    return;
  self->entry_closing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (self->entries); i++)
    if (self->entries[i] != NULL)
      quantity_entry_restore (DOWNCOMER_QUANTITY_ENTRY (self->entries[i]));
  canvas_drag_cancel (self);
  close_entry (self);
  self->entry_closing = FALSE;
}

/* Takes what was typed; stays open where it is refused. */
gboolean
canvas_entry_finish (Canvas *self)
{
  if (!canvas_entry_is_open (self) || self->entry_closing)
    return TRUE;
  self->entry_closing = TRUE;
  self->entry_refused = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (self->entries); i++)
    if (self->entries[i] != NULL)
      quantity_entry_apply (DOWNCOMER_QUANTITY_ENTRY (self->entries[i]));
  if (!self->entry_refused) {
    canvas_drag_end (self);
    close_entry (self);
  }
  self->entry_closing = FALSE;
  return !self->entry_refused;
}

static void
on_entered (QuantityEntry *entry, double value, Canvas *self)
{
  const SceneAxis axis = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (entry), AXIS_DATA));
  const CanvasMove *lead = self->drag.moves != NULL ? canvas_moves_lead (self->drag.moves, axis) : NULL;
  Problem problem = {.code = PROBLEM_NONE};
  g_autofree char *sentence = NULL;

  if (lead == NULL || canvas_drag_set (self, axis, value, &problem)) {
    quantity_entry_set_value (entry, value, FALSE);
    return;
  }
  sentence = quantity_words_refusal (
      &problem, lead->field, gtk_editable_get_text (GTK_EDITABLE (entry)),
      document_get_style (self->document),
      units_unit_for (field_info (lead->field)->quantity, document_get_style (self->document)));
  quantity_entry_refuse (entry, sentence);
}

/* What was not understood, or refused. */
static void
on_problem (Canvas *self, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (self->entry_problem), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->entry_problem, sentence != NULL);
  if (sentence != NULL)
    self->entry_refused = TRUE;
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

static void
on_activate (Canvas *self)
{
  canvas_entry_finish (self);
}

static gboolean
on_entry_key (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
              Canvas *self)
{
  if (keyval != GDK_KEY_Escape)
    return FALSE;
  canvas_entry_cancel (self);
  return TRUE;
}

/* The focus has gone elsewhere: what was typed counts, as in every entry, unless it cannot. */
static void
on_entry_left (Canvas *self)
{
  if (self->document == NULL || gtk_widget_in_destruction (GTK_WIDGET (self)))
    return;
  if (!canvas_entry_finish (self))
    canvas_entry_cancel (self);
}

static void
ensure_box (Canvas *self)
{
  GtkEventController *keys, *focus;

  if (self->entry != NULL)
    return;
  self->entry = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  self->entry_problem = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->entry_problem), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->entry_problem), 30);
  gtk_label_set_xalign (GTK_LABEL (self->entry_problem), 0);
  gtk_widget_add_css_class (self->entry_problem, "stop");
  gtk_widget_add_css_class (self->entry, "canvas-entry");
  gtk_box_append (GTK_BOX (self->entry), self->entry_problem);
  keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_entry_key), self);
  gtk_widget_add_controller (self->entry, keys);
  focus = gtk_event_controller_focus_new ();
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (on_entry_left), self);
  gtk_widget_add_controller (self->entry, focus);
  gtk_widget_insert_after (self->entry, GTK_WIDGET (self), NULL);
}

/* A row with the name of the field and its entry. */
static GtkWidget *
add_row (Canvas *self, const CanvasMove *lead)
{
  const FieldInfo *info = field_info (lead->field);
  const NumberStyle *style = document_get_style (self->document);
  const Design *design = document_get_design (self->document);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new (words_field (lead->field));
  GtkWidget *entry = quantity_entry_new (info->quantity);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), entry);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), entry);
  g_object_set_data (G_OBJECT (entry), AXIS_DATA, GUINT_TO_POINTER ((guint) lead->axis));
  quantity_entry_set_style (DOWNCOMER_QUANTITY_ENTRY (entry), style, units_unit_for (info->quantity, style),
                            FALSE);
  quantity_entry_set_value (DOWNCOMER_QUANTITY_ENTRY (entry),
                            design_number (design, design_find (design, lead->key), lead->field), FALSE);
  g_signal_connect (entry, "entered", G_CALLBACK (on_entered), self);
  g_signal_connect_swapped (entry, "problem", G_CALLBACK (on_problem), self);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (on_activate), self);
  gtk_box_insert_child_after (GTK_BOX (self->entry), row, NULL);
  return entry;
}

/* Where nothing is dragged, the handle held last, else the first of the part in work, is taken into the hand. */
static gboolean
take_handle (Canvas *self)
{
  int part =
      self->held_key != NULL ? design_index (document_get_design (self->document), self->held_key) : -1;
  unsigned number = 0;

  if (canvas_dragging (self))
    return TRUE;
  if (part < 0)
    part = canvas_selected (self);
  if (part < 0 || scene_n_handles (self->scene, part) == 0)
    return FALSE;
  for (unsigned i = 0; i < scene_n_handles (self->scene, part); i++)
    if (canvas_is_held (self, part, i))
      number = i;
  if (canvas_is_size (scene_handle (self->scene, part, number)))
    return FALSE;
  canvas_nudge_end (self);
  return canvas_drag_begin (self, part, number);
}

gboolean
canvas_entry_open (Canvas *self, const char *text)
{
  GtkWidget *first = NULL, *child;
  const SceneHandle *handle;

  if (canvas_entry_is_open (self))
    return FALSE;
  /* A size is a word of the catalogue, which the panel of values reads. */
  if (canvas_dragging (self) && canvas_is_size (&self->drag.handle)) {
    g_autofree char *run = g_strdup (self->drag.key);

    canvas_drag_cancel (self);
    canvas_edit (self, run);
    return TRUE;
  }
  if (!take_handle (self))
    return FALSE;
  ensure_box (self);
  self->entry_closing = TRUE; /* while the old rows go */
  while ((child = gtk_widget_get_first_child (self->entry)) != self->entry_problem)
    gtk_box_remove (GTK_BOX (self->entry), child);
  self->entry_closing = FALSE;
  on_problem (self, NULL);
  for (guint axis = N_SCENE_AXES; axis-- > 0;) {
    const CanvasMove *lead = canvas_moves_lead (self->drag.moves, (SceneAxis) axis);

    self->entries[axis] = lead != NULL ? add_row (self, lead) : NULL;
    /* What is typed is meant for the way that the hand has gone. */
    if (lead != NULL && (first == NULL || self->drag.engaged[axis] || !self->drag.engaged[!axis]))
      first = self->entries[axis];
  }
  handle = scene_handle (self->scene, design_index (document_get_design (self->document), self->drag.key),
                         self->drag.number);
  self->entry_x = handle != NULL ? view_x (&self->view, handle->x) : self->view.width / 2;
  self->entry_y = handle != NULL ? view_y (&self->view, handle->z) : self->view.height / 2;
  canvas_hide_note (self);
  gtk_widget_set_visible (self->entry, TRUE);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_grab_focus (first);
  if (text != NULL) {
    gtk_editable_set_text (GTK_EDITABLE (first), text);
    gtk_editable_set_position (GTK_EDITABLE (first), -1);
  }
  return TRUE;
}
