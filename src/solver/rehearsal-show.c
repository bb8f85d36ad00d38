/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A moment of a rehearsal in the shape of an evaluation, for whoever draws one. */
#include "solver/rehearsal-model.h"

/* Flows that are no more than a film running dry. */
#define STANDS_M3S 1e-7

static double
bore_area_m2 (double bore_m)
{
  return G_PI / 4 * bore_m * bore_m;
}

static double
moving (double flow_m3s)
{
  return fabs (flow_m3s) > STANDS_M3S ? flow_m3s : 0;
}

/* What a run brings to a device: all that it gets, or by the steady state's share where several runs do. */
static double
feed_share_m3s (const Evaluation *steady, const RehearsalFrame *frame, unsigned feed, unsigned run)
{
  for (unsigned i = 0; i < steady->n_devices; i++)
    if (steady->devices[i].feed == (int) feed && steady->devices[i].flow_m3s > 0)
      return frame->feed_m3s[feed] * steady->runs[run].flow_m3s / steady->devices[i].flow_m3s;
  return frame->feed_m3s[feed];
}

/* What a run carries: that of its outlet, else its share of its pump's flow as in the steady state. */
static double
run_flow_m3s (const System *system, const Evaluation *steady, const RehearsalFrame *frame, unsigned run)
{
  const int pump = system->runs[run].pump;

  for (unsigned i = 0; i < system->n_outlets; i++)
    if (system->outlets[i].run == (int) run)
      return frame->outlet_m3s[i];
  for (unsigned i = 0; i < system->n_feeds; i++)
    if (system->feeds[i].node == system->runs[run].to)
      return feed_share_m3s (steady, frame, i, run);
  if (pump < 0 || !(steady->pumps[pump].flow_m3s > 0))
    return 0;
  return steady->runs[run].flow_m3s * frame->pump_m3s[pump] / steady->pumps[pump].flow_m3s;
}

static void
show_drain (const RehearsalFrame *frame, unsigned index, DrainState *drain)
{
  drain->flow_m3s = fmax (moving (frame->drain_m3s[index]), 0);
  drain->primed = frame->drain_primed[index];
  if (drain->primed)
    drain->regime = DRAIN_STATE_FULL;
  else
    drain->regime = drain->flow_m3s > 0 ? DRAIN_STATE_LIP_WEIR : DRAIN_STATE_DRY;
}

void
rehearsal_show (const System *system, const Evaluation *steady, const RehearsalFrame *frame,
                Evaluation *ret_moment)
{
  *ret_moment = *steady;
  ret_moment->n_findings = 0;
  for (unsigned i = 0; i < steady->n_vessels; i++)
    ret_moment->vessels[i].running_z = frame->level_z[i];
  for (unsigned i = 0; i < steady->n_drains; i++)
    show_drain (frame, i, &ret_moment->drains[i]);
  for (unsigned i = 0; i < steady->n_overflows; i++)
    ret_moment->overflows[i].flow_m3s = moving (frame->overflow_m3s[i]);
  for (unsigned i = 0; i < steady->n_outlets; i++)
    ret_moment->outlets[i].flow_m3s = moving (frame->outlet_m3s[i]);
  for (unsigned i = 0; i < steady->n_devices; i++)
    if (steady->devices[i].feed >= 0)
      ret_moment->devices[i].flow_m3s = moving (frame->feed_m3s[steady->devices[i].feed]);
  for (unsigned i = 0; i < steady->n_pumps; i++) {
    ret_moment->pumps[i].flow_m3s = moving (frame->pump_m3s[i]);
    ret_moment->pumps[i].speed = frame->pump_speed[i];
  }
  for (unsigned i = 0; i < steady->n_runs; i++) {
    RunState *run = &ret_moment->runs[i];

    run->flow_m3s = moving (run_flow_m3s (system, steady, frame, i));
    run->velocity_ms = run->flow_m3s / bore_area_m2 (run->bore_m);
  }
}
