/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder only: which units a quantity is usually given in. */
#pragma once

#include "units/quantity.h"

/* Most usual units that a quantity has in one system. */
#define USUAL_UNITS_MAX 4

/*
 * The `index`-th usual unit of `quantity` in `system`; index 0 is the one an entry shows and always exists, NULL after the last.
 * The list is what a bare number might have meant.
 */
const Unit *usual_unit (Quantity quantity, UnitSystem system, guint index);

/* The usual unit in which this stored value is best read. Never NULL. */
const Unit *usual_unit_for_value (double value, Quantity quantity, UnitSystem system);
