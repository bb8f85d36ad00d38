/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/evaluation.h"

const char *
evaluation_status_text (EvaluationStatus status)
{
  switch (status) {
  case EVALUATION_OK:
    return "evaluated";
  case EVALUATION_NO_STEADY_STATE:
    return "a drain cannot carry the duty flow, so there is no steady state";
  case EVALUATION_NO_FLOW:
    return "no pump lifts water to a display";
  case EVALUATION_NOT_SOLVED:
    return "the return network has no solution";
  case N_EVALUATION_STATUSES:
  default:
    return "unknown status";
  }
}

Evaluation *
evaluation_new (void)
{
  return g_new0 (Evaluation, 1);
}

void
evaluation_free (Evaluation *evaluation)
{
  g_free (evaluation);
}

const VesselState *
evaluation_vessel (const Evaluation *evaluation, int part, VesselKind kind)
{
  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    if (evaluation->vessels[i].part == part && evaluation->vessels[i].kind == kind)
      return &evaluation->vessels[i];
  return NULL;
}

#define FIND(array, count)                                                                                   \
  for (unsigned i = 0; i < evaluation->count; i++)                                                           \
    if (evaluation->array[i].part == part)                                                                   \
      return &evaluation->array[i];                                                                          \
  return NULL

const RunState *
evaluation_run (const Evaluation *evaluation, int part)
{
  FIND (runs, n_runs);
}

const PumpState *
evaluation_pump (const Evaluation *evaluation, int part)
{
  FIND (pumps, n_pumps);
}

const DrainState *
evaluation_drain (const Evaluation *evaluation, int part)
{
  FIND (drains, n_drains);
}

const OverflowState *
evaluation_overflow (const Evaluation *evaluation, int part)
{
  FIND (overflows, n_overflows);
}

const OutletState *
evaluation_outlet (const Evaluation *evaluation, int part)
{
  FIND (outlets, n_outlets);
}

const TankState *
evaluation_tank (const Evaluation *evaluation, int part)
{
  FIND (tanks, n_tanks);
}

const Finding *
evaluation_finding (const Evaluation *evaluation, CheckId check)
{
  for (unsigned i = 0; i < evaluation->n_findings; i++)
    if (evaluation->findings[i].check == check)
      return &evaluation->findings[i];
  return NULL;
}

unsigned
evaluation_count (const Evaluation *evaluation, Grade grade)
{
  unsigned n = 0;

  for (unsigned i = 0; i < evaluation->n_findings; i++)
    n += evaluation->findings[i].grade == grade;
  return n;
}

bool
evaluation_is_sound (const Evaluation *evaluation)
{
  return evaluation_count (evaluation, GRADE_STOP) == 0;
}
