/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals against the same equations integrated by the GNU Scientific Library: what rises, and when what happens. */
#include "design/catalogue.h"
#include "solver/scenario.h"
#include "tests/solver/fixture.h"
#include "tests/solver/rehearsal-by-gsl.h"

#include <math.h>

/* Peaks to 0.1 % of what rises, no less than 0.02 mm; times to 0.1 % or 0.05 s. */
#define PEAK_SHARE 1e-3
#define PEAK_M     2e-5
#define TIME_SHARE 1e-3
#define TIME_S     0.05

static void
compare_events (const Rehearsal *ours, const Rehearsal *theirs)
{
  g_assert_cmpuint (ours->n_events, >=, theirs->n_events);
  for (unsigned i = 0; i < theirs->n_events; i++) {
    const RehearsalEvent *b = &theirs->events[i];
    double off_s = INFINITY;

    for (unsigned k = 0; k < ours->n_events; k++)
      if (ours->events[k].kind == b->kind && ours->events[k].part == b->part)
        off_s = fmin (off_s, fabs (ours->events[k].time_s - b->time_s));
    if (!(off_s <= fmax (TIME_S, TIME_SHARE * b->time_s)))
      g_error ("%s of part %d at %g s is off by %g s", rehearsal_event_word (b->kind), b->part, b->time_s,
               off_s);
  }
}

static void
compare_vessels (const Rehearsal *ours, const Rehearsal *theirs)
{
  for (unsigned i = 0; i < ours->n_vessels; i++) {
    const RehearsalVessel *a = &ours->vessels[i], *b = &theirs->vessels[i];

    g_assert_cmpfloat_with_epsilon (a->peak_z, b->peak_z,
                                    fmax (PEAK_M, PEAK_SHARE * (b->peak_z - b->start_z)));
    g_assert_cmpfloat_with_epsilon (a->lowest_z, b->lowest_z,
                                    fmax (PEAK_M, PEAK_SHARE * (b->start_z - b->lowest_z)));
  }
}

static void
compare (Draft *draft, const FailureId *failures, unsigned n)
{
  System *system = fixture_compile (draft);
  Workspace *workspace = workspace_new (system);
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Rehearser) rehearser = rehearser_new (system);
  g_autoptr (Rehearsal) ours = rehearsal_new ();
  g_autoptr (Rehearsal) theirs = rehearsal_new ();
  FailureOptions options;

  failure_options_init (&options);
  options.power_off_s = 120;
  options.block_s = 60;
  evaluate (system, workspace, NULL, evaluation);
  for (unsigned i = 0; i < n; i++) {
    RehearsalPlan plan;

    g_assert_cmpint (failure_applies (system, evaluation, failures[i], &options), ==, FAILURE_APPLIES);
    rehearsal_plan_init (&plan);
    failure_set_up (system, evaluation, failures[i], &options, &plan);
    g_assert_cmpint (rehearse (rehearser, &plan, NULL, NULL, ours), ==, REHEARSAL_OK);
    g_assert_true (rehearse_by_gsl (rehearser, &plan, 1e-2, 0.5, theirs));
    g_test_message ("%s: %u of our steps, %u of theirs, %u events", failure_word (failures[i]), ours->n_steps,
                    theirs->n_steps, theirs->n_events);
    compare_events (ours, theirs);
    compare_vessels (ours, theirs);
    g_assert_cmpfloat_with_epsilon (ours->spilled_m3, theirs->spilled_m3,
                                    1e-5 + PEAK_SHARE * theirs->spilled_m3);
  }
  workspace_free (workspace);
  system_free (system);
}

static void
test_sound (void)
{
  const FailureId failures[] = {FAILURE_POWER_CUT, FAILURE_POWER_RETURNS, FAILURE_DRAIN_BLOCKED,
                                FAILURE_SIPHON_AND_TRICKLE};

  compare (fixture_draft (), failures, G_N_ELEMENTS (failures));
}

/* A small sump that a power cut floods. */
static void
test_flood (void)
{
  const FailureId failures[] = {FAILURE_POWER_CUT, FAILURE_DRAIN_CLOGS, FAILURE_TOP_OFF_STUCK};
  Draft *draft = fixture_draft ();

  must_set (draft, "sump", FIELD_SUMP_HEIGHT, 0.31);
  must_set (draft, "outlet", FIELD_OUTLET_BREAK, 0);
  compare (draft, failures, G_N_ELEMENTS (failures));
}

static void
test_two_tanks (void)
{
  const FailureId failures[] = {FAILURE_POWER_CUT, FAILURE_DRAIN_BLOCKED};
  Draft *draft = fixture_draft ();

  fixture_add_second_tank (draft);
  compare (draft, failures, G_N_ELEMENTS (failures));
}

static void
test_two_overflows (void)
{
  const FailureId failures[] = {FAILURE_POWER_CUT, FAILURE_SIPHON_FAILS};
  Draft *draft = fixture_draft ();

  fixture_add_second_overflow (draft);
  compare (draft, failures, G_N_ELEMENTS (failures));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal-gsl/sound", test_sound);
  g_test_add_func ("/rehearsal-gsl/flood", test_flood);
  g_test_add_func ("/rehearsal-gsl/two-tanks", test_two_tanks);
  g_test_add_func ("/rehearsal-gsl/two-overflows", test_two_overflows);
  return g_test_run ();
}
