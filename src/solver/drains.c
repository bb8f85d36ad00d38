/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The three questions of each drain, kept apart: is it quiet, what does it carry unprimed, what primed; and of a siphon
 * its setting, cover, drift and start. */
#include "design/choices.h"
#include "hydraulics/constants.h"
#include "hydraulics/siphon.h"
#include "solver/model.h"

static QuietBy
quiet_by (QuietLimitKind kind)
{
  switch (kind) {
  case QUIET_LIMIT_STACK:
    return QUIET_BY_STACK;
  case QUIET_LIMIT_SLOPED_RUN:
    return QUIET_BY_SLOPED_RUN;
  case QUIET_LIMIT_SELF_VENTING:
  case QUIET_LIMIT_COUNT:
  default:
    return QUIET_BY_SELF_VENTING;
  }
}

static DrainRegimeState
regime_of (const DrainModel *drain, DrainRegime regime)
{
  if (drain->blocked)
    return DRAIN_STATE_BLOCKED;
  switch (regime) {
  case DRAIN_LIP_WEIR:
    return DRAIN_STATE_LIP_WEIR;
  case DRAIN_ORIFICE:
    return DRAIN_STATE_ORIFICE;
  case DRAIN_FULL:
    return DRAIN_STATE_FULL;
  case DRAIN_GULPING:
    return DRAIN_STATE_GULPING;
  case DRAIN_DRY:
  case DRAIN_REGIME_COUNT:
  default:
    return DRAIN_STATE_DRY;
  }
}

static void
ask_quiet (const DrainModel *drain, Trace *trace, DrainState *ret_drain)
{
  QuietLimit limit;

  if (quiet_limit (drain->pipe.run.bore_m, QUIET_STACK_FILL, drain->sloped, drain->n_sloped, &limit) !=
      HYDRAULICS_OK)
    return;
  ret_drain->quiet_m3s = limit.flow_m3s;
  ret_drain->quiet_by = quiet_by (limit.kind);
  trace_add (trace, STEP_QUIET, SCENARIO_NONE, drain->part,
             (double[]){limit.flow_m3s, limit.self_venting_m3s, limit.stack_m3s,
                        drain->n_sloped > 0 ? limit.sloped_m3s : NO_NUMBER, drain->pipe.run.bore_m});
}

/* Capacities at one box level: over the lip, and by the whole fall. */
static void
capacities (const System *system, const DrainPipe *pipe, bool blocked, double box_z, double *ret_unprimed_m3s,
            double *ret_primed_m3s)
{
  *ret_unprimed_m3s = *ret_primed_m3s = 0;
  if (blocked)
    return;
  drain_flow (pipe, &system->fluid, false, box_z, ret_unprimed_m3s, NULL);
  if (box_z > pipe->mouth_level_m && box_z > pipe->end_level_m)
    pipe_flow_at_loss (&pipe->run, &system->fluid, box_z - pipe->end_level_m, ret_primed_m3s);
}

static void
ask_capacity (const System *system, const State *state, unsigned index, double wanted_z, Trace *trace,
              DrainState *ret_drain)
{
  const DrainModel *drain = &system->drains[index];
  const double open_k = drain->valve == VALVE_NONE ? 0 : drain->valve_k_open;
  const DrainPipe pipe = drain_pipe_in (system, state, index, open_k, false, 1);

  ret_drain->wanted_z = wanted_z;
  ret_drain->rim_z = drain->rim_z;
  ret_drain->k = pipe.run.k;
  ret_drain->end_level_z = pipe.end_level_m;
  capacities (system, &pipe, drain->blocked, wanted_z, &ret_drain->unprimed_m3s, &ret_drain->primed_m3s);
  capacities (system, &pipe, drain->blocked, drain->rim_z, &ret_drain->unprimed_rim_m3s,
              &ret_drain->primed_rim_m3s);
  trace_add (trace, STEP_DRAIN_PIPE, SCENARIO_NONE, drain->part,
             (double[]){pipe.run.k, pipe.run.bore_m, pipe.run.length_m, pipe.run.roughness_m});
  for (unsigned i = 0; i < 2; i++) {
    const double box_z = i == 0 ? wanted_z : drain->rim_z;

    trace_add (trace, STEP_UNPRIMED, SCENARIO_NONE, drain->part,
               (double[]){i == 0 ? ret_drain->unprimed_m3s : ret_drain->unprimed_rim_m3s, box_z,
                          pipe.mouth_level_m, pipe.mouth_diameter_m});
    trace_add (trace, STEP_PRIMED, SCENARIO_NONE, drain->part,
               (double[]){i == 0 ? ret_drain->primed_m3s : ret_drain->primed_rim_m3s, box_z, pipe.end_level_m,
                          pipe.run.bore_m, pipe.run.length_m, pipe.run.k});
  }
}

/* Next lip above the box level at which another drain would take over; the crest (or the wall that holds a seal) where there
 * is none. */
static double
next_lip_z (const System *system, unsigned index, double box_z)
{
  const OverflowModel *overflow = &system->overflows[system->drains[index].overflow];
  double lip_z = overflow->top_z;

  for (unsigned i = overflow->first_drain; i < overflow->first_drain + overflow->n_drains; i++)
    if (i != index && system->drains[i].pipe.mouth_level_m > box_z)
      lip_z = fmin (lip_z, system->drains[i].pipe.mouth_level_m);
  return lip_z;
}

static void
ask_valve (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
           DrainState *ret_drain)
{
  const DrainModel *drain = &system->drains[index];
  const State *state = &workspace->running;
  const double box_z = state->box_z[drain->overflow], flow_m3s = state->drain_m3s[index];
  const double area_m2 = G_PI / 4 * drain->pipe.run.bore_m * drain->pipe.run.bore_m;
  const double velocity_m = pow (flow_m3s / area_m2, 2) / (2 * GRAVITY_M_S2);
  PipeRun above = drain->pipe.run;
  PipeLoss loss = {0};

  ret_drain->has_valve = drain->valve != VALVE_NONE;
  if (!ret_drain->has_valve)
    return;
  ret_drain->valve_is_given = drain->valve_given;
  ret_drain->valve_z = drain->valve_z;
  ret_drain->valve_k =
      drain->valve_given ? drain_valve_k (drain, drain->valve_opening) : workspace->valve_k[index];
  if (drain->valve_given) {
    ret_drain->valve_opening = drain->valve_opening;
  } else if (ret_drain->valve_k > drain->valve_k_open * (1 + 1e-9)) {
    valve_opening_for_k (drain->valve == VALVE_IS_BALL ? VALVE_BALL : VALVE_GATE, drain->pipe.run.bore_m,
                         ret_drain->valve_k, &ret_drain->valve_opening);
  }
  above.length_m = drain->length_above_valve_m;
  above.k = drain->k_above_valve;
  if (pipe_loss (&above, &system->fluid, flow_m3s, &loss) == HYDRAULICS_OK)
    ret_drain->valve_pressure_m = box_z - drain->valve_z - loss.head_m - velocity_m;
  trace_add (trace, STEP_VALVE, SCENARIO_RUNNING, drain->part,
             (double[]){ret_drain->valve_k, flow_m3s, box_z, ret_drain->end_level_z, drain->pipe.run.bore_m});
}

static void
ask_siphon (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
            DrainState *ret_drain)
{
  const DrainModel *drain = &system->drains[index];
  const State *state = &workspace->running;
  const double box_z = state->box_z[drain->overflow], flow_m3s = fmax (state->drain_m3s[index], 0);
  const double fall_m = box_z - ret_drain->end_level_z;

  ret_drain->cover_m = box_z - drain->pipe.mouth_level_m;
  if (siphon_mouth_cover (drain->pipe.mouth_diameter_m, flow_m3s, &ret_drain->cover_needed_m) ==
      HYDRAULICS_OK)
    trace_add (
        trace, STEP_COVER, SCENARIO_RUNNING, drain->part,
        (double[]){ret_drain->cover_needed_m, drain->pipe.mouth_diameter_m, flow_m3s, ret_drain->cover_m});
  ret_drain->drift_play_m = next_lip_z (system, index, box_z) - box_z;
  if (fall_m > 0 && ret_drain->drift_play_m >= 0 &&
      siphon_tolerated_drift (fall_m, ret_drain->drift_play_m, &ret_drain->drift) == HYDRAULICS_OK)
    trace_add (trace, STEP_DRIFT, SCENARIO_RUNNING, drain->part,
               (double[]){ret_drain->drift, ret_drain->drift_play_m, fall_m});
}

static void
describe_drain (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
                DrainState *ret_drain)
{
  const DrainModel *drain = &system->drains[index];
  const State *state = &workspace->running;

  *ret_drain = (DrainState){.part = drain->part,
                            .role = drain->role,
                            .overflow = system->overflows[drain->overflow].part,
                            .chamber = system->chambers[drain->chamber].part,
                            .mouth_z = drain->pipe.mouth_level_m,
                            .end_z = drain->end_z,
                            .bore_m = drain->pipe.run.bore_m,
                            .length_m = drain->pipe.run.length_m,
                            .volume_m3 = drain->volume_m3,
                            .above_sump_m3 = drain_content_m3 (system, state, index, false),
                            .quiet_m3s = NO_NUMBER,
                            .primed_counts = drain->primed_counts,
                            .priming_z = drain->priming_z,
                            .flow_m3s = state->drain_m3s[index],
                            .regime = regime_of (drain, state->drain_regime[index]),
                            .primed = drain->role == DRAIN_SIPHON && drain->primed_counts && !drain->blocked,
                            .froude = NO_NUMBER,
                            .valve_k = NO_NUMBER,
                            .valve_opening = NO_NUMBER,
                            .valve_z = NO_NUMBER,
                            .valve_pressure_m = NO_NUMBER,
                            .cover_m = NO_NUMBER,
                            .cover_needed_m = NO_NUMBER,
                            .drift = NO_NUMBER,
                            .drift_play_m = NO_NUMBER,
                            .start_froude = NO_NUMBER,
                            .start_likely_m = NO_NUMBER,
                            .start_margin_m = NO_NUMBER};
  quiet_froude_number (ret_drain->bore_m, fmax (ret_drain->flow_m3s, 0), &ret_drain->froude);
  ask_quiet (drain, trace, ret_drain);
  ask_capacity (system, state, index, workspace->wanted_z[drain->overflow], trace, ret_drain);
  ask_valve (system, workspace, index, trace, ret_drain);
  if (drain->role == DRAIN_SIPHON)
    ask_siphon (system, workspace, index, trace, ret_drain);
}

void
fill_drains (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  evaluation->n_drains = system->n_drains;
  for (unsigned i = 0; i < system->n_drains; i++)
    describe_drain (system, workspace, i, trace, &evaluation->drains[i]);
}

/* Whether each siphon starts again after drain-back: what pushes its air out is the box level up to the lip at which
 * another drain takes over, against the depth of its end below the surface that the drain-back left. */
void
fill_starts (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  const unsigned first_chamber = evaluation->n_vessels - system->n_chambers;

  for (unsigned i = 0; i < system->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];
    DrainState *state = &evaluation->drains[i];
    SiphonStarting starting;
    SiphonStart start;

    if (drain->role != DRAIN_SIPHON)
      continue;
    start = (SiphonStart){
        .bore_m = drain->pipe.run.bore_m,
        .starting_flow_m3s = fmax (workspace->running.overflow_m3s[drain->overflow], 0),
        .crown_level_m = drain->highest_z,
        .spill_level_m = fmin (drain->rim_z, next_lip_z (system, i, drain->highest_z + 1e-6)),
        .outlet_level_m = drain->end_z,
        .sump_level_at_rest_m = evaluation->vessels[first_chamber + drain->chamber].power_off_z};
    /* The emergency lip, not the trickle lip, ends the rise: a trickle carries only its share. */
    for (unsigned k = 0; k < system->n_drains; k++)
      if (system->drains[k].overflow == drain->overflow && system->drains[k].role == DRAIN_EMERGENCY)
        start.spill_level_m =
            fmin (drain->rim_z, fmax (start.spill_level_m, system->drains[k].pipe.mouth_level_m));
    if (siphon_starting (&start, &starting) != HYDRAULICS_OK)
      continue;
    state->start_froude = starting.froude;
    state->clears_air = starting.clears_air;
    state->may_start = starting.may_start;
    state->start_likely_m = state->start_margin_m = starting.margin_m;
    trace_add (trace, STEP_START, SCENARIO_POWER_OFF, drain->part,
               (double[]){starting.margin_m, start.spill_level_m, start.crown_level_m,
                          starting.outlet_depth_m, starting.froude});
  }
}
