/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The failures that are rehearsed: one row each says whether it can happen to a design, what it does to the plan of a
 * rehearsal, and the word that names it in machine output. Two of them may be laid over each other in one plan. */
#pragma once

#include "solver/rehearsal.h"

typedef enum {
  FAILURE_POWER_CUT,
  FAILURE_POWER_RETURNS,
  FAILURE_POWER_RETURNS_UNPRIMED, /* the siphon does not start in time */
  FAILURE_DRAIN_CLOGS,            /* the main drain, little by little */
  FAILURE_DRAIN_BLOCKED,          /* the main drain, at once */
  FAILURE_OVERFLOW_HALF,          /* half of the crest that carries most is covered */
  FAILURE_OVERFLOW_COVERED,       /* all of its openings; a comb open above is overtopped */
  FAILURE_SIPHON_FAILS,           /* does not run full */
  FAILURE_SIPHON_AND_TRICKLE,     /* and the trickle channel is blocked */
  FAILURE_TUBES_LOST,             /* a siphon box over the rim loses its prime */
  FAILURE_BREAK_PLUGGED,          /* and the power is cut */
  FAILURE_CHECK_STUCK,            /* open, and the power is cut */
  FAILURE_TOP_OFF_STUCK,
  FAILURE_TOP_OFF_POWER_CUT, /* stuck until the reservoir is empty, then a power cut */
  FAILURE_RESERVOIR_SIPHONS, /* through its tube */
  FAILURE_RESERVOIR_EMPTY,   /* for days, fast evaporation */
  FAILURE_BRANCH_SHUT,       /* of a manifold: that which carries most */
  FAILURE_FULL_SPEED,
  FAILURE_SOCK_CLOGGED,
  FAILURE_OUTLET_LOWERED, /* its break with it, and the power is cut */
  N_FAILURES
} FailureId;

/* "power-cut" and so on: of machine output and the command line, never changes. */
const char *failure_word (FailureId failure);
bool failure_find (const char *word, FailureId *ret_failure);

/* Why a failure cannot happen to a design. */
typedef enum {
  FAILURE_APPLIES,
  FAILURE_NO_STEADY_STATE, /* the design does not run at all */
  FAILURE_PLAIN_CREST,     /* it stays open above whatever lies on it */
  FAILURE_NO_SIPHON,
  FAILURE_NO_TRICKLE,
  FAILURE_NO_TUBES, /* no siphon box hangs over a rim */
  FAILURE_NO_BREAK, /* no outlet under water has a siphon break */
  FAILURE_NO_CHECK_VALVE,
  FAILURE_NO_RESERVOIR,
  FAILURE_TUBE_OPEN, /* the tube ends over the full reservoir, or lets air in */
  FAILURE_NO_BRANCH, /* one outlet: a shut valve stops the loop */
  FAILURE_FULL_SPEED_ALREADY,
  FAILURE_NO_SOCK,
  FAILURE_NO_OUTLET_BELOW, /* no outlet hangs where a hand could lower it into the water */
  N_FAILURE_REASONS
} FailureReason;

/* How long and how much; SI. */
typedef struct {
  int edge;             /* of the pumps, as in RehearsalPlan */
  double power_off_s;   /* how long the power stays away before it returns */
  double block_s;       /* in which a drain clogs */
  double top_off_m3s;   /* flow of the top-off */
  double outlet_drop_m; /* how far a hand lowers an outlet */
  double horizon_s;     /* the longest that is played */
  double absence_s;     /* the longest with the reservoir empty */
} FailureOptions;

void failure_options_init (FailureOptions *options);

/* The options by the names of the command line ("power-off-time", "block-time", "top-off-flow", "outlet-drop",
 * "longest-time", "absence"). False where there is none of that name or the value (SI) is out of its range. */
bool failure_options_set (FailureOptions *options, const char *name, double value);
/* The names in order, NULL after the last; its quantity (`ret_quantity` may be NULL). */
const char *failure_option_name (unsigned index, Quantity *ret_quantity);

/* @options: NULL for the usual ones. */
FailureReason failure_applies (const System *system, const Evaluation *evaluation, FailureId failure,
                               const FailureOptions *options);

/* Lays a failure over a plan that was begun with rehearsal_plan_init (). Nothing for one that does not apply. */
void failure_set_up (const System *system, const Evaluation *evaluation, FailureId failure,
                     const FailureOptions *options, RehearsalPlan *plan);
