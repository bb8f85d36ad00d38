/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/geometry.h"

#include <math.h>

#include "design/choices.h"
#include "design/geometry-private.h"

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

double
geometry_stand_top (const Design *design)
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
                           design_number (design, tank, FIELD_TANK_Y), geometry_stand_top (design)},
                .size = {design_number (design, tank, FIELD_TANK_LENGTH),
                         design_number (design, tank, FIELD_TANK_WIDTH),
                         design_number (design, tank, FIELD_TANK_HEIGHT)}};
}

Box3
geometry_tank_inside (const Design *design, const Part *tank)
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

Box3
geometry_first_sump_inside (const Design *design)
{
  const Part *sump = design_nth (design, PART_SUMP, 0);

  return sump != NULL ? sump_inside (design, sump) : (Box3){.origin = {0, 0, stand_floor (design)}};
}

/* Inside of the box against the back pane, in the tank (`outer` false) or behind it. The inner box of a pair or
 * of a hang-over siphon box only skims, so it is half as wide as the outer one. */
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

  const Box3 inside = geometry_tank_inside (design, tank);
  const Box3 outside = tank_outside (design, tank);

  box.origin.x = inside.origin.x + design_number (design, overflow, FIELD_OVERFLOW_X);
  box.origin.z = outside.origin.z + design_number (design, overflow, FIELD_OVERFLOW_BOX_RIM) - depth_m;
  if (outer || kind == OVERFLOW_OUTSIDE) {
    box.origin.y = outside.origin.y + outside.size.y + BEHIND_M + wall_m;
    if (kind == OVERFLOW_HANG_OVER)
      box.origin.y += design_number (design, overflow, FIELD_OVERFLOW_TUBE_SIDE) + wall_m;
  } else {
    if (kind == OVERFLOW_PAIR || kind == OVERFLOW_HANG_OVER)
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
  Box3 box = geometry_first_sump_inside (design);
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
  Box3 box = geometry_first_sump_inside (design);

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
  const Box3 sump = geometry_first_sump_inside (design);
  Box3 box = {.size = {design_number (design, device, FIELD_DEVICE_LENGTH),
                       design_number (design, device, FIELD_DEVICE_WIDTH),
                       design_number (design, device, FIELD_DEVICE_HEIGHT)}};

  box.origin.x = (chamber != NULL ? chamber_inside (design, chamber).origin.x : 0) +
                 design_number (design, device, FIELD_DEVICE_X);
  box.origin.y = sump.origin.y + (sump.size.y - box.size.y) / 2;
  box.origin.z = sump.origin.z + design_number (design, device, FIELD_DEVICE_STANDS);
  return box;
}

Box3
geometry_pump_box (const Design *design, const Part *pump)
{
  const Part *chamber = design_owner (design, pump);
  const Box3 sump = geometry_first_sump_inside (design);
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
    return geometry_pump_box (design, part);
  case PART_RESERVOIR:
    return reservoir_box (design, part);
  case PART_DRAIN:
  case PART_RETURN:
    return run_box (design, part);
  case PART_TEE:
    return around (geometry_tee_point (design, part));
  case PART_OUTLET:
    return around (geometry_outlet_point (design, part));
  case PART_CORNER:
    return around (geometry_corner_point (design, part));
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
    return geometry_tank_inside (design, part);
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
    return geometry_stand_top (design);
  case PART_SUMP:
  case PART_CHAMBER:
  case PART_BAFFLE:
  case PART_DEVICE:
  case PART_PUMP:
  case PART_RESERVOIR:
    return geometry_first_sump_inside (design).origin.z;
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
