/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Copying: what a fragment holds, where a paste puts it, and that moved corners keep a pipe square. */
#include <math.h>

#include "design/choices.h"
#include "design/fragment.h"
#include "tests/design/fixture.h"

static Design *
with_siphon (char *ret_key)
{
  g_autoptr (Design) base = fixture_design ();

  return edit_add_drain (base, "overflow", DRAIN_SIPHON, ret_key, NULL);
}

/* A fitting whose drain is copied comes with it, once; what cannot be copied is left out. */
static void
test_choice (void)
{
  char siphon[MAX_KEY_BYTES + 1];
  g_autoptr (Design) base = with_siphon (siphon);
  const char *valve = part_key (design_child (base, siphon, PART_FITTING, 0));
  const char *keys[] = {siphon, valve, "sump", "heater", "nobody", NULL};
  g_autoptr (Fragment) both = fragment_new (base, keys, G_N_ELEMENTS (keys));
  g_autoptr (Fragment) alone = fragment_new (base, &keys[1], 1);
  g_auto (GStrv) made = NULL;
  g_autoptr (Design) pasted = fragment_paste (both, base, NULL, &made, NULL);

  g_assert_cmpuint (fragment_n_parts (both), ==, 2);
  g_assert_cmpuint (fragment_n_parts (alone), ==, 1);
  g_assert_null (fragment_new (base, &keys[2], 1));
  g_assert_cmpuint (g_strv_length (made), ==, 2);
  g_assert_cmpuint (design_n_children (pasted, made[0], PART_FITTING), ==, 1);
  g_assert_cmpuint (design_n_parts (pasted), ==,
                    design_n_parts (base) + 3 + design_n_children (pasted, made[0], PART_CORNER));
}

/* A device goes to the selected chamber, or that of the selected part, and stands apart from what is there. */
static void
test_target (void)
{
  g_autoptr (Design) base = fixture_design ();
  const char *keys[] = {"heater"};
  g_autoptr (Fragment) heater = fragment_new (base, keys, 1);
  static const struct {
    const char *target, *owner;
  } rows[] = {{"inlet", "inlet"}, {"return-pump", "pumping"}, {NULL, "pumping"}, {"display", "pumping"}};

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_auto (GStrv) made = NULL;
    g_autoptr (Design) pasted = fragment_paste (heater, base, rows[i].target, &made, NULL);
    const Box3 a = geometry_outside (pasted, design_find (pasted, "heater"));
    const Box3 b = geometry_outside (pasted, design_find (pasted, made[0]));

    g_assert_cmpstr (part_owner (design_find (pasted, made[0])), ==, rows[i].owner);
    g_assert_true (a.origin.x >= b.origin.x + b.size.x || b.origin.x >= a.origin.x + a.size.x);
  }
}

/* Into another design, where neither the chamber nor the owner of before is there. */
static void
test_other_design (void)
{
  char siphon[MAX_KEY_BYTES + 1];
  g_autoptr (Design) base = with_siphon (siphon);
  g_autoptr (Design) given = design_with_text (base, siphon, FIELD_DRAIN_TO, "pumping", NULL);
  const char *keys[] = {"return-union", siphon, "outlet"};
  g_autoptr (Fragment) fragment = fragment_new (given, keys, 3);
  g_autoptr (Draft) draft = draft_new (NULL);
  static const struct {
    PartKind kind;
    const char *key, *owner;
  } parts[] = {{PART_JOB, "job", NULL},   {PART_ROOM, "room", NULL},   {PART_STAND, "frame", NULL},
               {PART_TANK, "t", NULL},    {PART_OVERFLOW, "o", "t"},   {PART_DRAIN, "d", "o"},
               {PART_SUMP, "s", NULL},    {PART_CHAMBER, "only", "s"}, {PART_PUMP, "p", "only"},
               {PART_RETURN, "run", "p"}, {PART_OUTLET, "mouth", "t"}};
  g_auto (GStrv) made = NULL;
  Problem problem = {0};

  for (unsigned i = 0; i < G_N_ELEMENTS (parts); i++)
    g_assert_true (draft_add (draft, parts[i].kind, parts[i].key, NULL, parts[i].owner, NULL, NULL));
  g_autoptr (Design) other = draft_commit (draft, NULL);
  g_autoptr (Design) pasted = fragment_paste (fragment, other, NULL, &made, &problem);

  g_assert_nonnull (pasted);
  g_assert_cmpstr (part_owner (design_find (pasted, made[1])), ==, "o");
  g_assert_cmpstr (part_key (design_target (pasted, design_find (pasted, made[1]), FIELD_DRAIN_TO)), ==,
                   "only");
  g_assert_cmpuint (design_count (pasted, PART_TEE), ==, 1);
  g_assert_cmpstr (part_owner (design_find (pasted, made[0])), ==,
                   "d"); /* the first that may own a fitting */
}

static void
test_duplicate (void)
{
  static const struct {
    const char *key;
    bool can;
  } rows[] = {{"heater", true},       {"drain", true},       {"outlet", true},     {"overflow", true},
              {"display", true},      {"return-pump", true}, {"inlet", true},      {"own-pump", true},
              {"return-union", true}, {"stand", false},      {"reservoir", false}, {"return", false}};
  g_autoptr (Design) base = fixture_design ();

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    char key[MAX_KEY_BYTES + 1] = "";
    Problem problem = {0};
    g_autoptr (Design) twice = edit_duplicate (base, rows[i].key, key, &problem);

    g_test_message ("%s", rows[i].key);
    g_assert_true ((twice != NULL) == rows[i].can);
    g_assert_true (edit_can_duplicate (base, rows[i].key) == rows[i].can);
    if (!rows[i].can)
      g_assert_cmpint (problem.code, ==, PROBLEM_NOT_COPIED);
    else
      g_assert_null (design_find (base, key));
  }
}

static Point3
corner (const Design *design, unsigned n)
{
  return geometry_outside (design, design_child (design, "return", PART_CORNER, n)).origin;
}

/* Up, back, up, along, forward: moving one corner takes along those that share its pieces, and the ports hold the ends. */
static void
test_square (void)
{
  g_autoptr (Design) given = fixture_design ();
  g_autoptr (Design) bare = edit_remove (given, "return-corner-1", NULL);
  const Point3 from = corner (given, 0),
               mouth = geometry_outside (given, design_find (given, "outlet")).origin;
  const Point3 way[] = {{from.x, from.y, 0.6},
                        {from.x, 0.7, 0.6},
                        {from.x, 0.7, 1.6},
                        {mouth.x, 0.7, 1.6},
                        {mouth.x, mouth.y, 1.6}};
  g_autoptr (Draft) draft = draft_new (bare);
  Point3 last = from;
  Problem problem = {0};

  for (unsigned i = 0; i < G_N_ELEMENTS (way); i++) {
    const char *key = NULL;

    g_assert_true (draft_add (draft, PART_CORNER, NULL, NULL, "return", &key, NULL));
    if (way[i].x != last.x)
      g_assert_true (draft_set_number (draft, key, FIELD_CORNER_X, way[i].x, NULL));
    if (way[i].y != last.y)
      g_assert_true (draft_set_number (draft, key, FIELD_CORNER_Y, way[i].y, NULL));
    if (way[i].z != last.z)
      g_assert_true (draft_set_number (draft, key, FIELD_CORNER_Z, way[i].z, NULL));
    last = way[i];
  }
  g_autoptr (Design) base = draft_commit (draft, NULL);
  const char *third = part_key (design_child (base, "return", PART_CORNER, 2));
  const char *first = part_key (design_child (base, "return", PART_CORNER, 0));
  g_autoptr (Design) moved = edit_move_corner (base, third, (Point3){from.x + 0.2, 0.8, 1.7}, NULL);

  /* Along x the pump's port holds it; the level pieces follow to 0.8 behind and 1.7 up. */
  g_assert_cmpfloat (corner (moved, 2).x, ==, from.x);
  for (unsigned i = 1; i <= 3; i++)
    g_assert_cmpfloat (corner (moved, i).y, ==, 0.8);
  for (unsigned i = 2; i <= 4; i++)
    g_assert_cmpfloat (corner (moved, i).z, ==, 1.7);
  g_assert_cmpfloat (corner (moved, 0).y, ==, from.y);
  g_assert_cmpfloat (corner (moved, 1).z, ==, 0.6);
  g_assert_false (part_is_given (design_child (moved, "return", PART_CORNER, 1), FIELD_CORNER_X));

  g_autoptr (Design) back = edit_move_corner (moved, third, way[2], NULL);

  g_assert_true (design_equal (base, back));
  g_assert_null (edit_move_corner (base, first, (Point3){from.x + 0.1, from.y + 0.1, 0.6}, &problem));
  g_assert_cmpint (problem.code, ==, PROBLEM_HELD);
}

#define MAX_POINTS 16

/* Along x and z a straight piece of a run before is one after: what a plumber calls square. */
static void
check_square (const Design *before, const Design *after, PartKind kind)
{
  for (unsigned i = 0; i < design_count (before, kind); i++) {
    const Part *was_run = design_nth (before, kind, i);
    const Part *run = design_find (after, part_key (was_run));
    Point3 was[MAX_POINTS], now[MAX_POINTS];
    const unsigned n = geometry_run (before, was_run, was, MAX_POINTS);

    g_assert_cmpuint (geometry_run (after, run, now, MAX_POINTS), ==, n);
    for (unsigned k = 1; k < n; k++) {
      const double a[] = {was[k].x - was[k - 1].x, was[k].z - was[k - 1].z};
      const double b[] = {now[k].x - now[k - 1].x, now[k].z - now[k - 1].z};

      for (unsigned axis = 0; axis < 2; axis++)
        if (fabs (a[axis]) < 1e-6)
          g_assert_cmpfloat (fabs (b[axis]), <, 1e-6);
    }
  }
}

/* An overflow, a sump or a tank that is moved sideways takes the corners along that hang on it; back again, all is as it
 * was. */
static void
test_carry (void)
{
  static const struct {
    const char *key;
    FieldId field;
    double by_m;
  } rows[] = {{"overflow", FIELD_OVERFLOW_X, 0.03}, {"sump", FIELD_SUMP_X, 0.02}};
  char siphon[MAX_KEY_BYTES + 1];
  g_autoptr (Design) base = with_siphon (siphon);

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    const Part *part = design_find (base, rows[i].key);
    const double from_m = design_number (base, part, rows[i].field);
    g_autoptr (Draft) there = draft_new (base);

    g_assert_true (draft_set_number (there, rows[i].key, rows[i].field, from_m, NULL));
    g_autoptr (Design) start = draft_commit (there, NULL);
    g_autoptr (Draft) draft = draft_new (start);

    g_assert_true (draft_set_number (draft, rows[i].key, rows[i].field, from_m + rows[i].by_m, NULL));
    g_autoptr (Design) moved = draft_commit (draft, NULL);
    g_autoptr (Design) carried = edit_carry_corners (start, moved);

    check_square (start, carried, PART_DRAIN);
    check_square (start, carried, PART_RETURN);

    g_autoptr (Draft) back = draft_new (carried);

    g_assert_true (draft_set_number (back, rows[i].key, rows[i].field, from_m, NULL));
    g_autoptr (Design) returned = draft_commit (back, NULL);
    g_autoptr (Design) same = edit_carry_corners (carried, returned);

    g_assert_true (design_equal (start, same));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fragment/choice", test_choice);
  g_test_add_func ("/fragment/target", test_target);
  g_test_add_func ("/fragment/other-design", test_other_design);
  g_test_add_func ("/fragment/duplicate", test_duplicate);
  g_test_add_func ("/fragment/square", test_square);
  g_test_add_func ("/route/carry", test_carry);
  return g_test_run ();
}
