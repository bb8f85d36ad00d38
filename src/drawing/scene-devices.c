/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What stands in the sump and beside it: devices with their wanted depth, filter socks, pumps, the top-off reservoir. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SOCK_STEPS 20

static void
build_device (Builder *b, const Part *device)
{
  int part = part_index (b, device);
  SceneBox box = seen (b, geometry_outside (b->design, device));
  if (!box_is_real (box))
    return;
  add_box_area (b, ROLE_DEVICE, LAYER_DEVICES, part, MATERIAL_BLANK, box);
  double depth = is_elevation (b) ? number_of (b, device, FIELD_DEVICE_DEPTH) : 0;
  double wanted = box.z0 + depth;
  add_box_line (b, ROLE_DEVICE, LAYER_DEVICES, part, box);
  /* A skimmer's neck and cup: the upper third, narrower and wider than the body. */
  if (design_choice (b->design, device, FIELD_DEVICE_KIND) == DEVICE_SKIMMER && is_elevation (b)) {
    double neck = box.z0 + 0.62 * (box.z1 - box.z0), inset = 0.12 * (box.x1 - box.x0);
    add_segment (b, ROLE_THIN, LAYER_DEVICES, part, box.x0, neck, box.x1, neck);
    add_box_line (b, ROLE_THIN, LAYER_DEVICES, part,
                  (SceneBox){box.x0 + inset, neck, box.x1 - inset, box.z1 - 0.04 * (box.z1 - box.z0)});
  }
  if (depth > 0 && wanted < box.z1) {
    double reach = 0.1 * (box.x1 - box.x0);
    add_segment (b, ROLE_CENTRE, LAYER_DEVICES, part, box.x0 - reach, wanted, box.x1 + reach, wanted);
  }
  /* Where the water of a branch leaves it. */
  if (is_elevation (b) && design_applies (b->design, device, FIELD_DEVICE_OUTFLOW)) {
    double out = box.z0 + number_of (b, device, FIELD_DEVICE_OUTFLOW), reach = 0.15 * (box.x1 - box.x0);
    add_segment (b, ROLE_DEVICE, LAYER_DEVICES, part, box.x1, out, box.x1 + reach, out);
  }
  add_label_box (b, part, box, part_name (b, device), 70);
}

/* From above: the rings, in the middle of the chamber. */
static void
build_sock_rings (Builder *b, int part, SceneBox in, unsigned n)
{
  double pitch = (in.x1 - in.x0) / n, radius = MIN (0.18, 0.8 * MIN (pitch, in.z1 - in.z0)) / 2;
  double z = (in.z0 + in.z1) / 2;
  for (unsigned i = 0; i < n; i++) {
    double x = in.x0 + (i + 0.5) * pitch;
    add_arc (b, ROLE_DEVICE, LAYER_DEVICES, part, x, z, radius, 0, 2 * G_PI);
    add_arc (b, ROLE_THIN, LAYER_DEVICES, part, x, z, 0.88 * radius, 0, 2 * G_PI);
    if (i == 0)
      add_label_box (b, part, (SceneBox){x - radius, z - radius, x + radius, z + radius},
                     n > 1 ? _ ("Filter socks") : _ ("Filter sock"), 45);
  }
}

/* Socks hang from the rim of their chamber, side by side; the bag ends round. */
static void
build_socks (Builder *b, const Part *chamber)
{
  double n = round (number_of (b, chamber, FIELD_CHAMBER_SOCKS));
  SceneBox in = seen (b, geometry_inside (b->design, chamber));
  if (n < 1 || !box_is_real (in))
    return;
  int part = part_index (b, chamber);
  if (b->options.projection == PROJECTION_PLAN) {
    build_sock_rings (b, part, in, (unsigned) n);
    return;
  }
  if (b->options.projection == PROJECTION_END)
    n = 1; /* side by side along the sump: the nearest hides the others */
  double pitch = (in.x1 - in.x0) / n;
  double width = MIN (0.18, 0.8 * pitch);
  double depth = MIN (number_of (b, chamber, FIELD_CHAMBER_SOCK_LENGTH), 0.92 * (in.z1 - in.z0));
  double top = in.z1, collar = MIN (0.02, depth / 6), round_off = MIN (width / 2, depth / 3);
  for (unsigned i = 0; i < (unsigned) n; i++) {
    double x = in.x0 + (i + 0.5) * pitch;
    ScenePoint bag[SOCK_STEPS + 3] = {{x - width / 2, top - collar}};
    unsigned k = 1;
    for (unsigned step = 0; step <= SOCK_STEPS; step++) {
      double angle = G_PI + G_PI * step / SOCK_STEPS;
      bag[k++] = (ScenePoint){x + width / 2 * cos (angle), top - depth + round_off + round_off * sin (angle)};
    }
    bag[k++] = (ScenePoint){x + width / 2, top - collar};
    add_area (b, ROLE_MATERIAL, LAYER_DEVICES, part, MATERIAL_SOCK, bag, k);
    add_line (b, ROLE_THIN, LAYER_DEVICES, part, bag, k, false);
    SceneBox ring = {x - width / 2 - 0.006, top - collar, x + width / 2 + 0.006, top};
    add_box_area (b, ROLE_DEVICE, LAYER_DEVICES, part, MATERIAL_BLANK, ring);
    add_box_line (b, ROLE_DEVICE, LAYER_DEVICES, part, ring);
    if (i == 0)
      add_label_box (b, part, (SceneBox){x - width / 2, top - depth, x + width / 2, top - collar},
                     n > 1 ? _ ("Filter socks") : _ ("Filter sock"), 45);
  }
}

static void
build_pump (Builder *b, const Part *pump)
{
  int part = part_index (b, pump);
  SceneBox box = seen (b, geometry_outside (b->design, pump));
  if (!box_is_real (box))
    return;
  double width = box.x1 - box.x0, height = box.z1 - box.z0;
  add_box_area (b, ROLE_DEVICE, LAYER_DEVICES, part, MATERIAL_BLANK, box);
  add_box_line (b, ROLE_DEVICE, LAYER_DEVICES, part, box);
  /* ISO 14617 pump: a circle with a triangle in the direction of flow, here inside the real outline. */
  double r = 0.34 * MIN (width, height), x = (box.x0 + box.x1) / 2, z = (box.z0 + box.z1) / 2;
  add_arc (b, ROLE_THIN, LAYER_DEVICES, part, x, z, r, 0, 2 * G_PI);
  ScenePoint arrow[] = {{x - 0.87 * r, z + 0.5 * r}, {x, z + r}, {x + 0.87 * r, z + 0.5 * r}};
  add_line (b, ROLE_THIN, LAYER_DEVICES, part, arrow, 3, false);
  add_label_box (b, part, box, part_name (b, pump), 88);
}

typedef struct {
  const Part *part;
  double depth;
  unsigned order;
} Placed;

static int
farthest_first (const void *a, const void *b)
{
  const Placed *first = a, *second = b;
  if (first->depth != second->depth)
    return first->depth > second->depth ? -1 : 1;
  return first->order < second->order ? -1 : 1;
}

/* From the front in the order of the design, as nothing hides; in other views what is near hides what is far. */
void
build_devices (Builder *b)
{
  static const PartKind kinds[] = {PART_CHAMBER, PART_DEVICE, PART_PUMP};
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Placed));
  for (unsigned k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (unsigned i = 0; i < design_count (b->design, kinds[k]); i++) {
      Placed placed = {design_nth (b->design, kinds[k], i), 0, all->len};
      Box3 box = geometry_outside (b->design, placed.part);
      Point3 middle = {box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2,
                       box.origin.z + box.size.z / 2};
      placed.depth = b->options.projection == PROJECTION_FRONT ? 0 : depth_of (b, middle);
      g_array_append_val (all, placed);
    }
  g_array_sort (all, farthest_first);
  for (unsigned i = 0; i < all->len; i++) {
    const Part *part = g_array_index (all, Placed, i).part;
    if (part_kind (part) == PART_CHAMBER)
      build_socks (b, part);
    else if (part_kind (part) == PART_DEVICE)
      build_device (b, part);
    else
      build_pump (b, part);
  }
}

void
build_reservoir (Builder *b)
{
  unsigned n = design_count (b->design, PART_RESERVOIR);
  for (unsigned i = 0; i < n; i++) {
    const Part *reservoir = design_nth (b->design, PART_RESERVOIR, i);
    int part = part_index (b, reservoir);
    SceneBox out = seen (b, geometry_outside (b->design, reservoir));
    SceneBox in = seen (b, geometry_inside (b->design, reservoir));
    if (!box_is_real (out))
      continue;
    /* Usable water over the inside plan area; full, as it is when the job is handed over. */
    Box3 inside = geometry_inside (b->design, reservoir);
    double area = inside.size.x * inside.size.y;
    double level = in.z0 + number_of (b, reservoir, FIELD_RESERVOIR_VOLUME) / area;
    level = level_under (level, in.z1);
    if (isfinite (level) && b->readings.known && is_elevation (b)) {
      add_box_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, (SceneBox){in.x0, in.z0, in.x1, level});
      add_segment (b, ROLE_SURFACE, LAYER_WATER, part, in.x0, level, in.x1, level);
    } else if (b->readings.known) {
      add_box_area (b, ROLE_WATER, LAYER_WATER, part, MATERIAL_WATER, in);
    }
    add_box_line (b, ROLE_OUTLINE, LAYER_BODY, part, out);
    add_label_box (b, part, out, part_name (b, reservoir), 65);
  }
}
