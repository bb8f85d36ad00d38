/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A hang-over siphon box from the front: what hangs behind the pane with the water of its two sides, and the tubes that rise
 * out of the inner box over the rim. */
#include "drawing/scene-private.h"

#include <math.h>

/* Wall of a tube, for its outline; the design holds the bore alone. */
#define TUBE_WALL_M 0.0025
#define ROUND_STEPS 8

/* The tube side stands before the drain side: its water is seen, the wall's top and the other surface are hidden lines. */
void
build_siphon_box_behind (Builder *b, const Part *overflow)
{
  const int part = part_index (b, overflow);
  const SceneBox box = front_of (geometry_tube_side (b->design, overflow));
  const double seal_z = geometry_seal (b->design, overflow);
  if (!box_is_real (box))
    return;
  build_water (b, part, box, b->readings.tube_side_running_m[part]);
  build_surface (b, part, box, 0.9, b->readings.tube_side_running_m[part], b->readings.tube_side_off_m[part]);
  add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, box);
  if (seal_z > box.z0 && seal_z < box.z1)
    add_segment (b, ROLE_HIDDEN, LAYER_BODY, part, box.x0, seal_z, box.x1, seal_z);
  const double drain_side_z = level_under (b->readings.outer_running_m[part], box.z1);
  if (isfinite (drain_side_z) && drain_side_z > box.z0)
    add_segment (b, ROLE_HIDDEN, LAYER_WATER, part, box.x0, drain_side_z, box.x1, drain_side_z);
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

void
build_siphon_tubes (Builder *b, const Part *overflow)
{
  const int part = part_index (b, overflow);
  const double bore_m = number_of (b, overflow, FIELD_OVERFLOW_TUBE_BORE);
  const double crown_z = geometry_crown (b->design, overflow);
  for (unsigned i = 0; i < geometry_tubes (b->design, overflow); i++) {
    Point3 axis[GEOMETRY_TUBE_POINTS];
    ScenePoint outline[ROUND_STEPS + 3];
    geometry_tube (b->design, overflow, i, axis);
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
}
