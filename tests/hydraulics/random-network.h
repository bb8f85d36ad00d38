/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Random valid networks and what must be true of any answer, for the quick test and the long one. */

#include "hydraulics/network.h"

#include <glib.h>

#define RANDOM_LINKS_MAX 40
#define RANDOM_NODES_MAX 48

typedef struct {
  guint n_nodes, n_links;
  NetworkNode nodes[RANDOM_NODES_MAX];
  NetworkLink links[RANDOM_LINKS_MAX];
  Fluid fluid;
} RandomNetwork;

/* How the answers to many networks were spread. */
typedef struct {
  guint solved, cut_off;
  guint iterations, iterations_most;
  double worst_balance; /* relative to the largest flow, where that is above 0.01 L/s */
} RandomTally;

/* 2 to 40 links, every node joined to a level: pipes from 4 to 100 mm, valves, devices and pumps of every kind, some
 * with check valves, some shut, some pumps at rest; now and then outflows at junctions (then without check valves, so
 * that what cannot be fed is plain to see). */
void random_network_make (GRand *rand, RandomNetwork *ret_network);

/* Solves it from cold, tests the answer against pipe_loss(), pump_head() and loss_curve_head() and the balances, then
 * adds resistance to one pipe and tests that its flow does not rise. Asserts. */
void random_network_check (GRand *rand, const RandomNetwork *random, RandomTally *tally);

/* Checks @count networks of one seed and prints the tally. */
void random_networks_check (guint32 seed, guint count);
