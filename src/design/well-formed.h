/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The invariants of a design, checked on every commit. */
#pragma once

#include "design/draft.h"

/* True when the invariants hold; else the first problem. */
bool design_is_well_formed (const Design *design, Problem *ret_problem);

/* Fills a problem where it is asked for; always false, to be returned. */
bool problem_set (Problem *ret_problem, ProblemCode code, const char *key, PartKind kind, FieldId field,
                  double value);
