/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The arrow keys: what a handle does, in steps. A row of them is one step of the history. */
#include <math.h>

#include "app/canvas/canvas-moves.h"
#include "app/canvas/canvas-private.h"
#include "app/canvas/canvas-snap.h"

#define NUDGE_MS 1200

static gboolean
moves_along (const SceneHandle *handle, SceneAxis axis)
{
  for (unsigned k = 0; k < handle->n_moves; k++)
    if (handle->moves[k].axis == axis)
      return TRUE;
  return FALSE;
}

/* The handle that an arrow moves: the one held last where it goes that way, else one that moves the whole part, else any. */
static const SceneHandle *
handle_along (Canvas *self, SceneAxis axis, unsigned *ret_number)
{
  const int part = canvas_selected (self);
  const SceneHandle *found = NULL;

  for (unsigned i = 0; part >= 0 && i < scene_n_handles (self->scene, part); i++) {
    const SceneHandle *handle = scene_handle (self->scene, part, i);

    if (!moves_along (handle, axis))
      continue;
    /* The wall of a pipe is meant only where it was in hand. */
    if (canvas_is_size (handle) && !canvas_is_held (self, part, i))
      continue;
    if (canvas_is_held (self, part, i)) {
      *ret_number = i;
      return handle;
    }
    if (found == NULL || (handle->body && !found->body)) {
      *ret_number = i;
      found = handle;
    }
  }
  return found;
}

gboolean
canvas_can_nudge (Canvas *self)
{
  const int part = canvas_selected (self);

  for (unsigned i = 0; part >= 0 && self->scene != NULL && i < scene_n_handles (self->scene, part); i++)
    if (!canvas_is_size (scene_handle (self->scene, part, i)) || canvas_is_held (self, part, i))
      return TRUE;
  return FALSE;
}

void
canvas_nudge_end (Canvas *self)
{
  if (self->nudge_source == 0)
    return;
  g_clear_handle_id (&self->nudge_source, g_source_remove);
  document_end (self->document);
  if (self->note != NULL)
    canvas_hide_note (self);
  canvas_view_follow (self);
}

static gboolean
on_nudge_over (gpointer data)
{
  canvas_nudge_end (DOWNCOMER_CANVAS (data));
  return G_SOURCE_REMOVE;
}

gboolean
canvas_nudge (Canvas *self, SceneAxis axis, int direction, gboolean far)
{
  Design *design = document_get_design (self->document);
  unsigned number;
  const SceneHandle *handle = handle_along (self, axis, &number);
  Problem problem = {.code = PROBLEM_NONE};
  g_autoptr (GArray) moves = NULL;
  g_autoptr (Design) moved = NULL;
  g_autofree char *label = NULL;
  double values[N_SCENE_AXES] = {(double) NAN, (double) NAN};
  const CanvasMove *lead;

  if (handle == NULL || canvas_dragging (self))
    return FALSE;
  if (canvas_is_size (handle)) {
    canvas_size_step (self, direction);
    return TRUE;
  }
  moves = canvas_moves_new (self, handle);
  lead = canvas_moves_lead (moves, axis);
  label = canvas_moves_label (design, moves);
  values[axis] = canvas_snap_step (lead->start, document_get_style (self->document),
                                   lead->gain < 0 ? -direction : direction, far);
  if (self->nudge_source == 0)
    document_begin (self->document, label);
  g_clear_handle_id (&self->nudge_source, g_source_remove);
  self->nudge_source = g_timeout_add (NUDGE_MS, on_nudge_over, self);
  moved = canvas_moves_apply (moves, design, values, &problem);
  if (moved != NULL) {
    g_autoptr (Design) carried = canvas_moves_carry (moves, design, moved);

    document_apply (self->document, carried, label);
  }
  handle = handle_along (self, axis, &number); /* of the scene as it is now */
  if (handle != NULL)
    canvas_moves_say (self, moves, (gboolean[N_SCENE_AXES]){axis == AXIS_X, axis == AXIS_Z}, &problem,
                      view_x (&self->view, handle->x), view_y (&self->view, handle->z));
  return TRUE;
}
