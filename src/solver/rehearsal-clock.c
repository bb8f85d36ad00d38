/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What happens by the clock: power, coasting pumps, a blockage that is complete, the longest run time of a top-off. */
#include "design/choices.h"
#include "solver/rehearsal-model.h"

/* A top-off's longest run time, where it has one (common practice: minutes). */
#define RUN_TIME_S 300.0
/* Filled to this share a pipe counts as full. */
#define FULL_SHARE 0.999

static bool
run_time_counts (const Rehearser *rehearser)
{
  return rehearser->reservoir_at != NO_PLACE && rehearser->top_off_on && !rehearser->top_off_cut &&
         (int) field_number (rehearser->system, rehearser->system->reservoir, FIELD_RESERVOIR_CUT_OUT) ==
             CUT_OUT_RUN_TIME;
}

static void
sooner (const Rehearser *rehearser, double at_s, double *next_s)
{
  if (at_s > rehearser->t && at_s < *next_s)
    *next_s = at_s;
}

double
rehearser_next_switch (const Rehearser *rehearser)
{
  const RehearsalPlan *plan = &rehearser->plan;
  double next_s = plan->horizon_s;

  sooner (rehearser, plan->power_off_s, &next_s);
  sooner (rehearser, plan->power_on_s, &next_s);
  if (rehearser->blocks)
    sooner (rehearser, plan->block_s, &next_s);
  if (!rehearser->power) {
    sooner (rehearser, rehearser->coast_from_s + COAST_S, &next_s);
    for (unsigned i = 0; i < rehearser->system->n_pumps; i++)
      if (rehearser->pumps[i].set_speed > PUMP_SPEED_MIN)
        sooner (rehearser,
                rehearser->coast_from_s + COAST_S * (1 - PUMP_SPEED_MIN / rehearser->pumps[i].set_speed),
                &next_s);
  }
  if (run_time_counts (rehearser))
    sooner (rehearser, rehearser->top_off_since_s + RUN_TIME_S, &next_s);
  return next_s;
}

static void
power_off (Rehearser *rehearser, Rehearsal *rehearsal)
{
  rehearser->power = false;
  rehearser->coast_from_s = rehearser->t;
  rehearser->rests_noted = false;
  rehearser_note (rehearser, rehearsal, REHEARSAL_POWER_OFF, -1, NO_NUMBER);
  rehearser->top_off_on = false;
  for (unsigned i = 0; i < rehearser->system->n_outlets; i++) {
    const unsigned tank = rehearser->tank_at + rehearser->system->outlets[i].tank;

    rehearser->outlets[i].air =
        rehearser_level (rehearser, tank, rehearser->y) <= rehearser->outlets[i].stops_z;
  }
}

static void
power_on (Rehearser *rehearser, Rehearsal *rehearsal)
{
  rehearser->power = true;
  rehearser_note (rehearser, rehearsal, REHEARSAL_POWER_ON, -1, NO_NUMBER);
  for (unsigned i = 0; i < rehearser->system->n_pumps; i++) {
    PumpNow *pump = &rehearser->pumps[i];

    pump->filled = rehearser->y[rehearser->pump_at + i] >= FULL_SHARE * pump->full_m3;
  }
  rehearser->top_off_on =
      rehearser->plan.top_off_stuck && rehearser->reservoir_at != NO_PLACE && !rehearser->top_off_cut;
  rehearser->top_off_since_s = rehearser->t;
}

void
rehearser_switch (Rehearser *rehearser, Rehearsal *rehearsal)
{
  const RehearsalPlan *plan = &rehearser->plan;
  const double t = rehearser->t;

  if (rehearser->power && t >= plan->power_off_s && t < plan->power_on_s)
    power_off (rehearser, rehearsal);
  if (!rehearser->power && t >= plan->power_on_s)
    power_on (rehearser, rehearsal);
  if (!rehearser->power && !rehearser->rests_noted && t >= rehearser->coast_from_s + COAST_S) {
    rehearser->rests_noted = true;
    for (unsigned i = 0; i < rehearser->system->n_pumps; i++)
      rehearser_note (rehearser, rehearsal, REHEARSAL_PUMP_RESTS, rehearser->system->pumps[i].part,
                      NO_NUMBER);
  }
  if (rehearser->blocks && !rehearser->blocked_noted && t >= plan->block_s) {
    rehearser->blocked_noted = true;
    rehearser_note (rehearser, rehearsal, REHEARSAL_BLOCKED, -1, NO_NUMBER);
  }
  if (run_time_counts (rehearser) && t >= rehearser->top_off_since_s + RUN_TIME_S) {
    rehearser->top_off_on = false;
    rehearser->top_off_cut = true;
    rehearser_note (rehearser, rehearsal, REHEARSAL_TOP_OFF_CUT_OUT, rehearser->system->reservoir, NO_NUMBER);
  }
  rehearser_set_checks (rehearser);
  rehearser_set_moment (rehearser, t);
  rehearser->moved = rehearser_is_moving (rehearser, t);
}
