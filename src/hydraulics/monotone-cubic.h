/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Monotone piecewise cubic interpolation (PCHIP): Fritsch & Carlson 1980, slopes after Fritsch & Butland 1984, ends by
 * the shape-preserving three-point formula, as in SLATEC and SciPy. Not for use outside this folder. */

#include <glib.h>

/* Slopes at @n >= 2 points of strictly rising @x and monotone @y. */
void monotone_cubic_slopes (guint n, const double *x, const double *y, double *ret_slopes);

/* Value and derivative at @at, which lies between x[0] and x[n - 1]. */
void monotone_cubic_at (guint n, const double *x, const double *y, const double *slopes, double at,
                        double *ret_value, double *ret_derivative);
