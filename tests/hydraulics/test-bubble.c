/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include <glib.h>

#include "hydraulics/bubble.h"

static const BubbleWater sea = {1023.34, 0.000959, 0.0733};

static double
rise (BubbleFormula formula, double diameter_m)
{
  double velocity = NAN;

  g_assert_cmpint (bubble_rise_velocity (formula, diameter_m, &sea, &velocity), ==, HYDRAULICS_OK);
  return velocity;
}

static double
tank_rise (double diameter_m)
{
  double velocity = NAN;

  g_assert_cmpint (bubble_tank_rise_velocity (diameter_m, &sea, &velocity), ==, HYDRAULICS_OK);
  return velocity;
}

/* A sphere tends to Stokes when it is small, and a clean bubble is half as fast again. */
static void
test_small_limits (void)
{
  g_assert_cmpfloat_with_epsilon (rise (BUBBLE_RIGID_SPHERE, 1e-5) / rise (BUBBLE_STOKES, 1e-5), 1.0, 1e-3);
  g_assert_cmpfloat_with_epsilon (rise (BUBBLE_HADAMARD_RYBCZYNSKI, 5e-5) / rise (BUBBLE_STOKES, 5e-5), 1.5,
                                  1e-12);
}

static void
test_validity (void)
{
  static const struct {
    BubbleFormula formula;
    double inside_m, outside_m;
  } rows[] = {
      {BUBBLE_STOKES, 5e-5, 1e-3},       {BUBBLE_HADAMARD_RYBCZYNSKI, 5e-5, 1e-3},
      {BUBBLE_RIGID_SPHERE, 4e-4, 1e-3}, {BUBBLE_GRACE, 2e-3, 2e-2},
      {BUBBLE_MENDELSON, 2e-3, 1e-3},    {BUBBLE_SPHERICAL_CAP, 5e-2, 5e-3},
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    double velocity = NAN;
    g_assert_cmpfloat (rise (rows[i].formula, rows[i].inside_m), >, 0.0);
    g_assert_cmpint (bubble_rise_velocity (rows[i].formula, rows[i].outside_m, &sea, &velocity), ==,
                     HYDRAULICS_OUT_OF_RANGE);
    g_assert_cmpfloat (velocity, >, 0.0);
  }
  double untouched = -7.0;
  g_assert_cmpint (bubble_rise_velocity (BUBBLE_GRACE, 1e-4, &sea, &untouched), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (untouched, ==, -7.0);
}

/* Up to the fastest wobbling bubble a larger one is never slower, and the joint has no jump. */
static void
test_tank_rise_is_monotone_and_continuous (void)
{
  for (int i = 0; i <= 520; i++) { /* 10 um to 1.8 mm */
    double d = 1e-5 * pow (1.01, i);
    double here = tank_rise (d);
    g_assert_cmpfloat (tank_rise (1.01 * d), >=, here);
    g_assert_cmpfloat (tank_rise (d * (1.0 + 1e-9)) - here, <, 1e-6 * here);
  }
}

/* Clift, Grace & Weber, Fig. 7.3, contaminated water, read from the curve: some 0.1 m/s at 1 mm, 0.2 to 0.25 above 2 mm. */
static void
test_tank_rise_is_of_the_right_size (void)
{
  g_assert_cmpfloat (tank_rise (1e-3), >, 0.08);
  g_assert_cmpfloat (tank_rise (1e-3), <, 0.14);
  g_assert_cmpfloat (tank_rise (3e-3), >, 0.2);
  g_assert_cmpfloat (tank_rise (3e-3), <, 0.27);
}

static void
test_smallest_held_inverts_the_rise (void)
{
  double diameter = NAN;

  for (int i = 0; i < 29; i++) { /* 0.1 mm/s to 0.16 m/s */
    double down = 1e-4 * pow (1.3, i);
    g_assert_cmpint (bubble_smallest_held (down, &sea, &diameter), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (tank_rise (diameter), >=, down);
    g_assert_cmpfloat (tank_rise (diameter * (1.0 - 1e-6)), <, down * (1.0 + 1e-5));
  }
  g_assert_cmpint (bubble_smallest_held (0.5, &sea, &diameter), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (bubble_smallest_held (0.0, &sea, &diameter), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (bubble_smallest_held (NAN, &sea, &diameter), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static void
test_grains (void)
{
  double heavy = NAN, light = NAN, floating = NAN, coarse = NAN, untouched = -7.0;

  g_assert_cmpint (settling_velocity (2e-4, sea.density_kg_m3 + 100.0, &sea, &heavy), ==, HYDRAULICS_OK);
  g_assert_cmpint (settling_velocity (2e-4, sea.density_kg_m3 - 100.0, &sea, &light), ==, HYDRAULICS_OK);
  g_assert_cmpint (settling_velocity (2e-4, sea.density_kg_m3, &sea, &floating), ==, HYDRAULICS_OK);
  g_assert_cmpint (settling_velocity (4e-4, sea.density_kg_m3 + 100.0, &sea, &coarse), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (heavy, >, 0.0);
  g_assert_cmpfloat_with_epsilon (light, -heavy, 1e-12);
  g_assert_cmpfloat (floating, ==, 0.0);
  g_assert_cmpfloat (coarse, >, heavy);
  g_assert_cmpint (settling_velocity (0.2, 7800.0, &sea, &coarse), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (settling_velocity (-1e-4, 2650.0, &sea, &untouched), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (settling_velocity (1e-4, NAN, &sea, &untouched), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (untouched, ==, -7.0);
}

static void
test_statuses (void)
{
  static const BubbleWater bad[] = {
      {NAN, 0.001, 0.07}, {1000.0, 0.0, 0.07},      {1000.0, 0.001, -0.07},
      {1.0, 0.001, 0.07}, {1000.0, INFINITY, 0.07},
  };
  double velocity = -7.0;

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_assert_cmpint (bubble_rise_velocity (BUBBLE_STOKES, 1e-4, &bad[i], &velocity), ==,
                     HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (bubble_tank_rise_velocity (1e-4, &bad[i], &velocity), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (bubble_smallest_held (0.05, &bad[i], &velocity), ==, HYDRAULICS_INVALID_ARGUMENT);
  }
  g_assert_cmpint (bubble_rise_velocity (BUBBLE_STOKES, 0.0, &sea, &velocity), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (bubble_rise_velocity (N_BUBBLE_FORMULAS, 1e-3, &sea, &velocity), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (velocity, ==, -7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/bubble/small", test_small_limits);
  g_test_add_func ("/hydraulics/bubble/validity", test_validity);
  g_test_add_func ("/hydraulics/bubble/tank/monotone", test_tank_rise_is_monotone_and_continuous);
  g_test_add_func ("/hydraulics/bubble/tank/size", test_tank_rise_is_of_the_right_size);
  g_test_add_func ("/hydraulics/bubble/held", test_smallest_held_inverts_the_rise);
  g_test_add_func ("/hydraulics/bubble/grains", test_grains);
  g_test_add_func ("/hydraulics/bubble/statuses", test_statuses);
  return g_test_run ();
}
