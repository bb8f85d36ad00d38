/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A draft: a design being changed. It clones a part on its first touch and checks the invariants on commit, so that a
 * Design is always well-formed. A refused call changes nothing and tells why as a Problem. */
#pragma once

#include "design/design.h"
#include "design/problem.h"

typedef struct _Draft Draft;

/* A draft of `base`, or of an empty design where `base` is NULL. */
Draft *draft_new (const Design *base);
void draft_free (Draft *draft);

/* Adds a part at the end of its kind. `key` NULL makes one from the kind's word; `label` and `owner` may be NULL.
 * The new key is returned through `ret_key` (owned by the draft, valid until it is freed) where it is not NULL. */
bool draft_add (Draft *draft, PartKind kind, const char *key, const char *label, const char *owner,
                const char **ret_key, Problem *ret_problem);

/* Removes a part with all that it owns; references to it become unknown. */
bool draft_remove (Draft *draft, const char *key, Problem *ret_problem);

/* Moves a part to place `position` (from 0) among the parts of its kind. */
bool draft_move (Draft *draft, const char *key, unsigned position, Problem *ret_problem);

/* Sets a number, choice (index) or flag; a text, reference, size or curve; or makes a field unknown again. */
bool draft_set_number (Draft *draft, const char *key, FieldId field, double value, Problem *ret_problem);
bool draft_set_text (Draft *draft, const char *key, FieldId field, const char *text, Problem *ret_problem);
bool draft_unset (Draft *draft, const char *key, FieldId field, Problem *ret_problem);
bool draft_set_label (Draft *draft, const char *key, const char *label, Problem *ret_problem);

/* Gives a part to another owner; whether that is one of the right kind is checked on commit (PROBLEM_BAD_OWNER). */
bool draft_set_owner (Draft *draft, const char *key, const char *owner, Problem *ret_problem);

/* Checks the invariants and returns the new design, or NULL with the first problem. The draft stays usable. */
Design *draft_commit (Draft *draft, Problem *ret_problem);

/* One-step edits: the changed design, or NULL with the problem. */
Design *design_with_number (const Design *design, const char *key, FieldId field, double value,
                            Problem *ret_problem);
Design *design_with_text (const Design *design, const char *key, FieldId field, const char *text,
                          Problem *ret_problem);
Design *design_without (const Design *design, const char *key, FieldId field, Problem *ret_problem);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Draft, draft_free)
