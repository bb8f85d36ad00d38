/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/rehearsal-judge.h"

#include <math.h>

#include "solver/model.h"

/* A spill below this is the last digit of the integration. */
#define SPILL_LEAST_M3 1e-6

const char *
rehearsal_check_word (RehearsalCheck check)
{
  static const char *const words[] = {
#define X(id, word, quantity, text) word,
      REHEARSAL_CHECKS (X)
#undef X
  };

  return check < N_REHEARSAL_CHECKS ? words[check] : "unknown";
}

Quantity
rehearsal_check_quantity (RehearsalCheck check)
{
  static const Quantity quantities[] = {
#define X(id, word, quantity, text) QUANTITY_##quantity,
      REHEARSAL_CHECKS (X)
#undef X
  };

  return check < N_REHEARSAL_CHECKS ? quantities[check] : QUANTITY_NONE;
}

static void
add_finding (Rehearsed *rehearsed, RehearsalCheck check, Grade grade, int part, double value, double limit,
             double time_s)
{
  if (rehearsed->n_findings < REHEARSAL_FINDINGS_MAX)
    rehearsed->findings[rehearsed->n_findings++] =
        (RehearsalFinding){check, grade, part, value, limit, time_s};
}

static void
judge_vessels (Rehearsed *rehearsed)
{
  const Rehearsal *rehearsal = &rehearsed->rehearsal;
  const RehearsalVessel *least = NULL;

  for (unsigned i = 0; i < rehearsal->n_vessels; i++) {
    const RehearsalVessel *vessel = &rehearsal->vessels[i];

    if (isfinite (vessel->least_freeboard_m) &&
        (least == NULL || vessel->least_freeboard_m < least->least_freeboard_m))
      least = vessel;
  }
  if (least != NULL && least->least_freeboard_m < REHEARSAL_FREEBOARD_M && least->least_freeboard_m >= 0)
    add_finding (rehearsed, REHEARSED_FREEBOARD, GRADE_CAUTION, least->part, least->least_freeboard_m,
                 REHEARSAL_FREEBOARD_M, least->peak_s);
}

static void
judge_spills (Rehearsed *rehearsed, const Rehearsal *rehearsal, RehearsalCheck check, Grade grade)
{
  for (unsigned i = 0; i < rehearsal->n_spills; i++)
    if (rehearsal->spills[i].m3 > SPILL_LEAST_M3)
      add_finding (rehearsed, check, grade, rehearsal->spills[i].part, rehearsal->spills[i].m3, 0,
                   rehearsal->spills[i].first_s);
}

/* A run with a check valve; -1 without one. */
static int
checked_part (const System *system)
{
  for (unsigned i = 0; i < system->n_runs; i++)
    if (system->runs[i].has_check)
      return system->runs[i].part;
  return -1;
}

/* No verdict passes because of a check valve: a dry floor that rests on one is a caution. */
static void
judge_check (const System *system, Rehearser *rehearser, RehearsalPlan plan, const int *cancelled,
             Rehearsed *rehearsed)
{
  Rehearsal *unchecked = &rehearsed->unchecked;

  if (rehearsed->n_findings > 0 || plan.check_stuck || !isfinite (plan.power_off_s) ||
      checked_part (system) < 0)
    return;
  plan.check_stuck = true;
  if (rehearse (rehearser, &plan, NULL, cancelled, unchecked) == REHEARSAL_OK &&
      unchecked->spilled_m3 > SPILL_LEAST_M3)
    add_finding (rehearsed, REHEARSED_CHECK_HOLDS, GRADE_CAUTION, checked_part (system),
                 unchecked->spilled_m3, 0, unchecked->matters_s);
}

static void
judge (Rehearsed *rehearsed, double longest_s, bool rests)
{
  const Rehearsal *rehearsal = &rehearsed->rehearsal;

  judge_vessels (rehearsed);
  if (isfinite (rehearsal->pump_dry_s))
    add_finding (rehearsed, REHEARSED_PUMP_DRY, GRADE_CAUTION, rehearsal->pump_dry_part,
                 rehearsal->pump_dry_s, longest_s, rehearsal->pump_dry_s);
  if (isfinite (rehearsal->matters_s))
    add_finding (rehearsed, REHEARSED_UNATTENDED, GRADE_NOTE, -1, rehearsal->matters_s, longest_s,
                 rehearsal->matters_s);
  if (isnan (rehearsal->rest_s) && (rests || rehearsal->end_s < longest_s))
    add_finding (rehearsed, REHEARSED_NO_REST, GRADE_NOTE, -1, rehearsal->end_s, longest_s, rehearsal->end_s);
}

bool
rehearse_failures (const System *system, const Evaluation *evaluation, Rehearser *rehearser,
                   const FailureId *failures, unsigned n, const FailureOptions *options,
                   RehearsalTrace *trace, const int *cancelled, Rehearsed *ret_rehearsed)
{
  RehearsalPlan plan;

  *ret_rehearsed = (Rehearsed){.n_failures = MIN (n, REHEARSED_TOGETHER_MAX), .reason = FAILURE_APPLIES};
  rehearsal_plan_init (&plan);
  plan.horizon_s = 0; /* the failures say how long */
  for (unsigned i = 0; i < ret_rehearsed->n_failures; i++) {
    ret_rehearsed->failures[i] = failures[i];
    if (ret_rehearsed->reason == FAILURE_APPLIES)
      ret_rehearsed->reason = failure_applies (system, evaluation, failures[i], options);
    failure_set_up (system, evaluation, failures[i], options, &plan);
  }
  if (ret_rehearsed->reason != FAILURE_APPLIES)
    return false;
  if (rehearse (rehearser, &plan, trace, cancelled, &ret_rehearsed->rehearsal) != REHEARSAL_OK)
    return false;
  ret_rehearsed->fast.status = ret_rehearsed->unchecked.status = REHEARSAL_NOT_SOLVED;
  judge_spills (ret_rehearsed, &ret_rehearsed->rehearsal, REHEARSED_SPILLS, GRADE_STOP);
  if (plan.edge == 0) {
    plan.edge = 1;
    rehearse (rehearser, &plan, NULL, cancelled, &ret_rehearsed->fast);
    if (ret_rehearsed->n_findings == 0 && ret_rehearsed->fast.status == REHEARSAL_OK)
      judge_spills (ret_rehearsed, &ret_rehearsed->fast, REHEARSED_SPILLS_FAST, GRADE_CAUTION);
  }
  judge_check (system, rehearser, plan, cancelled, ret_rehearsed);
  judge (ret_rehearsed, plan.horizon_s, !(plan.evaporation_m3s > 0));
  return true;
}
