/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One step of a stiff system of equations y' = f (t, y): ROS34PW2 (Rang & Angermann 2005, BIT 45, 761-787), linearly
 * implicit, four stages, order 3 with an embedded order 2, stiffly accurate and L-stable. It is a W-method: it keeps its
 * order with a Jacobian that is only near the true one. Where the columns of the Jacobian add up to zero exactly, as those
 * of a system that only moves water about, it keeps the sum of y to rounding.
 *
 * Nothing is allocated: the caller gives the room. */
#pragma once

#include <glib.h>
#include <stdbool.h>

/* Most unknowns. */
#define ROSENBROCK_MAX 160

/* @ret_rate: dy/dt. False where it cannot be found: the step is then given up. */
typedef bool (*RosenbrockRate) (double t, const double *y, double *ret_rate, void *data);

typedef struct {
  unsigned n;
  double matrix[ROSENBROCK_MAX * ROSENBROCK_MAX]; /* rows of n: its LU factors */
  unsigned pivot[ROSENBROCK_MAX];
  double slope[4][ROSENBROCK_MAX];
  double y[ROSENBROCK_MAX], sum[ROSENBROCK_MAX];
} RosenbrockRoom;

/**
 * rosenbrock_step:
 * @room: its n is the number of unknowns
 * @jacobian: n rows of n: df_i / dy_j, true or nearly so
 * @t, @y, @rate: where the step begins, and f there
 * @step: its length, > 0
 * @ret_y: (out): y at its end
 * @ret_error: (out): difference to the embedded solution
 *
 * Returns: false where a rate could not be found or the matrix is singular; the outputs then mean nothing
 */
bool rosenbrock_step (RosenbrockRoom *room, RosenbrockRate function, void *data, const double *jacobian,
                      double t, const double *y, const double *rate, double step, double *ret_y,
                      double *ret_error);
