/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Where parts lie on the canvas, which one is hit, and the children that stand for them in the order of flow. */
#include <math.h>

#include "app/canvas/canvas-flow.h"
#include "app/canvas/canvas-private.h"
#include "app/canvas/canvas-words.h"

gboolean
canvas_part_box (Canvas *self, int part, graphene_rect_t *ret_box)
{
  SceneBox box;
  double x0, y0, x1, y1;

  if (self->scene == NULL || part < 0)
    return FALSE;
  if (!scene_part_bounds (self->scene, part, &box)) {
    /* A corner is not drawn by itself, but it can be dragged. */
    const SceneHandle *handle = scene_handle (self->scene, part, 0);

    if (handle == NULL)
      return FALSE;
    box = (SceneBox){handle->x, handle->z, handle->x, handle->z};
  }
  x0 = CLAMP (view_x (&self->view, box.x0), -1e5, 1e5) - PICK_TOLERANCE;
  x1 = CLAMP (view_x (&self->view, box.x1), -1e5, 1e5) + PICK_TOLERANCE;
  y0 = CLAMP (view_y (&self->view, box.z1), -1e5, 1e5) - PICK_TOLERANCE;
  y1 = CLAMP (view_y (&self->view, box.z0), -1e5, 1e5) + PICK_TOLERANCE;
  graphene_rect_init (ret_box, (float) x0, (float) y0, (float) (x1 - x0), (float) (y1 - y0));
  return TRUE;
}

int
canvas_pick (Canvas *self, double x, double y)
{
  int part;
  unsigned number;

  if (self->scene == NULL)
    return -1;
  /* The toolkit asks every child in turn about the same place. */
  if (self->picked_x == x && self->picked_y == y)
    return self->picked;
  self->picked_x = x;
  self->picked_y = y;
  if (canvas_handle_at (self, x, y, &part, &number))
    self->picked = part;
  else
    self->picked = scene_pick (self->scene, &self->view, x, y, PICK_TOLERANCE, -1);
  return self->picked;
}

CanvasPart *
canvas_child (Canvas *self, const char *key)
{
  return key != NULL ? g_hash_table_lookup (self->parts, key) : NULL;
}

CanvasPart *
canvas_next_child (Canvas *self, CanvasPart *from, int step)
{
  GtkWidget *each;

  if (from == NULL)
    each = step > 0 ? gtk_widget_get_first_child (GTK_WIDGET (self))
                    : gtk_widget_get_last_child (GTK_WIDGET (self));
  else
    each = step > 0 ? gtk_widget_get_next_sibling (GTK_WIDGET (from))
                    : gtk_widget_get_prev_sibling (GTK_WIDGET (from));
  while (each != NULL && !DOWNCOMER_IS_CANVAS_PART (each))
    each = step > 0 ? gtk_widget_get_next_sibling (each) : gtk_widget_get_prev_sibling (each);
  return each != NULL ? DOWNCOMER_CANVAS_PART (each) : NULL;
}

/* What is drawn, by the way of the water. */
static GArray *
order_of_flow (Canvas *self, const Design *design)
{
  GArray *order = canvas_flow_order (design);

  for (guint i = order->len; i-- > 0;) {
    graphene_rect_t box;

    if (!canvas_part_box (self, g_array_index (order, int, i), &box))
      g_array_remove_index (order, i);
  }
  return order;
}

/* The child of a part, made where there is none, standing behind `previous`. */
static GtkWidget *
ensure_child (Canvas *self, const char *key, GtkWidget *previous)
{
  GtkWidget *child = (GtkWidget *) canvas_child (self, key);

  if (child == NULL) {
    child = canvas_part_new (self, key);
    g_hash_table_insert (self->parts, g_strdup (key), child);
    gtk_widget_insert_after (child, GTK_WIDGET (self), previous);
  } else if (gtk_widget_get_prev_sibling (child) != previous) {
    gtk_widget_insert_after (child, GTK_WIDGET (self), previous);
  }
  return child;
}

static void
remove_child (Canvas *self, GtkWidget *child)
{
  if (gtk_widget_get_focus_child (GTK_WIDGET (self)) == child)
    gtk_widget_grab_focus (GTK_WIDGET (self));
  g_hash_table_remove (self->parts, canvas_part_get_key (DOWNCOMER_CANVAS_PART (child)));
  gtk_widget_unparent (child);
}

/* Tells what a child stands for and what is true of it. */
static void
tell_child (Canvas *self, CanvasPart *child, const Part *part)
{
  const Design *design = document_get_design (self->document);
  g_autofree char *label = words_part (design, part);
  g_autofree char *description = canvas_description (design, document_get_evaluation (self->document), part,
                                                     document_get_style (self->document));

  canvas_part_tell (child, label, description);
}

void
canvas_sync_moving (Canvas *self)
{
  const Design *design = document_get_design (self->document);
  const int index = canvas_selected (self);
  CanvasPart *child = canvas_child (self, selection_get_key (self->selection));

  if (design_n_parts (design) != self->n_told) {
    canvas_sync_children (self);
    return;
  }
  self->untold = TRUE;
  if (child != NULL && index >= 0)
    tell_child (self, child, design_part (design, (unsigned) index));
}

void
canvas_sync_children (Canvas *self)
{
  const Design *design = document_get_design (self->document);
  g_autoptr (GArray) order = order_of_flow (self, design);
  /* Entry and menu stand before the note. */
  GtkWidget *previous = self->note, *next;

  for (guint i = 0; i < order->len; i++) {
    const int index = g_array_index (order, int, i);
    const Part *part = design_part (design, (unsigned) index);
    GtkWidget *child = ensure_child (self, part_key (part), previous);

    canvas_part_set_index (DOWNCOMER_CANVAS_PART (child), index);
    tell_child (self, DOWNCOMER_CANVAS_PART (child), part);
    previous = child;
  }
  /* Those left behind the last one are of parts that are no more. */
  while ((next = gtk_widget_get_next_sibling (previous)) != NULL)
    remove_child (self, next);
  self->n_told = design_n_parts (design);
  self->untold = FALSE;
  canvas_sync_selected (self);
}

void
canvas_sync_selected (Canvas *self)
{
  for (CanvasPart *part = canvas_next_child (self, NULL, 1); part != NULL;
       part = canvas_next_child (self, part, 1))
    canvas_part_set_selected (part, selection_contains (self->selection, canvas_part_get_key (part)));
}

void
canvas_place_children (Canvas *self)
{
  for (CanvasPart *part = canvas_next_child (self, NULL, 1); part != NULL;
       part = canvas_next_child (self, part, 1)) {
    graphene_rect_t box;

    if (!canvas_part_box (self, canvas_part_get_index (part), &box))
      graphene_rect_init (&box, 0, 0, 1, 1);
    canvas_part_place (part, (double) box.origin.x, (double) box.origin.y, (double) box.size.width,
                       (double) box.size.height);
  }
}
