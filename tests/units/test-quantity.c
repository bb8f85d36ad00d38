/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The table of units and conversion by machine words. */
#include "units/quantity.h"

#include <math.h>

typedef struct {
  const char *from;
  const char *to;
  double value;
  double expected;
  double rel_tol;
} Row;

/*
 * NIST Special Publication 811 (2008), Appendix B.8. A tolerance of 1e-15 marks a factor that is exact by definition there (or
 * a product of such: the digits here are the exact value); 6e-7 a factor printed there to seven figures.
 */
static const Row nist_rows[] = {
    {"in", "m", 1, 0.0254, 1e-15},
    {"ft", "m", 1, 0.3048, 1e-15},
    {"in2", "m2", 1, 6.4516e-4, 1e-15},
    {"ft2", "m2", 1, 9.290304e-2, 1e-15},
    {"us_gal", "m3", 1, 3.785412e-3, 6e-7},
    {"us_gal", "in3", 1, 231, 1e-15},
    {"us_qt", "l", 1, 0.9463529, 6e-7},
    {"us_gal", "us_qt", 1, 4, 1e-15},
    {"imp_gal", "l", 1, 4.54609, 1e-15},
    {"imp_gal", "imp_qt", 1, 4, 1e-15},
    {"ft3", "m3", 1, 2.831685e-2, 6e-7},
    {"ft3", "in3", 1, 1728, 1e-14},
    {"in3", "m3", 1, 1.638706e-5, 6e-7},
    {"ft3/s", "m3/s", 1, 2.831685e-2, 6e-7},
    {"us_gpm", "m3/s", 1, 6.309020e-5, 6e-7},
    {"us_gpm", "us_gph", 1, 60, 1e-14},
    {"lb", "kg", 1, 0.45359237, 1e-15},
    {"oz", "g", 1, 28.34952, 6e-7},
    {"lb", "oz", 1, 16, 1e-15},
    {"us_ton", "kg", 1, 907.1847, 6e-7},
    {"imp_ton", "kg", 1, 1016.047, 6e-7},
    {"t", "kg", 1, 1000, 1e-15},
    {"lbf", "n", 1, 4.448222, 6e-7},
    {"kgf", "n", 1, 9.80665, 1e-15},
    {"psi", "pa", 1, 6894.757, 6e-7},
    {"psf", "pa", 1, 47.88026, 6e-7},
    {"bar", "pa", 1, 1e5, 1e-15},
    {"fth2o", "pa", 1, 2989.067, 6e-7},
    {"inh2o", "pa", 1, 249.0889, 6e-7},
    {"mh2o", "pa", 1, 9806.65, 1e-15},
    {"hp", "w", 1, 745.6999, 6e-7},
    {"metric_hp", "w", 1, 735.4988, 6e-7},
    {"btu/h", "w", 1, 0.2930711, 6e-7},
    {"btu", "j", 1, 1055.056, 6e-7},
    {"kwh", "j", 1, 3.6e6, 1e-15},
    {"lb/ft3", "kg/m3", 1, 16.01846, 6e-7},
    {"deg", "rad", 1, 1.745329e-2, 6e-7},
    {"ft/s", "m/s", 1, 0.3048, 1e-15},
    {"degf", "degc", 212, 100, 1e-14},
    {"degf", "degc", -40, -40, 1e-14},
    {"degc", "degf", 37, 98.6, 1e-14},
    {"kelvin", "degc", 298.15, 25, 1e-14},
    {"degc", "kelvin", 25, 298.15, 1e-15},
};

/* Products of the exact factors, worked in rational arithmetic. */
static const Row worked_rows[] = {
    {"us_gph", "l/h", 1000, 3785.411784, 1e-14},
    {"imp_gph", "l/h", 500, 2273.045, 1e-14},
    {"l/h", "us_gph", 3000, 792.5161570744452, 1e-14},
    {"m3/h", "us_gpm", 2, 8.805735078604947, 1e-14},
    {"m3/s", "l/min", 0.001, 60, 1e-14},
    {"bar", "mh2o", 1, 10.197162129779283, 1e-14},
    {"fth2o", "psi", 10, 4.335275040010043, 1e-14},
    {"in", "mm", 48, 1219.2, 1e-14},
    {"percent", "number", 12, 0.12, 1e-15},
    {"1/d", "1/h", 24, 1, 1e-15},
    {"kg/d", "kg/s", 86400, 1, 1e-14},
    {"lb/d", "kg/d", 1, 0.45359237, 1e-14},
    {"d", "h", 2, 48, 1e-15},
};

static void
check_rows (const Row *rows, guint n)
{
  for (guint i = 0; i < n; i++) {
    const Row *row = &rows[i];
    double got = -1;

    g_test_message ("%g %s in %s", row->value, row->from, row->to);
    g_assert_cmpint (units_convert_words (row->value, row->from, row->to, &got), ==, UNITS_CONVERT_OK);
    g_assert_cmpfloat_with_epsilon (got, row->expected, fabs (row->expected) * row->rel_tol);
  }
}

static void
test_nist (void)
{
  check_rows (nist_rows, G_N_ELEMENTS (nist_rows));
}

static void
test_worked (void)
{
  check_rows (worked_rows, G_N_ELEMENTS (worked_rows));
}

static void
test_bad_words (void)
{
  double got = 42;

  g_assert_cmpint (units_convert_words (1, "furlong", "m", &got), ==, UNITS_CONVERT_UNKNOWN_FROM);
  g_assert_cmpint (units_convert_words (1, NULL, "m", &got), ==, UNITS_CONVERT_UNKNOWN_FROM);
  g_assert_cmpint (units_convert_words (1, "M", "m", &got), ==, UNITS_CONVERT_UNKNOWN_FROM);
  g_assert_cmpint (units_convert_words (1, "m", "", &got), ==, UNITS_CONVERT_UNKNOWN_TO);
  g_assert_cmpint (units_convert_words (1, "m", "kg", &got), ==, UNITS_CONVERT_MISMATCH);
  g_assert_cmpint (units_convert_words (NAN, "m", "mm", &got), ==, UNITS_CONVERT_NOT_FINITE);
  g_assert_cmpint (units_convert_words (INFINITY, "m", "m", &got), ==, UNITS_CONVERT_NOT_FINITE);
  g_assert_cmpint (units_convert_words (1e307, "m", "mm", &got), ==, UNITS_CONVERT_NOT_FINITE);
  g_assert_cmpfloat (got, ==, 42);
}

static void
test_table (void)
{
  g_assert_cmpuint (unit_count (), >, 40);
  g_assert_null (unit_at (unit_count ()));
  for (guint i = 0; i < unit_count (); i++) {
    const Unit *unit = unit_at (i);
    char *lower = g_ascii_strdown (unit->word, -1);

    g_assert_cmpstr (unit->word, ==, lower);
    g_free (lower);
    /* a word finds its own row, so no word stands twice */
    g_assert_true (unit_find (unit->word) == unit);
    g_assert_true (unit->multiplier > 0 && unit->divisor > 0);
    g_assert_true (g_utf8_validate (unit->symbol, -1, NULL));
    g_assert_true (quantity_accepts (unit->quantity, unit));
    for (guint j = 0; j < i; j++)
      if (*unit->symbol != '\0')
        g_assert_cmpstr (unit->symbol, !=, unit_at (j)->symbol);
  }
}

static void
test_quantities (void)
{
  for (Quantity quantity = 0; quantity < QUANTITY_N; quantity++) {
    const Unit *unit = quantity_si_unit (quantity);

    g_assert_cmpstr (quantity_name (quantity), !=, "?");
    g_assert_true (quantity_accepts (quantity, unit));
    g_assert_cmpfloat (unit_to_si (unit, 3.25), ==, 3.25);
    g_assert_false (quantity_accepts (quantity, NULL));
  }
  g_assert_cmpstr (quantity_name (QUANTITY_N), ==, "?");
  g_assert_true (quantity_accepts (QUANTITY_HEAD, unit_find ("ft")));
  g_assert_true (quantity_accepts (QUANTITY_DIAMETER, unit_find ("in")));
  g_assert_true (quantity_accepts (QUANTITY_STRESS, unit_find ("psi")));
  /* feet of water are a pressure; a head is metres of whatever flows */
  g_assert_false (quantity_accepts (QUANTITY_HEAD, unit_find ("fth2o")));
  g_assert_cmpstr (quantity_si_unit (QUANTITY_TEMPERATURE)->word, ==, "degc");
  g_assert_cmpstr (quantity_si_unit (QUANTITY_FLOW)->word, ==, "m3/s");
  g_assert_cmpstr (quantity_si_unit (QUANTITY_TURNOVER)->word, ==, "1/h");
}

static void
test_there_and_back (void)
{
  for (guint i = 0; i < unit_count (); i++)
    for (guint n = 0; n < 100; n++) {
      const Unit *unit = unit_at (i);
      double value = g_test_rand_double_range (-1e6, 1e6);
      double back = unit_from_si (unit, unit_to_si (unit, value));

      /* one rounding a step; an offset adds one of its own size */
      g_assert_cmpfloat_with_epsilon (back, value, 4 * 2.3e-16 * (fabs (value) + fabs (unit->zero)));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/quantity/nist", test_nist);
  g_test_add_func ("/units/quantity/worked", test_worked);
  g_test_add_func ("/units/quantity/bad-words", test_bad_words);
  g_test_add_func ("/units/quantity/table", test_table);
  g_test_add_func ("/units/quantity/quantities", test_quantities);
  g_test_add_func ("/units/quantity/there-and-back", test_there_and_back);
  return g_test_run ();
}
