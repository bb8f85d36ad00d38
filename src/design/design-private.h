/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inside of a design, for the design folder only. */
#pragma once

#include "design/design.h"

#define NO_OWNER -2

struct _Design {
  gatomicrefcount references;
  unsigned n;
  Part **parts;                     /* ordered by kind */
  unsigned start[N_PART_KINDS + 1]; /* index of the first part of each kind, then n */
  guint16 *by_key; /* open hash table of the keys: index + 1 of a part, or 0; more than half of it is free */
  unsigned mask;   /* its size less one; the size is a power of two */
  int *owners;     /* index of the owner of each part, or NO_OWNER, or -1 where there is no such part */
};

/* A design of these parts, which must be ordered by kind; takes new references. Not checked: see draft_commit. */
Design *design_new (Part *const *parts, unsigned n);
