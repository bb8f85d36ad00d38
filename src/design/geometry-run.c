/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Points, runs and levels of geometry.h. */
#include "design/geometry.h"

#include <math.h>

#include "design/geometry-private.h"

static Point3 run_start (const Design *design, const Part *run);

Point3
geometry_outlet_point (const Design *design, const Part *outlet)
{
  const Part *tank = design_owner (design, outlet);
  const Box3 inside = tank != NULL ? geometry_tank_inside (design, tank) : (Box3){0};

  return (Point3){inside.origin.x + design_number (design, outlet, FIELD_OUTLET_X),
                  inside.origin.y + design_number (design, outlet, FIELD_OUTLET_Y),
                  geometry_stand_top (design) + design_number (design, outlet, FIELD_OUTLET_HEIGHT)};
}

static Point3
pump_port (const Design *design, const Part *pump)
{
  const Box3 box = geometry_pump_box (design, pump);

  return (Point3){box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2,
                  geometry_first_sump_inside (design).origin.z +
                      design_number (design, pump, FIELD_PUMP_OUTLET_HEIGHT)};
}

/* Where a return run meets a device: the middle of its top. */
static Point3
device_port (const Design *design, const Part *device)
{
  const Box3 box = geometry_outside (design, device);

  return (Point3){box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2, box.origin.z + box.size.z};
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

Point3
geometry_corner_point (const Design *design, const Part *corner)
{
  return next_corner (design, corner, geometry_before (design, corner));
}

Point3
geometry_tee_point (const Design *design, const Part *tee)
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
  return part_kind (owner) == PART_TEE ? geometry_tee_point (design, owner) : pump_port (design, owner);
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
  if (part_kind (target) == PART_DEVICE)
    return device_port (design, target);
  return part_kind (target) == PART_TEE ? geometry_tee_point (design, target)
                                        : geometry_outlet_point (design, target);
}

/* Runs */

unsigned
geometry_run (const Design *design, const Part *run, Point3 *points, unsigned max)
{
  const unsigned corners = design_n_children (design, part_key (run), PART_CORNER);
  Point3 point;

  if (max == 0)
    return corners + 2;
  point = run_start (design, run);
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
geometry_along (const Point3 *points, unsigned n, double station, unsigned *ret_segment)
{
  unsigned i = 1;

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

Point3
geometry_run_at (const Design *design, const Part *run, double station, unsigned *ret_segment)
{
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);

  geometry_run (design, run, points, n);
  return geometry_along (points, n, station, ret_segment);
}

/* Levels */

double
geometry_crest (const Design *design, const Part *overflow)
{
  return geometry_stand_top (design) + design_number (design, overflow, FIELD_OVERFLOW_CREST);
}

double
geometry_mouth (const Design *design, const Part *drain)
{
  return geometry_stand_top (design) + design_number (design, drain, FIELD_DRAIN_MOUTH);
}

double
geometry_drain_end (const Design *design, const Part *drain)
{
  return geometry_first_sump_inside (design).origin.z + design_number (design, drain, FIELD_DRAIN_END);
}

double
geometry_outlet (const Design *design, const Part *outlet)
{
  return geometry_outlet_point (design, outlet).z;
}

double
geometry_break (const Design *design, const Part *outlet)
{
  return geometry_stand_top (design) + design_number (design, outlet, FIELD_OUTLET_BREAK_HEIGHT);
}
