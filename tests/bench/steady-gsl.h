/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The coupled steady equations of a design with one tank, one overflow and one pump inside the sump, for GSL's multiroot
 * solver: the counterpart of the solver's own search. Unknown together are the flows of pump, return runs and drains, the
 * heads where runs meet, the levels of display, boxes and chambers, and the loss of a siphon's valve that is set so that
 * the box runs where it is wanted. The relations are those of src/hydraulics, each called forward. What a tee loses by its
 * split is held at its known value, which makes the task of GSL easier. */
#pragma once

#include "solver/model.h"

typedef struct _SteadyGsl SteadyGsl;

typedef struct {
  double edge; /* of the pump, as a factor on its curve */
  double speed;
  bool aged, tuned;
  const State *known; /* the state by the program: tee losses, and what the solution is compared with */
} SteadyRule;

SteadyGsl *steady_gsl_new (const System *system);
void steady_gsl_free (SteadyGsl *steady);

/* Solves one state until every residual is below 1e-9 (m, and L/s), from the levels and flows that a cold start of the
 * program has, or from the last solution. Returns the iterations, 0 where it found none. */
unsigned steady_gsl_solve (SteadyGsl *steady, const SteadyRule *rule, bool cold);

unsigned steady_gsl_n_unknowns (const SteadyGsl *steady);

/* The largest relative difference of flows, and of levels in metres, between the last solution and the known state. */
double steady_gsl_difference (const SteadyGsl *steady);
