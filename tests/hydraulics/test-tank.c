/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include <glib.h>

#include "hydraulics/tank.h"

static const TankBox box = {1.2, 0.5, 0.5, 0.012, 0.015};

static void
test_volume_is_inside_area_times_depth (void)
{
  double low = NAN, high = NAN, empty = NAN;

  g_assert_cmpint (tank_water_volume (&box, 0.2, &low), ==, HYDRAULICS_OK);
  g_assert_cmpint (tank_water_volume (&box, 0.3, &high), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (high - low, 1.176 * 0.476 * 0.1, 1e-12);
  g_assert_cmpint (tank_water_volume (&box, 0.015, &empty), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (empty, ==, 0.0);
}

static void
test_statuses (void)
{
  TankBox no_room = box, no_size = box;
  double volume = -7.0;

  no_room.pane_thickness_m = 0.25;
  no_size.outside_length_m = NAN;
  g_assert_cmpint (tank_water_volume (&no_room, 0.3, &volume), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (tank_water_volume (&no_size, 0.3, &volume), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (tank_water_volume (&box, NAN, &volume), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (tank_water_volume (&box, 0.51, &volume), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (tank_water_volume (&box, 0.01, &volume), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (volume, ==, -7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/tank/volume", test_volume_is_inside_area_times_depth);
  g_test_add_func ("/hydraulics/tank/statuses", test_statuses);
  return g_test_run ();
}
