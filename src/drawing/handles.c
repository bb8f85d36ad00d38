/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be dragged, where it is, and which field follows. */
#include "drawing/scene-private.h"

#include <math.h>

static void
add_handle (Builder *b, const Part *part, double x, double z, SceneMove first, const SceneMove *second)
{
  SceneHandle handle = {.part = part_index (b, part), .x = x, .z = z, .n_moves = 1, .moves = {first}};
  if (second != NULL)
    handle.moves[handle.n_moves++] = *second;
  if (isfinite (x) && isfinite (z))
    g_array_append_val (b->scene->handles, handle);
}

static void
along_x (Builder *b, const Part *part, FieldId field, double gain, double x, double z)
{
  add_handle (b, part, x, z, (SceneMove){field, AXIS_X, gain}, NULL);
}

static void
along_z (Builder *b, const Part *part, FieldId field, double gain, double x, double z)
{
  add_handle (b, part, x, z, (SceneMove){field, AXIS_Z, gain}, NULL);
}

static void
along_both (Builder *b, const Part *part, FieldId x_field, FieldId z_field, double x, double z)
{
  SceneMove second = {z_field, AXIS_Z, 1};
  add_handle (b, part, x, z, (SceneMove){x_field, AXIS_X, 1}, &second);
}

/* Right and top edge of an upright box. A thing that is centred while its place is unknown grows to both sides, so that
 * its length changes twice as fast as its edge moves. */
static void
edges (Builder *b, const Part *part, SceneBox box, FieldId length, FieldId height, bool centred)
{
  along_x (b, part, length, centred ? 2 : 1, box.x1, (box.z0 + box.z1) / 2);
  along_z (b, part, height, 1, (box.x0 + box.x1) / 2, box.z1);
}

static void
overflow_handles (Builder *b, const Part *overflow)
{
  SceneBox in = front_of (geometry_inside (b->design, overflow));
  double middle = (in.x0 + in.x1) / 2;
  along_z (b, overflow, FIELD_OVERFLOW_CREST, 1, middle, geometry_crest (b->design, overflow));
  along_z (b, overflow, FIELD_OVERFLOW_BOX_DEPTH, -1, middle, in.z0);
}

static void
drain_handles (Builder *b, const Part *drain)
{
  Point3 points[MAX_RUN_POINTS];
  unsigned n = MIN (geometry_run (b->design, drain, points, MAX_RUN_POINTS), MAX_RUN_POINTS);
  if (n < 2)
    return;
  along_both (b, drain, FIELD_DRAIN_X, FIELD_DRAIN_MOUTH, points[0].x, points[0].z);
  along_z (b, drain, FIELD_DRAIN_END, 1, points[n - 1].x, points[n - 1].z);
}

static void
baffle_handles (Builder *b, const Part *baffle)
{
  const Part *sump = design_owner (b->design, baffle);
  if (sump == NULL)
    return;
  SceneBox in = front_of (geometry_inside (b->design, sump));
  double x =
      in.x0 + number_of (b, baffle, FIELD_BAFFLE_X) + number_of (b, baffle, FIELD_BAFFLE_THICKNESS) / 2;
  along_both (b, baffle, FIELD_BAFFLE_X, FIELD_BAFFLE_HEIGHT, x,
              in.z0 + number_of (b, baffle, FIELD_BAFFLE_HEIGHT));
}

static void
chamber_handles (Builder *b, const Part *chamber)
{
  if (design_choice (b->design, chamber, FIELD_CHAMBER_ROLE) != CHAMBER_RETURN)
    return;
  SceneBox in = front_of (geometry_inside (b->design, chamber));
  along_z (b, chamber, FIELD_CHAMBER_LEVEL, 1, in.x0 + 0.75 * (in.x1 - in.x0),
           in.z0 + number_of (b, chamber, FIELD_CHAMBER_LEVEL));
}

static void
part_handles (Builder *b, const Part *part)
{
  const Design *design = b->design;
  PartKind kind = part_kind (part);
  if (kind == PART_STAND)
    edges (b, part, front_of (geometry_inside (design, part)), FIELD_STAND_LENGTH, FIELD_STAND_HEIGHT, false);
  else if (kind == PART_TANK)
    edges (b, part, front_of (geometry_outside (design, part)), FIELD_TANK_LENGTH, FIELD_TANK_HEIGHT,
           !part_is_given (part, FIELD_TANK_X));
  else if (kind == PART_SUMP)
    edges (b, part, front_of (geometry_outside (design, part)), FIELD_SUMP_LENGTH, FIELD_SUMP_HEIGHT, false);
  else if (kind == PART_RESERVOIR)
    edges (b, part, front_of (geometry_outside (design, part)), FIELD_RESERVOIR_LENGTH,
           FIELD_RESERVOIR_HEIGHT, false);
  else if (kind == PART_OVERFLOW)
    overflow_handles (b, part);
  else if (kind == PART_DRAIN)
    drain_handles (b, part);
  else if (kind == PART_CHAMBER)
    chamber_handles (b, part);
  else if (kind == PART_BAFFLE)
    baffle_handles (b, part);
}

/* Things that are dragged as a whole. */
static void
body_handles (Builder *b, const Part *part)
{
  const Design *design = b->design;
  PartKind kind = part_kind (part);
  const Part *stand = design_nth (design, PART_STAND, 0);
  double left = stand != NULL ? geometry_inside (design, stand).origin.x : 0;
  if (kind == PART_DEVICE) {
    SceneBox box = front_of (geometry_outside (design, part));
    along_both (b, part, FIELD_DEVICE_X, FIELD_DEVICE_STANDS, (box.x0 + box.x1) / 2, box.z0);
  } else if (kind == PART_PUMP) {
    SceneBox box = front_of (geometry_outside (design, part));
    along_x (b, part, FIELD_PUMP_X, 1, (box.x0 + box.x1) / 2, (box.z0 + box.z1) / 2);
  } else if (kind == PART_CORNER) {
    along_both (b, part, FIELD_CORNER_X, FIELD_CORNER_Z, left + number_of (b, part, FIELD_CORNER_X),
                number_of (b, part, FIELD_CORNER_Z));
  } else if (kind == PART_TEE) {
    along_both (b, part, FIELD_TEE_X, FIELD_TEE_Z, left + number_of (b, part, FIELD_TEE_X),
                number_of (b, part, FIELD_TEE_Z));
  } else if (kind == PART_OUTLET) {
    const Part *tank = design_owner (design, part);
    double x = tank != NULL ? geometry_inside (design, tank).origin.x : 0;
    along_both (b, part, FIELD_OUTLET_X, FIELD_OUTLET_HEIGHT, x + number_of (b, part, FIELD_OUTLET_X),
                geometry_outlet (design, part));
  }
}

void
build_handles (Builder *b)
{
  for (unsigned i = 0; i < design_n_parts (b->design); i++) {
    part_handles (b, design_part (b->design, i));
    body_handles (b, design_part (b->design, i));
  }
}
