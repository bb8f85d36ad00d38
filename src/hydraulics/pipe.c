/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/pipe.h"

#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/friction.h"

static bool
fluid_is_valid (const Fluid *fluid)
{
  return argument_is_positive (fluid->density_kgm3) && argument_is_positive (fluid->dynamic_viscosity_pas);
}

static bool
run_is_valid (const PipeRun *run)
{
  return argument_is_not_negative (run->length_m) && argument_is_positive (run->bore_m) &&
         argument_is_not_negative (run->roughness_m) && argument_is_not_negative (run->k);
}

double
friction_log_in_full (FrictionState *state, double u)
{
  state->near_u = u;
  state->near_per = 1.0 / u;
  state->near_log = log (u);
  return state->near_log;
}

void
friction_colebrook (FrictionState *state, double a, double b, double step_enough)
{
  for (int i = 0; i < 8; i++) {
    if (friction_colebrook_step (state, a, b) < step_enough)
      break;
  }
}

FrictionState
friction_colebrook_afresh (double a, double reynolds)
{
  FrictionState state = {.x = -0.868588963806503655 * log (a + 5.74 * pow (reynolds, -0.9)),
                         .near_u = 1.0,
                         .near_per = 1.0}; /* ln 1 = 0 */

  friction_colebrook (&state, a, 2.51 / reynolds, 1e-7);
  return state;
}

HydraulicsStatus
friction_prepare (const PipeRun *run, const Fluid *fluid, FrictionPipe *ret_pipe, FrictionState *ret_state)
{
  if (!run_is_valid (run) || !fluid_is_valid (fluid))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (run->roughness_m > PIPE_RELATIVE_ROUGHNESS_MAX * run->bore_m)
    return HYDRAULICS_OUT_OF_RANGE;

  double area = G_PI_4 * run->bore_m * run->bore_m;
  double viscosity = fluid->dynamic_viscosity_pas / fluid->density_kgm3;
  double head_per_flow2 = 1.0 / (2.0 * GRAVITY_M_S2 * area * area);
  FrictionPipe pipe = {
      .reynolds_per_flow = run->bore_m / (area * viscosity),
      .roughness_term = run->roughness_m / run->bore_m / 3.7,
      .friction_gain = run->length_m / run->bore_m * head_per_flow2,
      .local_gain = run->k * head_per_flow2,
      .creep_flow = FRICTION_CREEP_MS * area,
  };
  pipe.colebrook_gain = 2.51 / pipe.reynolds_per_flow;
  pipe.laminar_gain = 64.0 * pipe.friction_gain / pipe.reynolds_per_flow;
  pipe.laminar_flow = PIPE_REYNOLDS_LAMINAR_END / pipe.reynolds_per_flow;
  pipe.turbulent_flow = PIPE_REYNOLDS_TURBULENT_START / pipe.reynolds_per_flow;

  FrictionState joint = friction_colebrook_afresh (pipe.roughness_term, PIPE_REYNOLDS_TURBULENT_START);
  pipe.bridge_span = pipe.turbulent_flow - pipe.laminar_flow;
  pipe.bridge_h0 = pipe.laminar_gain * pipe.laminar_flow;
  pipe.bridge_g0 = pipe.laminar_gain;
  pipe.bridge_h1 = pipe.friction_gain / (joint.x * joint.x) * pipe.turbulent_flow * pipe.turbulent_flow;
  pipe.bridge_g1 = 2.0 * pipe.bridge_h1 / pipe.turbulent_flow * joint.still;

  /* Begin where water usually runs, at 1 m/s. */
  double flow = fmax (area, pipe.turbulent_flow);
  FrictionState state = friction_colebrook_afresh (pipe.roughness_term, pipe.reynolds_per_flow * flow);
  state.flow = flow;
  *ret_pipe = pipe;
  *ret_state = state;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pipe_friction_factor (double reynolds, double relative_roughness, double *ret_factor)
{
  if (!isfinite (reynolds) || reynolds <= 0.0 || !isfinite (relative_roughness) || relative_roughness < 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  if (relative_roughness > PIPE_RELATIVE_ROUGHNESS_MAX)
    return HYDRAULICS_OUT_OF_RANGE;
  if (reynolds <= PIPE_REYNOLDS_LAMINAR_END) {
    *ret_factor = 64.0 / reynolds;
    return HYDRAULICS_OK;
  }

  /* A pipe of which the loss is f Re^2: bore, area and viscosity 1, length 2 g. */
  double at = fmax (reynolds, PIPE_REYNOLDS_TURBULENT_START);
  FrictionState state = friction_colebrook_afresh (relative_roughness / 3.7, at);
  double f = 1.0 / (state.x * state.x);
  if (reynolds < PIPE_REYNOLDS_TURBULENT_START) {
    FrictionPipe unit = {.laminar_flow = PIPE_REYNOLDS_LAMINAR_END,
                         .bridge_span = at - PIPE_REYNOLDS_LAMINAR_END};
    double h, g;
    unit.bridge_h0 = 64.0 * PIPE_REYNOLDS_LAMINAR_END;
    unit.bridge_g0 = 64.0;
    unit.bridge_h1 = f * at * at;
    unit.bridge_g1 = 2.0 * f * at * state.still;
    friction_bridge (&unit, reynolds, &h, &g);
    f = h / (reynolds * reynolds);
  }
  *ret_factor = f;
  return HYDRAULICS_OK;
}

HydraulicsStatus
pipe_loss (const PipeRun *run, const Fluid *fluid, double flow_m3s, PipeLoss *ret_loss)
{
  FrictionPipe pipe;
  FrictionState state;

  if (!isfinite (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = friction_prepare (run, fluid, &pipe, &state);
  if (status != HYDRAULICS_OK)
    return status;

  PipeLoss loss = {.velocity_ms = flow_m3s / (G_PI_4 * run->bore_m * run->bore_m),
                   .reynolds = pipe.reynolds_per_flow * fabs (flow_m3s)};
  loss.head_m = friction_loss (&pipe, &state, 1e-7, flow_m3s, &loss.slope_sm2);
  if (!isfinite (loss.head_m) || !isfinite (loss.slope_sm2))
    return HYDRAULICS_INVALID_ARGUMENT;
  loss.regime = loss.reynolds <= PIPE_REYNOLDS_LAMINAR_END      ? PIPE_REGIME_LAMINAR
                : loss.reynolds < PIPE_REYNOLDS_TURBULENT_START ? PIPE_REGIME_BRIDGE
                                                                : PIPE_REGIME_TURBULENT;
  if (loss.reynolds > 0.0) {
    status = pipe_friction_factor (loss.reynolds, run->roughness_m / run->bore_m, &loss.friction_factor);
    if (status != HYDRAULICS_OK)
      return status;
  }
  *ret_loss = loss;
  return HYDRAULICS_OK;
}

/* A pipe ready to be asked. */
typedef struct {
  FrictionPipe pipe;
  FrictionState state;
} ReadyPipe;

static HydraulicsStatus
loss_at_flow (double flow, const void *data, double *ret_head_m)
{
  const ReadyPipe *ready = data;
  FrictionState state = ready->state;
  double slope;

  *ret_head_m = friction_loss (&ready->pipe, &state, 1e-7, flow, &slope);
  return HYDRAULICS_OK;
}

HydraulicsStatus
pipe_flow_at_loss (const PipeRun *run, const Fluid *fluid, double head_m, double *ret_flow_m3s)
{
  ReadyPipe ready;
  double flow, high_head = 0.0, wanted = fabs (head_m);

  if (!isfinite (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = friction_prepare (run, fluid, &ready.pipe, &ready.state);
  if (status != HYDRAULICS_OK)
    return status;
  if (head_m == 0.0) {
    *ret_flow_m3s = 0.0;
    return HYDRAULICS_OK;
  }
  if (ready.pipe.friction_gain <= 0.0 && ready.pipe.local_gain <= 0.0)
    return HYDRAULICS_NO_SOLUTION;

  double high = ready.pipe.turbulent_flow;
  for (int i = 0; i < 400 && loss_at_flow (high, &ready, &high_head) == HYDRAULICS_OK && high_head < wanted;
       i++)
    high *= 4.0;
  status = bracket_invert (loss_at_flow, &ready, wanted, 0.0, high, &flow);
  if (status == HYDRAULICS_OK)
    *ret_flow_m3s = copysign (flow, head_m);
  return status;
}
