/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Proposals with the catalogue of the program: for random tanks and stands the design is sound, or the limit that forbids it
 * is named. The seed is GLib's: replay with --seed. */
#include <math.h>

#include "files/catalogue-file.h"
#include "report/proposal-words.h"

static double
between (double least, double most)
{
  return least + g_test_rand_double () * (most - least);
}

static Evaluation *
evaluated (Design *design, Catalogue *catalogue)
{
  Evaluation *evaluation = evaluation_new ();

  g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL));
  return evaluation;
}

/* A usual tank gets a whole design: siphon, trickle channel and emergency, five chambers, a pump near the target. */
static void
test_usual (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  const ProposalRequest request = {.tank_m = {1.5, 0.6, 0.6}, .stand_m = {1.4, 0.55, 0.75}};
  ProposalLimit limit;
  g_autoptr (Design) design = proposal_make (&request, catalogue, &limit);
  g_autoptr (Evaluation) evaluation = NULL;

  g_assert_nonnull (design);
  evaluation = evaluated (design, catalogue);
  g_assert_true (evaluation_is_sound (evaluation));
  g_assert_cmpuint (evaluation_count (evaluation, GRADE_CAUTION), ==, 0);
  g_assert_cmpuint (design_count (design, PART_DRAIN), ==, 3);
  g_assert_cmpuint (design_count (design, PART_CHAMBER), ==, 5);
  g_assert_cmpuint (design_count (design, PART_OUTLET), ==, 2);
  g_assert_cmpfloat (evaluation->totals.turnover_per_h, >, 4.5);
  g_assert_cmpfloat (evaluation->totals.turnover_per_h, <, 5.5);
}

static void
test_limits (void)
{
  static const struct {
    ProposalRequest request;
    LimitCode code;
  } cases[] = {{{.tank_m = {0.1, 0.6, 0.6}, .stand_m = {1.4, 0.55, 0.75}}, LIMIT_TANK_SIZE},
               {{.tank_m = {1.5, 0.6, 0.6}, .stand_m = {1.4, 0.55, 9}}, LIMIT_STAND_SIZE},
               {{.tank_m = {2.0, 0.6, 0.6}, .stand_m = {1.4, 0.55, 0.75}}, LIMIT_TANK_STAND},
               {{.tank_m = {0.3, 0.3, 0.3}, .stand_m = {0.25, 0.3, 0.6}}, LIMIT_SUMP_ROOM},
               {{.tank_m = {1.5, 0.6, 0.6}, .stand_m = {1.4, 0.55, 0.75}, .turnover_per_h = 49}, LIMIT_PUMP}};
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();

  for (unsigned i = 0; i < G_N_ELEMENTS (cases); i++) {
    ProposalLimit limit = {0};

    g_assert_null (proposal_make (&cases[i].request, catalogue, &limit));
    g_assert_cmpint (limit.code, ==, cases[i].code);
  }
}

static void
test_not_finite (void)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  const double bad[] = {NAN, INFINITY, -INFINITY, 0, -1, 1e300};

  for (unsigned i = 0; i < G_N_ELEMENTS (bad); i++)
    for (unsigned axis = 0; axis < 3; axis++) {
      ProposalRequest request = {.tank_m = {1.5, 0.6, 0.6}, .stand_m = {1.4, 0.55, 0.75}};
      ProposalLimit limit = {0};

      request.stand_m[axis] = bad[i];
      g_assert_null (proposal_make (&request, catalogue, &limit));
      g_assert_cmpint (limit.code, ==, LIMIT_STAND_SIZE);
    }
}

static void
test_random (gconstpointer data)
{
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  const NumberStyle style = number_style_metric ();
  const int n = GPOINTER_TO_INT (data);
  int sound = 0;

  for (int i = 0; i < n; i++) {
    const double tank[3] = {between (0.4, 3.5), between (0.3, 1.2), between (0.3, 1)};
    const ProposalRequest request = {
        .tank_m = {tank[0], tank[1], tank[2]},
        .stand_m = {tank[0] + between (-0.3, 0.2), tank[1] + between (-0.2, 0.1), between (0.4, 1.1)},
        .us = g_test_rand_bit ()};
    ProposalLimit limit = {0};
    g_autoptr (Design) design = proposal_make (&request, catalogue, &limit);

    if (design != NULL) {
      g_autoptr (Evaluation) evaluation = evaluated (design, catalogue);

      g_assert_true (evaluation_is_sound (evaluation));
      sound++;
    } else {
      g_autofree char *sentence = proposal_sentence (&limit, &style);

      g_assert_cmpint (limit.code, !=, LIMIT_NONE);
      g_test_message ("%.3f x %.3f x %.3f on %.3f x %.3f x %.3f: %s", tank[0], tank[1], tank[2],
                      request.stand_m[0], request.stand_m[1], request.stand_m[2], sentence);
    }
  }
  g_test_message ("%d of %d sound", sound, n);
  g_assert_cmpint (sound, >, n / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/proposal/usual", test_usual);
  g_test_add_func ("/proposal/limits", test_limits);
  g_test_add_func ("/proposal/not-finite", test_not_finite);
  g_test_add_data_func ("/proposal/random", GINT_TO_POINTER (g_test_slow () ? 500 : 40), test_random);
  return g_test_run ();
}
