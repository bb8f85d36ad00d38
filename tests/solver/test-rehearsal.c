/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals of the sound system. */
#include "solver/rehearsal.h"

#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#include <math.h>

static void
show (const Rehearsal *rehearsal, const System *system)
{
  const Design *design = system_design (system);

  g_test_message ("status %d end %.3f rest %.3f spilled %.6f drained %.6f error %g steps %u rejected %u",
                  (int) rehearsal->status, rehearsal->end_s, rehearsal->rest_s, rehearsal->spilled_m3,
                  rehearsal->drained_m3, rehearsal->water_error, rehearsal->n_steps, rehearsal->n_rejected);
  for (unsigned i = 0; i < rehearsal->n_events; i++) {
    const RehearsalEvent *event = &rehearsal->events[i];

    g_test_message ("%10.3f %-18s %-12s %.5f", event->time_s, rehearsal_event_word (event->kind),
                    event->part >= 0 ? part_key (design_part (design, (unsigned) event->part)) : "",
                    event->level_z);
  }
  for (unsigned i = 0; i < rehearsal->n_vessels; i++) {
    const RehearsalVessel *vessel = &rehearsal->vessels[i];

    g_test_message ("%-12s start %.5f end %.5f peak %.5f at %.2f lowest %.5f at %.2f freeboard %.5f",
                    part_key (design_part (design, (unsigned) vessel->part)), vessel->start_z, vessel->end_z,
                    vessel->peak_z, vessel->peak_s, vessel->lowest_z, vessel->lowest_s,
                    vessel->least_freeboard_m);
  }
}

static void
test_power_cut (void)
{
  System *system = fixture_compile (fixture_draft ());
  Workspace *workspace = workspace_new (system);
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Rehearser) rehearser = rehearser_new (system);
  g_autoptr (Rehearsal) rehearsal = rehearsal_new ();
  g_autoptr (RehearsalTrace) trace = rehearsal_trace_new (400);
  RehearsalPlan plan;

  evaluate (system, workspace, NULL, evaluation);
  rehearsal_plan_init (&plan);
  plan.power_off_s = 0;
  g_assert_cmpint (rehearse (rehearser, &plan, trace, NULL, rehearsal), ==, REHEARSAL_OK);
  show (rehearsal, system);
  /* The steady solver counts the same water; a rehearsal stops 0.1 % before its end. */
  g_assert_cmpfloat_with_epsilon (rehearsal->drained_m3, evaluation->drain_back.total_m3,
                                  0.005 * evaluation->drain_back.total_m3);
  g_assert_cmpfloat (rehearsal->water_error, <, 1e-9);
  g_assert_cmpfloat (rehearsal->spilled_m3, <=, 0);
  g_assert_nonnull (rehearsal_event (rehearsal, REHEARSAL_OUTLET_AIR, fixture_part ("outlet")));
  g_test_message ("static %.6f: %.6f", evaluation->drain_back.total_m3, evaluation->drain_back.highest_z);
  g_test_message ("frames %u", rehearsal_trace_n_frames (trace));
  workspace_free (workspace);
  system_free (system);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal/power-cut", test_power_cut);
  return g_test_run ();
}
