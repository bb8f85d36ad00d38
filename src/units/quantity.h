/* SPDX-License-Identifier: LGPL-2.1-or-later */
/*
 * Quantities and units. The program computes in SI; a number meets a person only through this folder:
 * quantity.h converts, parse.h reads what was typed, format.h writes what is shown.
 * Nothing here reads the locale or the environment, allocates globally, prints or translates: unit symbols are English.
 */
#pragma once

#include <glib.h>

/*
 * What a number measures. The stored value is in the unit named here.
 *
 * All are SI or SI with the usual accepted unit, with these four exceptions, kept because every handbook, label and
 * bill of the trade has them: temperature is in degrees Celsius, salinity in g/kg (absolute salinity), turnover in
 * changes per hour (1/h, the one rate that is not per second) and price in money per kilowatt hour.
 */
#define QUANTITY_LIST(X)                                                                                     \
  X (NONE, "number")             /* plain number, -                                  */                      \
  X (RATIO, "ratio")             /* ratio, -; shown in per cent                      */                      \
  X (LENGTH, "length")           /* m                                                */                      \
  X (DIAMETER, "diameter")       /* m; bores, wall and glass thickness: mm or in     */                      \
  X (AREA, "area")               /* m2                                               */                      \
  X (VOLUME, "volume")           /* m3                                               */                      \
  X (FLOW, "flow")               /* m3/s                                             */                      \
  X (VELOCITY, "velocity")       /* m/s                                              */                      \
  X (HEAD, "head")               /* m of the water that flows                        */                      \
  X (PRESSURE, "pressure")       /* Pa, gauge                                        */                      \
  X (MASS, "mass")               /* kg                                               */                      \
  X (POWER, "power")             /* W                                                */                      \
  X (TEMPERATURE, "temperature") /* degC                                             */                      \
  X (SALINITY, "salinity")       /* g/kg                                             */                      \
  X (TIME, "time")               /* s                                                */                      \
  X (TURNOVER, "turnover")       /* 1/h                                              */                      \
  X (PRICE, "price")             /* money per kWh                                    */                      \
  X (MONEY, "money")             /* money, in the reader's currency                  */                      \
  X (DENSITY, "density")         /* kg/m3                                            */                      \
  X (ANGLE, "angle")             /* rad                                              */                      \
  X (COUNT, "count")             /* whole things                                     */                      \
  X (FORCE, "force")             /* N                                                */                      \
  X (STRESS, "stress")           /* Pa; also elastic moduli and floor loads          */                      \
  X (ENERGY, "energy")           /* J                                                */                      \
  X (MASS_FLOW, "mass flow")     /* kg/s; evaporation                                */

typedef enum {
#define X(name, text) QUANTITY_##name,
  QUANTITY_LIST (X)
#undef X
      QUANTITY_N
} Quantity;

typedef enum { UNIT_SYSTEM_METRIC, UNIT_SYSTEM_US, UNIT_SYSTEM_N } UnitSystem;

/* Where a unit is at home; decides between gallons, tons and horsepower of one spelling. */
typedef enum { UNIT_HOME_ANY, UNIT_HOME_METRIC, UNIT_HOME_US, UNIT_HOME_IMPERIAL } UnitHome;

/*
 * One row of the constant table of units; stored value = (shown value - zero) x multiplier / divisor. Two numbers for one factor
 * because 1/1000 has no exact double and 1000 has.
 * Rows are compared by pointer and live for ever.
 */
typedef struct {
  const char *word;      /* machine word: "m3", "us_gph", "degf"; unique, lower case */
  const char *symbol;    /* what a person reads, UTF-8: "m³", "US gal/h", "°F"; "" for a plain number */
  const char *spellings; /* further accepted spellings separated by '|'; see parse.h for how they match */
  Quantity quantity;     /* first quantity of its dimension (a length unit also serves diameter and head) */
  UnitHome home;
  double multiplier; /* > 0 */
  double divisor;    /* > 0 */
  double zero;       /* shown value where the stored one is 0; only temperatures have one */
} Unit;

/* English name of a quantity for messages of the command line; never NULL, "?" outside the enum. */
const char *quantity_name (Quantity quantity);

/* True when a value of `quantity` may be given in `unit`: the dimensions agree. Head takes lengths, stress takes pressures. */
gboolean quantity_accepts (Quantity quantity, const Unit *unit);

/* The unit in which shown and stored values are the same for `quantity`: what files and machine output are in. Never NULL. */
const Unit *quantity_si_unit (Quantity quantity);

/* Row of the table by its machine word, exact match; NULL when there is none. */
const Unit *unit_find (const char *word);

/* The table itself: rows 0 .. unit_count () - 1. NULL outside. */
guint unit_count (void);
const Unit *unit_at (guint index);

/* Size of one shown unit in stored ones: 0.0254 for "in". */
double unit_factor (const Unit *unit);

/* Shown value in `unit` -> stored value, and back. Follows IEEE arithmetic: a value that is not finite stays so. */
double unit_to_si (const Unit *unit, double shown);
double unit_from_si (const Unit *unit, double stored);

typedef enum {
  UNITS_CONVERT_OK,
  UNITS_CONVERT_UNKNOWN_FROM, /* no such word as `from` */
  UNITS_CONVERT_UNKNOWN_TO,   /* no such word as `to` */
  UNITS_CONVERT_MISMATCH,     /* the two words measure different things */
  UNITS_CONVERT_NOT_FINITE    /* the value or the result is NaN or infinite */
} UnitsConvertStatus;

/*
 * Convert `value` from one machine word to another ("us_gph" to "l/h").
 *
 * Factors are exact where NIST SP 811 (2008), Appendix B.8 gives exact definitions: inch 0.0254 m, US gallon 231 in3,
 * imperial gallon 4.54609 L, pound 0.45359237 kg, g 9.80665 m/s2, BTU(IT) 1055.05585262 J. Columns of water are the conventional
 * ones, 1000 kg/m3. `ret` is untouched unless the answer is UNITS_CONVERT_OK.
 */
UnitsConvertStatus units_convert_words (double value, const char *from, const char *to, double *ret);
