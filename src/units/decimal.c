/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/decimal.h"

#include "units/format.h"

#include <math.h>
#include <string.h>

/* Outside these a plain decimal has more zeros than anyone can count. */
#define PLAIN_LARGEST_EXPONENT  14
#define PLAIN_SMALLEST_EXPONENT (-7)

/* Decimal digits d.ddd x 10^exponent of a finite value, correctly rounded. */
typedef struct {
  gboolean negative;
  char digit[24];
  int n;
  int exponent;
} Decimal;

static void
decimal_read (double value, int n_digits, Decimal *ret)
{
  char pattern[8];
  char text[40];
  const char *p;

  g_snprintf (pattern, sizeof pattern, "%%.%de", n_digits - 1);
  g_ascii_formatd (text, sizeof text, pattern, fabs (value));
  *ret = (Decimal){.negative = value < 0, .digit = "0"};
  for (p = text; *p != '\0' && *p != 'e'; p++)
    if (g_ascii_isdigit (*p))
      ret->digit[ret->n++] = *p;
  ret->exponent = *p == 'e' ? (int) g_ascii_strtoll (p + 1, NULL, 10) : 0;
}

static void
decimal_drop_zeros (Decimal *decimal)
{
  while (decimal->n > 1 && decimal->digit[decimal->n - 1] == '0')
    decimal->n--;
}

/* Lay the digits out, with `decimals` places at least where there is no exponent. */
static void
decimal_write (const Decimal *decimal, int decimals, char *plain)
{
  GString text = {plain, 0, PLAIN_SIZE};
  int places = MAX (decimals, decimal->n - 1 - decimal->exponent);

  if (decimal->negative)
    text.str[text.len++] = '-';
  if (decimal->exponent > PLAIN_LARGEST_EXPONENT || decimal->exponent < PLAIN_SMALLEST_EXPONENT) {
    text.str[text.len++] = decimal->digit[0];
    if (decimal->n > 1)
      text.str[text.len++] = '.';
    for (int i = 1; i < decimal->n; i++)
      text.str[text.len++] = decimal->digit[i];
    g_snprintf (text.str + text.len, PLAIN_SIZE - text.len, "e%d", decimal->exponent);
    return;
  }
  /* i counts powers of ten downwards, from that of the first digit or of the unit */
  for (int power = MAX (decimal->exponent, 0); power >= -MAX (places, 0); power--) {
    int i = decimal->exponent - power;

    if (power == -1)
      text.str[text.len++] = '.';
    text.str[text.len++] = i >= 0 && i < decimal->n ? decimal->digit[i] : '0';
  }
  text.str[text.len] = '\0';
}

void
plain_drop_sign_of_zero (char *plain)
{
  if (plain[0] == '-' && strpbrk (plain, "123456789") == NULL)
    memmove (plain, plain + 1, strlen (plain));
}

void
plain_drop_closing_zeros (char *plain, int keep)
{
  char *point = strchr (plain, '.');
  char *end = plain + strlen (plain);

  if (point == NULL || strchr (plain, 'e') != NULL)
    return;
  while (end - point - 1 > keep && end[-1] == '0')
    *--end = '\0';
  if (end == point + 1)
    *point = '\0';
}

void
plain_write_figures (double value, int figures, char *plain)
{
  Decimal decimal;

  decimal_read (value, figures, &decimal);
  decimal_write (&decimal, 0, plain);
}

void
plain_write_decimals (double value, int decimals, char *plain)
{
  char pattern[8];

  if (fabs (value) >= 1e15) {
    plain_write_figures (value, 15, plain);
    return;
  }
  g_snprintf (pattern, sizeof pattern, "%%.%df", decimals);
  g_ascii_formatd (plain, PLAIN_SIZE, pattern, value);
}

/* Shortest of the decimals near `shown` that is read in `unit` as a stored value in low .. high; FALSE when there is none. */
static gboolean
write_shortest_between (double low, double high, double shown, const Unit *unit, char *plain)
{
  double tries[] = {shown, nextafter (shown, G_MAXDOUBLE), nextafter (shown, -G_MAXDOUBLE)};

  for (int n = 1; n <= 17; n++)
    for (guint i = 0; i < (n < 17 ? 1 : G_N_ELEMENTS (tries)); i++) {
      Decimal decimal;
      double back;

      decimal_read (tries[i], n, &decimal);
      decimal_drop_zeros (&decimal);
      decimal_write (&decimal, 0, plain);
      back = g_ascii_strtod (plain, NULL);
      if (unit != NULL)
        back = unit_to_si (unit, back);
      if (back >= low && back <= high)
        return TRUE;
    }
  return FALSE;
}

void
plain_write_exact (double stored, const Unit *unit, char *plain)
{
  double shown = unit != NULL ? unit_from_si (unit, stored) : stored;

  if (write_shortest_between (stored, stored, shown, unit, plain))
    return;
  /* The steps of the unit can be coarser than those of the store: then its neighbours will do. */
  if (!write_shortest_between (nextafter (stored, -G_MAXDOUBLE), nextafter (stored, G_MAXDOUBLE), shown, unit,
                               plain))
    plain_write_figures (shown, 17, plain);
}

const char *
units_shortest (double value, char *buffer)
{
  char plain[PLAIN_SIZE];

  if (isfinite (value)) {
    plain_write_exact (value, NULL, plain);
    plain_drop_sign_of_zero (plain);
    g_strlcpy (buffer, plain, UNITS_SHORTEST_SIZE);
  } else
    buffer[0] = '\0';
  return buffer;
}
