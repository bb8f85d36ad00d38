/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Names and values in two columns that change in place. Within an inspector, what was computed has a button that shows
 * how: it runs the action "inspector.explain-figure" with the row. */
#pragma once

#include <gtk/gtk.h>

#define DOWNCOMER_TYPE_KEY_FIGURES (key_figures_get_type ())
G_DECLARE_FINAL_TYPE (KeyFigures, key_figures, DOWNCOMER, KEY_FIGURES, GtkGrid)

/* Shows the figures of an array of SummaryFigure. */
void key_figures_set (KeyFigures *figures, GPtrArray *list);

/* The button of a row that shows its calculation, or NULL. */
GtkWidget *key_figures_get_formula (KeyFigures *figures, int row);
