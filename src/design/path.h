/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Field paths, "<key>.<field>": one way for command line, findings and remedies to name a value. */
#pragma once

#include "design/draft.h"

/* Finds part and field of a path. Returns false with PROBLEM_UNKNOWN_PART or PROBLEM_UNKNOWN_FIELD. */
bool path_resolve (const Design *design, const char *path, const Part **ret_part, FieldId *ret_field,
                   Problem *ret_problem);

/* The canonical text of a value: SI number as the shortest decimal, choice word, no/yes, key or text.
 * Returns NULL where it is unknown and has no default. Newly allocated. */
char *path_value_text (const Design *design, const Part *part, FieldId field);

/* Parses canonical text for a field into a draft: the inverse of path_value_text. */
bool path_set_text (Draft *draft, const char *key, FieldId field, const char *text, Problem *ret_problem);
