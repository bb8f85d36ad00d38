/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Curves of the pump bench: where pump and loop cross is the duty point, and speeds give the flow that was asked for. */
#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#include <math.h>

#define POINTS 101

typedef struct {
  Catalogue *catalogue;
  Design *design;
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
} Bench;

static void
bench_set_up (Bench *bench, gconstpointer data)
{
  bench->catalogue = fixture_catalogue ();
  bench->design = fixture_commit (fixture_draft ());
  bench->system = system_compile (bench->design, bench->catalogue, NULL, NULL);
  bench->workspace = workspace_new (bench->system);
  bench->evaluation = evaluation_new ();
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
}

static void
bench_tear_down (Bench *bench, gconstpointer data)
{
  evaluation_free (bench->evaluation);
  workspace_free (bench->workspace);
  system_free (bench->system);
  design_unref (bench->design);
  catalogue_unref (bench->catalogue);
}

static double
at_flow (const CurvePoint *points, unsigned n, double flow_m3s)
{
  for (unsigned i = 1; i < n; i++)
    if (points[i].flow_m3s >= flow_m3s) {
      const double share =
          (flow_m3s - points[i - 1].flow_m3s) / (points[i].flow_m3s - points[i - 1].flow_m3s);

      return points[i - 1].head_m + share * (points[i].head_m - points[i - 1].head_m);
    }
  return NAN;
}

static void
test_curves_cross_at_the_duty_point (Bench *bench, gconstpointer data)
{
  CurvePoint pump[POINTS], loop[POINTS], aged[POINTS];
  const double flow_m3s = bench->evaluation->totals.flow_m3s;

  g_assert_cmpuint (solver_curve_pump (bench->system, 0, 0.79, POINTS, pump), ==, POINTS);
  g_assert_cmpuint (
      solver_curve_loop (bench->system, bench->workspace, bench->evaluation, 0, false, 0.0012, POINTS, loop),
      ==, POINTS);
  g_assert_cmpuint (
      solver_curve_loop (bench->system, bench->workspace, bench->evaluation, 0, true, 0.0012, POINTS, aged),
      ==, POINTS);
  g_assert_cmpfloat_with_epsilon (at_flow (pump, POINTS, flow_m3s), bench->evaluation->pumps[0].head_m, 1e-3);
  g_assert_cmpfloat_with_epsilon (at_flow (loop, POINTS, flow_m3s), bench->evaluation->pumps[0].head_m, 1e-3);
  g_assert_cmpfloat_with_epsilon (loop[0].head_m, bench->evaluation->pumps[0].static_head_m, 1e-6);
  for (unsigned i = 1; i < POINTS; i++) {
    g_assert_cmpfloat (pump[i].head_m, <=, pump[i - 1].head_m);
    g_assert_cmpfloat (loop[i].head_m, >, loop[i - 1].head_m);
    g_assert_cmpfloat (aged[i].head_m, >, loop[i].head_m);
  }
}

/* Drawing curves leaves the workspace as it was: the next evaluation is the same. */
static void
test_curves_leave_no_trace (Bench *bench, gconstpointer data)
{
  CurvePoint loop[POINTS];
  const double flow_m3s = bench->evaluation->totals.flow_m3s;

  solver_curve_loop (bench->system, bench->workspace, bench->evaluation, 0, false, 0.002, POINTS, loop);
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
  g_assert_true (bench->evaluation->totals.flow_m3s == flow_m3s);
}

static void
test_drain_curve_rises (Bench *bench, gconstpointer data)
{
  CurvePoint unprimed[POINTS], primed[POINTS];

  g_assert_cmpuint (solver_curve_drain (bench->system, bench->workspace, 0, false, POINTS, unprimed), ==,
                    POINTS);
  g_assert_cmpuint (solver_curve_drain (bench->system, bench->workspace, 0, true, POINTS, primed), ==,
                    POINTS);
  g_assert_cmpuint (solver_curve_drain (bench->system, bench->workspace, 9, true, POINTS, primed), ==, 0);
  for (unsigned i = 1; i < POINTS; i++) {
    g_assert_cmpfloat (unprimed[i].flow_m3s, >=, unprimed[i - 1].flow_m3s);
    g_assert_cmpfloat (primed[i].flow_m3s, >=, unprimed[i].flow_m3s);
  }
}

static void
test_speed_for_turnover (Bench *bench, gconstpointer data)
{
  double speed = 0;

  g_assert_true (
      solver_speed_for_turnover (bench->system, bench->workspace, bench->evaluation, 0, 4.5, &speed));
  g_assert_true (system_set_pump_speed (bench->system, 0, speed));
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
  g_assert_cmpfloat_with_epsilon (bench->evaluation->totals.turnover_per_h, 4.5, 0.01);
  g_assert_false (
      solver_speed_for_turnover (bench->system, bench->workspace, bench->evaluation, 0, 40, &speed));
  g_assert_false (
      solver_speed_for_turnover (bench->system, bench->workspace, bench->evaluation, 3, 4.5, &speed));
}

static void
test_target_band (Bench *bench, gconstpointer data)
{
  double low_m3s, high_m3s;

  solver_target_band (bench->system, bench->evaluation, &low_m3s, &high_m3s);
  g_assert_cmpfloat_with_epsilon (low_m3s * 3600 / bench->evaluation->totals.display_water_m3, 4, 1e-9);
  g_assert_cmpfloat_with_epsilon (high_m3s * 3600 / bench->evaluation->totals.display_water_m3, 6, 1e-9);
}

#define ADD(path, func) g_test_add (path, Bench, NULL, bench_set_up, func, bench_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/solver/curves/cross", test_curves_cross_at_the_duty_point);
  ADD ("/solver/curves/no-trace", test_curves_leave_no_trace);
  ADD ("/solver/curves/drain", test_drain_curve_rises);
  ADD ("/solver/curves/speed", test_speed_for_turnover);
  ADD ("/solver/curves/band", test_target_band);
  return g_test_run ();
}
