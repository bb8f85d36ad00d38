/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/formula-popover.h"

#include <glib/gi18n.h>

#include "report/explain.h"

#define WIDTH_CHARS 46
#define MAX_HEIGHT  460 /* pixels */

static void
add_line (GtkWidget *box, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), WIDTH_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), WIDTH_CHARS);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (box), label);
}

static GtkWidget *
step_box (const ExplainStep *step)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_widget_add_css_class (box, "formula-step");
  add_line (box, step->heading, "formula-heading");
  add_line (box, step->formula, "formula-relation");
  if (step->values[0] != '\0')
    add_line (box, step->values, "soft");
  add_line (box, step->result, "formula-result");
  if (step->source[0] != '\0') {
    g_autofree char *source = g_strdup_printf (_ ("Source: %s"), step->source);

    add_line (box, source, "soft");
  }
  return box;
}

static GtkWidget *
build (const char *title, GPtrArray *steps)
{
  GtkWidget *scrolled = gtk_scrolled_window_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  for (guint i = 0; i < steps->len; i++)
    gtk_box_append (GTK_BOX (box), step_box (g_ptr_array_index (steps, i)));
  if (steps->len == 0)
    add_line (box, _ ("Nothing of it is computed: it is as given."), NULL);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), box);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MAX_HEIGHT);
  /* It takes the focus, so that the arrow keys read on. */
  gtk_widget_set_focusable (scrolled, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (scrolled), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  return scrolled;
}

/* After the focus went back to where it came from. */
static gboolean
let_go (gpointer popover)
{
  if (gtk_widget_get_parent (popover) != NULL)
    gtk_widget_unparent (popover);
  return G_SOURCE_REMOVE;
}

static void
on_closed (GtkWidget *popover)
{
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, let_go, g_object_ref (popover), g_object_unref);
}

GtkWidget *
formula_popover_open (GtkWidget *at, const char *title, GPtrArray *steps)
{
  /* A box lets go of what was put into it by hand when it goes. */
  GtkWidget *parent = gtk_widget_get_ancestor (at, GTK_TYPE_BOX), *popover = gtk_popover_new ();
  graphene_rect_t bounds;

  gtk_widget_add_css_class (popover, "formulas");
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_popover_set_child (GTK_POPOVER (popover), build (title, steps));
  gtk_popover_set_position (GTK_POPOVER (popover), GTK_POS_LEFT);
  gtk_widget_set_parent (popover, parent);
  if (gtk_widget_compute_bounds (at, parent, &bounds))
    gtk_popover_set_pointing_to (GTK_POPOVER (popover),
                                 &(GdkRectangle){(int) bounds.origin.x, (int) bounds.origin.y,
                                                 (int) bounds.size.width, (int) bounds.size.height});
  g_signal_connect (popover, "closed", G_CALLBACK (on_closed), NULL);
  gtk_popover_popup (GTK_POPOVER (popover));
  return popover;
}
