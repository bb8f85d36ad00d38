/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Roots of a function of one number inside a bracket. Not for use outside this folder. */

#include <glib.h>

typedef double (*RootFunction) (double x, gconstpointer data);

/**
 * root_between:
 * @low, @high: finite, with @f of opposite sign (or zero) at both: @at_low, @at_high
 *
 * Chandrupatla's method (1997): inverse quadratic interpolation where it is safe, bisection elsewhere; the bracket
 * always holds. Ends when it is as narrow as the numbers allow.
 * Returns: the root; NaN if the ends do not bracket one or @f gives a value that is not a number
 */
double root_between (RootFunction f, gconstpointer data, double low, double at_low, double high,
                     double at_high);
