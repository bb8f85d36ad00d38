/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Several tanks, overflows and pumps: where they are put, how their pipes run, and that taking them away leaves the pipe as
 * it was. */
#include <math.h>

#include "design/choices.h"
#include "design/edit.h"
#include "design/geometry.h"
#include "tests/design/fixture.h"

static Box3
outside (const Design *design, const char *key)
{
  return geometry_outside (design, design_find (design, key));
}

static double
right_of (Box3 box)
{
  return box.origin.x + box.size.x;
}

/* Beside the stand where it has no room; on it where it has. */
static void
test_tank_place (void)
{
  g_autoptr (Design) base = fixture_design ();
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) two = edit_add_tank (base, "display", EDIT_FEED_TEE, key, NULL);
  g_autoptr (Design) wide = design_with_number (base, "stand", FIELD_STAND_LENGTH, 3.4, NULL);
  g_autoptr (Design) left = design_with_number (wide, "display", FIELD_TANK_X, 0, NULL);
  g_autoptr (Design) on = edit_add_tank (left, "display", EDIT_FEED_TEE, key, NULL);
  g_autoptr (Design) half = design_with_number (left, "stand", FIELD_STAND_LENGTH, 2.2, NULL);
  g_autoptr (Design) shorter = edit_add_tank (half, "display", EDIT_FEED_TEE, key, NULL);

  g_assert_cmpfloat (outside (two, key).origin.x, >,
                     fmax (right_of (outside (two, "stand")), right_of (outside (two, "display"))));
  g_assert_cmpfloat (outside (on, key).size.x, ==, 1.5);
  g_assert_cmpfloat (outside (on, key).origin.x, >=, right_of (outside (on, "display")) + 0.05 - 1e-9);
  g_assert_cmpfloat (right_of (outside (on, key)), <=, right_of (outside (on, "stand")));
  g_assert_cmpfloat (outside (shorter, key).size.x, <, 1.5);
  g_assert_cmpfloat (right_of (outside (shorter, key)), <=, right_of (outside (shorter, "stand")) + 1e-9);
}

/* The pieces of a run along no axis: none but the falling ways across of drains. */
static unsigned
oblique (const Design *design, const char *run)
{
  Point3 points[16];
  const unsigned n = geometry_run (design, design_find (design, run), points, G_N_ELEMENTS (points));
  unsigned count = 0;

  for (unsigned i = 1; i < n; i++)
    count += (fabs (points[i].x - points[i - 1].x) > 1e-9) + (fabs (points[i].y - points[i - 1].y) > 1e-9) +
                 (fabs (points[i].z - points[i - 1].z) > 1e-9) >
             1;
  return count;
}

/* What a tank brings, and that it goes again with its branch of the return. */
static void
test_tank_parts (void)
{
  g_autoptr (Design) given = fixture_design ();
  g_autoptr (Design) base = edit_add_drain (given, "overflow", DRAIN_SIPHON, NULL, NULL);
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) two = edit_add_tank (base, "display", EDIT_FEED_PUMP, key, NULL);
  const Part *overflow = design_child (two, key, PART_OVERFLOW, 0);
  const Part *outlet = design_child (two, key, PART_OUTLET, 0);
  const Part *pump = design_nth (two, PART_PUMP, 1);
  const Part *run = design_child (two, part_key (pump), PART_RETURN, 0);
  const Part *siphon = design_child (two, part_key (overflow), PART_DRAIN, 1);
  const Box3 inlet = outside (two, "inlet");

  g_assert_cmpuint (design_n_children (two, part_key (overflow), PART_DRAIN), ==, 2);
  g_assert_cmpint (design_choice (two, siphon, FIELD_DRAIN_ROLE), ==, DRAIN_SIPHON);
  g_assert_cmpstr (
      design_text (two, design_child (two, part_key (siphon), PART_FITTING, 0), FIELD_FITTING_TYPE), ==,
      "gate-valve");
  g_assert_true (design_target (two, run, FIELD_RETURN_TO) == outlet);
  g_assert_cmpuint (oblique (two, part_key (run)), ==, 0);
  for (unsigned i = 0; i < 2; i++) {
    Point3 points[4];
    const Part *drain = design_child (two, part_key (overflow), PART_DRAIN, i);

    g_assert_cmpuint (geometry_run (two, drain, points, 4), ==, 4);
    g_assert_cmpfloat (points[2].z, <, points[1].z); /* it falls on its way */
    g_assert_cmpfloat (points[3].x, >, inlet.origin.x);
    g_assert_cmpfloat (points[3].x, <, right_of (inlet));
  }
  g_autoptr (Design) without = edit_remove (two, part_key (pump), NULL);

  g_assert_nonnull (without);
  g_assert_null (design_find (without, part_key (outlet)));
}

static void
test_overflow (void)
{
  g_autoptr (Design) base = fixture_design ();
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) two = edit_add_overflow (base, "display", key, NULL);
  Design *many = design_ref (two);
  Problem problem = {0};
  const Box3 a = outside (two, "overflow"), b = outside (two, key);

  g_assert_true (a.origin.x >= right_of (b) || b.origin.x >= right_of (a));
  g_assert_cmpfloat (geometry_crest (two, design_find (two, key)), ==,
                     geometry_crest (two, design_find (two, "overflow")));
  for (;;) {
    Design *more = edit_add_overflow (many, "display", NULL, &problem);

    if (more == NULL)
      break;
    design_unref (many);
    many = more;
  }
  g_assert_cmpint (problem.code, ==, PROBLEM_NO_ROOM);
  design_unref (many);
}

/* A pump that joins and goes again leaves the riser as long as it was, with the check valve that it needed beside it. */
static void
test_pump (void)
{
  g_autoptr (Design) given = fixture_design ();
  g_autoptr (Design) base = design_with_number (given, "return-corner-1", FIELD_CORNER_Z, 1.4, NULL);
  const double length_m = geometry_run_length (base, design_find (base, "return"));
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) two = edit_add_pump (base, "pumping", EDIT_PUMP_JOINS, NULL, key, NULL);
  const Part *run = design_child (two, key, PART_RETURN, 0);
  const Part *tee = design_target (two, run, FIELD_RETURN_TO);
  g_autoptr (Design) back = edit_remove (two, key, NULL);
  g_autoptr (Design) first_gone = edit_remove (two, "return-pump", NULL);
  const Box3 a = outside (two, "return-pump"), b = outside (two, key);

  g_assert_cmpint (part_kind (tee), ==, PART_TEE);
  g_assert_true (a.origin.x >= right_of (b) || b.origin.x >= right_of (a));
  g_assert_cmpuint (oblique (two, part_key (run)), ==, 0);
  g_assert_cmpuint (design_count (back, PART_TEE), ==, 0);
  g_assert_cmpuint (design_count (back, PART_RETURN), ==, 1);
  g_assert_cmpfloat_with_epsilon (geometry_run_length (back, design_find (back, "return")), length_m, 1e-9);
  g_assert_cmpuint (design_count (first_gone, PART_TEE), ==, 0);
  g_assert_cmpuint (design_count (first_gone, PART_PUMP), ==, 1);
  g_assert_null (edit_remove (base, "return-pump", NULL));
}

static void
test_outside (void)
{
  g_autoptr (Design) base = fixture_design ();
  g_autoptr (Design) moved = edit_move_pump_outside (base, "return-pump", NULL);
  g_autoptr (Design) bare = edit_remove (base, "reservoir", NULL);
  g_autoptr (Design) beside = edit_move_pump_outside (bare, "return-pump", NULL);

  g_assert_cmpfloat_with_epsilon (outside (beside, "return-pump").origin.x,
                                  right_of (outside (beside, "sump")) + 0.05, 1e-9);
  g_assert_cmpfloat_with_epsilon (outside (moved, "return-pump").origin.x,
                                  right_of (outside (moved, "reservoir")) + 0.05, 1e-9);
  g_assert_cmpuint (design_n_children (moved, "return", PART_FITTING), ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edit/several/tank-place", test_tank_place);
  g_test_add_func ("/edit/several/tank-parts", test_tank_parts);
  g_test_add_func ("/edit/several/overflow", test_overflow);
  g_test_add_func ("/edit/several/pump", test_pump);
  g_test_add_func ("/edit/several/outside", test_outside);
  return g_test_run ();
}
