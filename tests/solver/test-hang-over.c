/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A hang-over siphon box, from the display over the crest to the drain side.
 *
 * Worked by hand for the sound system with such a box (tank 600 mm high, pane 12 mm, box wall 6 mm, box 2 mm behind the pane):
 * two tubes of 25 mm, crown 35 mm over the top edge, ends at 395 mm, seal at 445 mm, inner box 60 mm and tube side 45 mm wide.
 *   axis of the crown    600 + 35 - 12.5 = 622.5 mm
 *   legs                 2 (622.5 - 395) = 455 mm
 *   over the rim         30 + 12 + 2 + 6 + 22.5 = 72.5 mm          L = 527.5 mm
 *   f_T at 25 mm         0.023 + 0.002 (26.645 - 25) / (26.645 - 20.930) = 0.02358, between 1 in and 3/4 in of Crane TP-410
 *                        (bores of schedule 40 steel as printed there: 1.049 and 0.824 in)
 *   K                    0.78 + 1.0 + 2 x 30 f_T = 3.195 (Crane TP-410: projecting entrance, exit, two elbows)
 *   fall                 (f L/D + K) V^2/(2g), f by Colebrook-White at 1.5 micrometres: solved below by iteration */
#include "solver/model.h"
#include "tests/solver/fixture.h"

#include <math.h>

#define G           9.80665
#define BORE_M      0.025
#define LENGTH_M    0.5275
#define ROUGHNESS_M 1.5e-6
#define VISCOSITY                                                                                            \
  0.94e-6 /* of sea water at 25 degC and 35 g/kg, m2/s: about (Sharqawy, Lienhard and Zubair 2010) */
#define INNER_M2     (0.5 * 0.06)
#define TUBE_SIDE_M2 (0.5 * 0.045)
#define TOP_Z        0.94 /* of the stand: floor 0.1, inside 0.8, top 0.04 */

static Draft *
hanging (void)
{
  Draft *draft = fixture_draft ();

  must_set (draft, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER);
  must_set (draft, "overflow", FIELD_OVERFLOW_TUBES, 2);
  must_set (draft, "overflow", FIELD_OVERFLOW_TUBE_BORE, BORE_M);
  must_set (draft, "overflow", FIELD_OVERFLOW_CROWN, 0.035);
  must_set (draft, "overflow", FIELD_OVERFLOW_TUBE_END, 0.395);
  must_set (draft, "overflow", FIELD_OVERFLOW_SEAL, 0.445);
  return draft;
}

static Evaluation *
hanging_with (const char *key, FieldId field, double value)
{
  Draft *draft = hanging ();

  must_set (draft, key, field, value);
  return fixture_evaluate (draft);
}

static double
colebrook (double reynolds)
{
  double f = 0.02;

  for (unsigned i = 0; i < 50; i++)
    f = pow (-2 * log10 (ROUGHNESS_M / BORE_M / 3.7 + 2.51 / (reynolds * sqrt (f))), -2);
  return f;
}

static void
test_levels_by_hand (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (hanging ());
  const OverflowState *overflow = &evaluation->overflows[0];
  const double velocity_ms = overflow->flow_m3s / 2 / (G_PI / 4 * BORE_M * BORE_M);
  const double k = 0.78 + 1.0 + 60 * (0.023 + 0.002 * (26.645 - 25) / (26.645 - 20.930));
  const double fall_m = (colebrook (velocity_ms * BORE_M / VISCOSITY) * LENGTH_M / BORE_M + k) * velocity_ms *
                        velocity_ms / (2 * G);

  fixture_show (evaluation);
  g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
  g_assert_true (overflow->hangs_over);
  /* The viscosity is known to some per cent, which the friction passes on by a fifth, and friction is a quarter of the loss. */
  g_assert_cmpfloat_with_epsilon (overflow->tube_fall_m, fall_m, 0.01 * fall_m);
  g_assert_cmpfloat_with_epsilon (overflow->inner_box_z - overflow->tube_side_z, overflow->tube_fall_m, 1e-9);
  g_assert_cmpfloat_with_epsilon (overflow->tube_froude, velocity_ms / sqrt (G * BORE_M), 1e-9);
  g_assert_cmpfloat_with_epsilon (overflow->tube_rest_cover_m, 0.050, 1e-9);
  g_assert_true (overflow->tube_restarts);
  /* Each surface stands over the next one down. */
  g_assert_cmpfloat (overflow->display_z, >, overflow->crest_z);
  g_assert_cmpfloat (overflow->crest_z, >, overflow->inner_box_z);
  g_assert_cmpfloat (overflow->tube_side_z, >, TOP_Z + 0.445);
  g_assert_cmpfloat (TOP_Z + 0.445, >, overflow->box_z);
}

/* Sharp crest by Rehbock, which needs no more than the flow: the wall is 6 mm thick, the head over it under 12 mm, so it lies
 * between a sharp and a broad crest (Bos: Cd 0.848 of the latter). */
static void
test_seal_between_sharp_and_broad (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (hanging ());
  const OverflowState *overflow = &evaluation->overflows[0];
  const double head_m = overflow->tube_side_z - TOP_Z - 0.445;
  const double sharp_m = pow (overflow->flow_m3s / (2.0 / 3 * 0.63 * sqrt (2 * G) * 0.5), 2.0 / 3);
  const double broad_m = pow (overflow->flow_m3s / (0.848 * pow (2.0 / 3, 1.5) * sqrt (G) * 0.5), 2.0 / 3);

  g_assert_cmpfloat (head_m, >, sharp_m);
  g_assert_cmpfloat (head_m, <, broad_m);
}

static void
test_more_flow_stands_higher (void)
{
  double display_z = 0, fall_m = 0;

  for (unsigned i = 0; i < 8; i++) {
    g_autoptr (Evaluation) evaluation = hanging_with ("return-pump", FIELD_PUMP_SPEED, 0.70 + 0.03 * i);

    g_assert_cmpfloat (evaluation->overflows[0].display_z, >, display_z);
    g_assert_cmpfloat (evaluation->overflows[0].tube_fall_m, >, fall_m);
    display_z = evaluation->overflows[0].display_z;
    fall_m = evaluation->overflows[0].tube_fall_m;
  }
}

static void
test_narrower_tubes_fall_more (void)
{
  double fall_m = 0, capacity_m3s = 1;

  for (unsigned i = 0; i < 6; i++) {
    g_autoptr (Evaluation) evaluation =
        hanging_with ("overflow", FIELD_OVERFLOW_TUBE_BORE, 0.040 - 0.003 * i);
    const OverflowState *overflow = &evaluation->overflows[0];

    g_assert_cmpfloat (overflow->tube_fall_m, >, fall_m);
    g_assert_cmpfloat (overflow->tube_capacity_m3s, <, capacity_m3s);
    fall_m = overflow->tube_fall_m;
    capacity_m3s = overflow->tube_capacity_m3s;
  }
}

/* With the prime lost nothing but the room over the surfaces counts: display beside the inner box and its walls, and the inner
 * box. Compared on the edge that is judged: the fast flow, with the weir's doubt. */
static void
test_prime_lost_is_the_transfer_test (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (hanging ());
  const Transfer *transfer = &evaluation->transfers[0];
  const Finding *finding = evaluation_finding (evaluation, CHECK_PRIME_LOST);
  const double tank_m2 = (1.5 - 0.024) * (0.6 - 0.024), box_m2 = (0.5 + 0.012) * (0.06 + 0.006);
  const double surface_z = TOP_Z + 0.6 - transfer->room_overflow_m3 / (tank_m2 - box_m2);

  g_assert_nonnull (finding);
  g_assert_cmpfloat (finding->margin, ==, transfer->prime_margin_m3);
  g_assert_true (transfer->prime_lost);
  g_assert_cmpfloat (transfer->margin_m3, ==, transfer->prime_margin_m3);
  g_assert_cmpfloat_with_epsilon (transfer->margin_m3, transfer->prime_room_m3 - transfer->pumped_m3, 1e-12);
  g_assert_cmpfloat (surface_z, >=, evaluation->tanks[0].fast_z);
  g_assert_cmpfloat (surface_z, <, evaluation->tanks[0].fast_z + 0.004);
  /* The inner box stands under the crest, which bounds the room that it adds. */
  g_assert_cmpfloat (transfer->prime_room_m3 - transfer->room_overflow_m3, >, INNER_M2 * (0.6 - 0.545));
  g_assert_cmpfloat (transfer->prime_room_m3 - transfer->room_overflow_m3, <, INNER_M2 * (0.6 - 0.445));
  g_assert_cmpfloat (transfer->prime_pumped_m3, >, TUBE_SIDE_M2 * 0.005);
}

/* Whatever its tubes could carry, such a box is spoken of; it stops where the return chamber holds too much. */
static void
test_never_called_safe (void)
{
  for (unsigned tubes = 1; tubes <= 12; tubes++) {
    g_autoptr (Evaluation) evaluation = hanging_with ("overflow", FIELD_OVERFLOW_TUBES, tubes);
    const Finding *finding = evaluation_finding (evaluation, CHECK_PRIME_LOST);

    g_assert_nonnull (finding);
    g_assert_cmpint (finding->grade, ==, finding->margin < 0 ? GRADE_STOP : GRADE_CAUTION);
  }

  g_autoptr (Evaluation) pumped = hanging_with ("overflow", FIELD_OVERFLOW_ASPIRATOR, 1);
  g_assert_nonnull (evaluation_finding (pumped, CHECK_PRIME_LOST));

  Draft *draft = hanging ();
  must_set (draft, "pumping", FIELD_CHAMBER_LEVEL, 0.21);
  must_set (draft, "overflow", FIELD_OVERFLOW_CREST, 0.575);
  g_autoptr (Evaluation) full = fixture_evaluate (draft);
  const Finding *finding = evaluation_finding (full, CHECK_PRIME_LOST);

  g_assert_cmpint (finding->grade, ==, GRADE_STOP);
  g_assert_false (evaluation_is_sound (full));
  g_assert_null (evaluation_finding (full, CHECK_TRANSFER_FAILED)); /* the same fact, said once */

  /* Its remedy mends it. */
  draft = hanging ();
  must_set (draft, "overflow", FIELD_OVERFLOW_CREST, 0.575);
  must_set (draft, "pumping", finding->remedy.field, finding->remedy.value);
  g_autoptr (Evaluation) mended = fixture_evaluate (draft);
  g_assert_cmpint (evaluation_finding (mended, CHECK_PRIME_LOST)->grade, ==, GRADE_CAUTION);
}

static void
test_checks_fire (void)
{
  g_autoptr (Evaluation) slow = hanging_with ("overflow", FIELD_OVERFLOW_TUBES, 4);
  g_autoptr (Evaluation) swept = hanging_with ("overflow", FIELD_OVERFLOW_TUBES, 1);
  g_autoptr (Evaluation) narrow = hanging_with ("overflow", FIELD_OVERFLOW_TUBE_BORE, 0.018);
  g_autoptr (Evaluation) low = hanging_with ("overflow", FIELD_OVERFLOW_TUBE_END, 0.430);
  g_autoptr (Evaluation) clear = hanging_with ("overflow", FIELD_OVERFLOW_TUBE_END, 0.450);

  g_assert_cmpint (evaluation_finding (slow, CHECK_TUBE_AIR)->grade, ==, GRADE_CAUTION);
  g_assert_null (evaluation_finding (swept, CHECK_TUBE_AIR));
  g_assert_cmpint (evaluation_finding (narrow, CHECK_TUBES_SHORT)->grade, ==, GRADE_CAUTION);
  g_assert_null (evaluation_finding (slow, CHECK_TUBES_SHORT));
  g_assert_cmpint (evaluation_finding (low, CHECK_SEAL_LOW)->grade, ==, GRADE_CAUTION);
  g_assert_null (evaluation_finding (slow, CHECK_SEAL_LOW));
  g_assert_cmpint (low->status, ==, EVALUATION_OK);
  /* Ends over the seal: no siphon at all, and no steady level. */
  g_assert_cmpint (evaluation_finding (clear, CHECK_SEAL_LOW)->grade, ==, GRADE_STOP);
  g_assert_cmpint (clear->status, ==, EVALUATION_NO_STEADY_STATE);
  g_assert_false (clear->overflows[0].carries);

  Draft *draft = hanging ();
  must_set (draft, "overflow", FIELD_OVERFLOW_TUBES, 4);
  must_set (draft, "overflow", FIELD_OVERFLOW_ASPIRATOR, 1);
  g_autoptr (Evaluation) drawn = fixture_evaluate (draft);
  g_assert_cmpint (evaluation_finding (drawn, CHECK_TUBE_AIR)->grade, ==, GRADE_NOTE);
}

/* After a power cut both sides of the tubes stand at the seal, and no water is lost on the way. */
static void
test_comes_to_rest_at_the_seal (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (hanging ());
  const int part = fixture_part ("overflow");
  const VesselState *inner = evaluation_vessel (evaluation, part, VESSEL_BOX_INNER),
                    *tubes = evaluation_vessel (evaluation, part, VESSEL_BOX_TUBES);

  g_assert_cmpfloat_with_epsilon (inner->power_off_z, TOP_Z + 0.445, 1e-9);
  g_assert_cmpfloat_with_epsilon (tubes->power_off_z, TOP_Z + 0.445, 1e-9);
  g_assert_cmpfloat_with_epsilon (inner->area_m2, INNER_M2, 1e-9);
  g_assert_cmpfloat_with_epsilon (tubes->area_m2, TUBE_SIDE_M2, 1e-9);
  g_assert_cmpfloat_with_epsilon (evaluation->totals.total_water_m3, evaluation->totals.power_off_water_m3,
                                  1e-9);
}

/* A tank that hangs its box is not drilled, whatever its panes are. */
static void
test_drills_no_pane (void)
{
  Draft *draft = hanging ();

  must_set (draft, "display", FIELD_TANK_BOTTOM_PANE, PANE_TEMPERED);
  must_set (draft, "display", FIELD_TANK_BACK_PANE, PANE_TEMPERED);

  g_autoptr (Evaluation) evaluation = fixture_evaluate (draft);
  g_assert_null (evaluation_finding (evaluation, CHECK_PANE_TEMPERED));
  g_assert_null (evaluation_finding (evaluation, CHECK_PANE_ASK));
}

/* Beside a drilled box of the same tank, and from every field unknown. */
static void
test_with_others_and_with_nothing_given (void)
{
  Draft *draft = hanging (), *bare = fixture_bare_draft ();

  fixture_add_second_overflow (draft);
  must_set (bare, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER);

  g_autoptr (Evaluation) shared = fixture_evaluate (draft), unknown = fixture_evaluate (bare);
  g_assert_cmpint (shared->status, ==, EVALUATION_OK);
  g_assert_cmpfloat_with_epsilon (shared->totals.total_water_m3, shared->totals.power_off_water_m3, 1e-9);
  /* Tubes that are no siphon leave all to the drilled box. */
  draft = hanging ();
  fixture_add_second_overflow (draft);
  must_set (draft, "overflow", FIELD_OVERFLOW_TUBE_END, 0.450);
  g_autoptr (Evaluation) dead = fixture_evaluate (draft);
  g_assert_cmpfloat (dead->overflows[0].flow_m3s, <, 1e-6 * dead->totals.flow_m3s);

  g_assert_nonnull (evaluation_finding (unknown, CHECK_PRIME_LOST));
  g_assert_null (evaluation_finding (unknown, CHECK_SEAL_LOW));

  /* The pump at full speed gives more than the target for which the tubes are counted; the remedy says how many it takes. */
  const Finding *few = evaluation_finding (unknown, CHECK_TUBES_SHORT);
  g_assert_nonnull (few);
  g_assert_cmpint (unknown->status, ==, EVALUATION_NO_STEADY_STATE);
  bare = fixture_bare_draft ();
  must_set (bare, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_HANG_OVER);
  must_set (bare, "overflow", few->remedy.field, few->remedy.value);
  g_autoptr (Evaluation) enough = fixture_evaluate (bare);
  g_assert_null (evaluation_finding (enough, CHECK_TUBES_SHORT));
  g_assert_true (isfinite (enough->overflows[0].tube_fall_m));
}

/* From the crest through the tubes over the wall, at 10,000 flows: the display never falls as the flow rises, and a relative step
 * of 1e-6 moves no surface by 1e-4 of its head. Inner box and flow are each other's inverse. */
static void
test_ten_thousand_flows (void)
{
  System *system = fixture_compile (hanging ());
  const OverflowModel *overflow = &system->overflows[0];
  const double box_z = TOP_Z + 0.41;
  double before_z = 0;

  for (unsigned i = 0; i < 10000; i++) {
    const double flow_m3s = 1e-7 * pow (8e3, i / 10000.0);
    double inner_z, inner_step_z;
    const double display_z = overflow_display_z (system, overflow, flow_m3s, box_z, &inner_z);
    const double step_z = overflow_display_z (system, overflow, flow_m3s * (1 + 1e-6), box_z, &inner_step_z);

    g_assert_cmpfloat (display_z, >=, before_z);
    g_assert_cmpfloat (step_z - display_z, >=, 0);
    g_assert_cmpfloat (step_z - display_z, <, 1e-4 * (display_z - overflow->crest_z));
    g_assert_cmpfloat (inner_step_z - inner_z, <, 1e-4 * (inner_z - overflow->top_z));
    if (i % 100 == 0)
      g_assert_cmpfloat_with_epsilon (hang_over_flow (system, overflow, inner_z, box_z), flow_m3s,
                                      1e-6 * flow_m3s);
    before_z = display_z;
  }
  system_free (system);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/hang-over/by-hand", test_levels_by_hand);
  g_test_add_func ("/solver/hang-over/seal", test_seal_between_sharp_and_broad);
  g_test_add_func ("/solver/hang-over/more-flow", test_more_flow_stands_higher);
  g_test_add_func ("/solver/hang-over/narrower", test_narrower_tubes_fall_more);
  g_test_add_func ("/solver/hang-over/prime-lost", test_prime_lost_is_the_transfer_test);
  g_test_add_func ("/solver/hang-over/never-safe", test_never_called_safe);
  g_test_add_func ("/solver/hang-over/checks", test_checks_fire);
  g_test_add_func ("/solver/hang-over/rest", test_comes_to_rest_at_the_seal);
  g_test_add_func ("/solver/hang-over/panes", test_drills_no_pane);
  g_test_add_func ("/solver/hang-over/others", test_with_others_and_with_nothing_given);
  g_test_add_func ("/solver/hang-over/ten-thousand", test_ten_thousand_flows);
  return g_test_run ();
}
