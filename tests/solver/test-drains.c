/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The three questions of a drain kept apart, the setting of a siphon, and the flood test, by hand where it can be done. */
#include "tests/solver/fixture.h"

#include <math.h>

#define G      9.80665
#define TRIALS 40

static Evaluation *
evaluate_with (const char *key, FieldId field, double value)
{
  Draft *draft = fixture_draft ();

  must_set (draft, key, field, value);
  return fixture_evaluate (draft);
}

/* Over its lip as a round weir (EPA SWMM Reference Manual II): 0.414 sqrt(2g) pi D h^1.5 up to h = 0.362 D. */
static double
lip_flow (double bore_m, double head_m)
{
  const double joint_m = 0.60 / (4 * 0.414) * bore_m;

  return head_m <= joint_m ? 0.414 * sqrt (2 * G) * G_PI * bore_m * pow (head_m, 1.5)
                           : 0.60 * G_PI / 4 * bore_m * bore_m * sqrt (2 * G * head_m);
}

static void
test_unprimed_capacity_by_hand (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const DrainState *emergency = &evaluation->drains[2];
  const OverflowState *overflow = &evaluation->overflows[0];
  double level_m;

  g_assert_cmpint (emergency->role, ==, DRAIN_EMERGENCY);
  g_assert_cmpfloat_with_epsilon (emergency->unprimed_rim_m3s,
                                  lip_flow (0.0409, emergency->rim_z - emergency->mouth_z), 1e-12);
  g_assert_cmpfloat (emergency->flow_m3s, ==, 0);
  g_assert_cmpfloat (overflow->blocked_unprimed_capacity_m3s, ==, emergency->unprimed_rim_m3s);
  /* The flood test is that relation turned round. */
  level_m = overflow->flood_unprimed_box_z - emergency->mouth_z;
  g_assert_cmpfloat_with_epsilon (lip_flow (0.0409, level_m), evaluation->totals.fast_flow_m3s,
                                  1e-8 * evaluation->totals.fast_flow_m3s);
  g_assert_cmpfloat (overflow->flood_unprimed_margin_m, <=,
                     overflow->lowest_rim_z - overflow->flood_unprimed_box_z);
}

/* Smooth pipe, new: Colebrook-White with K by Crane; the head used up is the whole fall. */
static void
test_primed_capacity_by_energy (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const DrainState *siphon = &evaluation->drains[0];
  const double bore_m = 0.0409, area_m2 = G_PI / 4 * bore_m * bore_m;
  const double velocity_ms = siphon->primed_m3s / area_m2;
  const double nu = 0.000959 / 1023.3; /* sea water of 25 degC and 35 g/kg, handbook */
  const double reynolds = velocity_ms * bore_m / nu;
  double x = 8, fall_m;

  for (unsigned i = 0; i < 50; i++)
    x = -2 * log10 (1.5e-6 / bore_m / 3.7 + 2.51 * x / reynolds);
  fall_m = (siphon->length_m / bore_m / (x * x) + siphon->k) * velocity_ms * velocity_ms / (2 * G);
  g_assert_cmpfloat_with_epsilon (fall_m, siphon->wanted_z - siphon->end_level_z, 0.003);
  /* Entrance 0.78, open gate valve 8 f_T with f_T = 0.021 of 1 1/2 inch (Crane TP-410 table, rounded), exit 1. */
  g_assert_cmpfloat_with_epsilon (siphon->k, 0.78 + 8 * 0.021 + 1, 0.01);
}

/* A siphon is set so that the box stands where it is wanted, and the valve takes up what is left of the fall. */
static void
test_siphon_is_set_to_the_wanted_level (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const DrainState *siphon = &evaluation->drains[0], *trickle = &evaluation->drains[1];
  const OverflowState *overflow = &evaluation->overflows[0];
  const double velocity_ms = siphon->flow_m3s / (G_PI / 4 * 0.0409 * 0.0409);
  double used_m;

  g_assert_cmpfloat_with_epsilon (overflow->box_z, overflow->wanted_box_z, 1e-6);
  g_assert_cmpfloat_with_epsilon (trickle->flow_m3s, 0.03 * overflow->flow_m3s, 0.002 * overflow->flow_m3s);
  g_assert_cmpfloat_with_epsilon (siphon->flow_m3s + trickle->flow_m3s, overflow->flow_m3s,
                                  1e-9 * overflow->flow_m3s);
  used_m = (siphon->valve_k + siphon->k) * velocity_ms * velocity_ms / (2 * G);
  g_assert_cmpfloat_with_epsilon (used_m, overflow->box_z - siphon->end_level_z, 0.02);
  g_assert_cmpfloat (siphon->valve_opening, >, 0);
  g_assert_cmpfloat (siphon->valve_opening, <, 0.5);
  g_assert_cmpfloat_with_epsilon (
      siphon->drift, siphon->drift_play_m / (2 * (overflow->box_z - siphon->end_level_z)), 1e-12);
}

/* A given opening is not touched: the box then stands where that opening puts it. */
static void
test_a_given_opening_is_kept (void)
{
  g_autoptr (Evaluation) evaluation = evaluate_with ("siphon-valve", FIELD_FITTING_OPENING, 0.08);

  g_assert_true (evaluation->drains[0].valve_is_given);
  g_assert_cmpfloat (evaluation->drains[0].valve_opening, ==, 0.08);
  g_assert_cmpfloat (evaluation->overflows[0].box_z, >, evaluation->overflows[0].wanted_box_z);
  g_assert_cmpfloat (evaluation->drains[1].flow_m3s, >, 0.1 * evaluation->overflows[0].flow_m3s);
}

static void
test_bigger_pipe_never_carries_less (void)
{
  static const char *const sizes[] = {"sch40-1/2",   "sch40-3/4",   "sch40-1",
                                      "sch40-1-1/4", "sch40-1-1/2", "sch40-2"};
  double unprimed_m3s = 0, primed_m3s = 0, quiet_m3s = 0;

  for (unsigned i = 0; i < G_N_ELEMENTS (sizes); i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;

    must_set_text (draft, "emergency", FIELD_DRAIN_SIZE, sizes[i]);
    evaluation = fixture_evaluate (draft);
    g_assert_cmpfloat (evaluation->drains[2].unprimed_rim_m3s, >, unprimed_m3s);
    g_assert_cmpfloat (evaluation->drains[2].primed_rim_m3s, >, primed_m3s);
    g_assert_cmpfloat (evaluation->drains[2].quiet_m3s, >, quiet_m3s);
    unprimed_m3s = evaluation->drains[2].unprimed_rim_m3s;
    primed_m3s = evaluation->drains[2].primed_rim_m3s;
    quiet_m3s = evaluation->drains[2].quiet_m3s;
  }
}

/* The flood margin is judged with a lip that takes 10 % less than by its coefficient (common practice): in the orifice
 * regime the head over it is then more by (1/0.9)^2, by hand. */
static void
test_flood_doubts_the_lip (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;
  const OverflowState *overflow;
  const DrainState *emergency;
  double head_m;

  must_set (draft, "overflow", FIELD_OVERFLOW_BOX_RIM, 0.57); /* the box decides, not the weir's doubt */
  must_set_text (draft, "emergency", FIELD_DRAIN_SIZE, "sch40-1");
  must_set (draft, "emergency", FIELD_DRAIN_MOUTH, 0.49);
  evaluation = fixture_evaluate (draft);
  overflow = &evaluation->overflows[0];
  emergency = &evaluation->drains[2];
  head_m = overflow->flood_unprimed_box_z - emergency->mouth_z;
  g_assert_cmpfloat (head_m, >, 0.362 * emergency->bore_m);
  g_assert_cmpfloat (overflow->box_z, <, overflow->crest_z);
  g_assert_cmpfloat_with_epsilon (overflow->flood_unprimed_margin_m,
                                  overflow->lowest_rim_z - emergency->mouth_z - head_m / (0.9 * 0.9), 1e-6);
}

/* Raising the emergency lip never helps in the flood test; plugging never raises a capacity. */
static void
test_monotone_in_lip_and_plug (void)
{
  for (unsigned i = 0; i < TRIALS; i++) {
    const double lip_m = g_test_rand_double_range (0.51, 0.54), plug = g_test_rand_double_range (0, 0.8);
    g_autoptr (Evaluation) low = evaluate_with ("emergency", FIELD_DRAIN_MOUTH, lip_m);
    g_autoptr (Evaluation) high = evaluate_with ("emergency", FIELD_DRAIN_MOUTH, lip_m + 0.004);
    g_autoptr (Evaluation) open = evaluate_with ("emergency", FIELD_DRAIN_PLUG, plug);
    g_autoptr (Evaluation) plugged = evaluate_with ("emergency", FIELD_DRAIN_PLUG, plug + 0.1);

    g_assert_cmpfloat (high->overflows[0].flood_unprimed_margin_m, <=,
                       low->overflows[0].flood_unprimed_margin_m);
    g_assert_cmpfloat (plugged->overflows[0].blocked_capacity_m3s, <=,
                       open->overflows[0].blocked_capacity_m3s);
  }
}

/* Where no drain carries the flow there is no steady state: levels stand at the rims and a stop says so. */
static void
test_no_steady_state (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;

  must_set (draft, "siphon", FIELD_DRAIN_PLUG, 1);
  must_set (draft, "trickle", FIELD_DRAIN_PLUG, 0.9);
  must_set (draft, "emergency", FIELD_DRAIN_PLUG, 1);
  evaluation = fixture_evaluate (draft);
  g_assert_cmpint (evaluation->status, ==, EVALUATION_NO_STEADY_STATE);
  g_assert_cmpfloat (evaluation->overflows[0].box_z, ==, evaluation->overflows[0].lowest_rim_z);
  g_assert_cmpfloat_with_epsilon (evaluation->tanks[0].display_z, evaluation->tanks[0].rim_z, 0.02);
  g_assert_false (evaluation_is_sound (evaluation));
  g_assert_nonnull (evaluation_finding (evaluation, CHECK_DRAIN_OVERRUN));
}

/* A strainer of known holes: flush entrance 0.5 (Crane TP-410) and a thin perforated plate of which s is open, K = ((0.707 sqrt (1
 * - s) + 1 - s) / s)^2 on the velocity before it (Idelchik, from memory), brought to the pipe by the square of pipe over face. */
static void
test_strainer_by_hand (void)
{
  static const double blocked[] = {0, 0.25, 0.5, 0.8};
  double last_k = 0, last_m3s = 1;

  for (unsigned i = 0; i < G_N_ELEMENTS (blocked); i++) {
    const double share = 0.4 * (1 - blocked[i]), face = 4;
    const double k = 0.5 + pow ((0.707 * sqrt (1 - share) + 1 - share) / share, 2) / (face * face);
    Draft *draft = fixture_draft (), *plain = fixture_draft ();

    must_set (plain, "emergency", FIELD_DRAIN_ENTRY, ENTRY_FLUSH);
    must_set (draft, "emergency", FIELD_DRAIN_ENTRY, ENTRY_STRAINER);
    must_set (draft, "emergency", FIELD_DRAIN_STRAINER_OPEN, 0.4);
    must_set (draft, "emergency", FIELD_DRAIN_STRAINER_FACE, face);
    must_set (draft, "emergency", FIELD_DRAIN_PLUG, blocked[i]);

    g_autoptr (Evaluation) screened = fixture_evaluate (draft), open = fixture_evaluate (plain);
    /* Idelchik's number is printed with three digits: 0.707 for the root of a half. */
    g_assert_cmpfloat_with_epsilon (screened->drains[2].k - open->drains[2].k, k - 0.5, 2e-3 * k);
    g_assert_cmpfloat (screened->drains[2].k, >, last_k);
    g_assert_cmpfloat (screened->drains[2].unprimed_rim_m3s, <=, last_m3s);
    last_k = screened->drains[2].k;
    last_m3s = screened->drains[2].unprimed_rim_m3s;
  }
}

/* An outside box and a pair through the pane: levels fall from display to box in that order. */
static void
test_other_overflow_kinds (void)
{
  g_autoptr (Evaluation) outside = evaluate_with ("overflow", FIELD_OVERFLOW_KIND, OVERFLOW_OUTSIDE);
  g_autoptr (Evaluation) pair = evaluate_with ("overflow", FIELD_OVERFLOW_KIND, OVERFLOW_PAIR);
  const double velocity_ms = pair->totals.flow_m3s / (2 * G_PI / 4 * 0.04 * 0.04);

  g_assert_cmpint (outside->status, ==, EVALUATION_OK);
  g_assert_cmpint (pair->status, ==, EVALUATION_OK);
  g_assert_cmpuint (pair->n_vessels, ==, outside->n_vessels + 1);
  g_assert_cmpfloat_with_epsilon (pair->overflows[0].inner_box_z - pair->overflows[0].box_z,
                                  1.5 * velocity_ms * velocity_ms / (2 * G), 1e-9);
  g_assert_cmpfloat (outside->tanks[0].water_m3, >, pair->tanks[0].water_m3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/drains/unprimed", test_unprimed_capacity_by_hand);
  g_test_add_func ("/solver/drains/lip-doubt", test_flood_doubts_the_lip);
  g_test_add_func ("/solver/drains/primed", test_primed_capacity_by_energy);
  g_test_add_func ("/solver/drains/setting", test_siphon_is_set_to_the_wanted_level);
  g_test_add_func ("/solver/drains/given-opening", test_a_given_opening_is_kept);
  g_test_add_func ("/solver/drains/bigger", test_bigger_pipe_never_carries_less);
  g_test_add_func ("/solver/drains/monotone", test_monotone_in_lip_and_plug);
  g_test_add_func ("/solver/drains/no-steady-state", test_no_steady_state);
  g_test_add_func ("/solver/drains/strainer", test_strainer_by_hand);
  g_test_add_func ("/solver/drains/kinds", test_other_overflow_kinds);
  return g_test_run ();
}
