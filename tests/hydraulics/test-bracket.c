/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/bracket.h"

#include <glib.h>
#include <math.h>

static HydraulicsStatus
cube (double x, const void *data, double *ret_value)
{
  *ret_value = x * x * x;
  return HYDRAULICS_OK;
}

/* Stands at 1 below x = 0.3 and at 2 from there on. */
static HydraulicsStatus
stair (double x, const void *data, double *ret_value)
{
  *ret_value = x < 0.3 ? 1.0 : 2.0;
  return HYDRAULICS_OK;
}

/* Good for x up to a limit; beyond it fails as told, with or without a value. */
typedef struct {
  double limit;
  HydraulicsStatus status;
  double value;
} Wall;

static HydraulicsStatus
wall (double x, const void *data, double *ret_value)
{
  const Wall *beyond = data;

  *ret_value = x <= beyond->limit ? x : beyond->value;
  return x <= beyond->limit ? HYDRAULICS_OK : beyond->status;
}

static void
test_finds (void)
{
  double x = NAN;

  for (double wanted = 1e-12; wanted < 1e12; wanted *= 10.0) {
    g_assert_cmpint (bracket_invert (cube, NULL, wanted, 0.0, 1e5, &x), ==, HYDRAULICS_OK);
    g_assert_cmpfloat_with_epsilon (x, cbrt (wanted), 1e-14 * cbrt (wanted));
  }
  g_assert_cmpint (bracket_invert (cube, NULL, 8.0, 2.0, 3.0, &x), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (x, ==, 2.0);
  g_assert_cmpint (bracket_invert (cube, NULL, 8.0, 1.0, 2.0, &x), ==, HYDRAULICS_OK);
  g_assert_cmpfloat (x, ==, 2.0);
  g_assert_cmpint (bracket_invert (stair, NULL, 1.5, 0.0, 1.0, &x), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (x, 0.3, 1e-15);
}

/* The same root as from afar, from either side and from the root itself; none where it lies out of reach. */
static void
test_finds_near (void)
{
  double x = 7.0;

  for (double off = 1e-9; off < 0.09; off *= 3.0)
    for (int side = -1; side <= 1; side++) {
      g_assert_cmpint (bracket_near (cube, NULL, 8.0, 2.0 + side * off, 0.1, &x), ==, HYDRAULICS_OK);
      g_assert_cmpfloat_with_epsilon (x, 2.0, 1e-14);
    }
  g_assert_cmpint (bracket_near (stair, NULL, 1.5, 0.31, 0.1, &x), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (x, 0.3, 1e-15);
  x = 7.0;
  g_assert_cmpint (bracket_near (cube, NULL, 8.0, 2.2, 0.1, &x), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (bracket_near (cube, NULL, 8.0, NAN, 0.1, &x), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (bracket_near (cube, NULL, 8.0, 2.0, 0.0, &x), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (x, ==, 7.0);
}

static void
test_fails_as_the_relation_does (void)
{
  const Wall lost = {0.5, HYDRAULICS_NOT_CONVERGED, NAN}, late = {0.9, HYDRAULICS_SINGULAR, NAN};
  const Wall unsure = {0.5, HYDRAULICS_OUT_OF_RANGE, 3.0}, silent = {0.5, HYDRAULICS_OUT_OF_RANGE, NAN};
  const Wall nan = {0.5, HYDRAULICS_OK, NAN};
  double x = 7.0;

  g_assert_cmpint (bracket_invert (wall, &lost, 0.4, 0.0, 1.0, &x), ==, HYDRAULICS_NOT_CONVERGED);
  g_assert_cmpint (bracket_invert (wall, &late, 0.4, 0.0, 1.0, &x), ==, HYDRAULICS_SINGULAR);
  g_assert_cmpint (bracket_invert (wall, &silent, 0.4, 0.0, 1.0, &x), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (bracket_invert (wall, &nan, 0.4, 0.0, 1.0, &x), ==, HYDRAULICS_NOT_CONVERGED);
  g_assert_cmpfloat (x, ==, 7.0);
  g_assert_cmpint (bracket_invert (wall, &unsure, 0.4, 0.0, 1.0, &x), ==, HYDRAULICS_OK);
  g_assert_cmpfloat_with_epsilon (x, 0.4, 1e-15);
}

static void
test_refuses (void)
{
  double x = 7.0;

  g_assert_cmpint (bracket_invert (cube, NULL, 8.0, 0.0, 1.9, &x), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (bracket_invert (cube, NULL, 8.0, 2.1, 3.0, &x), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpint (bracket_invert (cube, NULL, 8.0, 3.0, 1.0, &x), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (bracket_invert (cube, NULL, NAN, 0.0, 3.0, &x), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (bracket_invert (cube, NULL, 8.0, 0.0, INFINITY, &x), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (x, ==, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bracket/finds", test_finds);
  g_test_add_func ("/bracket/finds-near", test_finds_near);
  g_test_add_func ("/bracket/fails-as-the-relation-does", test_fails_as_the_relation_does);
  g_test_add_func ("/bracket/refuses", test_refuses);
  return g_test_run ();
}
