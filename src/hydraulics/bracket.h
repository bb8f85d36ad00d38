/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* The level or the head at which a growing relation reaches a wanted value. */

#include "hydraulics/status.h"

/**
 * BracketFunc:
 * @x: inside the bracket
 * @data: caller's
 * @ret_value: (out): a value that never falls as @x grows
 * Returns: OK, or OUT_OF_RANGE with a value; anything else ends the search with that status
 */
typedef HydraulicsStatus (*BracketFunc) (double x, const void *data, double *ret_value);

/**
 * bracket_invert:
 * @relation: never falling over @low .. @high; it may jump or stand still
 * @wanted: value to reach
 * @low, @high: ends of the bracket, finite, low <= high
 * @ret_x: (out): where @relation passes @wanted, to the spacing of doubles. At a jump across it: the jump
 *
 * The root finding of root_between(), for relations that can fail.
 * Returns: OK; NO_SOLUTION if the value at an end says that @wanted is not reached; INVALID_ARGUMENT;
 *   NOT_CONVERGED; the status of @relation if it fails
 */
HydraulicsStatus bracket_invert (BracketFunc relation, const void *data, double wanted, double low,
                                 double high, double *ret_x);

/**
 * bracket_near:
 * @relation, @wanted, @ret_x: as in bracket_invert()
 * @near: a place near to which it is looked for, finite
 * @reach: steps away from it grow from @reach / 4096 to @reach, > 0
 *
 * For a search that is done again after a small change: a few calls instead of a dozen.
 * Returns: as bracket_invert(); NO_SOLUTION where @wanted is not reached within about @reach of @near
 */
HydraulicsStatus bracket_near (BracketFunc relation, const void *data, double wanted, double near,
                               double reach, double *ret_x);
