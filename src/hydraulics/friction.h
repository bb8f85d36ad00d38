/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* The one place where friction in a full pipe is computed, inline because networks ask it millions of times. Values are
 * already checked by the caller. Not for use outside this folder. */

#include "hydraulics/constants.h"
#include "hydraulics/pipe.h"

#include <math.h>
#include <stdbool.h>

/* Local losses are made linear below this velocity, see pipe_loss(). */
#define FRICTION_CREEP_MS 1e-3

/* What one pipe in one fluid needs again and again. */
typedef struct {
  double reynolds_per_flow; /* Re = this |Q| */
  double roughness_term;    /* relative roughness / 3.7 */
  double friction_gain;     /* h = this f Q^2: L / (2 g D A^2) */
  double local_gain;        /* h = this Q^2: k / (2 g A^2) */
  double laminar_gain;      /* h = this Q, with 64 / Re */
  double laminar_flow;      /* where the regimes end and begin, and below which local losses are linear */
  double turbulent_flow;
  double creep_flow;
  double bridge_span; /* of flow; head loss and slope by friction at its ends */
  double bridge_h0, bridge_h1;
  double bridge_g0, bridge_g1;
} FrictionPipe;

/* 1 / sqrt f on its way to the root, kept between two solutions at similar flow. */
typedef struct {
  double inverse_root;
  double damping; /* the w of friction_colebrook_step() */
} FrictionState;

/* One Newton step for x = 1 / sqrt f in F (x) = x + 2 log10 (a + b x) = 0, where a = relative roughness / 3.7 and
 * b = 2.51 / Re. F' = 1 + w. The error after a step is below 0.01 times the square of that before it, for any a and any
 * Re >= 2000, since F'' / 2 F' is. The same w gives the slope of the solution: d ln x / d ln Re = w / (1 + w). */
static inline double
friction_colebrook_step (double a, double b, double x, double *ret_w)
{
  const double two_over_ln10 = 0.868588963806503655;
  double u = a + b * x;
  double w = two_over_ln10 * b / u;

  *ret_w = w;
  return x - (x + two_over_ln10 * log (u)) / (1.0 + w);
}

/* Solves Colebrook-White from a guess: a step below 3e-4 leaves less than 1e-9, one more than the 16th digit. */
static inline double
friction_colebrook (double a, double b, double x, double step_enough, double *ret_w)
{
  for (int i = 0; i < 8; i++) {
    double next = friction_colebrook_step (a, b, x, ret_w);
    double step = fabs (next - x);
    x = next;
    if (step < step_enough)
      break;
  }
  return x;
}

/* A guess for the above within 0.5: the explicit form of Swamee & Jain (1976) with its logarithm kept. */
static inline double
friction_colebrook_guess (double a, double reynolds)
{
  return -0.868588963806503655 * log (a + 5.74 * pow (reynolds, -0.9));
}

static inline void
friction_bridge (const FrictionPipe *pipe, double flow, double *ret_h, double *ret_g)
{
  double t = (flow - pipe->laminar_flow) / pipe->bridge_span;
  double dh = pipe->bridge_h1 - pipe->bridge_h0;
  double m0 = pipe->bridge_g0 * pipe->bridge_span, m1 = pipe->bridge_g1 * pipe->bridge_span;
  double c2 = 3.0 * dh - 2.0 * m0 - m1, c3 = m0 + m1 - 2.0 * dh;

  *ret_h = pipe->bridge_h0 + t * (m0 + t * (c2 + t * c3));
  *ret_g = (m0 + t * (2.0 * c2 + t * 3.0 * c3)) / pipe->bridge_span;
}

/* Loss and slope at @flow. @state is the guess for turbulent flow and is brought up to date. */
static inline double
friction_loss (const FrictionPipe *pipe, FrictionState *state, double step_enough, double flow, double *ret_g)
{
  double q = fabs (flow), h, g;

  if (q >= pipe->turbulent_flow) {
    double w;
    double b = 2.51 / (pipe->reynolds_per_flow * q);
    double x = friction_colebrook (pipe->roughness_term, b, state->inverse_root, step_enough, &w);
    double f_gain_q = pipe->friction_gain * q / (x * x);
    state->inverse_root = x;
    state->damping = w;
    h = f_gain_q * q;
    g = 2.0 * f_gain_q / (1.0 + w);
  } else if (q <= pipe->laminar_flow) {
    h = pipe->laminar_gain * q;
    g = pipe->laminar_gain;
  } else {
    friction_bridge (pipe, q, &h, &g);
  }

  if (q >= pipe->creep_flow) {
    h += pipe->local_gain * q * q;
    g += 2.0 * pipe->local_gain * q;
  } else {
    double q0 = pipe->creep_flow, part = q / q0;
    h += 0.5 * pipe->local_gain * q0 * q * (1.0 + part * part);
    g += 0.5 * pipe->local_gain * q0 * (1.0 + 3.0 * part * part);
  }
  *ret_g = g;
  return copysign (h, flow);
}

/**
 * friction_prepare:
 * @ret_pipe: (out): constants of the pipe
 * @ret_state: (out): a guess that serves near 1 m/s
 * Returns: as pipe_loss(); both are untouched on failure
 */
HydraulicsStatus friction_prepare (const PipeRun *run, const Fluid *fluid, FrictionPipe *ret_pipe,
                                   FrictionState *ret_state);
