/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pipes stay square when what they hang on is moved: to the side, to the front and up, by hand's breadths and by hairs. */
#include <math.h>

#include "design/edit.h"
#include "design/geometry.h"
#include "tests/design/fixture.h"

/* A return run from the pump to the outlet without a tee, all in one plane across the axis. */
static Design *
plane_run (const char **ret_run, const char **ret_outlet, unsigned n_corners)
{
  g_autoptr (Design) base = fixture_design ();
  const Part *run = NULL;
  Design *design;

  for (unsigned i = 0; run == NULL && i < design_count (base, PART_RETURN); i++) {
    const Part *each = design_nth (base, PART_RETURN, i);
    const Part *to = design_target (base, each, FIELD_RETURN_TO);

    if (part_kind (to) == PART_OUTLET && design_owner (base, each) != NULL)
      run = each;
  }
  g_assert_nonnull (run);
  *ret_run = g_intern_string (part_key (run));
  *ret_outlet = g_intern_string (part_key (design_target (base, run, FIELD_RETURN_TO)));
  design = design_ref (base);
  while (design_n_children (design, *ret_run, PART_CORNER) > 0) {
    Design *next = edit_remove (design, part_key (design_child (design, *ret_run, PART_CORNER, 0)), NULL);

    design_unref (design);
    design = next;
  }
  Point3 ends[2];
  const Part *from = design_find (design, *ret_run);
  g_autoptr (Draft) draft = draft_new (design);

  geometry_run (design, from, ends, 2);
  /* The outlet straight over the port in y; its mouth to the side of it where there are corners. */
  const Part *tank = design_owner (design, design_find (design, *ret_outlet));
  const Box3 inside = geometry_inside (design, tank);
  const char *key = NULL;

  g_assert_true (draft_set_number (draft, *ret_outlet, FIELD_OUTLET_Y, ends[0].y - inside.origin.y, NULL));
  g_assert_true (draft_set_number (draft, *ret_outlet, FIELD_OUTLET_X,
                                   ends[0].x - inside.origin.x + (n_corners > 0 ? 0.1 : 0), NULL));
  for (unsigned i = 0; i < n_corners; i++) {
    g_assert_true (draft_add (draft, PART_CORNER, NULL, NULL, *ret_run, &key, NULL));
    g_assert_true (draft_set_number (draft, key, FIELD_CORNER_Z, 1.5, NULL));
    g_assert_true (draft_set_number (draft, key, FIELD_CORNER_X, ends[0].x + 0.1 * i, NULL));
  }
  design_unref (design);
  design = draft_commit (draft, NULL);
  g_assert_nonnull (design);
  return design;
}

/* The pieces of a run along no axis. */
static unsigned
oblique (const Design *design, const char *run)
{
  Point3 points[32];
  const unsigned n = geometry_run (design, design_find (design, run), points, G_N_ELEMENTS (points));
  unsigned count = 0;

  g_assert_cmpuint (n, <=, G_N_ELEMENTS (points));
  for (unsigned i = 1; i < n; i++)
    count += (fabs (points[i].x - points[i - 1].x) > 1e-6) + (fabs (points[i].y - points[i - 1].y) > 1e-6) +
                 (fabs (points[i].z - points[i - 1].z) > 1e-6) >
             1;
  return count;
}

static Design *
moved_by (const Design *design, const char *key, FieldId field, double by)
{
  const double was = design_number (design, design_find (design, key), field);
  g_autoptr (Design) moved = design_with_number (design, key, field, round ((was + by) * 1e7) / 1e7, NULL);

  g_assert_nonnull (moved);
  return edit_carry_corners (design, moved);
}

static void
test_jog (void)
{
  for (unsigned n = 0; n <= 2; n += 2) {
    const char *run, *outlet;
    g_autoptr (Design) base = plane_run (&run, &outlet, n);
    g_autoptr (Design) away = moved_by (base, outlet, FIELD_OUTLET_Y, 0.05);
    g_autoptr (Design) back = moved_by (away, outlet, FIELD_OUTLET_Y, -0.05);
    g_autoptr (Design) further = moved_by (away, outlet, FIELD_OUTLET_Y, 0.001);
    const unsigned corners = n > 0 ? n + 1 : 2;

    g_assert_cmpuint (oblique (base, run), ==, 0);
    g_assert_cmpuint (oblique (away, run), ==, 0);
    g_assert_cmpuint (design_n_children (away, run, PART_CORNER), ==, corners);
    g_assert_cmpuint (oblique (further, run), ==, 0);
    g_assert_cmpuint (design_n_children (further, run, PART_CORNER), ==, corners);
    g_assert_cmpuint (design_n_children (back, run, PART_CORNER), ==, n);
    g_assert_cmpuint (oblique (back, run), ==, 0);
    g_assert_cmpfloat_with_epsilon (geometry_run_length (back, design_find (back, run)),
                                    geometry_run_length (base, design_find (base, run)), 1e-6);
    g_assert_cmpfloat_with_epsilon (geometry_run_length (away, design_find (away, run)),
                                    geometry_run_length (base, design_find (base, run)) + 0.05, 1e-6);
  }
}

/* A row of single millimetres is the same as one way: one jog, not one a step. */
static void
test_hairs (void)
{
  const char *run, *outlet;
  g_autoptr (Design) base = plane_run (&run, &outlet, 2);
  Design *design = design_ref (base);

  for (unsigned i = 0; i < 20; i++) {
    Design *next = moved_by (design, outlet, FIELD_OUTLET_Y, i < 10 ? 0.001 : -0.001);

    design_unref (design);
    design = next;
    g_assert_cmpuint (oblique (design, run), ==, 0);
    g_assert_cmpuint (design_n_children (design, run, PART_CORNER), ==, i == 19 ? 2 : 3);
  }
  g_assert_cmpfloat_with_epsilon (geometry_run_length (design, design_find (design, run)),
                                  geometry_run_length (base, design_find (base, run)), 1e-6);
  design_unref (design);
}

/* Fittings behind the jog stay where they are, seen from the end. */
static void
test_fittings (void)
{
  const char *run, *outlet;
  g_autoptr (Design) plain = plane_run (&run, &outlet, 2);
  const double length_m = geometry_run_length (plain, design_find (plain, run));
  char near_pump[MAX_KEY_BYTES + 1], near_outlet[MAX_KEY_BYTES + 1];
  g_autoptr (Design) one = edit_add_fitting (plain, run, "union", 0.1, near_pump, NULL);
  g_autoptr (Design) both = edit_add_fitting (one, run, "union", length_m - 0.05, near_outlet, NULL);
  g_autoptr (Design) away = moved_by (both, outlet, FIELD_OUTLET_Y, 0.08);

  g_assert_cmpfloat (design_number (away, design_find (away, near_pump), FIELD_FITTING_STATION), ==, 0.1);
  g_assert_cmpfloat_with_epsilon (
      design_number (away, design_find (away, near_outlet), FIELD_FITTING_STATION), length_m + 0.03, 1e-6);
}

/* Whatever vessel is moved whichever way, a return run that was square stays so; the design stays well-formed. */
static void
test_any_way (void)
{
  static const struct {
    PartKind kind;
    FieldId fields[3];
  } rows[] = {{PART_TANK, {FIELD_TANK_X, FIELD_TANK_Y, FIELD_TANK_BOTTOM}},
              {PART_SUMP, {FIELD_SUMP_X, FIELD_SUMP_Y, FIELD_SUMP_BOTTOM}},
              {PART_OUTLET, {FIELD_OUTLET_X, FIELD_OUTLET_Y, FIELD_OUTLET_HEIGHT}},
              {PART_PUMP, {FIELD_PUMP_X, FIELD_PUMP_X, FIELD_PUMP_SUCTION}},
              {PART_STAND, {FIELD_STAND_HEIGHT, FIELD_STAND_FLOOR, FIELD_STAND_WIDTH}}};
  g_autoptr (Design) fixture = fixture_design ();
  g_autoptr (Design) two = edit_add_tank (fixture, "display", EDIT_FEED_TEE, NULL, NULL);
  Design *const starts[] = {fixture, two};

  for (unsigned round = 0; round < 400; round++) {
    const Design *start = starts[round % 2];
    const unsigned row = (unsigned) g_test_rand_int_range (0, G_N_ELEMENTS (rows));
    const unsigned nth = (unsigned) g_test_rand_int_range (0, (int) design_count (start, rows[row].kind));
    const Part *part = design_nth (start, rows[row].kind, nth);
    const FieldId field = rows[row].fields[g_test_rand_int_range (0, 3)];
    const double by = 0.001 * g_test_rand_int_range (-80, 80);
    g_autoptr (Design) moved =
        design_with_number (start, part_key (part), field, design_number (start, part, field) + by, NULL);
    g_autoptr (Design) carried = moved != NULL ? edit_carry_corners (start, moved) : NULL;

    for (unsigned i = 0; carried != NULL && i < design_count (carried, PART_RETURN); i++) {
      const char *run = part_key (design_nth (carried, PART_RETURN, i));

      if (oblique (carried, run) > oblique (start, run))
        g_error ("%s.%s by %g m leaves %s oblique", part_key (part), field_info (field)->name, by, run);
    }
  }
}

/* A corner that is pulled out and pushed back has gone; one that somebody put on a straight pipe stays. */
static void
test_straight (void)
{
  const char *run, *outlet;
  g_autoptr (Design) plain = plane_run (&run, &outlet, 2);
  const double length_m = geometry_run_length (plain, design_find (plain, run));
  char key[MAX_KEY_BYTES + 1];
  g_autoptr (Design) one = edit_add_corner (plain, run, 0.3, NULL, NULL);
  g_autoptr (Design) two = edit_add_corner (one, run, 0.5, key, NULL);
  const Point3 at = geometry_outside (two, design_find (two, key)).origin;
  g_autoptr (Design) out = edit_move_corner (two, key, (Point3){at.x, at.y + 0.1, at.z}, NULL);
  g_autoptr (Design) slanted = design_with_number (two, key, FIELD_CORNER_X, at.x + 0.1, NULL);
  g_autoptr (Design) back = design_with_number (slanted, key, FIELD_CORNER_X, at.x, NULL);
  g_autoptr (Design) kept = edit_drop_straight (two, two, run, NULL);
  g_autoptr (Design) still = edit_drop_straight (two, slanted, run, key);
  g_autoptr (Design) dropped = edit_drop_straight (slanted, back, run, NULL);
  g_autoptr (Design) made = edit_drop_straight (two, two, run, key);

  g_assert_true (design_equal (kept, two));
  g_assert_true (design_equal (still, slanted));
  /* The one before it turned the pipe only since this one was pulled. */
  g_assert_cmpuint (design_n_children (dropped, run, PART_CORNER), ==, 2);
  g_assert_null (design_find (dropped, key));
  g_assert_cmpfloat_with_epsilon (geometry_run_length (dropped, design_find (dropped, run)), length_m, 1e-6);
  g_assert_cmpuint (design_n_children (made, run, PART_CORNER), ==, 3);
  /* The pump holds this piece in y: it says so, and does not bend it askew. */
  g_assert_null (out);
}

/* Pieces of a drain that go across askew, seen from above: a twentieth is the aim at a chamber from afar. */
static unsigned
askew (const Design *design, const char *drain)
{
  Point3 points[32];
  const unsigned n = geometry_run (design, design_find (design, drain), points, G_N_ELEMENTS (points));
  unsigned count = 0;

  for (unsigned i = 1; i < n; i++) {
    const double x = fabs (points[i].x - points[i - 1].x), y = fabs (points[i].y - points[i - 1].y);

    count += fmin (x, y) > 0.0006 && fmin (x, y) > 0.05 * fmax (x, y);
  }
  return count;
}

/* The drains of a second tank go across to the inlet. Whatever is moved, by a hand's breadth or in small steps, they go along
 * walls, and do not rise. */
static void
test_drains (void)
{
  static const struct {
    PartKind kind;
    FieldId fields[2];
  } rows[] = {{PART_TANK, {FIELD_TANK_X, FIELD_TANK_Y}}, {PART_SUMP, {FIELD_SUMP_X, FIELD_SUMP_Y}}};
  g_autoptr (Design) fixture = fixture_design ();
  g_autoptr (Design) two = edit_add_tank (fixture, "display", EDIT_FEED_TEE, NULL, NULL);

  for (unsigned round = 0; round < 60; round++) {
    Design *design = design_ref (two);

    for (unsigned i = 0; i < 6; i++) {
      const unsigned row = (unsigned) g_test_rand_int_range (0, 2);
      const unsigned count = design_count (two, rows[row].kind);
      const Part *part = design_nth (two, rows[row].kind, (unsigned) g_test_rand_int_range (0, (int) count));
      Design *next = moved_by (design, part_key (part), rows[row].fields[g_test_rand_int_range (0, 2)],
                               round % 2 == 0 ? 0.001 * g_test_rand_int_range (1, 3)
                                              : 0.001 * g_test_rand_int_range (-90, 90));

      design_unref (design);
      design = next;
      for (unsigned k = 0; k < design_count (two, PART_DRAIN); k++) {
        const char *drain = part_key (design_nth (two, PART_DRAIN, k));
        Point3 points[32];
        const unsigned n =
            MIN (geometry_run (design, design_find (design, drain), points, G_N_ELEMENTS (points)), 32);

        if (askew (design, drain) > askew (two, drain))
          g_error ("%s goes askew", drain);
        g_assert_cmpuint (n, <=, 6);
        for (unsigned p = 1; p < n; p++)
          g_assert_cmpfloat (points[p].z, <=, points[p - 1].z + 1e-6);
      }
    }
    design_unref (design);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/design/edit-route/jog", test_jog);
  g_test_add_func ("/design/edit-route/hairs", test_hairs);
  g_test_add_func ("/design/edit-route/fittings", test_fittings);
  g_test_add_func ("/design/edit-route/straight", test_straight);
  g_test_add_func ("/design/edit-route/drains", test_drains);
  g_test_add_func ("/design/edit-route/any-way", test_any_way);
  return g_test_run ();
}
