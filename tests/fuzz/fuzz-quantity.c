/* SPDX-License-Identifier: LGPL-2.1-or-later */
/*
 * Typed quantities. An input is one letter for the quantity (A, B, C ... in the order of the enum), one for style and
 * default unit, and the text. Whatever is understood reads back from its own writing; whatever is refused names a piece of the text.
 */
#include "fuzz/target.h"
#include "units/parse.h"

#include <math.h>
#include <string.h>

static NumberStyle
choose_style (guint choice)
{
  static const char *const signs[][2] = {{".", "\u202f"}, {".", ","}, {",", "."},
                                         {".", "'"},      {"٫", "٬"}, {".", ""}};
  guint i = choice % G_N_ELEMENTS (signs);
  UnitSystem system = choice / G_N_ELEMENTS (signs) % 2 == 0 ? UNIT_SYSTEM_METRIC : UNIT_SYSTEM_US;
  NumberStyle style = number_style_from_separators (system, signs[i][0], signs[i][1]);

  if (choice % 5 == 0)
    g_strlcpy (style.currency, "€", sizeof style.currency);
  return style;
}

/* The exact text of a value reads back to it, or to the next number where the unit has no closer one. */
static void
check_reads_back (double value, Quantity quantity, const NumberStyle *style, const Unit *unit)
{
  char *text = units_format (value, quantity, style, unit, UNITS_EXACT);
  double back = (double) NAN;
  UnitsParseStatus status = units_parse (text, quantity, style, unit, &back, NULL);

  g_assert_true (isfinite (value));
  /* at the ends of the range of numbers the shown value can fall outside it */
  if (fabs (value) > 1e290 || (value != 0 && fabs (value) < 1e-290)) {
    g_free (text);
    return;
  }
  g_assert_cmpint (status, ==, UNITS_PARSE_OK);
  g_assert_true (fabs (back - value) <= 4.5e-16 * (fabs (value) + fabs (unit->zero)));
  g_free (text);
}

static void
check_machine_number (const char *text)
{
  char shortest[UNITS_SHORTEST_SIZE];
  double value = (double) NAN, back = (double) NAN;

  if (!units_parse_si (text, &value))
    return;
  g_assert_true (isfinite (value));
  g_assert_true (units_parse_si (units_shortest (value, shortest), &back));
  g_assert_true (back == value);
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  UnitsParseDetail detail;
  UnitsParseStatus status;
  double value = (double) NAN;

  if (size < 2)
    return 0;
  Quantity quantity = (Quantity) ((data[0] + 256u - 'A') % 256u % QUANTITY_N);
  NumberStyle style = choose_style ((data[1] + 256u - 'A') % 256u);
  const Unit *unit = data[1] % 3 == 0 ? NULL : units_unit_for (quantity, &style);
  char *text = g_strndup ((const char *) data + 2, size - 2);

  status = units_parse (text, quantity, &style, unit, &value, &detail);
  g_assert_cmpuint (detail.offset + detail.length, <=, strlen (text));
  if (status == UNITS_PARSE_OK) {
    g_assert_true (quantity_accepts (quantity, detail.unit));
    check_reads_back (value, quantity, &style, detail.unit);
  } else
    g_assert_true (isnan (value));
  g_assert_true ((status == UNITS_PARSE_AMBIGUOUS) == (detail.n_readings >= 2));
  for (guint i = 0; i < detail.n_readings; i++) {
    g_assert_true (g_utf8_validate (detail.reading[i].text, -1, NULL));
    check_reads_back (detail.reading[i].value, quantity, &style, detail.reading[i].unit);
  }
  if (status != UNITS_PARSE_NOT_TEXT && status != UNITS_PARSE_TOO_LONG)
    g_assert_true (g_utf8_validate (text + detail.offset, (gssize) detail.length, NULL));
  check_machine_number (text);
  g_free (text);
  return 0;
}
