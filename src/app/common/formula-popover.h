/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The calculation behind a figure: each step with its relation, the numbers that went in, the result and the source. */
#pragma once

#include <gtk/gtk.h>

/* Opens at a widget, until it is dismissed; `steps` is an array of ExplainStep. */
GtkWidget *formula_popover_open (GtkWidget *at, const char *title, GPtrArray *steps);
