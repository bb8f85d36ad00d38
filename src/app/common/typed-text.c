/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/typed-text.h"

#define SHOWN "downcomer-shown-text"

void
typed_text_show (GtkEditable *entry, const char *text)
{
  g_object_set_data_full (G_OBJECT (entry), SHOWN, g_strdup (text), g_free);
  if (g_strcmp0 (gtk_editable_get_text (entry), text) != 0)
    gtk_editable_set_text (entry, text);
}

gboolean
typed_text_take_back (GtkWidget *widget)
{
  GtkWidget *entry = widget != NULL ? gtk_widget_get_ancestor (widget, GTK_TYPE_ENTRY) : NULL;
  const char *shown = entry != NULL ? g_object_get_data (G_OBJECT (entry), SHOWN) : NULL;

  if (shown == NULL || g_str_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), shown))
    return FALSE;
  gtk_editable_set_text (GTK_EDITABLE (entry), shown);
  gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
  return TRUE;
}
