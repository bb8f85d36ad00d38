/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include <math.h>

#include <glib.h>

#include "hydraulics/beam.h"

enum { N_CELLS = 2000 };

static const Beam rail = {
    .support = BEAM_SIMPLE,
    .load = BEAM_UNIFORM,
    .load_value = 2500.0,
    .length_m = 1.2,
    .young_pa = 8.4e9,
    .second_moment_m4 = 2.23e-6,
};

static double
deflection (const Beam *beam)
{
  double value = NAN;

  g_assert_cmpint (beam_max_deflection (beam, &value), ==, HYDRAULICS_OK);
  return value;
}

static double
moment (const Beam *beam)
{
  double value = NAN;

  g_assert_cmpint (beam_max_moment (beam, &value), ==, HYDRAULICS_OK);
  return value;
}

/* The moment of a unit-span cantilever held at s = 1 under @load of size 1, at s from its free end. */
static double
cantilever_moment (BeamLoad load, double s)
{
  switch (load) {
  case BEAM_UNIFORM:
    return -0.5 * s * s;
  case BEAM_TRIANGULAR:
    return -s * s * s / 6.0;
  case BEAM_POINT:
  case N_BEAM_LOADS:
    break;
  }
  return -s;
}

/* The same with a point load at mid-span, as the simple and fixed beams carry it. */
static double
mid_span_moment (BeamLoad load, double s)
{
  return load == BEAM_POINT ? fmin (0.0, 0.5 - s) : cantilever_moment (load, s);
}

/* Solves E I w'' = M by summing twice over a unit span, M = M_load + R s + M0, and finds R and M0 from the supports:
 * an answer that knows no beam table. Returns the largest deflection and moment of E I = L = load = 1. */
static void
integrate (BeamSupport support, BeamLoad load, double *ret_deflection, double *ret_moment)
{
  double slope = 0.0, sag = 0.0, step = 1.0 / N_CELLS;
  for (int i = 0; i < N_CELLS; i++) {
    double m = mid_span_moment (load, (i + 0.5) * step);
    slope += m * step;
    sag += m * (1.0 - (i + 0.5) * step) * step; /* double sum: the moment's lever to s = 1 */
  }
  double reaction = -mid_span_moment (load, 1.0), fixing = 0.0, start_slope = 0.0;
  if (support == BEAM_FIXED) { /* slope and deflection at s = 1 vanish, both start from 0 */
    reaction = 12.0 * sag - 6.0 * slope;
    fixing = -slope - 0.5 * reaction;
  } else if (support == BEAM_SIMPLE) {
    start_slope = -(sag + reaction / 6.0);
  }
  double w = 0.0, bend = start_slope, largest_w = 0.0, largest_m = 0.0;
  for (int i = 0; i < N_CELLS; i++) {
    double m = mid_span_moment (load, (i + 0.5) * step) + reaction * (i + 0.5) * step + fixing;
    w += bend * step + 0.5 * m * step * step;
    bend += m * step;
    largest_w = fmax (largest_w, fabs (w));
    largest_m = fmax (largest_m, fabs (mid_span_moment (load, i * step) + reaction * i * step + fixing));
  }
  *ret_deflection = largest_w;
  *ret_moment = fmax (largest_m, fabs (mid_span_moment (load, 1.0) + reaction + fixing));
}

static void
test_cases_follow_from_the_bending_equation (void)
{
  for (int support = BEAM_SIMPLE; support <= BEAM_FIXED; support++) {
    for (int load = 0; load < N_BEAM_LOADS; load++) {
      Beam unit = {(BeamSupport) support, (BeamLoad) load, 1.0, 1.0, 1.0, 1.0};
      double w = NAN, m = NAN;
      integrate (unit.support, unit.load, &w, &m);
      g_assert_cmpfloat_with_epsilon (deflection (&unit) / w, 1.0, 2e-5);
      g_assert_cmpfloat_with_epsilon (moment (&unit) / m, 1.0, 2e-5);
    }
  }
}

/* The cantilever: tip deflection is the sum of moment times lever to the tip. */
static void
test_cantilever_follows_from_the_bending_equation (void)
{
  for (int load = 0; load < N_BEAM_LOADS; load++) {
    Beam unit = {BEAM_CANTILEVER, (BeamLoad) load, 1.0, 1.0, 1.0, 1.0};
    double tip = 0.0;
    for (int i = 0; i < N_CELLS; i++) {
      double s = (i + 0.5) / N_CELLS;
      tip -= cantilever_moment (unit.load, s) * s / N_CELLS;
    }
    g_assert_cmpfloat_with_epsilon (deflection (&unit) / tip, 1.0, 1e-6);
    g_assert_cmpfloat_with_epsilon (moment (&unit), -cantilever_moment (unit.load, 1.0), 1e-12);
  }
}

static void
test_scaling (void)
{
  Beam longer = rail, stiffer = rail, heavier = rail;

  longer.length_m *= 2.0;
  stiffer.young_pa *= 2.0;
  heavier.load_value *= 3.0;
  g_assert_cmpfloat_with_epsilon (deflection (&longer) / deflection (&rail), 16.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (moment (&longer) / moment (&rail), 4.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (deflection (&stiffer) / deflection (&rail), 0.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (deflection (&heavier) / deflection (&rail), 3.0, 1e-12);
  heavier.load_value = 0.0;
  g_assert_cmpfloat (deflection (&heavier), ==, 0.0);
}

static void
test_beam_statuses (void)
{
  double value = -7.0;
  Beam bad[6] = {rail, rail, rail, rail, rail, rail};

  bad[0].length_m = 0.0;
  bad[1].load_value = -1.0;
  bad[2].young_pa = NAN;
  bad[3].second_moment_m4 = INFINITY;
  bad[4].support = N_BEAM_SUPPORTS;
  bad[5].load = N_BEAM_LOADS;
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_cmpint (beam_max_deflection (&bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (beam_max_moment (&bad[0], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, -7.0);
}

static double
second_moment (SectionShape shape, double width_m, double height_m, double wall_m)
{
  Section section = {shape, width_m, height_m, wall_m};
  double value = NAN;

  g_assert_cmpint (section_second_moment (&section, &value), ==, HYDRAULICS_OK);
  return value;
}

static void
test_sections (void)
{
  /* A tube whose walls meet is solid. */
  g_assert_cmpfloat_with_epsilon (second_moment (SECTION_RECTANGULAR_TUBE, 0.04, 0.04, 0.02),
                                  second_moment (SECTION_RECTANGLE, 0.04, 0.04, 0.0), 1e-18);
  g_assert_cmpfloat_with_epsilon (second_moment (SECTION_ROUND_TUBE, 0.0, 0.04, 0.02),
                                  G_PI / 64.0 * pow (0.04, 4.0), 1e-18);
  g_assert_cmpfloat (second_moment (SECTION_RECTANGULAR_TUBE, 0.04, 0.06, 0.003), <,
                     second_moment (SECTION_RECTANGULAR_TUBE, 0.04, 0.06, 0.004));
  g_assert_cmpfloat (second_moment (SECTION_RECTANGLE, 0.04, 0.09, 0.0), >,
                     second_moment (SECTION_RECTANGLE, 0.09, 0.04, 0.0));
}

static void
test_section_statuses (void)
{
  static const Section bad[] = {
      {SECTION_RECTANGLE, 0.0, 0.1, 0.0},           {SECTION_RECTANGLE, 0.1, NAN, 0.0},
      {SECTION_RECTANGULAR_TUBE, 0.04, 0.04, 0.03}, {SECTION_RECTANGULAR_TUBE, 0.02, 0.06, 0.02},
      {SECTION_ROUND_TUBE, 0.0, 0.05, 0.0},         {N_SECTION_SHAPES, 0.1, 0.1, 0.01},
  };
  double value = -7.0;

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_cmpint (section_modulus (&bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (value, ==, -7.0);
}

static void
test_column (void)
{
  double pinned = NAN, fixed = NAN, untouched = -7.0;

  g_assert_cmpint (column_buckling_load (9e9, 5.2e-6, 0.85, 1.0, &pinned), ==, HYDRAULICS_OK);
  g_assert_cmpint (column_buckling_load (9e9, 5.2e-6, 0.85, 0.5, &fixed), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (fixed / pinned, 4.0, 1e-12);
  g_assert_cmpint (column_buckling_load (9e9, 5.2e-6, 0.0, 1.0, &untouched), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (column_buckling_load (9e9, 5.2e-6, 0.85, -1.0, &untouched), ==,
                   HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (untouched, ==, -7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hydraulics/beam/equation", test_cases_follow_from_the_bending_equation);
  g_test_add_func ("/hydraulics/beam/cantilever", test_cantilever_follows_from_the_bending_equation);
  g_test_add_func ("/hydraulics/beam/scaling", test_scaling);
  g_test_add_func ("/hydraulics/beam/statuses", test_beam_statuses);
  g_test_add_func ("/hydraulics/beam/sections", test_sections);
  g_test_add_func ("/hydraulics/beam/section-statuses", test_section_statuses);
  g_test_add_func ("/hydraulics/beam/column", test_column);
  return g_test_run ();
}
