/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The help overlay names exactly the keys of the actions, and is a window that GTK can build. */
#include <gtk/gtk.h>

#include "app/inspector/inspector.h"
#include "app/window/shortcuts.h"

#define OVERLAY "/io/github/downcomer/Downcomer/help-overlay.ui"

/* Keys with Control that the drawing hears while it has the focus, and no action of the window has. */
static const char *const of_drawing[] = {"<Control>a", "<Control>x <Control>c <Control>v <Control>d", NULL};

static void
collect (GtkWidget *widget, GPtrArray *accelerators)
{
  if (GTK_IS_SHORTCUTS_SHORTCUT (widget)) {
    char *accelerator = NULL;

    g_object_get (widget, "accelerator", &accelerator, NULL);
    g_ptr_array_add (accelerators, accelerator);
  }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect (child, accelerators);
}

static void
test_overlay (void)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource (OVERLAY);
  GtkWidget *window = GTK_WIDGET (gtk_builder_get_object (builder, "help_overlay"));
  g_autoptr (GPtrArray) shown = g_ptr_array_new_with_free_func (g_free);

  g_assert_true (GTK_IS_SHORTCUTS_WINDOW (window));
  collect (window, shown);
  g_assert_cmpuint (shown->len, >, 15);
  for (guint n = 0; shortcut_nth (n) != NULL; n++) {
    const Shortcut *shortcut = shortcut_nth (n);
    g_autofree char *wanted = g_strjoinv (" ", (char **) shortcut->keys);

    g_test_message ("%s: %s", shortcut->action, wanted);
    g_assert_true (g_ptr_array_find_with_equal_func (shown, wanted, g_str_equal, NULL));
    for (guint i = 0; shortcut->keys[i] != NULL; i++) {
      guint key = 0;
      GdkModifierType modifiers = 0;

      g_assert_true (gtk_accelerator_parse (shortcut->keys[i], &key, &modifiers));
    }
  }
  /* And no key with a modifier that no action has. */
  for (guint i = 0; i < shown->len; i++) {
    const char *keys = g_ptr_array_index (shown, i);
    gboolean known = !g_str_has_prefix (keys, "<Control>") || g_strv_contains (of_drawing, keys);

    for (guint n = 0; !known && shortcut_nth (n) != NULL; n++) {
      g_autofree char *wanted = g_strjoinv (" ", (char **) shortcut_nth (n)->keys);

      known = g_str_equal (wanted, keys);
    }
    g_assert_true (known);
  }
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  g_type_ensure (DOWNCOMER_TYPE_INSPECTOR); /* brings the resources along */
  g_test_add_func ("/shortcuts/overlay", test_overlay);
  return g_test_run ();
}
