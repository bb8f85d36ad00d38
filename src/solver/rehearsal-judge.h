/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a rehearsal says of a design: findings as data, and remedies that were rehearsed themselves before they are
 * offered. */
#pragma once

#include "solver/scenario.h"

/* Freeboard that is wanted in the worst failure, m (common practice, as in the checks of the sump). */
#define REHEARSAL_FREEBOARD_M 0.010

/* X (id, word, quantity of value and limit, what they are). The word never changes. */
#define REHEARSAL_CHECKS(X)                                                                                  \
  X (SPILLS, "rehearsal-spills", VOLUME, "on the floor from this part; 0; time: first")                      \
  X (SPILLS_FAST, "rehearsal-spills-fast", VOLUME,                                                           \
     "the same with the pumps at their upper tolerance, where the likely flow keeps the floor dry; 0")       \
  X (CHECK_HOLDS, "rehearsal-check-holds", VOLUME,                                                           \
     "on the floor if the check valve of this run stuck open, where it stays dry because it closes; 0")      \
  X (FREEBOARD, "rehearsal-freeboard", LENGTH, "least freeboard of this vessel; least wanted; time: peak")   \
  X (PUMP_DRY, "rehearsal-pump-dry", TIME, "when its suction is uncovered; never")                           \
  X (UNATTENDED, "rehearsal-unattended", TIME, "how long nobody need be there; the longest played")          \
  X (NO_REST, "rehearsal-no-rest", TIME, "still moving then; the longest played")

typedef enum {
#define X(id, word, quantity, text) REHEARSED_##id,
  REHEARSAL_CHECKS (X)
#undef X
      N_REHEARSAL_CHECKS
} RehearsalCheck;

const char *rehearsal_check_word (RehearsalCheck check);
Quantity rehearsal_check_quantity (RehearsalCheck check);

typedef struct {
  RehearsalCheck check;
  Grade grade;
  int part;
  double value, limit, time_s;
} RehearsalFinding;

#define REHEARSAL_FINDINGS_MAX 16
#define REHEARSED_TOGETHER_MAX 2

/* One scenario of one design: one failure, or two together. */
typedef struct {
  unsigned n_failures;
  FailureId failures[REHEARSED_TOGETHER_MAX];
  FailureReason reason;      /* why it is not played; of the first that cannot happen */
  Rehearsal rehearsal, fast; /* fast.status is REHEARSAL_NOT_SOLVED where it was not played */
  Rehearsal unchecked;       /* as fast, with every check valve stuck open */
  unsigned n_findings;
  RehearsalFinding findings[REHEARSAL_FINDINGS_MAX];
} Rehearsed;

/**
 * rehearse_failures:
 * @failures, @n: one failure, or two that happen together
 * @options, @trace, @cancelled: may be NULL
 * @ret_rehearsed: (out): large: keep it on the heap
 *
 * What spills is judged with the pumps at their upper tolerance too, unless the options name an edge: the rehearsal that
 * is kept, and the trace, are those of the likely flow. Where a power cut leaves the floor dry it is played once more with
 * the check valves stuck open, so that no verdict rests on one without saying so.
 * Returns: whether it was played to its end
 */
bool rehearse_failures (const System *system, const Evaluation *evaluation, Rehearser *rehearser,
                        const FailureId *failures, unsigned n, const FailureOptions *options,
                        RehearsalTrace *trace, const int *cancelled, Rehearsed *ret_rehearsed);

/* Set `field` of `part` to `value`, by `change` more than now (SI; NAN of a flag): it was rehearsed, and the floor stayed
 * dry. `sump_m3` is the room that it adds to the sump, or NAN. */
typedef struct {
  int part;
  FieldId field;
  double value, change, sump_m3;
} RehearsalRemedy;

#define REHEARSAL_REMEDIES_MAX 4

/**
 * rehearsal_remedies:
 * @rehearsed: a scenario of @design that spills
 * @ret_remedies: (out): REHEARSAL_REMEDIES_MAX
 *
 * Tries to raise the siphon breaks, to lower the running level, to slow the pumps and to make the sump higher; each as
 * little as does it, in millimetres or hundredths of a speed. Compiles designs: some tens of rehearsals long.
 * Returns: how many work
 */
unsigned rehearsal_remedies (Design *design, Catalogue *catalogue, const Rehearsed *rehearsed,
                             const FailureOptions *options, const int *cancelled,
                             RehearsalRemedy *ret_remedies);
