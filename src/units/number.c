/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/number.h"

#include <errno.h>
#include <math.h>
#include <string.h>

#define MAX_GROUPS 24

/* Runs of digits with one separator between each two: 1.200,5 has three groups. */
typedef struct {
  gsize start[MAX_GROUPS];
  gsize length[MAX_GROUPS];
  char separator[MAX_GROUPS]; /* the one before the group; 0 for the first */
  guint n;
  gsize end;
} Groups;

static gsize
count_digits (const Typed *typed, gsize start)
{
  gsize n = 0;

  while (g_ascii_isdigit (typed->c[start + n]))
    n++;
  return n;
}

/* Whether the separator at `at` belongs to the number; spaces and apostrophes only where three digits follow. */
static gboolean
continues (const Typed *typed, gsize at, const Groups *groups, Sign thousands)
{
  char c = typed->c[at];
  gsize n = c != '\0' ? count_digits (typed, at + 1) : 0;
  gboolean in_whole_part = groups->n == 1 || groups->separator[groups->n - 1] == c;

  if (n == 0 || groups->n == MAX_GROUPS)
    return FALSE;
  if (c == SIGN_POINT || c == SIGN_COMMA)
    return TRUE;
  if (c == SIGN_SPACE)
    return n == 3 && in_whole_part && typed->c[at + 4] != '/';
  if (c == SIGN_APOSTROPHE)
    return n == 3 && in_whole_part && thousands == SIGN_APOSTROPHE;
  return FALSE;
}

static void
split_groups (const Typed *typed, gsize start, Sign thousands, Groups *groups)
{
  gsize at = start;

  groups->n = 0;
  for (;;) {
    groups->separator[groups->n] = groups->n == 0 ? '\0' : typed->c[at++];
    groups->start[groups->n] = at;
    groups->length[groups->n] = count_digits (typed, at);
    at += groups->length[groups->n];
    groups->n++;
    if (!continues (typed, at, groups, thousands))
      break;
  }
  groups->end = at;
}

/* Whether the first `n` groups are thousands set apart by one sign, `sign`: 1 to 3 digits, not 0, then threes. */
static gboolean
are_thousands (const Typed *typed, const Groups *groups, guint n, char *ret_sign)
{
  if (n == 1) {
    *ret_sign = '\0';
    return TRUE;
  }
  if (groups->length[0] < 1 || groups->length[0] > 3 || typed->c[groups->start[0]] == '0')
    return FALSE;
  for (guint i = 1; i < n; i++)
    if (groups->length[i] != 3 || groups->separator[i] != groups->separator[1])
      return FALSE;
  *ret_sign = groups->separator[1];
  return TRUE;
}

/* Value of the groups with the last one as decimals or not, and the exponent at their end. */
static gboolean
evaluate (const Typed *typed, const Groups *groups, gboolean has_decimals, gsize end, double *ret)
{
  char text[TYPED_SIZE + 2];
  gsize n = 0;
  double value;

  for (guint i = 0; i < groups->n; i++) {
    if (has_decimals && i == groups->n - 1)
      text[n++] = '.';
    memcpy (text + n, typed->c + groups->start[i], groups->length[i]);
    n += groups->length[i];
  }
  memcpy (text + n, typed->c + groups->end, end - groups->end);
  text[n + end - groups->end] = '\0';
  errno = 0;
  value = g_ascii_strtod (text, NULL);
  if (errno == ERANGE || !isfinite (value))
    return FALSE;
  *ret = value;
  return TRUE;
}

static gsize
skip_exponent (const Typed *typed, gsize at)
{
  gsize digits = at + 1;

  if (typed->c[at] != 'e' && typed->c[at] != 'E')
    return at;
  if (typed->c[digits] == '-' || typed->c[digits] == '+')
    digits++;
  return count_digits (typed, digits) > 0 ? digits + count_digits (typed, digits) : at;
}

/*
 * Which readings the separators allow. A sign that belongs to the style has the meaning it has there; another one is
 * decimal unless three digits follow it, when nobody can tell.
 */
static void
judge (const Typed *typed, const Groups *groups, Sign decimal, Sign thousands, gboolean *ret_decimal,
       gboolean *ret_whole)
{
  char last = groups->separator[groups->n - 1];
  gsize n_last = groups->length[groups->n - 1];
  char sign = '\0';

  *ret_whole = are_thousands (typed, groups, groups->n, &sign);
  *ret_decimal = (last == SIGN_POINT || last == SIGN_COMMA) &&
                 are_thousands (typed, groups, groups->n - 1, &sign) && (sign != last || groups->n == 2);
  if (groups->n == 1 || !*ret_decimal)
    return;
  if (last == (char) decimal)
    *ret_whole = FALSE;
  else if (*ret_whole && last == (char) thousands)
    *ret_decimal = FALSE;
  else if (groups->n == 2 && last == (char) thousands && n_last > 3)
    *ret_decimal = FALSE; /* 1,2000 where commas set off thousands: a slip, not a decimal */
}

/* The denominator of a fraction with its slash at `slash`; 0 where there is none that makes sense. */
static double
read_denominator (const Typed *typed, gsize slash, gsize *ret_end)
{
  gsize n = count_digits (typed, slash + 1);

  *ret_end = slash + 1 + n;
  return n >= 1 && n <= 4 ? g_ascii_strtod (typed->c + slash + 1, NULL) : 0;
}

/* 3/4, and 1 1/2 or 1-1/2. Returns TRUE when there is a slash and so the answer is settled, good or bad. */
static gboolean
read_fraction (const Typed *typed, const Groups *groups, NumberReading *ret, UnitsParseStatus *ret_status)
{
  gsize start = groups->start[0];
  gsize slash = groups->end;
  double whole = 0, numerator, denominator;

  if (typed->c[slash] != '/') {
    gboolean joined = typed->c[slash] == ' ' || typed->c[slash] == '-';
    gsize n = joined ? count_digits (typed, slash + 1) : 0;

    if (n == 0 || n > 4 || typed->c[slash + 1 + n] != '/' || groups->n != 1 || groups->length[0] > 9)
      return FALSE;
    whole = g_ascii_strtod (typed->c + start, NULL);
    start = slash + 1;
    slash += 1 + n;
    if (!g_ascii_isdigit (typed->c[slash + 1]))
      return FALSE; /* 5 1/h */
  } else if (!g_ascii_isdigit (typed->c[slash + 1]))
    return FALSE; /* 5/h */
  numerator = g_ascii_strtod (typed->c + start, NULL);
  denominator = read_denominator (typed, slash, &ret->end);
  *ret_status = UNITS_PARSE_BAD_NUMBER;
  if (denominator == 0 || (start == groups->start[0] && (groups->n != 1 || groups->length[0] > 4)) ||
      (start != groups->start[0] && numerator >= denominator))
    return TRUE;
  ret->n = 1;
  ret->value[0] = whole + numerator / denominator;
  ret->is_fraction = TRUE;
  *ret_status = UNITS_PARSE_OK;
  return TRUE;
}

UnitsParseStatus
number_read (const Typed *typed, gsize start, Sign decimal, Sign thousands, NumberReading *ret)
{
  Groups groups;
  gboolean as_decimal, as_whole;
  gsize end;
  UnitsParseStatus status;

  *ret = (NumberReading){.end = start};
  split_groups (typed, start, thousands, &groups);
  if (groups.end == start)
    return UNITS_PARSE_NO_NUMBER;
  if (groups.length[0] > 0 && read_fraction (typed, &groups, ret, &status))
    return status;
  end = skip_exponent (typed, groups.end);
  ret->end = end;
  judge (typed, &groups, decimal, thousands, &as_decimal, &as_whole);
  if (as_decimal) {
    if (!evaluate (typed, &groups, TRUE, end, &ret->value[ret->n]))
      return UNITS_PARSE_OUT_OF_RANGE;
    ret->n++;
  }
  if (as_whole) {
    if (!evaluate (typed, &groups, FALSE, end, &ret->value[ret->n]))
      return UNITS_PARSE_OUT_OF_RANGE;
    ret->n++;
  }
  return ret->n > 0 ? UNITS_PARSE_OK : UNITS_PARSE_BAD_NUMBER;
}
