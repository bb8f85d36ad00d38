/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The small button beside a computed figure that shows how it was computed. What it does is its action. */
#pragma once

#include <gtk/gtk.h>

GtkWidget *formula_button_new (void);

/* Says what it explains: "Calculation of Turnover", to be read aloud and as its hint. */
void formula_button_name (GtkWidget *button, const char *what);
