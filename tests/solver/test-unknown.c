/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What is not known never passes a verdict. */
#include "solver/checks.h"
#include "tests/solver/fixture.h"

/* A number that is not one passes every comparison by failing it: each that a verdict on water rests on must stop. */
static void
test_unknown_numbers_stop (void)
{
  static const gsize offsets[] = {offsetof (Evaluation, totals.flow_m3s),
                                  offsetof (Evaluation, totals.slow_turnover_per_h),
                                  offsetof (Evaluation, tanks[0].freeboard_m),
                                  offsetof (Evaluation, tanks[0].full_speed_freeboard_m),
                                  offsetof (Evaluation, transfers[0].margin_m3),
                                  offsetof (Evaluation, transfers[0].margin_reservoir_m3),
                                  offsetof (Evaluation, overflows[0].display_z),
                                  offsetof (Evaluation, overflows[0].box_z),
                                  offsetof (Evaluation, overflows[0].flood_unprimed_margin_m),
                                  offsetof (Evaluation, overflows[0].flood_full_speed_margin_m),
                                  offsetof (Evaluation, drain_back.upper_margin_m3),
                                  offsetof (Evaluation, drain_back.upper_spilled_m3),
                                  offsetof (Evaluation, plugged.upper_margin_m3)};
  System *system = fixture_compile (fixture_draft ());
  Workspace *workspace = workspace_new (system);
  g_autoptr (Evaluation) evaluation = evaluation_new ();

  evaluate (system, workspace, NULL, evaluation);
  g_assert_true (evaluation_is_sound (evaluation));
  for (unsigned i = 0; i < G_N_ELEMENTS (offsets); i++) {
    g_autoptr (Evaluation) spoilt = evaluation_new ();

    *spoilt = *evaluation;
    spoilt->n_findings = 0;
    *(double *) (void *) ((char *) spoilt + offsets[i]) = NAN;
    judge (system, workspace, spoilt);
    g_assert_false (evaluation_is_sound (spoilt));
  }
  workspace_free (workspace);
  system_free (system);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/unknown/stops", test_unknown_numbers_stop);
  return g_test_run ();
}
