/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the two halves of the edits share: edit.c (parts) and edit-runs.c (pipes). Inside the design folder only. */
#pragma once

#include "design/edit.h"

/* Commits a draft where `ok`, frees it, and hands out the key of the part that was added. */
Design *edit_finish (Draft *draft, bool ok, const char *key, char *ret_key, Problem *ret_problem);

/* The part of this key and kind, or NULL with the problem. */
const Part *edit_find (const Design *design, const char *key, PartKind kind, Problem *ret_problem);

/* Copies every given field of a part to another part of the same kind in the draft. */
bool edit_copy_fields (Draft *draft, const Part *from, const char *to, Problem *ret_problem);

/* Place of a part among all of its kind. */
unsigned edit_place (const Design *design, const Part *part);

/* edit-runs.c */
Design *edit_remove_corner (const Design *design, const Part *corner, Problem *ret_problem);
Design *edit_remove_outlet (const Design *design, const Part *outlet, Problem *ret_problem);
