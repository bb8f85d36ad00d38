/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Compiling: what it refuses, and patches of a pump. */
#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#include <math.h>
#include <string.h>

static void
check_refused (Draft *draft, SystemStatus expected, const char *key)
{
  g_autoptr (Design) design = fixture_commit (draft);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  SystemStatus status = SYSTEM_OK;
  int part = -2;

  g_assert_null (system_compile (design, catalogue, &status, &part));
  g_assert_cmpint (status, ==, expected);
  g_assert_cmpint (part, ==, key != NULL ? design_index (design, key) : -1);
  g_assert_false (evaluate_design (design, catalogue, NULL, NULL, NULL, NULL));
}

static void
test_unknown_sizes_are_refused (void)
{
  Draft *draft = fixture_draft ();

  must_set_text (draft, "siphon", FIELD_DRAIN_SIZE, "no-such-pipe");
  check_refused (draft, SYSTEM_UNKNOWN_PIPE, "siphon");
  draft = fixture_draft ();
  must_set_text (draft, "return", FIELD_RETURN_SIZE, "no-such-pipe");
  check_refused (draft, SYSTEM_UNKNOWN_PIPE, "return");
  draft = fixture_draft ();
  must_set_text (draft, "return-union", FIELD_FITTING_TYPE, "no-such-fitting");
  check_refused (draft, SYSTEM_UNKNOWN_FITTING, "return-union");
}

static void
test_status_texts (void)
{
  for (SystemStatus status = 0; status < N_SYSTEM_STATUSES; status++)
    g_assert_cmpstr (system_status_text (status), !=, "unknown status");
}

/* A patched system is that of the patched design, to the last digit. */
static void
test_patch_equals_compile (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Design) design = fixture_commit (fixture_draft ());
  g_autoptr (System) system = system_compile (design, catalogue, NULL, NULL);
  g_autoptr (Workspace) workspace = workspace_new (system);
  g_autoptr (Evaluation) patched = evaluation_new ();
  g_autoptr (Evaluation) compiled = NULL;
  const char *curve = "0:2.8 0.0005:2.4 0.001:1.4";

  must_set_text (draft, "return-pump", FIELD_PUMP_CURVE, curve);
  must_set (draft, "return-pump", FIELD_PUMP_WATTS, 55);
  must_set (draft, "return-pump", FIELD_PUMP_SPEED, 0.9);
  compiled = fixture_evaluate (draft);
  evaluate (system, workspace, NULL, patched);
  g_assert_cmpuint (system_n_pumps (system), ==, 1);
  g_assert_cmpint (system_pump_part (system, 0), ==, design_index (design, "return-pump"));
  g_assert_true (system_set_pump_curve (system, 0, curve, 55));
  g_assert_true (system_set_pump_speed (system, 0, 0.9));
  evaluate (system, workspace, NULL, patched);
  g_assert_true (patched->totals.flow_m3s == compiled->totals.flow_m3s);
  g_assert_true (patched->totals.pump_power_w == compiled->totals.pump_power_w);
  g_assert_true (patched->drain_back.total_m3 == compiled->drain_back.total_m3);
  g_assert_cmpuint (patched->n_findings, ==, compiled->n_findings);
}

static void
test_bad_patches_change_nothing (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Design) design = fixture_commit (fixture_draft ());
  g_autoptr (System) system = system_compile (design, catalogue, NULL, NULL);
  g_autoptr (Workspace) workspace = workspace_new (system);
  g_autoptr (Evaluation) before = evaluation_new ();
  g_autoptr (Evaluation) after = evaluation_new ();

  evaluate (system, workspace, NULL, before);
  g_assert_false (system_set_pump_speed (system, 0, 0.1));
  g_assert_false (system_set_pump_speed (system, 0, NAN));
  g_assert_false (system_set_pump_speed (system, 1, 0.8));
  g_assert_false (system_set_pump_curve (system, 0, "0:1", 40));
  g_assert_false (system_set_pump_curve (system, 0, "0:1 0.001:0.5", NAN));
  g_assert_false (system_set_pump_curve (system, 7, "0:1 0.001:0.5", 40));
  evaluate (system, workspace, NULL, after);
  g_assert_true (before->totals.flow_m3s == after->totals.flow_m3s);
}

/* Two evaluations of one system agree to the last digit, whatever was solved between. */
static void
test_evaluation_repeats (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Design) design = fixture_commit (fixture_draft ());
  g_autoptr (System) system = system_compile (design, catalogue, NULL, NULL);
  g_autoptr (Workspace) workspace = workspace_new (system);
  g_autoptr (Evaluation) first = evaluation_new ();
  g_autoptr (Evaluation) second = evaluation_new ();

  evaluate (system, workspace, NULL, first);
  g_assert_true (system_set_pump_speed (system, 0, 1));
  evaluate (system, workspace, NULL, second);
  g_assert_cmpfloat (second->totals.flow_m3s, >, first->totals.flow_m3s);
  g_assert_true (system_set_pump_speed (system, 0, 0.79));
  evaluate (system, workspace, NULL, second);
  g_assert_true (first->totals.flow_m3s == second->totals.flow_m3s);
  g_assert_true (first->totals.total_water_m3 == second->totals.total_water_m3);
  g_assert_true (first->overflows[0].flood_unprimed_margin_m == second->overflows[0].flood_unprimed_margin_m);
}

/* Every field unknown: defaults, and a finite evaluation. */
static void
test_bare_design (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_bare_draft ());
  const Totals *totals = &evaluation->totals;

  g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
  g_assert_true (isfinite (totals->flow_m3s) && isfinite (totals->turnover_per_h) &&
                 isfinite (totals->total_water_m3));
  g_assert_true (isfinite (totals->top_off_days) && isfinite (totals->yearly_cost) &&
                 isfinite (totals->drain_margin));
  g_assert_true (totals->evaporation_assumed);
  /* One drain: nothing carries the water when it is blocked. */
  g_assert_true (isnan (totals->flood_margin_m));
  g_assert_cmpfloat (totals->drain_blocked_m3s, ==, 0);
}

static void
test_states_are_found_by_part (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());

  g_assert_nonnull (evaluation_tank (evaluation, fixture_part ("display")));
  g_assert_nonnull (evaluation_overflow (evaluation, fixture_part ("overflow")));
  g_assert_nonnull (evaluation_drain (evaluation, fixture_part ("siphon")));
  g_assert_nonnull (evaluation_pump (evaluation, fixture_part ("return-pump")));
  g_assert_nonnull (evaluation_run (evaluation, fixture_part ("return")));
  g_assert_nonnull (evaluation_outlet (evaluation, fixture_part ("outlet")));
  g_assert_nonnull (evaluation_vessel (evaluation, fixture_part ("trap"), VESSEL_CHAMBER));
  g_assert_null (evaluation_vessel (evaluation, fixture_part ("trap"), VESSEL_TANK));
  g_assert_null (evaluation_pump (evaluation, fixture_part ("outlet")));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/system/refused", test_unknown_sizes_are_refused);
  g_test_add_func ("/solver/system/texts", test_status_texts);
  g_test_add_func ("/solver/system/patch", test_patch_equals_compile);
  g_test_add_func ("/solver/system/bad-patch", test_bad_patches_change_nothing);
  g_test_add_func ("/solver/system/repeats", test_evaluation_repeats);
  g_test_add_func ("/solver/system/bare", test_bare_design);
  g_test_add_func ("/solver/system/by-part", test_states_are_found_by_part);
  return g_test_run ();
}
