/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Stand in section: sides, top and floor cut, plinth, door opening in front of the plane of section, and the floor. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static void
build_floor (Builder *b, SceneBox around)
{
  double reach = 0.12 * (around.x1 - around.x0) + 0.05;
  SceneBox ground = {around.x0 - reach, -0.012 - 0.01 * (around.x1 - around.x0), around.x1 + reach, 0};
  add_box_area (b, ROLE_FLOOR, LAYER_BODY, -1, MATERIAL_GROUND, ground);
  add_segment (b, ROLE_FLOOR, LAYER_BODY, -1, ground.x0, 0, ground.x1, 0);
}

static void
build_door (Builder *b, const Part *stand, int part, SceneBox inside)
{
  if (b->options.projection == PROJECTION_END)
    return; /* it is in the wall that is cut */
  double width = MIN (number_of (b, stand, FIELD_STAND_DOOR_WIDTH), inside.x1 - inside.x0);
  double height = MIN (number_of (b, stand, FIELD_STAND_DOOR_HEIGHT), inside.z1 - inside.z0);
  double middle = (inside.x0 + inside.x1) / 2;
  SceneBox door = {middle - width / 2, inside.z0, middle + width / 2, inside.z0 + height};
  /* Nothing is gained by a dashed line that lies on a solid one. */
  if (width < inside.x1 - inside.x0 - 1e-6 || height < inside.z1 - inside.z0 - 1e-6) {
    add_box_line (b, ROLE_HIDDEN, LAYER_BODY, part, door);
    SceneBox corner = {door.x0 + 0.25 * width, door.z1 - 0.25 * height, door.x0 + 0.6 * width, door.z1};
    add_label_within (b, part, corner, _ ("Door opening"), 25);
  }
}

/* The left wall: a side seen from the front, or the front cut through its door. */
static void
build_left_wall (Builder *b, const Part *stand, int part, SceneBox wall, double floor)
{
  double top = MIN (floor + number_of (b, stand, FIELD_STAND_DOOR_HEIGHT), wall.z1);
  if (b->options.projection != PROJECTION_END) {
    add_cut_box (b, part, MATERIAL_TIMBER, wall);
    return;
  }
  SceneBox below = {wall.x0, wall.z0, wall.x1, floor}, above = {wall.x0, top, wall.x1, wall.z1};
  add_cut_box (b, part, MATERIAL_TIMBER, below);
  add_cut_box (b, part, MATERIAL_TIMBER, above);
  SceneBox door = {wall.x0, floor, wall.x1, top};
  add_box_line (b, ROLE_THIN, LAYER_BODY, part, door);
  if (top > floor)
    add_label_within (b, part, (SceneBox){wall.x1, floor, wall.x1 + 0.2, top}, _ ("Door opening"), 25);
}

void
build_stand (Builder *b)
{
  const Part *stand = design_nth (b->design, PART_STAND, 0);
  if (stand == NULL)
    return;
  int part = part_index (b, stand);
  SceneBox in = seen (b, geometry_inside (b->design, stand));
  SceneBox out = seen (b, geometry_outside (b->design, stand));
  double wall = number_of (b, stand, FIELD_STAND_WALL);
  build_floor (b, out);

  double floor = MIN (0.02, in.z0 - out.z0);
  build_left_wall (b, stand, part, (SceneBox){out.x0, out.z0, in.x0, in.z1}, in.z0);
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){in.x1, out.z0, out.x1, in.z1});
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){in.x0, in.z0 - floor, in.x1, in.z0});
  add_cut_box (b, part, MATERIAL_TIMBER, (SceneBox){out.x0, in.z1, out.x1, out.z1});
  /* The plinth's feet under the floor, where it stands off the ground. */
  if (in.z0 - floor > 0.01) {
    double foot = MIN (2 * wall, (in.x1 - in.x0) / 8);
    add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, (SceneBox){in.x0, out.z0, in.x0 + foot, in.z0 - floor});
    add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, (SceneBox){in.x1 - foot, out.z0, in.x1, in.z0 - floor});
  }
  build_door (b, stand, part, in);
  double strip = MIN (0.12, (in.z1 - in.z0) / 4);
  add_label_within (b, part, (SceneBox){in.x0 + 0.6 * (in.x1 - in.x0), in.z1 - strip, in.x1, in.z1},
                    part_name (b, stand), 60);
}
