/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/drop-down.h"

#include <string.h>

static void
on_setup (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer cut)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (GPOINTER_TO_INT (cut)) {
    gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
    gtk_label_set_width_chars (GTK_LABEL (label), 6);
  }
  gtk_list_item_set_child (item, label);
}

static const char *
without_indent (const char *text)
{
  while (g_str_has_prefix (text, DROP_DOWN_INDENT))
    text += strlen (DROP_DOWN_INDENT);
  return text;
}

static void
on_bind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer cut)
{
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (item));

  /* The indent of a tree means nothing for one entry alone. */
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)),
                      GPOINTER_TO_INT (cut) ? without_indent (text) : text);
}

static GtkListItemFactory *
factory_new (gboolean cut)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), GINT_TO_POINTER (cut));
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), GINT_TO_POINTER (cut));
  return factory;
}

GtkWidget *
drop_down_new (void)
{
  GtkWidget *drop_down = gtk_drop_down_new (G_LIST_MODEL (gtk_string_list_new (NULL)), NULL);
  g_autoptr (GtkListItemFactory) button = factory_new (TRUE);
  g_autoptr (GtkListItemFactory) list = factory_new (FALSE);

  gtk_drop_down_set_factory (GTK_DROP_DOWN (drop_down), button);
  gtk_drop_down_set_list_factory (GTK_DROP_DOWN (drop_down), list);
  return drop_down;
}

static void
say_selected (GtkDropDown *drop_down)
{
  const char *name = g_object_get_data (G_OBJECT (drop_down), "name");
  GtkStringObject *item = gtk_drop_down_get_selected_item (drop_down);
  GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (drop_down));
  g_autofree char *words = NULL;

  if (name == NULL || button == NULL)
    return;
  words = item != NULL
              ? g_strdup_printf ("%s: %s", name, without_indent (gtk_string_object_get_string (item)))
              : g_strdup (name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

void
drop_down_set_name (GtkDropDown *drop_down, const char *name)
{
  g_object_set_data_full (G_OBJECT (drop_down), "name", g_strdup (name), g_free);
  g_signal_connect (drop_down, "notify::selected-item", G_CALLBACK (say_selected), NULL);
  say_selected (drop_down);
}

static gboolean
is_same (GtkStringList *list, const char *const *names)
{
  const guint n = g_list_model_get_n_items (G_LIST_MODEL (list));

  if (n != g_strv_length ((char **) names))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!g_str_equal (gtk_string_list_get_string (list, i), names[i]))
      return FALSE;
  return TRUE;
}

void
drop_down_set (GtkDropDown *drop_down, const char *const *names, guint selected)
{
  GtkStringList *list = GTK_STRING_LIST (gtk_drop_down_get_model (drop_down));

  if (!is_same (list, names))
    gtk_string_list_splice (list, 0, g_list_model_get_n_items (G_LIST_MODEL (list)), names);
  if (gtk_drop_down_get_selected (drop_down) != selected)
    gtk_drop_down_set_selected (drop_down, selected);
}
