/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Whatever a file or a slip of the hand puts in: a relation of water, heat, bubbles, beams and panes answers with a
 * finite number, or it says why not and leaves its output alone. */

#include <math.h>

#include <glib.h>

#include "hydraulics/beam.h"
#include "hydraulics/bubble.h"
#include "hydraulics/heat.h"
#include "hydraulics/load.h"
#include "hydraulics/plate.h"
#include "hydraulics/tank.h"
#include "hydraulics/water.h"

enum { N_DRAWS = 20000, N_PANES = 100 };

static const double untouched = -7.0;

static double
any (void)
{
  static const double absurd[] = {0.0,     1e-320, 1e-150, 1e-9, 1e9,     1e150,
                                  1.7e308, -1.0,   -1e300, NAN,  INFINITY};

  if (g_test_rand_int_range (0, 4) > 0)
    return pow (10.0, g_test_rand_double_range (-5.0, 2.0));
  return absurd[g_test_rand_int_range (0, G_N_ELEMENTS (absurd))];
}

/* The number must be finite where one was given, and an untouched output needs a status that says why. */
static void
answered (HydraulicsStatus status, double *value)
{
  g_assert_true (isfinite (*value));
  if (status == HYDRAULICS_OK)
    g_assert_cmpfloat (*value, !=, untouched);
  else if (status != HYDRAULICS_OUT_OF_RANGE)
    g_assert_cmpfloat (*value, ==, untouched);
  *value = untouched;
}

static void
test_water_and_heat (void)
{
  double value = untouched;

  for (int i = 0; i < N_DRAWS; i++) {
    Evaporation evaporation = {any (), any (), any (), any (), any (), any (), any (), any ()};
    HeatBalance balance = {any (), any (), any (), any (), any (), any (), any ()};
    WarmUp warm_up = {any (), any (), any (), any (), any (), any (), any (), any ()};
    TankBox box = {any (), any (), any (), any (), any ()};
    answered (water_density (any (), any (), &value), &value);
    answered (water_vapour_pressure (any (), any (), &value), &value);
    answered (water_salt_mass (any (), any (), any (), &value), &value);
    answered (water_mass (any (), any (), &value), &value);
    answered (heat_evaporation_rate (&evaporation, &value), &value);
    answered (heat_heater_power (&balance, &value), &value);
    answered (heat_warm_up_time (&warm_up, &value), &value);
    answered (heat_reservoir_days (any (), any (), any (), &value), &value);
    answered (heat_pane_u_value (any (), any (), any (), any (), &value), &value);
    answered (heat_conduction_loss (any (), any (), any (), any (), &value), &value);
    answered (heat_energy_cost (any (), any (), any (), any (), &value), &value);
    answered (tank_water_volume (&box, any (), &value), &value);
  }
}

static void
test_bubbles (void)
{
  double value = untouched;

  for (int i = 0; i < N_DRAWS; i++) {
    BubbleWater water = {1000.0 * any (), any (), any ()};
    BubbleFormula formula = (BubbleFormula) g_test_rand_int_range (0, N_BUBBLE_FORMULAS + 1);
    answered (bubble_rise_velocity (formula, any (), &water, &value), &value);
    answered (bubble_tank_rise_velocity (any (), &water, &value), &value);
    answered (settling_velocity (any (), 1000.0 * any (), &water, &value), &value);
    if (i % 10 == 0)
      answered (bubble_smallest_held (any (), &water, &value), &value);
  }
}

static void
test_beams_and_loads (void)
{
  double value = untouched;

  for (int i = 0; i < N_DRAWS; i++) {
    Beam beam = {(BeamSupport) g_test_rand_int_range (0, N_BEAM_SUPPORTS + 1),
                 (BeamLoad) g_test_rand_int_range (0, N_BEAM_LOADS + 1),
                 any (),
                 any (),
                 any (),
                 any ()};
    Section section = {(SectionShape) g_test_rand_int_range (0, N_SECTION_SHAPES + 1), any (), any (),
                       any ()};
    WettedPanel panel = {any (), any (), any ()};
    answered (beam_max_deflection (&beam, &value), &value);
    answered (beam_max_moment (&beam, &value), &value);
    answered (section_second_moment (&section, &value), &value);
    answered (section_modulus (&section, &value), &value);
    answered (column_buckling_load (any (), any (), any (), any (), &value), &value);
    answered (load_hydrostatic_force (&panel, any (), &value), &value);
    answered (load_centre_of_pressure (any (), any (), &value), &value);
    answered (load_floor_pressure (any (), any (), &value), &value);
  }
}

static void
test_panes (void)
{
  for (int i = 0; i < N_PANES; i++) {
    PlateBending bending = {untouched, untouched, untouched};
    Plate plate = {(PlateEdges) g_test_rand_int_range (0, N_PLATE_EDGES),
                   (PlateLoad) g_test_rand_int_range (0, N_PLATE_LOADS),
                   any (),
                   any (),
                   any (),
                   any (),
                   any (),
                   any (),
                   g_test_rand_double_range (-0.1, 0.6)};
    HydraulicsStatus status = plate_bend (&plate, &bending);
    g_assert_true ((bending.max_deflection_m == untouched) == (bending.max_principal_stress_pa == untouched));
    answered (status, &bending.max_deflection_m);
    answered (status, &bending.max_bending_stress_pa);
    answered (status, &bending.max_principal_stress_pa);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/absurd/water-and-heat", test_water_and_heat);
  g_test_add_func ("/hydraulics/absurd/bubbles", test_bubbles);
  g_test_add_func ("/hydraulics/absurd/beams-and-loads", test_beams_and_loads);
  g_test_add_func ("/hydraulics/absurd/panes", test_panes);
  return g_test_run ();
}
