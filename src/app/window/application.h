/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The application: what windows share (catalogue, theme, settings), and the actions that belong to none of them. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/theme.h"
#include "design/catalogue.h"

#define DOWNCOMER_TYPE_APPLICATION (application_get_type ())
G_DECLARE_FINAL_TYPE (Application, application, DOWNCOMER, APPLICATION, GtkApplication)

Application *application_new (void);

Catalogue *application_get_catalogue (Application *application);
Theme *application_get_theme (Application *application);

/* The settings, or NULL where the schema is not installed: then defaults hold and nothing is remembered. */
GSettings *application_get_settings (Application *application);

/* Opens a file in a new window, or in `window` when that is unused; a bad file is told of in the window. A file that is
 * open already comes to the front as it is. */
void application_open_file (Application *application, GFile *file, GtkWindow *window);

/* Runs the program as a window; returns the exit status. */
int application_run_window (int argc, char **argv);
