/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/fragment.h"

#include <math.h>

#include "design/edit-private.h"

#define ASIDE_M 0.1 /* of a fitting from the one that it was copied from */

/* The design that it was copied from is itself a value, so a fragment is that and the keys of the chosen parts. */
struct _Fragment {
  gatomicrefcount references;
  Design *design;
  GPtrArray *keys;
};

static bool
is_chosen (const char *const *keys, unsigned n, const char *key)
{
  for (unsigned i = 0; i < n; i++)
    if (g_strcmp0 (keys[i], key) == 0)
      return true;
  return false;
}

static bool
may_copy (const Part *part)
{
  const unsigned kinds = 1u << PART_DEVICE | 1u << PART_FITTING | 1u << PART_DRAIN | 1u << PART_OUTLET;

  return part != NULL && (kinds & 1u << part_kind (part)) != 0;
}

Fragment *
fragment_new (Design *design, const char *const *keys, unsigned n)
{
  Fragment *fragment = g_new0 (Fragment, 1);

  g_atomic_ref_count_init (&fragment->references);
  fragment->design = design_ref (design);
  fragment->keys = g_ptr_array_new_with_free_func (g_free);
  for (unsigned i = 0; i < n && fragment->keys->len < MAX_FRAGMENT_PARTS; i++) {
    const Part *part = keys[i] != NULL ? design_find (design, keys[i]) : NULL;
    const Part *owner = part != NULL ? design_owner (design, part) : NULL;
    const bool comes_along =
        may_copy (owner) && part_kind (owner) == PART_DRAIN && is_chosen (keys, n, part_key (owner));

    if (may_copy (part) && !comes_along)
      g_ptr_array_add (fragment->keys, g_strdup (keys[i]));
  }
  if (fragment->keys->len == 0)
    g_clear_pointer (&fragment, fragment_unref);
  return fragment;
}

Fragment *
fragment_ref (Fragment *fragment)
{
  g_atomic_ref_count_inc (&fragment->references);
  return fragment;
}

void
fragment_unref (Fragment *fragment)
{
  if (fragment == NULL || !g_atomic_ref_count_dec (&fragment->references))
    return;
  design_unref (fragment->design);
  g_ptr_array_unref (fragment->keys);
  g_free (fragment);
}

unsigned
fragment_n_parts (const Fragment *fragment)
{
  return fragment->keys->len;
}

static bool
may_own (const Part *owner, PartKind kind)
{
  return owner != NULL && (part_kind_owners (kind) & 1u << part_kind (owner)) != 0;
}

/* Who gets a part: the target or its owner, else the owner as before, else the first that may. */
static const Part *
new_owner (const Design *design, const char *target, const Part *part)
{
  const PartKind kind = part_kind (part);

  for (const Part *at = target != NULL ? design_find (design, target) : NULL; at != NULL;
       at = design_owner (design, at))
    if (may_own (at, kind))
      return at;
  const Part *before = design_find (design, part_owner (part));

  if (may_own (before, kind))
    return before;
  for (unsigned i = 0; i < design_n_parts (design); i++)
    if (may_own (design_part (design, i), kind))
      return design_part (design, i);
  return NULL;
}

static Design *
paste_device (const Design *design, const Part *device, const Design *from, const Part *chamber,
              char *ret_key, Problem *ret_problem)
{
  const double length_m = design_number (from, device, FIELD_DEVICE_LENGTH);
  const double x = edit_place_in_chamber (design, chamber, length_m);
  Draft *draft = draft_new (design);
  const char *key = NULL;
  const bool ok =
      draft_add (draft, PART_DEVICE, NULL, part_label (device), part_key (chamber), &key, ret_problem) &&
      edit_copy_fields (draft, device, key, ret_problem) &&
      draft_set_number (draft, key, FIELD_DEVICE_X, x, ret_problem);

  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

static Design *
paste_fitting (const Design *design, const Part *fitting, const Design *from, const Part *run, char *ret_key,
               Problem *ret_problem)
{
  const double length_m = geometry_run_length (design, run);
  double station_m = design_number (from, fitting, FIELD_FITTING_STATION);
  Draft *draft = draft_new (design);
  const char *key = NULL;

  if (g_strcmp0 (part_owner (fitting), part_key (run)) == 0)
    station_m += station_m + ASIDE_M < length_m ? ASIDE_M : -ASIDE_M;
  station_m = CLAMP (station_m, 0, length_m);
  const bool ok =
      draft_add (draft, PART_FITTING, NULL, part_label (fitting), part_key (run), &key, ret_problem) &&
      edit_copy_fields (draft, fitting, key, ret_problem) &&
      draft_set_number (draft, key, FIELD_FITTING_STATION, station_m, ret_problem);

  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

/* The middle of the widest gap between the mouths in a box. */
static double
mouth_gap (const Design *design, const Part *overflow)
{
  const unsigned n = design_n_children (design, part_key (overflow), PART_DRAIN);
  g_autofree EditSpan *taken = g_new (EditSpan, MAX (n, 1));

  for (unsigned i = 0; i < n; i++) {
    const double x =
        design_number (design, design_child (design, part_key (overflow), PART_DRAIN, i), FIELD_DRAIN_X);

    taken[i] = (EditSpan){x, x};
  }
  const EditSpan gap =
      edit_widest_gap ((EditSpan){0, geometry_drain_box (design, overflow).size.x}, taken, n);

  return (gap.from + gap.to) / 2;
}

static Design *
paste_drain (const Design *design, const Part *drain, const Design *from, const Part *overflow, char *ret_key,
             Problem *ret_problem)
{
  const Part *chamber = design_find (design, design_text (from, drain, FIELD_DRAIN_TO));
  const bool reaches = chamber != NULL && part_kind (chamber) == PART_CHAMBER;
  char made[MAX_KEY_BYTES + 1];
  Draft *draft = draft_new (design);
  const char *key = NULL;
  bool ok = draft_add (draft, PART_DRAIN, NULL, part_label (drain), part_key (overflow), &key, ret_problem) &&
            edit_copy_fields (draft, drain, key, ret_problem) &&
            (reaches || draft_unset (draft, key, FIELD_DRAIN_TO, ret_problem)) &&
            draft_unset (draft, key, FIELD_DRAIN_Y, ret_problem) &&
            draft_set_number (draft, key, FIELD_DRAIN_X, mouth_gap (design, overflow), ret_problem);
  g_autoptr (Design) hung = edit_finish (draft, ok, key, made, ret_problem);
  g_autoptr (Design) led =
      hung != NULL ? edit_lead_drains (hung, part_key (overflow), made, ret_problem) : NULL;

  if (led == NULL)
    return NULL;
  draft = draft_new (led);
  ok = edit_copy_fittings (draft, from, drain, led, design_find (led, made), true, ret_problem);
  return edit_finish (draft, ok, made, ret_key, ret_problem);
}

static Design *
paste_outlet (const Design *design, const Part *outlet, const Design *from, const Part *tank, char *ret_key,
              Problem *ret_problem)
{
  const Part *beside = design_find (design, part_key (outlet));
  char made[MAX_KEY_BYTES + 1];
  unsigned feeds = 0;

  if (beside == NULL || design_owner (design, beside) != tank || part_kind (beside) != PART_OUTLET)
    beside = design_child (design, part_key (tank), PART_OUTLET, 0);
  if (beside == NULL)
    beside = design_nth (design, PART_OUTLET, 0);
  const Part *run = edit_run_to (design, beside, &feeds);

  if (run == NULL) {
    problem_set (ret_problem, PROBLEM_MISSING_PART, part_key (beside), PART_RETURN, N_FIELDS, 0);
    return NULL;
  }
  g_autoptr (Design) hung = edit_add_branch (design, part_key (run), NAN, part_key (tank), made, ret_problem);

  if (hung == NULL)
    return NULL;
  static const FieldId fields[] = {FIELD_OUTLET_KIND,  FIELD_OUTLET_HEIGHT,       FIELD_OUTLET_BORE,
                                   FIELD_OUTLET_BREAK, FIELD_OUTLET_BREAK_HEIGHT, FIELD_OUTLET_BREAK_BORE};
  Draft *draft = draft_new (hung);
  const bool ok = edit_copy_some (draft, outlet, made, fields, G_N_ELEMENTS (fields), ret_problem) &&
                  draft_set_label (draft, made, part_label (outlet), ret_problem);

  return edit_finish (draft, ok, made, ret_key, ret_problem);
}

static Design *
paste_part (const Fragment *fragment, const char *of, const Design *design, const char *target, char *ret_key,
            Problem *ret_problem)
{
  const Part *part = design_find (fragment->design, of);
  const Part *owner = new_owner (design, target, part);

  if (owner == NULL) {
    problem_set (ret_problem, PROBLEM_BAD_OWNER, of, part_kind (part), N_FIELDS, 0);
    return NULL;
  }
  switch ((int) part_kind (part)) {
  case PART_DEVICE:
    return paste_device (design, part, fragment->design, owner, ret_key, ret_problem);
  case PART_FITTING:
    return paste_fitting (design, part, fragment->design, owner, ret_key, ret_problem);
  case PART_DRAIN:
    return paste_drain (design, part, fragment->design, owner, ret_key, ret_problem);
  case PART_OUTLET:
  default:
    return paste_outlet (design, part, fragment->design, owner, ret_key, ret_problem);
  }
}

Design *
fragment_paste (const Fragment *fragment, const Design *design, const char *target, char ***ret_keys,
                Problem *ret_problem)
{
  g_autoptr (Design) pasted = design_ref ((Design *) design);
  g_autoptr (GStrvBuilder) keys = g_strv_builder_new ();

  for (unsigned i = 0; i < fragment->keys->len; i++) {
    char key[MAX_KEY_BYTES + 1];
    Design *next =
        paste_part (fragment, g_ptr_array_index (fragment->keys, i), pasted, target, key, ret_problem);

    if (next == NULL)
      return NULL;
    design_unref (pasted);
    pasted = next;
    g_strv_builder_add (keys, key);
  }
  if (ret_keys != NULL)
    *ret_keys = g_strv_builder_end (keys);
  return g_steal_pointer (&pasted);
}

/* One part with what it owns, beside itself. */

static Design *
duplicate_copied (const Design *design, const Part *part, char *ret_key, Problem *ret_problem)
{
  const char *keys[] = {part_key (part)};
  g_autoptr (Fragment) fragment = fragment_new ((Design *) design, keys, 1);
  g_auto (GStrv) made = NULL;
  Design *changed = fragment_paste (fragment, design, part_owner (part), &made, ret_problem);

  return changed != NULL ? edit_give (changed, made[0], ret_key) : NULL;
}

static Design *
duplicate_candidate (const Design *design, const Part *part, char *ret_key, Problem *ret_problem)
{
  Draft *draft = draft_new (design);
  const char *key = NULL;
  const bool ok = draft_add (draft, PART_CANDIDATE, NULL, part_label (part), NULL, &key, ret_problem) &&
                  edit_copy_fields (draft, part, key, ret_problem);

  return edit_finish (draft, ok, key, ret_key, ret_problem);
}

Design *
edit_duplicate (const Design *design, const char *key, char *ret_key, Problem *ret_problem)
{
  const Part *part = key != NULL ? design_find (design, key) : NULL;

  if (part == NULL) {
    problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
    return NULL;
  }
  if (may_copy (part))
    return duplicate_copied (design, part, ret_key, ret_problem);
  switch ((int) part_kind (part)) {
  case PART_TANK:
    return edit_add_tank (design, key, EDIT_FEED_TEE, ret_key, ret_problem);
  case PART_OVERFLOW:
    return edit_copy_overflow (design, part, part_owner (part), ret_key, ret_problem);
  case PART_PUMP:
    return edit_add_pump (design, part_owner (part), EDIT_PUMP_OWN_OUTLET, NULL, ret_key, ret_problem);
  case PART_CHAMBER:
    return edit_divide_chamber (design, key, ret_key, ret_problem);
  case PART_CANDIDATE:
    return duplicate_candidate (design, part, ret_key, ret_problem);
  default:
    problem_set (ret_problem, PROBLEM_NOT_COPIED, key, part_kind (part), N_FIELDS, 0);
    return NULL;
  }
}

bool
edit_can_duplicate (const Design *design, const char *key)
{
  g_autoptr (Design) twice = edit_duplicate (design, key, NULL, NULL);

  return twice != NULL;
}
