/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A design: the whole aquarium system as one immutable, reference-counted value, an array of parts in a fixed order.
 * It is read here, made and changed by a Draft (draft.h), measured by geometry.h and judged by the solver.
 * Lengths are in metres; x runs along the front from the left end of the stand's inside, y from its front to the
 * back, z up from the room floor. */
#pragma once

#include "design/part.h"

Design *design_ref (Design *design);
void design_unref (Design *design);

/* Parts in file order: by kind, then in the order in which they were added. */
unsigned design_n_parts (const Design *design);
const Part *design_part (const Design *design, unsigned index);

/* The part with this key, or NULL; its index, or -1. */
const Part *design_find (const Design *design, const char *key);
int design_index (const Design *design, const char *key);

/* The n-th part of a kind (n from 0) or NULL, and how many there are. */
const Part *design_nth (const Design *design, PartKind kind, unsigned n);
unsigned design_count (const Design *design, PartKind kind);

/* The n-th part of a kind owned by `owner` (a key) or NULL, and how many there are. */
const Part *design_child (const Design *design, const char *owner, PartKind kind, unsigned n);
unsigned design_n_children (const Design *design, const char *owner, PartKind kind);

/* The owner of a part, or NULL. */
const Part *design_owner (const Design *design, const Part *part);

/* The value of a numeric field (number, choice, flag): the given one, or its default. Always finite. */
double design_number (const Design *design, const Part *part, FieldId field);

/* The same, rounded to an int, for choices and flags. */
int design_choice (const Design *design, const Part *part, FieldId field);

/* Whether a field says something by what else was chosen: the gap of a toothed weir, the tubes of a hang-over siphon box,
 * the head loss of a device that a return run feeds. A field that does not apply keeps its value, and nothing reads it. */
bool design_applies (const Design *design, const Part *part, FieldId field);

/* The value of a text field: the given one, or its default, or NULL where it has none. */
const char *design_text (const Design *design, const Part *part, FieldId field);

/* The part that a FIELD_REF names, or NULL. */
const Part *design_target (const Design *design, const Part *part, FieldId field);

/* True when both hold equal parts in the same order. */
bool design_equal (const Design *a, const Design *b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Design, design_unref)
