/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/well-formed.h"

#include "design/choices.h"
#include "design/geometry.h"

/* Least inside size of a vessel or chamber. */
#define LEAST_ROOM_M 0.01

static bool
fail (Problem *ret_problem, ProblemCode code, const Part *part, FieldId field)
{
  return problem_set (ret_problem, code, part_key (part), part_kind (part), field, 0);
}

static bool
check_kinds (const Design *design, Problem *ret_problem)
{
  for (PartKind kind = 0; kind < N_PART_KINDS; kind++)
    if (part_kind_required (kind) && design_count (design, kind) == 0)
      return problem_set (ret_problem, PROBLEM_MISSING_PART, "", kind, N_FIELDS, 0);
  return true;
}

static bool
check_links (const Design *design, const Part *part, Problem *ret_problem)
{
  const PartKind kind = part_kind (part);
  const unsigned owners = part_kind_owners (kind);
  const Part *owner = design_owner (design, part);

  if (owners == 0 ? part_owner (part) != NULL : owner == NULL || (owners & 1u << part_kind (owner)) == 0)
    return fail (ret_problem, PROBLEM_BAD_OWNER, part, N_FIELDS);
  for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
    const FieldInfo *info = field_info (id);
    const Part *target;

    if (info->type != FIELD_REF)
      continue;
    target = design_target (design, part, id);
    if (target == NULL || (info->refers_to & 1u << part_kind (target)) == 0)
      return fail (ret_problem, PROBLEM_BAD_REFERENCE, part, id);
  }
  return true;
}

/* Following the runs backwards from any tee must end at a pump: each tee has one feeding run, and no ring is closed. */
static bool
check_tee (const Design *design, const Part *tee, Problem *ret_problem)
{
  const Part *at = tee;

  for (unsigned step = 0; step <= design_count (design, PART_TEE); step++) {
    const Part *feed = NULL;

    for (unsigned i = 0; i < design_count (design, PART_RETURN); i++) {
      const Part *run = design_nth (design, PART_RETURN, i);

      if (design_target (design, run, FIELD_RETURN_TO) == at) {
        if (feed != NULL && design_owner (design, feed) == design_owner (design, run))
          return fail (ret_problem, PROBLEM_RUN_LOOP, tee, N_FIELDS);
        feed = feed != NULL ? feed : run;
      }
    }
    if (feed == NULL)
      return fail (ret_problem, PROBLEM_RUN_LOOP, tee, N_FIELDS);
    at = design_owner (design, feed);
    if (part_kind (at) == PART_PUMP)
      return true;
  }
  return fail (ret_problem, PROBLEM_RUN_LOOP, tee, N_FIELDS);
}

static bool
check_room (const Design *design, const Part *part, Problem *ret_problem)
{
  const Box3 inside = geometry_inside (design, part);

  if (inside.size.x < LEAST_ROOM_M || inside.size.y < LEAST_ROOM_M || inside.size.z < LEAST_ROOM_M)
    return fail (ret_problem, PROBLEM_WALLS_TOO_THICK, part, N_FIELDS);
  return true;
}

static bool
check_tank (const Design *design, const Part *tank, Problem *ret_problem)
{
  if (design_number (design, tank, FIELD_TANK_RIM) > design_number (design, tank, FIELD_TANK_HEIGHT))
    return fail (ret_problem, PROBLEM_TOO_LARGE, tank, FIELD_TANK_RIM);
  return check_room (design, tank, ret_problem);
}

static bool
check_overflow (const Design *design, const Part *overflow, Problem *ret_problem)
{
  const Part *tank = design_owner (design, overflow);

  if (design_choice (design, overflow, FIELD_OVERFLOW_KIND) == OVERFLOW_INSIDE) {
    const Box3 outer = geometry_inside (design, tank), box = geometry_inside (design, overflow);

    if (box.size.x > outer.size.x + 1e-9)
      return fail (ret_problem, PROBLEM_TOO_LARGE, overflow, FIELD_OVERFLOW_BOX_LENGTH);
    if (box.size.y > outer.size.y + 1e-9)
      return fail (ret_problem, PROBLEM_TOO_LARGE, overflow, FIELD_OVERFLOW_BOX_WIDTH);
    if (box.origin.z < outer.origin.z - 1e-9)
      return fail (ret_problem, PROBLEM_TOO_LARGE, overflow, FIELD_OVERFLOW_BOX_DEPTH);
  }
  return check_room (design, overflow, ret_problem);
}

static bool
check_sump (const Design *design, const Part *sump, Problem *ret_problem)
{
  const unsigned chambers = design_n_children (design, part_key (sump), PART_CHAMBER);
  const unsigned baffles = design_n_children (design, part_key (sump), PART_BAFFLE);

  if (!check_room (design, sump, ret_problem))
    return false;
  if (chambers != baffles + 1)
    return fail (ret_problem, PROBLEM_CHAMBERS_AND_BAFFLES, sump, N_FIELDS);
  for (unsigned i = 0; i < chambers; i++) {
    const Part *chamber = design_child (design, part_key (sump), PART_CHAMBER, i);

    if (geometry_inside (design, chamber).size.x < LEAST_ROOM_M) {
      const Part *baffle = geometry_baffle_right (design, chamber);

      baffle = baffle != NULL ? baffle : geometry_baffle_left (design, chamber);
      return fail (ret_problem, PROBLEM_BAFFLE_ORDER, baffle != NULL ? baffle : chamber,
                   baffle != NULL ? FIELD_BAFFLE_X : N_FIELDS);
    }
  }
  for (unsigned i = 0; i < baffles; i++) {
    const Part *baffle = design_child (design, part_key (sump), PART_BAFFLE, i);

    if (geometry_outside (design, baffle).size.z < LEAST_ROOM_M)
      return fail (ret_problem, PROBLEM_TOO_LARGE, baffle, FIELD_BAFFLE_GAP);
  }
  return true;
}

bool
design_is_well_formed (const Design *design, Problem *ret_problem)
{
  if (!check_kinds (design, ret_problem))
    return false;
  for (unsigned i = 0; i < design_n_parts (design); i++)
    if (!check_links (design, design_part (design, i), ret_problem))
      return false;
  for (unsigned i = 0; i < design_count (design, PART_TEE); i++)
    if (!check_tee (design, design_nth (design, PART_TEE, i), ret_problem))
      return false;
  for (unsigned i = 0; i < design_count (design, PART_TANK); i++)
    if (!check_tank (design, design_nth (design, PART_TANK, i), ret_problem))
      return false;
  for (unsigned i = 0; i < design_count (design, PART_OVERFLOW); i++)
    if (!check_overflow (design, design_nth (design, PART_OVERFLOW, i), ret_problem))
      return false;
  return check_sump (design, design_nth (design, PART_SUMP, 0), ret_problem);
}
