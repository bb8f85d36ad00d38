/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "random-network.h"

#include <math.h>

static const Fluid water = {998.2, 1.002e-3};

static PumpCurve
usual_curve (void)
{
  PumpCurve curve;

  g_assert_cmpint (pump_curve_from_three_points ((const double[]){0.0, 0.8e-3, 1.4e-3},
                                                 (const double[]){3.0, 2.2, 0.5}, &curve),
                   ==, HYDRAULICS_OK);
  return curve;
}

static Network *
compiled (const NetworkNode *nodes, guint n_nodes, const NetworkLink *links, guint n_links)
{
  Network *network = NULL;

  g_assert_cmpint (network_new (nodes, n_nodes, links, n_links, NULL, 0, &water, &network, NULL), ==,
                   HYDRAULICS_OK);
  return network;
}

static void
solve (Network *network)
{
  g_assert_cmpint (network_solve (network), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_statistics (network)->fault.kind, ==, NETWORK_FAULT_NONE);
}

static NetworkNode
level (double level_m)
{
  return (NetworkNode){.kind = NETWORK_LEVEL, .level_m = level_m};
}

static const NetworkNode junction = {.kind = NETWORK_JUNCTION};

/* A pump and one pipe are the bracketed operating point. */
static void
test_one_loop_is_the_operating_point (void)
{
  PumpCurve curve = usual_curve ();
  PumpUnit pump = {curve, 0.9, 0.95};
  PumpLoop loop = {{2.5, 0.0266, 1.5e-6, 5.0}, water, 0.9};
  const NetworkNode nodes[] = {level (0.2), junction, level (1.1)};
  const NetworkLink links[] = {network_link_pump (0, 1, &curve, 0.9, 0.95),
                               network_link_pipe (1, 2, 2.5, 0.0266, 1.5e-6, 5.0)};
  g_autoptr (Network) network = compiled (nodes, 3, links, 2);
  OperatingPoint point;

  g_assert_true (isnan (network_flow (network, 0)));
  solve (network);
  g_assert_cmpint (pump_operating_point (&pump, &loop, &point), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (network_flow (network, 1) / point.flow_m3s - 1.0), <, 1e-9);
  g_assert_cmpfloat (fabs (network_head (network, 1) - 0.2 - point.head_m), <, 1e-8);
  g_assert_cmpfloat (fabs (network_level_inflow (network, 2) / point.flow_m3s - 1.0), <, 1e-9);
  g_assert_cmpint (network_pump_range (network, 0), ==, PUMP_ON_CURVE);
}

static void
test_equal_branches_share_equally (void)
{
  PumpCurve curve = usual_curve ();
  const NetworkNode nodes[] = {level (0.0), junction, junction, level (1.0)};
  NetworkLink links[5] = {
      network_link_pump (0, 1, &curve, 1.0, 1.0), network_link_pipe (1, 2, 1.0, 0.02, 1.5e-6, 2.0),
      network_link_pipe (2, 1, 1.0, 0.02, 1.5e-6, 2.0), network_link_pipe (1, 2, 1.0, 0.02, 1.5e-6, 2.0),
      network_link_pipe (2, 3, 1.0, 0.03, 1.5e-6, 2.0)};
  g_autoptr (Network) network = compiled (nodes, 4, links, 5);

  solve (network);
  double share = network_flow (network, 0) / 3.0;
  g_assert_cmpfloat (fabs (network_flow (network, 1) / share - 1.0), <, 1e-9);
  g_assert_cmpfloat (fabs (network_flow (network, 2) / share + 1.0), <, 1e-9);
  g_assert_cmpfloat (fabs (network_flow (network, 3) / share - 1.0), <, 1e-9);
}

/* A pipe cut into pieces carries what the whole one does, and still when a piece, the fluid or a level is changed. */
static void
test_pieces_are_the_whole (void)
{
  const NetworkNode nodes[] = {level (1.0), junction, junction, level (0.0)},
                    ends[] = {level (1.0), level (0.0)};
  const NetworkLink pieces[] = {network_link_pipe (0, 1, 0.5, 0.02, 1.5e-6, 1.0),
                                network_link_pipe (2, 1, 0.7, 0.02, 1.5e-6, 2.0),
                                network_link_pipe (2, 3, 0.8, 0.02, 1.5e-6, 3.0)};
  const NetworkLink whole = network_link_pipe (0, 1, 2.0, 0.02, 1.5e-6, 6.0);
  g_autoptr (Network) cut = compiled (nodes, 4, pieces, 3);
  g_autoptr (Network) one = compiled (ends, 2, &whole, 1);

  for (guint i = 0; i < 20; i++) {
    Fluid fluid = {1000.0, 1e-3 * (1.0 + 0.05 * (i % 5))};
    g_assert_cmpint (network_set_fluid (cut, &fluid), ==, HYDRAULICS_OK);
    g_assert_cmpint (network_set_fluid (one, &fluid), ==, HYDRAULICS_OK);
    g_assert_cmpint (network_set_level (cut, 3, -0.1 * i), ==, HYDRAULICS_OK);
    g_assert_cmpint (network_set_level (one, 1, -0.1 * i), ==, HYDRAULICS_OK);
    solve (cut);
    solve (one);
    for (guint j = 0; j < 3; j++)
      g_assert_cmpfloat (fabs (fabs (network_flow (cut, j) / network_flow (one, 0)) - 1.0), <, 1e-9);
  }
  PipeRun rough = {0.7, 0.02, 5e-4, 2.0};
  PipeLoss loss;
  g_assert_cmpint (network_set_pipe (cut, 1, &rough), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_set_fluid (cut, &water), ==, HYDRAULICS_OK);
  solve (cut);
  g_assert_cmpint (pipe_loss (&rough, &water, network_flow (cut, 1), &loss), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (fabs (network_loss (cut, 1) - loss.head_m), <, 1e-8);
}

/* A patched network solved warm is the network made so in the first place. */
static void
test_warm_is_cold (void)
{
  PumpCurve curve = usual_curve ();
  const NetworkNode nodes[] = {level (0.0), junction, junction, level (1.0), level (1.2)};
  NetworkLink links[5] = {
      network_link_pump (0, 1, &curve, 1.0, 1.0), network_link_pipe (1, 2, 1.0, 0.0266, 1.5e-6, 2.0),
      network_link_pipe (2, 3, 1.0, 0.02, 1.5e-6, 2.0), network_link_pipe (2, 4, 1.5, 0.02, 1.5e-6, 2.0),
      network_link_valve (1, 0, 0.016, 50.0)};
  g_autoptr (Network) warm = compiled (nodes, 5, links, 5);

  solve (warm);
  for (guint i = 0; i < 200; i++) {
    double k = 10.0 + 7.0 * (i % 13), speed = 0.6 + 0.05 * (i % 9), top = 0.8 + 0.1 * (i % 5);
    bool shut = i % 4 == 3;
    g_assert_cmpint (network_set_k (warm, 4, k), ==, HYDRAULICS_OK);
    g_assert_cmpint (network_set_speed (warm, 0, speed), ==, HYDRAULICS_OK);
    g_assert_cmpint (network_set_level (warm, 3, top), ==, HYDRAULICS_OK);
    g_assert_cmpint (network_set_shut (warm, 3, shut), ==, HYDRAULICS_OK);
    solve (warm);
    g_autoptr (Network) cold = network_copy (warm);
    network_reset (cold);
    solve (cold);
    for (guint link = 0; link < 5; link++)
      g_assert_cmpfloat (fabs (network_flow (warm, link) - network_flow (cold, link)), <, 1e-11);
    g_assert_true (!shut || network_flow (warm, 3) == 0.0);
  }
}

static void
test_check_valve_opens_at_its_cracking_head (void)
{
  const NetworkNode nodes[] = {level (1.0), level (0.0)};
  NetworkLink link = network_link_pipe (0, 1, 1.0, 0.02, 1.5e-6, 2.0);
  link.check = true;
  link.cracking_head_m = 0.05;
  g_autoptr (Network) network = compiled (nodes, 2, &link, 1);

  for (guint n = 0; n < 200; n++) {
    double top = -1.0 + 0.01 * n;
    double flow;
    g_assert_cmpint (network_set_level (network, 0, top), ==, HYDRAULICS_OK);
    solve (network);
    g_assert_cmpint (network_check_is_shut (network, 0), ==, top < 0.05 + 1e-9);
    if (network_check_is_shut (network, 0)) {
      g_assert_true (network_flow (network, 0) == 0.0);
      continue;
    }
    g_assert_cmpint (pipe_flow_at_loss (&link.pipe, &water, top - 0.05, &flow), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (fabs (network_flow (network, 0) / flow - 1.0), <, 1e-6);
  }
}

static void
test_outflow_is_fed (void)
{
  NetworkNode nodes[] = {level (1.0), {.kind = NETWORK_JUNCTION, .outflow_m3s = 3e-4}};
  const NetworkLink link = network_link_pipe (0, 1, 1.0, 0.02, 1.5e-6, 2.0);
  g_autoptr (Network) network = compiled (nodes, 2, &link, 1);

  solve (network);
  g_assert_cmpfloat (fabs (network_flow (network, 0) - 3e-4), <, 1e-15);
  g_assert_cmpint (network_set_shut (network, 0, true), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_solve (network), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (network_statistics (network)->fault.kind, ==, NETWORK_FAULT_CUT_OFF);
  g_assert_cmpuint (network_statistics (network)->fault.node, ==, 1);
  g_assert_true (isnan (network_flow (network, 0)) && isnan (network_head (network, 1)));
  g_assert_cmpint (network_set_outflow (network, 1, 0.0), ==, HYDRAULICS_OK);
  solve (network);
  g_assert_true (network_node_is_cut_off (network, 1));
  /* a check valve that faces the wrong way feeds nothing either */
  g_assert_cmpint (network_set_shut (network, 0, false), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_set_check (network, 0, true, 0.0), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_set_outflow (network, 1, -1e-4), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_solve (network), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpuint (network_statistics (network)->fault.node, ==, 1);
}

/* The tee's K at the split that comes out, put into links of fixed K, gives the same flows. */
static void
test_tee_follows_the_split (void)
{
  const double run = 0.0266446, velocity_head_per_flow2 = 1.0 / (2.0 * 9.80665 * pow (G_PI_4 * run * run, 2));
  PumpCurve curve = usual_curve ();
  const NetworkNode nodes[] = {level (0.0), junction, junction, level (1.0), level (0.6)};
  NetworkLink links[] = {
      network_link_pump (0, 1, &curve, 1.0, 1.0), network_link_pipe (1, 2, 1.0, run, 1.5e-6, 2.0),
      network_link_pipe (2, 3, 1.0, run, 1.5e-6, 2.0), network_link_pipe (4, 2, 1.0, run, 1.5e-6, 6.0)};
  const NetworkTee tee = {
      .node = 2, .run = {1, 2}, .branch = 3, .run_m = run, .branch_m = run, .angle_deg = 90.0};
  g_autoptr (Network) network = NULL;
  TeeLoss k;

  g_assert_cmpint (network_new (nodes, 5, links, 4, &tee, 1, &water, &network, NULL), ==, HYDRAULICS_OK);
  solve (network);
  double straight = network_flow (network, 2), branch = -network_flow (network, 3),
         whole = network_flow (network, 1);
  g_assert_cmpfloat (branch, >, 0.0);
  g_assert_cmpint (tee_k (TEE_DIVERGING, run, run, straight, branch, 90.0, &k), ==, HYDRAULICS_OK);
  PipeLoss own;
  g_assert_cmpint (pipe_loss (&links[2].pipe, &water, straight, &own), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (
      fabs (network_loss (network, 2) - own.head_m - k.run_k * whole * whole * velocity_head_per_flow2), <,
      3e-7);
  g_assert_cmpint (pipe_loss (&links[3].pipe, &water, -branch, &own), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (
      fabs (network_loss (network, 3) - own.head_m + k.branch_k * whole * whole * velocity_head_per_flow2), <,
      3e-7);
}

/* Any split, either direction, with the combined flow in any leg: an answer or a named tee. */
static void
test_tees_come_to_rest (void)
{
  guint hunting = 0;

  for (guint i = 0; i < 2000; i++) {
    GRand *rand = g_rand_new_with_seed (4000 + i);
    const NetworkNode nodes[] = {level (g_rand_double (rand)), level (g_rand_double (rand)),
                                 level (g_rand_double (rand)), junction};
    NetworkLink links[3];
    for (guint j = 0; j < 3; j++)
      links[j] = network_link_pipe (j, 3, g_rand_double_range (rand, 0.1, 3.0), 0.0266, 1.5e-6,
                                    g_rand_double_range (rand, 1.5, 10.0));
    const NetworkTee tee = {
        3, {0, 1}, 2, 0.0266, g_rand_boolean (rand) ? 0.0266 : 0.0209, g_rand_boolean (rand) ? 90.0 : 45.0};
    g_autoptr (Network) network = NULL;
    g_assert_cmpint (network_new (nodes, 4, links, 3, &tee, 1, &water, &network, NULL), ==, HYDRAULICS_OK);
    if (network_solve (network) != HYDRAULICS_OK) {
      g_assert_cmpint (network_statistics (network)->fault.kind, ==, NETWORK_FAULT_TEE_HUNTING);
      g_assert_cmpuint (network_statistics (network)->fault.node, ==, 3);
      hunting++;
    }
    g_rand_free (rand);
  }
  g_test_message ("%u of 2000 tees hunt", hunting);
  g_assert_cmpuint (hunting, <=, 4);
}

/* One pump and random pipes in series and in parallel: whatever is added to any pipe, the pump gives no more. */
static void
grow (GRand *rand, guint from, guint to, guint depth, NetworkLink *links, guint *n_links, guint *n_nodes)
{
  if (depth == 0 || *n_links > 24) {
    links[(*n_links)++] = network_link_pipe (from, to, g_rand_double_range (rand, 0.1, 3.0),
                                             g_rand_double_range (rand, 0.01, 0.04), 1.5e-6,
                                             g_rand_double_range (rand, 0.0, 10.0));
  } else if (g_rand_boolean (rand)) {
    guint middle = (*n_nodes)++;
    grow (rand, from, middle, depth - 1, links, n_links, n_nodes);
    grow (rand, middle, to, depth - 1, links, n_links, n_nodes);
  } else {
    grow (rand, from, to, depth - 1, links, n_links, n_nodes);
    grow (rand, from, to, depth - 1, links, n_links, n_nodes);
  }
}

static void
test_more_resistance_gives_no_more (void)
{
  PumpCurve curve = usual_curve ();

  for (guint32 seed = 0; seed < 300; seed++) {
    GRand *rand = g_rand_new_with_seed (seed);
    NetworkLink links[64];
    NetworkNode nodes[64];
    guint n_links = 0, n_nodes = 3;
    links[n_links++] = network_link_pump (0, 1, &curve, 1.0, 1.0);
    grow (rand, 1, 2, 4, links, &n_links, &n_nodes);
    for (guint i = 0; i < n_nodes; i++)
      nodes[i] = i == 0 ? level (0.0) : i == 2 ? level (1.0) : junction;
    g_autoptr (Network) network = compiled (nodes, n_nodes, links, n_links);
    solve (network);
    for (guint i = 1; i < n_links; i++) {
      double before = network_flow (network, 0), own = fabs (network_flow (network, i));
      g_assert_cmpint (network_set_k (network, i, links[i].pipe.k + g_rand_double_range (rand, 0.1, 100.0)),
                       ==, HYDRAULICS_OK);
      solve (network);
      g_assert_cmpfloat (network_flow (network, 0), <=, before * (1.0 + 1e-9));
      g_assert_cmpfloat (fabs (network_flow (network, i)), <=, own * (1.0 + 1e-8) + 1e-14);
    }
    g_rand_free (rand);
  }
}

/* Geometry, levels and roughness times s, flows times s^2.5, viscosity times s^1.5: the same Froude and Reynolds
 * numbers, so the same network. */
static void
test_scales_with_froude (void)
{
  const double s = 3.0;
  const Fluid thick = {water.density_kgm3, water.dynamic_viscosity_pas * pow (s, 1.5)};
  const NetworkNode small[] = {level (1.0), junction, level (0.0), level (0.3)},
                    large[] = {level (s), junction, level (0.0), level (0.3 * s)};
  NetworkLink small_links[3], large_links[3];
  g_autoptr (Network) a = NULL;
  g_autoptr (Network) b = NULL;

  for (guint i = 0; i < 3; i++) {
    guint from = i == 0 ? 0 : 1, to = i == 0 ? 1 : i + 1;
    small_links[i] = network_link_pipe (from, to, 1.0 + i, 0.02, 1e-5, 1.0);
    large_links[i] = network_link_pipe (from, to, (1.0 + i) * s, 0.02 * s, 1e-5 * s, 1.0);
  }
  g_assert_cmpint (network_new (small, 4, small_links, 3, NULL, 0, &water, &a, NULL), ==, HYDRAULICS_OK);
  g_assert_cmpint (network_new (large, 4, large_links, 3, NULL, 0, &thick, &b, NULL), ==, HYDRAULICS_OK);
  solve (a);
  solve (b);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpfloat (fabs (network_flow (b, i) / network_flow (a, i) / pow (s, 2.5) - 1.0), <, 1e-8);
}

static void
check_fault (const NetworkNode *nodes, guint n_nodes, NetworkLink link, HydraulicsStatus status,
             NetworkFaultKind kind)
{
  Network *network = NULL;
  NetworkFault fault = {NETWORK_FAULT_NONE, 0, 0};

  g_assert_cmpint (network_new (nodes, n_nodes, &link, 1, NULL, 0, &water, &network, &fault), ==, status);
  g_assert_cmpint (fault.kind, ==, kind);
  g_assert_null (network);
}

static void
test_faults_are_named (void)
{
  const NetworkNode good[] = {level (1.0), level (0.0)}, apart[] = {level (1.0), level (0.0), junction},
                    loose[] = {junction, junction}, bad[] = {level (NAN), level (0.0)};
  NetworkLink link = network_link_pipe (0, 1, 1.0, 0.02, 1.5e-6, 2.0), wrong = link, check = link;

  check_fault (apart, 3, link, HYDRAULICS_SINGULAR, NETWORK_FAULT_DISCONNECTED);
  check_fault (loose, 2, link, HYDRAULICS_SINGULAR, NETWORK_FAULT_NO_LEVEL);
  check_fault (bad, 2, link, HYDRAULICS_INVALID_ARGUMENT, NETWORK_FAULT_BAD_NODE);
  wrong.pipe.bore_m = -0.02;
  check_fault (good, 2, wrong, HYDRAULICS_INVALID_ARGUMENT, NETWORK_FAULT_BAD_LINK);
  wrong = link;
  wrong.to = 7;
  check_fault (good, 2, wrong, HYDRAULICS_INVALID_ARGUMENT, NETWORK_FAULT_BAD_LINK);
  wrong = link;
  wrong.kind = NETWORK_PUMP;
  check_fault (good, 2, wrong, HYDRAULICS_INVALID_ARGUMENT, NETWORK_FAULT_BAD_LINK);
  wrong.kind = NETWORK_DEVICE;
  check_fault (good, 2, wrong, HYDRAULICS_INVALID_ARGUMENT, NETWORK_FAULT_BAD_LINK);
  check.check = true;
  check.cracking_head_m = -1.0;
  check_fault (good, 2, check, HYDRAULICS_INVALID_ARGUMENT, NETWORK_FAULT_BAD_LINK);
}

static void
test_bad_patches_change_nothing (void)
{
  const NetworkNode nodes[] = {level (1.0), level (0.0)};
  NetworkLink link = network_link_pipe (0, 1, 1.0, 0.02, 1.5e-6, 2.0);
  g_autoptr (Network) network = compiled (nodes, 2, &link, 1);

  solve (network);
  double flow = network_flow (network, 0);
  g_assert_cmpint (network_set_k (network, 0, NAN), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_k (network, 0, -1.0), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_k (network, 1, 1.0), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_speed (network, 0, 1.0), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_level (network, 0, INFINITY), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_outflow (network, 0, 1.0), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_fluid (network, &(Fluid){-1.0, 1.0}), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (network_set_pipe (network, 0, &(PipeRun){1.0, 0.02, 0.01, 1.0}), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  solve (network);
  g_assert_cmpfloat (fabs (network_flow (network, 0) / flow - 1.0), <, 1e-9);
  g_assert_cmpint (network_set_k (network, 0, INFINITY), ==, HYDRAULICS_OK);
  solve (network);
  g_assert_true (network_flow (network, 0) == 0.0);
  g_assert_cmpint (network_set_k (network, 0, 2.0), ==, HYDRAULICS_OK);
  solve (network);
  g_assert_cmpfloat (fabs (network_flow (network, 0) / flow - 1.0), <, 1e-9);
}

static void
test_random_networks (void)
{
  random_networks_check (1, g_test_slow () ? 100000 : 2000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/network/one-loop-is-the-operating-point", test_one_loop_is_the_operating_point);
  g_test_add_func ("/network/equal-branches-share-equally", test_equal_branches_share_equally);
  g_test_add_func ("/network/pieces-are-the-whole", test_pieces_are_the_whole);
  g_test_add_func ("/network/warm-is-cold", test_warm_is_cold);
  g_test_add_func ("/network/check-valve-opens-at-its-cracking-head",
                   test_check_valve_opens_at_its_cracking_head);
  g_test_add_func ("/network/outflow-is-fed", test_outflow_is_fed);
  g_test_add_func ("/network/tee-follows-the-split", test_tee_follows_the_split);
  g_test_add_func ("/network/tees-come-to-rest", test_tees_come_to_rest);
  g_test_add_func ("/network/more-resistance-gives-no-more", test_more_resistance_gives_no_more);
  g_test_add_func ("/network/scales-with-froude", test_scales_with_froude);
  g_test_add_func ("/network/faults-are-named", test_faults_are_named);
  g_test_add_func ("/network/bad-patches-change-nothing", test_bad_patches_change_nothing);
  g_test_add_func ("/network/random-networks", test_random_networks);
  return g_test_run ();
}
