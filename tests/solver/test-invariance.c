/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What must not change an evaluation, and how it answers to the water: units, a second pump that cannot lift,
 * cold and warm, fresh and salt water. */
#include "tests/solver/fixture.h"

#include <math.h>

static Evaluation *
evaluate_with (const char *key, FieldId field, double value)
{
  Draft *draft = fixture_draft ();

  must_set (draft, key, field, value);
  return fixture_evaluate (draft);
}

static void
assert_same (const Evaluation *a, const Evaluation *b)
{
  g_assert_cmpfloat (a->totals.flow_m3s, ==, b->totals.flow_m3s);
  g_assert_cmpfloat (a->totals.total_water_m3, ==, b->totals.total_water_m3);
  g_assert_cmpfloat (a->drain_back.upper_total_m3, ==, b->drain_back.upper_total_m3);
  g_assert_cmpfloat (a->overflows[0].flood_unprimed_margin_m, ==, b->overflows[0].flood_unprimed_margin_m);
  g_assert_cmpfloat (a->transfers[0].margin_m3, ==, b->transfers[0].margin_m3);
  g_assert_cmpuint (a->n_findings, ==, b->n_findings);
  for (unsigned i = 0; i < a->n_findings; i++) {
    g_assert_cmpint (a->findings[i].check, ==, b->findings[i].check);
    g_assert_cmpfloat (a->findings[i].margin, ==, b->findings[i].margin);
  }
}

/* Units and paper are a matter of showing: not a bit of a result hangs on them. */
static void
test_units_change_nothing (void)
{
  g_autoptr (Evaluation) metric = evaluate_with ("job", FIELD_JOB_UNITS, UNITS_CHOICE_METRIC);
  g_autoptr (Evaluation) us = evaluate_with ("job", FIELD_JOB_UNITS, UNITS_CHOICE_US);

  assert_same (metric, us);
}

/* A pump behind its check valve that cannot lift gives nothing to its own outlet and takes nothing from the other's. */
static void
test_idle_pump_changes_no_flow (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) alone = fixture_evaluate (fixture_draft ()), both = NULL;

  must_add (draft, PART_PUMP, "idle", NULL, "pumping");
  must_set_text (draft, "idle", FIELD_PUMP_CURVE, "0:0.5 0.0005:0.3 0.001:0");
  must_add (draft, PART_OUTLET, "idle-outlet", NULL, "display");
  must_add (draft, PART_RETURN, "idle-return", NULL, "idle");
  must_set_text (draft, "idle-return", FIELD_RETURN_TO, "idle-outlet");
  both = fixture_evaluate (draft);
  g_assert_cmpfloat (both->pumps[1].flow_m3s, ==, 0);
  g_assert_cmpfloat_with_epsilon (both->totals.flow_m3s, alone->totals.flow_m3s,
                                  1e-9 * alone->totals.flow_m3s);
}

/* Warm water is thinner: more flow through the same loop; the whole range is worth a few per cent. Salt makes it heavier
 * and a little more viscous, which metres of water do not show but for the second. */
static void
test_cold_and_warm_fresh_and_salt (void)
{
  double before_m3s = 0;

  for (int t = 0; t <= 40; t += 4) {
    g_autoptr (Evaluation) evaluation = evaluate_with ("room", FIELD_ROOM_WATER_TEMPERATURE, t);

    g_assert_cmpfloat (evaluation->totals.flow_m3s, >, before_m3s);
    g_assert_true (before_m3s <= 0 || evaluation->totals.flow_m3s < 1.02 * before_m3s);
    before_m3s = evaluation->totals.flow_m3s;
  }
  g_autoptr (Evaluation) fresh = evaluate_with ("room", FIELD_ROOM_SALINITY, 0);
  g_autoptr (Evaluation) salt = evaluate_with ("room", FIELD_ROOM_SALINITY, 45);

  g_assert_cmpfloat (salt->totals.flow_m3s, <, fresh->totals.flow_m3s);
  g_assert_cmpfloat (salt->totals.flow_m3s, >, 0.99 * fresh->totals.flow_m3s);
}

/* Random speeds and openings: more speed is never less flow, nor a drain further blocked a lower box. */
static void
test_monotone (void)
{
  for (int i = 0; i < 40; i++) {
    const double low = g_test_rand_double_range (0.6, 0.99), high = g_test_rand_double_range (low, 1);
    g_autoptr (Evaluation) slow = evaluate_with ("return-pump", FIELD_PUMP_SPEED, low),
                           fast = evaluate_with ("return-pump", FIELD_PUMP_SPEED, high),
                           open = evaluate_with ("emergency", FIELD_DRAIN_PLUG, 1 - high),
                           shut = evaluate_with ("emergency", FIELD_DRAIN_PLUG, 1 - low);

    g_assert_cmpfloat (fast->totals.flow_m3s, >=, slow->totals.flow_m3s);
    g_assert_cmpfloat (fast->tanks[0].display_z, >=, slow->tanks[0].display_z);
    g_assert_cmpfloat (fast->drain_back.total_m3, >=, slow->drain_back.total_m3 * (1 - 1e-9));
    g_assert_cmpfloat (open->overflows[0].flood_unprimed_margin_m, >=,
                       shut->overflows[0].flood_unprimed_margin_m - 1e-9);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/invariance/units", test_units_change_nothing);
  g_test_add_func ("/solver/invariance/idle-pump", test_idle_pump_changes_no_flow);
  g_test_add_func ("/solver/invariance/water", test_cold_and_warm_fresh_and_salt);
  g_test_add_func ("/solver/invariance/monotone", test_monotone);
  return g_test_run ();
}
