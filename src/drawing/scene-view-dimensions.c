/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Dimensions of the end elevation and the plan: the depths, which the front cannot show, and in the plan where vessels
 * stand. An isometric view has the lengths of its pipes beside them (scene-annotate.c). */
#include "drawing/scene-private.h"

#include <math.h>
#include <stdlib.h>

/* Along scene x of a vessel in the room of the stand: the gap before it and its own length, in one chain. */
static void
along_bottom (Builder *b, const Part *part, double base, double from, unsigned rank, unsigned importance)
{
  SceneBox box = seen (b, geometry_outside (b->design, part));
  int index = part_index (b, part);
  if (isfinite (from) && box.x0 > from + 1e-3)
    add_dimension (b, index, SIDE_BOTTOM, rank, from, base, box.x0, base, importance - 5);
  add_dimension (b, index, SIDE_BOTTOM, rank, box.x0, base, box.x1, base, importance);
}

static void
stand_dimensions (Builder *b, const Part *stand, double base)
{
  int part = part_index (b, stand);
  SceneBox in = seen (b, geometry_inside (b->design, stand));
  SceneBox out = seen (b, geometry_outside (b->design, stand));
  add_dimension (b, part, SIDE_BOTTOM, 1, in.x0, base, in.x1, base, 75);
  add_dimension (b, part, SIDE_BOTTOM, 2, out.x0, base, out.x1, base, 80);
  if (b->options.projection != PROJECTION_PLAN)
    return;
  add_dimension (b, part, SIDE_LEFT, 1, out.x0, in.z0, out.x0, in.z1, 76);
  add_dimension (b, part, SIDE_LEFT, 2, out.x0, out.z0, out.x0, out.z1, 78);
}

/* The sump first, then what stands beside it where both fit into one chain. */
static void
floor_dimensions (Builder *b, double base, double from)
{
  const Part *sump = design_nth (b->design, PART_SUMP, 0),
             *reservoir = design_nth (b->design, PART_RESERVOIR, 0);
  bool plan = b->options.projection == PROJECTION_PLAN;
  double end = from;
  if (sump != NULL) {
    SceneBox box = seen (b, geometry_outside (b->design, sump));
    along_bottom (b, sump, base, from, 0, 85);
    end = box.x1;
    if (plan) {
      int part = part_index (b, sump);
      const Part *stand = design_nth (b->design, PART_STAND, 0);
      double front = stand != NULL ? seen (b, geometry_inside (b->design, stand)).z0 : box.z0;
      if (box.z0 > front + 1e-3)
        add_dimension (b, part, SIDE_LEFT, 0, box.x0, front, box.x0, box.z0, 80);
      add_dimension (b, part, SIDE_LEFT, 0, box.x0, box.z0, box.x0, box.z1, 84);
    }
  }
  if (reservoir == NULL || !plan || b->options.kind != SCENE_SYSTEM)
    return;
  if (seen (b, geometry_outside (b->design, reservoir)).x0 >= end - 1e-6)
    along_bottom (b, reservoir, base, sump != NULL ? end : from, 0, 70);
}

static int
by_place (const void *a, const void *z)
{
  double first = *(const double *) a, second = *(const double *) z;
  return first < second ? -1 : first > second;
}

/* Where the drains go through, from the box's left side in one chain: what the glass is drilled to. */
static void
drain_dimensions (Builder *b, const Part *overflow, SceneBox box, double top)
{
  double centres[8];
  unsigned n = 0, drains = design_n_children (b->design, part_key (overflow), PART_DRAIN);
  for (unsigned i = 0; i < drains && n < G_N_ELEMENTS (centres); i++) {
    const Part *drain = design_child (b->design, part_key (overflow), PART_DRAIN, i);
    Point3 mouth[1];
    if (geometry_run (b->design, drain, mouth, 1) > 0)
      centres[n++] = project (b, mouth[0]).x;
  }
  qsort (centres, n, sizeof *centres, by_place);
  double from = box.x0;
  for (unsigned i = 0; i < n; from = centres[i++])
    add_dimension (b, part_index (b, overflow), SIDE_TOP, 0, from, top, centres[i], top, 60);
}

static void
tank_dimensions (Builder *b, const Part *tank, double top)
{
  bool plan = b->options.projection == PROJECTION_PLAN;
  unsigned rank = plan ? 1 : 0;
  SceneBox out = seen (b, geometry_outside (b->design, tank));
  add_dimension (b, part_index (b, tank), SIDE_TOP, rank + 1, out.x0, top, out.x1, top, 95);
  for (unsigned i = 0; i < design_n_children (b->design, part_key (tank), PART_OVERFLOW); i++) {
    const Part *overflow = design_child (b->design, part_key (tank), PART_OVERFLOW, i);
    SceneBox box = seen (b, geometry_drain_box (b->design, overflow));
    int part = part_index (b, overflow);
    if (plan && box.x0 > out.x0 + 1e-3)
      add_dimension (b, part, SIDE_TOP, rank, out.x0, top, box.x0, top, 62);
    add_dimension (b, part, SIDE_TOP, rank, box.x0, top, box.x1, top, 64);
    if (plan)
      drain_dimensions (b, overflow, box, top);
  }
}

void
build_view_dimensions (Builder *b)
{
  if (b->options.projection == PROJECTION_ISOMETRIC)
    return;
  SceneBox bounds = scene_bounds (b->scene);
  const Part *stand = design_nth (b->design, PART_STAND, 0);
  SceneKind kind = b->options.kind;
  double from =
      stand != NULL && kind != SCENE_SUMP ? seen (b, geometry_inside (b->design, stand)).x0 : (double) NAN;
  if (kind != SCENE_SUMP && stand != NULL)
    stand_dimensions (b, stand, bounds.z0);
  if (kind != SCENE_STAND)
    floor_dimensions (b, bounds.z0, from);
  for (unsigned i = 0; i < design_count (b->design, PART_TANK) && kind == SCENE_SYSTEM; i++)
    tank_dimensions (b, design_nth (b->design, PART_TANK, i), bounds.z1);
}
