/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A handle in hand. All of a drag is one step of the history. Along an axis the first move of the handle is what is
 * rounded, limited and said; all others (the other edge, the other chosen parts) follow it. */
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "app/canvas/canvas-moves.h"
#include "app/canvas/canvas-private.h"
#include "app/canvas/canvas-snap.h"
#include "design/edit.h"

#define FIRST_PIXELS  3.0 /* from where the main axis of a drag follows; nearer, the field keeps what it had */
#define SECOND_PIXELS 10.0 /* and the other axis */
#define HALVINGS      12

gboolean
canvas_dragging (Canvas *self)
{
  return self->drag.base != NULL;
}

gboolean
canvas_drag_begin (Canvas *self, int part, unsigned number)
{
  CanvasDrag *drag = &self->drag;
  Design *design = document_get_design (self->document);
  const SceneHandle *handle = scene_handle (self->scene, part, number);
  g_autofree char *label = NULL;

  if (handle == NULL || canvas_dragging (self))
    return FALSE;
  canvas_nudge_end (self);
  *drag = (CanvasDrag){.base = design_ref (design),
                       .key = g_strdup (part_key (design_part (design, (unsigned) part))),
                       .handle = *handle,
                       .number = number,
                       .moves = canvas_moves_new (self, handle),
                       .at = {(double) NAN, (double) NAN}};
  for (SceneAxis axis = 0; axis < N_SCENE_AXES; axis++) {
    drag->targets[axis] = canvas_snap_targets (self->scene, design, drag->moves, axis);
    drag->edges[axis] = canvas_snap_edges (self->scene, design, handle, axis);
  }
  label = canvas_moves_label (design, drag->moves);
  if (!document_in_gesture (self->document))
    document_begin (self->document, label);
  canvas_hold (self, drag->key, number);
  return TRUE;
}

void
canvas_drag_drop (Canvas *self)
{
  CanvasDrag *drag = &self->drag;

  g_clear_pointer (&drag->base, design_unref);
  g_clear_pointer (&drag->key, g_free);
  g_clear_pointer (&drag->moves, g_array_unref);
  for (unsigned k = 0; k < G_N_ELEMENTS (drag->targets); k++) {
    g_clear_pointer (&drag->targets[k], g_array_unref);
    g_clear_pointer (&drag->edges[k], g_array_unref);
  }
  drag->n_guides = 0;
  if (self->activity == CANVAS_DRAGGING)
    self->activity = CANVAS_IDLE;
  if (self->note != NULL)
    canvas_hide_note (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
is_good (const CanvasDrag *drag, const double values[N_SCENE_AXES], Problem *problem)
{
  g_autoptr (Design) design = canvas_moves_apply (drag->moves, drag->base, values, problem);

  return design != NULL;
}

/* Brings one value as far towards what is wanted as the design allows: the handle stops at the limit, and does not stay
 * where the pointer was seen last before it. */
static void
go_towards (const CanvasDrag *drag, double values[N_SCENE_AXES], SceneAxis axis, double wanted, double grid,
            Problem *problem)
{
  const CanvasMove *lead = canvas_moves_lead (drag->moves, axis);
  const double before = values[axis];
  double good = isfinite (before) ? before : lead->start, bad = wanted;

  values[axis] = wanted;
  if (!isfinite (wanted) || is_good (drag, values, problem))
    return;
  values[axis] = bad = CLAMP (wanted, field_info (lead->field)->min, field_info (lead->field)->max);
  if (is_good (drag, values, NULL))
    return;
  for (unsigned i = 0; i < HALVINGS; i++) {
    const double middle = canvas_snap_round ((good + bad) / 2, grid);

    values[axis] = middle;
    if (middle == good || middle == bad)
      break;
    if (is_good (drag, values, NULL))
      good = middle;
    else
      bad = middle;
  }
  values[axis] = good == lead->start ? before : good;
}

/* The design with these values, as far as it goes, and what there is to say. */
static void
go (Canvas *self, const double wanted[N_SCENE_AXES], double grid, double x, double y)
{
  CanvasDrag *drag = &self->drag;
  double values[N_SCENE_AXES];
  Problem problem = {.code = PROBLEM_NONE};
  g_autoptr (Design) design = NULL;
  g_autoptr (Design) carried = NULL;
  g_autofree char *label = NULL;

  memcpy (values, drag->at, sizeof values);
  for (SceneAxis axis = 0; axis < N_SCENE_AXES; axis++)
    if (canvas_moves_lead (drag->moves, axis) != NULL)
      go_towards (drag, values, axis, wanted[axis], grid, &problem);
  if (problem.code != PROBLEM_NONE)
    drag->n_guides = 0;
  design = canvas_moves_apply (drag->moves, drag->base, values, NULL);
  if (design == NULL)
    return;
  memcpy (drag->at, values, sizeof values);
  label = canvas_moves_label (drag->base, drag->moves);
  carried = canvas_moves_carry (drag->moves, drag->base, design);
  document_apply (self->document, carried, label);
  if (!canvas_dragging (self))
    return;
  canvas_moves_say (self, drag->moves, drag->engaged, &problem, x, y);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* A fitting goes where its run passes nearest to the pointer. */
static double
wanted_station (Canvas *self, double dx, double dy, gboolean snapping)
{
  const Part *fitting = design_find (self->drag.base, self->drag.key);
  const Part *run = design_owner (self->drag.base, fitting);
  double station;

  if (hypot (dx, dy) < FIRST_PIXELS ||
      !canvas_station_at (self, self->drag.base, run, self->press_x + dx, self->press_y + dy, &station, NULL))
    return (double) NAN;
  return canvas_snap_round (
      station, snapping ? canvas_snap_grid (document_get_style (self->document), self->view.scale) : 0);
}

/* What the pointer asks along an axis; NAN leaves its fields alone. */
static double
wanted_value (Canvas *self, SceneAxis axis, double dx, double dy, CanvasHold hold)
{
  CanvasDrag *drag = &self->drag;
  const CanvasMove *lead = canvas_moves_lead (drag->moves, axis);
  const gboolean along_x = axis == AXIS_X, snapping = (hold & CANVAS_HOLD_FREE) == 0;
  const double pixels = along_x ? dx : -dy, across = along_x ? dy : dx;
  const double from = along_x ? drag->handle.x : drag->handle.z;
  const gboolean main_axis =
      canvas_moves_lead (drag->moves, along_x ? AXIS_Z : AXIS_X) == NULL || fabs (pixels) >= fabs (across);
  const NumberStyle *style = document_get_style (self->document);
  double offset = pixels / self->view.scale, further, target;

  if (lead->field == FIELD_FITTING_STATION) {
    drag->engaged[axis] = TRUE;
    return wanted_station (self, dx, dy, snapping);
  }
  if (!main_axis && (hold & CANVAS_HOLD_STRAIGHT) != 0) {
    drag->engaged[axis] = FALSE;
    return (double) NAN;
  }
  if (fabs (pixels) >= (main_axis ? FIRST_PIXELS : SECOND_PIXELS))
    drag->engaged[axis] = TRUE;
  if (!drag->engaged[axis] || fabs (pixels) < FIRST_PIXELS)
    return (double) NAN;
  if (snapping && canvas_snap_nearest (drag->targets[axis], drag->edges[axis], from + offset,
                                       self->view.scale, &further, &target)) {
    offset += further;
    drag->guides[drag->n_guides++] = (PainterGuide){axis, target};
    return canvas_snap_round (lead->start + lead->gain * offset, 0);
  }
  return canvas_snap_round (lead->start + lead->gain * offset,
                            snapping ? canvas_snap_grid (style, self->view.scale) : 0);
}

void
canvas_drag_to (Canvas *self, double dx, double dy, CanvasHold hold)
{
  CanvasDrag *drag = &self->drag;
  double wanted[N_SCENE_AXES] = {(double) NAN, (double) NAN};

  if (!canvas_dragging (self))
    return;
  drag->n_guides = 0;
  if (canvas_is_size (&drag->handle)) {
    canvas_size_drag (self, dx, dy);
    return;
  }
  for (SceneAxis axis = 0; axis < N_SCENE_AXES; axis++)
    if (canvas_moves_lead (drag->moves, axis) != NULL)
      wanted[axis] = wanted_value (self, axis, dx, dy, hold);
  go (self, wanted, canvas_snap_grid (document_get_style (self->document), self->view.scale),
      self->press_x + dx, self->press_y + dy);
}

gboolean
canvas_drag_set (Canvas *self, SceneAxis axis, double value, Problem *problem)
{
  CanvasDrag *drag = &self->drag;
  double values[N_SCENE_AXES];
  g_autoptr (Design) design = NULL;
  g_autoptr (Design) carried = NULL;
  g_autofree char *label = NULL;

  if (!canvas_dragging (self) || canvas_moves_lead (drag->moves, axis) == NULL)
    return FALSE;
  memcpy (values, drag->at, sizeof values);
  values[axis] = value + canvas_moves_shift (canvas_moves_lead (drag->moves, axis), drag->base,
                                             document_get_design (self->document));
  design = canvas_moves_apply (drag->moves, drag->base, values, problem);
  if (design == NULL)
    return FALSE;
  memcpy (drag->at, values, sizeof values);
  drag->n_guides = 0;
  label = canvas_moves_label (drag->base, drag->moves);
  carried = canvas_moves_carry (drag->moves, drag->base, design);
  document_apply (self->document, carried, label);
  return TRUE;
}

/* A corner let go where the pipe runs straight is none any more, nor are those that went with it. TRUE where it has gone. */
static gboolean
drop_straight (Canvas *self)
{
  CanvasDrag *drag = &self->drag;
  Design *design = document_get_design (self->document);
  const Part *corner = design_find (design, drag->key);
  const Part *run =
      corner != NULL && part_kind (corner) == PART_CORNER ? design_owner (design, corner) : NULL;
  g_autofree char *run_key = run != NULL ? g_strdup (part_key (run)) : NULL;
  g_autoptr (Design) straight = NULL;
  gboolean gone;

  if (run == NULL)
    return FALSE;
  straight = edit_drop_straight (drag->base, design, run_key, drag->made ? drag->key : NULL);
  gone = design_find (straight, drag->key) == NULL;
  if (gone) {
    canvas_hold (self, NULL, 0);
    selection_set_key (self->selection, run_key);
  }
  document_apply (self->document, straight, _ ("Remove corner"));
  return gone;
}

void
canvas_drag_end (Canvas *self)
{
  gboolean straight;

  if (!canvas_dragging (self))
    return;
  straight = drop_straight (self);
  document_end (self->document);
  canvas_drag_drop (self);
  if (straight)
    canvas_remark (self, _ ("The pipe runs straight here: no corner."));
  canvas_view_follow (self);
}

void
canvas_drag_cancel (Canvas *self)
{
  if (!canvas_dragging (self))
    return;
  document_cancel (self->document);
  canvas_drag_drop (self);
}
