/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/pump.h"

#include <glib.h>
#include <math.h>

static const double flows[] = {0.0, 4e-4, 8e-4, 1.2e-3, 1.4e-3}, heads[] = {3.0, 2.8, 2.2, 1.2, 0.5};
static const Fluid water = {998.2, 1.002e-3};

static PumpCurve
curve_by_points (void)
{
  PumpCurve curve;

  g_assert_cmpint (pump_curve_from_points (G_N_ELEMENTS (flows), flows, heads, &curve), ==, HYDRAULICS_OK);
  return curve;
}

static PumpCurve
curve_by_law (void)
{
  PumpCurve curve;

  g_assert_cmpint (pump_curve_from_three_points ((const double[]){0.0, 8e-4, 1.4e-3},
                                                 (const double[]){3.0, 2.2, 0.5}, &curve),
                   ==, HYDRAULICS_OK);
  return curve;
}

static PumpHead
head_of (const PumpCurve *curve, double speed, double flow)
{
  PumpHead head;
  HydraulicsStatus status = pump_head (curve, speed, 1.0, flow, &head);

  g_assert_true (status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE);
  return head;
}

static void
test_curves_pass_through_their_points (void)
{
  PumpCurve points = curve_by_points (), law = curve_by_law ();

  for (guint i = 0; i < G_N_ELEMENTS (flows); i++)
    g_assert_cmpfloat (fabs (head_of (&points, 1.0, flows[i]).head_m - heads[i]), <, 1e-12);
  g_assert_cmpfloat (fabs (head_of (&law, 1.0, 0.0).head_m - 3.0), <, 1e-12);
  g_assert_cmpfloat (fabs (head_of (&law, 1.0, 8e-4).head_m - 2.2), <, 1e-12);
  g_assert_cmpfloat (fabs (head_of (&law, 1.0, 1.4e-3).head_m - 0.5), <, 1e-12);
}

/* scipy 1.10.1, PchipInterpolator (flows, heads): value and derivative between the points. */
static void
test_points_agree_with_scipy (void)
{
  PumpCurve curve = curve_by_points ();
  const double expected[][3] = {{2e-4, 2.9375, -562.5},
                                {6e-4, 2.55625, -1593.75},
                                {1e-3, 1.7548349056603771, -2538.3254716981155},
                                {1.3e-3, 0.8715408805031447, -3548.742138364778}};

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++) {
    PumpHead head = head_of (&curve, 1.0, expected[i][0]);
    g_assert_cmpfloat (fabs (head.head_m - expected[i][1]), <, 1e-9);
    g_assert_cmpfloat (fabs (head.slope_sm2 - expected[i][2]), <, 1e-6);
  }
}

static void
check_curve (const PumpCurve *curve, double speed)
{
  double last = INFINITY;

  for (guint n = 0; n < 8220; n++) {
    double flow = -2e-3 + 7.3e-7 * n;
    double step = 1e-9;
    PumpHead head = head_of (curve, speed, flow);
    double slope = (head_of (curve, speed, flow + step).head_m - head_of (curve, speed, flow - step).head_m) /
                   (2.0 * step);
    g_assert_cmpfloat (head.head_m, <=, last);
    /* at the end of a curve by points the tangent may turn: there the mean of both sides is seen */
    g_assert_cmpfloat (fabs (slope - head.slope_sm2), <=, 1e-3 * fabs (head.slope_sm2) + 0.5);
    last = head.head_m;
  }
}

static void
test_head_falls_smoothly (void)
{
  const double speeds[] = {0.0, 0.3, 0.77, 1.0, 1.2};
  PumpCurve points = curve_by_points (), law = curve_by_law (), estimate;

  g_assert_cmpint (pump_curve_estimate (3.0, 1.5e-3, &estimate), ==, HYDRAULICS_OK);
  g_assert_cmpint (estimate.kind, ==, PUMP_CURVE_ESTIMATE);
  for (guint i = 0; i < G_N_ELEMENTS (speeds); i++) {
    check_curve (&points, speeds[i]);
    check_curve (&law, speeds[i]);
    check_curve (&estimate, speeds[i]);
  }
}

static void
test_range_is_told (void)
{
  PumpCurve curve = curve_by_points ();
  PumpHead head;

  g_assert_cmpint (head_of (&curve, 1.0, 1e-3).range, ==, PUMP_ON_CURVE);
  g_assert_cmpint (head_of (&curve, 1.0, 1.5e-3).range, ==, PUMP_BEYOND_CURVE);
  g_assert_cmpint (head_of (&curve, 0.5, 1e-3).range, ==, PUMP_BEYOND_CURVE);
  g_assert_cmpint (head_of (&curve, 1.0, -1e-3).range, ==, PUMP_BELOW_CURVE);
  g_assert_cmpint (pump_head (&curve, 0.2, 1.0, 1e-4, &head), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (pump_head (&curve, 1.3, 1.0, 1e-4, &head), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (pump_head (&curve, -0.5, 1.0, 1e-4, &head), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_head (&curve, 1.0, 0.0, 1e-4, &head), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static void
test_flow_at_head_comes_back (void)
{
  PumpCurve curve = curve_by_points ();
  double flow;

  for (guint n = 0; n < 199; n++) {
    double wanted = 1e-5 + 1e-5 * n;
    PumpHead head;
    g_assert_cmpint (pump_head (&curve, 0.9, 1.1, wanted, &head), ==, HYDRAULICS_OK);
    g_assert_cmpint (pump_flow_at_head (&curve, 0.9, 1.1, head.head_m, &flow), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (flow - wanted), <, 1e-9);
  }
  g_assert_cmpint (pump_flow_at_head (&curve, 1.0, 1.0, 3.1, &flow), ==, HYDRAULICS_NO_SOLUTION);
}

/* A parabola H = A (1 - x^2), x = q / Q_end, off by t: in head t A (1 - x^2), in flow A (1 - (x / t)^2). The two are equal
 * at x^2 = (t - 1) / (t - 1 / t^2): below it the head decides, above it the flow, for a strong pump and for a weak one. */
static void
test_tolerance_is_of_head_or_flow (void)
{
  const double a = 3.2, end = 0.0016, speed = 0.8, edges[] = {0.85, 0.95, 1.05, 1.15};
  PumpCurve curve;

  g_assert_cmpint (pump_curve_estimate (a, end, &curve), ==, HYDRAULICS_OK);
  for (guint i = 0; i < G_N_ELEMENTS (edges); i++) {
    const double t = edges[i], turn = sqrt ((t - 1) / (t - 1 / (t * t)));

    for (double x = 0; x < 1.3; x += 0.0137) {
      const double wanted = x < turn ? t * a * (1 - x * x) : a * (1 - x * x / (t * t));
      PumpHead head, plain, back;

      g_assert_cmpint (pump_head (&curve, speed, t, x * end * speed, &head), ==, HYDRAULICS_OK);
      pump_head (&curve, speed, 1, x * end * speed, &plain);
      g_assert_cmpfloat_with_epsilon (head.head_m, speed * speed * wanted, 1e-12);
      g_assert_true (t > 1 ? head.head_m > plain.head_m : head.head_m < plain.head_m);
      g_assert_cmpint (head.range, ==, x > t ? PUMP_BEYOND_CURVE : PUMP_ON_CURVE);
      pump_head (&curve, speed, t, -x * end * speed, &back);
      g_assert_cmpfloat_with_epsilon (back.head_m, 2 * t * a * speed * speed - head.head_m, 1e-12);
    }
  }
}

static void
test_bad_curves_are_refused (void)
{
  PumpCurve curve;
  const double rising[] = {3.0, 3.2, 2.0}, flat[] = {3.0, 3.0, 3.0}, x[] = {0.0, 1e-3, 2e-3},
               twice[] = {0.0, 1e-3, 1e-3}, falling[] = {3.0, 2.0, 1.0};

  g_assert_cmpint (pump_curve_from_points (3, x, rising, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_curve_from_points (3, x, flat, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_curve_from_points (3, twice, falling, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_curve_from_points (1, x, falling, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_curve_from_points (PUMP_POINTS_MAX + 1, x, falling, &curve), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_curve_from_power_law (3.0, -1.0, 2.0, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_curve_from_three_points (x, (const double[]){3.0, 2.999999, 0.0}, &curve), ==,
                   HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (pump_curve_estimate (0.0, 1.0, &curve), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static PumpLoop
usual_loop (void)
{
  return (PumpLoop){{2.5, 0.0266, 1.5e-6, 5.0}, water, 1.2};
}

/* Two equal pumps in series are one pump of twice the head; in parallel against a lossless lift, twice the flow. */
static void
test_many_pumps_are_one (void)
{
  PumpUnit units[2] = {{curve_by_points (), 1.0, 1.0}, {curve_by_points (), 1.0, 1.0}},
           doubled = {curve_by_points (), 1.0, 2.0};
  PumpLoop loop = usual_loop (), wide = {{0.1, 0.5, 0.0, 0.0}, water, 1.2};
  OperatingPoint one, many;

  g_assert_cmpint (pump_operating_point (&doubled, &loop, &one), ==, HYDRAULICS_OK);
  g_assert_cmpint (pumps_in_series_operating_point (2, units, &loop, &many), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (one.flow_m3s - many.flow_m3s), <, 1e-12);
  g_assert_cmpint (pump_operating_point (units, &wide, &one), ==, HYDRAULICS_OK);
  g_assert_cmpint (pumps_in_parallel_operating_point (2, units, &wide, &many), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (2.0 * one.flow_m3s / many.flow_m3s - 1.0), <, 1e-6);
  g_assert_cmpint (pumps_in_parallel_operating_point (1, units, &loop, &many), ==, HYDRAULICS_OK);
  g_assert_cmpint (pump_operating_point (units, &loop, &one), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (one.flow_m3s - many.flow_m3s), <, 1e-11);
}

static void
test_operating_point_balances (void)
{
  PumpUnit pump = {curve_by_points (), 1.0, 1.0};
  PumpLoop loop = usual_loop ();
  double last = INFINITY;

  for (loop.static_head_m = -1.0; loop.static_head_m < 3.0; loop.static_head_m += 0.01) {
    OperatingPoint point;
    PipeLoss loss;
    g_assert_cmpint (pump_operating_point (&pump, &loop, &point), ==, HYDRAULICS_OK);
    g_assert_cmpint (pipe_loss (&loop.pipe, &loop.fluid, point.flow_m3s, &loss), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (point.head_m - loop.static_head_m - loss.head_m), <, 1e-9);
    g_assert_cmpfloat (point.flow_m3s, <, last);
    last = point.flow_m3s;
  }
  OperatingPoint point;
  loop.static_head_m = 3.01;
  g_assert_cmpint (pump_operating_point (&pump, &loop, &point), ==, HYDRAULICS_NO_SOLUTION);
}

static void
test_speed_for_flow_comes_back (void)
{
  PumpCurve curve = curve_by_points ();
  PumpLoop loop = usual_loop ();
  double speed;

  for (guint n = 0; n < 70; n++) {
    double flow = 2e-4 + 1e-5 * n;
    OperatingPoint point;
    g_assert_cmpint (pump_speed_for_flow (&curve, 1.0, &loop, flow, &speed), ==, HYDRAULICS_OK);
    PumpUnit pump = {curve, speed, 1.0};
    g_assert_cmpint (pump_operating_point (&pump, &loop, &point), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (point.flow_m3s - flow), <, 1e-10);
  }
  g_assert_cmpint (pump_speed_for_flow (&curve, 1.0, &loop, 3e-3, &speed), ==, HYDRAULICS_OUT_OF_RANGE);
}

/* Affinity: the point (Q, H) at full speed becomes (r Q, r^2 H), hydraulic power r^3. */
static void
test_affinity_is_in_the_head (void)
{
  PumpCurve curve = curve_by_law ();

  for (guint n = 0; n < 18; n++) {
    double speed = 0.3 + 0.05 * n;
    double flow, head, power, rated;
    PumpHead full = head_of (&curve, 1.0, 1e-3);
    g_assert_cmpint (pump_affinity_flow (1e-3, speed, &flow), ==, HYDRAULICS_OK);
    g_assert_cmpint (pump_affinity_head (full.head_m, speed, &head), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (head_of (&curve, speed, flow).head_m - head), <, 1e-12);
    g_assert_cmpint (pump_hydraulic_power (1e-3, full.head_m, 1000.0, &rated), ==, HYDRAULICS_OK);
    g_assert_cmpint (pump_affinity_power (rated, speed, &power), ==, HYDRAULICS_OK);
    g_assert_cmpint (pump_hydraulic_power (flow, head, 1000.0, &rated), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (rated / power - 1.0), <, 1e-12);
  }
}

static void
test_power_and_cover (void)
{
  double value;

  g_assert_cmpint (pump_shaft_power (1e-3, 2.0, 1000.0, 0.5, &value), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (value - 2.0 * 19.6133), <, 1e-9);
  g_assert_cmpint (pump_shaft_power (1e-3, 2.0, 1000.0, 1.1, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pump_efficiency_estimate (100.0, &value), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (value - 0.325), <, 1e-12);
  /* ANSI/HI 9.8: D = 0.05 m, V = 1 m/s, Fr = 1.4281, S = 0.05 (1 + 2.3 Fr) = 0.2142 m */
  g_assert_cmpint (pump_suction_cover (1.9634954e-3, 0.05, &value), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (value - 0.2142), <, 1e-4);
  g_assert_cmpint (pump_suction_cover (0.0, 0.05, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pump/curves-pass-through-their-points", test_curves_pass_through_their_points);
  g_test_add_func ("/pump/points-agree-with-scipy", test_points_agree_with_scipy);
  g_test_add_func ("/pump/head-falls-smoothly", test_head_falls_smoothly);
  g_test_add_func ("/pump/range-is-told", test_range_is_told);
  g_test_add_func ("/pump/flow-at-head-comes-back", test_flow_at_head_comes_back);
  g_test_add_func ("/pump/tolerance-is-of-head-or-flow", test_tolerance_is_of_head_or_flow);
  g_test_add_func ("/pump/bad-curves-are-refused", test_bad_curves_are_refused);
  g_test_add_func ("/pump/many-pumps-are-one", test_many_pumps_are_one);
  g_test_add_func ("/pump/operating-point-balances", test_operating_point_balances);
  g_test_add_func ("/pump/speed-for-flow-comes-back", test_speed_for_flow_comes_back);
  g_test_add_func ("/pump/affinity-is-in-the-head", test_affinity_is_in_the_head);
  g_test_add_func ("/pump/power-and-cover", test_power_and_cover);
  return g_test_run ();
}
