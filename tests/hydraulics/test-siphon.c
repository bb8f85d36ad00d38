/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/siphon.h"

#include <glib.h>
#include <math.h>

static const Fluid sea = {.density_kgm3 = 1023.3, .dynamic_viscosity_pas = 0.000959};
static const DrainPipe siphon = {
    0.60, 0.0266, 0.02, {.length_m = 0.9, .bore_m = 0.0266, .roughness_m = 1.5e-6, .k = 2.5}, 1.0};

/* With the loss that the valve is asked for, the full pipe carries just the wanted flow at the wanted level.
 * */
static void
test_valve_holds_the_level (void)
{
  for (double flow_m3s = 0.05e-3; flow_m3s < 0.9e-3; flow_m3s *= 1.2) {
    DrainPipe throttled = siphon;
    double k = NAN, carried_m3s = NAN;
    DrainRegime regime;
    g_assert_cmpint (siphon_valve_coefficient (&siphon, &sea, 0.66, flow_m3s, &k), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (k, >, 0.0);
    throttled.run.k += k;
    g_assert_cmpint (drain_flow (&throttled, &sea, TRUE, 0.66, &carried_m3s, &regime), ==, HYDRAULICS_OK);
    g_assert_cmpint (regime, ==, DRAIN_FULL);
    g_assert_cmpfloat_with_epsilon (carried_m3s, flow_m3s, 1e-10 * flow_m3s);
  }
}

static void
test_valve_opening (void)
{
  double last = 0.0, opening = 7.0;

  for (double flow_m3s = 0.1e-3; flow_m3s < 0.8e-3; flow_m3s *= 1.1) {
    double k = NAN, k_wanted = NAN;
    g_assert_cmpint (siphon_valve_opening (&siphon, &sea, 0.66, flow_m3s, VALVE_GATE, &opening), ==,
                     HYDRAULICS_OK);
    g_assert_cmpfloat (opening, >, last);
    g_assert_cmpfloat (opening, <, 1.0);
    g_assert_cmpint (siphon_valve_coefficient (&siphon, &sea, 0.66, flow_m3s, &k_wanted), ==, HYDRAULICS_OK);
    g_assert_cmpint (valve_k (VALVE_GATE, siphon.run.bore_m, opening, &k), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (k, k_wanted, 1e-6 * k_wanted);
    last = opening;
  }
  opening = 7.0;
  g_assert_cmpint (siphon_valve_opening (&siphon, &sea, 0.66, 2e-3, VALVE_GATE, &opening), ==,
                   HYDRAULICS_NO_SOLUTION);
  g_assert_cmpfloat (opening, ==, 7.0);
}

/* At rest the pressure is the depth. A free end without an exit loss has none at all: the whole fall is spent
 * on friction and on the velocity that leaves. A valve low down stands under pressure, one at the top may not. */
static void
test_pressure_head (void)
{
  DrainPipe pipe = siphon;
  double head_m = NAN, flow_m3s = NAN;

  g_assert_cmpint (siphon_pressure_head (&pipe.run, &sea, 0.66, 0.1, 0.0, &head_m), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (head_m, 0.56, 1e-12);
  g_assert_cmpint (pipe_flow_at_loss (&pipe.run, &sea, 0.64, &flow_m3s), ==, HYDRAULICS_OK);
  pipe.run.k -= 1.0;
  g_assert_cmpint (siphon_pressure_head (&pipe.run, &sea, 0.66, 0.02, flow_m3s, &head_m), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (head_m, 0.0, 1e-9);
  /* Half way down an open siphon the pipe sucks. */
  pipe.run.length_m *= 0.5;
  g_assert_cmpint (siphon_pressure_head (&pipe.run, &sea, 0.66, 0.34, flow_m3s, &head_m), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (head_m, <, 0.0);
  head_m = 7.0;
  g_assert_cmpint (siphon_pressure_head (&pipe.run, &sea, NAN, 0.3, 0.0, &head_m), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (siphon_pressure_head (&pipe.run, &sea, 0.6, 0.3, -1.0, &head_m), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (head_m, ==, 7.0);
}

static void
test_mouth_cover (void)
{
  double cover_m = NAN, flow_m3s = NAN;

  /* Fr = 1.6 needs one diameter, Fr = 0.4 half of one. */
  g_assert_cmpint (siphon_mouth_flow (0.04, 0.04, &flow_m3s), ==, HYDRAULICS_OK);
  g_assert_cmpint (siphon_mouth_cover (0.04, 0.25 * flow_m3s, &cover_m), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (cover_m, 0.02, 1e-14);
  for (double given_m = 1e-4; given_m < 1.0; given_m *= 1.3) {
    g_assert_cmpint (siphon_mouth_flow (0.04, given_m, &flow_m3s), ==, HYDRAULICS_OK);
    g_assert_cmpint (siphon_mouth_cover (0.04, flow_m3s, &cover_m), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (cover_m, given_m, 1e-13 * given_m);
  }
}

static void
test_starting (void)
{
  SiphonStart start = {.bore_m = 0.04,
                       .starting_flow_m3s = 1.0e-3,
                       .crown_level_m = 0.60,
                       .spill_level_m = 0.70,
                       .outlet_level_m = -0.02,
                       .sump_level_at_rest_m = 0.06};
  SiphonStarting starting;

  /* 1 L/s in 40 mm is 0.796 m/s; sqrt(g D) is 0.626 m/s: Fr = 1.27. 80 mm of water over the outlet, 100 mm
   * to push. */
  g_assert_cmpint (siphon_starting (&start, &starting), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (starting.froude, 1.270, 0.001);
  g_assert_true (starting.clears_air && starting.may_start);
  g_assert_cmpfloat_with_epsilon (starting.outlet_depth_m, 0.08, 1e-12);
  g_assert_cmpfloat_with_epsilon (starting.margin_m, 0.02, 1e-12);
  start.sump_level_at_rest_m = 0.09;
  start.starting_flow_m3s = 0.7e-3;
  g_assert_cmpint (siphon_starting (&start, &starting), ==, HYDRAULICS_OK);
  g_assert_false (starting.clears_air || starting.may_start);
  g_assert_cmpfloat_with_epsilon (starting.margin_m, -0.01, 1e-12);
  /* An outlet in the air holds nothing back. */
  start.outlet_level_m = 0.2;
  g_assert_cmpint (siphon_starting (&start, &starting), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (starting.outlet_depth_m, ==, 0.0);
  g_assert_true (starting.may_start);
}

/* An inch on 35 inches is 1.4 % of the flow, and that is what the full pipe itself says. */
static void
test_tolerated_drift (void)
{
  double share = NAN, below = NAN, above = NAN;

  g_assert_cmpint (siphon_tolerated_drift (35.0, 1.0, &share), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (share, 0.0143, 0.0001);
  DrainPipe throttled = siphon;
  throttled.run.k = 40.0;
  g_assert_cmpint (siphon_tolerated_drift (0.68, 0.002, &share), ==, HYDRAULICS_OK);
  g_assert_cmpint (drain_flow (&throttled, &sea, TRUE, 0.699, &below, NULL), ==, HYDRAULICS_OK);
  g_assert_cmpint (drain_flow (&throttled, &sea, TRUE, 0.701, &above, NULL), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (2.0 * (above - below) / (above + below), share, 0.02 * share);
}

static void
test_screen (void)
{
  SiphonScreen screen = {.area_m2 = 0.006, .open_fraction = 0.4};
  double clean = NAN, half = NAN, double_area = NAN, value = 7.0;

  g_assert_cmpint (siphon_screen_coefficient (&screen, 0.04, &clean), ==, HYDRAULICS_OK);
  screen.blocked_share = 0.5;
  g_assert_cmpint (siphon_screen_coefficient (&screen, 0.04, &half), ==, HYDRAULICS_OK);
  /* Half the holes, more than four times the loss: the jets are faster and less is won back. */
  g_assert_cmpfloat (half, >, 4.0 * clean);
  screen.area_m2 *= 2.0;
  g_assert_cmpint (siphon_screen_coefficient (&screen, 0.04, &double_area), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (double_area, 0.25 * half, 1e-12 * half);
  screen.blocked_share = 1.0;
  g_assert_cmpint (siphon_screen_coefficient (&screen, 0.04, &value), ==, HYDRAULICS_NO_SOLUTION);
  screen.blocked_share = 1.1;
  g_assert_cmpint (siphon_screen_coefficient (&screen, 0.04, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, 7.0);
}

static const HangOverBox hang_over = {
    .tube = {0.50, 0.0254, 0.48, {.length_m = 0.5, .bore_m = 0.0254, .roughness_m = 1.5e-6, .k = 2.0}},
    .n_tubes = 2,
    .crown_level_m = 0.70,
    .inner_rest_level_m = 0.56,
    .outer_rest_level_m = 0.54};

static void
test_hang_over (void)
{
  HangOverState one, two;
  HangOverBox box = hang_over;
  PipeLoss loss;

  g_assert_cmpint (hang_over_state (&box, &sea, 0.8e-3, 0.57, &two), ==, HYDRAULICS_OK);
  g_assert_cmpint (pipe_loss (&box.tube.run, &sea, 0.4e-3, &loss), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (two.level_difference_m, loss.head_m, 1e-12);
  g_assert_cmpfloat_with_epsilon (two.inner_level_m, 0.57 + loss.head_m, 1e-12);
  g_assert_cmpfloat_with_epsilon (two.crown_suction_m, 0.70 - two.inner_level_m, 1e-12);
  /* At rest both chambers come to the lower lip, 40 mm over the higher end. */
  g_assert_true (two.keeps_prime_at_rest);
  g_assert_cmpfloat_with_epsilon (two.rest_cover_m, 0.04, 1e-12);
  box.n_tubes = 1;
  g_assert_cmpint (hang_over_state (&box, &sea, 0.4e-3, 0.57, &one), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (one.level_difference_m, two.level_difference_m, 1e-12);
  g_assert_cmpfloat_with_epsilon (one.froude, two.froude, 1e-12);
  /* An outer lip below the tube's end lets the water out at rest, and the prime with it. */
  box.outer_rest_level_m = 0.49;
  g_assert_cmpint (hang_over_state (&box, &sea, 0.4e-3, 0.57, &one), ==, HYDRAULICS_OK);
  g_assert_false (one.keeps_prime_at_rest);
}

static void
test_hang_over_without_siphon (void)
{
  HangOverState state = {.froude = 7.0};

  /* Too much flow lifts the inner surface over the crown; too low an outer surface uncovers an end. */
  g_assert_cmpint (hang_over_state (&hang_over, &sea, 3e-3, 0.57, &state), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (hang_over_state (&hang_over, &sea, 0.4e-3, 0.47, &state), ==, HYDRAULICS_NO_SOLUTION);
  HangOverBox box = hang_over;
  box.n_tubes = 0;
  g_assert_cmpint (hang_over_state (&box, &sea, 0.4e-3, 0.57, &state), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (hang_over_state (&hang_over, &sea, NAN, 0.57, &state), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (hang_over_state (&hang_over, &sea, 1e-4, INFINITY, &state), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (state.froude, ==, 7.0);
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -1e-9};
  SiphonStarting starting = {.froude = 7.0};
  double value = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    const SiphonStart start = {.bore_m = bad[i]};
    g_assert_cmpint (siphon_starting (&start, &starting), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (siphon_mouth_cover (bad[i], 1e-4, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (siphon_mouth_flow (0.04, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (siphon_tolerated_drift (bad[i], 0.01, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (siphon_tolerated_drift (0.9, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (siphon_valve_coefficient (&siphon, &sea, 0.66, bad[i], &value), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
  }
  g_assert_cmpint (siphon_valve_coefficient (&siphon, &sea, NAN, 1e-4, &value), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (siphon_valve_coefficient (&siphon, &sea, 0.66, 0.0, &value), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (siphon_valve_coefficient (&siphon, &sea, 0.66, 5e-3, &value), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpfloat (value, ==, 7.0);
  g_assert_cmpfloat (starting.froude, ==, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/siphon/valve-holds-the-level", test_valve_holds_the_level);
  g_test_add_func ("/siphon/valve-opening", test_valve_opening);
  g_test_add_func ("/siphon/pressure-head", test_pressure_head);
  g_test_add_func ("/siphon/mouth-cover", test_mouth_cover);
  g_test_add_func ("/siphon/starting", test_starting);
  g_test_add_func ("/siphon/tolerated-drift", test_tolerated_drift);
  g_test_add_func ("/siphon/screen", test_screen);
  g_test_add_func ("/siphon/hang-over", test_hang_over);
  g_test_add_func ("/siphon/hang-over-without-siphon", test_hang_over_without_siphon);
  g_test_add_func ("/siphon/refuses", test_refuses);
  return g_test_run ();
}
