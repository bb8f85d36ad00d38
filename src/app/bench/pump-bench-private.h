/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inside of the pump bench, for pump-bench.c (rows, chart, computing) and pump-bench-actions.c. */
#pragma once

#include "app/bench/bench-chart.h"
#include "app/bench/bench-columns.h"
#include "app/bench/pump-bench.h"
#include "app/common/latest-job.h"

struct _PumpBench {
  GtkBox parent_instance;

  Document *document;
  LatestJob *job;
  BenchFigures *figures;
  BenchColumns *columns;
  GListStore *store; /* in the order of the comparison */
  GtkSorter *merit;
  GtkSingleSelection *selection;
  gboolean stale, marked;

  GtkStack *stack;
  GtkColumnView *view;
  BenchChart *chart;
  GtkLabel *sentence, *reason;
  GtkWidget *own_buttons, *use_button;
};

/* The row that is selected, or NULL. */
BenchRow *pump_bench_selected_row (PumpBench *self);

void pump_bench_install_actions (GtkWidgetClass *klass);
