/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/field-row.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/common/curve-editor.h"
#include "app/common/formula-button.h"
#include "app/common/label-text.h"
#include "app/common/quantity-entry.h"
#include "app/common/quantity-words.h"
#include "app/common/template.h"
#include "app/common/typed-text.h"
#include "app/inspector/consequence.h"
#include "app/inspector/field-choices.h"
#include "report/words.h"

struct _FieldRow {
  GtkBox parent_instance;

  Document *document; /* not owned: the inspector outlives its rows */
  FieldUnits *units;
  FieldId field;
  char *key;

  GtkLabel *label, *problem_label, *consequence_label;
  GtkBox *slot, *consequence_box;
  GtkButton *reset;
  GtkWidget *control;
  GtkWidget *formula; /* button, where the consequence was computed in steps, or NULL */
  GtkWidget *slider;  /* of what is set by feeling, or NULL */
  gboolean refreshing;
};

G_DEFINE_FINAL_TYPE (FieldRow, field_row, GTK_TYPE_BOX)

static const FieldInfo *
info_of (FieldRow *self)
{
  return field_info (self->field);
}

static void
set_problem (FieldRow *self, const char *sentence)
{
  label_text_set (self->problem_label, sentence);
}

/* The widget that has focus and accessible name. */
static GtkWidget *
focus_widget (FieldRow *self)
{
  if (DOWNCOMER_IS_FIELD_CHOICES (self->control))
    return field_choices_get_drop_down (DOWNCOMER_FIELD_CHOICES (self->control));
  if (DOWNCOMER_IS_CURVE_EDITOR (self->control))
    return curve_editor_get_button (DOWNCOMER_CURVE_EDITOR (self->control));
  return self->control;
}

/* Changes */

static const Unit *
unit_of (FieldRow *self)
{
  return field_units_get (self->units, self->field, document_get_style (self->document));
}

static void
refuse (FieldRow *self, const Problem *problem, const char *text)
{
  g_autofree char *sentence = quantity_words_refusal (problem, self->field, text,
                                                      document_get_style (self->document), unit_of (self));

  if (DOWNCOMER_IS_QUANTITY_ENTRY (self->control))
    quantity_entry_refuse (DOWNCOMER_QUANTITY_ENTRY (self->control), sentence);
  else
    set_problem (self, sentence);
}

static void
set_number (FieldRow *self, double value, const char *text)
{
  Problem problem = {0};

  set_problem (self, NULL);
  if (!document_set_number (self->document, self->key, self->field, value, &problem))
    refuse (self, &problem, text);
}

static gboolean
set_text (FieldRow *self, const char *text)
{
  Problem problem = {0};

  set_problem (self, NULL);
  if (document_set_text (self->document, self->key, self->field, text, &problem))
    return TRUE;
  refuse (self, &problem, text);
  return FALSE;
}

static void
unset (FieldRow *self)
{
  Problem problem = {0};

  set_problem (self, NULL);
  if (!document_unset (self->document, self->key, self->field, &problem))
    refuse (self, &problem, NULL);
}

static void
on_reset (FieldRow *self)
{
  if (DOWNCOMER_IS_QUANTITY_ENTRY (self->control))
    quantity_entry_restore (DOWNCOMER_QUANTITY_ENTRY (self->control));
  gtk_widget_grab_focus (focus_widget (self));
  unset (self);
}

static void
on_quantity (FieldRow *self, double value)
{
  set_number (self, value, gtk_editable_get_text (GTK_EDITABLE (self->control)));
}

static void
on_problem (FieldRow *self, const char *sentence)
{
  set_problem (self, sentence);
}

static void
on_step_begin (FieldRow *self)
{
  g_autofree char *label = g_strdup_printf (_ ("Change %s"), words_field (self->field));

  document_begin (self->document, label);
}

static void
on_step_end (FieldRow *self)
{
  document_end (self->document);
}

static void
on_unit (FieldRow *self, const char *word)
{
  field_units_set (self->units, self->field, word);
}

static void
on_chosen (FieldRow *self, const char *value)
{
  if (info_of (self)->type == FIELD_CHOICE)
    set_number (self, g_ascii_strtod (value, NULL), NULL);
  else
    set_text (self, value);
  field_row_refresh (self);
}

static void
on_switch (FieldRow *self)
{
  if (!self->refreshing)
    set_number (self, gtk_switch_get_active (GTK_SWITCH (self->control)) ? 1 : 0, NULL);
}

/* Texts */

static const char *
stored_text (FieldRow *self)
{
  Design *design = document_get_design (self->document);
  const Part *part = design_find (design, self->key);
  const char *text = part != NULL ? design_text (design, part, self->field) : NULL;

  return text != NULL ? text : "";
}

static void
show_text (FieldRow *self)
{
  typed_text_show (GTK_EDITABLE (self->control), stored_text (self));
}

static void
apply_text (FieldRow *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->control));

  if (self->key == NULL || g_str_equal (text, stored_text (self))) {
    set_problem (self, NULL);
    gtk_widget_remove_css_class (self->control, "refused");
  } else if (text[0] == '\0') {
    unset (self);
  } else if (set_text (self, text)) {
    gtk_widget_remove_css_class (self->control, "refused");
  } else {
    gtk_widget_add_css_class (self->control, "refused");
  }
}

static void
on_text_leave (FieldRow *self)
{
  if (!gtk_widget_in_destruction (GTK_WIDGET (self)))
    apply_text (self);
}

static gboolean
on_text_key (FieldRow *self, guint key)
{
  if (key != GDK_KEY_Escape ||
      g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->control)), stored_text (self)))
    return FALSE;
  show_text (self);
  apply_text (self);
  return TRUE;
}

/* Controls */

static GtkWidget *
build_text (FieldRow *self)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (on_text_leave), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_text_key), self);
  gtk_widget_add_controller (entry, focus);
  gtk_widget_add_controller (entry, keys);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (apply_text), self);
  return entry;
}

static GtkWidget *
build_quantity (FieldRow *self)
{
  GtkWidget *entry = quantity_entry_new (info_of (self)->quantity);

  g_signal_connect_swapped (entry, "entered", G_CALLBACK (on_quantity), self);
  g_signal_connect_swapped (entry, "cleared", G_CALLBACK (unset), self);
  g_signal_connect_swapped (entry, "problem", G_CALLBACK (on_problem), self);
  g_signal_connect_swapped (entry, "step-begin", G_CALLBACK (on_step_begin), self);
  g_signal_connect_swapped (entry, "step-end", G_CALLBACK (on_step_end), self);
  g_signal_connect_swapped (entry, "unit", G_CALLBACK (on_unit), self);
  return entry;
}

static gboolean
on_slide (FieldRow *self, GtkScrollType scroll, double value)
{
  const FieldInfo *info = info_of (self);

  if (!self->refreshing)
    set_number (self, CLAMP (round (value * 100) / 100, info->min, info->max), NULL);
  return TRUE;
}

/* One pull at the slider is one step of the history. */
static gboolean
on_slider_event (FieldRow *self, GdkEvent *event)
{
  if (gdk_event_get_event_type (event) == GDK_BUTTON_PRESS)
    on_step_begin (self);
  else if (gdk_event_get_event_type (event) == GDK_BUTTON_RELEASE)
    on_step_end (self);
  return FALSE;
}

/* Pump speed and valve opening are found by feeling, so they have a slider under their entry. */
static void
add_slider (FieldRow *self)
{
  const FieldInfo *info = info_of (self);
  GtkEventController *events;

  if (self->field != FIELD_PUMP_SPEED && self->field != FIELD_FITTING_OPENING)
    return;
  events = gtk_event_controller_legacy_new ();
  self->slider = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, info->min, info->max, 0.01);
  gtk_widget_set_margin_start (self->slider, 128);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->slider), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words_field (self->field), -1);
  g_signal_connect_swapped (self->slider, "change-value", G_CALLBACK (on_slide), self);
  gtk_event_controller_set_propagation_phase (events, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (events, "event", G_CALLBACK (on_slider_event), self);
  gtk_widget_add_controller (self->slider, events);
  gtk_box_insert_child_after (GTK_BOX (self), self->slider, gtk_widget_get_first_child (GTK_WIDGET (self)));
}

static void
add_formula (FieldRow *self)
{
  if (consequence_steps (self->field) == NULL)
    return;
  self->formula = formula_button_new ();
  formula_button_name (self->formula, words_field (self->field));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->formula), "inspector.explain-field");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->formula), "i", (int) self->field);
  gtk_box_append (self->consequence_box, self->formula);
}

static GtkWidget *
build_control (FieldRow *self)
{
  GtkWidget *control;

  switch (info_of (self)->type) {
  case FIELD_NUMBER:
    return build_quantity (self);
  case FIELD_FLAG:
    control = gtk_switch_new ();
    gtk_widget_set_halign (control, GTK_ALIGN_START);
    gtk_widget_set_valign (control, GTK_ALIGN_CENTER);
    g_signal_connect_swapped (control, "notify::active", G_CALLBACK (on_switch), self);
    return control;
  case FIELD_CURVE:
    return curve_editor_new (self->document, self->field);
  case FIELD_CHOICE:
  case FIELD_REF:
  case FIELD_PIPE:
  case FIELD_PART:
    control = field_choices_new (self->field);
    g_signal_connect_swapped (control, "chosen", G_CALLBACK (on_chosen), self);
    return control;
  case FIELD_TEXT:
  case N_FIELD_TYPES:
    break;
  }
  return build_text (self);
}

/* Follow the document */

static void
show_control (FieldRow *self, Design *design, const Part *part)
{
  const NumberStyle *style = document_get_style (self->document);

  switch (info_of (self)->type) {
  case FIELD_NUMBER:
    quantity_entry_set_style (DOWNCOMER_QUANTITY_ENTRY (self->control), style, unit_of (self),
                              field_units_is_own (self->units, self->field));
    quantity_entry_set_value (DOWNCOMER_QUANTITY_ENTRY (self->control),
                              design_number (design, part, self->field), !part_is_given (part, self->field));
    if (self->slider != NULL)
      gtk_range_set_value (GTK_RANGE (self->slider), design_number (design, part, self->field));
    break;
  case FIELD_FLAG:
    gtk_switch_set_active (GTK_SWITCH (self->control), design_choice (design, part, self->field) != 0);
    break;
  case FIELD_CURVE:
    curve_editor_refresh (DOWNCOMER_CURVE_EDITOR (self->control), self->key);
    break;
  case FIELD_CHOICE:
  case FIELD_REF:
  case FIELD_PIPE:
  case FIELD_PART:
    field_choices_refresh (DOWNCOMER_FIELD_CHOICES (self->control), design,
                           document_get_catalogue (self->document), part);
    break;
  case FIELD_TEXT:
  case N_FIELD_TYPES:
    if (!(gtk_widget_get_state_flags (self->control) & GTK_STATE_FLAG_FOCUS_WITHIN))
      show_text (self);
    break;
  }
}

/* Help, where the value comes from, and its exact figure. */
static void
show_help (FieldRow *self, Design *design, const Part *part)
{
  const FieldInfo *info = info_of (self);
  const char *help = words_help (self->field), *basis = words_basis (self->field);
  const gboolean given = part_is_given (part, self->field);
  g_autofree char *assumed = given              ? NULL
                             : basis[0] != '\0' ? g_strdup_printf (_ ("Assumed: %s."), basis)
                                                : g_strdup (_ ("Not given."));
  g_autofree char *exact = NULL;
  g_autofree char *text = NULL;
  g_autofree char *spoken = NULL;

  if (info->type == FIELD_NUMBER) {
    g_autofree char *value = units_format (design_number (design, part, self->field), info->quantity,
                                           document_get_style (self->document), unit_of (self), UNITS_EXACT);

    exact = g_strdup_printf (given ? _ ("Exactly %s.") : _ ("Exactly %s, until it is given."), value);
  }
  text = g_strjoin ("\n", help,
                    exact != NULL     ? exact
                    : assumed != NULL ? assumed
                                      : "",
                    exact != NULL ? assumed : NULL, NULL);
  g_strchomp (text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), text);
  spoken = g_strjoin (" ", help, assumed, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (focus_widget (self)), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  spoken, -1);
}

void
field_row_refresh (FieldRow *row)
{
  Design *design;
  const Part *part;
  g_autofree char *consequence = NULL;
  gboolean given;

  g_return_if_fail (DOWNCOMER_IS_FIELD_ROW (row));
  design = document_get_design (row->document);
  part = row->key != NULL ? design_find (design, row->key) : NULL;
  if (part == NULL || part_kind (part) != info_of (row)->kind)
    return;
  gtk_widget_set_visible (GTK_WIDGET (row), design_applies (design, part, row->field));
  row->refreshing = TRUE;
  show_control (row, design, part);
  row->refreshing = FALSE;
  show_help (row, design, part);
  given = part_is_given (part, row->field);
  gtk_widget_set_sensitive (GTK_WIDGET (row->reset), given);
  gtk_widget_set_opacity (GTK_WIDGET (row->reset), given ? 1 : 0);
  consequence =
      consequence_words (design, document_get_evaluation (row->document), design_index (design, row->key),
                         row->field, document_get_style (row->document));
  label_text_set (row->consequence_label, consequence);
  gtk_widget_set_visible (GTK_WIDGET (row->consequence_box), consequence != NULL);
}

void
field_row_set_part (FieldRow *row, const char *key)
{
  g_return_if_fail (DOWNCOMER_IS_FIELD_ROW (row));
  if (g_strcmp0 (key, row->key) != 0) {
    g_free (row->key);
    row->key = g_strdup (key);
    set_problem (row, NULL);
    gtk_widget_remove_css_class (row->control, "refused");
    if (DOWNCOMER_IS_QUANTITY_ENTRY (row->control))
      quantity_entry_restore (DOWNCOMER_QUANTITY_ENTRY (row->control));
    else if (info_of (row)->type == FIELD_TEXT)
      show_text (row);
  }
  field_row_refresh (row);
}

FieldId
field_row_get_field (FieldRow *row)
{
  return row->field;
}

GtkWidget *
field_row_get_control (FieldRow *row)
{
  return row->control;
}

GtkWidget *
field_row_get_slider (FieldRow *row)
{
  return row->slider;
}

GtkWidget *
field_row_get_formula (FieldRow *row)
{
  return row->formula != NULL && gtk_widget_get_visible (GTK_WIDGET (row->consequence_box)) ? row->formula
                                                                                            : NULL;
}

const char *
field_row_get_problem (FieldRow *row)
{
  return gtk_widget_get_visible (GTK_WIDGET (row->problem_label)) ? gtk_label_get_text (row->problem_label)
                                                                  : NULL;
}

static void
field_row_dispose (GObject *object)
{
  FieldRow *self = DOWNCOMER_FIELD_ROW (object);

  if (self->units != NULL)
    g_signal_handlers_disconnect_by_data (self->units, self);
  g_clear_object (&self->units);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_FIELD_ROW);
  G_OBJECT_CLASS (field_row_parent_class)->dispose (object);
}

static void
field_row_finalize (GObject *object)
{
  g_free (DOWNCOMER_FIELD_ROW (object)->key);
  G_OBJECT_CLASS (field_row_parent_class)->finalize (object);
}

static void
field_row_class_init (FieldRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = field_row_dispose;
  G_OBJECT_CLASS (klass)->finalize = field_row_finalize;
  template_set (widget_class, "field-row.ui");
  gtk_widget_class_bind_template_child (widget_class, FieldRow, label);
  gtk_widget_class_bind_template_child (widget_class, FieldRow, slot);
  gtk_widget_class_bind_template_child (widget_class, FieldRow, reset);
  gtk_widget_class_bind_template_child (widget_class, FieldRow, problem_label);
  gtk_widget_class_bind_template_child (widget_class, FieldRow, consequence_box);
  gtk_widget_class_bind_template_child (widget_class, FieldRow, consequence_label);
  gtk_widget_class_bind_template_callback (widget_class, on_reset);
}

static void
field_row_init (FieldRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
field_row_new (Document *document, FieldUnits *units, FieldId field)
{
  FieldRow *self = g_object_new (DOWNCOMER_TYPE_FIELD_ROW, NULL);
  g_autofree char *reset = g_strdup_printf (_ ("Make %s unknown again"), words_field (field));

  self->document = document;
  self->units = g_object_ref (units);
  self->field = field;
  self->control = build_control (self);
  gtk_widget_set_hexpand (self->control, info_of (self)->type != FIELD_FLAG);
  gtk_box_append (self->slot, self->control);
  add_slider (self);
  add_formula (self);
  gtk_label_set_text (self->label, words_field (field));
  gtk_label_set_mnemonic_widget (self->label, focus_widget (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->reset), GTK_ACCESSIBLE_PROPERTY_LABEL, reset, -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->reset), reset);
  g_signal_connect_swapped (self->units, "changed", G_CALLBACK (field_row_refresh), self);
  return GTK_WIDGET (self);
}
