/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which failures a design can have, what two of them come to together, and where a rehearsal says more than a sum. */
#include <math.h>
#include <string.h>

#include "design/catalogue.h"
#include "solver/rehearsal-judge.h"
#include "tests/solver/fixture.h"

typedef struct {
  Design *design;
  Catalogue *catalogue;
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  Rehearser *rehearser;
  Rehearsed *rehearsed;
} Stage;

static Stage
stage_of (Design *design)
{
  Stage stage = {.design = design,
                 .catalogue = fixture_catalogue (),
                 .evaluation = evaluation_new (),
                 .rehearsed = g_new0 (Rehearsed, 1)};

  stage.system = system_compile (design, stage.catalogue, NULL, NULL);
  stage.workspace = workspace_new (stage.system);
  stage.rehearser = rehearser_new (stage.system);
  evaluate (stage.system, stage.workspace, NULL, stage.evaluation);
  return stage;
}

static void
stage_clear (Stage *stage)
{
  g_free (stage->rehearsed);
  rehearser_free (stage->rehearser);
  evaluation_free (stage->evaluation);
  workspace_free (stage->workspace);
  system_free (stage->system);
  catalogue_unref (stage->catalogue);
  design_unref (stage->design);
}

/* m3 on the floor. */
static double
play (Stage *stage, FailureId first, FailureId second)
{
  const FailureId failures[] = {first, second};

  g_assert_true (rehearse_failures (stage->system, stage->evaluation, stage->rehearser, failures,
                                    second == N_FAILURES ? 1 : 2, NULL, NULL, NULL, stage->rehearsed));
  return stage->rehearsed->rehearsal.spilled_m3;
}

static const RehearsalFinding *
finding_of (const Stage *stage, RehearsalCheck check)
{
  for (unsigned i = 0; i < stage->rehearsed->n_findings; i++)
    if (stage->rehearsed->findings[i].check == check)
      return &stage->rehearsed->findings[i];
  return NULL;
}

/* What has run out does not run out again. */
static unsigned
count_of (const Stage *stage, RehearsalEventKind kind)
{
  unsigned n = 0;

  for (unsigned i = 0; i < stage->rehearsed->rehearsal.n_events; i++)
    n += stage->rehearsed->rehearsal.events[i].kind == kind;
  return n;
}

static void
test_words (void)
{
  FailureId found;

  for (unsigned i = 0; i < N_FAILURES; i++) {
    g_assert_true (failure_find (failure_word ((FailureId) i), &found));
    g_assert_cmpuint (found, ==, i);
  }
  g_assert_false (failure_find ("", &found));
  g_assert_false (failure_find (NULL, &found));
  for (unsigned i = 0; i < N_REHEARSAL_EVENTS; i++)
    for (unsigned k = 0; k < i; k++)
      g_assert_cmpstr (rehearsal_event_word ((RehearsalEventKind) i), !=,
                       rehearsal_event_word ((RehearsalEventKind) k));
}

static void
test_options (void)
{
  FailureOptions options;
  Quantity quantity;

  failure_options_init (&options);
  for (unsigned i = 0; failure_option_name (i, &quantity) != NULL; i++) {
    g_assert_false (failure_options_set (&options, failure_option_name (i, NULL), -1));
    g_assert_false (failure_options_set (&options, failure_option_name (i, NULL), NAN));
  }
  g_assert_true (failure_options_set (&options, "block-time", 60));
  g_assert_cmpfloat_with_epsilon (options.block_s, 60, 1e-12);
  g_assert_false (failure_options_set (&options, "nothing", 1));
}

/* The least design: what it has not cannot fail. */
static void
test_reasons (void)
{
  Stage stage = stage_of (fixture_commit (fixture_bare_draft ()));
  static const struct {
    FailureId failure;
    FailureReason reason;
  } expected[] = {{FAILURE_POWER_CUT, FAILURE_APPLIES},
                  {FAILURE_DRAIN_BLOCKED, FAILURE_APPLIES},
                  {FAILURE_OVERFLOW_COVERED, FAILURE_PLAIN_CREST},
                  {FAILURE_SIPHON_FAILS, FAILURE_NO_SIPHON},
                  {FAILURE_TUBES_LOST, FAILURE_NO_TUBES},
                  {FAILURE_CHECK_STUCK, FAILURE_NO_CHECK_VALVE},
                  {FAILURE_BRANCH_SHUT, FAILURE_NO_BRANCH},
                  {FAILURE_FULL_SPEED, FAILURE_FULL_SPEED_ALREADY},
                  {FAILURE_SOCK_CLOGGED, FAILURE_NO_SOCK}};

  for (gsize i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpint (failure_applies (stage.system, stage.evaluation, expected[i].failure, NULL), ==,
                     expected[i].reason);
  stage_clear (&stage);
}

/* Laid over each other two failures do both: the same water as one plan that has both. */
static void
test_two_together (void)
{
  Stage stage = stage_of (fixture_commit (fixture_draft ()));
  double plugged_m3, both_m3;

  play (&stage, FAILURE_POWER_CUT, N_FAILURES);
  play (&stage, FAILURE_BREAK_PLUGGED, N_FAILURES);
  plugged_m3 = stage.rehearsed->rehearsal.drained_m3;
  play (&stage, FAILURE_BREAK_PLUGGED, FAILURE_DRAIN_BLOCKED);
  both_m3 = stage.rehearsed->rehearsal.drained_m3;
  g_assert_cmpuint (stage.rehearsed->n_failures, ==, 2);
  /* Through the outlet the display falls all the same; what stood in the box over the blocked mouth stays. */
  g_assert_cmpfloat (both_m3, <, plugged_m3 - 1e-3);
  g_assert_nonnull (rehearsal_event (&stage.rehearsed->rehearsal, REHEARSAL_BLOCKED, -1));
  g_assert_nonnull (rehearsal_event (&stage.rehearsed->rehearsal, REHEARSAL_POWER_OFF, -1));
  stage_clear (&stage);
}

/* It does not matter which of two is named first. */
static void
test_either_order (void)
{
  Stage stage = stage_of (fixture_commit (fixture_draft ()));
  g_autofree Rehearsal *before = g_new0 (Rehearsal, 1);

  for (unsigned i = 0; i < N_FAILURES; i++)
    for (unsigned k = i + 1; k < N_FAILURES; k += 1 + i % 3) {
      const FailureId one[] = {(FailureId) i, (FailureId) k}, other[] = {(FailureId) k, (FailureId) i};

      if (!rehearse_failures (stage.system, stage.evaluation, stage.rehearser, one, 2, NULL, NULL, NULL,
                              stage.rehearsed))
        continue;
      *before = stage.rehearsed->rehearsal;
      rehearse_failures (stage.system, stage.evaluation, stage.rehearser, other, 2, NULL, NULL, NULL,
                         stage.rehearsed);
      if (memcmp (before, &stage.rehearsed->rehearsal, sizeof *before) != 0)
        g_error ("%s and %s: the other way round it comes out otherwise", failure_word ((FailureId) i),
                 failure_word ((FailureId) k));
    }
  stage_clear (&stage);
}

/* The transfer test counts what the pump lifts until the centre of its suction is bare. It lifts some more while half of
 * the suction is under water, and a top-off follows: the sum has water to spare, the rehearsal finds some on the floor. */
static void
test_sum_passes (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;

  must_set (draft, "pumping", FIELD_CHAMBER_LEVEL, 0.2125);
  must_set (draft, "overflow", FIELD_OVERFLOW_CREST, 0.563);
  must_set (draft, "trickle", FIELD_DRAIN_PLUG, 1);
  must_set (draft, "emergency", FIELD_DRAIN_PLUG, 1);
  must_set (draft, "reservoir", FIELD_RESERVOIR_VOLUME, 0.0005);
  stage = stage_of (fixture_commit (draft));
  g_assert_cmpfloat (stage.evaluation->transfers[0].margin_reservoir_m3, >, 0.0002);
  g_assert_cmpfloat (play (&stage, FAILURE_DRAIN_BLOCKED, N_FAILURES), >, 0.0003);
  g_assert_nonnull (finding_of (&stage, REHEARSED_SPILLS));
  g_assert_nonnull (finding_of (&stage, REHEARSED_PUMP_DRY));
  g_assert_nonnull (finding_of (&stage, REHEARSED_UNATTENDED));
  g_assert_cmpuint (count_of (&stage, REHEARSAL_RESERVOIR_EMPTY), ==, 1);
  stage_clear (&stage);
}

static Draft *
held_draft (void)
{
  Draft *draft = fixture_draft ();

  must_set (draft, "outlet", FIELD_OUTLET_BREAK, 0);
  must_set (draft, "outlet", FIELD_OUTLET_HEIGHT, 0.42);
  must_add (draft, PART_FITTING, "check", NULL, "return");
  must_set_text (draft, "check", FIELD_FITTING_TYPE, "check-valve");
  must_set (draft, "check", FIELD_FITTING_STATION, 0.4);
  return draft;
}

/* No verdict of the steady solver passes because of a check valve: its sum is a flood. The rehearsal lets the valve close,
 * and the floor stays dry; with the valve stuck open it agrees with the sum. */
static void
test_sum_fails (void)
{
  Stage stage = stage_of (fixture_commit (held_draft ()));
  double spilled_m3;

  g_assert_cmpfloat (stage.evaluation->drain_back.spilled_m3, >, 0.01);
  g_assert_cmpfloat (play (&stage, FAILURE_POWER_CUT, N_FAILURES), <=, 0);
  g_assert_nonnull (finding_of (&stage, REHEARSED_CHECK_HOLDS));
  g_assert_cmpint (finding_of (&stage, REHEARSED_CHECK_HOLDS)->grade, ==, GRADE_CAUTION);
  g_assert_cmpint (finding_of (&stage, REHEARSED_CHECK_HOLDS)->part, ==, fixture_part ("return"));
  g_assert_cmpfloat (finding_of (&stage, REHEARSED_CHECK_HOLDS)->value, >, 0.01);
  spilled_m3 = play (&stage, FAILURE_CHECK_STUCK, N_FAILURES);
  g_assert_null (finding_of (&stage, REHEARSED_CHECK_HOLDS));
  g_assert_cmpuint (count_of (&stage, REHEARSAL_PIPE_EMPTY), ==, 1);
  g_assert_cmpfloat_with_epsilon (spilled_m3, stage.evaluation->drain_back.spilled_m3,
                                  0.005 * stage.evaluation->drain_back.total_m3);
  stage_clear (&stage);
}

/* A valve that the dry floor does not rest on is no finding, and one that no power cut asks is none either. */
static void
test_check_not_needed (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;

  must_add (draft, PART_FITTING, "check", NULL, "return");
  must_set_text (draft, "check", FIELD_FITTING_TYPE, "check-valve");
  must_set (draft, "check", FIELD_FITTING_STATION, 0.4);
  stage = stage_of (fixture_commit (draft));
  g_assert_cmpfloat (play (&stage, FAILURE_POWER_CUT, N_FAILURES), <=, 0);
  g_assert_null (finding_of (&stage, REHEARSED_CHECK_HOLDS));
  stage_clear (&stage);
  stage = stage_of (fixture_commit (held_draft ()));
  play (&stage, FAILURE_SIPHON_FAILS, N_FAILURES);
  g_assert_null (finding_of (&stage, REHEARSED_CHECK_HOLDS));
  stage_clear (&stage);
}

/* A crest 2 mm under the rim: the running display is over it before anything fails, and the finding has its moment. */
static void
test_spills_at_once (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;

  must_set (draft, "overflow", FIELD_OVERFLOW_CREST, 0.598);
  stage = stage_of (fixture_commit (draft));
  play (&stage, FAILURE_OVERFLOW_HALF, N_FAILURES);
  g_assert_nonnull (finding_of (&stage, REHEARSED_SPILLS));
  g_assert_cmpfloat (finding_of (&stage, REHEARSED_SPILLS)->time_s, <, 0.1);
  g_assert_cmpfloat (finding_of (&stage, REHEARSED_UNATTENDED)->time_s, <, 0.1);
  stage_clear (&stage);
}

/* The longest time that is asked for is the longest that is played, and what still moves then is said. */
static void
test_longest_time (void)
{
  Stage stage = stage_of (fixture_commit (fixture_draft ()));
  const FailureId cut = FAILURE_POWER_CUT;
  FailureOptions options;

  failure_options_init (&options);
  g_assert_true (failure_options_set (&options, "longest-time", 2));
  g_assert_true (rehearse_failures (stage.system, stage.evaluation, stage.rehearser, &cut, 1, &options, NULL,
                                    NULL, stage.rehearsed));
  g_assert_cmpfloat (stage.rehearsed->rehearsal.end_s, <, 2.5);
  g_assert_nonnull (finding_of (&stage, REHEARSED_NO_REST));
  stage_clear (&stage);
}

/* Each remedy that is offered keeps the floor dry, and a tenth less of it does not. */
static void
test_remedies (void)
{
  Stage stage = stage_of (fixture_commit (held_draft ()));
  RehearsalRemedy remedies[REHEARSAL_REMEDIES_MAX];
  unsigned n;

  play (&stage, FAILURE_CHECK_STUCK, N_FAILURES);
  n = rehearsal_remedies (stage.design, stage.catalogue, stage.rehearsed, NULL, NULL, remedies);
  g_assert_cmpuint (n, >=, 2);
  for (unsigned i = 0; i < n; i++) {
    const char *key = part_key (design_part (stage.design, (unsigned) remedies[i].part));
    Stage mended =
        stage_of (design_with_number (stage.design, key, remedies[i].field, remedies[i].value, NULL));

    g_test_message ("%s.%s = %g", key, field_info (remedies[i].field)->name, remedies[i].value);
    g_assert_cmpfloat (play (&mended, FAILURE_CHECK_STUCK, N_FAILURES), <, 1e-6);
    g_assert_null (finding_of (&mended, REHEARSED_SPILLS_FAST));
    stage_clear (&mended);
    if (!isfinite (remedies[i].change))
      continue;
    mended = stage_of (design_with_number (stage.design, key, remedies[i].field,
                                           remedies[i].value - 0.1 * remedies[i].change, NULL));
    play (&mended, FAILURE_CHECK_STUCK, N_FAILURES);
    g_assert_true (finding_of (&mended, REHEARSED_SPILLS) != NULL ||
                   finding_of (&mended, REHEARSED_SPILLS_FAST) != NULL);
    stage_clear (&mended);
  }
  stage_clear (&stage);
}

/* Socks that let nothing through: the water goes over the lip of their holder. A lip higher than the rim sends it onto the
 * floor. */
static void
test_socks (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;

  must_set (draft, "inlet", FIELD_CHAMBER_SOCKS, 2);
  stage = stage_of (fixture_commit (draft));
  g_assert_cmpfloat (play (&stage, FAILURE_SOCK_CLOGGED, N_FAILURES), <=, 0);
  g_assert_cmpfloat (play (&stage, FAILURE_SOCK_CLOGGED, FAILURE_POWER_CUT), <=, 0);
  stage_clear (&stage);
  draft = fixture_draft ();
  must_set (draft, "inlet", FIELD_CHAMBER_SOCKS, 2);
  must_set (draft, "inlet", FIELD_CHAMBER_BYPASS, 0.5);
  stage = stage_of (fixture_commit (draft));
  g_assert_cmpfloat (play (&stage, FAILURE_SOCK_CLOGGED, N_FAILURES), >, 0.001);
  g_assert_cmpint (stage.rehearsed->rehearsal.spills[0].part, ==, fixture_part ("sump"));
  stage_clear (&stage);
}

/* Every failure of the sound system is played, and none floods but a full cover of both ways down. */
/* Days go by in long steps: no level is said to have been where none of the moments shows it. What an event comes
 * between is less than a tenth of a millimetre. */
static void
test_long_steps (void)
{
  Stage stage = stage_of (fixture_commit (fixture_draft ()));
  g_autoptr (RehearsalTrace) trace = rehearsal_trace_new (4000);
  const FailureId failure = FAILURE_RESERVOIR_EMPTY;
  const Rehearsal *rehearsal = &stage.rehearsed->rehearsal;

  g_assert_true (rehearse_failures (stage.system, stage.evaluation, stage.rehearser, &failure, 1, NULL, trace,
                                    NULL, stage.rehearsed));
  g_assert_cmpfloat (rehearsal->end_s, >, 86400);
  for (unsigned i = 0; i < rehearsal->n_vessels; i++) {
    double highest_z = -INFINITY, lowest_z = INFINITY;

    for (unsigned k = 0; k < rehearsal_trace_n_frames (trace); k++) {
      highest_z = fmax (highest_z, rehearsal_trace_frame (trace, k)->level_z[i]);
      lowest_z = fmin (lowest_z, rehearsal_trace_frame (trace, k)->level_z[i]);
    }
    g_assert_cmpfloat (rehearsal->vessels[i].peak_z, <, highest_z + 1e-4);
    g_assert_cmpfloat (rehearsal->vessels[i].lowest_z, >, lowest_z - 1e-4);
  }
  stage_clear (&stage);
}

static void
test_sound (void)
{
  Stage stage = stage_of (fixture_commit (fixture_draft ()));

  for (unsigned i = 0; i < N_FAILURES; i++) {
    if (failure_applies (stage.system, stage.evaluation, (FailureId) i, NULL) != FAILURE_APPLIES)
      continue;
    g_test_message ("%s", failure_word ((FailureId) i));
    g_assert_cmpfloat (play (&stage, (FailureId) i, N_FAILURES), <, 1e-6);
    g_assert_null (finding_of (&stage, REHEARSED_SPILLS));
  }
  stage_clear (&stage);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scenario/words", test_words);
  g_test_add_func ("/scenario/options", test_options);
  g_test_add_func ("/scenario/reasons", test_reasons);
  g_test_add_func ("/scenario/two-together", test_two_together);
  g_test_add_func ("/scenario/either-order", test_either_order);
  g_test_add_func ("/scenario/sum-passes", test_sum_passes);
  g_test_add_func ("/scenario/sum-fails", test_sum_fails);
  g_test_add_func ("/scenario/check-not-needed", test_check_not_needed);
  g_test_add_func ("/scenario/spills-at-once", test_spills_at_once);
  g_test_add_func ("/scenario/longest-time", test_longest_time);
  g_test_add_func ("/scenario/remedies", test_remedies);
  g_test_add_func ("/scenario/socks", test_socks);
  g_test_add_func ("/scenario/long-steps", test_long_steps);
  g_test_add_func ("/scenario/sound", test_sound);
  return g_test_run ();
}
