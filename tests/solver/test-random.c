/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Random designs, seeded by GLib's generator (--seed replays one): whatever a draft admits, and whatever edits in any order
 * lead to, is evaluated to finite numbers or to an explicit status, never to a crash, a hang or a number that is not one,
 * and the water budget closes. A faster pump never gives less, more in its way never more. The long form tries more. */
#include "design/catalogue.h"
#include "design/edit.h"
#include "tests/design/random-edit.h"
#include "tests/solver/fixture.h"
#include "tests/solver/random-design.h"

#include <math.h>

#define DESIGNS    1000
#define EDITS      1000
#define SEARCHES   100
#define LONG_FORM  20 /* times as many */
#define PARTS_MOST 120
#define BUDGET     1e-9
#define MONOTONE   1e-6

static unsigned
many (unsigned n)
{
  return g_test_slow () ? LONG_FORM * n : n;
}

static void
check_finding (const Finding *finding)
{
  g_assert_cmpint (finding->check, <, N_CHECKS);
  if (!isfinite (finding->value) || !isfinite (finding->limit) || !isfinite (finding->margin) ||
      !isfinite (finding->lower) || !isfinite (finding->upper) || !isfinite (finding->relative_margin))
    g_error ("%s: value %g limit %g margin %g lower %g upper %g", check_word (finding->check), finding->value,
             finding->limit, finding->margin, finding->lower, finding->upper);
  for (unsigned i = 0; i < finding->n_seconds; i++)
    if (isnan (finding->seconds[i]))
      g_error ("%s: second %u", check_word (finding->check), i);
  if (finding->remedy.part >= 0)
    g_assert_true (isfinite (finding->remedy.value));
}

static void
check_levels (const Evaluation *evaluation)
{
  for (unsigned i = 0; i < evaluation->n_vessels; i++) {
    const VesselState *vessel = &evaluation->vessels[i];

    g_assert_true (isfinite (vessel->running_z));
    g_assert_true (isfinite (vessel->power_off_z));
    g_assert_true (isfinite (vessel->power_off_plugged_z));
    g_assert_true (isfinite (vessel->running_m3));
    g_assert_true (isfinite (vessel->lowest_z));
    g_assert_cmpfloat (vessel->running_m3, >=, -1e-12);
    g_assert_cmpfloat (vessel->power_off_z, <=, vessel->rim_z + 1e-9);
  }
  for (unsigned i = 0; i < evaluation->n_drains; i++) {
    g_assert_true (isfinite (evaluation->drains[i].flow_m3s));
    g_assert_true (isfinite (evaluation->drains[i].unprimed_m3s));
    g_assert_true (isfinite (evaluation->drains[i].primed_m3s));
    g_assert_cmpfloat (evaluation->drains[i].flow_m3s, >=, 0);
  }
}

static void
check_evaluation (const Evaluation *evaluation)
{
  const Totals *totals = &evaluation->totals;

  for (unsigned i = 0; i < evaluation->n_findings; i++)
    check_finding (&evaluation->findings[i]);
  if (evaluation->status == EVALUATION_NOT_SOLVED)
    return;
  check_levels (evaluation);
  g_assert_true (isfinite (totals->flow_m3s) && isfinite (totals->total_water_m3));
  g_assert_cmpfloat (totals->flow_m3s, >=, 0);
  g_assert_cmpfloat (fabs (totals->total_water_m3 - totals->power_off_water_m3), <=,
                     BUDGET * fmax (fabs (totals->total_water_m3), 1e-3));
  if (evaluation->status != EVALUATION_OK)
    g_assert_false (evaluation_is_sound (evaluation));
}

static void
test_random_designs (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  unsigned n_status[N_EVALUATION_STATUSES] = {0}, sound = 0;

  for (unsigned i = 0; i < many (DESIGNS); i++) {
    g_autoptr (Design) base = random_base (i);
    g_autoptr (Design) design = random_design (base, i % 2 == 0 ? 0.05 : 0.4);
    SystemStatus status;
    int part;

    if (!evaluate_design (design, catalogue, NULL, evaluation, &status, &part))
      g_error ("%s", system_status_text (status));
    check_evaluation (evaluation);
    n_status[evaluation->status]++;
    sound += evaluation_is_sound (evaluation);
  }
  for (unsigned i = 0; i < N_EVALUATION_STATUSES; i++)
    g_test_message ("%s: %u", evaluation_status_text ((EvaluationStatus) i), n_status[i]);
  g_test_message ("sound: %u", sound);
  g_assert_cmpuint (n_status[EVALUATION_NOT_SOLVED], <, many (DESIGNS) / 50);
}

/* Edits one after the other; what they lead to is evaluated where it changed. */
static void
test_edits (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  Design *design = fixture_commit (fixture_draft ());
  unsigned evaluated = 0;

  for (unsigned i = 0; i < many (EDITS); i++) {
    const Part *part =
        design_part (design, (unsigned) g_test_rand_int_range (0, (gint32) design_n_parts (design)));
    char key[MAX_KEY_BYTES + 1];
    Problem problem = {0};
    Design *changed = random_edit (design, part_key (part), key, &problem);
    SystemStatus status = SYSTEM_OK;
    int at;

    if (changed == NULL)
      continue;
    design_unref (design);
    design = changed;
    if (evaluate_design (design, catalogue, NULL, evaluation, &status, &at)) {
      check_evaluation (evaluation);
      evaluated++;
    } else {
      g_assert_cmpint (status, !=, SYSTEM_OK);
    }
    if (design_n_parts (design) > PARTS_MOST) { /* start small again */
      design_unref (design);
      design = fixture_commit (fixture_draft ());
    }
  }
  g_test_message ("%u edits evaluated", evaluated);
  g_assert_cmpuint (evaluated, >, many (EDITS) / 20);
  design_unref (design);
}

/* Flow to all displays; NAN where there is no plain steady state. */
static double
steady_flow (Design *design, Catalogue *catalogue, Evaluation *evaluation)
{
  g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL));
  return evaluation->status == EVALUATION_OK ? evaluation->totals.flow_m3s : (double) NAN;
}

/* A pair of designs of which the second may not give more: a slower pump, or a check valve more in its pipe. */
static Design *
held_back (const Design *design)
{
  const double speed = design_number (design, design_find (design, "return-pump"), FIELD_PUMP_SPEED);

  return g_test_rand_bit () ? design_with_number ((Design *) design, "return-pump", FIELD_PUMP_SPEED,
                                                  g_test_rand_double_range (0.3, speed + 1e-9), NULL)
                            : edit_add_fitting (design, "return", "check-valve",
                                                g_test_rand_double_range (0.01, 0.5), NULL, NULL);
}

static void
test_monotone (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  unsigned compared = 0;

  for (unsigned i = 0; i < many (SEARCHES); i++) {
    g_autoptr (Design) base = fixture_commit (fixture_draft ());
    g_autoptr (Design) design = random_design (base, 0.05);
    g_autoptr (Design) held = held_back (design);
    double flow_m3s, held_m3s;

    if (held == NULL)
      continue;
    flow_m3s = steady_flow (design, catalogue, evaluation);
    held_m3s = steady_flow (held, catalogue, evaluation);
    if (isnan (flow_m3s) || isnan (held_m3s))
      continue;
    compared++;
    if (held_m3s > flow_m3s * (1 + MONOTONE))
      g_error ("%.9g m3/s with more in the way, %.9g without", held_m3s, flow_m3s);
  }
  g_test_message ("%u pairs", compared);
  g_assert_cmpuint (compared, >, many (SEARCHES) / 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/random/designs", test_random_designs);
  g_test_add_func ("/solver/random/edits", test_edits);
  g_test_add_func ("/solver/random/monotone", test_monotone);
  return g_test_run ();
}
