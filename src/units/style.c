/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/format.h"

#include "units/signs.h"
#include "units/usual.h"

#include <string.h>

NumberStyle
number_style_metric (void)
{
  return number_style_from_separators (UNIT_SYSTEM_METRIC, ".", UNITS_SPACE);
}

NumberStyle
number_style_us (void)
{
  return number_style_from_separators (UNIT_SYSTEM_US, ".", ",");
}

NumberStyle
number_style_from_separators (UnitSystem system, const char *decimal, const char *thousands)
{
  NumberStyle style = {.system = system, .decimal = ".", .group_from = 4, .inch_denominator = 16};
  Sign decimal_sign = sign_of (decimal);
  Sign thousands_sign = sign_of (thousands);

  if (decimal_sign == SIGN_POINT || decimal_sign == SIGN_COMMA)
    g_strlcpy (style.decimal, decimal, sizeof style.decimal);
  else
    decimal_sign = SIGN_POINT;
  /* A breakable or wide space between digits would tear a number apart on paper. */
  if (thousands_sign == SIGN_SPACE) {
    g_strlcpy (style.thousands, UNITS_SPACE, sizeof style.thousands);
    style.group_from = 5;
  } else if (thousands_sign != SIGN_NONE && thousands_sign != decimal_sign)
    g_strlcpy (style.thousands, thousands, sizeof style.thousands);
  return style;
}

gboolean
number_style_set_unit (NumberStyle *style, Quantity quantity, const char *word)
{
  const Unit *unit = unit_find (word);

  if ((guint) quantity >= QUANTITY_N || (word != NULL && !quantity_accepts (quantity, unit)))
    return FALSE;
  style->unit[quantity] = unit;
  return TRUE;
}

const Unit *
units_unit_for (Quantity quantity, const NumberStyle *style)
{
  const Unit *unit = (guint) quantity < QUANTITY_N ? style->unit[quantity] : NULL;

  return unit != NULL ? unit : usual_unit (quantity, style->system, 0);
}

const Unit *
units_unit_for_value (double value, Quantity quantity, const NumberStyle *style)
{
  const Unit *unit = (guint) quantity < QUANTITY_N ? style->unit[quantity] : NULL;

  return unit != NULL ? unit : usual_unit_for_value (value, quantity, style->system);
}
