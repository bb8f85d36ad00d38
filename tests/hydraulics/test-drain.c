/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* One pipe and several: level and flow are each other's inverse, and no regime begins with a jump. */

#include "hydraulics/drain.h"

#include <glib.h>
#include <math.h>

enum { N_POINTS = 10000 };

/* Sea water at 25 degC, 35 g/kg, and fresh water at 5 degC, rounded. */
static const Fluid sea = {.density_kgm3 = 1023.3, .dynamic_viscosity_pas = 0.000959};
static const Fluid cold = {.density_kgm3 = 1000.0, .dynamic_viscosity_pas = 0.00152};

/* Short and open; throttled; drowned end above the lip; aged and long; a funnel; a straw; a culvert. */
static const DrainPipe samples[] = {
    {0.75, 0.04089, 0.0, {.length_m = 1.2, .bore_m = 0.04089, .roughness_m = 1.5e-6, .k = 2.8}, 1.0},
    {0.75, 0.04089, 0.0, {.length_m = 1.2, .bore_m = 0.04089, .roughness_m = 1.5e-6, .k = 150.0}, 1.0},
    {0.10, 0.02664, 0.12, {.length_m = 0.4, .bore_m = 0.02664, .roughness_m = 1.5e-6, .k = 2.0}, 1.0},
    {1.50, 0.0525, -0.5, {.length_m = 9.0, .bore_m = 0.0525, .roughness_m = 1.5e-4, .k = 9.0}, 1.0},
    {0.80, 0.08, 0.0, {.length_m = 1.0, .bore_m = 0.0350, .roughness_m = 0.0, .k = 3.0}, 1.0},
    {0.30, 0.005, 0.0, {.length_m = 0.5, .bore_m = 0.005, .roughness_m = 0.0, .k = 1.5}, 1.0},
    {3.00, 1.0, 0.0, {.length_m = 20.0, .bore_m = 1.0, .roughness_m = 1e-3, .k = 1.8}, 1.0},
};

static double
flow_at (const DrainPipe *pipe, bool primed, double level_m, DrainRegime *ret_regime)
{
  double flow_m3s = NAN;

  g_assert_cmpint (drain_flow (pipe, &sea, primed, level_m, &flow_m3s, ret_regime), ==, HYDRAULICS_OK);
  g_assert_true (isfinite (flow_m3s) && flow_m3s >= 0.0);
  return flow_m3s;
}

static double
level_for (const DrainPipe *pipe, bool primed, double flow_m3s, DrainRegime *ret_regime)
{
  double level_m = NAN;

  g_assert_cmpint (drain_level (pipe, &sea, primed, flow_m3s, &level_m, ret_regime), ==, HYDRAULICS_OK);
  g_assert_true (isfinite (level_m));
  return level_m;
}

/* The level never falls as the flow grows. A millionth more flow moves it by less than a ten-thousandth of
 * the head over the lip; full bore by two millionths of the whole fall, which is what h ~ Q^2 says. */
static void
assert_step (const DrainPipe *pipe, bool primed, double flow_m3s)
{
  double level_m = level_for (pipe, primed, flow_m3s, NULL);
  double step_m = level_for (pipe, primed, flow_m3s * (1.0 + 1e-6), NULL) - level_m;
  double lip_m = level_m - pipe->mouth_level_m;

  g_assert_cmpfloat (step_m, >=, 0.0);
  g_assert_cmpfloat (step_m, <, fmax (1e-4 * lip_m, 2.1e-6 * (level_m - pipe->end_level_m)) + 1e-15);
}

static double
sample_flow (const DrainPipe *pipe, int n)
{
  double largest_m3s = 30.0 * pipe->run.bore_m * pipe->run.bore_m;

  return largest_m3s * pow (1e-7, 1.0 - (double) n / N_POINTS);
}

static void
test_monotone_and_continuous (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    for (int primed = 0; primed < 2; primed++) {
      double last_m = -INFINITY;
      for (int n = 0; n < N_POINTS; n++) {
        double flow_m3s = sample_flow (&samples[i], n);
        double level_m = level_for (&samples[i], primed, flow_m3s, NULL);
        g_assert_cmpfloat (level_m, >=, last_m);
        assert_step (&samples[i], primed, flow_m3s);
        last_m = level_m;
      }
    }
  }
}

/* Every pair of neighbouring points in different regimes is narrowed down to the joint; then both sides are
 * compared. */
static void
test_both_sides_of_each_joint (void)
{
  guint joints = 0;

  for (guint i = 0; i < 2 * G_N_ELEMENTS (samples); i++) {
    const DrainPipe *pipe = &samples[i / 2];
    bool primed = i % 2 == 1;
    for (int n = 0; n < N_POINTS; n++) {
      double low = sample_flow (pipe, n), high = sample_flow (pipe, n + 1);
      DrainRegime below, above, middle;
      level_for (pipe, primed, low, &below);
      level_for (pipe, primed, high, &above);
      if (below == above)
        continue;
      joints++;
      while (high / low > 1.0 + 1e-14) {
        level_for (pipe, primed, 0.5 * (low + high), &middle);
        *(middle == below ? &low : &high) = 0.5 * (low + high);
      }
      assert_step (pipe, primed, low * (1.0 - 5e-7));
      double level_m = level_for (pipe, primed, low, NULL);
      g_assert_cmpfloat (flow_at (pipe, primed, level_m - 1e-9, NULL), <=, low);
      g_assert_cmpfloat (flow_at (pipe, primed, level_m + 1e-9, NULL), >=, low);
    }
  }
  g_assert_cmpuint (joints, >=, 16); /* weir to orifice, orifice or weir to full, cover to full */
}

static void
test_inverse (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    for (int n = 0; n < 2000; n++) {
      double flow_m3s = sample_flow (&samples[i], n * 5);
      bool primed = n % 2 == 1;
      DrainRegime there, back;
      double level_m = level_for (&samples[i], primed, flow_m3s, &there);
      /* Levels are doubles of some metres: that much of the head over the lip is lost. */
      double digits_m = 1e-15 * (1.0 + fabs (level_m));
      double head_m = level_m - samples[i].mouth_level_m;
      if (there == DRAIN_FULL)
        head_m = level_m - samples[i].end_level_m;
      double doubt = 1e-10 + 4.0 * digits_m / head_m;
      g_assert_cmpfloat_with_epsilon (flow_at (&samples[i], primed, level_m, &back), flow_m3s,
                                      doubt * flow_m3s);
    }
  }
}

/* The lip by hand: a 40 mm standpipe under 10 mm is a weir of 0.414 x 4.4287 x 0.12566 m x 0.001 m^1.5 =
 * 0.2304 L/s; under 50 mm an orifice of 0.60 x 12.566 cm2 x 0.9903 m/s = 0.7467 L/s. EPA SWMM Reference
 * Manual vol. II. */
static void
test_lip (void)
{
  double flow_m3s = NAN, head_m = NAN;

  g_assert_cmpint (drain_lip_flow (0.04, 0.010, &flow_m3s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (flow_m3s, 0.2304e-3, 0.0001e-3);
  g_assert_cmpint (drain_lip_flow (0.04, 0.050, &flow_m3s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (flow_m3s, 0.7467e-3, 0.0001e-3);
  g_assert_cmpfloat_with_epsilon (DRAIN_LIP_JOINT, 0.362, 0.0005);
  for (int n = 0; n < N_POINTS; n++) {
    double given_m = 1e-6 * pow (1e6, (double) n / N_POINTS);
    g_assert_cmpint (drain_lip_flow (0.04, given_m, &flow_m3s), ==, HYDRAULICS_OK);
    g_assert_cmpint (drain_lip_head (0.04, flow_m3s, &head_m), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (head_m, given_m, 1e-12 * given_m);
  }
}

/* Froude's similarity: ten times the size, 10^2.5 times the flow. */
static void
test_lip_similarity (void)
{
  const double heads_m[] = {0.001, 0.0144, 0.0145, 0.1};

  for (guint i = 0; i < G_N_ELEMENTS (heads_m); i++) {
    double small = NAN, large = NAN;
    g_assert_cmpint (drain_lip_flow (0.04, heads_m[i], &small), ==, HYDRAULICS_OK);
    g_assert_cmpint (drain_lip_flow (0.4, 10.0 * heads_m[i], &large), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (large, small * pow (10.0, 2.5), 1e-12 * large);
  }
}

static void
test_regimes (void)
{
  DrainRegime regime;

  g_assert_cmpfloat (flow_at (&samples[0], FALSE, 0.75, &regime), ==, 0.0);
  g_assert_cmpint (regime, ==, DRAIN_DRY);
  g_assert_cmpfloat (flow_at (&samples[0], TRUE, 0.70, &regime), ==, 0.0);
  g_assert_cmpint (regime, ==, DRAIN_DRY);
  flow_at (&samples[0], FALSE, 0.76, &regime);
  g_assert_cmpint (regime, ==, DRAIN_LIP_WEIR);
  flow_at (&samples[0], FALSE, 0.80, &regime);
  g_assert_cmpint (regime, ==, DRAIN_ORIFICE);
  flow_at (&samples[1], FALSE, 0.80, &regime);
  g_assert_cmpint (regime, ==, DRAIN_FULL);
  flow_at (&samples[0], TRUE, 0.76, &regime);
  g_assert_cmpint (regime, ==, DRAIN_GULPING);
  flow_at (&samples[0], TRUE, 0.90, &regime);
  g_assert_cmpint (regime, ==, DRAIN_FULL);
  /* Its end drowned above the lip: water stands over the lip and nothing drives it. */
  g_assert_cmpfloat (flow_at (&samples[2], FALSE, 0.115, &regime), ==, 0.0);
  g_assert_cmpint (regime, ==, DRAIN_FULL);
  g_assert_cmpfloat (level_for (&samples[2], FALSE, 0.0, &regime), ==, 0.12);
  g_assert_cmpint (regime, ==, DRAIN_DRY);
}

/* Neither question's answer passes what a full pipe can carry, and turbulent cold water never runs faster
 * than warm. */
static void
test_full_bore_is_the_ceiling (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    for (int n = 0; n < 500; n++) {
      double over_m = 1e-4 * pow (1e5, n / 500.0), ceiling_m3s = NAN, in_cold_m3s = NAN;
      double level_m = fmax (samples[i].mouth_level_m, samples[i].end_level_m) + over_m;
      g_assert_cmpint (
          pipe_flow_at_loss (&samples[i].run, &sea, level_m - samples[i].end_level_m, &ceiling_m3s), ==,
          HYDRAULICS_OK);
      for (int primed = 0; primed < 2; primed++) {
        double flow_m3s = flow_at (&samples[i], primed, level_m, NULL);
        g_assert_cmpfloat (flow_m3s, <=, ceiling_m3s * (1.0 + 1e-12));
        g_assert_cmpint (drain_flow (&samples[i], &cold, primed, level_m, &in_cold_m3s, NULL), ==,
                         HYDRAULICS_OK);
        /* Cold water may still be laminar where warm water is already turbulent, and then runs faster. */
        PipeLoss loss;
        g_assert_cmpint (pipe_loss (&samples[i].run, &cold, in_cold_m3s, &loss), ==, HYDRAULICS_OK);
        if (loss.regime == PIPE_REGIME_TURBULENT)
          g_assert_cmpfloat (in_cold_m3s, <=, flow_m3s * (1.0 + 1e-12));
      }
    }
  }
}

static void
test_priming_level (void)
{
  double level_m = NAN;

  g_assert_cmpint (drain_priming_level (&samples[0], &level_m), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (level_m, 0.75 + 1.5 * 0.04089, 1e-12);
}

static void
assert_refused (DrainPipe pipe, HydraulicsStatus expected)
{
  double value = 7.0;
  DrainRegime regime = DRAIN_REGIME_COUNT;

  g_assert_cmpint (drain_flow (&pipe, &sea, FALSE, 0.9, &value, &regime), ==, expected);
  g_assert_cmpint (drain_level (&pipe, &sea, TRUE, 1e-4, &value, &regime), ==, expected);
  g_assert_cmpfloat (value, ==, 7.0);
  g_assert_cmpint (regime, ==, DRAIN_REGIME_COUNT);
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -INFINITY};
  double value = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    for (int member = 0; member < 7; member++) {
      DrainPipe pipe = samples[0];
      double *const where[] = {&pipe.mouth_level_m, &pipe.mouth_diameter_m, &pipe.end_level_m,
                               &pipe.run.length_m,  &pipe.run.bore_m,       &pipe.run.roughness_m,
                               &pipe.run.k};
      *where[member] = bad[i];
      assert_refused (pipe, HYDRAULICS_INVALID_ARGUMENT);
    }
    g_assert_cmpint (drain_flow (&samples[0], &sea, FALSE, bad[i], &value, NULL), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (drain_level (&samples[0], &sea, FALSE, bad[i], &value, NULL), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (drain_lip_flow (0.04, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (drain_lip_head (bad[i], 1e-4, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  }
  DrainPipe rough = samples[0];
  rough.run.roughness_m = 0.06 * rough.run.bore_m;
  assert_refused (rough, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, ==, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drain/monotone-and-continuous", test_monotone_and_continuous);
  g_test_add_func ("/drain/both-sides-of-each-joint", test_both_sides_of_each_joint);
  g_test_add_func ("/drain/inverse", test_inverse);
  g_test_add_func ("/drain/lip", test_lip);
  g_test_add_func ("/drain/lip-similarity", test_lip_similarity);
  g_test_add_func ("/drain/regimes", test_regimes);
  g_test_add_func ("/drain/full-bore-is-the-ceiling", test_full_bore_is_the_ceiling);
  g_test_add_func ("/drain/priming-level", test_priming_level);
  g_test_add_func ("/drain/refuses", test_refuses);
  return g_test_run ();
}
