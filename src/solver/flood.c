/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Overflows with their flood test, and the transfer test: what happens when the way down is blocked. */
#include "design/choices.h"
#include "solver/model.h"

#define BEARABLE_HALVINGS 14 /* of the flow: to less than a ten-thousandth of it */

typedef struct {
  double box_z, display_z, margin_m;
} FloodCase;

/* How much more the head over the crest may be: the high edge of the weir's band. */
static double
head_doubt (const System *system, double head_m)
{
  double low_m, high_m;

  return !system->exact && isfinite (head_m) && head_m > 0 &&
                 weir_head_band (head_m, &low_m, &high_m) == HYDRAULICS_OK
             ? high_m - head_m
             : 0;
}

/* The lesser of two, and not known where one is not: fmin would pass over it. */
static double
lesser (double a, double b)
{
  return isnan (a) || isnan (b) ? NO_NUMBER : fmin (a, b);
}

/* Levels of box and display at one flow; false where no box level carries it. */
static bool
flood_levels (const System *system, const OverflowModel *model, double flow_m3s, double box_z,
              FloodCase *ret_flood)
{
  double inner_z = NO_NUMBER;

  if (!isfinite (box_z))
    return false;
  ret_flood->box_z = fmax (box_z, model->outer.there ? model->outer.floor_z : model->inner.floor_z);
  ret_flood->display_z = overflow_display_z (system, model, flow_m3s, ret_flood->box_z, &inner_z);
  ret_flood->margin_m = lesser (model->box_rim_z - ret_flood->box_z, model->box_rim_z - inner_z);
  return true;
}

/* Levels are the likely ones; the margin is judged with the scatter of lip and fittings and with the weir's doubt. */
static FloodCase
flood_case (const System *system, const State *state, unsigned overflow, double flow_m3s, bool primed)
{
  const OverflowModel *model = &system->overflows[overflow];
  const TankModel *tank = &system->tanks[model->tank];
  FloodCase flood = {NO_NUMBER, NO_NUMBER, NO_NUMBER}, judged = flood;
  const double likely_z = overflow_emergency_z (system, state, overflow, flow_m3s, primed, false);
  const double judged_z =
      system->exact ? likely_z : overflow_emergency_z (system, state, overflow, flow_m3s, primed, true);

  if (isnan (likely_z))
    return flood;
  if (!flood_levels (system, model, flow_m3s, likely_z, &flood)) {
    flood.box_z = model->box_rim_z;
    flood.display_z = tank->rim_z;
  }
  if (system->exact)
    judged = flood;
  if (system->exact ? isfinite (likely_z) : flood_levels (system, model, flow_m3s, judged_z, &judged))
    flood.margin_m = lesser (judged.margin_m, tank->rim_z - judged.display_z -
                                                  head_doubt (system, judged.display_z - model->crest_z));
  else
    flood.margin_m = -NO_LIMIT;
  return flood;
}

static double
fuller (double a, double b)
{
  return isnan (a) ? b : isnan (b) ? a : fmax (a, b);
}

double
flood_bearable_m3s (const System *system, const Workspace *workspace, unsigned overflow, double judged_m)
{
  double low_m3s = 0, high_m3s = workspace->fast.overflow_m3s[overflow];
  const double corner_m = fuller (flood_case (system, &workspace->fast, overflow, high_m3s, false).margin_m,
                                  flood_case (system, &workspace->fast, overflow, high_m3s, true).margin_m);
  /* What the band takes beyond the corner. */
  const double beyond_m = isfinite (corner_m - judged_m) ? fmax (corner_m - judged_m, 0) : 0;

  /* Both margins only fall as the flow rises. */
  for (unsigned i = 0; i < BEARABLE_HALVINGS; i++) {
    const double flow_m3s = 0.5 * (low_m3s + high_m3s);

    if (flood_case (system, &workspace->fast, overflow, flow_m3s, false).margin_m > beyond_m ||
        flood_case (system, &workspace->fast, overflow, flow_m3s, true).margin_m > beyond_m)
      low_m3s = flow_m3s;
    else
      high_m3s = flow_m3s;
  }
  return low_m3s;
}

static void
trace_flood (Trace *trace, Scenario scenario, const OverflowModel *model, const FloodCase *flood,
             double flow_m3s)
{
  if (!isnan (flood->margin_m))
    trace_add (trace, STEP_FLOOD, scenario, model->part,
               (double[]){flood->margin_m, model->lowest_rim_z, flood->box_z, flood->display_z, flow_m3s});
}

static void
test_flood (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
            OverflowState *ret_overflow)
{
  const OverflowModel *model = &system->overflows[index];
  const double flow_m3s = workspace->fast.overflow_m3s[index],
               full_m3s = workspace->full_speed.overflow_m3s[index];
  const FloodCase unprimed = flood_case (system, &workspace->fast, index, flow_m3s, false);
  const FloodCase primed = flood_case (system, &workspace->fast, index, flow_m3s, true);
  const FloodCase full = flood_case (system, &workspace->full_speed, index, full_m3s, false);
  const FloodCase full_primed = flood_case (system, &workspace->full_speed, index, full_m3s, true);

  ret_overflow->flood_unprimed_box_z = unprimed.box_z;
  ret_overflow->flood_unprimed_display_z = unprimed.display_z;
  ret_overflow->flood_unprimed_margin_m = unprimed.margin_m;
  ret_overflow->flood_primed_box_z = primed.box_z;
  ret_overflow->flood_primed_display_z = primed.display_z;
  ret_overflow->flood_primed_margin_m = primed.margin_m;
  ret_overflow->flood_full_speed_margin_m = fuller (full.margin_m, full_primed.margin_m);
  trace_flood (trace, SCENARIO_FLOOD_UNPRIMED, model, &unprimed, flow_m3s);
  trace_flood (trace, SCENARIO_FLOOD_PRIMED, model, &primed, flow_m3s);
  trace_flood (trace, SCENARIO_FLOOD_FULL_SPEED, model, &full, full_m3s);
}

static void
describe_heads (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
                OverflowState *ret_overflow)
{
  const OverflowModel *model = &system->overflows[index];
  const State *state = &workspace->running;
  const double flow_m3s = state->overflow_m3s[index],
               below_m = fmax (state->inner_z[index] - model->crest_z, 0);
  Weir half = model->weir;

  half.covered_share = 0.5;
  weir_head_band (ret_overflow->head_m, &ret_overflow->head_low_m, &ret_overflow->head_high_m);
  weir_head (&half, flow_m3s, below_m, &ret_overflow->half_covered_head_m);
  if (weir_tilted_head (ret_overflow->head_m, model->tilt_m, &ret_overflow->tilted_head_m) == HYDRAULICS_OK)
    ret_overflow->tilted_head_m += model->tilt_m / 2;
  trace_add (trace, model->weir.formula == WEIR_COMB ? STEP_COMB_HEAD : STEP_OVERFLOW_HEAD, SCENARIO_RUNNING,
             model->part,
             model->weir.formula == WEIR_COMB
                 ? (double[]){ret_overflow->head_m, flow_m3s, model->open_length_m,
                              model->weir.opening_height_m, model->weir.discharge_coefficient, below_m}
                 : (double[]){ret_overflow->head_m, flow_m3s, model->weir.crest_length_m,
                              model->weir.crest_thickness_m, below_m});
  trace_add (trace, STEP_COMB_HALF, SCENARIO_RUNNING, model->part,
             (double[]){ret_overflow->half_covered_head_m, flow_m3s});
  if (model->outer.there && !model->hangs_over)
    trace_add (trace, STEP_PASSAGE, SCENARIO_RUNNING, model->part,
               (double[]){state->inner_z[index] - state->box_z[index], flow_m3s, model->n_passages,
                          model->passage_bore_m});
  trace_add (trace, STEP_DISPLAY_LEVEL, SCENARIO_RUNNING, model->part,
             (double[]){ret_overflow->display_z, model->crest_z, ret_overflow->head_m});
  trace_add (trace, STEP_BOX_LEVEL, SCENARIO_RUNNING, model->part, (double[]){ret_overflow->box_z, flow_m3s});
}

static void
describe_overflow (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
                   OverflowState *ret_overflow)
{
  const OverflowModel *model = &system->overflows[index];
  const State *state = &workspace->running;
  const CapacityRule all = {.primed = true, .k_factor = 1},
                     blocked = {.primed = true, .emergency_only = true, .k_factor = 1},
                     blocked_unprimed = {.emergency_only = true, .k_factor = 1};
  const double display_z = state->display_z[model->tank];

  *ret_overflow = (OverflowState){
      .part = model->part,
      .tank = system->tanks[model->tank].part,
      .crest_z = model->crest_z,
      .flow_m3s = state->overflow_m3s[index],
      .head_m = fmax (display_z - model->crest_z, 0),
      .half_covered_head_m = NO_NUMBER,
      .tilted_head_m = NO_NUMBER,
      .drowned = state->inner_z[index] > model->crest_z,
      .chokes = model->closed_comb && display_z > model->comb_top_z,
      .box_z = state->box_z[index],
      .inner_box_z = state->inner_z[index],
      .wanted_box_z = workspace->wanted_z[index],
      .lowest_rim_z = model->lowest_rim_z,
      .display_z = display_z,
      .skimming_m2s = state->overflow_m3s[index] / model->weir.crest_length_m,
      .gap_loading_m2s = state->overflow_m3s[index] / model->open_length_m,
      .capacity_m3s = overflow_capacity (system, state, index, workspace->wanted_z[index], &all),
      .rim_capacity_m3s = overflow_capacity (system, state, index, model->lowest_rim_z, &all),
      .blocked_capacity_m3s = overflow_capacity (system, state, index, model->lowest_rim_z, &blocked),
      .blocked_unprimed_capacity_m3s =
          overflow_capacity (system, state, index, model->lowest_rim_z, &blocked_unprimed),
      .carries = workspace->fast.carries[index]};
  describe_heads (system, workspace, index, trace, ret_overflow);
  describe_hang_over (system, workspace, index, trace, ret_overflow);
  test_flood (system, workspace, index, trace, ret_overflow);
}

void
fill_overflows (const System *system, Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  evaluation->n_overflows = system->n_overflows;
  for (unsigned i = 0; i < system->n_overflows; i++)
    describe_overflow (system, workspace, i, trace, &evaluation->overflows[i]);
}

static double
lowest_dry_z (const System *system)
{
  double dry_z = NO_LIMIT;

  for (unsigned i = 0; i < system->n_pumps; i++)
    if (system->pumps[i].chamber == system->datum)
      dry_z = fmin (dry_z, system->pumps[i].suction_z);
  return dry_z;
}

static double
box_room_m3 (const BoxModel *box, double running_z, double rim_z)
{
  return box->there ? box->area_m2 * fmax (fmin (box->rim_z, rim_z) - running_z, 0) : 0;
}

/* What the boxes behind the pane of one overflow give. */
static double
outer_gives_m3 (const System *system, const State *state, unsigned overflow)
{
  const OverflowModel *model = &system->overflows[overflow];
  double m3 = model->outer.area_m2 *
              (state->box_z[overflow] - box_rest_z (system, overflow, &model->outer, state->box_z[overflow]));

  if (model->hangs_over)
    m3 += model->tube_side.area_m2 *
          (state->tube_side_z[overflow] -
           box_rest_z (system, overflow, &model->tube_side, state->tube_side_z[overflow]));
  return m3;
}

static double
drains_give_m3 (const System *system, const State *state, unsigned overflow)
{
  const OverflowModel *model = &system->overflows[overflow];
  double m3 = 0;

  for (unsigned k = model->first_drain; k < model->first_drain + model->n_drains; k++)
    m3 += drain_content_m3 (system, state, k, false);
  return m3;
}

/* Water that boxes and drains still give to the sump when nothing comes over the crest any more. */
static double
boxes_give_m3 (const System *system, const State *state, const TankModel *tank)
{
  double m3 = 0;

  for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    m3 += overflow->inner.area_m2 *
          (state->inner_z[i] - box_rest_z (system, i, &overflow->inner, state->inner_z[i]));
    if (overflow->outer.there)
      m3 += outer_gives_m3 (system, state, i);
    m3 += drains_give_m3 (system, state, i);
  }
  return m3;
}

/* Tubes without prime carry nothing: display and inner box fill, and what hangs behind the pane runs empty into the sump, from
 * which it is pumped too. Taken as the verdict where it is the worse. */
static void
test_prime (const System *system, const State *state, const TankModel *tank, double pumped_m3, Trace *trace,
            Transfer *ret_transfer)
{
  bool any = false;

  ret_transfer->prime_pumped_m3 = pumped_m3;
  ret_transfer->prime_room_m3 = ret_transfer->room_overflow_m3;
  for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    if (!overflow->hangs_over)
      continue;
    any = true;
    ret_transfer->prime_room_m3 += box_room_m3 (&overflow->inner, state->inner_z[i], overflow->lowest_rim_z);
    /* What stood in the tubes falls back to both sides. */
    ret_transfer->prime_pumped_m3 +=
        outer_gives_m3 (system, state, i) + drains_give_m3 (system, state, i) + overflow->tubes_m3;
  }
  ret_transfer->prime_margin_m3 = ret_transfer->prime_room_m3 - ret_transfer->prime_pumped_m3;
  ret_transfer->prime_lost = any && ret_transfer->prime_margin_m3 <= ret_transfer->margin_m3;
  if (ret_transfer->prime_lost) {
    ret_transfer->pumped_m3 = ret_transfer->prime_pumped_m3;
    ret_transfer->margin_m3 = ret_transfer->prime_margin_m3;
  }
  if (any)
    trace_add (trace, STEP_TRANSFER, SCENARIO_PRIME_LOST, tank->part,
               (double[]){ret_transfer->prime_margin_m3, ret_transfer->prime_room_m3,
                          ret_transfer->prime_pumped_m3, 0});
  else
    ret_transfer->prime_pumped_m3 = ret_transfer->prime_room_m3 = ret_transfer->prime_margin_m3 = NO_NUMBER;
}

static void
test_transfer (const System *system, const Workspace *workspace, unsigned tank, Trace *trace,
               Transfer *ret_transfer)
{
  const TankModel *model = &system->tanks[tank];
  const State *state = &workspace->fast;
  double surface_z = state->display_z[tank];
  bool comb = false;
  double room_m3, pumped_m3;

  /* The room over a surface that stands as high as the weir's doubt lets it. */
  surface_z =
      fmin (surface_z + head_doubt (system, surface_z - tank_lowest_crest_z (system, model)), model->rim_z);
  *ret_transfer = (Transfer){.tank = model->part};
  pumped_m3 = ret_transfer->pumped_m3 = return_usable_m3 (system, state, lowest_dry_z (system));
  ret_transfer->room_overflow_m3 =
      tank_volume_m3 (system, model, model->rim_z) - tank_volume_m3 (system, model, surface_z);
  ret_transfer->room_drain_m3 = ret_transfer->room_overflow_m3;
  for (unsigned i = model->first_overflow; i < model->first_overflow + model->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    comb = comb || overflow->weir.formula == WEIR_COMB;
    ret_transfer->room_drain_m3 +=
        box_room_m3 (&overflow->inner, state->inner_z[i], overflow->lowest_rim_z) +
        box_room_m3 (&overflow->outer, state->box_z[i], overflow->lowest_rim_z) +
        box_room_m3 (&overflow->tube_side, state->tube_side_z[i], overflow->lowest_rim_z);
  }
  if (system->reservoir >= 0) {
    ret_transfer->reservoir_m3 = field_number (system, system->reservoir, FIELD_RESERVOIR_VOLUME);
    ret_transfer->cut_out = field_number (system, system->reservoir, FIELD_RESERVOIR_CUT_OUT) > CUT_OUT_NONE;
  }
  /* A comb can be covered from end to end: the display alone takes what is lifted, and the boxes run empty into the sump.
   * A plain crest stays open while the pipes below it block. */
  room_m3 = comb ? ret_transfer->room_overflow_m3 : ret_transfer->room_drain_m3;
  if (comb)
    ret_transfer->pumped_m3 += boxes_give_m3 (system, state, model);
  ret_transfer->margin_m3 = room_m3 - ret_transfer->pumped_m3;
  test_prime (system, state, model, pumped_m3, trace, ret_transfer);
  room_m3 = ret_transfer->margin_m3 + ret_transfer->pumped_m3;
  ret_transfer->margin_reservoir_m3 = ret_transfer->margin_m3 - ret_transfer->reservoir_m3;
  trace_add (trace, STEP_TRANSFER, SCENARIO_TRANSFER, model->part,
             (double[]){ret_transfer->margin_m3, room_m3, ret_transfer->pumped_m3, 0});
  if (system->reservoir >= 0)
    trace_add (trace, STEP_TRANSFER, SCENARIO_TRANSFER_RESERVOIR, model->part,
               (double[]){ret_transfer->margin_reservoir_m3, room_m3, ret_transfer->pumped_m3,
                          ret_transfer->reservoir_m3});
}

/* Water that the inner box and the tube side take up as the drain side rises to a level. */
static double
hang_over_rises_m3 (const System *system, const State *state, unsigned overflow, double box_z)
{
  const OverflowModel *model = &system->overflows[overflow];
  const double flow_m3s = state->overflow_m3s[overflow];
  const double tube_side_z = hang_over_tube_side_z (model, flow_m3s, box_z),
               inner_z = hang_over_inner_z (system, model, flow_m3s, box_z);

  return model->tube_side.area_m2 *
             (fmin (tube_side_z, model->tube_side.rim_z) - state->tube_side_z[overflow]) +
         model->inner.area_m2 * (fmin (inner_z, model->inner.rim_z) - state->inner_z[overflow]);
}

/* Water that fills display and boxes up to the levels of the flood test, out of the return chamber. */
static void
emergency_takes (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  const State *state = &workspace->fast;
  const double area_m2 = return_pool_area_m2 (system);
  double m3 = 0;
  bool any = false;

  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *model = &system->overflows[i];
    const TankModel *tank = &system->tanks[model->tank];
    const OverflowState *overflow = &evaluation->overflows[i];
    const bool unprimed = overflow->flood_unprimed_margin_m >= 0;
    const double box_z = unprimed ? overflow->flood_unprimed_box_z : overflow->flood_primed_box_z;
    const double display_z = unprimed ? overflow->flood_unprimed_display_z : overflow->flood_primed_display_z;

    if (!isfinite (box_z) || !isfinite (display_z))
      continue;
    any = true;
    m3 += tank_volume_m3 (system, tank, fmin (display_z, tank->rim_z)) -
          tank_volume_m3 (system, tank, state->display_z[model->tank]);
    m3 += (model->outer.there ? model->outer.area_m2 : model->inner.area_m2) *
          (fmin (box_z, model->box_rim_z) - state->box_z[i]);
    if (model->hangs_over)
      m3 += hang_over_rises_m3 (system, state, i, box_z);
  }
  evaluation->totals.emergency_takes_m3 = any ? fmax (m3, 0) : NO_NUMBER;
  evaluation->totals.emergency_return_z =
      any ? state->chamber_z[system->datum] - fmax (m3, 0) / area_m2 : NO_NUMBER;
  if (any)
    trace_add (trace, STEP_EMERGENCY_TAKES, SCENARIO_FLOOD_UNPRIMED, -1,
               (double[]){evaluation->totals.emergency_return_z, state->chamber_z[system->datum],
                          fmax (m3, 0), area_m2});
}

void
fill_transfer (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  for (unsigned i = 0; i < system->n_tanks; i++)
    test_transfer (system, workspace, i, trace, &evaluation->transfers[i]);
  emergency_takes (system, workspace, trace, evaluation);
}
