/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/format.h"

#include "units/decimal.h"
#include "units/usual.h"

#include <math.h>
#include <string.h>

#define MINUS          "\u2212"
#define NO_BREAK_SPACE "\u00a0"

typedef enum { RULE_DECIMALS, RULE_FIGURES, RULE_FRACTION } RuleKind;

/* How a number is rounded; closing zeros beyond `keep` decimals are dropped. */
typedef struct {
  RuleKind kind;
  int digits;
  int keep;
} Rule;

/* Give a plain number the signs of the style. */
static void
append_styled (GString *out, const char *plain, const NumberStyle *style, guint group_from)
{
  gsize n_digits;

  if (*plain == '-') {
    g_string_append (out, MINUS);
    plain++;
  }
  n_digits = strspn (plain, "0123456789");
  for (gsize i = 0; i < n_digits; i++) {
    if (i > 0 && (n_digits - i) % 3 == 0 && n_digits >= group_from)
      g_string_append (out, style->thousands);
    g_string_append_c (out, plain[i]);
  }
  for (const char *p = plain + n_digits; *p != '\0'; p++)
    if (*p == '.')
      g_string_append (out, style->decimal);
    else
      g_string_append_c (out, *p);
}

/* A dimension of four figures is not grouped: 1219 mm is read at a glance and cannot be taken for 1.219. */
static guint
group_from (Quantity quantity, const NumberStyle *style)
{
  gboolean is_length = quantity == QUANTITY_LENGTH || quantity == QUANTITY_DIAMETER;

  return is_length ? MAX (style->group_from, 5) : style->group_from;
}

static gboolean
is_word (const Unit *unit, const char *word)
{
  return strcmp (unit->word, word) == 0;
}

/* Below this no bore is built: such a diameter is the roughness of a wall, which one decimal would round away. */
#define LEAST_BORE_M 0.0005

static Rule
rule_for_length (const Unit *unit, gboolean is_bore, double shown, UnitsPrecision precision)
{
  if (is_bore && shown != 0 && fabs (unit_to_si (unit, shown)) < LEAST_BORE_M)
    return (Rule){RULE_FIGURES, 2, 0};
  if (is_word (unit, "in"))
    return is_bore ? (Rule){RULE_DECIMALS, 2, 0} : (Rule){RULE_FRACTION, 0, 0};
  if (is_word (unit, "mm"))
    return (Rule){RULE_DECIMALS, is_bore ? 1 : 0, 0};
  if (is_word (unit, "cm"))
    return is_bore ? (Rule){RULE_DECIMALS, 2, 0} : (Rule){RULE_DECIMALS, 1, 1};
  if (is_word (unit, "ft"))
    return (Rule){RULE_DECIMALS, precision == UNITS_BUILD ? 3 : 2, 2};
  if (is_bore)
    return (Rule){RULE_DECIMALS, 4, 3};
  return precision == UNITS_BUILD ? (Rule){RULE_DECIMALS, 3, 3} : (Rule){RULE_DECIMALS, 2, 2};
}

/* To the litre, and finer only where a litre is much of it. */
static Rule
rule_for_volume (const Unit *unit, double shown)
{
  double size = fabs (shown);

  if (is_word (unit, "ml"))
    return (Rule){RULE_DECIMALS, 0, 0};
  if (is_word (unit, "l"))
    return size < 9.95 ? (Rule){RULE_DECIMALS, 1, 1} : (Rule){RULE_DECIMALS, 0, 0};
  if (is_word (unit, "m3") || is_word (unit, "ft3"))
    return (Rule){RULE_DECIMALS, 3, 3};
  return size < 99.95 ? (Rule){RULE_DECIMALS, 1, 1} : (Rule){RULE_DECIMALS, 0, 0};
}

static Rule
rule_for (Quantity quantity, const Unit *unit, double shown, UnitsPrecision precision)
{
  switch (quantity) {
  case QUANTITY_LENGTH:
  case QUANTITY_DIAMETER:
    return rule_for_length (unit, quantity == QUANTITY_DIAMETER, shown, precision);
  case QUANTITY_VOLUME:
    return rule_for_volume (unit, shown);
  case QUANTITY_RATIO:
    if (is_word (unit, "percent"))
      return fabs (shown) < 9.95 ? (Rule){RULE_DECIMALS, 1, 0} : (Rule){RULE_DECIMALS, 0, 0};
    return (Rule){RULE_FIGURES, 3, 0};
  case QUANTITY_TEMPERATURE:
  case QUANTITY_SALINITY:
  case QUANTITY_TURNOVER:
  case QUANTITY_ANGLE:
    return (Rule){RULE_DECIMALS, 1, quantity == QUANTITY_ANGLE ? 0 : 1};
  case QUANTITY_MONEY:
    return (Rule){RULE_DECIMALS, 2, 2};
  case QUANTITY_PRICE:
    return (Rule){RULE_DECIMALS, 4, 2};
  case QUANTITY_DENSITY:
    return is_word (unit, "kg/m3") ? (Rule){RULE_DECIMALS, 1, 1} : (Rule){RULE_FIGURES, 4, 4};
  case QUANTITY_COUNT:
    return (Rule){RULE_DECIMALS, 0, 0};
  case QUANTITY_NONE:
    return (Rule){RULE_FIGURES, 4, 0};
  case QUANTITY_AREA:
  case QUANTITY_FLOW:
  case QUANTITY_VELOCITY:
  case QUANTITY_HEAD:
  case QUANTITY_PRESSURE:
  case QUANTITY_MASS:
  case QUANTITY_POWER:
  case QUANTITY_TIME:
  case QUANTITY_FORCE:
  case QUANTITY_STRESS:
  case QUANTITY_ENERGY:
  case QUANTITY_MASS_FLOW:
  case QUANTITY_N:
    break;
  }
  return (Rule){RULE_FIGURES, 3, 2};
}

/* A whole number of `denominator`ths as "7 1/2"; negative parts have been shown already. */
static void
append_fraction (GString *out, gint64 parts, gint64 denominator)
{
  gint64 whole = parts / denominator;
  gint64 rest = parts % denominator;

  while (rest != 0 && rest % 2 == 0) {
    rest /= 2;
    denominator /= 2;
  }
  if (whole != 0 || rest == 0)
    g_string_append_printf (out, "%" G_GINT64_FORMAT, whole);
  if (whole != 0 && rest != 0)
    g_string_append (out, NO_BREAK_SPACE);
  if (rest != 0)
    g_string_append_printf (out, "%" G_GINT64_FORMAT "/%" G_GINT64_FORMAT, rest, denominator);
}

/* Signed count of the smallest built fraction of an inch in `inches`; FALSE when it is too long for that. */
static gboolean
count_parts (GString *out, double inches, const NumberStyle *style, gint64 *ret_parts)
{
  double parts = round (fabs (inches) * style->inch_denominator);

  if (!(parts < 1e12))
    return FALSE;
  if (inches < 0 && parts > 0)
    g_string_append (out, MINUS);
  *ret_parts = (gint64) parts;
  return TRUE;
}

static gboolean
append_feet_and_inches (GString *out, double value, const NumberStyle *style)
{
  gint64 denominator = style->inch_denominator;
  gint64 parts = 0;

  if (!count_parts (out, unit_from_si (unit_find ("in"), value), style, &parts))
    return FALSE;
  g_string_append_printf (out, "%" G_GINT64_FORMAT UNITS_SPACE "ft", parts / (12 * denominator));
  parts %= 12 * denominator;
  if (parts != 0) {
    g_string_append (out, NO_BREAK_SPACE);
    append_fraction (out, parts, denominator);
    g_string_append (out, UNITS_SPACE "in");
  }
  return TRUE;
}

static void
append_number (GString *out, double value, Quantity quantity, const NumberStyle *style, const Unit *unit,
               UnitsPrecision precision)
{
  double shown = unit_from_si (unit, value);
  char plain[PLAIN_SIZE];
  Rule rule = rule_for (quantity, unit, shown, precision);
  gint64 parts = 0;

  if (precision != UNITS_EXACT && rule.kind == RULE_FRACTION) {
    if (count_parts (out, shown, style, &parts)) {
      append_fraction (out, parts, style->inch_denominator);
      return;
    }
    rule = (Rule){RULE_DECIMALS, 2, 0};
  }
  if (precision == UNITS_EXACT)
    plain_write_exact (value, unit, plain);
  else {
    if (rule.kind == RULE_FIGURES)
      plain_write_figures (shown, rule.digits, plain);
    else
      plain_write_decimals (shown, rule.digits, plain);
    /* nothing is nothing to any number of places; a temperature of nought is not nothing */
    plain_drop_closing_zeros (plain, value == 0 && quantity != QUANTITY_TEMPERATURE ? 0 : rule.keep);
  }
  plain_drop_sign_of_zero (plain);
  append_styled (out, plain, style, group_from (quantity, style));
}

char *
units_symbol (const Unit *unit, const NumberStyle *style)
{
  gboolean has_currency = unit->quantity == QUANTITY_PRICE || unit->quantity == QUANTITY_MONEY;

  return g_strconcat (has_currency ? style->currency : "", unit->symbol, NULL);
}

char *
units_format (double value, Quantity quantity, const NumberStyle *style, const Unit *unit,
              UnitsPrecision precision)
{
  gboolean free_choice = !quantity_accepts (quantity, unit) && style->unit[quantity] == NULL;
  GString *out;
  char *symbol;

  if (!quantity_accepts (quantity, unit))
    unit = precision == UNITS_EXACT ? units_unit_for (quantity, style)
                                    : units_unit_for_value (value, quantity, style);
  if (!isfinite (value) || !isfinite (unit_from_si (unit, value)))
    return g_strdup (UNITS_NO_VALUE);
  out = g_string_new (NULL);
  if (free_choice && precision != UNITS_EXACT && quantity == QUANTITY_LENGTH && is_word (unit, "ft")) {
    if (append_feet_and_inches (out, value, style))
      return g_string_free (out, FALSE);
  }
  append_number (out, value, quantity, style, unit, precision);
  symbol = units_symbol (unit, style);
  if (*symbol != '\0' && !is_word (unit, "deg"))
    g_string_append (out, UNITS_SPACE);
  g_string_append (out, symbol);
  g_free (symbol);
  return g_string_free (out, FALSE);
}

char *
units_format_number (double value, Quantity quantity, const NumberStyle *style, const Unit *unit,
                     UnitsPrecision precision)
{
  GString *out;

  if (!quantity_accepts (quantity, unit))
    unit = units_unit_for (quantity, style);
  if (!isfinite (value) || !isfinite (unit_from_si (unit, value)))
    return g_strdup (UNITS_NO_VALUE);
  out = g_string_new (NULL);
  append_number (out, value, quantity, style, unit, precision);
  return g_string_free (out, FALSE);
}
