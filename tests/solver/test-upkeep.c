/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Salt, heat and bubbles of the sound design against sums done here: U = 1/(1/200 + t/1.0 + 1/7.7) by EN 673 and ISO
 * 6946, P = w r + UA (water - air) - pump; a bubble is held where it rises as fast as the water goes down. */
#include "hydraulics/bubble.h"
#include "hydraulics/water.h"
#include "tests/solver/fixture.h"

#include <math.h>

static double
panes_w_k (double glass_m, double length_m, double width_m, double depth_m)
{
  return 2 * (length_m + width_m) * depth_m / (1 / 200.0 + glass_m / 1.0 + 1 / 7.7);
}

static Draft *
room_draft (double air_c)
{
  Draft *draft = fixture_draft ();

  must_set (draft, "room", FIELD_ROOM_AIR_TEMPERATURE, air_c);
  return draft;
}

static void
test_heat (void)
{
  g_autoptr (Evaluation) cold = fixture_evaluate (room_draft (15)), hot = fixture_evaluate (room_draft (32));
  const double depth_m =
      cold->tanks[0].display_z - (0.1 + 0.80 + 0.04 + 0.012); /* stand, its top, bottom pane */
  const double ua_w_k =
      panes_w_k (0.012, 1.5 - 0.024, 0.6 - 0.024, depth_m) + panes_w_k (0.008, 1.05, 0.45, 0.17);
  double latent_j_kg = 0;

  g_assert_cmpint (water_latent_heat (25, 35, &latent_j_kg), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (cold->totals.heater_w,
                                  cold->totals.fast_evaporation_m3s * 998 * latent_j_kg + ua_w_k * (25 - 15) -
                                      cold->pumps[0].power_w,
                                  0.01 * cold->totals.heater_w);
  g_assert_cmpfloat (cold->totals.surplus_w, ==, 0);
  g_assert_cmpfloat_with_epsilon (hot->totals.surplus_w,
                                  ua_w_k * (32 - 25) + hot->pumps[0].power_w -
                                      hot->totals.evaporation_m3s * 998 * latent_j_kg,
                                  0.01 * fmax (hot->totals.surplus_w, 50));
}

/* A lid takes its share from the display, not from the sump; air below freezing is still a room. */
static void
test_lid_and_frost (void)
{
  Draft *draft = room_draft (22);
  g_autoptr (Evaluation) open = fixture_evaluate (room_draft (22)), covered = NULL,
                         frost = fixture_evaluate (room_draft (-10)),
                         cool = fixture_evaluate (room_draft (0));
  const double display_m2 = (1.5 - 0.024) * (0.6 - 0.024);

  must_set (draft, "display", FIELD_TANK_LID, 1);
  covered = fixture_evaluate (draft);
  const double rest_m2 = display_m2 * covered->totals.evaporation_m3s /
                         (open->totals.evaporation_m3s - covered->totals.evaporation_m3s);

  g_assert_cmpfloat (rest_m2, >, 0.3); /* the sump's chambers: some 1.02 x 0.43 m */
  g_assert_cmpfloat (rest_m2, <, 0.5);
  g_assert_cmpfloat (frost->totals.evaporation_m3s, >, cool->totals.evaporation_m3s);
}

static void
test_salt_and_bubbles (void)
{
  g_autoptr (Evaluation) evaluation = fixture_evaluate (fixture_draft ());
  const Totals *totals = &evaluation->totals;
  double velocity_ms = 0;
  Water water;

  g_assert_cmpint (water_properties (25, 35, &water), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (totals->salt_kg, totals->total_water_m3 * water.density_kg_m3 * 0.035,
                                  1e-9 * totals->salt_kg);
  g_assert_cmpfloat (totals->diluted_g_kg, <, 35);

  const BubbleWater bubbles = {water.density_kg_m3, water.dynamic_viscosity_pa_s, water.surface_tension_n_m};
  const double trap_m2 = (0.756 - 0.706) * (0.45 - 0.016); /* between the baffles, inside the panes */

  g_assert_true (isfinite (totals->held_bubble_m));
  g_assert_cmpint (bubble_tank_rise_velocity (totals->held_bubble_m, &bubbles, &velocity_ms), ==,
                   HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (velocity_ms, totals->flow_m3s / trap_m2, 1e-3 * velocity_ms);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/upkeep/heat", test_heat);
  g_test_add_func ("/solver/upkeep/lid-and-frost", test_lid_and_frost);
  g_test_add_func ("/solver/upkeep/salt-and-bubbles", test_salt_and_bubbles);
  return g_test_run ();
}
