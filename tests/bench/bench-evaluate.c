/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* A whole steady evaluation of one design: compiling it, evaluating it, and evaluating it again after its pump was set to
 * another speed. Prints microseconds, the least of several rounds. */

#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#define ROUNDS  7
#define REPEATS 200

typedef struct {
  Design *design;
  Catalogue *catalogue;
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
} Bench;

static void
compile_once (Bench *bench, unsigned repeat)
{
  System *system = system_compile (bench->design, bench->catalogue, NULL, NULL);

  system_free (system);
}

static void
evaluate_once (Bench *bench, unsigned repeat)
{
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
}

static void
evaluate_moved (Bench *bench, unsigned repeat)
{
  system_set_pump_speed (bench->system, 0, 0.79 + 0.0001 * (repeat % 10));
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
}

static double
least_us (Bench *bench, void (*work) (Bench *, unsigned))
{
  double least = G_MAXDOUBLE;

  for (unsigned round = 0; round < ROUNDS; round++) {
    const gint64 start = g_get_monotonic_time ();

    for (unsigned i = 0; i < REPEATS; i++)
      work (bench, i);
    least = MIN (least, (double) (g_get_monotonic_time () - start) / REPEATS);
  }
  return least;
}

int
main (void)
{
  Bench bench = {.design = fixture_commit (fixture_draft ()), .catalogue = fixture_catalogue ()};

  bench.system = system_compile (bench.design, bench.catalogue, NULL, NULL);
  bench.workspace = workspace_new (bench.system);
  bench.evaluation = evaluation_new ();
  g_print ("compile a design            %8.1f us\n", least_us (&bench, compile_once));
  g_print ("evaluate                    %8.1f us\n", least_us (&bench, evaluate_once));
  g_print ("evaluate, speed moved       %8.1f us\n", least_us (&bench, evaluate_moved));
  evaluation_free (bench.evaluation);
  workspace_free (bench.workspace);
  system_free (bench.system);
  catalogue_unref (bench.catalogue);
  design_unref (bench.design);
  return 0;
}
