/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Branches that feed a device in the sump: laying one, and taking a device away with its pipe. */
#include <math.h>

#include "design/choices.h"
#include "design/edit-private.h"

/* A branch to the sump leaves so far over its rim, and has its valve so far from the tee. */
#define OVER_SUMP_M      0.05
#define VALVE_FROM_TEE_M 0.10
/* It starts throttled: a wide open branch may leave the display without water. */
#define VALVE_OPENING 0.25

/* Where a branch to the sump leaves a run: at its first point that lies clear over the sump, else in the middle. */
static double
station_over_sump (const Design *design, const Part *run)
{
  const Box3 sump = geometry_outside (design, design_nth (design, PART_SUMP, 0));
  const double clear_z = sump.origin.z + sump.size.z + OVER_SUMP_M;
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  double station_m = 0;

  geometry_run (design, run, points, n);
  for (unsigned i = 1; i < n; i++) {
    const Point3 a = points[i - 1], b = points[i];

    if (a.z >= clear_z)
      return station_m + edit_distance (a, b) / 2;
    if (b.z > clear_z)
      return station_m + edit_distance (a, b) * (clear_z - a.z) / (b.z - a.z);
    station_m += edit_distance (a, b);
  }
  return station_m / 2;
}

static bool
put_valve (Draft *draft, const char *run, double station_m, Problem *ret_problem)
{
  const char *key = NULL;

  return draft_add (draft, PART_FITTING, NULL, NULL, run, &key, ret_problem) &&
         draft_set_text (draft, key, FIELD_FITTING_TYPE, "gate-valve", ret_problem) &&
         draft_set_number (draft, key, FIELD_FITTING_STATION, station_m, ret_problem) &&
         draft_set_number (draft, key, FIELD_FITTING_OPENING, VALVE_OPENING, ret_problem);
}

Design *
edit_add_feed (const Design *design, const char *run, double station_m, const char *device, char *ret_key,
               Problem *ret_problem)
{
  const Part *part = edit_find (design, run, PART_RETURN, ret_problem);
  const Part *end = part != NULL ? edit_find (design, device, PART_DEVICE, ret_problem) : NULL;
  const char *tee = NULL, *branch = NULL;
  Point3 from, way[2];
  Draft *draft;

  if (end == NULL)
    return NULL;

  const Box3 box = geometry_outside (design, end);
  const Point3 port = {box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2,
                       box.origin.z + box.size.z};

  draft = draft_new (design);
  bool ok =
      edit_split_run (draft, design, part, isnan (station_m) ? station_over_sump (design, part) : station_m,
                      &from, &tee, ret_problem) &&
      draft_add (draft, PART_RETURN, NULL, NULL, tee, &branch, ret_problem) &&
      edit_copy_fields (draft, part, branch, ret_problem) &&
      draft_set_text (draft, branch, FIELD_RETURN_TO, device, ret_problem);

  /* Across over the device, forward, and down on it. */
  way[0] = (Point3){port.x, from.y, from.z};
  way[1] = (Point3){port.x, port.y, from.z};
  const double length_m = fabs (port.x - from.x) + fabs (port.y - from.y) + fabs (port.z - from.z);

  ok = ok && edit_lay (draft, branch, from, way, 2, port, ret_problem) &&
       put_valve (draft, branch, fmin (VALVE_FROM_TEE_M, length_m / 2), ret_problem);
  return edit_finish (draft, ok, branch, ret_key, ret_problem);
}

/* The chamber with the widest room for a device of a length; that of a pump only where no other has room, as its level
 * moves. */
static const Part *
chamber_with_room (const Design *design, double length_m)
{
  const Part *best = NULL;
  double most_m = 0;

  for (unsigned pass = 0; pass < 2 && best == NULL; pass++)
    for (unsigned i = 0; i < design_count (design, PART_CHAMBER); i++) {
      const Part *chamber = design_nth (design, PART_CHAMBER, i);
      const EditSpan gap = edit_gap_in_chamber (design, chamber);

      if (pass == 0 && design_n_children (design, part_key (chamber), PART_PUMP) > 0)
        continue;
      if (gap.to - gap.from >= length_m && gap.to - gap.from > most_m) {
        best = chamber;
        most_m = gap.to - gap.from;
      }
    }
  return best;
}

Design *
edit_add_fed_device (const Design *design, const char *run, int kind, char *ret_key, Problem *ret_problem)
{
  const Part *part = edit_find (design, run, PART_RETURN, ret_problem);
  char device[MAX_KEY_BYTES + 1];

  if (part == NULL)
    return NULL;
  const Part *pump = design_nth (design, PART_PUMP, 0);
  const char *first = part_key (design_owner (design, pump));
  g_autoptr (Design) trial = edit_add_device (design, first, kind, device, ret_problem);

  if (trial == NULL)
    return NULL;
  const double length_m = design_number (trial, design_find (trial, device), FIELD_DEVICE_LENGTH);
  const Part *chamber =
      kind == DEVICE_CHILLER ? design_owner (design, pump) : chamber_with_room (design, length_m);

  if (chamber == NULL) {
    problem_set (ret_problem, PROBLEM_NO_ROOM, first, PART_CHAMBER, N_FIELDS, length_m);
    return NULL;
  }
  g_autoptr (Design) stood = edit_add_device (design, part_key (chamber), kind, device, ret_problem);

  if (stood == NULL)
    return NULL;
  if (kind != DEVICE_CHILLER) {
    Design *placed = design_with_number (stood, device, FIELD_DEVICE_X,
                                         edit_place_in_chamber (design, chamber, length_m), ret_problem);

    if (placed == NULL)
      return NULL;
    design_unref (stood);
    stood = placed;
  }
  return edit_give (edit_add_feed (stood, run, NAN, device, NULL, ret_problem), device, ret_key);
}

Design *
edit_remove_device (const Design *design, const Part *device, Problem *ret_problem)
{
  g_autoptr (Design) loose = edit_unfeed (design, part_key (device), ret_problem);
  Draft *draft;

  if (loose == NULL)
    return NULL;
  draft = draft_new (loose);
  return edit_finish (draft, draft_remove (draft, part_key (device), ret_problem), NULL, NULL, ret_problem);
}

Design *
edit_unfeed (const Design *design, const char *device, Problem *ret_problem)
{
  g_autoptr (Design) loose = design_ref ((Design *) design);
  unsigned feeds = 0;
  const Part *run;

  while ((run = edit_run_to (loose, design_find (loose, device), &feeds)) != NULL) {
    Design *next = edit_remove_branch (loose, run, ret_problem);

    if (next == NULL)
      return NULL;
    design_unref (loose);
    loose = next;
  }
  return g_steal_pointer (&loose);
}
