/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the relations become at their ends: no flow, laminar, rough, tiny and huge pipe, cold and warm water. The answers
 * are closed forms: Hagen-Poiseuille h = 128 mu L Q / (pi rho g D^4); von Karman 1/sqrt f = -2 log10 (rr / 3.7). Random
 * cases come from the seed that is printed on top; --seed plays them again. */
#include "hydraulics/drain.h"
#include "hydraulics/orifice.h"
#include "hydraulics/pipe.h"
#include "hydraulics/pump.h"
#include "hydraulics/water.h"
#include "hydraulics/weir.h"

#include <math.h>

#define G      9.80665
#define TRIALS 2000

static double
between (double low, double high)
{
  return low * pow (high / low, g_test_rand_double ());
}

static double
loss_of (const PipeRun *run, const Fluid *fluid, double flow_m3s)
{
  PipeLoss loss;

  g_assert_cmpint (pipe_loss (run, fluid, flow_m3s, &loss), ==, HYDRAULICS_OK);
  return loss.head_m;
}

static Fluid
water_at (double temperature_c, double salinity_g_kg)
{
  Water water;

  g_assert_cmpint (water_properties (temperature_c, salinity_g_kg, &water), ==, HYDRAULICS_OK);
  return (Fluid){water.density_kg_m3, water.dynamic_viscosity_pa_s};
}

static void
test_laminar_is_poiseuille (void)
{
  for (int i = 0; i < TRIALS; i++) {
    const Fluid fluid = water_at (g_test_rand_double_range (0, 40), g_test_rand_double_range (0, 45));
    const double reynolds = between (1e-3, 1999);
    const PipeRun run = {.length_m = between (0.01, 100), .bore_m = between (0.001, 1), .roughness_m = 0};
    const double flow_m3s =
        reynolds * G_PI * run.bore_m * fluid.dynamic_viscosity_pas / (4 * fluid.density_kgm3);
    const double head_m = 128 * fluid.dynamic_viscosity_pas * run.length_m * flow_m3s /
                          (G_PI * fluid.density_kgm3 * G * pow (run.bore_m, 4));

    g_assert_cmpfloat_with_epsilon (loss_of (&run, &fluid, flow_m3s), head_m, 1e-12 * head_m);
  }
}

/* On a rough wall at high speed the water's viscosity no longer counts, only its velocity head. */
static void
test_rough_wall_forgets_viscosity (void)
{
  for (int i = 0; i < TRIALS; i++) {
    const double ratio = between (1e-3, 0.05);
    const double factor = pow (-2 * log10 (ratio / 3.7), -2);
    double cold = 0;

    g_assert_cmpint (pipe_friction_factor (1e12, ratio, &cold), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (cold, factor, 1e-7 * factor);
  }
}

/* Warm water is thinner: in a given pipe, laminar or turbulent, the same flow costs less head the warmer it is.
 * Only where thinner water turns turbulent does it cost more, so those pipes are left out. */
static void
test_warm_water_costs_less (void)
{
  for (int i = 0; i < TRIALS / 10; i++) {
    const PipeRun run = {.length_m = between (0.1, 30), .bore_m = between (0.004, 0.3), .roughness_m = 1e-6};
    const double flow_m3s = between (1e-7, 1e-1), salinity = g_test_rand_double_range (0, 45);
    const double velocity_m2s = 4 * flow_m3s / (G_PI * run.bore_m);
    const Fluid cold = water_at (0, salinity), warm = water_at (40, salinity);
    double before_m = INFINITY;

    if (velocity_m2s * cold.density_kgm3 / cold.dynamic_viscosity_pas < PIPE_REYNOLDS_TURBULENT_START &&
        velocity_m2s * warm.density_kgm3 / warm.dynamic_viscosity_pas > PIPE_REYNOLDS_LAMINAR_END)
      continue;
    for (int t = 0; t <= 40; t += 5) {
      const Fluid fluid = water_at (t, salinity);
      const double head_m = loss_of (&run, &fluid, flow_m3s);

      g_assert_cmpfloat (head_m, <, before_m);
      before_m = head_m;
    }
  }
}

/* From 1 mm to 10 m of bore: finite, and less loss in every wider pipe. */
static void
test_tiny_and_huge_pipe (void)
{
  const Fluid fluid = water_at (25, 35);

  for (int i = 0; i < TRIALS / 10; i++) {
    const double flow_m3s = between (1e-9, 1.0);
    double before_m = INFINITY;

    for (double bore_m = 0.001; bore_m <= 10; bore_m *= 1.1) {
      const PipeRun run = {.length_m = 2, .bore_m = bore_m, .roughness_m = 1.5e-6, .k = 3};
      const double head_m = loss_of (&run, &fluid, flow_m3s);

      g_assert_true (isfinite (head_m) && head_m > 0);
      g_assert_cmpfloat (head_m, <, before_m);
      before_m = head_m;
    }
  }
}

static void
test_no_flow_needs_nothing (void)
{
  const Fluid fluid = water_at (25, 35);
  const PipeRun run = {.length_m = 2, .bore_m = 0.03, .roughness_m = 1.5e-6, .k = 3};
  const Weir weir = {.formula = WEIR_THICK_CREST,
                     .crest_length_m = 0.5,
                     .channel_width_m = 0.5,
                     .crest_height_m = 0.4,
                     .crest_thickness_m = 0.006};
  const DrainPipe drain = {.mouth_level_m = 1, .mouth_diameter_m = 0.03, .end_level_m = 0, .run = run};
  PumpCurve curve;
  PumpHead head;
  double value = 1;
  DrainRegime regime;

  g_assert_cmpfloat (loss_of (&run, &fluid, 0), ==, 0);
  g_assert_cmpint (weir_head (&weir, 0, 0, &value), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (value, ==, 0);
  g_assert_cmpint (orifice_discharge (0.6, 1e-3, 0, &value), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (value, ==, 0);
  g_assert_cmpint (drain_flow (&drain, &fluid, false, 1, &value, &regime), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (value, ==, 0);
  g_assert_cmpint (regime, ==, DRAIN_DRY);
  g_assert_cmpint (pump_curve_estimate (3, 1e-3, &curve), ==, HYDRAULICS_OK);
  g_assert_cmpint (pump_head (&curve, 0.5, 1, 0, &head), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (head.head_m, 3 * 0.25, 1e-12);
}

/* Heads are in metres of the fluid, so only the kinematic viscosity counts: twice as heavy and twice as viscous a water
 * loses the same head. */
static void
test_density_alone_changes_nothing (void)
{
  for (int i = 0; i < TRIALS; i++) {
    const Fluid fluid = water_at (g_test_rand_double_range (0, 40), 0);
    const double factor = between (0.1, 10), flow_m3s = between (1e-7, 1e-1);
    const Fluid heavy = {factor * fluid.density_kgm3, factor * fluid.dynamic_viscosity_pas};
    const PipeRun run = {
        .length_m = between (0.1, 30), .bore_m = between (0.004, 0.3), .roughness_m = 1e-6, .k = 2};
    const double head_m = loss_of (&run, &fluid, flow_m3s);

    g_assert_cmpfloat_with_epsilon (loss_of (&run, &heavy, flow_m3s), head_m, 1e-12 * head_m);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/limits/laminar", test_laminar_is_poiseuille);
  g_test_add_func ("/hydraulics/limits/rough", test_rough_wall_forgets_viscosity);
  g_test_add_func ("/hydraulics/limits/warm", test_warm_water_costs_less);
  g_test_add_func ("/hydraulics/limits/tiny-and-huge", test_tiny_and_huge_pipe);
  g_test_add_func ("/hydraulics/limits/no-flow", test_no_flow_needs_nothing);
  g_test_add_func ("/hydraulics/limits/density", test_density_alone_changes_nothing);
  return g_test_run ();
}
