/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A hang-over siphon box: what hangs behind the pane with the water of its two sides, and the tubes that rise out of the inner
 * box over the rim. */
#include "drawing/scene-private.h"

#include <math.h>

/* Wall of a tube, for its outline; the design holds the bore alone. */
#define TUBE_WALL_M 0.0025
#define ROUND_STEPS 8

/* From the front the tube side stands before the drain side: its water is seen, the wall's top and the other surface are
 * hidden lines. */
static void
build_front (Builder *b, const Part *overflow, int part, SceneBox box)
{
  const double seal_z = geometry_seal (b->design, overflow);
  const double drain_side_z = level_under (b->readings.outer_running_m[part], box.z1);
  build_water (b, part, box, b->readings.tube_side_running_m[part]);
  build_surface (b, part, box, 0.9, b->readings.tube_side_running_m[part], b->readings.tube_side_off_m[part]);
  add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, box);
  if (seal_z > box.z0 && seal_z < box.z1)
    add_segment (b, ROLE_HIDDEN, LAYER_BODY, part, box.x0, seal_z, box.x1, seal_z);
  if (isfinite (drain_side_z) && drain_side_z > box.z0)
    add_segment (b, ROLE_HIDDEN, LAYER_WATER, part, box.x0, drain_side_z, box.x1, drain_side_z);
}

/* From the end both sides are cut, with the wall between them. */
static void
build_end (Builder *b, const Part *overflow, int part, SceneBox tubes)
{
  const SceneBox drains = seen (b, geometry_drain_box (b->design, overflow));
  const SceneBox wall = {tubes.x1, tubes.z0, drains.x0, geometry_seal (b->design, overflow)};
  build_water (b, part, tubes, b->readings.tube_side_running_m[part]);
  build_water (b, part, drains, b->readings.outer_running_m[part]);
  build_surface (b, part, tubes, 0.5, b->readings.tube_side_running_m[part],
                 b->readings.tube_side_off_m[part]);
  build_surface (b, part, drains, 0.8, b->readings.outer_running_m[part], b->readings.outer_off_m[part]);
  if (box_is_real (wall))
    add_cut_box (b, part, MATERIAL_PLASTIC, wall);
  add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, (SceneBox){tubes.x0, tubes.z0, drains.x1, drains.z1});
}

void
build_siphon_box_behind (Builder *b, const Part *overflow)
{
  const int part = part_index (b, overflow);
  const SceneBox box = seen (b, geometry_tube_side (b->design, overflow));
  if (!box_is_real (box))
    return;
  if (b->options.projection == PROJECTION_END)
    build_end (b, overflow, part, box);
  else
    build_front (b, overflow, part, box);
}

/* A bend over the rim seen in its own plane is a half round: here it stands edge on, as a round-topped upright. */
static unsigned
tube_outline (const Point3 *axis, double half, double crown_z, ScenePoint *points)
{
  const double x = axis[0].x, spring_z = fmax (crown_z - half, axis[0].z);
  unsigned n = 0;
  points[n++] = (ScenePoint){x - half, axis[0].z};
  for (unsigned i = 0; i <= ROUND_STEPS; i++) {
    const double angle = G_PI * (1 - (double) i / ROUND_STEPS);
    points[n++] = (ScenePoint){x + half * cos (angle), spring_z + (crown_z - spring_z) * sin (angle)};
  }
  points[n++] = (ScenePoint){x + half, axis[0].z};
  return n;
}

static void
build_tube_edge_on (Builder *b, int part, const Point3 *axis, double bore_m, double crown_z)
{
  ScenePoint outline[ROUND_STEPS + 3];
  unsigned n = tube_outline (axis, bore_m / 2 + TUBE_WALL_M, crown_z + TUBE_WALL_M, outline);
  add_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_BLANK, outline, n);
  if (isfinite (b->readings.tube_side_running_m[part])) {
    ScenePoint water[ROUND_STEPS + 3];
    unsigned m = tube_outline (axis, bore_m / 2, crown_z, water);
    add_area (b, ROLE_PIPE_WATER, LAYER_WATER, part, MATERIAL_WATER, water, m);
  }
  add_line (b, ROLE_PIPE, LAYER_BODY, part, outline, n, false);
  add_segment (b, ROLE_CENTRE, LAYER_BODY, part, axis[0].x, axis[0].z, axis[0].x, crown_z);
}

/* Both walls of a path as one closed outline. */
static GArray *
walls_of (const ScenePoint *centre, unsigned n, double width)
{
  g_autoptr (GArray) right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  GArray *left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_walls (centre, n, width, left, right);
  for (unsigned i = right->len; i > 0; i--)
    g_array_append_val (left, g_array_index (right, ScenePoint, i - 1));
  return left;
}

static void
build_tube_path (Builder *b, int part, const Point3 *axis, double bore_m)
{
  ScenePoint corners[GEOMETRY_TUBE_POINTS];
  g_autoptr (GArray) centre = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  unsigned n = 0;
  for (unsigned i = 0; i < GEOMETRY_TUBE_POINTS; i++) {
    corners[n] = project (b, axis[i]);
    /* From above the upright legs are points. */
    if (n == 0 || hypot (corners[n].x - corners[n - 1].x, corners[n].z - corners[n - 1].z) > 1e-6)
      n++;
  }
  if (n < 2)
    return;
  pipe_centre (corners, n, bore_m, centre);
  const ScenePoint *points = (const ScenePoint *) (const void *) centre->data;
  g_autoptr (GArray) outline = walls_of (points, centre->len, bore_m + 2 * TUBE_WALL_M),
                     inside = walls_of (points, centre->len, bore_m);
  const ScenePoint *wall = (const ScenePoint *) (const void *) outline->data;
  if (b->options.projection == PROJECTION_PLAN) { /* cut away with the tank */
    add_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part, wall, outline->len, true);
    return;
  }
  add_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_BLANK, wall, outline->len);
  if (isfinite (b->readings.tube_side_running_m[part]))
    add_area (b, ROLE_PIPE_WATER, LAYER_WATER, part, MATERIAL_WATER,
              (const ScenePoint *) (const void *) inside->data, inside->len);
  add_line (b, ROLE_PIPE, LAYER_BODY, part, wall, outline->len, true);
  add_line (b, ROLE_CENTRE, LAYER_BODY, part, points, centre->len, false);
}

void
build_siphon_tubes (Builder *b, const Part *overflow)
{
  const int part = part_index (b, overflow);
  const double bore_m = number_of (b, overflow, FIELD_OVERFLOW_TUBE_BORE);
  const double crown_z = geometry_crown (b->design, overflow);
  /* From the end they stand behind one another: the nearest is drawn. */
  unsigned n = geometry_tubes (b->design, overflow);
  for (unsigned i = b->options.projection == PROJECTION_END && n > 0 ? n - 1 : 0; i < n; i++) {
    Point3 axis[GEOMETRY_TUBE_POINTS];
    geometry_tube (b->design, overflow, i, axis);
    if (b->options.projection == PROJECTION_FRONT)
      build_tube_edge_on (b, part, axis, bore_m, crown_z);
    else
      build_tube_path (b, part, axis, bore_m);
  }
}
