/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Looking at the same design from another side. */
#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-private.h"

static const char *const names[N_SCENE_PROJECTIONS] = {[PROJECTION_FRONT] = N_ ("Drawing from the front"),
                                                       [PROJECTION_END] = N_ ("Drawing from the right end"),
                                                       [PROJECTION_PLAN] = N_ ("Drawing from above"),
                                                       [PROJECTION_ISOMETRIC] = N_ ("Isometric drawing")};

static void
keep_place (Canvas *self)
{
  self->places[self->projection] = (CanvasPlace){.known = TRUE,
                                                 .fitted = self->fitted,
                                                 .origin_x = self->view.origin_x - self->view.width / 2,
                                                 .origin_y = self->view.origin_y - self->view.height / 2,
                                                 .scale = self->view.scale,
                                                 .outline = self->outline};
}

/* What was in the middle is there again, however large the room is now. */
static void
restore_place (Canvas *self)
{
  const CanvasPlace *place = &self->places[self->projection];

  self->fitted = !place->known || place->fitted;
  if (self->fitted) {
    canvas_fit (self);
    return;
  }
  self->view.scale = place->scale;
  self->view.origin_x = round (place->origin_x + self->view.width / 2);
  self->view.origin_y = round (place->origin_y + self->view.height / 2);
  self->outline = place->outline;
  canvas_view_changed (self);
}

/* What is under way in one view has no meaning in another. */
static void
end_activities (Canvas *self)
{
  canvas_entry_cancel (self);
  canvas_nudge_end (self);
  canvas_drag_cancel (self);
  if (canvas_measuring (self))
    canvas_measure_end (self);
  canvas_hide_note (self);
  canvas_settle (self);
  canvas_hold (self, NULL, 0);
}

void
canvas_set_projection (Canvas *canvas, SceneProjection projection)
{
  g_return_if_fail (DOWNCOMER_IS_CANVAS (canvas) && projection < N_SCENE_PROJECTIONS);

  gtk_accessible_update_property (GTK_ACCESSIBLE (canvas), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (names[projection]), -1);
  if (canvas->projection == projection)
    return;
  if (canvas->document != NULL) {
    end_activities (canvas);
    keep_place (canvas);
  }
  canvas->projection = projection;
  if (canvas->document == NULL)
    return;
  canvas_build (canvas);
  g_clear_pointer (&canvas->base, gsk_render_node_unref);
  g_clear_pointer (&canvas->layout, layout_free);
  restore_place (canvas);
  canvas_sync_children (canvas);
  canvas_update_cursor (canvas);
}

SceneProjection
canvas_get_projection (Canvas *canvas)
{
  g_return_val_if_fail (DOWNCOMER_IS_CANVAS (canvas), PROJECTION_FRONT);
  return canvas->projection;
}
