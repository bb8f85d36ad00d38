/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Asks for the name of an option. Actions: name.accept, name.cancel. */
#pragma once

#include "app/common/document.h"

#include <gtk/gtk.h>

#define DOWNCOMER_TYPE_OPTION_NAME_DIALOG (option_name_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OptionNameDialog, option_name_dialog, DOWNCOMER, OPTION_NAME_DIALOG, GtkWindow)

/* Names an option of a document, by its place; an empty name takes the old one away. */
GtkWidget *option_name_dialog_new (Document *document, guint option);
