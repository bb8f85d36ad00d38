/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include "design/choices.h"
#include "design/edit-private.h"
#include "design/geometry.h"
#include "design/well-formed.h"

/* Coordinates nearer than this are the same to a plumber. */
#define SAME_M 0.001

static const FieldId corner_fields[] = {FIELD_CORNER_X, FIELD_CORNER_Y, FIELD_CORNER_Z};
static const FieldId tee_fields[] = {FIELD_TEE_X, FIELD_TEE_Y, FIELD_TEE_Z};

static double
coordinate (Point3 point, unsigned axis)
{
  return axis == 0 ? point.x : axis == 1 ? point.y : point.z;
}

static double
distance (Point3 a, Point3 b)
{
  return sqrt ((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y) + (a.z - b.z) * (a.z - b.z));
}

static const Part *
find_run (const Design *design, const char *key, Problem *ret_problem)
{
  const Part *run = key != NULL ? design_find (design, key) : NULL;

  if (run != NULL && (part_kind (run) == PART_DRAIN || part_kind (run) == PART_RETURN))
    return run;
  problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_RETURN, N_FIELDS, 0);
  return NULL;
}

Design *
edit_add_fitting (const Design *design, const char *run, const char *type, double station_m, char *ret_key,
                  Problem *ret_problem)
{
  const char *key = NULL;
  Draft *draft;
  bool ok;

  if (find_run (design, run, ret_problem) == NULL)
    return NULL;
  draft = draft_new (design);
  ok = draft_add (draft, PART_FITTING, NULL, NULL, run, &key, ret_problem) &&
       draft_set_text (draft, key, FIELD_FITTING_TYPE, type, ret_problem) &&
       draft_set_number (draft, key, FIELD_FITTING_STATION, station_m, ret_problem);
  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

/* Sets those coordinates of a corner or tee in which `point` differs from `before`; all of them where it is NULL. */
static bool
set_point (Draft *draft, const char *key, const FieldId fields[3], Point3 point, const Point3 *before,
           Problem *ret_problem)
{
  for (unsigned axis = 0; axis < 3; axis++) {
    if (before != NULL && fabs (coordinate (point, axis) - coordinate (*before, axis)) < 1e-9)
      continue;
    if (!draft_set_number (draft, key, fields[axis], coordinate (point, axis), ret_problem))
      return false;
  }
  return true;
}

Design *
edit_add_corner (const Design *design, const char *run, double station_m, char *ret_key, Problem *ret_problem)
{
  const Part *part = find_run (design, run, ret_problem);
  const char *key = NULL;
  Draft *draft;
  bool ok;

  if (part == NULL)
    return NULL;
  const unsigned n = geometry_run (design, part, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  unsigned segment = 0;
  const Point3 point = geometry_run_at (design, part, station_m, &segment);

  geometry_run (design, part, points, n);
  draft = draft_new (design);
  ok = draft_add (draft, PART_CORNER, NULL, NULL, run, &key, ret_problem) &&
       set_point (draft, key, corner_fields, point, &points[segment], ret_problem);
  if (ok && segment + 2 < n)
    ok = draft_move (draft, key, edit_place (design, design_child (design, run, PART_CORNER, segment)),
                     ret_problem);
  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

/* Gives a corner or tee every coordinate that it takes from the point before it. */
static bool
pin (Draft *draft, const Part *part, Point3 point, Problem *ret_problem)
{
  const FieldId *fields = part_kind (part) == PART_TEE ? tee_fields : corner_fields;

  return set_point (draft, part_key (part), fields, point, NULL, ret_problem);
}

Design *
edit_remove_corner (const Design *design, const Part *corner, Problem *ret_problem)
{
  const Part *run = design_owner (design, corner);
  const unsigned n = design_n_children (design, part_key (run), PART_CORNER);
  const Part *next = NULL;
  Draft *draft = draft_new (design);
  bool ok = draft_remove (draft, part_key (corner), ret_problem);

  for (unsigned i = 0; i + 1 < n; i++)
    if (design_child (design, part_key (run), PART_CORNER, i) == corner)
      next = design_child (design, part_key (run), PART_CORNER, i + 1);
  if (next == NULL && part_kind (run) == PART_RETURN)
    next = design_target (design, run, FIELD_RETURN_TO);
  if (ok && next != NULL && part_kind (next) != PART_OUTLET)
    ok = pin (draft, next, geometry_outside (design, next).origin, ret_problem);
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

/* Outlets and tees. */

/* Copies corners (from the n-th on) and fittings (from a station on) of one run to another in the draft; a corner's
 * unknown coordinates are given, as the point before it may be another one there. */
static bool
copy_run (Draft *draft, const Design *design, const Part *from, unsigned first_corner, double from_station_m,
          const char *to, double add_m, Problem *ret_problem)
{
  const char *owner = part_key (from), *key = NULL;

  for (unsigned i = first_corner; i < design_n_children (design, owner, PART_CORNER); i++) {
    const Part *corner = design_child (design, owner, PART_CORNER, i);

    if (!draft_add (draft, PART_CORNER, NULL, part_label (corner), to, &key, ret_problem) ||
        !edit_copy_fields (draft, corner, key, ret_problem) ||
        !set_point (draft, key, corner_fields, geometry_outside (design, corner).origin, NULL, ret_problem))
      return false;
  }
  for (unsigned i = 0; i < design_n_children (design, owner, PART_FITTING); i++) {
    const Part *fitting = design_child (design, owner, PART_FITTING, i);
    const double station_m = design_number (design, fitting, FIELD_FITTING_STATION);

    if (station_m < from_station_m)
      continue;
    if (!draft_add (draft, PART_FITTING, NULL, part_label (fitting), to, &key, ret_problem) ||
        !edit_copy_fields (draft, fitting, key, ret_problem) ||
        !draft_set_number (draft, key, FIELD_FITTING_STATION, station_m - from_station_m + add_m,
                           ret_problem))
      return false;
  }
  return true;
}

/* Removes corners (from the n-th on) and fittings (from a station on) of a run. */
static bool
cut_run (Draft *draft, const Design *design, const Part *run, unsigned first_corner, double station_m,
         Problem *ret_problem)
{
  const char *owner = part_key (run);

  for (unsigned i = first_corner; i < design_n_children (design, owner, PART_CORNER); i++)
    if (!draft_remove (draft, part_key (design_child (design, owner, PART_CORNER, i)), ret_problem))
      return false;
  for (unsigned i = 0; i < design_n_children (design, owner, PART_FITTING); i++) {
    const Part *fitting = design_child (design, owner, PART_FITTING, i);

    if (design_number (design, fitting, FIELD_FITTING_STATION) >= station_m &&
        !draft_remove (draft, part_key (fitting), ret_problem))
      return false;
  }
  return true;
}

/* Where a tee goes into a run: its point, its station, and how many corners stay before it (the rest, but for a corner
 * that it replaces, lie behind). */
typedef struct {
  Point3 point;
  double station_m;
  unsigned corners_before, first_behind;
} Cut;

static Cut
place_tee (const Point3 *points, unsigned n)
{
  Cut cut = {.corners_before = n - 2, .first_behind = n - 2};
  unsigned highest = 0;
  double before_last_m = 0;

  for (unsigned i = 1; i + 1 < n; i++) {
    before_last_m += distance (points[i - 1], points[i]);
    if (highest == 0 || points[i].z > points[highest].z + SAME_M)
      highest = i;
  }
  if (highest == 0) {
    const Point3 a = points[n - 2], b = points[n - 1];

    cut.point = (Point3){(a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2};
    cut.station_m = before_last_m + distance (a, b) / 2;
    return cut;
  }
  cut.point = points[highest];
  for (unsigned i = 1; i <= highest; i++)
    cut.station_m += distance (points[i - 1], points[i]);
  cut.corners_before = highest - 1;
  cut.first_behind = highest;
  return cut;
}

/* Middle of the widest gap along the front between the outlets of a tank and its end panes, from its inside. */
static double
widest_gap (const Design *design, const Part *tank)
{
  const double length_m = geometry_inside (design, tank).size.x;
  const unsigned n = design_n_children (design, part_key (tank), PART_OUTLET);
  double best_m = 0, middle_m = length_m / 2;

  for (unsigned i = 0; i <= n; i++) {
    const double from =
        i < n ? design_number (design, design_child (design, part_key (tank), PART_OUTLET, i), FIELD_OUTLET_X)
              : 0;
    double to = length_m;

    for (unsigned j = 0; j < n; j++) {
      const double x =
          design_number (design, design_child (design, part_key (tank), PART_OUTLET, j), FIELD_OUTLET_X);

      if (x > from + SAME_M && x < to)
        to = x;
    }
    if (to - from > best_m) {
      best_m = to - from;
      middle_m = (from + to) / 2;
    }
  }
  return middle_m;
}

/* The outlet that a run leads to, through tees if need be. */
static const Part *
outlet_of (const Design *design, const Part *run)
{
  const Part *target = design_target (design, run, FIELD_RETURN_TO);

  for (unsigned step = 0; target != NULL && part_kind (target) == PART_TEE && step < 64; step++) {
    const Part *next = design_child (design, part_key (target), PART_RETURN, 0);

    target = next != NULL ? design_target (design, next, FIELD_RETURN_TO) : NULL;
  }
  return target != NULL && part_kind (target) == PART_OUTLET ? target : NULL;
}

/* The pipe from the tee to the new outlet: first along the front, then to the back or front, then to its height. */
static bool
lay_branch (Draft *draft, const char *run, Point3 tee, Point3 outlet, Problem *ret_problem)
{
  const char *key = NULL;

  if (fabs (outlet.x - tee.x) > SAME_M &&
      (!draft_add (draft, PART_CORNER, NULL, NULL, run, &key, ret_problem) ||
       !draft_set_number (draft, key, FIELD_CORNER_X, outlet.x, ret_problem)))
    return false;
  if (fabs (outlet.y - tee.y) > SAME_M && fabs (outlet.z - tee.z) > SAME_M &&
      (!draft_add (draft, PART_CORNER, NULL, NULL, run, &key, ret_problem) ||
       !draft_set_number (draft, key, FIELD_CORNER_Y, outlet.y, ret_problem)))
    return false;
  return true;
}

Design *
edit_add_outlet (const Design *design, const char *run, char *ret_key, Problem *ret_problem)
{
  const Part *part = edit_find (design, run, PART_RETURN, ret_problem);
  const Part *target = part != NULL ? design_target (design, part, FIELD_RETURN_TO) : NULL;
  const Part *model = part != NULL ? outlet_of (design, part) : NULL;
  const char *tee = NULL, *outlet = NULL, *behind = NULL, *branch = NULL;
  Draft *draft;
  bool ok;

  if (part == NULL)
    return NULL;
  if (target == NULL || model == NULL) {
    problem_set (ret_problem, PROBLEM_BAD_REFERENCE, run, PART_RETURN, FIELD_RETURN_TO, 0);
    return NULL;
  }
  const Part *tank = design_owner (design, model);
  const unsigned n = geometry_run (design, part, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);

  geometry_run (design, part, points, n);
  const Cut cut = place_tee (points, n);
  const double x_m = widest_gap (design, tank);
  Point3 mouth = geometry_outside (design, model).origin;

  mouth.x = geometry_inside (design, tank).origin.x + x_m;
  draft = draft_new (design);
  ok = draft_add (draft, PART_TEE, NULL, NULL, NULL, &tee, ret_problem) &&
       set_point (draft, tee, tee_fields, cut.point, NULL, ret_problem) &&
       draft_add (draft, PART_OUTLET, NULL, NULL, part_key (tank), &outlet, ret_problem) &&
       edit_copy_fields (draft, model, outlet, ret_problem) &&
       draft_set_number (draft, outlet, FIELD_OUTLET_X, x_m, ret_problem) &&
       draft_add (draft, PART_RETURN, NULL, NULL, tee, &behind, ret_problem) &&
       edit_copy_fields (draft, part, behind, ret_problem) &&
       draft_set_text (draft, behind, FIELD_RETURN_TO, part_key (target), ret_problem) &&
       copy_run (draft, design, part, cut.first_behind, cut.station_m, behind, 0, ret_problem) &&
       draft_add (draft, PART_RETURN, NULL, NULL, tee, &branch, ret_problem) &&
       edit_copy_fields (draft, part, branch, ret_problem) &&
       draft_set_text (draft, branch, FIELD_RETURN_TO, outlet, ret_problem) &&
       lay_branch (draft, branch, cut.point, mouth, ret_problem) &&
       cut_run (draft, design, part, cut.corners_before, cut.station_m, ret_problem) &&
       draft_set_text (draft, run, FIELD_RETURN_TO, tee, ret_problem);
  return edit_finish (draft, ok, outlet, ret_key, ret_problem);
}

/* The run that ends at an outlet or tee, and how many do. */
static const Part *
run_to (const Design *design, const Part *end, unsigned *ret_count)
{
  const Part *found = NULL;

  *ret_count = 0;
  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++) {
    const Part *run = design_nth (design, PART_RETURN, i);

    if (design_target (design, run, FIELD_RETURN_TO) == end) {
      found = found != NULL ? found : run;
      ++*ret_count;
    }
  }
  return found;
}

/* Takes a tee that feeds one run besides `gone` out of the pipe: that run's way becomes the end of the feeding one. */
static bool
join_at_tee (Draft *draft, const Design *design, const Part *tee, const Part *gone, Problem *ret_problem)
{
  const char *key = part_key (tee), *corner = NULL;
  const Part *kept = design_child (design, key, PART_RETURN, 0);
  unsigned feeds = 0;
  const Part *feed = run_to (design, tee, &feeds);
  const Part *target;
  double length_m;

  if (kept == gone)
    kept = design_child (design, key, PART_RETURN, 1);
  if (design_n_children (design, key, PART_RETURN) != 2 || feeds != 1)
    return true; /* still a tee, or fed from several sides */
  target = design_target (design, kept, FIELD_RETURN_TO);
  length_m = geometry_run_length (design, feed);
  return target != NULL &&
         draft_add (draft, PART_CORNER, NULL, NULL, part_key (feed), &corner, ret_problem) &&
         set_point (draft, corner, corner_fields, geometry_outside (design, tee).origin, NULL, ret_problem) &&
         copy_run (draft, design, kept, 0, 0, part_key (feed), length_m, ret_problem) &&
         draft_set_text (draft, part_key (feed), FIELD_RETURN_TO, part_key (target), ret_problem) &&
         draft_remove (draft, key, ret_problem);
}

Design *
edit_remove_outlet (const Design *design, const Part *outlet, Problem *ret_problem)
{
  unsigned feeds = 0;
  const Part *run = run_to (design, outlet, &feeds);
  const Part *from = run != NULL ? design_owner (design, run) : NULL;
  Draft *draft;
  bool ok = true;

  if (feeds > 1 || (from != NULL && part_kind (from) != PART_TEE)) {
    /* The pump behind it would have nowhere to go. */
    problem_set (ret_problem, PROBLEM_MISSING_PART, part_key (outlet), PART_OUTLET, N_FIELDS, 0);
    return NULL;
  }
  if (from != NULL && design_n_children (design, part_key (from), PART_RETURN) < 2) {
    problem_set (ret_problem, PROBLEM_HAS_CHILDREN, part_key (from), PART_TEE, N_FIELDS, 0);
    return NULL;
  }
  draft = draft_new (design);
  if (from != NULL)
    ok = draft_remove (draft, part_key (run), ret_problem) &&
         join_at_tee (draft, design, from, run, ret_problem);
  ok = ok && draft_remove (draft, part_key (outlet), ret_problem);
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}
