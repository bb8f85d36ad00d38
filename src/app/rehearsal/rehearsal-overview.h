/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Every failure of one design rehearsed, for the list: computed in any thread, then only read. */
#pragma once

#include "design/catalogue.h"
#include "solver/rehearsal-judge.h"

typedef struct {
  Design *design;
  Rehearsed *all[N_FAILURES]; /* by FailureId; NULL where the design does not compile */
  unsigned n_played, n_spill; /* can happen; put water on the floor */
} RehearsalOverview;

RehearsalOverview *rehearsal_overview_new (Design *design, Catalogue *catalogue);
void rehearsal_overview_free (RehearsalOverview *overview);

/* What all of it comes to, as a sentence. Newly allocated. */
char *rehearsal_overview_sentence (const RehearsalOverview *overview);
