/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be dragged, where it is, and which field follows. */
#include "drawing/scene-private.h"

#include <math.h>

static void
add_handle (Builder *b, const Part *part, double x, double z, SceneMove first, const SceneMove *second,
            bool body)
{
  SceneHandle handle = {
      .part = part_index (b, part), .x = x, .z = z, .body = body, .n_moves = 1, .moves = {first}};
  if (second != NULL)
    handle.moves[handle.n_moves++] = *second;
  if (isfinite (x) && isfinite (z))
    g_array_append_val (b->scene->handles, handle);
}

static void
along_x (Builder *b, const Part *part, FieldId field, double gain, double x, double z)
{
  add_handle (b, part, x, z, (SceneMove){field, AXIS_X, gain}, NULL, false);
}

static void
along_z (Builder *b, const Part *part, FieldId field, double gain, double x, double z)
{
  add_handle (b, part, x, z, (SceneMove){field, AXIS_Z, gain}, NULL, false);
}

/* The whole part along x and z. */
static void
along_both (Builder *b, const Part *part, FieldId x_field, FieldId z_field, double x, double z)
{
  SceneMove second = {z_field, AXIS_Z, 1};
  add_handle (b, part, x, z, (SceneMove){x_field, AXIS_X, 1}, &second, true);
}

/* The whole part along x. */
static void
sideways (Builder *b, const Part *part, FieldId field, double x, double z)
{
  add_handle (b, part, x, z, (SceneMove){field, AXIS_X, 1}, NULL, true);
}

/* The left edge: the right one stays, so the place follows the length. */
static void
left_edge (Builder *b, const Part *part, FieldId length, FieldId place, double x, double z)
{
  SceneMove second = {place, AXIS_X, 1};
  add_handle (b, part, x, z, (SceneMove){length, AXIS_X, -1}, &second, false);
}

/* Right and top edge of an upright box. A thing that is centred while its place is unknown grows to both sides, so that
 * its length changes twice as fast as its edge moves. */
static void
edges (Builder *b, const Part *part, SceneBox box, FieldId length, FieldId height, bool centred)
{
  along_x (b, part, length, centred ? 2 : 1, box.x1, (box.z0 + box.z1) / 2);
  along_z (b, part, height, 1, (box.x0 + box.x1) / 2, box.z1);
}

/* A box that also moves along x, by its foot. */
static void
free_box (Builder *b, const Part *part, FieldId length, FieldId height, FieldId place, bool centred)
{
  SceneBox box = front_of (geometry_outside (b->design, part));
  edges (b, part, box, length, height, centred && !part_is_given (part, place));
  left_edge (b, part, length, place, box.x0, (box.z0 + box.z1) / 2);
  sideways (b, part, place, (box.x0 + box.x1) / 2, box.z0);
}

static void
stand_handles (Builder *b, const Part *stand)
{
  SceneBox in = front_of (geometry_inside (b->design, stand));
  edges (b, stand, in, FIELD_STAND_LENGTH, FIELD_STAND_HEIGHT, false);
  along_z (b, stand, FIELD_STAND_FLOOR, 1, (in.x0 + in.x1) / 2, in.z0);
}

static void
tank_handles (Builder *b, const Part *tank)
{
  SceneBox out = front_of (geometry_outside (b->design, tank));
  SceneBox in = front_of (geometry_inside (b->design, tank));
  free_box (b, tank, FIELD_TANK_LENGTH, FIELD_TANK_HEIGHT, FIELD_TANK_X, true);
  along_z (b, tank, FIELD_TANK_RIM, 1, out.x0 + 0.75 * (out.x1 - out.x0), in.z1);
  along_z (b, tank, FIELD_TANK_SUBSTRATE, 1, out.x0 + 0.25 * (out.x1 - out.x0),
           in.z0 + number_of (b, tank, FIELD_TANK_SUBSTRATE));
}

static void
overflow_handles (Builder *b, const Part *overflow)
{
  SceneBox in = front_of (geometry_inside (b->design, overflow));
  double middle = (in.x0 + in.x1) / 2, half_way = (in.z0 + in.z1) / 2;
  bool centred = !part_is_given (overflow, FIELD_OVERFLOW_X);
  along_z (b, overflow, FIELD_OVERFLOW_CREST, 1, middle, geometry_crest (b->design, overflow));
  along_z (b, overflow, FIELD_OVERFLOW_BOX_DEPTH, -1, middle, in.z0);
  along_x (b, overflow, FIELD_OVERFLOW_BOX_LENGTH, centred ? 2 : 1, in.x1, half_way);
  left_edge (b, overflow, FIELD_OVERFLOW_BOX_LENGTH, FIELD_OVERFLOW_X, in.x0, half_way);
  sideways (b, overflow, FIELD_OVERFLOW_X, middle, half_way);
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
  along_z (b, baffle, FIELD_BAFFLE_GAP, 1, x, in.z0 + number_of (b, baffle, FIELD_BAFFLE_GAP));
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
device_handles (Builder *b, const Part *device)
{
  SceneBox box = front_of (geometry_outside (b->design, device));
  along_both (b, device, FIELD_DEVICE_X, FIELD_DEVICE_STANDS, (box.x0 + box.x1) / 2, box.z0);
  edges (b, device, box, FIELD_DEVICE_LENGTH, FIELD_DEVICE_HEIGHT, !part_is_given (device, FIELD_DEVICE_X));
}

static void
pump_handles (Builder *b, const Part *pump)
{
  SceneBox box = front_of (geometry_outside (b->design, pump));
  SceneBox sump = front_of (geometry_inside (b->design, design_nth (b->design, PART_SUMP, 0)));
  sideways (b, pump, FIELD_PUMP_X, (box.x0 + box.x1) / 2, (box.z0 + box.z1) / 2);
  along_z (b, pump, FIELD_PUMP_SUCTION, 1, box.x0, sump.z0 + number_of (b, pump, FIELD_PUMP_SUCTION));
}

static void
outlet_handles (Builder *b, const Part *outlet)
{
  const Part *tank = design_owner (b->design, outlet);
  double x =
      (tank != NULL ? geometry_inside (b->design, tank).origin.x : 0) + number_of (b, outlet, FIELD_OUTLET_X);
  along_both (b, outlet, FIELD_OUTLET_X, FIELD_OUTLET_HEIGHT, x, geometry_outlet (b->design, outlet));
  if (design_choice (b->design, outlet, FIELD_OUTLET_BREAK) != 0)
    along_z (b, outlet, FIELD_OUTLET_BREAK_HEIGHT, 1, x, geometry_break (b->design, outlet));
}

/* On its run, along the piece that it sits on; dragging it follows the whole run. */
void
build_fitting_handle (Builder *b, const Part *fitting)
{
  const Part *run = design_owner (b->design, fitting);
  Point3 points[MAX_RUN_POINTS];
  unsigned n = run != NULL ? geometry_run (b->design, run, points, MAX_RUN_POINTS) : 0, piece = 0;
  if (n < 2 || n > MAX_RUN_POINTS)
    return;
  Point3 in_space = geometry_along (points, n, number_of (b, fitting, FIELD_FITTING_STATION), &piece);
  Point3 p = points[piece], q = points[piece + 1];
  ScenePoint at = project (b, in_space), from = project (b, p), to = project (b, q);
  double dx = to.x - from.x, dz = to.z - from.z;
  double length = sqrt ((q.x - p.x) * (q.x - p.x) + (q.y - p.y) * (q.y - p.y) + (q.z - p.z) * (q.z - p.z));
  SceneAxis axis = fabs (dx) > fabs (dz) ? AXIS_X : AXIS_Z;
  double along = axis == AXIS_X ? dx : dz;
  /* On a piece that runs towards the viewer it stands still. */
  if (fabs (along) > 0.01 * length)
    add_handle (b, fitting, at.x, at.z, (SceneMove){FIELD_FITTING_STATION, axis, length / along}, NULL, true);
}

/* On the wall of the longest piece as the view shows it: pulled away from the axis, the pipe becomes thicker. Its field is
 * text, a size of the catalogue; its gain tells the side. It stands off the middle, where a pull bends the pipe. */
void
build_size_handle (Builder *b, const Part *run)
{
  Point3 points[MAX_RUN_POINTS];
  unsigned n = MIN (geometry_run (b->design, run, points, MAX_RUN_POINTS), MAX_RUN_POINTS);
  ScenePoint from = {0}, to = {0};
  double longest = 0;
  for (unsigned i = 1; i < n; i++) {
    ScenePoint p = project (b, points[i - 1]), q = project (b, points[i]);
    if (hypot (q.x - p.x, q.z - p.z) <= longest)
      continue;
    longest = hypot (q.x - p.x, q.z - p.z);
    from = p;
    to = q;
  }
  /* A pipe that goes straight at the reader is a circle. */
  if (!(longest > 0) && n > 0)
    from = to = project (b, points[0]);
  SceneAxis axis = fabs (to.x - from.x) > fabs (to.z - from.z) ? AXIS_Z : AXIS_X;
  double off = run_size (b, run).outside_m / 2, share = 0.3;
  double x = from.x + share * (to.x - from.x) + (axis == AXIS_X ? off : 0);
  double z = from.z + share * (to.z - from.z) + (axis == AXIS_Z ? off : 0);
  FieldId field = part_kind (run) == PART_DRAIN ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE;
  add_handle (b, run, x, z, (SceneMove){field, axis, 2}, NULL, false);
}

static void
point_handles (Builder *b, const Part *part, FieldId x_field, FieldId z_field)
{
  const Part *stand = design_nth (b->design, PART_STAND, 0);
  double left = stand != NULL ? geometry_inside (b->design, stand).origin.x : 0;
  along_both (b, part, x_field, z_field, left + number_of (b, part, x_field), number_of (b, part, z_field));
}

static void
part_handles (Builder *b, const Part *part)
{
  switch ((int) part_kind (part)) {
  case PART_STAND:
    stand_handles (b, part);
    break;
  case PART_TANK:
    tank_handles (b, part);
    break;
  case PART_OVERFLOW:
    overflow_handles (b, part);
    break;
  case PART_DRAIN:
    drain_handles (b, part);
    build_size_handle (b, part);
    break;
  case PART_RETURN:
    build_size_handle (b, part);
    break;
  case PART_SUMP:
    free_box (b, part, FIELD_SUMP_LENGTH, FIELD_SUMP_HEIGHT, FIELD_SUMP_X, false);
    break;
  case PART_CHAMBER:
    chamber_handles (b, part);
    break;
  case PART_BAFFLE:
    baffle_handles (b, part);
    break;
  case PART_DEVICE:
    device_handles (b, part);
    break;
  case PART_PUMP:
    pump_handles (b, part);
    break;
  case PART_TEE:
    point_handles (b, part, FIELD_TEE_X, FIELD_TEE_Z);
    break;
  case PART_CORNER:
    point_handles (b, part, FIELD_CORNER_X, FIELD_CORNER_Z);
    break;
  case PART_OUTLET:
    outlet_handles (b, part);
    break;
  case PART_FITTING:
    build_fitting_handle (b, part);
    break;
  case PART_RESERVOIR:
    free_box (b, part, FIELD_RESERVOIR_LENGTH, FIELD_RESERVOIR_HEIGHT, FIELD_RESERVOIR_X, false);
    break;
  default:
    break;
  }
}

void
build_handles (Builder *b)
{
  for (unsigned i = 0; i < design_n_parts (b->design); i++)
    part_handles (b, design_part (b->design, i));
}
