/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder only: reading the number in front of a unit. */
#pragma once

#include "units/signs.h"

typedef struct {
  guint n;              /* readings: 1, or 2 where a separator can be decimal or of thousands */
  double value[2];      /* >= 0 */
  gboolean is_fraction; /* written with a slash */
  gsize end;            /* position after the number, or after the piece not understood */
} NumberReading;

/*
 * Read the unsigned number that starts at `start`; `decimal` and `thousands` are those of the style.
 * `ret` is written always: OK, NO_NUMBER (nothing there), BAD_NUMBER or OUT_OF_RANGE (start .. end is the piece).
 */
UnitsParseStatus number_read (const Typed *typed, gsize start, Sign decimal, Sign thousands,
                              NumberReading *ret);
