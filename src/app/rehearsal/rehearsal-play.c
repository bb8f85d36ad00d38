/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/rehearsal/rehearsal-play.h"

#include <math.h>

#include "design/draft.h"

#define FRAMES       1500
#define LENGTH_LEAST 1.0
#define SAME_MOMENT  1e-6

static void
play (RehearsalPlay *self, Catalogue *catalogue, const FailureId *failures, unsigned n, gboolean mend)
{
  Workspace *workspace = workspace_new (self->system);
  g_autoptr (Rehearser) rehearser = rehearser_new (self->system);

  self->steady = evaluation_new ();
  evaluate (self->system, workspace, NULL, self->steady);
  workspace_free (workspace);
  self->rehearsed = g_new0 (Rehearsed, 1);
  self->trace = rehearsal_trace_new (FRAMES);
  rehearse_failures (self->system, self->steady, rehearser, failures, n, NULL, self->trace, NULL,
                     self->rehearsed);
  if (mend && self->rehearsed->reason == FAILURE_APPLIES && self->rehearsed->rehearsal.spilled_m3 > 0)
    self->n_remedies =
        rehearsal_remedies (self->design, catalogue, self->rehearsed, NULL, NULL, self->remedies);
}

RehearsalPlay *
rehearsal_play_new (Design *design, Catalogue *catalogue, const FailureId *failures, unsigned n,
                    gboolean mend)
{
  RehearsalPlay *self = g_new0 (RehearsalPlay, 1);

  g_atomic_ref_count_init (&self->references);
  self->design = design_ref (design);
  self->system = system_compile (design, catalogue, NULL, NULL);
  if (self->system != NULL)
    play (self, catalogue, failures, n, mend);
  return self;
}

RehearsalPlay *
rehearsal_play_ref (RehearsalPlay *play)
{
  g_atomic_ref_count_inc (&play->references);
  return play;
}

void
rehearsal_play_unref (RehearsalPlay *play)
{
  if (!g_atomic_ref_count_dec (&play->references))
    return;
  g_clear_pointer (&play->trace, rehearsal_trace_free);
  g_clear_pointer (&play->rehearsed, g_free);
  g_clear_pointer (&play->steady, evaluation_free);
  g_clear_pointer (&play->system, system_free);
  design_unref (play->design);
  g_free (play);
}

gboolean
rehearsal_play_is_shown (const RehearsalPlay *play)
{
  return play->system != NULL && play->rehearsed->reason == FAILURE_APPLIES &&
         rehearsal_trace_n_frames (play->trace) > 0;
}

double
rehearsal_play_length (const RehearsalPlay *play)
{
  const Rehearsal *rehearsal;

  if (!rehearsal_play_is_shown (play))
    return LENGTH_LEAST;
  rehearsal = &play->rehearsed->rehearsal;
  return fmax (isfinite (rehearsal->rest_s) ? rehearsal->rest_s : rehearsal->end_s, LENGTH_LEAST);
}

Design *
rehearsal_play_mend (const RehearsalPlay *play, unsigned remedy)
{
  const RehearsalRemedy *mend = &play->remedies[remedy];

  return design_with_number (play->design, part_key (design_part (play->design, (unsigned) mend->part)),
                             mend->field, mend->value, NULL);
}

/* Arrays of one entry a frame, the times filled in. */
static unsigned
new_arrays (const RehearsalPlay *play, double **ret_time_s, double **ret_value)
{
  const unsigned n = rehearsal_trace_n_frames (play->trace);

  *ret_time_s = g_new (double, n + 1);
  *ret_value = g_new (double, n + 1);
  for (unsigned i = 0; i < n; i++)
    (*ret_time_s)[i] = rehearsal_trace_frame (play->trace, i)->time_s;
  return n;
}

unsigned
rehearsal_play_heights (const RehearsalPlay *play, unsigned vessel, double **ret_time_s,
                        double **ret_height_m)
{
  const unsigned n = new_arrays (play, ret_time_s, ret_height_m);

  for (unsigned i = 0; i < n; i++)
    (*ret_height_m)[i] =
        rehearsal_trace_frame (play->trace, i)->level_z[vessel] - play->steady->vessels[vessel].rim_z;
  return n;
}

unsigned
rehearsal_play_pump_flow (const RehearsalPlay *play, unsigned pump, double **ret_time_s,
                          double **ret_flow_m3s)
{
  const unsigned n = new_arrays (play, ret_time_s, ret_flow_m3s);

  for (unsigned i = 0; i < n; i++)
    (*ret_flow_m3s)[i] = rehearsal_trace_frame (play->trace, i)->pump_m3s[pump];
  return n;
}

unsigned
rehearsal_play_drain_flow (const RehearsalPlay *play, unsigned drain, double **ret_time_s,
                           double **ret_flow_m3s)
{
  const unsigned n = new_arrays (play, ret_time_s, ret_flow_m3s);

  for (unsigned i = 0; i < n; i++)
    (*ret_flow_m3s)[i] = rehearsal_trace_frame (play->trace, i)->drain_m3s[drain];
  return n;
}

int
rehearsal_play_event_at (const RehearsalPlay *play, double time_s)
{
  int at = -1;

  for (unsigned i = 0; rehearsal_play_is_shown (play) && i < play->rehearsed->rehearsal.n_events; i++)
    if (play->rehearsed->rehearsal.events[i].time_s <= time_s + SAME_MOMENT)
      at = (int) i;
  return at;
}

int
rehearsal_play_event_after (const RehearsalPlay *play, double time_s)
{
  for (unsigned i = 0; rehearsal_play_is_shown (play) && i < play->rehearsed->rehearsal.n_events; i++)
    if (play->rehearsed->rehearsal.events[i].time_s > time_s + SAME_MOMENT)
      return (int) i;
  return -1;
}

gboolean
rehearsal_event_is_grave (const RehearsalEvent *event)
{
  return event->kind == REHEARSAL_SPILL_BEGINS || event->kind == REHEARSAL_PUMP_DRY;
}
