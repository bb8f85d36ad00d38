/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/network.h"

#include "hydraulics/argument.h"
#include "hydraulics/fitting.h"
#include "hydraulics/network-private.h"

#include <string.h>

NetworkLink
network_link_pipe (guint from, guint to, double length_m, double bore_m, double roughness_m, double k)
{
  return (NetworkLink){
      .kind = NETWORK_PIPE, .from = from, .to = to, .pipe = {length_m, bore_m, roughness_m, k}};
}

NetworkLink
network_link_valve (guint from, guint to, double bore_m, double k)
{
  return network_link_pipe (from, to, 0.0, bore_m, 0.0, k);
}

NetworkLink
network_link_pump (guint from, guint to, const PumpCurve *curve, double speed, double tolerance)
{
  return (NetworkLink){.kind = NETWORK_PUMP, .from = from, .to = to, .pump = {*curve, speed, tolerance}};
}

NetworkLink
network_link_device (guint from, guint to, const LossCurve *curve)
{
  return (NetworkLink){.kind = NETWORK_DEVICE, .from = from, .to = to, .device = *curve};
}

static bool
node_is_valid (const NetworkNode *node)
{
  switch (node->kind) {
  case NETWORK_JUNCTION:
    return isfinite (node->outflow_m3s);
  case NETWORK_LEVEL:
    return isfinite (node->level_m);
  }
  return false;
}

static NetworkFault
find_bad_value (const Network *network)
{
  bool has_level = false;

  if (!argument_is_positive (network->fluid.density_kgm3) ||
      !argument_is_positive (network->fluid.dynamic_viscosity_pas))
    return (NetworkFault){NETWORK_FAULT_BAD_FLUID, NETWORK_NONE, NETWORK_NONE};
  for (guint i = 0; i < network->n_nodes; i++) {
    if (!node_is_valid (&network->nodes[i]))
      return (NetworkFault){NETWORK_FAULT_BAD_NODE, i, NETWORK_NONE};
    has_level |= network->nodes[i].kind == NETWORK_LEVEL;
  }
  for (guint i = 0; i < network->n_links; i++) {
    const NetworkLink *link = &network->links[i];
    if (link->from >= network->n_nodes || link->to >= network->n_nodes || link->from == link->to)
      return (NetworkFault){NETWORK_FAULT_BAD_LINK, NETWORK_NONE, i};
  }
  if (!has_level)
    return (NetworkFault){NETWORK_FAULT_NO_LEVEL, NETWORK_NONE, NETWORK_NONE};
  for (guint i = 0; i < network->n_tees; i++) {
    if (!network_tee_is_valid (network, &network->tees[i]))
      return (NetworkFault){NETWORK_FAULT_BAD_TEE, network->tees[i].node, NETWORK_NONE};
  }
  return (NetworkFault){NETWORK_FAULT_NONE, NETWORK_NONE, NETWORK_NONE};
}

/* Gives every node its slot and finds the pattern of the equations. */
static void
place_nodes (Network *network)
{
  guint *number = g_new (guint, network->n_nodes);
  guint *junction = g_new (guint, network->n_nodes);
  guint (*pairs)[2] = g_malloc_n (network->n_links + 1, sizeof *pairs);
  guint *order = g_new (guint, network->n_nodes);
  guint n_junctions = 0, n_pairs = 0, level = 0;

  for (guint i = 0; i < network->n_nodes; i++) {
    number[i] = NETWORK_NONE;
    if (network->nodes[i].kind == NETWORK_JUNCTION) {
      number[i] = n_junctions;
      junction[n_junctions++] = i;
    }
  }
  for (guint i = 0; i < network->n_links; i++) {
    guint a = number[network->links[i].from], b = number[network->links[i].to];
    if (a != NETWORK_NONE && b != NETWORK_NONE) {
      pairs[n_pairs][0] = a;
      pairs[n_pairs++][1] = b;
    }
  }
  network_pattern_init (&network->pattern, n_junctions, n_pairs, (const guint (*)[2]) pairs, order);
  network->n_junctions = n_junctions;
  for (guint slot = 0; slot < n_junctions; slot++)
    network->node_of_slot[slot] = junction[order[slot]];
  for (guint i = 0; i < network->n_nodes; i++) {
    if (network->nodes[i].kind == NETWORK_LEVEL)
      network->node_of_slot[n_junctions + level++] = i;
  }
  for (guint slot = 0; slot < network->n_nodes; slot++)
    network->slot_of_node[network->node_of_slot[slot]] = slot;
  g_free (number);
  g_free (junction);
  g_free (pairs);
  g_free (order);
}

static void
place_links (Network *network)
{
  guint place = 0;

  for (guint pass = 0; pass < 2; pass++) {
    for (guint i = 0; i < network->n_links; i++) {
      if ((network->links[i].kind == NETWORK_PIPE) != (pass == 0))
        continue;
      network->link_of_place[place] = i;
      network->place_of_link[i] = place;
      network->from[place] = network->slot_of_node[network->links[i].from];
      network->to[place] = network->slot_of_node[network->links[i].to];
      place++;
    }
    if (pass == 0)
      network->n_pipes = place;
  }
  for (guint i = 0; i < network->n_links; i++) {
    bool inner = network->from[i] < network->n_junctions && network->to[i] < network->n_junctions;
    network->entry[i] = inner ? network_pattern_entry (&network->pattern, network->from[i], network->to[i])
                              : network->pattern.n_entries;
  }
}

/* Pipes that meet, alone, at a junction carry one flow. */
static void
find_neighbours (Network *network)
{
  guint *n_at = g_new0 (guint, network->n_nodes);

  for (guint i = 0; i < network->n_links; i++) {
    n_at[network->from[i]]++;
    n_at[network->to[i]]++;
  }
  for (guint i = 0; i < network->n_pipes; i++) {
    network->neighbour[i] = NETWORK_NONE;
    for (guint j = 0; j < i; j++) {
      const guint ends[4][2] = {{network->from[i], network->from[j]},
                                {network->from[i], network->to[j]},
                                {network->to[i], network->from[j]},
                                {network->to[i], network->to[j]}};
      for (guint k = 0; k < 4; k++) {
        if (ends[k][0] == ends[k][1] && ends[k][0] < network->n_junctions && n_at[ends[k][0]] == 2)
          network->neighbour[i] = j;
      }
    }
  }
  g_free (n_at);
}

static void
allocate_topology (Network *network)
{
  guint n = network->n_nodes, m = network->n_links + 1;

  network->slot_of_node = g_new0 (guint, n);
  network->node_of_slot = g_new0 (guint, n);
  network->place_of_link = g_new0 (guint, m);
  network->link_of_place = g_new0 (guint, m);
  network->from = g_new0 (guint, m);
  network->to = g_new0 (guint, m);
  network->entry = g_new0 (guint, m);
  network->special = g_new0 (guint, m);
  network->neighbour = g_new0 (guint, m);
  network->twin = g_new0 (guint, m);
  network->state = g_new0 (guint8, m);
  network->cut_off = g_new0 (bool, n);
}

static void
allocate_numbers (Network *network)
{
  gsize n = network->n_nodes, m = network->n_links + 1;
  double **const by_place[] = {&network->flow,        &network->loss,        &network->slope,
                               &network->conductance, &network->step,        &network->start_flow,
                               &network->start_loss,  &network->start_slope, &network->start_friction,
                               &network->slope_least, &network->tee_loss};
  double **const by_slot[] = {&network->head, &network->diagonal, &network->right, &network->inverse,
                              &network->outflow};

  for (guint i = 0; i < G_N_ELEMENTS (by_place); i++)
    *by_place[i] = g_new0 (double, m);
  for (guint i = 0; i < G_N_ELEMENTS (by_slot); i++)
    *by_slot[i] = g_new0 (double, n);
  network->entries = g_new0 (double, (gsize) network->pattern.n_entries + 1);
  network->tee_ends = g_malloc0_n (m, sizeof *network->tee_ends);
  network->tee_branch_k = g_new0 (double, network->n_tees);
  for (guint t = 0; t < network->n_tees; t++)
    fitting_k (FITTING_TEE_BRANCH, network->tees[t].run_m, 0.0, &network->tee_branch_k[t]);
  network->pipe = g_new0 (FrictionPipe, m);
  network->friction = g_new0 (FrictionState, m);
  network->friction_start = g_new0 (FrictionState, m);
}

void
network_free (Network *network)
{
  if (network == NULL)
    return;
  void *const blocks[] = {network->nodes,         network->links,        network->tees,
                          network->slot_of_node,  network->node_of_slot, network->place_of_link,
                          network->link_of_place, network->from,         network->to,
                          network->entry,         network->special,      network->neighbour,
                          network->twin,          network->state,        network->cut_off,
                          network->flow,          network->loss,         network->slope,
                          network->conductance,   network->step,         network->start_flow,
                          network->start_loss,    network->start_slope,  network->start_friction,

                          network->slope_least,   network->tee_loss,     network->tee_ends,
                          network->tee_branch_k,  network->head,         network->diagonal,
                          network->right,         network->inverse,      network->outflow,
                          network->entries,       network->pipe,         network->friction,
                          network->friction_start};

  for (guint i = 0; i < G_N_ELEMENTS (blocks); i++)
    g_free (blocks[i]);
  network_pattern_clear (&network->pattern);
  g_free (network);
}

static HydraulicsStatus
compile (Network *network, NetworkFault *ret_fault)
{
  *ret_fault = find_bad_value (network);
  if (ret_fault->kind != NETWORK_FAULT_NONE)
    return ret_fault->kind == NETWORK_FAULT_NO_LEVEL ? HYDRAULICS_SINGULAR : HYDRAULICS_INVALID_ARGUMENT;

  allocate_topology (network);
  place_nodes (network);
  place_links (network);
  find_neighbours (network);
  allocate_numbers (network);
  for (guint i = 0; i < network->n_nodes; i++) {
    guint slot = network->slot_of_node[i];
    if (network->nodes[i].kind == NETWORK_LEVEL)
      network->head[slot] = network->nodes[i].level_m;
    else
      network->outflow[slot] = network->nodes[i].outflow_m3s;
    network->has_outflow |= network->outflow[slot] != 0.0;
  }
  for (guint place = 0; place < network->n_links; place++) {
    if (network_prepare_link (network, place) != HYDRAULICS_OK) {
      *ret_fault = (NetworkFault){NETWORK_FAULT_BAD_LINK, NETWORK_NONE, network->link_of_place[place]};
      return HYDRAULICS_INVALID_ARGUMENT;
    }
  }
  network_find_twins (network);
  network_list_specials (network);
  guint apart = network_mark_cut_off (network, true, true);
  if (apart != NETWORK_NONE) {
    *ret_fault = (NetworkFault){NETWORK_FAULT_DISCONNECTED, apart, NETWORK_NONE};
    return HYDRAULICS_SINGULAR;
  }
  return HYDRAULICS_OK;
}

HydraulicsStatus
network_new (const NetworkNode *nodes, guint n_nodes, const NetworkLink *links, guint n_links,
             const NetworkTee *tees, guint n_tees, const Fluid *fluid, Network **ret_network,
             NetworkFault *ret_fault)
{
  NetworkFault fault = {NETWORK_FAULT_TOO_LARGE, NETWORK_NONE, NETWORK_NONE};
  HydraulicsStatus status = HYDRAULICS_TOO_LARGE;

  if (n_nodes <= NETWORK_NODES_MAX && n_links <= NETWORK_LINKS_MAX && n_tees <= n_nodes) {
    g_autoptr (Network) network = g_new0 (Network, 1);
    network->n_nodes = n_nodes;
    network->n_links = n_links;
    network->n_tees = n_tees;
    network->nodes = g_memdup2 (nodes, n_nodes * sizeof *nodes);
    network->links = g_memdup2 (links, n_links * sizeof *links);
    network->tees = g_memdup2 (tees, n_tees * sizeof *tees);
    network->fluid = *fluid;
    status = compile (network, &fault);
    if (status == HYDRAULICS_OK) {
      *ret_network = g_steal_pointer (&network);
      return status;
    }
  }
  if (ret_fault != NULL)
    *ret_fault = fault;
  return status;
}

Network *
network_copy (const Network *network)
{
  Network *copy = NULL;
  gsize by_place = network->n_links * sizeof (double);

  if (network_new (network->nodes, network->n_nodes, network->links, network->n_links, network->tees,
                   network->n_tees, &network->fluid, &copy, NULL) != HYDRAULICS_OK)
    return NULL;
  memcpy (copy->flow, network->flow, by_place);
  memcpy (copy->loss, network->loss, by_place);
  memcpy (copy->tee_loss, network->tee_loss, by_place);
  memcpy (copy->tee_ends, network->tee_ends, network->n_links * sizeof *copy->tee_ends);
  memcpy (copy->state, network->state, network->n_links);
  memcpy (copy->friction, network->friction, network->n_pipes * sizeof (FrictionState));
  memcpy (copy->head, network->head, network->n_nodes * sizeof (double));
  memcpy (copy->cut_off, network->cut_off, network->n_nodes * sizeof (bool));
  copy->has_state = network->has_state;
  copy->is_balanced = network->is_balanced;
  copy->is_connected = network->is_connected;
  copy->is_solved = network->is_solved;
  copy->statistics = network->statistics;
  return copy;
}
