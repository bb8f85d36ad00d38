/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks of flood and transfer, of heights in their order, and of the levels of display and box. */
#include "design/choices.h"
#include "solver/checks.h"

#define WORST_FREEBOARD_M       0.010
#define DISPLAY_FREEBOARD_M     0.025
#define EMERGENCY_UNDER_CREST_M 0.010
#define EMERGENCY_OVER_OTHER_M  0.015
#define LOADING_HEAD_M          0.015

static bool
has_emergency (const OverflowState *overflow)
{
  return !isnan (overflow->flood_unprimed_margin_m);
}

static double
better_margin (const OverflowState *overflow)
{
  return isnan (overflow->flood_primed_margin_m)
             ? overflow->flood_unprimed_margin_m
             : fmax (overflow->flood_unprimed_margin_m, overflow->flood_primed_margin_m);
}

/* How far the likely levels of box and display stay under their rims: the lesser. */
static double
likely_margin (const Judge *judge, unsigned index, double box_z, double display_z)
{
  const OverflowModel *model = &judge->system->overflows[index];

  return fmin (model->box_rim_z - box_z, judge->system->tanks[model->tank].rim_z - display_z);
}

/* The likely level against the lowest rim, at least `most` of it over. Where no level at all carries the flow, the level shown
 * is the rim and the shortfall is the flow's. */
static Finding *
add_flood (Judge *judge, CheckId check, Grade grade, unsigned index, double likely_m, double margin_m,
           bool certain)
{
  const OverflowState *overflow = &judge->evaluation->overflows[index];
  const double rim_z = overflow->lowest_rim_z;
  const double shown_m = isfinite (margin_m) && isfinite (likely_m) ? fmax (likely_m, margin_m) : 0;

  return judge_measure (judge, &(Measure){.check = check,
                                          .grade = grade,
                                          .part = overflow->part,
                                          .value = rim_z - shown_m,
                                          .limit = rim_z,
                                          .judged = isfinite (margin_m) ? rim_z - margin_m : rim_z,
                                          .most = true,
                                          .certain = certain});
}

/* What of the flood test is true now; while margins are noted, each may be. */
static bool
asks (const Judge *judge, bool now)
{
  return judge->list != NULL || now;
}

void
check_FLOOD_FAILED (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    const double flow_m3s = judge->workspace->fast.overflow_m3s[i];
    Finding *finding;

    if (!has_emergency (overflow) || !asks (judge, better_margin (overflow) < 0))
      continue;
    const bool primed = better_margin (overflow) > overflow->flood_unprimed_margin_m;
    const double judged_m3s =
        primed ? overflow->blocked_capacity_m3s : (1 - LIP_SCATTER) * overflow->blocked_unprimed_capacity_m3s;

    finding = add_flood (
        judge, CHECK_FLOOD_FAILED, GRADE_STOP, i,
        likely_margin (judge, i, primed ? overflow->flood_primed_box_z : overflow->flood_unprimed_box_z,
                       primed ? overflow->flood_primed_display_z : overflow->flood_unprimed_display_z),
        better_margin (overflow), true);
    if (finding == NULL)
      continue;
    finding_second (finding, judged_m3s);
    finding_second (finding, flow_m3s);
    finding_second (finding, overflow->flood_unprimed_box_z < judge->system->overflows[i].box_rim_z ? 1 : 0);
    if (judge->system->n_overflows == 1)
      remedy_by_speed (judge, finding, 1,
                       flood_bearable_m3s (judge->system, judge->workspace, i, better_margin (overflow)));
  }
}

void
check_FLOOD_PRIMED_ONLY (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    Finding *finding;

    if (!has_emergency (overflow) ||
        !asks (judge, overflow->flood_unprimed_margin_m < 0 && better_margin (overflow) >= 0))
      continue;
    finding = add_flood (
        judge, CHECK_FLOOD_PRIMED_ONLY, GRADE_CAUTION, i,
        likely_margin (judge, i, overflow->flood_unprimed_box_z, overflow->flood_unprimed_display_z),
        overflow->flood_unprimed_margin_m, true);
    finding_second (finding, overflow->flood_primed_box_z);
    finding_second (finding, judge->workspace->fast.overflow_m3s[i]);
  }
}

void
check_FLOOD_FREEBOARD (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];

    if (has_emergency (overflow) && asks (judge, overflow->flood_unprimed_margin_m >= 0))
      judge_measure (judge, &(Measure){.check = CHECK_FLOOD_FREEBOARD,
                                       .grade = GRADE_CAUTION,
                                       .part = overflow->part,
                                       .value = likely_margin (judge, i, overflow->flood_unprimed_box_z,
                                                               overflow->flood_unprimed_display_z),
                                       .limit = WORST_FREEBOARD_M,
                                       .judged = overflow->flood_unprimed_margin_m});
  }
}

void
check_FLOOD_FULL_SPEED (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];

    if (has_emergency (overflow) && speed_can_be_raised (judge) &&
        asks (judge, better_margin (overflow) >= 0 && overflow->flood_full_speed_margin_m < 0))
      finding_second (add_flood (judge, CHECK_FLOOD_FULL_SPEED, GRADE_CAUTION, i,
                                 overflow->flood_full_speed_margin_m, overflow->flood_full_speed_margin_m,
                                 true),
                      judge->workspace->full_speed.overflow_m3s[i]);
  }
}

void
check_NO_EMERGENCY (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++)
    if (!has_emergency (&judge->evaluation->overflows[i]))
      judge_add (judge, CHECK_NO_EMERGENCY, GRADE_NOTE, judge->evaluation->overflows[i].part, 0, 1, -1);
}

/* Air in the pump is worse than less cover than it wants. */
void
check_EMERGENCY_RUNS_DRY (Judge *judge)
{
  const Totals *totals = &judge->evaluation->totals;
  const int datum = judge->system->chambers[judge->system->datum].part;

  for (unsigned i = 0; i < judge->system->n_pumps && isfinite (totals->emergency_return_z); i++) {
    const PumpState *pump = &judge->evaluation->pumps[i];
    Measure measure;
    Finding *finding;

    if (judge->system->pumps[i].chamber != judge->system->datum)
      continue;
    measure = (Measure){.check = CHECK_EMERGENCY_RUNS_DRY,
                        .grade = GRADE_STOP,
                        .part = pump->part,
                        .value = totals->emergency_return_z,
                        .limit = pump->dry_z,
                        .judged = totals->emergency_return_z};
    finding = judge_measure (judge, &measure);
    if (finding == NULL) {
      measure.grade = GRADE_CAUTION;
      measure.limit = pump->dry_z + pump->cover_wanted_m;
      finding = judge_measure (judge, &measure);
    }
    if (finding == NULL)
      continue;
    finding_second (finding, totals->emergency_takes_m3);
    finding_mend (finding, datum, FIELD_CHAMBER_LEVEL,
                  field_number (judge->system, datum, FIELD_CHAMBER_LEVEL) - finding->margin);
  }
}

void
check_TRANSFER_FAILED (Judge *judge)
{
  const int chamber = judge->system->chambers[judge->system->datum].part;

  for (unsigned i = 0; i < judge->evaluation->n_tanks; i++) {
    const Transfer *transfer = &judge->evaluation->transfers[i];
    Finding *finding;

    if (transfer->prime_lost)
      continue;
    finding = judge_most (judge, CHECK_TRANSFER_FAILED, GRADE_STOP, transfer->tank, transfer->pumped_m3,
                          transfer->pumped_m3 + transfer->margin_m3);
    if (finding == NULL)
      continue;
    finding_second (finding, -finding->margin);
    finding_mend (finding, chamber, FIELD_CHAMBER_LEVEL,
                  field_number (judge->system, chamber, FIELD_CHAMBER_LEVEL) +
                      finding->margin / return_pool_area_m2 (judge->system) - 0.001);
  }
}

void
check_TRANSFER_RESERVOIR (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_tanks; i++) {
    const Transfer *transfer = &judge->evaluation->transfers[i];

    if (transfer->reservoir_m3 > 0 && !transfer->cut_out &&
        asks (judge, evaluation_finding (judge->evaluation, CHECK_TRANSFER_FAILED) == NULL))
      finding_mend (judge_most (judge, CHECK_TRANSFER_RESERVOIR, GRADE_CAUTION, transfer->tank,
                                transfer->pumped_m3 + transfer->reservoir_m3,
                                transfer->pumped_m3 + transfer->margin_m3),
                    judge->system->reservoir, FIELD_RESERVOIR_CUT_OUT, CUT_OUT_HIGH_LEVEL);
  }
}

/* Rank of a role in the order of heights; lower ranks stand lower. */
static int
rank (int role)
{
  switch ((DrainRole) role) {
  case DRAIN_SIPHON:
    return 0;
  case DRAIN_STANDPIPE:
  case DRAIN_TRICKLE:
    return 1;
  case DRAIN_EMERGENCY:
  default:
    return 2;
  }
}

/* A mouth at the very height that it must stay under is out of order too. */
static Finding *
stands_under (Judge *judge, Grade grade, const DrainModel *low, double high_z)
{
  return judge_measure (judge, &(Measure){.check = CHECK_HEIGHTS_ORDER,
                                          .grade = grade,
                                          .part = low->part,
                                          .value = low->pipe.mouth_level_m,
                                          .limit = high_z,
                                          .judged = low->pipe.mouth_level_m,
                                          .most = true,
                                          .certain = low->pipe.mouth_level_m >= high_z});
}

static void
order_of_drains (Judge *judge, const OverflowModel *overflow)
{
  const System *system = judge->system;
  const unsigned end = overflow->first_drain + overflow->n_drains;

  for (unsigned i = overflow->first_drain; i < end; i++)
    for (unsigned k = overflow->first_drain; k < end; k++) {
      const DrainModel *low = &system->drains[i], *high = &system->drains[k];
      Finding *finding;

      if (rank (low->role) >= rank (high->role))
        continue;
      finding = stands_under (judge, high->role == DRAIN_EMERGENCY ? GRADE_STOP : GRADE_CAUTION, low,
                              high->pipe.mouth_level_m);
      if (finding != NULL)
        finding->other_part = high->part;
    }
}

void
check_HEIGHTS_ORDER (Judge *judge)
{
  const System *system = judge->system;

  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];
    const TankModel *tank = &system->tanks[overflow->tank];
    Finding *finding;

    order_of_drains (judge, overflow);
    for (unsigned k = overflow->first_drain; k < overflow->first_drain + overflow->n_drains; k++) {
      const DrainModel *drain = &system->drains[k];

      finding = stands_under (judge, GRADE_STOP, drain, overflow->crest_z);
      if (finding == NULL)
        continue;
      finding->other_part = overflow->part;
      finding_mend (finding, drain->part, FIELD_DRAIN_MOUTH,
                    field_number (system, drain->part, FIELD_DRAIN_MOUTH) + finding->margin -
                        1.5 * EMERGENCY_UNDER_CREST_M);
    }
    finding = judge_most (judge, CHECK_HEIGHTS_ORDER, GRADE_STOP, overflow->part, overflow->crest_z,
                          fmin (tank->rim_z, overflow->lowest_rim_z));
    if (finding != NULL)
      finding->other_part = tank->part;
  }
}

void
check_HEIGHTS_GAP (Judge *judge)
{
  const System *system = judge->system;

  for (unsigned i = 0; i < system->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];
    const OverflowModel *overflow = &system->overflows[drain->overflow];
    const double under_m = overflow->crest_z - drain->pipe.mouth_level_m;
    Finding *finding;

    if (drain->role != DRAIN_EMERGENCY || under_m <= 0)
      continue;
    finding = judge_least (judge, CHECK_HEIGHTS_GAP, GRADE_NOTE, drain->part, under_m,
                           EMERGENCY_UNDER_CREST_M - 1e-9);
    if (finding != NULL)
      finding->other_part = overflow->part;
    for (unsigned k = overflow->first_drain; k < overflow->first_drain + overflow->n_drains; k++) {
      const DrainModel *other = &system->drains[k];
      const double over_m = drain->pipe.mouth_level_m - other->pipe.mouth_level_m;

      if (other->role == DRAIN_EMERGENCY || over_m <= 0)
        continue;
      finding = judge_least (judge, CHECK_HEIGHTS_GAP, GRADE_NOTE, other->part, over_m,
                             EMERGENCY_OVER_OTHER_M - 1e-9);
      if (finding != NULL)
        finding->other_part = drain->part;
    }
  }
}

void
check_DISPLAY_OVER_RIM (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_tanks; i++) {
    const TankState *tank = &judge->evaluation->tanks[i];
    Finding *finding;

    finding = judge_measure (judge, &(Measure){.check = CHECK_DISPLAY_OVER_RIM,
                                               .grade = GRADE_STOP,
                                               .part = tank->part,
                                               .value = tank->display_z,
                                               .limit = tank->rim_z,
                                               .judged = tank->rim_z - tank->freeboard_m,
                                               .most = true,
                                               .certain = tank->freeboard_m <= 0});
    finding_second (finding, judge->evaluation->totals.overflow_head_m);
  }
}

void
check_DISPLAY_FREEBOARD (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_tanks; i++) {
    const TankState *tank = &judge->evaluation->tanks[i];
    const TankModel *model = &judge->system->tanks[i];
    Finding *finding;

    if (!asks (judge, tank->freeboard_m > 0))
      continue;
    finding = judge_measure (judge, &(Measure){.check = CHECK_DISPLAY_FREEBOARD,
                                               .grade = GRADE_CAUTION,
                                               .part = tank->part,
                                               .value = tank->rim_z - tank->display_z,
                                               .limit = DISPLAY_FREEBOARD_M,
                                               .judged = tank->freeboard_m});
    if (finding == NULL)
      continue;
    finding_second (finding, judge->evaluation->totals.overflow_head_m);
    if (model->n_overflows == 1) {
      const int overflow = judge->system->overflows[model->first_overflow].part;

      finding_mend (finding, overflow, FIELD_OVERFLOW_CREST,
                    field_number (judge->system, overflow, FIELD_OVERFLOW_CREST) + finding->margin - 0.001);
    }
  }
}

void
check_DISPLAY_FULL_SPEED (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_tanks && speed_can_be_raised (judge); i++)
    if (asks (judge, judge->evaluation->tanks[i].freeboard_m > 0))
      judge_least (judge, CHECK_DISPLAY_FULL_SPEED, GRADE_CAUTION, judge->evaluation->tanks[i].part,
                   judge->evaluation->tanks[i].full_speed_freeboard_m, WORST_FREEBOARD_M);
}

void
check_BOX_OVER_RIM (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    const double rim_z = judge->system->overflows[i].box_rim_z;
    const double box_z = fmax (judge->workspace->fast.box_z[i], judge->workspace->fast.inner_z[i]);

    judge_measure (judge, &(Measure){.check = CHECK_BOX_OVER_RIM,
                                     .grade = GRADE_STOP,
                                     .part = overflow->part,
                                     .value = box_z,
                                     .limit = rim_z,
                                     .judged = box_z < rim_z ? box_z : fmax (box_z, rim_z + 1e-6),
                                     .most = true});
  }
}

void
check_WEIR_DROWNED (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++)
    judge_most (judge, CHECK_WEIR_DROWNED, GRADE_CAUTION, judge->evaluation->overflows[i].part,
                judge->evaluation->overflows[i].inner_box_z, judge->evaluation->overflows[i].crest_z);
}

void
check_WEIR_LOADING (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    Finding *finding = NULL;

    if (asks (judge, !overflow->drowned))
      finding = judge_most (judge, CHECK_WEIR_LOADING, GRADE_NOTE, overflow->part, overflow->head_m,
                            LOADING_HEAD_M);
    if (finding == NULL)
      continue;
    finding_second (finding, overflow->gap_loading_m2s);
  }
}

void
check_COMB_CHOKES (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_overflows; i++) {
    const OverflowState *overflow = &judge->evaluation->overflows[i];
    const OverflowModel *model = &judge->system->overflows[i];
    const double rim_z = judge->system->tanks[model->tank].rim_z;
    const double half_z = overflow->crest_z + overflow->half_covered_head_m;
    const Finding *choked = NULL;

    if (model->weir.formula != WEIR_COMB || !isfinite (half_z))
      continue;
    if (model->closed_comb)
      choked = judge_most (judge, CHECK_COMB_CHOKES, GRADE_CAUTION, overflow->part, overflow->display_z,
                           model->comb_top_z);
    if (choked == NULL)
      judge_most (judge, CHECK_COMB_CHOKES, GRADE_CAUTION, overflow->part, half_z, rim_z);
  }
}
