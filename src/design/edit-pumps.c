/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One more return pump, a pump set outside the sump, and what goes with a pump that is taken away. */
#include <math.h>

#include "design/choices.h"
#include "design/edit-private.h"

#define BESIDE_PUMP_M 0.02
#define OUTSIDE_M     0.05 /* of a pump beside the sump */
#define TEE_UP_SHARE  0.6  /* height of a joining tee, of the riser's first piece */
#define LEAST_RISER_M 0.15
#define SERVICE_M     0.3  /* within this of an outside pump stands the valve that it is taken out by */
#define APART_M       0.07 /* of a second pump's pipes from the first's */

/* The first run that leaves a pump, or NULL. */
static const Part *
run_of (const Design *design, const Part *pump)
{
  return design_child (design, part_key (pump), PART_RETURN, 0);
}

/* Where a pump's pipe leaves it: the middle of its body, at the height of its outlet. */
static Point3
pump_port (const Design *design, const Part *pump)
{
  const Box3 box = geometry_outside (design, pump);

  return (Point3){box.origin.x + box.size.x / 2, box.origin.y + box.size.y / 2,
                  geometry_datum (design, pump) + design_number (design, pump, FIELD_PUMP_OUTLET_HEIGHT)};
}

/* The n-th pump or device of a chamber, pumps first; NULL beyond. */
static const Part *
thing_in_chamber (const Design *design, const Part *chamber, unsigned n)
{
  const unsigned pumps = design_n_children (design, part_key (chamber), PART_PUMP);

  return n < pumps ? design_child (design, part_key (chamber), PART_PUMP, n)
                   : design_child (design, part_key (chamber), PART_DEVICE, n - pumps);
}

EditSpan
edit_gap_in_chamber (const Design *design, const Part *chamber)
{
  const Box3 room = geometry_inside (design, chamber);
  const unsigned pumps = design_n_children (design, part_key (chamber), PART_PUMP);
  const unsigned devices = design_n_children (design, part_key (chamber), PART_DEVICE);
  g_autofree EditSpan *taken = g_new (EditSpan, pumps + devices + 1);

  for (unsigned i = 0; i < pumps + devices; i++) {
    const Box3 box = geometry_outside (design, thing_in_chamber (design, chamber, i));
    const double x = box.origin.x - room.origin.x;

    taken[i] = (EditSpan){x - BESIDE_PUMP_M, x + box.size.x + BESIDE_PUMP_M};
  }
  return edit_widest_gap ((EditSpan){0, room.size.x}, taken, pumps + devices);
}

double
edit_place_in_chamber (const Design *design, const Part *chamber, double length_m)
{
  const Box3 room = geometry_inside (design, chamber);
  const EditSpan gap = edit_gap_in_chamber (design, chamber);
  const Part *first = thing_in_chamber (design, chamber, 0);
  double middle_m = room.size.x / 2;

  if (gap.to - gap.from >= length_m)
    return (gap.from + gap.to - length_m) / 2;
  if (first != NULL) {
    const Box3 box = geometry_outside (design, first);

    middle_m = box.origin.x - room.origin.x + box.size.x / 2;
  }
  return middle_m > room.size.x / 2 ? BESIDE_PUMP_M : fmax (0, room.size.x - length_m - BESIDE_PUMP_M);
}

/* A pump as another, without a run. */
static Design *
stand_pump (const Design *design, const Part *chamber, const Part *model, char *ret_key, Problem *ret_problem)
{
  const double x = edit_place_in_chamber (design, chamber, design_number (design, model, FIELD_PUMP_LENGTH));
  Draft *draft = draft_new (design);
  const char *key = NULL;
  const bool ok =
      draft_add (draft, PART_PUMP, NULL, part_label (model), part_key (chamber), &key, ret_problem) &&
      edit_copy_fields (draft, model, key, ret_problem) &&
      draft_unset (draft, key, FIELD_PUMP_PLACING, ret_problem) &&
      draft_set_number (draft, key, FIELD_PUMP_X, x, ret_problem);

  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

static bool
add_run_like (Draft *draft, const Part *model, const char *pump, const char *to, const char **ret_run,
              Problem *ret_problem)
{
  return draft_add (draft, PART_RETURN, NULL, NULL, pump, ret_run, ret_problem) &&
         edit_copy_fields (draft, model, *ret_run, ret_problem) &&
         draft_set_text (draft, *ret_run, FIELD_RETURN_TO, to, ret_problem);
}

static bool
has_fitting_before (const Design *design, const Part *run, const char *type, double station_m)
{
  for (unsigned i = 0; i < design_n_children (design, part_key (run), PART_FITTING); i++) {
    const Part *fitting = design_child (design, part_key (run), PART_FITTING, i);

    if (design_number (design, fitting, FIELD_FITTING_STATION) < station_m &&
        g_str_has_prefix (design_text (design, fitting, FIELD_FITTING_TYPE), type))
      return true;
  }
  return false;
}

/* Where the riser of the first pump takes in the second: on its first piece if that is long enough, else a third of the
 * way up. */
static double
joining_station (const Design *design, const Part *run)
{
  Point3 points[2];

  geometry_run (design, run, points, 2);
  const double piece_m = edit_distance (points[0], points[1]);

  return piece_m >= LEAST_RISER_M ? TEE_UP_SHARE * piece_m : geometry_run_length (design, run) / 3;
}

/* The second pump's pipe goes up to the height of the tee, then across to it. Each pump gets a check valve of its own, or
 * the running one would pour through the one at rest. */
static Design *
join_riser (const Design *design, const Part *pump, const Part *riser, Problem *ret_problem)
{
  const double station_m = joining_station (design, riser);
  const char *tee = NULL, *run = NULL;
  Draft *draft = draft_new (design);
  const Point3 port = pump_port (design, pump);
  Point3 joint;
  bool ok = edit_split_run (draft, design, riser, station_m, &joint, &tee, ret_problem) &&
            add_run_like (draft, riser, part_key (pump), tee, &run, ret_problem);
  const Point3 way[2] = {{port.x, port.y, joint.z}, {joint.x, port.y, joint.z}};
  const double up_m = fabs (joint.z - port.z), length_m = edit_distance (port, joint);

  ok = ok && edit_lay (draft, run, port, way, 2, joint, ret_problem) &&
       edit_put_fitting (draft, run, "union", up_m > 0.1 ? 0.3 * up_m : 0.2 * length_m, ret_problem) &&
       edit_put_fitting (draft, run, "check-valve", up_m > 0.1 ? 0.7 * up_m : 0.5 * length_m, ret_problem) &&
       (has_fitting_before (design, riser, "check-valve", station_m) ||
        edit_put_fitting (draft, part_key (riser), "check-valve", 0.7 * station_m, ret_problem));
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

static Design *
lead_to_outlet (const Design *design, const char *pump, const Part *model, const char *outlet,
                Problem *ret_problem)
{
  const Point3 port = pump_port (design, design_find (design, pump));
  const Part *mouth = design_find (design, outlet);
  const double aside_m = APART_M * (design_count (design, PART_PUMP) - 1);
  const char *run = NULL;
  Point3 way[EDIT_WAY_MOST];
  Draft *draft = draft_new (design);
  const bool ok = add_run_like (draft, model, pump, outlet, &run, ret_problem) &&
                  edit_lay (draft, run, port, way, edit_way_to_outlet (design, mouth, port, aside_m, way),
                            geometry_outside (design, mouth).origin, ret_problem) &&
                  edit_put_fitting (draft, run, "union", 0.1, ret_problem);

  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

Design *
edit_add_pump (const Design *design, const char *chamber, EditPumpWay way, const char *tank, char *ret_key,
               Problem *ret_problem)
{
  const Part *in = edit_find (design, chamber, PART_CHAMBER, ret_problem);
  char pump[MAX_KEY_BYTES + 1], outlet[MAX_KEY_BYTES + 1];

  if (in == NULL)
    return NULL;
  const Part *own = design_child (design, chamber, PART_PUMP, 0);
  const Part *model = own != NULL ? own : design_nth (design, PART_PUMP, 0);
  const Part *riser = run_of (design, model);

  if (riser == NULL) {
    problem_set (ret_problem, PROBLEM_MISSING_PART, part_key (model), PART_RETURN, N_FIELDS, 0);
    return NULL;
  }
  g_autoptr (Design) stood = stand_pump (design, in, model, pump, ret_problem);

  if (stood == NULL)
    return NULL;
  if (way == EDIT_PUMP_JOINS)
    return edit_give (join_riser (stood, design_find (stood, pump), riser, ret_problem), pump, ret_key);

  const Part *first = design_nth (design, PART_OUTLET, 0);
  const Part *display =
      tank != NULL ? edit_find (stood, tank, PART_TANK, ret_problem) : design_owner (stood, first);
  g_autoptr (Design) hung =
      display != NULL ? edit_hang_outlet (stood, display, first, outlet, ret_problem) : NULL;

  if (hung == NULL)
    return NULL;
  return edit_give (lead_to_outlet (hung, pump, riser, outlet, ret_problem), pump, ret_key);
}

/* Outside the sump, on the side of its chamber's nearer end, past a reservoir that stands there. */
static double
place_outside (const Design *design, const Part *pump)
{
  const Part *chamber = design_owner (design, pump);
  const Box3 room = geometry_inside (design, chamber);
  const Box3 sump = geometry_outside (design, design_nth (design, PART_SUMP, 0));
  const double left_m = room.origin.x - sump.origin.x;
  const double right_m = sump.origin.x + sump.size.x - room.origin.x - room.size.x;

  const double length_m = design_number (design, pump, FIELD_PUMP_LENGTH);
  const Part *reservoir = design_nth (design, PART_RESERVOIR, 0);
  double x = right_m <= left_m ? room.size.x + right_m + OUTSIDE_M : -left_m - OUTSIDE_M - length_m;

  if (reservoir != NULL) {
    const Box3 box = geometry_outside (design, reservoir);
    const double from = box.origin.x - room.origin.x, to = from + box.size.x;

    if (x < to && x + length_m > from)
      x = right_m <= left_m ? to + OUTSIDE_M : from - OUTSIDE_M - length_m;
  }
  return x;
}

Design *
edit_move_pump_outside (const Design *design, const char *pump, Problem *ret_problem)
{
  const Part *part = edit_find (design, pump, PART_PUMP, ret_problem);
  Draft *draft;
  bool ok;

  if (part == NULL)
    return NULL;
  draft = draft_new (design);
  ok = draft_set_number (draft, pump, FIELD_PUMP_PLACING, PUMP_OUTSIDE, ret_problem) &&
       draft_set_number (draft, pump, FIELD_PUMP_X, place_outside (design, part), ret_problem);
  for (unsigned i = 0; i < design_n_children (design, pump, PART_RETURN) && ok; i++) {
    const Part *run = design_child (design, pump, PART_RETURN, i);

    ok = has_fitting_before (design, run, "ball-valve", SERVICE_M) ||
         edit_put_fitting (draft, part_key (run), "ball-valve", SERVICE_M / 2, ret_problem);
  }
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

/* Removing. */

/* Marks the tees, outlets and devices that the pumps but `gone` reach, by their index in the design. */
static void
mark_fed (const Design *design, const Part *gone, bool *fed)
{
  bool more = true;

  while (more) {
    more = false;
    for (unsigned i = 0; i < design_count (design, PART_RETURN); i++) {
      const Part *run = design_nth (design, PART_RETURN, i), *from = design_owner (design, run);
      const Part *to = design_target (design, run, FIELD_RETURN_TO);
      const bool running =
          part_kind (from) == PART_PUMP ? from != gone : fed[design_index (design, part_key (from))];

      if (running && to != NULL && !fed[design_index (design, part_key (to))])
        more = fed[design_index (design, part_key (to))] = true;
    }
  }
}

Design *
edit_remove_pump (const Design *design, const Part *pump, Problem *ret_problem)
{
  g_autofree bool *before = g_new0 (bool, design_n_parts (design));
  g_autofree bool *after = g_new0 (bool, design_n_parts (design));
  Draft *draft = draft_new (design);
  bool ok;

  mark_fed (design, NULL, before);
  mark_fed (design, pump, after);
  ok = draft_remove (draft, part_key (pump), ret_problem);
  for (unsigned i = 0; i < design_n_parts (design) && ok; i++)
    if (before[i] && !after[i] && part_kind (design_part (design, i)) != PART_DEVICE)
      ok = draft_remove (draft, part_key (design_part (design, i)), ret_problem);
  g_autoptr (Design) without = edit_finish (draft, ok, NULL, NULL, ret_problem);

  return without != NULL ? edit_join_tees (without, ret_problem) : NULL;
}
