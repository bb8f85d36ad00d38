/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inside of a part, for the design folder only. */
#pragma once

#include "design/part.h"

/* Strings are GRefStrings, shared between the versions of a part. */
typedef struct {
  bool given;
  double number;
  char *text;
} StoredValue;

struct _Part {
  gatomicrefcount references;
  PartKind kind;
  guint hash; /* of the key */
  char *key, *label, *owner;
  StoredValue values[]; /* field_count (kind) of them */
};

/* A part in which every field is unknown; a copy that shares its strings. Both are owned by the caller. */
Part *part_new (PartKind kind, const char *key, const char *label, const char *owner);
Part *part_clone (const Part *part);

/* Changes a part that nobody else holds yet. */
void part_put_number (Part *part, FieldId field, double number);
void part_put_text (Part *part, FieldId field, const char *text);
void part_clear (Part *part, FieldId field);
void part_put_label (Part *part, const char *label);
void part_put_owner (Part *part, const char *owner);
