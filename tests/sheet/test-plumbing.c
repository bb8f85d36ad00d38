/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/sheet/fixture.h"

#include <math.h>

#include "sheet/plumbing.h"
#include "sheet/take-off.h"

static const PlumbingRun *
run_of (const Plumbing *plumbing, const char *key)
{
  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);

    if (g_str_equal (part_key (run->part), key))
      return run;
  }
  g_assert_not_reached ();
}

static Plumbing *
plumbing_of (const Design *design)
{
  g_autoptr (Catalogue) catalogue = sheet_fixture_catalogue ();
  const NumberStyle style = number_style_metric ();

  return plumbing_new (design, catalogue, &style);
}

/* Axis lengths of the pieces of each run add up to the run. */
static void
test_axis_sum (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  g_autoptr (Plumbing) plumbing = plumbing_of (design);

  g_assert_cmpuint (plumbing->runs->len, ==, 6);
  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);
    double sum = 0;

    for (unsigned k = 0; k < run->pieces->len; k++)
      sum += g_array_index (run->pieces, PipePiece, k).axis_m;
    g_assert_cmpfloat_with_epsilon (sum, geometry_run_length (design, run->part), 1e-9);
  }
}

/* By hand: from the tee (elbow take-off of the size) to an elbow (the same), both taken off the axis length. */
static void
test_cut (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  g_autoptr (Plumbing) plumbing = plumbing_of (design);
  const PlumbingRun *left = run_of (plumbing, "left"), *riser = run_of (plumbing, "riser");
  const PipePiece *piece = &g_array_index (left->pieces, PipePiece, 0);
  double take_off;

  g_assert_true (take_off_elbow ("sch40-1", "ASTM D1785", 1, 0.0334, true, &take_off));
  g_assert_cmpfloat_with_epsilon (piece->cut_m, piece->axis_m - 2 * take_off, 1e-9);
  g_assert_true (piece->turns);
  /* Riser: union at 120 mm, 60 mm long at 25 mm bore, scaled to the bore of 26.6 mm. */
  piece = &g_array_index (riser->pieces, PipePiece, 0);
  g_assert_cmpfloat_with_epsilon (piece->axis_m, 0.12, 1e-9);
  g_assert_cmpfloat_with_epsilon (piece->cut_m, 0.12 - 0.03 * 0.0266446 / 0.025, 1e-9);
  g_assert_cmpstr (piece->joins, ==, "Union");
}

/* EN ISO 1452-3: elbow of 90 degrees, half the diameter and 1 mm (from memory). */
static void
test_take_off (void)
{
  double take_off = -1;

  g_assert_true (take_off_elbow ("metric-50", "EN ISO 1452-2", 1.5, 0.05, true, &take_off));
  g_assert_cmpfloat_with_epsilon (take_off, 0.026, 1e-9);
  take_off = -1;
  g_assert_false (take_off_elbow ("hose-25", "", 1, 0.031, true, &take_off));
  g_assert_cmpfloat (take_off, ==, -1);
  g_assert_false (take_off_elbow ("metric-51", "EN ISO 1452-2", 1.5, 0.0513, true, &take_off));
}

/* Each kind of part in a size has one number; a tee and every bulkhead are counted though nobody listed them. */
static void
test_parts (void)
{
  g_autoptr (Design) design = sheet_fixture (false);
  g_autoptr (Plumbing) plumbing = plumbing_of (design);
  unsigned bulkheads = 0, elbows = 0, tees = 0;

  for (unsigned i = 0; i < plumbing->parts->len; i++) {
    const PlumbingPart *part = g_ptr_array_index (plumbing->parts, i);

    g_assert_cmpuint (part->item, ==, plumbing->runs->len + i + 1);
    bulkheads += g_str_has_prefix (part->name, "Bulkhead") ? part->count : 0;
    elbows += g_str_equal (part->name, "Elbow, 90°") ? part->count : 0;
    tees += g_str_equal (part->name, "Tee") ? part->count : 0;
  }
  g_assert_cmpuint (bulkheads, ==, 3);
  g_assert_cmpuint (elbows, ==, 2);
  g_assert_cmpuint (tees, ==, 1);
}

/* Two fittings closer than they are long leave no room for a pipe. */
static void
test_no_room (void)
{
  g_autoptr (Design) base = sheet_fixture (false);
  g_autoptr (Design) design = design_with_number (base, "return-check", FIELD_FITTING_STATION, 0.13, NULL);
  g_autoptr (Plumbing) plumbing = plumbing_of (design);
  const PipePiece *piece = &g_array_index (run_of (plumbing, "riser")->pieces, PipePiece, 1);

  g_assert_cmpfloat (piece->cut_m, <, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plumbing/axis-sum", test_axis_sum);
  g_test_add_func ("/plumbing/cut", test_cut);
  g_test_add_func ("/plumbing/take-off", test_take_off);
  g_test_add_func ("/plumbing/parts", test_parts);
  g_test_add_func ("/plumbing/no-room", test_no_room);
  return g_test_run ();
}
