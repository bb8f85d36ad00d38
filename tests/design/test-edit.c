/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Edits of several parts: what each adds, that removing undoes it, and that any sequence keeps a design well-formed. */
#include <math.h>

#include "design/choices.h"
#include "design/edit.h"
#include "design/geometry.h"
#include "design/well-formed.h"
#include "tests/design/fixture.h"
#include "tests/design/random-edit.h"

/* The fixture with one number given. */
static Design *
fixture_with (const char *key, FieldId field, double value)
{
  g_autoptr (Design) design = fixture_design ();

  return design_with_number (design, key, field, value, NULL);
}

typedef Design *(*Add) (const Design *design, char *ret_key, Problem *ret_problem);

static Design *
add_fitting (const Design *design, char *ret_key, Problem *ret_problem)
{
  return edit_add_fitting (design, "return", "gate-valve", 0.3, ret_key, ret_problem);
}

static Design *
add_corner (const Design *design, char *ret_key, Problem *ret_problem)
{
  const Part *run = design_find (design, "return");

  return edit_add_corner (design, "return", 0.8 * geometry_run_length (design, run), ret_key, ret_problem);
}

static Design *
add_device (const Design *design, char *ret_key, Problem *ret_problem)
{
  return edit_add_device (design, "inlet", DEVICE_SKIMMER, ret_key, ret_problem);
}

static Design *
add_siphon (const Design *design, char *ret_key, Problem *ret_problem)
{
  return edit_add_drain (design, "overflow", DRAIN_SIPHON, ret_key, ret_problem);
}

static Design *
divide_inlet (const Design *design, char *ret_key, Problem *ret_problem)
{
  return edit_divide_chamber (design, "inlet", ret_key, ret_problem);
}

static Design *
divide_return (const Design *design, char *ret_key, Problem *ret_problem)
{
  g_autoptr (Design) with_role =
      design_with_number (design, "pumping", FIELD_CHAMBER_ROLE, CHAMBER_RETURN, ret_problem);

  return edit_divide_chamber (with_role, "pumping", ret_key, ret_problem);
}

/* What is added goes again without a trace. */
static void
test_add_and_remove (void)
{
  static const struct {
    const char *name;
    Add add;
    PartKind kind;
    unsigned fittings; /* that come with it */
  } rows[] = {{"fitting", add_fitting, PART_FITTING, 1},
              {"corner", add_corner, PART_CORNER, 0},
              {"device", add_device, PART_DEVICE, 0},
              {"siphon", add_siphon, PART_DRAIN, 1},
              {"baffle", divide_inlet, PART_BAFFLE, 0}};
  g_autoptr (Design) base = fixture_design ();

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    char key[MAX_KEY_BYTES + 1] = "";
    Problem problem = {0};
    g_autoptr (Design) more = rows[i].add (base, key, &problem);
    g_autoptr (Design) back = more != NULL ? edit_remove (more, key, &problem) : NULL;

    g_test_message ("%s", rows[i].name);
    g_assert_nonnull (more);
    g_assert_cmpint (part_kind (design_find (more, key)), ==, rows[i].kind);
    g_assert_cmpuint (design_count (more, rows[i].kind), ==, design_count (base, rows[i].kind) + 1);
    if (rows[i].kind != PART_FITTING)
      g_assert_cmpuint (design_count (more, PART_FITTING), ==,
                        design_count (base, PART_FITTING) + rows[i].fittings);
    g_assert_nonnull (back);
    g_assert_true (design_equal (base, back));
  }
}

/* Where baffles have given places, dividing moves none of them and halves the chamber. */
static void
test_divide_given (void)
{
  g_autoptr (Design) base = fixture_with ("baffle", FIELD_BAFFLE_X, 0.4);
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) more = divide_inlet (base, key, NULL);
  const Part *inlet = design_find (more, "inlet"), *second = design_nth (more, PART_CHAMBER, 1);

  g_assert_cmpint (design_index (more, key), ==, design_index (more, "baffle") - 1);
  g_assert_cmpfloat (design_number (more, design_find (more, "baffle"), FIELD_BAFFLE_X), ==, 0.4);
  g_assert_cmpfloat_with_epsilon (geometry_inside (more, inlet).size.x, geometry_inside (more, second).size.x,
                                  1e-9);
  g_assert_cmpstr (part_key (design_nth (more, PART_CHAMBER, 2)), ==, "pumping");
}

/* The chamber of the pump stays the last one, and can neither be removed nor merged away. */
static void
test_return_chamber (void)
{
  g_autoptr (Design) base = fixture_design ();
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) more = divide_return (base, key, NULL);
  g_autoptr (Design) merged = edit_remove (more, key, NULL);
  Problem problem = {0};

  g_assert_cmpstr (part_key (design_nth (more, PART_CHAMBER, 2)), ==, "pumping");
  g_assert_cmpuint (design_count (merged, PART_CHAMBER), ==, 2);
  g_assert_nonnull (design_find (merged, "return-pump"));
  g_assert_null (edit_remove (more, "pumping", &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_HAS_CHILDREN);
  g_assert_true (edit_can_remove (more, "inlet"));
  g_assert_false (edit_can_remove (more, "sump"));
  g_assert_false (edit_can_remove (more, "nobody"));
}

/* A new corner lies on the way: the run is as long as before, and it gives only what differs. */
static void
test_corner (void)
{
  g_autoptr (Design) base = fixture_with ("return-corner-1", FIELD_CORNER_Z, 1.4);
  const double length_m = geometry_run_length (base, design_find (base, "return"));
  char key[MAX_KEY_BYTES + 1] = "";
  g_autoptr (Design) more = edit_add_corner (base, "return", 0.2, key, NULL);
  const Part *corner = design_find (more, key);
  g_autoptr (Design) without = NULL;
  Point3 end;

  g_assert_cmpfloat_with_epsilon (geometry_run_length (more, design_find (more, "return")), length_m, 1e-9);
  g_assert_true (design_child (more, "return", PART_CORNER, 0) == corner);
  g_assert_false (part_is_given (corner, FIELD_CORNER_X));
  g_assert_false (part_is_given (corner, FIELD_CORNER_Y));
  g_assert_true (part_is_given (corner, FIELD_CORNER_Z));
  g_assert_null (edit_add_corner (base, "sump", 0.2, NULL, NULL));

  /* Without the first corner the second stays where it was. */
  g_autoptr (Design) two = edit_add_corner (base, "return", length_m - 0.1, key, NULL);

  end = geometry_outside (two, design_find (two, key)).origin;
  without = edit_remove (two, "return-corner-1", NULL);
  g_assert_cmpfloat_with_epsilon (geometry_outside (without, design_find (without, key)).origin.x, end.x,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (geometry_outside (without, design_find (without, key)).origin.z, end.z,
                                  1e-9);
}

/* The way to the old outlet is as long as before; taking the new one away gives the same pipe again. */
static void
test_outlet (void)
{
  g_autoptr (Design) given = fixture_with ("return-corner-1", FIELD_CORNER_Z, 1.4);
  g_autoptr (Design) base = edit_add_fitting (given, "return", "union", 1.3, NULL, NULL);
  const double length_m = geometry_run_length (base, design_find (base, "return"));
  char key[MAX_KEY_BYTES + 1] = "";
  Problem problem = {0};
  g_autoptr (Design) more = edit_add_outlet (base, "return", key, &problem);
  const Part *tee = more != NULL ? design_nth (more, PART_TEE, 0) : NULL;
  g_autoptr (Design) back = NULL;

  g_assert_nonnull (tee);
  g_assert_cmpuint (design_n_children (more, part_key (tee), PART_RETURN), ==, 2);
  g_assert_cmpuint (design_count (more, PART_OUTLET), ==, 2);
  g_assert_cmpuint (design_count (more, PART_FITTING), ==, design_count (base, PART_FITTING));
  g_assert_cmpfloat_with_epsilon (
      geometry_run_length (more, design_find (more, "return")) +
          geometry_run_length (more, design_child (more, part_key (tee), PART_RETURN, 0)),
      length_m, 1e-9);
  g_assert_cmpfloat (fabs (design_number (more, design_find (more, key), FIELD_OUTLET_X) -
                           design_number (more, design_find (more, "outlet"), FIELD_OUTLET_X)),
                     >, 0.1);
  g_assert_false (edit_can_remove (more, part_key (tee)));

  back = edit_remove (more, key, &problem);
  g_assert_nonnull (back);
  g_assert_cmpuint (design_count (back, PART_TEE), ==, 0);
  g_assert_cmpuint (design_count (back, PART_RETURN), ==, 1);
  g_assert_cmpfloat_with_epsilon (geometry_run_length (back, design_find (back, "return")), length_m, 1e-9);
  g_assert_cmpuint (design_count (back, PART_FITTING), ==, design_count (base, PART_FITTING));
  g_assert_null (edit_remove (base, "outlet", &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_MISSING_PART);
}

static void
test_pump_and_name (void)
{
  const PumpType type = {.key = "pump-z",
                         .name = "Pump Z, 60 W",
                         .curve = "0:4 0.001:2 0.0016:0.5",
                         .watts = 60,
                         .min_speed = 0.3,
                         .length_m = 0.2,
                         .width_m = 0.1,
                         .height_m = 0.15};
  g_autoptr (Design) base = fixture_design ();
  g_autoptr (Design) taken = edit_take_pump (base, "return-pump", &type, NULL);
  g_autoptr (Design) named = edit_rename (taken, "return-pump", "North pump", NULL);
  g_autoptr (Design) unnamed = edit_rename (named, "return-pump", "", NULL);
  Problem problem = {0};

  g_assert_cmpfloat (design_number (taken, design_find (taken, "return-pump"), FIELD_PUMP_WATTS), ==, 60);
  g_assert_cmpstr (part_label (design_find (taken, "return-pump")), ==, "Pump Z, 60 W");
  g_assert_cmpstr (part_label (design_find (named, "return-pump")), ==, "North pump");
  g_assert_null (part_label (design_find (unnamed, "return-pump")));
  g_assert_null (edit_take_pump (base, "sump", &type, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_UNKNOWN_PART);
  g_assert_null (edit_rename (base, "sump", "\xff", &problem));
  g_assert_null (edit_add_reservoir (base, NULL, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_TOO_MANY);
}

static void
test_random (void)
{
  g_autoptr (Design) design = fixture_design ();

  for (unsigned i = 0; i < (g_test_slow () ? 200000 : 2000); i++) {
    const unsigned n = design_n_parts (design);
    const Part *part = design_part (design, (unsigned) g_test_rand_int_range (0, (gint32) n));
    char key[MAX_KEY_BYTES + 1] = "";
    Problem problem = {0};
    Design *changed = random_edit (design, part_key (part), key, &problem);

    if (changed == NULL) {
      g_assert_cmpint (problem.code, !=, PROBLEM_NONE);
      g_assert_cmpstr (key, ==, "");
      continue;
    }
    g_assert_true (design_is_well_formed (changed, NULL));
    if (key[0] != '\0')
      g_assert_nonnull (design_find (changed, key));
    if (design_n_parts (changed) > 250) { /* start small again */
      design_unref (changed);
      changed = fixture_design ();
    }
    design_unref (design);
    design = changed;
  }
}

/* What is moved over a baffle belongs to the next chamber and has not moved by that; a chiller stays beside the sump. */
static void
test_settle (void)
{
  g_autoptr (Design) base = fixture_design ();
  const Part *sump = design_nth (base, PART_SUMP, 0);
  const Box3 inside = geometry_inside (base, sump);

  for (unsigned round = 0; round < 200; round++) {
    const bool pump = g_test_rand_bit ();
    const Part *part = design_nth (base, pump ? PART_PUMP : PART_DEVICE, 0);
    const FieldId field = pump ? FIELD_PUMP_X : FIELD_DEVICE_X;
    const double x = g_test_rand_double_range (-1, 2);
    g_autoptr (Design) moved = design_with_number (base, part_key (part), field, x, NULL);
    g_autoptr (Design) settled = edit_settle (moved, part_key (part));
    g_autoptr (Design) again = edit_settle (settled, part_key (part));
    const Part *now = design_find (settled, part_key (part));
    const Box3 box = geometry_outside (settled, now);
    const Box3 room = geometry_inside (settled, design_owner (settled, now));
    const double middle = box.origin.x + box.size.x / 2;

    g_assert_true (design_equal (settled, again));
    g_assert_cmpfloat_with_epsilon (
        box.origin.x, geometry_outside (moved, design_find (moved, part_key (part))).origin.x, 1e-6);
    for (unsigned i = 0; i < design_count (settled, PART_CHAMBER); i++) {
      const Part *chamber = design_nth (settled, PART_CHAMBER, i);
      const Box3 each = geometry_inside (settled, chamber);

      if (middle > each.origin.x && middle < each.origin.x + each.size.x)
        g_assert_true (design_owner (settled, now) == chamber);
    }
    if (middle < inside.origin.x || middle > inside.origin.x + inside.size.x)
      g_assert_true (design_equal (settled, moved));
    g_assert_cmpfloat (room.size.x, >, 0);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/design/edit/settle", test_settle);
  g_test_add_func ("/edit/add-and-remove", test_add_and_remove);
  g_test_add_func ("/edit/divide-given", test_divide_given);
  g_test_add_func ("/edit/return-chamber", test_return_chamber);
  g_test_add_func ("/edit/corner", test_corner);
  g_test_add_func ("/edit/outlet", test_outlet);
  g_test_add_func ("/edit/pump-and-name", test_pump_and_name);
  g_test_add_func ("/edit/random", test_random);
  return g_test_run ();
}
