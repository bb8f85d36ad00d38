/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/quantity-entry.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/common/quantity-words.h"
#include "units/parse.h"

struct _QuantityEntry {
  GtkEntry parent_instance;

  Quantity quantity;
  NumberStyle style;
  const Unit *unit;
  double value;
  gboolean assumed, refused, stepping, entering;
  char *shown; /* what the value looks like; another text is being typed */
  GtkWidget *question;
  GSimpleAction *unit_action;
};

G_DEFINE_FINAL_TYPE (QuantityEntry, quantity_entry, GTK_TYPE_ENTRY)

enum {
  SIGNAL_ENTERED,
  SIGNAL_CLEARED,
  SIGNAL_PROBLEM,
  SIGNAL_STEP_BEGIN,
  SIGNAL_STEP_END,
  SIGNAL_UNIT,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static gboolean
is_dirty (QuantityEntry *self)
{
  return g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self)), self->shown) != 0;
}

static void
set_class (GtkWidget *widget, const char *name, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (widget, name);
  else
    gtk_widget_remove_css_class (widget, name);
}

static void
set_problem (QuantityEntry *self, const char *sentence)
{
  const gboolean refused = sentence != NULL;

  if (!refused && !self->refused)
    return;
  self->refused = refused;
  set_class (GTK_WIDGET (self), "refused", refused);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID,
                               refused ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
  g_signal_emit (self, signals[SIGNAL_PROBLEM], 0, sentence);
}

static void
show_value (QuantityEntry *self)
{
  GtkEditable *editable = GTK_EDITABLE (self);
  const int position = gtk_editable_get_position (editable);

  if (g_strcmp0 (gtk_editable_get_text (editable), self->shown) != 0) {
    gtk_editable_set_text (editable, self->shown != NULL ? self->shown : "");
    gtk_editable_set_position (editable, position);
  }
  set_class (GTK_WIDGET (self), "assumed", self->assumed);
}

static void
close_question (QuantityEntry *self)
{
  GtkWidget *question = g_steal_pointer (&self->question);

  if (question != NULL)
    gtk_widget_unparent (question);
}

static void
enter (QuantityEntry *self, double value)
{
  set_problem (self, NULL);
  self->entering = TRUE;
  g_signal_emit (self, signals[SIGNAL_ENTERED], 0, value);
  self->entering = FALSE;
  if (!self->refused)
    show_value (self);
}

static void
on_reading (GtkButton *button, QuantityEntry *self)
{
  const double *value = g_object_get_data (G_OBJECT (button), "value");
  const double chosen = *value;

  gtk_popover_popdown (GTK_POPOVER (self->question));
  enter (self, chosen);
}

/* Dropped in an idle moment, as its own signals are still running. */
static gboolean
drop_question (gpointer data)
{
  QuantityEntry *self = data;

  if (self->question != NULL && !gtk_widget_get_visible (self->question))
    close_question (self);
  return G_SOURCE_REMOVE;
}

static void
on_question_closed (QuantityEntry *self)
{
  g_idle_add_full (G_PRIORITY_DEFAULT, drop_question, g_object_ref (self), g_object_unref);
}

static void
ask (QuantityEntry *self, const char *text, const UnitsParseDetail *detail)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  g_autofree char *sentence = g_strdup_printf (_ ("What does “%s” mean?"), text);
  GtkWidget *heading = gtk_label_new (sentence);

  close_question (self);
  gtk_widget_add_css_class (heading, "group");
  gtk_box_append (GTK_BOX (box), heading);
  for (guint i = 0; i < detail->n_readings; i++) {
    GtkWidget *button = gtk_button_new_with_label (detail->reading[i].text);

    g_object_set_data_full (G_OBJECT (button), "value",
                            g_memdup2 (&detail->reading[i].value, sizeof (double)), g_free);
    gtk_widget_add_css_class (button, "figures");
    g_signal_connect (button, "clicked", G_CALLBACK (on_reading), self);
    gtk_box_append (GTK_BOX (box), button);
  }
  self->question = gtk_popover_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->question), GTK_ACCESSIBLE_PROPERTY_LABEL, sentence,
                                  -1);
  gtk_popover_set_child (GTK_POPOVER (self->question), box);
  gtk_widget_set_parent (self->question, GTK_WIDGET (self));
  g_signal_connect_swapped (self->question, "closed", G_CALLBACK (on_question_closed), self);
  gtk_popover_popup (GTK_POPOVER (self->question));
}

void
quantity_entry_apply (QuantityEntry *entry)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry)));
  UnitsParseDetail detail;
  UnitsParseStatus status;
  double value = 0;

  g_return_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry));
  if (!is_dirty (entry)) {
    set_problem (entry, NULL);
    return;
  }
  status = units_parse (text, entry->quantity, &entry->style, entry->unit, &value, &detail);
  if (status == UNITS_PARSE_OK) {
    enter (entry, value);
  } else if (status == UNITS_PARSE_EMPTY) {
    quantity_entry_restore (entry);
    g_signal_emit (entry, signals[SIGNAL_CLEARED], 0);
  } else {
    g_autofree char *sentence = quantity_words_problem (status, &detail, text, entry->unit);

    set_problem (entry, sentence);
    if (status == UNITS_PARSE_AMBIGUOUS && gtk_widget_get_mapped (GTK_WIDGET (entry)))
      ask (entry, text, &detail);
  }
}

void
quantity_entry_restore (QuantityEntry *entry)
{
  g_return_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry));
  set_problem (entry, NULL);
  show_value (entry);
}

static void
end_steps (QuantityEntry *self)
{
  if (self->stepping) {
    self->stepping = FALSE;
    g_signal_emit (self, signals[SIGNAL_STEP_END], 0);
  }
}

static void
step (QuantityEntry *self, double steps)
{
  const double shown = unit_from_si (self->unit, self->value);
  const double size = quantity_step (self->quantity, self->unit, shown);
  const double wanted = (round (shown / size) + steps) * size;

  if (!self->stepping) {
    self->stepping = TRUE;
    g_signal_emit (self, signals[SIGNAL_STEP_BEGIN], 0);
  }
  enter (self, unit_to_si (self->unit, wanted));
}

static gboolean
on_key_pressed (QuantityEntry *self, guint key, guint code, GdkModifierType state)
{
  double steps = 0;

  /* Where there is nothing else to undo the window does not hear it. */
  if ((state & GDK_CONTROL_MASK) != 0 && key == GDK_KEY_z && is_dirty (self)) {
    quantity_entry_restore (self);
    return TRUE;
  }
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return FALSE;
  switch (key) {
  case GDK_KEY_Escape:
    if (!is_dirty (self) && !self->refused)
      return FALSE;
    quantity_entry_restore (self);
    return TRUE;
  case GDK_KEY_Up:
  case GDK_KEY_KP_Up:
    steps = 1;
    break;
  case GDK_KEY_Down:
  case GDK_KEY_KP_Down:
    steps = -1;
    break;
  case GDK_KEY_Page_Up:
    steps = 10;
    break;
  case GDK_KEY_Page_Down:
    steps = -10;
    break;
  default:
    return FALSE;
  }
  if (is_dirty (self))
    quantity_entry_apply (self);
  if (!is_dirty (self))
    step (self, steps);
  return TRUE;
}

static void
on_key_released (QuantityEntry *self)
{
  end_steps (self);
}

static void
on_focus_leave (QuantityEntry *self)
{
  end_steps (self);
  if (!gtk_widget_in_destruction (GTK_WIDGET (self)))
    quantity_entry_apply (self);
}

static void
on_unit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  QuantityEntry *self = data;

  g_signal_emit (self, signals[SIGNAL_UNIT], 0, g_variant_get_string (parameter, NULL));
}

static void
quantity_entry_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  QuantityEntry *self = DOWNCOMER_QUANTITY_ENTRY (widget);

  GTK_WIDGET_CLASS (quantity_entry_parent_class)->size_allocate (widget, width, height, baseline);
  if (self->question != NULL)
    gtk_popover_present (GTK_POPOVER (self->question));
}

static void
quantity_entry_dispose (GObject *object)
{
  QuantityEntry *self = DOWNCOMER_QUANTITY_ENTRY (object);

  close_question (self);
  g_clear_object (&self->unit_action);
  G_OBJECT_CLASS (quantity_entry_parent_class)->dispose (object);
}

static void
quantity_entry_finalize (GObject *object)
{
  g_free (DOWNCOMER_QUANTITY_ENTRY (object)->shown);
  G_OBJECT_CLASS (quantity_entry_parent_class)->finalize (object);
}

static guint
signal_with (QuantityEntryClass *klass, const char *name, GType type)
{
  return type == G_TYPE_NONE ? g_signal_new (name, G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                             NULL, NULL, G_TYPE_NONE, 0)
                             : g_signal_new (name, G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                             NULL, NULL, G_TYPE_NONE, 1, type);
}

static void
quantity_entry_class_init (QuantityEntryClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = quantity_entry_dispose;
  G_OBJECT_CLASS (klass)->finalize = quantity_entry_finalize;
  GTK_WIDGET_CLASS (klass)->size_allocate = quantity_entry_size_allocate;
  signals[SIGNAL_ENTERED] = signal_with (klass, "entered", G_TYPE_DOUBLE);
  signals[SIGNAL_CLEARED] = signal_with (klass, "cleared", G_TYPE_NONE);
  signals[SIGNAL_PROBLEM] = signal_with (klass, "problem", G_TYPE_STRING);
  signals[SIGNAL_STEP_BEGIN] = signal_with (klass, "step-begin", G_TYPE_NONE);
  signals[SIGNAL_STEP_END] = signal_with (klass, "step-end", G_TYPE_NONE);
  signals[SIGNAL_UNIT] = signal_with (klass, "unit", G_TYPE_STRING);
}

/* The click that comes in takes all, so that a number typed next is the new value, as after Tab; once inside, a click puts
 * the cursor. A double click takes number and unit: to the toolkit they are two words. */
static void
on_click (QuantityEntry *self, int n_press, double x, double y, GtkGesture *gesture)
{
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self)));
  const gboolean comes_in = n_press == 1 && !gtk_widget_has_focus (text);

  if (!comes_in && n_press != 2)
    return;
  gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
  if (comes_in)
    gtk_widget_grab_focus (GTK_WIDGET (self));
  gtk_editable_select_region (GTK_EDITABLE (self), 0, -1);
}

static void
quantity_entry_init (QuantityEntry *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *click = GTK_EVENT_CONTROLLER (gtk_gesture_click_new ());

  gtk_widget_add_css_class (GTK_WIDGET (self), "figures");
  gtk_editable_set_width_chars (GTK_EDITABLE (self), 8);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key_pressed), self);
  g_signal_connect_swapped (keys, "key-released", G_CALLBACK (on_key_released), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (on_focus_leave), self);
  gtk_event_controller_set_propagation_phase (click, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (on_click), self);
  gtk_widget_add_controller (GTK_WIDGET (self), click);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  g_signal_connect (self, "activate", G_CALLBACK (quantity_entry_apply), NULL);
}

/* The context menu: this quantity in every unit that measures it. */
static void
build_menu (QuantityEntry *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autoptr (GMenu) units = g_menu_new ();
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();
  guint n = 0;

  self->unit_action = g_simple_action_new_stateful ("unit", G_VARIANT_TYPE_STRING, g_variant_new_string (""));
  g_signal_connect (self->unit_action, "activate", G_CALLBACK (on_unit), self);
  g_menu_append (units, _ ("As the project"), "quantity.unit('')");
  for (guint i = 0; i < unit_count (); i++) {
    const Unit *unit = unit_at (i);
    g_autofree char *action = NULL;

    if (!quantity_accepts (self->quantity, unit))
      continue;
    action = g_strdup_printf ("quantity.unit('%s')", unit->word);
    g_menu_append (units, unit->symbol[0] != '\0' ? unit->symbol : _ ("Plain number"), action);
    n++;
  }
  if (n < 2)
    return;
  g_menu_append_submenu (menu, _ ("Show in"), G_MENU_MODEL (units));
  g_action_map_add_action (G_ACTION_MAP (group), G_ACTION (self->unit_action));
  gtk_widget_insert_action_group (GTK_WIDGET (self), "quantity", G_ACTION_GROUP (group));
  gtk_entry_set_extra_menu (GTK_ENTRY (self), G_MENU_MODEL (menu));
}

GtkWidget *
quantity_entry_new (Quantity quantity)
{
  QuantityEntry *self = g_object_new (DOWNCOMER_TYPE_QUANTITY_ENTRY, NULL);

  self->quantity = quantity;
  self->style = number_style_metric ();
  self->unit = units_unit_for (quantity, &self->style);
  build_menu (self);
  return GTK_WIDGET (self);
}

void
quantity_entry_set_style (QuantityEntry *entry, const NumberStyle *style, const Unit *unit, gboolean own_unit)
{
  g_return_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry));
  entry->style = *style;
  entry->unit = unit;
  g_simple_action_set_state (entry->unit_action, g_variant_new_string (own_unit ? unit->word : ""));
}

void
quantity_entry_set_value (QuantityEntry *entry, double value, gboolean assumed)
{
  const gboolean typed = entry->shown != NULL && !entry->entering && is_dirty (entry);

  g_return_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry));
  entry->value = value;
  entry->assumed = assumed;
  g_free (entry->shown);
  entry->shown = units_format (value, entry->quantity, &entry->style, entry->unit, UNITS_BUILD);
  if (!typed)
    show_value (entry);
}

void
quantity_entry_refuse (QuantityEntry *entry, const char *sentence)
{
  g_return_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry));
  set_problem (entry, sentence);
}

gboolean
quantity_entry_is_typed (QuantityEntry *entry)
{
  g_return_val_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry), FALSE);
  return is_dirty (entry);
}

GtkWidget *
quantity_entry_get_question (QuantityEntry *entry)
{
  g_return_val_if_fail (DOWNCOMER_IS_QUANTITY_ENTRY (entry), NULL);
  return entry->question;
}
