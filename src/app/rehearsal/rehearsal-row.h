/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One failure in the list of rehearsals: its grade, its name and what it comes to in one line. */
#pragma once

#include <gtk/gtk.h>

#include "report/rehearsal-words.h"

#define DOWNCOMER_TYPE_REHEARSAL_ROW (rehearsal_row_get_type ())
G_DECLARE_FINAL_TYPE (RehearsalRow, rehearsal_row, DOWNCOMER, REHEARSAL_ROW, GtkListBoxRow)

GtkWidget *rehearsal_row_new (FailureId failure);
FailureId rehearsal_row_get_failure (RehearsalRow *row);

/* Shows what came of it; `rehearsed` NULL: not known yet. A failure that cannot happen is shown dimmed, with the reason. */
void rehearsal_row_set (RehearsalRow *row, const Design *design, const Rehearsed *rehearsed,
                        const NumberStyle *style);

/* Grade of the worst finding; N_GRADES where there is none. */
Grade rehearsed_grade (const Rehearsed *rehearsed);
