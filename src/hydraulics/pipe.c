/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/pipe.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
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

/* All but the bridge between the regimes. */
static HydraulicsStatus
prepare_run (const PipeRun *run, const Fluid *fluid, FrictionPipe *ret_pipe)
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
  *ret_pipe = pipe;
  return HYDRAULICS_OK;
}

static void
prepare_bridge (FrictionPipe *pipe)
{
  FrictionState joint = friction_colebrook_afresh (pipe->roughness_term, PIPE_REYNOLDS_TURBULENT_START);

  pipe->bridge_span = pipe->turbulent_flow - pipe->laminar_flow;
  pipe->bridge_h0 = pipe->laminar_gain * pipe->laminar_flow;
  pipe->bridge_g0 = pipe->laminar_gain;
  pipe->bridge_h1 = pipe->friction_gain / (joint.x * joint.x) * pipe->turbulent_flow * pipe->turbulent_flow;
  pipe->bridge_g1 = 2.0 * pipe->bridge_h1 / pipe->turbulent_flow * joint.still;
}

HydraulicsStatus
friction_prepare (const PipeRun *run, const Fluid *fluid, FrictionPipe *ret_pipe, FrictionState *ret_state)
{
  FrictionPipe pipe;
  HydraulicsStatus status = prepare_run (run, fluid, &pipe);

  if (status != HYDRAULICS_OK)
    return status;
  prepare_bridge (&pipe);

  /* Begin where water usually runs, at 1 m/s. */
  double flow = fmax (G_PI_4 * run->bore_m * run->bore_m, pipe.turbulent_flow);
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
  FrictionState state = {.x = 1.0};
  double flow = fabs (flow_m3s);

  if (!isfinite (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = prepare_run (run, fluid, &pipe);
  if (status != HYDRAULICS_OK)
    return status;

  PipeLoss loss = {.velocity_ms = flow_m3s / (G_PI_4 * run->bore_m * run->bore_m),
                   .reynolds = pipe.reynolds_per_flow * flow};
  if (flow >= pipe.turbulent_flow) {
    loss.regime = PIPE_REGIME_TURBULENT;
    state = friction_colebrook_afresh (pipe.roughness_term, loss.reynolds);
    state.flow = flow;
    loss.friction_factor = 1.0 / (state.x * state.x);
  } else if (flow > pipe.laminar_flow) {
    loss.regime = PIPE_REGIME_BRIDGE;
    prepare_bridge (&pipe);
    pipe_friction_factor (loss.reynolds, fmin (run->roughness_m / run->bore_m, PIPE_RELATIVE_ROUGHNESS_MAX),
                          &loss.friction_factor);
  } else {
    loss.regime = PIPE_REGIME_LAMINAR;
    loss.friction_factor = flow > 0.0 ? 64.0 / loss.reynolds : 0.0;
  }
  loss.head_m = friction_loss (&pipe, &state, 1e-7, flow_m3s, &loss.slope_sm2);
  if (!isfinite (loss.head_m) || !isfinite (loss.slope_sm2))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_loss = loss;
  return HYDRAULICS_OK;
}

/* A turbulent flow that loses @wanted, with the friction factor that it would have without local losses: Colebrook's
 * equation is explicit in Re sqrt f, so that it is exact where there are none. */
static double
guess_flow (const FrictionPipe *pipe, double wanted, FrictionState *ret_state)
{
  FrictionState state = {.x = 8.0, .still = 1.0, .near_u = 1.0, .near_per = 1.0};

  if (pipe->friction_gain > 0.0) {
    double u = pipe->roughness_term + pipe->colebrook_gain / sqrt (wanted / pipe->friction_gain);
    state.x = fmax (-0.868588963806503655 * friction_log_in_full (&state, u), 1.0);
  }
  *ret_state = state;
  return sqrt (wanted / (pipe->friction_gain / (state.x * state.x) + pipe->local_gain));
}

/* Newton's method on the root of the loss, which is all but a straight line, kept between the flows that lost too little
 * and too much. The error of a step is below its square, relatively: a last step of 1e-8 leaves none that a double shows. */
static double
find_flow (FrictionPipe *pipe, double wanted)
{
  FrictionState state;
  double flow = guess_flow (pipe, wanted, &state), low = 0.0, high = INFINITY;

  for (int i = 0; i < 400 && isfinite (flow); i++) {
    double slope;
    if (flow < pipe->turbulent_flow && pipe->bridge_span == 0.0)
      prepare_bridge (pipe);
    double head = friction_loss (pipe, &state, 1e-7, flow, &slope);
    if (!(head > 0.0) || !isfinite (slope))
      return NAN;
    *(head < wanted ? &low : &high) = flow;
    double step = 2.0 * head / slope * (sqrt (wanted / head) - 1.0);
    if (fabs (step) <= 1e-8 * flow)
      return flow + step;
    flow += step;
    if (!(flow > low && flow < high))
      flow = isfinite (high) ? 0.5 * (low + high) : 4.0 * low;
    if (flow <= low || flow >= high)
      return flow;
  }
  return NAN;
}

HydraulicsStatus
pipe_flow_at_loss (const PipeRun *run, const Fluid *fluid, double head_m, double *ret_flow_m3s)
{
  FrictionPipe pipe;

  if (!isfinite (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = prepare_run (run, fluid, &pipe);
  if (status != HYDRAULICS_OK)
    return status;
  if (head_m == 0.0) {
    *ret_flow_m3s = 0.0;
    return HYDRAULICS_OK;
  }
  if (pipe.friction_gain <= 0.0 && pipe.local_gain <= 0.0)
    return HYDRAULICS_NO_SOLUTION;
  return answer_if_finite (copysign (find_flow (&pipe, fabs (head_m)), head_m), ret_flow_m3s);
}
