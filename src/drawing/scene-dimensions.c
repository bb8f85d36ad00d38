/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Dimensions after ISO 129-1, each once: widths in chains below, lengths of the tank above, heights on the left; levels
 * are in the ladder on the right (scene-levels.c) and are not dimensioned again. */
#include "drawing/scene-private.h"

#include <math.h>

static void
sump_dimensions (Builder *b, const Part *sump)
{
  int part = part_index (b, sump);
  SceneBox out = seen (b, geometry_outside (b->design, sump));
  unsigned chambers = design_n_children (b->design, part_key (sump), PART_CHAMBER);
  for (unsigned i = 0; i < chambers; i++) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
    SceneBox in = seen (b, geometry_inside (b->design, chamber));
    add_dimension (b, part_index (b, chamber), SIDE_BOTTOM, 0, in.x0, out.z0, in.x1, out.z0, 70);
  }
  add_dimension (b, part, SIDE_BOTTOM, 1, out.x0, out.z0, out.x1, out.z0, 85);
  add_dimension (b, part, SIDE_LEFT, 0, out.x0, out.z0, out.x0, out.z1, 85);
  SceneBox in = seen (b, geometry_inside (b->design, sump));
  unsigned baffles = design_n_children (b->design, part_key (sump), PART_BAFFLE);
  for (unsigned i = 0; i < baffles; i++) {
    const Part *baffle = design_child (b->design, part_key (sump), PART_BAFFLE, i);
    double top = in.z0 + number_of (b, baffle, FIELD_BAFFLE_HEIGHT);
    double gap = number_of (b, baffle, FIELD_BAFFLE_GAP);
    double x = in.x0 + number_of (b, baffle, FIELD_BAFFLE_X) + number_of (b, baffle, FIELD_BAFFLE_THICKNESS);
    int index = part_index (b, baffle);
    add_dimension (b, index, SIDE_IN_PLACE, 0, x, in.z0, x, top, 40);
    if (gap > 1e-3)
      add_dimension (b, index, SIDE_IN_PLACE, 1, x, in.z0, x, in.z0 + gap, 35);
  }
}

static void
stand_dimensions (Builder *b, const Part *stand)
{
  int part = part_index (b, stand);
  SceneBox out = seen (b, geometry_outside (b->design, stand));
  SceneBox in = seen (b, geometry_inside (b->design, stand));
  unsigned rank = b->options.kind == SCENE_STAND ? 0 : 2;
  add_dimension (b, part, SIDE_BOTTOM, rank, in.x0, out.z0, in.x1, out.z0, 75);
  add_dimension (b, part, SIDE_BOTTOM, rank + 1, out.x0, out.z0, out.x1, out.z0, 80);
  add_dimension (b, part, SIDE_LEFT, 1, out.x0, out.z0, out.x0, in.z0, 60);
  add_dimension (b, part, SIDE_LEFT, 1, out.x0, in.z0, out.x0, in.z1, 78);
  add_dimension (b, part, SIDE_LEFT, 1, out.x0, in.z1, out.x0, out.z1, 55);
}

static void
tank_dimensions (Builder *b, const Part *tank, bool first)
{
  int part = part_index (b, tank);
  SceneBox out = seen (b, geometry_outside (b->design, tank));
  add_dimension (b, part, SIDE_TOP, 1, out.x0, out.z1, out.x1, out.z1, 95);
  if (first)
    add_dimension (b, part, SIDE_LEFT, 1, out.x0, out.z0, out.x0, out.z1, 92);
  for (unsigned i = 0; i < design_n_children (b->design, part_key (tank), PART_OVERFLOW); i++) {
    const Part *overflow = design_child (b->design, part_key (tank), PART_OVERFLOW, i);
    SceneBox box = seen (b, geometry_inside (b->design, overflow));
    int index = part_index (b, overflow);
    add_dimension (b, index, SIDE_TOP, 0, out.x0, out.z1, box.x0, out.z1, 62);
    add_dimension (b, index, SIDE_TOP, 0, box.x0, box.z1, box.x1, box.z1, 64);
    if (i == 0 && first)
      add_dimension (b, index, SIDE_LEFT, 0, out.x0, out.z0, out.x0, geometry_crest (b->design, overflow),
                     82);
  }
}

void
build_dimensions (Builder *b)
{
  SceneBox bounds = scene_bounds (b->scene);
  const Part *sump = design_nth (b->design, PART_SUMP, 0), *stand = design_nth (b->design, PART_STAND, 0);
  const Part *tank = design_nth (b->design, PART_TANK, 0);
  if (b->options.kind != SCENE_STAND && sump != NULL)
    sump_dimensions (b, sump);
  if (b->options.kind != SCENE_SUMP && stand != NULL)
    stand_dimensions (b, stand);
  if (b->options.kind == SCENE_SYSTEM && tank != NULL) {
    for (unsigned i = 0; i < design_count (b->design, PART_TANK); i++)
      tank_dimensions (b, design_nth (b->design, PART_TANK, i), i == 0);
    add_dimension (b, part_index (b, tank), SIDE_LEFT, 2, bounds.x0, 0, bounds.x0,
                   seen (b, geometry_outside (b->design, tank)).z1, 72);
  }
}
