/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* The iteration. Content, the sum of the integrals of all losses over their flows, less what the levels give, is convex
 * and smallest in the solved state. Newton's step of the global gradient form keeps the flows balanced, so along it the
 * slope of the content is sum (step x residual): where the whole step climbs out on the far side by more than half of
 * what it came down with, it is shortened. */

#include "hydraulics/network-private.h"

#include <string.h>

/* Linear solves in one call before giving up; the random networks of the tests need far less. */
#define ITERATIONS_MAX 400

/* Times that a tee's losses are set within one call, and the distance at which they rest, m. */
#define TEE_ROUNDS_MAX 200
#define TEE_REST_M     1e-7

/* Residual at which a state counts as solved, of the head scale; and the step that must go with it, of the largest
 * flow. Newton's method is quadratic here: the flows are then far more exact than the last step was long. */
#define LOSS_TOLERANCE  1e-9
#define STEP_TOLERANCE  1e-5
#define EXACT_TOLERANCE 1e-12

/* What a law may leave its tangent by over the last step, of the head scale; then its end is not looked at again. */
#define LANDING_TOLERANCE 5e-10

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

static inline bool
carries_flow (const Network *network, guint place)
{
  return network->state[place] <= LINK_CHECK;
}

static HydraulicsStatus
fail (Network *network, HydraulicsStatus status, NetworkFaultKind kind, guint node, guint link)
{
  network->statistics.fault = (NetworkFault){kind, node, link};
  network->has_state = false;
  return status;
}

/* What the losses say about the heads. */
typedef struct {
  double worst_m;
  guint worst_place;
  double content_slope; /* along the last step */
} Survey;

static Survey
survey (const Network *network)
{
  const guint *restrict from = network->from, *restrict to = network->to;
  const double *restrict loss = network->loss, *restrict head = network->head, *restrict step = network->step;
  Survey found = {0.0, 0, 0.0};

  for (guint i = 0; i < network->n_links; i++) {
    if (!carries_flow (network, i))
      continue;
    double residual = loss[i] - (head[from[i]] - head[to[i]]);
    found.content_slope += step[i] * residual;
    if (!(fabs (residual) <= found.worst_m)) {
      found.worst_m = fabs (residual);
      found.worst_place = i;
    }
  }
  return found;
}

/* The equations of the junctions for the change of their heads. */
static void
assemble (Network *network)
{
  const guint *restrict from = network->from, *restrict to = network->to, *restrict entry = network->entry;
  double *restrict diagonal = network->diagonal, *restrict right = network->right,
                   *restrict entries = network->entries;
  const double *restrict head = network->head, *restrict loss = network->loss, *restrict flow = network->flow,
                         *restrict slope = network->slope;
  double *restrict step = network->step, *restrict conductance = network->conductance;

  memset (diagonal, 0, network->n_nodes * sizeof (double));
  memset (entries, 0, (network->pattern.n_entries + 1) * sizeof (double));
  for (guint slot = 0; slot < network->n_nodes; slot++)
    right[slot] = -network->outflow[slot];
  for (guint i = 0; i < network->n_links; i++) {
    guint a = from[i], b = to[i];
    double y = 0.0, known = 0.0;
    if (carries_flow (network, i)) {
      y = 1.0 / slope[i];
      step[i] = y * (head[a] - head[b] - loss[i]);
      known = flow[i] + step[i];
    }
    conductance[i] = y;
    diagonal[a] += y;
    diagonal[b] += y;
    entries[entry[i]] -= y;
    right[a] -= known;
    right[b] += known;
  }
}

/* A whole step found. */
typedef struct {
  double content_slope; /* at its start */
  bool lands;           /* the laws are straight enough over it: where it ends needs no second look */
} Step;

/* Whether the loss of a law with curvature of at most 2 @bend slope / flow leaves its tangent by less than @tolerance
 * over a step. */
static inline bool
stays_on_tangent (double bend, double slope, double flow, double step, double tolerance)
{
  return bend * slope * step * step <= tolerance * fabs (flow);
}

/* Laminar flow has no curvature, turbulent flow and local losses at most slope / flow, the bridge between them less than
 * 12 slope / flow. */
static bool
pipes_stay_on_tangent (const Network *network, double tolerance)
{
  for (guint i = 0; i < network->n_pipes; i++) {
    const FrictionPipe *pipe = &network->pipe[i];
    double flow = fabs (network->flow[i]);
    double bend = flow > 0.99 * pipe->laminar_flow && flow < 1.01 * pipe->turbulent_flow ? 8.0 : 1.0;
    if (!stays_on_tangent (bend, network->slope[i], flow, network->step[i], tolerance))
      return false;
  }
  return true;
}

/* A power law up to the fifth has 4 slope / flow. Curves by points may bend at any point, so that there only the whole
 * change counts. */
static bool
others_stay_on_tangent (const Network *network, double tolerance)
{
  for (guint i = network->n_pipes; i < network->n_links; i++) {
    const NetworkLink *link = &network->links[network->link_of_place[i]];
    double step = network->step[i], slope = network->slope[i];
    bool is_power_law = link->kind == NETWORK_PUMP && link->pump.curve.n_points == 0;
    if (4.0 * slope * fabs (step) > tolerance &&
        !(is_power_law && stays_on_tangent (4.0, slope, network->flow[i], step, tolerance)))
      return false;
  }
  return true;
}

/* Takes the new heads and finds the whole step of every flow from their change, not from their difference, in which the
 * balance of small flows would be lost. */
static Step
find_step (Network *network)
{
  const guint *restrict from = network->from, *restrict to = network->to;
  const double *restrict slope = network->slope, *restrict conductance = network->conductance,
                         *restrict flow = network->flow;
  double *restrict steps = network->step, *restrict change = network->right, *restrict head = network->head;
  double content_slope = 0.0, tolerance = LANDING_TOLERANCE * network->head_scale;

  for (guint slot = 0; slot < network->n_junctions; slot++)
    head[slot] += change[slot];
  for (guint slot = network->n_junctions; slot < network->n_nodes; slot++)
    change[slot] = 0.0;
  for (guint i = 0; i < network->n_links; i++) {
    if (!carries_flow (network, i)) {
      steps[i] = -flow[i];
      continue;
    }
    double step = steps[i] + conductance[i] * (change[from[i]] - change[to[i]]);
    steps[i] = step;
    content_slope -= step * step * slope[i];
  }
  bool lands = network->n_special == 0 && network->is_balanced &&
               pipes_stay_on_tangent (network, tolerance) && others_stay_on_tangent (network, tolerance);
  return (Step){content_slope, lands};
}

static void
move (Network *network, double share)
{
  const double *restrict step = network->step;
  double *restrict flow = network->flow;

  for (guint i = 0; i < network->n_links; i++)
    flow[i] += share * step[i];
}

/* The last step, which lands: losses follow their tangents. */
static void
land (Network *network)
{
  double *restrict loss = network->loss;

  move (network, 1.0);
  for (guint i = 0; i < network->n_links; i++)
    loss[i] += network->slope[i] * network->step[i];
}

/* The least share of the step, taken whole just now, at which a check valve comes to rest; 1 if none does. There the
 * content has a kink, which a secant would not find. */
static double
first_check_to_close (const Network *network)
{
  double first = 1.0;

  for (guint j = 0; j < network->n_special; j++) {
    guint i = network->special[j];
    double before = network->flow[i] - network->step[i];
    if (network->state[i] == LINK_CHECK && before > 0.0 && network->flow[i] < 0.0)
      first = fmin (first, -before / network->step[i]);
  }
  return first;
}

/* Shortens the step that was taken whole. @before is the slope of the content at its start, < 0. */
static Survey
shorten_step (Network *network, double before, Survey found)
{
  double low = 0.0, low_slope = before, high = 1.0, high_slope = found.content_slope, at = 1.0;
  double closing = first_check_to_close (network);

  network->statistics.damped++;
  for (int i = 0; i < 60 && !(found.content_slope <= -0.5 * before); i++) {
    double width = high - low;
    double share = low + width * low_slope / (low_slope - high_slope);
    share = isfinite (share) ? fmin (fmax (share, low + 0.1 * width), high - 0.1 * width) : low + 0.5 * width;
    if (i == 0 && closing < 1.0)
      share = closing;
    move (network, share - at);
    at = share;
    network_evaluate (network);
    found = survey (network);
    if (found.content_slope > 0.0 || !isfinite (found.content_slope)) {
      high = share;
      high_slope = found.content_slope;
    } else {
      low = share;
      low_slope = found.content_slope;
    }
  }
  return found;
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
iterate (Network *network, Survey *ret_found)
{
  guint bad, before = network->statistics.iterations, settled = 0;

  for (guint n = 0; n < ITERATIONS_MAX; n++) {
    network->statistics.iterations = before + n + 1;
    assemble (network);
    bad = network_pattern_solve (&network->pattern, network->diagonal, network->entries, network->inverse,
                                 network->right);
    if (bad != NETWORK_NONE)
      return fail (network, HYDRAULICS_SINGULAR, NETWORK_FAULT_SINGULAR, network->node_of_slot[bad],
                   NETWORK_NONE);
    Step step = find_step (network);
    if (step.lands) {
      land (network);
      *ret_found = survey (network);
      ret_found->worst_m += LANDING_TOLERANCE * network->head_scale;
      return HYDRAULICS_OK;
    }
    move (network, 1.0);
    network_evaluate (network);
    Survey found = survey (network);
    bool exact = found.worst_m <= EXACT_TOLERANCE * network->head_scale;
    if (network->is_balanced && !exact && !(found.content_slope <= -0.5 * step.content_slope))
      found = shorten_step (network, step.content_slope, found);
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
iterate_tees (Network *network, Survey *ret_found)
{
  guint node = NETWORK_NONE;

  network_forget_tees (network, false);
  for (guint round = 0; round < TEE_ROUNDS_MAX; round++) {
    HydraulicsStatus status = iterate (network, ret_found);
    if (status != HYDRAULICS_OK || network_update_tees (network, &node) <= TEE_REST_M)
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
    Survey found = {0.0, 0, 0.0};
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
