/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/design.h"

#include <math.h>
#include <string.h>

#include "design/design-private.h"
#include "design/part-private.h"

/* Where in the table a key stands, or is to stand. Looking parts up by key is most of what edits and measures do. */
static unsigned
place_of (const Design *design, const char *key, guint hash)
{
  unsigned place = hash & design->mask;

  while (design->by_key[place] != 0) {
    const Part *part = design->parts[design->by_key[place] - 1];

    if (part->hash == hash && strcmp (part->key, key) == 0)
      break;
    place = (place + 1) & design->mask;
  }
  return place;
}

static int
owner_index (const Design *design, const char *owner)
{
  return owner != NULL ? design_index (design, owner) : NO_OWNER;
}

Design *
design_new (Part *const *parts, unsigned n)
{
  Design *design = g_new0 (Design, 1);
  PartKind kind = 0;

  g_atomic_ref_count_init (&design->references);
  design->n = n;
  design->parts = g_new (Part *, n);
  while (design->mask <= 2 * n)
    design->mask = 2 * design->mask + 1;
  design->by_key = g_new0 (guint16, design->mask + 1);
  for (unsigned i = 0; i < n; i++) {
    design->parts[i] = part_ref (parts[i]);
    design->by_key[place_of (design, part_key (parts[i]), parts[i]->hash)] = (guint16) (i + 1);
    while (kind <= part_kind (parts[i]))
      design->start[kind++] = i;
  }
  while (kind <= N_PART_KINDS)
    design->start[kind++] = n;
  design->owners = g_new (int, n);
  for (unsigned i = 0; i < n; i++)
    design->owners[i] = owner_index (design, part_owner (design->parts[i]));
  return design;
}

Design *
design_ref (Design *design)
{
  g_atomic_ref_count_inc (&design->references);
  return design;
}

void
design_unref (Design *design)
{
  if (design == NULL || !g_atomic_ref_count_dec (&design->references))
    return;
  for (unsigned i = 0; i < design->n; i++)
    part_unref (design->parts[i]);
  g_free (design->parts);
  g_free (design->by_key);
  g_free (design->owners);
  g_free (design);
}

unsigned
design_n_parts (const Design *design)
{
  return design->n;
}

const Part *
design_part (const Design *design, unsigned index)
{
  g_assert (index < design->n);
  return design->parts[index];
}

int
design_index (const Design *design, const char *key)
{
  return key != NULL ? (int) design->by_key[place_of (design, key, g_str_hash (key))] - 1 : -1;
}

const Part *
design_find (const Design *design, const char *key)
{
  const int index = design_index (design, key);

  return index >= 0 ? design->parts[index] : NULL;
}

unsigned
design_count (const Design *design, PartKind kind)
{
  return design->start[kind + 1] - design->start[kind];
}

const Part *
design_nth (const Design *design, PartKind kind, unsigned n)
{
  return n < design_count (design, kind) ? design->parts[design->start[kind] + n] : NULL;
}

const Part *
design_child (const Design *design, const char *owner, PartKind kind, unsigned n)
{
  const int index = owner_index (design, owner);

  for (unsigned i = design->start[kind]; i < design->start[kind + 1] && index != -1; i++)
    if (design->owners[i] == index && n-- == 0)
      return design->parts[i];
  return NULL;
}

unsigned
design_n_children (const Design *design, const char *owner, PartKind kind)
{
  const int index = owner_index (design, owner);
  unsigned count = 0;

  for (unsigned i = design->start[kind]; i < design->start[kind + 1] && index != -1; i++)
    count += design->owners[i] == index;
  return count;
}

const Part *
design_owner (const Design *design, const Part *part)
{
  return design_find (design, part_owner (part));
}

double
design_number (const Design *design, const Part *part, FieldId field)
{
  const FieldInfo *info = field_info (field);
  const FieldValue value = part_value (part, field);
  double number = value.given          ? value.number
                  : info->rule != NULL ? info->rule (design, part)
                                       : info->fallback;

  if (!value.given && info->type == FIELD_NUMBER)
    number = fmin (fmax (number, info->min), info->max);
  return number;
}

int
design_choice (const Design *design, const Part *part, FieldId field)
{
  return (int) lround (design_number (design, part, field));
}

const char *
design_text (const Design *design, const Part *part, FieldId field)
{
  const FieldInfo *info = field_info (field);
  const FieldValue value = part_value (part, field);

  if (value.given)
    return value.text;
  return info->text_rule != NULL ? info->text_rule (design, part) : info->fallback_text;
}

const Part *
design_target (const Design *design, const Part *part, FieldId field)
{
  return design_find (design, design_text (design, part, field));
}

bool
design_equal (const Design *a, const Design *b)
{
  if (a == b)
    return true;
  if (a->n != b->n)
    return false;
  for (unsigned i = 0; i < a->n; i++)
    if (!part_equal (a->parts[i], b->parts[i]))
      return false;
  return true;
}
