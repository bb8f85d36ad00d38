/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/draft.h"

#include <math.h>
#include <string.h>

#include "design/curve.h"
#include "design/design-private.h"
#include "design/part-private.h"
#include "design/well-formed.h"

typedef struct {
  Part *part;
  guint hash; /* of its key, so that looking for one reads the slots alone */
  bool own;   /* nobody else holds it yet */
} Slot;

struct _Draft {
  GArray *slots; /* of Slot, ordered by kind */
};

static Slot *
slot_at (const Draft *draft, unsigned index)
{
  return &g_array_index (draft->slots, Slot, index);
}

static int
slot_find (const Draft *draft, const char *key)
{
  const guint hash = key != NULL ? g_str_hash (key) : 0;

  for (unsigned i = 0; key != NULL && i < draft->slots->len; i++) {
    const Slot *slot = slot_at (draft, i);

    if (slot->hash == hash && g_str_equal (part_key (slot->part), key))
      return (int) i;
  }
  return -1;
}

static unsigned
count_kind (const Draft *draft, PartKind kind)
{
  unsigned count = 0;

  for (unsigned i = 0; i < draft->slots->len; i++)
    count += part_kind (slot_at (draft, i)->part) == kind;
  return count;
}

Draft *
draft_new (const Design *base)
{
  Draft *draft = g_new0 (Draft, 1);

  draft->slots = g_array_sized_new (FALSE, FALSE, sizeof (Slot), base != NULL ? base->n + 1 : 1);
  for (unsigned i = 0; base != NULL && i < base->n; i++) {
    const Slot slot = {.part = part_ref (base->parts[i]), .hash = base->parts[i]->hash, .own = false};

    g_array_append_val (draft->slots, slot);
  }
  return draft;
}

void
draft_free (Draft *draft)
{
  if (draft == NULL)
    return;
  for (unsigned i = 0; i < draft->slots->len; i++)
    part_unref (slot_at (draft, i)->part);
  g_array_unref (draft->slots);
  g_free (draft);
}

/* A key that is free: the kind's word, with a number where it is taken. */
static char *
make_key (const Draft *draft, PartKind kind)
{
  char *key = g_strdup (part_kind_word (kind));

  for (unsigned n = 2; slot_find (draft, key) >= 0; n++) {
    g_free (key);
    key = g_strdup_printf ("%s-%u", part_kind_word (kind), n);
  }
  return key;
}

bool
draft_add (Draft *draft, PartKind kind, const char *key, const char *label, const char *owner,
           const char **ret_key, Problem *ret_problem)
{
  g_autofree char *made = key == NULL ? make_key (draft, kind) : NULL;
  const char *chosen = key != NULL ? key : made;
  Slot slot = {.own = true};
  unsigned index = 0;

  if (!key_is_good (chosen))
    return problem_set (ret_problem, PROBLEM_BAD_KEY, chosen, kind, N_FIELDS, 0);
  if (slot_find (draft, chosen) >= 0)
    return problem_set (ret_problem, PROBLEM_DUPLICATE_KEY, chosen, kind, N_FIELDS, 0);
  if (label != NULL && !text_is_good (label))
    return problem_set (ret_problem, PROBLEM_BAD_TEXT, chosen, kind, N_FIELDS, 0);
  if (draft->slots->len >= MAX_PARTS || count_kind (draft, kind) >= part_kind_limit (kind))
    return problem_set (ret_problem, PROBLEM_TOO_MANY, chosen, kind, N_FIELDS, part_kind_limit (kind));

  slot.part = part_new (kind, chosen, label, owner);
  slot.hash = slot.part->hash;
  while (index < draft->slots->len && part_kind (slot_at (draft, index)->part) <= kind)
    index++;
  g_array_insert_val (draft->slots, index, slot);
  if (ret_key != NULL)
    *ret_key = part_key (slot.part);
  return true;
}

/* The part of a slot for writing: cloned on its first touch. */
static Part *
touch (Draft *draft, unsigned index)
{
  Slot *slot = slot_at (draft, index);

  if (!slot->own) {
    Part *copy = part_clone (slot->part);

    part_unref (slot->part);
    *slot = (Slot){.part = copy, .hash = copy->hash, .own = true};
  }
  return slot->part;
}

/* References to a part that is gone become unknown. */
static void
forget (Draft *draft, const char *key)
{
  for (unsigned i = 0; i < draft->slots->len; i++) {
    const PartKind kind = part_kind (slot_at (draft, i)->part);

    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      const FieldValue value = part_value (slot_at (draft, i)->part, id);

      if (field_info (id)->type == FIELD_REF && value.given && g_strcmp0 (value.text, key) == 0)
        part_clear (touch (draft, i), id);
    }
  }
}

bool
draft_remove (Draft *draft, const char *key, Problem *ret_problem)
{
  const int index = slot_find (draft, key);
  g_autofree char *gone = g_strdup (key);

  if (index < 0)
    return problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
  part_unref (slot_at (draft, (unsigned) index)->part);
  g_array_remove_index (draft->slots, (unsigned) index);
  for (unsigned i = draft->slots->len; i-- > 0;) {
    if (i >= draft->slots->len)
      continue;
    const Part *part = slot_at (draft, i)->part;

    if (g_strcmp0 (part_owner (part), gone) == 0)
      draft_remove (draft, part_key (part), NULL);
  }
  forget (draft, gone);
  return true;
}

bool
draft_move (Draft *draft, const char *key, unsigned position, Problem *ret_problem)
{
  const int index = slot_find (draft, key);
  unsigned first = 0;
  Slot slot;

  if (index < 0)
    return problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
  slot = *slot_at (draft, (unsigned) index);
  while (part_kind (slot_at (draft, first)->part) != part_kind (slot.part))
    first++;
  position = MIN (position, count_kind (draft, part_kind (slot.part)) - 1);
  g_array_remove_index (draft->slots, (unsigned) index);
  g_array_insert_val (draft->slots, first + position, slot);
  return true;
}

static bool
check_number (const FieldInfo *info, const char *key, double value, Problem *ret_problem)
{
  double least = info->min, most = info->max;

  if (info->type == FIELD_CHOICE || info->type == FIELD_FLAG) {
    least = 0;
    most = -1;
    while (info->choices[(int) most + 1].word != NULL)
      most++;
    if (!(value >= least && value <= most && floor (value) >= value))
      return problem_set (ret_problem, PROBLEM_BAD_CHOICE, key, info->kind, info->id, value);
    return true;
  }
  if (info->type != FIELD_NUMBER)
    return problem_set (ret_problem, PROBLEM_WRONG_TYPE, key, info->kind, info->id, value);
  if (!isfinite (value))
    return problem_set (ret_problem, PROBLEM_NOT_FINITE, key, info->kind, info->id, value);
  if (value < least)
    return problem_set (ret_problem, PROBLEM_TOO_SMALL, key, info->kind, info->id, least);
  if (value > most)
    return problem_set (ret_problem, PROBLEM_TOO_LARGE, key, info->kind, info->id, most);
  return true;
}

/* The slot of a part that has this field, or -1 with the problem. */
static int
slot_with_field (const Draft *draft, const char *key, FieldId field, Problem *ret_problem)
{
  const int index = slot_find (draft, key);

  if (index < 0) {
    problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
    return -1;
  }
  if (field_info (field)->kind != part_kind (slot_at (draft, (unsigned) index)->part)) {
    problem_set (ret_problem, PROBLEM_UNKNOWN_FIELD, key, part_kind (slot_at (draft, (unsigned) index)->part),
                 field, 0);
    return -1;
  }
  return index;
}

bool
draft_set_number (Draft *draft, const char *key, FieldId field, double value, Problem *ret_problem)
{
  const int index = slot_with_field (draft, key, field, ret_problem);

  if (index < 0 || !check_number (field_info (field), key, value, ret_problem))
    return false;
  part_put_number (touch (draft, (unsigned) index), field, value == 0 ? 0 : value);
  return true;
}

bool
draft_set_text (Draft *draft, const char *key, FieldId field, const char *text, Problem *ret_problem)
{
  const FieldInfo *info = field_info (field);
  const int index = slot_with_field (draft, key, field, ret_problem);
  g_autofree char *curve = NULL;

  if (index < 0)
    return false;
  if (info->type == FIELD_NUMBER || info->type == FIELD_CHOICE || info->type == FIELD_FLAG)
    return problem_set (ret_problem, PROBLEM_WRONG_TYPE, key, info->kind, field, 0);
  if (!text_is_good (text) || (text[0] == '\0' && info->type != FIELD_TEXT))
    return problem_set (ret_problem, PROBLEM_BAD_TEXT, key, info->kind, field, 0);
  if (info->type == FIELD_CURVE) {
    curve = curve_canonical (text);
    if (curve == NULL)
      return problem_set (ret_problem, PROBLEM_BAD_CURVE, key, info->kind, field, 0);
    text = curve;
  }
  part_put_text (touch (draft, (unsigned) index), field, text);
  return true;
}

bool
draft_unset (Draft *draft, const char *key, FieldId field, Problem *ret_problem)
{
  const int index = slot_with_field (draft, key, field, ret_problem);

  if (index < 0)
    return false;
  part_clear (touch (draft, (unsigned) index), field);
  return true;
}

bool
draft_set_label (Draft *draft, const char *key, const char *label, Problem *ret_problem)
{
  const int index = slot_find (draft, key);

  if (index < 0)
    return problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
  if (label != NULL && !text_is_good (label))
    return problem_set (ret_problem, PROBLEM_BAD_TEXT, key,
                        part_kind (slot_at (draft, (unsigned) index)->part), N_FIELDS, 0);
  part_put_label (touch (draft, (unsigned) index), label);
  return true;
}

bool
draft_set_owner (Draft *draft, const char *key, const char *owner, Problem *ret_problem)
{
  const int index = slot_find (draft, key);

  if (index < 0)
    return problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
  part_put_owner (touch (draft, (unsigned) index), owner);
  return true;
}

Design *
draft_commit (Draft *draft, Problem *ret_problem)
{
  const unsigned n = draft->slots->len;
  g_autofree Part **parts = g_new (Part *, MAX (n, 1));
  g_autoptr (Design) design = NULL;

  for (unsigned i = 0; i < n; i++) {
    parts[i] = slot_at (draft, i)->part;
    slot_at (draft, i)->own = false; /* the design holds it from now on */
  }
  design = design_new (parts, n);
  return design_is_well_formed (design, ret_problem) ? g_steal_pointer (&design) : NULL;
}

static Design *
commit_and_free (Draft *draft, bool ok, Problem *ret_problem)
{
  Design *design = ok ? draft_commit (draft, ret_problem) : NULL;

  draft_free (draft);
  return design;
}

Design *
design_with_number (const Design *design, const char *key, FieldId field, double value, Problem *ret_problem)
{
  Draft *draft = draft_new (design);

  return commit_and_free (draft, draft_set_number (draft, key, field, value, ret_problem), ret_problem);
}

Design *
design_with_text (const Design *design, const char *key, FieldId field, const char *text,
                  Problem *ret_problem)
{
  Draft *draft = draft_new (design);

  return commit_and_free (draft, draft_set_text (draft, key, field, text, ret_problem), ret_problem);
}

Design *
design_without (const Design *design, const char *key, FieldId field, Problem *ret_problem)
{
  Draft *draft = draft_new (design);

  return commit_and_free (draft, draft_unset (draft, key, field, ret_problem), ret_problem);
}
