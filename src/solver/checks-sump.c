/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks of the sump: levels, drain-back, size, socks, chambers. */
#include "design/choices.h"
#include "solver/checks.h"

#define HAND_M          0.150
#define OVER_SOCK_M     0.050
#define CHAMBER_MOST_MS 0.10
#define TRAP_MOST_MS    0.05
#define BAFFLE_MOST_M   0.050
/* Freeboard in the worst failure (common practice), and the sheet that a sock's holder is made of. */
#define WORST_FREEBOARD_M 0.010
#define LIP_THICKNESS_M   0.006

void
check_SUMP_OVER_RIM (Judge *judge)
{
  for (unsigned i = 0; i < judge->system->n_chambers; i++) {
    const ChamberModel *chamber = &judge->system->chambers[i];

    judge_most (judge, CHECK_SUMP_OVER_RIM, GRADE_STOP, chamber->part,
                fmax (judge->workspace->fast.chamber_z[i], i == judge->system->datum ? chamber->level_z : 0),
                chamber->rim_z);
  }
}

/* Lowers the running level by what is missing, in the pool that the level belongs to. */
static void
remedy_by_level (Judge *judge, Finding *finding, double missing_m3)
{
  const int chamber = judge->system->chambers[judge->system->datum].part;

  finding_mend (finding, chamber, FIELD_CHAMBER_LEVEL,
                field_number (judge->system, chamber, FIELD_CHAMBER_LEVEL) -
                    missing_m3 / return_pool_area_m2 (judge->system) - 0.001);
}

/* What runs back against the room for it; what spills where the whole would have fitted counts alike. */
static Finding *
measure_back (Judge *judge, CheckId check, Grade grade, const DrainBack *back)
{
  Finding *finding =
      judge_measure (judge, &(Measure){.check = check,
                                       .grade = grade,
                                       .part = judge->system->sump,
                                       .value = back->total_m3,
                                       .limit = back->free_m3,
                                       .judged = back->free_m3 - back->upper_margin_m3,
                                       .most = true,
                                       .certain = back->upper_margin_m3 < 0 || back->upper_spilled_m3 > 0});

  if (finding != NULL)
    finding->upper = fmax (finding->upper, back->upper_total_m3);
  return finding;
}

void
check_DRAIN_BACK_FLOODS (Judge *judge)
{
  const DrainBack *back = &judge->evaluation->drain_back;
  Finding *finding;

  finding = measure_back (judge, CHECK_DRAIN_BACK_FLOODS, GRADE_STOP, back);
  if (finding == NULL)
    return;
  finding_second (finding, fmax (back->upper_spilled_m3, -finding->margin));
  finding_second (finding, back->highest_z);
  finding_second (finding, judge->system->chambers[0].rim_z);
  remedy_by_level (judge, finding, -finding->margin);
}

void
check_DRAIN_BACK_FREEBOARD (Judge *judge)
{
  const DrainBack *back = &judge->evaluation->drain_back;
  const double wanted_m = field_number (judge->system, judge->system->sump, FIELD_SUMP_LIP);
  Finding *finding;

  if (judge->list == NULL && (back->upper_margin_m3 < 0 || back->upper_spilled_m3 > 0))
    return;
  finding = judge_measure (judge, &(Measure){.check = CHECK_DRAIN_BACK_FREEBOARD,
                                             .grade = GRADE_CAUTION,
                                             .part = judge->system->sump,
                                             .value = back->freeboard_m,
                                             .limit = wanted_m,
                                             .judged = back->upper_freeboard_m});
  finding_second (finding, back->total_m3);
}

void
check_DRAIN_BACK_PLUGGED (Judge *judge)
{
  const DrainBack *plugged = &judge->evaluation->plugged;
  Finding *finding;

  if (evaluation_finding (judge->evaluation, CHECK_DRAIN_BACK_FLOODS) != NULL &&
      plugged->total_m3 <= judge->evaluation->drain_back.total_m3 * (1 + 1e-9))
    return;
  finding = measure_back (judge, CHECK_DRAIN_BACK_PLUGGED, GRADE_CAUTION, plugged);
  if (finding != NULL)
    finding_second (finding, fmax (plugged->upper_spilled_m3, -finding->margin));
}

void
check_CHECK_VALVE (Judge *judge)
{
  const DrainBack *back = &judge->evaluation->drain_back;

  for (unsigned i = 0; i < judge->system->n_runs; i++) {
    const RunModel *run = &judge->system->runs[i];
    double held_m3;

    if (!run->has_check || run->feeds_device)
      continue;
    held_m3 = segments_volume_above (judge->system, run->first_segment, run->n_segments, run->pipe.bore_m,
                                     run->check_z);
    for (unsigned k = 0; k < back->n_lines; k++)
      if (back->lines[k].kind == BACK_DISPLAY_SIPHON)
        held_m3 += back->lines[k].m3;
    judge_add (judge, CHECK_CHECK_VALVE, GRADE_NOTE, run->part, held_m3, 0, 0);
  }
}

void
check_SUMP_STAND (Judge *judge)
{
  static const FieldId sump[] = {FIELD_SUMP_LENGTH, FIELD_SUMP_WIDTH, FIELD_SUMP_HEIGHT};
  static const FieldId stand[] = {FIELD_STAND_LENGTH, FIELD_STAND_WIDTH, FIELD_STAND_HEIGHT};
  static const FieldId reservoir[] = {FIELD_RESERVOIR_LENGTH, FIELD_RESERVOIR_WIDTH, FIELD_RESERVOIR_HEIGHT};
  const System *system = judge->system;

  for (unsigned axis = 0; axis < 3; axis++) {
    const double room_m = field_number (system, system->stand, stand[axis]);
    const double start_m = axis == 0   ? field_number (system, system->sump, FIELD_SUMP_X)
                           : axis == 1 ? field_number (system, system->sump, FIELD_SUMP_Y)
                                       : 0;
    const double size_m = field_number (system, system->sump, sump[axis]);
    Finding *finding = judge_most (judge, CHECK_SUMP_STAND, GRADE_STOP, system->sump,
                                   fmax (size_m, start_m + size_m), room_m);

    finding_second (finding, axis);
    if (finding != NULL && room_m - start_m > 0)
      finding_mend (finding, system->sump, sump[axis], room_m - fmax (start_m, 0) - 0.001);
    if (start_m < -1e-9)
      finding_second (judge_add (judge, CHECK_SUMP_STAND, GRADE_STOP, system->sump, start_m, 0, start_m),
                      axis);
    if (system->reservoir < 0)
      continue;
    finding = judge_most (
        judge, CHECK_SUMP_STAND, GRADE_STOP, system->reservoir,
        field_number (system, system->reservoir, reservoir[axis]) +
            (axis == 0 ? fmax (field_number (system, system->reservoir, FIELD_RESERVOIR_X), 0) : 0),
        room_m);
    finding_second (finding, axis);
  }
}

/* Upright through the door: lengthwise, or end first where the stand is deep enough to turn it in. */
void
check_SUMP_DOOR (Judge *judge)
{
  const System *system = judge->system;
  const double length_m = field_number (system, system->sump, FIELD_SUMP_LENGTH),
               width_m = field_number (system, system->sump, FIELD_SUMP_WIDTH),
               height_m = field_number (system, system->sump, FIELD_SUMP_HEIGHT),
               door_m = field_number (system, system->stand, FIELD_STAND_DOOR_WIDTH),
               door_height_m = field_number (system, system->stand, FIELD_STAND_DOOR_HEIGHT),
               depth_m = field_number (system, system->stand, FIELD_STAND_WIDTH);
  const bool end_first = width_m <= door_m && length_m <= depth_m;
  Finding *finding = NULL;

  if (!end_first)
    finding = judge_most (judge, CHECK_SUMP_DOOR, GRADE_STOP, system->sump, length_m, door_m);
  finding_second (finding, 0);
  finding_mend (finding, system->sump, FIELD_SUMP_LENGTH, door_m - 0.010);
  finding = judge_most (judge, CHECK_SUMP_DOOR, GRADE_STOP, system->sump, height_m, door_height_m);
  finding_second (finding, 2);
  finding_mend (finding, system->sump, FIELD_SUMP_HEIGHT, door_height_m - 0.010);
}

void
check_SUMP_ROOM (Judge *judge)
{
  const System *system = judge->system;
  const double room_m = field_number (system, system->stand, FIELD_STAND_HEIGHT) -
                        field_number (system, system->sump, FIELD_SUMP_HEIGHT);

  if (room_m >= 0)
    judge_least (judge, CHECK_SUMP_ROOM, GRADE_CAUTION, system->sump, room_m, HAND_M);
  for (unsigned i = 0; i < system->n_chambers; i++)
    if (system->chambers[i].socks > 0 && room_m >= HAND_M)
      judge_least (judge, CHECK_SUMP_ROOM, GRADE_NOTE, system->chambers[i].part, room_m,
                   system->chambers[i].sock_length_m + OVER_SOCK_M);
}

void
check_SOCK_FLOW (Judge *judge)
{
  const System *system = judge->system;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    const ChamberModel *chamber = &system->chambers[i];
    double flow_m3s = 0;

    if (!(chamber->socks > 0))
      continue;
    for (unsigned k = 0; k < system->n_drains; k++)
      if (system->drains[k].chamber == i)
        flow_m3s += judge->workspace->running.drain_m3s[k];
    finding_second (judge_most (judge, CHECK_SOCK_FLOW, GRADE_CAUTION, chamber->part, flow_m3s,
                                chamber->socks * chamber->sock_flow_m3s),
                    chamber->socks);
  }
}

/* Level of a holder whose socks let nothing through any more, while a flow leaves over its bypass lip. */
static HydraulicsStatus
clogged_level (const System *system, unsigned index, double flow_m3s, double chamber_z, double *ret_likely_z,
               double *ret_high_z)
{
  const ChamberModel *chamber = &system->chambers[index];
  const Weir lip = {.formula = WEIR_THICK_CREST,
                    .crest_length_m = chamber->bypass_length_m,
                    .channel_width_m = chamber->bypass_length_m,
                    .crest_height_m = fmax (chamber->bypass_z - chamber->bottom_z, 0.01),
                    .crest_thickness_m = LIP_THICKNESS_M};
  double head_m = 0, low_m, high_m = 0;
  HydraulicsStatus status = weir_head (&lip, flow_m3s, fmax (chamber_z - chamber->bypass_z, 0), &head_m);

  if (status != HYDRAULICS_OK && !(status == HYDRAULICS_OUT_OF_RANGE && head_m > 0))
    return status;
  if (head_m > 0)
    weir_head_band (head_m, &low_m, &high_m);
  *ret_likely_z = fmax (chamber->bypass_z + head_m, chamber_z);
  *ret_high_z = fmax (chamber->bypass_z + high_m, chamber_z);
  return HYDRAULICS_OK;
}

static double
flow_into (const System *system, const State *state, unsigned chamber)
{
  double flow_m3s = 0;

  for (unsigned k = 0; k < system->n_drains; k++)
    if (system->drains[k].chamber == chamber)
      flow_m3s += fmax (state->drain_m3s[k], 0);
  return flow_m3s;
}

/* Socks clog within days, so this is judged as what will happen, at the fast edge. */
void
check_SOCK_CLOGGED (Judge *judge)
{
  const System *system = judge->system;
  const State *fast = &judge->workspace->fast;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    const ChamberModel *chamber = &system->chambers[i];
    const double flow_m3s = flow_into (system, fast, i), limit_z = chamber->rim_z - WORST_FREEBOARD_M;
    double likely_z, high_z;
    Measure measure;
    Finding *finding;

    if (!(chamber->socks > 0) || !(flow_m3s > 0) ||
        clogged_level (system, i, flow_m3s, fast->chamber_z[i], &likely_z, &high_z) != HYDRAULICS_OK)
      continue;
    measure = (Measure){.check = CHECK_SOCK_CLOGGED,
                        .grade = GRADE_STOP,
                        .part = chamber->part,
                        .value = likely_z,
                        .limit = chamber->rim_z,
                        .judged = system->exact ? likely_z : high_z,
                        .most = true};
    finding = judge_measure (judge, &measure);
    if (finding != NULL) {
      finding->margin -= WORST_FREEBOARD_M;
      finding->limit = limit_z;
    } else {
      measure.grade = GRADE_CAUTION;
      measure.limit = limit_z;
      finding = judge_measure (judge, &measure);
    }
    if (finding == NULL)
      continue;
    finding_second (finding, chamber->rim_z);
    finding_second (finding, flow_m3s);
    finding_mend (finding, chamber->part, FIELD_CHAMBER_BYPASS,
                  field_number (system, chamber->part, FIELD_CHAMBER_BYPASS) + finding->margin - 0.001);
  }
}

void
check_SOCK_BACKS_UP (Judge *judge)
{
  const System *system = judge->system;
  State clogged = judge->workspace->fast;
  double highest_z = -NO_LIMIT;

  if (evaluation_finding (judge->evaluation, CHECK_DRAIN_OVERRUN) != NULL)
    return;
  for (unsigned i = 0; i < system->n_chambers; i++) {
    double likely_z, high_z;

    if (!(system->chambers[i].socks > 0) ||
        clogged_level (system, i, flow_into (system, &clogged, i), clogged.chamber_z[i], &likely_z,
                       &high_z) != HYDRAULICS_OK)
      continue;
    clogged.chamber_z[i] = system->exact ? likely_z : high_z;
    highest_z = fmax (highest_z, clogged.chamber_z[i]);
  }
  for (unsigned i = 0; i < system->n_overflows && isfinite (highest_z); i++) {
    const OverflowModel *overflow = &system->overflows[i];
    const double likely_m3s = overflow_running_capacity (system, judge->workspace, &clogged, i,
                                                         overflow->lowest_rim_z, SETTING_AS_SET, false);
    const double low_m3s = overflow_running_capacity (system, judge->workspace, &clogged, i,
                                                      overflow->lowest_rim_z, SETTING_AS_SET, true);
    Finding *finding = judge_measure (judge, &(Measure){.check = CHECK_SOCK_BACKS_UP,
                                                        .grade = GRADE_STOP,
                                                        .part = overflow->part,
                                                        .value = likely_m3s,
                                                        .limit = clogged.overflow_m3s[i],
                                                        .judged = low_m3s});

    finding_second (finding, highest_z);
  }
}

/* Mean velocity: along the chamber through its wet section, or upright through the plan of a bubble trap. */
void
check_CHAMBER_VELOCITY (Judge *judge)
{
  const System *system = judge->system;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    const ChamberModel *chamber = &system->chambers[i];
    const State *state = &judge->workspace->running;
    const double flow_m3s = fmax (i > 0 ? fabs (state->baffle_m3s[i - 1]) : 0,
                                  i + 1 < system->n_chambers ? fabs (state->baffle_m3s[i]) : 0);
    const double depth_m = fmax (state->chamber_z[i] - chamber->bottom_z, 0.001);
    const bool trap = chamber->role == CHAMBER_TRAP;
    const double section_m2 = trap ? chamber->area_m2 : depth_m * chamber->area_m2 / chamber->length_m;

    judge_most (judge, CHECK_CHAMBER_VELOCITY, GRADE_NOTE, chamber->part, flow_m3s / section_m2,
                trap ? TRAP_MOST_MS : CHAMBER_MOST_MS);
  }
}

/* Head that drives water through a gap, or rises over an edge that water falls from. */
void
check_BAFFLE_LEVEL (Judge *judge)
{
  for (unsigned i = 0; i < judge->evaluation->n_baffles; i++) {
    const BaffleState *baffle = &judge->evaluation->baffles[i];
    const State *state = &judge->workspace->running;
    const double high_z = fmax (state->chamber_z[i], state->chamber_z[i + 1]);
    const double over_m = high_z - judge->system->baffles[i].crest_z;
    double head_m = 0;

    if (fabs (baffle->flow_m3s) > 1e-9)
      head_m = over_m > 0                            ? fmin (over_m, baffle->head_m)
               : judge->system->baffles[i].gap_m > 0 ? baffle->head_m
                                                     : 0;
    judge_most (judge, CHECK_BAFFLE_LEVEL, GRADE_CAUTION, baffle->part, head_m, BAFFLE_MOST_M);
  }
}
