/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Isometric view of the plumbing: pipes with their fittings, sizes and lengths, and of the vessels no more than thin boxes
 * with their water, so that a reader sees what goes where. Schematic: it has no dimensions but those of the pipes. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The six edges round a box and the three that meet in its nearest corner. */
static void
build_edges (Builder *b, SceneRole role, SceneLayer layer, int part, Box3 box)
{
  double x0 = box.origin.x, y0 = box.origin.y, z0 = box.origin.z;
  double x1 = x0 + box.size.x, y1 = y0 + box.size.y, z1 = z0 + box.size.z;
  if (!(box.size.x > 0 && box.size.y > 0 && box.size.z > 0))
    return;
  ScenePoint around[] = {project (b, (Point3){x0, y0, z0}), project (b, (Point3){x1, y0, z0}),
                         project (b, (Point3){x1, y1, z0}), project (b, (Point3){x1, y1, z1}),
                         project (b, (Point3){x0, y1, z1}), project (b, (Point3){x0, y0, z1})};
  ScenePoint near = project (b, (Point3){x1, y0, z1});
  if (role == ROLE_DEVICE)
    add_area (b, role, layer, part, MATERIAL_BLANK, around, G_N_ELEMENTS (around));
  add_line (b, role, layer, part, around, G_N_ELEMENTS (around), true);
  for (unsigned i = 1; i < G_N_ELEMENTS (around); i += 2)
    add_segment (b, ROLE_THIN, layer, part, near.x, near.z, around[i].x, around[i].z);
}

/* The surface of water in a vessel. */
static void
build_level (Builder *b, int part, Box3 in, double level)
{
  level = level_under (level, in.origin.z + in.size.z);
  if (!isfinite (level) || level <= in.origin.z || !(in.size.x > 0 && in.size.y > 0))
    return;
  double x0 = in.origin.x, y0 = in.origin.y, x1 = x0 + in.size.x, y1 = y0 + in.size.y;
  ScenePoint p[] = {project (b, (Point3){x0, y0, level}), project (b, (Point3){x1, y0, level}),
                    project (b, (Point3){x1, y1, level}), project (b, (Point3){x0, y1, level})};
  add_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, p, 4);
  add_line (b, ROLE_SURFACE, LAYER_WATER, part, p, 4, true);
}

/* A name near the middle of the top of a box. */
static void
label_vessel (Builder *b, const Part *part, Box3 box, unsigned importance)
{
  Point3 from = {box.origin.x + box.size.x / 4, box.origin.y, box.origin.z + 0.55 * box.size.z};
  ScenePoint at = project (b, from);
  SceneBox room = {at.x, at.z - 0.3 * box.size.z, at.x + box.size.x * 0.6, at.z};
  add_label_box (b, part_index (b, part), room, part_name (b, part), importance);
}

static void
build_vessel (Builder *b, const Part *part, double level, unsigned importance)
{
  int index = part_index (b, part);
  Box3 out = geometry_outside (b->design, part);
  build_edges (b, ROLE_THIN, LAYER_BODY, index, out);
  build_level (b, index, geometry_inside (b->design, part), level);
  label_vessel (b, part, out, importance);
}

static void
build_sump_isometric (Builder *b, const Part *sump)
{
  build_edges (b, ROLE_THIN, LAYER_BODY, part_index (b, sump), geometry_outside (b->design, sump));
  for (unsigned i = design_n_children (b->design, part_key (sump), PART_CHAMBER); i > 0; i--) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i - 1);
    int index = part_index (b, chamber);
    build_level (b, index, geometry_inside (b->design, chamber), b->readings.running_m[index]);
  }
  label_vessel (b, sump, geometry_outside (b->design, sump), 75);
}

static void
build_pump_isometric (Builder *b, const Part *pump)
{
  int part = part_index (b, pump);
  Box3 box = geometry_outside (b->design, pump);
  build_edges (b, ROLE_DEVICE, LAYER_DEVICES, part, box);
  add_label_box (b, part, seen (b, box), part_name (b, pump), 88);
}

static void
build_overflow_isometric (Builder *b, const Part *overflow)
{
  int part = part_index (b, overflow);
  OverflowKind kind = (OverflowKind) design_choice (b->design, overflow, FIELD_OVERFLOW_KIND);
  Box3 inner = geometry_inside (b->design, overflow), outer = geometry_drain_box (b->design, overflow);
  bool pair = kind == OVERFLOW_PAIR || kind == OVERFLOW_HANG_OVER;
  if (kind != OVERFLOW_INSIDE) {
    build_edges (b, ROLE_THIN, LAYER_BODY, part, outer);
    build_level (b, part, outer, pair ? b->readings.outer_running_m[part] : b->readings.running_m[part]);
  }
  if (kind != OVERFLOW_OUTSIDE) {
    build_edges (b, ROLE_THIN, LAYER_BODY, part, inner);
    build_level (b, part, inner, b->readings.running_m[part]);
  }
  if (kind == OVERFLOW_HANG_OVER) {
    Box3 tubes = geometry_tube_side (b->design, overflow);
    build_edges (b, ROLE_THIN, LAYER_BODY, part, tubes);
    build_level (b, part, tubes, b->readings.tube_side_running_m[part]);
    build_siphon_tubes (b, overflow);
  }
  add_label_box (b, part, seen (b, kind == OVERFLOW_INSIDE ? inner : outer), part_name (b, overflow), 80);
}

void
build_isometric (Builder *b)
{
  for (unsigned i = 0; i < design_count (b->design, PART_SUMP); i++)
    build_sump_isometric (b, design_nth (b->design, PART_SUMP, i));
  for (unsigned i = 0; i < design_count (b->design, PART_RESERVOIR); i++)
    build_vessel (b, design_nth (b->design, PART_RESERVOIR, i), (double) NAN, 55);
  for (unsigned i = 0; i < design_count (b->design, PART_PUMP); i++)
    build_pump_isometric (b, design_nth (b->design, PART_PUMP, i));
  for (unsigned i = 0; i < design_count (b->design, PART_TANK); i++) {
    const Part *tank = design_nth (b->design, PART_TANK, i);
    build_vessel (b, tank, b->readings.running_m[part_index (b, tank)], 95);
  }
  for (unsigned i = 0; i < design_count (b->design, PART_OVERFLOW); i++)
    build_overflow_isometric (b, design_nth (b->design, PART_OVERFLOW, i));
  build_runs (b, false);
  build_outlets (b);
}
