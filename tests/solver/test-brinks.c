/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Checks on both sides of their limit, where that limit is a sum that can be done by hand. */
#include "hydraulics/fitting.h"
#include "hydraulics/pump.h"
#include "hydraulics/water.h"
#include "tests/solver/fixture.h"

#include <math.h>

#define G           9.80665
#define TOLERANCE_M 0.003

static Evaluation *
with (const char *key, FieldId field, double value)
{
  Draft *draft = fixture_draft ();

  must_set (draft, key, field, value);
  return fixture_evaluate (draft);
}

/* An upright end is choked below half a bore (common practice, no source), judged with 3 mm of building tolerance; from D / (4 Cd) on its loss is that of the ring
 * pi D c as an orifice with Cd = 0.60: K = 1 / (4 Cd c / D)^2, otherwise the velocity head. */
static void
test_end_over_the_bottom (void)
{
  g_autoptr (Evaluation) clear = with ("trickle", FIELD_DRAIN_END, 0.20);
  const DrainState *drain = &clear->drains[1];
  const double bore = drain->bore_m;
  g_autoptr (Evaluation) over = with ("trickle", FIELD_DRAIN_END, 0.5 * bore + TOLERANCE_M + 0.0005);
  g_autoptr (Evaluation) under = with ("trickle", FIELD_DRAIN_END, 0.5 * bore + TOLERANCE_M - 0.0005);
  g_autoptr (Evaluation) tight = with ("trickle", FIELD_DRAIN_END, 0.1 * bore);
  g_autoptr (Evaluation) none = with ("trickle", FIELD_DRAIN_END, 0);

  g_assert_null (evaluation_finding (clear, CHECK_DRAIN_FLOOR));
  g_assert_null (evaluation_finding (over, CHECK_DRAIN_FLOOR));
  g_assert_nonnull (evaluation_finding (under, CHECK_DRAIN_FLOOR));
  g_assert_cmpfloat_with_epsilon (over->drains[1].k, drain->k, 1e-12);
  g_assert_cmpfloat_with_epsilon (tight->drains[1].k - drain->k, 1 / pow (4 * 0.60 * 0.1, 2) - 1, 1e-9);
  g_assert_cmpint (evaluation_finding (none, CHECK_DRAIN_FLOOR)->grade, ==, GRADE_STOP);
  g_assert_cmpint (none->drains[1].regime, ==, DRAIN_STATE_BLOCKED);
}

static Evaluation *
with_socks (double lip_m, double length_m)
{
  Draft *draft = fixture_draft ();

  must_set (draft, "inlet", FIELD_CHAMBER_SOCKS, 2);
  must_set (draft, "inlet", FIELD_CHAMBER_BYPASS, lip_m);
  must_set (draft, "inlet", FIELD_CHAMBER_BYPASS_LENGTH, length_m);
  return fixture_evaluate (draft);
}

/* Head over the lip by Q = 0.42 sqrt(2g) L h^1.5 (1 - (2/9)/(1 + (h/t)^4)), t = 6 mm (Hager & Schwalt 1994). */
static void
test_clogged_socks (void)
{
  g_autoptr (Evaluation) fails = with_socks (0.390, 0.10);
  const Finding *finding = evaluation_finding (fails, CHECK_SOCK_CLOGGED);

  g_assert_nonnull (finding);
  const double rim_z = finding->seconds[0], flow_m3s = finding->seconds[1];
  const double lip_z = rim_z - (0.42 - 0.008) + 0.390; /* inside height of the sump under its rim */
  const double head_m = finding->value - lip_z;
  const double free_m3s =
      0.42 * sqrt (2 * G) * 0.10 * pow (head_m, 1.5) * (1 - (2.0 / 9) / (1 + pow (head_m / 0.006, 4)));

  g_assert_cmpfloat_with_epsilon (free_m3s, flow_m3s, 1e-6 * flow_m3s);
  g_assert_cmpfloat (finding->upper, >, finding->value);
  g_assert_cmpint (finding->grade, ==, finding->upper > rim_z ? GRADE_STOP : GRADE_CAUTION);

  /* A millimetre on either side of the lip at which its judged level has just 10 mm of freeboard. */
  g_autoptr (Evaluation) passes = with_socks (0.390 + finding->margin - 0.001, 0.10);
  g_autoptr (Evaluation) brink = with_socks (0.390 + finding->margin + 0.001, 0.10);

  g_assert_null (evaluation_finding (passes, CHECK_SOCK_CLOGGED));
  g_assert_nonnull (evaluation_finding (brink, CHECK_SOCK_CLOGGED));
  g_assert_cmpint (evaluation_finding (brink, CHECK_SOCK_CLOGGED)->grade, ==, GRADE_CAUTION);
}

/* The fall that is left against the holder's level can be too little. */
static void
test_socks_back_up (void)
{
  /* A sump that reaches as high as the box: with the lip at the height of the drains' mouths nothing drives them. */
  for (int socks = 0; socks <= 1; socks++) {
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;

    must_set (draft, "inlet", FIELD_CHAMBER_SOCKS, socks);
    must_set (draft, "sump", FIELD_SUMP_HEIGHT, 1.75);
    must_set (draft, "inlet", FIELD_CHAMBER_BYPASS, 1.31);
    evaluation = fixture_evaluate (draft);
    g_assert_cmpint (evaluation_finding (evaluation, CHECK_SOCK_BACKS_UP) != NULL, ==, socks);
  }
}

static Draft *
outside_draft (void)
{
  Draft *draft = fixture_draft ();

  must_set (draft, "return-pump", FIELD_PUMP_PLACING, PUMP_OUTSIDE);
  must_set (draft, "return-pump", FIELD_PUMP_SPEED, 1);
  return draft;
}

/* The suction's loss is borne by the pump: the duty is that of one pipe that holds the losses of both. */
static void
test_suction_loss (void)
{
  static const double flows[] = {0, 0.0006, 0.0011, 0.00145}, heads[] = {3.2, 2.6, 1.5, 0.4};
  Draft *draft = outside_draft ();
  g_autoptr (Evaluation) evaluation = NULL;
  PumpUnit pump = {.speed = 1, .tolerance = 1};
  PumpLoop loop = {0};
  OperatingPoint point;
  Water water;
  double k = 0;

  must_set (draft, "return-pump", FIELD_PUMP_SUCTION_LENGTH, 0);
  must_set (draft, "return-pump", FIELD_PUMP_SUCTION_K, 20);
  must_set (draft, "return-pump", FIELD_PUMP_SUCTION_BORE, 0.03);
  evaluation = fixture_evaluate (draft);
  g_assert_cmpint (pump_curve_from_points (4, flows, heads, &pump.curve), ==, HYDRAULICS_OK);
  g_assert_cmpint (water_properties (25, 35, &water), ==, HYDRAULICS_OK);
  g_assert_cmpint (fitting_k_on_bore (20, 0.03, evaluation->runs[0].bore_m, &k), ==, HYDRAULICS_OK);
  loop.fluid = (Fluid){water.density_kg_m3, water.dynamic_viscosity_pa_s};
  loop.pipe = (PipeRun){.length_m = evaluation->runs[0].length_m,
                        .bore_m = evaluation->runs[0].bore_m,
                        .roughness_m = 1.5e-6,
                        .k = evaluation->runs[0].k + k};
  loop.static_head_m = evaluation->pumps[0].static_head_m;
  g_assert_cmpint (pump_operating_point (&pump, &loop, &point), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (evaluation->totals.flow_m3s, point.flow_m3s, 1e-7 * point.flow_m3s);
  g_assert_cmpfloat_with_epsilon (evaluation->pumps[0].head_m, point.head_m, 1e-7);
}

/* NPSH = (p - p_v)/(rho g) + z - h with 101,325 Pa; sea water of 25 degC and 35 g/kg: 1023.3 kg/m3 and 3,110 Pa within
 * 0.05 % (TEOS-10). 0.5 m over the required one is wanted (common practice, no source). */
static void
test_npsh (void)
{
  g_autoptr (Evaluation) first = fixture_evaluate (outside_draft ());
  const PumpState *pump = &first->pumps[0];
  const double velocity_ms = pump->flow_m3s / (G_PI / 4 * 0.04 * 0.04);
  const double air_m = (101325.0 - 3110.0) / (1023.3 * G);

  g_assert_cmpfloat (pump->suction_loss_m, >, 2.5 * velocity_ms * velocity_ms / (2 * G));
  g_assert_cmpfloat_with_epsilon (pump->npsh_m, air_m + pump->cover_m - pump->suction_loss_m, 0.01);
  /* A pump that asks for all that there is lacks 0.5 m and what the band takes. */
  Draft *asking = outside_draft ();
  g_autoptr (Evaluation) short_of = NULL;

  must_set (asking, "return-pump", FIELD_PUMP_NPSH, pump->npsh_m);
  short_of = fixture_evaluate (asking);
  const double margin_m = evaluation_finding (short_of, CHECK_NPSH_MARGIN)->margin;

  g_assert_cmpfloat (margin_m, <, -0.5);
  g_assert_cmpfloat (margin_m, >, -0.6);
  for (int side = -1; side <= 1; side += 2) {
    Draft *draft = outside_draft ();
    g_autoptr (Evaluation) evaluation = NULL;

    must_set (draft, "return-pump", FIELD_PUMP_NPSH, pump->npsh_m + margin_m + side * 0.001);
    evaluation = fixture_evaluate (draft);
    g_assert_cmpint (evaluation_finding (evaluation, CHECK_NPSH_MARGIN) != NULL, ==, side > 0);
  }
}

/* Two points: H = A (1 - (Q/Q0)^2), and a note that says so; three points are a curve. */
static void
test_two_points_are_an_estimate (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) two = NULL, three = NULL;

  must_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:3.2 0.0016:0");
  must_set (draft, "return-pump", FIELD_PUMP_SPEED, 1);
  two = fixture_evaluate (draft);
  const PumpState *pump = &two->pumps[0];

  g_assert_cmpfloat_with_epsilon (pump->head_m, 3.2 * (1 - pow (pump->flow_m3s / 0.0016, 2)), 1e-9);
  g_assert_true (pump->estimate);
  g_assert_nonnull (evaluation_finding (two, CHECK_PUMP_ESTIMATE));
  /* Strong by its tolerance, in head or in flow: so much more at the fast edge, at a head where the curve is steep. */
  g_assert_cmpfloat (pump->fast_flow_m3s, >, pump->flow_m3s * 1.05);
  g_assert_cmpfloat (pump->fast_flow_m3s, <, pump->flow_m3s * 1.15);

  draft = fixture_draft ();
  must_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:3.2 0.0008:2.4 0.0016:0");
  three = fixture_evaluate (draft);
  g_assert_false (three->pumps[0].estimate);
  g_assert_null (evaluation_finding (three, CHECK_PUMP_ESTIMATE));
}

/* A tube that ends under the surface of the full reservoir goes on by itself; a longest run time of its pump is then no
 * help against a flood. */
static void
test_reservoir_runs_on (void)
{
  const double full_m = 0.4 - 0.008; /* of a reservoir of 0.4 m, over the sump's inside bottom */

  for (int side = -1; side <= 1; side += 2)
    for (int open = 0; open <= 1; open++) {
      Draft *draft = fixture_draft ();
      g_autoptr (Evaluation) evaluation = NULL;
      const bool runs_on = side < 0 && !open;

      must_set (draft, "reservoir", FIELD_RESERVOIR_HEIGHT, 0.4);
      must_set (draft, "reservoir", FIELD_RESERVOIR_WIDTH, 2.0);
      must_set (draft, "reservoir", FIELD_RESERVOIR_TUBE_END, full_m + side * 0.001);
      must_set (draft, "reservoir", FIELD_RESERVOIR_TUBE_BREAK, open);
      evaluation = fixture_evaluate (draft);
      g_assert_cmpint (evaluation_finding (evaluation, CHECK_TOP_OFF_RUNS_ON) != NULL, ==, runs_on);
      g_assert_cmpint (evaluation_finding (evaluation, CHECK_TOP_OFF_FLOODS) != NULL, ==, runs_on);
    }
}

static Evaluation *
with_joint (const char *riser_size)
{
  Draft *draft = fixture_draft ();

  must_add (draft, PART_TEE, "joint", NULL, NULL);
  must_set (draft, "joint", FIELD_TEE_X, 1.0);
  must_set (draft, "joint", FIELD_TEE_Z, 1.53);
  must_add (draft, PART_RETURN, "arm", NULL, "joint");
  must_set_text (draft, "return", FIELD_RETURN_TO, "joint");
  must_set_text (draft, "return", FIELD_RETURN_SIZE, riser_size);
  must_set_text (draft, "arm", FIELD_RETURN_TO, "outlet");
  must_set_text (draft, "arm", FIELD_RETURN_SIZE, "sch40-3/4");
  return fixture_evaluate (draft);
}

/* A run that is let down to a smaller bore pays 0.5 (1 - (d/D)^2) on the velocity in it (Crane TP-410). */
static void
test_reduced_run (void)
{
  g_autoptr (Evaluation) even = with_joint ("sch40-3/4"), reduced = with_joint ("sch40-1");
  const double ratio = reduced->runs[1].bore_m / reduced->runs[0].bore_m;

  g_assert_cmpfloat (ratio, <, 1);
  g_assert_cmpfloat_with_epsilon (reduced->runs[1].k - even->runs[1].k, 0.5 * (1 - ratio * ratio), 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/brinks/drain-floor", test_end_over_the_bottom);
  g_test_add_func ("/solver/brinks/clogged-socks", test_clogged_socks);
  g_test_add_func ("/solver/brinks/socks-back-up", test_socks_back_up);
  g_test_add_func ("/solver/brinks/suction-loss", test_suction_loss);
  g_test_add_func ("/solver/brinks/npsh", test_npsh);
  g_test_add_func ("/solver/brinks/reduced-run", test_reduced_run);
  g_test_add_func ("/solver/brinks/estimate", test_two_points_are_an_estimate);
  g_test_add_func ("/solver/brinks/reservoir", test_reservoir_runs_on);
  return g_test_run ();
}
