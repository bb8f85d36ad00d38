/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One budget of water: what is there while running is there at rest, and drain-back is the sum of its lines. */
#include "tests/solver/fixture.h"

#include <math.h>

#define BUDGET 1e-9

typedef void (*Change) (Draft *draft);

static void
keep (Draft *draft)
{
}

static void
outside_box (Draft *draft)
{
  must_set (draft, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_OUTSIDE);
}

static void
pair_of_boxes (Draft *draft)
{
  must_set (draft, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_PAIR);
}

static void
hung_over_the_rim (Draft *draft)
{
  must_set (draft, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER);
}

static void
no_break (Draft *draft)
{
  must_set (draft, "outlet", FIELD_OUTLET_BREAK, 0);
  must_set (draft, "outlet", FIELD_OUTLET_HEIGHT, 0.2);
}

static void
small_sump (Draft *draft)
{
  must_set (draft, "sump", FIELD_SUMP_HEIGHT, 0.26);
  no_break (draft);
}

static void
two_pumps (Draft *draft)
{
  must_add (draft, PART_PUMP, "second-pump", NULL, "pumping");
  must_add (draft, PART_OUTLET, "second-outlet", NULL, "display");
  must_add (draft, PART_RETURN, "second-return", NULL, "second-pump");
  must_set_text (draft, "second-return", FIELD_RETURN_TO, "second-outlet");
}

static const Change changes[] = {keep,
                                 outside_box,
                                 pair_of_boxes,
                                 hung_over_the_rim,
                                 no_break,
                                 small_sump,
                                 two_pumps,
                                 fixture_add_second_overflow,
                                 fixture_add_second_tank};

static void
test_budget_closes (void)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (changes); i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;
    double running_m3 = 0, rest_m3 = 0;

    changes[i](draft);
    evaluation = fixture_evaluate (draft);
    g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
    g_assert_cmpfloat (fabs (evaluation->totals.total_water_m3 - evaluation->totals.power_off_water_m3), <=,
                       BUDGET * evaluation->totals.total_water_m3);
    /* The same from the vessels alone: what the pipes lose the vessels gain. */
    for (unsigned k = 0; k < evaluation->n_vessels; k++) {
      running_m3 += evaluation->vessels[k].running_m3;
      rest_m3 += evaluation->vessels[k].power_off_m3;
    }
    for (unsigned k = 0; k < evaluation->n_runs; k++)
      running_m3 += evaluation->runs[k].above_sump_m3;
    for (unsigned k = 0; k < evaluation->n_drains; k++)
      running_m3 += evaluation->drains[k].above_sump_m3;
    g_assert_cmpfloat (fabs (running_m3 - rest_m3 - evaluation->drain_back.spilled_m3), <=,
                       BUDGET * running_m3);
  }
}

/* An outlet at 0.50 m with a break at 0.30 m stops where one without a break does: its own mouth draws air first. */
static void
test_break_under_mouth (void)
{
  double total_m3[2];

  for (int has_break = 0; has_break < 2; has_break++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;

    must_set (draft, "outlet", FIELD_OUTLET_HEIGHT, 0.50);
    must_set (draft, "outlet", FIELD_OUTLET_BREAK, has_break);
    must_set (draft, "outlet", FIELD_OUTLET_BREAK_HEIGHT, 0.30);
    evaluation = fixture_evaluate (draft);
    total_m3[has_break] = evaluation->drain_back.total_m3;
  }
  g_assert_cmpfloat_with_epsilon (total_m3[0], total_m3[1], 1e-12);
}

static void
test_lines_sum (void)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (changes); i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;
    double total_m3 = 0, plugged_m3 = 0;

    changes[i](draft);
    evaluation = fixture_evaluate (draft);
    for (unsigned k = 0; k < evaluation->drain_back.n_lines; k++)
      total_m3 += evaluation->drain_back.lines[k].m3;
    for (unsigned k = 0; k < evaluation->plugged.n_lines; k++)
      plugged_m3 += evaluation->plugged.lines[k].m3;
    g_assert_true (total_m3 == evaluation->drain_back.total_m3);
    g_assert_true (plugged_m3 == evaluation->plugged.total_m3);
    g_assert_cmpfloat (plugged_m3, >=, total_m3);
  }
}

/* What comes back to each tank goes over its own crests, and each overflow's drains carry its share. */
static void
test_flows_balance (void)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (changes); i++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;

    changes[i](draft);
    evaluation = fixture_evaluate (draft);
    for (unsigned t = 0; t < evaluation->n_tanks; t++) {
      const TankState *tank = &evaluation->tanks[t];
      double over_m3s = 0, back_m3s = 0;

      for (unsigned k = 0; k < evaluation->n_outlets; k++)
        if (evaluation->outlets[k].tank == tank->part)
          back_m3s += evaluation->outlets[k].flow_m3s;
      for (unsigned k = 0; k < evaluation->n_overflows; k++)
        if (evaluation->overflows[k].tank == tank->part) {
          const OverflowState *overflow = &evaluation->overflows[k];
          double drained_m3s = 0;

          over_m3s += overflow->flow_m3s;
          g_assert_cmpfloat (overflow->head_m, >, 0);
          for (unsigned d = 0; d < evaluation->n_drains; d++)
            if (evaluation->drains[d].overflow == overflow->part)
              drained_m3s += evaluation->drains[d].flow_m3s;
          g_assert_cmpfloat_with_epsilon (drained_m3s, overflow->flow_m3s, 1e-9 * overflow->flow_m3s);
        }
      g_assert_cmpfloat_with_epsilon (over_m3s, back_m3s, 1e-9 * back_m3s);
      g_assert_cmpfloat_with_epsilon (tank->flow_m3s, back_m3s, 1e-12);
    }
  }
}

/* By hand: tank inside 1476 x 576 mm less a box of 512 x 126 mm outside; box inside 500 x 120 mm. */
static void
test_drain_back_by_hand (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const OverflowState *overflow = &evaluation->overflows[0];
  const TankState *tank = &evaluation->tanks[0];
  const double display_m3 = (1.476 * 0.576 - 0.512 * 0.126) * (tank->display_z - overflow->crest_z);
  const double box_m3 = 0.5 * 0.12 * (overflow->box_z - evaluation->drains[0].mouth_z);
  double pipes_m3 = 0, free_m3 = 0;

  for (unsigned i = 0; i < evaluation->drain_back.n_lines; i++) {
    const BackLine *line = &evaluation->drain_back.lines[i];

    if (line->kind == BACK_DISPLAY_WEIR)
      g_assert_cmpfloat_with_epsilon (line->m3, display_m3, 1e-12);
    else if (line->kind == BACK_BOX)
      g_assert_cmpfloat_with_epsilon (line->m3, box_m3, 1e-12);
    else
      pipes_m3 += line->m3;
  }
  g_assert_cmpfloat (tank->rest_z, ==, overflow->crest_z);
  g_assert_cmpfloat_with_epsilon (evaluation->drain_back.total_m3, display_m3 + box_m3 + pipes_m3, 1e-12);
  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    if (evaluation->vessels[i].kind == VESSEL_CHAMBER) {
      const VesselState *chamber = &evaluation->vessels[i];

      g_assert_cmpfloat_with_epsilon (chamber->free_m3,
                                      0.9 * chamber->area_m2 * (chamber->rim_z - chamber->running_z), 1e-12);
      free_m3 += chamber->free_m3;
    }
  g_assert_cmpfloat_with_epsilon (evaluation->drain_back.free_m3, free_m3, 1e-12);
  g_assert_cmpfloat_with_epsilon (evaluation->drain_back.margin_m3, free_m3 - evaluation->drain_back.total_m3,
                                  1e-12);
}

/* A check valve is never counted on: with one or without, the same water runs back. */
static void
test_check_valve_changes_no_verdict (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) without = NULL, with = NULL;

  no_break (draft);
  without = fixture_evaluate (draft);
  draft = fixture_draft ();
  no_break (draft);
  must_add (draft, PART_FITTING, "check", NULL, "return");
  must_set_text (draft, "check", FIELD_FITTING_TYPE, "check-valve");
  with = fixture_evaluate (draft);
  g_assert_nonnull (evaluation_finding (with, CHECK_CHECK_VALVE));
  g_assert_cmpfloat (with->totals.flow_m3s, <, without->totals.flow_m3s);
  g_assert_nonnull (evaluation_finding (with, CHECK_NO_BREAK));
  /* The lower flow alone changes the slice over the crest. */
  g_assert_cmpfloat (fabs (with->drain_back.total_m3 - without->drain_back.total_m3), <, 0.003);
}

/* An outlet in the air does not draw the display down. */
static void
test_free_outlet_does_not_siphon (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;

  no_break (draft);
  must_set (draft, "outlet", FIELD_OUTLET_KIND, OUTLET_FREE);
  must_set (draft, "outlet", FIELD_OUTLET_HEIGHT, 0.62);
  evaluation = fixture_evaluate (draft);
  g_assert_false (evaluation->outlets[0].siphons);
  g_assert_cmpfloat (evaluation->plugged.total_m3, ==, evaluation->drain_back.total_m3);
  g_assert_null (evaluation_finding (evaluation, CHECK_NO_BREAK));
}

/* Rock stands below the slice: it changes the water, not the drain-back. */
static void
test_rock_is_never_deducted_from_the_slice (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) base = fixture_evaluate (fixture_draft ()), rocky = NULL;

  must_set (draft, "display", FIELD_TANK_ROCK, 0.3);
  rocky = fixture_evaluate (draft);
  g_assert_cmpfloat (rocky->drain_back.total_m3, ==, base->drain_back.total_m3);
  g_assert_cmpfloat (rocky->totals.total_water_m3, <, base->totals.total_water_m3);
  g_assert_cmpfloat (rocky->totals.turnover_per_h, >, base->totals.turnover_per_h);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/budget/closes", test_budget_closes);
  g_test_add_func ("/solver/budget/flows", test_flows_balance);
  g_test_add_func ("/solver/budget/break-under-mouth", test_break_under_mouth);
  g_test_add_func ("/solver/budget/lines-sum", test_lines_sum);
  g_test_add_func ("/solver/budget/by-hand", test_drain_back_by_hand);
  g_test_add_func ("/solver/budget/check-valve", test_check_valve_changes_no_verdict);
  g_test_add_func ("/solver/budget/free-outlet", test_free_outlet_does_not_siphon);
  g_test_add_func ("/solver/budget/rock", test_rock_is_never_deducted_from_the_slice);
  return g_test_run ();
}
