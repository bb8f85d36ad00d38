/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A design on which rehearsals are played: all that one needs, with the steady state found and a plan in which nothing
 * fails. */
#pragma once

#include "design/draft.h"
#include "solver/rehearsal.h"

typedef struct {
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  Rehearser *rehearser;
  Rehearsal *rehearsal;
  RehearsalTrace *trace;
  RehearsalPlan plan;
} Stage;

/* Takes the draft. */
Stage stage_of (Draft *draft);
void stage_clear (Stage *stage);
