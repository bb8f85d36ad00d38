/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be done with the pumps of the bench: use one, add, change and remove one's own. */
#include <glib/gi18n.h>

#include "app/bench/own-pump-dialog.h"
#include "app/bench/pump-bench-private.h"
#include "files/files-error.h"

static void
on_use (GtkWidget *widget, const char *name, GVariant *parameter)
{
  PumpBench *self = DOWNCOMER_PUMP_BENCH (widget);
  BenchRow *row = pump_bench_selected_row (self);
  g_autoptr (Design) design = NULL;
  g_autofree char *pump = NULL;
  g_autofree char *label = NULL;
  CompareRow chosen;
  Problem problem = {0};

  if (row == NULL || self->stale)
    return;
  chosen = *bench_row_get_figures (row);
  chosen.speed = bench_row_speed (row);
  design = compare_use (document_get_design (self->document), &chosen, &problem);
  if (design == NULL) {
    g_autofree char *sentence = files_problem_sentence (&problem, NULL);

    gtk_label_set_text (self->sentence, sentence);
    return;
  }
  pump = bench_row_dup_short_name (row);
  label = g_strdup_printf (_ ("Use %s"), pump);
  document_apply (self->document, design, label);
  if (self->figures->n_rows > 0)
    pump_bench_select (self, self->figures->rows[0].origin, self->figures->rows[0].key);
}

static void
open_dialog (PumpBench *self, const char *key)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *dialog = own_pump_dialog_new (self->document, self->figures, key);

  gtk_window_set_transient_for (GTK_WINDOW (dialog), GTK_WINDOW (root));
  own_pump_dialog_set_theme (DOWNCOMER_OWN_PUMP_DIALOG (dialog), bench_chart_get_theme (self->chart));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
on_add (GtkWidget *widget, const char *name, GVariant *parameter)
{
  open_dialog (DOWNCOMER_PUMP_BENCH (widget), NULL);
}

static void
on_edit (GtkWidget *widget, const char *name, GVariant *parameter)
{
  PumpBench *self = DOWNCOMER_PUMP_BENCH (widget);
  BenchRow *row = pump_bench_selected_row (self);

  if (row != NULL && bench_row_get_figures (row)->origin == COMPARE_OWN)
    open_dialog (self, bench_row_get_figures (row)->key);
}

static void
on_remove (GtkWidget *widget, const char *name, GVariant *parameter)
{
  PumpBench *self = DOWNCOMER_PUMP_BENCH (widget);
  BenchRow *row = pump_bench_selected_row (self);
  g_autoptr (Draft) draft = draft_new (document_get_design (self->document));
  g_autoptr (Design) design = NULL;

  if (row == NULL || bench_row_get_figures (row)->origin != COMPARE_OWN ||
      !draft_remove (draft, bench_row_get_figures (row)->key, NULL))
    return;
  design = draft_commit (draft, NULL);
  if (design != NULL) {
    g_autofree char *pump = bench_row_dup_short_name (row);
    g_autofree char *label = g_strdup_printf (_ ("Remove %s"), pump);

    document_apply (self->document, design, label);
  }
}

void
pump_bench_install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "bench.use", NULL, on_use);
  gtk_widget_class_install_action (klass, "bench.add", NULL, on_add);
  gtk_widget_class_install_action (klass, "bench.edit", NULL, on_edit);
  gtk_widget_class_install_action (klass, "bench.remove", NULL, on_remove);
}
