/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The pump bench as a real widget: rows, order, use as one step, pumps of one's own, and what is shown when. */
#include <math.h>

#include "app/bench/own-pump-dialog.h"
#include "app/bench/pump-bench.h"
#include "design/curve.h"
#include "tests/app/fixture.h"

typedef struct {
  Document *document;
  PumpBench *bench;
  GtkWindow *window;
} Fixture;

static GListModel *
rows (Fixture *fixture)
{
  return G_LIST_MODEL (pump_bench_get_rows (fixture->bench));
}

static BenchRow *
row_at (Fixture *fixture, guint position)
{
  g_autoptr (BenchRow) row = g_list_model_get_item (rows (fixture), position);

  return row; /* held by the model */
}

#define N_PUMPS 7 /* as many as the table must hold, and quick */

/* The demo design with the first pumps of the catalogue. */
static Document *
small_document (void)
{
  g_autoptr (Document) whole = fixture_document ();
  const Catalogue *all = document_get_catalogue (whole);
  g_autoptr (Catalogue) some = catalogue_new ();

  for (unsigned i = 0; i < catalogue_n_pipes (all); i++)
    g_assert_true (catalogue_add_pipe (some, catalogue_pipe (all, i)));
  for (unsigned i = 0; i < catalogue_n_fittings (all); i++)
    g_assert_true (catalogue_add_fitting (some, catalogue_fitting (all, i)));
  for (unsigned i = 0; i < N_PUMPS; i++)
    g_assert_true (catalogue_add_pump (some, catalogue_pump (all, i)));
  return document_new (document_get_project (whole), some);
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = small_document ();
  fixture->bench = g_object_new (DOWNCOMER_TYPE_PUMP_BENCH, NULL);
  pump_bench_set_model (fixture->bench, fixture->document, NULL);
  g_assert_true (pump_bench_is_stale (fixture->bench));
  g_assert_cmpuint (g_list_model_get_n_items (rows (fixture)), ==, 0); /* not seen yet, not computed */
  fixture->window = fixture_window (GTK_WIDGET (fixture->bench));
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  fixture_close (fixture->window);
  g_assert_finalize_object (fixture->document);
}

static GtkColumnView *
view_of (GtkWidget *widget)
{
  GtkColumnView *found = GTK_IS_COLUMN_VIEW (widget) ? GTK_COLUMN_VIEW (widget) : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = view_of (child);
  return found;
}

static void
test_candidates (Fixture *fixture, gconstpointer data)
{
  const guint n = g_list_model_get_n_items (rows (fixture));
  guint installed = 0, shown = 0;

  g_assert_cmpuint (n, >=, 6);
  for (guint i = 0; i < n; i++) {
    const CompareRow *row = bench_row_get_figures (row_at (fixture, i));

    installed += row->origin == COMPARE_INSTALLED;
    shown += bench_row_get_shown (row_at (fixture, i)) ? 1 : 0;
    g_assert_true (row->speed >= 0.3 && row->speed <= 1);
    /* Best first. */
    if (i > 0)
      g_assert_cmpint (bench_compare_merit (bench_row_get_figures (row_at (fixture, i - 1)), row), <=, 0);
  }
  g_assert_cmpuint (installed, ==, 1);
  g_assert_cmpuint (shown, >=, 5);
}

static void
test_sorting (Fixture *fixture, gconstpointer data)
{
  GtkColumnView *view = view_of (GTK_WIDGET (fixture->bench));
  GListModel *columns = gtk_column_view_get_columns (view);

  /* Name, verdict, the numbers, origin. */
  g_assert_cmpuint (g_list_model_get_n_items (columns), ==, N_BENCH_COLUMNS + 3);
  for (BenchColumn number = 0; number < N_BENCH_COLUMNS; number++)
    for (GtkSortType order = GTK_SORT_ASCENDING; order <= GTK_SORT_DESCENDING; order++) {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (columns, number + 2);

      gtk_column_view_sort_by_column (view, column, order);
      for (guint i = 1; i < g_list_model_get_n_items (rows (fixture)); i++) {
        const double before = bench_row_number (row_at (fixture, i - 1), number);
        const double after = bench_row_number (row_at (fixture, i), number);

        if (!isnan (before) && !isnan (after))
          g_assert_true (order == GTK_SORT_ASCENDING ? before <= after : before >= after);
      }
    }
}

static void
test_use_is_one_step (Fixture *fixture, gconstpointer data)
{
  Design *before = design_ref (document_get_design (fixture->document));
  BenchRow *row = NULL;
  g_autofree char *curve = NULL;
  g_autofree char *label = NULL;
  double speed;

  for (guint i = 0; row == NULL; i++)
    if (bench_row_get_figures (row_at (fixture, i))->origin == COMPARE_CATALOGUE)
      row = row_at (fixture, i);
  curve = curve_canonical (bench_row_get_figures (row)->curve);
  speed = bench_row_speed (row);
  pump_bench_select (fixture->bench, COMPARE_CATALOGUE, bench_row_get_figures (row)->key);
  gtk_widget_activate_action (GTK_WIDGET (fixture->bench), "bench.use", NULL);
  {
    const Design *design = document_get_design (fixture->document);
    const Part *pump = design_nth (design, PART_PUMP, 0);

    g_assert_cmpstr (design_text (design, pump, FIELD_PUMP_CURVE), ==, curve);
    g_assert_cmpfloat (design_number (design, pump, FIELD_PUMP_SPEED), ==, speed);
  }
  label = g_strdup (document_undo_label (fixture->document));
  g_assert_true (g_str_has_prefix (label, "Use Pump "));
  document_undo (fixture->document);
  g_assert_true (design_equal (document_get_design (fixture->document), before));
  g_assert_null (document_undo_label (fixture->document));
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));
  design_unref (before);
}

/* A pump of fixed speed stays one once it is installed. */
static void
test_fixed_speed (Fixture *fixture, gconstpointer data)
{
  BenchRow *row = NULL;

  for (guint i = 0; row == NULL; i++)
    if (bench_row_get_figures (row_at (fixture, i))->origin == COMPARE_CATALOGUE &&
        bench_row_get_figures (row_at (fixture, i))->least_speed >= 1)
      row = row_at (fixture, i);
  pump_bench_select (fixture->bench, COMPARE_CATALOGUE, bench_row_get_figures (row)->key);
  gtk_widget_activate_action (GTK_WIDGET (fixture->bench), "bench.use", NULL);
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));
  for (guint i = 0; i < g_list_model_get_n_items (rows (fixture)); i++)
    if (bench_row_get_figures (row_at (fixture, i))->origin == COMPARE_INSTALLED)
      g_assert_cmpfloat (bench_row_get_figures (row_at (fixture, i))->least_speed, ==, 1);
}

static void
test_late_answers (Fixture *fixture, gconstpointer data)
{
  const char *pump = part_key (design_nth (document_get_design (fixture->document), PART_PUMP, 0));

  /* Three designs in a row without a turn of the main loop: what is shown is of the last, and never of the others. */
  for (int watts = 100; watts <= 300; watts += 100)
    g_assert_true (document_set_number (fixture->document, pump, FIELD_PUMP_WATTS, watts, NULL));
  g_assert_true (pump_bench_is_stale (fixture->bench));
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));
  for (guint i = 0; i < g_list_model_get_n_items (rows (fixture)); i++)
    if (bench_row_get_figures (row_at (fixture, i))->origin == COMPARE_INSTALLED)
      g_assert_cmpfloat (bench_row_get_figures (row_at (fixture, i))->watts, ==, 300);
}

static void
test_hidden_is_not_computed (Fixture *fixture, gconstpointer data)
{
  const char *pump = part_key (design_nth (document_get_design (fixture->document), PART_PUMP, 0));

  gtk_widget_set_visible (GTK_WIDGET (fixture->bench), FALSE);
  g_assert_true (document_set_number (fixture->document, pump, FIELD_PUMP_WATTS, 123, NULL));
  for (int i = 0; i < 50; i++)
    g_main_context_iteration (NULL, FALSE);
  g_assert_true (pump_bench_is_stale (fixture->bench));
  gtk_widget_set_visible (GTK_WIDGET (fixture->bench), TRUE);
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));
}

/* Pumps of one's own */

static GtkWidget *
find_type (GtkWidget *widget, GType type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (widget, type) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

static void
fill (GtkWidget *dialog, const char *name, const char *points)
{
  GtkWidget *text = find_type (dialog, GTK_TYPE_TEXT_VIEW);
  GtkWidget *entry = find_type (dialog, GTK_TYPE_ENTRY);

  gtk_editable_set_text (GTK_EDITABLE (entry), name);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (text)), points, -1);
  gtk_widget_activate_action (dialog, "pump.save", NULL);
}

static void
test_own_pump (Fixture *fixture, gconstpointer data)
{
  const unsigned others = design_count (document_get_design (fixture->document), PART_CANDIDATE);
  GtkWidget *dialog = own_pump_dialog_new (fixture->document, NULL, NULL);
  const Part *own;
  CurvePoints points;
  g_autofree char *key = NULL;

  gtk_window_present (GTK_WINDOW (dialog));
  fill (dialog, "Trial pump", "Flow (L/h)\tHead (m)\n0\t3\n1800\t2\n3600\t0.5\n");
  g_assert_cmpuint (design_count (document_get_design (fixture->document), PART_CANDIDATE), ==, others + 1);
  own = design_nth (document_get_design (fixture->document), PART_CANDIDATE, others);
  key = g_strdup (part_key (own));
  g_assert_cmpstr (part_label (own), ==, "Trial pump");
  g_assert_true (curve_read (
      design_text (document_get_design (fixture->document), own, FIELD_CANDIDATE_CURVE), &points));
  g_assert_cmpuint (points.n, ==, 3);
  g_assert_cmpfloat_with_epsilon (points.flow_m3s[1], 0.0005, 1e-12);
  g_assert_cmpfloat_with_epsilon (points.head_m[2], 0.5, 1e-12);
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));

  /* Saved again unchanged it is the same pump, and no step. */
  {
    Design *before = design_ref (document_get_design (fixture->document));

    dialog = own_pump_dialog_new (fixture->document, NULL, key);
    gtk_window_present (GTK_WINDOW (dialog));
    gtk_widget_activate_action (dialog, "pump.save", NULL);
    g_assert_true (design_equal (before, document_get_design (fixture->document)));
    design_unref (before);
  }

  /* Removed by the bench, and brought back. */
  pump_bench_select (fixture->bench, COMPARE_OWN, key);
  gtk_widget_activate_action (GTK_WIDGET (fixture->bench), "bench.remove", NULL);
  g_assert_cmpuint (design_count (document_get_design (fixture->document), PART_CANDIDATE), ==, others);
  document_undo (fixture->document);
  g_assert_cmpuint (design_count (document_get_design (fixture->document), PART_CANDIDATE), ==, others + 1);
  fixture_wait_long (!pump_bench_is_stale (fixture->bench));
}

static void
test_own_pump_refused (Fixture *fixture, gconstpointer data)
{
  static const char *const bad[] = {
      "", "0 3\n", "0 1\n100 2\n", "some words", "0 3\n1 gallon 2\n2 gallon 1\n", "0 nan\n10 inf\n"};
  const unsigned others = design_count (document_get_design (fixture->document), PART_CANDIDATE);
  GtkWidget *dialog = own_pump_dialog_new (fixture->document, NULL, NULL);

  gtk_window_present (GTK_WINDOW (dialog));
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    fill (dialog, "Bad", bad[i]);
    g_assert_cmpstr (own_pump_dialog_get_problem (DOWNCOMER_OWN_PUMP_DIALOG (dialog)), !=, "");
    g_assert_cmpuint (design_count (document_get_design (fixture->document), PART_CANDIDATE), ==, others);
  }
  g_assert_null (document_undo_label (fixture->document));
  gtk_widget_activate_action (dialog, "pump.cancel", NULL);
}

#define ADD(name, function) g_test_add ("/pump-bench/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("candidates", test_candidates);
  ADD ("sorting", test_sorting);
  ADD ("use-is-one-step", test_use_is_one_step);
  ADD ("fixed-speed", test_fixed_speed);
  ADD ("late-answers", test_late_answers);
  ADD ("hidden-is-not-computed", test_hidden_is_not_computed);
  ADD ("own-pump", test_own_pump);
  ADD ("own-pump-refused", test_own_pump_refused);
  return g_test_run ();
}
