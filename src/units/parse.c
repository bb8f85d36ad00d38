/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/parse.h"

#include "units/match.h"
#include "units/number.h"
#include "units/usual.h"

#include <math.h>
#include <string.h>

/* What is known while one text is read. */
typedef struct {
  Typed typed;
  Quantity quantity;
  const NumberStyle *style;
  const Unit *default_unit;
  Sign decimal;
  Sign thousands;
  gboolean is_negative;
  gsize at;             /* next position */
  NumberReading number; /* of the first term */
  gsize number_start;
  const Unit *unit[UNITS_PARSE_MAX_READINGS];
  guint n_units;
  gboolean is_compound;
  double compound; /* stored value of all terms */
  UnitsParseDetail detail;
} Reader;

const char *
units_parse_status_text (UnitsParseStatus status)
{
  switch (status) {
#define X(name, text)                                                                                        \
  case UNITS_PARSE_##name:                                                                                   \
    return text;
    UNITS_PARSE_STATUS_LIST (X)
#undef X
  case UNITS_PARSE_N:
    break;
  }
  return "unknown status";
}

/* Refuse the piece start .. end, without the spaces round it. */
static UnitsParseStatus
refuse (Reader *reader, UnitsParseStatus status, gsize start, gsize end)
{
  start = MIN (typed_skip_spaces (&reader->typed, start), end);
  while (end > start && reader->typed.c[end - 1] == ' ')
    end--;
  reader->detail.offset = reader->typed.offset[start];
  reader->detail.length = (gsize) (reader->typed.offset[end] - reader->typed.offset[start]);
  return status;
}

static UnitsParseStatus
refuse_rest (Reader *reader, UnitsParseStatus status, gsize start)
{
  return refuse (reader, status, start, reader->typed.length);
}

static void
skip_currency (Reader *reader)
{
  const char *currency = reader->style->currency;
  gsize n = strlen (currency);

  if (reader->quantity != QUANTITY_MONEY && reader->quantity != QUANTITY_PRICE)
    return;
  reader->at = typed_skip_spaces (&reader->typed, reader->at);
  if (n > 0 && strncmp (reader->typed.c + reader->at, currency, n) == 0)
    reader->at = typed_skip_spaces (&reader->typed, reader->at + n);
}

static void
skip_sign (Reader *reader)
{
  char c;

  reader->at = typed_skip_spaces (&reader->typed, reader->at);
  c = reader->typed.c[reader->at];
  if (c != '-' && c != '+')
    return;
  reader->is_negative = c == '-';
  reader->at = typed_skip_spaces (&reader->typed, reader->at + 1);
}

static gboolean
is_plain (Quantity quantity)
{
  return quantity == QUANTITY_NONE || quantity == QUANTITY_COUNT;
}

static void
add_unit (Reader *reader, const Unit *unit)
{
  for (guint i = 0; i < reader->n_units; i++)
    if (reader->unit[i] == unit)
      return;
  if (unit != NULL && reader->n_units < G_N_ELEMENTS (reader->unit))
    reader->unit[reader->n_units++] = unit;
}

/* Which units a number without one may be in. */
static void
take_bare_units (Reader *reader)
{
  const Unit *unit = reader->default_unit;

  if (quantity_accepts (reader->quantity, unit)) {
    add_unit (reader, unit);
    /* Fractions belong to inches; 3/4 in a field of millimetres is a question. */
    if (reader->number.is_fraction && unit->home == UNIT_HOME_METRIC && unit->quantity == QUANTITY_LENGTH)
      add_unit (reader, unit_find ("in"));
    return;
  }
  for (guint i = 0; i < (is_plain (reader->quantity) ? 1 : USUAL_UNITS_MAX); i++)
    add_unit (reader, usual_unit (reader->quantity, reader->style->system, i));
}

/* Of the units of one spelling, the one that needs no question: the default unit, then that of the US system; or NULL. */
static const Unit *
preferred_unit (const Reader *reader, const UnitMatch *match)
{
  for (guint i = 0; i < match->n; i++)
    if (reader->default_unit != NULL && match->unit[i] == reader->default_unit)
      return reader->default_unit;
  for (guint i = 0; i < match->n && reader->style->system == UNIT_SYSTEM_US; i++)
    if (match->unit[i]->home == UNIT_HOME_US)
      return match->unit[i];
  return NULL;
}

static void
take_matched_units (Reader *reader, const UnitMatch *match)
{
  const Unit *preferred = preferred_unit (reader, match);

  if (preferred != NULL)
    add_unit (reader, preferred);
  else
    for (guint i = 0; i < match->n; i++)
      add_unit (reader, match->unit[i]);
}

static UnitsParseStatus
read_unit (Reader *reader)
{
  const Typed *typed = &reader->typed;
  UnitMatch match;

  skip_currency (reader);
  reader->at = typed_skip_spaces (typed, reader->at);
  if (typed->c[reader->at] == '\0') {
    take_bare_units (reader);
    return UNITS_PARSE_OK;
  }
  unit_match (typed, reader->at, reader->quantity, &match);
  if (match.misfit != NULL) {
    reader->detail.unit = match.misfit;
    return refuse (reader, UNITS_PARSE_WRONG_QUANTITY, reader->at, match.end);
  }
  if (match.n == 0) {
    gboolean is_digit = strchr ("0123456789.,'/", typed->c[reader->at]) != NULL;

    return is_digit ? refuse_rest (reader, UNITS_PARSE_BAD_NUMBER, reader->number_start)
                    : refuse_rest (reader, UNITS_PARSE_UNKNOWN_UNIT, reader->at);
  }
  take_matched_units (reader, &match);
  reader->at = match.end;
  return UNITS_PARSE_OK;
}

/* The unit of a later term; a bare number after the foot mark is in inches. NULL when there is none that fits. */
static const Unit *
read_lesser_unit (Reader *reader, const Unit *above, gboolean after_foot_mark)
{
  UnitMatch match;

  reader->at = typed_skip_spaces (&reader->typed, reader->at);
  if (reader->typed.c[reader->at] == '\0')
    return after_foot_mark ? unit_find ("in") : NULL;
  unit_match (&reader->typed, reader->at, reader->quantity, &match);
  reader->at = match.end;
  if (match.n != 1 || match.unit[0]->home != above->home ||
      unit_factor (match.unit[0]) >= unit_factor (above))
    return NULL;
  return match.unit[0];
}

/* Further terms as in 5 ft 3 in, 2 lb 4 oz, 1 h 30 min: whole numbers but the last, each less than one of the unit above. */
static UnitsParseStatus
read_more_terms (Reader *reader)
{
  const Typed *typed = &reader->typed;
  const Unit *above = reader->unit[0];
  NumberReading number = reader->number;
  gboolean can_follow =
      reader->n_units == 1 && (above->quantity == QUANTITY_LENGTH || above->quantity == QUANTITY_MASS ||
                               above->quantity == QUANTITY_TIME);

  reader->compound = unit_to_si (above, number.value[0]);
  for (;;) {
    gboolean after_foot_mark = reader->at > 0 && typed->c[reader->at - 1] == '\'';
    gsize start = typed_skip_spaces (typed, reader->at);
    const Unit *unit;

    if (typed->c[start] == '\0')
      return UNITS_PARSE_OK;
    if (!can_follow || number.n != 1 || number.value[0] != floor (number.value[0]))
      return refuse_rest (reader, UNITS_PARSE_TRAILING, start);
    if (typed->c[start] == '-' && strcmp (above->word, "ft") == 0)
      reader->at = typed_skip_spaces (typed, start + 1);
    else
      reader->at = start;
    if (number_read (typed, reader->at, reader->decimal, reader->thousands, &number) != UNITS_PARSE_OK ||
        number.n != 1)
      return refuse_rest (reader, UNITS_PARSE_TRAILING, start);
    reader->at = number.end;
    unit = read_lesser_unit (reader, above, after_foot_mark);
    if (unit == NULL || unit_to_si (unit, number.value[0]) >= unit_factor (above))
      return refuse_rest (reader, UNITS_PARSE_TRAILING, start);
    reader->compound += unit_to_si (unit, number.value[0]);
    reader->is_compound = TRUE;
    above = unit;
  }
}

static void
add_reading (Reader *reader, const Unit *unit, double value)
{
  UnitsParseDetail *detail = &reader->detail;
  UnitsReading *reading = &detail->reading[detail->n_readings];
  char *text;

  for (guint i = 0; i < detail->n_readings; i++)
    if (detail->reading[i].value == value)
      return; /* 0 gal is nothing in any gallon */
  if (detail->n_readings == UNITS_PARSE_MAX_READINGS)
    return;
  text = units_format (value, reader->quantity, reader->style, unit, UNITS_EXACT);
  reading->unit = unit;
  reading->value = value;
  g_strlcpy (reading->text, text, sizeof reading->text);
  g_free (text);
  detail->n_readings++;
}

/* Every number with every unit, as readings; one left is the answer. */
static UnitsParseStatus
settle (Reader *reader, double *ret_value)
{
  UnitsParseDetail *detail = &reader->detail;

  for (guint u = 0; u < reader->n_units; u++)
    for (guint i = 0; i < reader->number.n; i++) {
      double shown = reader->is_negative ? -reader->number.value[i] : reader->number.value[i];
      double value = unit_to_si (reader->unit[u], shown);

      if (reader->is_compound)
        value = reader->is_negative ? -reader->compound : reader->compound;
      if (!isfinite (value))
        return refuse (reader, UNITS_PARSE_OUT_OF_RANGE, reader->number_start, reader->number.end);
      if (reader->quantity == QUANTITY_COUNT && value != floor (value))
        return refuse (reader, UNITS_PARSE_BAD_NUMBER, reader->number_start, reader->number.end);
      add_reading (reader, reader->unit[u], value + 0.0);
    }
  if (detail->n_readings > 1)
    return UNITS_PARSE_AMBIGUOUS;
  detail->unit = detail->reading[0].unit;
  *ret_value = detail->reading[0].value;
  detail->n_readings = 0;
  return UNITS_PARSE_OK;
}

static UnitsParseStatus
read_all (Reader *reader, double *ret_value)
{
  UnitsParseStatus status;

  skip_sign (reader);
  skip_currency (reader);
  reader->number_start = reader->at;
  status = number_read (&reader->typed, reader->at, reader->decimal, reader->thousands, &reader->number);
  if (status == UNITS_PARSE_NO_NUMBER)
    return refuse_rest (reader, status, reader->at);
  if (status != UNITS_PARSE_OK)
    return refuse (reader, status, reader->at, reader->number.end);
  reader->at = reader->number.end;
  status = read_unit (reader);
  if (status == UNITS_PARSE_OK)
    status = read_more_terms (reader);
  return status == UNITS_PARSE_OK ? settle (reader, ret_value) : status;
}

UnitsParseStatus
units_parse (const char *text, Quantity quantity, const NumberStyle *style, const Unit *default_unit,
             double *ret_value, UnitsParseDetail *ret_detail)
{
  Reader reader = {.quantity = quantity, .style = style, .default_unit = default_unit};
  UnitsParseStatus status;
  gsize length = text != NULL ? strlen (text) : 0;
  double value = 0;

  reader.decimal = sign_of (style->decimal);
  reader.thousands = sign_of (style->thousands);
  if (length > UNITS_PARSE_MAX_LENGTH) {
    status = UNITS_PARSE_TOO_LONG;
    reader.detail.length = length;
  } else if (length > 0 && !g_utf8_validate (text, (gssize) length, NULL)) {
    status = UNITS_PARSE_NOT_TEXT;
    reader.detail.length = length;
  } else {
    typed_read (length > 0 ? text : "", &reader.typed);
    if (reader.typed.c[typed_skip_spaces (&reader.typed, 0)] == '\0')
      status = UNITS_PARSE_EMPTY;
    else
      status = read_all (&reader, &value);
  }
  if (status == UNITS_PARSE_OK && ret_value != NULL)
    *ret_value = value;
  if (status != UNITS_PARSE_AMBIGUOUS)
    reader.detail.n_readings = 0;
  if (ret_detail != NULL)
    *ret_detail = reader.detail;
  return status;
}

gboolean
units_parse_si (const char *text, double *ret)
{
  const char *p = text;
  char *end = NULL;
  gsize n;
  double value;

  if (p == NULL)
    return FALSE;
  /* strtod also takes spaces, hexadecimal, infinity and NaN: look at the form first. */
  p += *p == '-' || *p == '+';
  n = strspn (p, "0123456789");
  p += n;
  if (*p == '.') {
    gsize n_decimals = strspn (p + 1, "0123456789");

    n += n_decimals;
    p += 1 + n_decimals;
  }
  if (n == 0)
    return FALSE;
  if (*p == 'e' || *p == 'E') {
    p += 1 + (p[1] == '-' || p[1] == '+');
    n = strspn (p, "0123456789");
    if (n == 0)
      return FALSE;
    p += n;
  }
  value = g_ascii_strtod (text, &end);
  if (*p != '\0' || end != p || !isfinite (value))
    return FALSE;
  *ret = value;
  return TRUE;
}
