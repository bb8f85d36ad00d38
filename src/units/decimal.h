/* SPDX-License-Identifier: LGPL-2.1-or-later */
/*
 * Inside this folder only: plain decimal numbers in ASCII - an optional '-', digits, an optional point, an optional exponent -
 * before a style gives them its signs. Values must be finite; `plain` has room for PLAIN_SIZE.
 */
#pragma once

#include "units/quantity.h"

#define PLAIN_SIZE 48

/* `figures` significant figures, 1 to 17, closing zeros kept: 12.0, 1480. */
void plain_write_figures (double value, int figures, char *plain);

/* `decimals` places, 0 to 9; from 1e15 on fifteen figures and an exponent. */
void plain_write_decimals (double value, int decimals, char *plain);

/* Shortest decimal that comes back as `stored` when it is read in `unit` (NULL: the number itself). */
void plain_write_exact (double stored, const Unit *unit, char *plain);

/* -0.00 is a rounding, not a direction. */
void plain_drop_sign_of_zero (char *plain);

/* Take off zeros at the end of the decimals, down to `keep` places. */
void plain_drop_closing_zeros (char *plain, int keep);
