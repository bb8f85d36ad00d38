/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include "design/edit-private.h"
#include "design/geometry.h"
#include "design/well-formed.h"

const FieldId edit_corner_fields[3] = {FIELD_CORNER_X, FIELD_CORNER_Y, FIELD_CORNER_Z};
const FieldId edit_tee_fields[3] = {FIELD_TEE_X, FIELD_TEE_Y, FIELD_TEE_Z};

static double
coordinate (Point3 point, unsigned axis)
{
  return axis == 0 ? point.x : axis == 1 ? point.y : point.z;
}

double
edit_distance (Point3 a, Point3 b)
{
  return sqrt ((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y) + (a.z - b.z) * (a.z - b.z));
}

const Part *
edit_find_run (const Design *design, const char *key, Problem *ret_problem)
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

  if (edit_find_run (design, run, ret_problem) == NULL)
    return NULL;
  draft = draft_new (design);
  ok = draft_add (draft, PART_FITTING, NULL, NULL, run, &key, ret_problem) &&
       draft_set_text (draft, key, FIELD_FITTING_TYPE, type, ret_problem) &&
       draft_set_number (draft, key, FIELD_FITTING_STATION, station_m, ret_problem);
  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

bool
edit_set_point (Draft *draft, const char *key, const FieldId fields[3], Point3 point, const Point3 *before,
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

bool
edit_put_fitting (Draft *draft, const char *run, const char *type, double station_m, Problem *ret_problem)
{
  const char *key = NULL;

  return draft_add (draft, PART_FITTING, NULL, NULL, run, &key, ret_problem) &&
         draft_set_text (draft, key, FIELD_FITTING_TYPE, type, ret_problem) &&
         draft_set_number (draft, key, FIELD_FITTING_STATION, station_m, ret_problem);
}

Design *
edit_add_corner (const Design *design, const char *run, double station_m, char *ret_key, Problem *ret_problem)
{
  const Part *part = edit_find_run (design, run, ret_problem);
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
       edit_set_point (draft, key, edit_corner_fields, point, &points[segment], ret_problem);
  if (ok && segment + 2 < n)
    ok = draft_move (draft, key, edit_place (design, design_child (design, run, PART_CORNER, segment)),
                     ret_problem);
  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

/* Gives a corner or tee every coordinate that it takes from the point before it. */
static bool
pin (Draft *draft, const Part *part, Point3 point, Problem *ret_problem)
{
  const FieldId *fields = part_kind (part) == PART_TEE ? edit_tee_fields : edit_corner_fields;

  return edit_set_point (draft, part_key (part), fields, point, NULL, ret_problem);
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

bool
edit_copy_run (Draft *draft, const Design *design, const Part *from, unsigned first_corner,
               double from_station_m, const char *to, double add_m, Problem *ret_problem)
{
  const char *owner = part_key (from), *key = NULL;

  for (unsigned i = first_corner; i < design_n_children (design, owner, PART_CORNER); i++) {
    const Part *corner = design_child (design, owner, PART_CORNER, i);

    if (!draft_add (draft, PART_CORNER, NULL, part_label (corner), to, &key, ret_problem) ||
        !edit_copy_fields (draft, corner, key, ret_problem) ||
        !edit_set_point (draft, key, edit_corner_fields, geometry_outside (design, corner).origin, NULL,
                         ret_problem))
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

bool
edit_cut_run (Draft *draft, const Design *design, const Part *run, unsigned first_corner, double station_m,
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
