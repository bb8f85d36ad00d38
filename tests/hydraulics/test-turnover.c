/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include <glib.h>

#include "hydraulics/turnover.h"

static void
test_rate_and_flow_are_inverse (void)
{
  double flow = NAN, rate = NAN, hour = NAN;

  g_assert_cmpint (turnover_flow (5.5, 0.42, &flow), ==, HYDRAULICS_OK);
  g_assert_cmpint (turnover_rate (flow, 0.42, &rate), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (rate, 5.5, 1e-12);
  g_assert_cmpint (turnover_retention_time (0.42, flow, &hour), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (rate * hour, 3600.0, 1e-9);
}

static void
test_bucket_scales (void)
{
  double once = NAN, twice = NAN;

  g_assert_cmpint (turnover_bucket_flow (0.01, 20.0, &once), ==, HYDRAULICS_OK);
  g_assert_cmpint (turnover_bucket_flow (0.02, 20.0, &twice), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (twice, 2.0 * once, 1e-15);
}

static void
test_statuses (void)
{
  static const double bad[] = {NAN, INFINITY, -1.0};
  double value = -7.0;

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_assert_cmpint (turnover_rate (bad[i], 1.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (turnover_flow (bad[i], 1.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (turnover_retention_time (1.0, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (turnover_bucket_flow (1.0, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  }
  g_assert_cmpint (turnover_rate (0.001, 0.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (turnover_bucket_flow (0.01, 0.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (turnover_bucket_flow (1e300, 1e-300, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, -7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/turnover/inverse", test_rate_and_flow_are_inverse);
  g_test_add_func ("/hydraulics/turnover/bucket", test_bucket_scales);
  g_test_add_func ("/hydraulics/turnover/statuses", test_statuses);
  return g_test_run ();
}
