/* SPDX-License-Identifier: LGPL-2.1-or-later */
/*
 * Reading quantities that people type: "18 in", "45.7 cm", "1 1/2", 5' 3 1/2", "1200 L/h", "300 gph", "1.200,5 mm".
 * What can mean two things is never guessed: it comes back as UNITS_PARSE_AMBIGUOUS with the readings, for the program to ask.
 * Files use units_parse_si, which takes plain numbers with a decimal point only.
 */
#pragma once

#include "units/format.h"

/* Longest text that is read at all, in bytes. */
#define UNITS_PARSE_MAX_LENGTH   200
#define UNITS_PARSE_MAX_READINGS 8

/* name, and a plain English text for logs and the command line */
#define UNITS_PARSE_STATUS_LIST(X)                                                                           \
  X (OK, "understood")                                                                                       \
  X (EMPTY, "nothing was entered")                                                                           \
  X (NOT_TEXT, "the text is not valid UTF-8")                                                                \
  X (TOO_LONG, "the text is too long for a quantity")                                                        \
  X (NO_NUMBER, "a number was expected")                                                                     \
  X (BAD_NUMBER, "the number is not written in a way that can be understood")                                \
  X (UNKNOWN_UNIT, "the unit is not known")                                                                  \
  X (WRONG_QUANTITY, "the unit measures something else")                                                     \
  X (TRAILING, "there is more text than one quantity")                                                       \
  X (OUT_OF_RANGE, "the number is too large or too small")                                                   \
  X (AMBIGUOUS, "this can be read in more than one way")

typedef enum {
#define X(name, text) UNITS_PARSE_##name,
  UNITS_PARSE_STATUS_LIST (X)
#undef X
      UNITS_PARSE_N
} UnitsParseStatus;

/* One way to read an ambiguous text. `text` is canonical: given back with `unit` as default unit it is not ambiguous. */
typedef struct {
  double value; /* stored value */
  const Unit *unit;
  char text[96]; /* UTF-8, as the style writes it, EXACT */
} UnitsReading;

typedef struct {
  const Unit
      *unit; /* unit that was read (the largest of "5 ft 3 in"), the misfit for WRONG_QUANTITY; else NULL */
  gsize offset;     /* bytes from the start of the text to the piece not understood */
  gsize length;     /* its length in bytes; 0 when understood or when something is missing at `offset` */
  guint n_readings; /* 2 or more for AMBIGUOUS, else 0 */
  UnitsReading reading[UNITS_PARSE_MAX_READINGS];
} UnitsParseDetail;

/* Plain English text of a status; never empty. */
const char *units_parse_status_text (UnitsParseStatus status);

/*
 * Read one quantity.
 *
 * text          UTF-8; NULL counts as empty
 * quantity      what is expected; units of another dimension give WRONG_QUANTITY
 * style         separators and system of the reader, may not be NULL
 * default_unit  unit of a bare number, or NULL: then a bare number is ambiguous unless the quantity has no units
 * ret_value     stored value; written only for UNITS_PARSE_OK; may be NULL
 * ret_detail    written always, may be NULL
 *
 * Accepted: sign (also U+2212 and dashes); digits of any script; groups of three; decimals by point or comma; exponents;
 * fractions `3/4`, `1 1/2`, `1-1/2`, `1½`; units with or without a space and in either case; feet with inches, pounds with ounces, hours with
 * minutes, `5'-3 1/2"`. Never NaN, infinity, hexadecimal or sums.
 *
 * Asked instead of guessed (AMBIGUOUS):
 * - one point or comma before exactly three digits when it is neither sign of the style ("1,200" where groups are spaces);
 * - gallons, tons and horsepower without their country, in the metric style (the US style means the US ones, and a
 *   default unit of that spelling settles it); gph and gpm are always American;
 * - a bare number without default unit; a bare fraction where the default unit is a metric length ("3/4": mm or in?).
 */
UnitsParseStatus units_parse (const char *text, Quantity quantity, const NumberStyle *style,
                              const Unit *default_unit, double *ret_value, UnitsParseDetail *ret_detail);

/*
 * Read a number of a file or of machine input: optional sign, digits with an optional decimal point, optional exponent,
 * nothing else, no spaces. TRUE and `ret` set when it is finite; else FALSE and `ret` untouched. Independent of the locale.
 */
gboolean units_parse_si (const char *text, double *ret);
