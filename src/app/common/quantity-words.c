/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/quantity-words.h"

#include <glib/gi18n.h>
#include <math.h>

#include "files/files-error.h"
#include "report/words.h"

/* Longest piece of a text that a sentence quotes, in characters. */
#define QUOTED 40

static char *
piece_of (const char *text, const UnitsParseDetail *detail)
{
  g_autofree char *piece = NULL;
  const gsize length = strlen (text);

  if (!g_utf8_validate (text, -1, NULL) || detail->offset > length)
    return g_strdup ("");
  piece = g_strndup (text + detail->offset, MIN (detail->length, length - detail->offset));
  if (piece[0] == '\0' || !g_utf8_validate (piece, -1, NULL)) {
    g_free (piece);
    piece = g_strdup (text);
  }
  g_strstrip (piece);
  if (g_utf8_strlen (piece, -1) > QUOTED) {
    g_autofree char *start = g_utf8_substring (piece, 0, QUOTED);

    return g_strconcat (start, "…", NULL);
  }
  return g_steal_pointer (&piece);
}

char *
quantity_words_problem (UnitsParseStatus status, const UnitsParseDetail *detail, const char *text,
                        const Unit *unit)
{
  g_autofree char *piece = piece_of (text, detail);

  switch (status) {
  case UNITS_PARSE_NO_NUMBER:
    return g_strdup_printf (_ ("“%s” does not begin with a number."), piece);
  case UNITS_PARSE_BAD_NUMBER:
    return g_strdup_printf (_ ("“%s” is not written as a number can be read."), piece);
  case UNITS_PARSE_UNKNOWN_UNIT:
    return g_strdup_printf (_ ("The unit “%s” is not known here."), piece);
  case UNITS_PARSE_WRONG_QUANTITY:
    return unit->symbol[0] != '\0'
               ? g_strdup_printf (_ ("“%s” measures something else; this is in %s."), piece, unit->symbol)
               : g_strdup_printf (_ ("“%s” measures something else; this is a plain number."), piece);
  case UNITS_PARSE_TRAILING:
    return g_strdup_printf (_ ("“%s” is left over: enter one quantity."), piece);
  case UNITS_PARSE_OUT_OF_RANGE:
    return g_strdup (_ ("The number is too large or too small to be used."));
  case UNITS_PARSE_AMBIGUOUS:
    return g_strdup_printf (_ ("“%s” can be read in more than one way."), piece);
  case UNITS_PARSE_TOO_LONG:
    return g_strdup (_ ("The text is too long for a quantity."));
  case UNITS_PARSE_NOT_TEXT:
    return g_strdup (_ ("The text has characters that cannot be read."));
  case UNITS_PARSE_EMPTY:
    return g_strdup (_ ("Nothing was entered."));
  case UNITS_PARSE_OK:
  case UNITS_PARSE_N:
    break;
  }
  return g_strdup ("");
}

char *
quantity_words_refusal (const Problem *problem, FieldId field, const char *text, const NumberStyle *style,
                        const Unit *unit)
{
  const FieldInfo *info = field_info (field);
  g_autofree char *least = NULL;
  g_autofree char *most = NULL;

  if (info->type != FIELD_NUMBER || problem->field != field ||
      (problem->code != PROBLEM_TOO_SMALL && problem->code != PROBLEM_TOO_LARGE))
    return files_problem_sentence (problem, problem->field == field ? text : NULL);
  least = units_format (info->min, info->quantity, style, unit, UNITS_MEASURE);
  most = units_format (info->max, info->quantity, style, unit, UNITS_MEASURE);
  if (problem->value >= info->min && problem->value <= info->max && problem->value > 0)
    return g_strdup_printf (_ ("%s can be from %s to %s."), words_field (field), least, most);
  /* An invariant: it would fit the field alone, but not beside the other parts. */
  return g_strdup_printf (problem->code == PROBLEM_TOO_LARGE ? _ ("%s is too large for what is around it.")
                                                             : _ ("%s is too small for what is around it."),
                          words_field (field));
}

double
quantity_step (Quantity quantity, const Unit *unit, double shown)
{
  const double size = fabs (shown);
  double step = 1;

  if (quantity == QUANTITY_COUNT)
    return 1;
  if (quantity == QUANTITY_RATIO || quantity == QUANTITY_TEMPERATURE)
    return unit_factor (unit) < 1 || quantity == QUANTITY_TEMPERATURE ? 1 : 0.01;
  if (quantity == QUANTITY_LENGTH || quantity == QUANTITY_DIAMETER) {
    /* What can be built: one millimetre, or a sixteenth of an inch. */
    const double built_m = unit->home == UNIT_HOME_US ? 0.0254 / 16 : 0.001;

    return built_m / unit_factor (unit);
  }
  while (step > size / 20 && step > 1e-6)
    step /= 10;
  while (step * 10 <= size / 20)
    step *= 10;
  return size > 0 ? step : 1;
}
