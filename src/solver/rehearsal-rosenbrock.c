/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/rehearsal-rosenbrock.h"

#include <math.h>
#include <string.h>

#define STAGES 4

/* Coefficients of ROS34PW2. The order conditions that they must meet are in its test. */
static const double diagonal = 4.3586652150845900e-01;
static const double alpha[STAGES][STAGES] = {
    {0},
    {8.7173304301691801e-01},
    {8.4457060015369423e-01, -1.1299064236484185e-01},
    {0, 0, 1},
};
static const double couple[STAGES][STAGES] = {
    {0},
    {-8.7173304301691801e-01},
    {-9.0338057013044082e-01, 5.4180672388095326e-02},
    {2.4212380706095346e-01, -1.2232505839045147e+00, 5.4526025533510214e-01},
};
static const double weight[STAGES] = {2.4212380706095346e-01, -1.2232505839045147e+00, 1.5452602553351020e+00,
                                      4.3586652150845900e-01};
static const double embedded[STAGES] = {3.7810903145819369e-01, -9.6042292212423178e-02, 5.0e-01,
                                        2.1793326075422950e-01};

/* LU factors with partial pivoting; false where the matrix is singular. */
static bool
factorise (RosenbrockRoom *room)
{
  const unsigned n = room->n;
  double *a = room->matrix;

  for (unsigned k = 0; k < n; k++) {
    unsigned best = k;

    for (unsigned i = k + 1; i < n; i++)
      if (fabs (a[i * n + k]) > fabs (a[best * n + k]))
        best = i;
    room->pivot[k] = best;
    if (!(fabs (a[best * n + k]) > 0) || !isfinite (a[best * n + k]))
      return false;
    for (unsigned j = 0; best != k && j < n; j++) {
      const double kept = a[k * n + j];

      a[k * n + j] = a[best * n + j];
      a[best * n + j] = kept;
    }
    for (unsigned i = k + 1; i < n; i++) {
      double factor = a[i * n + k];

      if (factor == 0)
        continue;
      factor = a[i * n + k] /= a[k * n + k];
      for (unsigned j = k + 1; j < n; j++)
        a[i * n + j] -= factor * a[k * n + j];
    }
  }
  return true;
}

static void
solve (const RosenbrockRoom *room, double *x)
{
  const unsigned n = room->n;
  const double *a = room->matrix;

  for (unsigned k = 0; k < n; k++) {
    const double kept = x[room->pivot[k]];

    x[room->pivot[k]] = x[k];
    x[k] = kept;
  }
  for (unsigned i = 0; i < n; i++)
    for (unsigned j = 0; j < i; j++)
      x[i] -= a[i * n + j] * x[j];
  for (unsigned i = n; i-- > 0;) {
    for (unsigned j = i + 1; j < n; j++)
      x[i] -= a[i * n + j] * x[j];
    x[i] /= a[i * n + i];
  }
}

/* Right side of a stage: f at its place, and the Jacobian times what went before. */
static bool
begin_stage (RosenbrockRoom *room, RosenbrockRate function, void *data, const double *jacobian, double t,
             const double *y, double step, unsigned stage)
{
  const unsigned n = room->n;
  double at = 0;

  for (unsigned k = 0; k < stage; k++)
    at += alpha[stage][k];
  for (unsigned i = 0; i < n; i++) {
    double place = 0, drive = 0;

    for (unsigned k = 0; k < stage; k++) {
      place += alpha[stage][k] * room->slope[k][i];
      drive += couple[stage][k] * room->slope[k][i];
    }
    room->y[i] = y[i] + step * place;
    room->sum[i] = step * drive;
  }
  if (!function (t + at * step, room->y, room->slope[stage], data))
    return false;
  for (unsigned i = 0; i < n; i++)
    for (unsigned j = 0; j < n; j++)
      room->slope[stage][i] += jacobian[i * n + j] * room->sum[j];
  return true;
}

bool
rosenbrock_step (RosenbrockRoom *room, RosenbrockRate function, void *data, const double *jacobian, double t,
                 const double *y, const double *rate, double step, double *ret_y, double *ret_error)
{
  const unsigned n = room->n;

  for (unsigned i = 0; i < n * n; i++)
    room->matrix[i] = -step * diagonal * jacobian[i];
  for (unsigned i = 0; i < n; i++)
    room->matrix[i * n + i] += 1;
  if (!factorise (room))
    return false;
  memcpy (room->slope[0], rate, n * sizeof *rate);
  solve (room, room->slope[0]);
  for (unsigned stage = 1; stage < STAGES; stage++) {
    if (!begin_stage (room, function, data, jacobian, t, y, step, stage))
      return false;
    solve (room, room->slope[stage]);
  }
  for (unsigned i = 0; i < n; i++) {
    double change = 0, other = 0;

    for (unsigned k = 0; k < STAGES; k++) {
      change += weight[k] * room->slope[k][i];
      other += embedded[k] * room->slope[k][i];
    }
    ret_y[i] = y[i] + step * change;
    ret_error[i] = step * (change - other);
  }
  return true;
}
