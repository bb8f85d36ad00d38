/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rehearsals against sums that can be done by hand: closed forms of emptying, and volumes over flows. */
#include "hydraulics/constants.h"
#include "hydraulics/drain.h"
#include "hydraulics/emptying.h"
#include "solver/model.h"
#include "solver/scenario.h"
#include "tests/solver/fixture.h"
#include "tests/solver/stage.h"

static void
play (Stage *stage)
{
  g_assert_cmpint (rehearse (stage->rehearser, &stage->plan, stage->trace, NULL, stage->rehearsal), ==,
                   REHEARSAL_OK);
}

/* A row of teeth of Cd = 0.60: Q = (2/3) Cd sqrt(2g) b h^1.5 in the openings, so the display falls from h0 to h1 in
 * t = 2A/(c b) (h1^-0.5 - h0^-0.5). The outlet hangs in air, so that nothing siphons back. */
static void
test_weir_tail (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;
  double first_s = NAN, first_m = NAN;
  unsigned compared = 0;

  must_set (draft, "overflow", FIELD_OVERFLOW_WEIR, WEIR_TOOTHED);
  must_set (draft, "outlet", FIELD_OUTLET_KIND, OUTLET_FREE);
  must_set (draft, "outlet", FIELD_OUTLET_HEIGHT, 0.62);
  stage = stage_of (draft);
  stage.plan.power_off_s = 0;
  play (&stage);

  const OverflowModel *overflow = &stage.system->overflows[0];
  const double area_m2 = stage.evaluation->vessels[0].area_m2;
  const double c = 2.0 / 3.0 * 0.60 * sqrt (2 * GRAVITY_M_S2);

  g_assert_true (overflow->weir.formula == WEIR_COMB);
  for (unsigned i = 0; i < rehearsal_trace_n_frames (stage.trace); i++) {
    const RehearsalFrame *frame = rehearsal_trace_frame (stage.trace, i);
    const double head_m = frame->level_z[0] - overflow->crest_z;
    double time_s;

    /* The pump has run down, the box stands under the crest, and the head is neither at the top of the openings nor among
     * the last tenths of a millimetre. */
    if (frame->time_s < 1.0001 || frame->level_z[1] > overflow->crest_z ||
        head_m > overflow->weir.opening_height_m || head_m < 2e-4)
      continue;
    if (isnan (first_s)) {
      first_s = frame->time_s;
      first_m = head_m;
      continue;
    }
    g_assert_cmpint (emptying_time_weir (area_m2, overflow->open_length_m, c, first_m, head_m, &time_s), ==,
                     HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (frame->time_s - first_s, time_s, 1e-3 * time_s + 0.01);
    compared++;
  }
  g_assert_cmpuint (compared, >, 5);
  stage_clear (&stage);
}

/* A box that gets nothing more runs out through one standpipe: as an orifice (Torricelli) down to h = 0.362 D over its
 * lip, then over the lip as a round weir, Q = 0.414 sqrt(2g) pi D h^1.5. */
static void
test_box_runs_out (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;
  unsigned as_orifice = 0, as_weir = 0;

  must_set (draft, "siphon", FIELD_DRAIN_ROLE, DRAIN_STANDPIPE);
  must_set (draft, "siphon", FIELD_DRAIN_MOUTH, 0.33);
  must_set_text (draft, "siphon", FIELD_DRAIN_SIZE, "sch40-1");
  stage = stage_of (draft);
  stage.plan.power_off_s = 0;
  stage.plan.crest_covered[0] = 1;
  stage.plan.drain_blocked[1] = stage.plan.drain_blocked[2] = 1;
  play (&stage);

  const DrainPipe *pipe = &stage.system->drains[0].pipe;
  const double area_m2 = stage.system->overflows[0].inner.area_m2, bore_m = pipe->mouth_diameter_m;
  const double joint_m = DRAIN_LIP_JOINT * bore_m;
  const double start_m = rehearsal_trace_frame (stage.trace, 0)->level_z[1] - pipe->mouth_level_m;
  double to_joint_s;

  g_assert_cmpfloat (start_m, >, 1.5 * joint_m);
  g_assert_cmpint (
      emptying_time_orifice (area_m2, 0.60 * G_PI / 4 * bore_m * bore_m, start_m, joint_m, &to_joint_s), ==,
      HYDRAULICS_OK);
  for (unsigned i = 1; i < rehearsal_trace_n_frames (stage.trace); i++) {
    const RehearsalFrame *frame = rehearsal_trace_frame (stage.trace, i);
    const double head_m = frame->level_z[1] - pipe->mouth_level_m;
    double time_s = 0;

    if (head_m > joint_m) {
      emptying_time_orifice (area_m2, 0.60 * G_PI / 4 * bore_m * bore_m, start_m, head_m, &time_s);
      as_orifice++;
    } else if (head_m > 1e-3) {
      emptying_time_weir (area_m2, G_PI * bore_m, 0.414 * sqrt (2 * GRAVITY_M_S2), joint_m, head_m, &time_s);
      time_s += to_joint_s;
      as_weir++;
    } else {
      continue;
    }
    g_assert_cmpfloat_with_epsilon (frame->time_s, time_s, 1e-3 * time_s + 0.005);
  }
  g_assert_cmpuint (as_orifice, >, 2);
  g_assert_cmpuint (as_weir, >, 5);
  stage_clear (&stage);
}

/* The reservoir siphons through 2 m of 6 mm tube that ends in air: the integral of A dh / Q (h), from the full surface to
 * 20 mm over the tube's end. */
static void
test_tube (void)
{
  const PipeRun tube = {.length_m = 2, .bore_m = 0.006, .roughness_m = 1.5e-6, .k = 1.5};
  Draft *draft = fixture_draft ();
  Stage stage;
  double time_s, full_m, area_m2;
  RehearsalFrame frame;

  must_set (draft, "reservoir", FIELD_RESERVOIR_TUBE_END, 0.25);
  must_set (draft, "reservoir", FIELD_RESERVOIR_TUBE_BREAK, 0);
  stage = stage_of (draft);
  g_assert_cmpint (failure_applies (stage.system, stage.evaluation, FAILURE_RESERVOIR_SIPHONS, NULL), ==,
                   FAILURE_APPLIES);
  failure_set_up (stage.system, stage.evaluation, FAILURE_RESERVOIR_SIPHONS, NULL, &stage.plan);
  play (&stage);
  full_m = reservoir_full_z (stage.system) - stage.system->chambers[0].bottom_z - 0.25;
  area_m2 =
      field_number (stage.system, stage.system->reservoir, FIELD_RESERVOIR_VOLUME) /
      (reservoir_full_z (stage.system) - field_number (stage.system, stage.system->stand, FIELD_STAND_FLOOR));
  g_assert_cmpint (
      emptying_time_pipe_colebrook (area_m2, &tube, &stage.system->fluid, full_m, 0.020, &time_s), ==,
      HYDRAULICS_OK);
  g_assert_true (rehearsal_trace_at (stage.trace, time_s, &frame));
  g_test_message ("%.1f s for %.3f m", time_s, full_m - 0.020);
  g_assert_cmpfloat_with_epsilon (
      frame.reservoir_m3,
      field_number (stage.system, stage.system->reservoir, FIELD_RESERVOIR_VOLUME) -
          area_m2 * (full_m - 0.020),
      2e-3 * area_m2 * full_m);
  stage_clear (&stage);
}

/* A top-off that sticks gives its 1 L/min from the first second: a reservoir of 10 L is empty after 10 min. The last half
 * millimetre leaves it more and more slowly. */
static void
test_top_off (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;
  const RehearsalEvent *empty;
  double risen_m3 = 0;

  must_set (draft, "reservoir", FIELD_RESERVOIR_VOLUME, 0.010);
  must_set (draft, "reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_NONE);
  stage = stage_of (draft);
  failure_set_up (stage.system, stage.evaluation, FAILURE_TOP_OFF_STUCK, NULL, &stage.plan);
  play (&stage);
  empty = rehearsal_event (stage.rehearsal, REHEARSAL_RESERVOIR_EMPTY, -1);
  g_assert_nonnull (empty);
  g_assert_cmpfloat_with_epsilon (empty->time_s, 600, 5);
  /* What is no longer in the reservoir stands in the sump and, as the pump has less to lift and gives more, in the box. */
  for (unsigned i = 0; i < 2; i++)
    risen_m3 += stage.evaluation->vessels[i].area_m2 *
                (stage.rehearsal->vessels[i].end_z - stage.rehearsal->vessels[i].start_z);
  for (unsigned i = 0; i < stage.system->n_chambers; i++) {
    const RehearsalVessel *vessel = &stage.rehearsal->vessels[2 + i];

    risen_m3 += chamber_volume_m3 (&stage.system->chambers[i], vessel->start_z, vessel->end_z) -
                chamber_volume_m3 (&stage.system->chambers[i], vessel->start_z, vessel->start_z);
  }
  g_assert_cmpfloat_with_epsilon (risen_m3, 0.010, 1e-4);
  stage_clear (&stage);
}

/* With the longest run time of 300 s the same top-off gives 5 L. */
static void
test_cut_out (void)
{
  Draft *draft = fixture_draft ();
  Stage stage;
  RehearsalFrame frame;

  must_set (draft, "reservoir", FIELD_RESERVOIR_VOLUME, 0.010);
  must_set (draft, "reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_RUN_TIME);
  stage = stage_of (draft);
  failure_set_up (stage.system, stage.evaluation, FAILURE_TOP_OFF_STUCK, NULL, &stage.plan);
  play (&stage);
  g_assert_nonnull (rehearsal_event (stage.rehearsal, REHEARSAL_TOP_OFF_CUT_OUT, -1));
  g_assert_true (rehearsal_trace_at (stage.trace, 400, &frame));
  g_assert_cmpfloat_with_epsilon (frame.reservoir_m3, 0.005, 1e-7);
  stage_clear (&stage);
}

/* Without top-off the return chamber falls by what evaporates: until the suction is bare that takes its plan times the
 * water over the suction, over the evaporation (Totals.reserve_s). It lasts longer, since from the lower level the pump
 * gives less and the box, which a throttled siphon hardly holds, falls too: all falls together make up the sum. */
static void
test_evaporation (void)
{
  Stage stage = stage_of (fixture_draft ());
  RehearsalFrame frame;
  double fallen_m3 = 0;

  failure_set_up (stage.system, stage.evaluation, FAILURE_RESERVOIR_EMPTY, NULL, &stage.plan);
  play (&stage);
  g_test_message ("%.0f s, by hand %.0f s", stage.rehearsal->pump_dry_s, stage.evaluation->totals.reserve_s);
  g_assert_cmpfloat (stage.rehearsal->pump_dry_s, >, 0.99 * stage.evaluation->totals.reserve_s);
  g_assert_true (rehearsal_trace_at (stage.trace, stage.rehearsal->pump_dry_s, &frame));
  for (unsigned i = 0; i < stage.evaluation->n_vessels; i++)
    fallen_m3 +=
        stage.evaluation->vessels[i].area_m2 * (stage.rehearsal->vessels[i].start_z - frame.level_z[i]);
  g_assert_cmpfloat_with_epsilon (stage.plan.evaporation_m3s * stage.rehearsal->pump_dry_s, fallen_m3,
                                  0.01 * fallen_m3);
  stage_clear (&stage);
}

/* After a power cut the return pipe is filled first: its volume over the flow of the pump, to the tenth that the flow
 * changes meanwhile. */
static void
test_refill (void)
{
  Stage stage = stage_of (fixture_draft ());
  const RehearsalEvent *full;
  double pipe_m3;

  stage.plan.power_off_s = 0;
  stage.plan.power_on_s = 600;
  play (&stage);
  full = rehearsal_event (stage.rehearsal, REHEARSAL_PIPE_FULL, -1);
  g_assert_nonnull (full);
  pipe_m3 = stage.evaluation->runs[0].above_sump_m3;
  g_assert_cmpfloat_with_epsilon (full->time_s - 600, pipe_m3 / stage.evaluation->totals.flow_m3s,
                                  0.1 * pipe_m3 / stage.evaluation->totals.flow_m3s);
  /* Some time later all is as it was. */
  for (unsigned i = 0; i < stage.rehearsal->n_vessels; i++)
    g_assert_cmpfloat_with_epsilon (stage.rehearsal->vessels[i].end_z, stage.rehearsal->vessels[i].start_z,
                                    1e-4);
  stage_clear (&stage);
}

/* Everything shut: the display gets what the pump lifts until the suction is bare, and rises by that over its plan (and
 * the box's, which it floods). */
static void
test_all_shut (void)
{
  Stage stage = stage_of (fixture_draft ());
  double taken_m3 = 0, risen_m3;

  for (unsigned i = 0; i < 3; i++)
    stage.plan.drain_blocked[i] = 1;
  stage.plan.top_off_m3s = 0;
  play (&stage);
  for (unsigned i = 0; i < stage.system->n_chambers; i++) {
    const RehearsalVessel *chamber =
        rehearsal_vessel (stage.rehearsal, stage.system->chambers[i].part, VESSEL_CHAMBER);

    taken_m3 += stage.system->chambers[i].area_m2 * (chamber->start_z - chamber->end_z);
  }
  risen_m3 = stage.evaluation->vessels[0].area_m2 *
                 (stage.rehearsal->vessels[0].end_z - stage.rehearsal->vessels[0].start_z) +
             stage.evaluation->vessels[1].area_m2 *
                 (stage.rehearsal->vessels[1].end_z - stage.rehearsal->vessels[1].start_z);
  /* What was in the drains at the beginning runs out into the sump, but for the full siphon, whose column hangs. */
  for (unsigned i = 1; i < stage.evaluation->n_drains; i++)
    taken_m3 += stage.evaluation->drains[i].above_sump_m3;
  g_test_message ("%.6f m3 taken, %.6f m3 risen", taken_m3, risen_m3);
  g_assert_cmpfloat_with_epsilon (taken_m3, risen_m3, 2e-3 * risen_m3);
  g_assert_true (isfinite (stage.rehearsal->pump_dry_s));
  stage_clear (&stage);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rehearsal-sums/weir-tail", test_weir_tail);
  g_test_add_func ("/rehearsal-sums/box-runs-out", test_box_runs_out);
  g_test_add_func ("/rehearsal-sums/tube", test_tube);
  g_test_add_func ("/rehearsal-sums/top-off", test_top_off);
  g_test_add_func ("/rehearsal-sums/cut-out", test_cut_out);
  g_test_add_func ("/rehearsal-sums/evaporation", test_evaporation);
  g_test_add_func ("/rehearsal-sums/refill", test_refill);
  g_test_add_func ("/rehearsal-sums/all-shut", test_all_shut);
  return g_test_run ();
}
