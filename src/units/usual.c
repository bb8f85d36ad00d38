/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/usual.h"

#include <math.h>

typedef struct {
  const char *word[UNIT_SYSTEM_N][USUAL_UNITS_MAX];
} Usual;

/* Pump and heater power is given in watts in US shops as well; energy is billed in kilowatt hours. */
/* clang-format off */
static const Usual usual[QUANTITY_N] = {
  [QUANTITY_NONE] = { { { "number" }, { "number" } } },
  [QUANTITY_RATIO] = { { { "percent", "number" }, { "percent", "number" } } },
  [QUANTITY_LENGTH] = { { { "mm", "cm", "m", "in" }, { "in", "ft", "mm" } } },
  [QUANTITY_DIAMETER] = { { { "mm", "cm", "in" }, { "in", "mm" } } },
  [QUANTITY_AREA] = { { { "m2", "cm2" }, { "ft2", "in2" } } },
  [QUANTITY_VOLUME] = { { { "l", "ml", "m3", "us_gal" }, { "us_gal", "l" } } },
  [QUANTITY_FLOW] = { { { "l/h", "l/min", "m3/h", "us_gph" }, { "us_gph", "us_gpm", "l/h" } } },
  [QUANTITY_VELOCITY] = { { { "m/s", "cm/s" }, { "ft/s", "m/s" } } },
  [QUANTITY_HEAD] = { { { "m", "cm", "mm", "ft" }, { "ft", "in", "m" } } },
  [QUANTITY_PRESSURE] = { { { "kpa", "bar", "mbar", "pa" }, { "psi", "inh2o", "kpa" } } },
  [QUANTITY_MASS] = { { { "kg", "g" }, { "lb", "oz" } } },
  [QUANTITY_POWER] = { { { "w", "kw" }, { "w", "kw" } } },
  [QUANTITY_TEMPERATURE] = { { { "degc", "degf" }, { "degf", "degc" } } },
  [QUANTITY_SALINITY] = { { { "g/kg" }, { "g/kg" } } },
  [QUANTITY_TIME] = { { { "s", "min", "h", "d" }, { "s", "min", "h", "d" } } },
  [QUANTITY_TURNOVER] = { { { "1/h" }, { "1/h" } } },
  [QUANTITY_PRICE] = { { { "per_kwh" }, { "per_kwh" } } },
  [QUANTITY_MONEY] = { { { "money" }, { "money" } } },
  [QUANTITY_DENSITY] = { { { "kg/m3", "g/cm3" }, { "lb/ft3", "kg/m3" } } },
  [QUANTITY_ANGLE] = { { { "deg", "rad" }, { "deg", "rad" } } },
  [QUANTITY_COUNT] = { { { "number" }, { "number" } } },
  [QUANTITY_FORCE] = { { { "n", "kn" }, { "lbf", "n" } } },
  [QUANTITY_STRESS] = { { { "mpa", "kpa", "gpa" }, { "psi", "psf", "mpa" } } },
  [QUANTITY_ENERGY] = { { { "kwh", "wh" }, { "kwh", "wh" } } },
  [QUANTITY_MASS_FLOW] = { { { "kg/d", "kg/h", "kg/s" }, { "lb/d", "lb/h", "kg/d" } } },
};
/* clang-format on */

/* From `from` (stored, absolute) on, `word` reads better than the rows before it. */
typedef struct {
  Quantity quantity;
  UnitSystem system;
  double from;
  const char *word;
} Step;

/* clang-format off */
static const Step steps[] = {
  { QUANTITY_LENGTH, UNIT_SYSTEM_METRIC, 10, "m" },          /* drawings stay in mm below */
  { QUANTITY_LENGTH, UNIT_SYSTEM_US, 3.048, "ft" },
  { QUANTITY_AREA, UNIT_SYSTEM_METRIC, 0, "cm2" },
  { QUANTITY_AREA, UNIT_SYSTEM_METRIC, 0.1, "m2" },
  { QUANTITY_AREA, UNIT_SYSTEM_US, 0, "in2" },
  { QUANTITY_AREA, UNIT_SYSTEM_US, 0.09290304, "ft2" },
  { QUANTITY_VOLUME, UNIT_SYSTEM_METRIC, 0, "ml" },
  { QUANTITY_VOLUME, UNIT_SYSTEM_METRIC, 0.001, "l" },
  { QUANTITY_PRESSURE, UNIT_SYSTEM_METRIC, 0, "pa" },
  { QUANTITY_PRESSURE, UNIT_SYSTEM_METRIC, 1000, "kpa" },
  { QUANTITY_MASS, UNIT_SYSTEM_METRIC, 0, "g" },
  { QUANTITY_MASS, UNIT_SYSTEM_METRIC, 1, "kg" },
  { QUANTITY_MASS, UNIT_SYSTEM_US, 0, "oz" },
  { QUANTITY_MASS, UNIT_SYSTEM_US, 0.45359237, "lb" },
  { QUANTITY_POWER, UNIT_SYSTEM_METRIC, 10000, "kw" },
  { QUANTITY_POWER, UNIT_SYSTEM_US, 10000, "kw" },
  { QUANTITY_TIME, UNIT_SYSTEM_METRIC, 120, "min" },
  { QUANTITY_TIME, UNIT_SYSTEM_METRIC, 7200, "h" },
  { QUANTITY_TIME, UNIT_SYSTEM_METRIC, 172800, "d" },
  { QUANTITY_TIME, UNIT_SYSTEM_US, 120, "min" },
  { QUANTITY_TIME, UNIT_SYSTEM_US, 7200, "h" },
  { QUANTITY_TIME, UNIT_SYSTEM_US, 172800, "d" },
  { QUANTITY_FORCE, UNIT_SYSTEM_METRIC, 10000, "kn" },
  { QUANTITY_STRESS, UNIT_SYSTEM_METRIC, 0, "kpa" },         /* floor loads */
  { QUANTITY_STRESS, UNIT_SYSTEM_METRIC, 1e5, "mpa" },
  { QUANTITY_STRESS, UNIT_SYSTEM_METRIC, 1e9, "gpa" },
  { QUANTITY_ENERGY, UNIT_SYSTEM_METRIC, 0, "wh" },
  { QUANTITY_ENERGY, UNIT_SYSTEM_METRIC, 3.6e6, "kwh" },
  { QUANTITY_ENERGY, UNIT_SYSTEM_US, 0, "wh" },
  { QUANTITY_ENERGY, UNIT_SYSTEM_US, 3.6e6, "kwh" },
};
/* clang-format on */

const Unit *
usual_unit (Quantity quantity, UnitSystem system, guint index)
{
  if ((guint) quantity >= QUANTITY_N || (guint) system >= UNIT_SYSTEM_N)
    return index == 0 ? unit_find ("number") : NULL;
  return index < USUAL_UNITS_MAX ? unit_find (usual[quantity].word[system][index]) : NULL;
}

const Unit *
usual_unit_for_value (double value, Quantity quantity, UnitSystem system)
{
  const Unit *unit = usual_unit (quantity, system, 0);

  /* Nothing is best shown in the unit of the entry, not in the smallest there is. */
  if (value == 0)
    return unit;
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (steps[i].quantity == quantity && steps[i].system == system && fabs (value) >= steps[i].from)
      unit = unit_find (steps[i].word);
  return unit;
}
