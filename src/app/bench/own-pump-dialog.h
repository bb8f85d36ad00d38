/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Adds a pump of one's own to the design as a candidate, or changes one: name, power, least speed, and the points of its
 * curve, typed or pasted, drawn as they are read. Saving is one undo step. Actions: pump.save, pump.cancel. */
#pragma once

#include <gtk/gtk.h>

#include "app/bench/bench-figures.h"
#include "app/common/document.h"
#include "app/common/theme.h"

#define DOWNCOMER_TYPE_OWN_PUMP_DIALOG (own_pump_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OwnPumpDialog, own_pump_dialog, DOWNCOMER, OWN_PUMP_DIALOG, GtkWindow)

/* `figures` (may be NULL) gives the loop beside the curve; `key` is that of the candidate to change, NULL for a new one. */
GtkWidget *own_pump_dialog_new (Document *document, BenchFigures *figures, const char *key);
void own_pump_dialog_set_theme (OwnPumpDialog *dialog, Theme *theme);

/* What is wrong with the points or with the last attempt to save, or "". */
const char *own_pump_dialog_get_problem (OwnPumpDialog *dialog);
