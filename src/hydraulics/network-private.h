/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* The compiled network. Nodes have slots: junctions first, in the order of their elimination, then levels. Links have
 * places: pipes first, then pumps and devices, so that the loop over pipes is one loop. Arrays hold one quantity each,
 * by slot or by place. Not for use outside the files network*.c. */

#include "hydraulics/friction.h"
#include "hydraulics/network.h"

/* The pattern of the symmetric matrix of the junction heads, its fill included, by columns in order of elimination. */
typedef struct {
  guint n;            /* columns */
  guint n_entries;    /* below the diagonal */
  guint *start;       /* n + 1: first entry of each column */
  guint *row;         /* n_entries: rising within a column */
  guint *pair_start;  /* n: first target of each column */
  guint *pair_target; /* for entries a < b of a column: the entry (row b, column row a) */
} NetworkPattern;

/* How a link stands in the equations. */
typedef enum {
  LINK_OPEN,  /* by its loss */
  LINK_CHECK, /* by its loss while it flows forward, else held back by a steep straight line */
  LINK_HELD,  /* a check valve found shut: no flow */
  LINK_SHUT,  /* a shut valve: no flow */
} NetworkLinkState;

/* Loss in a tee at one end of a link, along the link, and how it is being found. */
typedef struct {
  double loss_m, share, last_distance;
} NetworkTeeEnd;

struct _Network {
  guint n_nodes, n_junctions, n_links, n_pipes, n_tees;
  NetworkNode *nodes; /* as given and patched, by node */
  NetworkLink *links; /* as given and patched, by link */
  NetworkTee *tees;
  double *tee_branch_k; /* of each tee: a leg of its run through its branch */
  Fluid fluid;

  guint *slot_of_node, *node_of_slot;
  guint *place_of_link, *link_of_place;
  NetworkPattern pattern;

  /* By place. */
  guint *from, *to; /* slots */
  guint *entry;     /* of the pattern; n_entries where an end is a level */
  double *flow, *loss, *slope, *conductance, *step;
  double *
      start_flow; /* where a cold solve begins: a pipe as a straight line through rest and 1 m/s, so that its */
  double *start_loss; /* direction does not matter; others on their tangent */
  double *start_slope;
  double *start_friction; /* a pipe's loss by friction at 1 m/s, m */
  double *
      held_conductance; /* of a link without flow: ties its ends' steps together, so that no head is left free */
  double *slope_least;          /* for the equations only, where a law is flat */
  double *tee_loss;             /* head lost in the tees at both ends, along the link; held within a solve */
  NetworkTeeEnd (*tee_ends)[2]; /* its parts at `from` and at `to` */
  guint8 *state;                /* NetworkLinkState */
  FrictionPipe *pipe;           /* of the first n_pipes */
  FrictionState *friction, *friction_start;
  guint *neighbour; /* an earlier pipe in series with this one, or NETWORK_NONE */
  guint *twin;      /* the same if it has the same bore and wall, so that it has the same friction factor */

  guint n_special; /* links whose loss is more than their own law */
  guint *special;

  /* By slot. */
  double *head, *diagonal, *right, *inverse;
  double *outflow; /* 0 at levels */
  double *entries; /* n_entries + 1: the last takes what has no place */
  bool *cut_off;

  bool has_state;    /* flow and head are a solution of some earlier patch */
  bool has_outflow;  /* some junction has one */
  bool is_balanced;  /* the flows balance at every junction with the present outflows */
  bool is_evaluated; /* losses and slopes are those of the flows */
  bool is_connected; /* cut_off is up to date */
  bool is_scaled;    /* head_scale is up to date */
  bool is_solved;
  double check_slope; /* s/m2: of a check valve that holds back while its state is being found */
  double head_scale;  /* m: range of the levels and all pumps together, at least 1 */
  NetworkStatistics statistics;
};

/* network-pattern.c: orders @n junctions by least degree for the given pairs and finds the pattern. */
void network_pattern_init (NetworkPattern *pattern, guint n, guint n_pairs, const guint (*pairs)[2],
                           guint *ret_order);
void network_pattern_clear (NetworkPattern *pattern);

/* The entry of two columns, in any order; n_entries if there is none. */
guint network_pattern_entry (const NetworkPattern *pattern, guint a, guint b);

/* Factorises as L D L' and solves in one pass: @diagonal and @entries are used up, @right becomes the solution. A part
 * that nothing ties down (between shut valves) keeps the value 0 at one of its columns.
 * Returns: NETWORK_NONE, or the column at which the matrix is not a number. */
guint network_pattern_solve (const NetworkPattern *pattern, double *diagonal, double *entries,
                             double *inverse, double *right);

/* network-loss.c: losses and slopes of all links at the present flows. */
void network_evaluate (Network *network);

/* The same for one pipe, if all others are up to date. */
void network_evaluate_pipe (Network *network, guint place);

/* Takes over the values of one link (by place) into the arrays. */
HydraulicsStatus network_prepare_link (Network *network, guint place);

/* The same for the K of a pipe alone, which is already known to be good and finite. */
void network_prepare_k (Network *network, guint place);

/* Finds the twins anew after a pipe or the fluid was changed. */
void network_find_twins (Network *network);

/* Lists the links whose loss is more than their own law. */
void network_list_specials (Network *network);

/* network-step.c: one step of the method. */

/* What a law may leave its tangent by over the last step, of the head scale; then its end is not looked at again. */
#define LANDING_TOLERANCE 5e-10

/* What the losses say about the heads. */
typedef struct {
  double worst_m;
  guint worst_place;
  double content_slope; /* along the last step */
} NetworkSurvey;

/* A whole step found. */
typedef struct {
  double content_slope; /* at its start */
  bool lands;           /* the laws are straight enough over it: where it ends needs no second look */
} NetworkStep;

static inline bool
network_carries_flow (const Network *network, guint place)
{
  return network->state[place] <= LINK_CHECK;
}

/* Puts together the equations of the junctions for the change of their heads. */
void network_assemble (Network *network);

/* From the solution of these: takes the new heads and finds the whole step of every flow. */
NetworkStep network_find_step (Network *network);

/* Goes a share of the step. */
void network_move (Network *network, double share);

/* Goes the whole of a step that lands: losses follow their tangents. */
void network_land (Network *network);

/* What the losses say about the heads. */
NetworkSurvey network_survey (const Network *network);

/* Shortens the step that was taken whole and climbed out. @before is the slope of the content at its start, < 0. */
NetworkSurvey network_shorten_step (Network *network, double before, NetworkSurvey found);

/* network-tee.c: sets the losses in tees from the present flows.
 * Returns: the longest way that one of them went, m, and the node of its tee. */
double network_update_tees (Network *network, double growth, guint *ret_node);

/* Lets a new search for the losses in tees begin, from those that are held or from none. */
void network_forget_tees (Network *network, bool losses_too);

bool network_tee_is_valid (const Network *network, const NetworkTee *tee);

/* network-walk.c: marks the nodes that no way of passable links joins to a level in network->cut_off.
 * Returns: the first that is marked, or NETWORK_NONE. */
guint network_mark_cut_off (Network *network, bool shut_links_pass, bool held_links_pass);
