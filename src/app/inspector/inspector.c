/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/inspector.h"

#include <glib/gi18n.h>

#include "app/common/drop-down.h"
#include "app/common/formula-button.h"
#include "app/common/formula-popover.h"
#include "app/common/key-figures.h"
#include "app/common/template.h"
#include "app/common/typed-text.h"
#include "app/inspector/consequence.h"
#include "app/inspector/field-groups.h"
#include "app/inspector/field-row.h"
#include "app/inspector/field-units.h"
#include "app/inspector/parts-box.h"
#include "design/edit.h"
#include "files/files-error.h"
#include "report/explain.h"
#include "report/summary.h"
#include "report/words.h"

struct _Inspector {
  GtkBox parent_instance;

  Document *document;
  Selection *selection;
  FieldUnits *units;

  GtkBox *title_box, *kind_box; /* with the button of the whole calculation */
  GtkWidget *title_formula, *kind_formula;
  GtkBox *head, *overview, *part_page, *parts_slot, *overview_parts_slot, *rows_box, *more_box;
  GtkLabel *title_label, *fault_label, *kind_label, *name_problem;
  GtkButton *owner_button;
  GtkEntry *name_entry;
  GtkExpander *more;
  KeyFigures *figures;
  GtkScrolledWindow *scrolled;
  GtkWidget *chooser, *parts, *overview_parts;
  GPtrArray *keys; /* of char *, those of the chooser behind its first entry */

  PartKind kind;   /* that the rows were built for, or N_PART_KINDS */
  GPtrArray *rows; /* of FieldRow, not owned */
  gboolean refreshing;
};

G_DEFINE_FINAL_TYPE (Inspector, inspector, GTK_TYPE_BOX)

/* The part that is shown, or NULL. */
static const Part *
shown_part (Inspector *self)
{
  const char *key = selection_get_key (self->selection);

  return key != NULL ? design_find (document_get_design (self->document), key) : NULL;
}

/* Rows */

static void
clear_rows (Inspector *self)
{
  GtkWidget *child;

  g_ptr_array_set_size (self->rows, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->rows_box))) != NULL)
    gtk_box_remove (self->rows_box, child);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->more_box))) != NULL)
    gtk_box_remove (self->more_box, child);
  self->kind = N_PART_KINDS;
}

/* One group of rows, primary ones or the others; nothing where the kind has none. */
static void
add_group (Inspector *self, PartKind kind, FieldGroup group, gboolean primary)
{
  GtkBox *box = primary ? self->rows_box : self->more_box;
  const FieldId first = field_first (kind);
  gboolean headed = group == FIELD_GROUP_KIND;

  for (FieldId id = first; id < first + field_count (kind); id++) {
    GtkWidget *row;

    if (field_group (id) != group || field_is_primary (id) != primary)
      continue;
    if (!headed) {
      GtkWidget *heading = gtk_label_new (field_group_name (group));

      gtk_label_set_xalign (GTK_LABEL (heading), 0);
      gtk_widget_add_css_class (heading, "group");
      gtk_box_append (box, heading);
      headed = TRUE;
    }
    row = field_row_new (self->document, self->units, id);
    g_ptr_array_add (self->rows, row);
    gtk_box_append (box, row);
  }
}

static void
build_rows (Inspector *self, PartKind kind)
{
  if (self->kind == kind)
    return;
  clear_rows (self);
  self->kind = kind;
  for (FieldGroup group = 0; group < N_FIELD_GROUPS; group++)
    add_group (self, kind, group, TRUE);
  for (FieldGroup group = 0; group < N_FIELD_GROUPS; group++)
    add_group (self, kind, group, FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->more),
                          gtk_widget_get_first_child (GTK_WIDGET (self->more_box)) != NULL);
}

/* Name */

static void
show_name (Inspector *self)
{
  const Part *part = shown_part (self);
  const char *label = part != NULL && part_label (part) != NULL ? part_label (part) : "";

  typed_text_show (GTK_EDITABLE (self->name_entry), label);
  gtk_widget_set_visible (GTK_WIDGET (self->name_problem), FALSE);
  gtk_widget_remove_css_class (GTK_WIDGET (self->name_entry), "refused");
}

static void
apply_name (Inspector *self)
{
  const Part *part = shown_part (self);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->name_entry));
  g_autoptr (Design) design = NULL;
  Problem problem = {0};

  if (part == NULL || g_strcmp0 (text, part_label (part) != NULL ? part_label (part) : "") == 0)
    return;
  design = edit_rename (document_get_design (self->document), part_key (part), text, &problem);
  if (design != NULL) {
    document_apply (self->document, design, _ ("Rename"));
    show_name (self);
  } else {
    g_autofree char *sentence = files_problem_sentence (&problem, NULL);

    gtk_label_set_text (self->name_problem, sentence);
    gtk_widget_set_visible (GTK_WIDGET (self->name_problem), TRUE);
    gtk_widget_add_css_class (GTK_WIDGET (self->name_entry), "refused");
  }
}

static void
on_name_leave (Inspector *self)
{
  if (self->document != NULL && !gtk_widget_in_destruction (GTK_WIDGET (self)))
    apply_name (self);
}

static gboolean
on_name_key (Inspector *self, guint key)
{
  if (key != GDK_KEY_Escape)
    return FALSE;
  show_name (self);
  return FALSE;
}

static void
on_owner (Inspector *self)
{
  const Part *part = shown_part (self);

  if (part != NULL && part_owner (part) != NULL)
    selection_set_key (self->selection, part_owner (part));
}

/* Chooser: all parts by the way of the water, indented under their owners. */

static void
on_chosen (Inspector *self)
{
  const guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->chooser));

  if (self->refreshing || self->selection == NULL)
    return;
  if (chosen == 0)
    selection_set_key (self->selection, NULL);
  else if (chosen - 1 < self->keys->len)
    selection_set_key (self->selection, g_ptr_array_index (self->keys, chosen - 1));
}

static void
show_chooser (Inspector *self)
{
  Design *design = document_get_design (self->document);
  g_autofree unsigned *depths = NULL;
  g_autofree const char **keys = parts_in_order (design, &depths);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;
  const char *selected = selection_get_key (self->selection);
  guint chosen = 0;

  g_ptr_array_set_size (self->keys, 0);
  g_strv_builder_add (builder, _ ("Overview"));
  for (guint i = 0; keys[i] != NULL; i++) {
    g_autofree char *name = words_part (design, design_find (design, keys[i]));
    g_autoptr (GString) indented = g_string_new (NULL);

    for (unsigned depth = 0; depth < depths[i]; depth++)
      g_string_append (indented, DROP_DOWN_INDENT);
    g_string_append (indented, name);
    g_strv_builder_add (builder, indented->str);
    g_ptr_array_add (self->keys, g_strdup (keys[i]));
    if (g_strcmp0 (keys[i], selected) == 0)
      chosen = i + 1;
  }
  names = g_strv_builder_end (builder);
  self->refreshing = TRUE;
  drop_down_set (GTK_DROP_DOWN (self->chooser), (const char *const *) names, chosen);
  self->refreshing = FALSE;
}

/* Pages */

static void
show_overview (Inspector *self)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  g_autofree char *title = document_dup_title (self->document);

  gtk_label_set_text (self->title_label, title);
  gtk_widget_set_visible (GTK_WIDGET (self->fault_label), evaluation == NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->figures), evaluation != NULL);
  if (evaluation != NULL) {
    g_autoptr (GPtrArray) list = summary_figures (evaluation, document_get_style (self->document));

    key_figures_set (self->figures, list);
  } else {
    g_autofree char *fault =
        g_strdup_printf (_ ("This design cannot be computed: %s."),
                         system_status_text (document_get_status (self->document, NULL)));

    gtk_label_set_text (self->fault_label, fault);
  }
  parts_box_refresh (DOWNCOMER_PARTS_BOX (self->overview_parts), NULL);
}

/* A heading over rows of which none applies goes with them. */
static void
show_headings (GtkBox *box)
{
  GtkWidget *heading = NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (box)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!DOWNCOMER_IS_FIELD_ROW (child)) {
      heading = child;
      gtk_widget_set_visible (heading, FALSE);
    } else if (heading != NULL && gtk_widget_get_visible (child)) {
      gtk_widget_set_visible (heading, TRUE);
    }
}

static void
show_part (Inspector *self, const Part *part, gboolean other)
{
  Design *design = document_get_design (self->document);
  const Part *owner = design_owner (design, part);
  g_autofree char *name = words_part (design, part);
  const char *key = part_key (part);

  gtk_label_set_text (self->kind_label, _ (part_kind_name (part_kind (part))));
  gtk_entry_set_placeholder_text (self->name_entry, name);
  if (other || !(gtk_widget_get_state_flags (GTK_WIDGET (self->name_entry)) & GTK_STATE_FLAG_FOCUS_WITHIN))
    show_name (self);
  gtk_widget_set_visible (GTK_WIDGET (self->owner_button), owner != NULL);
  if (owner != NULL) {
    g_autofree char *owner_name = words_part (design, owner);
    g_autofree char *words = g_strdup_printf (_ ("of %s"), owner_name);

    if (g_strcmp0 (gtk_button_get_label (self->owner_button), words) != 0)
      gtk_button_set_label (self->owner_button, words);
  }
  build_rows (self, part_kind (part));
  for (guint i = 0; i < self->rows->len; i++)
    field_row_set_part (g_ptr_array_index (self->rows, i), key);
  show_headings (self->rows_box);
  show_headings (self->more_box);
  parts_box_refresh (DOWNCOMER_PARTS_BOX (self->parts), key);
}

static void
refresh (Inspector *self, gboolean other)
{
  const Part *part = shown_part (self);

  show_chooser (self);
  gtk_widget_set_visible (GTK_WIDGET (self->overview), part == NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->part_page), part != NULL);
  if (part == NULL)
    show_overview (self);
  else
    show_part (self, part, other);
}

static void
on_document_changed (Inspector *self)
{
  if (selection_get_key (self->selection) != NULL && shown_part (self) == NULL)
    selection_set_key (self->selection, NULL); /* it was removed; comes back through on_selected */
  else
    refresh (self, FALSE);
}

static void
on_selected (Inspector *self)
{
  /* What was being typed belongs to the part that is left. */
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->part_page)))
    gtk_widget_grab_focus (self->chooser);
  refresh (self, TRUE);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scrolled), 0);
}

static void
let_go (Inspector *self)
{
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  clear_rows (self);
  if (self->parts != NULL)
    gtk_box_remove (self->parts_slot, self->parts);
  if (self->overview_parts != NULL)
    gtk_box_remove (self->overview_parts_slot, self->overview_parts);
  self->parts = self->overview_parts = NULL;
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
}

void
inspector_set_model (Inspector *inspector, Document *document, Selection *selection)
{
  g_return_if_fail (DOWNCOMER_IS_INSPECTOR (inspector));
  g_return_if_fail ((document == NULL) == (selection == NULL));
  let_go (inspector);
  if (document == NULL)
    return;
  inspector->document = g_object_ref (document);
  inspector->selection = g_object_ref (selection);
  inspector->parts = parts_box_new (document, selection);
  inspector->overview_parts = parts_box_new (document, selection);
  gtk_box_append (inspector->parts_slot, inspector->parts);
  gtk_box_append (inspector->overview_parts_slot, inspector->overview_parts);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_document_changed), inspector);
  g_signal_connect_swapped (selection, "notify::key", G_CALLBACK (on_selected), inspector);
  refresh (inspector, TRUE);
}

GtkWidget *
inspector_get_row (Inspector *inspector, FieldId field)
{
  g_return_val_if_fail (DOWNCOMER_IS_INSPECTOR (inspector), NULL);
  for (guint i = 0; i < inspector->rows->len; i++) {
    FieldRow *row = g_ptr_array_index (inspector->rows, i);

    if (field_row_get_field (row) != field)
      continue;
    if (!field_is_primary (field))
      gtk_expander_set_expanded (inspector->more, TRUE);
    return GTK_WIDGET (row);
  }
  return NULL;
}

/* Calculations. They are written down anew when asked for: a trace costs an evaluation, which is less than a frame. */

static void
explain (Inspector *self, GtkWidget *at, int part, const StepId *ids)
{
  g_autoptr (Trace) trace = trace_new ();
  Evaluation *evaluation = evaluation_new ();
  Design *design = document_get_design (self->document);
  SystemStatus status;
  int fault;

  if (evaluate_design (design, document_get_catalogue (self->document), trace, evaluation, &status, &fault)) {
    g_autoptr (GPtrArray) steps =
        explain_steps_of (design, trace, part, ids, document_get_style (self->document));

    formula_popover_open (at, gtk_widget_get_tooltip_text (at), steps);
  } else {
    gtk_widget_error_bell (GTK_WIDGET (self));
  }
  evaluation_free (evaluation);
}

static void
on_explain (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Inspector *self = DOWNCOMER_INSPECTOR (widget);
  const Part *part = shown_part (self);

  if (part != NULL)
    explain (self, self->kind_formula, design_index (document_get_design (self->document), part_key (part)),
             NULL);
  else
    explain (self, self->title_formula, -1, NULL);
}

static void
on_explain_field (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Inspector *self = DOWNCOMER_INSPECTOR (widget);
  const FieldId field = (FieldId) g_variant_get_int32 (parameter);
  const Part *part = shown_part (self);
  GtkWidget *row = inspector_get_row (self, field);

  if (part != NULL && row != NULL && consequence_steps (field) != NULL)
    explain (self, field_row_get_formula (DOWNCOMER_FIELD_ROW (row)),
             design_index (document_get_design (self->document), part_key (part)), consequence_steps (field));
}

static void
on_explain_figure (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Inspector *self = DOWNCOMER_INSPECTOR (widget);
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const int row = g_variant_get_int32 (parameter);
  g_autoptr (GPtrArray) list = NULL;

  if (evaluation == NULL)
    return;
  list = summary_figures (evaluation, document_get_style (self->document));
  if (row >= 0 && row < (int) list->len)
    explain (self, key_figures_get_formula (self->figures, row), -1,
             ((SummaryFigure *) g_ptr_array_index (list, (guint) row))->steps);
}

void
inspector_explain (Inspector *inspector)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (inspector));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *row = focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (inspector))
                       ? gtk_widget_get_ancestor (focus, DOWNCOMER_TYPE_FIELD_ROW)
                       : NULL;
  GtkWidget *button = row != NULL ? field_row_get_formula (DOWNCOMER_FIELD_ROW (row)) : NULL;

  g_return_if_fail (DOWNCOMER_IS_INSPECTOR (inspector));
  if (button != NULL)
    gtk_widget_activate_action (GTK_WIDGET (inspector), "inspector.explain-field", "i",
                                field_row_get_field (DOWNCOMER_FIELD_ROW (row)));
  else
    gtk_widget_activate_action (GTK_WIDGET (inspector), "inspector.explain", NULL);
}

static void
inspector_dispose (GObject *object)
{
  Inspector *self = DOWNCOMER_INSPECTOR (object);

  if (self->rows_box != NULL)
    let_go (self);
  g_clear_object (&self->units);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_INSPECTOR);
  G_OBJECT_CLASS (inspector_parent_class)->dispose (object);
}

static void
inspector_finalize (GObject *object)
{
  Inspector *self = DOWNCOMER_INSPECTOR (object);

  g_ptr_array_unref (self->keys);
  g_ptr_array_unref (self->rows);
  G_OBJECT_CLASS (inspector_parent_class)->finalize (object);
}

static void
inspector_class_init (InspectorClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = inspector_dispose;
  G_OBJECT_CLASS (klass)->finalize = inspector_finalize;
  g_type_ensure (DOWNCOMER_TYPE_KEY_FIGURES);
  template_set (widget_class, "inspector.ui");
  gtk_widget_class_install_action (widget_class, "inspector.explain", NULL, on_explain);
  gtk_widget_class_install_action (widget_class, "inspector.explain-field", "i", on_explain_field);
  gtk_widget_class_install_action (widget_class, "inspector.explain-figure", "i", on_explain_figure);
  gtk_widget_class_bind_template_child (widget_class, Inspector, title_box);
  gtk_widget_class_bind_template_child (widget_class, Inspector, kind_box);
  gtk_widget_class_bind_template_child (widget_class, Inspector, head);
  gtk_widget_class_bind_template_child (widget_class, Inspector, overview);
  gtk_widget_class_bind_template_child (widget_class, Inspector, part_page);
  gtk_widget_class_bind_template_child (widget_class, Inspector, parts_slot);
  gtk_widget_class_bind_template_child (widget_class, Inspector, overview_parts_slot);
  gtk_widget_class_bind_template_child (widget_class, Inspector, rows_box);
  gtk_widget_class_bind_template_child (widget_class, Inspector, more_box);
  gtk_widget_class_bind_template_child (widget_class, Inspector, more);
  gtk_widget_class_bind_template_child (widget_class, Inspector, title_label);
  gtk_widget_class_bind_template_child (widget_class, Inspector, fault_label);
  gtk_widget_class_bind_template_child (widget_class, Inspector, kind_label);
  gtk_widget_class_bind_template_child (widget_class, Inspector, name_problem);
  gtk_widget_class_bind_template_child (widget_class, Inspector, owner_button);
  gtk_widget_class_bind_template_child (widget_class, Inspector, name_entry);
  gtk_widget_class_bind_template_child (widget_class, Inspector, figures);
  gtk_widget_class_bind_template_child (widget_class, Inspector, scrolled);
  gtk_widget_class_bind_template_callback (widget_class, apply_name);
  gtk_widget_class_bind_template_callback (widget_class, on_owner);
  gtk_widget_class_bind_template_callback (widget_class, on_name_leave);
  gtk_widget_class_bind_template_callback (widget_class, on_name_key);
}

/* The button of the whole calculation of what is shown, at the end of its heading. */
static GtkWidget *
add_formula (GtkBox *heading, const char *what)
{
  GtkWidget *button = formula_button_new ();

  formula_button_name (button, what);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "inspector.explain");
  gtk_box_append (heading, button);
  return button;
}

static void
inspector_init (Inspector *self)
{
  self->kind = N_PART_KINDS;
  self->keys = g_ptr_array_new_with_free_func (g_free);
  self->rows = g_ptr_array_new ();
  self->units = field_units_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  self->title_formula = add_formula (self->title_box, _ ("the whole design"));
  self->kind_formula = add_formula (self->kind_box, _ ("this part"));
  self->chooser = drop_down_new ();
  gtk_widget_set_hexpand (self->chooser, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->chooser), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Part"),
                                  -1);
  drop_down_set_name (GTK_DROP_DOWN (self->chooser), _ ("Part"));
  gtk_widget_set_tooltip_text (self->chooser, _ ("Choose a part"));
  g_signal_connect_swapped (self->chooser, "notify::selected", G_CALLBACK (on_chosen), self);
  gtk_box_append (self->head, self->chooser);
}
