/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Moving a corner of a run without spoiling what is square. */
#include <math.h>

#include "design/edit-private.h"

static double *
axis_of (Point3 *point, unsigned axis)
{
  return axis == 0 ? &point->x : axis == 1 ? &point->y : &point->z;
}

/* True where the piece from a to b lies along an axis, and that is not this one: both ends share this coordinate. */
static bool
shares (Point3 a, Point3 b, unsigned axis)
{
  unsigned differing = 0;

  for (unsigned i = 0; i < 3; i++)
    differing += fabs (*axis_of (&a, i) - *axis_of (&b, i)) > SAME_M;
  return differing <= 1 && fabs (*axis_of (&a, axis) - *axis_of (&b, axis)) <= SAME_M;
}

/* Whether a port holds the end of a run at this coordinate. The lower end of a drain lies under its last corner and is
 * held in height alone. */
static bool
is_held (const Part *run, unsigned n, unsigned i, unsigned axis)
{
  return i == 0 || (i == n - 1 && (part_kind (run) == PART_RETURN || axis == 2));
}

/* Moves the i-th point along an axis with all that share this coordinate with it; false, and nothing moved, where a port
 * is one of them. */
static bool
move_axis (const Part *run, Point3 *points, unsigned n, unsigned i, unsigned axis, double to)
{
  unsigned first = i, last = i;

  while (first > 0 && shares (points[first - 1], points[first], axis))
    first--;
  while (last + 1 < n && shares (points[last], points[last + 1], axis))
    last++;
  for (unsigned k = first; k <= last; k++)
    if (is_held (run, n, k, axis))
      return false;
  for (unsigned k = first; k <= last; k++)
    *axis_of (&points[k], axis) = to;
  return true;
}

/* Writes the points of a run back to its corners. A coordinate that was open stays open where it still follows. */
static bool
put_points (Draft *draft, const Design *design, const Part *run, const Point3 *points, Problem *ret_problem)
{
  for (unsigned i = 0; i < design_n_children (design, part_key (run), PART_CORNER); i++) {
    const Part *corner = design_child (design, part_key (run), PART_CORNER, i);
    Point3 before = points[i], now = points[i + 1];

    for (unsigned axis = 0; axis < 3; axis++) {
      const FieldId field = edit_corner_fields[axis];
      const double value = *axis_of (&now, axis);
      const bool follows = value == *axis_of (&before, axis);

      if ((part_is_given (corner, field) || !follows) &&
          !draft_set_number (draft, part_key (corner), field, value, ret_problem))
        return false;
    }
  }
  return true;
}

Design *
edit_move_corner (const Design *design, const char *corner, Point3 to, Problem *ret_problem)
{
  const Part *part = edit_find (design, corner, PART_CORNER, ret_problem);
  bool moved = false;

  if (part == NULL)
    return NULL;
  const Part *run = design_owner (design, part);
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *before = g_new (Point3, n);
  g_autofree Point3 *points = g_new (Point3, n);
  unsigned at = 1;

  while (design_child (design, part_key (run), PART_CORNER, at - 1) != part)
    at++;
  geometry_run (design, run, before, n);
  geometry_run (design, run, points, n);
  for (unsigned axis = 0; axis < 3; axis++)
    if (fabs (*axis_of (&to, axis) - *axis_of (&before[at], axis)) > 0) {
      /* Which pieces are square is asked of the run as it was, or one axis would free the next. */
      g_autofree Point3 *tried = g_memdup2 (before, n * sizeof *before);

      if (!move_axis (run, tried, n, at, axis, *axis_of (&to, axis)))
        continue;
      for (unsigned i = 0; i < n; i++)
        *axis_of (&points[i], axis) = *axis_of (&tried[i], axis);
      moved = true;
    }
  if (!moved) {
    problem_set (ret_problem, PROBLEM_HELD, corner, PART_CORNER, N_FIELDS, 0);
    return NULL;
  }
  Draft *draft = draft_new (design);

  return edit_finish (draft, put_points (draft, design, run, points, ret_problem), NULL, NULL, ret_problem);
}
