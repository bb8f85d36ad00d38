/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A hang-over siphon box: display over the crest into the inner box, through tubes over the rim to the tube side of the
 * outer box, over the wall that holds the seal to the drain side, in which the drains stand. */
#include "hydraulics/bracket.h"
#include "hydraulics/constants.h"
#include "solver/model.h"

double
hang_over_tube_side_z (const OverflowModel *overflow, double flow_m3s, double box_z)
{
  const double below_m = fmax (box_z - overflow->top_z, 0);
  double head_m = 0;
  const HydraulicsStatus status = weir_head (&overflow->seal, flow_m3s, below_m, &head_m);

  if (status != HYDRAULICS_OK && (status != HYDRAULICS_OUT_OF_RANGE || head_m <= 0))
    return flow_m3s > 0 ? NO_LIMIT : overflow->top_z + below_m;
  return overflow->top_z + head_m;
}

bool
hang_over_holds (const OverflowModel *overflow)
{
  return overflow->top_z > overflow->tubes.tube.mouth_level_m &&
         overflow->top_z > overflow->tubes.tube.end_level_m;
}

double
hang_over_inner_z (const System *system, const OverflowModel *overflow, double flow_m3s, double box_z)
{
  const double tube_side_z = hang_over_tube_side_z (overflow, flow_m3s, box_z);
  HangOverState state;

  if (!(flow_m3s > 0))
    return tube_side_z;
  if (!isfinite (tube_side_z) || !hang_over_holds (overflow) ||
      hang_over_state (&overflow->tubes, &system->fluid, flow_m3s, tube_side_z, &state) != HYDRAULICS_OK)
    return NO_LIMIT;
  return state.inner_level_m;
}

/* The tubes go on until both sides stand alike, at the top of the wall or at a lip that stands over it. */
double
hang_over_rest_z (const OverflowModel *overflow, double lowest_lip_z, double running_z)
{
  return fmin (fmax (lowest_lip_z, overflow->top_z), running_z);
}

typedef struct {
  const System *system;
  const OverflowModel *overflow;
  double box_z;
} InnerPass;

static HydraulicsStatus
inner_of_flow (double flow_m3s, const void *data, double *ret_value)
{
  const InnerPass *pass = data;

  *ret_value = fmin (hang_over_inner_z (pass->system, pass->overflow, flow_m3s, pass->box_z), 1e6);
  return HYDRAULICS_OK;
}

/* Faster than by a free fall from crown to end no tube runs. */
static double
most_m3s (const OverflowModel *overflow)
{
  const double bore_m = overflow->tubes.tube.run.bore_m;
  const double fall_m = overflow->tubes.crown_level_m - overflow->tubes.tube.end_level_m;

  return overflow->tubes.n_tubes * G_PI / 4 * bore_m * bore_m * sqrt (2 * GRAVITY_M_S2 * fmax (fall_m, 0));
}

double
hang_over_flow (const System *system, const OverflowModel *overflow, double inner_z, double box_z)
{
  const InnerPass pass = {system, overflow, box_z};
  double flow_m3s = 0;

  if (!hang_over_holds (overflow) || inner_z <= hang_over_tube_side_z (overflow, 0, box_z))
    return 0;
  /* A surface over the crown finds the tubes at their most. */
  return bracket_invert (inner_of_flow, &pass, inner_z, 0, most_m3s (overflow), &flow_m3s) == HYDRAULICS_OK
             ? flow_m3s
             : 0;
}

double
hang_over_capacity (const System *system, const OverflowModel *overflow, double box_z, bool pessimistic)
{
  OverflowModel judged = *overflow;
  const InnerPass pass = {system, &judged, box_z};
  double flow_m3s = 0;

  if (pessimistic && !system->exact) {
    judged.tubes.tube.run.k *= 1 + K_SCATTER;
    judged.tubes.tube.run.roughness_m = fmin (
        fmax (field_number (system, system->room, FIELD_ROOM_PIPE_AGE), judged.tubes.tube.run.roughness_m),
        0.05 * judged.tubes.tube.run.bore_m);
  }
  if (!hang_over_holds (overflow) || hang_over_tube_side_z (overflow, 0, box_z) >= overflow->crest_z ||
      bracket_invert (inner_of_flow, &pass, overflow->crest_z, 0, most_m3s (overflow), &flow_m3s) !=
          HYDRAULICS_OK)
    return 0;
  return flow_m3s;
}

static void
trace_tubes (const OverflowModel *model, const State *state, unsigned index, Trace *trace,
             const OverflowState *overflow)
{
  const double flow_m3s = state->overflow_m3s[index];
  const PipeRun *tube = &model->tubes.tube.run;

  trace_add (trace, STEP_SEAL, SCENARIO_RUNNING, model->part,
             (double[]){overflow->tube_side_z, model->top_z, flow_m3s, model->seal.crest_length_m,
                        model->seal.crest_thickness_m, fmax (state->box_z[index] - model->top_z, 0)});
  trace_add (trace, STEP_TUBES, SCENARIO_RUNNING, model->part,
             (double[]){overflow->tube_fall_m, flow_m3s, model->tubes.n_tubes, tube->bore_m, tube->length_m,
                        tube->roughness_m, tube->k});
  trace_add (trace, STEP_TUBE_AIR, SCENARIO_RUNNING, model->part,
             (double[]){overflow->tube_froude, flow_m3s, model->tubes.n_tubes, tube->bore_m});
}

void
describe_hang_over (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
                    OverflowState *ret_overflow)
{
  const OverflowModel *model = &system->overflows[index];
  const State *state = &workspace->running;
  const double flow_m3s = state->overflow_m3s[index], box_z = state->box_z[index];
  HangOverState tubes;

  ret_overflow->hangs_over = model->hangs_over;
  ret_overflow->tube_side_z = state->tube_side_z[index];
  ret_overflow->tube_fall_m = ret_overflow->tube_froude = ret_overflow->slow_tube_froude =
      ret_overflow->tube_suction_m = ret_overflow->tube_rest_cover_m = ret_overflow->tube_capacity_m3s =
          NO_NUMBER;
  if (!model->hangs_over)
    return;
  ret_overflow->tube_capacity_m3s = hang_over_capacity (system, model, box_z, false);
  ret_overflow->tube_rest_cover_m =
      model->top_z - fmax (model->tubes.tube.mouth_level_m, model->tubes.tube.end_level_m);
  quiet_froude_number (model->tubes.tube.run.bore_m, fmax (flow_m3s, 0) / model->tubes.n_tubes,
                       &ret_overflow->tube_froude);
  quiet_froude_number (model->tubes.tube.run.bore_m,
                       fmax (workspace->slow.overflow_m3s[index], 0) / model->tubes.n_tubes,
                       &ret_overflow->slow_tube_froude);
  if (hang_over_state (&model->tubes, &system->fluid, fmax (flow_m3s, 0), state->tube_side_z[index],
                       &tubes) == HYDRAULICS_OK) {
    ret_overflow->tube_fall_m = tubes.level_difference_m;
    ret_overflow->tube_suction_m = tubes.crown_suction_m;
    ret_overflow->tube_restarts = tubes.keeps_prime_at_rest;
  }
  trace_tubes (model, state, index, trace, ret_overflow);
}
