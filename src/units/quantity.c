/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/quantity.h"

#include <math.h>
#include <string.h>

/*
 * Exact by definition, NIST SP 811 (2008) Appendix B, as multiplier and divisor: whole numbers that a double holds exactly, so
 * that 18 in is stored as 0.4572 m and 457.2 mm as the same, to the last bit.
 */
#define FOOT_M         3048.0, 1e4
#define INCH_M         254.0, 1e4
#define SQUARE_FOOT_M2 9290304.0, 1e8
#define SQUARE_INCH_M2 64516.0, 1e8
#define CUBIC_FOOT_M3  28316846592.0, 1e12
#define CUBIC_INCH_M3  16387064.0, 1e12
#define US_GALLON      3785411784.0 /* 1e-12 m3 */
#define IMP_GALLON     454609.0     /* 1e-8 m3 */
#define POUND          45359237.0   /* 1e-8 kg */
#define POUND_KG       POUND, 1e8
#define LBF            44482216152605.0 /* 1e-13 N */
#define GRAVITY        980665.0         /* 1e-5 m/s2 */
#define BTU_IT         105505585262.0   /* 1e-8 J */

#define ANY  UNIT_HOME_ANY
#define SI   UNIT_HOME_METRIC
#define US   UNIT_HOME_US
#define IMP  UNIT_HOME_IMPERIAL
#define Q(x) QUANTITY_##x

/* clang-format off */
static const Unit units[] = {
  { "number", "", "", Q (NONE), ANY, 1, 1, 0 },
  { "percent", "%", "per cent|pct", Q (NONE), ANY, 1, 100, 0 },

  { "m", "m", "metre|metres|meter|meters", Q (LENGTH), SI, 1, 1, 0 },
  { "mm", "mm", "millimetre|millimetres|millimeter|millimeters", Q (LENGTH), SI, 1, 1000, 0 },
  { "cm", "cm", "centimetre|centimetres|centimeter|centimeters", Q (LENGTH), SI, 1, 100, 0 },
  { "in", "in", "\"|''|inch|inches|ins", Q (LENGTH), US, INCH_M, 0 },
  { "ft", "ft", "'|foot|feet", Q (LENGTH), US, FOOT_M, 0 },

  { "m2", "m²", "sq m|m^2|square metre|square metres|square meter|square meters", Q (AREA), SI, 1, 1, 0 },
  { "cm2", "cm²", "sq cm|cm^2", Q (AREA), SI, 1, 1e4, 0 },
  { "mm2", "mm²", "sq mm|mm^2", Q (AREA), SI, 1, 1e6, 0 },
  { "ft2", "ft²", "sq ft|ft^2|square foot|square feet", Q (AREA), US, SQUARE_FOOT_M2, 0 },
  { "in2", "in²", "sq in|in^2|square inch|square inches", Q (AREA), US, SQUARE_INCH_M2, 0 },

  { "m3", "m³", "cu m|m^3|cubic metre|cubic metres|cubic meter|cubic meters", Q (VOLUME), SI, 1, 1, 0 },
  { "l", "L", "litre|litres|liter|liters|ltr|ltrs|dm3", Q (VOLUME), SI, 1, 1000, 0 },
  { "ml", "mL", "cm3|cc|millilitre|millilitres|milliliter|milliliters", Q (VOLUME), SI, 1, 1e6, 0 },
  { "us_gal", "US gal", "gal|gals|gallon|gallons|us gallon|us gallons|us gals", Q (VOLUME), US, US_GALLON, 1e12, 0 },
  { "imp_gal", "imp gal", "gal|gals|gallon|gallons|uk gal|imp gallon|imp gallons|imperial gallon|imperial gallons|uk gallons",
    Q (VOLUME), IMP, IMP_GALLON, 1e8, 0 },
  { "us_qt", "US qt", "qt|qts|quart|quarts|us quart|us quarts", Q (VOLUME), US, US_GALLON, 4e12, 0 },
  { "imp_qt", "imp qt", "qt|qts|quart|quarts|uk qt|imperial quart|imperial quarts", Q (VOLUME), IMP, IMP_GALLON, 4e8, 0 },
  { "ft3", "ft³", "cu ft|ft^3|cubic foot|cubic feet", Q (VOLUME), US, CUBIC_FOOT_M3, 0 },
  { "in3", "in³", "cu in|in^3|cubic inch|cubic inches", Q (VOLUME), US, CUBIC_INCH_M3, 0 },

  { "m3/s", "m³/s", "m^3/s|m3/sec", Q (FLOW), SI, 1, 1, 0 },
  { "m3/h", "m³/h", "m^3/h|m3/hr|cu m/h|cmh", Q (FLOW), SI, 1, 3600, 0 },
  { "l/h", "L/h", "l/hr|lph|litres/h|liters/h|litres per hour|liters per hour", Q (FLOW), SI, 1, 3.6e6, 0 },
  { "l/min", "L/min", "lpm|l/m|litres/min|liters/min|litres per minute|liters per minute", Q (FLOW), SI, 1, 6e4, 0 },
  { "l/s", "L/s", "l/sec|lps|litres per second|liters per second", Q (FLOW), SI, 1, 1000, 0 },
  { "us_gph", "US gal/h", "gph|gal/h|gal/hr|us gph|us gal/hr|gallons per hour|us gallons per hour", Q (FLOW), US, US_GALLON, 3.6e15, 0 },
  { "us_gpm", "US gal/min", "gpm|gal/min|us gpm|gallons per minute|us gallons per minute", Q (FLOW), US, US_GALLON, 6e13, 0 },
  { "imp_gph", "imp gal/h", "gal/h|gal/hr|imp gph|uk gph|uk gal/h|imp gal/hr|gallons per hour|imperial gallons per hour",
    Q (FLOW), IMP, IMP_GALLON, 3.6e11, 0 },
  { "imp_gpm", "imp gal/min", "gal/min|imp gpm|uk gpm|gallons per minute|imperial gallons per minute", Q (FLOW), IMP, IMP_GALLON, 6e9, 0 },
  { "ft3/s", "ft³/s", "ft^3/s|cu ft/s|cfs", Q (FLOW), US, CUBIC_FOOT_M3, 0 },

  { "m/s", "m/s", "m/sec|mps|metres per second|meters per second", Q (VELOCITY), SI, 1, 1, 0 },
  { "cm/s", "cm/s", "cm/sec", Q (VELOCITY), SI, 1, 100, 0 },
  { "mm/s", "mm/s", "mm/sec", Q (VELOCITY), SI, 1, 1000, 0 },
  { "ft/s", "ft/s", "ft/sec|fps|feet per second", Q (VELOCITY), US, FOOT_M, 0 },

  { "pa", "Pa", "pascal|pascals|N/m2", Q (PRESSURE), SI, 1, 1, 0 },
  { "kpa", "kPa", "kN/m2", Q (PRESSURE), SI, 1000, 1, 0 },
  { "mpa", "MPa", "N/mm2", Q (PRESSURE), SI, 1e6, 1, 0 },
  { "gpa", "GPa", "kN/mm2", Q (PRESSURE), SI, 1e9, 1, 0 },
  { "bar", "bar", "bars", Q (PRESSURE), SI, 1e5, 1, 0 },
  { "mbar", "mbar", "hPa", Q (PRESSURE), SI, 100, 1, 0 },
  { "psi", "psi", "lbf/in2|lb/in2", Q (PRESSURE), US, LBF, 6451600000.0, 0 },
  { "psf", "lbf/ft²", "lbf/ft2|lb/ft2|lb/sq ft", Q (PRESSURE), US, LBF, 929030400000.0, 0 },
  { "mh2o", "mH₂O", "m H2O|m water|mwc", Q (PRESSURE), SI, GRAVITY, 100, 0 },
  { "fth2o", "ftH₂O", "ft H2O|ft water", Q (PRESSURE), US, GRAVITY * 3048, 1e6, 0 },
  { "inh2o", "inH₂O", "in H2O|in water", Q (PRESSURE), US, GRAVITY * 254, 1e6, 0 },

  { "kg", "kg", "kgs|kilogram|kilograms|kilo|kilos", Q (MASS), SI, 1, 1, 0 },
  { "g", "g", "gram|grams", Q (MASS), SI, 1, 1000, 0 },
  { "t", "t", "tonne|tonnes|metric ton|metric tons|ton|tons", Q (MASS), SI, 1000, 1, 0 },
  { "lb", "lb", "lbs|pound|pounds", Q (MASS), US, POUND_KG, 0 },
  { "oz", "oz", "ounce|ounces", Q (MASS), US, POUND, 16e8, 0 },
  { "us_ton", "short ton", "ton|tons|us ton|us tons|short tons", Q (MASS), US, POUND * 2000, 1e8, 0 },
  { "imp_ton", "long ton", "ton|tons|imp ton|long tons", Q (MASS), IMP, POUND * 2240, 1e8, 0 },

  { "w", "W", "watt|watts", Q (POWER), ANY, 1, 1, 0 },
  { "kw", "kW", "kilowatt|kilowatts", Q (POWER), ANY, 1000, 1, 0 },
  { "hp", "US hp", "hp|bhp|horsepower", Q (POWER), US, LBF * 550 * 0.3048, 1e13, 0 },
  { "metric_hp", "metric hp", "hp|ps|cv|horsepower", Q (POWER), SI, GRAVITY * 75, 1e5, 0 },
  { "btu/h", "BTU/h", "btu/hr|btuh", Q (POWER), US, BTU_IT, 3.6e11, 0 },

  { "degc", "°C", "c|deg c|celsius", Q (TEMPERATURE), SI, 1, 1, 0 },
  { "degf", "°F", "f|deg f|fahrenheit", Q (TEMPERATURE), US, 5, 9, 32 },
  { "kelvin", "K", "kelvins", Q (TEMPERATURE), SI, 1, 1, 273.15 },

  { "g/kg", "g/kg", "ppt|‰", Q (SALINITY), ANY, 1, 1, 0 },

  { "s", "s", "sec|secs|second|seconds", Q (TIME), ANY, 1, 1, 0 },
  { "min", "min", "mins|minute|minutes", Q (TIME), ANY, 60, 1, 0 },
  { "h", "h", "hr|hrs|hour|hours", Q (TIME), ANY, 3600, 1, 0 },
  { "d", "d", "day|days", Q (TIME), ANY, 86400, 1, 0 },

  { "1/h", "×/h", "x/h|/h|/hr|x/hr|per hour|times per hour|changes per hour", Q (TURNOVER), ANY, 1, 1, 0 },
  { "1/d", "×/d", "x/d|/d|/day|x/day|per day|times per day", Q (TURNOVER), ANY, 1, 24, 0 },

  { "per_kwh", "/kWh", "per kwh", Q (PRICE), ANY, 1, 1, 0 },
  { "money", "", "", Q (MONEY), ANY, 1, 1, 0 },

  { "kg/m3", "kg/m³", "kg/m^3", Q (DENSITY), SI, 1, 1, 0 },
  { "g/cm3", "g/cm³", "g/cm^3|g/ml|kg/l", Q (DENSITY), SI, 1000, 1, 0 },
  { "lb/ft3", "lb/ft³", "lb/cu ft|pcf", Q (DENSITY), US, POUND * 1e4, 28316846592.0, 0 },

  { "rad", "rad", "radian|radians", Q (ANGLE), ANY, 1, 1, 0 },
  { "deg", "°", "degree|degrees", Q (ANGLE), ANY, G_PI, 180, 0 },

  { "n", "N", "newton|newtons", Q (FORCE), SI, 1, 1, 0 },
  { "kn", "kN", "kilonewton|kilonewtons", Q (FORCE), SI, 1000, 1, 0 },
  { "kgf", "kgf", "kp", Q (FORCE), SI, GRAVITY, 1e5, 0 },
  { "lbf", "lbf", "lb|lbs", Q (FORCE), US, LBF, 1e13, 0 },

  { "j", "J", "joule|joules", Q (ENERGY), ANY, 1, 1, 0 },
  { "wh", "Wh", "watt hours", Q (ENERGY), ANY, 3600, 1, 0 },
  { "kwh", "kWh", "kw h|kilowatt hours", Q (ENERGY), ANY, 3.6e6, 1, 0 },
  { "btu", "BTU", "btus", Q (ENERGY), US, BTU_IT, 1e8, 0 },

  { "kg/s", "kg/s", "", Q (MASS_FLOW), SI, 1, 1, 0 },
  { "kg/h", "kg/h", "kg/hr", Q (MASS_FLOW), SI, 1, 3600, 0 },
  { "kg/d", "kg/d", "kg/day", Q (MASS_FLOW), SI, 1, 86400, 0 },
  { "lb/h", "lb/h", "lb/hr|lbs/h", Q (MASS_FLOW), US, POUND, 3.6e11, 0 },
  { "lb/d", "lb/d", "lb/day|lbs/day", Q (MASS_FLOW), US, POUND, 8.64e12, 0 },
};
/* clang-format on */

/* The quantity under which the units of `quantity` stand in the table. */
static Quantity
dimension (Quantity quantity)
{
  if (quantity == QUANTITY_RATIO || quantity == QUANTITY_COUNT)
    return QUANTITY_NONE;
  if (quantity == QUANTITY_DIAMETER || quantity == QUANTITY_HEAD)
    return QUANTITY_LENGTH;
  if (quantity == QUANTITY_STRESS)
    return QUANTITY_PRESSURE;
  return quantity;
}

const char *
quantity_name (Quantity quantity)
{
  switch (quantity) {
#define X(name, text)                                                                                        \
  case QUANTITY_##name:                                                                                      \
    return text;
    QUANTITY_LIST (X)
#undef X
  case QUANTITY_N:
    break;
  }
  return "?";
}

gboolean
quantity_accepts (Quantity quantity, const Unit *unit)
{
  /* things are counted, never in per cent */
  if (quantity == QUANTITY_COUNT)
    return unit == &units[0];
  return unit != NULL && unit->quantity == dimension (quantity);
}

const Unit *
quantity_si_unit (Quantity quantity)
{
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (quantity_accepts (quantity, &units[i]) && unit_factor (&units[i]) == 1 && units[i].zero == 0)
      return &units[i];
  return &units[0];
}

const Unit *
unit_find (const char *word)
{
  for (guint i = 0; word != NULL && i < G_N_ELEMENTS (units); i++)
    if (strcmp (units[i].word, word) == 0)
      return &units[i];
  return NULL;
}

guint
unit_count (void)
{
  return G_N_ELEMENTS (units);
}

const Unit *
unit_at (guint index)
{
  return index < G_N_ELEMENTS (units) ? &units[index] : NULL;
}

double
unit_factor (const Unit *unit)
{
  return unit->multiplier / unit->divisor;
}

double
unit_to_si (const Unit *unit, double shown)
{
  return (shown - unit->zero) * unit->multiplier / unit->divisor;
}

double
unit_from_si (const Unit *unit, double stored)
{
  return stored * unit->divisor / unit->multiplier + unit->zero;
}

UnitsConvertStatus
units_convert_words (double value, const char *from, const char *to, double *ret)
{
  const Unit *source = unit_find (from);
  const Unit *target = unit_find (to);
  double result;

  if (source == NULL)
    return UNITS_CONVERT_UNKNOWN_FROM;
  if (target == NULL)
    return UNITS_CONVERT_UNKNOWN_TO;
  if (source->quantity != target->quantity)
    return UNITS_CONVERT_MISMATCH;
  result = source == target ? value : unit_from_si (target, unit_to_si (source, value));
  if (!isfinite (result))
    return UNITS_CONVERT_NOT_FINITE;
  *ret = result;
  return UNITS_CONVERT_OK;
}
