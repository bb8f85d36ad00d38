/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/fitting.h"

#include <glib.h>
#include <math.h>

static void
test_every_kind_has_a_key_and_a_k (void)
{
  for (guint i = 0; i < N_FITTING_KINDS; i++) {
    FittingKind kind = N_FITTING_KINDS;
    double k = -1.0;
    g_assert_cmpint (fitting_kind_from_key (fitting_kind_key ((FittingKind) i), &kind), ==, HYDRAULICS_OK);
    g_assert_cmpuint (kind, ==, i);
    g_assert_cmpint (fitting_k (kind, 0.0266, 1.5, &k), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (k, >, 0.0);
  }
}

static void
test_turbulent_friction_falls_with_size (void)
{
  double last = 1.0, factor;

  for (guint n = 0; n < 268; n++) {
    double bore = 0.005 * pow (1.02, n);
    g_assert_cmpint (fitting_turbulent_friction (bore, &factor), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (factor, <, last);
    last = factor;
  }
  g_assert_cmpint (fitting_turbulent_friction (0.004, &factor), ==, HYDRAULICS_OUT_OF_RANGE);
}

static void
test_valves_fall_with_opening (void)
{
  for (guint i = 0; i < N_VALVE_KINDS; i++) {
    double last = INFINITY, k, open, back;
    g_assert_cmpint (valve_k ((ValveKind) i, 0.0266, 0.0, &k), ==, HYDRAULICS_OK);
    g_assert_true (isinf (k));
    for (guint n = 0; n < 900; n++) {
      double opening = 0.1 + 0.001 * n;
      g_assert_cmpint (valve_k ((ValveKind) i, 0.0266, opening, &k), ==, HYDRAULICS_OK);
      g_assert_cmpfloat (k, <, last);
      g_assert_true (isinf (last) || last < 1.2 * k); /* no jump */
      g_assert_cmpint (valve_opening_for_k ((ValveKind) i, 0.0266, k, &back), ==, HYDRAULICS_OK);
      g_assert_cmpfloat (fabs (back - opening), <, 1e-9);
      last = k;
    }
    g_assert_cmpint (valve_k ((ValveKind) i, 0.0266, 1.0, &open), ==, HYDRAULICS_OK);
    g_assert_cmpint (valve_opening_for_k ((ValveKind) i, 0.0266, 0.5 * open, &back), ==,
                     HYDRAULICS_NO_SOLUTION);
  }
}

/* Weisbach's gate valve (Perry): 2.06 at half lift, 17.0 at a quarter, above the open valve. */
static void
test_gate_has_weisbachs_values (void)
{
  double open, half, quarter;

  g_assert_cmpint (valve_k (VALVE_GATE, 0.0266, 1.0, &open), ==, HYDRAULICS_OK);
  g_assert_cmpint (valve_k (VALVE_GATE, 0.0266, 0.5, &half), ==, HYDRAULICS_OK);
  g_assert_cmpint (valve_k (VALVE_GATE, 0.0266, 0.25, &quarter), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (half - open - 2.06), <, 1e-9);
  g_assert_cmpfloat (fabs (quarter - open - 17.0), <, 1e-9);
}

static void
test_changes_of_bore_vanish_when_equal (void)
{
  double k;

  g_assert_cmpint (fitting_expansion_k (0.03, 0.03, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (k, ==, 0.0);
  g_assert_cmpint (fitting_contraction_k (0.03, 0.03, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (k, ==, 0.0);
  g_assert_cmpint (fitting_reducer_k (0.03, 0.03, 30.0, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (k, ==, 0.0);
  g_assert_cmpint (fitting_screen_k (1.0, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (k, ==, 0.0);
  /* into a very large room all of the velocity head is lost */
  g_assert_cmpint (fitting_expansion_k (0.001, 10.0, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (k - 1.0), <, 1e-7);
}

/* A whole cone of 180 degrees is the sudden change. */
static void
test_reducer_ends_in_the_sudden_change (void)
{
  double sudden, cone;

  g_assert_cmpint (fitting_contraction_k (0.05, 0.03, &sudden), ==, HYDRAULICS_OK);
  g_assert_cmpint (fitting_reducer_k (0.05, 0.03, 180.0, &cone), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (sudden - cone), <, 1e-12);
  g_assert_cmpint (fitting_expansion_k (0.03, 0.05, &sudden), ==, HYDRAULICS_OK);
  g_assert_cmpint (fitting_reducer_k (0.03, 0.05, 180.0, &cone), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (sudden - cone), <, 1e-12);
}

/* Q = C A sqrt (2 g H): with C = 1 and no contraction the nozzle is the plain exit, K = 1. */
static void
test_nozzle_of_full_bore_is_an_exit (void)
{
  double k, half;

  g_assert_cmpint (fitting_nozzle_k (0.02, 0.02, 1.0, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (k - 1.0), <, 1e-12);
  g_assert_cmpint (fitting_nozzle_k (0.01, 0.02, 1.0, &half), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (half - 16.0), <, 1e-12);
  g_assert_cmpint (fitting_k_on_bore (1.0, 0.01, 0.02, &k), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (k - half), <, 1e-12);
}

static void
test_tee_without_branch_flow_is_a_pipe (void)
{
  TeeLoss loss;

  g_assert_cmpint (tee_k (TEE_DIVERGING, 0.03, 0.03, 1e-3, 0.0, 90.0, &loss), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (loss.run_k, ==, 0.0);
  g_assert_cmpint (tee_k (TEE_CONVERGING, 0.03, 0.03, 1e-3, 0.0, 90.0, &loss), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (loss.run_k, ==, 0.0);
  g_assert_cmpint (tee_k (TEE_DIVERGING, 0.03, 0.03, 0.0, 0.0, 90.0, &loss), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (tee_k (TEE_DIVERGING, 0.03, 0.03, 1.0, 0.0, 20.0, &loss), ==, HYDRAULICS_OUT_OF_RANGE);
}

/* ISO: z = 0.5 d + 1 mm for elbows, 0.207 d + 1 mm for 45 degrees, each printed to the half millimetre. */
static void
test_metric_laying_lengths_follow_geometry (void)
{
  const double sizes[] = {20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 75.0, 90.0, 110.0};
  double length;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_assert_cmpint (fitting_laying_length (SOCKET_ISO_727_PVC_U, LAYING_ELBOW_90, sizes[i], &length), ==,
                     HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (length * 1e3 - 0.5 * sizes[i] - 1.0), <, 0.26);
    g_assert_cmpint (fitting_laying_length (SOCKET_ISO_727_PVC_U, LAYING_ELBOW_45, sizes[i], &length), ==,
                     HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (length * 1e3 - 0.207 * sizes[i] - 1.0), <, 0.36);
  }
  g_assert_cmpint (fitting_laying_length (SOCKET_ASTM_D2466_SCHEDULE_40, LAYING_ELBOW_90, 7.0, &length), ==,
                   HYDRAULICS_OUT_OF_RANGE);
}

static void
check_loss_slope (const LossCurve *curve, double flow)
{
  double step = 1e-6 * fabs (flow), low, high, middle, slope, unused;

  loss_curve_head (curve, flow - step, &low, &unused);
  loss_curve_head (curve, flow + step, &high, &unused);
  loss_curve_head (curve, flow, &middle, &slope);
  g_assert_cmpfloat (fabs ((high - low) / (2.0 * step) - slope), <=, 1e-4 * slope + 1e-6);
}

static void
test_loss_curve_is_smooth_and_odd (void)
{
  const double flows[] = {2e-4, 5e-4, 6e-4}, heads[] = {0.1, 0.5, 0.9};
  LossCurve curve;
  double head, slope, back, last = 0.0;

  for (guint count = 1; count <= 3; count++) {
    g_assert_cmpint (loss_curve_from_points (count, flows, heads, &curve), ==, HYDRAULICS_OK);
    last = 0.0;
    for (guint i = 0; i < count; i++) {
      g_assert_cmpint (loss_curve_head (&curve, flows[i], &head, &slope), ==, HYDRAULICS_OK);
      g_assert_cmpfloat (fabs (head - heads[i]), <, 1e-12);
    }
    for (guint n = 0; n < 2999; n++) {
      double flow = 1e-6 + 1e-6 * n;
      loss_curve_head (&curve, flow, &head, &slope);
      g_assert_cmpfloat (head, >, last);
      g_assert_cmpfloat (slope, >=, 0.0);
      check_loss_slope (&curve, flow);
      loss_curve_head (&curve, -flow, &back, &slope);
      g_assert_true (back == -head);
      last = head;
    }
    g_assert_cmpint (loss_curve_head (&curve, 1e-2, &head, &slope), ==, HYDRAULICS_OUT_OF_RANGE);
  }
  g_assert_cmpint (loss_curve_from_points (0, flows, heads, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (loss_curve_from_points (2, heads, flows, &curve), ==, HYDRAULICS_OK);
  g_assert_cmpint (loss_curve_from_points (2, flows, (const double[]){0.2, 0.1}, &curve), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
}

static void
test_refuses (void)
{
  double k = 42.0;

  g_assert_cmpint (fitting_expansion_k (0.05, 0.03, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (fitting_orifice_k (0.02, 0.03, 1.5, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (fitting_nozzle_k (0.04, 0.03, 0.9, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (fitting_screen_k (0.0, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (fitting_k (FITTING_BEND_90, 0.03, 0.5, &k), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (fitting_k (FITTING_USER, 0.03, NAN, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (fitting_k (FITTING_ELBOW_90, 2.0, 0.0, &k), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (valve_k_at_angle (VALVE_BALL, 91.0, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (valve_k_at_angle (VALVE_GATE, 10.0, &k), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_true (k == 42.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fitting/every-kind-has-a-key-and-a-k", test_every_kind_has_a_key_and_a_k);
  g_test_add_func ("/fitting/turbulent-friction-falls-with-size", test_turbulent_friction_falls_with_size);
  g_test_add_func ("/fitting/valves-fall-with-opening", test_valves_fall_with_opening);
  g_test_add_func ("/fitting/gate-has-weisbachs-values", test_gate_has_weisbachs_values);
  g_test_add_func ("/fitting/changes-of-bore-vanish-when-equal", test_changes_of_bore_vanish_when_equal);
  g_test_add_func ("/fitting/reducer-ends-in-the-sudden-change", test_reducer_ends_in_the_sudden_change);
  g_test_add_func ("/fitting/nozzle-of-full-bore-is-an-exit", test_nozzle_of_full_bore_is_an_exit);
  g_test_add_func ("/fitting/tee-without-branch-flow-is-a-pipe", test_tee_without_branch_flow_is_a_pipe);
  g_test_add_func ("/fitting/metric-laying-lengths-follow-geometry",
                   test_metric_laying_lengths_follow_geometry);
  g_test_add_func ("/fitting/loss-curve-is-smooth-and-odd", test_loss_curve_is_smooth_and_odd);
  g_test_add_func ("/fitting/refuses", test_refuses);
  return g_test_run ();
}
