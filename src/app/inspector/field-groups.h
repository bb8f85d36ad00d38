/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How the inspector arranges the fields of a part: in groups, the ones that most designs set first. A field that is not
 * named here is grouped by what it measures and stands under "More", so a new field needs no change. */
#pragma once

#include "design/field.h"

typedef enum {
  FIELD_GROUP_KIND,   /* what it is: choices, names, references, catalogue */
  FIELD_GROUP_LEVELS, /* heights above the part's datum */
  FIELD_GROUP_SIZES,
  FIELD_GROUP_WORKING, /* flows, powers, water, what is wanted */
  FIELD_GROUP_PLACE,
  N_FIELD_GROUPS
} FieldGroup;

FieldGroup field_group (FieldId field);

/* Translated heading; "" for the first group, which needs none. */
const char *field_group_name (FieldGroup group);

/* True for what most designs set: shown at once. */
bool field_is_primary (FieldId field);
