/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Names and values in two columns that change in place. */
#pragma once

#include <gtk/gtk.h>

#define DOWNCOMER_TYPE_KEY_FIGURES (key_figures_get_type ())
G_DECLARE_FINAL_TYPE (KeyFigures, key_figures, DOWNCOMER, KEY_FIGURES, GtkGrid)

/* Shows the figures of an array of SummaryFigure. */
void key_figures_set (KeyFigures *figures, GPtrArray *list);
