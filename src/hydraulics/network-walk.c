/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/network-private.h"

static bool
passes (const Network *network, guint place, bool shut_links_pass, bool held_links_pass)
{
  switch ((NetworkLinkState) network->state[place]) {
  case LINK_OPEN:
  case LINK_CHECK:
    return true;
  case LINK_HELD:
    return held_links_pass;
  case LINK_SHUT:
    return shut_links_pass;
  }
  return true;
}

/* Spreads from the levels over the links until nothing is added; networks are small, and this runs after a valve was
 * shut or opened, not within an iteration. */
guint
network_mark_cut_off (Network *network, bool shut_links_pass, bool held_links_pass)
{
  bool grew = true;

  for (guint slot = 0; slot < network->n_nodes; slot++)
    network->cut_off[slot] = slot < network->n_junctions;
  while (grew) {
    grew = false;
    for (guint i = 0; i < network->n_links; i++) {
      bool *a = &network->cut_off[network->from[i]], *b = &network->cut_off[network->to[i]];
      if (*a == *b || !passes (network, i, shut_links_pass, held_links_pass))
        continue;
      *a = *b = false;
      grew = true;
    }
  }
  for (guint node = 0; node < network->n_nodes; node++) {
    if (network->cut_off[network->slot_of_node[node]])
      return node;
  }
  return NETWORK_NONE;
}
