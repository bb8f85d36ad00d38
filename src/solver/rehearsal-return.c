/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The return network at the levels of a moment, pumps running, coasting or at rest; what a pump lifts when its suction is
 * coming out of the water, and a pipe that must be filled before anything leaves it. */
#include <string.h>

#include "solver/rehearsal-model.h"

/* Steps of level from which the slopes of the network's flows are taken: its own answers are good to 1e-9. */
#define SLOPE_STEP_M 1e-5
/* A suction is out of the water, from its centre down, within no less than this. */
#define SUCTION_LEAST_M 0.004
#define BOTTOM_M        0.002

typedef struct {
  double pump_m3s[EVALUATION_PUMPS_MAX]; /* out of its chamber */
  double outlet_m3s[EVALUATION_OUTLETS_MAX];
  double feed_m3s[EVALUATION_FEEDS_MAX];
} NetworkFlows;

/* Share of a suction that is under water. */
static double
suction_share (const PumpModel *pump, const ChamberModel *chamber, double level_z)
{
  const double top_z = fmax (pump->suction_z, chamber->bottom_z + BOTTOM_M + SUCTION_LEAST_M);
  const double low_z =
      fmax (fmin (top_z - pump->suction_bore_m / 2, top_z - SUCTION_LEAST_M), chamber->bottom_z + BOTTOM_M);

  return CLAMP ((level_z - low_z) / (top_z - low_z), 0, 1);
}

static bool
group_is_still (const Rehearser *rehearser, const Group *group)
{
  const System *system = rehearser->system;

  for (unsigned i = 0; i < group->n_pumps; i++)
    if (rehearser->pumps[group->pumps[i]].network_speed > 0)
      return false;
  for (unsigned k = 0; k < group->n_outlets; k++) {
    const int run = system->outlets[group->outlets[k]].run;

    if (run >= 0 && rehearser->run_check[run] != 1)
      return false;
  }
  return true;
}

static bool
all_still (const Rehearser *rehearser)
{
  for (unsigned g = 0; g < rehearser->n_groups; g++)
    if (!group_is_still (rehearser, &rehearser->groups[g]))
      return false;
  return true;
}

/* Less where suctions draw air; what a pump lifts is what comes out, to the last digit. */
static void
settle_group (const FlowPass *pass, const Group *group, NetworkFlows *flows)
{
  const System *system = pass->rehearser->system;
  double lifted = 0, weighed = 0, out = 0;
  unsigned largest = group->pumps[0];

  for (unsigned i = 0; i < group->n_pumps; i++) {
    const unsigned p = group->pumps[i];
    const unsigned chamber = system->pumps[p].chamber;
    const double m3s = flows->pump_m3s[p];
    const double share = m3s > 0 ? suction_share (&system->pumps[p], &system->chambers[chamber],
                                                  pass->z[pass->rehearser->chamber_at + chamber])
                                 : 1;

    lifted += fabs (m3s);
    weighed += share * fabs (m3s);
    if (fabs (m3s) > fabs (flows->pump_m3s[largest]))
      largest = p;
    flows->pump_m3s[p] = share * m3s;
  }
  for (unsigned k = 0; k < group->n_outlets; k++) {
    double *m3s = &flows->outlet_m3s[group->outlets[k]];

    if (lifted > 0)
      *m3s *= weighed / lifted;
    out += *m3s;
  }
  for (unsigned k = 0; k < group->n_feeds; k++) {
    double *m3s = &flows->feed_m3s[group->feeds[k]];

    if (lifted > 0)
      *m3s *= weighed / lifted;
    out += *m3s;
  }
  for (unsigned i = 0; i < group->n_pumps; i++)
    out -= flows->pump_m3s[group->pumps[i]];
  flows->pump_m3s[largest] += out;
}

static bool
solve_network (const FlowPass *pass, NetworkFlows *ret_flows)
{
  const Rehearser *rehearser = pass->rehearser;
  const System *system = rehearser->system;
  Network *network = rehearser->network;

  for (unsigned i = 0; i < system->n_outlets; i++)
    network_set_level (network, system->outlets[i].node,
                       fmax (rehearser->outlets[i].z, pass->z[rehearser->tank_at + system->outlets[i].tank]));
  for (unsigned i = 0; i < system->n_feeds; i++)
    network_set_level (network, system->feeds[i].node,
                       fmax (system->feeds[i].z, pass->z[rehearser->chamber_at + system->feeds[i].chamber]));
  for (unsigned i = 0; i < system->n_pumps; i++)
    network_set_level (network, system->pumps[i].suction_node,
                       pass->z[rehearser->chamber_at + system->pumps[i].chamber]);
  if (network_solve (network) != HYDRAULICS_OK) {
    /* Once more from nothing: it may have been led astray by what was before. */
    network_reset (network);
    if (network_solve (network) != HYDRAULICS_OK)
      return false;
  }
  for (unsigned i = 0; i < system->n_outlets; i++)
    ret_flows->outlet_m3s[i] = network_level_inflow (network, system->outlets[i].node);
  for (unsigned i = 0; i < system->n_feeds; i++)
    ret_flows->feed_m3s[i] = network_level_inflow (network, system->feeds[i].node);
  for (unsigned i = 0; i < system->n_pumps; i++)
    ret_flows->pump_m3s[i] = network_flow (network, system->pumps[i].link);
  for (unsigned g = 0; g < rehearser->n_groups; g++)
    settle_group (pass, &rehearser->groups[g], ret_flows);
  return true;
}

/* While a running pump of a group still fills its pipe, its water stays in that pipe. */
static bool
group_fills (const Rehearser *rehearser, const Group *group)
{
  for (unsigned i = 0; i < group->n_pumps; i++)
    if (!rehearser->pumps[group->pumps[i]].filled && rehearser->power)
      return true;
  return false;
}

/* Each pump's water goes where it goes: +1 times the flows gives the rates, and so do their slopes. */
static void
spread (FlowPass *pass, const Group *group, const NetworkFlows *flows, double *column)
{
  const Rehearser *rehearser = pass->rehearser;
  const System *system = rehearser->system;

  for (unsigned i = 0; i < group->n_pumps; i++) {
    const unsigned p = group->pumps[i];
    const double m3s = flows->pump_m3s[p];

    column[rehearser->chamber_at + system->pumps[p].chamber] -= m3s;
    if (group_fills (rehearser, group))
      column[rehearser->pump_at + p] += m3s;
  }
  if (group_fills (rehearser, group))
    return;
  for (unsigned k = 0; k < group->n_outlets; k++) {
    const unsigned o = group->outlets[k];

    column[rehearser->tank_at + system->outlets[o].tank] += flows->outlet_m3s[o];
  }
  for (unsigned k = 0; k < group->n_feeds; k++)
    column[rehearser->chamber_at + system->feeds[group->feeds[k]].chamber] +=
        flows->feed_m3s[group->feeds[k]];
}

static bool
add_slopes (FlowPass *pass, const NetworkFlows *flows, unsigned by)
{
  const unsigned n = pass->rehearser->n_places;
  const double kept = pass->z[by];
  double column[PLACES_MAX] = {0};
  NetworkFlows moved = {0};

  pass->z[by] = kept + SLOPE_STEP_M;
  if (!solve_network (pass, &moved)) {
    pass->z[by] = kept;
    return false;
  }
  pass->z[by] = kept;
  for (unsigned i = 0; i < EVALUATION_PUMPS_MAX; i++)
    moved.pump_m3s[i] = (moved.pump_m3s[i] - flows->pump_m3s[i]) / SLOPE_STEP_M;
  for (unsigned i = 0; i < EVALUATION_OUTLETS_MAX; i++)
    moved.outlet_m3s[i] = (moved.outlet_m3s[i] - flows->outlet_m3s[i]) / SLOPE_STEP_M;
  for (unsigned i = 0; i < EVALUATION_FEEDS_MAX; i++)
    moved.feed_m3s[i] = (moved.feed_m3s[i] - flows->feed_m3s[i]) / SLOPE_STEP_M;
  for (unsigned g = 0; g < pass->rehearser->n_groups; g++)
    spread (pass, &pass->rehearser->groups[g], &moved, column);
  for (unsigned i = 0; i < n; i++)
    pass->jacobian[i * n + by] += column[i] / pass->area_m2[by];
  return true;
}

/* The surfaces that the network feels. */
static bool
all_slopes (FlowPass *pass, const NetworkFlows *flows)
{
  const Rehearser *rehearser = pass->rehearser;
  const System *system = rehearser->system;
  bool done[PLACES_MAX] = {false};

  for (unsigned i = 0; i < system->n_outlets; i++) {
    const unsigned tank = rehearser->tank_at + system->outlets[i].tank;

    if (done[tank] || pass->z[tank] < rehearser->outlets[i].z)
      continue;
    done[tank] = true;
    if (!add_slopes (pass, flows, tank))
      return false;
  }
  for (unsigned i = 0; i < system->n_feeds; i++) {
    const unsigned chamber = rehearser->chamber_at + system->feeds[i].chamber;

    if (done[chamber] || pass->z[chamber] < system->feeds[i].z)
      continue;
    done[chamber] = true;
    if (!add_slopes (pass, flows, chamber))
      return false;
  }
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const unsigned chamber = rehearser->chamber_at + system->pumps[i].chamber;

    if (done[chamber])
      continue;
    done[chamber] = true;
    if (!add_slopes (pass, flows, chamber))
      return false;
  }
  return true;
}

bool
flow_return (FlowPass *pass)
{
  const Rehearser *rehearser = pass->rehearser;
  NetworkFlows flows = {0};

  if (all_still (rehearser))
    return true;
  if (!solve_network (pass, &flows))
    return false;
  for (unsigned g = 0; g < rehearser->n_groups; g++)
    spread (pass, &rehearser->groups[g], &flows, pass->rate);
  if (pass->flows != NULL) {
    memcpy (pass->flows->pump_m3s, flows.pump_m3s, sizeof flows.pump_m3s);
    memcpy (pass->flows->outlet_m3s, flows.outlet_m3s, sizeof flows.outlet_m3s);
    memcpy (pass->flows->feed_m3s, flows.feed_m3s, sizeof flows.feed_m3s);
    for (unsigned g = 0; g < rehearser->n_groups; g++) {
      const Group *group = &rehearser->groups[g];

      for (unsigned k = 0; group_fills (rehearser, group) && k < group->n_outlets; k++)
        pass->flows->outlet_m3s[group->outlets[k]] = 0;
      for (unsigned k = 0; group_fills (rehearser, group) && k < group->n_feeds; k++)
        pass->flows->feed_m3s[group->feeds[k]] = 0;
    }
  }
  return pass->jacobian == NULL || all_slopes (pass, &flows);
}
