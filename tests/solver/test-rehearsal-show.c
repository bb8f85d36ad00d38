/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A moment of a rehearsal in the shape of an evaluation: at the beginning it is the steady state, later water runs back. */
#include "solver/rehearsal.h"

#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#include <math.h>

static void
test_power_cut (void)
{
  System *system = fixture_compile (fixture_draft ());
  Workspace *workspace = workspace_new (system);
  g_autoptr (Evaluation) steady = evaluation_new ();
  g_autoptr (Evaluation) moment = evaluation_new ();
  g_autoptr (Rehearser) rehearser = rehearser_new (system);
  g_autoptr (Rehearsal) rehearsal = rehearsal_new ();
  g_autoptr (RehearsalTrace) trace = rehearsal_trace_new (400);
  RehearsalPlan plan;
  RehearsalFrame frame;
  double sent_back = 0;

  evaluate (system, workspace, NULL, steady);
  rehearsal_plan_init (&plan);
  plan.edge = 0;
  plan.power_off_s = 1;
  g_assert_cmpint (rehearse (rehearser, &plan, trace, NULL, rehearsal), ==, REHEARSAL_OK);

  /* Before the power fails: the steady state, to the tolerance of levels (0.1 mm is not seen) and 1 % of flow. */
  g_assert_true (rehearsal_trace_at (trace, 0, &frame));
  rehearsal_show (system, steady, &frame, moment);
  for (unsigned i = 0; i < steady->n_vessels; i++)
    g_assert_cmpfloat_with_epsilon (moment->vessels[i].running_z, steady->vessels[i].running_z, 1e-4);
  for (unsigned i = 0; i < steady->n_runs; i++)
    g_assert_cmpfloat_with_epsilon (moment->runs[i].velocity_ms, steady->runs[i].velocity_ms,
                                    0.01 * steady->runs[i].velocity_ms);
  for (unsigned i = 0; i < steady->n_drains; i++)
    g_assert_cmpint (moment->drains[i].primed, ==, steady->drains[i].primed);
  g_assert_cmpuint (moment->n_findings, ==, 0);

  /* The siphon back through the outlet shows as water that goes the other way. */
  for (double t = 1; t < rehearsal->end_s; t += 0.5) {
    g_assert_true (rehearsal_trace_at (trace, t, &frame));
    rehearsal_show (system, steady, &frame, moment);
    for (unsigned i = 0; i < moment->n_runs; i++)
      sent_back = fmin (sent_back, moment->runs[i].velocity_ms);
  }
  g_assert_cmpfloat (sent_back, <, -0.05);

  /* At the end nothing moves that a reader would see. */
  g_assert_true (rehearsal_trace_at (trace, rehearsal->end_s, &frame));
  rehearsal_show (system, steady, &frame, moment);
  for (unsigned i = 0; i < moment->n_runs; i++)
    g_assert_cmpfloat (fabs (moment->runs[i].velocity_ms), <, 0.02);
  for (unsigned i = 0; i < moment->n_vessels; i++)
    g_assert_cmpfloat_with_epsilon (moment->vessels[i].running_z, rehearsal->vessels[i].end_z, 1e-6);
  workspace_free (workspace);
  system_free (system);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal-show/power-cut", test_power_cut);
  return g_test_run ();
}
