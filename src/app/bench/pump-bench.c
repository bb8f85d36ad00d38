/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/pump-bench.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/bench/pump-bench-private.h"
#include "app/common/template.h"
#include "report/words.h"

#define BEST_SHOWN  5                      /* curves drawn before a mark is set by hand */
#define MOST_CURVES (CHART_MAX_CURVES - 2) /* beside the loop, and the chosen pump at full speed */

#define SAME_SPEED 0.005

G_DEFINE_FINAL_TYPE (PumpBench, pump_bench, GTK_TYPE_BOX)

typedef struct {
  Design *design;
  Catalogue *catalogue;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  design_unref (request->design);
  catalogue_unref (request->catalogue);
  g_free (request);
}

static gpointer
compute (gpointer data)
{
  Request *request = data;

  return bench_figures_new (request->design, request->catalogue);
}

static void
figures_free (gpointer data)
{
  bench_figures_unref (data);
}

/* Rows */

BenchRow *
pump_bench_selected_row (PumpBench *self)
{
  return gtk_single_selection_get_selected_item (self->selection);
}

static BenchRow *
stored_row (PumpBench *self, guint position)
{
  g_autoptr (BenchRow) row = g_list_model_get_item (G_LIST_MODEL (self->store), position);

  return row; /* held by the store */
}

static guint
n_rows (PumpBench *self)
{
  return g_list_model_get_n_items (G_LIST_MODEL (self->store));
}

static gboolean
same_rows (PumpBench *self, const BenchFigures *figures)
{
  if (n_rows (self) != figures->n_rows)
    return FALSE;
  for (guint i = 0; i < figures->n_rows; i++)
    if (!bench_row_same (stored_row (self, i), &figures->rows[i]))
      return FALSE;
  return TRUE;
}

/* New rows in one splice; marks set by hand go with their pumps. */
static void
replace_rows (PumpBench *self, BenchFigures *figures)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);

  for (unsigned i = 0; i < figures->n_rows; i++) {
    BenchRow *row = bench_row_new (figures, i);

    for (guint k = 0; k < n_rows (self); k++)
      if (bench_row_same (stored_row (self, k), &figures->rows[i]))
        bench_row_set_shown (row, bench_row_get_shown (stored_row (self, k)));
    g_ptr_array_add (rows, row);
  }
  g_list_store_splice (self->store, 0, n_rows (self), rows->pdata, rows->len);
}

/* How many rows are better than this one; the installed pump counts as the best. */
static unsigned
rank (PumpBench *self, BenchRow *row)
{
  unsigned better = 0;

  if (bench_row_get_figures (row)->origin == COMPARE_INSTALLED)
    return 0;
  for (guint i = 0; i < n_rows (self); i++)
    if (bench_compare_merit (bench_row_get_figures (stored_row (self, i)), bench_row_get_figures (row)) < 0)
      better++;
  return better;
}

static void
mark_best (PumpBench *self)
{
  for (guint i = 0; i < n_rows (self); i++)
    bench_row_set_shown (stored_row (self, i), rank (self, stored_row (self, i)) < BEST_SHOWN);
}

/* Chart */

static int
add_curve (PumpBench *self, BenchRow *row, gboolean full_speed)
{
  const CompareRow *figures = bench_row_get_figures (row);
  const NumberStyle *style = document_get_style (self->document);
  g_autofree char *name = bench_row_dup_short_name (row);
  g_autofree char *speed = units_format (bench_row_speed (row), QUANTITY_RATIO, style, NULL, UNITS_MEASURE);
  /* Translators: name of a pump and its speed, at the end of a curve. */
  g_autofree char *label = g_strdup_printf (_ ("%s, %s"), name, full_speed ? _ ("full speed") : speed);

  return bench_chart_add (self->chart, CHART_PUMP, label, bench_row_get_curve (row, full_speed),
                          full_speed ? (double) NAN : figures->flow_m3s,
                          full_speed ? (double) NAN : figures->head_m);
}

static char *
chart_description (PumpBench *self)
{
  const NumberStyle *style = document_get_style (self->document);
  const BenchFigures *figures = self->figures;
  g_autofree char *low = units_format (figures->target_low_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE);
  g_autofree char *high = units_format (figures->target_high_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE);
  g_autofree char *limit = units_format (figures->drain_limit_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE);
  const guint n = bench_chart_n_curves (self->chart);
  g_autofree char *curves = g_strdup_printf (ngettext ("%u curve", "%u curves", n), n);

  return words_fill (
      _ ("{curves}, the loop among them. The target is {low} to {high}; the drains carry {limit}. "
         "The table says the same in numbers."),
      "curves", curves, "low", low, "high", high, "limit", limit, NULL);
}

static void
draw_chart (PumpBench *self)
{
  BenchRow *selected = pump_bench_selected_row (self);
  g_autofree char *description = NULL;
  int chosen = -1;
  unsigned n = 0;

  if (self->figures == NULL)
    return;
  bench_chart_begin (self->chart, document_get_style (self->document));
  for (guint i = 0; i < n_rows (self); i++) {
    BenchRow *row = stored_row (self, i);
    int index;

    if (row != selected && (!bench_row_get_shown (row) || n + 1 >= MOST_CURVES))
      continue;
    n++;
    index = add_curve (self, row, FALSE);
    if (row == selected)
      chosen = index;
  }
  if (selected != NULL && bench_row_get_figures (selected)->speed < 0.995)
    add_curve (self, selected, TRUE);
  bench_chart_add (self->chart, CHART_LOOP, _ ("Loop"), &self->figures->loop, (double) NAN, (double) NAN);
  bench_chart_set_limits (self->chart, self->figures->drain_limit_m3s, self->figures->target_low_m3s,
                          self->figures->target_high_m3s);
  description = chart_description (self);
  bench_chart_end (self->chart, chosen, description);
}

static void
on_chart_chosen (PumpBench *self, int index)
{
  int k = 0;

  for (guint i = 0; i < n_rows (self); i++) {
    BenchRow *row = stored_row (self, i);

    if (row != pump_bench_selected_row (self) && !bench_row_get_shown (row))
      continue;
    if (k++ == index) {
      pump_bench_select (self, bench_row_get_figures (row)->origin, bench_row_get_figures (row)->key);
      return;
    }
  }
}

/* What is selected */

static gboolean
is_used (PumpBench *self, BenchRow *row)
{
  const CompareRow *figures = bench_row_get_figures (row);
  const Design *design = document_get_design (self->document);
  const Part *pump = design_nth (design, PART_PUMP, 0);

  return figures->origin == COMPARE_INSTALLED && pump != NULL &&
         fabs (design_number (design, pump, FIELD_PUMP_SPEED) - bench_row_speed (row)) < SAME_SPEED;
}

static void
on_selected (PumpBench *self)
{
  BenchRow *row = pump_bench_selected_row (self);
  const gboolean own = row != NULL && bench_row_get_figures (row)->origin == COMPARE_OWN;
  const gboolean installed = row != NULL && bench_row_get_figures (row)->origin == COMPARE_INSTALLED;
  g_autofree char *sentence =
      row != NULL ? bench_row_sentence (row, document_get_style (self->document)) : g_strdup ("");

  gtk_label_set_text (self->sentence, sentence);
  gtk_widget_set_visible (self->own_buttons, own);
  gtk_button_set_label (GTK_BUTTON (self->use_button),
                        installed ? _ ("Set this speed") : _ ("Use this pump"));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bench.use",
                                 row != NULL && !self->stale && !is_used (self, row));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bench.edit", own);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bench.remove", own);
  draw_chart (self);
}

void
pump_bench_select (PumpBench *bench, CompareOrigin origin, const char *key)
{
  GListModel *model = G_LIST_MODEL (bench->selection);

  g_return_if_fail (DOWNCOMER_IS_PUMP_BENCH (bench));
  for (guint i = 0; i < g_list_model_get_n_items (model); i++) {
    g_autoptr (BenchRow) row = g_list_model_get_item (model, i);
    const CompareRow *figures = bench_row_get_figures (row);

    if (figures->origin == origin && g_str_equal (figures->key, key)) {
      gtk_single_selection_set_selected (bench->selection, i);
      gtk_widget_activate_action (gtk_widget_get_last_child (GTK_WIDGET (bench->view)), "list.scroll-to-item",
                                  "u", i);
      return;
    }
  }
}

/* Computing */

static void
set_stale (PumpBench *self, gboolean stale)
{
  self->stale = stale;
  if (stale)
    gtk_widget_add_css_class (GTK_WIDGET (self->stack), "stale");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->stack), "stale");
}

static void
show_reason (PumpBench *self)
{
  g_autofree char *words = NULL;

  if (document_get_evaluation (self->document) == NULL)
    words =
        g_strdup_printf (_ ("This design cannot be computed: %s. So there is nothing to compare pumps on."),
                         system_status_text (document_get_status (self->document, NULL)));
  else
    words = g_strdup (_ ("This design has no return pump to compare with. Add one on the drawing."));
  gtk_label_set_text (self->reason, words);
}

static void
take_figures (gpointer answer, gpointer owner)
{
  PumpBench *self = owner;
  BenchFigures *figures = answer;
  const gboolean in_place = same_rows (self, figures);
  BenchRow *selected = pump_bench_selected_row (self);
  const gboolean focused = gtk_widget_get_focus_child (GTK_WIDGET (self->view)) != NULL;

  bench_figures_ref (figures);
  bench_figures_unref (self->figures);
  self->figures = figures;
  set_stale (self, FALSE);
  bench_columns_set_style (self->columns, document_get_style (self->document));
  if (in_place) {
    for (unsigned i = 0; i < figures->n_rows; i++)
      bench_row_update (stored_row (self, i), figures, i);
    gtk_sorter_changed (self->merit, GTK_SORTER_CHANGE_DIFFERENT);
  } else {
    g_autofree char *key = selected != NULL ? g_strdup (bench_row_get_figures (selected)->key) : NULL;
    const CompareOrigin origin =
        selected != NULL ? bench_row_get_figures (selected)->origin : COMPARE_INSTALLED;

    replace_rows (self, figures);
    if (figures->n_rows > 0)
      pump_bench_select (self, figures->rows[0].origin, figures->rows[0].key);
    if (key != NULL)
      pump_bench_select (self, origin, key);
    if (focused)
      gtk_widget_grab_focus (GTK_WIDGET (self->view));
  }
  if (!self->marked)
    mark_best (self);
  if (figures->n_rows == 0)
    show_reason (self);
  gtk_stack_set_visible_child_name (self->stack, figures->n_rows > 0 ? "pumps" : "none");
  on_selected (self);
}

static const LatestJobKind compare_job = {
    .work = compute, .done = take_figures, .free_request = request_free, .free_answer = figures_free};

static void
ask (PumpBench *self)
{
  Request *request = g_new0 (Request, 1);

  request->design = design_ref (document_get_design (self->document));
  request->catalogue = catalogue_ref (document_get_catalogue (self->document));
  latest_job_ask (self->job, request);
}

static void
on_document_changed (PumpBench *self)
{
  if (self->figures != NULL && !latest_job_is_busy (self->job) &&
      design_equal (self->figures->design, document_get_design (self->document)))
    return; /* saved, not edited */
  set_stale (self, TRUE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bench.use", FALSE);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    ask (self);
  else
    latest_job_forget (self->job);
}

static void
pump_bench_map (GtkWidget *widget)
{
  PumpBench *self = DOWNCOMER_PUMP_BENCH (widget);

  GTK_WIDGET_CLASS (pump_bench_parent_class)->map (widget);
  if (self->stale && self->document != NULL)
    ask (self);
}

gboolean
pump_bench_is_stale (PumpBench *bench)
{
  return bench->stale;
}

static void
on_activate (PumpBench *self, guint position)
{
  gtk_single_selection_set_selected (self->selection, position);
  gtk_widget_activate_action (GTK_WIDGET (self), "bench.use", NULL);
}

static void
on_marked (gpointer data)
{
  PumpBench *self = data;

  self->marked = TRUE;
  draw_chart (self);
}

/* The object */

static void
pump_bench_dispose (GObject *object)
{
  PumpBench *self = DOWNCOMER_PUMP_BENCH (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_pointer (&self->job, latest_job_free);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_PUMP_BENCH);
  g_clear_object (&self->selection);
  g_clear_object (&self->store);
  g_clear_object (&self->merit);
  g_clear_object (&self->document);
  g_clear_pointer (&self->figures, bench_figures_unref);
  G_OBJECT_CLASS (pump_bench_parent_class)->dispose (object);
}

static void
pump_bench_class_init (PumpBenchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = pump_bench_dispose;
  widget_class->map = pump_bench_map;
  g_type_ensure (DOWNCOMER_TYPE_BENCH_CHART);
  template_set (widget_class, "pump-bench.ui");
  gtk_widget_class_bind_template_child (widget_class, PumpBench, stack);
  gtk_widget_class_bind_template_child (widget_class, PumpBench, view);
  gtk_widget_class_bind_template_child (widget_class, PumpBench, chart);
  gtk_widget_class_bind_template_child (widget_class, PumpBench, sentence);
  gtk_widget_class_bind_template_child (widget_class, PumpBench, reason);
  gtk_widget_class_bind_template_child (widget_class, PumpBench, own_buttons);
  gtk_widget_class_bind_template_child (widget_class, PumpBench, use_button);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_chart_chosen);
  pump_bench_install_actions (widget_class);
}

static void
build_model (PumpBench *self)
{
  GtkMultiSorter *sorters = gtk_multi_sorter_new ();
  GtkSortListModel *sorted;

  self->columns = bench_columns_add (self->view);
  bench_columns_on_marked (self->columns, on_marked, self);
  self->merit = bench_columns_merit_sorter ();
  gtk_multi_sorter_append (sorters, g_object_ref (gtk_column_view_get_sorter (self->view)));
  gtk_multi_sorter_append (sorters, g_object_ref (self->merit));
  self->store = g_list_store_new (DOWNCOMER_TYPE_BENCH_ROW);
  sorted = gtk_sort_list_model_new (G_LIST_MODEL (g_object_ref (self->store)), GTK_SORTER (sorters));
  self->selection = gtk_single_selection_new (G_LIST_MODEL (sorted));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_swapped (self->selection, "notify::selected-item", G_CALLBACK (on_selected), self);
}

static void
pump_bench_init (PumpBench *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->job = latest_job_new (&compare_job, self);
  build_model (self);
}

void
pump_bench_set_model (PumpBench *bench, Document *document, Theme *theme)
{
  g_return_if_fail (DOWNCOMER_IS_PUMP_BENCH (bench));
  g_return_if_fail (bench->document == NULL);
  bench->document = g_object_ref (document);
  bench_chart_set_theme (bench->chart, theme);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_document_changed), bench);
  on_document_changed (bench);
}

GtkSelectionModel *
pump_bench_get_rows (PumpBench *bench)
{
  return GTK_SELECTION_MODEL (bench->selection);
}
