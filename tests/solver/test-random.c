/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Random designs, seeded by GLib's generator (--seed replays one): whatever a draft admits is evaluated to finite
 * numbers or to an explicit status, never to a crash, a hang or a number that is not one. */
#include "design/catalogue.h"
#include "tests/solver/fixture.h"

#include <math.h>

#define DESIGNS 1000
#define BUDGET  1e-9

static double
random_value (const FieldInfo *info, double now)
{
  if (info->type == FIELD_FLAG)
    return g_test_rand_int_range (0, 2);
  if (info->type == FIELD_CHOICE) {
    int n = 0;

    while (info->choices[n].word != NULL)
      n++;
    return g_test_rand_int_range (0, n);
  }
  switch (g_test_rand_int_range (0, 8)) {
  case 0:
    return info->min;
  case 1:
    return info->max;
  case 2:
    return g_test_rand_double_range (info->min, info->max);
  default:
    return CLAMP (now * exp (g_test_rand_double_range (-1.0, 1.0)), info->min, info->max);
  }
}

/* Changes a share of all fields, one by one; a value that would break an invariant is taken back. */
static Design *
random_design (Design *base, double share)
{
  Design *design = design_ref (base);

  for (unsigned i = 0; i < design_n_parts (base); i++) {
    const Part *part = design_part (base, i);
    const PartKind kind = part_kind (part);

    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      const FieldInfo *info = field_info (id);
      Design *changed;

      if (info->type != FIELD_NUMBER && info->type != FIELD_CHOICE && info->type != FIELD_FLAG)
        continue;
      if (g_test_rand_double () >= share)
        continue;
      changed = design_with_number (
          design, part_key (part), id,
          random_value (info, design_number (design, design_find (design, part_key (part)), id)), NULL);
      if (changed != NULL) {
        design_unref (design);
        design = changed;
      }
    }
  }
  return design;
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

static Design *
base_design (unsigned trial)
{
  Draft *draft = trial % 3 == 0 ? fixture_bare_draft () : fixture_draft ();

  if (trial % 50 == 1)
    fixture_add_second_overflow (draft);
  if (trial % 50 == 2)
    fixture_add_second_tank (draft);
  return fixture_commit (draft);
}

static void
test_random_designs (void)
{
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  unsigned n_status[N_EVALUATION_STATUSES] = {0}, sound = 0;

  for (unsigned i = 0; i < DESIGNS; i++) {
    g_autoptr (Design) base = base_design (i);
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
  g_assert_cmpuint (n_status[EVALUATION_NOT_SOLVED], <, DESIGNS / 50);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/random/designs", test_random_designs);
  return g_test_run ();
}
