/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Words: every check has all of its texts and only tokens that are filled; names of parts; the units that sentences use. */
#include <math.h>
#include <string.h>

#include "design/edit.h"
#include "report/advice.h"
#include "report/explain.h"
#include "report/finding-table.h"
#include "report/finding-words.h"
#include "report/proposal-words.h"
#include "report/summary.h"
#include "tests/design/fixture.h"

static Finding
made_up (CheckId check)
{
  Finding finding = {.check = check,
                     .grade = GRADE_STOP,
                     .part = 3,
                     .other_part = 4,
                     .quantity = check_quantity (check),
                     .value = 0.0125,
                     .limit = 0.01,
                     .margin = -0.0025,
                     .relative_margin = -0.25,
                     .lower = 0.0125,
                     .upper = 0.0125,
                     .n_seconds = FINDING_SECONDS_MAX,
                     .seconds = {0.001, 0.002, 1, 0},
                     .remedy = {.part = -1, .field = N_FIELDS}};

  return finding;
}

/* Every sentence is complete: no token stays, and none is empty, in both systems of units. */
static void
test_sentences (void)
{
  g_autoptr (Design) design = fixture_design ();
  const NumberStyle styles[] = {number_style_metric (), number_style_us ()};

  for (CheckId check = 0; check < N_CHECKS; check++) {
    const FindingWords *words = finding_words (check);
    const Finding finding = made_up (check);

    g_assert_cmpuint (strlen (words->title), >, 5);
    g_assert_false (g_str_has_suffix (words->title, "."));
    g_assert_cmpuint (strlen (words->meaning), >, 5);
    g_assert_cmpuint (strlen (words->advice), >, 5);
    for (unsigned i = 0; i < G_N_ELEMENTS (styles); i++) {
      g_autofree char *sentence = finding_sentence (design, &finding, &styles[i]);

      if (strchr (sentence, '{') != NULL || !g_str_has_suffix (sentence, "."))
        g_error ("%s: %s", check_word (check), sentence);
    }
  }
}

static void
test_numbers (void)
{
  g_autoptr (Design) design = fixture_design ();
  const NumberStyle style = number_style_metric ();
  Finding finding = made_up (CHECK_DRAIN_OVERRUN);
  g_autofree char *sentence = NULL;

  finding.part = design_index (design, "overflow");
  finding.value = finding.lower = finding.upper = 1480 / 3.6e6;
  finding.limit = 1640 / 3.6e6;
  finding.margin = finding.value - finding.limit;
  finding.relative_margin = finding.value / finding.limit - 1;
  sentence = finding_sentence (design, &finding, &style);
  g_assert_cmpstr (
      sentence, ==,
      "Overflow carries at most 1480\u202fL/h with the box at its rim; the pump may deliver 1640\u202fL/h: "
      "10\u202f% short.");
}

/* A likely value on the safe side of its limit is not called short: the judged edge of its band is, and is named. */
static void
test_judged_edge (void)
{
  g_autoptr (Design) design = fixture_design ();
  const NumberStyle style = number_style_metric ();
  const double day_s = 86400;
  Finding least = made_up (CHECK_TOP_OFF_SHORT), most = made_up (CHECK_DRAIN_BACK_FLOODS);
  g_autofree char *least_words = NULL, *most_words = NULL, *likely_words = NULL;

  least.value = least.upper = 8 * day_s;
  least.lower = 5 * day_s;
  least.limit = 7 * day_s;
  least.margin = -2 * day_s;
  least.relative_margin = least.margin / least.limit;
  least_words = finding_sentence (design, &least, &style);
  g_assert_cmpstr (
      least_words, ==,
      "The reservoir lasts 8.00\u202fd; 7.00\u202fd are wanted: 29\u202f% short at the unfavourable "
      "edge of its band, 5.00\u202fd.");

  most.value = most.lower = 0.04;
  most.upper = 0.06;
  most.limit = 0.05;
  most.margin = -0.01;
  most.relative_margin = -0.2;
  most.seconds[0] = 0.01;
  most_words = finding_sentence (design, &most, &style);
  g_assert_cmpstr (most_words, ==,
                   "40\u202fL run back when the pump stops; the sump takes 50\u202fL: 20\u202f% over at the "
                   "unfavourable edge of its band, 60\u202fL. 10\u202fL run on the floor.");

  /* Of nought there is no share: the shortfall itself is told. */
  most.limit = 0;
  most.value = most.lower = most.upper = 0.02;
  most.margin = -0.02;
  most.relative_margin = 0;
  most.seconds[0] = 0.02;
  g_free (most_words);
  most_words = finding_sentence (design, &most, &style);
  g_assert_cmpstr (
      most_words, ==,
      "20\u202fL run back when the pump stops; the sump takes 0\u202fL: 20\u202fL over. 20\u202fL run "
      "on the floor.");

  /* What rounds to nothing is neither short nor over. */
  least.value = least.lower = least.upper = 7 * day_s - 1;
  least.margin = -1;
  least.relative_margin = least.margin / least.limit;
  g_free (least_words);
  least_words = finding_sentence (design, &least, &style);
  g_assert_cmpstr (least_words, ==,
                   "The reservoir lasts 7.00\u202fd; 7.00\u202fd are wanted: nothing to spare.");

  /* Judged by the likely value: a band beside it is not spoken of. */
  most.value = most.upper = 0.06;
  most.lower = 0.05;
  most.limit = 0.05;
  most.margin = -0.01;
  most.relative_margin = -0.2;
  most.seconds[0] = 0.01;
  likely_words = finding_sentence (design, &most, &style);
  g_assert_cmpstr (
      likely_words, ==,
      "60\u202fL run back when the pump stops; the sump takes 50\u202fL: 20\u202f% over. 10\u202fL run "
      "on the floor.");
}

static void
test_remedy (void)
{
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Catalogue) catalogue = catalogue_new ();
  const NumberStyle style = number_style_metric ();
  Finding finding = made_up (CHECK_DISPLAY_OVER_RIM);
  g_autofree char *text = NULL;

  g_assert_null (finding_remedy (design, catalogue, &finding, &style));
  finding.remedy =
      (Remedy){.part = design_index (design, "overflow"), .field = FIELD_OVERFLOW_CREST, .value = 0.54};
  text = finding_remedy (design, catalogue, &finding, &style);
  g_assert_cmpstr (text, ==, "Set Crest height of Overflow to 540\u202fmm.");
  finding.remedy.part = 9999;
  g_assert_null (finding_remedy (design, catalogue, &finding, &style));
}

static void
test_names (void)
{
  g_autoptr (Draft) draft = fixture_draft ();
  g_autoptr (Design) design = NULL;
  static const struct {
    const char *key, *name;
  } names[] = {{"display", "Display tank"},
               {"inlet", "Chamber 1, Media"},
               {"drain", "Vented standpipe"},
               {"outlet", "Outlet 1"},
               {"heater", "Other"},
               {"return-union", "Union of North return"},
               {"return-corner-1", "Corner of North return"},
               {"return", "North return"}};

  draft_add (draft, PART_OUTLET, "second", NULL, "display", NULL, NULL);
  draft_set_label (draft, "return", "North return", NULL);
  design = draft_commit (draft, NULL);
  for (unsigned i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autofree char *name = words_part (design, design_find (design, names[i].key));

    g_assert_cmpstr (name, ==, names[i].name);
  }
  g_autofree char *system = words_part (design, NULL);
  g_assert_cmpstr (system, ==, "The system");
}

static void
test_fill (void)
{
  g_autofree char *filled = words_fill ("{a} and {b}, {c} {", "a", "1", "b", "{a}", NULL);

  g_assert_cmpstr (filled, ==, "1 and {a}, {c} {");
}

/* Words of a design about which nothing is known: dashes, never made-up numbers. */
static void
test_unknown (void)
{
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  const NumberStyle style = number_style_metric ();
  g_autofree char *verdict = summary_verdict (evaluation);
  g_autofree char *line = NULL;

  evaluation->totals.flow_m3s = NAN;
  evaluation->totals.turnover_per_h = NAN;
  evaluation->totals.drain_margin = NAN;
  line = summary_line (evaluation, &style);
  g_assert_cmpstr (line, ==, "Return — · turnover — · drain margin —");
  g_assert_cmpstr (verdict, ==, "Sound: no stop finding, 0 cautions, 0 notes.");
}

static void
test_cautions (void)
{
  g_assert_cmpuint (advice_n_cautions (), >=, 8);
  for (unsigned i = 0; i < advice_n_cautions (); i++)
    g_assert_true (g_str_has_suffix (advice_caution (i), "."));
}

/* A drain that is not the only one of its role has the name of its tank, but for the drawing, where it is seen. */
static void
test_drains_of_tanks (void)
{
  g_autoptr (Design) one = fixture_design ();
  g_autoptr (Design) two = NULL;
  const Part *drain = design_nth (one, PART_DRAIN, 0);
  g_autofree char *alone = words_part (one, drain);
  Problem problem = {0};

  two = edit_add_tank (one, part_key (design_nth (one, PART_TANK, 0)), EDIT_FEED_TEE, NULL, &problem);
  g_assert_nonnull (two);
  for (unsigned i = 0; i < design_count (two, PART_DRAIN); i++) {
    const Part *each = design_nth (two, PART_DRAIN, i);
    g_autofree char *name = words_part (two, each), *brief = words_part_brief (two, each);
    g_autofree char *tank = words_part (two, design_owner (two, design_owner (two, each)));
    g_autofree char *ending = g_strdup_printf (" of %s", tank);

    g_assert_true (g_str_has_suffix (name, ending));
    g_assert_false (g_str_has_suffix (brief, ending));
    if (g_str_equal (part_key (each), part_key (drain)))
      g_assert_cmpstr (brief, ==, alone);
  }
}

static void
test_limits (void)
{
  const NumberStyle style = number_style_us ();

  for (LimitCode code = LIMIT_NONE + 1; code < N_LIMIT_CODES; code++) {
    const ProposalLimit limit = {.code = code, .value = 0.1, .bound = 0.2, .axis = 2};
    g_autofree char *sentence = proposal_sentence (&limit, &style);

    g_assert_null (strchr (sentence, '{'));
    g_assert_true (g_str_has_suffix (sentence, "."));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/sentences", test_sentences);
  g_test_add_func ("/words/numbers", test_numbers);
  g_test_add_func ("/words/edge", test_judged_edge);
  g_test_add_func ("/words/remedy", test_remedy);
  g_test_add_func ("/words/names", test_names);
  g_test_add_func ("/words/fill", test_fill);
  g_test_add_func ("/words/unknown", test_unknown);
  g_test_add_func ("/words/cautions", test_cautions);
  g_test_add_func ("/report/words/drains-of-tanks", test_drains_of_tanks);
  g_test_add_func ("/words/limits", test_limits);
  return g_test_run ();
}
