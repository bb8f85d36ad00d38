/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* A power cut to rest, and all scenarios, of the sound design; and the power cut by GSL's stiff integrator on the same
 * equations, at the tolerance at which its last level is as near to a fine solution as ours. Prints milliseconds, the least
 * of several rounds. */

#include "design/catalogue.h"
#include "solver/scenario.h"
#include "tests/solver/fixture.h"
#include "tests/solver/rehearsal-by-gsl.h"

#include <math.h>

#define ROUNDS 15

typedef struct {
  System *system;
  Evaluation *evaluation;
  Rehearser *rehearser;
  Rehearsal *rehearsal;
  RehearsalPlan plan;
  double tolerance;
} Bench;

static void
play_power_cut (Bench *bench)
{
  rehearse (bench->rehearser, &bench->plan, NULL, NULL, bench->rehearsal);
}

static void
play_by_gsl (Bench *bench)
{
  if (!rehearse_by_gsl (bench->rehearser, &bench->plan, bench->tolerance, G_MAXDOUBLE, bench->rehearsal))
    g_print ("GSL gave up\n");
}

static void
play_all (Bench *bench)
{
  for (unsigned i = 0; i < N_FAILURES; i++) {
    RehearsalPlan plan;

    rehearsal_plan_init (&plan);
    if (failure_applies (bench->system, bench->evaluation, (FailureId) i, NULL) != FAILURE_APPLIES)
      continue;
    failure_set_up (bench->system, bench->evaluation, (FailureId) i, NULL, &plan);
    rehearse (bench->rehearser, &plan, NULL, NULL, bench->rehearsal);
  }
}

static double
least_ms (Bench *bench, void (*work) (Bench *))
{
  double least = G_MAXDOUBLE;

  for (unsigned round = 0; round < ROUNDS; round++) {
    const gint64 start = g_get_monotonic_time ();

    work (bench);
    least = MIN (least, (double) (g_get_monotonic_time () - start) / 1000);
  }
  return least;
}

/* Largest difference of a vessel's peak or lowest level, m. */
static double
off_by (const Rehearsal *a, const Rehearsal *b)
{
  double off_m = 0;

  for (unsigned i = 0; i < a->n_vessels; i++)
    off_m = fmax (off_m, fmax (fabs (a->vessels[i].peak_z - b->vessels[i].peak_z),
                               fabs (a->vessels[i].lowest_z - b->vessels[i].lowest_z)));
  return off_m;
}

int
main (void)
{
  g_autoptr (Design) design = fixture_commit (fixture_draft ());
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  Bench bench = {.system = system_compile (design, catalogue, NULL, NULL),
                 .evaluation = evaluation_new (),
                 .rehearsal = rehearsal_new ()};
  Workspace *workspace = workspace_new (bench.system);
  g_autoptr (Rehearsal) fine = rehearsal_new ();
  double ours_ms, ours_m, theirs_ms;

  evaluate (bench.system, workspace, NULL, bench.evaluation);
  bench.rehearser = rehearser_new (bench.system);
  rehearsal_plan_init (&bench.plan);
  failure_set_up (bench.system, bench.evaluation, FAILURE_POWER_CUT, NULL, &bench.plan);
  rehearse_by_gsl (bench.rehearser, &bench.plan, 1e-4, 0.1, fine);
  ours_ms = least_ms (&bench, play_power_cut);
  ours_m = off_by (bench.rehearsal, fine);
  g_print ("power cut to rest    %8.3f ms, %u steps, off by %.2g mm\n", ours_ms, bench.rehearsal->n_steps,
           1000 * ours_m);
  for (bench.tolerance = 10; bench.tolerance > 1e-3; bench.tolerance /= 10) {
    theirs_ms = least_ms (&bench, play_by_gsl);
    g_print ("  GSL msbdf          %8.3f ms, %u steps, off by %.2g mm: %.1f times as long\n", theirs_ms,
             bench.rehearsal->n_steps, 1000 * off_by (bench.rehearsal, fine), theirs_ms / ours_ms);
  }
  g_print ("all scenarios        %8.3f ms\n", least_ms (&bench, play_all));
  rehearser_free (bench.rehearser);
  rehearsal_free (bench.rehearsal);
  evaluation_free (bench.evaluation);
  workspace_free (workspace);
  system_free (bench.system);
  return 0;
}
