/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Display tank in section with water, substrate and a hint of rock, and its overflow box with weir. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Two heaps as a reader expects them: they say that rock displaces water, not where it lies. */
static void
build_rock (Builder *b, int part, SceneBox in, double bed, double share)
{
  static const ScenePoint heap[] = {{0, 0},       {0.06, 0.38}, {0.16, 0.47}, {0.25, 0.8},
                                    {0.36, 0.72}, {0.45, 1},    {0.58, 0.93}, {0.66, 0.62},
                                    {0.78, 0.66}, {0.88, 0.36}, {0.97, 0.26}, {1, 0}};
  static const struct {
    double at, width, height;
    bool mirrored;
  } heaps[] = {{0.05, 0.26, 0.62, false}, {0.70, 0.25, 0.48, true}};
  double length = in.x1 - in.x0, depth = in.z1 - in.z0 - bed;
  /* Heaps of 2/3 filling in their boxes, half as deep as the tank: near the share of the section. */
  double size = sqrt (MIN (share, 0.4) / 0.15);
  for (unsigned i = 0; i < G_N_ELEMENTS (heaps); i++) {
    ScenePoint p[G_N_ELEMENTS (heap)];
    for (unsigned k = 0; k < G_N_ELEMENTS (heap); k++) {
      double x = heaps[i].mirrored ? 1 - heap[k].x : heap[k].x;
      p[k].x = in.x0 + (heaps[i].at + x * heaps[i].width) * length;
      p[k].z = in.z0 + bed + heap[k].z * MIN (heaps[i].height * size, 0.8) * depth;
    }
    add_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_ROCK, p, G_N_ELEMENTS (heap));
    add_line (b, ROLE_THIN, LAYER_BODY, part, p, G_N_ELEMENTS (heap), false);
  }
}

void
build_water (Builder *b, int part, SceneBox in, double level)
{
  if (!isfinite (level) || level <= in.z0)
    return;
  level = level_under (level, in.z1);
  add_box_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, (SceneBox){in.x0, in.z0, in.x1, level});
}

/* Drawn after what stands in the water. */
void
build_surface (Builder *b, int part, SceneBox in, double share, double running, double off)
{
  double level = level_under (running, in.z1);
  if (isfinite (level) && level > in.z0) {
    add_segment (b, ROLE_SURFACE, LAYER_WATER, part, in.x0, level, in.x1, level);
    add_symbol (b, ROLE_SURFACE, LAYER_WATER, part, SYMBOL_SURFACE, in.x0 + share * (in.x1 - in.x0), level);
  }
  if (isfinite (off) && off > in.z0 && off < in.z1 && fabs (off - level) > 5e-4)
    add_segment (b, ROLE_POWER_OFF, LAYER_POWER_OFF, part, in.x0, off, in.x1, off);
}

static void
build_one_tank (Builder *b, const Part *tank)
{
  int part = part_index (b, tank);
  SceneBox out = seen (b, geometry_outside (b->design, tank));
  SceneBox in = seen (b, geometry_inside (b->design, tank));
  build_water (b, part, in, b->readings.running_m[part]);
  double bed = CLAMP (number_of (b, tank, FIELD_TANK_SUBSTRATE), 0, in.z1 - in.z0);
  double rock = number_of (b, tank, FIELD_TANK_ROCK);
  if (rock > 0.005)
    build_rock (b, part, in, bed, rock);
  if (bed > 0) {
    add_box_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_SAND,
                  (SceneBox){in.x0, in.z0, in.x1, in.z0 + bed});
    add_segment (b, ROLE_THIN, LAYER_BODY, part, in.x0, in.z0 + bed, in.x1, in.z0 + bed);
  }
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){out.x0, out.z0, out.x1, in.z0});
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){out.x0, in.z0, in.x0, out.z1});
  add_cut_box (b, part, MATERIAL_GLASS, (SceneBox){in.x1, in.z0, out.x1, out.z1});
  if (out.z1 - in.z1 > 1e-4) /* a rim or brace across the top */
    add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, (SceneBox){in.x0, in.z1, in.x1, out.z1});
  else
    add_segment (b, ROLE_OUTLINE, LAYER_BODY, part, in.x0, out.z1, in.x1, out.z1);
  build_surface (b, part, in, 0.88, b->readings.running_m[part], b->readings.off_m[part]);

  double height = in.z1 - in.z0, length = in.x1 - in.x0;
  SceneBox middle = {in.x0 + 0.36 * length, in.z0 + bed + 0.05 * height, in.x1 - 0.36 * length,
                     in.z0 + bed + 0.45 * height};
  add_label_box (b, part, middle, part_name (b, tank), 95);
}

void
build_tanks (Builder *b)
{
  for (unsigned i = 0; i < design_count (b->design, PART_TANK); i++)
    build_one_tank (b, design_nth (b->design, PART_TANK, i));
}

/* Teeth of a comb along the front of the box, at most 400: closer ones could not be told apart. */
static void
build_teeth (Builder *b, const Part *overflow, int part, double x0, double x1, double crest, double top)
{
  double gap = number_of (b, overflow, FIELD_OVERFLOW_GAP),
         tooth = number_of (b, overflow, FIELD_OVERFLOW_TOOTH);
  double n = floor ((x1 - x0) / (gap + tooth));
  if (!(n >= 1) || n > 400) {
    add_segment (b, ROLE_THIN, LAYER_BODY, part, x0, top, x1, top);
    return;
  }
  double start = (x0 + x1 - n * (gap + tooth) + gap) / 2;
  for (unsigned i = 0; i < (unsigned) n; i++) {
    double left = start + i * (gap + tooth);
    ScenePoint p[] = {{left, crest}, {left, top}, {left + tooth, top}, {left + tooth, crest}};
    add_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_PLASTIC, p, 4);
    add_line (b, ROLE_THIN, LAYER_BODY, part, p, 4, false);
  }
  if (number_of (b, overflow, FIELD_OVERFLOW_CLOSED) > 0.5)
    add_segment (b, ROLE_OUTLINE, LAYER_BODY, part, x0, top, x1, top);
}

/* Cut across: the wall of the box up to the crest, or the notch in the tank's back pane. */
static void
build_weir_end (Builder *b, const Part *overflow, int part, SceneBox in, double crest)
{
  double x = in.x0, top = crest;
  if (design_choice (b->design, overflow, FIELD_OVERFLOW_KIND) == OVERFLOW_OUTSIDE) {
    const Part *tank = design_owner (b->design, overflow);
    if (tank == NULL)
      return;
    SceneBox out = seen (b, geometry_outside (b->design, tank)),
             inner = seen (b, geometry_inside (b->design, tank));
    SceneBox notch = {inner.x1, crest, out.x1, inner.z1};
    add_box_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_BLANK, notch);
    add_segment (b, ROLE_OUTLINE, LAYER_BODY, part, notch.x0, crest, notch.x1, crest);
    x = notch.x0;
  }
  if (design_choice (b->design, overflow, FIELD_OVERFLOW_WEIR) == WEIR_TOOTHED)
    top = MIN (crest + number_of (b, overflow, FIELD_OVERFLOW_TOOTH_HEIGHT), in.z1);
  add_segment (b, ROLE_THIN, LAYER_BODY, part, x, crest, x, top);
}

static void
build_weir (Builder *b, const Part *overflow, int part, SceneBox in)
{
  double crest = geometry_crest (b->design, overflow);
  if (b->options.projection == PROJECTION_END) {
    build_weir_end (b, overflow, part, in, crest);
    return;
  }
  double length = MIN (number_of (b, overflow, FIELD_OVERFLOW_LENGTH), in.x1 - in.x0);
  double middle = (in.x0 + in.x1) / 2;
  double x0 = middle - length / 2, x1 = middle + length / 2;
  if (design_choice (b->design, overflow, FIELD_OVERFLOW_WEIR) == WEIR_TOOTHED)
    build_teeth (b, overflow, part, x0, x1, crest,
                 MIN (crest + number_of (b, overflow, FIELD_OVERFLOW_TOOTH_HEIGHT), in.z1));
  ScenePoint wall[] = {{in.x0, in.z1}, {x0, in.z1}, {x0, crest}, {x1, crest}, {x1, in.z1}, {in.x1, in.z1}};
  add_line (b, ROLE_OUTLINE, LAYER_BODY, part, wall, G_N_ELEMENTS (wall), false);
}

/* The outer box stands behind the back pane: its walls are seen through it. */
static void
build_outer_box (Builder *b, const Part *overflow)
{
  int part = part_index (b, overflow);
  bool pair = design_choice (b->design, overflow, FIELD_OVERFLOW_KIND) == OVERFLOW_PAIR;
  SceneBox box = seen (b, geometry_drain_box (b->design, overflow));
  const double *running = pair ? b->readings.outer_running_m : b->readings.running_m;
  const double *off = pair ? b->readings.outer_off_m : b->readings.off_m;
  if (!box_is_real (box))
    return;
  build_water (b, part, box, running[part]);
  build_surface (b, part, box, 0.9, running[part], off[part]);
  add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, box);
}

/* The weir in the tank, with the box behind it where that is inside. */
static void
build_inner_box (Builder *b, const Part *overflow, OverflowKind kind)
{
  int part = part_index (b, overflow);
  SceneBox in = seen (b, geometry_inside (b->design, overflow));
  if (!box_is_real (in))
    return;
  if (kind == OVERFLOW_INSIDE)
    add_box_area (b, ROLE_MATERIAL, LAYER_BODY, part, MATERIAL_BLANK, in);
  if (kind != OVERFLOW_OUTSIDE) {
    build_water (b, part, in, b->readings.running_m[part]);
    bool end = b->options.projection == PROJECTION_END;
    double front = end ? geometry_crest (b->design, overflow) : in.z1;
    ScenePoint walls[] = {{in.x0, front}, {in.x0, in.z0}, {in.x1, in.z0}, {in.x1, in.z1}};
    add_line (b, ROLE_OUTLINE, LAYER_BODY, part, walls, 4, false);
    build_surface (b, part, in, 0.9, b->readings.running_m[part], b->readings.off_m[part]);
  }
  if (kind == OVERFLOW_HANG_OVER)
    build_siphon_tubes (b, overflow);
  build_weir (b, overflow, part, in);
  add_label_room (b, part, in, part_name (b, overflow), 80);
}

void
build_overflow (Builder *b, bool behind)
{
  for (unsigned i = 0; i < design_count (b->design, PART_OVERFLOW); i++) {
    const Part *overflow = design_nth (b->design, PART_OVERFLOW, i);
    OverflowKind kind = (OverflowKind) design_choice (b->design, overflow, FIELD_OVERFLOW_KIND);
    if (!behind)
      build_inner_box (b, overflow, kind);
    else if (kind == OVERFLOW_HANG_OVER)
      build_siphon_box_behind (b, overflow);
    else if (kind != OVERFLOW_INSIDE)
      build_outer_box (b, overflow);
  }
}
