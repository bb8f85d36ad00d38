/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Published values are held in the reference tables; here: inverses, limits, refusals. */

#include "hydraulics/orifice.h"

#include <glib.h>
#include <math.h>

static void
test_orifice_inverse (void)
{
  for (int n = 0; n < 1000; n++) {
    double head_m = g_test_rand_double_range (0.0, 2.0), flow_m3s = NAN, back_m = NAN;
    g_assert_cmpint (orifice_discharge (0.61, 3e-4, head_m, &flow_m3s), ==, HYDRAULICS_OK);
    g_assert_cmpint (orifice_head (0.61, 3e-4, flow_m3s, &back_m), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (back_m, head_m, 1e-12);
  }
}

/* A slot is a weir while its upper edge is dry, and an orifice when it is deep. */
static void
test_slot_between_weir_and_orifice (void)
{
  double slot = NAN, dry = NAN, orifice = NAN;

  g_assert_cmpint (slot_discharge (0.6, 0.1, 0.0, 0.02, &slot), ==, HYDRAULICS_OK);
  g_assert_cmpint (slot_discharge (0.6, 0.1, -0.03, 0.02, &dry), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (slot, ==, dry);
  g_assert_cmpint (slot_discharge (0.6, 0.1, 0.98, 1.0, &slot), ==, HYDRAULICS_OK);
  g_assert_cmpint (orifice_discharge (0.6, 0.002, 0.99, &orifice), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (slot, orifice, 2e-5 * orifice);
}

static void
test_notch (void)
{
  const double angles_deg[] = {20.0, 45.0, 60.0, 90.0, 100.0};

  for (guint i = 0; i < G_N_ELEMENTS (angles_deg); i++) {
    double last_m3s = 0.0;
    for (int n = 0; n < 10000; n++) {
      double head_m = 1e-5 * pow (1e5, n / 10000.0), flow_m3s = NAN, back_m = NAN;
      g_assert_cmpint (notch_discharge (NOTCH_KINDSVATER_SHEN, angles_deg[i], head_m, &flow_m3s), ==,
                       HYDRAULICS_OK);
      g_assert_cmpfloat (flow_m3s, >, last_m3s);
      last_m3s = flow_m3s;
      if (n % 10 == 0) {
        g_assert_cmpint (notch_head (NOTCH_KINDSVATER_SHEN, angles_deg[i], flow_m3s, &back_m), ==,
                         HYDRAULICS_OK);
        g_assert_cmpfloat_with_epsilon (back_m, head_m, 1e-11 * head_m);
      }
    }
  }
}

/* Two formulas for the same 90 degree notch: within 2 % over the range of both (USBR: 60 to 380 mm). */
static void
test_notch_formulas_agree (void)
{
  for (double head_m = 0.06; head_m < 0.38; head_m += 0.01) {
    double shen = NAN, cone = NAN;
    g_assert_cmpint (notch_discharge (NOTCH_KINDSVATER_SHEN, 90.0, head_m, &shen), ==, HYDRAULICS_OK);
    g_assert_cmpint (notch_discharge (NOTCH_CONE, 90.0, head_m, &cone), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (shen, cone, 0.02 * cone);
  }
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -1e-9};
  double value = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_assert_cmpint (orifice_discharge (bad[i], 1e-4, 0.1, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (orifice_discharge (0.6, bad[i], 0.1, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (orifice_discharge (0.6, 1e-4, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (orifice_head (0.6, 1e-4, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (slot_discharge (0.6, bad[i], 0.0, 0.1, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (slot_discharge (0.6, 0.1, 0.0, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (notch_discharge (NOTCH_CONE, 90.0, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (notch_head (NOTCH_CONE, bad[i], 1e-4, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  }
  g_assert_cmpint (slot_discharge (0.6, 0.1, 0.2, 0.1, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (orifice_head (0.0, 1e-4, 1e-4, &value), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (notch_discharge (NOTCH_CONE, 60.0, 0.1, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (notch_discharge (NOTCH_FORMULA_COUNT, 60.0, 0.1, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (notch_head (NOTCH_CONE, 60.0, 1e-4, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (notch_head (NOTCH_CONE, 90.0, 1e12, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, ==, 7.0);
  g_assert_cmpint (notch_discharge (NOTCH_KINDSVATER_SHEN, 150.0, 0.1, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, !=, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/orifice/inverse", test_orifice_inverse);
  g_test_add_func ("/orifice/slot-between-weir-and-orifice", test_slot_between_weir_and_orifice);
  g_test_add_func ("/orifice/notch", test_notch);
  g_test_add_func ("/orifice/notch-formulas-agree", test_notch_formulas_agree);
  g_test_add_func ("/orifice/refuses", test_refuses);
  return g_test_run ();
}
