/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* One step of Newton's method. */

#include "hydraulics/network-private.h"

#include <string.h>

NetworkSurvey
network_survey (const Network *network)
{
  const guint *restrict from = network->from, *restrict to = network->to;
  const double *restrict loss = network->loss, *restrict head = network->head, *restrict step = network->step;
  NetworkSurvey found = {0.0, 0, 0.0};

  for (guint i = 0; i < network->n_links; i++) {
    if (!network_carries_flow (network, i))
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
void
network_assemble (Network *network)
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
    if (network_carries_flow (network, i)) {
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
NetworkStep
network_find_step (Network *network)
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
    if (!network_carries_flow (network, i)) {
      steps[i] = -flow[i];
      continue;
    }
    double step = steps[i] + conductance[i] * (change[from[i]] - change[to[i]]);
    steps[i] = step;
    content_slope -= step * step * slope[i];
  }
  bool lands = network->n_special == 0 && network->is_balanced &&
               pipes_stay_on_tangent (network, tolerance) && others_stay_on_tangent (network, tolerance);
  return (NetworkStep){content_slope, lands};
}

void
network_move (Network *network, double share)
{
  const double *restrict step = network->step;
  double *restrict flow = network->flow;

  for (guint i = 0; i < network->n_links; i++)
    flow[i] += share * step[i];
}

/* The last step, which lands: losses follow their tangents. */
void
network_land (Network *network)
{
  double *restrict loss = network->loss;

  network_move (network, 1.0);
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
NetworkSurvey
network_shorten_step (Network *network, double before, NetworkSurvey found)
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
    network_move (network, share - at);
    at = share;
    network_evaluate (network);
    found = network_survey (network);
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
