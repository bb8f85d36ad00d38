/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Sentences about what was typed into an entry, in the reader's language and units. */
#pragma once

#include "design/draft.h"
#include "units/parse.h"

/* Why a text was not understood as a quantity in `unit`; never NULL, ends with a full stop. */
char *quantity_words_problem (UnitsParseStatus status, const UnitsParseDetail *detail, const char *text,
                              const Unit *unit);

/* Why the design refused a value, in the unit of the entry: ranges as "50 mm to 4,000 mm". */
char *quantity_words_refusal (const Problem *problem, FieldId field, const char *text,
                              const NumberStyle *style, const Unit *unit);

/* How far an arrow key moves a shown value: a millimetre, a sixteenth of an inch, a per cent, else a twentieth or so. */
double quantity_step (Quantity quantity, const Unit *unit, double shown);
