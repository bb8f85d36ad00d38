/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/label-text.h"

#include <string.h>

/* Pango would break a line behind any stroke; attributes forbid it and leave the text as it is read aloud. */
static PangoAttrList *
unbroken (const char *text)
{
  PangoAttrList *attributes = pango_attr_list_new ();

  for (const char *at = strchr (text, '/'); at != NULL; at = strchr (at + 1, '/')) {
    PangoAttribute *attribute = pango_attr_allow_breaks_new (FALSE);
    const gsize offset = (gsize) (at - text);

    attribute->start_index = (guint) (offset > 0 ? offset - 1 : 0);
    attribute->end_index = (guint) MIN (offset + 2, strlen (text));
    pango_attr_list_insert (attributes, attribute);
  }
  return attributes;
}

void
label_text_set (GtkLabel *label, const char *text)
{
  const char *shown = text != NULL ? text : "";

  if (g_strcmp0 (gtk_label_get_text (label), shown) != 0) {
    PangoAttrList *attributes = unbroken (shown);

    gtk_label_set_text (label, shown);
    gtk_label_set_attributes (label, attributes);
    pango_attr_list_unref (attributes);
  }
  gtk_widget_set_visible (GTK_WIDGET (label), shown[0] != '\0');
}
