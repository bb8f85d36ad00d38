/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One more display tank on the sump, and one more overflow in a tank, each with its drains. */
#include <math.h>

#include "design/choices.h"
#include "design/edit-private.h"

#define BETWEEN_TANKS_M 0.05
#define NEXT_STAND_M    0.1 /* between the stand and one beside it */
#define LEAST_TANK_M    0.4 /* shorter, a tank goes beside the stand rather than on it */
#define LEAST_BOX_M     0.1
#define BESIDE_BOX_M    0.02 /* between boxes, and between a box and the end pane */
#define MOST_BOX_SHARE  0.6  /* of a tank's inside length that a box copied from a longer tank may take */

/* Drains as in another overflow, spread evenly. */
static bool
copy_drains (Draft *draft, const Design *design, const Part *from, const char *to, Problem *ret_problem)
{
  static const FieldId fields[] = {FIELD_DRAIN_ROLE, FIELD_DRAIN_TO, FIELD_DRAIN_SIZE, FIELD_DRAIN_ROUGHNESS,
                                   FIELD_DRAIN_ENTRY};

  for (unsigned i = 0; i < design_n_children (design, part_key (from), PART_DRAIN); i++) {
    const Part *drain = design_child (design, part_key (from), PART_DRAIN, i);
    const char *key = NULL;

    if (!draft_add (draft, PART_DRAIN, NULL, NULL, to, &key, ret_problem) ||
        !edit_copy_some (draft, drain, key, fields, G_N_ELEMENTS (fields), ret_problem))
      return false;
  }
  return true;
}

/* The drains of `to` were copied from `from` and go straight down: leads them to the sump, then gives them fittings. */
static Design *
finish_drains (Design *design, const char *from, const char *to, Problem *ret_problem)
{
  g_autoptr (Design) base = design;
  g_autoptr (Design) led = edit_lead_drains (base, to, NULL, ret_problem);
  Draft *draft;
  bool ok = true;

  if (led == NULL)
    return NULL;
  draft = draft_new (led);
  for (unsigned i = 0; i < design_n_children (led, to, PART_DRAIN) && ok; i++)
    ok = edit_copy_fittings (draft, led, design_child (led, from, PART_DRAIN, i), led,
                             design_child (led, to, PART_DRAIN, i), false, ret_problem);
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

/* An overflow as another, without its place; its box at most `most_m` long. */
static bool
copy_overflow (Draft *draft, const Design *design, const Part *model, const char *to, double most_m,
               Problem *ret_problem)
{
  const bool too_long = design_number (design, model, FIELD_OVERFLOW_BOX_LENGTH) > most_m;

  return edit_copy_fields (draft, model, to, ret_problem) &&
         draft_unset (draft, to, FIELD_OVERFLOW_X, ret_problem) &&
         (!too_long || (draft_set_number (draft, to, FIELD_OVERFLOW_BOX_LENGTH, most_m, ret_problem) &&
                        draft_unset (draft, to, FIELD_OVERFLOW_LENGTH, ret_problem)));
}

/* Overflows. */

/* The first overflow of a tank, else of the design. */
static const Part *
model_overflow (const Design *design, const Part *tank)
{
  const Part *own = design_child (design, part_key (tank), PART_OVERFLOW, 0);

  return own != NULL ? own : design_nth (design, PART_OVERFLOW, 0);
}

static EditSpan
room_for_box (const Design *design, const Part *tank)
{
  const unsigned n = design_n_children (design, part_key (tank), PART_OVERFLOW);
  g_autofree EditSpan *taken = g_new (EditSpan, MAX (n, 1));

  for (unsigned i = 0; i < n; i++) {
    const Part *overflow = design_child (design, part_key (tank), PART_OVERFLOW, i);
    const double wall_m = design_number (design, overflow, FIELD_OVERFLOW_WALL);
    const double x = design_number (design, overflow, FIELD_OVERFLOW_X);

    taken[i] =
        (EditSpan){x - wall_m, x + design_number (design, overflow, FIELD_OVERFLOW_BOX_LENGTH) + wall_m};
  }
  return edit_widest_gap ((EditSpan){0, geometry_inside (design, tank).size.x}, taken, n);
}

Design *
edit_copy_overflow (const Design *design, const Part *model, const char *tank, char *ret_key,
                    Problem *ret_problem)
{
  const Part *part = edit_find (design, tank, PART_TANK, ret_problem);
  const char *key = NULL;
  char made[MAX_KEY_BYTES + 1];

  if (part == NULL)
    return NULL;
  const EditSpan gap = room_for_box (design, part);
  const double edge_m = BESIDE_BOX_M + design_number (design, model, FIELD_OVERFLOW_WALL);
  const double most_m = floor ((gap.to - gap.from - 2 * edge_m) / SAME_M) * SAME_M;
  const double length_m = fmin (most_m, design_number (design, model, FIELD_OVERFLOW_BOX_LENGTH));

  if (length_m < LEAST_BOX_M) {
    problem_set (ret_problem, PROBLEM_NO_ROOM, tank, PART_OVERFLOW, N_FIELDS, LEAST_BOX_M);
    return NULL;
  }
  Draft *draft = draft_new (design);
  const bool ok =
      draft_add (draft, PART_OVERFLOW, NULL, NULL, tank, &key, ret_problem) &&
      copy_overflow (draft, design, model, key, length_m, ret_problem) &&
      draft_set_number (draft, key, FIELD_OVERFLOW_X, (gap.from + gap.to - length_m) / 2, ret_problem) &&
      copy_drains (draft, design, model, key, ret_problem);
  Design *with_box = edit_finish (draft, ok, key, made, ret_problem);

  if (with_box == NULL)
    return NULL;
  return edit_give (finish_drains (with_box, part_key (model), made, ret_problem), made, ret_key);
}

Design *
edit_add_overflow (const Design *design, const char *tank, char *ret_key, Problem *ret_problem)
{
  const Part *part = edit_find (design, tank, PART_TANK, ret_problem);

  return part != NULL ? edit_copy_overflow (design, model_overflow (design, part), tank, ret_key, ret_problem)
                      : NULL;
}

/* Tanks. */

/* Where a tank of a length goes: on the stand beside the others where it has room there (shorter if need be), else
 * beside the stand, on a stand of its own of the same height. */
static EditSpan
room_for_tank (const Design *design, double length_m)
{
  const Box3 stand = geometry_outside (design, design_nth (design, PART_STAND, 0));
  const unsigned n = design_count (design, PART_TANK);
  g_autofree EditSpan *taken = g_new (EditSpan, n);
  double right_m = stand.origin.x + stand.size.x;

  for (unsigned i = 0; i < n; i++) {
    const Box3 box = geometry_outside (design, design_nth (design, PART_TANK, i));

    taken[i] = (EditSpan){box.origin.x - BETWEEN_TANKS_M, box.origin.x + box.size.x + BETWEEN_TANKS_M};
    right_m = fmax (right_m, box.origin.x + box.size.x);
  }
  const EditSpan gap = edit_widest_gap ((EditSpan){stand.origin.x, stand.origin.x + stand.size.x}, taken, n);
  const double least_m = fmin (LEAST_TANK_M, length_m), room_m = gap.to - gap.from;

  if (room_m >= least_m) {
    const double fits_m = fmin (length_m, fmax (least_m, floor (room_m / 0.01) * 0.01));

    return (EditSpan){gap.from, gap.from + fits_m};
  }
  right_m = ceil ((right_m + NEXT_STAND_M) / 0.01 - 1e-6) * 0.01;
  return (EditSpan){right_m, right_m + length_m};
}

/* Tank, overflow and drains, without a return. */
static Design *
add_vessel (const Design *design, const Part *model, char *ret_tank, Problem *ret_problem)
{
  const Part *overflow = model_overflow (design, model);
  const double length_m = design_number (design, model, FIELD_TANK_LENGTH);
  const EditSpan place = room_for_tank (design, length_m);
  const double inside_m = place.to - place.from - 2 * design_number (design, model, FIELD_TANK_GLASS);
  const char *tank = NULL, *box = NULL;
  char made[MAX_KEY_BYTES + 1];
  Draft *draft = draft_new (design);
  const bool ok = draft_add (draft, PART_TANK, NULL, NULL, NULL, &tank, ret_problem) &&
                  edit_copy_fields (draft, model, tank, ret_problem) &&
                  draft_set_number (draft, tank, FIELD_TANK_X, place.from, ret_problem) &&
                  (place.to - place.from >= length_m - SAME_M ||
                   draft_set_number (draft, tank, FIELD_TANK_LENGTH, place.to - place.from, ret_problem)) &&
                  draft_add (draft, PART_OVERFLOW, NULL, NULL, tank, &box, ret_problem) &&
                  copy_overflow (draft, design, overflow, box, MOST_BOX_SHARE * inside_m, ret_problem) &&
                  copy_drains (draft, design, overflow, box, ret_problem);

  if (ok)
    g_strlcpy (made, box, sizeof made);
  Design *with_tank = edit_finish (draft, ok, tank, ret_tank, ret_problem);

  return with_tank != NULL ? finish_drains (with_tank, part_key (overflow), made, ret_problem) : NULL;
}

/* The run that leaves a pump on the way to a tank, or NULL. */
static const Part *
trunk_of (const Design *design, const Part *tank)
{
  const Part *outlet = design_child (design, part_key (tank), PART_OUTLET, 0);
  unsigned feeds = 0;
  const Part *run = outlet != NULL ? edit_run_to (design, outlet, &feeds) : NULL;

  for (unsigned step = 0; run != NULL && step < part_kind_limit (PART_TEE); step++) {
    const Part *from = design_owner (design, run);

    if (part_kind (from) == PART_PUMP)
      return run;
    run = edit_run_to (design, from, &feeds);
  }
  return NULL;
}

/* A valve to balance the tanks by, on the run that leads to the new one. */
static Design *
add_balance (Design *design, const char *outlet, Problem *ret_problem)
{
  g_autoptr (Design) base = design;
  unsigned feeds = 0;
  const Part *run = edit_run_to (base, design_find (base, outlet), &feeds);

  return edit_add_fitting (base, part_key (run), "gate-valve",
                           fmin (0.1, geometry_run_length (base, run) / 3), NULL, ret_problem);
}

Design *
edit_add_tank (const Design *design, const char *model, EditFeed feed, char *ret_key, Problem *ret_problem)
{
  const Part *part = edit_find (design, model, PART_TANK, ret_problem);
  const Part *trunk = part != NULL ? trunk_of (design, part) : NULL;
  char tank[MAX_KEY_BYTES + 1], outlet[MAX_KEY_BYTES + 1];
  Design *fed;

  if (part == NULL)
    return NULL;
  if (trunk == NULL) {
    problem_set (ret_problem, PROBLEM_MISSING_PART, model, PART_RETURN, N_FIELDS, 0);
    return NULL;
  }
  g_autoptr (Design) vessel = add_vessel (design, part, tank, ret_problem);

  if (vessel == NULL)
    return NULL;
  if (feed == EDIT_FEED_PUMP)
    fed = edit_add_pump (vessel, part_owner (design_owner (design, trunk)), EDIT_PUMP_OWN_OUTLET, tank, NULL,
                         ret_problem);
  else {
    fed = edit_add_branch (vessel, part_key (trunk), NAN, tank, outlet, ret_problem);
    fed = fed != NULL ? add_balance (fed, outlet, ret_problem) : NULL;
  }
  return edit_give (fed, tank, ret_key);
}
