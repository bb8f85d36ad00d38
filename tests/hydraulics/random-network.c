/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "random-network.h"

#include <math.h>

static double
between (GRand *rand, double low, double high)
{
  return g_rand_double_range (rand, low, high);
}

static double
log_between (GRand *rand, double low, double high)
{
  return exp (between (rand, log (low), log (high)));
}

static bool
chance (GRand *rand, double share)
{
  return g_rand_double (rand) < share;
}

static PumpCurve
random_curve (GRand *rand)
{
  PumpCurve curve;
  double head = between (rand, 0.5, 12.0), flow = log_between (rand, 1e-4, 1e-2);

  if (chance (rand, 0.2)) {
    g_assert_cmpint (pump_curve_estimate (head, flow, &curve), ==, HYDRAULICS_OK);
  } else if (chance (rand, 0.5)) {
    double c = between (rand, 1.0, 3.0);
    g_assert_cmpint (pump_curve_from_power_law (head, head / pow (flow, c), c, &curve), ==, HYDRAULICS_OK);
  } else {
    double flows[PUMP_POINTS_MAX], heads[PUMP_POINTS_MAX] = {0.0};
    guint n = (guint) g_rand_int_range (rand, 2, PUMP_POINTS_MAX + 1);
    for (guint i = 0; i < n; i++) {
      flows[i] = flow * i / (n - 1);
      heads[i] = i == 0 ? head : heads[i - 1] * (chance (rand, 0.1) ? 1.0 : between (rand, 0.3, 1.0));
    }
    heads[n - 1] *= 0.5;
    g_assert_cmpint (pump_curve_from_points (n, flows, heads, &curve), ==, HYDRAULICS_OK);
  }
  return curve;
}

static LossCurve
random_device (GRand *rand)
{
  LossCurve curve;
  double flows[4], heads[4];
  guint n = (guint) g_rand_int_range (rand, 1, 5);

  for (guint i = 0; i < n; i++) {
    flows[i] = (i > 0 ? flows[i - 1] : 0.0) + log_between (rand, 1e-5, 1e-3);
    heads[i] = (i > 0 ? heads[i - 1] : 0.0) + between (rand, 0.01, 1.0);
  }
  g_assert_cmpint (loss_curve_from_points (n, flows, heads, &curve), ==, HYDRAULICS_OK);
  return curve;
}

static NetworkLink
random_link (GRand *rand, guint from, guint to, bool with_checks)
{
  double kind = g_rand_double (rand), bore = log_between (rand, 0.004, 0.1);
  NetworkLink link;

  if (kind < 0.12) {
    PumpCurve curve = random_curve (rand);
    link = network_link_pump (from, to, &curve, chance (rand, 0.1) ? 0.0 : between (rand, 0.3, 1.2),
                              between (rand, 0.85, 1.15));
  } else if (kind < 0.2) {
    LossCurve curve = random_device (rand);
    link = network_link_device (from, to, &curve);
  } else if (kind < 0.3) {
    link = network_link_valve (from, to, bore,
                               chance (rand, 0.1) ? (double) INFINITY : log_between (rand, 1e-3, 1e4));
  } else {
    link = network_link_pipe (from, to, between (rand, 0.0, 10.0), bore,
                              chance (rand, 0.3) ? 0.0 : bore * log_between (rand, 1e-6, 0.05),
                              chance (rand, 0.3) ? 0.0 : between (rand, 0.0, 40.0));
  }
  link.shut = chance (rand, 0.04);
  link.check = with_checks && chance (rand, 0.2);
  link.cracking_head_m = link.check && chance (rand, 0.5) ? between (rand, 0.0, 0.2) : 0.0;
  return link;
}

void
random_network_make (GRand *rand, RandomNetwork *ret_network)
{
  RandomNetwork made = {.fluid = {between (rand, 990.0, 1030.0), between (rand, 6e-4, 1.8e-3)}};
  guint n_links = (guint) g_rand_int_range (rand, 2, RANDOM_LINKS_MAX + 1);
  guint n_levels = (guint) g_rand_int_range (rand, 1, 6);
  guint n_junctions = (guint) g_rand_int_range (rand, 1, (gint32) n_links + 1);
  bool with_outflows = chance (rand, 0.2);

  made.n_nodes = n_levels + n_junctions;
  for (guint i = 0; i < made.n_nodes; i++) {
    if (i < n_levels)
      made.nodes[i] = (NetworkNode){.kind = NETWORK_LEVEL, .level_m = between (rand, -1.0, 3.0)};
    else
      made.nodes[i] = (NetworkNode){
          .kind = NETWORK_JUNCTION,
          .outflow_m3s = with_outflows && chance (rand, 0.3) ? between (rand, -1e-4, 1e-4) : 0.0};
  }
  for (guint i = 0; i < n_links; i++) {
    /* The first links join every junction to one before it, the others close loops. */
    guint to = i < n_junctions ? n_levels + i : (guint) g_rand_int_range (rand, 0, (gint32) made.n_nodes);
    guint from = (guint) g_rand_int_range (rand, 0, (gint32) (i < n_junctions ? to : made.n_nodes));
    while (from == to)
      from = (guint) g_rand_int_range (rand, 0, (gint32) made.n_nodes);
    bool turned = chance (rand, 0.5);
    made.links[i] = random_link (rand, turned ? to : from, turned ? from : to, !with_outflows);
  }
  made.n_links = n_links;
  *ret_network = made;
}

static bool
is_shut (const NetworkLink *link)
{
  return link->shut || (link->kind == NETWORK_PIPE && isinf (link->pipe.k) != 0);
}

/* The loss along a link by its own public function, at the flow that was found. */
static double
own_loss (const RandomNetwork *random, const NetworkLink *link, double flow)
{
  PipeLoss loss;
  PumpHead head;
  double device_head, slope;
  HydraulicsStatus status;

  switch (link->kind) {
  case NETWORK_PUMP:
    status = pump_head (&link->pump.curve, link->pump.speed, link->pump.tolerance, flow, &head);
    g_assert_true (status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE);
    return -head.head_m;
  case NETWORK_DEVICE:
    status = loss_curve_head (&link->device, flow, &device_head, &slope);
    g_assert_true (status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE);
    return device_head;
  case NETWORK_PIPE:
    break;
  }
  PipeRun run = link->pipe;
  if (run.length_m == 0.0)
    run.k = fmax (run.k, 1e-3);
  g_assert_cmpint (pipe_loss (&run, &random->fluid, flow, &loss), ==, HYDRAULICS_OK);
  return loss.head_m;
}

static void
check_link (const RandomNetwork *random, const Network *network, guint i, double scale)
{
  const NetworkLink *link = &random->links[i];
  double flow = network_flow (network, i), lost = network_loss (network, i);

  if (is_shut (link)) {
    g_assert_true (flow == 0.0);
  } else if (network_check_is_shut (network, i)) {
    g_assert_true (link->check && flow == 0.0);
    g_assert_cmpfloat (lost, <=, link->cracking_head_m + own_loss (random, link, 0.0) + 2e-9 * scale);
  } else {
    double own = own_loss (random, link, flow) + (link->check ? link->cracking_head_m : 0.0);
    g_assert_cmpfloat (fabs (own - lost), <=, 2e-9 * scale);
    g_assert_true (!link->check || flow > 0.0);
  }
}

static double
check_balances (const RandomNetwork *random, const Network *network)
{
  double sum[RANDOM_NODES_MAX] = {0.0}, largest = 0.0, worst = 0.0;

  for (guint i = 0; i < random->n_links; i++) {
    double flow = network_flow (network, i);
    sum[random->links[i].from] -= flow;
    sum[random->links[i].to] += flow;
    largest = fmax (largest, fabs (flow));
  }
  for (guint i = 0; i < random->n_nodes; i++) {
    if (random->nodes[i].kind == NETWORK_JUNCTION) {
      worst = fmax (worst, fabs (sum[i] - random->nodes[i].outflow_m3s));
      largest = fmax (largest, fabs (random->nodes[i].outflow_m3s));
    }
  }
  g_assert_cmpfloat (worst, <=, 1e-9 * largest + 1e-15);
  return largest > 1e-5 ? worst / largest : 0.0; /* below, 1e-15 m3/s is the limit */
}

static double
head_scale (const RandomNetwork *random)
{
  double low = INFINITY, high = -INFINITY, pumps = 0.0;

  for (guint i = 0; i < random->n_nodes; i++) {
    if (random->nodes[i].kind == NETWORK_LEVEL) {
      low = fmin (low, random->nodes[i].level_m);
      high = fmax (high, random->nodes[i].level_m);
    }
  }
  for (guint i = 0; i < random->n_links; i++) {
    const PumpUnit *pump = &random->links[i].pump;
    if (random->links[i].kind == NETWORK_PUMP)
      pumps += pump->tolerance * pump->speed * pump->speed * pump->curve.a;
  }
  return fmax (1.0, high - low + pumps);
}

/* Whether ways of links that are not shut join the node to a level. */
static bool
is_fed (const RandomNetwork *random, guint node)
{
  bool fed[RANDOM_NODES_MAX];

  for (guint i = 0; i < random->n_nodes; i++)
    fed[i] = random->nodes[i].kind == NETWORK_LEVEL;
  for (guint round = 0; round < random->n_nodes; round++) {
    for (guint i = 0; i < random->n_links; i++) {
      const NetworkLink *link = &random->links[i];
      if (!is_shut (link) && fed[link->from] != fed[link->to])
        fed[link->from] = fed[link->to] = true;
    }
  }
  return fed[node];
}

static void
check_more_resistance (GRand *rand, const RandomNetwork *random, Network *network, double scale)
{
  guint link = (guint) g_rand_int_range (rand, 0, (gint32) random->n_links);
  double before = fabs (network_flow (network, link));

  if (random->links[link].kind != NETWORK_PIPE || is_shut (&random->links[link]))
    return;
  double k = fmax (random->links[link].pipe.k, 1e-3) * log_between (rand, 1.0, 100.0) + 0.1;
  g_assert_cmpint (network_set_k (network, link, k), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_solve (network), ==, HYDRAULICS_OK);
  RandomNetwork changed = *random;
  changed.links[link].pipe.k = k;
  for (guint i = 0; i < random->n_links; i++)
    check_link (&changed, network, i, scale);
  g_assert_cmpfloat (fabs (network_flow (network, link)), <=, before * (1.0 + 1e-6) + 1e-10);
}

void
random_network_check (GRand *rand, const RandomNetwork *random, RandomTally *tally)
{
  g_autoptr (Network) network = NULL;
  double scale = head_scale (random);

  g_assert_cmpint (network_new (random->nodes, random->n_nodes, random->links, random->n_links, NULL, 0,
                                &random->fluid, &network, NULL),
                   ==, HYDRAULICS_OK);
  HydraulicsStatus status = network_solve (network);
  const NetworkStatistics *statistics = network_statistics (network);
  if (status == HYDRAULICS_NO_SOLUTION) {
    g_assert_cmpint (statistics->fault.kind, ==, NETWORK_FAULT_CUT_OFF);
    g_assert_true (random->nodes[statistics->fault.node].outflow_m3s != 0.0);
    g_assert_false (is_fed (random, statistics->fault.node));
    tally->cut_off++;
    return;
  }
  g_assert_cmpint (status, ==, HYDRAULICS_OK);
  tally->solved++;
  tally->iterations += statistics->iterations;
  tally->iterations_most = MAX (tally->iterations_most, statistics->iterations);
  tally->worst_balance = fmax (tally->worst_balance, check_balances (random, network));
  for (guint i = 0; i < random->n_links; i++)
    check_link (random, network, i, scale);
  check_more_resistance (rand, random, network, scale);
}

void
random_networks_check (guint32 seed, guint count)
{
  RandomTally tally = {0};

  for (guint i = 0; i < count; i++) {
    /* A seed of its own for each, so that one that fails can be made again alone. */
    GRand *rand = g_rand_new_with_seed (seed + i);
    RandomNetwork random;
    random_network_make (rand, &random);
    g_test_message ("network of seed %u: %u links, %u nodes", seed + i, random.n_links, random.n_nodes);
    random_network_check (rand, &random, &tally);
    g_rand_free (rand);
  }
  g_test_message (
      "%u networks solved with %.2f iterations in the mean and %u at most, %u cut off; worst balance %.1e",
      tally.solved, (double) tally.iterations / tally.solved, tally.iterations_most, tally.cut_off,
      tally.worst_balance);
}
