/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Where the dialog for a new design meets the windows. */
#include <glib/gi18n.h>

#include "app/start/new-dialog.h"
#include "app/start/starter.h"
#include "app/window/window-private.h"
#include "design/choices.h"

/* Into this window where nothing would be lost, else into one of its own. */
static void
on_proposed (NewDialog *dialog, Design *design, Window *window)
{
  Application *application = DOWNCOMER_APPLICATION (gtk_window_get_application (GTK_WINDOW (window)));
  Document *document = window_get_document (window);
  GSettings *settings = application_get_settings (application);
  g_autoptr (Project) project = project_new (design, NULL);

  if (settings != NULL)
    g_settings_set_enum (settings, "units",
                         new_dialog_get_request (dialog).us ? UNITS_CHOICE_US : UNITS_CHOICE_METRIC);
  if (!window_is_unused (window)) {
    window = window_new (application);
    document = window_get_document (window);
  }
  selection_set_key (window_get_selection (window), NULL);
  document_reset (document, project, NULL);
  document_mark_unsaved (document);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.zoom-fit", NULL);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas)); /* Tab goes on with the first part */
  gtk_window_present (GTK_WINDOW (window));
}

void
new_dialog_present (Window *window, Application *application)
{
  const NumberStyle *style = document_get_style (window_get_document (window));
  const ProposalRequest request = starter_request (style->system == UNIT_SYSTEM_US);
  GtkWidget *dialog = new_dialog_new (application_get_catalogue (application), &request, style);

  gtk_window_set_transient_for (GTK_WINDOW (dialog), GTK_WINDOW (window));
  g_signal_connect_object (dialog, "proposed", G_CALLBACK (on_proposed), window, G_CONNECT_DEFAULT);
  gtk_window_present (GTK_WINDOW (dialog));
}
