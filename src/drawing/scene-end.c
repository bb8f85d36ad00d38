/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* End elevation: the sump cut across, looked at from its right end. The chambers lie behind one another, so the water is
 * that of the nearest, and of the others their surfaces. */
#include "drawing/scene-private.h"

#include <math.h>

static void
build_chambers (Builder *b, const Part *sump, SceneBox in)
{
  unsigned n = design_n_children (b->design, part_key (sump), PART_CHAMBER);
  for (unsigned i = 0; i < n; i++) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
    int part = part_index (b, chamber);
    double running = level_under (b->readings.running_m[part], in.z1);
    double off = level_under (b->readings.off_m[part], in.z1);
    if (i + 1 < n) {
      if (isfinite (running) && running > in.z0)
        add_segment (b, ROLE_SURFACE, LAYER_WATER, part, in.x0, running, in.x1, running);
      continue;
    }
    double base = isfinite (running) ? MAX (running, in.z0) : in.z0;
    add_box_area (b, ROLE_WATER_OFF, LAYER_POWER_OFF, part, MATERIAL_WATER_OFF,
                  (SceneBox){in.x0, base, in.x1, off});
    build_water (b, part, in, running);
    build_surface (b, part, in, 0.84, running, off);
    add_label_room (b, part, (SceneBox){in.x0, in.z0, in.x1, in.z0 + 0.7 * (in.z1 - in.z0)},
                    short_name (b, chamber), 85);
  }
}

/* Baffles reach from pane to pane: only their edges are seen, through what stands before them. */
static void
build_baffles (Builder *b, const Part *sump, SceneBox in)
{
  for (unsigned i = 0; i < design_n_children (b->design, part_key (sump), PART_BAFFLE); i++) {
    const Part *baffle = design_child (b->design, part_key (sump), PART_BAFFLE, i);
    int part = part_index (b, baffle);
    SceneBox box = seen (b, geometry_outside (b->design, baffle));
    if (!box_is_real (box))
      continue;
    add_segment (b, ROLE_HIDDEN, LAYER_BODY, part, box.x0, box.z1, box.x1, box.z1);
    if (box.z0 > in.z0 + 1e-3)
      add_segment (b, ROLE_HIDDEN, LAYER_BODY, part, box.x0, box.z0, box.x1, box.z0);
  }
}

static void
build_sump_section (Builder *b, const Part *sump)
{
  int part = part_index (b, sump);
  SceneBox out = seen (b, geometry_outside (b->design, sump));
  SceneBox in = seen (b, geometry_inside (b->design, sump));
  add_box_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_BLANK, in);
  build_chambers (b, sump, in);
  build_baffles (b, sump, in);
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){out.x0, out.z0, out.x1, in.z0});
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){out.x0, in.z0, in.x0, out.z1});
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){in.x1, in.z0, out.x1, out.z1});
  add_segment (b, ROLE_THIN, LAYER_BODY, part, in.x0, out.z1, in.x1, out.z1);
  add_label_room (b, part, (SceneBox){out.x0, out.z0 + 0.75 * (out.z1 - out.z0), out.x1, out.z1},
                  part_name (b, sump), 75);
}

void
build_sump_end (Builder *b)
{
  for (unsigned i = 0; i < design_count (b->design, PART_SUMP); i++)
    build_sump_section (b, design_nth (b->design, PART_SUMP, i));
}
