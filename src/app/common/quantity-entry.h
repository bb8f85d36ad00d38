/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* An entry for one quantity. It shows a value with its unit and reads what is typed ("18 in", "1 1/2", "300 gph"): a bare
 * number takes the unit shown. What can be read in two ways is asked in a popover with one button a reading. What is not
 * understood stays as it was typed, marks the entry and is said by signal "problem".
 *   Enter or leaving applies, Escape restores, Up and Down step, Page Up and Page Down step ten times as far.
 * Signals: "entered" (double value: the stored value that was read; answer with quantity_entry_refuse where it cannot
 * be), "cleared" (the text was emptied), "problem" (string or NULL: a sentence to show, or none), "step-begin" and
 * "step-end" around a row of steps, "unit" (string: word of the unit chosen in the context menu, "" for the usual). */
#pragma once

#include <gtk/gtk.h>

#include "units/format.h"

#define DOWNCOMER_TYPE_QUANTITY_ENTRY (quantity_entry_get_type ())
G_DECLARE_FINAL_TYPE (QuantityEntry, quantity_entry, DOWNCOMER, QUANTITY_ENTRY, GtkEntry)

GtkWidget *quantity_entry_new (Quantity quantity);

/* How the value is written and read. `own_unit` marks the unit as chosen for this entry. */
void quantity_entry_set_style (QuantityEntry *entry, const NumberStyle *style, const Unit *unit,
                               gboolean own_unit);

/* Shows a value. What is being typed stays as it is; the value is then shown after it is restored. */
void quantity_entry_set_value (QuantityEntry *entry, double value, gboolean assumed);

/* Says that the value of "entered" was refused: marks the entry and keeps its text. */
void quantity_entry_refuse (QuantityEntry *entry, const char *sentence);

/* Whether another text than the value is being typed. */
gboolean quantity_entry_is_typed (QuantityEntry *entry);

/* Forgets what is being typed and shows the value again. */
void quantity_entry_restore (QuantityEntry *entry);

/* Reads the text now, as Enter does. */
void quantity_entry_apply (QuantityEntry *entry);

/* The popover that asks which reading is meant, or NULL while nothing is asked. */
GtkWidget *quantity_entry_get_question (QuantityEntry *entry);
