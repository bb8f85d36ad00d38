/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Values are checked by tests/reference; here stand the properties that no table shows. */

#include <math.h>

#include <glib.h>

#include "hydraulics/water.h"

typedef HydraulicsStatus (*PropertyFunc) (double temperature_c, double salinity_g_kg, double *ret_value);

/* What a property does when the water gets warmer or saltier: 1 grows, -1 falls, 0 is not monotone over the range. */
static const struct {
  const char *name;
  PropertyFunc compute;
  int with_temperature, with_salinity;
} properties[] = {
    {"density", water_density, 0, 1}, /* fresh water is densest at 4 degC */
    {"viscosity", water_dynamic_viscosity, -1, 1},
    {"specific heat", water_specific_heat, 0, -1},
    {"vapour pressure", water_vapour_pressure, 1, -1},
    {"latent heat", water_latent_heat, -1, 0},
    {"surface tension", water_surface_tension, -1, 1},
};

static double
property (gsize which, double temperature_c, double salinity_g_kg)
{
  double value = NAN;

  g_assert_cmpint (properties[which].compute (temperature_c, salinity_g_kg, &value), ==, HYDRAULICS_OK);
  g_assert_true (isfinite (value) && value > 0.0);
  return value;
}

static void
test_monotone (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (properties); i++) {
    for (int warm = 0; warm < 80; warm++) {
      for (int salty = 0; salty < 30; salty++) {
        double t = 0.5 * warm, s = 1.5 * salty;
        double here = property (i, t, s);
        if (properties[i].with_temperature != 0)
          g_assert_cmpfloat (properties[i].with_temperature * (property (i, t + 0.5, s) - here), >, 0.0);
        if (properties[i].with_salinity != 0)
          g_assert_cmpfloat (properties[i].with_salinity * (property (i, t, s + 1.5) - here), >, 0.0);
      }
    }
  }
}

static void
test_fresh_water_is_densest_at_four_degrees (void)
{
  double densest = property (0, 3.98, 0.0); /* 999.975 kg/m3 at 3.98 degC: CIPM, Metrologia 38 (2001) */

  g_assert_cmpfloat_with_epsilon (densest, 999.975, 0.002);
  g_assert_cmpfloat (densest, >, property (0, 2.5, 0.0));
  g_assert_cmpfloat (densest, >, property (0, 5.5, 0.0));
}

static void
test_printed_check_values (void)
{
  /* UNESCO 44: specific heat at t68 = 40 degC, practical salinity 40. */
  double heat = property (2, 40.0 / 1.00024, 40.0 * 35.16504 / 35.0);
  g_assert_cmpfloat_with_epsilon (heat, 3980.051, 0.002);
  /* IAPWS R7-97, Table 35: 300 K. */
  g_assert_cmpfloat_with_epsilon (property (3, 26.85, 0.0), 3536.58941, 1e-4);
  /* IAPWS R1-76: 20 degC, 72.74 mN/m, from memory. */
  g_assert_cmpfloat_with_epsilon (property (5, 20.0, 0.0), 0.07274, 1e-5);
}

static void
test_statuses (void)
{
  static const struct {
    double t, s;
    HydraulicsStatus status;
  } rows[] = {
      {NAN, 0.0, HYDRAULICS_INVALID_ARGUMENT},
      {25.0, NAN, HYDRAULICS_INVALID_ARGUMENT},
      {INFINITY, 0.0, HYDRAULICS_INVALID_ARGUMENT},
      {25.0, -0.1, HYDRAULICS_INVALID_ARGUMENT},
      {-0.1, 0.0, HYDRAULICS_OUT_OF_RANGE},
      {40.1, 0.0, HYDRAULICS_OUT_OF_RANGE},
      {25.0, 45.1, HYDRAULICS_OUT_OF_RANGE},
      {0.0, 0.0, HYDRAULICS_OK},
      {40.0, 45.0, HYDRAULICS_OK},
  };

  for (gsize i = 0; i < G_N_ELEMENTS (properties); i++) {
    for (gsize k = 0; k < G_N_ELEMENTS (rows); k++) {
      double value = -7.0;
      g_assert_cmpint (properties[i].compute (rows[k].t, rows[k].s, &value), ==, rows[k].status);
      g_assert_true ((value == -7.0) == (rows[k].status != HYDRAULICS_OK));
    }
  }
}

static void
test_all_properties_are_the_single_ones (void)
{
  Water water;

  g_assert_cmpint (water_properties (26.0, 35.0, &water), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (water.density_kg_m3, ==, property (0, 26.0, 35.0));
  g_assert_cmpfloat (water.dynamic_viscosity_pa_s, ==, property (1, 26.0, 35.0));
  g_assert_cmpfloat (water.specific_heat_j_kgk, ==, property (2, 26.0, 35.0));
  g_assert_cmpfloat (water.vapour_pressure_pa, ==, property (3, 26.0, 35.0));
  g_assert_cmpfloat (water.latent_heat_j_kg, ==, property (4, 26.0, 35.0));
  g_assert_cmpfloat (water.surface_tension_n_m, ==, property (5, 26.0, 35.0));
  g_assert_cmpint (water_properties (99.0, 35.0, &water), ==, HYDRAULICS_OUT_OF_RANGE);
}

static void
test_masses (void)
{
  double salt = NAN, twice = NAN, mass = NAN;

  g_assert_cmpint (water_salt_mass (0.4, 25.0, 35.0, &salt), ==, HYDRAULICS_OK);
  g_assert_cmpint (water_salt_mass (0.8, 25.0, 35.0, &twice), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (twice, 2.0 * salt, 1e-12);
  g_assert_cmpint (water_salt_mass (0.8, 25.0, 0.0, &salt), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (salt, ==, 0.0);
  g_assert_cmpint (water_salt_mass (-0.1, 25.0, 35.0, &salt), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (water_salt_mass (0.1, 50.0, 35.0, &salt), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (water_mass (0.0, 1000.0, &mass), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (mass, ==, 0.0);
  g_assert_cmpint (water_mass (1.0, 0.0, &mass), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (water_mass (NAN, 1000.0, &mass), ==, HYDRAULICS_INVALID_ARGUMENT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/water/monotone", test_monotone);
  g_test_add_func ("/hydraulics/water/densest", test_fresh_water_is_densest_at_four_degrees);
  g_test_add_func ("/hydraulics/water/printed", test_printed_check_values);
  g_test_add_func ("/hydraulics/water/statuses", test_statuses);
  g_test_add_func ("/hydraulics/water/all", test_all_properties_are_the_single_ones);
  g_test_add_func ("/hydraulics/water/masses", test_masses);
  return g_test_run ();
}
