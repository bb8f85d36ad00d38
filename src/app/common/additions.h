/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be added to a part, as a table: the words of the menu and the edit behind each. */
#pragma once

#include "design/edit.h"

typedef struct {
  PartKind to;      /* kind of the part that it is added to; N_PART_KINDS: the design itself */
  const char *name; /* marked for translation */
  Design *(*add) (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem);
  int argument;
} Addition;

/* The n-th row, or NULL after the last. */
const Addition *addition_nth (unsigned n);

/* The middle of the longest straight piece of a run, metres from its start: there a fitting or corner has room. */
double addition_free_station (const Design *design, const Part *run);
