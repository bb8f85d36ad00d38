/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The integrator of the rehearsals against equations whose answers are known. */
#include "solver/rehearsal-rosenbrock.h"

#include <math.h>

typedef struct {
  double stiffness;
  bool blind; /* the Jacobian is taken as nothing */
} Problem;

/* y' = -y + sin t, z' = y z / 2: y = (3 e^-t + sin t - cos t) / 2 from y (0) = 1; ln z is half the integral of y. */
static bool
smooth_rate (double t, const double *y, double *ret_rate, void *data)
{
  ret_rate[0] = -y[0] + sin (t);
  ret_rate[1] = 0.5 * y[0] * y[1];
  return true;
}

static double
smooth_error (unsigned n_steps, bool blind)
{
  RosenbrockRoom *room = g_new0 (RosenbrockRoom, 1);
  double y[2] = {1, 1}, rate[2], error[2];
  const double h = 2.0 / n_steps;

  room->n = 2;
  for (unsigned i = 0; i < n_steps; i++) {
    const double jacobian[4] = {blind ? 0 : -1, 0, blind ? 0 : 0.5 * y[1], blind ? 0 : 0.5 * y[0]};
    double next[2];

    smooth_rate (i * h, y, rate, NULL);
    g_assert_true (rosenbrock_step (room, smooth_rate, NULL, jacobian, i * h, y, rate, h, next, error));
    y[0] = next[0];
    y[1] = next[1];
  }
  g_free (room);
  const double exact = 0.5 * (3 * exp (-2) + sin (2) - cos (2));
  const double integral = 0.5 * (3 * (1 - exp (-2)) + (1 - cos (2)) - sin (2));

  return fmax (fabs (y[0] - exact), fabs (y[1] - exp (0.5 * integral)));
}

/* Halving the step divides the error by eight, also with a Jacobian that is wrong altogether, and with time in the
 * equations. */
static void
test_order (void)
{
  for (unsigned blind = 0; blind < 2; blind++) {
    const double coarse = smooth_error (40, blind), fine = smooth_error (80, blind);

    g_test_message ("errors %g and %g: order %.2f", coarse, fine, log2 (coarse / fine));
    g_assert_cmpfloat (log2 (coarse / fine), >, 2.8);
    g_assert_cmpfloat (fine, <, 1e-5);
  }
}

/* Prothero & Robinson (1974): y' = -k (y - cos t) - sin t, y = cos t. */
static bool
stiff_rate (double t, const double *y, double *ret_rate, void *data)
{
  const Problem *problem = data;

  ret_rate[0] = -problem->stiffness * (y[0] - cos (t)) - sin (t);
  return true;
}

/* With steps a million times the time constant it stays on the solution, and what is off dies at once. */
static void
test_stiff (void)
{
  RosenbrockRoom *room = g_new0 (RosenbrockRoom, 1);
  Problem problem = {.stiffness = 1e8};
  double y = 2, rate, error;

  room->n = 1;
  for (unsigned i = 0; i < 100; i++) {
    const double jacobian = -problem.stiffness, t = i * 0.01;
    double next;

    stiff_rate (t, &y, &rate, &problem);
    g_assert_true (
        rosenbrock_step (room, stiff_rate, &problem, &jacobian, t, &y, &rate, 0.01, &next, &error));
    y = next;
    if (i > 2)
      g_assert_cmpfloat (fabs (y - cos (t + 0.01)), <, 1e-4);
  }
  g_free (room);
}

/* Three places that pass water round, with a Jacobian of which only the sum of each column is right. */
static bool
moving_rate (double t, const double *y, double *ret_rate, void *data)
{
  const double a = y[0] * y[0], b = 3 * sqrt (fabs (y[1])), c = 1e3 * y[2];

  ret_rate[0] = c - a;
  ret_rate[1] = a - b;
  ret_rate[2] = b - c;
  return true;
}

static void
test_conserves (void)
{
  RosenbrockRoom *room = g_new0 (RosenbrockRoom, 1);
  const double jacobian[9] = {-1, 0, 900, 1, -2, 0, 0, 2, -900};
  double y[3] = {1, 0.25, 0.5}, rate[3], next[3], error[3];

  room->n = 3;
  for (unsigned i = 0; i < 200; i++) {
    moving_rate (0, y, rate, NULL);
    g_assert_true (rosenbrock_step (room, moving_rate, NULL, jacobian, 0, y, rate, 0.01, next, error));
    for (unsigned k = 0; k < 3; k++)
      y[k] = next[k];
  }
  g_assert_cmpfloat_with_epsilon (y[0] + y[1] + y[2], 1.75, 1e-12);
  g_free (room);
}

static bool
no_rate (double t, const double *y, double *ret_rate, void *data)
{
  return false;
}

static void
test_refuses (void)
{
  RosenbrockRoom *room = g_new0 (RosenbrockRoom, 1);
  const double zero = 0, bad = NAN;
  double y = 1, next, error;

  room->n = 1;
  g_assert_false (rosenbrock_step (room, no_rate, NULL, &zero, 0, &y, &zero, 0.1, &next, &error));
  g_assert_false (rosenbrock_step (room, no_rate, NULL, &bad, 0, &y, &zero, 0.1, &next, &error));
  g_free (room);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rosenbrock/order", test_order);
  g_test_add_func ("/rosenbrock/stiff", test_stiff);
  g_test_add_func ("/rosenbrock/conserves", test_conserves);
  g_test_add_func ("/rosenbrock/refuses", test_refuses);
  return g_test_run ();
}
