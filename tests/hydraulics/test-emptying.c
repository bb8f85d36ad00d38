/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Closed forms are held in the reference tables; here they are played through in small steps of the flow
 * relations that the rest of the program uses, and asked what has no answer. */

#include "hydraulics/constants.h"
#include "hydraulics/emptying.h"
#include "hydraulics/orifice.h"

#include <glib.h>
#include <math.h>

static const Fluid sea = {.density_kgm3 = 1023.3, .dynamic_viscosity_pas = 0.000959};
static const PipeRun hose = {.length_m = 2.0, .bore_m = 0.016, .roughness_m = 1e-5, .k = 1.5};

/* Simpson's rule of A dh / (Q(h) - inflow) in the square root of the head. */
static double
play_orifice (double area_m2, double cd_area_m2, double inflow_m3s, double start_m, double end_m)
{
  enum { STEPS = 2000 };
  double from = sqrt (end_m), step = (sqrt (start_m) - from) / STEPS, sum = 0.0;

  for (int n = 0; n <= STEPS; n++) {
    double root = from + n * step, flow_m3s = NAN;
    g_assert_cmpint (orifice_discharge (1.0, cd_area_m2, root * root, &flow_m3s), ==, HYDRAULICS_OK);
    double weight = n == 0 || n == STEPS ? 1.0 : n % 2 == 1 ? 4.0 : 2.0;
    sum += weight * 2.0 * root * area_m2 / (flow_m3s - inflow_m3s);
  }
  return sum * step / 3.0;
}

static void
test_orifice_with_inflow (void)
{
  /* Falling against little and much inflow; rising; and so much inflow that the orifice hardly counts. */
  const double cases[][3] = {{1e-5, 0.4, 0.1}, {3e-4, 0.4, 0.1},  {8e-4, 0.1, 0.3},
                             {0.5, 0.1, 0.4},  {0.011, 0.1, 0.4}, {0.0083, 0.1, 0.4}};

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    double time_s = NAN;
    g_assert_cmpint (
        emptying_time_orifice_inflow (0.24, 3e-4, cases[i][0], cases[i][1], cases[i][2], &time_s), ==,
        HYDRAULICS_OK);
    double played_s = play_orifice (0.24, 3e-4, cases[i][0], cases[i][1], cases[i][2]);
    g_assert_cmpfloat_with_epsilon (time_s, played_s, 1e-7 * played_s);
  }
}

/* The series for much inflow meets the closed form: k sqrt h / Q0 = 0.1 at 0.4 m. */
static void
test_both_sides_of_the_series (void)
{
  double joint_m3s = 10.0 * 3e-4 * sqrt (2.0 * GRAVITY_M_S2 * 0.4), below_s = NAN, above_s = NAN;

  g_assert_cmpint (emptying_time_orifice_inflow (0.24, 3e-4, joint_m3s * (1 - 1e-9), 0.1, 0.4, &below_s), ==,
                   HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_orifice_inflow (0.24, 3e-4, joint_m3s * (1 + 1e-9), 0.1, 0.4, &above_s), ==,
                   HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (below_s, above_s, 1e-8 * above_s);
  /* And with hardly any inflow it is the plain orifice. */
  g_assert_cmpint (emptying_time_orifice_inflow (0.24, 3e-4, 1e-14, 0.4, 0.1, &below_s), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_orifice (0.24, 3e-4, 0.4, 0.1, &above_s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (below_s, above_s, 1e-8 * above_s);
}

/* The volume that has run out is the volume that was there: A dh = Q(h) dt, played by the midpoint rule. */
static void
test_pipe_colebrook (void)
{
  const double heads_m[][2] = {{1.0, 0.6}, {0.5, 0.001}, {0.02, 0.0199}};

  for (guint i = 0; i < G_N_ELEMENTS (heads_m); i++) {
    enum { STEPS = 20000 };
    double from = sqrt (heads_m[i][1]), step = (sqrt (heads_m[i][0]) - from) / STEPS, played_s = 0.0,
           time_s = NAN;
    for (int n = 0; n < STEPS; n++) {
      double root = from + (n + 0.5) * step, flow_m3s = NAN;
      g_assert_cmpint (pipe_flow_at_loss (&hose, &sea, root * root, &flow_m3s), ==, HYDRAULICS_OK);
      played_s += 2.0 * root * step * 0.54 / flow_m3s;
    }
    g_assert_cmpint (emptying_time_pipe_colebrook (0.54, &hose, &sea, heads_m[i][0], heads_m[i][1], &time_s),
                     ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (time_s, played_s, 1e-5 * played_s);
  }
}

/* From A to C is from A to B and from B to C. */
static void
test_times_add_up (void)
{
  double whole = NAN, first = NAN, second = NAN;

  g_assert_cmpint (emptying_time_weir (0.5, 0.4, 1.84, 0.03, 0.001, &whole), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_weir (0.5, 0.4, 1.84, 0.03, 0.01, &first), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_weir (0.5, 0.4, 1.84, 0.01, 0.001, &second), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (first + second, whole, 1e-12 * whole);
  g_assert_cmpint (emptying_time_pipe (0.5, 0.02, 2.0, 0.02, 1.5, 0.9, 0.0, &whole), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_pipe (0.5, 0.02, 2.0, 0.02, 1.5, 0.9, 0.2, &first), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_pipe (0.5, 0.02, 2.0, 0.02, 1.5, 0.2, 0.0, &second), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (first + second, whole, 1e-12 * whole);
}

/* A second tank without end leaves the first to itself; two equal ones level out in half the time. */
static void
test_two_tanks (void)
{
  double alone = NAN, pair = NAN, sea_s = NAN, swapped = NAN;

  g_assert_cmpint (emptying_time_orifice (0.5, 3e-4, 0.3, 0.1, &alone), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_two_tanks (0.5, 1e12, 3e-4, 0.3, 0.1, &sea_s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (sea_s, alone, 1e-9 * alone);
  g_assert_cmpint (emptying_time_two_tanks (0.5, 0.5, 3e-4, 0.3, 0.1, &pair), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (pair, 0.5 * alone, 1e-12 * alone);
  g_assert_cmpint (emptying_time_two_tanks (0.2, 0.7, 3e-4, 0.3, 0.1, &pair), ==, HYDRAULICS_OK);
  g_assert_cmpint (emptying_time_two_tanks (0.7, 0.2, 3e-4, 0.3, 0.1, &swapped), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (pair, swapped, 1e-12 * pair);
}

static void
test_no_time_and_no_end (void)
{
  double time_s = 7.0;

  g_assert_cmpint (emptying_time_orifice (0.5, 3e-4, 0.1, 0.3, &time_s), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (emptying_time_weir (0.5, 0.4, 1.84, 0.03, 0.0, &time_s), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (emptying_time_weir (0.5, 0.4, 1.84, 0.01, 0.03, &time_s), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (emptying_time_pipe_colebrook (0.5, &hose, &sea, 0.3, 0.0, &time_s), ==,
                   HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (emptying_time_pipe_colebrook (0.5, &hose, &sea, 0.1, 0.3, &time_s), ==,
                   HYDRAULICS_NO_SOLUTION);
  /* Inflow equals outflow at 0.2 m: nothing passes that level, from above or from below. */
  double steady_m3s = 3e-4 * sqrt (2.0 * GRAVITY_M_S2 * 0.2);
  g_assert_cmpint (emptying_time_orifice_inflow (0.5, 3e-4, steady_m3s, 0.4, 0.1, &time_s), ==,
                   HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (emptying_time_orifice_inflow (0.5, 3e-4, steady_m3s, 0.1, 0.4, &time_s), ==,
                   HYDRAULICS_NO_SOLUTION);
  g_assert_cmpfloat (time_s, ==, 7.0);
  g_assert_cmpint (emptying_time_weir (0.5, 0.4, 1.84, 0.0, 0.0, &time_s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (time_s, ==, 0.0);
  g_assert_cmpint (emptying_time_pipe_colebrook (0.5, &hose, &sea, 0.3, 0.3, &time_s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (time_s, ==, 0.0);
  g_assert_cmpint (emptying_time_orifice_inflow (0.5, 3e-4, steady_m3s, 0.2, 0.2, &time_s), ==,
                   HYDRAULICS_OK);
  g_assert_cmpfloat (time_s, ==, 0.0);
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -1e-9};
  double time_s = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    double x = bad[i];
    g_assert_cmpint (emptying_time_orifice (x, 3e-4, 0.3, 0.1, &time_s), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_orifice (0.5, x, 0.3, 0.1, &time_s), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_orifice (0.5, 3e-4, 0.3, x, &time_s), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_orifice_inflow (0.5, 3e-4, x, 0.3, 0.1, &time_s), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_weir (0.5, x, 1.84, 0.3, 0.1, &time_s), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_pipe (0.5, x, 2.0, 0.02, 1.5, 0.3, 0.1, &time_s), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_pipe (0.5, 0.02, 2.0, x, 1.5, 0.3, 0.1, &time_s), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_pipe_colebrook (x, &hose, &sea, 0.3, 0.1, &time_s), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (emptying_time_two_tanks (0.5, x, 3e-4, 0.3, 0.1, &time_s), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
  }
  g_assert_cmpint (emptying_time_pipe (0.5, 0.02, 0.0, 0.02, 0.0, 0.3, 0.1, &time_s), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (time_s, ==, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/emptying/orifice-with-inflow", test_orifice_with_inflow);
  g_test_add_func ("/emptying/both-sides-of-the-series", test_both_sides_of_the_series);
  g_test_add_func ("/emptying/pipe-colebrook", test_pipe_colebrook);
  g_test_add_func ("/emptying/times-add-up", test_times_add_up);
  g_test_add_func ("/emptying/two-tanks", test_two_tanks);
  g_test_add_func ("/emptying/no-time-and-no-end", test_no_time_and_no_end);
  g_test_add_func ("/emptying/refuses", test_refuses);
  return g_test_run ();
}
