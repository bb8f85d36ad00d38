/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Branches of the return that feed a device in the sump: what the device gets, what the display loses, and that the water of
 * the branch counts in the sump and nowhere else. */
#include <math.h>

#include "design/edit.h"
#include "hydraulics/constants.h"
#include "solver/rehearsal.h"
#include "solver/scenario.h"
#include "tests/solver/fixture.h"

#define TRIALS 40

/* The sound system with a device of a kind on a branch, as the edit lays it. */
static Design *
fed_design (int kind, char device[MAX_KEY_BYTES + 1])
{
  g_autoptr (Design) base = fixture_commit (fixture_draft ());
  Problem problem = {0};
  Design *fed = edit_add_fed_device (base, "return", kind, device, &problem);

  if (fed == NULL)
    g_error ("%s", problem_text (problem.code));
  return fed;
}

static Evaluation *
evaluation_of (Design *design)
{
  Evaluation *evaluation = evaluation_new ();
  Catalogue *catalogue = fixture_catalogue ();
  SystemStatus status = SYSTEM_OK;
  int part = -1;

  if (!evaluate_design (design, catalogue, NULL, evaluation, &status, &part))
    g_error ("%s", system_status_text (status));
  catalogue_unref (catalogue);
  return evaluation;
}

static const DeviceState *
device_state (const Evaluation *evaluation, const Design *design, const char *key)
{
  const int part = design_index (design, key);

  for (unsigned i = 0; i < evaluation->n_devices; i++)
    if (evaluation->devices[i].part == part)
      return &evaluation->devices[i];
  g_error ("%s is not there", key);
}

/* The run that leads to a part. */
static const Part *
run_to (const Design *design, const char *key)
{
  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++) {
    const Part *run = design_nth (design, PART_RETURN, i);

    if (g_strcmp0 (design_text (design, run, FIELD_RETURN_TO), key) == 0)
      return run;
  }
  g_error ("nothing leads to %s", key);
}

static Design *
with_opening (Design *design, const char *device, double opening)
{
  const Part *valve = design_child (design, part_key (run_to (design, device)), PART_FITTING, 0);

  return design_with_number (design, part_key (valve), FIELD_FITTING_OPENING, opening, NULL);
}

/* Two runs from one pump, without a tee: the parabola H = 3.2 - B Q^2 through 0.4 m at 1.45 L/s against two pipes.
 *
 *   to the display   26.64 mm, 2.2963180 m, K 4.9604976 in all, free outlet 1.261 m over the pump's surface
 *   to the reactor   15.80 mm, 0.3174728 m, exit K 1, outflow 0.229 m over it, 0.5 m (Q / 0.1 L/s)^2
 *
 * Solved outside the program: Debian's python3-fluids (Colebrook, 1.5e-6 m of roughness) with scipy's brentq on the head at
 * the pump, water of 1023.343 kg/m3 (python3-gsw) and 0.96 mPa s:
 *   head 1.955224 m, 0.7847087 L/s to the display, 0.1820867 L/s to the reactor.
 * At 0.94 and 0.98 mPa s the flows are 2.8e-4 and 1.1e-4 (relative) off: a viscosity that is right within 0.5 % moves them by
 * less than 1e-4. */
static void
test_worked_example (void)
{
  Draft *draft = fixture_draft ();

  must_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:3.2 0.00145:0.4");
  must_set (draft, "return-pump", FIELD_PUMP_SPEED, 1);
  must_set (draft, "outlet", FIELD_OUTLET_KIND, OUTLET_FREE);
  must_set (draft, "outlet", FIELD_OUTLET_HEIGHT, 0.60);
  must_add (draft, PART_DEVICE, "reactor", NULL, "trap");
  must_set (draft, "reactor", FIELD_DEVICE_KIND, DEVICE_REACTOR);
  must_set (draft, "reactor", FIELD_DEVICE_LOSS_FLOW, 0.0001);
  must_set (draft, "reactor", FIELD_DEVICE_LOSS_HEAD, 0.5);
  must_add (draft, PART_RETURN, "branch", NULL, "return-pump");
  must_set_text (draft, "branch", FIELD_RETURN_TO, "reactor");
  must_set_text (draft, "branch", FIELD_RETURN_SIZE, "sch40-1/2");
  g_autoptr (Design) design = fixture_commit (draft);
  g_autoptr (Evaluation) evaluation = evaluation_of (design);
  const RunState *up = evaluation_run (evaluation, design_index (design, "return")),
                 *down = evaluation_run (evaluation, design_index (design, "branch"));

  g_assert_cmpfloat_with_epsilon (up->length_m, 2.2963180, 1e-7);
  g_assert_cmpfloat_with_epsilon (up->k, 4.9604976, 1e-6);
  g_assert_cmpfloat_with_epsilon (down->length_m, 0.3174728, 1e-7);
  g_assert_cmpfloat_with_epsilon (evaluation->pumps[0].static_head_m, 1.261, 1e-9);
  /* 0.5 m on the velocity head of 0.1 L/s in 15.8 mm, and the exit. */
  g_assert_cmpfloat_with_epsilon (
      down->k, 1 + 0.5 * 2 * GRAVITY_M_S2 / pow (0.0001 / (G_PI / 4 * 0.0158 * 0.0158), 2), 1e-6);
  g_assert_cmpfloat_with_epsilon (evaluation->pumps[0].head_m, 1.955224, 2e-4);
  g_assert_cmpfloat_with_epsilon (evaluation->totals.flow_m3s, 0.7847087e-3, 1e-4 * 0.7847e-3);
  g_assert_cmpfloat_with_epsilon (down->flow_m3s, 0.1820867e-3, 1e-4 * 0.18209e-3);
  g_assert_cmpfloat_with_epsilon (device_state (evaluation, design, "reactor")->flow_m3s, down->flow_m3s,
                                  1e-12);
}

/* What the branch no longer takes, the display gets. */
static void
test_shutting_the_branch_raises_the_display (void)
{
  for (unsigned i = 0; i < TRIALS; i++) {
    char device[MAX_KEY_BYTES + 1];
    const int kinds[] = {DEVICE_REACTOR, DEVICE_UV, DEVICE_CHILLER, DEVICE_FEED};
    g_autoptr (Design) fed = fed_design (kinds[i % G_N_ELEMENTS (kinds)], device);
    g_autoptr (Design) set =
        design_with_number (fed, device, FIELD_DEVICE_LOSS_HEAD, g_test_rand_double_range (0, 2), NULL);
    const double low = g_test_rand_double_range (0.05, 0.25);
    g_autoptr (Design) shut = with_opening (set, device, 0), some = with_opening (set, device, low),
                       more = with_opening (set, device, low + 0.05);
    g_autoptr (Evaluation) without = evaluation_of (shut), little = evaluation_of (some),
                           much = evaluation_of (more);
    const DeviceState *fed_by = device_state (little, some, device);

    g_assert_cmpint (little->status, ==, EVALUATION_OK);
    g_assert_cmpfloat (without->totals.flow_m3s, >, little->totals.flow_m3s);
    g_assert_cmpfloat (little->totals.flow_m3s, >, much->totals.flow_m3s);
    g_assert_cmpfloat (fed_by->flow_m3s, <, device_state (much, more, device)->flow_m3s);
    g_assert_cmpfloat (device_state (without, shut, device)->flow_m3s, <=, 0);
    g_assert_cmpfloat (fed_by->slow_flow_m3s, <, fed_by->flow_m3s);
    g_assert_cmpfloat (fed_by->flow_m3s, <, fed_by->fast_flow_m3s);
  }
}

/* All water that the pump lifts comes to the display or to the device, and runs from there to the pump again. */
static void
test_every_litre_is_counted_once (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) design = fed_design (DEVICE_REACTOR, device);
  g_autoptr (Evaluation) evaluation = evaluation_of (design);
  const double pump_m3s = evaluation->pumps[0].flow_m3s,
               fed_m3s = device_state (evaluation, design, device)->flow_m3s;
  double drained_m3s = 0;

  for (unsigned i = 0; i < evaluation->n_drains; i++)
    drained_m3s += evaluation->drains[i].flow_m3s;
  g_assert_cmpfloat (fed_m3s, >, 0);
  g_assert_cmpfloat_with_epsilon (evaluation->totals.flow_m3s + fed_m3s, pump_m3s, 1e-9 * pump_m3s);
  g_assert_cmpfloat_with_epsilon (evaluation->outlets[0].flow_m3s, evaluation->totals.flow_m3s,
                                  1e-9 * pump_m3s);
  g_assert_cmpfloat_with_epsilon (drained_m3s, evaluation->totals.flow_m3s, 1e-9 * pump_m3s);
  /* Past the last baffle goes all that the pump takes; past the first only what the drains brought, unless the device stands
   * before it. */
  g_assert_cmpfloat_with_epsilon (evaluation->baffles[evaluation->n_baffles - 1].flow_m3s, pump_m3s,
                                  1e-9 * pump_m3s);
  g_assert_cmpfloat_with_epsilon (evaluation->totals.turnover_per_h,
                                  3600 * evaluation->totals.flow_m3s / evaluation->totals.display_water_m3,
                                  1e-9);
}

/* Floods are judged as if the branch were shut: opening it mends none of them. */
static void
test_floods_are_judged_with_the_branch_shut (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) open = fed_design (DEVICE_UV, device), shut = with_opening (open, device, 0);
  g_autoptr (Evaluation) opened = evaluation_of (open), closed = evaluation_of (shut);

  g_assert_cmpfloat_with_epsilon (opened->tanks[0].freeboard_m, closed->tanks[0].freeboard_m, 1e-9);
  g_assert_cmpfloat_with_epsilon (opened->tanks[0].full_speed_freeboard_m,
                                  closed->tanks[0].full_speed_freeboard_m, 1e-9);
  g_assert_cmpfloat_with_epsilon (opened->overflows[0].flood_unprimed_margin_m,
                                  closed->overflows[0].flood_unprimed_margin_m, 1e-9);
  g_assert_cmpfloat_with_epsilon (opened->drain_back.upper_total_m3, closed->drain_back.upper_total_m3, 1e-9);
  /* Turnover is judged with what there is. */
  g_assert_cmpfloat (opened->totals.fast_turnover_per_h, <, closed->totals.fast_turnover_per_h);
}

/* The branch runs empty with the rest: V = A L over the pump's chamber. */
static void
test_drain_back_has_the_branch (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) design = fed_design (DEVICE_REACTOR, device);
  g_autoptr (Evaluation) evaluation = evaluation_of (design);
  const int branch = design_index (design, part_key (run_to (design, device)));
  const RunState *run = evaluation_run (evaluation, branch);
  double line_m3 = 0;

  for (unsigned i = 0; i < evaluation->drain_back.n_lines; i++)
    if (evaluation->drain_back.lines[i].part == branch)
      line_m3 += evaluation->drain_back.lines[i].m3;
  /* All of it lies over the water. */
  g_assert_cmpfloat_with_epsilon (line_m3, G_PI / 4 * run->bore_m * run->bore_m * run->length_m, 1e-12);
}

/* A wide open pipe back to the sump leaves the display nothing, and that is said. */
static void
test_starved_display (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) fed = fed_design (DEVICE_FEED, device), open = with_opening (fed, device, 1);
  g_autoptr (Evaluation) throttled = evaluation_of (fed), starved = evaluation_of (open);

  g_assert_null (evaluation_finding (throttled, CHECK_DISPLAY_STARVED));
  g_assert_cmpint (starved->status, ==, EVALUATION_NO_FLOW);
  g_assert_nonnull (evaluation_finding (starved, CHECK_DISPLAY_STARVED));
  g_assert_false (evaluation_is_sound (starved));
}

/* A check valve before the tee holds nothing: the riser and the display run out by the branch. Beyond it, it does. */
static void
test_branch_passes_a_check_valve (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) fed = fed_design (DEVICE_REACTOR, device);
  const Part *outlet = design_nth (fed, PART_OUTLET, 0);
  g_autoptr (Design) before = edit_add_fitting (fed, "return", "check-valve", 0.1, NULL, NULL),
                     beyond = edit_add_fitting (fed, part_key (run_to (fed, part_key (outlet))),
                                                "check-valve", 0.1, NULL, NULL);
  g_autoptr (Evaluation) holds_nothing = evaluation_of (before), holds = evaluation_of (beyond);

  g_assert_null (evaluation_finding (holds_nothing, CHECK_CHECK_VALVE));
  g_assert_nonnull (evaluation_finding (holds, CHECK_CHECK_VALVE));
}

/* Without the branch the water goes the old way: the tee left no bend behind. */
static void
test_removing_gives_the_old_system_back (void)
{
  const int kinds[] = {DEVICE_REACTOR, DEVICE_UV, DEVICE_CHILLER, DEVICE_FEED};
  g_autoptr (Evaluation) before = fixture_evaluate (fixture_draft ());

  for (unsigned i = 0; i < G_N_ELEMENTS (kinds); i++) {
    char device[MAX_KEY_BYTES + 1];
    g_autoptr (Design) fed = fed_design (kinds[i], device);
    g_autoptr (Design) run_gone = edit_remove (fed, part_key (run_to (fed, device)), NULL);
    g_autoptr (Design) gone = edit_remove (fed, device, NULL);

    g_assert_nonnull (run_gone);
    g_assert_nonnull (gone);
    g_assert_nonnull (design_find (run_gone, device));
    g_assert_null (design_find (gone, device));
    g_assert_cmpuint (design_count (gone, PART_TEE), ==, 0);
    g_assert_cmpuint (design_count (gone, PART_RETURN), ==, 1);
    g_autoptr (Evaluation) after = evaluation_of (gone);

    g_assert_cmpfloat_with_epsilon (after->totals.flow_m3s, before->totals.flow_m3s, 1e-9);
    if (kinds[i] == DEVICE_CHILLER) /* it belongs to the chamber of the pump */
      continue;
    /* A chamber takes its devices and their pipes along; the pump keeps its way up. */
    g_autoptr (Design) less = edit_remove (fed, part_owner (design_find (fed, device)), NULL);

    g_assert_nonnull (less);
    g_assert_null (design_find (less, device));
    g_assert_cmpuint (design_count (less, PART_RETURN), ==, 1);
  }
}

static void
test_wanted_flow (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) design = fed_design (DEVICE_REACTOR, device);
  g_autoptr (Evaluation) silent = evaluation_of (design);
  const DeviceState *state = device_state (silent, design, device);
  static const double shares[] = {0.95, 1.05};

  g_assert_null (evaluation_finding (silent, CHECK_DEVICE_FLOW_LOW));
  g_assert_null (evaluation_finding (silent, CHECK_DEVICE_FLOW_HIGH));
  for (unsigned i = 0; i < 2; i++) {
    g_autoptr (Design) least = design_with_number (design, device, FIELD_DEVICE_FLOW_LEAST,
                                                   shares[i] * state->slow_flow_m3s * 0.97, NULL),
                       most = design_with_number (design, device, FIELD_DEVICE_FLOW_MOST,
                                                  shares[i] * state->fast_flow_m3s * 1.03, NULL);
    g_autoptr (Evaluation) low = evaluation_of (least), high = evaluation_of (most);

    g_test_message ("%g %g %g", state->slow_flow_m3s, state->flow_m3s, state->fast_flow_m3s);
    g_assert_true ((evaluation_finding (low, CHECK_DEVICE_FLOW_LOW) != NULL) == (i == 1));
    g_assert_true ((evaluation_finding (high, CHECK_DEVICE_FLOW_HIGH) != NULL) == (i == 0));
  }
}

/* Somebody shuts the branch while the loop runs: the display rises, nothing is lost. */
static void
test_branch_shut_in_time (void)
{
  char device[MAX_KEY_BYTES + 1];
  g_autoptr (Design) design = fed_design (DEVICE_REACTOR, device);
  Catalogue *catalogue = fixture_catalogue ();
  System *system = system_compile (design, catalogue, NULL, NULL);
  Workspace *workspace = workspace_new (system);
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (Rehearser) rehearser = rehearser_new (system);
  g_autoptr (Rehearsal) rehearsal = rehearsal_new ();
  g_autoptr (RehearsalTrace) trace = rehearsal_trace_new (400);
  const FailureId failures[] = {FAILURE_BRANCH_SHUT, FAILURE_POWER_CUT};
  RehearsalPlan plan;

  evaluate (system, workspace, NULL, evaluation);
  for (unsigned i = 0; i < G_N_ELEMENTS (failures); i++) {
    RehearsalFrame first, last;

    rehearsal_plan_init (&plan);
    g_assert_cmpint (failure_applies (system, evaluation, failures[i], NULL), ==, FAILURE_APPLIES);
    failure_set_up (system, evaluation, failures[i], NULL, &plan);
    g_assert_cmpint (rehearse (rehearser, &plan, trace, NULL, rehearsal), ==, REHEARSAL_OK);
    g_assert_cmpfloat (rehearsal->water_error, <, 1e-9);
    g_assert_true (rehearsal_trace_at (trace, 0, &first));
    g_assert_true (rehearsal_trace_at (trace, rehearsal->end_s, &last));
    if (failures[i] == FAILURE_POWER_CUT) {
      g_assert_cmpfloat_with_epsilon (rehearsal->drained_m3, evaluation->drain_back.total_m3,
                                      0.01 * evaluation->drain_back.total_m3);
      continue;
    }
    g_assert_cmpfloat (fabs (last.feed_m3s[0]), <, 1e-9);
    g_assert_cmpfloat (last.outlet_m3s[0], >, evaluation->outlets[0].flow_m3s * 1.01);
  }
  workspace_free (workspace);
  system_free (system);
  catalogue_unref (catalogue);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/feeds/worked-example", test_worked_example);
  g_test_add_func ("/feeds/shutting-raises-the-display", test_shutting_the_branch_raises_the_display);
  g_test_add_func ("/feeds/counted-once", test_every_litre_is_counted_once);
  g_test_add_func ("/feeds/floods-with-the-branch-shut", test_floods_are_judged_with_the_branch_shut);
  g_test_add_func ("/feeds/drain-back", test_drain_back_has_the_branch);
  g_test_add_func ("/feeds/check-valve", test_branch_passes_a_check_valve);
  g_test_add_func ("/feeds/starved", test_starved_display);
  g_test_add_func ("/feeds/removed", test_removing_gives_the_old_system_back);
  g_test_add_func ("/feeds/wanted-flow", test_wanted_flow);
  g_test_add_func ("/feeds/branch-shut", test_branch_shut_in_time);
  return g_test_run ();
}
