/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How the search for a proposal changes a plan: first sizes, the pump for it, and what mends which finding. For the
 * solver folder only. */
#pragma once

#include "solver/plan.h"

/* How often each mend was used, so that none runs for ever. */
typedef struct {
  unsigned used[N_CHECKS];
} MendState;

/* Pipe sizes for the wanted flow: return under 1.5 m/s, siphon of 1.5 to 3 times the flow, emergency for all of it.
 * False with the limit where the catalogue has none. */
bool plan_first_sizes (Plan *plan, const Catalogue *catalogue, ProposalLimit *ret_limit);

/* How bad an evaluation is: stop findings weigh a thousand cautions. */
unsigned plan_faults (const Evaluation *evaluation);

/* Chooses the pump and its speed for the plan, the first time among all of the catalogue, later the same one while it does.
 * Returns the design of the plan, with its evaluation; NULL where nothing reaches the target or can be built. */
Design *plan_choose_pump (Plan *plan, Catalogue *catalogue, Evaluation *evaluation);

/* Changes the plan by the first finding that something can be done about. False where nothing is left to do. */
bool plan_mend (Plan *plan, const Catalogue *catalogue, const Evaluation *evaluation, MendState *state);
