/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The options of a project in the window: a menu in the header that names the one in work and all the others. Each choice
 * is one step of the history. */
#include <glib/gi18n.h>

#include "app/options/option-name-dialog.h"
#include "app/options/options-dialog.h"
#include "app/window/window-private.h"
#include "report/difference.h"

static void
apply (Window *self, Project *project, const char *label)
{
  if (project != NULL)
    document_apply_project (self->document, project, label);
  project_unref (project);
}

static void
on_option (GSimpleAction *action, GVariant *state, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);
  Project *project = document_get_project (self->document);
  const int option = project_find_option (project, g_variant_get_string (state, NULL));

  if (option >= 0)
    apply (self, project_with_active (project, (unsigned) option), _ ("Switch option"));
}

static void
on_variant (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);
  Project *project = document_get_project (self->document);
  g_autofree char *of = difference_option_name (project, project_active (project));
  g_autofree char *label = NULL;

  for (unsigned n = 2; label == NULL || project_find_option (project, label) >= 0; n++) {
    g_autofree char *number = g_strdup_printf ("%u", n);

    g_free (label);
    label = words_fill (_ ("{option}, variant {number}"), "option", of, "number", number, NULL);
  }
  apply (self, project_with_variant (project, label), _ ("New variant"));
}

static void
show (Window *self, GtkWidget *dialog)
{
  gtk_window_set_transient_for (GTK_WINDOW (dialog), GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
on_rename (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);

  show (self,
        option_name_dialog_new (self->document, project_active (document_get_project (self->document))));
}

static void
on_remove (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);
  Project *project = document_get_project (self->document);

  apply (self, project_without_option (project, project_active (project)), _ ("Remove option"));
}

static void
on_move (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);
  Project *project = document_get_project (self->document);
  const unsigned at = project_active (project);
  const gboolean earlier = g_str_equal (name, "win.option-earlier");

  if (earlier ? at > 0 : at + 1 < project_n_options (project))
    apply (self, project_with_place (project, at, earlier ? at - 1 : at + 1), _ ("Move option"));
}

static void
on_compare (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);

  show (self, options_dialog_new (self->document));
}

static GSimpleAction *
option_action (Window *self)
{
  GAction *found = g_action_map_lookup_action (G_ACTION_MAP (self), "option");

  if (found == NULL) {
    g_autoptr (GSimpleAction) action =
        g_simple_action_new_stateful ("option", G_VARIANT_TYPE_STRING, g_variant_new_string (""));

    g_signal_connect (action, "change-state", G_CALLBACK (on_option), self);
    g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (action));
    found = g_action_map_lookup_action (G_ACTION_MAP (self), "option");
  }
  return G_SIMPLE_ACTION (found);
}

static GMenuModel *
menu_of (const Project *project)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) options = g_menu_new ();
  g_autoptr (GMenu) make = g_menu_new ();
  g_autoptr (GMenu) order = g_menu_new ();

  for (unsigned i = 0; i < project_n_options (project); i++) {
    g_autofree char *label = difference_option_name (project, i);
    g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

    g_menu_item_set_action_and_target (item, "win.option", "s", project_option_key (project, i));
    g_menu_append_item (options, item);
  }
  g_menu_append (make, _ ("New variant"), "win.option-variant");
  g_menu_append (make, _ ("Compare options…"), "win.option-compare");
  g_menu_append (order, _ ("Rename…"), "win.option-rename");
  g_menu_append (order, _ ("Earlier in the list"), "win.option-earlier");
  g_menu_append (order, _ ("Later in the list"), "win.option-later");
  g_menu_append (order, _ ("Remove option"), "win.option-remove");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (options));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (make));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (order));
  return G_MENU_MODEL (menu);
}

/* What the menu shows of a project, to leave an open menu alone while the design changes. */
static char *
fingerprint (const Project *project)
{
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < project_n_options (project); i++)
    g_string_append_printf (text, "%s\n%s\n", project_option_key (project, i),
                            project_option_label (project, i) != NULL ? project_option_label (project, i)
                                                                      : "");
  return g_string_free (text, FALSE);
}

void
window_update_options (Window *self)
{
  Project *project = document_get_project (self->document);
  const unsigned active = project_active (project), n = project_n_options (project);
  g_autofree char *name = difference_option_name (project, active);
  g_autofree char *spoken = words_fill (_ ("Option shown: {option}"), "option", name, NULL);
  g_autofree char *print = fingerprint (project);
  GtkWidget *widget = GTK_WIDGET (self);

  g_simple_action_set_state (option_action (self),
                             g_variant_new_string (project_option_key (project, active)));
  gtk_label_set_text (self->options_label, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->options_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  spoken, -1);
  gtk_widget_action_set_enabled (widget, "win.option-variant", n < MAX_OPTIONS);
  gtk_widget_action_set_enabled (widget, "win.option-compare", n > 1);
  gtk_widget_action_set_enabled (widget, "win.option-remove", n > 1);
  gtk_widget_action_set_enabled (widget, "win.option-earlier", active > 0);
  gtk_widget_action_set_enabled (widget, "win.option-later", active + 1 < n);
  if (g_strcmp0 (print, g_object_get_data (G_OBJECT (self->options_button), "shown")) == 0)
    return;
  g_autoptr (GMenuModel) menu = menu_of (project);

  gtk_menu_button_set_menu_model (self->options_button, menu);
  g_object_set_data_full (G_OBJECT (self->options_button), "shown", g_steal_pointer (&print), g_free);
}

void
window_install_options_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "win.option-variant", NULL, on_variant);
  gtk_widget_class_install_action (klass, "win.option-compare", NULL, on_compare);
  gtk_widget_class_install_action (klass, "win.option-rename", NULL, on_rename);
  gtk_widget_class_install_action (klass, "win.option-remove", NULL, on_remove);
  gtk_widget_class_install_action (klass, "win.option-earlier", NULL, on_move);
  gtk_widget_class_install_action (klass, "win.option-later", NULL, on_move);
}
