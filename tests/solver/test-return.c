/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The return loop: the network against the bracketed solution of one loop, and how flow answers to changes. */
#include "design/choices.h"
#include "hydraulics/pump.h"
#include "hydraulics/water.h"
#include "tests/solver/fixture.h"

#include <math.h>

#define TRIALS 60

static double
flow_with (const char *key, FieldId field, double value)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;

  must_set (draft, key, field, value);
  evaluation = fixture_evaluate (draft);
  return evaluation->totals.flow_m3s;
}

/* The duty point of the network is that of one pump on one pipe between the two levels, found by bracketing. */
static void
test_duty_point_is_the_bracketed_one (void)
{
  const double speeds[] = {0.7, 0.79, 0.9, 1.0};

  for (unsigned i = 0; i < G_N_ELEMENTS (speeds); i++) {
    static const double flows[] = {0, 0.0006, 0.0011, 0.00145}, heads[] = {3.2, 2.6, 1.5, 0.4};
    Draft *draft = fixture_draft ();
    g_autoptr (Evaluation) evaluation = NULL;
    PumpUnit pump = {.speed = speeds[i], .tolerance = 1};
    PumpLoop loop = {0};
    OperatingPoint point;
    Water water;

    must_set (draft, "return-pump", FIELD_PUMP_SPEED, speeds[i]);
    evaluation = fixture_evaluate (draft);
    g_assert_cmpint (pump_curve_from_points (4, flows, heads, &pump.curve), ==, HYDRAULICS_OK);
    g_assert_cmpint (water_properties (25, 35, &water), ==, HYDRAULICS_OK);
    loop.fluid = (Fluid){water.density_kg_m3, water.dynamic_viscosity_pa_s};
    loop.pipe = (PipeRun){.length_m = evaluation->runs[0].length_m,
                          .bore_m = evaluation->runs[0].bore_m,
                          .roughness_m = 1.5e-6,
                          .k = evaluation->runs[0].k};
    loop.static_head_m = evaluation->pumps[0].static_head_m;
    g_assert_cmpint (pump_operating_point (&pump, &loop, &point), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (evaluation->totals.flow_m3s, point.flow_m3s, 1e-8 * point.flow_m3s);
    g_assert_cmpfloat_with_epsilon (evaluation->pumps[0].head_m, point.head_m, 1e-8);
    /* The static head is that to the surface which this very flow makes. */
    g_assert_cmpfloat_with_epsilon (evaluation->tanks[0].display_z,
                                    evaluation->overflows[0].crest_z + evaluation->overflows[0].head_m, 1e-9);
  }
}

static void
test_moving_a_corner_changes_the_loss (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) base = fixture_evaluate (fixture_draft ()), moved = NULL;

  must_set (draft, "corner-2", FIELD_CORNER_X, 0.1);
  moved = fixture_evaluate (draft);
  g_assert_cmpfloat_with_epsilon (moved->runs[0].length_m - base->runs[0].length_m, 0.2, 0.11);
  g_assert_cmpfloat (moved->runs[0].loss_m / pow (moved->runs[0].flow_m3s, 2), >,
                     base->runs[0].loss_m / pow (base->runs[0].flow_m3s, 2));
  g_assert_cmpfloat (moved->totals.flow_m3s, <, base->totals.flow_m3s);
}

static void
test_resistance_never_raises_the_flow (void)
{
  for (unsigned i = 0; i < TRIALS; i++) {
    const double k = exp (g_test_rand_double_range (-3, 6));

    g_assert_cmpfloat (flow_with ("return-union", FIELD_FITTING_K, k * 1.2), <=,
                       flow_with ("return-union", FIELD_FITTING_K, k));
  }
}

static void
test_speed_raises_flow_and_power (void)
{
  double last_m3s = 0;

  for (double speed = 0.65; speed <= 1.0; speed += 0.05) {
    const double flow_m3s = flow_with ("return-pump", FIELD_PUMP_SPEED, speed);

    g_assert_cmpfloat (flow_m3s, >, last_m3s);
    last_m3s = flow_m3s;
  }
}

/* Raising crest and break together raises the static head and cannot raise the flow. */
static void
test_higher_crest_never_raises_the_flow (void)
{
  double last_m3s = 1;

  for (double crest = 0.50; crest < 0.56; crest += 0.01) {
    const double flow_m3s = flow_with ("overflow", FIELD_OVERFLOW_CREST, crest);

    g_assert_cmpfloat (flow_m3s, <, last_m3s);
    last_m3s = flow_m3s;
  }
}

static void
test_edges_are_in_order (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const Totals *totals = &evaluation->totals;

  g_assert_cmpfloat (totals->slow_flow_m3s, <, totals->flow_m3s);
  g_assert_cmpfloat (totals->flow_m3s, <, totals->fast_flow_m3s);
  g_assert_cmpfloat (totals->fast_flow_m3s, <, totals->full_speed_flow_m3s);
  g_assert_cmpfloat_with_epsilon (totals->turnover_per_h, 3600 * totals->flow_m3s / totals->display_water_m3,
                                  1e-12);
}

/* Two equal branches from a tee carry equal flows, and more than either alone. */
static void
test_equal_branches_share (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Evaluation) evaluation = NULL;

  must_add (draft, PART_TEE, "tee", NULL, NULL);
  must_add (draft, PART_OUTLET, "outlet-2", NULL, "display");
  must_add (draft, PART_RETURN, "left", NULL, "tee");
  must_add (draft, PART_RETURN, "right", NULL, "tee");
  must_set_text (draft, "return", FIELD_RETURN_TO, "tee");
  must_set_text (draft, "left", FIELD_RETURN_TO, "outlet");
  must_set_text (draft, "right", FIELD_RETURN_TO, "outlet-2");
  evaluation = fixture_evaluate (draft);
  g_assert_cmpint (evaluation->status, ==, EVALUATION_OK);
  g_assert_cmpuint (evaluation->n_outlets, ==, 2);
  g_assert_cmpfloat_with_epsilon (evaluation->outlets[0].flow_m3s + evaluation->outlets[1].flow_m3s,
                                  evaluation->totals.flow_m3s, 1e-12);
  g_assert_cmpfloat_with_epsilon (evaluation->pumps[0].flow_m3s, evaluation->totals.flow_m3s,
                                  1e-8 * evaluation->totals.flow_m3s);
  g_assert_cmpfloat (evaluation->outlets[0].flow_m3s, >, 0);
  g_assert_cmpfloat (evaluation->outlets[1].flow_m3s, >, 0);
}

/* A riser of the sound system, led to a tee below the rim from which two arms of one length run to two outlets. The
 * corner of the riser before the tee says from where it comes. */
static Evaluation *
parted (double before_x, double before_z, bool left_first)
{
  const double tee_x = 1.0, tee_y = 0.62, tee_z = 1.53;
  const char *arms[] = {left_first ? "left" : "right", left_first ? "right" : "left"};
  Draft *draft = fixture_draft ();

  must_add (draft, PART_TEE, "tee", NULL, NULL);
  must_add (draft, PART_OUTLET, "outlet-2", NULL, "display");
  must_set (draft, "outlet-2", FIELD_OUTLET_BORE, 0.02);
  for (unsigned i = 0; i < 2; i++) {
    const bool left = arms[i][0] == 'l';
    const char *corners[] = {left ? "left-corner" : "right-corner", left ? "left-drop" : "right-drop"};

    must_add (draft, PART_RETURN, arms[i], NULL, "tee");
    must_set_text (draft, arms[i], FIELD_RETURN_TO, left ? "outlet" : "outlet-2");
    must_set_text (draft, arms[i], FIELD_RETURN_SIZE, "sch40-1");
    must_add (draft, PART_CORNER, corners[0], NULL, arms[i]);
    must_set (draft, corners[0], FIELD_CORNER_X, tee_x + (left ? -0.3 : 0.3));
    must_add (draft, PART_CORNER, corners[1], NULL, arms[i]);
    must_set (draft, corners[1], FIELD_CORNER_Y, tee_y - 0.1);
  }
  must_set_text (draft, "return", FIELD_RETURN_TO, "tee");
  must_set (draft, "corner-2", FIELD_CORNER_X, before_x);
  must_set (draft, "corner-2", FIELD_CORNER_Y, tee_y);
  must_set (draft, "corner-2", FIELD_CORNER_Z, before_z);
  must_set (draft, "tee", FIELD_TEE_X, tee_x);
  must_set (draft, "tee", FIELD_TEE_Y, tee_y);
  must_set (draft, "tee", FIELD_TEE_Z, tee_z);
  for (unsigned i = 0; i < 2; i++) {
    const char *outlet = i == 0 ? "outlet" : "outlet-2";

    /* Both mouths straight under the ends of the arms. */
    must_set (draft, outlet, FIELD_OUTLET_X, tee_x + (i == 0 ? -0.3 : 0.3) + 0.013);
    must_set (draft, outlet, FIELD_OUTLET_Y, tee_y - 0.1 + 0.013);
  }
  return fixture_evaluate (draft);
}

/* Which leg of a tee is its branch is a matter of how the pipes lie, not of the order in which they were drawn. A riser
 * that meets two arms from below parts evenly; one that comes along with an arm keeps to that arm (Crane TP-410: the
 * straight way of a dividing tee loses less than its branch). */
static void
test_tee_by_its_lie (void)
{
  for (unsigned order = 0; order < 2; order++) {
    g_autoptr (Evaluation) below = parted (1.0, 0.8, order == 0);
    g_autoptr (Evaluation) from_left = parted (0.9, 1.53, order == 0);
    g_autoptr (Evaluation) from_right = parted (1.1, 1.53, order == 0);

    g_assert_cmpint (below->status, ==, EVALUATION_OK);
    g_assert_cmpfloat_with_epsilon (below->outlets[0].flow_m3s, below->outlets[1].flow_m3s,
                                    1e-6 * below->outlets[0].flow_m3s);
    /* Coming from the left it runs on to the right, which is the second outlet. */
    g_assert_cmpfloat (from_left->outlets[1].flow_m3s, >, 1.05 * from_left->outlets[0].flow_m3s);
    g_assert_cmpfloat (from_right->outlets[0].flow_m3s, >, 1.05 * from_right->outlets[1].flow_m3s);
  }
}

/* Pressure at the break from the energy balance of the whole run: total head behind the pump less all losses before it. */
static void
test_break_pressure (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const OutletState *outlet = &evaluation->outlets[0];
  const double area_m2 = G_PI / 4 * 0.02664 * 0.02664;
  const double pipe_m = pow (outlet->flow_m3s / area_m2, 2) / (2 * 9.80665);
  const double nozzle_m = pow (outlet->nozzle_velocity_ms / 0.95, 2) / (2 * 9.80665);

  g_assert_cmpfloat_with_epsilon (outlet->break_head_m,
                                  evaluation->tanks[0].display_z + nozzle_m - pipe_m - outlet->break_z, 1e-9);
  g_assert_cmpfloat (outlet->break_head_m, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/return/bracketed", test_duty_point_is_the_bracketed_one);
  g_test_add_func ("/solver/return/corner", test_moving_a_corner_changes_the_loss);
  g_test_add_func ("/solver/return/resistance", test_resistance_never_raises_the_flow);
  g_test_add_func ("/solver/return/speed", test_speed_raises_flow_and_power);
  g_test_add_func ("/solver/return/crest", test_higher_crest_never_raises_the_flow);
  g_test_add_func ("/solver/return/edges", test_edges_are_in_order);
  g_test_add_func ("/solver/return/branches", test_equal_branches_share);
  g_test_add_func ("/solver/return/tee", test_tee_by_its_lie);
  g_test_add_func ("/solver/return/break", test_break_pressure);
  return g_test_run ();
}
