/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Two options side by side: what differs, and what it does to flow, margins, power and cost. It follows the document.
 * Actions: options.show makes the second one the one in work, options.turn exchanges the two. */
#pragma once

#include "app/common/document.h"

#include <gtk/gtk.h>

#define DOWNCOMER_TYPE_OPTIONS_DIALOG (options_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OptionsDialog, options_dialog, DOWNCOMER, OPTIONS_DIALOG, GtkWindow)

/* Begins with the first option, or the second where the first is in work, against the one in work. */
GtkWidget *options_dialog_new (Document *document);

/* Compares two options by their places. */
void options_dialog_compare (OptionsDialog *dialog, guint from, guint to);
