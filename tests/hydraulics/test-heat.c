/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include <glib.h>

#include "hydraulics/heat.h"
#include "hydraulics/water.h"

static const Evaporation room = {
    .area_m2 = 0.6,
    .water_c = 26.0,
    .salinity_g_kg = 35.0,
    .air_c = 22.0,
    .relative_humidity = 0.5,
    .air_speed_m_s = 0.1,
    .activity_factor = 0.5,
    .open_share = 1.0,
};

static double
rate (const Evaporation *evaporation)
{
  double value = NAN;

  g_assert_cmpint (heat_evaporation_rate (evaporation, &value), ==, HYDRAULICS_OK);
  return value;
}

static void
test_evaporation_scales (void)
{
  Evaporation changed = room;

  changed.area_m2 *= 3.0;
  g_assert_cmpfloat_with_epsilon (rate (&changed), 3.0 * rate (&room), 1e-15);
  changed = room;
  changed.activity_factor = 1.0;
  g_assert_cmpfloat_with_epsilon (rate (&changed), 2.0 * rate (&room), 1e-15);
  changed = room;
  changed.open_share = 0.25;
  g_assert_cmpfloat_with_epsilon (rate (&changed), 0.25 * rate (&room), 1e-15);
  changed.open_share = 0.0;
  g_assert_cmpfloat (rate (&changed), ==, 0.0);
}

/* Warmer water, drier air and a fan take more; salt a little less; cold water in warm moist air gains. */
static void
test_evaporation_directions (void)
{
  Evaporation warmer = room, drier = room, windier = room, fresh = room, cold = room;

  warmer.water_c += 1.0;
  drier.relative_humidity -= 0.1;
  windier.air_speed_m_s += 0.2;
  fresh.salinity_g_kg = 0.0;
  g_assert_cmpfloat (rate (&warmer), >, rate (&room));
  g_assert_cmpfloat (rate (&drier), >, rate (&room));
  g_assert_cmpfloat (rate (&windier), >, rate (&room));
  g_assert_cmpfloat (rate (&fresh), >, rate (&room));
  cold.water_c = 10.0;
  cold.relative_humidity = 0.9;
  g_assert_cmpfloat (rate (&cold), <, 0.0);
}

/* Common practice, no source: a still reef tank of 1.2 m x 0.5 m loses some litres a day. */
static void
test_evaporation_is_of_the_right_size (void)
{
  double litres_a_day = rate (&room) * 86400.0;

  g_assert_cmpfloat (litres_a_day, >, 1.0);
  g_assert_cmpfloat (litres_a_day, <, 6.0);
}

static void
test_evaporation_statuses (void)
{
  double value = -7.0;
  Evaporation bad = room;

  bad.area_m2 = -1.0;
  g_assert_cmpint (heat_evaporation_rate (&bad, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  bad = room;
  bad.relative_humidity = 1.01;
  g_assert_cmpint (heat_evaporation_rate (&bad, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  bad = room;
  bad.air_speed_m_s = NAN;
  g_assert_cmpint (heat_evaporation_rate (&bad, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  bad = room;
  bad.open_share = 1.5;
  g_assert_cmpint (heat_evaporation_rate (&bad, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  bad = room;
  bad.air_c = 65.0;
  g_assert_cmpint (heat_evaporation_rate (&bad, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, ==, -7.0);
  bad = room;
  bad.air_speed_m_s = 3.0;
  g_assert_cmpint (heat_evaporation_rate (&bad, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, >, 0.0);
}

static void
test_reservoir (void)
{
  double days = NAN;

  g_assert_cmpint (heat_reservoir_days (0.0864, 0.001, 1000.0, &days), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (days, 1.0, 1e-12);
  g_assert_cmpint (heat_reservoir_days (0.02, 0.0, 1000.0, &days), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (heat_reservoir_days (0.02, -1e-5, 1000.0, &days), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (heat_reservoir_days (0.0, 0.0, 1000.0, &days), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (heat_reservoir_days (-0.02, 1e-5, 1000.0, &days), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static void
test_losses (void)
{
  double thin = NAN, thick = NAN, out = NAN, in = NAN;

  g_assert_cmpint (heat_pane_u_value (0.006, 1.0, 200.0, 8.0, &thin), ==, HYDRAULICS_OK);
  g_assert_cmpint (heat_pane_u_value (0.019, 1.0, 200.0, 8.0, &thick), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (thin, >, thick);
  g_assert_cmpfloat (thin, <, 8.0);
  g_assert_cmpint (heat_pane_u_value (0.006, 0.0, 200.0, 8.0, &thin), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (heat_conduction_loss (5.0, 2.0, 26.0, 21.0, &out), ==, HYDRAULICS_OK);
  g_assert_cmpint (heat_conduction_loss (5.0, 2.0, 21.0, 26.0, &in), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (out, ==, -in);
  g_assert_cmpint (heat_conduction_loss (NAN, 2.0, 21.0, 26.0, &in), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static void
test_balance_changes_sign (void)
{
  HeatBalance balance = {
      .evaporation_kg_s = 3e-5, .latent_heat_j_kg = 2.44e6, .ua_w_k = 10.0, .water_c = 26.0, .air_c = 22.0};
  double power = NAN;

  g_assert_cmpint (heat_heater_power (&balance, &power), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (power, 73.2 + 40.0, 1e-9);
  balance.pump_heat_w = 60.0;
  balance.lamp_heat_w = 100.0;
  g_assert_cmpint (heat_heater_power (&balance, &power), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (power, <, 0.0);
  balance.pump_heat_w = -1.0;
  g_assert_cmpint (heat_heater_power (&balance, &power), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static const WarmUp kettle = {
    .volume_m3 = 0.3,
    .density_kg_m3 = 1023.0,
    .specific_heat_j_kgk = 3990.0,
    .start_c = 20.0,
    .end_c = 25.0,
    .power_w = 300.0,
    .ua_w_k = 10.0,
    .air_c = 20.0,
};

/* The closed form against many small steps of m c dT/dt = P - UA (T - Ta). */
static void
test_warm_up_follows_its_equation (void)
{
  double time = NAN, stepped = 0.0,
         capacity = kettle.volume_m3 * kettle.density_kg_m3 * kettle.specific_heat_j_kgk;
  int n = 20000;

  g_assert_cmpint (heat_warm_up_time (&kettle, &time), ==, HYDRAULICS_OK);
  for (int i = 0; i < n; i++) {
    double step = (kettle.end_c - kettle.start_c) / n;
    double temperature = kettle.start_c + (i + 0.5) * step;
    stepped += capacity * step / (kettle.power_w - kettle.ua_w_k * (temperature - kettle.air_c));
  }
  g_assert_cmpfloat_with_epsilon (time / stepped, 1.0, 1e-8);
}

static void
test_warm_up_limits (void)
{
  WarmUp changed = kettle;
  double none = NAN, tiny = NAN, time = NAN;

  changed.ua_w_k = 0.0;
  g_assert_cmpint (heat_warm_up_time (&changed, &none), ==, HYDRAULICS_OK);
  changed.ua_w_k = 1e-9;
  g_assert_cmpint (heat_warm_up_time (&changed, &tiny), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (tiny / none, 1.0, 1e-9);

  changed = kettle;
  changed.end_c = 50.0; /* exactly what 300 W hold */
  g_assert_cmpint (heat_warm_up_time (&changed, &time), ==, HYDRAULICS_NO_SOLUTION);
  changed.end_c = 15.0;
  g_assert_cmpint (heat_warm_up_time (&changed, &time), ==, HYDRAULICS_NO_SOLUTION);
  changed.end_c = kettle.start_c;
  g_assert_cmpint (heat_warm_up_time (&changed, &time), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (time, ==, 0.0);

  changed = kettle;
  changed.power_w = 0.0; /* nothing heats, and the room is as warm as the water */
  g_assert_cmpint (heat_warm_up_time (&changed, &time), ==, HYDRAULICS_NO_SOLUTION);
  changed.end_c = 19.0;
  changed.air_c = 10.0; /* it cools by itself */
  g_assert_cmpint (heat_warm_up_time (&changed, &time), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (time, >, 0.0);
  changed.specific_heat_j_kgk = 0.0;
  g_assert_cmpint (heat_warm_up_time (&changed, &time), ==, HYDRAULICS_INVALID_ARGUMENT);
}

static void
test_cost (void)
{
  double cost = NAN;

  g_assert_cmpint (heat_energy_cost (1000.0, 24.0, 10.0, 0.5, &cost), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (cost, 120.0, 1e-9);
  g_assert_cmpint (heat_energy_cost (1000.0, 24.5, 10.0, 0.5, &cost), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (heat_energy_cost (INFINITY, 24.0, 10.0, 0.5, &cost), ==, HYDRAULICS_INVALID_ARGUMENT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/heat/evaporation/scales", test_evaporation_scales);
  g_test_add_func ("/hydraulics/heat/evaporation/directions", test_evaporation_directions);
  g_test_add_func ("/hydraulics/heat/evaporation/size", test_evaporation_is_of_the_right_size);
  g_test_add_func ("/hydraulics/heat/evaporation/statuses", test_evaporation_statuses);
  g_test_add_func ("/hydraulics/heat/reservoir", test_reservoir);
  g_test_add_func ("/hydraulics/heat/losses", test_losses);
  g_test_add_func ("/hydraulics/heat/balance", test_balance_changes_sign);
  g_test_add_func ("/hydraulics/heat/warm-up/equation", test_warm_up_follows_its_equation);
  g_test_add_func ("/hydraulics/heat/warm-up/limits", test_warm_up_limits);
  g_test_add_func ("/hydraulics/heat/cost", test_cost);
  return g_test_run ();
}
