/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Entries for names and other words: what is typed and not yet entered can be taken back before the design is. */
#pragma once

#include <gtk/gtk.h>

/* Shows a text in an entry as the one that holds; leaves it alone, with its cursor, where it stands there already. */
void typed_text_show (GtkEditable *entry, const char *text);

/* Puts back what typed_text_show () showed last into the entry that a widget is part of. FALSE where nothing else is typed,
 * or the widget is in no such entry. */
gboolean typed_text_take_back (GtkWidget *widget);
