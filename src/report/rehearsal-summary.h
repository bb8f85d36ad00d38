/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What all rehearsals of a design come to, and what they assume, in a few sentences. */
#pragma once

#include "solver/rehearsal-judge.h"
#include "units/format.h"

/**
 * rehearsal_summary:
 * @rehearsed: (nullable): one failure each; NULL of a design that does not compile
 *
 * Returns: which failures put water on the floor, and within what time somebody must be there; newly allocated
 */
char *rehearsal_summary (const Rehearsed *rehearsed, unsigned n, const NumberStyle *style);

/* It puts water on the floor (not the last digit of the integration), if only with the pumps at the top of their
 * tolerance. */
bool rehearsal_spills (const Rehearsed *rehearsed);

/* The rehearsal that its figures come from: that of the likely flow, or where only the fast one spills, that. */
const Rehearsal *rehearsal_judged (const Rehearsed *rehearsed);

/* It can happen, and was played to its end. */
bool rehearsal_is_known (const Rehearsed *rehearsed);

/* "Played until all is at rest, or for 2 h at least; ...", newly allocated. */
char *rehearsal_assumptions (const FailureOptions *options, const NumberStyle *style);

/* What a rehearsal is not, and the test that must follow it. */
const char *rehearsal_caution (void);
