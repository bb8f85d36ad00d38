/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What people type: understood, asked about, or refused with the piece that was not understood. */
#include "units/parse.h"

#include <math.h>
#include <string.h>

#define IN      0.0254
#define FT      0.3048
#define LB      0.45359237
#define US_GAL  0.003785411784
#define IMP_GAL 0.00454609

typedef enum {
  METRIC, /* point, narrow spaces */
  US,     /* point, commas */
  GERMAN, /* comma, points; metric */
  SWISS,  /* point, apostrophes; metric */
  PLAIN   /* point, nothing; metric */
} StyleName;

static NumberStyle
style_named (StyleName name)
{
  switch (name) {
  case METRIC:
    return number_style_metric ();
  case US:
    return number_style_us ();
  case GERMAN:
    return number_style_from_separators (UNIT_SYSTEM_METRIC, ",", ".");
  case SWISS:
    return number_style_from_separators (UNIT_SYSTEM_METRIC, ".", "’");
  case PLAIN:
    break;
  }
  return number_style_from_separators (UNIT_SYSTEM_METRIC, ".", "");
}

typedef struct {
  const char *text;
  Quantity quantity;
  StyleName style;
  const char *default_word;
  double expected;
} Good;

static const Good good[] = {
    {"18 in", QUANTITY_LENGTH, METRIC, NULL, 18 * IN},
    {"18in", QUANTITY_LENGTH, METRIC, NULL, 18 * IN},
    {"18 in.", QUANTITY_LENGTH, METRIC, NULL, 18 * IN},
    {"18 Inches", QUANTITY_LENGTH, METRIC, "mm", 18 * IN},
    {"45.7 cm", QUANTITY_LENGTH, US, "in", 0.457},
    {"1 1/2", QUANTITY_LENGTH, US, "in", 1.5 * IN},
    {"1 1/2 in", QUANTITY_DIAMETER, METRIC, "mm", 1.5 * IN},
    {"1-1/2\"", QUANTITY_DIAMETER, METRIC, NULL, 1.5 * IN},
    {"1½ in", QUANTITY_DIAMETER, METRIC, NULL, 1.5 * IN},
    {"1 ½ in", QUANTITY_DIAMETER, METRIC, NULL, 1.5 * IN},
    {"1³⁄₁₆ in", QUANTITY_DIAMETER, METRIC, NULL, (1 + 3.0 / 16) * IN},
    {"1 3⁄16 in", QUANTITY_DIAMETER, METRIC, NULL, (1 + 3.0 / 16) * IN},
    {"¾″", QUANTITY_DIAMETER, METRIC, NULL, 0.75 * IN},
    {"3/4\"", QUANTITY_DIAMETER, METRIC, NULL, 0.75 * IN},
    {"3/4''", QUANTITY_DIAMETER, METRIC, NULL, 0.75 * IN},
    {"5/4 in", QUANTITY_DIAMETER, METRIC, NULL, 1.25 * IN},
    {"−1 1/2 in", QUANTITY_LENGTH, METRIC, NULL, -1.5 * IN},
    {"12 125/128 in", QUANTITY_LENGTH, METRIC, NULL, (12 + 125.0 / 128) * IN},
    {"5' 3 1/2\"", QUANTITY_LENGTH, METRIC, NULL, 63.5 * IN},
    {"5'3\"", QUANTITY_LENGTH, US, "in", 63 * IN},
    {"5'-3 1/2\"", QUANTITY_LENGTH, US, "in", 63.5 * IN},
    {"5′ 3½″", QUANTITY_LENGTH, US, "in", 63.5 * IN},
    {"5’ 3”", QUANTITY_LENGTH, US, "in", 63 * IN},
    {"5' 3", QUANTITY_LENGTH, US, "in", 63 * IN},
    {"5'", QUANTITY_LENGTH, US, "in", 5 * FT},
    {"5ft3in", QUANTITY_LENGTH, US, "in", 63 * IN},
    {"-5 ft 3 in", QUANTITY_LENGTH, US, "in", -63 * IN},
    {"2 m 5 cm", QUANTITY_LENGTH, METRIC, "mm", 2.05},
    {"2 lb 4 oz", QUANTITY_MASS, US, NULL, 2.25 * LB},
    {"1 h 30 min", QUANTITY_TIME, METRIC, NULL, 5400},
    {"1200 L/h", QUANTITY_FLOW, METRIC, NULL, 1.2 / 3600},
    {"1200 l / h", QUANTITY_FLOW, METRIC, NULL, 1.2 / 3600},
    {"1200lph", QUANTITY_FLOW, US, "us_gph", 1.2 / 3600},
    {"300 gph", QUANTITY_FLOW, US, NULL, 300 * US_GAL / 3600},
    {"300 gph", QUANTITY_FLOW, METRIC, NULL,
     300 * US_GAL / 3600}, /* the abbreviation is American: common practice */
    {"300 gal/h", QUANTITY_FLOW, METRIC, "imp_gph", 300 * IMP_GAL / 3600},
    {"300 US gph", QUANTITY_FLOW, METRIC, NULL, 300 * US_GAL / 3600},
    {"300 us gal/h", QUANTITY_FLOW, METRIC, NULL, 300 * US_GAL / 3600},
    {"300 imp gal/h", QUANTITY_FLOW, METRIC, NULL, 300 * IMP_GAL / 3600},
    {"5 gal", QUANTITY_VOLUME, US, "us_gal", 5 * US_GAL},
    {"0 gal", QUANTITY_VOLUME, METRIC, NULL, 0},
    {"-0", QUANTITY_LENGTH, METRIC, NULL, 0},
    {"1.200,5 mm", QUANTITY_LENGTH, GERMAN, NULL, 1.2005},
    {"1.200,5 mm", QUANTITY_LENGTH, US, NULL, 1.2005},
    {"1,200.5 mm", QUANTITY_LENGTH, GERMAN, NULL, 1.2005},
    {"1.200 L/h", QUANTITY_FLOW, GERMAN, NULL, 1.2 / 3600},
    {"1,200 L/h", QUANTITY_FLOW, US, NULL, 1.2 / 3600},
    {"1,200 L/h", QUANTITY_FLOW, GERMAN, NULL, 0.0012 / 3600},
    {"1.200 L/h", QUANTITY_FLOW, METRIC, NULL, 0.0012 / 3600},
    {"1,200,000 L/h", QUANTITY_FLOW, GERMAN, NULL, 1200.0 / 3600},
    {"1 200 L/h", QUANTITY_FLOW, METRIC, NULL, 1.2 / 3600},
    {"1 200 L/h", QUANTITY_FLOW, METRIC, NULL, 1.2 / 3600},
    {"1 200 000,5 L/h", QUANTITY_FLOW, METRIC, NULL, 1200.0005 / 3600},
    {"1’200 L/h", QUANTITY_FLOW, SWISS, NULL, 1.2 / 3600},
    {"1'200 L/h", QUANTITY_FLOW, SWISS, NULL, 1.2 / 3600},
    {"12,5 cm", QUANTITY_LENGTH, METRIC, NULL, 0.125},
    {"12,5 cm", QUANTITY_LENGTH, US, NULL, 0.125},
    {"12,25 cm", QUANTITY_LENGTH, US, NULL, 0.1225},
    {"0,125 m", QUANTITY_LENGTH, METRIC, NULL, 0.125},
    {"1234,567 mm", QUANTITY_LENGTH, METRIC, NULL, 1.234567},
    {".5 m", QUANTITY_LENGTH, METRIC, NULL, 0.5},
    {"1e3 mm", QUANTITY_LENGTH, METRIC, NULL, 1},
    {"1.5E-3 m", QUANTITY_LENGTH, METRIC, NULL, 0.0015},
    {"１２ mm", QUANTITY_LENGTH, METRIC, NULL, 0.012},
    {"١٢٫٥ mm", QUANTITY_LENGTH, METRIC, NULL, 0.0125},
    {"  7 \t mm \n", QUANTITY_LENGTH, METRIC, NULL, 0.007},
    {"12", QUANTITY_LENGTH, METRIC, "mm", 0.012},
    {"12", QUANTITY_LENGTH, METRIC, "in", 12 * IN},
    {"12.5", QUANTITY_NONE, METRIC, NULL, 12.5},
    {"3", QUANTITY_COUNT, METRIC, NULL, 3},
    {"30 %", QUANTITY_RATIO, METRIC, NULL, 0.3},
    {"30", QUANTITY_RATIO, METRIC, "percent", 0.3},
    {"0.3", QUANTITY_RATIO, METRIC, "number", 0.3},
    {"78.8 °F", QUANTITY_TEMPERATURE, METRIC, NULL, 26},
    {"78.8f", QUANTITY_TEMPERATURE, METRIC, NULL, 26},
    {"-5 C", QUANTITY_TEMPERATURE, METRIC, NULL, -5},
    {"298.15 K", QUANTITY_TEMPERATURE, METRIC, NULL, 25},
    {"35 ppt", QUANTITY_SALINITY, METRIC, NULL, 35},
    {"5", QUANTITY_TURNOVER, METRIC, NULL, 5},
    {"5 x/h", QUANTITY_TURNOVER, METRIC, NULL, 5},
    {"5 ×/h", QUANTITY_TURNOVER, METRIC, NULL, 5},
    {"5 1/h", QUANTITY_TURNOVER, METRIC, NULL, 5},
    {"5/h", QUANTITY_TURNOVER, METRIC, NULL, 5},
    {"2 m²", QUANTITY_AREA, METRIC, NULL, 2},
    {"2 m^3", QUANTITY_VOLUME, METRIC, NULL, 2},
    {"2 FT3", QUANTITY_VOLUME, METRIC, NULL, 2 * 0.028316846592},
    {"70 GPa", QUANTITY_STRESS, METRIC, NULL, 70e9},
    {"10 MPa", QUANTITY_STRESS, METRIC, NULL, 10e6},
    {"10 mpa", QUANTITY_STRESS, METRIC, NULL, 10e6},
    {"8 ft", QUANTITY_HEAD, US, "ft", 8 * FT},
    {"90°", QUANTITY_ANGLE, METRIC, NULL, G_PI / 2},
    {"0.30/kWh", QUANTITY_PRICE, METRIC, NULL, 0.3},
    {"12.50", QUANTITY_MONEY, METRIC, NULL, 12.5},
};

static void
test_good (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (good); i++) {
    NumberStyle style = style_named (good[i].style);
    UnitsParseDetail detail;
    double value = NAN;
    UnitsParseStatus status = units_parse (good[i].text, good[i].quantity, &style,
                                           unit_find (good[i].default_word), &value, &detail);

    g_test_message ("row %u: '%s': %s, %.17g", i, good[i].text, units_parse_status_text (status), value);
    g_assert_cmpint (status, ==, UNITS_PARSE_OK);
    /* decimal to binary, factor, and a sum of terms round a few times */
    g_assert_cmpfloat_with_epsilon (value, good[i].expected, 1e-14 * (1 + fabs (good[i].expected)));
    g_assert_cmpfloat_with_epsilon (value, good[i].expected, 1e-13 * fabs (good[i].expected) + 1e-300);
    g_assert_nonnull (detail.unit);
    g_assert_cmpuint (detail.length, ==, 0);
    g_assert_cmpuint (detail.n_readings, ==, 0);
  }
}

typedef struct {
  const char *text;
  Quantity quantity;
  StyleName style;
  const char *default_word;
  double expected[3]; /* readings in order; unused 0 */
} Asked;

static const Asked asked[] = {
    {"300 gal/h", QUANTITY_FLOW, METRIC, NULL, {300 * US_GAL / 3600, 300 * IMP_GAL / 3600}},
    {"300 gal/h", QUANTITY_FLOW, METRIC, "l/h", {300 * US_GAL / 3600, 300 * IMP_GAL / 3600}},
    {"5 gal", QUANTITY_VOLUME, METRIC, "l", {5 * US_GAL, 5 * IMP_GAL}},
    {"1,200 L/h", QUANTITY_FLOW, METRIC, NULL, {0.0012 / 3600, 1.2 / 3600}},
    {"1,200 L/h", QUANTITY_FLOW, PLAIN, NULL, {0.0012 / 3600, 1.2 / 3600}},
    {"1,200 L/h", QUANTITY_FLOW, SWISS, NULL, {0.0012 / 3600, 1.2 / 3600}},
    {"-1,200 mm", QUANTITY_LENGTH, METRIC, NULL, {-0.0012, -1.2}},
    {"1 ton", QUANTITY_MASS, METRIC, NULL, {1000, 2000 * LB, 2240 * LB}},
    {"1 hp", QUANTITY_POWER, METRIC, NULL, {745.69987158227022, 735.49875}},
    {"3/4", QUANTITY_DIAMETER, METRIC, "mm", {0.00075, 0.75 * IN}},
    {"12", QUANTITY_DIAMETER, METRIC, NULL, {0.012, 0.12, 12 * IN}},
    {"12", QUANTITY_LENGTH, US, NULL, {12 * IN, 12 * FT, 0.012}},
    {"30", QUANTITY_RATIO, METRIC, NULL, {0.3, 30}},
    {"78", QUANTITY_TEMPERATURE, US, NULL, {(78 - 32) / 1.8, 78}},
};

static void
test_asked (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (asked); i++) {
    NumberStyle style = style_named (asked[i].style);
    UnitsParseDetail detail;
    double value = 42;

    g_test_message ("row %u: '%s'", i, asked[i].text);
    g_assert_cmpint (units_parse (asked[i].text, asked[i].quantity, &style, unit_find (asked[i].default_word),
                                  &value, &detail),
                     ==, UNITS_PARSE_AMBIGUOUS);
    g_assert_cmpfloat (value, ==, 42);
    g_assert_cmpuint (detail.n_readings, ==, asked[i].expected[2] != 0 ? 3 : 2);
    for (guint r = 0; r < detail.n_readings; r++) {
      g_test_message ("  %s", detail.reading[r].text);
      g_assert_cmpfloat_with_epsilon (detail.reading[r].value, asked[i].expected[r],
                                      1e-14 * fabs (asked[i].expected[r]));
      /* the question can be answered with its own words */
      g_assert_true (quantity_accepts (asked[i].quantity, detail.reading[r].unit));
      g_assert_cmpint (units_parse (detail.reading[r].text, asked[i].quantity, &style, detail.reading[r].unit,
                                    &value, NULL),
                       ==, UNITS_PARSE_OK);
      g_assert_cmpfloat (value, ==, detail.reading[r].value);
      value = 42;
    }
  }
}

static void
test_asked_both (void)
{
  NumberStyle style = number_style_metric ();
  UnitsParseDetail detail;

  /* two meanings of the comma times two gallons */
  g_assert_cmpint (units_parse ("1,200 gal/h", QUANTITY_FLOW, &style, NULL, NULL, &detail), ==,
                   UNITS_PARSE_AMBIGUOUS);
  g_assert_cmpuint (detail.n_readings, ==, 4);
}

typedef struct {
  const char *text;
  Quantity quantity;
  StyleName style;
  UnitsParseStatus status;
  gsize offset;
  const char *piece;
} Bad;

static const Bad bad[] = {
    {"", QUANTITY_LENGTH, METRIC, UNITS_PARSE_EMPTY, 0, ""},
    {" \t ", QUANTITY_LENGTH, METRIC, UNITS_PARSE_EMPTY, 0, ""},
    {"abc", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NO_NUMBER, 0, "abc"},
    {"-", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NO_NUMBER, 1, ""},
    {"--5 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NO_NUMBER, 1, "-5 mm"},
    {"nan", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NO_NUMBER, 0, "nan"},
    {"inf mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NO_NUMBER, 0, "inf mm"},
    {"mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NO_NUMBER, 0, "mm"},
    {"0x10 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 1, "x10 mm"},
    {"0x1p3", QUANTITY_NONE, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 1, "x1p3"},
    {"12 furlongs", QUANTITY_LENGTH, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 3, "furlongs"},
    {"12 ins8", QUANTITY_LENGTH, METRIC, UNITS_PARSE_TRAILING, 6, "8"},
    {"½ furlong ", QUANTITY_LENGTH, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 3, "furlong"},
    {"12 mµ", QUANTITY_LENGTH, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 3, "mµ"},
    {"12 kg", QUANTITY_LENGTH, METRIC, UNITS_PARSE_WRONG_QUANTITY, 3, "kg"},
    {"12 L/h now", QUANTITY_LENGTH, METRIC, UNITS_PARSE_WRONG_QUANTITY, 3, "L/h"},
    {"5 m/s", QUANTITY_LENGTH, METRIC, UNITS_PARSE_WRONG_QUANTITY, 2, "m/s"},
    {"5 m3", QUANTITY_LENGTH, METRIC, UNITS_PARSE_WRONG_QUANTITY, 2, "m3"},
    {"5 psi", QUANTITY_HEAD, METRIC, UNITS_PARSE_WRONG_QUANTITY, 2, "psi"},
    {"5 mm", QUANTITY_NONE, METRIC, UNITS_PARSE_WRONG_QUANTITY, 2, "mm"},
    {"10 mPa", QUANTITY_STRESS, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 3, "mPa"},
    {"5 mm mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_TRAILING, 5, "mm"},
    {"5 mm 3", QUANTITY_LENGTH, METRIC, UNITS_PARSE_TRAILING, 5, "3"},
    {"5 in 3 ft", QUANTITY_LENGTH, US, UNITS_PARSE_TRAILING, 5, "3 ft"},
    {"5 ft 13 in", QUANTITY_LENGTH, US, UNITS_PARSE_TRAILING, 5, "13 in"},
    {"5.5 ft 3 in", QUANTITY_LENGTH, US, UNITS_PARSE_TRAILING, 7, "3 in"},
    {"5 ft 3 cm", QUANTITY_LENGTH, US, UNITS_PARSE_TRAILING, 5, "3 cm"},
    {"5 gph 3 gph", QUANTITY_FLOW, US, UNITS_PARSE_TRAILING, 6, "3 gph"},
    {"5 mm + 3 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_TRAILING, 5, "+ 3 mm"},
    {"5 - 3 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_UNKNOWN_UNIT, 2, "- 3 mm"},
    {"1.2.3 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_BAD_NUMBER, 0, "1.2.3"},
    {"1,20,000 mm", QUANTITY_LENGTH, US, UNITS_PARSE_BAD_NUMBER, 0, "1,20,000"},
    {"1,2000 mm", QUANTITY_LENGTH, US, UNITS_PARSE_BAD_NUMBER, 0, "1,2000"},
    {"1..2 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_BAD_NUMBER, 0, "1..2 mm"},
    {"5. mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_BAD_NUMBER, 0, "5. mm"},
    {"1 20 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_BAD_NUMBER, 0, "1 20 mm"},
    {"1/0 in", QUANTITY_LENGTH, US, UNITS_PARSE_BAD_NUMBER, 0, "1/0"},
    {"1 3/2 in", QUANTITY_LENGTH, US, UNITS_PARSE_BAD_NUMBER, 0, "1 3/2"},
    {"3/4/5 in", QUANTITY_LENGTH, US, UNITS_PARSE_BAD_NUMBER, 0, "3/4/5 in"},
    {"1½½ in", QUANTITY_LENGTH, US, UNITS_PARSE_BAD_NUMBER, 0, "1½½ in"},
    {"1e999 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_OUT_OF_RANGE, 0, "1e999"},
    {"1e-999 mm", QUANTITY_LENGTH, METRIC, UNITS_PARSE_OUT_OF_RANGE, 0, "1e-999"},
    {"1e308 GPa", QUANTITY_STRESS, METRIC, UNITS_PARSE_OUT_OF_RANGE, 0, "1e308"},
    {"2.5", QUANTITY_COUNT, METRIC, UNITS_PARSE_BAD_NUMBER, 0, "2.5"},
    {"\xff", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NOT_TEXT, 0, "\xff"},
    {"12 \xc3", QUANTITY_LENGTH, METRIC, UNITS_PARSE_NOT_TEXT, 0, "12 \xc3"},
};

static void
test_bad (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    NumberStyle style = style_named (bad[i].style);
    UnitsParseDetail detail;
    double value = 42;
    UnitsParseStatus status = units_parse (bad[i].text, bad[i].quantity, &style, NULL, &value, &detail);
    char *piece = g_strndup (bad[i].text + detail.offset, detail.length);

    g_test_message ("row %u: '%s' at %" G_GSIZE_FORMAT " '%s'", i,
                    g_utf8_validate (bad[i].text, -1, NULL) ? bad[i].text : "(bytes)", detail.offset,
                    g_utf8_validate (piece, -1, NULL) ? piece : "(bytes)");
    g_assert_cmpstr (units_parse_status_text (status), ==, units_parse_status_text (bad[i].status));
    g_assert_cmpstr (piece, ==, bad[i].piece);
    if (*bad[i].piece != '\0')
      g_assert_cmpuint (detail.offset, ==, bad[i].offset);
    g_assert_cmpfloat (value, ==, 42);
    g_free (piece);
  }
}

static void
test_too_long (void)
{
  NumberStyle style = number_style_metric ();
  char *digits = g_strnfill (UNITS_PARSE_MAX_LENGTH, '1');
  char *halves = g_strnfill (UNITS_PARSE_MAX_LENGTH + 1, '1');
  GString *fractions = g_string_new (NULL);
  double value;

  g_assert_cmpint (units_parse (digits, QUANTITY_NONE, &style, NULL, &value, NULL), ==, UNITS_PARSE_OK);
  g_assert_cmpint (units_parse (halves, QUANTITY_NONE, &style, NULL, &value, NULL), ==, UNITS_PARSE_TOO_LONG);
  /* two bytes become four characters each */
  while (fractions->len + 2 <= UNITS_PARSE_MAX_LENGTH)
    g_string_append (fractions, "½");
  g_assert_cmpint (units_parse (fractions->str, QUANTITY_NONE, &style, NULL, &value, NULL), ==,
                   UNITS_PARSE_BAD_NUMBER);
  g_assert_cmpint (units_parse (NULL, QUANTITY_NONE, &style, NULL, &value, NULL), ==, UNITS_PARSE_EMPTY);
  g_free (digits);
  g_free (halves);
  g_string_free (fractions, TRUE);
}

static void
test_currency (void)
{
  NumberStyle style = number_style_us ();
  double value = 0;

  g_strlcpy (style.currency, "$", sizeof style.currency);
  g_assert_cmpint (units_parse ("$1,200.50", QUANTITY_MONEY, &style, NULL, &value, NULL), ==, UNITS_PARSE_OK);
  g_assert_cmpfloat (value, ==, 1200.5);
  g_assert_cmpint (units_parse ("-$ 3", QUANTITY_MONEY, &style, NULL, &value, NULL), ==, UNITS_PARSE_OK);
  g_assert_cmpfloat (value, ==, -3);
  g_assert_cmpint (units_parse ("0.3 $/kWh", QUANTITY_PRICE, &style, NULL, &value, NULL), ==, UNITS_PARSE_OK);
  g_assert_cmpfloat (value, ==, 0.3);
  g_assert_cmpint (units_parse ("$5", QUANTITY_NONE, &style, NULL, &value, NULL), ==, UNITS_PARSE_NO_NUMBER);
}

static void
test_every_spelling (void)
{
  NumberStyle style = number_style_metric ();

  /* With its own row as default every word, symbol and spelling means that row: none is shadowed by another. */
  for (guint i = 0; i < unit_count (); i++) {
    const Unit *unit = unit_at (i);
    char *all =
        g_strjoin ("|", unit->word, unit->symbol, *unit->spellings != '\0' ? unit->spellings : NULL, NULL);
    char **spellings = g_strsplit (all, "|", -1);

    for (guint s = 0; *unit->symbol != '\0' && spellings[s] != NULL; s++) {
      char *text = g_strconcat ("3 ", spellings[s], NULL);
      UnitsParseDetail detail;
      double value = NAN;

      g_test_message ("%s: %s", unit->word, text);
      g_assert_cmpint (units_parse (text, unit->quantity, &style, unit, &value, &detail), ==, UNITS_PARSE_OK);
      g_assert_cmpstr (detail.unit->word, ==, unit->word);
      g_assert_cmpfloat (value, ==, unit_to_si (unit, 3));
      g_free (text);
    }
    g_strfreev (spellings);
    g_free (all);
  }
}

static void
test_si (void)
{
  static const char *const refused[] = {"",    " 1",    "1 ", "0x10", "nan",   "inf",  "-inf", "1e999",
                                        "1,5", "1.5.2", "1e", "e5",   ".",     "-",    "+-1",  "1e+",
                                        "--1", "١",     "1f", "1_0",  "1e5.5", "INF ", "1 000"};
  double value = 42;

  for (guint i = 0; i < G_N_ELEMENTS (refused); i++) {
    g_test_message ("'%s'", refused[i]);
    g_assert_false (units_parse_si (refused[i], &value));
  }
  g_assert_false (units_parse_si (NULL, &value));
  g_assert_cmpfloat (value, ==, 42);
  g_assert_true (units_parse_si ("-1.25e-3", &value));
  g_assert_cmpfloat (value, ==, -0.00125);
  g_assert_true (units_parse_si ("+7", &value));
  g_assert_cmpfloat (value, ==, 7);
  g_assert_true (units_parse_si (".5", &value));
  g_assert_cmpfloat (value, ==, 0.5);
}

static void
test_status_texts (void)
{
  for (UnitsParseStatus status = 0; status < UNITS_PARSE_N; status++) {
    g_assert_cmpuint (strlen (units_parse_status_text (status)), >, 4);
    g_assert_cmpstr (units_parse_status_text (status), !=, units_parse_status_text (UNITS_PARSE_N));
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/parse/good", test_good);
  g_test_add_func ("/units/parse/asked", test_asked);
  g_test_add_func ("/units/parse/asked-both", test_asked_both);
  g_test_add_func ("/units/parse/bad", test_bad);
  g_test_add_func ("/units/parse/too-long", test_too_long);
  g_test_add_func ("/units/parse/currency", test_currency);
  g_test_add_func ("/units/parse/every-spelling", test_every_spelling);
  g_test_add_func ("/units/parse/si", test_si);
  g_test_add_func ("/units/parse/status-texts", test_status_texts);
  return g_test_run ();
}
