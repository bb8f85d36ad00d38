/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/design.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "design/design-private.h"

static int
compare_keys (const void *a, const void *b, void *data)
{
  Part *const *parts = data;

  return strcmp (part_key (parts[*(const guint16 *) a]), part_key (parts[*(const guint16 *) b]));
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
  design->by_key = g_new (guint16, n);
  for (unsigned i = 0; i < n; i++) {
    design->parts[i] = part_ref (parts[i]);
    design->by_key[i] = (guint16) i;
    while (kind <= part_kind (parts[i]))
      design->start[kind++] = i;
  }
  while (kind <= N_PART_KINDS)
    design->start[kind++] = n;
  g_qsort_with_data (design->by_key, (int) n, sizeof (guint16), compare_keys, design->parts);
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
  unsigned low = 0, high = design->n;

  while (key != NULL && low < high) {
    const unsigned middle = (low + high) / 2;
    const int order = strcmp (key, part_key (design->parts[design->by_key[middle]]));

    if (order == 0)
      return design->by_key[middle];
    if (order < 0)
      high = middle;
    else
      low = middle + 1;
  }
  return -1;
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
