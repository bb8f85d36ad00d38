/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/key-figures.h"

#include "app/common/formula-button.h"
#include "report/summary.h"

struct _KeyFigures {
  GtkGrid parent_instance;

  int n_rows;
};

G_DEFINE_FINAL_TYPE (KeyFigures, key_figures, GTK_TYPE_GRID)

static void
key_figures_class_init (KeyFiguresClass *klass)
{
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
key_figures_init (KeyFigures *self)
{
  gtk_grid_set_column_spacing (GTK_GRID (self), 6);
  gtk_grid_set_row_spacing (GTK_GRID (self), 2);
}

static void
add_row (KeyFigures *self)
{
  GtkWidget *name = gtk_label_new (NULL), *value = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (name), 16);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (name, "soft");
  gtk_label_set_xalign (GTK_LABEL (value), 1);
  gtk_widget_set_valign (value, GTK_ALIGN_START);
  gtk_label_set_selectable (GTK_LABEL (value), FALSE);
  gtk_widget_add_css_class (value, "figures");
  gtk_grid_attach (GTK_GRID (self), name, 0, self->n_rows, 1, 1);
  gtk_grid_attach (GTK_GRID (self), value, 1, self->n_rows, 1, 1);
  self->n_rows++;
}

/* Where there are steps to show; made then, as most lists of figures have none. */
static void
show_formula (KeyFigures *self, const SummaryFigure *figure, int row)
{
  const gboolean wanted = figure != NULL && figure->steps[0] != N_STEPS;
  GtkWidget *button = gtk_grid_get_child_at (GTK_GRID (self), 2, row);

  if (button == NULL && wanted) {
    button = formula_button_new ();
    gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "inspector.explain-figure");
    gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "i", row);
    gtk_grid_attach (GTK_GRID (self), button, 2, row, 1, 1);
  }
  if (wanted)
    formula_button_name (button, figure->name);
  if (button != NULL)
    gtk_widget_set_visible (button, wanted);
}

GtkWidget *
key_figures_get_formula (KeyFigures *figures, int row)
{
  g_return_val_if_fail (DOWNCOMER_IS_KEY_FIGURES (figures), NULL);
  return gtk_grid_get_child_at (GTK_GRID (figures), 2, row);
}

void
key_figures_set (KeyFigures *figures, GPtrArray *list)
{
  g_return_if_fail (DOWNCOMER_IS_KEY_FIGURES (figures));
  while (figures->n_rows < (int) list->len)
    add_row (figures);
  for (int i = 0; i < figures->n_rows; i++) {
    const SummaryFigure *figure = i < (int) list->len ? g_ptr_array_index (list, (guint) i) : NULL;
    GtkWidget *name = gtk_grid_get_child_at (GTK_GRID (figures), 0, i);
    GtkWidget *value = gtk_grid_get_child_at (GTK_GRID (figures), 1, i);

    gtk_widget_set_visible (name, figure != NULL);
    gtk_widget_set_visible (value, figure != NULL);
    show_formula (figures, figure, i);
    if (figure != NULL) {
      gtk_label_set_text (GTK_LABEL (name), figure->name);
      gtk_label_set_text (GTK_LABEL (value), figure->value);
    }
  }
}
