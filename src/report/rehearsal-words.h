/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals in words: what fails, why it is not played, what happens, what it comes to and what would mend it. */
#pragma once

#include "solver/rehearsal-judge.h"
#include "units/format.h"

/* "Power cut"; translated, never NULL. */
const char *rehearsal_failure_name (FailureId failure);

/* What is played, as one sentence. */
const char *rehearsal_failure_meaning (FailureId failure);

/* Why a failure cannot happen to a design, as one sentence. */
const char *rehearsal_reason_sentence (FailureReason reason);

/* "Main drain blocked at once" or, of two, "Power cut + check valve stuck open". Newly allocated, as all that follow. */
char *rehearsal_name (const FailureId *together, unsigned n);

/* "The siphon draws air and runs full no more." */
char *rehearsal_event_sentence (const Design *design, const RehearsalEvent *event);

char *rehearsal_finding_sentence (const Design *design, const RehearsalFinding *finding,
                                  const NumberStyle *style);
char *rehearsal_remedy_sentence (const Design *design, const RehearsalRemedy *remedy,
                                 const NumberStyle *style);
