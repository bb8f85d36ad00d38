/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/edit.h"

#include "design/choices.h"
#include "design/edit-private.h"
#include "design/geometry.h"
#include "design/well-formed.h"

Design *
edit_finish (Draft *draft, bool ok, const char *key, char *ret_key, Problem *ret_problem)
{
  Design *design = ok ? draft_commit (draft, ret_problem) : NULL;

  if (design != NULL && ret_key != NULL && key != NULL)
    g_strlcpy (ret_key, key, MAX_KEY_BYTES + 1);
  draft_free (draft);
  return design;
}

Design *
edit_give (Design *design, const char *key, char *ret_key)
{
  if (design != NULL && ret_key != NULL)
    g_strlcpy (ret_key, key, MAX_KEY_BYTES + 1);
  return design;
}

const Part *
edit_find (const Design *design, const char *key, PartKind kind, Problem *ret_problem)
{
  const Part *part = key != NULL ? design_find (design, key) : NULL;

  if (part != NULL && part_kind (part) == kind)
    return part;
  problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, kind, N_FIELDS, 0);
  return NULL;
}

static bool
copy_field (Draft *draft, const Part *from, const char *to, FieldId id, Problem *ret_problem)
{
  const FieldValue value = part_value (from, id);
  const FieldType type = field_info (id)->type;
  const bool number = type == FIELD_NUMBER || type == FIELD_CHOICE || type == FIELD_FLAG;

  return !value.given || (number ? draft_set_number (draft, to, id, value.number, ret_problem)
                                 : draft_set_text (draft, to, id, value.text, ret_problem));
}

bool
edit_copy_fields (Draft *draft, const Part *from, const char *to, Problem *ret_problem)
{
  const FieldId first = field_first (part_kind (from));

  for (FieldId id = first; id < first + field_count (part_kind (from)); id++)
    if (!copy_field (draft, from, to, id, ret_problem))
      return false;
  return true;
}

bool
edit_copy_some (Draft *draft, const Part *from, const char *to, const FieldId *fields, unsigned n,
                Problem *ret_problem)
{
  for (unsigned i = 0; i < n; i++)
    if (!copy_field (draft, from, to, fields[i], ret_problem))
      return false;
  return true;
}

unsigned
edit_place (const Design *design, const Part *part)
{
  unsigned place = 0;

  while (design_nth (design, part_kind (part), place) != part)
    place++;
  return place;
}

Design *
edit_rename (const Design *design, const char *key, const char *label, Problem *ret_problem)
{
  Draft *draft = draft_new (design);
  const char *given = label != NULL && label[0] != '\0' ? label : NULL;

  return edit_finish (draft, draft_set_label (draft, key, given, ret_problem), NULL, NULL, ret_problem);
}

/* A part with one choice set: what most additions are. */
static Design *
add_with_choice (const Design *design, PartKind kind, const char *owner, FieldId field, int choice,
                 char *ret_key, Problem *ret_problem)
{
  Draft *draft = draft_new (design);
  const char *key = NULL;
  const bool ok = draft_add (draft, kind, NULL, NULL, owner, &key, ret_problem) &&
                  draft_set_number (draft, key, field, choice, ret_problem);

  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

Design *
edit_add_device (const Design *design, const char *chamber, int kind, char *ret_key, Problem *ret_problem)
{
  if (edit_find (design, chamber, PART_CHAMBER, ret_problem) == NULL)
    return NULL;
  return add_with_choice (design, PART_DEVICE, chamber, FIELD_DEVICE_KIND, kind, ret_key, ret_problem);
}

Design *
edit_add_drain (const Design *design, const char *overflow, int role, char *ret_key, Problem *ret_problem)
{
  char key[MAX_KEY_BYTES + 1];
  g_autoptr (Design) with_drain = NULL;
  const Part *drain;

  if (edit_find (design, overflow, PART_OVERFLOW, ret_problem) == NULL)
    return NULL;
  with_drain = add_with_choice (design, PART_DRAIN, overflow, FIELD_DRAIN_ROLE, role, key, ret_problem);
  if (with_drain == NULL || role != DRAIN_SIPHON)
    return edit_give (g_steal_pointer (&with_drain), key, ret_key);
  drain = design_find (with_drain, key);
  return edit_give (edit_add_fitting (with_drain, key, "gate-valve",
                                      0.75 * geometry_run_length (with_drain, drain), NULL, ret_problem),
                    key, ret_key);
}

Design *
edit_add_reservoir (const Design *design, char *ret_key, Problem *ret_problem)
{
  Draft *draft = draft_new (design);
  const char *key = NULL;

  return edit_finish (draft, draft_add (draft, PART_RESERVOIR, NULL, NULL, NULL, &key, ret_problem), key,
                      ret_key, ret_problem);
}

Design *
edit_take_pump (const Design *design, const char *pump, const PumpType *type, Problem *ret_problem)
{
  Draft *draft;
  bool ok;

  if (edit_find (design, pump, PART_PUMP, ret_problem) == NULL)
    return NULL;
  draft = draft_new (design);
  ok = draft_set_text (draft, pump, FIELD_PUMP_CURVE, type->curve, ret_problem) &&
       draft_set_number (draft, pump, FIELD_PUMP_WATTS, type->watts, ret_problem) &&
       draft_set_number (draft, pump, FIELD_PUMP_LENGTH, type->length_m, ret_problem) &&
       draft_set_number (draft, pump, FIELD_PUMP_WIDTH, type->width_m, ret_problem) &&
       draft_set_number (draft, pump, FIELD_PUMP_HEIGHT, type->height_m, ret_problem) &&
       draft_set_label (draft, pump, type->name, ret_problem);
  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

/* Chambers and baffles. There is one sump, so a place among its chambers is one among all chambers. */

static bool
any_baffle_given (const Design *design)
{
  for (unsigned i = 0; i < design_count (design, PART_BAFFLE); i++)
    if (part_is_given (design_nth (design, PART_BAFFLE, i), FIELD_BAFFLE_X))
      return true;
  return false;
}

/* Gives every baffle the place that it has, so that another one does not push it aside. */
static bool
pin_baffles (Draft *draft, const Design *design, Problem *ret_problem)
{
  for (unsigned i = 0; i < design_count (design, PART_BAFFLE); i++) {
    const Part *baffle = design_nth (design, PART_BAFFLE, i);

    if (!draft_set_number (draft, part_key (baffle), FIELD_BAFFLE_X,
                           design_number (design, baffle, FIELD_BAFFLE_X), ret_problem))
      return false;
  }
  return true;
}

Design *
edit_divide_chamber (const Design *design, const char *chamber, char *ret_key, Problem *ret_problem)
{
  const Part *part = edit_find (design, chamber, PART_CHAMBER, ret_problem);
  const char *baffle_key = NULL, *chamber_key = NULL;
  Draft *draft;
  unsigned place;
  bool before, ok;

  if (part == NULL)
    return NULL;
  draft = draft_new (design);
  place = edit_place (design, part);
  before = design_choice (design, part, FIELD_CHAMBER_ROLE) == CHAMBER_RETURN;
  ok = draft_add (draft, PART_BAFFLE, NULL, NULL, part_owner (part), &baffle_key, ret_problem) &&
       draft_add (draft, PART_CHAMBER, NULL, NULL, part_owner (part), &chamber_key, ret_problem) &&
       draft_move (draft, baffle_key, place, ret_problem) &&
       draft_move (draft, chamber_key, before ? place : place + 1, ret_problem);
  if (ok && any_baffle_given (design)) {
    const FieldInfo *thickness = field_info (FIELD_BAFFLE_THICKNESS);
    const Box3 inside = geometry_inside (design, part);
    const Part *sump = design_owner (design, part);
    const double left_m = inside.origin.x - geometry_inside (design, sump).origin.x;

    ok = pin_baffles (draft, design, ret_problem) &&
         draft_set_number (draft, baffle_key, FIELD_BAFFLE_X,
                           left_m + (inside.size.x - thickness->fallback) / 2, ret_problem);
  }
  return edit_finish (draft, ok, baffle_key, ret_key, ret_problem);
}

static bool
has_pump (const Design *design, const Part *chamber)
{
  return design_n_children (design, part_key (chamber), PART_PUMP) > 0;
}

/* The devices of the chamber go with it, and first the runs that feed them. */
static Design *
remove_pair (const Design *design, const Part *chamber, const Part *baffle, Problem *ret_problem)
{
  g_autoptr (Design) loose = design_ref ((Design *) design);
  Draft *draft;

  for (unsigned i = 0; i < design_n_children (design, part_key (chamber), PART_DEVICE); i++) {
    Design *next = edit_unfeed (loose, part_key (design_child (design, part_key (chamber), PART_DEVICE, i)),
                                ret_problem);

    if (next == NULL)
      return NULL;
    design_unref (loose);
    loose = next;
  }
  draft = draft_new (loose);
  const bool pinned = !any_baffle_given (loose) || pin_baffles (draft, loose, ret_problem);
  const bool ok = pinned && draft_remove (draft, part_key (baffle), ret_problem) &&
                  draft_remove (draft, part_key (chamber), ret_problem);

  return edit_finish (draft, ok, NULL, NULL, ret_problem);
}

static Design *
refuse (const Part *part, ProblemCode code, Problem *ret_problem)
{
  problem_set (ret_problem, code, part_key (part), part_kind (part), N_FIELDS, 0);
  return NULL;
}

static Design *
remove_chamber (const Design *design, const Part *chamber, Problem *ret_problem)
{
  const Part *left = geometry_baffle_left (design, chamber);
  const Part *baffle = left != NULL ? left : geometry_baffle_right (design, chamber);

  if (has_pump (design, chamber))
    return refuse (chamber, PROBLEM_HAS_CHILDREN, ret_problem);
  if (baffle == NULL)
    return refuse (chamber, PROBLEM_MISSING_PART, ret_problem);
  return remove_pair (design, chamber, baffle, ret_problem);
}

static Design *
remove_baffle (const Design *design, const Part *baffle, Problem *ret_problem)
{
  const unsigned place = edit_place (design, baffle);
  const Part *left = design_nth (design, PART_CHAMBER, place);
  const Part *right = design_nth (design, PART_CHAMBER, place + 1);

  if (!has_pump (design, right))
    return remove_pair (design, right, baffle, ret_problem);
  if (!has_pump (design, left))
    return remove_pair (design, left, baffle, ret_problem);
  return refuse (baffle, PROBLEM_HAS_CHILDREN, ret_problem);
}

Design *
edit_remove (const Design *design, const char *key, Problem *ret_problem)
{
  const Part *part = key != NULL ? design_find (design, key) : NULL;
  const Part *target = NULL;
  Draft *draft;

  if (part == NULL) {
    problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
    return NULL;
  }
  if (part_kind (part) == PART_CHAMBER)
    return remove_chamber (design, part, ret_problem);
  if (part_kind (part) == PART_BAFFLE)
    return remove_baffle (design, part, ret_problem);
  if (part_kind (part) == PART_CORNER)
    return edit_remove_corner (design, part, ret_problem);
  if (part_kind (part) == PART_OUTLET)
    return edit_remove_outlet (design, part, ret_problem);
  if (part_kind (part) == PART_DEVICE)
    return edit_remove_device (design, part, ret_problem);
  if (part_kind (part) == PART_PUMP)
    return edit_remove_pump (design, part, ret_problem);
  if (part_kind (part) == PART_TEE)
    return refuse (part, PROBLEM_HAS_CHILDREN, ret_problem);
  if (part_kind (part) == PART_RETURN)
    target = design_target (design, part, FIELD_RETURN_TO);
  if (target != NULL && part_kind (target) == PART_OUTLET)
    return edit_remove_outlet (design, target, ret_problem);
  if (target != NULL && part_kind (target) == PART_DEVICE)
    return edit_remove_branch (design, part, ret_problem);
  if (part_kind (part) == PART_RETURN)
    return refuse (part, PROBLEM_HAS_CHILDREN, ret_problem);
  draft = draft_new (design);
  return edit_finish (draft, draft_remove (draft, key, ret_problem), NULL, NULL, ret_problem);
}

bool
edit_can_remove (const Design *design, const char *key)
{
  g_autoptr (Design) without = edit_remove (design, key, NULL);

  return without != NULL;
}
