/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Choosing several parts: with a rubber band, all of them, and what of the choice is left after a change. */
#include "app/canvas/canvas-private.h"

/* Rectangle between press and pointer. */
static graphene_rect_t
band (Canvas *self)
{
  graphene_rect_t rect = GRAPHENE_RECT_INIT ((float) self->press_x, (float) self->press_y,
                                             (float) self->band_dx, (float) self->band_dy);

  graphene_rect_normalize (&rect);
  return rect;
}

void
canvas_band_to (Canvas *self, double dx, double dy)
{
  self->band_dx = dx;
  self->band_dy = dy;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* What lies wholly within the band is chosen beside what was. */
void
canvas_band_end (Canvas *self)
{
  const graphene_rect_t rect = band (self);
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);

  for (CanvasPart *part = canvas_next_child (self, NULL, 1); part != NULL;
       part = canvas_next_child (self, part, 1)) {
    graphene_rect_t box;

    if (canvas_part_box (self, canvas_part_get_index (part), &box) &&
        graphene_rect_contains_rect (&rect, &box) &&
        !selection_contains (self->selection, canvas_part_get_key (part)))
      g_ptr_array_add (keys, g_strdup (canvas_part_get_key (part)));
  }
  for (guint i = 0; i < selection_count (self->selection); i++)
    g_ptr_array_add (keys, g_strdup (selection_get_keys (self->selection)[i]));
  g_ptr_array_add (keys, NULL);
  selection_set_keys (self->selection, (const char *const *) keys->pdata);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
canvas_band_snapshot (Canvas *self, GtkSnapshot *snapshot)
{
  const Color color = canvas_palette (self)->selected;
  const GdkRGBA edge = {(float) color.red, (float) color.green, (float) color.blue, 1};
  const GdkRGBA fill = {(float) color.red, (float) color.green, (float) color.blue, 0.08f};
  const graphene_rect_t rect = band (self);
  GskRoundedRect frame;

  if (self->activity != CANVAS_BANDING || rect.size.width < 1 || rect.size.height < 1)
    return;
  gtk_snapshot_append_color (snapshot, &fill, &rect);
  gsk_rounded_rect_init_from_rect (&frame, &rect, 0);
  gtk_snapshot_append_border (snapshot, &frame, (float[4]){1, 1, 1, 1}, (GdkRGBA[4]){edge, edge, edge, edge});
}

void
canvas_choose_all (Canvas *self)
{
  g_autoptr (GPtrArray) keys = g_ptr_array_new ();

  for (CanvasPart *part = canvas_next_child (self, NULL, 1); part != NULL;
       part = canvas_next_child (self, part, 1))
    g_ptr_array_add (keys, (gpointer) canvas_part_get_key (part));
  g_ptr_array_add (keys, NULL);
  selection_set_keys (self->selection, (const char *const *) keys->pdata);
}

/* Of several chosen parts only those that the design still has. */
void
canvas_choose_left (Canvas *self)
{
  const Design *design = document_get_design (self->document);
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);
  const guint n = selection_count (self->selection);

  for (guint i = 0; i < n; i++) {
    const char *key = selection_get_keys (self->selection)[i];

    if (design_find (design, key) != NULL)
      g_ptr_array_add (keys, g_strdup (key));
  }
  if (keys->len == n || n < 2)
    return;
  g_ptr_array_add (keys, NULL);
  selection_set_keys (self->selection, (const char *const *) keys->pdata);
}
