/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/argument.h"
#include "hydraulics/loss-curve.h"
#include "hydraulics/network-private.h"
#include "hydraulics/pump-curve.h"

/* A local loss without length counts at least this: 5e-5 m at 1 m/s. A link of no loss at all would leave the flows in a
 * loop of such links undetermined. */
#define LOCAL_K_LEAST 1e-3

/* How much of a law's mean slope the equations are given where it is flat. */
#define FLAT_SHARE 1e-9

/* Turbulent friction is solved until a step in 1 / sqrt f falls below this; the error left is below 1e-9. */
#define FRICTION_STEP 1e-4

/* Two pieces of one pipe have one friction factor: where the flow is that of the twin to the last digits, its solution is
 * taken over, and friction_loss() finds nothing left to solve. */
static inline void
take_over_friction (FrictionState *state, const FrictionState *twin, double flow)
{
  double q = fabs (flow);

  if (fabs (q - twin->flow) <= 1e-13 * q) {
    *state = *twin;
    state->flow = q;
  }
}

static void
evaluate_pipes (Network *network)
{
  const double *restrict flow = network->flow;
  const guint *restrict twin = network->twin;
  double *restrict loss = network->loss, *restrict slope = network->slope;

  for (guint i = 0; i < network->n_pipes; i++) {
    if (twin[i] != NETWORK_NONE)
      take_over_friction (&network->friction[i], &network->friction[twin[i]], flow[i]);
    loss[i] = friction_loss (&network->pipe[i], &network->friction[i], FRICTION_STEP, flow[i], &slope[i]);
  }
}

void
network_find_twins (Network *network)
{
  for (guint i = 0; i < network->n_pipes; i++) {
    guint other = network->neighbour[i];
    bool same = other != NETWORK_NONE &&
                network->pipe[i].reynolds_per_flow == network->pipe[other].reynolds_per_flow &&
                network->pipe[i].roughness_term == network->pipe[other].roughness_term;
    network->twin[i] = same ? other : NETWORK_NONE;
  }
}

static void
evaluate_others (Network *network)
{
  for (guint i = network->n_pipes; i < network->n_links; i++) {
    const NetworkLink *link = &network->links[network->link_of_place[i]];
    double slope;
    if (link->kind == NETWORK_PUMP) {
      const PumpUnit *pump = &link->pump;
      network->loss[i] =
          -pump_curve_head (&pump->curve, pump->speed, pump->tolerance, network->flow[i], &slope);
      slope = -slope;
    } else {
      network->loss[i] = loss_curve_at (&link->device, network->flow[i], &slope);
    }
    network->slope[i] = slope > network->slope_least[i] ? slope : network->slope_least[i];
  }
}

static void
evaluate_specials (Network *network)
{
  for (guint j = 0; j < network->n_special; j++) {
    guint i = network->special[j];
    const NetworkLink *link = &network->links[network->link_of_place[i]];
    if (link->check && network->state[i] == LINK_CHECK && network->flow[i] <= 0.0) {
      /* From the loss at the first drop on: without the tee's there would be a jump, at which no step comes to rest. */
      network->loss[i] =
          link->cracking_head_m + network->tee_loss[i] + network->check_slope * network->flow[i];
      if (link->kind == NETWORK_PUMP) {
        double slope;
        network->loss[i] -=
            pump_curve_head (&link->pump.curve, link->pump.speed, link->pump.tolerance, 0.0, &slope);
      }
      network->slope[i] = network->check_slope;
    } else {
      network->loss[i] += network->tee_loss[i] + (link->check ? link->cracking_head_m : 0.0);
    }
  }
}

void
network_evaluate (Network *network)
{
  evaluate_pipes (network);
  evaluate_others (network);
  if (network->n_special > 0)
    evaluate_specials (network);
}

/* The beginning of a cold solve: what friction and local losses take together at 1 m/s. */
static void
place_start (Network *network, guint place)
{
  double area = network->pipe[place].creep_flow / FRICTION_CREEP_MS;
  double secant = network->start_friction[place] / area + network->pipe[place].local_gain * area;

  network->start_slope[place] = secant;
}

static HydraulicsStatus
prepare_pipe (Network *network, guint place, const NetworkLink *link)
{
  PipeRun run = link->pipe;

  if (isinf (run.k) && run.k > 0.0)
    run.k = 1.0; /* shut: the value does not matter, but must be one */
  if (run.length_m == 0.0 && run.k < LOCAL_K_LEAST && run.k >= 0.0)
    run.k = LOCAL_K_LEAST;
  HydraulicsStatus status =
      friction_prepare (&run, &network->fluid, &network->pipe[place], &network->friction_start[place]);
  if (status != HYDRAULICS_OK)
    return status;
  FrictionState state = network->friction_start[place];
  FrictionPipe smooth = network->pipe[place];
  double slope;
  smooth.local_gain = 0.0;
  network->friction[place] = network->friction_start[place];
  network->start_flow[place] = network->start_loss[place] = 0.0;
  network->start_friction[place] =
      friction_loss (&smooth, &state, FRICTION_STEP, G_PI_4 * run.bore_m * run.bore_m, &slope);
  place_start (network, place);
  if (!argument_is_positive (network->start_slope[place]))
    return HYDRAULICS_INVALID_ARGUMENT;
  network->slope_least[place] = 0.0;
  return HYDRAULICS_OK;
}

void
network_prepare_k (Network *network, guint place)
{
  const PipeRun *run = &network->links[network->link_of_place[place]].pipe;
  double area = network->pipe[place].creep_flow / FRICTION_CREEP_MS;
  double k = run->length_m == 0.0 && run->k < LOCAL_K_LEAST ? LOCAL_K_LEAST : run->k;

  network->pipe[place].local_gain = k / (2.0 * GRAVITY_M_S2 * area * area);
  place_start (network, place);
}

void
network_evaluate_pipe (Network *network, guint place)
{
  if (network->n_special > 0)
    network->is_evaluated = false;
  if (network->is_evaluated)
    network->loss[place] = friction_loss (&network->pipe[place], &network->friction[place], FRICTION_STEP,
                                          network->flow[place], &network->slope[place]);
}

static HydraulicsStatus
prepare_pump (Network *network, guint place, const PumpUnit *pump)
{
  PumpHead head;
  double end = pump->curve.flow_at_end_m3s * pump->tolerance;
  HydraulicsStatus status = pump_head (&pump->curve, pump->speed, pump->tolerance, 0.5 * end, &head);

  if ((status != HYDRAULICS_OK && status != HYDRAULICS_OUT_OF_RANGE) || !argument_is_positive (end) ||
      pump->curve.n_points > PUMP_POINTS_MAX)
    return HYDRAULICS_INVALID_ARGUMENT;
  double speed = pump->speed > 0.0 ? pump->speed : 1.0, flow = 0.6 * end * speed, slope;
  double mean = pump->tolerance * speed * pump->curve.a / end;
  network->start_flow[place] = flow;
  network->start_loss[place] = -pump_curve_head (&pump->curve, pump->speed, pump->tolerance, flow, &slope);
  network->slope_least[place] = FLAT_SHARE * mean;
  network->start_slope[place] = fmax (-slope, network->slope_least[place]);
  return HYDRAULICS_OK;
}

static HydraulicsStatus
prepare_device (Network *network, guint place, const LossCurve *curve)
{
  double head, slope, full_head;

  if (curve->n_points < 2 || curve->n_points > LOSS_POINTS_MAX)
    return HYDRAULICS_INVALID_ARGUMENT;
  double flow = curve->flow_m3s[curve->n_points - 1];
  if (!argument_is_positive (flow) || loss_curve_head (curve, flow, &full_head, &slope) != HYDRAULICS_OK ||
      loss_curve_head (curve, 0.5 * flow, &head, &slope) != HYDRAULICS_OK ||
      !argument_is_positive (full_head))
    return HYDRAULICS_INVALID_ARGUMENT;
  network->start_flow[place] = network->start_loss[place] = 0.0;
  network->slope_least[place] = FLAT_SHARE * full_head / flow;
  network->start_slope[place] = fmax (2.0 * head / flow, network->slope_least[place]);
  return HYDRAULICS_OK;
}

HydraulicsStatus
network_prepare_link (Network *network, guint place)
{
  const NetworkLink *link = &network->links[network->link_of_place[place]];
  HydraulicsStatus status = HYDRAULICS_INVALID_ARGUMENT;
  bool shut = link->shut;

  switch (link->kind) {
  case NETWORK_PIPE:
    status = prepare_pipe (network, place, link);
    shut |= isinf (link->pipe.k) != 0;
    break;
  case NETWORK_PUMP:
    status = prepare_pump (network, place, &link->pump);
    break;
  case NETWORK_DEVICE:
    status = prepare_device (network, place, &link->device);
    break;
  }
  if (status != HYDRAULICS_OK)
    return status;
  if (link->check) {
    if (!argument_is_not_negative (link->cracking_head_m))
      return HYDRAULICS_INVALID_ARGUMENT;
    network->start_loss[place] += link->cracking_head_m;
  }
  network->state[place] = shut ? LINK_SHUT : link->check ? LINK_CHECK : LINK_OPEN;
  return HYDRAULICS_OK;
}

void
network_list_specials (Network *network)
{
  network->n_special = 0;
  for (guint i = 0; i < network->n_links; i++) {
    bool in_tee = false;
    guint link = network->link_of_place[i];
    for (guint t = 0; t < network->n_tees; t++) {
      const NetworkTee *tee = &network->tees[t];
      in_tee |= tee->branch == link || tee->run[0] == link || tee->run[1] == link;
    }
    if (in_tee || network->links[link].check)
      network->special[network->n_special++] = i;
  }
}
