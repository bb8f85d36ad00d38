/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Designs grown by what the menus add, one thing upon another: each is evaluated, and every failure that makes sense for it
 * is played with no water lost, or says that a flow could not be found. */
#include <math.h>

#include "app/common/additions.h"
#include "solver/rehearsal-judge.h"
#include "tests/app/fixture.h"

#define DESIGNS      12
#define DESIGNS_LONG 1000
#define GROWTH_MOST  8
#define BUDGET       1e-9

typedef struct {
  Catalogue *catalogue;
  Evaluation *evaluation;
  Rehearsed *rehearsed;
  unsigned played, unsolved;
} Trials;

static unsigned
n_additions (void)
{
  unsigned n = 0;

  while (addition_nth (n) != NULL)
    n++;
  return n;
}

/* The design with one thing more, or as it was where it has no room for it. */
static Design *
grown (Design *design)
{
  const Addition *addition = addition_nth ((unsigned) g_test_rand_int_range (0, (gint32) n_additions ()));
  const PartKind kind = addition->to < N_PART_KINDS ? addition->to : PART_JOB;
  const unsigned n = design_count (design, kind);
  char key[MAX_KEY_BYTES + 1] = "";
  Problem problem = {0};
  Design *more;

  if (n == 0)
    return design;
  more = addition->add (
      design, part_key (design_nth (design, kind, (unsigned) g_test_rand_int_range (0, (gint32) n))),
      addition->argument, key, &problem);
  if (more == NULL)
    return design;
  design_unref (design);
  return more;
}

static void
play_all (Trials *trials, System *system)
{
  g_autoptr (Rehearser) rehearser = rehearser_new (system);

  for (unsigned i = 0; i < N_FAILURES; i++) {
    const FailureId failure = (FailureId) i;

    if (failure_applies (system, trials->evaluation, failure, NULL) != FAILURE_APPLIES)
      continue;
    g_test_message ("%s", failure_word (failure));
    trials->played++;
    if (!rehearse_failures (system, trials->evaluation, rehearser, &failure, 1, NULL, NULL, NULL,
                            trials->rehearsed)) {
      g_assert_cmpint (trials->rehearsed->rehearsal.status, ==, REHEARSAL_NOT_SOLVED);
      g_assert_cmpuint (trials->rehearsed->n_findings, ==, 0);
      trials->unsolved++;
      continue;
    }
    g_assert_cmpfloat (trials->rehearsed->rehearsal.water_error, <=, BUDGET);
    for (unsigned k = 0; k < trials->rehearsed->n_findings; k++)
      g_assert_true (isfinite (trials->rehearsed->findings[k].value) &&
                     isfinite (trials->rehearsed->findings[k].time_s));
  }
}

static void
test_grown (void)
{
  Document *document = fixture_document ();
  Trials trials = {.catalogue = catalogue_built_in (),
                   .evaluation = evaluation_new (),
                   .rehearsed = g_new0 (Rehearsed, 1)};
  const unsigned n = g_test_slow () ? DESIGNS_LONG : DESIGNS;

  for (unsigned i = 0; i < n; i++) {
    Design *design = design_ref (document_get_design (document));
    System *system;

    for (int k = g_test_rand_int_range (1, GROWTH_MOST + 1); k > 0; k--)
      design = grown (design);
    system = system_compile (design, trials.catalogue, NULL, NULL);
    if (system != NULL) { /* else there are more of a kind than can be evaluated */
      Workspace *workspace = workspace_new (system);

      evaluate (system, workspace, NULL, trials.evaluation);
      play_all (&trials, system);
      workspace_free (workspace);
      system_free (system);
    }
    design_unref (design);
  }
  g_test_message ("%u played, %u not solved", trials.played, trials.unsolved);
  g_assert_cmpuint (trials.played, >, n);
  g_assert_cmpuint (20 * trials.unsolved, <=, trials.played);
  g_free (trials.rehearsed);
  evaluation_free (trials.evaluation);
  catalogue_unref (trials.catalogue);
  g_object_unref (document);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/additions/grown", test_grown);
  return g_test_run ();
}
