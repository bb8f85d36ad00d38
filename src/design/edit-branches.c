/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Tees and outlets: where a return run branches, and what becomes of the pipe when a branch goes. */
#include <math.h>

#include "design/choices.h"
#include "design/edit-private.h"
#include "design/well-formed.h"

/* Least distance of a tee from either end of its run. */
#define TEE_FROM_END_M 0.03

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
    before_last_m += edit_distance (points[i - 1], points[i]);
    if (highest == 0 || points[i].z > points[highest].z + SAME_M)
      highest = i;
  }
  if (highest == 0) {
    const Point3 a = points[n - 2], b = points[n - 1];

    cut.point = (Point3){(a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2};
    cut.station_m = before_last_m + edit_distance (a, b) / 2;
    return cut;
  }
  cut.point = points[highest];
  for (unsigned i = 1; i <= highest; i++)
    cut.station_m += edit_distance (points[i - 1], points[i]);
  cut.corners_before = highest - 1;
  cut.first_behind = highest;
  return cut;
}

/* The same at a station of one's own. */
static Cut
cut_at (const Point3 *points, unsigned n, double station_m)
{
  double before_m = 0, length_m = 0;
  unsigned i = 1;

  for (unsigned k = 1; k < n; k++)
    length_m += edit_distance (points[k - 1], points[k]);
  const double margin_m = fmin (TEE_FROM_END_M, length_m / 3);
  const double at_m = CLAMP (station_m, margin_m, length_m - margin_m);

  while (i + 1 < n && before_m + edit_distance (points[i - 1], points[i]) < at_m) {
    before_m += edit_distance (points[i - 1], points[i]);
    i++;
  }

  const Point3 a = points[i - 1], b = points[i];
  const double piece_m = edit_distance (a, b);
  const double share = piece_m > 0 ? CLAMP ((at_m - before_m) / piece_m, 0.0, 1.0) : 0;
  Cut cut = {.point = {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y), a.z + share * (b.z - a.z)},
             .station_m = at_m,
             .corners_before = i - 1,
             .first_behind = i - 1};

  if (i > 1 && share * piece_m < SAME_M)
    cut.corners_before--; /* the tee takes the place of the corner before */
  else if (i + 1 < n && (1 - share) * piece_m < SAME_M)
    cut.first_behind++;
  return cut;
}

bool
edit_split_run (Draft *draft, const Design *design, const Part *run, double station_m, Point3 *ret_point,
                const char **ret_tee, Problem *ret_problem)
{
  const Part *target = design_target (design, run, FIELD_RETURN_TO);
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  const char *behind = NULL;

  geometry_run (design, run, points, n);
  const Cut cut = isnan (station_m) ? place_tee (points, n) : cut_at (points, n, station_m);

  *ret_point = cut.point;
  if (target == NULL)
    return problem_set (ret_problem, PROBLEM_BAD_REFERENCE, part_key (run), PART_RETURN, FIELD_RETURN_TO, 0);
  return draft_add (draft, PART_TEE, NULL, NULL, NULL, ret_tee, ret_problem) &&
         edit_set_point (draft, *ret_tee, edit_tee_fields, cut.point, NULL, ret_problem) &&
         draft_add (draft, PART_RETURN, NULL, NULL, *ret_tee, &behind, ret_problem) &&
         edit_copy_fields (draft, run, behind, ret_problem) &&
         draft_set_text (draft, behind, FIELD_RETURN_TO, part_key (target), ret_problem) &&
         edit_copy_run (draft, design, run, cut.first_behind, cut.station_m, behind, 0, ret_problem) &&
         edit_cut_run (draft, design, run, cut.corners_before, cut.station_m, ret_problem) &&
         draft_set_text (draft, part_key (run), FIELD_RETURN_TO, *ret_tee, ret_problem);
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

/* Where an outlet has room in its tank: the middle of the widest gap between the outlets there and the end panes, from
 * the tank's inside; the usual place where it is the first. */
static double
outlet_gap (const Design *design, const Part *tank)
{
  const unsigned n = design_n_children (design, part_key (tank), PART_OUTLET);
  const double length_m = geometry_inside (design, tank).size.x;
  g_autofree EditSpan *taken = g_new (EditSpan, MAX (n, 1));

  for (unsigned i = 0; i < n; i++) {
    const double x =
        design_number (design, design_child (design, part_key (tank), PART_OUTLET, i), FIELD_OUTLET_X);

    taken[i] = (EditSpan){x, x};
  }
  const EditSpan gap = edit_widest_gap ((EditSpan){0, length_m}, taken, n);

  return n > 0 ? (gap.from + gap.to) / 2 : 0.15 * length_m;
}

Design *
edit_hang_outlet (const Design *design, const Part *tank, const Part *model, char *ret_key,
                  Problem *ret_problem)
{
  Draft *draft = draft_new (design);
  const char *key = NULL;
  bool ok = draft_add (draft, PART_OUTLET, NULL, NULL, part_key (tank), &key, ret_problem);

  if (model != NULL && design_owner (design, model) == tank)
    ok = ok && edit_copy_fields (draft, model, key, ret_problem);
  else if (model != NULL) /* heights and places belong to the other tank */
    ok = ok &&
         draft_set_number (draft, key, FIELD_OUTLET_KIND, design_choice (design, model, FIELD_OUTLET_KIND),
                           ret_problem) &&
         draft_set_number (draft, key, FIELD_OUTLET_BORE, design_number (design, model, FIELD_OUTLET_BORE),
                           ret_problem);
  ok = ok && draft_set_number (draft, key, FIELD_OUTLET_X, outlet_gap (design, tank), ret_problem);
  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

Design *
edit_add_branch (const Design *design, const char *run, double station_m, const char *tank, char *ret_key,
                 Problem *ret_problem)
{
  const Part *part = edit_find (design, run, PART_RETURN, ret_problem);
  const Part *model = part != NULL ? outlet_of (design, part) : NULL;
  const char *tee = NULL, *branch = NULL;
  char key[MAX_KEY_BYTES + 1];
  Point3 way[EDIT_WAY_MOST], from;
  const Part *in;

  if (part == NULL)
    return NULL;
  if (model == NULL) {
    problem_set (ret_problem, PROBLEM_BAD_REFERENCE, run, PART_RETURN, FIELD_RETURN_TO, 0);
    return NULL;
  }
  in = tank != NULL ? edit_find (design, tank, PART_TANK, ret_problem) : design_owner (design, model);
  if (in == NULL)
    return NULL;
  g_autoptr (Design) hung = edit_hang_outlet (design, in, model, key, ret_problem);

  if (hung == NULL)
    return NULL;
  const Part *outlet = design_find (hung, key);
  Draft *draft = draft_new (hung);
  bool ok = edit_split_run (draft, hung, design_find (hung, run), station_m, &from, &tee, ret_problem) &&
            draft_add (draft, PART_RETURN, NULL, NULL, tee, &branch, ret_problem) &&
            edit_copy_fields (draft, part, branch, ret_problem) &&
            draft_set_text (draft, branch, FIELD_RETURN_TO, key, ret_problem);

  ok = ok && edit_lay (draft, branch, from, way, edit_way_to_outlet (hung, outlet, from, 0, way),
                       geometry_outside (hung, outlet).origin, ret_problem);
  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

Design *
edit_add_outlet (const Design *design, const char *run, char *ret_key, Problem *ret_problem)
{
  return edit_add_branch (design, run, NAN, NULL, ret_key, ret_problem);
}

const Part *
edit_run_to (const Design *design, const Part *end, unsigned *ret_count)
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

/* Takes a tee that feeds one run besides `gone` (or NULL) out of the pipe: that run's way becomes the end of the feeding one. */
static bool
join_at_tee (Draft *draft, const Design *design, const Part *tee, const Part *gone, Problem *ret_problem)
{
  const char *key = part_key (tee), *corner = NULL;
  const Part *kept = design_child (design, key, PART_RETURN, 0);
  unsigned feeds = 0;
  const Part *feed = edit_run_to (design, tee, &feeds);
  const Part *target;
  double length_m;

  if (kept == gone)
    kept = design_child (design, key, PART_RETURN, 1);
  if (design_n_children (design, key, PART_RETURN) != (gone != NULL ? 2 : 1) || feeds != 1)
    return true; /* still a tee, or fed from several sides */
  target = design_target (design, kept, FIELD_RETURN_TO);
  length_m = geometry_run_length (design, feed);
  return target != NULL &&
         draft_add (draft, PART_CORNER, NULL, NULL, part_key (feed), &corner, ret_problem) &&
         edit_set_point (draft, corner, edit_corner_fields, geometry_outside (design, tee).origin, NULL,
                         ret_problem) &&
         edit_copy_run (draft, design, kept, 0, 0, part_key (feed), length_m, ret_problem) &&
         draft_set_text (draft, part_key (feed), FIELD_RETURN_TO, part_key (target), ret_problem) &&
         draft_remove (draft, key, ret_problem);
}

Design *
edit_remove_outlet (const Design *design, const Part *outlet, Problem *ret_problem)
{
  unsigned feeds = 0;
  const Part *run = edit_run_to (design, outlet, &feeds);
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

Design *
edit_remove_branch (const Design *design, const Part *run, Problem *ret_problem)
{
  const Part *from = design_owner (design, run);
  Draft *draft;

  if (part_kind (from) == PART_PUMP && design_n_children (design, part_key (from), PART_RETURN) < 2) {
    problem_set (ret_problem, PROBLEM_MISSING_PART, part_key (run), PART_RETURN, N_FIELDS, 0);
    return NULL;
  }
  if (part_kind (from) == PART_TEE && design_n_children (design, part_key (from), PART_RETURN) < 2) {
    problem_set (ret_problem, PROBLEM_HAS_CHILDREN, part_key (from), PART_TEE, N_FIELDS, 0);
    return NULL;
  }
  draft = draft_new (design);

  const bool ok = draft_remove (draft, part_key (run), ret_problem) &&
                  (part_kind (from) != PART_TEE || join_at_tee (draft, design, from, run, ret_problem));

  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

Design *
edit_join_tees (const Design *design, Problem *ret_problem)
{
  g_autoptr (Design) joined = design_ref ((Design *) design);

  for (unsigned i = 0; i < design_count (joined, PART_TEE);) {
    const Part *tee = design_nth (joined, PART_TEE, i);
    unsigned feeds = 0;

    edit_run_to (joined, tee, &feeds);
    if (feeds != 1 || design_n_children (joined, part_key (tee), PART_RETURN) != 1) {
      i++;
      continue;
    }
    Draft *draft = draft_new (joined);
    const bool ok = join_at_tee (draft, joined, tee, NULL, ret_problem);
    Design *next = edit_finish (draft, ok, NULL, NULL, ret_problem);

    if (next == NULL)
      return NULL;
    design_unref (joined);
    joined = next;
  }
  return g_steal_pointer (&joined);
}
