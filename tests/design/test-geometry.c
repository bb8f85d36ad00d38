/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Derived measures against sums done by hand from the given sizes. */
#include <math.h>

#include "design/choices.h"
#include "tests/design/fixture.h"
#include "design/geometry.h"

#define assert_m(a, b) g_assert_cmpfloat_with_epsilon (a, b, 1e-12)

static Design *
measured (void)
{
  static const struct {
    const char *key;
    FieldId field;
    double value;
  } given[] = {{"stand", FIELD_STAND_FLOOR, 0.1},
               {"stand", FIELD_STAND_HEIGHT, 0.75},
               {"stand", FIELD_STAND_TOP, 0.04},
               {"display", FIELD_TANK_GLASS, 0.012},
               {"display", FIELD_TANK_RIM, 0.58},
               {"display", FIELD_TANK_X, -0.05},
               {"overflow", FIELD_OVERFLOW_CREST, 0.54},
               {"sump", FIELD_SUMP_LENGTH, 1.0},
               {"sump", FIELD_SUMP_GLASS, 0.01},
               {"sump", FIELD_SUMP_BOTTOM, 0.01},
               {"sump", FIELD_SUMP_X, 0.02},
               {"baffle", FIELD_BAFFLE_X, 0.4},
               {"baffle", FIELD_BAFFLE_THICKNESS, 0.006},
               {"drain", FIELD_DRAIN_MOUTH, 0.5},
               {"drain", FIELD_DRAIN_END, 0.2},
               {"return-corner-1", FIELD_CORNER_Z, 1.6}};
  g_autoptr (Draft) draft = fixture_draft ();

  for (unsigned i = 0; i < G_N_ELEMENTS (given); i++)
    g_assert_true (draft_set_number (draft, given[i].key, given[i].field, given[i].value, NULL));
  return draft_commit (draft, NULL);
}

static void
test_vessels (void)
{
  g_autoptr (Design) design = measured ();
  const Box3 tank = geometry_inside (design, design_find (design, "display"));
  const Box3 inlet = geometry_inside (design, design_find (design, "inlet"));
  const Box3 pumping = geometry_inside (design, design_find (design, "pumping"));

  assert_m (tank.origin.x, -0.05 + 0.012);
  assert_m (tank.origin.z, 0.1 + 0.75 + 0.04 + 0.012);
  assert_m (tank.size.x, 1.5 - 0.024);
  assert_m (tank.size.z, 0.58 - 0.012);
  assert_m (geometry_crest (design, design_find (design, "overflow")), 0.89 + 0.54);
  assert_m (inlet.origin.x, 0.02 + 0.01);
  assert_m (inlet.size.x, 0.4);
  assert_m (pumping.origin.x, 0.02 + 0.01 + 0.4 + 0.006);
  assert_m (inlet.size.x + 0.006 + pumping.size.x, 0.98);
  assert_m (geometry_datum (design, design_find (design, "baffle")), 0.11);
}

/* A run is its two ports and the corners between; an unknown coordinate is that of the point before. */
static void
test_runs (void)
{
  g_autoptr (Design) design = measured ();
  const Part *drain = design_find (design, "drain"), *run = design_find (design, "return");
  Point3 points[4];

  g_assert_cmpuint (geometry_run (design, drain, points, 4), ==, 2);
  assert_m (points[0].z, 0.89 + 0.5);
  assert_m (points[1].z, 0.11 + 0.2);
  assert_m (points[1].x, points[0].x);
  assert_m (geometry_run_length (design, drain), 0.89 + 0.5 - 0.31);

  g_assert_cmpuint (geometry_run (design, run, points, 4), ==, 3);
  assert_m (points[1].x, points[0].x);
  assert_m (points[1].y, points[0].y);
  assert_m (points[1].z, 1.6);
  assert_m (points[2].z, geometry_outlet (design, design_find (design, "outlet")));
  assert_m (geometry_run_at (design, run, 0.1, NULL).z, points[0].z + 0.1);
  assert_m (geometry_run_at (design, run, 1e9, NULL).z, points[2].z);
}

static void
test_bend (void)
{
  const Point3 points[] = {{0, 0, 0}, {1, 0, 0}, {1, 0, 1}, {1, 0, 1}, {2, 0, 2}};

  assert_m (geometry_bend (points, 5, 0), 0);
  assert_m (geometry_bend (points, 5, 1), G_PI / 2);
  assert_m (geometry_bend (points, 5, 2), 0);
  assert_m (geometry_bend (points, 5, 4), 0);
}

/* Boxes inside, outside and in a pair: drains stand in the outer one. */
static void
test_boxes (void)
{
  for (int kind = OVERFLOW_INSIDE; kind <= OVERFLOW_PAIR; kind++) {
    g_autoptr (Design) base = measured ();
    g_autoptr (Design) design = design_with_number (base, "overflow", FIELD_OVERFLOW_KIND, kind, NULL);
    const Part *overflow = design_find (design, "overflow");
    const Box3 tank = geometry_outside (design, design_find (design, "display"));
    const Box3 inner = geometry_inside (design, overflow), drains = geometry_drain_box (design, overflow);
    const double back = tank.origin.y + tank.size.y;

    g_assert_true ((inner.origin.y >= back) == (kind == OVERFLOW_OUTSIDE));
    g_assert_true ((drains.origin.y >= back) == (kind != OVERFLOW_INSIDE));
    assert_m (drains.size.y, 0.12);
    assert_m (inner.origin.z + inner.size.z, tank.origin.z + 0.58);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/vessels", test_vessels);
  g_test_add_func ("/geometry/runs", test_runs);
  g_test_add_func ("/geometry/bend", test_bend);
  g_test_add_func ("/geometry/boxes", test_boxes);
  return g_test_run ();
}
