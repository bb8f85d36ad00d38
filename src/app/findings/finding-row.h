/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One finding in the list: mark, grade and title, the sentence with number, limit and margin; for the chosen one also
 * what it means and what would mend it, with a button that does where one field mends it. Signal "apply". */
#pragma once

#include <gtk/gtk.h>

#include "report/words.h"

#define DOWNCOMER_TYPE_FINDING_ROW (finding_row_get_type ())
G_DECLARE_FINAL_TYPE (FindingRow, finding_row, DOWNCOMER, FINDING_ROW, GtkListBoxRow)

GtkWidget *finding_row_new (void);

/* Shows the finding at an index of the evaluation. */
void finding_row_set (FindingRow *row, const Design *design, const Catalogue *catalogue,
                      const Evaluation *evaluation, unsigned index, const NumberStyle *style);

/* Unfolds what it means and what mends it. */
void finding_row_set_chosen (FindingRow *row, gboolean chosen);

/* What the row is of, so that it is found again in another evaluation: check, parts and place among equals. */
char *finding_row_identity (const Design *design, const Evaluation *evaluation, unsigned index);
const char *finding_row_get_identity (FindingRow *row);
unsigned finding_row_get_index (FindingRow *row);
