/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Library rows for Manning are held in the reference tables; here: both laws, their limits and inverses. */

#include "hydraulics/open_channel.h"
#include "hydraulics/pipe.h"

#include <glib.h>
#include <math.h>

static const OpenChannel samples[] = {
    {.bore_m = 0.0409, .slope = 0.0208, .law = OPEN_CHANNEL_MANNING, .manning_n = 0.009},
    {.bore_m = 0.0266, .slope = 1.0, .law = OPEN_CHANNEL_MANNING, .manning_n = 0.011},
    {.bore_m = 0.0525,
     .slope = 0.01,
     .law = OPEN_CHANNEL_COLEBROOK,
     .roughness_m = 1.5e-6,
     .kinematic_viscosity_m2s = 9.4e-7},
    {.bore_m = 0.0409,
     .slope = 0.02,
     .law = OPEN_CHANNEL_COLEBROOK,
     .roughness_m = 1.5e-4,
     .kinematic_viscosity_m2s = 9.4e-7},
    {.bore_m = 0.004,
     .slope = 0.001,
     .law = OPEN_CHANNEL_COLEBROOK,
     .roughness_m = 0.0,
     .kinematic_viscosity_m2s = 1.5e-6},
};

static double
flow_at (const OpenChannel *channel, double depth_ratio)
{
  double flow_m3s = NAN;

  g_assert_cmpint (open_channel_flow (channel, depth_ratio, &flow_m3s), ==, HYDRAULICS_OK);
  g_assert_true (isfinite (flow_m3s));
  return flow_m3s;
}

static void
test_monotone_up_to_the_capacity (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    double capacity_m3s = NAN, fullest = NAN, last_m3s = 0.0;
    g_assert_cmpint (open_channel_capacity (&samples[i], &capacity_m3s, &fullest), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (flow_at (&samples[i], 0.0), ==, 0.0);
    for (int n = 1; n <= 10000; n++) {
      double flow_m3s = flow_at (&samples[i], fullest * n / 10000.0);
      g_assert_cmpfloat (flow_m3s, >=, last_m3s);
      g_assert_cmpfloat (flow_m3s, <=, capacity_m3s * (1.0 + 1e-12));
      last_m3s = flow_m3s;
    }
    for (double depth = fullest; depth < 1.0; depth += 0.001)
      g_assert_cmpfloat (flow_at (&samples[i], depth), <=, capacity_m3s * (1.0 + 1e-12));
  }
}

/* A thin film is a series expansion, a deep one is not: no step where they meet (4 asin sqrt y = 0.1). */
static void
test_both_sides_of_the_film (void)
{
  double joint = sin (0.025) * sin (0.025);

  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    double below = flow_at (&samples[i], joint * (1.0 - 1e-9)),
           above = flow_at (&samples[i], joint * (1.0 + 1e-9));
    g_assert_cmpfloat_with_epsilon (above, below, 1e-8 * below);
  }
}

/* Manning, known of every circular pipe (Chow, Open-Channel Hydraulics): half full carries half; most at y/D
 * = 0.938, 1.076 times the full pipe. */
static void
test_manning_proportions (void)
{
  double capacity_m3s = NAN, fullest = NAN;
  double full_m3s = flow_at (&samples[0], 1.0);

  g_assert_cmpfloat_with_epsilon (flow_at (&samples[0], 0.5), 0.5 * full_m3s, 1e-12 * full_m3s);
  g_assert_cmpint (open_channel_capacity (&samples[0], &capacity_m3s, &fullest), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (fullest, 0.938, 0.0005);
  g_assert_cmpfloat_with_epsilon (capacity_m3s / full_m3s, 1.076, 0.0005);
}

/* Full, the part-full Colebrook law is the full pipe's: it loses its slope as head. */
static void
test_colebrook_full_is_the_pipe (void)
{
  const Fluid water = {.density_kgm3 = 1000.0, .dynamic_viscosity_pas = 9.4e-4};

  for (guint i = 2; i < 4; i++) {
    const PipeRun run = {.length_m = 1.0, .bore_m = samples[i].bore_m, .roughness_m = samples[i].roughness_m};
    PipeLoss loss;
    g_assert_cmpint (pipe_loss (&run, &water, flow_at (&samples[i], 1.0), &loss), ==, HYDRAULICS_OK);
    g_assert_cmpint (loss.regime, ==, PIPE_REGIME_TURBULENT);
    g_assert_cmpfloat_with_epsilon (loss.head_m, samples[i].slope, 1e-10);
  }
}

/* Smooth plastic: n = 0.009 is within its band (0.008 to 0.011) of what Colebrook-White says. */
static void
test_manning_n_of_plastic (void)
{
  OpenChannel manning = samples[2];
  manning.law = OPEN_CHANNEL_MANNING;
  for (double depth = 0.2; depth <= 0.9; depth += 0.1) {
    double colebrook = flow_at (&samples[2], depth);
    manning.manning_n = 0.011;
    g_assert_cmpfloat (colebrook, >, flow_at (&manning, depth));
    manning.manning_n = 0.008;
    g_assert_cmpfloat (colebrook, <, flow_at (&manning, depth));
  }
}

/* A trickle in a narrow, nearly level pipe is laminar: full, Hagen-Poiseuille, pi g S D^4 / (128 nu). */
static void
test_laminar (void)
{
  const OpenChannel *straw = &samples[4];
  double expected =
      G_PI * 9.80665 * straw->slope * pow (straw->bore_m, 4.0) / (128.0 * straw->kinematic_viscosity_m2s);

  g_assert_cmpfloat_with_epsilon (flow_at (straw, 1.0), expected, 1e-12 * expected);
}

static void
test_inverse (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    double capacity_m3s = NAN, fullest = NAN, depth = 7.0;
    g_assert_cmpint (open_channel_capacity (&samples[i], &capacity_m3s, &fullest), ==, HYDRAULICS_OK);
    for (int n = 1; n < 1000; n++) {
      double given = 0.99 * fullest * n / 1000.0;
      g_assert_cmpint (open_channel_depth (&samples[i], flow_at (&samples[i], given), &depth), ==,
                       HYDRAULICS_OK);
      g_assert_cmpfloat_with_epsilon (depth, given, 1e-11);
    }
    g_assert_cmpint (open_channel_depth (&samples[i], 0.0, &depth), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (depth, ==, 0.0);
    g_assert_cmpint (open_channel_depth (&samples[i], capacity_m3s, &depth), ==, HYDRAULICS_OK);
    depth = 7.0;
    g_assert_cmpint (open_channel_depth (&samples[i], 1.0001 * capacity_m3s, &depth), ==,
                     HYDRAULICS_NO_SOLUTION);
    g_assert_cmpfloat (depth, ==, 7.0);
  }
}

static void
test_velocity (void)
{
  double velocity_m_s = NAN;

  g_assert_cmpint (open_channel_velocity (&samples[0], 1.0, &velocity_m_s), ==, HYDRAULICS_OK);
  double area_m2 = G_PI / 4.0 * samples[0].bore_m * samples[0].bore_m;
  g_assert_cmpfloat_with_epsilon (velocity_m_s * area_m2, flow_at (&samples[0], 1.0), 1e-14);
  g_assert_cmpint (open_channel_velocity (&samples[0], 0.0, &velocity_m_s), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (velocity_m_s, ==, 0.0);
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -1e-9, 0.0};
  double value = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    for (int member = 0; member < 4; member++) {
      OpenChannel channel = samples[member < 3 ? 0 : 2];
      double *const where[] = {&channel.bore_m, &channel.slope, &channel.manning_n,
                               &channel.kinematic_viscosity_m2s};
      *where[member] = bad[i];
      g_assert_cmpint (open_channel_flow (&channel, 0.5, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
      g_assert_cmpint (open_channel_velocity (&channel, 0.5, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
      g_assert_cmpint (open_channel_depth (&channel, 1e-4, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
      g_assert_cmpint (open_channel_capacity (&channel, &value, NULL), ==, HYDRAULICS_INVALID_ARGUMENT);
    }
  }
  OpenChannel rough = samples[2];
  rough.roughness_m = 0.06 * rough.bore_m;
  g_assert_cmpint (open_channel_flow (&rough, 0.5, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (open_channel_flow (&samples[0], 1.01, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (open_channel_depth (&samples[0], -1e-9, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/open-channel/monotone-up-to-the-capacity", test_monotone_up_to_the_capacity);
  g_test_add_func ("/open-channel/both-sides-of-the-film", test_both_sides_of_the_film);
  g_test_add_func ("/open-channel/manning-proportions", test_manning_proportions);
  g_test_add_func ("/open-channel/colebrook-full-is-the-pipe", test_colebrook_full_is_the_pipe);
  g_test_add_func ("/open-channel/manning-n-of-plastic", test_manning_n_of_plastic);
  g_test_add_func ("/open-channel/laminar", test_laminar);
  g_test_add_func ("/open-channel/inverse", test_inverse);
  g_test_add_func ("/open-channel/velocity", test_velocity);
  g_test_add_func ("/open-channel/refuses", test_refuses);
  return g_test_run ();
}
