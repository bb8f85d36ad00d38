/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder only: finding the unit that a piece of typed text names. */
#pragma once

#include "units/signs.h"

#define UNIT_MATCHES_MAX 4

typedef struct {
  const Unit
      *unit[UNIT_MATCHES_MAX]; /* units of the quantity that share the longest spelling, in table order */
  guint n;
  gsize end;          /* position after the spelling */
  const Unit *misfit; /* set when the longest spelling names something else; n is 0 then */
} UnitMatch;

/*
 * Find the units whose word, symbol or spelling stands at `start`, longest first. Case does not matter except that a
 * symbol in M or G (MPa) must start so; spaces inside a spelling and round its slash may be left out or added; a full stop may close an
 * abbreviation.
 */
void unit_match (const Typed *typed, gsize start, Quantity quantity, UnitMatch *ret);
