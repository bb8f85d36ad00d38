/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The calculation behind every verdict, step by step with its sources: what `downcomer explain` prints and the last
 * pages of the sheets show. The numbers are those of the trace, never computed again. */
#pragma once

#include "report/words.h"

/* One step in words; all strings owned. */
typedef struct {
  char *heading; /* what is computed, of which part, in which state */
  char *formula; /* in symbols */
  char *values;  /* "Q = 3,200 L/h (flow), L = 500 mm (crest length)" */
  char *result;  /* "h = 12.4 mm (head over the crest)" */
  char *source;
} ExplainStep;

/* All steps of a trace, in its order, as an array of ExplainStep with its free function set. */
GPtrArray *explain_steps (const Design *design, const Trace *trace, const NumberStyle *style);

/* Those of the kinds in `ids` (ended by N_STEPS, the governing one first; NULL: all) that concern a part: itself and what
 * it owns, else the part it belongs to, else all parts; -1 is the whole system. With `ids` the state with a plugged siphon
 * break is left out: it is a test of the same steps. */
GPtrArray *explain_steps_of (const Design *design, const Trace *trace, int part, const StepId *ids,
                             const NumberStyle *style);

/* Fields in use that nobody gave: "Salinity of Room and water: 35 g/kg (common practice, reef)", one string each. Only
 * numbers and choices of parts that the solver reads. */
GPtrArray *explain_assumptions (const Design *design, const Catalogue *catalogue, const NumberStyle *style);

/* A line of the drain-back in words ("Display from 1,413 mm to the crest"), and the name of a state of the system. */
char *explain_back_line (const Design *design, const BackLine *line);
const char *explain_scenario (Scenario scenario);

/* Everything as plain text: verdict, findings, assumptions, what is uncertain, steps, drain-back litre by litre with its sum. */
char *explain_text (const Design *design, const Catalogue *catalogue, const Evaluation *evaluation,
                    const Trace *trace, const NumberStyle *style);
