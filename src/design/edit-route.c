/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Moving a corner or the end of a run without spoiling what is square. */
#include <math.h>

#include "design/edit-private.h"

#define STRAIGHT_RAD 0.002

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
    differing += fabs (*axis_of (&a, i) - *axis_of (&b, i)) > SQUARE_M;
  return differing <= 1 && fabs (*axis_of (&a, axis) - *axis_of (&b, axis)) <= SQUARE_M;
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

/* Ends that move */

/* How far both ends of a run have moved along an axis. The lower end of a drain lies under its last corner, which belongs
 * to the sump. */
static void
ends_moved (const Design *before, const Design *after, const Part *run, const Point3 *was, const Point3 *now,
            unsigned n, unsigned axis, double moved_m[2])
{
  const Part *sump = design_nth (before, PART_SUMP, 0), *sump_now = design_nth (after, PART_SUMP, 0);
  Point3 from = was[n - 1], to = now[n - 1], first = was[0], first_now = now[0];

  if (part_kind (run) == PART_DRAIN && axis != 2 && sump != NULL && sump_now != NULL) {
    from = geometry_inside (before, sump).origin;
    to = geometry_inside (after, sump_now).origin;
  }
  moved_m[0] = *axis_of (&first_now, axis) - *axis_of (&first, axis);
  moved_m[1] = *axis_of (&to, axis) - *axis_of (&from, axis);
}

/* Where the points of a run go along an axis: those that share the coordinate with an end go with it. Returns true where
 * the last point goes with the first. */
static bool
carry_axis (const Part *run, const Point3 *was, Point3 *points, unsigned n, unsigned axis,
            const double moved_m[2])
{
  const bool drops = part_kind (run) == PART_DRAIN && axis != 2;
  const unsigned last_corner = drops ? n - 2 : n - 1;
  unsigned head = 0, tail = last_corner;

  while (head < last_corner && shares (was[head], was[head + 1], axis))
    head++;
  while (tail > 0 && shares (was[tail - 1], was[tail], axis))
    tail--;
  for (unsigned i = 0; i <= head; i++)
    *axis_of (&points[i], axis) += moved_m[0];
  if (head < tail)
    for (unsigned i = tail; i < n; i++)
      *axis_of (&points[i], axis) += moved_m[1];
  return head == last_corner;
}

/* Writes given coordinates that differ. An open one follows the point before it. */
static bool
put_given (Draft *draft, const Part *part, const FieldId fields[3], Point3 now, bool *changed)
{
  for (unsigned axis = 0; axis < 3; axis++) {
    const FieldValue given = part_value (part, fields[axis]);
    const double value = round (*axis_of (&now, axis) * 1e7) / 1e7;

    if (!given.given || fabs (given.number - value) < 1e-9)
      continue;
    if (!draft_set_number (draft, part_key (part), fields[axis], value, NULL))
      return false;
    *changed = true;
  }
  return true;
}

/* Jogs: both ends of a run that lies in one plane hold its coordinate across, and have moved apart. */

typedef struct {
  unsigned axis;
  double head, tail; /* the coordinate of both ends now */
} Jog;

/* The point at the end of whose height the pipe goes across: the first of its highest corners. */
static unsigned
jog_at (const Point3 *points, unsigned n)
{
  unsigned at = 1;

  for (unsigned i = 2; i + 1 < n; i++)
    if (points[i].z > points[at].z + SQUARE_M)
      at = i;
  return at;
}

/* What lies behind the jog keeps its distance from the end of the run. */
bool
edit_shift_fittings (Draft *draft, const Design *design, const Part *run, double from_m, double by_m)
{
  for (unsigned i = 0; i < design_n_children (design, part_key (run), PART_FITTING); i++) {
    const Part *fitting = design_child (design, part_key (run), PART_FITTING, i);
    const double station_m = design_number (design, fitting, FIELD_FITTING_STATION);

    if (station_m > from_m &&
        !draft_set_number (draft, part_key (fitting), FIELD_FITTING_STATION, station_m + by_m, NULL))
      return false;
  }
  return true;
}

/* Adds a corner at a point before the run's corner of that number. */
bool
edit_add_corner_at (Draft *draft, const Design *design, const char *run, unsigned number, Point3 point)
{
  const char *key = NULL;

  return draft_add (draft, PART_CORNER, NULL, NULL, run, &key, NULL) &&
         edit_set_point (draft, key, edit_corner_fields, point, NULL, NULL) &&
         (number >= design_n_children (design, run, PART_CORNER) ||
          draft_move (draft, key, edit_place (design, design_child (design, run, PART_CORNER, number)),
                      NULL));
}

/* The run with a piece across at its highest corner, or in the middle of its only piece. NULL where that is no design. */
static Design *
jog_run (const Design *design, const Part *run, Jog jog)
{
  const char *key = part_key (run);
  const unsigned n = geometry_run (design, run, NULL, 0);
  const double across_m = fabs (jog.tail - jog.head);
  g_autofree Point3 *points = g_new (Point3, n);
  unsigned at = 0;
  double station_m = 0;
  Point3 corner;
  Draft *draft = draft_new (design);
  bool ok = true;

  geometry_run (design, run, points, n);
  for (unsigned i = 0; i < n; i++)
    *axis_of (&points[i], jog.axis) = jog.head;
  if (n == 2) {
    corner = (Point3){(points[0].x + points[1].x) / 2, (points[0].y + points[1].y) / 2,
                      (points[0].z + points[1].z) / 2};
    ok = edit_add_corner_at (draft, design, key, 0, corner);
    station_m = edit_distance (points[0], corner);
  } else {
    at = jog_at (points, n);
    corner = points[at];
  }
  for (unsigned i = 1; i + 1 < n && ok; i++) {
    station_m += i <= at ? edit_distance (points[i - 1], points[i]) : 0;
    ok = draft_set_number (draft, part_key (design_child (design, key, PART_CORNER, i - 1)),
                           edit_corner_fields[jog.axis], i <= at ? jog.head : jog.tail, NULL);
  }
  *axis_of (&corner, jog.axis) = jog.tail;
  ok = ok && edit_add_corner_at (draft, design, key, at, corner) &&
       edit_shift_fittings (draft, design, run, station_m, across_m);
  return edit_finish (draft, ok, NULL, NULL, NULL);
}

/* A piece across that has come to nothing goes, with a corner that is none then. Takes `design` over. */
static Design *
close_jogs (const Design *before, Design *design, const char *key)
{
  const Part *run = design_find (design, key);
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *was = g_new (Point3, n);
  g_autofree Point3 *now = g_new (Point3, n);

  if (geometry_run (before, design_find (before, key), was, n) != n)
    return design;
  geometry_run (design, run, now, n);
  for (unsigned i = 1; i + 2 < n; i++) {
    g_autoptr (Design) one = NULL;
    Design *both;

    /* Where a drain goes across it falls as well. */
    if (part_kind (run) == PART_DRAIN)
      was[i].z = was[i + 1].z = now[i].z = now[i + 1].z;
    if (edit_distance (now[i], now[i + 1]) > SQUARE_M || edit_distance (was[i], was[i + 1]) <= SQUARE_M)
      continue;
    one = edit_remove_corner (design, design_child (design, key, PART_CORNER, i), NULL);
    if (one == NULL)
      return design;
    design_unref (design);
    now[i + 1] = now[i + 2];
    if (geometry_bend (now, n, i) > 1e-6)
      return g_steal_pointer (&one);
    both = edit_remove_corner (one, design_child (one, key, PART_CORNER, i - 1), NULL);
    return both != NULL ? both : g_steal_pointer (&one);
  }
  return design;
}

/* The design with one run carried along, or the same one. Takes `design` over. */
static Design *
carry_run (const Design *before, Design *design, const Part *was_run)
{
  Jog jogs[3];
  unsigned n_jogs = 0;
  const Part *run = design_find (design, part_key (was_run));
  const unsigned n = geometry_run (before, was_run, NULL, 0);
  const Part *end =
      run != NULL && part_kind (run) == PART_RETURN ? design_target (design, run, FIELD_RETURN_TO) : NULL;
  bool changed = false, good = true;

  if (run == NULL || part_kind (run) != part_kind (was_run) || geometry_run (design, run, NULL, 0) != n)
    return design;
  g_autofree Point3 *was = g_new (Point3, n);
  g_autofree Point3 *now = g_new (Point3, n);
  g_autofree Point3 *points = g_new (Point3, n);

  geometry_run (before, was_run, was, n);
  geometry_run (before, was_run, points, n);
  geometry_run (design, run, now, n);
  for (unsigned axis = 0; axis < 3; axis++) {
    double moved_m[2];

    ends_moved (before, design, was_run, was, now, n, axis, moved_m);
    if (end != NULL && part_kind (end) == PART_TEE)
      moved_m[1] = 0;
    if (carry_axis (was_run, was, points, n, axis, moved_m) && end != NULL && part_kind (end) != PART_TEE &&
        fabs (moved_m[0] - moved_m[1]) > SQUARE_M)
      jogs[n_jogs++] = (Jog){axis, *axis_of (&now[0], axis), *axis_of (&now[n - 1], axis)};
  }
  Draft *draft = draft_new (design);

  for (unsigned i = 1; i + 1 < n && good; i++)
    good = put_given (draft, design_child (design, part_key (run), PART_CORNER, i - 1), edit_corner_fields,
                      points[i], &changed);
  if (good && end != NULL && part_kind (end) == PART_TEE)
    good = put_given (draft, end, edit_tee_fields, points[n - 1], &changed);

  Design *carried = good && changed ? draft_commit (draft, NULL) : NULL;

  draft_free (draft);
  if (carried != NULL) {
    design_unref (design);
    design = carried;
  }
  for (unsigned i = 0; i < n_jogs; i++) {
    Design *jogged = jog_run (design, design_find (design, part_key (was_run)), jogs[i]);

    if (jogged == NULL)
      continue;
    design_unref (design);
    design = jogged;
  }
  if (part_kind (was_run) == PART_DRAIN)
    design = edit_square_falls (before, design, part_key (was_run));
  return close_jogs (before, design, part_key (was_run));
}

Design *
edit_carry_corners (const Design *before, Design *after)
{
  Design *design = design_ref (after);

  /* A run that leaves a tee is drawn, and stands in the design, after the one that feeds it. */
  for (unsigned i = 0; i < design_count (before, PART_DRAIN); i++)
    design = carry_run (before, design, design_nth (before, PART_DRAIN, i));
  for (unsigned i = 0; i < design_count (before, PART_RETURN); i++)
    design = carry_run (before, design, design_nth (before, PART_RETURN, i));
  return design;
}

/* Corners that turn nothing */

static bool
is_straight (const Design *design, const Part *run, unsigned corner)
{
  const unsigned n = geometry_run (design, run, NULL, 0), i = corner + 1;
  g_autofree Point3 *points = g_new (Point3, n);

  geometry_run (design, run, points, n);
  return edit_distance (points[i - 1], points[i]) < SQUARE_M ||
         edit_distance (points[i], points[i + 1]) < SQUARE_M || geometry_bend (points, n, i) < STRAIGHT_RAD;
}

/* Whether a corner turned the pipe before. */
static bool
was_bent (const Design *before, const char *key)
{
  const Part *corner = design_find (before, key);
  const Part *run = corner != NULL ? design_owner (before, corner) : NULL;

  for (unsigned i = 0; run != NULL && i < design_n_children (before, part_key (run), PART_CORNER); i++)
    if (design_child (before, part_key (run), PART_CORNER, i) == corner)
      return !is_straight (before, run, i);
  return false;
}

Design *
edit_drop_straight (const Design *before, Design *after, const char *run, const char *made)
{
  Design *design = design_ref (after);

  for (unsigned i = design_n_children (design, run, PART_CORNER); i-- > 0;) {
    const Part *corner = design_child (design, run, PART_CORNER, i);
    const bool is_made = made != NULL && g_str_equal (part_key (corner), made);
    Design *next;

    if (!is_straight (design, design_find (design, run), i) ||
        !(is_made || was_bent (before, part_key (corner))))
      continue;
    next = edit_remove_corner (design, corner, NULL);
    if (next == NULL)
      continue;
    design_unref (design);
    design = next;
  }
  return design;
}
