/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The moments of a rehearsal in one block of memory, thinned when it is full. */
#include "solver/rehearsal-model.h"

#define CAPACITY_LEAST 16
/* A straight line between two frames is off by no more than a level's curve over such a move. */
#define MOVE_M     0.002
#define SHARES_MAX 12

struct _RehearsalTrace {
  unsigned capacity, n;
  double least_s; /* frames closer than this to the last are left out */
  RehearsalFrame *frames;
};

RehearsalTrace *
rehearsal_trace_new (unsigned capacity)
{
  RehearsalTrace *trace = g_new0 (RehearsalTrace, 1);

  trace->capacity = MAX (capacity, CAPACITY_LEAST);
  trace->frames = g_new (RehearsalFrame, trace->capacity);
  return trace;
}

void
rehearsal_trace_free (RehearsalTrace *trace)
{
  if (trace == NULL)
    return;
  g_free (trace->frames);
  g_free (trace);
}

unsigned
rehearsal_trace_n_frames (const RehearsalTrace *trace)
{
  return trace->n;
}

const RehearsalFrame *
rehearsal_trace_frame (const RehearsalTrace *trace, unsigned index)
{
  return index < trace->n ? &trace->frames[index] : NULL;
}

void
rehearsal_trace_clear (RehearsalTrace *trace)
{
  trace->n = 0;
  trace->least_s = 0;
}

/* Every other frame, but for the first and the last. */
static void
thin (RehearsalTrace *trace)
{
  unsigned kept = 1;

  for (unsigned i = 2; i + 1 < trace->n; i += 2)
    trace->frames[kept++] = trace->frames[i];
  trace->frames[kept++] = trace->frames[trace->n - 1];
  trace->n = kept;
  trace->least_s = (trace->frames[kept - 1].time_s - trace->frames[0].time_s) / trace->capacity;
}

static double
spilled (const Rehearser *rehearser, const double *y)
{
  double m3 = 0;

  for (unsigned i = rehearser->tank_floor_at; i <= rehearser->sump_floor_at; i++)
    m3 += fmax (y[i], 0);
  return m3;
}

void
rehearsal_trace_add (RehearsalTrace *trace, const Rehearser *rehearser, double t, const double *y,
                     const FlowsNow *flows)
{
  const System *system = rehearser->system;
  RehearsalFrame *frame;
  unsigned n_vessels;

  if (trace->n == trace->capacity)
    thin (trace);
  frame = &trace->frames[trace->n++];
  *frame = (RehearsalFrame){.time_s = t};
  n_vessels = rehearser->drain_at;
  for (unsigned i = 0; i < n_vessels; i++)
    frame->level_z[i] = rehearser_level (rehearser, i, y);
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const PumpNow *pump = &rehearser->pumps[i];

    frame->pump_speed[i] = pump->speed;
    frame->pump_m3s[i] = flows->pump_m3s[i];
    frame->pipe_fill[i] = pump->full_m3 > 0 ? CLAMP (y[rehearser->pump_at + i] / pump->full_m3, 0, 1) : 1;
  }
  memcpy (frame->outlet_m3s, flows->outlet_m3s, sizeof frame->outlet_m3s);
  memcpy (frame->feed_m3s, flows->feed_m3s, sizeof frame->feed_m3s);
  memcpy (frame->overflow_m3s, flows->overflow_m3s, sizeof frame->overflow_m3s);
  memcpy (frame->drain_m3s, flows->drain_m3s, sizeof frame->drain_m3s);
  memcpy (frame->baffle_m3s, flows->baffle_m3s, sizeof frame->baffle_m3s);
  for (unsigned i = 0; i < system->n_drains; i++)
    frame->drain_primed[i] = rehearser->drains[i].prime == PRIME_FULL;
  frame->reservoir_m3 = rehearser->reservoir_at != NO_PLACE ? y[rehearser->reservoir_at] : 0;
  frame->spilled_m3 = spilled (rehearser, y);
}

static FlowsNow
between_flows (const FlowsNow *a, const FlowsNow *b, double share)
{
  FlowsNow made;
  const double *from = (const double *) a, *to = (const double *) b;
  double *at = (double *) &made;

  for (gsize i = 0; i < sizeof made / sizeof (double); i++)
    at[i] = from[i] + share * (to[i] - from[i]);
  return made;
}

void
rehearsal_trace_step (RehearsalTrace *trace, Rehearser *rehearser, double step_s)
{
  double move_m = 0;
  unsigned shares;

  if (trace->n > 0 && rehearser->t + step_s < trace->frames[trace->n - 1].time_s + trace->least_s)
    return;
  for (unsigned i = 0; i < rehearser->drain_at; i++)
    move_m = fmax (move_m, fabs (rehearser_level (rehearser, i, rehearser->next_y) -
                                 rehearser_level (rehearser, i, rehearser->y)));
  shares = (unsigned) CLAMP (ceil (move_m / MOVE_M), 1, SHARES_MAX);
  for (unsigned k = 1; k < shares; k++) {
    const double share = (double) k / shares;
    const FlowsNow flows = between_flows (&rehearser->flows, &rehearser->next_flows, share);

    for (unsigned i = 0; i < rehearser->n_places; i++)
      rehearser->dense_y[i] = hermite (rehearser->y[i], rehearser->rate[i], rehearser->next_y[i],
                                       rehearser->next_rate[i], step_s, share);
    rehearsal_trace_add (trace, rehearser, rehearser->t + share * step_s, rehearser->dense_y, &flows);
  }
  rehearsal_trace_add (trace, rehearser, rehearser->t + step_s, rehearser->next_y, &rehearser->next_flows);
}

static void
mix (const double *a, const double *b, double share, unsigned n, double *ret_mixed)
{
  for (unsigned i = 0; i < n; i++)
    ret_mixed[i] = a[i] + share * (b[i] - a[i]);
}

bool
rehearsal_trace_at (const RehearsalTrace *trace, double time_s, RehearsalFrame *ret_frame)
{
  unsigned low = 0, high = trace->n;
  const RehearsalFrame *a, *b;
  double share;

  if (trace->n == 0 || !isfinite (time_s))
    return false;
  /* The last frame not after the time. */
  while (high - low > 1) {
    const unsigned middle = (low + high) / 2;

    if (trace->frames[middle].time_s <= time_s)
      low = middle;
    else
      high = middle;
  }
  a = &trace->frames[low];
  *ret_frame = *a;
  if (low + 1 == trace->n || time_s <= a->time_s)
    return true;
  b = a + 1;
  share = b->time_s > a->time_s ? (time_s - a->time_s) / (b->time_s - a->time_s) : 0;
  ret_frame->time_s = time_s;
  mix (a->level_z, b->level_z, share, EVALUATION_VESSELS_MAX, ret_frame->level_z);
  mix (a->pump_speed, b->pump_speed, share, EVALUATION_PUMPS_MAX, ret_frame->pump_speed);
  mix (a->pump_m3s, b->pump_m3s, share, EVALUATION_PUMPS_MAX, ret_frame->pump_m3s);
  mix (a->outlet_m3s, b->outlet_m3s, share, EVALUATION_OUTLETS_MAX, ret_frame->outlet_m3s);
  mix (a->feed_m3s, b->feed_m3s, share, EVALUATION_FEEDS_MAX, ret_frame->feed_m3s);
  mix (a->overflow_m3s, b->overflow_m3s, share, EVALUATION_OVERFLOWS_MAX, ret_frame->overflow_m3s);
  mix (a->drain_m3s, b->drain_m3s, share, EVALUATION_DRAINS_MAX, ret_frame->drain_m3s);
  mix (a->baffle_m3s, b->baffle_m3s, share, EVALUATION_BAFFLES_MAX, ret_frame->baffle_m3s);
  mix (a->pipe_fill, b->pipe_fill, share, EVALUATION_PUMPS_MAX, ret_frame->pipe_fill);
  mix (&a->reservoir_m3, &b->reservoir_m3, share, 1, &ret_frame->reservoir_m3);
  mix (&a->spilled_m3, &b->spilled_m3, share, 1, &ret_frame->spilled_m3);
  return true;
}
