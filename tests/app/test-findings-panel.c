/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The list of findings on the demo design: it says what the evaluation says, choosing shows the part, the remedy is one
 * undo step, and rows stay while the document changes. */
#include "app/findings/findings-panel.h"

#include "app/findings/finding-row.h"
#include "report/finding-words.h"
#include "tests/app/fixture.h"

typedef struct {
  Document *document;
  Selection *selection;
  FindingsPanel *panel;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = fixture_document ();
  fixture->selection = selection_new ();
  fixture->panel = g_object_ref_sink (g_object_new (DOWNCOMER_TYPE_FINDINGS_PANEL, NULL));
  findings_panel_set_model (fixture->panel, fixture->document, fixture->selection);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_assert_finalize_object (fixture->panel);
  g_assert_finalize_object (fixture->selection);
  g_assert_finalize_object (fixture->document);
}

static void
collect (GtkWidget *widget, GPtrArray *rows)
{
  if (DOWNCOMER_IS_FINDING_ROW (widget))
    g_ptr_array_add (rows, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect (child, rows);
}

static GPtrArray *
rows_of (Fixture *fixture)
{
  GPtrArray *rows = g_ptr_array_new ();

  collect (GTK_WIDGET (fixture->panel), rows);
  return rows;
}

/* A design with something to find: a crest so high that the display reaches its rim. */
static void
spoil (Fixture *fixture)
{
  g_assert_true (document_set_number (fixture->document, "overflow", FIELD_OVERFLOW_CREST, 0.595, NULL));
  g_assert_cmpuint (document_get_evaluation (fixture->document)->n_findings, >, 1);
}

static void
test_rows (Fixture *fixture, gconstpointer data)
{
  spoil (fixture);

  const Evaluation *evaluation = document_get_evaluation (fixture->document);
  g_autoptr (GPtrArray) rows = rows_of (fixture);

  g_assert_cmpuint (rows->len, ==, evaluation->n_findings);
  for (guint i = 0; i < rows->len; i++) {
    g_autofree char *identity = finding_row_identity (document_get_design (fixture->document), evaluation, i);
    g_autofree char *sentence =
        finding_sentence (document_get_design (fixture->document), &evaluation->findings[i],
                          document_get_style (fixture->document));
    FindingRow *row = g_ptr_array_index (rows, i);

    g_assert_cmpstr (finding_row_get_identity (row), ==, identity);
    g_assert_cmpuint (finding_row_get_index (row), ==, i);
    gtk_test_accessible_assert_property (row, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence);
    g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL));
  }
}

static void
test_choose (Fixture *fixture, gconstpointer data)
{
  spoil (fixture);

  const Evaluation *evaluation = document_get_evaluation (fixture->document);
  const int n = (int) evaluation->n_findings;
  Design *design = document_get_design (fixture->document);

  for (int i = 0; i < n + 1; i++) { /* and round again */
    const Finding *finding = &evaluation->findings[i % n];
    const char *key = finding->part >= 0 ? part_key (design_part (design, (unsigned) finding->part)) : NULL;

    findings_panel_choose_next (fixture->panel);
    g_assert_cmpint (selection_get_finding (fixture->selection), ==, i % n);
    g_assert_cmpstr (selection_get_key (fixture->selection), ==, key);
  }
  /* Choosing a part elsewhere folds the finding up. */
  selection_set_key (fixture->selection, "job");
  g_assert_cmpint (selection_get_finding (fixture->selection), ==, -1);
}

/* Rows of findings that stay are the same widgets, and the chosen one stays chosen under its new place. */
static void
test_rows_stay (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GHashTable) widgets = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) after = NULL;
  g_autofree char *chosen = NULL;
  unsigned kept = 0;

  spoil (fixture);
  before = rows_of (fixture);
  for (guint i = 0; i < before->len; i++)
    g_hash_table_insert (widgets, g_strdup (finding_row_get_identity (g_ptr_array_index (before, i))),
                         g_ptr_array_index (before, i));
  findings_panel_choose_next (fixture->panel);
  chosen = g_strdup (finding_row_get_identity (g_ptr_array_index (before, 0)));
  g_assert_true (document_set_number (fixture->document, "overflow", FIELD_OVERFLOW_CREST, 0.594, NULL));
  after = rows_of (fixture);
  for (guint i = 0; i < after->len; i++) {
    FindingRow *row = g_ptr_array_index (after, i);
    gpointer same = g_hash_table_lookup (widgets, finding_row_get_identity (row));

    if (same != NULL) {
      g_assert_true (same == row);
      kept++;
    }
    if (g_str_equal (finding_row_get_identity (row), chosen))
      g_assert_cmpint (selection_get_finding (fixture->selection), ==, (int) i);
  }
  g_assert_cmpuint (kept, >, 0);
}

/* Each remedy that names a field does what it says, as one step. */
static void
test_apply (Fixture *fixture, gconstpointer data)
{
  unsigned applied = 0;

  spoil (fixture);
  for (unsigned i = 0; i < document_get_evaluation (fixture->document)->n_findings; i++) {
    const Remedy remedy = document_get_evaluation (fixture->document)->findings[i].remedy;
    g_autoptr (GPtrArray) rows = rows_of (fixture);
    g_autofree char *key = NULL;

    if (remedy.part < 0)
      continue;
    key = g_strdup (part_key (design_part (document_get_design (fixture->document), (unsigned) remedy.part)));
    g_signal_emit_by_name (g_ptr_array_index (rows, i), "apply");
    g_assert_cmpfloat (fixture_number (fixture->document, key, remedy.field), ==, remedy.value);
    document_undo (fixture->document);
    applied++;
  }
  g_assert_cmpuint (applied, >, 0);
}

static void
test_model (Fixture *fixture, gconstpointer data)
{
  g_autoptr (Document) other = fixture_document ();
  g_autoptr (Selection) selection = selection_new ();

  findings_panel_set_model (fixture->panel, other, selection);
  findings_panel_choose_next (fixture->panel);
  findings_panel_set_model (fixture->panel, NULL, NULL);
  findings_panel_choose_next (fixture->panel); /* nothing to choose: nothing happens */
}

static void
test_release (void)
{
  GtkWidget *panel = g_object_ref_sink (g_object_new (DOWNCOMER_TYPE_FINDINGS_PANEL, NULL));
  GtkWidget *row = g_object_ref_sink (finding_row_new ());

  g_assert_finalize_object (panel);
  g_assert_finalize_object (row);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/findings-panel/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("rows", test_rows);
  ADD ("choose", test_choose);
  ADD ("rows-stay", test_rows_stay);
  ADD ("apply", test_apply);
  ADD ("model", test_model);
#undef ADD
  g_test_add_func ("/findings-panel/release", test_release);
  return g_test_run ();
}
