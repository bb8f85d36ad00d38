/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/pipe.h"

#include <glib.h>
#include <math.h>
#include <stdbool.h>

static const Fluid water = {998.2, 1.002e-3};

static PipeLoss
loss_of (const PipeRun *run, double flow)
{
  PipeLoss loss;

  g_assert_cmpint (pipe_loss (run, &water, flow, &loss), ==, HYDRAULICS_OK);
  return loss;
}

static double
factor_at (double reynolds, double roughness)
{
  double factor;

  g_assert_cmpint (pipe_friction_factor (reynolds, roughness, &factor), ==, HYDRAULICS_OK);
  return factor;
}

/* The Colebrook-White equation itself, put to the answer: the residual in 1 / sqrt f is rounding. */
static void
test_factor_solves_colebrook (void)
{
  const double roughnesses[] = {0.0, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 5e-2};

  for (guint n = 0; n < 40; n++) {
    double reynolds = 4000.0 * pow (1.37, n);
    for (guint r = 0; r < G_N_ELEMENTS (roughnesses); r++) {
      double roughness = roughnesses[r];
      double x = 1.0 / sqrt (factor_at (reynolds, roughness));
      double right = -2.0 * log10 (roughness / 3.7 + 2.51 * x / reynolds);
      g_assert_cmpfloat (fabs (x - right), <, 2e-14 * x);
    }
  }
}

/* Blasius (1913), 0.3164 / Re^0.25, is within 3 % of smooth pipe from Re 6000 to 1e5. */
static void
test_factor_agrees_with_blasius (void)
{
  for (guint n = 0; n < 30; n++) {
    double reynolds = 6e3 * pow (1.1, n);
    g_assert_cmpfloat (fabs (factor_at (reynolds, 0.0) * pow (reynolds, 0.25) / 0.3164 - 1.0), <, 0.03);
  }
}

static void
test_bridge_joins_with_value (void)
{
  for (guint r = 0; r < 11; r++) {
    double roughness = 0.005 * r;
    g_assert_cmpfloat (fabs (factor_at (2000.0 * (1.0 + 1e-9), roughness) - 0.032), <, 1e-9);
    g_assert_cmpfloat (fabs (factor_at (4000.0 * (1.0 - 1e-9), roughness) - factor_at (4000.0, roughness)), <,
                       1e-9);
  }
}

/* Slope against the central difference, at 400 flows over eight decades and on both sides of each joint. */
static void
check_slope (const PipeRun *run, double flow)
{
  PipeLoss loss = loss_of (run, flow);
  double step = 1e-5 * flow;
  double slope = (loss_of (run, flow + step).head_m - loss_of (run, flow - step).head_m) / (2.0 * step);

  g_assert_cmpfloat (fabs (slope - loss.slope_sm2), <=, 2e-4 * loss.slope_sm2);
}

static void
test_slope_is_the_derivative (void)
{
  const PipeRun runs[] = {
      {2.0, 0.0266, 1.5e-6, 3.0}, {1.0, 0.004, 2e-4, 0.0}, {0.0, 0.05, 0.0, 10.0}, {30.0, 0.1, 0.0, 0.0}};

  for (guint i = 0; i < G_N_ELEMENTS (runs); i++) {
    double per_reynolds = G_PI_4 * runs[i].bore_m * water.dynamic_viscosity_pas / water.density_kgm3;
    for (guint n = 0; n < 425; n++) {
      double flow = 1e-10 * pow (1.05, n);
      check_slope (&runs[i], flow);
    }
    for (guint n = 0; n < 2; n++) {
      double side = -1e-4 + 2e-4 * n;
      check_slope (&runs[i], 2000.0 * per_reynolds * (1.0 + side));
      check_slope (&runs[i], 4000.0 * per_reynolds * (1.0 + side));
      check_slope (&runs[i], 1e-3 * G_PI_4 * runs[i].bore_m * runs[i].bore_m * (1.0 + side));
    }
  }
}

static void
test_loss_rises_and_is_odd (void)
{
  for (guint r = 0; r < 6; r++) {
    double roughness = 0.01 * r;
    PipeRun run = {1.0, 0.02, 0.02 * roughness, 1.0};
    double last = 0.0;
    g_assert_true (loss_of (&run, 0.0).head_m == 0.0);
    g_assert_cmpfloat (loss_of (&run, 0.0).slope_sm2, >, 0.0);
    for (guint n = 0; n < 2083; n++) {
      double flow = 1e-9 * pow (1.01, n);
      PipeLoss loss = loss_of (&run, flow);
      g_assert_cmpfloat (loss.head_m, >, last);
      g_assert_true (loss_of (&run, -flow).head_m == -loss.head_m);
      last = loss.head_m;
    }
  }
}

/* Equal Reynolds number and relative roughness give equal loss coefficients: bores scaled by s, flows by s. */
static void
test_scales_with_reynolds (void)
{
  for (guint n = 0; n < 7; n++) {
    double scale = 0.1 * pow (3.0, n);
    PipeRun small = {1.0, 0.01, 1e-5, 2.0}, large = {scale, 0.01 * scale, 1e-5 * scale, 2.0};
    PipeLoss a = loss_of (&small, 2e-4), b = loss_of (&large, 2e-4 * scale);
    g_assert_cmpfloat (fabs (a.friction_factor / b.friction_factor - 1.0), <, 1e-12);
    g_assert_cmpfloat (fabs (a.head_m / (b.head_m * scale * scale) - 1.0), <, 1e-12);
  }
}

static void
test_inverse_comes_back (void)
{
  PipeRun run = {2.0, 0.0266, 1.5e-6, 3.0};

  for (guint n = 0; n < 31; n++) {
    double flow = 1e-8 * pow (1.7, n);
    double back;
    g_assert_cmpint (pipe_flow_at_loss (&run, &water, -loss_of (&run, flow).head_m, &back), ==,
                     HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (back / -flow - 1.0), <, 1e-9);
  }
}

/* Pipes of every kind at every loss: laminar, bridge and turbulent, with and without wall, length and local losses. */
static void
test_inverse_holds_everywhere (void)
{
  for (guint n = 0; n < 20000; n++) {
    double bore_m = pow (10.0, g_test_rand_double_range (-2.3, -0.5));
    PipeRun run = {n % 7 > 0 ? pow (10.0, g_test_rand_double_range (-3.0, 2.0)) : 0.0, bore_m,
                   n % 5 > 0 ? bore_m * pow (10.0, g_test_rand_double_range (-7.0, -1.31)) : 0.0,
                   n % 3 > 0 ? pow (10.0, g_test_rand_double_range (-4.0, 12.0)) : 0.0};
    double head_m = pow (10.0, g_test_rand_double_range (-12.0, 1.5)), flow;
    if (run.length_m + run.k <= 0.0)
      continue;
    g_assert_cmpint (pipe_flow_at_loss (&run, &water, head_m, &flow), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (loss_of (&run, flow).head_m / head_m - 1.0), <, 1e-13);
  }
}

/* The roughest admitted pipe is admitted whatever rounding makes of its ratio. */
static void
test_roughest_wall (void)
{
  for (guint n = 1; n < 500; n++) {
    PipeRun run = {1.0, 1e-3 * n / 7.0, PIPE_RELATIVE_ROUGHNESS_MAX * (1e-3 * n / 7.0), 1.0};
    double flow;
    g_assert_cmpfloat (loss_of (&run, 1e-4).head_m, >, 0.0);
    g_assert_cmpfloat (loss_of (&run, 3000.0 * 1e-6 * G_PI_4 * run.bore_m).friction_factor, >, 0.0);
    g_assert_cmpint (pipe_flow_at_loss (&run, &water, 1.0, &flow), ==, HYDRAULICS_OK);
  }
}

static void
test_refuses (void)
{
  const PipeRun bad[] = {{-1.0, 0.02, 0.0, 0.0},  {1.0, 0.0, 0.0, 0.0},   {1.0, NAN, 0.0, 0.0},
                         {1.0, 0.02, -1e-6, 0.0}, {1.0, 0.02, 0.0, -1.0}, {1.0, 0.02, 0.0, INFINITY}};
  PipeRun rough = {1.0, 0.02, 0.002, 0.0}, nothing = {0.0, 0.02, 0.0, 0.0};
  PipeLoss loss = {.head_m = 42.0};
  double value = 42.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_cmpint (pipe_loss (&bad[i], &water, 1e-3, &loss), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pipe_loss (&rough, &water, 1e-3, &loss), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (pipe_loss (&rough, &(Fluid){0.0, 1e-3}, 1e-3, &loss), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pipe_flow_at_loss (&nothing, &water, 1.0, &value), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (pipe_friction_factor (0.0, 0.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (pipe_friction_factor (1e4, 0.06, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_true (loss.head_m == 42.0 && value == 42.0);
}

/* ISO 4065: the wall of a metric pipe is its outside diameter over SDR, rounded up to 0.1 mm, at least 1.5 mm. DIN 8062
 * walls of SDR 21 at 32 mm and above follow it as well. */
static void
test_metric_walls_follow_their_rule (void)
{
  const struct {
    PipeSeries series;
    double sdr;
  } rules[] = {{PIPE_ISO_1452_SDR_21, 21.0}, {PIPE_ISO_1452_SDR_13_6, 13.6}};

  for (guint r = 0; r < G_N_ELEMENTS (rules); r++) {
    guint n;
    const PipeDimensions *sizes = pipe_series_sizes (rules[r].series, &n);
    for (guint i = 0; i < n; i++) {
      double rule = fmax (1.5, ceil (sizes[i].nominal / rules[r].sdr * 10.0 - 0.2) / 10.0);
      g_assert_cmpfloat (fabs (sizes[i].wall_m * 1e3 - rule), <, 0.101);
      g_assert_cmpfloat (fabs (sizes[i].bore_m + 2.0 * sizes[i].wall_m - sizes[i].outside_m), <, 1e-12);
      g_assert_true (i == 0 || sizes[i].nominal > sizes[i - 1].nominal);
    }
  }
}

static void
test_keys_come_back (void)
{
  for (guint i = 0; i < N_PIPE_SERIES; i++) {
    PipeSeries series = N_PIPE_SERIES;
    PipeDimensions size;
    guint n;
    const PipeDimensions *sizes = pipe_series_sizes ((PipeSeries) i, &n);
    g_assert_cmpint (pipe_series_from_key (pipe_series_standard ((PipeSeries) i),
                                           pipe_series_key ((PipeSeries) i), &series),
                     ==, HYDRAULICS_OK);
    g_assert_cmpuint (series, ==, i);
    g_assert_cmpint (pipe_size (series, sizes[n - 1].nominal, &size), ==, HYDRAULICS_OK);
    g_assert_cmpint (pipe_size (series, 0.77, &size), ==, HYDRAULICS_OUT_OF_RANGE);
  }
  for (guint i = 0; i < N_SOCKET_SERIES; i++) {
    SocketSeries series = N_SOCKET_SERIES;
    double depth;
    g_assert_cmpint (socket_series_from_key (socket_series_standard ((SocketSeries) i),
                                             socket_series_key ((SocketSeries) i), &series),
                     ==, HYDRAULICS_OK);
    g_assert_cmpuint (series, ==, i);
    g_assert_cmpint (socket_depth (series, 0.77, &depth), ==, HYDRAULICS_OUT_OF_RANGE);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pipe/factor-solves-colebrook", test_factor_solves_colebrook);
  g_test_add_func ("/pipe/factor-agrees-with-blasius", test_factor_agrees_with_blasius);
  g_test_add_func ("/pipe/bridge-joins-with-value", test_bridge_joins_with_value);
  g_test_add_func ("/pipe/slope-is-the-derivative", test_slope_is_the_derivative);
  g_test_add_func ("/pipe/loss-rises-and-is-odd", test_loss_rises_and_is_odd);
  g_test_add_func ("/pipe/scales-with-reynolds", test_scales_with_reynolds);
  g_test_add_func ("/pipe/inverse-comes-back", test_inverse_comes_back);
  g_test_add_func ("/pipe/inverse-holds-everywhere", test_inverse_holds_everywhere);
  g_test_add_func ("/pipe/roughest-wall", test_roughest_wall);
  g_test_add_func ("/pipe/refuses", test_refuses);
  g_test_add_func ("/pipe/metric-walls-follow-their-rule", test_metric_walls_follow_their_rule);
  g_test_add_func ("/pipe/keys-come-back", test_keys_come_back);
  return g_test_run ();
}
