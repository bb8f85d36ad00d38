/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Values over many aspect ratios are checked by tests/reference (Levy's series, handbook coefficients). */

#include <math.h>

#include <glib.h>

#include "hydraulics/load.h"
#include "hydraulics/plate.h"

static const Plate pane = {
    .edges = PLATE_FREE_TOP_3_SUPPORTED,
    .load = PLATE_HYDROSTATIC,
    .pressure_pa = 3000.0,
    .density_kg_m3 = 1025.0,
    .width_m = 1.2,
    .height_m = 0.55,
    .thickness_m = 0.015,
    .young_pa = 70e9,
    .poisson = 0.23,
};

static PlateBending
bend (const Plate *plate)
{
  PlateBending bending = {NAN, NAN, NAN};

  g_assert_cmpint (plate_bend (plate, &bending), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (bending.max_principal_stress_pa, >=, bending.max_bending_stress_pa);
  return bending;
}

/* Coefficients of Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., at Poisson's ratio 0.3: w D/(q s4)
 * and M/(q s2), s the shorter side (of free tops: the width). Tables 8 and 35; the free tops and 2:1 from memory. */
static void
test_handbook_coefficients (void)
{
  static const struct {
    PlateEdges edges;
    double width_m, height_m, side_m, deflection, moment;
  } rows[] = {
      {PLATE_SIMPLY_SUPPORTED_4, 1.0, 1.0, 1.0, 0.00406, 0.0479},
      {PLATE_SIMPLY_SUPPORTED_4, 2.0, 1.0, 1.0, 0.01013, 0.1017},
      {PLATE_CLAMPED_4, 1.0, 1.0, 1.0, 0.00126, 0.0513},
      {PLATE_CLAMPED_4, 2.0, 1.0, 1.0, 0.00254, 0.0829},
      {PLATE_CLAMPED_4, 1.0, 2.0, 1.0, 0.00254, 0.0829},
      {PLATE_FREE_TOP_3_SUPPORTED, 1.0, 0.5, 1.0, 0.00710, 0.060},
      {PLATE_FREE_TOP_3_SUPPORTED, 1.0, 1.0, 1.0, 0.01286, 0.112},
      {PLATE_FREE_TOP_3_SUPPORTED, 1.0, 1.5, 1.0, 0.01462, 0.128},
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    Plate plate = {rows[i].edges,    PLATE_UNIFORM, 1.0,  0.0, rows[i].width_m,
                   rows[i].height_m, 0.01,          70e9, 0.3};
    double stiffness = plate.young_pa * pow (plate.thickness_m, 3.0) / (12.0 * (1.0 - 0.3 * 0.3));
    PlateBending bending = bend (&plate);
    double deflection = bending.max_deflection_m * stiffness / pow (rows[i].side_m, 4.0);
    double moment = bending.max_bending_stress_pa * pow (plate.thickness_m / rows[i].side_m, 2.0) / 6.0;
    g_assert_cmpfloat_with_epsilon (deflection / rows[i].deflection, 1.0, 0.005);
    g_assert_cmpfloat_with_epsilon (moment / rows[i].moment, 1.0, 0.006);
  }
}

/* A pane much longer than wide bends like a strip of it: a beam of stiffness E/(1 - nu2). */
static void
test_long_panes_are_strips (void)
{
  static const struct {
    PlateEdges edges;
    double deflection,
        moment; /* of q s4/D and q s2: 5/384 and 1/8, 1/384 and 1/12; a cantilever 1/8 and 1/2 */
  } rows[] = {
      {PLATE_SIMPLY_SUPPORTED_4, 5.0 / 384.0, 1.0 / 8.0},
      {PLATE_CLAMPED_4, 1.0 / 384.0, 1.0 / 12.0},
      {PLATE_FREE_TOP_3_CLAMPED, 1.0 / 8.0, 1.0 / 2.0},
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    Plate plate = {rows[i].edges, PLATE_UNIFORM, 1.0, 0.0, 1.5, 0.1, 0.01, 70e9, 0.3};
    double stiffness = plate.young_pa * 1e-6 / (12.0 * 0.91);
    PlateBending bending = bend (&plate);
    g_assert_cmpfloat_with_epsilon (bending.max_deflection_m * stiffness / 1e-4 / rows[i].deflection, 1.0,
                                    0.01);
    g_assert_cmpfloat_with_epsilon (bending.max_bending_stress_pa * 0.01 / 6.0 / rows[i].moment, 1.0, 0.01);
  }
}

/* All sides alike: the pane does not know which way is up under a uniform load. */
static void
test_turning_a_pane (void)
{
  for (int edges = PLATE_SIMPLY_SUPPORTED_4; edges <= PLATE_CLAMPED_4; edges++) {
    Plate lying = pane, standing;
    lying.edges = (PlateEdges) edges;
    lying.load = PLATE_UNIFORM;
    standing = lying;
    standing.width_m = lying.height_m;
    standing.height_m = lying.width_m;
    PlateBending a = bend (&lying), b = bend (&standing);
    g_assert_cmpfloat_with_epsilon (a.max_deflection_m / b.max_deflection_m, 1.0, 1e-3);
    g_assert_cmpfloat_with_epsilon (a.max_bending_stress_pa / b.max_bending_stress_pa, 1.0, 5e-3);
  }
}

static void
test_scaling (void)
{
  Plate thicker = pane, larger = pane, stiffer = pane, denser = pane;
  PlateBending here = bend (&pane);

  thicker.thickness_m *= 2.0;
  g_assert_cmpfloat_with_epsilon (bend (&thicker).max_bending_stress_pa / here.max_bending_stress_pa, 0.25,
                                  1e-12);
  g_assert_cmpfloat_with_epsilon (bend (&thicker).max_deflection_m / here.max_deflection_m, 0.125, 1e-12);
  stiffer.young_pa *= 2.0;
  g_assert_cmpfloat_with_epsilon (bend (&stiffer).max_bending_stress_pa / here.max_bending_stress_pa, 1.0,
                                  1e-12);
  g_assert_cmpfloat_with_epsilon (bend (&stiffer).max_deflection_m / here.max_deflection_m, 0.5, 1e-12);
  denser.density_kg_m3 *= 1.1;
  g_assert_cmpfloat_with_epsilon (bend (&denser).max_principal_stress_pa / here.max_principal_stress_pa, 1.1,
                                  1e-12);
  /* Twice the size in all three directions: the water's pressure doubles with the depth. */
  larger.width_m *= 2.0;
  larger.height_m *= 2.0;
  larger.thickness_m *= 2.0;
  g_assert_cmpfloat_with_epsilon (bend (&larger).max_bending_stress_pa / here.max_bending_stress_pa, 2.0,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (bend (&larger).max_deflection_m / here.max_deflection_m, 4.0, 1e-9);
}

/* Every support that is added, and every hold that is made firmer, lessens the deflection. */
static void
test_supports_help (void)
{
  static const double aspects[] = {0.3, 0.5, 0.9, 1.5, 2.5, 4.3};

  for (gsize i = 0; i < G_N_ELEMENTS (aspects); i++) {
    double deflection[N_PLATE_EDGES];
    for (int edges = 0; edges < N_PLATE_EDGES; edges++) {
      Plate plate = pane;
      plate.edges = (PlateEdges) edges;
      plate.width_m = aspects[i] * plate.height_m;
      plate.thickness_m = 0.05; /* so that small deflections are granted */
      deflection[edges] = bend (&plate).max_deflection_m;
    }
    g_assert_cmpfloat (deflection[PLATE_FREE_TOP_3_SUPPORTED], >, deflection[PLATE_SIMPLY_SUPPORTED_4]);
    g_assert_cmpfloat (deflection[PLATE_SIMPLY_SUPPORTED_4], >, deflection[PLATE_CLAMPED_4]);
    g_assert_cmpfloat (deflection[PLATE_FREE_TOP_3_SUPPORTED], >, deflection[PLATE_FREE_TOP_3_CLAMPED]);
    g_assert_cmpfloat (1.001 * deflection[PLATE_FREE_TOP_3_CLAMPED], >, deflection[PLATE_CLAMPED_4]);
  }
}

/* A triangle of pressure does less than a uniform one of its peak, and more than a third of it. */
static void
test_water_against_uniform (void)
{
  for (int edges = 0; edges <= PLATE_CLAMPED_4; edges++) {
    Plate water = pane, uniform = pane;
    water.edges = uniform.edges = (PlateEdges) edges;
    uniform.load = PLATE_UNIFORM;
    uniform.pressure_pa = 1025.0 * 9.80665 * pane.height_m;
    double ratio = bend (&water).max_deflection_m / bend (&uniform).max_deflection_m;
    g_assert_cmpfloat (ratio, >, 1.0 / 3.0);
    g_assert_cmpfloat (ratio, <, 1.0);
  }
}

static void
test_statuses (void)
{
  PlateBending bending = {-7.0, -7.0, -7.0};
  Plate bad[8] = {pane, pane, pane, pane, pane, pane, pane, pane};

  bad[0].width_m = 0.0;
  bad[1].height_m = NAN;
  bad[2].thickness_m = -0.01;
  bad[3].young_pa = INFINITY;
  bad[4].poisson = 0.5;
  bad[5].density_kg_m3 = -1.0;
  bad[6].edges = N_PLATE_EDGES;
  bad[7].load = N_PLATE_LOADS;
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_cmpint (plate_bend (&bad[i], &bending), ==, HYDRAULICS_INVALID_ARGUMENT);
  Plate narrow = pane, wide = pane, floppy = pane;
  narrow.width_m = 0.05;
  wide.width_m = 12.0;
  g_assert_cmpint (plate_bend (&narrow, &bending), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (plate_bend (&wide, &bending), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (bending.max_deflection_m, ==, -7.0);
  floppy.thickness_m = 0.003;
  g_assert_cmpint (plate_bend (&floppy, &bending), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (bending.max_deflection_m, >, 0.0015);
}

static void
test_no_load_no_bending (void)
{
  Plate dry = pane;

  dry.density_kg_m3 = 0.0;
  g_assert_cmpfloat (bend (&dry).max_deflection_m, ==, 0.0);
  g_assert_cmpfloat (bend (&dry).max_principal_stress_pa, ==, 0.0);
}

/* The force on a panel split anywhere is the sum of the parts, and acts where their moments balance. */
static void
test_panel_forces_add_up (void)
{
  WettedPanel whole = {1.2, 0.6, 0.1}, upper = {1.2, 0.25, 0.1}, lower = {1.2, 0.35, 0.35};
  double force[3] = {NAN, NAN, NAN}, depth[3] = {NAN, NAN, NAN};
  const WettedPanel *panels[3] = {&whole, &upper, &lower};

  for (int i = 0; i < 3; i++) {
    g_assert_cmpint (load_hydrostatic_force (panels[i], 1025.0, &force[i]), ==, HYDRAULICS_OK);
    g_assert_cmpint (load_centre_of_pressure (panels[i]->top_depth_m, panels[i]->height_m, &depth[i]), ==,
                     HYDRAULICS_OK);
  }
  g_assert_cmpfloat_with_epsilon (force[0] / (force[1] + force[2]), 1.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (force[0] * depth[0] / (force[1] * depth[1] + force[2] * depth[2]), 1.0,
                                  1e-12);
}

static void
test_load_statuses (void)
{
  WettedPanel bad = {1.0, -0.1, 0.0};
  double value = -7.0;

  g_assert_cmpint (load_hydrostatic_force (&bad, 1000.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (load_centre_of_pressure (NAN, 1.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (load_floor_pressure (500.0, 0.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, -7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/plate/handbook", test_handbook_coefficients);
  g_test_add_func ("/hydraulics/plate/strips", test_long_panes_are_strips);
  g_test_add_func ("/hydraulics/plate/turning", test_turning_a_pane);
  g_test_add_func ("/hydraulics/plate/scaling", test_scaling);
  g_test_add_func ("/hydraulics/plate/supports", test_supports_help);
  g_test_add_func ("/hydraulics/plate/water", test_water_against_uniform);
  g_test_add_func ("/hydraulics/plate/statuses", test_statuses);
  g_test_add_func ("/hydraulics/plate/no-load", test_no_load_no_bending);
  g_test_add_func ("/hydraulics/load/sums", test_panel_forces_add_up);
  g_test_add_func ("/hydraulics/load/statuses", test_load_statuses);
  return g_test_run ();
}
