/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which views of the design the window shows: one, or all four in panes that stand as they would on a drawing. The panes
 * beside the first are made when asked for and thrown away after, so that a hidden one costs nothing. */
#include "app/window/window-private.h"
#include "design/choices.h"

static const char *const words[N_SCENE_PROJECTIONS] = {[PROJECTION_FRONT] = "front",
                                                       [PROJECTION_END] = "end",
                                                       [PROJECTION_PLAN] = "plan",
                                                       [PROJECTION_ISOMETRIC] = "isometric"};

/* ISO 5456-2. First angle: what is seen from the right stands on the left, what is seen from above below. Third angle, as
 * drawn where feet and inches are used: each view stands on the side that it is seen from. */
static void
place_of (SceneProjection projection, gboolean third_angle, int *ret_column, int *ret_row)
{
  const gboolean right = projection == PROJECTION_FRONT || projection == PROJECTION_PLAN;
  const gboolean lower = projection == PROJECTION_PLAN || projection == PROJECTION_ISOMETRIC;

  *ret_column = right != third_angle;
  *ret_row = lower != third_angle;
}

void
window_each_canvas (Window *self, GFunc function, gpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (self->panes); i++)
    if (self->panes[i] != NULL)
      function (self->panes[i], data);
}

static void
remove_panes (Window *self)
{
  for (guint i = 1; i < G_N_ELEMENTS (self->panes); i++) {
    if (self->panes[i] != NULL)
      gtk_grid_remove (self->views, GTK_WIDGET (self->panes[i]));
    self->panes[i] = NULL;
  }
}

/* Layers are those of the first pane. */
static Canvas *
new_pane (Window *self, SceneProjection projection)
{
  Canvas *pane = g_object_new (DOWNCOMER_TYPE_CANVAS, "hexpand", TRUE, "vexpand", TRUE, NULL);

  canvas_set_projection (pane, projection);
  canvas_set_model (pane, self->document, self->selection, application_get_theme (self->application));
  window_watch_canvas (self, pane);
  return pane;
}

void
window_arrange_views (Window *self)
{
  const Part *job = design_nth (document_get_design (self->document), PART_JOB, 0);
  const gboolean third = job != NULL && design_choice (document_get_design (self->document), job,
                                                       FIELD_JOB_UNITS) == UNITS_CHOICE_US;
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self->views));

  for (guint i = 0; i < G_N_ELEMENTS (self->panes); i++) {
    int column = 0, row = 0;
    GtkLayoutChild *child;

    if (self->panes[i] == NULL)
      continue;
    if (self->panes[1] != NULL)
      place_of ((SceneProjection) i, third, &column, &row);
    child = gtk_layout_manager_get_layout_child (layout, GTK_WIDGET (self->panes[i]));
    g_object_set (child, "column", column, "row", row, NULL);
  }
}

void
window_show_view (Window *self, const char *word)
{
  const gboolean all = g_str_equal (word, "all");

  if (!all)
    remove_panes (self);
  for (guint i = 0; i < N_SCENE_PROJECTIONS; i++)
    if (g_str_equal (words[i], all ? "front" : word))
      canvas_set_projection (self->canvas, (SceneProjection) i);
  for (guint i = 1; all && i < G_N_ELEMENTS (self->panes); i++)
    if (self->panes[i] == NULL) {
      self->panes[i] = new_pane (self, (SceneProjection) i);
      gtk_grid_attach (self->views, GTK_WIDGET (self->panes[i]), 0, 0, 1, 1);
    }
  window_arrange_views (self);
}
