/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals against the steady solver, and against themselves: what must not change when nothing that counts does. */
#include "solver/rehearsal.h"

#include <math.h>
#include <string.h>

#include "design/catalogue.h"
#include "solver/scenario.h"
#include "tests/solver/fixture.h"
#include "tests/solver/stage.h"

/* A rehearsal stops when 0.1 % is still to come. */
#define STATIC_SHARE 5e-3
#define BUDGET       1e-9

static void
show (const Stage *stage)
{
  const Design *design = system_design (stage->system);
  const Rehearsal *rehearsal = stage->rehearsal;

  g_test_message ("at rest %.3f s, spilled %.6f m3, drained %.6f m3, water error %g, %u steps",
                  rehearsal->rest_s, rehearsal->spilled_m3, rehearsal->drained_m3, rehearsal->water_error,
                  rehearsal->n_steps);
  for (unsigned i = 0; i < rehearsal->n_events; i++) {
    const RehearsalEvent *event = &rehearsal->events[i];

    g_test_message ("%10.3f s %-18s %-12s %.5f", event->time_s, rehearsal_event_word (event->kind),
                    event->part >= 0 ? part_key (design_part (design, (unsigned) event->part)) : "",
                    event->level_z);
  }
}

static void
play (Stage *stage)
{
  g_assert_cmpint (rehearse (stage->rehearser, &stage->plan, NULL, NULL, stage->rehearsal), ==, REHEARSAL_OK);
  show (stage);
  g_assert_cmpfloat (stage->rehearsal->water_error, <, BUDGET);
}

static double
time_of (const Stage *stage, RehearsalEventKind kind, const char *key)
{
  const RehearsalEvent *event =
      rehearsal_event (stage->rehearsal, kind, key != NULL ? fixture_part (key) : -1);

  g_assert_nonnull (event);
  return event->time_s;
}

/* Power cut, against the drain-back of the steady solver: the water that runs down, and the level where it comes to
 * rest. */
static void
compare_static (Draft *draft, bool plugged)
{
  Stage stage = stage_of (draft);
  const DrainBack *back = plugged ? &stage.evaluation->plugged : &stage.evaluation->drain_back;
  double highest_z = -INFINITY;

  stage.plan.power_off_s = 0;
  stage.plan.break_plugged = plugged;
  stage.plan.horizon_s = 86400;
  play (&stage);
  g_assert_true (isfinite (stage.rehearsal->rest_s));
  g_assert_cmpfloat_with_epsilon (stage.rehearsal->drained_m3, back->total_m3, STATIC_SHARE * back->total_m3);
  for (unsigned i = 0; i < stage.rehearsal->n_vessels; i++)
    if (stage.rehearsal->vessels[i].kind == VESSEL_CHAMBER)
      highest_z = fmax (highest_z, stage.rehearsal->vessels[i].end_z);
  /* Over the rim stands what has not run off it yet. */
  g_assert_cmpfloat_with_epsilon (highest_z, back->highest_z, 1e-3);
  g_assert_cmpfloat_with_epsilon (stage.rehearsal->spilled_m3, back->spilled_m3,
                                  STATIC_SHARE * back->total_m3);
  stage_clear (&stage);
}

static void
test_static (void)
{
  compare_static (fixture_draft (), false);
  compare_static (fixture_draft (), true);
}

static void
test_static_variants (void)
{
  Draft *low = fixture_draft (), *small = fixture_draft (), *tanks = fixture_draft (),
        *boxes = fixture_draft ();

  must_set (low, "outlet", FIELD_OUTLET_BREAK, 0);
  must_set (low, "outlet", FIELD_OUTLET_HEIGHT, 0.45);
  compare_static (low, false);
  must_set (small, "sump", FIELD_SUMP_HEIGHT, 0.32);
  must_set (small, "outlet", FIELD_OUTLET_BREAK, 0);
  compare_static (small, false);
  fixture_add_second_tank (tanks);
  compare_static (tanks, false);
  fixture_add_second_overflow (boxes);
  compare_static (boxes, false);
}

/* Nothing fails: nothing happens. */
static void
test_steady (void)
{
  Stage stage = stage_of (fixture_draft ());

  play (&stage);
  g_assert_cmpfloat_with_epsilon (stage.rehearsal->rest_s, 0, 1e-12);
  g_assert_cmpuint (stage.rehearsal->n_events, ==, 1);
  stage_clear (&stage);
}

/* The order in which things must happen. */
static void
test_order (void)
{
  Stage stage = stage_of (fixture_draft ());

  stage.plan.power_off_s = 0;
  stage.plan.power_on_s = 900;
  play (&stage);
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_POWER_OFF, NULL), <=, 0);
  g_assert_cmpfloat_with_epsilon (time_of (&stage, REHEARSAL_PUMP_RESTS, "return-pump"), 1, 1e-9);
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_CREST_DRY, "overflow"), >, 1);
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_OUTLET_AIR, "outlet"), <,
                     time_of (&stage, REHEARSAL_PIPE_EMPTY, "return-pump"));
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_PRIME_LOST, "siphon"), <, 900);
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_PIPE_FULL, "return-pump"), >, 900);
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_PRIMED, "siphon"), >,
                     time_of (&stage, REHEARSAL_PIPE_FULL, "return-pump"));
  g_assert_cmpfloat (time_of (&stage, REHEARSAL_LIP_REACHED, "trickle"), >,
                     time_of (&stage, REHEARSAL_PRIMED, "siphon"));
  stage_clear (&stage);
}

/* A failure that comes later does the same, later: time has no origin. */
static void
test_later (void)
{
  Stage early = stage_of (fixture_draft ()), late = stage_of (fixture_draft ());

  early.plan.power_off_s = 0;
  late.plan.power_off_s = 500;
  play (&early);
  play (&late);
  g_assert_cmpuint (early.rehearsal->n_events, ==, late.rehearsal->n_events);
  for (unsigned i = 0; i < early.rehearsal->n_events; i++) {
    const RehearsalEvent *a = &early.rehearsal->events[i], *b = &late.rehearsal->events[i];

    g_assert_cmpint (a->kind, ==, b->kind);
    g_assert_cmpint (a->part, ==, b->part);
    if (a->kind != REHEARSAL_AT_REST)
      g_assert_cmpfloat_with_epsilon (a->time_s + 500, b->time_s, 0.02);
  }
  for (unsigned i = 0; i < early.rehearsal->n_vessels; i++)
    g_assert_cmpfloat_with_epsilon (early.rehearsal->vessels[i].peak_z, late.rehearsal->vessels[i].peak_z,
                                    5e-5);
  stage_clear (&early);
  stage_clear (&late);
}

/* A hundred times finer: the same to what a level is good for. */
static void
test_finer (void)
{
  Stage usual = stage_of (fixture_draft ()), fine = stage_of (fixture_draft ());

  usual.plan.drain_blocked[0] = fine.plan.drain_blocked[0] = 1;
  usual.plan.block_s = fine.plan.block_s = 30;
  usual.plan.power_off_s = fine.plan.power_off_s = 400;
  rehearser_set_tolerance (fine.rehearser, 2e-8);
  play (&usual);
  play (&fine);
  g_assert_cmpuint (usual.rehearsal->n_events, ==, fine.rehearsal->n_events);
  for (unsigned i = 0; i < usual.rehearsal->n_events; i++) {
    const RehearsalEvent *a = &usual.rehearsal->events[i], *b = &fine.rehearsal->events[i];

    g_assert_cmpint (a->kind, ==, b->kind);
    if (a->kind != REHEARSAL_AT_REST)
      g_assert_cmpfloat_with_epsilon (a->time_s, b->time_s, fmax (0.05, 1e-3 * b->time_s));
  }
  for (unsigned i = 0; i < usual.rehearsal->n_vessels; i++)
    g_assert_cmpfloat_with_epsilon (usual.rehearsal->vessels[i].peak_z, fine.rehearsal->vessels[i].peak_z,
                                    5e-5);
  stage_clear (&usual);
  stage_clear (&fine);
}

/* What is written down of it changes nothing in it: to the last bit. */
static void
test_trace (void)
{
  Stage stage = stage_of (fixture_draft ());
  g_autoptr (Rehearsal) before = rehearsal_new ();
  g_autoptr (RehearsalTrace) coarse = rehearsal_trace_new (16);
  g_autoptr (RehearsalTrace) fine = rehearsal_trace_new (5000);
  RehearsalFrame frame;

  stage.plan.power_off_s = 0;
  stage.plan.power_on_s = 300;
  rehearse (stage.rehearser, &stage.plan, NULL, NULL, before);
  rehearse (stage.rehearser, &stage.plan, coarse, NULL, stage.rehearsal);
  g_assert_true (memcmp (before, stage.rehearsal, sizeof *before) == 0);
  rehearse (stage.rehearser, &stage.plan, fine, NULL, stage.rehearsal);
  g_assert_true (memcmp (before, stage.rehearsal, sizeof *before) == 0);
  g_assert_cmpuint (rehearsal_trace_n_frames (coarse), <=, 16);
  g_assert_cmpuint (rehearsal_trace_n_frames (fine), >, 100);
  for (unsigned i = 1; i < rehearsal_trace_n_frames (fine); i++)
    g_assert_cmpfloat (rehearsal_trace_frame (fine, i)->time_s, >=,
                       rehearsal_trace_frame (fine, i - 1)->time_s);
  g_assert_false (rehearsal_trace_at (fine, NAN, &frame));
  g_assert_true (rehearsal_trace_at (fine, 1e9, &frame));
  g_assert_cmpfloat_with_epsilon (frame.time_s, before->end_s, 1e-9);
  g_assert_true (rehearsal_trace_at (fine, 0.5, &frame));
  g_assert_cmpfloat_with_epsilon (frame.pump_speed[0], 0.5 * stage.evaluation->pumps[0].speed, 0.02);
  stage_clear (&stage);
}

/* What was rehearsed before leaves nothing behind. */
static void
test_again (void)
{
  Stage stage = stage_of (fixture_draft ());
  g_autoptr (Rehearsal) first = rehearsal_new ();

  for (unsigned i = 0; i < N_FAILURES; i++) {
    RehearsalPlan other;

    rehearsal_plan_init (&other);
    failure_set_up (stage.system, stage.evaluation, (FailureId) i, NULL, &other);
    rehearsal_plan_init (&stage.plan);
    stage.plan.power_off_s = 0;
    rehearse (stage.rehearser, &stage.plan, NULL, NULL, first);
    rehearse (stage.rehearser, &other, NULL, NULL, stage.rehearsal);
    rehearse (stage.rehearser, &stage.plan, NULL, NULL, stage.rehearsal);
    g_assert_cmpuint (first->n_events, ==, stage.rehearsal->n_events);
    g_assert_cmpfloat_with_epsilon (first->rest_s, stage.rehearsal->rest_s, 1e-3 * first->rest_s);
    for (unsigned k = 0; k < first->n_vessels; k++)
      g_assert_cmpfloat_with_epsilon (first->vessels[k].peak_z, stage.rehearsal->vessels[k].peak_z, 1e-6);
  }
  stage_clear (&stage);
}

static void
test_cancel (void)
{
  Stage stage = stage_of (fixture_draft ());
  const int cancelled = 1;

  stage.plan.power_off_s = 0;
  g_assert_cmpint (rehearse (stage.rehearser, &stage.plan, NULL, &cancelled, stage.rehearsal), ==,
                   REHEARSAL_CANCELLED);
  g_assert_cmpfloat (stage.rehearsal->end_s, <=, 0);
  stage_clear (&stage);
}

/* A check valve that holds keeps display and pipe; one that sticks does not. */
static void
test_check_valve (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;
  double held_m3;

  must_add (draft, PART_FITTING, "check", NULL, "return");
  must_set_text (draft, "check", FIELD_FITTING_TYPE, "check-valve");
  must_set (draft, "check", FIELD_FITTING_STATION, 0.4);
  stage = stage_of (draft);
  stage.plan.power_off_s = 0;
  play (&stage);
  held_m3 = stage.rehearsal->drained_m3;
  stage.plan.check_stuck = true;
  play (&stage);
  g_assert_cmpfloat (held_m3, <, stage.rehearsal->drained_m3 - 5e-4);
  g_assert_cmpfloat_with_epsilon (stage.rehearsal->drained_m3, stage.evaluation->drain_back.total_m3,
                                  STATIC_SHARE * stage.evaluation->drain_back.total_m3);
  stage_clear (&stage);
}

/* Sizes at the ends of what a design admits. */
static void
test_extremes (void)
{
  static const struct {
    const char *key;
    FieldId field;
    double value;
  } extremes[] = {{"display", FIELD_TANK_LENGTH, 4},         {"overflow", FIELD_OVERFLOW_LENGTH, 0.05},
                  {"outlet", FIELD_OUTLET_BORE, 0.002},      {"outlet", FIELD_OUTLET_BORE, 0.3},
                  {"return-pump", FIELD_PUMP_SPEED, 0.3},    {"pumping", FIELD_CHAMBER_LEVEL, 0.02},
                  {"siphon", FIELD_DRAIN_PLUG, 1},           {"return-pump", FIELD_PUMP_SUCTION, 0.005},
                  {"reservoir", FIELD_RESERVOIR_VOLUME, 10}, {"reservoir", FIELD_RESERVOIR_VOLUME, 0.0005},
                  {"emergency", FIELD_DRAIN_PLUG, 0.99},     {"overflow", FIELD_OVERFLOW_BOX_DEPTH, 0.05}};

  for (gsize i = 0; i < G_N_ELEMENTS (extremes); i++) {
    Draft *draft = fixture_draft ();
    Problem problem = {0};
    Stage stage;

    if (!draft_set_number (draft, extremes[i].key, extremes[i].field, extremes[i].value, &problem))
      g_error ("%s.%s: %s", extremes[i].key, field_info (extremes[i].field)->name,
               problem_text (problem.code));
    stage = stage_of (draft);
    for (unsigned k = 0; k < N_FAILURES; k++) {
      if (failure_applies (stage.system, stage.evaluation, (FailureId) k, NULL) != FAILURE_APPLIES)
        continue;
      rehearsal_plan_init (&stage.plan);
      failure_set_up (stage.system, stage.evaluation, (FailureId) k, NULL, &stage.plan);
      if (rehearse (stage.rehearser, &stage.plan, NULL, NULL, stage.rehearsal) != REHEARSAL_OK)
        g_error ("%s.%s, %s", extremes[i].key, field_info (extremes[i].field)->name,
                 failure_word ((FailureId) k));
      g_assert_cmpfloat (stage.rehearsal->water_error, <, BUDGET);
    }
    stage_clear (&stage);
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal/static", test_static);
  g_test_add_func ("/rehearsal/static-variants", test_static_variants);
  g_test_add_func ("/rehearsal/steady", test_steady);
  g_test_add_func ("/rehearsal/order", test_order);
  g_test_add_func ("/rehearsal/later", test_later);
  g_test_add_func ("/rehearsal/finer", test_finer);
  g_test_add_func ("/rehearsal/trace", test_trace);
  g_test_add_func ("/rehearsal/again", test_again);
  g_test_add_func ("/rehearsal/cancel", test_cancel);
  g_test_add_func ("/rehearsal/check-valve", test_check_valve);
  g_test_add_func ("/rehearsal/extremes", test_extremes);
  return g_test_run ();
}
