/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inspector on the demo design: every field has a row, edits reach the document as one undo step, refusals change
 * nothing, and rows keep what is typed while the document changes. */
#include "app/inspector/inspector.h"

#include <string.h>

#include "app/common/additions.h"
#include "app/common/curve-editor.h"
#include "app/common/grade-mark.h"
#include "app/common/key-figures.h"
#include "app/common/quantity-entry.h"
#include "app/inspector/field-choices.h"
#include "app/inspector/field-groups.h"
#include "app/inspector/field-row.h"
#include "app/inspector/parts-box.h"
#include "design/choices.h"
#include "tests/app/fixture.h"

typedef struct {
  Document *document;
  Selection *selection;
  Inspector *inspector;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = fixture_document ();
  fixture->selection = selection_new ();
  fixture->inspector = g_object_ref_sink (g_object_new (DOWNCOMER_TYPE_INSPECTOR, NULL));
  inspector_set_model (fixture->inspector, fixture->document, fixture->selection);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_assert_finalize_object (fixture->inspector);
  g_assert_finalize_object (fixture->selection);
  g_assert_finalize_object (fixture->document);
}

static FieldRow *
row_of (Fixture *fixture, const char *key, FieldId field)
{
  selection_set_key (fixture->selection, key);
  return DOWNCOMER_FIELD_ROW (inspector_get_row (fixture->inspector, field));
}

static GtkWidget *
control_of (Fixture *fixture, const char *key, FieldId field)
{
  return field_row_get_control (row_of (fixture, key, field));
}

/* The n-th visible descendant of a type. */
static GtkWidget *
find_widget (GtkWidget *widget, GType type, int *n)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type) && (*n)-- == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = find_widget (child, type, n);

    if (found != NULL)
      return found;
  }
  return NULL;
}

static GtkWidget *
focusable_of (GtkWidget *control)
{
  if (DOWNCOMER_IS_FIELD_CHOICES (control))
    return field_choices_get_drop_down (DOWNCOMER_FIELD_CHOICES (control));
  if (DOWNCOMER_IS_CURVE_EDITOR (control))
    return curve_editor_get_button (DOWNCOMER_CURVE_EDITOR (control));
  return control;
}

/* Every field of every part can be edited, and each control has a name. */
static void
test_every_field (Fixture *fixture, gconstpointer data)
{
  Design *design = document_get_design (fixture->document);
  unsigned kinds = 0;

  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const FieldId first = field_first (part_kind (part));

    kinds |= 1u << part_kind (part);
    for (FieldId id = first; id < first + field_count (part_kind (part)); id++) {
      FieldRow *row = row_of (fixture, part_key (part), id);

      g_assert_nonnull (row);
      g_assert_cmpint (field_row_get_field (row), ==, id);
      g_assert_null (field_row_get_problem (row));
      g_assert_true (gtk_test_accessible_has_relation (
          GTK_ACCESSIBLE (focusable_of (field_row_get_control (row))), GTK_ACCESSIBLE_RELATION_LABELLED_BY));
      g_assert_true (gtk_test_accessible_has_property (
          GTK_ACCESSIBLE (focusable_of (field_row_get_control (row))), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION));
    }
  }
  g_assert_cmpuint (kinds | 1u << PART_CANDIDATE, ==, (1u << N_PART_KINDS) - 1);
  g_assert_cmpuint (document_get_serial (fixture->document), ==, 1); /* looking changes nothing */
}

static void
test_number (Fixture *fixture, gconstpointer data)
{
  FieldRow *row = row_of (fixture, "overflow", FIELD_OVERFLOW_CREST);
  GtkWidget *entry = field_row_get_control (row);

  fixture_type (entry, "22 in");
  g_assert_cmpfloat_with_epsilon (fixture_number (fixture->document, "overflow", FIELD_OVERFLOW_CREST),
                                  0.5588, 1e-9);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "559" UNITS_SPACE "mm");
  g_assert_nonnull (document_undo_label (fixture->document));

  fixture_type (entry, "9 m"); /* over the range of the field */
  g_assert_nonnull (field_row_get_problem (row));
  g_assert_nonnull (strstr (field_row_get_problem (row), "mm"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "9 m");
  g_assert_cmpfloat_with_epsilon (fixture_number (fixture->document, "overflow", FIELD_OVERFLOW_CREST),
                                  0.5588, 1e-9);
  quantity_entry_restore (DOWNCOMER_QUANTITY_ENTRY (entry));
  g_assert_null (field_row_get_problem (row));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "559" UNITS_SPACE "mm");

  document_undo (fixture->document);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "550" UNITS_SPACE "mm");
  g_assert_null (document_undo_label (fixture->document));
}

/* What an invariant refuses is said and kept apart from the range of the field. */
static void
test_invariant (Fixture *fixture, gconstpointer data)
{
  FieldRow *row = row_of (fixture, "trap-baffle", FIELD_BAFFLE_X);
  const double before = fixture_number (fixture->document, "trap-baffle", FIELD_BAFFLE_X);
  g_autofree char *other =
      units_format (fixture_number (fixture->document, "inlet-baffle", FIELD_BAFFLE_X), QUANTITY_LENGTH,
                    document_get_style (fixture->document), NULL, UNITS_BUILD);

  fixture_type (field_row_get_control (row), "2 m");
  g_assert_nonnull (field_row_get_problem (row));
  g_test_message ("%s", field_row_get_problem (row));
  g_assert_cmpfloat (fixture_number (fixture->document, "trap-baffle", FIELD_BAFFLE_X), ==, before);
  selection_set_key (fixture->selection, "inlet-baffle"); /* the same row for another part */
  g_assert_null (field_row_get_problem (row));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_row_get_control (row))), ==, other);
}

static void
test_assumed (Fixture *fixture, gconstpointer data)
{
  FieldRow *row = row_of (fixture, "return-pump", FIELD_PUMP_SUCTION);
  GtkWidget *entry = field_row_get_control (row), *reset;
  int n = 0;

  reset = find_widget (GTK_WIDGET (row), GTK_TYPE_BUTTON, &n);
  g_assert_true (gtk_widget_has_css_class (entry, "assumed"));
  g_assert_false (gtk_widget_get_sensitive (reset));
  fixture_type (entry, "60");
  g_assert_true (fixture_given (fixture->document, "return-pump", FIELD_PUMP_SUCTION));
  g_assert_false (gtk_widget_has_css_class (entry, "assumed"));
  g_assert_true (gtk_widget_get_sensitive (reset));
  g_signal_emit_by_name (reset, "clicked");
  g_assert_false (fixture_given (fixture->document, "return-pump", FIELD_PUMP_SUCTION));
  g_assert_true (gtk_widget_has_css_class (entry, "assumed"));
  fixture_type (entry, "60");
  fixture_type (entry, ""); /* emptied: unknown again */
  g_assert_false (fixture_given (fixture->document, "return-pump", FIELD_PUMP_SUCTION));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "50" UNITS_SPACE "mm");
}

static void
choose (GtkWidget *control, guint index)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (field_choices_get_drop_down (DOWNCOMER_FIELD_CHOICES (control))),
                              index);
}

static void
test_other_types (Fixture *fixture, gconstpointer data)
{
  Document *document = fixture->document;
  Design *design;

  choose (control_of (fixture, "overflow", FIELD_OVERFLOW_WEIR), WEIR_PLAIN);
  g_assert_cmpfloat (fixture_number (document, "overflow", FIELD_OVERFLOW_WEIR), ==, WEIR_PLAIN);
  choose (control_of (fixture, "siphon", FIELD_DRAIN_TO),
          design_count (document_get_design (document), PART_CHAMBER) - 1);
  design = document_get_design (document);
  g_assert_cmpstr (design_text (design, design_find (design, "siphon"), FIELD_DRAIN_TO), ==, "pumping");
  choose (control_of (fixture, "siphon", FIELD_DRAIN_SIZE), 0);
  design = document_get_design (document);
  g_assert_cmpstr (design_text (design, design_find (design, "siphon"), FIELD_DRAIN_SIZE), ==,
                   catalogue_pipe (document_get_catalogue (document), 0)->key);
  choose (control_of (fixture, "siphon-valve", FIELD_FITTING_TYPE), 0);
  design = document_get_design (document);
  g_assert_cmpstr (design_text (design, design_find (design, "siphon-valve"), FIELD_FITTING_TYPE), ==,
                   catalogue_fitting (document_get_catalogue (document), 0)->key);
  gtk_switch_set_active (GTK_SWITCH (control_of (fixture, "left-outlet", FIELD_OUTLET_BREAK)), FALSE);
  g_assert_cmpfloat (fixture_number (document, "left-outlet", FIELD_OUTLET_BREAK), ==, 0);
  fixture_type (control_of (fixture, "job", FIELD_JOB_OWNER), "A. Owner");
  design = document_get_design (document);
  g_assert_cmpstr (design_text (design, design_find (design, "job"), FIELD_JOB_OWNER), ==, "A. Owner");
  for (unsigned i = 0; i < 6; i++)
    document_undo (document);
  g_assert_null (document_undo_label (document));
}

static void
test_curve (Fixture *fixture, gconstpointer data)
{
  CurveEditor *editor = DOWNCOMER_CURVE_EDITOR (control_of (fixture, "return-pump", FIELD_PUMP_CURVE));
  Design *design;

  g_assert_false (curve_editor_apply (editor, "Flow (L/h); Head (m)\n0; 3\nnonsense"));
  g_assert_nonnull (curve_editor_get_problem (editor));
  g_assert_false (curve_editor_apply (editor, "0 L/h 3 m\n1000 L/h 4 m")); /* the head rises */
  g_assert_null (document_undo_label (fixture->document));
  g_assert_true (curve_editor_apply (editor, "Flow (L/h); Head (m)\n0; 3\n1800; 2\n3600; 0.5"));
  g_assert_null (curve_editor_get_problem (editor));
  design = document_get_design (fixture->document);
  g_assert_cmpstr (design_text (design, design_find (design, "return-pump"), FIELD_PUMP_CURVE), ==,
                   "0:3 0.0005:2 0.001:0.5");
}

/* A drag on the drawing: what is typed stays, other rows follow, no row is made anew. */
static void
test_typing_stays (Fixture *fixture, gconstpointer data)
{
  GtkWidget *crest = control_of (fixture, "overflow", FIELD_OVERFLOW_CREST);
  GtkWidget *length = control_of (fixture, "overflow", FIELD_OVERFLOW_BOX_LENGTH);

  gtk_editable_set_text (GTK_EDITABLE (crest), "54");
  document_begin (fixture->document, "Move");
  for (unsigned i = 0; i < 10; i++)
    g_assert_true (document_set_number (fixture->document, "overflow", FIELD_OVERFLOW_BOX_LENGTH,
                                        0.4 - 0.001 * i, NULL));
  document_end (fixture->document);
  g_assert_true (control_of (fixture, "overflow", FIELD_OVERFLOW_CREST) == crest);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (crest)), ==, "54");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (length)), ==, "391" UNITS_SPACE "mm");
}

static void
test_units (Fixture *fixture, gconstpointer data)
{
  GtkWidget *entry = control_of (fixture, "overflow", FIELD_OVERFLOW_CREST);

  gtk_widget_activate_action (entry, "quantity.unit", "s", "cm");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "55.0" UNITS_SPACE "cm");
  fixture_type (entry, "55"); /* a bare number takes the unit shown */
  g_assert_cmpfloat_with_epsilon (fixture_number (fixture->document, "overflow", FIELD_OVERFLOW_CREST), 0.55,
                                  1e-12);
  gtk_widget_activate_action (entry, "quantity.unit", "s", "");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "550" UNITS_SPACE "mm");
  g_assert_true (document_set_number (fixture->document, "job", FIELD_JOB_UNITS, UNITS_CHOICE_US, NULL));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "21\u00a05/8" UNITS_SPACE "in");
}

/* What can be added in menus can be added to the demo, is selected, and goes again with one undo. */
static void
test_additions (Fixture *fixture, gconstpointer data)
{
  Design *design = document_get_design (fixture->document);

  for (unsigned n = 0; addition_nth (n) != NULL; n++) {
    const Addition *addition = addition_nth (n);
    const Part *part = design_nth (design, addition->to < N_PART_KINDS ? addition->to : PART_JOB, 0);
    char key[MAX_KEY_BYTES + 1] = "";
    Problem problem = {0};
    g_autoptr (Design) more = addition->add (design, part_key (part), addition->argument, key, &problem);

    g_test_message ("%s", addition->name);
    if (more == NULL) { /* the demo has its reservoir */
      g_assert_cmpint (addition->to, ==, N_PART_KINDS);
      g_assert_cmpint (problem.code, ==, PROBLEM_TOO_MANY);
      continue;
    }
    document_apply (fixture->document, more, "Add");
    selection_set_key (fixture->selection, key);
    g_assert_cmpint (part_kind (design_find (more, key)), !=, PART_JOB);
    document_undo (fixture->document);
    if (design_find (design, key) == NULL) /* a part that was added is gone */
      g_assert_null (selection_get_key (fixture->selection));
    g_assert_true (design_equal (document_get_design (fixture->document), design));
  }
}

/* Owners come before what they own, and every part is listed once. */
static void
test_order (Fixture *fixture, gconstpointer data)
{
  Design *design = document_get_design (fixture->document);
  g_autofree unsigned *depths = NULL;
  g_autofree const char **keys = parts_in_order (design, &depths);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = 0;

  for (; keys[n] != NULL; n++) {
    const Part *owner = design_owner (design, design_find (design, keys[n]));

    g_assert_true (owner == NULL || g_hash_table_contains (seen, part_key (owner)));
    g_assert_true (g_hash_table_add (seen, (gpointer) keys[n]));
    g_assert_cmpuint (depths[n] > 0, ==, owner != NULL);
  }
  g_assert_cmpuint (n, ==, design_n_parts (design));
}

/* A document that goes and comes leaves nothing behind; a design that cannot be computed is said to be so. */
static void
test_model (Fixture *fixture, gconstpointer data)
{
  g_autoptr (Document) other = fixture_document ();
  g_autoptr (Selection) selection = selection_new ();

  selection_set_key (fixture->selection, "sump");
  inspector_set_model (fixture->inspector, other, selection);
  g_assert_null (inspector_get_row (fixture->inspector, FIELD_SUMP_LENGTH));
  selection_set_key (selection, "sump");
  g_assert_nonnull (inspector_get_row (fixture->inspector, FIELD_SUMP_LENGTH));
  selection_set_key (selection, "nobody");
  g_assert_true (document_set_number (other, "sump", FIELD_SUMP_LENGTH, 1.05, NULL));
  g_assert_null (selection_get_key (selection));
  inspector_set_model (fixture->inspector, NULL, NULL);
}

/* A field is in one group, and a kind without rows shown at once would look empty. */
static void
test_groups (void)
{
  for (PartKind kind = 0; kind < N_PART_KINDS; kind++) {
    unsigned shown = 0;

    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      g_assert_cmpint (field_group (id), <, N_FIELD_GROUPS);
      shown += field_is_primary (id);
    }
    g_assert_cmpuint (shown, >, 0);
  }
}

/* Made and released, every widget dies, and no warning is given. */
static void
test_release (void)
{
  const GType types[] = {DOWNCOMER_TYPE_INSPECTOR,     DOWNCOMER_TYPE_QUANTITY_ENTRY,
                         DOWNCOMER_TYPE_FIELD_CHOICES, DOWNCOMER_TYPE_CURVE_EDITOR,
                         DOWNCOMER_TYPE_FIELD_ROW,     DOWNCOMER_TYPE_KEY_FIGURES,
                         DOWNCOMER_TYPE_GRADE_MARK,    DOWNCOMER_TYPE_PARTS_BOX};

  for (unsigned i = 0; i < G_N_ELEMENTS (types); i++) {
    GtkWidget *widget = g_object_ref_sink (g_object_new (types[i], NULL));

    g_test_message ("%s", g_type_name (types[i]));
    g_assert_finalize_object (widget);
  }
}

/* Pump speed has a slider; it follows the design, and sets it. */
static void
test_slider (Fixture *fixture, gconstpointer data)
{
  FieldRow *row;
  gboolean taken = FALSE;

  selection_set_key (fixture->selection, "return-pump");
  row = DOWNCOMER_FIELD_ROW (inspector_get_row (fixture->inspector, FIELD_PUMP_SPEED));
  g_assert_nonnull (field_row_get_slider (row));
  g_signal_emit_by_name (field_row_get_slider (row), "change-value", GTK_SCROLL_JUMP, 0.7012, &taken);
  g_assert_true (taken);
  g_assert_cmpfloat_with_epsilon (fixture_number (fixture->document, "return-pump", FIELD_PUMP_SPEED), 0.7,
                                  1e-12);
  g_assert_cmpfloat_with_epsilon (gtk_range_get_value (GTK_RANGE (field_row_get_slider (row))), 0.7, 1e-9);
  document_undo (fixture->document);
  g_assert_null (document_undo_label (fixture->document));
  row = DOWNCOMER_FIELD_ROW (inspector_get_row (fixture->inspector, FIELD_PUMP_WATTS));
  g_assert_null (field_row_get_slider (row));
}

/* All texts of the labels under a widget, one a line. */
static void
collect_text (GtkWidget *widget, GString *text)
{
  if (GTK_IS_LABEL (widget))
    g_string_append_printf (text, "%s\n", gtk_label_get_text (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect_text (child, text);
}

static GtkWidget *
find_formulas (GtkWidget *widget)
{
  GtkWidget *popover;
  int n = 0;

  while ((popover = find_widget (widget, GTK_TYPE_POPOVER, &(int){n})) != NULL &&
         !gtk_widget_has_css_class (popover, "formulas"))
    n++;
  return popover;
}

/* What the open calculation says; it is dismissed then. */
static char *
read_formulas (Fixture *fixture)
{
  GString *text = g_string_new (NULL);
  GtkWidget *popover;

  fixture_wait ((popover = find_formulas (GTK_WIDGET (fixture->inspector))) != NULL);
  collect_text (popover, text);
  g_object_ref (popover);
  gtk_popover_popdown (GTK_POPOVER (popover));
  fixture_wait (gtk_widget_get_parent (popover) == NULL);
  g_object_unref (popover);
  return g_string_free (text, FALSE);
}

/* From a figure, a row and a part: the relation that governs, with numbers, result and source. */
static void
test_formulas (Fixture *fixture, gconstpointer data)
{
  GtkWidget *widget = GTK_WIDGET (fixture->inspector);
  GtkWindow *window = fixture_window (widget);
  FieldRow *row;

  gtk_widget_activate_action (widget, "inspector.explain-figure", "i", 1);
  g_autofree char *turnover = read_formulas (fixture);
  g_assert_nonnull (strstr (turnover, "N = 3600 Q/V"));
  g_assert_null (strstr (turnover, "Colebrook"));

  row = row_of (fixture, "return-pump", FIELD_PUMP_SPEED);
  g_assert_nonnull (field_row_get_formula (row));
  gtk_widget_grab_focus (field_row_get_control (row));
  inspector_explain (fixture->inspector);
  g_autofree char *duty = read_formulas (fixture);
  g_assert_true (g_str_has_prefix (duty, "Duty point"));
  g_assert_nonnull (strstr (duty, "Source: "));

  gtk_widget_grab_focus (field_row_get_control (row_of (fixture, "return-pump", FIELD_PUMP_X)));
  g_assert_null (field_row_get_formula (row_of (fixture, "return-pump", FIELD_PUMP_X)));
  inspector_explain (fixture->inspector);
  g_autofree char *all = read_formulas (fixture);
  g_assert_nonnull (strstr (all, "Power of the pump"));
  g_assert_cmpuint (document_get_serial (fixture->document), ==, 1);
  fixture_close (window);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/inspector/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("every-field", test_every_field);
  ADD ("number", test_number);
  ADD ("slider", test_slider);
  ADD ("formulas", test_formulas);
  ADD ("invariant", test_invariant);
  ADD ("assumed", test_assumed);
  ADD ("other-types", test_other_types);
  ADD ("curve", test_curve);
  ADD ("typing-stays", test_typing_stays);
  ADD ("units", test_units);
  ADD ("additions", test_additions);
  ADD ("order", test_order);
  ADD ("model", test_model);
#undef ADD
  g_test_add_func ("/inspector/groups", test_groups);
  g_test_add_func ("/inspector/release", test_release);
  return g_test_run ();
}
