/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks of devices, top-off, electricity and panes. */
#include "design/choices.h"
#include "solver/checks.h"

#define DAY_S         86400.0
#define RESERVOIR_S   (7 * DAY_S)
#define CIRCUIT_SHARE 0.8
/* Share of a reservoir's outside that is water when full, as in its default volume. */
#define RESERVOIR_INSIDE 0.9
/* Fall of salinity at once, g/kg, that animals of a reef bear: common practice, no source. */
#define DILUTION_BORNE 2.0

/* Too deep and too shallow alike; the limit told is the depth that is wanted. */
static Finding *
measure_depth (Judge *judge, const DeviceModel *model, double depth_m)
{
  const double slack_m = model->tolerance_m + 1e-9, wanted_m = model->depth_m;
  Finding *finding =
      judge_least (judge, CHECK_DEVICE_DEPTH, GRADE_CAUTION, model->part, depth_m, wanted_m - slack_m);

  if (finding == NULL)
    finding = judge_most (judge, CHECK_DEVICE_DEPTH, GRADE_CAUTION, model->part, depth_m, wanted_m + slack_m);
  if (finding != NULL)
    finding->limit = wanted_m;
  return finding;
}

void
check_DEVICE_DEPTH (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_devices; i++) {
    const DeviceModel *model = &judge->system->devices[i];
    const double depth_m = judge->evaluation->devices[i].depth_m, off_m = depth_m - model->depth_m;
    Finding *finding;

    if (!(model->depth_m > 0))
      continue;
    finding = measure_depth (judge, model, depth_m);
    if (finding == NULL)
      continue;
    finding_second (finding, model->tolerance_m);
    finding_mend (finding, model->part, FIELD_DEVICE_STANDS,
                  field_number (judge->system, model->part, FIELD_DEVICE_STANDS) + off_m);
  }
}

void
check_DEVICE_DRY (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_devices; i++) {
    const DeviceModel *model = &judge->system->devices[i];
    const double lowest_z = judge->evaluation->devices[i].lowest_depth_m + model->stands_z;
    Finding *finding;

    if (!(model->wet_m > 0))
      continue;
    finding = judge_least (judge, CHECK_DEVICE_DRY, model->kind == DEVICE_HEATER ? GRADE_STOP : GRADE_CAUTION,
                           model->part, lowest_z, model->stands_z + model->wet_m);
    if (finding != NULL)
      finding_mend (finding, model->part, FIELD_DEVICE_STANDS,
                    field_number (judge->system, model->part, FIELD_DEVICE_STANDS) + finding->margin - 0.001);
  }
}

void
check_DEVICE_ROOM (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_devices; i++)
    judge_least (judge, CHECK_DEVICE_ROOM, GRADE_CAUTION, judge->system->devices[i].part,
                 judge->evaluation->devices[i].room_m, judge->system->devices[i].room_m);
}

static void
measure_flow (Judge *judge, CheckId check, unsigned index, double limit_m3s, double judged_m3s)
{
  const DeviceState *device = &judge->evaluation->devices[index];

  if (device->feed >= 0 && limit_m3s > 0)
    judge_measure (judge, &(Measure){.check = check,
                                     .grade = GRADE_CAUTION,
                                     .part = device->part,
                                     .value = device->flow_m3s,
                                     .limit = limit_m3s,
                                     .judged = judged_m3s,
                                     .most = check == CHECK_DEVICE_FLOW_HIGH});
}

void
check_DEVICE_FLOW_LOW (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_devices; i++)
    measure_flow (judge, CHECK_DEVICE_FLOW_LOW, i, judge->system->devices[i].flow_least_m3s,
                  judge->evaluation->devices[i].slow_flow_m3s);
}

void
check_DEVICE_FLOW_HIGH (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_devices; i++)
    measure_flow (judge, CHECK_DEVICE_FLOW_HIGH, i, judge->system->devices[i].flow_most_m3s,
                  judge->evaluation->devices[i].fast_flow_m3s);
}

static void
fit_in (Judge *judge, int part, unsigned chamber, double length_m, double width_m)
{
  const ChamberModel *model = &judge->system->chambers[chamber];

  finding_second (judge_most (judge, CHECK_DEVICE_FIT, GRADE_CAUTION, part, length_m, model->length_m), 0);
  finding_second (
      judge_most (judge, CHECK_DEVICE_FIT, GRADE_CAUTION, part, width_m, model->area_m2 / model->length_m),
      1);
}

void
check_DEVICE_FIT (Judge *judge)
{
  for (unsigned i = 0; i < judge->system->n_devices; i++) {
    const DeviceModel *device = &judge->system->devices[i];

    if (device->kind != DEVICE_CHILLER) /* it stands beside the sump */
      fit_in (judge, device->part, device->chamber, device->length_m, device->width_m);
  }
  for (unsigned i = 0; i < judge->system->n_pumps; i++) {
    const PumpModel *pump = &judge->system->pumps[i];

    if (!pump->outside)
      fit_in (judge, pump->part, pump->chamber, pump->length_m, pump->width_m);
  }
}

void
check_TOP_OFF_SHORT (Judge *judge)
{
  const Totals *totals = &judge->evaluation->totals;
  Finding *finding;

  if (judge->system->reservoir < 0 || !isfinite (totals->slow_top_off_days))
    return;
  finding = judge_measure (
      judge, &(Measure){.check = CHECK_TOP_OFF_SHORT,
                        .grade = totals->top_off_days * DAY_S < RESERVOIR_S ? GRADE_CAUTION : GRADE_NOTE,
                        .part = judge->system->reservoir,
                        .value = totals->top_off_days * DAY_S,
                        .limit = RESERVOIR_S,
                        .judged = totals->slow_top_off_days * DAY_S});
  if (finding == NULL)
    return;
  finding_mend (finding, judge->system->reservoir, FIELD_RESERVOIR_VOLUME,
                totals->fast_evaporation_m3s * RESERVOIR_S * 1.001);
}

void
check_TOP_OFF_NONE (Judge *judge)
{
  const double reserve_s = judge->evaluation->totals.reserve_s;

  if (judge->system->reservoir < 0 && isfinite (reserve_s))
    judge_measure (judge, &(Measure){.check = CHECK_TOP_OFF_NONE,
                                     .grade = GRADE_NOTE,
                                     .part = judge->system->sump,
                                     .value = reserve_s,
                                     .limit = DAY_S,
                                     .judged = reserve_s,
                                     .certain = true});
}

void
check_RESERVE_SHORT (Judge *judge)
{
  const Totals *totals = &judge->evaluation->totals;
  const int chamber = judge->system->chambers[judge->system->datum].part;
  Finding *finding =
      judge_least (judge, CHECK_RESERVE_SHORT, GRADE_CAUTION, chamber, totals->reserve_s, DAY_S);

  if (finding != NULL)
    finding_mend (finding, chamber, FIELD_CHAMBER_LEVEL,
                  field_number (judge->system, chamber, FIELD_CHAMBER_LEVEL) -
                      finding->margin * totals->fast_evaporation_m3s / return_pool_area_m2 (judge->system) +
                      0.001);
}

static double
reservoir_m3 (const Judge *judge)
{
  return judge->system->reservoir < 0
             ? 0
             : field_number (judge->system, judge->system->reservoir, FIELD_RESERVOIR_VOLUME);
}

double
reservoir_full_z (const System *system)
{
  const double plan_m2 = field_number (system, system->reservoir, FIELD_RESERVOIR_LENGTH) *
                         field_number (system, system->reservoir, FIELD_RESERVOIR_WIDTH);

  return field_number (system, system->stand, FIELD_STAND_FLOOR) +
         fmin (field_number (system, system->reservoir, FIELD_RESERVOIR_HEIGHT),
               field_number (system, system->reservoir, FIELD_RESERVOIR_VOLUME) /
                   (RESERVOIR_INSIDE * plan_m2));
}

static double
tube_end_z (const Judge *judge)
{
  return judge->system->chambers[judge->system->datum].bottom_z +
         field_number (judge->system, judge->system->reservoir, FIELD_RESERVOIR_TUBE_END);
}

/* Whether a tube that its pump has filled goes on running when the pump stops: its end lies under the reservoir's surface
 * and nothing lets air in. */
static bool
tube_runs_on (const Judge *judge)
{
  return !(field_number (judge->system, judge->system->reservoir, FIELD_RESERVOIR_TUBE_BREAK) > 0) &&
         tube_end_z (judge) < reservoir_full_z (judge->system);
}

/* Only a longest run time stops a top-off that sticks on: the weir holds the display's level while the sump fills, so a
 * switch in the display never sees it. A siphon through the tube does not stop with its pump. */
static bool
run_time_is_cut (const Judge *judge)
{
  return !tube_runs_on (judge) && (int) field_number (judge->system, judge->system->reservoir,
                                                      FIELD_RESERVOIR_CUT_OUT) == CUT_OUT_RUN_TIME;
}

/* What spills when the whole reservoir runs into the return chamber, alone or with the drain-back at its upper edge. */
static double
spills_with_reservoir (const Judge *judge, bool with_drain_back)
{
  const System *system = judge->system;
  const DrainBack *back = &judge->evaluation->drain_back;
  const double upper = back->total_m3 > 0 ? back->upper_total_m3 / back->total_m3 : 1;
  double added_m3[EVALUATION_CHAMBERS_MAX] = {0};
  Pour poured;

  added_m3[system->datum] = reservoir_m3 (judge);
  for (unsigned k = 0; k < back->n_lines && with_drain_back; k++)
    for (unsigned i = 0; i < system->n_chambers; i++)
      if (system->chambers[i].part == back->lines[k].chamber)
        added_m3[i] += upper * back->lines[k].m3;
  pour (system, judge->workspace->running.chamber_z, added_m3, &poured);
  return poured.spilled_m3;
}

static void
judge_reservoir (Judge *judge, CheckId check, Grade grade, double value_m3, double upper_m3,
                 double spilled_m3)
{
  const double free_m3 = judge->evaluation->drain_back.free_m3;
  const double margin_m3 =
      spilled_m3 > 0 ? fmin (free_m3 - upper_m3, -spilled_m3) : fmax (free_m3 - upper_m3, 0);
  Finding *finding;

  if (run_time_is_cut (judge))
    return;
  finding = judge_measure (judge, &(Measure){.check = check,
                                             .grade = grade,
                                             .part = judge->system->reservoir,
                                             .value = value_m3,
                                             .limit = free_m3,
                                             .judged = free_m3 - margin_m3,
                                             .most = true});
  if (finding != NULL)
    finding->upper = fmax (finding->upper, upper_m3);
  finding_mend (finding, judge->system->reservoir, FIELD_RESERVOIR_CUT_OUT, CUT_OUT_RUN_TIME);
}

void
check_TOP_OFF_FLOODS (Judge *judge)
{
  if (judge->system->reservoir >= 0)
    judge_reservoir (judge, CHECK_TOP_OFF_FLOODS, GRADE_STOP, reservoir_m3 (judge), reservoir_m3 (judge),
                     spills_with_reservoir (judge, false));
}

void
check_TOP_OFF_POWER_CUT (Judge *judge)
{
  if (judge->system->reservoir >= 0 && evaluation_finding (judge->evaluation, CHECK_TOP_OFF_FLOODS) == NULL)
    judge_reservoir (judge, CHECK_TOP_OFF_POWER_CUT, GRADE_CAUTION,
                     reservoir_m3 (judge) + judge->evaluation->drain_back.total_m3,
                     reservoir_m3 (judge) + judge->evaluation->drain_back.upper_total_m3,
                     spills_with_reservoir (judge, true));
}

/* A top-off that sticks on dilutes the whole system, where it does not flood it first. */
void
check_TOP_OFF_DILUTES (Judge *judge)
{
  const double salinity = field_number (judge->system, judge->system->room, FIELD_ROOM_SALINITY);

  if (judge->system->reservoir < 0 || run_time_is_cut (judge) || !(salinity > DILUTION_BORNE))
    return;
  finding_mend (judge_least (judge, CHECK_TOP_OFF_DILUTES, GRADE_NOTE, judge->system->reservoir,
                             judge->evaluation->totals.diluted_g_kg, salinity - DILUTION_BORNE),
                judge->system->reservoir, FIELD_RESERVOIR_CUT_OUT, CUT_OUT_RUN_TIME);
}

void
check_TOP_OFF_SIPHON (Judge *judge)
{
  const System *system = judge->system;
  const double bottom_z = system->chambers[system->datum].bottom_z;
  const DrainBack *back = &judge->evaluation->drain_back;
  const double rest_z = judged_chamber (judge, system->datum)->power_off_z +
                        (system->exact ? 0 : fmax (back->freeboard_m - back->upper_freeboard_m, 0));

  if (system->reservoir >= 0)
    finding_mend (judge_least (judge, CHECK_TOP_OFF_SIPHON, GRADE_CAUTION, system->reservoir,
                               tube_end_z (judge), rest_z),
                  system->reservoir, FIELD_RESERVOIR_TUBE_END, rest_z - bottom_z + 0.010);
}

void
check_TOP_OFF_RUNS_ON (Judge *judge)
{
  const System *system = judge->system;

  if (system->reservoir >= 0 && tube_runs_on (judge))
    finding_mend (judge_least (judge, CHECK_TOP_OFF_RUNS_ON, GRADE_CAUTION, system->reservoir,
                               tube_end_z (judge), reservoir_full_z (judge->system)),
                  system->reservoir, FIELD_RESERVOIR_TUBE_BREAK, 1);
}

void
check_CIRCUIT_LOAD (Judge *judge)
{
  judge_most (judge, CHECK_CIRCUIT_LOAD, GRADE_CAUTION, judge->system->room,
              judge->evaluation->totals.connected_w,
              CIRCUIT_SHARE * field_number (judge->system, judge->system->room, FIELD_ROOM_CIRCUIT));
}

void
check_SOCKET_HEIGHT (Judge *judge)
{
  const System *system = judge->system;
  const double floor_z = field_number (system, system->stand, FIELD_STAND_FLOOR);
  const double rest_z = judge->evaluation->totals.highest_power_off_z;

  finding_mend (judge_least (judge, CHECK_SOCKET_HEIGHT, GRADE_CAUTION, system->stand,
                             floor_z + field_number (system, system->stand, FIELD_STAND_SOCKET_HEIGHT),
                             rest_z),
                system->stand, FIELD_STAND_SOCKET_HEIGHT, rest_z - floor_z + 0.100);
}

/* Pipes leave an inside box through the bottom pane; the others need the back pane, but one that hangs over needs none. */
static void
judge_panes (Judge *judge, CheckId check, Grade grade, PaneKind kind)
{
  const System *system = judge->system;

  for (unsigned i = 0; i < system->n_tanks; i++) {
    unsigned holes[2] = {0};

    for (unsigned k = system->tanks[i].first_overflow;
         k < system->tanks[i].first_overflow + system->tanks[i].n_overflows; k++) {
      const OverflowModel *overflow = &system->overflows[k];

      if (overflow->kind == OVERFLOW_INSIDE)
        holes[0] += overflow->n_drains;
      else if (!overflow->hangs_over)
        holes[1] += overflow->kind == OVERFLOW_PAIR ? (unsigned) overflow->n_passages : 1;
    }
    for (unsigned pane = 0; pane < 2; pane++)
      if (holes[pane] > 0 &&
          (int) field_number (system, system->tanks[i].part,
                              pane == 0 ? FIELD_TANK_BOTTOM_PANE : FIELD_TANK_BACK_PANE) == (int) kind)
        finding_second (
            judge_add (judge, check, grade, system->tanks[i].part, holes[pane], 0, -(double) holes[pane]),
            pane);
  }
}

void
check_PANE_TEMPERED (Judge *judge)
{
  judge_panes (judge, CHECK_PANE_TEMPERED, GRADE_STOP, PANE_TEMPERED);
}

void
check_PANE_ASK (Judge *judge)
{
  judge_panes (judge, CHECK_PANE_ASK, GRADE_NOTE, PANE_UNKNOWN);
}

/* Whether an overflow has an emergency drain that is open, so that its flood test must have an answer. */
static bool
emergency_is_open (const System *system, unsigned overflow)
{
  const OverflowModel *model = &system->overflows[overflow];

  for (unsigned i = model->first_drain; i < model->first_drain + model->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];

    if (drain->role == DRAIN_EMERGENCY && !drain->blocked &&
        (drain->valve == VALVE_NONE || isfinite (drain_valve_k (drain, drain->valve_opening))))
      return true;
  }
  return false;
}

static unsigned
unknown (double value)
{
  return isnan (value) ? 1u : 0u;
}

/* How many of the numbers that the verdicts on water rest on are not numbers: a comparison with one is false, and would
 * pass. A level without an upper bound is a number here: it fails by itself. */
static unsigned
unknown_numbers (const Judge *judge)
{
  const Evaluation *evaluation = judge->evaluation;
  const DrainBack *backs[] = {&evaluation->drain_back, &evaluation->plugged};
  unsigned n = unknown (evaluation->totals.flow_m3s) + unknown (evaluation->totals.slow_turnover_per_h);

  for (unsigned i = 0; i < evaluation->n_tanks; i++)
    n += unknown (evaluation->tanks[i].freeboard_m) + unknown (evaluation->tanks[i].full_speed_freeboard_m) +
         unknown (evaluation->transfers[i].margin_m3) +
         unknown (evaluation->transfers[i].margin_reservoir_m3);
  for (unsigned i = 0; i < evaluation->n_overflows; i++) {
    const OverflowState *overflow = &evaluation->overflows[i];

    n += unknown (overflow->display_z) + unknown (overflow->box_z) + unknown (overflow->inner_box_z);
    n += unknown (judge->workspace->fast.box_z[i]) + unknown (judge->workspace->fast.overflow_m3s[i]);
    if (emergency_is_open (judge->system, i))
      n += unknown (overflow->flood_unprimed_margin_m) + unknown (overflow->flood_full_speed_margin_m);
  }
  for (unsigned i = 0; i < judge->system->n_chambers; i++)
    n += unknown (judge->workspace->fast.chamber_z[i]) + unknown (judged_chamber (judge, i)->power_off_z);
  for (unsigned i = 0; i < G_N_ELEMENTS (backs); i++)
    n += unknown (backs[i]->upper_margin_m3) + unknown (backs[i]->upper_spilled_m3) +
         unknown (backs[i]->upper_freeboard_m);
  return n;
}

void
check_NOT_SOLVED (Judge *judge)
{
  const bool nothing = judge->evaluation->status == EVALUATION_NOT_SOLVED;
  /* Without a flow there is no turnover over a display that holds no water, and pump-too-weak stops. */
  const unsigned n = nothing ? 1 : unknown_numbers (judge);

  if (n > 0)
    judge_add (judge, CHECK_NOT_SOLVED, GRADE_STOP, -1, n, 0, -(double) n);
}
