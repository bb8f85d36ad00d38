/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Sump in section: panes, baffles, and each chamber's water at its running level and after the power has failed. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static void
build_chamber_water (Builder *b, const Part *chamber)
{
  int part = part_index (b, chamber);
  SceneBox in = seen (b, geometry_inside (b->design, chamber));
  double running = level_under (b->readings.running_m[part], in.z1);
  double off = level_under (b->readings.off_m[part], in.z1);
  double base = isfinite (running) ? MAX (running, in.z0) : in.z0;
  if (isfinite (off) && off > base)
    add_box_area (b, ROLE_WATER_OFF, LAYER_POWER_OFF, part, MATERIAL_WATER_OFF,
                  (SceneBox){in.x0, base, in.x1, off});
  if (isfinite (running) && running > in.z0)
    add_box_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, (SceneBox){in.x0, in.z0, in.x1, running});
}

/* NAN unless both are known. */
static double
lower_of (const double *levels, int left, int right)
{
  double sum = levels[left] + levels[right];
  return isfinite (sum) ? MIN (levels[left], levels[right]) : sum;
}

/* Water over and under a baffle, between the faces of the two chambers that it parts. */
static void
build_baffle_water (Builder *b, const Part *sump, unsigned place, const Part *baffle, SceneBox in)
{
  int left = part_index (b, design_child (b->design, part_key (sump), PART_CHAMBER, place));
  int right = part_index (b, design_child (b->design, part_key (sump), PART_CHAMBER, place + 1));
  if (left < 0 || right < 0)
    return;
  SceneBox box = seen (b, geometry_outside (b->design, baffle));
  double running = lower_of (b->readings.running_m, left, right),
         off = lower_of (b->readings.off_m, left, right);
  SceneBox over = {box.x0, box.z1, box.x1, level_under (running, in.z1)};
  SceneBox under = {box.x0, in.z0, box.x1, level_under (running, box.z0)};
  SceneBox later = {box.x0, running > box.z1 ? running : box.z1, box.x1, level_under (off, in.z1)};
  int part = part_index (b, baffle);
  add_box_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, over);
  add_box_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, under);
  if (add_box_area (b, ROLE_WATER_OFF, LAYER_POWER_OFF, part, MATERIAL_WATER_OFF, later) != NULL)
    add_segment (b, ROLE_POWER_OFF, LAYER_POWER_OFF, part, later.x0, later.z1, later.x1, later.z1);
}

static void
build_chamber_surface (Builder *b, const Part *chamber)
{
  int part = part_index (b, chamber);
  SceneBox in = seen (b, geometry_inside (b->design, chamber));
  double running = level_under (b->readings.running_m[part], in.z1);
  double off = level_under (b->readings.off_m[part], in.z1);
  if (isfinite (running) && running > in.z0) {
    add_segment (b, ROLE_SURFACE, LAYER_WATER, part, in.x0, running, in.x1, running);
    if (in.x1 - in.x0 > 0.08)
      add_symbol (b, ROLE_SURFACE, LAYER_WATER, part, SYMBOL_SURFACE, in.x0 + 0.16 * (in.x1 - in.x0),
                  running);
  }
  if (isfinite (off) && off > in.z0 && !(fabs (off - running) < 5e-4))
    add_segment (b, ROLE_POWER_OFF, LAYER_POWER_OFF, part, in.x0, off, in.x1, off);
}

static void
build_baffle (Builder *b, const Part *baffle, SceneBox sump)
{
  int part = part_index (b, baffle);
  double x = sump.x0 + number_of (b, baffle, FIELD_BAFFLE_X);
  SceneBox box = {x, sump.z0 + number_of (b, baffle, FIELD_BAFFLE_GAP),
                  x + number_of (b, baffle, FIELD_BAFFLE_THICKNESS),
                  sump.z0 + number_of (b, baffle, FIELD_BAFFLE_HEIGHT)};
  if (!box_is_real (box))
    return;
  if (design_choice (b->design, baffle, FIELD_BAFFLE_SERVICE) == SERVICE_LIFTED_OUT) {
    /* Lifted half its height: how it leaves. */
    double up = MIN ((box.z1 - box.z0) / 2, 0.15);
    SceneBox lifted = {box.x0, box.z0 + up, box.x1, box.z1 + up};
    add_box_line (b, ROLE_ALTERNATIVE, LAYER_BODY, part, lifted);
  }
  add_cut_box (b, part, MATERIAL_PLASTIC, box);
  ScenePoint p[] = {{box.x0, box.z0}, {box.x1, box.z1}};
  SceneItem *label = add_label (b, part, ANCHOR_BOX, p, 2, part_name (b, baffle), 30);
  if (label != NULL)
    label->least = 14;
}

static void
label_chamber (Builder *b, const Part *chamber)
{
  int part = part_index (b, chamber);
  SceneBox in = seen (b, geometry_inside (b->design, chamber));
  double floor = in.z0 + 0.02 * (in.z1 - in.z0);
  SceneBox low = {in.x0, floor, in.x1, in.z0 + 0.7 * (in.z1 - in.z0)};
  add_label_room (b, part, low, short_name (b, chamber), 85);
}

static void
build_one_sump (Builder *b, const Part *sump)
{
  int part = part_index (b, sump);
  SceneBox out = seen (b, geometry_outside (b->design, sump));
  SceneBox in = seen (b, geometry_inside (b->design, sump));
  unsigned chambers = design_n_children (b->design, part_key (sump), PART_CHAMBER);
  unsigned baffles = design_n_children (b->design, part_key (sump), PART_BAFFLE);
  add_box_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_BLANK, in);
  for (unsigned i = 0; i < chambers; i++)
    build_chamber_water (b, design_child (b->design, part_key (sump), PART_CHAMBER, i));
  for (unsigned i = 0; i < baffles; i++)
    build_baffle_water (b, sump, i, design_child (b->design, part_key (sump), PART_BAFFLE, i), in);
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){out.x0, out.z0, out.x1, in.z0});
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){out.x0, in.z0, in.x0, out.z1});
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){in.x1, in.z0, out.x1, out.z1});
  add_segment (b, ROLE_THIN, LAYER_BODY, part, in.x0, out.z1, in.x1, out.z1);
  for (unsigned i = 0; i < baffles; i++)
    build_baffle (b, design_child (b->design, part_key (sump), PART_BAFFLE, i), in);
  for (unsigned i = 0; i < chambers; i++) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
    build_chamber_surface (b, chamber);
    label_chamber (b, chamber);
  }
  double height = out.z1 - out.z0;
  add_label_room (b, part, (SceneBox){out.x0, out.z0 + 0.75 * height, out.x1, out.z1}, part_name (b, sump),
                  75);
}

void
build_sump (Builder *b)
{
  unsigned n = design_count (b->design, PART_SUMP);
  for (unsigned i = 0; i < n; i++)
    build_one_sump (b, design_nth (b->design, PART_SUMP, i));
}
