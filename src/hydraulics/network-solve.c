/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* The iteration. Content, the sum of the integrals of all losses over their flows, less what the levels give, is convex
 * and smallest in the solved state. Newton's step of the global gradient form keeps the flows balanced, so along it the
 * slope of the content is sum (step x residual): where the whole step climbs out on the far side by more than half of
 * what it came down with, it is shortened. */

#include "hydraulics/network-private.h"

#include <string.h>

/* Linear solves in one call before giving up; the random networks of the tests need far less. */
#define ITERATIONS_MAX 400

/* Times that a tee's losses are set within one call, and the distance at which they rest, m. Levels that hang on the flows
 * are sought to 1e-11 m, and the flows follow the losses; one that hunts about a jump must be content with less. */
#define TEE_ROUNDS_MAX     1000
#define TEE_ROUNDS_FINE    60
#define TEE_REST_M         1e-10
#define TEE_GROWTH         1.2 /* of a share that was halved, each round; none later, where legs hunt one another */
#define TEE_REST_HUNTING_M 1e-7

/* Residual at which a state counts as solved, of the head scale; and the step that must go with it, of the largest
 * flow. Newton's method is quadratic here: the flows are then far more exact than the last step was long. */
#define LOSS_TOLERANCE  1e-9
#define STEP_TOLERANCE  1e-5
#define EXACT_TOLERANCE 1e-12

/* Flow that counts as none, m3/s. */
#define NO_FLOW 1e-15

/* A check valve that flow would run back through is a straight line while its state is being found, s/m2: a metre of
 * head drives 1e-8 m3/s at first, and less each time that valves change their state, so that the search comes to rest.
 * Then it is held, and its flow is exactly 0. */
#define REST_SHARE        1e-12 /* of the largest flow, that counts as none */
#define CHECK_SLOPE_FIRST 1e8
#define CHECK_SLOPE_MOST  1e12
#define SETTLINGS_MAX     60

/* Balance at a junction, of the largest flow. */
#define BALANCE_TOLERANCE  1e-9
#define BALANCE_ROUNDS_MAX 4

/* fmax() is a call, and NaN is caught elsewhere. */
static inline double
larger (double a, double b)
{
  return a > b ? a : b;
}

static HydraulicsStatus
fail (Network *network, HydraulicsStatus status, NetworkFaultKind kind, guint node, guint link)
{
  network->statistics.fault = (NetworkFault){kind, node, link};
  network->has_state = false;
  return status;
}

/* The head that a check valve must see to open: its cracking head less what its pump gives at rest. */
static double
opening_head (const NetworkLink *link)
{
  PumpHead head = {0};

  if (link->kind == NETWORK_PUMP)
    pump_head (&link->pump.curve, link->pump.speed, link->pump.tolerance, 0.0, &head);
  return link->cracking_head_m - head.head_m;
}

/* Holds the check valves that flow runs back through and lets go those that are pushed open. Returns whether any was.
 * One through which nothing runs, before a dead end, may stay as it is: its line ties the dead end to the rest. */
static bool
settle_checks_of (Network *network, bool pumps, double nothing)
{
  bool changed = false;

  for (guint j = 0; j < network->n_special; j++) {
    guint i = network->special[j];
    const NetworkLink *link = &network->links[network->link_of_place[i]];
    if ((link->kind == NETWORK_PUMP) != pumps)
      continue;
    if (network->state[i] == LINK_CHECK && network->flow[i] < -nothing) {
      network->state[i] = LINK_HELD;
      network->flow[i] = 0.0;
      changed = true;
    } else if (network->state[i] == LINK_HELD) {
      double push = network->head[network->from[i]] - network->head[network->to[i]];
      /* Past a tee the first drop already loses what turning off costs at the flow that goes by. */
      push -= pumps ? 0.0 : network->tee_loss[i];
      if (push <= opening_head (link) + LOSS_TOLERANCE * network->head_scale)
        continue;
      network->state[i] = LINK_CHECK;
      changed = true;
    }
  }
  return changed;
}

/* A valve behind a pump is held before the pump's own check: the pump then stands at its shut-off head, and the head
 * between the two is not left to chance. */
static bool
settle_checks (Network *network, double largest_flow)
{
  double nothing = REST_SHARE * largest_flow + NO_FLOW;
  bool changed = settle_checks_of (network, false, nothing) || settle_checks_of (network, true, nothing);

  if (changed) {
    network->is_balanced = false;
    return true;
  }
  for (guint j = 0; j < network->n_special; j++) {
    guint i = network->special[j];
    if (network->state[i] == LINK_CHECK && network->flow[i] <= 0.0) {
      network->state[i] = LINK_HELD;
      network->flow[i] = 0.0;
    }
  }
  return false;
}

static void
begin_cold (Network *network)
{
  double sum = 0.0;
  guint n_levels = network->n_nodes - network->n_junctions;
  gsize bytes = network->n_links * sizeof (double);

  for (guint slot = network->n_junctions; slot < network->n_nodes; slot++)
    sum += network->head[slot];
  for (guint slot = 0; slot < network->n_junctions; slot++)
    network->head[slot] = sum / n_levels;
  memcpy (network->flow, network->start_flow, bytes);
  memcpy (network->loss, network->start_loss, bytes);
  memcpy (network->slope, network->start_slope, bytes);
  memcpy (network->friction, network->friction_start, network->n_pipes * sizeof (FrictionState));
  for (guint j = 0; j < network->n_special; j++) {
    guint i = network->special[j];
    if (network->state[i] == LINK_HELD)
      network->state[i] = LINK_CHECK;
  }
  network_forget_tees (network, true);
  network->is_balanced = false;
}

static HydraulicsStatus
iterate (Network *network, NetworkSurvey *ret_found)
{
  guint bad, before = network->statistics.iterations, settled = 0;

  for (guint n = 0; n < ITERATIONS_MAX; n++) {
    network->statistics.iterations = before + n + 1;
    network_assemble (network);
    bad = network_pattern_solve (&network->pattern, network->diagonal, network->entries, network->inverse,
                                 network->right);
    if (bad != NETWORK_NONE)
      return fail (network, HYDRAULICS_SINGULAR, NETWORK_FAULT_SINGULAR, network->node_of_slot[bad],
                   NETWORK_NONE);
    NetworkStep step = network_find_step (network);
    if (step.lands) {
      network_land (network);
      *ret_found = network_survey (network);
      ret_found->worst_m += LANDING_TOLERANCE * network->head_scale;
      return HYDRAULICS_OK;
    }
    network_move (network, 1.0);
    network_evaluate (network);
    NetworkSurvey found = network_survey (network);
    bool exact = found.worst_m <= EXACT_TOLERANCE * network->head_scale;
    if (network->is_balanced && !exact && !(found.content_slope <= -0.5 * step.content_slope))
      found = network_shorten_step (network, step.content_slope, found);
    network->is_balanced = true;

    double largest_flow = 0.0, largest_step = 0.0;
    for (guint i = 0; i < network->n_links; i++) {
      largest_flow = larger (largest_flow, fabs (network->flow[i]));
      largest_step = larger (largest_step, fabs (network->step[i]));
    }
    *ret_found = found;
    bool at_rest = largest_step <= STEP_TOLERANCE * largest_flow + NO_FLOW;
    double enough = (at_rest ? LOSS_TOLERANCE : EXACT_TOLERANCE) * network->head_scale;
    if (!(found.worst_m <= enough))
      continue;
    if (network->n_special == 0 || !settle_checks (network, largest_flow))
      return HYDRAULICS_OK;
    if (++settled > SETTLINGS_MAX)
      break;
    network->check_slope = fmin (10.0 * network->check_slope, CHECK_SLOPE_MOST);
    network_evaluate (network);
  }
  return fail (network, HYDRAULICS_NOT_CONVERGED, NETWORK_FAULT_SLOW, NETWORK_NONE,
               network->link_of_place[ret_found->worst_place]);
}

/* A junction with an outflow that no level can feed, past shut valves and the checks that are held. */
static guint
find_starved (Network *network, bool held_links_pass)
{
  guint starved = NETWORK_NONE;

  if (network_mark_cut_off (network, false, held_links_pass) == NETWORK_NONE)
    return NETWORK_NONE;
  for (guint slot = 0; slot < network->n_junctions && starved == NETWORK_NONE; slot++) {
    if (network->cut_off[slot] && network->outflow[slot] != 0.0)
      starved = network->node_of_slot[slot];
  }
  return starved;
}

static void
find_head_scale (Network *network)
{
  double low = INFINITY, high = -INFINITY, pumps = 0.0;

  for (guint slot = network->n_junctions; slot < network->n_nodes; slot++) {
    low = fmin (low, network->head[slot]);
    high = fmax (high, network->head[slot]);
  }
  for (guint i = network->n_pipes; i < network->n_links; i++) {
    const NetworkLink *link = &network->links[network->link_of_place[i]];
    if (link->kind == NETWORK_PUMP)
      pumps += link->pump.tolerance * link->pump.curve.a * link->pump.speed * link->pump.speed;
  }
  network->head_scale = fmax (1.0, high - low + pumps);
  network->is_scaled = true;
}

/* Tees: the flows are solved with held losses, the losses follow the flows, and so on. */
static HydraulicsStatus
iterate_tees (Network *network, NetworkSurvey *ret_found)
{
  guint node = NETWORK_NONE;

  network_forget_tees (network, false);
  for (guint round = 0; round < TEE_ROUNDS_MAX; round++) {
    HydraulicsStatus status = iterate (network, ret_found);
    double enough = round < TEE_ROUNDS_FINE ? TEE_REST_M : TEE_REST_HUNTING_M;
    double growth = round < TEE_ROUNDS_FINE ? TEE_GROWTH : 1.0;
    if (status != HYDRAULICS_OK || network_update_tees (network, growth, &node) <= enough)
      return status;
    network_evaluate (network);
  }
  return fail (network, HYDRAULICS_NOT_CONVERGED, NETWORK_FAULT_TEE_HUNTING, node, NETWORK_NONE);
}

/* Takes down how well the flows balance. */
static bool
is_balanced (Network *network)
{
  double *sum = network->right, largest = 0.0, worst = 0.0;
  guint worst_slot = 0;

  for (guint slot = 0; slot < network->n_nodes; slot++) {
    sum[slot] = -network->outflow[slot];
    largest = larger (largest, fabs (sum[slot]));
  }
  for (guint i = 0; i < network->n_links; i++) {
    sum[network->from[i]] -= network->flow[i];
    sum[network->to[i]] += network->flow[i];
    largest = larger (largest, fabs (network->flow[i]));
  }
  for (guint slot = 0; slot < network->n_junctions; slot++) {
    if (!(fabs (sum[slot]) <= worst)) {
      worst = fabs (sum[slot]);
      worst_slot = slot;
    }
  }
  network->statistics.largest_flow_m3s = largest;
  network->statistics.worst_balance_m3s = worst;
  network->statistics.worst_node = network->node_of_slot[worst_slot];
  return worst <= BALANCE_TOLERANCE * largest + NO_FLOW;
}

/* The losses hold, but the flows do not balance. */
static HydraulicsStatus
fail_to_balance (Network *network)
{
  guint starved = network->has_outflow ? find_starved (network, false) : NETWORK_NONE;

  network->is_connected = false; /* the walk overwrote its marks */
  if (starved != NETWORK_NONE)
    return fail (network, HYDRAULICS_NO_SOLUTION, NETWORK_FAULT_CUT_OFF, starved, NETWORK_NONE);
  return fail (network, HYDRAULICS_NOT_CONVERGED, NETWORK_FAULT_SLOW, network->statistics.worst_node,
               NETWORK_NONE);
}

/* Solves until the flows balance as well: after a very long last step their last digits still carry its rounding, and
 * one more short step takes it away. */
static HydraulicsStatus
solve_and_balance (Network *network)
{
  for (guint round = 0; round < BALANCE_ROUNDS_MAX; round++) {
    NetworkSurvey found = {0.0, 0, 0.0};
    HydraulicsStatus status =
        network->n_tees > 0 ? iterate_tees (network, &found) : iterate (network, &found);
    network->statistics.worst_loss_m = found.worst_m;
    network->statistics.worst_link = network->link_of_place[found.worst_place];
    if (status != HYDRAULICS_OK)
      return status;
    if (is_balanced (network))
      return HYDRAULICS_OK;
  }
  return fail_to_balance (network);
}

HydraulicsStatus
network_solve (Network *network)
{
  network->is_solved = false;
  network->check_slope = CHECK_SLOPE_FIRST;
  network->statistics = (NetworkStatistics){.worst_node = NETWORK_NONE,
                                            .worst_link = NETWORK_NONE,
                                            .fault = {NETWORK_FAULT_NONE, NETWORK_NONE, NETWORK_NONE}};
  if (!network->is_scaled)
    find_head_scale (network);
  if (!network->is_connected) {
    guint starved = find_starved (network, true);
    if (starved != NETWORK_NONE)
      return fail (network, HYDRAULICS_NO_SOLUTION, NETWORK_FAULT_CUT_OFF, starved, NETWORK_NONE);
    network->is_connected = true;
  }
  if (!network->has_state)
    begin_cold (network);
  else if (!network->is_evaluated)
    network_evaluate (network);

  HydraulicsStatus status = solve_and_balance (network);
  network->has_state = network->is_solved = network->is_evaluated = status == HYDRAULICS_OK;
  return status;
}
