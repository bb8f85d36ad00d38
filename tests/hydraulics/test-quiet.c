/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Printed values of the quiet limits are held in the reference tables; here: how they hang together. */

#include "hydraulics/quiet.h"

#include <glib.h>
#include <math.h>

static void
test_froude_is_one_number (void)
{
  for (double bore_m = 0.005; bore_m < 1.0; bore_m *= 1.7) {
    double flow_m3s = NAN, froude = NAN, j_star = NAN, back_m = NAN;
    g_assert_cmpint (quiet_self_venting_flow (bore_m, 0.3, QUIET_FROUDE_SUPERFICIAL, &flow_m3s), ==,
                     HYDRAULICS_OK);
    g_assert_cmpint (quiet_froude_number (bore_m, flow_m3s, &froude), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (froude, 0.3, 1e-14);
    g_assert_cmpint (quiet_self_venting_diameter (flow_m3s, 0.3, &back_m), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (back_m, bore_m, 1e-14);
    /* The same border in the other number is 0.236: taking 0.3 there allows 27 % too much. */
    g_assert_cmpint (quiet_self_venting_flow (bore_m, 0.3, QUIET_FROUDE_J_STAR, &j_star), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (j_star / flow_m3s, 4.0 / G_PI, 1e-12);
  }
}

/* Q ~ D^2.5 for self-venting, D^(8/3) for a stack: the stack governs small pipes, self-venting large ones. */
static void
test_which_limit_governs (void)
{
  QuietLimit limit;

  g_assert_cmpint (quiet_limit (0.04089, QUIET_STACK_FILL, NULL, 0, &limit), ==, HYDRAULICS_OK);
  g_assert_cmpint (limit.kind, ==, QUIET_LIMIT_SELF_VENTING);
  g_assert_cmpfloat (limit.flow_m3s, ==, limit.self_venting_m3s);
  g_assert_cmpfloat (limit.flow_m3s, <, limit.stack_m3s);
  g_assert_true (isinf (limit.sloped_m3s));
  g_assert_cmpint (quiet_limit (0.04089, 0.1, NULL, 0, &limit), ==, HYDRAULICS_OK);
  g_assert_cmpint (limit.kind, ==, QUIET_LIMIT_STACK);
  g_assert_cmpfloat (limit.flow_m3s, ==, limit.stack_m3s);

  const QuietSlopedRun runs[] = {
      {.bore_m = 0.0525, .slope = 0.02, .manning_n = 0.009, .depth_ratio = 0.5},
      {.bore_m = 0.02664, .slope = 0.01, .manning_n = 0.009, .depth_ratio = 0.5},
  };
  g_assert_cmpint (quiet_limit (0.0525, QUIET_STACK_FILL, runs, 2, &limit), ==, HYDRAULICS_OK);
  g_assert_cmpint (limit.kind, ==, QUIET_LIMIT_SLOPED_RUN);
  g_assert_cmpuint (limit.run, ==, 1);
  g_assert_cmpfloat (limit.flow_m3s, ==, limit.sloped_m3s);
  /* A quiet pipe is a slow one: at the limit of one 52.5 mm standpipe, 0.47 L/s or 1,680 L/h. */
  g_assert_cmpint (quiet_limit (0.0525, QUIET_STACK_FILL, runs, 1, &limit), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (limit.flow_m3s, 0.466e-3, 0.001e-3);
}

static void
test_stack_range (void)
{
  double flow_m3s = 7.0, more_m3s = 7.0;

  g_assert_cmpint (quiet_stack_flow (0.1, 1.0 / 3.0, &flow_m3s), ==, HYDRAULICS_OK);
  g_assert_cmpint (quiet_stack_flow (0.1, 0.333333333333, &more_m3s), ==, HYDRAULICS_OK);
  g_assert_cmpint (quiet_stack_flow (0.1, 0.4, &more_m3s), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (more_m3s, >, flow_m3s);
  g_assert_cmpint (quiet_stack_flow (0.1, 0.0, &flow_m3s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (flow_m3s, ==, 0.0);
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -1e-9};
  const QuietSlopedRun flat = {.bore_m = 0.05, .slope = 0.0, .manning_n = 0.009, .depth_ratio = 0.5};
  const QuietSlopedRun dry = {.bore_m = 0.05, .slope = 0.02, .manning_n = 0.009, .depth_ratio = 0.0};
  QuietLimit limit = {.flow_m3s = 7.0};
  double value = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_assert_cmpint (quiet_froude_number (bad[i], 1e-4, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_froude_number (0.04, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_self_venting_flow (0.04, bad[i], QUIET_FROUDE_J_STAR, &value), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_self_venting_diameter (bad[i], 0.3, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_self_venting_diameter (1e-4, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_stack_flow (0.1, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_limit (bad[i], 0.25, NULL, 0, &limit), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (quiet_limit (0.1, bad[i], NULL, 0, &limit), ==, HYDRAULICS_INVALID_ARGUMENT);
  }
  g_assert_cmpint (quiet_self_venting_flow (0.04, 0.3, QUIET_FROUDE_BASIS_COUNT, &value), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (quiet_limit (0.1, 0.5, NULL, 0, &limit), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (quiet_limit (0.1, 0.25, &flat, 1, &limit), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (quiet_limit (0.1, 0.25, &dry, 1, &limit), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, 7.0);
  g_assert_cmpfloat (limit.flow_m3s, ==, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/quiet/froude-is-one-number", test_froude_is_one_number);
  g_test_add_func ("/quiet/which-limit-governs", test_which_limit_governs);
  g_test_add_func ("/quiet/stack-range", test_stack_range);
  g_test_add_func ("/quiet/refuses", test_refuses);
  return g_test_run ();
}
