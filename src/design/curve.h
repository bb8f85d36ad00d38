/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A pump curve as a field holds it: points "flow:head flow:head ..." in m3/s and m, numbers as shortest decimals. */
#pragma once

#include "design/draft.h"

typedef struct {
  unsigned n;
  double flow_m3s[MAX_CURVE_POINTS];
  double head_m[MAX_CURVE_POINTS];
} CurvePoints;

/* Reads points parted by spaces or "|". False when there are fewer than 2 or more than MAX_CURVE_POINTS, when the flow
 * does not rise, the head rises, the first head is not positive, or a number is negative, not finite or unreadable. */
bool curve_read (const char *text, CurvePoints *ret_points);

/* The canonical text of points, newly allocated; curve_canonical gives NULL for a text that curve_read refuses. */
char *curve_write (const CurvePoints *points);
char *curve_canonical (const char *text);
