/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The ways across of drains, which fall a little and so lie along no axis, stay along one as they are seen from above. */
#include <math.h>

#include "design/edit-private.h"

#define MOST_FALL  0.5  /* of a way across, or for short ones */
#define SHORT_FALL 0.01 /* m */
#define MOST_SKEW  0.05 /* and how far off its axis it may be */
#define LEAST_DROP 0.02 /* m, left below the way across */

static double *
axis_of (Point3 *point, unsigned axis)
{
  return axis == 0 ? &point->x : &point->y;
}

static double
step (Point3 a, Point3 b, unsigned axis)
{
  return *axis_of (&b, axis) - *axis_of (&a, axis);
}

/* Whether a piece goes along x (0) or y (1), seen from above. */
static bool
goes_along (Point3 a, Point3 b, unsigned axis)
{
  const double along = fabs (step (a, b, axis));

  return along > SQUARE_M && fabs (b.z - a.z) <= fmax (SHORT_FALL, MOST_FALL * along) &&
         fabs (step (a, b, 1 - axis)) <= fmax (SQUARE_M, MOST_SKEW * along);
}

/* Moves a corner of a run along an axis by so much. */
static bool
shift_corner (Draft *draft, const Design *design, const char *run, unsigned number, Point3 point,
              unsigned axis, double by_m)
{
  const Part *corner = design_child (design, run, PART_CORNER, number);

  return draft_set_number (draft, part_key (corner), edit_corner_fields[axis],
                           round ((*axis_of (&point, axis) + by_m) * 1e7) / 1e7, NULL);
}

/* One more corner before the lower end (point i) of a way across along `axis`: from there the water goes to the side. */
static bool
turn_aside (Draft *draft, const Design *design, const char *run, Point3 was_from, Point3 was_to,
            const Point3 *now, unsigned n, unsigned i, unsigned axis, double aside_m)
{
  const double slope = (was_from.z - was_to.z) / fabs (step (was_from, was_to, axis));
  const double along_m = fabs (step (now[i - 1], now[i], axis)), whole_m = along_m + fabs (aside_m);
  const Part *lower = design_child (design, run, PART_CORNER, i - 1);
  double low = now[i - 1].z - slope * whole_m, station_m = 0;
  Point3 turn = now[i];

  if (low < now[n - 1].z + LEAST_DROP)
    low = now[i].z;
  turn.z = now[i - 1].z + (low - now[i - 1].z) * along_m / whole_m;
  *axis_of (&turn, 1 - axis) -= aside_m;
  for (unsigned k = 1; k <= i; k++)
    station_m += edit_distance (now[k - 1], now[k]);
  return draft_set_number (draft, part_key (lower), FIELD_CORNER_Z, round (low * 1e7) / 1e7, NULL) &&
         draft_set_number (draft, part_key (lower), edit_corner_fields[1 - axis],
                           *axis_of (&(Point3){now[i].x, now[i].y, 0}, 1 - axis), NULL) &&
         draft_set_number (draft, part_key (lower), edit_corner_fields[axis],
                           *axis_of (&(Point3){now[i].x, now[i].y, 0}, axis), NULL) &&
         edit_add_corner_at (draft, design, run, i - 1, turn) &&
         edit_shift_fittings (draft, design, design_find (design, run), station_m,
                              whole_m - edit_distance (now[i - 1], now[i]));
}

Design *
edit_square_falls (const Design *before, Design *design, const char *drain)
{
  const Part *was_run = design_find (before, drain), *run = design_find (design, drain);
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *was = g_new (Point3, n);
  g_autofree Point3 *now = g_new (Point3, n);
  g_autoptr (Draft) draft = draft_new (design);
  bool changed = false, good = true, turned = false;
  Design *square;

  if (geometry_run (before, was_run, was, n) != n)
    return design;
  geometry_run (design, run, now, n);
  for (unsigned i = 2; i + 1 < n && good && !turned; i++) {
    const unsigned axis = goes_along (was[i - 1], was[i], 0) ? 0 : 1;
    const double aside_m = step (now[i - 1], now[i], 1 - axis) - step (was[i - 1], was[i], 1 - axis);

    if (!goes_along (was[i - 1], was[i], axis) || fabs (aside_m) <= SQUARE_M)
      continue;
    changed = true;
    if (i + 2 < n && goes_along (was[i], was[i + 1], 1 - axis)) {
      good = shift_corner (draft, design, drain, i - 1, now[i], 1 - axis, -aside_m);
    } else if (i >= 3 && goes_along (was[i - 2], was[i - 1], 1 - axis)) {
      good = shift_corner (draft, design, drain, i - 2, now[i - 1], 1 - axis, aside_m);
    } else {
      good = turn_aside (draft, design, drain, was[i - 1], was[i], now, n, i, axis, aside_m);
      turned = true;
    }
  }
  square = changed && good ? draft_commit (draft, NULL) : NULL;
  if (square == NULL)
    return design;
  design_unref (design);
  return square;
}
