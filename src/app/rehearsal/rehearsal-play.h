/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One scenario of one design played through, with all its moments: computed in any thread, then only read. */
#pragma once

#include <glib.h>

#include "design/catalogue.h"
#include "solver/rehearsal-judge.h"

typedef struct {
  gatomicrefcount references;
  Design *design;
  System *system;     /* NULL where the design does not compile; then nothing else is known */
  Evaluation *steady; /* before the failure */
  Rehearsed *rehearsed;
  RehearsalTrace *trace; /* empty where the scenario cannot happen */
  unsigned n_remedies;
  RehearsalRemedy remedies[REHEARSAL_REMEDIES_MAX];
} RehearsalPlay;

/* Plays `n` failures (1 or 2) together. `mend` looks for remedies where water is spilled. */
RehearsalPlay *rehearsal_play_new (Design *design, Catalogue *catalogue, const FailureId *failures,
                                   unsigned n, gboolean mend);
RehearsalPlay *rehearsal_play_ref (RehearsalPlay *play);
void rehearsal_play_unref (RehearsalPlay *play);

/* Whether there are moments to show. */
gboolean rehearsal_play_is_shown (const RehearsalPlay *play);

/* How long it is worth watching: until all is at rest, or to the end; at least a second. */
double rehearsal_play_length (const RehearsalPlay *play);

/* The design with a remedy applied, or NULL where it would not be well-formed. Newly referenced. */
Design *rehearsal_play_mend (const RehearsalPlay *play, unsigned remedy);

/* Water in a vessel over its rim over time, for a chart. `ret_time_s` and `ret_height_m` are newly allocated arrays of the
 * returned length. */
unsigned rehearsal_play_heights (const RehearsalPlay *play, unsigned vessel, double **ret_time_s,
                                 double **ret_height_m);

/* Flow through a pump or into a drain over time, the same way. */
unsigned rehearsal_play_pump_flow (const RehearsalPlay *play, unsigned pump, double **ret_time_s,
                                   double **ret_flow_m3s);
unsigned rehearsal_play_drain_flow (const RehearsalPlay *play, unsigned drain, double **ret_time_s,
                                    double **ret_flow_m3s);

/* The event before or at a time, or the first after it; -1 where there is none. */
int rehearsal_play_event_at (const RehearsalPlay *play, double time_s);
int rehearsal_play_event_after (const RehearsalPlay *play, double time_s);

/* Whether an event is one that nobody wants: water leaves a vessel, or a pump runs dry. */
gboolean rehearsal_event_is_grave (const RehearsalEvent *event);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RehearsalPlay, rehearsal_play_unref)
