/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks of the return loop: turnover, pumps, velocities, suctions, outlets and their siphon breaks. */
#include "design/choices.h"
#include "solver/checks.h"

#define RETURN_MOST_MS   2.0
#define RETURN_REMARK_MS 1.5
#define NOZZLE_LEAST_MS  1.0
#define NOZZLE_MOST_MS   3.0
#define SUCTION_MOST_MS  1.0
#define BREAK_UNDER_M    0.010
#define RUNS_M3S         1e-9
/* NPSH available over that required, at the least: common practice, no source. */
#define NPSH_MARGIN_M 0.5

static double
target (const Judge *judge, double side)
{
  return field_number (judge->system, judge->system->job, FIELD_JOB_TURNOVER) *
         (1 + side * field_number (judge->system, judge->system->job, FIELD_JOB_TURNOVER_TOLERANCE));
}

static void
turnover_remedy (Judge *judge, Finding *finding)
{
  const double flow_m3s = field_number (judge->system, judge->system->job, FIELD_JOB_TURNOVER) *
                          judge->evaluation->totals.display_water_m3 / 3600;

  remedy_by_speed (judge, finding, 0, flow_m3s);
  if (finding->remedy.part >= 0)
    finding_second (finding, finding->remedy.value);
}

void
check_TURNOVER_LOW (Judge *judge)
{
  const Totals *totals = &judge->evaluation->totals;
  Finding *finding = judge_measure (judge, &(Measure){.check = CHECK_TURNOVER_LOW,
                                                      .grade = GRADE_CAUTION,
                                                      .part = judge->system->job,
                                                      .value = totals->turnover_per_h,
                                                      .limit = target (judge, -1),
                                                      .judged = totals->slow_turnover_per_h});

  if (finding == NULL)
    return;
  finding->lower = fmin (finding->lower, totals->slow_turnover_per_h);
  finding->upper = fmax (finding->upper, totals->fast_turnover_per_h);
  turnover_remedy (judge, finding);
}

void
check_TURNOVER_HIGH (Judge *judge)
{
  const Totals *totals = &judge->evaluation->totals;
  Finding *finding = judge_measure (judge, &(Measure){.check = CHECK_TURNOVER_HIGH,
                                                      .grade = GRADE_NOTE,
                                                      .part = judge->system->job,
                                                      .value = totals->turnover_per_h,
                                                      .limit = target (judge, 1),
                                                      .judged = totals->fast_turnover_per_h,
                                                      .most = true});

  if (finding == NULL)
    return;
  finding->lower = fmin (finding->lower, totals->slow_turnover_per_h);
  finding->upper = fmax (finding->upper, totals->fast_turnover_per_h);
  turnover_remedy (judge, finding);
}

/* Whether a pump that runs is joined to a tank. */
static bool
is_pumped_to (const Judge *judge, unsigned tank)
{
  for (unsigned i = 0; i < judge->evaluation->n_outlets; i++)
    for (unsigned p = 0; p < judge->evaluation->n_pumps; p++)
      if (judge->system->outlets[i].tank == tank && judge->system->pumps[p].reaches[i] &&
          judge->evaluation->pumps[p].flow_m3s > RUNS_M3S)
        return true;
  return false;
}

void
check_DISPLAY_STARVED (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_tanks && judge->system->n_feeds > 0; i++) {
    const TankState *tank = &judge->evaluation->tanks[i];

    if (!(tank->flow_m3s > RUNS_M3S) && is_pumped_to (judge, i))
      judge_add (judge, CHECK_DISPLAY_STARVED, GRADE_STOP, tank->part, tank->flow_m3s, 0, 0);
  }
}

void
check_PUMP_TOO_WEAK (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];

    judge_measure (judge, &(Measure){.check = CHECK_PUMP_TOO_WEAK,
                                     .grade = GRADE_STOP,
                                     .part = pump->part,
                                     .value = pump->shutoff_head_m,
                                     .limit = pump->static_head_m,
                                     .judged = pump->shutoff_head_m,
                                     .certain = pump->status == PUMP_STATE_TOO_WEAK ||
                                                pump->status == PUMP_STATE_NO_CURVE});
  }
}

void
check_PUMP_START (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];
    const double doubt = judge->system->exact ? 0 : judge->system->pumps[i].tolerance;
    const double low_m = pump->shutoff_head_m * (1 - doubt);
    Finding *finding;

    if (pump->status == PUMP_STATE_TOO_WEAK)
      continue;
    finding = judge_measure (judge, &(Measure){.check = CHECK_PUMP_START,
                                               .grade = GRADE_STOP,
                                               .part = pump->part,
                                               .value = pump->shutoff_head_m,
                                               .limit = pump->lift_m,
                                               .judged = low_m});
    if (finding != NULL)
      finding_mend (finding, pump->part, FIELD_PUMP_SPEED,
                    pump->speed * sqrt (pump->lift_m / fmax (pump->lift_m + finding->margin, 1e-6)) + 0.001);
  }
}

void
check_PUMP_BEYOND_CURVE (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];

    if (pump->status == PUMP_STATE_BEYOND_CURVE)
      judge_most (judge, CHECK_PUMP_BEYOND_CURVE, GRADE_CAUTION, pump->part, pump->flow_m3s,
                  pump->last_flow_m3s);
  }
}

void
check_RETURN_VELOCITY (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_runs; i++) {
    const RunState *run = &judge->evaluation->runs[i];
    const double velocity_ms = fabs (run->velocity_ms);

    if (judge_most (judge, CHECK_RETURN_VELOCITY, GRADE_CAUTION, run->part, velocity_ms, RETURN_MOST_MS) ==
        NULL)
      judge_most (judge, CHECK_RETURN_VELOCITY, GRADE_NOTE, run->part, velocity_ms, RETURN_REMARK_MS);
  }
}

void
check_NOZZLE_VELOCITY (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_outlets; i++) {
    const OutletState *outlet = &judge->evaluation->outlets[i];

    if (!(outlet->flow_m3s > RUNS_M3S))
      continue;
    judge_least (judge, CHECK_NOZZLE_VELOCITY, GRADE_NOTE, outlet->part, outlet->nozzle_velocity_ms,
                 NOZZLE_LEAST_MS);
    judge_most (judge, CHECK_NOZZLE_VELOCITY, GRADE_NOTE, outlet->part, outlet->nozzle_velocity_ms,
                NOZZLE_MOST_MS);
  }
}

void
check_SUCTION_VELOCITY (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++)
    if (judge->system->pumps[i].outside)
      judge_most (judge, CHECK_SUCTION_VELOCITY, GRADE_CAUTION, judge->evaluation->pumps[i].part,
                  judge->evaluation->pumps[i].suction_velocity_ms, SUCTION_MOST_MS);
}

void
check_SUCTION_COVER (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];
    const int chamber = judge->system->chambers[judge->system->pumps[i].chamber].part;
    Finding *finding = judge_measure (judge, &(Measure){.check = CHECK_SUCTION_COVER,
                                                        .grade = GRADE_STOP,
                                                        .part = pump->part,
                                                        .value = pump->cover_m,
                                                        .judged = pump->cover_m,
                                                        .certain = pump->cover_m <= 0});

    if (finding == NULL)
      finding = judge_least (judge, CHECK_SUCTION_COVER, GRADE_CAUTION, pump->part, pump->cover_m,
                             pump->cover_wanted_m);
    else
      judge_against (finding, pump->cover_wanted_m);
    if (finding == NULL)
      continue;
    finding_second (finding, pump->cover_m + pump->suction_z);
    finding_mend (finding, chamber, FIELD_CHAMBER_LEVEL,
                  field_number (judge->system, chamber, FIELD_CHAMBER_LEVEL) - finding->margin + 0.001);
  }
}

void
check_NPSH (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];

    if (judge->system->pumps[i].outside)
      finding_second (judge_least (judge, CHECK_NPSH, GRADE_CAUTION, pump->part, pump->cover_m, 0),
                      pump->npsh_m);
  }
}

void
check_NPSH_MARGIN (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];

    if (judge->system->pumps[i].outside && isfinite (pump->npsh_m))
      judge_least (judge, CHECK_NPSH_MARGIN, GRADE_CAUTION, pump->part, pump->npsh_m,
                   pump->npsh_wanted_m + NPSH_MARGIN_M);
  }
}

void
check_PUMP_ESTIMATE (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_pumps; i++)
    if (judge->evaluation->pumps[i].estimate)
      judge_add (judge, CHECK_PUMP_ESTIMATE, GRADE_NOTE, judge->evaluation->pumps[i].part, 2, 3, -1);
}

/* What an outlet lets back below the crest. */
static double
lets_back (const Judge *judge, const OutletState *outlet, unsigned tank_index, double crest_z)
{
  const TankModel *tank = &judge->system->tanks[tank_index];

  return tank_volume_m3 (judge->system, tank, crest_z) -
         tank_volume_m3 (judge->system, tank, outlet->stops_z);
}

/* The rim where a tank has no overflow. */
static double
lowest_crest (const Judge *judge, unsigned tank_index)
{
  const TankModel *tank = &judge->system->tanks[tank_index];

  return fmin (tank_lowest_crest_z (judge->system, tank), tank->rim_z);
}

void
check_NO_BREAK (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_outlets; i++) {
    const OutletState *outlet = &judge->evaluation->outlets[i];
    const unsigned tank = judge->system->outlets[i].tank;
    const double crest_z = lowest_crest (judge, tank);
    Finding *finding;

    if (outlet->has_break || !outlet->siphons || !isfinite (outlet->stops_z))
      continue;
    finding = judge_least (judge, CHECK_NO_BREAK, GRADE_CAUTION, outlet->part, outlet->stops_z, crest_z);
    if (finding == NULL)
      continue;
    finding_second (finding, lets_back (judge, outlet, tank, crest_z));
    finding_mend (finding, outlet->part, FIELD_OUTLET_BREAK, 1);
  }
}

void
check_BREAK_SUCTION (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_outlets; i++) {
    const OutletState *outlet = &judge->evaluation->outlets[i];

    if (outlet->has_break && isfinite (outlet->break_head_m) && outlet->flow_m3s > RUNS_M3S)
      judge_least (judge, CHECK_BREAK_SUCTION, GRADE_CAUTION, outlet->part, outlet->break_head_m, 0);
  }
}

void
check_BREAK_LOW (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_outlets; i++) {
    const OutletState *outlet = &judge->evaluation->outlets[i];
    const unsigned tank = judge->system->outlets[i].tank;
    const double crest_z = lowest_crest (judge, tank);
    Finding *finding;

    if (!outlet->has_break || !outlet->siphons || !isfinite (outlet->stops_z) ||
        outlet->stops_z >= crest_z - BREAK_UNDER_M)
      continue;
    finding = judge_least (judge, CHECK_BREAK_LOW, GRADE_NOTE, outlet->part, outlet->break_z, crest_z);
    if (finding == NULL)
      continue;
    finding_second (finding, lets_back (judge, outlet, tank, crest_z));
    finding_mend (finding, outlet->part, FIELD_OUTLET_BREAK_HEIGHT,
                  field_number (judge->system, outlet->part, FIELD_OUTLET_BREAK_HEIGHT) - finding->margin);
  }
}

void
check_OUTLET_SPLASH (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_outlets; i++) {
    const OutletState *outlet = &judge->evaluation->outlets[i];

    if (judge->system->outlets[i].submerged_kind)
      judge_most (judge, CHECK_OUTLET_SPLASH, GRADE_NOTE, outlet->part, outlet->z,
                  outlet->z + outlet->submerged_m);
  }
}
