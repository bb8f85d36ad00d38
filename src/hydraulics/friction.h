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
  double colebrook_gain;    /* 2.51 / Re = this / |Q| */
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

/* The last solution of turbulent friction in one pipe, from which the next is begun, and one logarithm that was computed
 * not far from it. */
typedef struct {
  double x;     /* 1 / sqrt f */
  double still; /* 1 - d ln x / d ln flow: 1 on a fully rough wall, about 0.9 on a smooth one */
  double flow;  /* at which both were found */
  double near_u, near_per, near_log; /* near_per = 1 / near_u, near_log = ln near_u */
} FrictionState;

/* ln u in full; kept in @state for friction_log(). */
double friction_log_in_full (FrictionState *state, double u);

/* ln u, cheaply where u is within 3 % of the last argument for which it was computed in full: the series of
 * ln (1 + d) to its 9th power leaves 1e-16. */
static inline double
friction_log (FrictionState *state, double u)
{
  double d = (u - state->near_u) * state->near_per, d2 = d * d;

  if (G_UNLIKELY (!(fabs (d) < 0.03)))
    return friction_log_in_full (state, u);
  double even = (-1.0 / 2 - d2 * (1.0 / 4)) - d2 * d2 * (1.0 / 6 + d2 * (1.0 / 8));
  double odd = (1.0 / 3 + d2 * (1.0 / 5)) + d2 * d2 * (1.0 / 7 + d2 * (1.0 / 9));
  return state->near_log + (d + d2 * (even + d * odd));
}

/* A step of Newton's method for x + 2 log10 (a + b x) = 0 from state->x = 1 / sqrt f, with a = relative roughness / 3.7
 * and b = 2.51 / Re. With F' = 1 + w, still is 1 / (1 + w), and the slope of the solution is
 * d ln x / d ln Re = w / (1 + w). The error after a step is below 0.01 times the square of that before it, for any a and
 * any Re >= 2000, since F'' / 2 F' is: a step of 1e-4 leaves less than 1e-10, one of 1e-7 none that a double shows.
 * Returns: the length of the step. */
static inline double
friction_colebrook_step (FrictionState *state, double a, double b)
{
  const double two_over_ln10 = 0.868588963806503655;
  double u = a + b * state->x;
  double still = u / (u + two_over_ln10 * b);
  double step = (state->x + two_over_ln10 * friction_log (state, u)) * still;

  state->x -= step;
  state->still = still;
  return fabs (step);
}

/* Steps until one is below @step_enough. */
void friction_colebrook (FrictionState *state, double a, double b, double step_enough);

/* Solves it afresh, from the explicit form of Swamee & Jain (1976), which is within 0.5 of the root. */
FrictionState friction_colebrook_afresh (double a, double reynolds);

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

/* Loss and slope at @flow. @state is where turbulent friction begins and is brought up to date. */
static inline double
friction_loss (const FrictionPipe *pipe, FrictionState *state, double step_enough, double flow, double *ret_g)
{
  double q = fabs (flow), h, g;

  if (q >= pipe->turbulent_flow) {
    if (q != state->flow) {
      double per_flow = 1.0 / q;
      double ahead = 1.0 - state->flow * per_flow, b = pipe->colebrook_gain * per_flow;
      state->x *= 1.0 + (1.0 - state->still) * (ahead > -1.0 ? ahead : -1.0);
      state->flow = q;
      if (friction_colebrook_step (state, pipe->roughness_term, b) > step_enough)
        friction_colebrook (state, pipe->roughness_term, b, step_enough);
    }
    double rise = pipe->friction_gain * q / (state->x * state->x);
    h = rise * q;
    g = 2.0 * rise * state->still;
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
