/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The plan behind a proposal: a few free numbers from which a whole design is built. proposal.c searches them; this file
 * only builds. For the solver folder only. */
#pragma once

#include "solver/proposal.h"

/* Free numbers, metres and m3/s. Heights of the sump are above its inside bottom. */
typedef struct {
  ProposalRequest request;
  double flow_m3s;     /* wanted */
  double crest_drop_m; /* crest under the rim */
  double box_length_m, box_width_m, box_depth_m;
  const PipeSize *drain, *emergency, *trickle, *pipe;
  double sump_m[3];          /* outside */
  double reservoir_length_m; /* 0: none */
  double depth_m;            /* water in the skimmer chamber */
  double return_level_m;
  double return_share; /* of the sump's inside length */
  double suction_m;    /* height of the pump's suction */
  unsigned outlets;
  double nozzle_m;
  double outlet_drop_m; /* mouth under the crest */
  const PumpType *pump;
  double speed;
  double most_m3s; /* the most that a pump which was too weak gave */
} Plan;

/* Thickness of panes of a sump of this height, and the least inside size worth building. */
double plan_sump_glass (double height_m);

/* The design of a plan, or NULL with the problem where it is not well-formed. */
Design *plan_build (const Plan *plan, Problem *ret_problem);
