/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The pump bench: the installed pump, one's own candidates and those of the catalogue side by side on the loop of the
 * design, in a table that sorts and one chart of curves. Using a pump is one undo step. It is computed beside the main
 * loop, and only while the page is seen; what is older than the design is shown dimmed.
 * Actions: bench.use, bench.add, bench.edit, bench.remove. */
#pragma once

#include <gtk/gtk.h>

#include "app/bench/bench-row.h"
#include "app/common/document.h"
#include "app/common/theme.h"

#define DOWNCOMER_TYPE_PUMP_BENCH (pump_bench_get_type ())
G_DECLARE_FINAL_TYPE (PumpBench, pump_bench, DOWNCOMER, PUMP_BENCH, GtkBox)

/* Shows the pumps on the loop of a document; `theme` may be NULL. */
void pump_bench_set_model (PumpBench *bench, Document *document, Theme *theme);

/* The rows as they are sorted, and the one selected. */
GtkSelectionModel *pump_bench_get_rows (PumpBench *bench);
void pump_bench_select (PumpBench *bench, CompareOrigin origin, const char *key);

/* Whether what is shown belongs to an earlier design. */
gboolean pump_bench_is_stale (PumpBench *bench);
