/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/options/option-name-dialog.h"

#include <glib/gi18n.h>

#include "app/common/template.h"

struct _OptionNameDialog {
  GtkWindow parent_instance;

  Document *document;
  guint option;
  GtkEntry *entry;
};

G_DEFINE_FINAL_TYPE (OptionNameDialog, option_name_dialog, GTK_TYPE_WINDOW)

static void
on_accept (GtkWidget *widget, const char *name, GVariant *parameter)
{
  OptionNameDialog *self = DOWNCOMER_OPTION_NAME_DIALOG (widget);
  Project *project = document_get_project (self->document);
  g_autofree char *label = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  g_autoptr (Project) named =
      self->option < project_n_options (project) ? project_with_label (project, self->option, label) : NULL;

  if (named == NULL) {
    gtk_widget_error_bell (widget);
    return;
  }
  document_apply_project (self->document, named, _ ("Rename option"));
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
on_cancel (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_destroy (GTK_WINDOW (widget));
}

static void
option_name_dialog_dispose (GObject *object)
{
  OptionNameDialog *self = DOWNCOMER_OPTION_NAME_DIALOG (object);

  g_clear_object (&self->document);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_OPTION_NAME_DIALOG);
  G_OBJECT_CLASS (option_name_dialog_parent_class)->dispose (object);
}

static void
option_name_dialog_class_init (OptionNameDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = option_name_dialog_dispose;
  template_set (widget_class, "option-name-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OptionNameDialog, entry);
  gtk_widget_class_install_action (widget_class, "name.accept", NULL, on_accept);
  gtk_widget_class_install_action (widget_class, "name.cancel", NULL, on_cancel);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "name.cancel", NULL);
}

static void
option_name_dialog_init (OptionNameDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
option_name_dialog_new (Document *document, guint option)
{
  OptionNameDialog *self = g_object_new (DOWNCOMER_TYPE_OPTION_NAME_DIALOG, NULL);
  const char *label = project_option_label (document_get_project (document), option);

  self->document = g_object_ref (document);
  self->option = option;
  gtk_editable_set_text (GTK_EDITABLE (self->entry), label != NULL ? label : "");
  return GTK_WIDGET (self);
}
