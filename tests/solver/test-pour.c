/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Water poured into chambers: no litre is lost, it lies level where it is joined, and it spills over the lowest edge. */
#include "solver/model.h"
#include "tests/solver/fixture.h"

#define CHAMBERS 4
#define TRIALS   500

/* Chambers of 0.1 m2 and 0.4 m height, nothing standing in them, edges and gaps as given. */
static System *
make_sump (const double *crest_z, const double *gap_m)
{
  System *system = g_new0 (System, 1);

  system->n_chambers = CHAMBERS;
  for (unsigned i = 0; i < CHAMBERS; i++)
    system->chambers[i] = (ChamberModel){.area_m2 = 0.1, .length_m = 0.25, .rim_z = 0.4};
  for (unsigned i = 0; i + 1 < CHAMBERS; i++)
    system->baffles[i] =
        (BaffleModel){.crest_z = crest_z[i], .gap_m = gap_m[i], .width_m = 0.4, .thickness_m = 0.006};
  return system;
}

static void
test_fills_where_it_arrives (void)
{
  g_autofree System *system = make_sump ((double[]){0.3, 0.3, 0.3}, (double[]){0, 0, 0});
  const double running_z[CHAMBERS] = {0.1, 0.1, 0.1, 0.1};
  Pour poured;

  pour (system, running_z, (double[]){0.01, 0, 0, 0}, &poured);
  g_assert_cmpfloat_with_epsilon (poured.level_z[0], 0.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[1], 0.1, 1e-12);
  g_assert_cmpfloat (poured.spilled_m3, ==, 0);
}

static void
test_spills_over_the_lowest_edge (void)
{
  g_autofree System *system = make_sump ((double[]){0.2, 0.15, 0.3}, (double[]){0, 0, 0});
  const double running_z[CHAMBERS] = {0.1, 0.1, 0.1, 0.1};
  Pour poured;

  /* 0.01 m3 fills the first, 0.005 the second to its right edge, the rest lies in the third. */
  pour (system, running_z, (double[]){0.017, 0, 0, 0}, &poured);
  g_assert_cmpfloat_with_epsilon (poured.level_z[0], 0.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[1], 0.15, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[2], 0.12, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[3], 0.1, 1e-12);
}

static void
test_gaps_join_chambers (void)
{
  g_autofree System *system = make_sump ((double[]){0.39, 0.39, 0.39}, (double[]){0.04, 0, 0.04});
  const double running_z[CHAMBERS] = {0.1, 0.1, 0.2, 0.2};
  Pour poured;

  pour (system, running_z, (double[]){0.01, 0, 0, 0}, &poured);
  g_assert_cmpfloat_with_epsilon (poured.level_z[0], 0.15, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[1], 0.15, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[3], 0.2, 1e-12);
}

/* Water that stands over an edge while it flows falls to the edge when it stops. */
static void
test_heads_fall_to_their_edges (void)
{
  g_autofree System *system = make_sump ((double[]){0.2, 0.39, 0.39}, (double[]){0, 0.04, 0.04});
  const double running_z[CHAMBERS] = {0.21, 0.1, 0.1, 0.1};
  Pour poured;

  pour (system, running_z, (double[]){0, 0, 0, 0}, &poured);
  g_assert_cmpfloat_with_epsilon (poured.level_z[0], 0.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[2], 0.1 + 0.001 / 0.3, 1e-12);
}

static void
test_goes_on_the_floor (void)
{
  g_autofree System *system = make_sump ((double[]){0.2, 0.5, 0.3}, (double[]){0, 0, 0});
  const double running_z[CHAMBERS] = {0.1, 0.1, 0.1, 0.1};
  Pour poured;

  /* The second baffle stands over the rim: what the left half cannot hold spills although the right is empty. */
  pour (system, running_z, (double[]){0.07, 0, 0, 0}, &poured);
  g_assert_cmpfloat_with_epsilon (poured.spilled_m3, 0.01, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[1], 0.4, 1e-12);
  g_assert_cmpfloat_with_epsilon (poured.level_z[2], 0.1, 1e-12);
}

/* Random edges, gaps, levels and amounts: volume is kept, and no two joined levels differ. */
static void
test_random_pours (void)
{
  for (unsigned trial = 0; trial < TRIALS; trial++) {
    double crest_z[CHAMBERS - 1], gap_m[CHAMBERS - 1], running_z[CHAMBERS], added_m3[CHAMBERS];
    g_autofree System *system = NULL;
    double before_m3 = 0, after_m3;
    Pour poured;

    for (unsigned i = 0; i + 1 < CHAMBERS; i++) {
      crest_z[i] = g_test_rand_double_range (0.05, 0.45);
      gap_m[i] = g_test_rand_bit () ? 0.03 : 0;
    }
    system = make_sump (crest_z, gap_m);
    for (unsigned i = 0; i < CHAMBERS; i++) {
      running_z[i] = g_test_rand_double_range (0.02, 0.4);
      added_m3[i] = g_test_rand_bit () ? g_test_rand_double_range (0, 0.05) : 0;
      system->chambers[i].filled = g_test_rand_double_range (0, 0.5);
      before_m3 += 0.1 * running_z[i] + added_m3[i];
    }
    pour (system, running_z, added_m3, &poured);
    after_m3 = poured.spilled_m3;
    for (unsigned i = 0; i < CHAMBERS; i++) {
      after_m3 += poured.m3[i];
      g_assert_cmpfloat (poured.level_z[i], <=, 0.4 + 1e-12);
    }
    g_assert_cmpfloat_with_epsilon (after_m3, before_m3, 1e-12);
    for (unsigned i = 0; i + 1 < CHAMBERS; i++) {
      const double high_z = fmax (poured.level_z[i], poured.level_z[i + 1]);

      if (gap_m[i] > 0 || high_z > fmin (crest_z[i], 0.4) + 1e-9)
        g_assert_cmpfloat_with_epsilon (poured.level_z[i], poured.level_z[i + 1], 1e-9);
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/pour/arrives", test_fills_where_it_arrives);
  g_test_add_func ("/solver/pour/spills", test_spills_over_the_lowest_edge);
  g_test_add_func ("/solver/pour/gaps", test_gaps_join_chambers);
  g_test_add_func ("/solver/pour/heads", test_heads_fall_to_their_edges);
  g_test_add_func ("/solver/pour/floor", test_goes_on_the_floor);
  g_test_add_func ("/solver/pour/random", test_random_pours);
  return g_test_run ();
}
