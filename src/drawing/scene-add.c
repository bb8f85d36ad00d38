/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/scene-private.h"

#include <math.h>

#include "report/words.h"

int
part_index (const Builder *b, const Part *part)
{
  return part == NULL ? -1 : design_index (b->design, part_key (part));
}

double
number_of (const Builder *b, const Part *part, FieldId field)
{
  return design_number (b->design, part, field);
}

const char *
keep_text (Scene *scene, const char *text)
{
  return g_string_chunk_insert_const (scene->texts, text);
}

const char *
take_text (Scene *scene, char *text)
{
  const char *kept = keep_text (scene, text);
  g_free (text);
  return kept;
}

const char *
part_name (Builder *b, const Part *part)
{
  return take_text (b->scene, words_part_brief (b->design, part));
}

const char *
short_name (Builder *b, const Part *part)
{
  const char *label = part_label (part);
  if ((label != NULL && *label != '\0') || part_kind (part) != PART_CHAMBER)
    return part_name (b, part);
  unsigned place = 0;
  while (design_child (b->design, part_owner (part), PART_CHAMBER, place) != part)
    place++;
  const char *role = words_choice (FIELD_CHAMBER_ROLE, design_choice (b->design, part, FIELD_CHAMBER_ROLE));
  return take_text (b->scene, g_strdup_printf ("%u %s", place + 1, role));
}

const char *
length_text (Builder *b, double metres)
{
  const Unit *unit = units_unit_for (QUANTITY_LENGTH, &b->style);
  return take_text (b->scene, units_format_number (metres, QUANTITY_LENGTH, &b->style, unit, UNITS_BUILD));
}

/* Adds an item with its points; NULL, and nothing added, when a coordinate is not finite. */
static SceneItem *
add_item (Builder *b, const SceneItem *item, const ScenePoint *points, unsigned n)
{
  for (unsigned i = 0; i < n; i++)
    if (!isfinite (points[i].x) || !isfinite (points[i].z))
      return NULL;
  SceneItem copy = *item;
  copy.first = b->scene->points->len;
  copy.n = n;
  g_array_append_vals (b->scene->points, points, n);
  g_array_append_val (b->scene->items, copy);
  return &g_array_index (b->scene->items, SceneItem, b->scene->items->len - 1);
}

static bool
is_upright (const ScenePoint *p, unsigned n)
{
  for (unsigned i = 1; i < n; i++)
    if (fabs (p[i].x - p[i - 1].x) > 1e-9 && fabs (p[i].z - p[i - 1].z) > 1e-9)
      return false;
  return true;
}

SceneItem *
add_line (Builder *b, SceneRole role, SceneLayer layer, int part, const ScenePoint *points, unsigned n,
          bool closed)
{
  SceneItem item = {.shape = SHAPE_LINE, .role = role, .layer = layer, .part = part, .closed = closed};
  item.upright = is_upright (points, n);
  return n >= 2 ? add_item (b, &item, points, n) : NULL;
}

SceneItem *
add_segment (Builder *b, SceneRole role, SceneLayer layer, int part, double x0, double z0, double x1,
             double z1)
{
  ScenePoint points[] = {{x0, z0}, {x1, z1}};
  return add_line (b, role, layer, part, points, 2, false);
}

SceneItem *
add_area (Builder *b, SceneRole role, SceneLayer layer, int part, SceneMaterial material,
          const ScenePoint *points, unsigned n)
{
  SceneItem item = {.shape = SHAPE_AREA, .role = role, .layer = layer, .part = part, .closed = true};
  item.material = material;
  item.upright = is_upright (points, n);
  return n >= 3 ? add_item (b, &item, points, n) : NULL;
}

SceneItem *
add_arc (Builder *b, SceneRole role, SceneLayer layer, int part, double x, double z, double radius,
         double from, double to)
{
  SceneItem item = {.shape = SHAPE_ARC, .role = role, .layer = layer, .part = part};
  item.radius = radius;
  item.from = from;
  item.to = to;
  ScenePoint centre = {x, z};
  return isfinite (radius) && radius > 0 ? add_item (b, &item, &centre, 1) : NULL;
}

SceneItem *
add_symbol (Builder *b, SceneRole role, SceneLayer layer, int part, SceneSymbol symbol, double x, double z)
{
  SceneItem item = {.shape = SHAPE_SYMBOL, .role = role, .layer = layer, .part = part, .symbol = symbol};
  ScenePoint at = {x, z};
  return add_item (b, &item, &at, 1);
}

SceneItem *
add_label (Builder *b, int part, SceneAnchor anchor, const ScenePoint *points, unsigned n, const char *text,
           unsigned importance)
{
  SceneItem item = {
      .shape = SHAPE_LABEL, .role = ROLE_LABEL, .layer = LAYER_LABELS, .part = part, .anchor = anchor};
  item.text = text;
  item.importance = importance;
  return add_item (b, &item, points, n);
}

/* Tanks of one make behind each other measure the same between the same places: never a dimension twice (ISO 129-1). */
static bool
is_dimensioned (const Builder *b, SceneSide side, const ScenePoint *p)
{
  for (unsigned i = 0; i < scene_n_items (b->scene); i++) {
    const SceneItem *item = scene_item (b->scene, i);
    if (item->shape != SHAPE_DIMENSION || item->side != side)
      continue;
    const ScenePoint *q = scene_points (b->scene, item);
    if (fabs (p[0].x - q[0].x) + fabs (p[0].z - q[0].z) + fabs (p[1].x - q[1].x) + fabs (p[1].z - q[1].z) <
        1e-6)
      return true;
  }
  return false;
}

SceneItem *
add_dimension (Builder *b, int part, SceneSide side, unsigned rank, double x0, double z0, double x1,
               double z1, unsigned importance)
{
  SceneItem item = {
      .shape = SHAPE_DIMENSION, .role = ROLE_DIMENSION, .layer = LAYER_DIMENSIONS, .part = part};
  ScenePoint points[] = {{x0, z0}, {x1, z1}};
  bool along_x = side == SIDE_BOTTOM || side == SIDE_TOP || (side == SIDE_IN_PLACE && x0 != x1);
  double length = along_x ? fabs (x1 - x0) : fabs (z1 - z0);
  if (!(length > 1e-6) || !isfinite (length) || is_dimensioned (b, side, points))
    return NULL;
  item.side = side;
  item.rank = rank;
  item.importance = importance;
  item.value = length_text (b, length);
  return add_item (b, &item, points, 2);
}

static void
corners (SceneBox box, ScenePoint p[4])
{
  p[0] = (ScenePoint){box.x0, box.z0};
  p[1] = (ScenePoint){box.x1, box.z0};
  p[2] = (ScenePoint){box.x1, box.z1};
  p[3] = (ScenePoint){box.x0, box.z1};
}

SceneItem *
add_box_area (Builder *b, SceneRole role, SceneLayer layer, int part, SceneMaterial material, SceneBox box)
{
  ScenePoint p[4];
  corners (box, p);
  return box_is_real (box) ? add_area (b, role, layer, part, material, p, 4) : NULL;
}

SceneItem *
add_box_line (Builder *b, SceneRole role, SceneLayer layer, int part, SceneBox box)
{
  ScenePoint p[4];
  corners (box, p);
  return box_is_real (box) ? add_line (b, role, layer, part, p, 4, true) : NULL;
}

void
add_cut_box (Builder *b, int part, SceneMaterial material, SceneBox box)
{
  add_box_area (b, ROLE_MATERIAL, LAYER_BODY, part, material, box);
  add_box_line (b, ROLE_CUT, LAYER_BODY, part, box);
}

void
add_label_box (Builder *b, int part, SceneBox box, const char *text, unsigned importance)
{
  ScenePoint p[] = {{box.x0, box.z0}, {box.x1, box.z1}};
  if (box_is_real (box))
    add_label (b, part, ANCHOR_BOX, p, 2, text, importance);
}

void
add_label_room (Builder *b, int part, SceneBox box, const char *text, unsigned importance)
{
  ScenePoint p[] = {{box.x0, box.z0}, {box.x1, box.z1}};
  if (box_is_real (box))
    add_label (b, part, ANCHOR_ROOM, p, 2, text, importance);
}

void
add_label_within (Builder *b, int part, SceneBox box, const char *text, unsigned importance)
{
  ScenePoint p[] = {{box.x0, box.z0}, {box.x1, box.z1}};
  if (box_is_real (box))
    add_label (b, part, ANCHOR_WITHIN, p, 2, text, importance);
}

double
level_under (double level, double rim)
{
  return level > rim ? rim : level;
}

bool
box_is_real (SceneBox box)
{
  return box.x1 > box.x0 && box.z1 > box.z0 && isfinite (box.x1 - box.x0) && isfinite (box.z1 - box.z0);
}
