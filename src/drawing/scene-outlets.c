/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Where return runs part and end: tees, and outlets with their siphon breaks. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* An outlet: nozzle at the mouth and the siphon break's holes on its pipe. */
static void
build_outlet (Builder *b, const Part *outlet)
{
  int part = part_index (b, outlet);
  Point3 mouth = geometry_outside (b->design, outlet).origin;
  double x = project (b, mouth).x, z = project (b, mouth).z;
  double bore = number_of (b, outlet, FIELD_OUTLET_BORE);
  add_arc (b, ROLE_FITTING, LAYER_BODY, part, x, z, bore / 2, 0, 2 * G_PI);
  add_arc (b, ROLE_FITTING, LAYER_BODY, part, x, z, 0.75 * bore, 0, 2 * G_PI);
  SceneBox around = {x - bore, z - bore, x + bore, z + bore};
  add_label_box (b, part, around, part_name (b, outlet), 68);
  if (number_of (b, outlet, FIELD_OUTLET_BREAK) > 0.5 && b->options.projection != PROJECTION_PLAN) {
    double r = number_of (b, outlet, FIELD_OUTLET_BREAK_BORE) / 2;
    double at = project (b, (Point3){mouth.x, mouth.y, geometry_break (b->design, outlet)}).z;
    add_arc (b, ROLE_FITTING, LAYER_BODY, part, x, at, MAX (r, 0.003), 0, 2 * G_PI);
    SceneBox hole = {x - 2 * r, at - 2 * r, x + 2 * r, at + 2 * r};
    add_label_box (b, part, hole, _ ("Siphon break"), 48);
  }
}

static void
build_tee (Builder *b, const Part *tee)
{
  double outside = 0.02;
  for (unsigned i = 0; i < design_n_children (b->design, part_key (tee), PART_RETURN); i++)
    outside = MAX (outside, run_size (b, design_child (b->design, part_key (tee), PART_RETURN, i)).outside_m);
  ScenePoint at = project (b, geometry_outside (b->design, tee).origin);
  double r = 0.68 * outside;
  SceneBox box = {at.x - r, at.z - r, at.x + r, at.z + r};
  int part = part_index (b, tee);
  add_box_area (b, ROLE_FITTING, LAYER_BODY, part, MATERIAL_BLANK, box);
  add_box_line (b, ROLE_FITTING, LAYER_BODY, part, box);
  add_label_box (b, part, box, part_name (b, tee), 46);
}

void
build_outlets (Builder *b)
{
  for (unsigned i = 0; i < design_count (b->design, PART_TEE); i++)
    build_tee (b, design_nth (b->design, PART_TEE, i));
  for (unsigned i = 0; i < design_count (b->design, PART_OUTLET); i++)
    if (design_owner (b->design, design_nth (b->design, PART_OUTLET, i)) != NULL)
      build_outlet (b, design_nth (b->design, PART_OUTLET, i));
}
