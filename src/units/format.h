/* SPDX-License-Identifier: LGPL-2.1-or-later */
/*
 * How numbers are written: for people by a NumberStyle that the caller holds, for files and machines by units_shortest.
 * The style is a plain value: copy it with `=`. The application fills it from the user's locale and preferences;
 * this folder never asks the locale.
 */
#pragma once

#include "units/quantity.h"

/* Narrow no-break space (U+202F), between number and symbol and, in the metric style, between groups of digits. */
#define UNITS_SPACE "\u202f"
/* What is shown for a value that is not a finite number. */
#define UNITS_NO_VALUE "—"

/* Room that units_shortest needs, the closing zero included. */
#define UNITS_SHORTEST_SIZE 32

typedef struct {
  UnitSystem system;
  char decimal[8];   /* decimal sign, UTF-8, never empty */
  char thousands[8]; /* sign between groups of three digits; empty for none; never equal to `decimal` */
  char currency[16]; /* symbol for money and price, may be empty */
  guint group_from; /* numbers with fewer digits before the decimal sign than this are not grouped (4 or 5) */
  guint inch_denominator;       /* finest fraction of an inch that is built: 2, 4, 8, 16, 32 or 64 */
  const Unit *unit[QUANTITY_N]; /* the user's own unit for a quantity, NULL for the unit of the system */
} NumberStyle;

typedef enum {
  UNITS_BUILD,   /* what can be built: whole mm or 1/16 in (bores 0.1 mm, 0.01 in); else as UNITS_MEASURE */
  UNITS_MEASURE, /* what can be measured: flows and most others to three figures (1 %), volumes to the litre */
  UNITS_EXACT    /* shortest decimal that reads back as the same value (see units_format) */
} UnitsPrecision;

/* mm, L, L/h, °C; decimal point, groups set off by U+202F from five digits on (NIST SP 811, 10.5.3). */
NumberStyle number_style_metric (void);
/* in, gal, gph, °F; decimal point, commas from four digits on, sixteenths of an inch. */
NumberStyle number_style_us (void);

/*
 * A style of `system` with the signs of a locale, as localeconv gives them: UTF-8, either may be NULL or empty.
 * Known signs: decimal `.` `,` `٫`; groups `.` `,` `٬` apostrophes and spaces. An unknown decimal sign becomes a point,
 * an unknown group sign, or one equal to the decimal sign, becomes none.
 */
NumberStyle number_style_from_separators (UnitSystem system, const char *decimal, const char *thousands);

/*
 * Set the user's unit for one quantity by machine word; NULL word returns to the unit of the system.
 * FALSE, and nothing changed, when there is no such unit or it does not measure that quantity.
 */
gboolean number_style_set_unit (NumberStyle *style, Quantity quantity, const char *word);

/* The one unit an entry of this quantity shows and takes: the style's own unit, else that of the system. Never NULL. */
const Unit *units_unit_for (Quantity quantity, const NumberStyle *style);

/*
 * The unit this value is best read in: the style's own unit if it has one, else chosen by size (mm below 10 m, then m;
 * mL below 1 L; s, min, h, d). Never NULL.
 */
const Unit *units_unit_for_value (double value, Quantity quantity, const NumberStyle *style);

/*
 * Number and symbol for a person: "1,200 L/h" with U+202F before the symbol (none before ° and none for plain numbers).
 *
 * value   stored value in the unit of `quantity`
 * unit    unit of this one field, or NULL for the style's choice by size; a unit that does not fit is taken as NULL
 *
 * The minus sign is U+2212. US lengths are fractions of an inch when built or measured, and feet with inches from ten
 * feet on when `unit` is NULL. Lengths of four digits are not grouped (1219 mm). UNITS_EXACT takes the unit of the entry where `unit` is
 * NULL, never a fraction, and an exponent only from 1e15 on or below 1e-7; units_parse with the same style reads it
 * back to the same value, or to its neighbour where the unit has no closer number. Never NULL; a value that is not finite gives
 * UNITS_NO_VALUE. Free with g_free.
 */
char *units_format (double value, Quantity quantity, const NumberStyle *style, const Unit *unit,
                    UnitsPrecision precision);

/* The same without the symbol, for columns whose head names `unit`; NULL unit means units_unit_for (). Free with g_free. */
char *units_format_number (double value, Quantity quantity, const NumberStyle *style, const Unit *unit,
                           UnitsPrecision precision);

/* Symbol for a column head or label: that of `unit`, with the currency for price and money. Free with g_free. */
char *units_symbol (const Unit *unit, const NumberStyle *style);

/*
 * Shortest decimal that reads back as exactly `value`, with a decimal point in every locale: "0.1", "1200", "-2.5e-9".
 * Writes into `buffer` of UNITS_SHORTEST_SIZE and returns it. Minus zero is written "0"; a value that is not finite writes "" -
 * callers write null or leave the value out.
 */
const char *units_shortest (double value, char *buffer);
