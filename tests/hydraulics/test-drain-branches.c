/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Several pipes that share a box: shares, the common level, and what happens when one is shut. */

#include "hydraulics/drain.h"

#include <glib.h>
#include <math.h>

static const Fluid sea = {.density_kgm3 = 1023.3, .dynamic_viscosity_pas = 0.000959};

/* A throttled siphon low in the box, a trickle channel above it, a dry emergency above that. */
static const DrainBranch trio[] = {
    {.pipe = {0.60, 0.0266, 0.02, {.length_m = 0.9, .bore_m = 0.0266, .roughness_m = 1.5e-6, .k = 22.0}},
     .primed = true},
    {.pipe = {0.66, 0.0266, 0.0, {.length_m = 0.9, .bore_m = 0.0266, .roughness_m = 1.5e-6, .k = 3.0}}},
    {.pipe = {0.68, 0.0409, 0.05, {.length_m = 0.9, .bore_m = 0.0409, .roughness_m = 1.5e-6, .k = 3.0}}},
};

static double
level_for (const DrainBranch *branches, guint n, double flow_m3s, DrainShares *ret_shares)
{
  double level_m = NAN;

  g_assert_cmpint (drain_branches_level (branches, n, &sea, flow_m3s, NAN, &level_m, ret_shares), ==,
                   HYDRAULICS_OK);
  g_assert_true (isfinite (level_m));
  /* Wherever it is looked for first, it is the same. */
  for (double off_m = -0.1; off_m < 0.11 && flow_m3s > 0.0; off_m += 0.02) {
    double again_m = NAN;

    g_assert_cmpint (drain_branches_level (branches, n, &sea, flow_m3s, level_m + off_m, &again_m, NULL), ==,
                     HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (again_m, level_m, 1e-12);
  }
  return level_m;
}

static void
test_one_is_as_alone (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (trio); i++) {
    for (double flow_m3s = 1e-6; flow_m3s < 2e-3; flow_m3s *= 1.3) {
      double alone_m = NAN;
      g_assert_cmpint (drain_level (&trio[i].pipe, &sea, trio[i].primed, flow_m3s, &alone_m, NULL), ==,
                       HYDRAULICS_OK);
      g_assert_cmpfloat_with_epsilon (level_for (&trio[i], 1, flow_m3s, NULL), alone_m, 1e-12);
    }
  }
}

static void
test_equal_pipes_share_alike (void)
{
  const DrainBranch pair[] = {trio[2], trio[2]};

  for (double flow_m3s = 1e-6; flow_m3s < 4e-3; flow_m3s *= 1.3) {
    DrainShares shares;
    double level_m = level_for (pair, 2, flow_m3s, &shares);
    g_assert_cmpfloat (shares.share_m3s[0], ==, shares.share_m3s[1]);
    g_assert_cmpfloat_with_epsilon (level_m, level_for (pair, 1, 0.5 * flow_m3s, NULL), 1e-12);
  }
}

/* 10,000 flows: shares add up, nothing falls as the flow grows, nothing jumps. */
static void
test_monotone_and_continuous (void)
{
  DrainShares last = {.total_m3s = 0.0};
  double last_m = -INFINITY;

  for (int n = 0; n < 10000; n++) {
    double flow_m3s = 1e-6 * pow (5e3, n / 10000.0);
    DrainShares shares;
    double level_m = level_for (trio, 3, flow_m3s, &shares);
    double head_m = level_m - trio[0].pipe.mouth_level_m;
    g_assert_cmpfloat_with_epsilon (shares.total_m3s, flow_m3s, 1e-9 * flow_m3s);
    g_assert_cmpfloat_with_epsilon (shares.share_m3s[0] + shares.share_m3s[1] + shares.share_m3s[2],
                                    shares.total_m3s, 1e-12 * flow_m3s);
    g_assert_cmpfloat (level_m, >=, last_m - 1e-15);
    for (int i = 0; i < 3; i++)
      g_assert_cmpfloat (shares.share_m3s[i], >=, last.share_m3s[i] - 1e-15);
    if (n % 10 == 0) {
      double step_m = level_for (trio, 3, flow_m3s * (1.0 + 1e-6), NULL) - level_m;
      g_assert_cmpfloat (step_m, <, fmax (1e-4 * head_m, 2.1e-6 * level_m));
    }
    last = shares;
    last_m = level_m;
  }
}

static void
test_level_and_flow_are_inverse (void)
{
  for (int n = 0; n < 1000; n++) {
    DrainShares at, back;
    double level_m = g_test_rand_double_range (0.601, 0.9);
    g_assert_cmpint (drain_branches_flow (trio, 3, &sea, level_m, &at), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (level_for (trio, 3, at.total_m3s, &back), level_m, 1e-11);
  }
}

/* What the siphon cannot take runs over the trickle lip; with both shut the emergency carries all, higher
 * up. */
static void
test_shutting_raises_the_level (void)
{
  const double flow_m3s = 0.5e-3;
  DrainBranch branches[] = {trio[0], trio[1], trio[2]};
  DrainShares shares;
  double all_m = level_for (branches, 3, flow_m3s, &shares);

  branches[0].shut = true;
  double two_m = level_for (branches, 3, flow_m3s, &shares);
  g_assert_cmpfloat (two_m, >, all_m);
  g_assert_cmpfloat (shares.share_m3s[0], ==, 0.0);
  g_assert_cmpint (shares.regime[0], ==, DRAIN_DRY);
  branches[1].shut = true;
  double last_m = level_for (branches, 3, flow_m3s, &shares);
  g_assert_cmpfloat (last_m, >, two_m);
  g_assert_cmpfloat_with_epsilon (last_m, level_for (&trio[2], 1, flow_m3s, NULL), 1e-12);
  branches[2].shut = true;
  g_assert_cmpint (drain_branches_level (branches, 3, &sea, flow_m3s, NAN, &last_m, NULL), ==,
                   HYDRAULICS_NO_SOLUTION);
}

static void
test_no_flow_rests_at_the_lowest_lip (void)
{
  DrainShares shares;

  g_assert_cmpfloat (level_for (trio, 3, 0.0, &shares), ==, 0.60);
  g_assert_cmpfloat (shares.total_m3s, ==, 0.0);
}

static void
test_refuses (void)
{
  DrainBranch many[DRAIN_BRANCHES_MAX + 1];
  DrainShares shares = {.total_m3s = 7.0};
  double level_m = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (many); i++)
    many[i] = trio[1];
  g_assert_cmpint (drain_branches_level (many, DRAIN_BRANCHES_MAX, &sea, 1e-3, NAN, &level_m, NULL), ==,
                   HYDRAULICS_OK);
  level_m = 7.0;
  g_assert_cmpint (drain_branches_level (many, G_N_ELEMENTS (many), &sea, 1e-3, NAN, &level_m, &shares), ==,
                   HYDRAULICS_TOO_LARGE);
  g_assert_cmpint (drain_branches_flow (many, G_N_ELEMENTS (many), &sea, 0.7, &shares), ==,
                   HYDRAULICS_TOO_LARGE);
  g_assert_cmpint (drain_branches_flow (many, 0, &sea, 0.7, &shares), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (drain_branches_level (trio, 3, &sea, NAN, NAN, &level_m, &shares), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (drain_branches_level (trio, 3, &sea, -1e-9, NAN, &level_m, &shares), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (drain_branches_flow (trio, 3, &sea, INFINITY, &shares), ==, HYDRAULICS_INVALID_ARGUMENT);
  many[1].pipe.run.bore_m = NAN;
  g_assert_cmpint (drain_branches_level (many, 2, &sea, 1e-3, NAN, &level_m, &shares), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  /* What is shut is not looked at. */
  many[1].shut = true;
  g_assert_cmpfloat (level_m, ==, 7.0);
  g_assert_cmpfloat (shares.total_m3s, ==, 7.0);
  g_assert_cmpint (drain_branches_level (many, 2, &sea, 1e-3, NAN, &level_m, &shares), ==, HYDRAULICS_OK);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drain-branches/one-is-as-alone", test_one_is_as_alone);
  g_test_add_func ("/drain-branches/equal-pipes-share-alike", test_equal_pipes_share_alike);
  g_test_add_func ("/drain-branches/monotone-and-continuous", test_monotone_and_continuous);
  g_test_add_func ("/drain-branches/level-and-flow-are-inverse", test_level_and_flow_are_inverse);
  g_test_add_func ("/drain-branches/shutting-raises-the-level", test_shutting_raises_the_level);
  g_test_add_func ("/drain-branches/no-flow-rests-at-the-lowest-lip", test_no_flow_rests_at_the_lowest_lip);
  g_test_add_func ("/drain-branches/refuses", test_refuses);
  return g_test_run ();
}
