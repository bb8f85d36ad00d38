/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Actions on files: open, save, recent, the question before unsaved work is lost. */
#include <glib/gi18n.h>

#include "app/window/window-private.h"
#include "files/document.h"

#define RECENT_MOST 10

/* Choosing a file */

static void
on_chosen (GtkNativeDialog *dialog, int response, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);
  WindowFileFunc done = (WindowFileFunc) g_object_get_data (G_OBJECT (dialog), "done");
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  gtk_native_dialog_destroy (dialog);
  g_clear_object (&self->chooser);
  if (file != NULL)
    done (self, file);
  else
    self->may_close = FALSE; /* no name, so nothing is saved: the next close asks again */
}

void
window_choose_file (Window *self, GtkFileChooserAction action, const char *title, const char *name,
                    const char *pattern, const char *pattern_name, WindowFileFunc done)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) any = gtk_file_filter_new ();

  if (self->chooser != NULL)
    return;
  self->chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (self), action, NULL, NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  gtk_file_filter_set_name (filter, pattern_name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), filter);
  gtk_file_filter_set_name (any, _ ("All files"));
  gtk_file_filter_add_pattern (any, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), any);
  if (action == GTK_FILE_CHOOSER_ACTION_SAVE)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), name);
  g_object_set_data (G_OBJECT (self->chooser), "done", (gpointer) done);
  g_signal_connect (self->chooser, "response", G_CALLBACK (on_chosen), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* Recent files */

void
window_fill_recent (Window *self)
{
  g_autolist (GtkRecentInfo) items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  int n = 0;

  g_menu_remove_all (self->recent_menu);
  for (GList *each = items; each != NULL && n < RECENT_MOST; each = each->next) {
    GtkRecentInfo *info = each->data;
    g_autoptr (GMenuItem) item = NULL;

    if (!g_str_has_suffix (gtk_recent_info_get_uri (info), DOCUMENT_SUFFIX) || !gtk_recent_info_exists (info))
      continue;
    item = g_menu_item_new (gtk_recent_info_get_display_name (info), NULL);
    g_menu_item_set_action_and_target (item, "win.open-uri", "s", gtk_recent_info_get_uri (info));
    g_menu_append_item (self->recent_menu, item);
    n++;
  }
  if (n == 0)
    g_menu_append (self->recent_menu, _ ("No recent designs"), "win.none");
}

static void
remember (Window *self, GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  const GtkRecentData data = {.mime_type = (char *) DOCUMENT_MIME_TYPE,
                              .app_name = (char *) "Downcomer",
                              .app_exec = (char *) "downcomer %u"};

  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
  window_fill_recent (self);
}

/* Opening */

void
window_load (Window *window, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = document_load (file, NULL, &error);

  if (project == NULL) {
    window_tell (window, error->message, TRUE);
    return;
  }
  gtk_revealer_set_reveal_child (window->message_revealer, FALSE);
  selection_set_key (window->selection, NULL);
  document_reset (window->document, project, file);
  canvas_fit (window->canvas);
  remember (window, file);
}

Window *
window_new_for_file (Application *application, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = document_load (file, NULL, &error);
  Window *self = project != NULL ? window_new_on (application, project, file) : window_new (application);

  if (project == NULL)
    window_tell (self, error->message, TRUE);
  else
    remember (self, file);
  return self;
}

/* Into this window when nothing would be lost, else into another one. */
static void
open_file (Window *self, GFile *file)
{
  application_open_file (self->application, file, window_is_unused (self) ? GTK_WINDOW (self) : NULL);
}

static void
on_open (GtkWidget *widget, const char *name, GVariant *parameter)
{
  window_choose_file (DOWNCOMER_WINDOW (widget), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("Open a design"), NULL,
                      "*" DOCUMENT_SUFFIX, _ ("Downcomer designs"), open_file);
}

static void
on_open_uri (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));

  open_file (DOWNCOMER_WINDOW (widget), file);
}

/* Saving */

static gboolean
save_to (Window *self, GFile *file)
{
  g_autoptr (GError) error = NULL;

  if (!document_save (document_get_project (self->document), file, NULL, &error)) {
    window_tell (self, error->message, TRUE);
    return FALSE;
  }
  gtk_revealer_set_reveal_child (self->message_revealer, FALSE); /* what may have failed before is done now */
  document_mark_saved (self->document, file);
  window_stop_recovery (self);
  remember (self, file);
  return TRUE;
}

static void
save_as (Window *self, GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autoptr (GFile) parent = g_file_get_parent (file);
  g_autoptr (GFile) target = NULL;

  if (g_str_has_suffix (name, DOCUMENT_SUFFIX) || parent == NULL) {
    target = g_object_ref (file);
  } else {
    g_autofree char *longer = g_strconcat (name, DOCUMENT_SUFFIX, NULL);

    target = g_file_get_child (parent, longer);
    /* The chooser asked about the name without suffix only: never replace another file unasked. */
    if (g_file_query_exists (target, NULL)) {
      g_autofree char *sentence = g_strdup_printf (
          _ ("%s exists already. Choose it in the list to replace it, or give another name."), longer);

      window_tell (self, sentence, TRUE);
      return;
    }
  }
  if (save_to (self, target) && self->may_close)
    gtk_window_close (GTK_WINDOW (self));
  self->may_close = FALSE;
}

static void
ask_name (Window *self)
{
  g_autofree char *title = document_dup_title (self->document);
  g_autofree char *name = NULL;

  if (g_str_has_suffix (title, DOCUMENT_SUFFIX))
    title[strlen (title) - strlen (DOCUMENT_SUFFIX)] = '\0';
  g_strdelimit (title, "/\\", '-');
  name = g_strconcat (title, DOCUMENT_SUFFIX, NULL);
  window_choose_file (self, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("Save the design"), name, "*" DOCUMENT_SUFFIX,
                      _ ("Downcomer designs"), save_as);
}

static void
on_save (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);
  GFile *file = document_get_file (self->document);

  if (file != NULL && g_str_equal (name, "win.save"))
    save_to (self, file);
  else
    ask_name (self);
}

/* Closing */

enum { RESPONSE_DISCARD = 1, RESPONSE_SAVE };

static void
on_close_response (GtkDialog *dialog, int response, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);
  GFile *file = document_get_file (self->document);

  /* The window may be gone before the dialog, which would then ask a freed parent to forget it. */
  gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL);
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == RESPONSE_DISCARD || (response == RESPONSE_SAVE && file != NULL && save_to (self, file))) {
    self->may_close = TRUE;
    gtk_window_close (GTK_WINDOW (self));
  } else if (response == RESPONSE_SAVE && file == NULL) {
    self->may_close = TRUE; /* once a name is given */
    ask_name (self);
  }
}

gboolean
window_ask_before_close (Window *self)
{
  g_autofree char *title = document_dup_title (self->document);
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Save the changes to “%s” before closing?"), title);

  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s",
                                            _ ("Without saving, the changes since the last save are lost."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("Discard"), RESPONSE_DISCARD, _ ("Cancel"),
                          GTK_RESPONSE_CANCEL, _ ("Save"), RESPONSE_SAVE, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), RESPONSE_SAVE);
  g_signal_connect (dialog, "response", G_CALLBACK (on_close_response), self);
  gtk_window_present (GTK_WINDOW (dialog));
  return TRUE;
}

void
window_install_file_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "win.open", NULL, on_open);
  gtk_widget_class_install_action (klass, "win.open-uri", "s", on_open_uri);
  gtk_widget_class_install_action (klass, "win.save", NULL, on_save);
  gtk_widget_class_install_action (klass, "win.save-as", NULL, on_save);
}
