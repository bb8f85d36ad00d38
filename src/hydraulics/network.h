/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Steady flow in any network of pipes, pumps, valves and devices between levels. A network is compiled once from its
 * topology, then patched (a level, a K, a speed) and solved as often as wanted: solving allocates nothing. Heads are
 * hydraulic heads (level plus pressure head) in metres of the fluid over one datum; flows are positive from a link's
 * `from` to its `to`.
 *
 * Method: damped Newton on the global gradient form (Todini & Pilati 1988), exact Colebrook friction; the symmetric
 * system of the junction heads is factorised on a fixed pattern found at compile time. Every link's loss rises with its
 * flow, so the state is the only minimum of a convex function (the content); each step goes down it, by a line search
 * where the whole step would not. */

#include "hydraulics/fitting.h"
#include "hydraulics/pipe.h"
#include "hydraulics/pump.h"
#include "hydraulics/status.h"

#include <stdbool.h>

/* No node, no link. */
#define NETWORK_NONE G_MAXUINT

/* Largest network that is compiled. */
#define NETWORK_NODES_MAX 4096
#define NETWORK_LINKS_MAX 8192

typedef enum {
  NETWORK_JUNCTION, /* its head is found */
  NETWORK_LEVEL,    /* a free surface or free outlet of given head */
} NetworkNodeKind;

typedef struct {
  NetworkNodeKind kind;
  double level_m;     /* of a level: given head */
  double outflow_m3s; /* of a junction: taken out of the network there (negative: fed in), usually 0 */
} NetworkNode;

typedef enum {
  NETWORK_PIPE,   /* friction and K; with length 0 a valve, an orifice or any local loss on @bore_m */
  NETWORK_PUMP,   /* head gained from `from` to `to` */
  NETWORK_DEVICE, /* a loss curve by points */
} NetworkLinkKind;

typedef struct {
  NetworkLinkKind kind;
  guint from, to; /* indices of nodes, not equal */
  PipeRun pipe;   /* of a pipe; pipe.k = INFINITY shuts it; without length, a K below 1e-3 counts as 1e-3 */
  PumpUnit pump;  /* of a pump; speed 0 is a pump at rest, which lets water through both ways */
  LossCurve device;
  bool shut;  /* a shut valve: no flow */
  bool check; /* flow only from `from` to `to`; any kind of link may have one */
  double
      cracking_head_m; /* of the check: constant loss while it flows, and the head that must be exceeded to open it;
                             >= 0 */
} NetworkLink;

/* A tee whose losses follow the split of flow (tee_k()): added to its links, each on the combined flow. */
typedef struct {
  guint node;   /* a junction with exactly these three links */
  guint run[2]; /* the links of the straight way */
  guint branch; /* the link of the branch */
  double run_m; /* bore of the run; of the branch */
  double branch_m;
  double angle_deg; /* 30 to 90; of a wye the angle between the branch and run[1] */
} NetworkTee;

/* Shorthands for the usual links, without check and open. */
NetworkLink network_link_pipe (guint from, guint to, double length_m, double bore_m, double roughness_m,
                               double k);
NetworkLink network_link_valve (guint from, guint to, double bore_m, double k);
NetworkLink network_link_pump (guint from, guint to, const PumpCurve *curve, double speed, double tolerance);
NetworkLink network_link_device (guint from, guint to, const LossCurve *curve);

/* What stands in the way of a solution, and where. */
typedef enum {
  NETWORK_FAULT_NONE,
  NETWORK_FAULT_BAD_NODE, /* a value of this node */
  NETWORK_FAULT_BAD_LINK, /* a value of this link */
  NETWORK_FAULT_BAD_TEE,  /* the tee at this node */
  NETWORK_FAULT_BAD_FLUID,
  NETWORK_FAULT_TOO_LARGE,
  NETWORK_FAULT_NO_LEVEL,     /* the network has no node of given head */
  NETWORK_FAULT_DISCONNECTED, /* no way of links from this node to any level */
  NETWORK_FAULT_CUT_OFF,      /* this junction has an outflow, but shut valves part it from every level */
  NETWORK_FAULT_SINGULAR,     /* the equations do not determine the head of this node */
  NETWORK_FAULT_SLOW,         /* not converged: @node and @link hold the worst residuals */
  NETWORK_FAULT_TEE_HUNTING,  /* the split at the tee at this node found no rest */
  N_NETWORK_FAULTS
} NetworkFaultKind;

typedef struct {
  NetworkFaultKind kind;
  guint node; /* or NETWORK_NONE */
  guint link; /* or NETWORK_NONE */
} NetworkFault;

/* How the last solve went. */
typedef struct {
  guint iterations;         /* linear solves, tees and check valves included */
  guint damped;             /* steps that were shortened */
  double worst_balance_m3s; /* largest |sum of flows| at a junction, and where */
  guint worst_node;
  double worst_loss_m; /* largest |head difference - loss| of an open link, or a bound on it, and where */
  guint worst_link;
  double largest_flow_m3s; /* what the balance is relative to */
  NetworkFault fault;
} NetworkStatistics;

typedef struct _Network Network;

/**
 * network_new:
 * @nodes, @n_nodes, @links, @n_links, @tees, @n_tees: copied; @tees may be NULL with 0
 * @fluid: for every pipe
 * @ret_network: (out): compiled: network_free()
 * @ret_fault: (out) (optional): what is wrong and where; written on failure only
 *
 * Returns: HYDRAULICS_INVALID_ARGUMENT (bad value), HYDRAULICS_TOO_LARGE, or HYDRAULICS_SINGULAR
 *   (NETWORK_FAULT_NO_LEVEL, NETWORK_FAULT_DISCONNECTED)
 */
HydraulicsStatus network_new (const NetworkNode *nodes, guint n_nodes, const NetworkLink *links,
                              guint n_links, const NetworkTee *tees, guint n_tees, const Fluid *fluid,
                              Network **ret_network, NetworkFault *ret_fault);

/* A second one in the same state, for another thread; one network is used by one thread at a time. */
Network *network_copy (const Network *network);

/* NULL is allowed. */
void network_free (Network *network);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Network, network_free)

guint network_n_nodes (const Network *network);
guint network_n_links (const Network *network);

/* Patches. Each returns HYDRAULICS_INVALID_ARGUMENT and changes nothing for a value that network_new() would refuse, an
 * index outside the network or a link of another kind. A following network_solve() starts warm. */
HydraulicsStatus network_set_level (Network *network, guint node, double level_m);
HydraulicsStatus network_set_outflow (Network *network, guint node, double outflow_m3s);
HydraulicsStatus network_set_fluid (Network *network, const Fluid *fluid);
HydraulicsStatus network_set_pipe (Network *network, guint link, const PipeRun *pipe);
HydraulicsStatus network_set_k (Network *network, guint link, double k); /* INFINITY shuts it */
HydraulicsStatus network_set_pump (Network *network, guint link, const PumpUnit *pump);
HydraulicsStatus network_set_speed (Network *network, guint link, double speed);
HydraulicsStatus network_set_device (Network *network, guint link, const LossCurve *curve);
HydraulicsStatus network_set_shut (Network *network, guint link, bool shut);
HydraulicsStatus network_set_check (Network *network, guint link, bool check, double cracking_head_m);

/* Forgets the last state, so that the next solve starts cold. Its result does not depend on what was solved before,
 * but for the last digits. */
void network_reset (Network *network);

/**
 * network_solve:
 * @network: patched or not; starts from the last solved state if there is one
 *
 * Converged means: the loss equation of every open link holds within 1e-9 of the largest head in the network (at least
 * 1e-9 m) and flows balance at every junction within 1e-9 of the largest flow. Flow through a shut link or check valve
 * is exactly 0. A junction that shut valves part from every level, with no outflow, stands at the head of what leaks
 * least into it: network_node_is_cut_off() tells, and its head means nothing.
 * A tee's losses follow the split of flow: they are held while the flows are solved and set again between, more and more
 * carefully where they swing, until none moves by more than 1e-7 m. Where the loss jumps as a branch turns its flow, the
 * branch stands still with a loss between the two. (Within one Newton step the losses would not be
 * monotone, since a tee can give head back; with held values every step keeps its guarantee.)
 *
 * Returns: HYDRAULICS_OK; HYDRAULICS_NO_SOLUTION (NETWORK_FAULT_CUT_OFF); HYDRAULICS_NOT_CONVERGED; HYDRAULICS_SINGULAR.
 *   network_statistics() names the place. After a failure flows and heads mean nothing, and the next solve starts cold.
 */
HydraulicsStatus network_solve (Network *network);

/* Of the last network_solve(). */
const NetworkStatistics *network_statistics (const Network *network);

/* Of the last state: NaN before any solve or after a failed one, or for an index outside the network. */
double network_flow (const Network *network, guint link);
double network_head (const Network *network, guint node);

/* network_loss: head lost from `from` to `to` along a link (negative: a pump's gain); for a shut one the difference of
 * the heads at its ends. */
double network_loss (const Network *network, guint link);

/* Whether the link's check valve stands shut in the last state. */
bool network_check_is_shut (const Network *network, guint link);

/* Whether shut valves (not checks) part the node from every level in the last state. */
bool network_node_is_cut_off (const Network *network, guint node);

/* network_pump_range: where the pump runs on its curve; PUMP_ON_CURVE for another link. */
PumpRange network_pump_range (const Network *network, guint link);

/* network_level_inflow: net flow into a level out of the network, m3/s; at a junction its outflow. */
double network_level_inflow (const Network *network, guint node);
