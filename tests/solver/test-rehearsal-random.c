/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals of random designs: whatever a draft admits and a failure applies to is played to its end, with every drop
 * accounted for, events in the order of time, and levels that are numbers. */
#include "design/catalogue.h"
#include "solver/model.h"
#include "solver/scenario.h"
#include "tests/solver/fixture.h"
#include "tests/solver/random-design.h"

#define DESIGNS      200
#define DESIGNS_LONG 10000
#define BUDGET       1e-9

static void
check_rehearsal (const Rehearsal *rehearsal, const RehearsalPlan *plan)
{
  double spilled_m3 = 0;

  g_assert_cmpfloat (rehearsal->water_error, <=, BUDGET);
  g_assert_cmpfloat (rehearsal->end_s, >=, 0);
  g_assert_cmpfloat (rehearsal->end_s, <=, plan->horizon_s);
  g_assert_true (isnan (rehearsal->rest_s) || rehearsal->rest_s <= rehearsal->end_s);
  for (unsigned i = 1; i < rehearsal->n_events; i++)
    g_assert_cmpfloat (rehearsal->events[i].time_s, >=, rehearsal->events[i - 1].time_s);
  for (unsigned i = 0; i < rehearsal->n_spills; i++)
    spilled_m3 += rehearsal->spills[i].m3;
  g_assert_cmpfloat_with_epsilon (spilled_m3, rehearsal->spilled_m3, 1e-12);
  for (unsigned i = 0; i < rehearsal->n_vessels; i++) {
    const RehearsalVessel *vessel = &rehearsal->vessels[i];

    g_assert_true (isfinite (vessel->start_z) && isfinite (vessel->end_z));
    g_assert_cmpfloat (vessel->peak_z, >=, vessel->end_z - 1e-9);
    g_assert_cmpfloat (vessel->peak_z, >=, vessel->start_z - 1e-9);
    g_assert_cmpfloat (vessel->lowest_z, <=, vessel->end_z + 1e-9);
  }
}

typedef struct {
  Evaluation *evaluation;
  Rehearsal *rehearsal;
  unsigned played, most_steps, unsettled, dry, spilt;
} Trials;

static void
play_one (System *system, const Evaluation *evaluation, Rehearser *rehearser, FailureId failure,
          unsigned trial, Trials *trials)
{
  RehearsalPlan plan;

  rehearsal_plan_init (&plan);
  failure_set_up (system, evaluation, failure, NULL, &plan);
  plan.edge = (int) (trial % 3) - 1;
  rehearse (rehearser, &plan, NULL, NULL, trials->rehearsal);
  if (trials->rehearsal->status != REHEARSAL_OK)
    g_error ("design %u, %s: %s at %g s after %u steps", trial, failure_word (failure),
             rehearsal_status_text (trials->rehearsal->status), trials->rehearsal->end_s,
             trials->rehearsal->n_steps);
  check_rehearsal (trials->rehearsal, &plan);
  trials->played++;
  trials->most_steps = MAX (trials->most_steps, trials->rehearsal->n_steps);
  trials->unsettled += isnan (trials->rehearsal->rest_s) && !(plan.evaporation_m3s > 0);
  trials->spilt += trials->rehearsal->spilled_m3 > 1e-6;
}

static void
test_random (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  const unsigned n = g_test_slow () ? DESIGNS_LONG : DESIGNS;
  Trials trials = {.evaluation = evaluation_new (), .rehearsal = rehearsal_new ()};

  for (unsigned i = 0; i < n; i++) {
    g_autoptr (Design) base = random_base (i);
    g_autoptr (Design) design = random_design (base, i % 2 == 0 ? 0.05 : 0.4);
    System *system = system_compile (design, catalogue, NULL, NULL);
    Workspace *workspace = workspace_new (system);
    g_autoptr (Rehearser) rehearser = rehearser_new (system);
    const FailureId failure = (FailureId) g_test_rand_int_range (0, N_FAILURES);

    evaluate (system, workspace, NULL, trials.evaluation);
    if (failure_applies (system, trials.evaluation, failure, NULL) == FAILURE_APPLIES)
      play_one (system, trials.evaluation, rehearser, failure, i, &trials);
    workspace_free (workspace);
    system_free (system);
  }
  g_test_message ("%u played, %u spilt, %u never at rest, %u steps at most", trials.played, trials.spilt,
                  trials.unsettled, trials.most_steps);
  g_assert_cmpuint (trials.played, >, n / 4);
  evaluation_free (trials.evaluation);
  rehearsal_free (trials.rehearsal);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal/random", test_random);
  return g_test_run ();
}
