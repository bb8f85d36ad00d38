/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Whole steady evaluations: of the demo design, beside GSL's multiroot solver (Powell's hybrid method with its own scaling)
 * on the same coupled equations in the same run; of a design as large as an evaluation holds; and what is built on
 * evaluations, the comparison of pumps and the proposal. Prints nanoseconds of one processor, the least of several rounds, and judges
 * nothing but that both solvers mean the same water. */

#include <time.h>

#include "design/catalogue.h"
#include "files/catalogue-file.h"
#include "files/document.h"
#include "solver/band.h"
#include "solver/compare.h"
#include "solver/proposal.h"
#include "tests/solver/fixture.h"

#ifdef HAVE_GSL
#include <gsl/gsl_errno.h>

#include "tests/bench/steady-gsl.h"
#else
#include "solver/model.h"
#endif

#define ROUNDS      15
#define ROUND_NS    1e7 /* at least, by repeating */
#define AGREED      1e-6
#define WIDE_DRAINS 3

typedef struct {
  Design *design;
  Catalogue *catalogue;
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  ProposalRequest request;
#ifdef HAVE_GSL
  SteadyGsl *steady;
#endif
} Bench;

typedef void (*Work) (Bench *bench, unsigned turn);

/* Of the processor, so that what else a machine does counts less. */
static double
now_ns (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return 1e9 * (double) now.tv_sec + (double) now.tv_nsec;
}

static double
least_ns (Bench *bench, Work work)
{
  double least = G_MAXDOUBLE;

  for (unsigned round = 0; round < ROUNDS; round++) {
    const double start = now_ns ();
    double taken = 0;
    unsigned turns = 0;

    for (; taken < ROUND_NS; taken = now_ns () - start)
      work (bench, turns++);
    least = MIN (least, taken / turns);
  }
  return least;
}

static void
print_row (const char *what, double ns, double reference_ns)
{
  if (reference_ns > 0)
    g_print ("%-58s %12.0f %12.0f %8.4f\n", what, ns, reference_ns, ns / reference_ns);
  else
    g_print ("%-58s %12.0f %12s %8s\n", what, ns, "-", "-");
}

static void
compile_once (Bench *bench, unsigned turn)
{
  system_free (system_compile (bench->design, bench->catalogue, NULL, NULL));
}

static void
states_once (Bench *bench, unsigned turn)
{
  solve_states (bench->system, bench->workspace);
}

static void
evaluate_once (Bench *bench, unsigned turn)
{
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
}

/* As while a person drags: the bands keep their widths. */
static void
evaluate_held (Bench *bench, unsigned turn)
{
  Workspace *next = workspace_new (bench->system);

  workspace_hold_bands (next, bench->workspace);
  workspace_free (bench->workspace);
  bench->workspace = next;
  evaluate_once (bench, turn);
}

static void
evaluate_moved (Bench *bench, unsigned turn)
{
  system_set_pump_speed (bench->system, 0, 0.85 + 0.0001 * (turn % 10));
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
}

static void
evaluate_afresh (Bench *bench, unsigned turn)
{
  evaluate_design (bench->design, bench->catalogue, NULL, bench->evaluation, NULL, NULL);
}

static void
compare_once (Bench *bench, unsigned turn)
{
  static CompareRow rows[COMPARE_MOST];

  compare_pumps (bench->design, bench->catalogue, rows, COMPARE_MOST);
}

static void
propose_once (Bench *bench, unsigned turn)
{
  ProposalLimit limit;
  Design *design = proposal_make (&bench->request, bench->catalogue, &limit);

  g_clear_pointer (&design, design_unref);
}

#ifdef HAVE_GSL
/* The four states in the order of an evaluation: fast, at full speed from it, slow, likely from full speed. */
static double
solve_by_gsl (const Bench *bench, unsigned *ret_iterations)
{
  const PumpModel *pump = &bench->system->pumps[0];
  const Workspace *workspace = bench->workspace;
  const SteadyRule rules[] = {{1 + pump->tolerance, pump->speed, false, true, &workspace->fast},
                              {1 + pump->tolerance, 1, false, false, &workspace->full_speed},
                              {1 - pump->tolerance, pump->speed, true, true, &workspace->slow},
                              {1, pump->speed, false, true, &workspace->running}};
  double difference = 0;

  for (unsigned i = 0; i < G_N_ELEMENTS (rules); i++) {
    const unsigned iterations = steady_gsl_solve (bench->steady, &rules[i], i == 0);

    difference = MAX (difference, steady_gsl_difference (bench->steady));
    if (ret_iterations != NULL)
      *ret_iterations += iterations;
    if (iterations == 0)
      return G_MAXDOUBLE;
  }
  return difference;
}

static void
gsl_once (Bench *bench, unsigned turn)
{
  solve_by_gsl (bench, NULL);
}

/* Time of the four states by GSL; 0 where it does not find them, or other water. */
static double
gsl_ns (Bench *bench)
{
  unsigned iterations = 0;
  double difference;

  gsl_set_error_handler_off ();
  bench->steady = steady_gsl_new (bench->system);
  difference = solve_by_gsl (bench, &iterations);
  g_print ("GSL: %u unknowns, %u iterations for four states, largest difference %.1e\n",
           steady_gsl_n_unknowns (bench->steady), iterations, difference);
  return difference < AGREED ? least_ns (bench, gsl_once) : 0;
}
#endif

static void
bench_open (Bench *bench, Design *design)
{
  bench->design = design;
  bench->system = system_compile (design, bench->catalogue, NULL, NULL);
  g_assert_nonnull (bench->system);
  bench->workspace = workspace_new (bench->system);
  evaluate_once (bench, 0);
}

static void
bench_close (Bench *bench)
{
#ifdef HAVE_GSL
  g_clear_pointer (&bench->steady, steady_gsl_free);
#endif
  workspace_free (bench->workspace);
  system_free (bench->system);
  design_unref (bench->design);
}

static Design *
demo_design (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  Project *project = document_load (file, NULL, &error);
  Design *design;

  if (project == NULL)
    g_error ("%s", error->message);
  design = design_ref (project_design (project, 0));
  project_unref (project);
  return design;
}

/* As many overflows as an evaluation holds, each with three drains. Drowned: mouths above the crest. */
static Design *
wide_design (bool drowned)
{
  Draft *draft = fixture_draft ();

  for (unsigned i = 1; i < EVALUATION_OVERFLOWS_MAX; i++) {
    g_autofree char *overflow = g_strdup_printf ("overflow-%u", i);

    must_add (draft, PART_OVERFLOW, overflow, NULL, "display");
    must_set (draft, overflow, FIELD_OVERFLOW_CREST, 0.545 + 0.0001 * i);
    for (unsigned k = 0; k < WIDE_DRAINS; k++) {
      g_autofree char *drain = g_strdup_printf ("drain-%u-%u", i, k);

      must_add (draft, PART_DRAIN, drain, NULL, overflow);
      must_set (draft, drain, FIELD_DRAIN_ROLE, (double[]){DRAIN_SIPHON, DRAIN_TRICKLE, DRAIN_EMERGENCY}[k]);
      if (drowned)
        must_set (draft, drain, FIELD_DRAIN_MOUTH, 0.55);
    }
  }
  return fixture_commit (draft);
}

/* An evaluation without bands, with their widths held, and in full. */
static void
print_bands (Bench *bench, const char *name, double reference_ns)
{
  static const struct {
    const char *what;
    Work work;
    bool bands;
  } rows[] = {{"without bands", evaluate_once, false},
              {"with bands", evaluate_once, true},
              {"with bands as they were", evaluate_held, true}};

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *what = g_strdup_printf ("%s: %s", name, rows[i].what);

    workspace_set_bands (bench->workspace, rows[i].bands);
    print_row (what, least_ns (bench, rows[i].work), i == 0 ? reference_ns : 0);
  }
}

static bool
bench_demo (Bench *bench, const char *path)
{
  double reference_ns = 0;
  bool agreed = true;

  bench_open (bench, demo_design (path));
#ifdef HAVE_GSL
  reference_ns = gsl_ns (bench);
  agreed = reference_ns > 0;
#else
  g_print ("built without GSL: no ratios\n");
#endif
  g_print ("\n%-58s %12s %12s %8s\n", "", "ns", "GSL ns", "ratio");
  print_row ("demo: its four steady states", least_ns (bench, states_once), reference_ns);
  print_row ("demo: with bands, after its speed moved", least_ns (bench, evaluate_moved), 0);
  print_bands (bench, "demo, GSL: the four states alone", reference_ns);
  print_row ("demo: compile", least_ns (bench, compile_once), 0);
  print_row ("demo: compile, evaluate, free", least_ns (bench, evaluate_afresh), 0);
  print_row ("demo: compare all pumps of the catalogue", least_ns (bench, compare_once), 0);
  bench_close (bench);
  return agreed;
}

static void
bench_wide (Bench *bench, bool drowned)
{
  bench_open (bench, wide_design (drowned));
  print_bands (bench, drowned ? "16 overflows, 48 drains, drowned" : "16 overflows, 48 drains, free", 0);
  bench_close (bench);
}

int
main (int argc, char **argv)
{
  Bench bench = {.evaluation = evaluation_new (),
                 .request = {.tank_m = {1.5, 0.6, 0.6}, .stand_m = {1.4, 0.55, 0.75}}};
  bool agreed;

  if (argc != 2) {
    g_printerr ("usage: bench-evaluate DOCUMENT\n");
    return 2;
  }
  bench.catalogue = catalogue_built_in ();
  agreed = bench_demo (&bench, argv[1]);
  print_row ("proposal for a tank of 1.5 x 0.6 x 0.6 m", least_ns (&bench, propose_once), 0);
  catalogue_unref (bench.catalogue);
  bench.catalogue = fixture_catalogue ();
  bench_wide (&bench, false);
  bench_wide (&bench, true);
  catalogue_unref (bench.catalogue);
  evaluation_free (bench.evaluation);
  return agreed ? 0 : 1;
}
