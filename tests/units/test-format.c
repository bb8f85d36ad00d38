/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What people and files are shown, and that it reads back. */
#include "units/format.h"
#include "units/parse.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#define NNBSP "\u202f"
#define NBSP  "\u00a0"
#define IN    0.0254

typedef struct {
  double value;
  Quantity quantity;
  gboolean is_us;
  const char *word; /* unit of the one field, or NULL */
  UnitsPrecision precision;
  const char *expected;
} Row;

static const Row rows[] = {
    {0.4572, QUANTITY_LENGTH, FALSE, NULL, UNITS_BUILD, "457" NNBSP "mm"},
    {0.4572, QUANTITY_LENGTH, FALSE, NULL, UNITS_EXACT, "457.2" NNBSP "mm"},
    {1.2192, QUANTITY_LENGTH, FALSE, NULL, UNITS_BUILD, "1219" NNBSP "mm"},
    {12.3456, QUANTITY_LENGTH, FALSE, NULL, UNITS_BUILD, "12.346" NNBSP "m"},
    {12.3456, QUANTITY_LENGTH, FALSE, NULL, UNITS_MEASURE, "12.35" NNBSP "m"},
    {12.3456, QUANTITY_LENGTH, FALSE, "mm", UNITS_BUILD, "12" NNBSP "346" NNBSP "mm"},
    {0.4572, QUANTITY_LENGTH, FALSE, "cm", UNITS_BUILD, "45.7" NNBSP "cm"},
    {-0.012, QUANTITY_LENGTH, FALSE, NULL, UNITS_BUILD, "−12" NNBSP "mm"},
    {-0.0001, QUANTITY_LENGTH, FALSE, NULL, UNITS_BUILD, "0" NNBSP "mm"},
    {0.4572, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "18" NNBSP "in"},
    {1.5 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "1" NBSP "1/2" NNBSP "in"},
    {-0.75 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "−3/4" NNBSP "in"},
    {15.99 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "16" NNBSP "in"},
    {0.01 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "0" NNBSP "in"},
    {-0.01 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "0" NNBSP "in"},
    {150.5 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "12" NNBSP "ft" NBSP "6" NBSP "1/2" NNBSP "in"},
    {-144 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "−12" NNBSP "ft"},
    {143.99 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "12" NNBSP "ft"},
    {150.5 * IN, QUANTITY_LENGTH, TRUE, NULL, UNITS_EXACT, "150.5" NNBSP "in"},
    {150.5 * IN, QUANTITY_LENGTH, TRUE, "in", UNITS_BUILD, "150" NBSP "1/2" NNBSP "in"},
    {150.5 * IN, QUANTITY_LENGTH, TRUE, "ft", UNITS_BUILD, "12.542" NNBSP "ft"},
    {0.0254, QUANTITY_DIAMETER, FALSE, NULL, UNITS_BUILD, "25.4" NNBSP "mm"},
    {0.019, QUANTITY_DIAMETER, FALSE, NULL, UNITS_BUILD, "19" NNBSP "mm"},
    {0.0266446, QUANTITY_DIAMETER, TRUE, NULL, UNITS_BUILD, "1.05" NNBSP "in"},
    {1.5e-6, QUANTITY_DIAMETER, FALSE, NULL, UNITS_MEASURE, "0.0015" NNBSP "mm"}, /* a roughness */
    {0.00015, QUANTITY_DIAMETER, FALSE, NULL, UNITS_MEASURE, "0.15" NNBSP "mm"},
    {1.5e-6, QUANTITY_DIAMETER, TRUE, NULL, UNITS_MEASURE, "0.000059" NNBSP "in"},
    {0, QUANTITY_DIAMETER, FALSE, NULL, UNITS_MEASURE, "0" NNBSP "mm"},
    {1483.0 / 3.6e6, QUANTITY_FLOW, FALSE, NULL, UNITS_MEASURE, "1480" NNBSP "L/h"},
    {14830.0 / 3.6e6, QUANTITY_FLOW, FALSE, NULL, UNITS_MEASURE, "14" NNBSP "800" NNBSP "L/h"},
    {999.6 / 3.6e6, QUANTITY_FLOW, FALSE, NULL, UNITS_MEASURE, "1000" NNBSP "L/h"},
    {1200.0 / 3.6e6, QUANTITY_FLOW, FALSE, NULL, UNITS_EXACT, "1200" NNBSP "L/h"},
    {0, QUANTITY_FLOW, FALSE, NULL, UNITS_MEASURE, "0" NNBSP "L/h"},
    {300 * 0.003785411784 / 3600, QUANTITY_FLOW, TRUE, NULL, UNITS_EXACT, "300" NNBSP "US gal/h"},
    {1234 * 0.003785411784 / 3600, QUANTITY_FLOW, TRUE, NULL, UNITS_MEASURE, "1,230" NNBSP "US gal/h"},
    {0.4543, QUANTITY_VOLUME, FALSE, NULL, UNITS_MEASURE, "454" NNBSP "L"},
    {0.0046, QUANTITY_VOLUME, FALSE, NULL, UNITS_MEASURE, "4.6" NNBSP "L"},
    {0.00996, QUANTITY_VOLUME, FALSE, NULL, UNITS_MEASURE, "10" NNBSP "L"},
    {0.00025, QUANTITY_VOLUME, FALSE, NULL, UNITS_MEASURE, "250" NNBSP "mL"},
    {0, QUANTITY_VOLUME, FALSE, NULL, UNITS_MEASURE, "0" NNBSP "L"},
    {0.4542494141, QUANTITY_VOLUME, TRUE, NULL, UNITS_MEASURE, "120" NNBSP "US gal"},
    {1.2345, QUANTITY_VELOCITY, FALSE, NULL, UNITS_MEASURE, "1.23" NNBSP "m/s"},
    {2.4384, QUANTITY_HEAD, TRUE, NULL, UNITS_MEASURE, "8.00" NNBSP "ft"},
    {26, QUANTITY_TEMPERATURE, TRUE, NULL, UNITS_MEASURE, "78.8" NNBSP "°F"},
    {25.04, QUANTITY_TEMPERATURE, FALSE, NULL, UNITS_MEASURE, "25.0" NNBSP "°C"},
    {0, QUANTITY_TEMPERATURE, FALSE, NULL, UNITS_MEASURE, "0.0" NNBSP "°C"},
    {0.123, QUANTITY_RATIO, FALSE, NULL, UNITS_MEASURE, "12" NNBSP "%"},
    {0.0123, QUANTITY_RATIO, FALSE, NULL, UNITS_MEASURE, "1.2" NNBSP "%"},
    {5.04, QUANTITY_TURNOVER, FALSE, NULL, UNITS_MEASURE, "5.0" NNBSP "×/h"},
    {G_PI / 2, QUANTITY_ANGLE, FALSE, NULL, UNITS_MEASURE, "90°"},
    {5400, QUANTITY_TIME, FALSE, NULL, UNITS_MEASURE, "90.0" NNBSP "min"},
    {0.3, QUANTITY_PRICE, FALSE, NULL, UNITS_MEASURE, "0.30" NNBSP "€/kWh"},
    {0.31255, QUANTITY_PRICE, FALSE, NULL, UNITS_MEASURE, "0.3125" NNBSP "€/kWh"},
    {1234.5, QUANTITY_MONEY, TRUE, NULL, UNITS_MEASURE, "1,234.50" NNBSP "€"},
    {7, QUANTITY_COUNT, FALSE, NULL, UNITS_MEASURE, "7"},
    {0.25, QUANTITY_NONE, FALSE, NULL, UNITS_MEASURE, "0.25"},
    {70e9, QUANTITY_STRESS, FALSE, NULL, UNITS_MEASURE, "70.0" NNBSP "GPa"},
    {2000, QUANTITY_STRESS, FALSE, NULL, UNITS_MEASURE, "2.00" NNBSP "kPa"},
    {1e300, QUANTITY_NONE, FALSE, NULL, UNITS_MEASURE, "1.000e300"},
    {1e-12, QUANTITY_HEAD, FALSE, NULL, UNITS_MEASURE, "1.00e-12" NNBSP "m"},
    {1, QUANTITY_FLOW, FALSE, "kg", UNITS_EXACT, "3" NNBSP "600" NNBSP "000" NNBSP "L/h"}, /* misfit */
    {NAN, QUANTITY_FLOW, FALSE, NULL, UNITS_MEASURE, "—"},
    {-INFINITY, QUANTITY_LENGTH, TRUE, NULL, UNITS_BUILD, "—"},
    {1e308, QUANTITY_LENGTH, FALSE, "mm", UNITS_EXACT, "—"},
};

static void
test_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    NumberStyle style = rows[i].is_us ? number_style_us () : number_style_metric ();
    char *text;

    g_strlcpy (style.currency, "€", sizeof style.currency);
    text =
        units_format (rows[i].value, rows[i].quantity, &style, unit_find (rows[i].word), rows[i].precision);
    g_test_message ("row %u", i);
    g_assert_cmpstr (text, ==, rows[i].expected);
    g_free (text);
  }
}

static void
test_columns (void)
{
  NumberStyle style = number_style_us ();
  char *text = units_format_number (18.5 * IN, QUANTITY_LENGTH, &style, NULL, UNITS_BUILD);

  g_assert_cmpstr (text, ==, "18" NBSP "1/2");
  g_free (text);
  text = units_format_number (NAN, QUANTITY_LENGTH, &style, NULL, UNITS_BUILD);
  g_assert_cmpstr (text, ==, UNITS_NO_VALUE);
  g_free (text);
  g_strlcpy (style.currency, "$", sizeof style.currency);
  text = units_symbol (unit_find ("per_kwh"), &style);
  g_assert_cmpstr (text, ==, "$/kWh");
  g_free (text);
  text = units_symbol (unit_find ("us_gph"), &style);
  g_assert_cmpstr (text, ==, "US gal/h");
  g_free (text);
}

static void
test_own_units (void)
{
  NumberStyle style = number_style_metric ();
  char *text;

  g_assert_true (number_style_set_unit (&style, QUANTITY_FLOW, "us_gph"));
  g_assert_false (number_style_set_unit (&style, QUANTITY_FLOW, "kg"));
  g_assert_false (number_style_set_unit (&style, QUANTITY_FLOW, "cubit"));
  g_assert_false (number_style_set_unit (&style, QUANTITY_N, "m"));
  g_assert_cmpstr (units_unit_for (QUANTITY_FLOW, &style)->word, ==, "us_gph");
  g_assert_true (number_style_set_unit (&style, QUANTITY_LENGTH, "in"));
  text = units_format (150.5 * IN, QUANTITY_LENGTH, &style, NULL, UNITS_BUILD);
  g_assert_cmpstr (text, ==, "150" NBSP "1/2" NNBSP "in");
  g_free (text);
  g_assert_true (number_style_set_unit (&style, QUANTITY_FLOW, NULL));
  g_assert_cmpstr (units_unit_for (QUANTITY_FLOW, &style)->word, ==, "l/h");
}

static void
test_signs_of_locales (void)
{
  static const struct {
    const char *decimal, *thousands, *expected;
  } cases[] = {
      {".", ",", "1,234,567.5"},
      {",", ".", "1.234.567,5"},
      {",", "\u00a0", "1" NNBSP "234" NNBSP "567,5"},
      {",", " ", "1" NNBSP "234" NNBSP "567,5"},
      {".", "’", "1’234’567.5"},
      {"٫", "٬", "1٬234٬567٫5"},
      {".", "", "1234567.5"},
      {",", ",", "1234567,5"},
      {NULL, NULL, "1234567.5"},
      {"", "", "1234567.5"},
      {"xx", "yy", "1234567.5"},
      {"\xff", "\xff", "1234567.5"},
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    NumberStyle style =
        number_style_from_separators (UNIT_SYSTEM_METRIC, cases[i].decimal, cases[i].thousands);
    char *text = units_format (1234567.5, QUANTITY_NONE, &style, NULL, UNITS_EXACT);
    double back = 0;

    g_assert_cmpstr (text, ==, cases[i].expected);
    g_assert_cmpint (units_parse (text, QUANTITY_NONE, &style, NULL, &back, NULL), ==, UNITS_PARSE_OK);
    g_assert_cmpfloat (back, ==, 1234567.5);
    g_free (text);
  }
}

static void
check_shortest (double value)
{
  char text[UNITS_SHORTEST_SIZE];
  double back = NAN;

  g_assert_true (units_shortest (value, text) == text);
  g_assert_cmpuint (strlen (text), <, UNITS_SHORTEST_SIZE);
  g_assert_true (units_parse_si (text, &back));
  g_assert_cmpfloat (back, ==, value);
}

static void
test_shortest (void)
{
  static const struct {
    double value;
    const char *expected;
  } cases[] = {
      {0, "0"},
      {-0.0, "0"},
      {0.1, "0.1"},
      {1200, "1200"},
      {-2.5e-9, "-2.5e-9"},
      {0.0254, "0.0254"},
      {1e15, "1e15"},
      {1e14, "100000000000000"},
      {1.0 / 3, "0.3333333333333333"},
      {5e-324, "5e-324"},
      {NAN, ""},
      {INFINITY, ""},
      {0.1 + 0.2, "0.30000000000000004"},
      {1.7976931348623157e308, "1.7976931348623157e308"},
      {-1.25e-7, "-0.000000125"},
  };
  char text[UNITS_SHORTEST_SIZE];

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpstr (units_shortest (cases[i].value, text), ==, cases[i].expected);
  for (guint i = 0; i < 1000; i++) {
    union {
      guint64 bits;
      double value;
    } any = {.bits = ((guint64) (guint32) g_test_rand_int () << 32) | (guint32) g_test_rand_int ()};

    if (isfinite (any.value))
      check_shortest (any.value);
    check_shortest (g_test_rand_double_range (-1e4, 1e4));
    check_shortest (g_test_rand_int_range (-100000, 100000) / 1000.0);
  }
}

static NumberStyle
random_style (void)
{
  static const char *const signs[][2] = {{".", ","}, {",", "."}, {".", NNBSP}, {",", NNBSP},
                                         {".", "'"}, {",", ""},  {"٫", "٬"}};
  guint i = (guint) g_test_rand_int_range (0, G_N_ELEMENTS (signs));
  NumberStyle style = number_style_from_separators (g_test_rand_bit () ? UNIT_SYSTEM_US : UNIT_SYSTEM_METRIC,
                                                    signs[i][0], signs[i][1]);

  if (g_test_rand_bit ())
    g_strlcpy (style.currency, "€", sizeof style.currency);
  return style;
}

static const Unit *
random_unit (Quantity quantity)
{
  const Unit *unit;

  do
    unit = unit_at ((guint) g_test_rand_int_range (0, (int) unit_count ()));
  while (!quantity_accepts (quantity, unit));
  return unit;
}

/* Largest difference that a rounding may make, in stored units. */
static double
allowed (double value, Quantity quantity, const Unit *unit, UnitsPrecision precision)
{
  double figures = fabs (value - unit_to_si (unit, 0)) * 0.00501;

  if (precision == UNITS_EXACT)
    return 4.5e-16 * (fabs (value) + fabs (unit->zero));
  if (quantity == QUANTITY_LENGTH && strcmp (unit->word, "in") == 0)
    return IN / 32 * 1.0001;
  if (quantity == QUANTITY_COUNT)
    return 0.5 + 1e-16 * fabs (value);
  return MAX (figures, unit_factor (unit) * 0.5001);
}

static void
check_reads_back (const char *text, double value, Quantity quantity, const NumberStyle *style,
                  const Unit *unit, double tolerance)
{
  double back = NAN;
  UnitsParseStatus status = units_parse (text, quantity, style, unit, &back, NULL);

  if (status != UNITS_PARSE_OK || !(fabs (back - value) <= tolerance))
    g_test_message ("%s %.17g: '%s' read as %.17g", quantity_name (quantity), value, text, back);
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_cmpint (status, ==, UNITS_PARSE_OK);
  g_assert_cmpfloat (fabs (back - value), <=, tolerance);
}

static void
test_reads_back (void)
{
  for (guint n = 0; n < 4000; n++) {
    Quantity quantity = (Quantity) g_test_rand_int_range (0, QUANTITY_N);
    NumberStyle style = random_style ();
    const Unit *unit = random_unit (quantity);
    UnitsPrecision precision = (UnitsPrecision) g_test_rand_int_range (UNITS_BUILD, UNITS_EXACT + 1);
    double shown = pow (10, g_test_rand_double_range (-3, 6)) * (g_test_rand_bit () ? 1 : -1);
    double value = unit_to_si (unit, quantity == QUANTITY_COUNT ? round (shown) : shown);
    double tolerance = allowed (value, quantity, unit, precision);
    char *text = units_format (value, quantity, &style, unit, precision);
    char *number = units_format_number (value, quantity, &style, unit, precision);

    check_reads_back (text, value, quantity, &style, unit, tolerance);
    check_reads_back (number, value, quantity, &style, unit, tolerance);
    g_free (text);
    g_free (number);
  }
}

static void
test_free_choice_reads_back (void)
{
  for (guint n = 0; n < 2000; n++) {
    Quantity quantity = (Quantity) g_test_rand_int_range (0, QUANTITY_N);
    NumberStyle style = random_style ();
    double value = pow (10, g_test_rand_double_range (-4, 4));
    const Unit *unit = units_unit_for_value (value, quantity, &style);
    gboolean is_feet = quantity == QUANTITY_LENGTH && strcmp (unit->word, "ft") == 0;
    char *text = units_format (value, quantity, &style, NULL, UNITS_MEASURE);

    check_reads_back (text, value, quantity, &style, NULL,
                      is_feet ? IN / 32 * 1.0001 : allowed (value, quantity, unit, UNITS_MEASURE));
    g_free (text);
  }
}

/* A value typed in some unit and shown exactly in that unit is what was typed. */
static void
test_exact_is_what_was_typed (void)
{
  NumberStyle style = number_style_from_separators (UNIT_SYSTEM_US, ".", "");

  for (guint n = 0; n < 2000; n++) {
    Quantity quantity = (Quantity) g_test_rand_int_range (0, QUANTITY_N);
    const Unit *unit = random_unit (quantity);
    char *typed = g_strdup_printf ("%d.%d", g_test_rand_int_range (1, 10000), g_test_rand_int_range (1, 10));
    char *shown;
    double value = NAN;

    if (quantity != QUANTITY_COUNT) {
      g_assert_cmpint (units_parse (typed, quantity, &style, unit, &value, NULL), ==, UNITS_PARSE_OK);
      shown = units_format_number (value, quantity, &style, unit, UNITS_EXACT);
      g_assert_cmpstr (shown, ==, typed);
      g_free (shown);
    }
    g_free (typed);
  }
}

/* The same text whatever the process thinks of commas. */
static void
test_comma_locale (void)
{
  static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "pt_BR.UTF-8",
                                      "pl_PL.UTF-8"};
  char *before = g_strdup (setlocale (LC_ALL, NULL));
  const char *found = NULL;

  for (guint i = 0; found == NULL && i < G_N_ELEMENTS (names); i++)
    found = setlocale (LC_ALL, names[i]);
  if (found == NULL)
    g_test_skip ("no locale with a decimal comma is installed");
  else {
    g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
    test_rows ();
    test_signs_of_locales ();
    test_shortest ();
    test_exact_is_what_was_typed ();
  }
  setlocale (LC_ALL, before);
  g_free (before);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/format/rows", test_rows);
  g_test_add_func ("/units/format/columns", test_columns);
  g_test_add_func ("/units/format/own-units", test_own_units);
  g_test_add_func ("/units/format/signs-of-locales", test_signs_of_locales);
  g_test_add_func ("/units/format/shortest", test_shortest);
  g_test_add_func ("/units/format/reads-back", test_reads_back);
  g_test_add_func ("/units/format/free-choice-reads-back", test_free_choice_reads_back);
  g_test_add_func ("/units/format/exact-is-what-was-typed", test_exact_is_what_was_typed);
  g_test_add_func ("/units/format/comma-locale", test_comma_locale);
  return g_test_run ();
}
