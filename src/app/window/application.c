/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/window/application.h"

#include <glib/gi18n.h>

#include "app/window/shortcuts.h"
#include "app/window/window.h"
#include "config.h"
#include "files/catalogue-file.h"

struct _Application {
  GtkApplication parent_instance;

  Catalogue *catalogue;
  Theme *theme;
  GSettings *settings;
  gboolean recovered; /* recovery copies have been looked for */
};

G_DEFINE_FINAL_TYPE (Application, application, GTK_TYPE_APPLICATION)

static void
on_quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  /* Each window asks about unsaved work and may stay. */
  GList *windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (data)));

  for (GList *each = windows; each != NULL; each = each->next)
    gtk_window_close (GTK_WINDOW (each->data));
  g_list_free (windows);
}

static void
on_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_show_about_dialog (gtk_application_get_active_window (GTK_APPLICATION (data)), "program-name",
                         "Downcomer", "version", PACKAGE_VERSION, "logo-icon-name", APP_ID, "license-type",
                         GTK_LICENSE_LGPL_2_1, "comments",
                         _ ("Plans an aquarium's whole water loop. Its figures are advice: structure, "
                            "electricity and plumbing are to be "
                            "checked by licensed people, and local codes come first."),
                         NULL);
}

static void
on_appearance (GSimpleAction *action, GVariant *state, gpointer data)
{
  Application *self = DOWNCOMER_APPLICATION (data);
  const char *word = g_variant_get_string (state, NULL);

  g_simple_action_set_state (action, state);
  theme_set_appearance (self->theme, g_str_equal (word, "dark")    ? APPEARANCE_DARK
                                     : g_str_equal (word, "light") ? APPEARANCE_LIGHT
                                                                   : APPEARANCE_SYSTEM);
  if (self->settings != NULL)
    g_settings_set_string (self->settings, "appearance", word);
}

static const GActionEntry actions[] = {
    {.name = "quit", .activate = on_quit},
    {.name = "about", .activate = on_about},
    {.name = "appearance", .parameter_type = "s", .state = "'system'", .change_state = on_appearance},
};

static GSettings *
settings_or_null (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema =
      source != NULL ? g_settings_schema_source_lookup (source, APP_ID, TRUE) : NULL;

  return schema != NULL ? g_settings_new (APP_ID) : NULL;
}

static void
application_startup (GApplication *application)
{
  Application *self = DOWNCOMER_APPLICATION (application);

  G_APPLICATION_CLASS (application_parent_class)->startup (application);
  self->theme = theme_new (gdk_display_get_default ());
  self->settings = settings_or_null ();
  g_action_map_add_action_entries (G_ACTION_MAP (self), actions, G_N_ELEMENTS (actions), self);
  if (self->settings != NULL) {
    g_autofree char *word = g_settings_get_string (self->settings, "appearance");

    g_action_group_change_action_state (G_ACTION_GROUP (self), "appearance", g_variant_new_string (word));
  }
  for (guint i = 0; shortcut_nth (i) != NULL; i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (self), shortcut_nth (i)->action,
                                           shortcut_nth (i)->keys);
  gtk_window_set_default_icon_name (APP_ID);
}

/* What a crash left is shown at the first window of a run. */
static guint
recover (Application *self)
{
  if (self->recovered)
    return 0;
  self->recovered = TRUE;
  return window_recover_all (self);
}

static void
application_activate (GApplication *application)
{
  Application *self = DOWNCOMER_APPLICATION (application);

  if (recover (self) == 0)
    gtk_window_present (GTK_WINDOW (window_new (self)));
}

static void
application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  recover (DOWNCOMER_APPLICATION (application));
  for (int i = 0; i < n_files; i++)
    application_open_file (DOWNCOMER_APPLICATION (application), files[i], NULL);
}

static void
application_dispose (GObject *object)
{
  Application *self = DOWNCOMER_APPLICATION (object);

  g_clear_object (&self->theme);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->catalogue, catalogue_unref);
  G_OBJECT_CLASS (application_parent_class)->dispose (object);
}

static void
application_class_init (ApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = application_dispose;
  application_class->startup = application_startup;
  application_class->activate = application_activate;
  application_class->open = application_open;
}

static void
application_init (Application *self)
{
  self->catalogue = catalogue_built_in ();
}

Application *
application_new (void)
{
  return g_object_new (DOWNCOMER_TYPE_APPLICATION, "application-id", APP_ID, "flags",
                       G_APPLICATION_HANDLES_OPEN, NULL);
}

Catalogue *
application_get_catalogue (Application *application)
{
  return application->catalogue;
}

Theme *
application_get_theme (Application *application)
{
  return application->theme;
}

GSettings *
application_get_settings (Application *application)
{
  return application->settings;
}

/* The window that a file is open in already, or NULL. */
static Window *
window_on (Application *self, GFile *file)
{
  for (GList *each = gtk_application_get_windows (GTK_APPLICATION (self)); each != NULL; each = each->next) {
    GFile *its =
        DOWNCOMER_IS_WINDOW (each->data) ? document_get_file (window_get_document (each->data)) : NULL;

    if (its != NULL && g_file_equal (its, file))
      return each->data;
  }
  return NULL;
}

void
application_open_file (Application *application, GFile *file, GtkWindow *window)
{
  Window *open = window_on (application, file);

  if (open != NULL) {
    gtk_window_present (GTK_WINDOW (open));
    return;
  }
  if (window == NULL) {
    gtk_window_present (GTK_WINDOW (window_new_for_file (application, file)));
    return;
  }
  window_load (DOWNCOMER_WINDOW (window), file);
  gtk_window_present (window);
}

int
application_run_window (int argc, char **argv)
{
  g_autoptr (Application) application = application_new ();

  return g_application_run (G_APPLICATION (application), argc, argv);
}
