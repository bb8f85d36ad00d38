/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/formula-button.h"

#include <glib/gi18n.h>

GtkWidget *
formula_button_new (void)
{
  GtkWidget *button = gtk_button_new (), *sign = gtk_label_new ("ƒ");

  gtk_button_set_child (GTK_BUTTON (button), sign);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  gtk_widget_add_css_class (button, "tight");
  gtk_widget_add_css_class (button, "formula");
  return button;
}

void
formula_button_name (GtkWidget *button, const char *what)
{
  g_autofree char *name = g_strdup_printf (_ ("Calculation of %s"), what);

  if (g_strcmp0 (gtk_widget_get_tooltip_text (button), name) == 0)
    return;
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}
