/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/canvas/canvas-snap.h"

#include <math.h>

#define REACH_PIXELS 6.0
#define FINE_SCALE   800.0 /* pixels a metre from which the fine grid holds */
#define INCH         0.0254

/* Parts whose edges are lines that others are built against; the rest is brought in line by its handles. */
static const unsigned with_edges = 1u << PART_STAND | 1u << PART_TANK | 1u << PART_OVERFLOW |
                                   1u << PART_SUMP | 1u << PART_BAFFLE | 1u << PART_DEVICE | 1u << PART_PUMP |
                                   1u << PART_RESERVOIR;

/* True when a part goes where one of the moved parts goes: its owner, and on a stand the tanks. */
static gboolean
moves_with (const Design *design, const Part *part, const GArray *moves)
{
  const Part *stand = design_nth (design, PART_STAND, 0);

  for (const Part *each = part; each != NULL; each = design_owner (design, each))
    if (canvas_moves_has (moves, part_key (each)) ||
        (part_kind (each) == PART_TANK && stand != NULL && canvas_moves_has (moves, part_key (stand))))
      return TRUE;
  return FALSE;
}

static void
add (GArray *targets, double coordinate)
{
  if (isfinite (coordinate))
    g_array_append_val (targets, coordinate);
}

GArray *
canvas_snap_targets (const Scene *scene, const Design *design, const GArray *moves, SceneAxis axis)
{
  GArray *targets = g_array_new (FALSE, FALSE, sizeof (double));

  for (int i = 0; i < (int) design_n_parts (design); i++) {
    const Part *other = design_part (design, (unsigned) i);
    SceneBox box;

    if (moves_with (design, other, moves))
      continue;
    for (unsigned n = 0; n < scene_n_handles (scene, i); n++) {
      const SceneHandle *handle = scene_handle (scene, i, n);

      /* The middle of a pipe is a target by its ports and corners, its wall is none. */
      if (field_info (handle->moves[0].field)->type != FIELD_NUMBER)
        continue;
      for (unsigned k = 0; k < handle->n_moves; k++)
        if (handle->moves[k].axis == axis)
          add (targets, axis == AXIS_X ? handle->x : handle->z);
    }
    if ((with_edges & 1u << part_kind (other)) == 0 || !scene_part_bounds (scene, i, &box))
      continue;
    add (targets, axis == AXIS_X ? box.x0 : box.z0);
    add (targets, axis == AXIS_X ? (box.x0 + box.x1) / 2 : (box.z0 + box.z1) / 2);
    add (targets, axis == AXIS_X ? box.x1 : box.z1);
  }
  return targets;
}

gboolean
canvas_snap_find (const GArray *targets, double coordinate, double scale, double *ret_target)
{
  double nearest = REACH_PIXELS / scale;
  gboolean found = FALSE;

  for (guint i = 0; i < targets->len; i++) {
    const double target = g_array_index (targets, double, i), distance = fabs (target - coordinate);

    if (distance <= nearest) {
      nearest = distance;
      *ret_target = target;
      found = TRUE;
    }
  }
  return found;
}

GArray *
canvas_snap_edges (const Scene *scene, const Design *design, const SceneHandle *handle, SceneAxis axis)
{
  const Part *part = design_part (design, (unsigned) handle->part);
  const double at = axis == AXIS_X ? handle->x : handle->z;
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (double));
  SceneBox box;

  add (edges, 0);
  if (!handle->body || (with_edges & 1u << part_kind (part)) == 0 ||
      !scene_part_bounds (scene, handle->part, &box))
    return edges;
  add (edges, (axis == AXIS_X ? box.x0 : box.z0) - at);
  add (edges, (axis == AXIS_X ? box.x1 : box.z1) - at);
  add (edges, (axis == AXIS_X ? (box.x0 + box.x1) / 2 : (box.z0 + box.z1) / 2) - at);
  return edges;
}

gboolean
canvas_snap_nearest (const GArray *targets, const GArray *edges, double coordinate, double scale,
                     double *ret_further, double *ret_target)
{
  double nearest = INFINITY;

  for (guint i = 0; i < edges->len; i++) {
    const double edge = coordinate + g_array_index (edges, double, i);
    double target;

    if (!canvas_snap_find (targets, edge, scale, &target) || fabs (target - edge) >= nearest)
      continue;
    nearest = fabs (target - edge);
    *ret_further = target - edge;
    *ret_target = target;
  }
  return isfinite (nearest);
}

double
canvas_snap_grid (const NumberStyle *style, double scale)
{
  const gboolean fine = scale >= FINE_SCALE;

  if (style->system == UNIT_SYSTEM_US)
    return fine ? INCH / 16 : INCH / 4;
  return fine ? 0.001 : 0.005;
}

double
canvas_snap_round (double value, double grid)
{
  /* By division where it is exact: 0.555 is the double nearest to it only as 555 / 1000. */
  if (grid <= 0)
    return round (value * 10000) / 10000;
  if (grid == 0.001 || grid == 0.005)
    return round (value / grid) * round (grid * 1000) / 1000;
  return round (value / grid) * grid;
}

double
canvas_snap_step (double value, const NumberStyle *style, int direction, gboolean far)
{
  const gboolean us = style->system == UNIT_SYSTEM_US;
  const double step = us ? INCH / 16 : 0.001, steps = value / step;
  double count;

  if (far)
    count = round (steps) + (us ? 8 : 10) * direction;
  else
    count = direction > 0 ? floor (steps + 1e-6) + 1 : ceil (steps - 1e-6) - 1;
  return us ? count * step : count / 1000;
}
