/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Several overflows of one tank: each passes at the common display level what its crest and its drains let pass, and
 * together they pass what is pumped. Equal ones share equally, a crest above the water passes nothing, and one of them is
 * found as if it stood alone at its share, with free and with drowned crests. */
#include "design/edit.h"
#include "hydraulics/pump.h"
#include "tests/solver/fixture.h"

#include <math.h>

#define MOST_OVERFLOWS 16
#define DRAINS_EACH    3
#define RELATIVE       1e-9
#define LEVEL_M        1e-9
/* Speeds are sought to their last digits; a level over the speed is at most some metres. */
#define SOUGHT_LEVEL_M 1e-7

typedef struct {
  double crest_m, step_m;
  bool drowned;
} Row;

/* As the first siphon of the sound design has one. */
static void
add_valve (Draft *draft, const char *drain)
{
  g_autofree char *key = g_strdup_printf ("%s-valve", drain);

  must_add (draft, PART_FITTING, key, NULL, drain);
  must_set_text (draft, key, FIELD_FITTING_TYPE, "gate-valve");
  must_set (draft, key, FIELD_FITTING_STATION, 0.95);
}

/* The sound design with `n` overflows, each with a crest so much higher than the one before it. Drowned: pipes too
 * small, under a strong pump, with mouths above the crest. */
static Draft *
row_draft (unsigned n, const Row *row)
{
  Draft *draft = fixture_draft ();

  for (unsigned i = 0; i < n; i++) {
    g_autofree char *key = i == 0 ? g_strdup ("overflow") : g_strdup_printf ("overflow-%u", i);

    if (i > 0)
      must_add (draft, PART_OVERFLOW, key, NULL, "display");
    must_set (draft, key, FIELD_OVERFLOW_CREST, row->crest_m + i * row->step_m);
    must_set (draft, key, FIELD_OVERFLOW_BOX_LENGTH, 0.25);
    for (unsigned k = 0; k < DRAINS_EACH; k++) {
      static const char *const sound[] = {"siphon", "trickle", "emergency"};
      static const int roles[] = {DRAIN_SIPHON, DRAIN_TRICKLE, DRAIN_EMERGENCY};
      g_autofree char *drain = i == 0 ? g_strdup (sound[k]) : g_strdup_printf ("drain-%u-%u", i, k);

      if (i > 0)
        must_add (draft, PART_DRAIN, drain, NULL, key);
      if (i > 0 && k == 0)
        add_valve (draft, drain);
      must_set (draft, drain, FIELD_DRAIN_ROLE, row->drowned ? DRAIN_EMERGENCY : roles[k]);
      must_set_text (draft, drain, FIELD_DRAIN_SIZE, row->drowned ? "sch40-1/2" : "sch40-1");
      if (row->drowned)
        must_set (draft, drain, FIELD_DRAIN_MOUTH, row->crest_m + i * row->step_m + 0.002);
    }
  }
  if (row->drowned)
    must_set_text (draft, "return-pump", FIELD_PUMP_CURVE, "0:4 0.003:3 0.006:0");
  return draft;
}

static Evaluation *
row_of (unsigned n, const Row *row, double speed)
{
  Draft *draft = row_draft (n, row);

  must_set (draft, "return-pump", FIELD_PUMP_SPEED, speed);
  return fixture_evaluate (draft);
}

static void
assert_near (double value, double expected, double within)
{
  if (!(fabs (value - expected) <= within))
    g_error ("%.15g is not %.15g", value, expected);
}

static void
test_equal_ones_share_equally (void)
{
  const Row rows[] = {{0.545, 0, false}, {0.545, 0, true}};

  for (unsigned r = 0; r < G_N_ELEMENTS (rows); r++)
    for (unsigned n = 2; n <= MOST_OVERFLOWS; n *= 2) {
      g_autoptr (Evaluation) evaluation = row_of (n, &rows[r], 0.9);
      const double flow_m3s = evaluation->totals.flow_m3s;

      g_assert_cmpint (evaluation->status, !=, EVALUATION_NOT_SOLVED);
      g_assert_cmpint (evaluation->overflows[0].drowned, ==, rows[r].drowned);
      g_assert_cmpfloat (flow_m3s, >, 1e-4);
      for (unsigned i = 0; i < n; i++) {
        assert_near (evaluation->overflows[i].flow_m3s, flow_m3s / n, RELATIVE * flow_m3s);
        assert_near (evaluation->overflows[i].box_z, evaluation->overflows[0].box_z, LEVEL_M);
      }
    }
}

/* Where the lowest crest takes all, the others do not count: the display stands where it stands without them. */
static void
test_dry_crests_do_not_count (void)
{
  const Row row = {0.500, 0.03, false};
  g_autoptr (Evaluation) alone = row_of (1, &row, 0.79), both = row_of (2, &row, 0.79);

  g_assert_cmpfloat (both->overflows[0].flow_m3s, >, 1e-4);
  g_assert_cmpfloat (both->overflows[1].flow_m3s, ==, 0);
  assert_near (both->tanks[0].display_z, alone->tanks[0].display_z, LEVEL_M);
  assert_near (both->tanks[0].full_speed_z, alone->tanks[0].full_speed_z, LEVEL_M);
  assert_near (both->totals.flow_m3s, alone->totals.flow_m3s, RELATIVE * alone->totals.flow_m3s);
}

/* A pump that lifts nothing leaves the display at its lowest crest, not at the rim. */
static void
test_nothing_runs (void)
{
  const Row row = {0.500, 0.01, false};
  g_autoptr (Evaluation) alone = row_of (1, &row, PUMP_SPEED_MIN), both = row_of (2, &row, PUMP_SPEED_MIN);

  g_assert_cmpfloat (both->totals.flow_m3s, ==, 0);
  assert_near (both->tanks[0].display_z, both->overflows[0].crest_z, LEVEL_M);
  assert_near (both->tanks[0].display_z, alone->tanks[0].display_z, LEVEL_M);
}

/* Speed at which a single overflow gets a flow. */
static Evaluation *
alone_at_flow (const Row *row, double flow_m3s)
{
  double low = PUMP_SPEED_MIN, high = 1;

  while (high - low > 1e-9) {
    const double speed = 0.5 * (low + high);
    g_autoptr (Evaluation) evaluation = row_of (1, row, speed);

    if (evaluation->totals.flow_m3s < flow_m3s)
      low = speed;
    else
      high = speed;
  }
  return row_of (1, row, high);
}

static void
test_each_as_if_alone (void)
{
  const Row rows[] = {{0.540, 0.004, false}, {0.540, 0.004, true}};

  for (unsigned r = 0; r < G_N_ELEMENTS (rows); r++) {
    g_autoptr (Evaluation) both = row_of (2, &rows[r], 0.8);

    g_assert_cmpint (both->overflows[0].drowned, ==, rows[r].drowned);
    for (unsigned i = 0; i < 2; i++) {
      const Row single = {rows[r].crest_m + i * rows[r].step_m, 0, rows[r].drowned};
      g_autoptr (Evaluation) alone = alone_at_flow (&single, both->overflows[i].flow_m3s);

      assert_near (both->tanks[0].display_z, alone->tanks[0].display_z, SOUGHT_LEVEL_M);
      assert_near (both->overflows[i].box_z, alone->overflows[0].box_z, SOUGHT_LEVEL_M);
    }
  }
}

static void
test_shares_add_up (void)
{
  for (unsigned trial = 0; trial < 20; trial++) {
    const Row row = {g_test_rand_double_range (0.50, 0.55), g_test_rand_double_range (0, 0.002),
                     trial % 2 == 1};
    const unsigned n = (unsigned) g_test_rand_int_range (2, 6);
    g_autoptr (Evaluation) evaluation = row_of (n, &row, g_test_rand_double_range (0.6, 1));
    double sum_m3s = 0;

    for (unsigned i = 0; i < n; i++) {
      const OverflowState *overflow = &evaluation->overflows[i];
      double drains_m3s = 0;

      for (unsigned k = 0; k < evaluation->n_drains; k++)
        if (evaluation->drains[k].overflow == overflow->part)
          drains_m3s += evaluation->drains[k].flow_m3s;
      if (overflow->carries)
        assert_near (drains_m3s, overflow->flow_m3s, RELATIVE * overflow->flow_m3s + 1e-15);
      sum_m3s += overflow->flow_m3s;
    }
    assert_near (sum_m3s, evaluation->totals.flow_m3s, RELATIVE * sum_m3s);
  }
}

/* A second tank whose overflow was removed stands full to its rim: the findings say so, and have their numbers. */
static void
test_no_overflow (void)
{
  Draft *draft = fixture_draft ();
  g_autoptr (Design) whole = NULL, design = NULL;
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();

  fixture_add_second_tank (draft);
  must_set (draft, "second-outlet", FIELD_OUTLET_BREAK, 1);
  whole = fixture_commit (draft);
  design = edit_remove (whole, "second-overflow", NULL);
  g_assert_nonnull (design);
  g_assert_true (evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL));
  g_assert_false (evaluation_is_sound (evaluation));
  for (unsigned i = 0; i < evaluation->n_findings; i++)
    g_assert_true (isfinite (evaluation->findings[i].limit) && isfinite (evaluation->findings[i].margin));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/share/equal-ones-share-equally", test_equal_ones_share_equally);
  g_test_add_func ("/solver/share/dry-crests-do-not-count", test_dry_crests_do_not_count);
  g_test_add_func ("/solver/share/nothing-runs", test_nothing_runs);
  g_test_add_func ("/solver/share/each-as-if-alone", test_each_as_if_alone);
  g_test_add_func ("/solver/share/shares-add-up", test_shares_add_up);
  g_test_add_func ("/solver/share/no-overflow", test_no_overflow);
  return g_test_run ();
}
