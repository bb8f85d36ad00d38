/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A part: one thing of a design (a tank, a run, a corner of a run) as an immutable, reference-counted value. It has a
 * kind, a key that is unique in its design and stored in the file, a label for people, the key of its owner (the
 * overflow of a drain, the sump of a chamber) and one value for each field of its kind, which may be unknown.
 * Parts are made and changed through a Draft (draft.h) and read through a Design (design.h). */
#pragma once

#include <stdbool.h>
#include <glib.h>

#include "design/field.h"

typedef struct _Part Part;

/* A value of a field. `number` serves numbers, choices (the index) and flags (0 or 1); `text` the other types. */
typedef struct {
  bool given;
  double number;
  const char *text;
} FieldValue;

Part *part_ref (Part *part);
void part_unref (Part *part);

PartKind part_kind (const Part *part);
const char *part_key (const Part *part);

/* The label given by the specialist, or NULL: the report layer then names the part by its kind. */
const char *part_label (const Part *part);

/* Key of the owner, or NULL for a part that stands by itself. */
const char *part_owner (const Part *part);

/* True when the field was given, false while it is unknown. The field must be of the part's kind. */
bool part_is_given (const Part *part, FieldId field);

/* The stored value; `given` is false and the rest zero where it is unknown. */
FieldValue part_value (const Part *part, FieldId field);

/* True when kind, key, label, owner and every field are equal (numbers compared exactly). */
bool part_equal (const Part *a, const Part *b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Part, part_unref)
