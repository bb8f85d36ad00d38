/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/readings.h"

#include <math.h>

static void
read_levels (Readings *r, const Evaluation *evaluation, unsigned n_parts)
{
  for (unsigned i = 0; i < evaluation->n_vessels; i++) {
    const VesselState *vessel = &evaluation->vessels[i];
    if (vessel->part < 0 || (unsigned) vessel->part >= n_parts)
      continue;
    if (vessel->kind == VESSEL_BOX_OUTER) {
      r->outer_running_m[vessel->part] = vessel->running_z;
      r->outer_off_m[vessel->part] = vessel->power_off_z;
      continue;
    }
    if (vessel->kind == VESSEL_BOX_TUBES) {
      r->tube_side_running_m[vessel->part] = vessel->running_z;
      r->tube_side_off_m[vessel->part] = vessel->power_off_z;
      continue;
    }
    r->running_m[vessel->part] = vessel->running_z;
    r->off_m[vessel->part] = vessel->power_off_z;
  }
}

static PipeTexture
texture_of (const DrainState *drain)
{
  switch (drain->regime) {
  case DRAIN_STATE_LIP_WEIR:
    return drain->flow_m3s <= drain->quiet_m3s ? TEXTURE_QUIET : TEXTURE_GULPING;
  case DRAIN_STATE_ORIFICE:
  case DRAIN_STATE_GULPING:
    return TEXTURE_GULPING;
  case DRAIN_STATE_FULL:
    return TEXTURE_PRIMED;
  case DRAIN_STATE_DRY:
  case DRAIN_STATE_BLOCKED:
    break;
  }
  return TEXTURE_NONE;
}

static void
read_flows (Readings *r, const Evaluation *evaluation, unsigned n_parts)
{
  for (unsigned i = 0; i < evaluation->n_runs; i++) {
    const RunState *run = &evaluation->runs[i];
    if (run->part < 0 || (unsigned) run->part >= n_parts || !(fabs (run->flow_m3s) > 0) ||
        !isfinite (run->velocity_ms))
      continue;
    r->velocity_ms[run->part] = fabs (run->velocity_ms);
    r->flow_m3s[run->part] = fabs (run->flow_m3s);
    r->backwards[run->part] = run->flow_m3s < 0;
    r->texture[run->part] = TEXTURE_PRIMED;
  }
  for (unsigned i = 0; i < evaluation->n_drains; i++) {
    const DrainState *drain = &evaluation->drains[i];
    if (drain->part < 0 || (unsigned) drain->part >= n_parts || !(drain->flow_m3s > 0))
      continue;
    double velocity = drain->flow_m3s / (G_PI / 4 * drain->bore_m * drain->bore_m);
    r->velocity_ms[drain->part] = isfinite (velocity) ? velocity : 0;
    r->flow_m3s[drain->part] = isfinite (drain->flow_m3s) ? drain->flow_m3s : 0;
    r->texture[drain->part] = texture_of (drain);
  }
}

void
readings_init (Readings *readings, const Design *design, const Evaluation *evaluation)
{
  unsigned n = design_n_parts (design);
  *readings = (Readings){.known = evaluation != NULL};
  readings->running_m = g_new (double, n + 1);
  readings->off_m = g_new (double, n + 1);
  readings->outer_running_m = g_new (double, n + 1);
  readings->outer_off_m = g_new (double, n + 1);
  readings->tube_side_running_m = g_new (double, n + 1);
  readings->tube_side_off_m = g_new (double, n + 1);
  readings->velocity_ms = g_new0 (double, n + 1);
  readings->backwards = g_new0 (bool, n + 1);
  readings->flow_m3s = g_new0 (double, n + 1);
  readings->texture = g_new0 (PipeTexture, n + 1);
  for (unsigned i = 0; i <= n; i++)
    readings->running_m[i] = readings->off_m[i] = readings->outer_running_m[i] = readings->outer_off_m[i] =
        readings->tube_side_running_m[i] = readings->tube_side_off_m[i] = (double) NAN;
  if (evaluation == NULL)
    return;
  read_levels (readings, evaluation, n);
  read_flows (readings, evaluation, n);
  readings->marks = g_new (MarkedPart, evaluation->n_findings + 1);
  for (unsigned i = 0; i < evaluation->n_findings; i++) {
    const Finding *finding = &evaluation->findings[i];
    int part = finding->part < (int) n ? finding->part : -1;
    readings->marks[readings->n_marks++] = (MarkedPart){part, finding->grade};
  }
}

void
readings_clear (Readings *readings)
{
  g_free (readings->running_m);
  g_free (readings->off_m);
  g_free (readings->outer_running_m);
  g_free (readings->outer_off_m);
  g_free (readings->tube_side_running_m);
  g_free (readings->tube_side_off_m);
  g_free (readings->velocity_ms);
  g_free (readings->backwards);
  g_free (readings->flow_m3s);
  g_free (readings->texture);
  g_free (readings->marks);
}
