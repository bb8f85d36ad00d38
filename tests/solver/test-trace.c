/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The record of a calculation: complete rows, the same numbers as the evaluation, and no influence on it. */
#include "tests/solver/fixture.h"

#include <math.h>

static void
test_rows_are_complete (void)
{
  for (StepId id = 0; id < N_STEPS; id++) {
    const StepInfo *info = step_info (id);

    g_assert_cmpint (info->id, ==, id);
    g_assert_cmpstr (info->title, !=, "");
    g_assert_cmpstr (info->formula, !=, "");
    g_assert_cmpstr (info->source, !=, "");
    g_assert_cmpuint (step_n_symbols (id), >=, 1);
    g_assert_true (g_utf8_validate (info->formula, -1, NULL));
    for (unsigned i = 0; i < step_n_symbols (id); i++)
      g_assert_cmpstr (info->symbols[i].meaning, !=, "");
  }
}

static void
test_recording_changes_nothing (void)
{
  g_autoptr (Trace) trace = trace_new ();
  g_autoptr (Evaluation) traced = fixture_evaluate_traced (fixture_draft (), trace);
  g_autoptr (Evaluation) silent = fixture_evaluate (fixture_draft ());

  g_assert_cmpuint (trace_n_steps (trace), >, 50);
  g_assert_true (traced->totals.flow_m3s == silent->totals.flow_m3s);
  g_assert_true (traced->drain_back.total_m3 == silent->drain_back.total_m3);
  g_assert_null (trace_step (trace, trace_n_steps (trace)));
}

static const Step *
find_step (const Trace *trace, StepId id, Scenario scenario)
{
  for (unsigned i = 0; i < trace_n_steps (trace); i++)
    if (trace_step (trace, i)->id == id && trace_step (trace, i)->scenario == scenario)
      return trace_step (trace, i);
  g_error ("no step %s", step_info (id)->title);
}

static void
test_steps_hold_the_numbers_of_the_evaluation (void)
{
  g_autoptr (Trace) trace = trace_new ();
  g_autoptr (Evaluation) evaluation = fixture_evaluate_traced (fixture_draft (), trace);
  const Step *total = find_step (trace, STEP_BACK_TOTAL, SCENARIO_POWER_OFF);
  double sum_m3 = 0;

  for (unsigned i = 0; i < trace_n_steps (trace); i++) {
    const Step *step = trace_step (trace, i);

    if (step->scenario == SCENARIO_POWER_OFF && (step->id == STEP_BACK_DISPLAY || step->id == STEP_BACK_BOX ||
                                                 step->id == STEP_BACK_RUN || step->id == STEP_BACK_DRAIN))
      sum_m3 += step->values[0];
  }
  g_assert_cmpfloat_with_epsilon (sum_m3, total->values[0], 1e-15);
  g_assert_true (total->values[0] == evaluation->drain_back.total_m3);
  g_assert_true (find_step (trace, STEP_PUMP_DUTY, SCENARIO_RUNNING)->values[0] ==
                 evaluation->pumps[0].flow_m3s);
  g_assert_true (find_step (trace, STEP_OVERFLOW_HEAD, SCENARIO_RUNNING)->values[0] ==
                 evaluation->overflows[0].head_m);
  g_assert_true (find_step (trace, STEP_TURNOVER, SCENARIO_RUNNING)->values[0] ==
                 evaluation->totals.turnover_per_h);
  g_assert_true (find_step (trace, STEP_FLOOD, SCENARIO_FLOOD_UNPRIMED)->values[0] ==
                 evaluation->overflows[0].flood_unprimed_margin_m);
  g_assert_true (find_step (trace, STEP_TRANSFER, SCENARIO_TRANSFER)->values[0] ==
                 evaluation->transfers[0].margin_m3);
}

/* A formula that is printed gives the number beside it. */
static void
test_printed_formulas_hold (void)
{
  g_autoptr (Trace) trace = trace_new ();
  g_autoptr (Evaluation) evaluation = fixture_evaluate_traced (fixture_draft (), trace);
  const double *head = find_step (trace, STEP_OVERFLOW_HEAD, SCENARIO_RUNNING)->values;
  const double *slice = find_step (trace, STEP_BACK_DISPLAY, SCENARIO_POWER_OFF)->values;
  const double *run = find_step (trace, STEP_BACK_RUN, SCENARIO_POWER_OFF)->values;
  const double *lip = find_step (trace, STEP_UNPRIMED, SCENARIO_NONE)->values;
  const double *drift = find_step (trace, STEP_DRIFT, SCENARIO_RUNNING)->values;
  const double *power = find_step (trace, STEP_POWER, SCENARIO_RUNNING)->values;

  g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
  g_assert_cmpfloat_with_epsilon (0.42 * sqrt (2 * 9.80665) * head[2] * pow (head[0], 1.5) *
                                      (1 - 2.0 / 9 / (1 + pow (head[0] / head[3], 4))),
                                  head[1], 1e-9);
  g_assert_cmpfloat_with_epsilon (slice[1] * (slice[2] - slice[3]), slice[0], 1e-12);
  g_assert_cmpfloat_with_epsilon (G_PI / 4 * run[1] * run[1] * run[2], run[0], 1e-12);
  g_assert_cmpfloat_with_epsilon (0.60 * G_PI / 4 * lip[3] * lip[3] * sqrt (2 * 9.80665 * (lip[1] - lip[2])),
                                  lip[0], 1e-9);
  g_assert_cmpfloat_with_epsilon (drift[1] / (2 * drift[2]), drift[0], 1e-12);
  g_assert_cmpfloat_with_epsilon (power[1] * pow (power[2], 3), power[0], 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/trace/rows", test_rows_are_complete);
  g_test_add_func ("/solver/trace/silent", test_recording_changes_nothing);
  g_test_add_func ("/solver/trace/numbers", test_steps_hold_the_numbers_of_the_evaluation);
  g_test_add_func ("/solver/trace/formulas", test_printed_formulas_hold);
  return g_test_run ();
}
