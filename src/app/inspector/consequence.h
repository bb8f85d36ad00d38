/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a value leads to, beside its entry: the head and freeboard that a crest gives, the velocity that a nozzle gives.
 * Read from the evaluation, never computed here. */
#pragma once

#include "report/words.h"

/* A short clause for a field of the part at an index of the design, or NULL where there is nothing to say or nothing
 * was computed. Free with g_free. */
char *consequence_words (const Design *design, const Evaluation *evaluation, int part, FieldId field,
                         const NumberStyle *style);

/* The kinds of steps of the calculation that the clause follows from, the governing one first, ended by N_STEPS; NULL
 * where it is read from the design without one. */
const StepId *consequence_steps (FieldId field);
