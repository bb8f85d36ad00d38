/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A GtkDropDown of strings for narrow panels: what is chosen is cut with an ellipsis, the open list shows it whole. */
#pragma once

#include <gtk/gtk.h>

/* Before a name, once a level of a tree: an em space. */
#define DROP_DOWN_INDENT "\u2003"

GtkWidget *drop_down_new (void);

/* Names the button inside, which has the focus: a reader hears the name and what is chosen. The drop-down itself takes
 * its name from the label beside it, or from its own property. */
void drop_down_set_name (GtkDropDown *drop_down, const char *name);

/* Replaces the strings where they differ, and chooses one; the caller blocks its own handler. */
void drop_down_set (GtkDropDown *drop_down, const char *const *names, guint selected);
