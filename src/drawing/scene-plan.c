/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Plan: cut under the stand's top and looked at from above. What is cut away, the tank with its overflow, is outlined as
 * parts in front of the cutting plane are (ISO 128-2: long-dashed double-dotted, narrow). */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Four walls round a room. */
static void
build_frame (Builder *b, int part, SceneMaterial material, SceneBox out, SceneBox in)
{
  add_cut_box (b, part, material, (SceneBox){out.x0, out.z0, in.x0, out.z1});
  add_cut_box (b, part, material, (SceneBox){in.x1, out.z0, out.x1, out.z1});
  add_cut_box (b, part, material, (SceneBox){in.x0, in.z1, in.x1, out.z1});
  add_cut_box (b, part, material, (SceneBox){in.x0, out.z0, in.x1, in.z0});
}

static void
build_stand_plan (Builder *b, const Part *stand)
{
  int part = part_index (b, stand);
  SceneBox out = seen (b, geometry_outside (b->design, stand));
  SceneBox in = seen (b, geometry_inside (b->design, stand));
  double half = MIN (number_of (b, stand, FIELD_STAND_DOOR_WIDTH), in.x1 - in.x0) / 2;
  SceneBox door = {(in.x0 + in.x1) / 2 - half, out.z0, (in.x0 + in.x1) / 2 + half, in.z0};
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){out.x0, out.z0, in.x0, out.z1});
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){in.x1, out.z0, out.x1, out.z1});
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){in.x0, in.z1, in.x1, out.z1});
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){in.x0, out.z0, door.x0, in.z0});
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){door.x1, out.z0, in.x1, in.z0});
  add_box_line (b, ROLE_THIN, LAYER_BODY, part, door);
  add_label_within (b, part, (SceneBox){in.x0 + 0.6 * (in.x1 - in.x0), in.z0, in.x1, in.z1},
                    part_name (b, stand), 60);
}

static void
build_sump_plan (Builder *b, const Part *sump)
{
  int part = part_index (b, sump);
  SceneBox out = seen (b, geometry_outside (b->design, sump));
  SceneBox in = seen (b, geometry_inside (b->design, sump));
  for (unsigned i = 0; i < design_n_children (b->design, part_key (sump), PART_CHAMBER); i++) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
    SceneBox room = seen (b, geometry_inside (b->design, chamber));
    int index = part_index (b, chamber);
    add_box_area (b, ROLE_MATERIAL, LAYER_BODY, index, MATERIAL_BLANK, room);
    if (b->readings.running_m[index] > geometry_inside (b->design, chamber).origin.z)
      add_box_area (b, ROLE_WATER, LAYER_WATER, index, MATERIAL_WATER, room);
    add_label_room (b, index, room, short_name (b, chamber), 85);
  }
  build_frame (b, part, MATERIAL_GLASS, out, in);
  for (unsigned i = 0; i < design_n_children (b->design, part_key (sump), PART_BAFFLE); i++) {
    const Part *baffle = design_child (b->design, part_key (sump), PART_BAFFLE, i);
    SceneBox box = seen (b, geometry_outside (b->design, baffle));
    if (box_is_real (box))
      add_cut_box (b, part_index (b, baffle), MATERIAL_PLASTIC, box);
  }
  add_label_box (b, part, out, part_name (b, sump), 75);
}

static void
build_overflow_plan (Builder *b, const Part *overflow)
{
  int part = part_index (b, overflow);
  OverflowKind kind = (OverflowKind) design_choice (b->design, overflow, FIELD_OVERFLOW_KIND);
  SceneBox inner = seen (b, geometry_inside (b->design, overflow));
  SceneBox outer = seen (b, geometry_drain_box (b->design, overflow));
  if (kind != OVERFLOW_OUTSIDE)
    add_box_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part, inner);
  if (kind != OVERFLOW_INSIDE)
    add_box_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part, outer);
  if (kind == OVERFLOW_HANG_OVER) {
    add_box_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part, seen (b, geometry_tube_side (b->design, overflow)));
    build_siphon_tubes (b, overflow);
  }
  add_label_box (b, part, kind == OVERFLOW_INSIDE ? inner : outer, part_name (b, overflow), 80);
}

static void
build_tank_plan (Builder *b, const Part *tank)
{
  int part = part_index (b, tank);
  SceneBox out = seen (b, geometry_outside (b->design, tank));
  add_box_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part, out);
  /* Named at its front edge, where little else is. */
  add_label_box (b, part, (SceneBox){out.x0, out.z0, out.x1, out.z0 + 0.002}, part_name (b, tank), 95);
}

void
build_plan (Builder *b)
{
  SceneKind kind = b->options.kind;
  for (unsigned i = 0; i < design_count (b->design, PART_STAND) && kind != SCENE_SUMP; i++)
    build_stand_plan (b, design_nth (b->design, PART_STAND, i));
  if (kind == SCENE_STAND)
    return;
  for (unsigned i = 0; i < design_count (b->design, PART_SUMP); i++)
    build_sump_plan (b, design_nth (b->design, PART_SUMP, i));
  build_devices (b);
  if (kind == SCENE_SUMP)
    return;
  build_reservoir (b);
  for (unsigned i = 0; i < design_count (b->design, PART_TANK); i++)
    build_tank_plan (b, design_nth (b->design, PART_TANK, i));
  for (unsigned i = 0; i < design_count (b->design, PART_OVERFLOW); i++)
    build_overflow_plan (b, design_nth (b->design, PART_OVERFLOW, i));
  build_runs (b, false);
  build_outlets (b);
}
