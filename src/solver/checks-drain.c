/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks of the drains: what they carry, how quiet they are, how a siphon is set and starts, where they end. */
#include "design/choices.h"
#include "hydraulics/quiet.h"
#include "hydraulics/siphon.h"
#include "solver/checks.h"

#define OPEN_LEAST        1.5
#define OPEN_MOST         3.0
#define END_DEPTH_LEAST_M 0.010
#define END_DEPTH_MOST_M  0.025
#define EMERGENCY_CLEAR_M 0.025
#define WET_M3S           1e-7
/* Bores between an upright end and the bottom under it, so that it is not choked: common practice, no source. */
#define FLOOR_BORES  0.5
#define SOFT_LEVEL_M 0.010

/* Whether a box stands at its rim because its drains cannot take the flow; a display over its own rim is another matter. */
static bool
box_is_overrun (const Judge *judge, unsigned overflow)
{
  const State *running = &judge->workspace->running;

  return !running->carries[overflow] &&
         !(running->box_z[overflow] < judge->system->overflows[overflow].lowest_rim_z);
}

void
check_DRAIN_OVERRUN (Judge *judge)
{
  for (unsigned i = 0; i < judge->system->n_overflows; i++) {
    const OverflowModel *overflow = &judge->system->overflows[i];
    const State *fast = &judge->workspace->fast;
    const double rim_z = overflow->lowest_rim_z;
    const double likely_m3s =
        overflow_running_capacity (judge->system, judge->workspace, fast, i, rim_z, SETTING_TUNE, false);
    const double low_m3s =
        overflow_running_capacity (judge->system, judge->workspace, fast, i, rim_z, SETTING_TUNE, true);
    const double flow_m3s = fast->overflow_m3s[i];
    Finding *finding;

    finding = judge_measure (judge, &(Measure){.check = CHECK_DRAIN_OVERRUN,
                                               .grade = GRADE_STOP,
                                               .part = overflow->part,
                                               .value = likely_m3s,
                                               .limit = flow_m3s,
                                               .judged = low_m3s,
                                               .certain = box_is_overrun (judge, i)});
    if (finding == NULL)
      continue;
    finding_second (finding, rim_z);
    finding_second (finding, judge->system->pumps[0].speed);
    finding_second (finding, judge->workspace->full_speed.overflow_m3s[i]);
    if (judge->system->n_overflows == 1)
      remedy_by_speed (judge, finding, 1, flow_m3s + finding->margin);
  }
}

void
check_DRAIN_FULL_SPEED (Judge *judge)
{
  const State *full = &judge->workspace->full_speed;

  for (unsigned i = 0; i < judge->system->n_overflows && speed_can_be_raised (judge); i++) {
    const OverflowModel *overflow = &judge->system->overflows[i];
    const double capacity_m3s = overflow_running_capacity (judge->system, judge->workspace, full, i,
                                                           overflow->lowest_rim_z, SETTING_AS_SET, true);

    if (evaluation_finding (judge->evaluation, CHECK_DRAIN_OVERRUN) == NULL)
      finding_second (judge_least (judge, CHECK_DRAIN_FULL_SPEED, GRADE_CAUTION, overflow->part, capacity_m3s,
                                   full->overflow_m3s[i]),
                      overflow->lowest_rim_z);
  }
}

void
check_DRAIN_SHORT (Judge *judge)
{
  const State *state = &judge->workspace->running;

  for (unsigned i = 0; i < judge->system->n_overflows; i++) {
    const OverflowModel *overflow = &judge->system->overflows[i];
    const double wanted_z = judge->workspace->wanted_z[i];
    const double likely_m3s =
        overflow_running_capacity (judge->system, judge->workspace, state, i, wanted_z, SETTING_OPEN, false);
    const double low_m3s =
        overflow_running_capacity (judge->system, judge->workspace, state, i, wanted_z, SETTING_OPEN, true);
    const bool soft = state->box_z[i] < overflow->crest_z - SOFT_LEVEL_M;
    Finding *finding = judge_measure (judge, &(Measure){.check = CHECK_DRAIN_SHORT,
                                                        .grade = soft ? GRADE_NOTE : GRADE_CAUTION,
                                                        .part = overflow->part,
                                                        .value = likely_m3s,
                                                        .limit = state->overflow_m3s[i] * (1 - 1e-6),
                                                        .judged = low_m3s});

    if (finding == NULL)
      continue;
    finding_second (finding, wanted_z);
    finding_second (finding, state->box_z[i]);
  }
}

void
check_DRAIN_NOISE (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    if (!drain->primed && drain->role != DRAIN_EMERGENCY && isfinite (drain->quiet_m3s))
      finding_second (
          judge_most (judge, CHECK_DRAIN_NOISE, GRADE_NOTE, drain->part, drain->flow_m3s, drain->quiet_m3s),
          drain->froude);
  }
}

void
check_SIPHON_RANGE (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];
    const double share = drain->flow_m3s > WET_M3S ? drain->primed_m3s / drain->flow_m3s : 0;
    Finding *finding;

    if (drain->role != DRAIN_SIPHON || !(drain->flow_m3s > WET_M3S) || !drain->primed)
      continue;
    finding = judge_least (judge, CHECK_SIPHON_RANGE, GRADE_NOTE, drain->part, share, OPEN_LEAST);
    if (finding == NULL)
      finding = judge_most (judge, CHECK_SIPHON_RANGE, GRADE_NOTE, drain->part, share, OPEN_MOST);
    finding_second (finding, drain->primed_m3s);
  }
}

void
check_SIPHON_NO_VALVE (Judge *judge)
{
  const State *state = &judge->workspace->running;

  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];
    const DrainPipe pipe = drain_pipe_in (judge->system, state, i, 0, false, 1);
    double k = 0;

    if (drain->role != DRAIN_SIPHON || drain->has_valve)
      continue;
    siphon_valve_coefficient (&pipe, &judge->system->fluid, drain->wanted_z,
                              fmax (state->overflow_m3s[judge->system->drains[i].overflow], WET_M3S), &k);
    judge_add (judge, CHECK_SIPHON_NO_VALVE, GRADE_CAUTION, drain->part, k, 0, -k);
  }
}

/* A gulping siphon holds its mouth at just the cover it needs, so the regime tells, not the depth. */
void
check_SIPHON_GULPS (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    if (drain->role == DRAIN_SIPHON && drain->primed && drain->regime != DRAIN_STATE_BLOCKED &&
        isfinite (drain->cover_needed_m))
      judge_measure (judge, &(Measure){.check = CHECK_SIPHON_GULPS,
                                       .grade = GRADE_CAUTION,
                                       .part = drain->part,
                                       .value = drain->cover_m,
                                       .limit = drain->cover_needed_m,
                                       .judged = drain->cover_m,
                                       .certain = drain->regime == DRAIN_STATE_GULPING});
  }
}

void
check_SIPHON_SUCTION (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    if (drain->role == DRAIN_SIPHON && drain->primed && isfinite (drain->valve_pressure_m))
      finding_second (
          judge_least (judge, CHECK_SIPHON_SUCTION, GRADE_CAUTION, drain->part, drain->valve_pressure_m, 0),
          drain->valve_z);
  }
}

void
check_SIPHON_START (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];
    const DrainModel *model = &judge->system->drains[i];
    const double rest_z = judged_chamber (judge, model->chamber)->power_off_z;
    const double depth_m = fmax (rest_z - drain->end_z, 0);
    Finding *finding;

    if (drain->role != DRAIN_SIPHON || !isfinite (drain->start_margin_m))
      continue;
    finding =
        judge_measure (judge, &(Measure){.check = CHECK_SIPHON_START,
                                         .grade = GRADE_CAUTION,
                                         .part = drain->part,
                                         .value = depth_m,
                                         .limit = depth_m + drain->start_likely_m,
                                         .judged = depth_m + drain->start_likely_m - drain->start_margin_m,
                                         .most = true,
                                         .certain = drain->start_margin_m <= 0});
    if (finding == NULL)
      continue;
    finding_second (finding, drain->start_froude);
    finding_mend (finding, drain->part, FIELD_DRAIN_END,
                  field_number (judge->system, drain->part, FIELD_DRAIN_END) - finding->margin + 0.001);
  }
}

/* Apart from whether it starts at all: a slow flow leaves air in the pipe, which then clears only little by little. */
void
check_SIPHON_AIR (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    if (drain->role == DRAIN_SIPHON && drain->start_froude > 0 &&
        (judge->list != NULL || drain->start_margin_m > 0))
      judge_least (judge, CHECK_SIPHON_AIR, GRADE_NOTE, drain->part, drain->start_froude,
                   QUIET_CLEARING_FROUDE);
  }
}

void
check_SIPHON_PRIMING (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    Finding *finding = NULL;

    if (drain->role == DRAIN_SIPHON && drain->regime != DRAIN_STATE_BLOCKED)
      finding = judge_most (judge, CHECK_SIPHON_PRIMING, GRADE_CAUTION, drain->part, drain->priming_z,
                            drain->rim_z);
    if (finding != NULL)
      finding_mend (finding, drain->part, FIELD_DRAIN_MOUTH,
                    field_number (judge->system, drain->part, FIELD_DRAIN_MOUTH) + finding->margin);
  }
}

static bool
has_role (const Judge *judge, unsigned overflow, DrainRole role)
{
  const OverflowModel *model = &judge->system->overflows[overflow];

  for (unsigned i = model->first_drain; i < model->first_drain + model->n_drains; i++)
    if (judge->system->drains[i].role == (int) role && !judge->system->drains[i].blocked)
      return true;
  return false;
}

void
check_SIPHON_DRIFT (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    if (drain->role == DRAIN_SIPHON && isfinite (drain->drift) &&
        !has_role (judge, judge->system->drains[i].overflow, DRAIN_TRICKLE))
      finding_second (judge_least (judge, CHECK_SIPHON_DRIFT, GRADE_NOTE, drain->part, drain->drift,
                                   judge->system->pumps[0].tolerance),
                      drain->drift_play_m);
  }
}

void
check_SIPHON_END (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];
    const double surface_z = judged_chamber (judge, judge->system->drains[i].chamber)->running_z;
    const double depth_m = surface_z - drain->end_z;
    const double end_m = field_number (judge->system, drain->part, FIELD_DRAIN_END);

    if (drain->role != DRAIN_SIPHON)
      continue;
    finding_mend (judge_least (judge, CHECK_SIPHON_END, GRADE_NOTE, drain->part, depth_m, END_DEPTH_LEAST_M),
                  drain->part, FIELD_DRAIN_END, end_m + depth_m - (END_DEPTH_LEAST_M + END_DEPTH_MOST_M) / 2);
    finding_mend (judge_most (judge, CHECK_SIPHON_END, GRADE_NOTE, drain->part, depth_m, END_DEPTH_MOST_M),
                  drain->part, FIELD_DRAIN_END, end_m + depth_m - (END_DEPTH_LEAST_M + END_DEPTH_MOST_M) / 2);
  }
}

void
check_DRAIN_FLOOR (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];
    const double clearance_m = judge->system->drains[i].clearance_m;
    Finding *finding = judge_measure (judge, &(Measure){.check = CHECK_DRAIN_FLOOR,
                                                        .grade = GRADE_STOP,
                                                        .part = drain->part,
                                                        .value = clearance_m,
                                                        .judged = clearance_m,
                                                        .certain = clearance_m <= 0});

    if (finding == NULL)
      finding = judge_least (judge, CHECK_DRAIN_FLOOR, GRADE_CAUTION, drain->part, clearance_m,
                             FLOOR_BORES * drain->bore_m);
    else
      judge_against (finding, FLOOR_BORES * drain->bore_m);
    if (finding != NULL)
      finding_mend (finding, drain->part, FIELD_DRAIN_END,
                    field_number (judge->system, drain->part, FIELD_DRAIN_END) - finding->margin + 0.001);
  }
}

/* Judged with the power-off level of the pessimistic drain-back. */
void
check_EMERGENCY_END (Judge *judge)
{
  const DrainBack *back = &judge->evaluation->drain_back;
  const double doubt_m = judge->system->exact ? 0 : fmax (back->freeboard_m - back->upper_freeboard_m, 0);

  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];
    const double rest_z = judged_chamber (judge, judge->system->drains[i].chamber)->power_off_z;
    Measure measure = {.check = CHECK_EMERGENCY_END,
                       .grade = GRADE_CAUTION,
                       .part = drain->part,
                       .value = drain->end_z,
                       .limit = rest_z,
                       .judged = drain->end_z - doubt_m};
    Finding *finding;

    if (drain->role != DRAIN_EMERGENCY)
      continue;
    /* Drowned after a power cut is worse than not clear of it. */
    finding = judge_measure (judge, &measure);
    if (finding == NULL) {
      measure.grade = GRADE_NOTE;
      measure.limit = rest_z + EMERGENCY_CLEAR_M;
      finding = judge_measure (judge, &measure);
    }
    if (finding != NULL)
      finding_mend (finding, drain->part, FIELD_DRAIN_END,
                    field_number (judge->system, drain->part, FIELD_DRAIN_END) - finding->margin);
  }
}

void
check_EMERGENCY_WET (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_drains; i++) {
    const DrainState *drain = &judge->evaluation->drains[i];

    if (drain->role == DRAIN_EMERGENCY)
      judge_most (judge, CHECK_EMERGENCY_WET, GRADE_CAUTION, drain->part,
                  drain->flow_m3s > WET_M3S ? drain->flow_m3s : 0, 0);
  }
}
