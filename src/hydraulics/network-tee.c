/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/argument.h"
#include "hydraulics/network-private.h"

/* One leg of a tee: a link, and whether the link points away from the tee. */
typedef struct {
  guint place;
  bool points_away;
  double into_tee; /* flow, m3/s */
} Leg;

static Leg
leg_of (const Network *network, guint node, guint link)
{
  Leg leg = {.place = network->place_of_link[link], .points_away = network->links[link].from == node};

  leg.into_tee = leg.points_away ? -network->flow[leg.place] : network->flow[leg.place];
  return leg;
}

/* Flow runs by the branch into or out of both ends of the run: outside Crane's cases, so each leg of the run has the
 * loss of a tee through its branch on its own velocity. */
static double
through_branch_loss (const NetworkTee *tee, double k, double flow)
{
  double area = G_PI_4 * tee->run_m * tee->run_m;

  return k * flow * flow / (2.0 * GRAVITY_M_S2 * area * area);
}

/* Losses of the straight leg and of the branch, along the flow, when leg @whole of the run carries all. */
static bool
losses_by_split (const NetworkTee *tee, TeeFlow flow, guint whole, double straight, double branch,
                 double *ret_straight_m, double *ret_branch_m)
{
  TeeLoss k;
  double angle = whole == 0 ? tee->angle_deg : 90.0;
  double area = G_PI_4 * tee->run_m * tee->run_m, velocity = (straight + branch) / area;
  double velocity_head = velocity * velocity / (2.0 * GRAVITY_M_S2);

  if (tee_k (flow, tee->run_m, tee->branch_m, straight, branch, angle, &k) != HYDRAULICS_OK)
    return false;
  *ret_straight_m = k.run_k * velocity_head;
  *ret_branch_m = k.branch_k * velocity_head;
  return true;
}

/* Losses of the three legs (run 0, run 1, branch), along their flow. */
static void
losses_of_legs (const NetworkTee *tee, double branch_k, const Leg legs[3], double ret_losses[3])
{
  guint n_in = 0;

  ret_losses[0] = ret_losses[1] = ret_losses[2] = 0.0;
  for (guint i = 0; i < 3; i++)
    n_in += legs[i].into_tee > 0.0;
  if (n_in != 1 && n_in != 2)
    return;
  TeeFlow flow = n_in == 1 ? TEE_DIVERGING : TEE_CONVERGING;
  for (guint whole = 0; whole < 3; whole++) {
    if ((legs[whole].into_tee > 0.0) != (n_in == 1))
      continue;
    if (whole == 2) {
      ret_losses[0] = through_branch_loss (tee, branch_k, legs[0].into_tee);
      ret_losses[1] = through_branch_loss (tee, branch_k, legs[1].into_tee);
      return;
    }
    losses_by_split (tee, flow, whole, fabs (legs[1 - whole].into_tee), fabs (legs[2].into_tee),
                     &ret_losses[1 - whole], &ret_losses[2]);
    return;
  }
}

/* Moves a held loss towards the one that goes with the flows. Where the two change sides from one round to the next, the
 * way is halved; at a flow about which the loss jumps (a branch that stands still) the held value so closes in on the one
 * that keeps the flow there. Returns the way that was gone. */
static double
move_held (NetworkTeeEnd *end, double wanted, double growth)
{
  double distance = wanted - end->loss_m;

  if (distance * end->last_distance < 0.0)
    end->share *= 0.5;
  else if (end->share < 1.0)
    end->share = fmin (1.0, growth * end->share);
  end->last_distance = distance;
  end->loss_m += end->share * distance;
  return fabs (end->share * distance);
}

double
network_update_tees (Network *network, double growth, guint *ret_node)
{
  double worst = 0.0;

  for (guint t = 0; t < network->n_tees; t++) {
    const NetworkTee *tee = &network->tees[t];
    Leg legs[3] = {leg_of (network, tee->node, tee->run[0]), leg_of (network, tee->node, tee->run[1]),
                   leg_of (network, tee->node, tee->branch)};
    double losses[3];
    losses_of_legs (tee, network->tee_branch_k[t], legs, losses);
    for (guint i = 0; i < 3; i++) {
      guint place = legs[i].place;
      NetworkTeeEnd *ends = network->tee_ends[place];
      double along_link = network->flow[place] < 0.0 ? -losses[i] : losses[i];
      double way = move_held (&ends[legs[i].points_away ? 0 : 1], along_link, growth);
      network->tee_loss[place] = ends[0].loss_m + ends[1].loss_m;
      if (way > worst) {
        worst = way;
        *ret_node = tee->node;
      }
    }
  }
  return worst;
}

void
network_forget_tees (Network *network, bool losses_too)
{
  for (guint j = 0; j < network->n_special; j++) {
    guint place = network->special[j];
    for (guint i = 0; i < 2; i++) {
      NetworkTeeEnd *end = &network->tee_ends[place][i];
      *end = (NetworkTeeEnd){.loss_m = losses_too ? 0.0 : end->loss_m, .share = 1.0};
    }
    network->tee_loss[place] = network->tee_ends[place][0].loss_m + network->tee_ends[place][1].loss_m;
  }
}

bool
network_tee_is_valid (const Network *network, const NetworkTee *tee)
{
  const guint links[3] = {tee->run[0], tee->run[1], tee->branch};
  guint n_at_node = 0;
  TeeLoss unused;

  if (tee->node >= network->n_nodes || network->nodes[tee->node].kind != NETWORK_JUNCTION ||
      links[0] == links[1] || links[0] == links[2] || links[1] == links[2])
    return false;
  for (guint i = 0; i < 3; i++) {
    if (links[i] >= network->n_links)
      return false;
    const NetworkLink *link = &network->links[links[i]];
    if (link->from != tee->node && link->to != tee->node)
      return false;
  }
  for (guint i = 0; i < network->n_links; i++)
    n_at_node += network->links[i].from == tee->node || network->links[i].to == tee->node;
  return n_at_node == 3 &&
         tee_k (TEE_DIVERGING, tee->run_m, tee->branch_m, 1.0, 1.0, tee->angle_deg, &unused) == HYDRAULICS_OK;
}
