/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Three display tanks on one sump, in their steady state and a moment after the power has failed. */
#include "design/edit.h"
#include "solver/rehearsal.h"
#include "tests/drawing/fixture.h"

/* The tank of the fixture and two more, each fed from a tee in the return run. */
static Design *
three_tanks (void)
{
  Design *design = fixture_sized (1.0);
  for (unsigned i = 0; i < 2; i++) {
    Problem problem;
    Design *more = edit_add_tank (design, "tank", EDIT_FEED_TEE, NULL, &problem);
    if (more == NULL)
      g_error ("%s: %s", problem.part, problem_text (problem.code));
    design_unref (design);
    design = more;
  }
  return design;
}

/* `after_s` seconds after the power has failed; the steady state for 0. */
static Evaluation *
moment_of (const System *system, Evaluation *steady, double after_s)
{
  const double power_off_s = 1;
  g_autoptr (Rehearser) rehearser = rehearser_new (system);
  g_autoptr (Rehearsal) rehearsal = rehearsal_new ();
  g_autoptr (RehearsalTrace) trace = rehearsal_trace_new (400);
  Evaluation *moment = evaluation_new ();
  RehearsalPlan plan;
  RehearsalFrame frame;
  rehearsal_plan_init (&plan);
  plan.power_off_s = power_off_s;
  g_assert_cmpint (rehearse (rehearser, &plan, trace, NULL, rehearsal), ==, REHEARSAL_OK);
  g_assert_true (rehearsal_trace_at (trace, power_off_s + after_s, &frame));
  rehearsal_show (system, steady, &frame, moment);
  return moment;
}

Scene *
fixture_three_view (SceneProjection projection, double after_s)
{
  g_autoptr (Design) design = three_tanks ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) steady = evaluation_new ();
  g_autoptr (Evaluation) moment = NULL;
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .projection = projection, .style = &style};
  SystemStatus status;
  int part;
  System *system = system_compile (design, catalogue, &status, &part);
  if (system == NULL)
    g_error ("%s: %d", part >= 0 ? part_key (design_part (design, (unsigned) part)) : "", (int) status);
  Workspace *workspace = workspace_new (system);
  evaluate (system, workspace, NULL, steady);
  if (after_s > 0)
    moment = moment_of (system, steady, after_s);
  workspace_free (workspace);
  system_free (system);
  return scene_build (design, catalogue, moment != NULL ? moment : steady, &options);
}
