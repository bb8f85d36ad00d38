/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Overflow and drains at a flow: box level by what the drains carry, display level by the weir that the box drowns. */
#include "design/choices.h"
#include "hydraulics/bracket.h"
#include "hydraulics/constants.h"
#include "hydraulics/siphon.h"
#include "solver/model.h"

/* Flush entrance and exit of a passage through the pane, on its own velocity. */
#define PASSAGE_K 1.5
/* Least share of the flow that a set siphon is given, so that its valve has a setting. */
#define SIPHON_LEAST_SHARE 0.02
#define PASSES             12
#define SETTLED_M          1e-11
#define TUNED_SLACK        1e-11

DrainPipe
drain_pipe_in (const System *system, const State *state, unsigned drain, double valve_k, bool aged,
               double k_factor)
{
  const DrainModel *model = &system->drains[drain];
  DrainPipe pipe = model->pipe;

  pipe.end_level_m = fmax (model->end_z, state->chamber_z[model->chamber]);
  pipe.run.k = (pipe.run.k + valve_k) * k_factor;
  if (aged)
    pipe.run.roughness_m = model->aged_roughness_m;
  return pipe;
}

double
overflow_wanted_z (const System *system, unsigned overflow, double flow_m3s)
{
  const OverflowModel *model = &system->overflows[overflow];
  double wanted_z = model->top_z - WANTED_UNDER_CREST_M, lowest_z = NO_LIMIT;
  double emergency_z = NO_LIMIT, trickle_z = NO_LIMIT, trickle_bore_m = 0;
  bool siphon = false;

  for (unsigned i = model->first_drain; i < model->first_drain + model->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];

    if (drain->blocked)
      continue;
    lowest_z = fmin (lowest_z, drain->pipe.mouth_level_m);
    siphon = siphon || drain->role == DRAIN_SIPHON;
    if (drain->role == DRAIN_EMERGENCY)
      emergency_z = fmin (emergency_z, drain->pipe.mouth_level_m);
    if (drain->role == DRAIN_TRICKLE && drain->pipe.mouth_level_m < trickle_z) {
      trickle_z = drain->pipe.mouth_level_m;
      trickle_bore_m = drain->pipe.run.bore_m;
    }
  }
  if (siphon && isfinite (trickle_z)) {
    double over_m = 0;

    drain_lip_head (trickle_bore_m, fmax (WANTED_TRICKLE_SHARE * flow_m3s, 0), &over_m);
    wanted_z = trickle_z + over_m;
  } else if (siphon && isfinite (emergency_z)) {
    wanted_z = emergency_z - WANTED_UNDER_EMERGENCY_M;
  }
  wanted_z = fmin (wanted_z, model->top_z - WANTED_LEAST_UNDER_CREST_M);
  if (isfinite (lowest_z))
    wanted_z = fmax (wanted_z, lowest_z + WANTED_OVER_LIP_M);
  return fmin (wanted_z, model->lowest_rim_z);
}

/* Whether a drain counts as full of water while all is well. */
static bool
runs_primed (const DrainModel *drain)
{
  return drain->role == DRAIN_SIPHON && drain->primed_counts;
}

double
drain_valve_k_at (const Workspace *workspace, const DrainModel *drain, unsigned index, ValveSetting setting)
{
  if (drain->valve == VALVE_NONE)
    return 0;
  if (setting == SETTING_OPEN)
    return drain->valve_k_open;
  if (drain->role != DRAIN_SIPHON || drain->valve_given)
    return drain_valve_k (drain, drain->valve_opening);
  return setting == SETTING_AS_SET ? workspace->valve_k[index] : drain->valve_k_open;
}

unsigned
overflow_branches (const System *system, const Workspace *workspace, const State *state, unsigned overflow,
                   ValveSetting setting, DrainBranch *branches)
{
  const OverflowModel *model = &system->overflows[overflow];

  for (unsigned i = 0; i < model->n_drains; i++) {
    const unsigned index = model->first_drain + i;
    const DrainModel *drain = &system->drains[index];
    const double k = drain_valve_k_at (workspace, drain, index, setting);

    branches[i] = (DrainBranch){.pipe = drain_pipe_in (system, state, index, isfinite (k) ? k : 0, false, 1),
                                .primed = runs_primed (drain),
                                .shut = drain->blocked || !isfinite (k)};
  }
  return model->n_drains;
}

double
overflow_tune (const System *system, Workspace *workspace, const State *state, unsigned overflow,
               double flow_m3s, DrainBranch *branches)
{
  const OverflowModel *model = &system->overflows[overflow];
  const double wanted_z = overflow_wanted_z (system, overflow, flow_m3s);
  double others_m3s = 0, share_m3s;
  unsigned n_tuned = 0;

  workspace->wanted_z[overflow] = wanted_z;
  for (unsigned i = 0; i < model->n_drains; i++) {
    const DrainModel *drain = &system->drains[model->first_drain + i];
    double carried_m3s = 0;

    if (branches[i].primed && drain->valve != VALVE_NONE && !drain->valve_given && !branches[i].shut) {
      n_tuned++;
      continue;
    }
    if (!branches[i].shut)
      drain_flow (&branches[i].pipe, &system->fluid, branches[i].primed, wanted_z, &carried_m3s, NULL);
    others_m3s += carried_m3s;
  }
  if (n_tuned == 0)
    return wanted_z;
  share_m3s = fmax (flow_m3s - others_m3s, SIPHON_LEAST_SHARE * flow_m3s) / n_tuned;
  for (unsigned i = 0; i < model->n_drains; i++) {
    const unsigned index = model->first_drain + i;
    const DrainModel *drain = &system->drains[index];
    DrainPipe bare = drain_pipe_in (system, state, index, 0, false, 1);
    double k = 0;

    if (!(branches[i].primed && drain->valve != VALVE_NONE && !drain->valve_given && !branches[i].shut))
      continue;
    if (share_m3s <= 0 ||
        siphon_valve_coefficient (&bare, &system->fluid, wanted_z, share_m3s, &k) != HYDRAULICS_OK)
      k = drain->valve_k_open;
    k = fmax (k, drain->valve_k_open);
    workspace->valve_k[index] = k;
    branches[i].pipe.run.k = bare.run.k + k;
  }
  return wanted_z;
}

/* Level at which the drains carry a flow together. A box that was just tuned stands where it is wanted: looked at first. */
static bool
level_of_flow (const System *system, Workspace *workspace, ValveSetting setting, unsigned overflow,
               double flow_m3s, const State *state, DrainBranch *branches, double *ret_level_z,
               DrainShares *ret_shares)
{
  const unsigned n = system->overflows[overflow].n_drains;

  if (n == 0)
    return false;
  if (setting == SETTING_TUNE) {
    const double wanted_z = overflow_tune (system, workspace, state, overflow, flow_m3s, branches);

    if (drain_branches_flow (branches, n, &system->fluid, wanted_z, ret_shares) == HYDRAULICS_OK &&
        fabs (ret_shares->total_m3s - flow_m3s) <= TUNED_SLACK * flow_m3s) {
      *ret_level_z = wanted_z;
      return true;
    }
  }
  return drain_branches_level (branches, n, &system->fluid, flow_m3s, state->box_z[overflow], ret_level_z,
                               ret_shares) == HYDRAULICS_OK;
}

/* Box level at a flow, no higher than the rim; flows of its drains. */
static void
box_at_flow (const System *system, Workspace *workspace, ValveSetting setting, unsigned overflow,
             double flow_m3s, State *state)
{
  const OverflowModel *model = &system->overflows[overflow];
  DrainBranch branches[DRAIN_BRANCHES_MAX];
  DrainShares shares = {0};
  const unsigned n = overflow_branches (system, workspace, state, overflow, setting, branches);
  double level_z = NO_LIMIT;

  state->overflow_m3s[overflow] = flow_m3s;
  state->carries[overflow] =
      level_of_flow (system, workspace, setting, overflow, flow_m3s, state, branches, &level_z, &shares) &&
      level_z <= model->lowest_rim_z;
  if (!state->carries[overflow]) {
    level_z = model->lowest_rim_z;
    if (n > 0)
      drain_branches_flow (branches, n, &system->fluid, level_z, &shares);
  }
  level_z = fmax (level_z, model->outer.there ? model->outer.floor_z : model->inner.floor_z);
  state->box_z[overflow] = level_z;
  for (unsigned i = 0; i < n; i++) {
    state->drain_m3s[model->first_drain + i] = shares.share_m3s[i];
    state->drain_regime[model->first_drain + i] = shares.regime[i];
  }
}

double
tank_lowest_crest_z (const System *system, const TankModel *tank)
{
  double crest_z = NO_LIMIT;

  for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++)
    crest_z = fmin (crest_z, system->overflows[i].crest_z);
  return crest_z;
}

double
overflow_inner_z (const System *system, const OverflowModel *overflow, double flow_m3s, double box_z)
{
  const double area_m2 =
      overflow->n_passages * G_PI / 4 * overflow->passage_bore_m * overflow->passage_bore_m;
  const double velocity_ms = flow_m3s / area_m2;

  if (overflow->hangs_over)
    return hang_over_inner_z (system, overflow, flow_m3s, box_z);
  return overflow->outer.there ? fmax (box_z, overflow->inner.floor_z) +
                                     PASSAGE_K * velocity_ms * velocity_ms / (2 * GRAVITY_M_S2)
                               : box_z;
}

double
overflow_doubted_head_m (const OverflowModel *overflow, double head_m)
{
  double low_m, high_m;

  if (overflow->head_doubt == 0 || weir_head_band (head_m, &low_m, &high_m) != HYDRAULICS_OK)
    return head_m;
  return head_m + overflow->head_doubt * (overflow->head_doubt > 0 ? high_m - head_m : head_m - low_m);
}

double
overflow_display_z (const System *system, const OverflowModel *overflow, double flow_m3s, double box_z,
                    double *ret_inner_z)
{
  const double inner_z = overflow_inner_z (system, overflow, flow_m3s, box_z);
  double head_m = 0;
  HydraulicsStatus status;

  if (ret_inner_z != NULL)
    *ret_inner_z = inner_z;
  if (!isfinite (inner_z))
    return NO_LIMIT;
  status = weir_head (&overflow->weir, flow_m3s, fmax (inner_z - overflow->crest_z, 0), &head_m);
  if (status != HYDRAULICS_OK && (status != HYDRAULICS_OUT_OF_RANGE || head_m <= 0))
    return flow_m3s > 0 ? NO_LIMIT : fmax (overflow->crest_z, inner_z);
  if (overflow->head_doubt == 0)
    return overflow->crest_z + head_m;
  return fmax (overflow->crest_z + overflow_doubted_head_m (overflow, head_m), inner_z);
}

double
overflow_at_flow (const System *system, Workspace *workspace, ValveSetting setting, unsigned overflow,
                  double flow_m3s, State *state)
{
  const OverflowModel *model = &system->overflows[overflow];
  double display_z;

  box_at_flow (system, workspace, setting, overflow, flow_m3s, state);
  display_z = overflow_display_z (system, model, flow_m3s, state->box_z[overflow], &state->inner_z[overflow]);
  state->tube_side_z[overflow] =
      model->hangs_over
          ? fmin (hang_over_tube_side_z (model, flow_m3s, state->box_z[overflow]), model->tube_side.rim_z)
          : NO_NUMBER;
  /* Passages or tubes that cannot take the flow fill the inner box to its rim. */
  if (state->inner_z[overflow] > model->inner.rim_z) {
    state->carries[overflow] = false;
    state->inner_z[overflow] = model->inner.rim_z;
  }
  return display_z;
}

static double
tank_display (const System *system, Workspace *workspace, ValveSetting setting, unsigned tank, State *state)
{
  const TankModel *model = &system->tanks[tank];
  const double flow_m3s = state->tank_m3s[tank];
  double display_z;

  if (model->n_overflows == 0)
    return model->rim_z;
  if (model->n_overflows == 1)
    display_z = overflow_at_flow (system, workspace, setting, model->first_overflow, flow_m3s, state);
  else
    display_z = overflow_shared_display_z (system, workspace, setting, model, flow_m3s, state);
  if (display_z > model->rim_z) {
    for (unsigned i = 0; i < model->n_overflows; i++)
      state->carries[model->first_overflow + i] = false;
    display_z = model->rim_z;
  }
  return display_z;
}

void
levels_at_flow (const System *system, Workspace *workspace, ValveSetting setting, State *state)
{
  for (unsigned pass = 0; pass < PASSES; pass++) {
    double before[EVALUATION_CHAMBERS_MAX], moved = 0;

    for (unsigned i = 0; i < system->n_chambers; i++)
      before[i] = state->chamber_z[i];
    sump_levels (system, state);
    for (unsigned i = 0; i < system->n_chambers; i++)
      moved = fmax (moved, fabs (state->chamber_z[i] - before[i]));
    if (pass > 0 && moved < SETTLED_M)
      break;
    for (unsigned i = 0; i < system->n_tanks; i++)
      state->display_z[i] = tank_display (system, workspace, setting, i, state);
  }
}

double
overflow_capacity (const System *system, const State *state, unsigned overflow, double box_z,
                   const CapacityRule *rule)
{
  const OverflowModel *model = &system->overflows[overflow];
  double total_m3s = 0;

  for (unsigned i = model->first_drain; i < model->first_drain + model->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];
    const double valve_k = drain->valve == VALVE_NONE ? 0 : drain->valve_k_open;
    const DrainPipe pipe = drain_pipe_in (system, state, i, valve_k, rule->aged, rule->k_factor);
    double carried_m3s = 0, primed_m3s = 0;

    if (drain->blocked || (rule->emergency_only && drain->role != DRAIN_EMERGENCY))
      continue;
    drain_flow (&pipe, &system->fluid, false, box_z, &carried_m3s, NULL);
    /* Full bore by the whole fall: how its mouth then stays covered is asked of its running level. */
    if (rule->primed && drain->primed_counts && box_z > pipe.mouth_level_m && box_z > pipe.end_level_m)
      pipe_flow_at_loss (&pipe.run, &system->fluid, box_z - pipe.end_level_m, &primed_m3s);
    total_m3s += fmax (carried_m3s, primed_m3s);
  }
  return total_m3s;
}

double
overflow_running_capacity (const System *system, const Workspace *workspace, const State *state,
                           unsigned overflow, double box_z, ValveSetting setting, bool judged)
{
  const bool pessimistic = judged && !system->exact;
  const OverflowModel *model = &system->overflows[overflow];
  double total_m3s = 0;

  for (unsigned i = model->first_drain; i < model->first_drain + model->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];
    const double k = drain_valve_k_at (workspace, drain, i, setting);
    const DrainPipe pipe =
        drain_pipe_in (system, state, i, isfinite (k) ? k : 0, pessimistic, pessimistic ? 1 + K_SCATTER : 1);
    double carried_m3s = 0;

    if (drain->blocked || !isfinite (k))
      continue;
    drain_flow (&pipe, &system->fluid, runs_primed (drain), box_z, &carried_m3s, NULL);
    total_m3s += carried_m3s;
  }
  return total_m3s;
}

double
overflow_emergency_z (const System *system, const State *state, unsigned overflow, double flow_m3s,
                      bool primed, bool judged)
{
  const bool pessimistic = judged && !system->exact;
  const OverflowModel *model = &system->overflows[overflow];
  const double k_factor = pessimistic ? 1 + K_SCATTER : 1;
  DrainBranch branches[DRAIN_BRANCHES_MAX];
  double level_z = NO_LIMIT, priming_z = 0;
  bool any = false, counts = false;

  for (unsigned i = 0; i < model->n_drains; i++) {
    const DrainModel *drain = &system->drains[model->first_drain + i];
    const double valve_k = drain->valve == VALVE_NONE ? 0 : drain_valve_k (drain, drain->valve_opening);
    const bool shut = drain->blocked || drain->role != DRAIN_EMERGENCY || !isfinite (valve_k);

    branches[i] =
        (DrainBranch){.pipe = drain_pipe_in (system, state, model->first_drain + i,
                                             isfinite (valve_k) ? valve_k : 0, !system->exact, k_factor),
                      .primed = primed && drain->primed_counts,
                      .shut = shut};
    any = any || !shut;
    if (!shut && branches[i].primed) {
      counts = true;
      priming_z = fmax (priming_z, drain->priming_z);
    }
  }
  if (!any || (primed && !counts))
    return NO_NUMBER;
  if (pessimistic && !primed)
    flow_m3s /= 1 - LIP_SCATTER;
  if (drain_branches_level (branches, model->n_drains, &system->fluid, flow_m3s, NO_LIMIT, &level_z, NULL) !=
      HYDRAULICS_OK)
    return NO_LIMIT;
  /* It runs full only after its lip was flooded. */
  return primed ? fmax (level_z, priming_z) : level_z;
}
