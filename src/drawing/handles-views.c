/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be dragged in the end elevation and in the plan: the same parts as in the front (handles.c), by the two
 * coordinates that the view shows. An isometric view is for reading. */
#include "drawing/scene-private.h"

#include <math.h>

#define NO_FIELD N_FIELDS

/* The fields that move a part along x, y and z of space. */
typedef struct {
  FieldId x, y, z;
} Fields;

static FieldId
field_along (const Builder *b, Fields fields, SceneAxis axis)
{
  if (b->options.projection == PROJECTION_END)
    return axis == AXIS_X ? fields.y : fields.z;
  return axis == AXIS_X ? fields.x : fields.y;
}

static void
add_handle (Builder *b, const Part *part, Fields fields, double gain, bool body, ScenePoint at)
{
  SceneHandle handle = {.part = part_index (b, part), .x = at.x, .z = at.z, .body = body};
  for (SceneAxis axis = AXIS_X; axis <= AXIS_Z; axis++) {
    FieldId field = field_along (b, fields, axis);
    if (field != NO_FIELD)
      handle.moves[handle.n_moves++] = (SceneMove){field, axis, gain};
  }
  if (handle.n_moves > 0 && isfinite (at.x) && isfinite (at.z))
    g_array_append_val (b->scene->handles, handle);
}

/* The middle of the right and of the top edge of a box. */
static void
edges (Builder *b, const Part *part, Box3 box, Fields sizes, double gain_x, double gain_z)
{
  SceneBox picture = seen (b, box);
  Fields right = sizes, top = sizes;
  if (b->options.projection == PROJECTION_END) {
    right.z = NO_FIELD;
    top.y = NO_FIELD;
  } else {
    right.y = NO_FIELD;
    top.x = NO_FIELD;
  }
  add_handle (b, part, right, gain_x, false, (ScenePoint){picture.x1, (picture.z0 + picture.z1) / 2});
  add_handle (b, part, top, gain_z, false, (ScenePoint){(picture.x0 + picture.x1) / 2, picture.z1});
}

/* A tank stands in the middle where its place is not given, and so grows to both sides. */
static void
tank_handles (Builder *b, const Part *tank)
{
  double x = part_is_given (tank, FIELD_TANK_X) ? 1 : 2, y = part_is_given (tank, FIELD_TANK_Y) ? 1 : 2;
  Fields sizes = {FIELD_TANK_LENGTH, FIELD_TANK_WIDTH, FIELD_TANK_HEIGHT};
  if (b->options.projection == PROJECTION_END)
    edges (b, tank, geometry_outside (b->design, tank), sizes, y, 1);
  else
    edges (b, tank, geometry_outside (b->design, tank), sizes, x, y);
}

static void
size_handles (Builder *b, const Part *part)
{
  PartKind kind = part_kind (part);
  Fields stand = {FIELD_STAND_LENGTH, FIELD_STAND_WIDTH, FIELD_STAND_HEIGHT};
  Fields sump = {FIELD_SUMP_LENGTH, FIELD_SUMP_WIDTH, FIELD_SUMP_HEIGHT};
  Fields reservoir = {FIELD_RESERVOIR_LENGTH, FIELD_RESERVOIR_WIDTH, FIELD_RESERVOIR_HEIGHT};
  if (kind == PART_STAND)
    edges (b, part, geometry_inside (b->design, part), stand, 1, 1);
  else if (kind == PART_SUMP)
    edges (b, part, geometry_outside (b->design, part), sump, 1, 1);
  else if (kind == PART_RESERVOIR)
    edges (b, part, geometry_outside (b->design, part), reservoir, 1, 1);
  else if (kind == PART_TANK)
    tank_handles (b, part);
}

static void
place_handles (Builder *b, const Part *part)
{
  static const struct {
    PartKind kind;
    Fields fields;
  } rows[] = {{PART_TEE, {FIELD_TEE_X, FIELD_TEE_Y, FIELD_TEE_Z}},
              {PART_CORNER, {FIELD_CORNER_X, FIELD_CORNER_Y, FIELD_CORNER_Z}},
              {PART_OUTLET, {FIELD_OUTLET_X, FIELD_OUTLET_Y, FIELD_OUTLET_HEIGHT}},
              {PART_DRAIN, {FIELD_DRAIN_X, FIELD_DRAIN_Y, FIELD_DRAIN_MOUTH}},
              {PART_DEVICE, {FIELD_DEVICE_X, NO_FIELD, FIELD_DEVICE_STANDS}},
              {PART_PUMP, {FIELD_PUMP_X, NO_FIELD, NO_FIELD}},
              {PART_BAFFLE, {FIELD_BAFFLE_X, NO_FIELD, FIELD_BAFFLE_HEIGHT}},
              {PART_SUMP, {FIELD_SUMP_X, FIELD_SUMP_Y, NO_FIELD}}};
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    if (part_kind (part) != rows[i].kind)
      continue;
    Box3 box = geometry_outside (b->design, part);
    Point3 at = {box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2, box.origin.z};
    if (rows[i].kind == PART_DRAIN && geometry_run (b->design, part, &at, 1) == 0)
      return;
    if (rows[i].kind == PART_BAFFLE)
      at.z = box.origin.z + box.size.z;
    add_handle (b, part, rows[i].fields, 1, rows[i].kind != PART_BAFFLE, project (b, at));
  }
}

void
build_view_handles (Builder *b)
{
  if (b->options.projection == PROJECTION_ISOMETRIC)
    return;
  for (unsigned i = 0; i < design_n_parts (b->design); i++) {
    size_handles (b, design_part (b->design, i));
    place_handles (b, design_part (b->design, i));
  }
}
