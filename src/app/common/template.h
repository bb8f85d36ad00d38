/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The templates of the widgets, from ui/ by way of the resources that are linked into this folder. */
#pragma once

#include <gtk/gtk.h>

/* Gives a widget class its template: "inspector.ui" of ui/. A file that is not built in is a mistake of the caller. */
void template_set (GtkWidgetClass *klass, const char *file);
