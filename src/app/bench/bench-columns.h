/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The columns of the pump bench: name with the mark of its curve, verdict, the numbers, where it comes from. */
#pragma once

#include <gtk/gtk.h>

#include "app/bench/bench-row.h"

typedef struct _BenchColumns BenchColumns;

/* Adds the columns to a view whose model holds BenchRow; they sort it by its own sorter. Freed with the view. */
BenchColumns *bench_columns_add (GtkColumnView *view);

/* Heads, and the numbers of rows that change afterwards, in the units of a style. */
void bench_columns_set_style (BenchColumns *columns, const NumberStyle *style);

/* A function of the rows: by merit, best first. */
GtkSorter *bench_columns_merit_sorter (void);

/* Called when a mark was set or taken off by hand. */
void bench_columns_on_marked (BenchColumns *columns, void (*callback) (gpointer data), gpointer data);
