/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Patches and answers. */

#include "hydraulics/argument.h"
#include "hydraulics/network-private.h"

guint
network_n_nodes (const Network *network)
{
  return network->n_nodes;
}

guint
network_n_links (const Network *network)
{
  return network->n_links;
}

HydraulicsStatus
network_set_level (Network *network, guint node, double level_m)
{
  if (node >= network->n_nodes || network->nodes[node].kind != NETWORK_LEVEL || !isfinite (level_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  network->nodes[node].level_m = level_m;
  network->head[network->slot_of_node[node]] = level_m;
  network->is_scaled = false;
  return HYDRAULICS_OK;
}

HydraulicsStatus
network_set_outflow (Network *network, guint node, double outflow_m3s)
{
  if (node >= network->n_nodes || network->nodes[node].kind != NETWORK_JUNCTION || !isfinite (outflow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  network->nodes[node].outflow_m3s = outflow_m3s;
  network->outflow[network->slot_of_node[node]] = outflow_m3s;
  network->has_outflow |= outflow_m3s != 0.0;
  network->is_balanced = false;
  network->is_connected = false;
  return HYDRAULICS_OK;
}

/* Takes over a changed link, or gives the old one back. A link that starts or stops to carry flow leaves the flows
 * unbalanced. */
static HydraulicsStatus
replace_link (Network *network, guint link, const NetworkLink *changed)
{
  guint place = network->place_of_link[link];
  NetworkLink old = network->links[link];

  network->is_evaluated = false;
  guint8 state = network->state[place];

  network->links[link] = *changed;
  HydraulicsStatus status = network_prepare_link (network, place);
  if (status != HYDRAULICS_OK) {
    network->links[link] = old;
    network_prepare_link (network, place);
    network->state[place] = state;
    return HYDRAULICS_INVALID_ARGUMENT;
  }
  if (state == LINK_HELD && network->state[place] == LINK_CHECK)
    network->state[place] = LINK_HELD;
  if (state != network->state[place]) {
    network->is_balanced = false;
    network->is_connected = false;
    if (network->state[place] == LINK_SHUT)
      network->flow[place] = 0.0;
  }
  if (changed->kind == NETWORK_PUMP)
    network->is_scaled = false;
  network_find_twins (network);
  return HYDRAULICS_OK;
}

static bool
is_link_of_kind (const Network *network, guint link, NetworkLinkKind kind)
{
  return link < network->n_links && network->links[link].kind == kind;
}

HydraulicsStatus
network_set_fluid (Network *network, const Fluid *fluid)
{
  if (!argument_is_positive (fluid->density_kgm3) || !argument_is_positive (fluid->dynamic_viscosity_pas))
    return HYDRAULICS_INVALID_ARGUMENT;
  Fluid old = network->fluid;
  network->is_evaluated = false;
  network->fluid = *fluid;
  for (guint place = 0; place < network->n_pipes; place++) {
    guint8 state = network->state[place];
    HydraulicsStatus status = network_prepare_link (network, place);
    network->state[place] = state;
    if (status != HYDRAULICS_OK) {
      network_set_fluid (network, &old);
      return HYDRAULICS_INVALID_ARGUMENT;
    }
  }
  network_find_twins (network);
  return HYDRAULICS_OK;
}

HydraulicsStatus
network_set_pipe (Network *network, guint link, const PipeRun *pipe)
{
  if (!is_link_of_kind (network, link, NETWORK_PIPE))
    return HYDRAULICS_INVALID_ARGUMENT;
  NetworkLink changed = network->links[link];
  changed.pipe = *pipe;
  return replace_link (network, link, &changed);
}

HydraulicsStatus
network_set_k (Network *network, guint link, double k)
{
  if (!is_link_of_kind (network, link, NETWORK_PIPE))
    return HYDRAULICS_INVALID_ARGUMENT;
  PipeRun pipe = network->links[link].pipe;
  guint place = network->place_of_link[link];
  if (network->state[place] != LINK_SHUT && argument_is_not_negative (k)) {
    network->links[link].pipe.k = k;
    network_prepare_k (network, place);
    network_evaluate_pipe (network, place);
    return HYDRAULICS_OK;
  }
  pipe.k = k;
  return network_set_pipe (network, link, &pipe);
}

HydraulicsStatus
network_set_pump (Network *network, guint link, const PumpUnit *pump)
{
  if (!is_link_of_kind (network, link, NETWORK_PUMP))
    return HYDRAULICS_INVALID_ARGUMENT;
  NetworkLink changed = network->links[link];
  changed.pump = *pump;
  return replace_link (network, link, &changed);
}

HydraulicsStatus
network_set_speed (Network *network, guint link, double speed)
{
  if (!is_link_of_kind (network, link, NETWORK_PUMP))
    return HYDRAULICS_INVALID_ARGUMENT;
  NetworkLink changed = network->links[link];
  changed.pump.speed = speed;
  return replace_link (network, link, &changed);
}

HydraulicsStatus
network_set_device (Network *network, guint link, const LossCurve *curve)
{
  if (!is_link_of_kind (network, link, NETWORK_DEVICE))
    return HYDRAULICS_INVALID_ARGUMENT;
  NetworkLink changed = network->links[link];
  changed.device = *curve;
  return replace_link (network, link, &changed);
}

HydraulicsStatus
network_set_shut (Network *network, guint link, bool shut)
{
  if (link >= network->n_links)
    return HYDRAULICS_INVALID_ARGUMENT;
  NetworkLink changed = network->links[link];
  changed.shut = shut;
  return replace_link (network, link, &changed);
}

HydraulicsStatus
network_set_check (Network *network, guint link, bool check, double cracking_head_m)
{
  if (link >= network->n_links)
    return HYDRAULICS_INVALID_ARGUMENT;
  NetworkLink changed = network->links[link];
  changed.check = check;
  changed.cracking_head_m = cracking_head_m;
  HydraulicsStatus status = replace_link (network, link, &changed);
  if (status == HYDRAULICS_OK)
    network_list_specials (network);
  return status;
}

void
network_reset (Network *network)
{
  network->has_state = false;
}

const NetworkStatistics *
network_statistics (const Network *network)
{
  return &network->statistics;
}

double
network_flow (const Network *network, guint link)
{
  return network->is_solved && link < network->n_links ? network->flow[network->place_of_link[link]]
                                                       : (double) NAN;
}

double
network_head (const Network *network, guint node)
{
  return network->is_solved && node < network->n_nodes ? network->head[network->slot_of_node[node]]
                                                       : (double) NAN;
}

double
network_loss (const Network *network, guint link)
{
  if (link >= network->n_links)
    return NAN;
  return network_head (network, network->links[link].from) - network_head (network, network->links[link].to);
}

bool
network_check_is_shut (const Network *network, guint link)
{
  return network->is_solved && link < network->n_links &&
         network->state[network->place_of_link[link]] == LINK_HELD;
}

bool
network_node_is_cut_off (const Network *network, guint node)
{
  return network->is_solved && node < network->n_nodes && network->cut_off[network->slot_of_node[node]];
}

PumpRange
network_pump_range (const Network *network, guint link)
{
  PumpHead head = {.range = PUMP_ON_CURVE};

  if (!network->is_solved || !is_link_of_kind (network, link, NETWORK_PUMP))
    return PUMP_ON_CURVE;
  const PumpUnit *pump = &network->links[link].pump;
  pump_head (&pump->curve, pump->speed, pump->tolerance, network_flow (network, link), &head);
  return head.range;
}

double
network_level_inflow (const Network *network, guint node)
{
  double sum = 0.0;

  if (!network->is_solved || node >= network->n_nodes)
    return NAN;
  for (guint i = 0; i < network->n_links; i++) {
    if (network->links[i].to == node)
      sum += network_flow (network, i);
    else if (network->links[i].from == node)
      sum -= network_flow (network, i);
  }
  return sum;
}
