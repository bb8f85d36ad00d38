/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/geometry.h"

#include <math.h>

#include "design/choices.h"

/* Gap between the back pane of a tank and a box that hangs behind it. */
#define BEHIND_M 0.002

static Box3
stand_inside (const Design *design, const Part *stand)
{
  return (Box3){.origin = {0, 0, design_number (design, stand, FIELD_STAND_FLOOR)},
                .size = {design_number (design, stand, FIELD_STAND_LENGTH),
                         design_number (design, stand, FIELD_STAND_WIDTH),
                         design_number (design, stand, FIELD_STAND_HEIGHT)}};
}

static Box3
stand_outside (const Design *design, const Part *stand)
{
  const Box3 inside = stand_inside (design, stand);
  const double wall_m = design_number (design, stand, FIELD_STAND_WALL);

  return (Box3){.origin = {-wall_m, -wall_m, 0},
                .size = {inside.size.x + 2 * wall_m, inside.size.y + 2 * wall_m,
                         inside.origin.z + inside.size.z + design_number (design, stand, FIELD_STAND_TOP)}};
}

static double
stand_top (const Design *design)
{
  const Part *stand = design_nth (design, PART_STAND, 0);

  return stand != NULL ? stand_outside (design, stand).size.z : 0;
}

static double
stand_floor (const Design *design)
{
  const Part *stand = design_nth (design, PART_STAND, 0);

  return stand != NULL ? design_number (design, stand, FIELD_STAND_FLOOR) : 0;
}

static Box3
tank_outside (const Design *design, const Part *tank)
{
  return (Box3){.origin = {design_number (design, tank, FIELD_TANK_X),
                           design_number (design, tank, FIELD_TANK_Y), stand_top (design)},
                .size = {design_number (design, tank, FIELD_TANK_LENGTH),
                         design_number (design, tank, FIELD_TANK_WIDTH),
                         design_number (design, tank, FIELD_TANK_HEIGHT)}};
}

static Box3
tank_inside (const Design *design, const Part *tank)
{
  const double glass_m = design_number (design, tank, FIELD_TANK_GLASS);
  const double bottom_m = design_number (design, tank, FIELD_TANK_BOTTOM);
  const Box3 outside = tank_outside (design, tank);

  return (Box3){
      .origin = {outside.origin.x + glass_m, outside.origin.y + glass_m, outside.origin.z + bottom_m},
      .size = {outside.size.x - 2 * glass_m, outside.size.y - 2 * glass_m,
               design_number (design, tank, FIELD_TANK_RIM) - bottom_m}};
}

static Box3
sump_outside (const Design *design, const Part *sump)
{
  return (Box3){.origin = {design_number (design, sump, FIELD_SUMP_X),
                           design_number (design, sump, FIELD_SUMP_Y), stand_floor (design)},
                .size = {design_number (design, sump, FIELD_SUMP_LENGTH),
                         design_number (design, sump, FIELD_SUMP_WIDTH),
                         design_number (design, sump, FIELD_SUMP_HEIGHT)}};
}

static Box3
sump_inside (const Design *design, const Part *sump)
{
  const double glass_m = design_number (design, sump, FIELD_SUMP_GLASS);
  const double bottom_m = design_number (design, sump, FIELD_SUMP_BOTTOM);
  const Box3 outside = sump_outside (design, sump);

  return (Box3){
      .origin = {outside.origin.x + glass_m, outside.origin.y + glass_m, outside.origin.z + bottom_m},
      .size = {outside.size.x - 2 * glass_m, outside.size.y - 2 * glass_m, outside.size.z - bottom_m}};
}

static Box3
first_sump_inside (const Design *design)
{
  const Part *sump = design_nth (design, PART_SUMP, 0);

  return sump != NULL ? sump_inside (design, sump) : (Box3){.origin = {0, 0, stand_floor (design)}};
}

/* Inside of the box against the back pane, in the tank (`outer` false) or behind it. The inner box of a pair only
 * skims, so it is half as wide as the outer one. */
static Box3
overflow_box (const Design *design, const Part *overflow, bool outer)
{
  const Part *tank = design_owner (design, overflow);
  const OverflowKind kind = (OverflowKind) design_choice (design, overflow, FIELD_OVERFLOW_KIND);
  const double depth_m = design_number (design, overflow, FIELD_OVERFLOW_BOX_DEPTH);
  const double wall_m = design_number (design, overflow, FIELD_OVERFLOW_WALL);
  double width_m = design_number (design, overflow, FIELD_OVERFLOW_BOX_WIDTH);
  Box3 box = {.size = {design_number (design, overflow, FIELD_OVERFLOW_BOX_LENGTH), width_m, depth_m}};

  if (tank == NULL)
    return box;

  const Box3 inside = tank_inside (design, tank);
  const Box3 outside = tank_outside (design, tank);

  box.origin.x = inside.origin.x + design_number (design, overflow, FIELD_OVERFLOW_X);
  box.origin.z = outside.origin.z + design_number (design, overflow, FIELD_OVERFLOW_BOX_RIM) - depth_m;
  if (outer || kind == OVERFLOW_OUTSIDE) {
    box.origin.y = outside.origin.y + outside.size.y + BEHIND_M + wall_m;
  } else {
    if (kind == OVERFLOW_PAIR)
      width_m /= 2;
    box.size.y = width_m;
    box.origin.y = inside.origin.y + inside.size.y - width_m;
  }
  return box;
}

static Box3
grown (Box3 box, double wall_m)
{
  return (Box3){.origin = {box.origin.x - wall_m, box.origin.y - wall_m, box.origin.z - wall_m},
                .size = {box.size.x + 2 * wall_m, box.size.y + 2 * wall_m, box.size.z + wall_m}};
}

static Box3
chamber_inside (const Design *design, const Part *chamber)
{
  const Part *left = geometry_baffle_left (design, chamber);
  const Part *right = geometry_baffle_right (design, chamber);
  Box3 box = first_sump_inside (design);
  double from = 0, to = box.size.x;

  if (left != NULL)
    from =
        design_number (design, left, FIELD_BAFFLE_X) + design_number (design, left, FIELD_BAFFLE_THICKNESS);
  if (right != NULL)
    to = design_number (design, right, FIELD_BAFFLE_X);
  box.origin.x += from;
  box.size.x = to - from;
  return box;
}

static Box3
baffle_box (const Design *design, const Part *baffle)
{
  const double gap_m = design_number (design, baffle, FIELD_BAFFLE_GAP);
  Box3 box = first_sump_inside (design);

  box.origin.x += design_number (design, baffle, FIELD_BAFFLE_X);
  box.origin.z += gap_m;
  box.size.x = design_number (design, baffle, FIELD_BAFFLE_THICKNESS);
  box.size.z = design_number (design, baffle, FIELD_BAFFLE_HEIGHT) - gap_m;
  return box;
}

static Box3
device_box (const Design *design, const Part *device)
{
  const Part *chamber = design_owner (design, device);
  const Box3 sump = first_sump_inside (design);
  Box3 box = {.size = {design_number (design, device, FIELD_DEVICE_LENGTH),
                       design_number (design, device, FIELD_DEVICE_WIDTH),
                       design_number (design, device, FIELD_DEVICE_HEIGHT)}};

  box.origin.x = (chamber != NULL ? chamber_inside (design, chamber).origin.x : 0) +
                 design_number (design, device, FIELD_DEVICE_X);
  box.origin.y = sump.origin.y + (sump.size.y - box.size.y) / 2;
  box.origin.z = sump.origin.z + design_number (design, device, FIELD_DEVICE_STANDS);
  return box;
}

static Box3
pump_box (const Design *design, const Part *pump)
{
  const Part *chamber = design_owner (design, pump);
  const Box3 sump = first_sump_inside (design);
  Box3 box = {.size = {design_number (design, pump, FIELD_PUMP_LENGTH),
                       design_number (design, pump, FIELD_PUMP_WIDTH),
                       design_number (design, pump, FIELD_PUMP_HEIGHT)}};

  box.origin.x = (chamber != NULL ? chamber_inside (design, chamber).origin.x : 0) +
                 design_number (design, pump, FIELD_PUMP_X);
  box.origin.y = sump.origin.y + (sump.size.y - box.size.y) / 2;
  box.origin.z = sump.origin.z + fmax (0, design_number (design, pump, FIELD_PUMP_SUCTION) - box.size.z / 2);
  return box;
}

static Box3
reservoir_box (const Design *design, const Part *reservoir)
{
  const Part *sump = design_nth (design, PART_SUMP, 0);

  return (Box3){.origin = {design_number (design, reservoir, FIELD_RESERVOIR_X),
                           sump != NULL ? design_number (design, sump, FIELD_SUMP_Y) : 0,
                           stand_floor (design)},
                .size = {design_number (design, reservoir, FIELD_RESERVOIR_LENGTH),
                         design_number (design, reservoir, FIELD_RESERVOIR_WIDTH),
                         design_number (design, reservoir, FIELD_RESERVOIR_HEIGHT)}};
}

static Box3
around (Point3 point)
{
  return (Box3){.origin = point};
}

static Point3 run_start (const Design *design, const Part *run);
static Point3 run_end (const Design *design, const Part *run);
static Point3 corner_point (const Design *design, const Part *corner);
static Point3 tee_point (const Design *design, const Part *tee);
static Point3 outlet_point (const Design *design, const Part *outlet);

/* Smallest box around the points of a run. */
static Box3
run_box (const Design *design, const Part *run)
{
  Point3 points[64];
  const unsigned n = MIN (geometry_run (design, run, points, G_N_ELEMENTS (points)), G_N_ELEMENTS (points));
  Point3 low = points[0], high = points[0];

  for (unsigned i = 1; i < n; i++) {
    low = (Point3){fmin (low.x, points[i].x), fmin (low.y, points[i].y), fmin (low.z, points[i].z)};
    high = (Point3){fmax (high.x, points[i].x), fmax (high.y, points[i].y), fmax (high.z, points[i].z)};
  }
  return (Box3){.origin = low, .size = {high.x - low.x, high.y - low.y, high.z - low.z}};
}

static Box3
fitting_box (const Design *design, const Part *fitting)
{
  const Part *run = design_owner (design, fitting);

  return run != NULL ? around (geometry_run_at (design, run,
                                                design_number (design, fitting, FIELD_FITTING_STATION), NULL))
                     : (Box3){0};
}

Box3
geometry_outside (const Design *design, const Part *part)
{
  switch (part_kind (part)) {
  case PART_STAND:
    return stand_outside (design, part);
  case PART_TANK:
    return tank_outside (design, part);
  case PART_OVERFLOW:
    return grown (overflow_box (design, part, false), design_number (design, part, FIELD_OVERFLOW_WALL));
  case PART_SUMP:
    return sump_outside (design, part);
  case PART_CHAMBER:
    return chamber_inside (design, part);
  case PART_BAFFLE:
    return baffle_box (design, part);
  case PART_DEVICE:
    return device_box (design, part);
  case PART_PUMP:
    return pump_box (design, part);
  case PART_RESERVOIR:
    return reservoir_box (design, part);
  case PART_DRAIN:
  case PART_RETURN:
    return run_box (design, part);
  case PART_TEE:
    return around (tee_point (design, part));
  case PART_OUTLET:
    return around (outlet_point (design, part));
  case PART_CORNER:
    return around (corner_point (design, part));
  case PART_FITTING:
    return fitting_box (design, part);
  case PART_JOB:
  case PART_ROOM:
  case PART_CANDIDATE:
  case N_PART_KINDS:
  default:
    return (Box3){0};
  }
}

Box3
geometry_inside (const Design *design, const Part *part)
{
  const PartKind kind = part_kind (part);

  if (kind == PART_STAND)
    return stand_inside (design, part);
  if (kind == PART_TANK)
    return tank_inside (design, part);
  if (kind == PART_OVERFLOW)
    return overflow_box (design, part, false);
  if (kind == PART_SUMP)
    return sump_inside (design, part);
  return geometry_outside (design, part);
}

Box3
geometry_drain_box (const Design *design, const Part *overflow)
{
  return overflow_box (design, overflow,
                       design_choice (design, overflow, FIELD_OVERFLOW_KIND) != OVERFLOW_INSIDE);
}

double
geometry_datum (const Design *design, const Part *part)
{
  switch ((int) part_kind (part)) {
  case PART_TANK:
  case PART_OVERFLOW:
  case PART_DRAIN:
  case PART_OUTLET:
    return stand_top (design);
  case PART_SUMP:
  case PART_CHAMBER:
  case PART_BAFFLE:
  case PART_DEVICE:
  case PART_PUMP:
  case PART_RESERVOIR:
    return first_sump_inside (design).origin.z;
  case PART_STAND:
    return stand_floor (design);
  default:
    return 0;
  }
}

double
geometry_chamber_area (const Design *design, const Part *chamber)
{
  const Box3 inside = chamber_inside (design, chamber);

  return inside.size.x * inside.size.y;
}

/* Place of a chamber from the left, or -1. */
static int
chamber_place (const Design *design, const Part *chamber)
{
  const unsigned n = design_n_children (design, part_owner (chamber), PART_CHAMBER);

  for (unsigned i = 0; i < n; i++)
    if (design_child (design, part_owner (chamber), PART_CHAMBER, i) == chamber)
      return (int) i;
  return -1;
}

const Part *
geometry_baffle_left (const Design *design, const Part *chamber)
{
  const int place = chamber_place (design, chamber);

  return place > 0 ? design_child (design, part_owner (chamber), PART_BAFFLE, (unsigned) place - 1) : NULL;
}

const Part *
geometry_baffle_right (const Design *design, const Part *chamber)
{
  const int place = chamber_place (design, chamber);

  return place >= 0 ? design_child (design, part_owner (chamber), PART_BAFFLE, (unsigned) place) : NULL;
}

/* Points */

static Point3
outlet_point (const Design *design, const Part *outlet)
{
  const Part *tank = design_owner (design, outlet);
  const Box3 inside = tank != NULL ? tank_inside (design, tank) : (Box3){0};

  return (Point3){inside.origin.x + design_number (design, outlet, FIELD_OUTLET_X),
                  inside.origin.y + design_number (design, outlet, FIELD_OUTLET_Y),
                  stand_top (design) + design_number (design, outlet, FIELD_OUTLET_HEIGHT)};
}

static Point3
pump_port (const Design *design, const Part *pump)
{
  const Box3 box = pump_box (design, pump);

  return (Point3){box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2,
                  first_sump_inside (design).origin.z +
                      design_number (design, pump, FIELD_PUMP_OUTLET_HEIGHT)};
}

static Point3
mouth_point (const Design *design, const Part *drain)
{
  const Part *overflow = design_owner (design, drain);
  const Box3 box = overflow != NULL ? geometry_drain_box (design, overflow) : (Box3){0};

  return (Point3){box.origin.x + design_number (design, drain, FIELD_DRAIN_X),
                  box.origin.y + design_number (design, drain, FIELD_DRAIN_Y),
                  geometry_mouth (design, drain)};
}

/* A coordinate of a corner or tee: the given one, else that of the point before. */
static Point3
placed (const Design *design, const Part *part, FieldId x, FieldId y, FieldId z, Point3 before)
{
  const FieldValue given_x = part_value (part, x), given_y = part_value (part, y),
                   given_z = part_value (part, z);

  return (Point3){given_x.given ? given_x.number : before.x, given_y.given ? given_y.number : before.y,
                  given_z.given ? given_z.number : before.z};
}

static Point3
next_corner (const Design *design, const Part *corner, Point3 before)
{
  return placed (design, corner, FIELD_CORNER_X, FIELD_CORNER_Y, FIELD_CORNER_Z, before);
}

/* The last point of a run before its end; where `stop` is a corner of it, the point before that corner. */
static Point3
last_before (const Design *design, const Part *run, const Part *stop)
{
  const unsigned n = design_n_children (design, part_key (run), PART_CORNER);
  Point3 point = run_start (design, run);

  for (unsigned i = 0; i < n; i++) {
    const Part *corner = design_child (design, part_key (run), PART_CORNER, i);

    if (corner == stop)
      break;
    point = next_corner (design, corner, point);
  }
  return point;
}

/* The run that feeds a tee, or NULL. */
static const Part *
feeding_run (const Design *design, const Part *tee)
{
  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++) {
    const Part *run = design_nth (design, PART_RETURN, i);

    if (g_strcmp0 (design_text (design, run, FIELD_RETURN_TO), part_key (tee)) == 0)
      return run;
  }
  return NULL;
}

Point3
geometry_before (const Design *design, const Part *part)
{
  const Part *run =
      part_kind (part) == PART_CORNER ? design_owner (design, part) : feeding_run (design, part);

  return run != NULL ? last_before (design, run, part) : (Point3){0};
}

static Point3
corner_point (const Design *design, const Part *corner)
{
  return next_corner (design, corner, geometry_before (design, corner));
}

static Point3
tee_point (const Design *design, const Part *tee)
{
  return placed (design, tee, FIELD_TEE_X, FIELD_TEE_Y, FIELD_TEE_Z, geometry_before (design, tee));
}

static Point3
run_start (const Design *design, const Part *run)
{
  const Part *owner = design_owner (design, run);

  if (part_kind (run) == PART_DRAIN)
    return mouth_point (design, run);
  if (owner == NULL)
    return (Point3){0};
  return part_kind (owner) == PART_TEE ? tee_point (design, owner) : pump_port (design, owner);
}

static Point3
run_end (const Design *design, const Part *run)
{
  const Part *target;

  if (part_kind (run) == PART_DRAIN) {
    const Point3 last = last_before (design, run, NULL);

    return (Point3){last.x, last.y, geometry_drain_end (design, run)};
  }
  target = design_target (design, run, FIELD_RETURN_TO);
  if (target == NULL)
    return last_before (design, run, NULL);
  return part_kind (target) == PART_TEE ? tee_point (design, target) : outlet_point (design, target);
}

/* Runs */

unsigned
geometry_run (const Design *design, const Part *run, Point3 *points, unsigned max)
{
  const unsigned corners = design_n_children (design, part_key (run), PART_CORNER);
  Point3 point = run_start (design, run);

  for (unsigned i = 0; i < corners + 1; i++) {
    if (i < max)
      points[i] = point;
    if (i < corners)
      point = next_corner (design, design_child (design, part_key (run), PART_CORNER, i), point);
  }
  if (corners + 1 < max)
    points[corners + 1] = run_end (design, run);
  return corners + 2;
}

static double
distance (Point3 a, Point3 b)
{
  return sqrt ((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y) + (a.z - b.z) * (a.z - b.z));
}

double
geometry_run_length (const Design *design, const Part *run)
{
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  double length_m = 0;

  geometry_run (design, run, points, n);
  for (unsigned i = 1; i < n; i++)
    length_m += distance (points[i - 1], points[i]);
  return length_m;
}

double
geometry_bend (const Point3 *points, unsigned n, unsigned i)
{
  if (i == 0 || i + 1 >= n)
    return 0;

  const Point3 a = points[i - 1], b = points[i], c = points[i + 1];
  const double in_m = distance (a, b), out_m = distance (b, c);
  const double dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) + (b.z - a.z) * (c.z - b.z);

  return in_m > 0 && out_m > 0 ? acos (CLAMP (dot / (in_m * out_m), -1.0, 1.0)) : 0;
}

Point3
geometry_run_at (const Design *design, const Part *run, double station, unsigned *ret_segment)
{
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  unsigned i = 1;

  geometry_run (design, run, points, n);
  while (i + 1 < n && station > distance (points[i - 1], points[i])) {
    station -= distance (points[i - 1], points[i]);
    i++;
  }

  const Point3 a = points[i - 1], b = points[i];
  const double length_m = distance (a, b);
  const double share = length_m > 0 ? CLAMP (station / length_m, 0.0, 1.0) : 0;

  if (ret_segment != NULL)
    *ret_segment = i - 1;
  return (Point3){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y), a.z + share * (b.z - a.z)};
}

/* Levels */

double
geometry_crest (const Design *design, const Part *overflow)
{
  return stand_top (design) + design_number (design, overflow, FIELD_OVERFLOW_CREST);
}

double
geometry_mouth (const Design *design, const Part *drain)
{
  return stand_top (design) + design_number (design, drain, FIELD_DRAIN_MOUTH);
}

double
geometry_drain_end (const Design *design, const Part *drain)
{
  return first_sump_inside (design).origin.z + design_number (design, drain, FIELD_DRAIN_END);
}

double
geometry_outlet (const Design *design, const Part *outlet)
{
  return outlet_point (design, outlet).z;
}

double
geometry_break (const Design *design, const Part *outlet)
{
  return stand_top (design) + design_number (design, outlet, FIELD_OUTLET_BREAK_HEIGHT);
}
