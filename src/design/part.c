/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/part.h"

#include <string.h>

#include "design/part-private.h"

static char *
string_share (char *string)
{
  return string != NULL ? g_ref_string_acquire (string) : NULL;
}

static char *
string_take (const char *text)
{
  return text != NULL ? g_ref_string_new (text) : NULL;
}

static void
string_drop (char *string)
{
  if (string != NULL)
    g_ref_string_release (string);
}

static StoredValue *
stored (const Part *part, FieldId field)
{
  const FieldId first = field_first (part->kind);

  g_assert (field >= first && field < first + field_count (part->kind));
  return (StoredValue *) &part->values[field - first];
}

Part *
part_new (PartKind kind, const char *key, const char *label, const char *owner)
{
  Part *part = g_malloc0 (sizeof (Part) + field_count (kind) * sizeof (StoredValue));

  g_atomic_ref_count_init (&part->references);
  part->kind = kind;
  part->key = string_take (key);
  part->hash = key != NULL ? g_str_hash (key) : 0;
  part->label = string_take (label);
  part->owner = string_take (owner);
  return part;
}

Part *
part_clone (const Part *part)
{
  const size_t n = field_count (part->kind);
  Part *copy = g_malloc0 (sizeof (Part) + n * sizeof (StoredValue));

  g_atomic_ref_count_init (&copy->references);
  copy->kind = part->kind;
  copy->key = string_share (part->key);
  copy->hash = part->hash;
  copy->label = string_share (part->label);
  copy->owner = string_share (part->owner);
  for (size_t i = 0; i < n; i++) {
    copy->values[i] = part->values[i];
    copy->values[i].text = string_share (part->values[i].text);
  }
  return copy;
}

Part *
part_ref (Part *part)
{
  g_atomic_ref_count_inc (&part->references);
  return part;
}

void
part_unref (Part *part)
{
  if (part == NULL || !g_atomic_ref_count_dec (&part->references))
    return;
  for (size_t i = 0; i < field_count (part->kind); i++)
    string_drop (part->values[i].text);
  string_drop (part->key);
  string_drop (part->label);
  string_drop (part->owner);
  g_free (part);
}

void
part_put_number (Part *part, FieldId field, double number)
{
  StoredValue *value = stored (part, field);

  value->given = true;
  value->number = number;
}

void
part_put_text (Part *part, FieldId field, const char *text)
{
  StoredValue *value = stored (part, field);
  char *taken = string_take (text);

  string_drop (value->text);
  value->given = true;
  value->text = taken;
}

void
part_clear (Part *part, FieldId field)
{
  StoredValue *value = stored (part, field);

  string_drop (value->text);
  *value = (StoredValue){0};
}

void
part_put_label (Part *part, const char *label)
{
  char *taken = string_take (label);

  string_drop (part->label);
  part->label = taken;
}

void
part_put_owner (Part *part, const char *owner)
{
  char *taken = string_take (owner);

  string_drop (part->owner);
  part->owner = taken;
}

PartKind
part_kind (const Part *part)
{
  return part->kind;
}

const char *
part_key (const Part *part)
{
  return part->key;
}

const char *
part_label (const Part *part)
{
  return part->label;
}

const char *
part_owner (const Part *part)
{
  return part->owner;
}

bool
part_is_given (const Part *part, FieldId field)
{
  return stored (part, field)->given;
}

FieldValue
part_value (const Part *part, FieldId field)
{
  const StoredValue *value = stored (part, field);

  return (FieldValue){.given = value->given, .number = value->number, .text = value->text};
}

bool
part_equal (const Part *a, const Part *b)
{
  if (a == b)
    return true;
  if (a->kind != b->kind || g_strcmp0 (a->key, b->key) != 0 || g_strcmp0 (a->label, b->label) != 0 ||
      g_strcmp0 (a->owner, b->owner) != 0)
    return false;
  for (size_t i = 0; i < field_count (a->kind); i++) {
    const StoredValue *x = &a->values[i], *y = &b->values[i];

    if (x->given != y->given || x->number < y->number || x->number > y->number ||
        g_strcmp0 (x->text, y->text) != 0)
      return false;
  }
  return true;
}
