/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What rehearsals come to in two sentences: the floor, the soonest harm, and what is not known. */
#include <math.h>
#include <string.h>

#include "report/rehearsal-summary.h"

/* One failure that was played to its end without harm. */
static Rehearsed *
calm (Rehearsed *all, unsigned index, FailureId failure)
{
  Rehearsed *rehearsed = &all[index];

  *rehearsed = (Rehearsed){.n_failures = 1, .failures = {failure}, .reason = FAILURE_APPLIES};
  rehearsed->rehearsal.status = rehearsed->fast.status = REHEARSAL_OK;
  rehearsed->rehearsal.matters_s = rehearsed->fast.matters_s = NAN;
  return rehearsed;
}

static void
add_finding (Rehearsed *rehearsed, RehearsalCheck check)
{
  rehearsed->findings[rehearsed->n_findings++].check = check;
}

static void
assert_summary (const Rehearsed *all, unsigned n, const char *wanted)
{
  const NumberStyle style = number_style_metric ();
  g_autofree char *text = rehearsal_summary (all, n, &style);
  g_autoptr (GString) plain = g_string_new (text);

  g_string_replace (plain, UNITS_SPACE, " ", 0);
  g_assert_cmpstr (plain->str, ==, wanted);
}

static void
test_summary (void)
{
  g_autofree Rehearsed *all = g_new0 (Rehearsed, 3);
  Rehearsed *cut = calm (all, 0, FAILURE_POWER_CUT), *blocked = calm (all, 1, FAILURE_DRAIN_BLOCKED);

  calm (all, 2, FAILURE_CHECK_STUCK)->reason = FAILURE_NO_CHECK_VALVE;
  assert_summary (all, 3, "No failure that was rehearsed puts water on the floor or lets a pump run dry.");
  blocked->rehearsal.matters_s = 90;
  assert_summary (
      all, 3,
      "No failure that was rehearsed puts water on the floor. The soonest to do harm is Main drain "
      "blocked: somebody must be there within 90.0 s.");
  cut->rehearsal.matters_s = 30;
  add_finding (cut, REHEARSED_SPILLS);
  assert_summary (
      all, 3,
      "Water runs onto the floor in these failures: Power cut. The soonest to do harm is Power cut: "
      "somebody must be there within 30.0 s.");
  g_assert_true (rehearsal_spills (cut));
  g_assert_false (rehearsal_spills (blocked));
}

/* A failure that spills only with the fast pump is told apart, and its time is that of the fast pump. */
static void
test_fast (void)
{
  g_autofree Rehearsed *all = g_new0 (Rehearsed, 1);
  Rehearsed *cut = calm (all, 0, FAILURE_POWER_CUT);

  cut->fast.matters_s = 45;
  g_assert_true (rehearsal_judged (cut) == &cut->rehearsal);
  add_finding (cut, REHEARSED_SPILLS_FAST);
  g_assert_true (rehearsal_judged (cut) == &cut->fast);
  assert_summary (
      all, 1,
      "Water runs onto the floor only with the pumps at the top of their tolerance: Power cut. The "
      "soonest to do harm is Power cut: somebody must be there within 45.0 s.");
}

static void
test_unknown (void)
{
  g_autofree Rehearsed *all = g_new0 (Rehearsed, 2);

  assert_summary (NULL, 2, "Nothing can be rehearsed: the design does not run.");
  calm (all, 0, FAILURE_POWER_CUT)->rehearsal.status = REHEARSAL_NOT_SOLVED;
  calm (all, 1, FAILURE_FULL_SPEED)->reason = FAILURE_FULL_SPEED_ALREADY;
  g_assert_false (rehearsal_is_known (&all[0]));
  g_assert_false (rehearsal_is_known (&all[1]));
  assert_summary (all, 2,
                  "Could not be computed to the end, so that it is not known what happens: Power cut.");
}

/* Every assumption is said with its value. */
static void
test_assumptions (void)
{
  const NumberStyle style = number_style_metric ();
  static const char *const wanted[] = {"for 2 h at least", "for 14 d", "within 10 min",
                                       "after 30 min",     "60.0 L/h", "50 mm"};
  FailureOptions options;

  failure_options_init (&options);
  for (int edge = -1; edge <= 1; edge++) {
    g_autofree char *text = NULL;
    g_autoptr (GString) plain = NULL;

    options.edge = edge;
    text = rehearsal_assumptions (&options, &style);
    plain = g_string_new (text);
    g_string_replace (plain, UNITS_SPACE, " ", 0);
    g_assert_null (strchr (text, '{'));
    for (unsigned i = 0; i < G_N_ELEMENTS (wanted); i++)
      if (strstr (plain->str, wanted[i]) == NULL)
        g_error ("no \"%s\" in \"%s\"", wanted[i], plain->str);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal-summary/summary", test_summary);
  g_test_add_func ("/rehearsal-summary/fast", test_fast);
  g_test_add_func ("/rehearsal-summary/unknown", test_unknown);
  g_test_add_func ("/rehearsal-summary/assumptions", test_assumptions);
  return g_test_run ();
}
