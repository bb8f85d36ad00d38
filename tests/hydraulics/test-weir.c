/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* Published values of the formulas are held in the reference tables; here: what must be true of any weir. */

#include "hydraulics/constants.h"
#include "hydraulics/weir.h"

#include <glib.h>
#include <math.h>

enum { N_POINTS = 10000 };

static const Weir samples[] = {
    {.formula = WEIR_KINDSVATER_CARTER,
     .crest_length_m = 0.4,
     .channel_width_m = 1.5,
     .crest_height_m = 0.55},
    {.formula = WEIR_KINDSVATER_CARTER,
     .crest_length_m = 1.2,
     .channel_width_m = 1.2,
     .crest_height_m = 0.02},
    {.formula = WEIR_KINDSVATER_CARTER,
     .crest_length_m = 0.05,
     .channel_width_m = 3.0,
     .crest_height_m = 0.1},
    {.formula = WEIR_KINDSVATER_CARTER,
     .crest_length_m = 0.3,
     .channel_width_m = 0.32,
     .crest_height_m = 0.3},
    {.formula = WEIR_REHBOCK, .crest_length_m = 0.6, .crest_height_m = 0.4},
    {.formula = WEIR_FRANCIS, .crest_length_m = 0.3, .end_contractions = 2},
    {.formula = WEIR_FRANCIS, .crest_length_m = 0.3},
    {.formula = WEIR_BROAD_CREST,
     .crest_length_m = 0.5,
     .discharge_coefficient = WEIR_BROAD_DISCHARGE_COEFFICIENT},
    {.formula = WEIR_THICK_CREST, .crest_length_m = 0.5, .crest_thickness_m = 0.012, .covered_share = 0.25},
    {.formula = WEIR_COMB,
     .crest_length_m = 0.4,
     .discharge_coefficient = WEIR_COMB_DISCHARGE_COEFFICIENT,
     .gap_m = 0.007,
     .bar_m = 0.005,
     .opening_height_m = 0.03},
    {.formula = WEIR_COMB,
     .crest_length_m = 0.4,
     .discharge_coefficient = WEIR_COMB_DISCHARGE_COEFFICIENT,
     .gap_m = 0.007,
     .bar_m = 0.005,
     .opening_height_m = 0.03,
     .closed_above = true,
     .covered_share = 0.5},
};
static const double levels_below_m[] = {-0.05, 0.0, 0.004, 0.03, 0.2};

static double
flow_at (const Weir *weir, double head_m, double below_m)
{
  double flow_m3s = NAN;
  HydraulicsStatus status = weir_discharge (weir, head_m, below_m, &flow_m3s);

  g_assert_true (status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE);
  g_assert_true (isfinite (flow_m3s));
  return flow_m3s;
}

static double
head_for (const Weir *weir, double flow_m3s, double below_m)
{
  double head_m = NAN;
  HydraulicsStatus status = weir_head (weir, flow_m3s, below_m, &head_m);

  g_assert_true (status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE);
  g_assert_true (isfinite (head_m));
  return head_m;
}

static void
assert_close (double got, double expected, double relative)
{
  g_assert_cmpfloat_with_epsilon (got, expected, relative * fabs (expected));
}

/* Head and flow rise together, and a millionth more flow moves the head by less than a ten-thousandth of
 * itself. */
static void
test_monotone_and_continuous (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    for (guint k = 0; k < G_N_ELEMENTS (levels_below_m); k++) {
      double below_m = levels_below_m[k], last_m = fmax (below_m, 0.0);
      for (int n = 0; n < N_POINTS; n += 1 + 9 * (k != 0)) {
        double flow_m3s = 1e-8 * pow (1e7, (double) n / N_POINTS);
        double head_m = head_for (&samples[i], flow_m3s, below_m);
        double step_m = head_for (&samples[i], flow_m3s * (1.0 + 1e-6), below_m) - head_m;
        g_assert_cmpfloat (head_m, >=, last_m - 1e-15);
        g_assert_cmpfloat (step_m, >=, -1e-15);
        g_assert_cmpfloat (step_m, <, 1e-4 * head_m);
        last_m = head_m;
      }
    }
  }
}

/* Where a formula changes: the still head, the held coefficient, the contraction that is held, the top of
 * the teeth. */
static void
test_both_sides_of_each_joint (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    const Weir *weir = &samples[i];
    const double joints_m[] = {0.003,
                               2.5 * weir->crest_height_m,
                               weir->crest_length_m / 3.0,
                               1.5 * weir->crest_length_m,
                               3.0 * weir->crest_length_m,
                               weir->opening_height_m};
    for (guint k = 0; k < G_N_ELEMENTS (joints_m); k++) {
      if (joints_m[k] == 0.0)
        continue;
      double before = flow_at (weir, joints_m[k] * (1.0 - 1e-9), 0.0);
      double after = flow_at (weir, joints_m[k] * (1.0 + 1e-9), 0.0);
      g_assert_cmpfloat (after, >, before);
      assert_close (after, before, 1e-8);
    }
  }
}

static void
test_inverse (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    for (int n = 0; n < 1000; n++) {
      double head_m = g_test_rand_double_range (1e-5, 0.5);
      double below_m = g_test_rand_double_range (-0.1, 0.99) * head_m;
      assert_close (head_for (&samples[i], flow_at (&samples[i], head_m, below_m), below_m), head_m, 1e-10);
    }
  }
}

static void
test_no_head_no_flow (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    g_assert_cmpfloat (flow_at (&samples[i], 0.0, 0.0), ==, 0.0);
    g_assert_cmpfloat (head_for (&samples[i], 0.0, 0.0), ==, 0.0);
    g_assert_cmpfloat (head_for (&samples[i], 0.0, 0.02), ==, 0.02);
    g_assert_cmpfloat (flow_at (&samples[i], 0.02, 0.02), ==, 0.0);
  }
}

/* Water below the crest changes nothing; above it, more of it lets less through. */
static void
test_drowning (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    double last = flow_at (&samples[i], 0.02, -1.0);
    g_assert_cmpfloat (flow_at (&samples[i], 0.02, 0.0), ==, last);
    for (int n = 1; n <= 100; n++) {
      double flow = flow_at (&samples[i], 0.02, 0.02 * n / 100.0);
      g_assert_cmpfloat (flow, <, last);
      last = flow;
    }
  }
}

/* Strips under their own heads (du Buat) against Villemonte 1947 on the same opening: both are in use, 5 %
 * apart at most. */
static void
test_strips_against_villemonte (void)
{
  Weir comb = samples[9];
  comb.opening_height_m = 1.0;
  for (int n = 1; n < 100; n++) {
    double ratio = NAN, share = n / 100.0;
    g_assert_cmpint (weir_submergence_ratio (0.05, 0.05 * share, 1.5, &ratio), ==, HYDRAULICS_OK);
    double strips = flow_at (&comb, 0.05, 0.05 * share) / flow_at (&comb, 0.05, 0.0);
    g_assert_cmpfloat (fabs (strips - ratio), <, 0.05);
  }
}

/* Deep below the surface a closed comb is a row of orifices: Cd A sqrt(2 g h) to their centre. It chokes:
 * the open one carries far more over the tops of its bars. */
static void
test_closed_comb_is_a_row_of_orifices (void)
{
  const Weir *open = &samples[9], *closed = &samples[10];
  int count = 0;

  g_assert_cmpint (weir_opening_count (closed, &count), ==, HYDRAULICS_OK);
  g_assert_cmpint (count, ==, 33); /* 33 x 7 + 32 x 5 = 391 mm */
  double area_m2 = 0.5 * count * closed->gap_m * closed->opening_height_m;
  double head_m = 1.0;
  double orifices = 0.60 * area_m2 * sqrt (2.0 * GRAVITY_M_S2 * (head_m - 0.5 * closed->opening_height_m));
  assert_close (flow_at (closed, head_m, 0.0), orifices, 1e-4);
  /* Drowned on both sides only the difference of levels counts, exactly. */
  assert_close (flow_at (closed, 0.5, 0.4), 0.60 * area_m2 * sqrt (2.0 * GRAVITY_M_S2 * 0.1), 1e-12);
  /* Below the top of the teeth both are alike, but for the half that is covered. */
  assert_close (flow_at (open, 0.02, 0.0), 2.0 * flow_at (closed, 0.02, 0.0), 1e-12);
  g_assert_cmpfloat (flow_at (open, 0.1, 0.0), >, 4.0 * flow_at (closed, 0.1, 0.0));
}

static void
test_covered (void)
{
  Weir weir = samples[10];
  double head_m = 7.0;

  weir.covered_share = 1.0;
  g_assert_cmpfloat (flow_at (&weir, 0.1, 0.0), ==, 0.0);
  g_assert_cmpint (weir_head (&weir, 1e-4, 0.0, &head_m), ==, HYDRAULICS_NO_SOLUTION);
  g_assert_cmpfloat (head_m, ==, 7.0);
  /* Open above it still spills over its bars. */
  weir.closed_above = false;
  g_assert_cmpfloat (head_for (&weir, 1e-4, 0.0), >, weir.opening_height_m);
}

/* A thick crest is a broad one at first (0.848; Bos) and a sharp one when the nappe springs clear (Francis).
 * */
static void
test_thick_crest_between_broad_and_sharp (void)
{
  Weir thick = samples[8], broad = samples[7], sharp = samples[6];

  thick.covered_share = 0.0;
  sharp.crest_length_m = thick.crest_length_m;
  assert_close (flow_at (&thick, 0.1 * thick.crest_thickness_m, 0.0),
                flow_at (&broad, 0.1 * thick.crest_thickness_m, 0.0), 0.01);
  assert_close (flow_at (&thick, 5.0 * thick.crest_thickness_m, 0.0),
                flow_at (&sharp, 5.0 * thick.crest_thickness_m, 0.0), 0.015);
}

/* Fenton's fit to the original figure: Ce = 0.589 - 0.008 h/P + (L/B)^2 (0.013 + 0.083 h/P), Alternative
 * Hydraulics Paper 6, Eq. 24: within 0.75 % of the printed coefficients up to h/P = 1. So long a crest hides
 * the correction of its width. */
static void
test_kindsvater_against_fenton (void)
{
  for (int tenths = 2; tenths <= 10; tenths++) {
    for (int n = 1; n <= 10; n++) {
      double contraction = tenths / 10.0, ratio = 0.1 * n;
      Weir weir = {.formula = WEIR_KINDSVATER_CARTER,
                   .crest_length_m = 1000.0,
                   .channel_width_m = 1000.0 / contraction,
                   .crest_height_m = 1.0};
      double fenton = 0.589 - 0.008 * ratio + contraction * contraction * (0.013 + 0.083 * ratio);
      double got = flow_at (&weir, ratio, 0.0) /
                   (2.0 / 3.0 * sqrt (2.0 * GRAVITY_M_S2) * 1000.0 * pow (ratio + 0.001, 1.5));
      assert_close (got, fenton, 0.0075);
    }
  }
}

/* Where the formula has no length of its own, flow grows as length^2.5 (Froude's similarity). */
static void
test_froude_similarity (void)
{
  for (guint i = 5; i < G_N_ELEMENTS (samples); i++) {
    for (double scale = 0.01; scale < 200.0; scale *= 7.0) {
      Weir weir = samples[i];
      weir.crest_length_m *= scale;
      weir.crest_thickness_m *= scale;
      weir.gap_m *= scale;
      weir.bar_m *= scale;
      weir.opening_height_m *= scale;
      assert_close (flow_at (&weir, 0.04 * scale, 0.01 * scale),
                    flow_at (&samples[i], 0.04, 0.01) * pow (scale, 2.5), 1e-12);
    }
  }
}

/* A hundred thousand short level crests side by side. */
static void
test_tilted_crest (void)
{
  const double rises_m[] = {0.0, 1e-5, 0.000149, 0.000151, 0.003, 0.04};

  for (guint i = 0; i < G_N_ELEMENTS (rises_m); i++) {
    double middle_m = NAN, mean = 0.0;
    g_assert_cmpint (weir_tilted_head (0.015, rises_m[i], &middle_m), ==, HYDRAULICS_OK);
    for (int n = 0; n < 100000; n++) {
      double head_m = fmax (middle_m + rises_m[i] * ((n + 0.5) / 100000.0 - 0.5), 0.0);
      mean += head_m * sqrt (head_m) / 100000.0;
    }
    assert_close (mean, 0.015 * sqrt (0.015), 1e-7);
    g_assert_cmpfloat (middle_m, <=, 0.015);
    g_assert_cmpfloat (middle_m + 0.5 * rises_m[i], >=, 0.015);
  }
}

static void
test_band (void)
{
  double low_m = NAN, high_m = NAN;

  g_assert_cmpint (weir_head_band (0.010, &low_m, &high_m), ==, HYDRAULICS_OK);
  assert_close (low_m, 0.0090, 1e-12);
  assert_close (high_m, 0.0118, 1e-12);
  g_assert_cmpint (weir_head_band (0.1, &low_m, &high_m), ==, HYDRAULICS_OK);
  assert_close (low_m, 0.098, 1e-12);
  assert_close (high_m, 0.102, 1e-12);
  /* Neither edge ever falls with the head. */
  for (double head_m = 0.0, last_m = 0.0, top_m = 0.0; head_m < 0.1; head_m += 1e-5) {
    g_assert_cmpint (weir_head_band (head_m, &low_m, &high_m), ==, HYDRAULICS_OK);
    g_assert_cmpfloat (low_m, >=, last_m);
    g_assert_cmpfloat (high_m, >=, top_m - 1e-15);
    last_m = low_m;
    top_m = high_m;
  }
}

static void
test_caveats (void)
{
  g_assert_cmpuint (weir_caveats (&samples[0], 0.05), ==, WEIR_CAVEAT_NONE);
  g_assert_cmpuint (weir_caveats (&samples[0], 0.012), ==, WEIR_CAVEAT_LOW_HEAD);
  g_assert_cmpuint (weir_caveats (&samples[0], 0.002), ==, WEIR_CAVEAT_LOW_HEAD | WEIR_CAVEAT_STILL);
  g_assert_cmpuint (weir_caveats (&samples[1], 0.06), ==,
                    WEIR_CAVEAT_SHALLOW_APPROACH | WEIR_CAVEAT_HIGH_HEAD);
  g_assert_cmpuint (weir_caveats (&samples[2], 0.05), ==, WEIR_CAVEAT_SHORT_CREST);
  g_assert_cmpuint (weir_caveats (&samples[5], 0.11), ==, WEIR_CAVEAT_HIGH_HEAD);
}

static void
assert_refused (Weir weir)
{
  double flow_m3s = 7.0, head_m = 7.0;

  g_assert_cmpint (weir_discharge (&weir, 0.02, 0.0, &flow_m3s), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpint (weir_head (&weir, 0.001, 0.0, &head_m), ==, HYDRAULICS_INVALID_ARGUMENT);
  g_assert_cmpfloat (flow_m3s, ==, 7.0);
  g_assert_cmpfloat (head_m, ==, 7.0);
}

static void
test_refuses (void)
{
  const double bad[] = {NAN, INFINITY, -INFINITY, -1e-9};
  double value = 7.0, other = 7.0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++) {
    Weir weir = samples[0];
    weir.crest_length_m = bad[i];
    assert_refused (weir);
    weir = samples[0];
    weir.crest_height_m = bad[i];
    assert_refused (weir);
    weir = samples[0];
    weir.channel_width_m = bad[i];
    assert_refused (weir);
    weir = samples[9];
    weir.bar_m = bad[i];
    assert_refused (weir);
    g_assert_cmpint (weir_discharge (&samples[0], bad[i], -1.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (weir_head (&samples[0], bad[i], 0.0, &value), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (weir_head_band (bad[i], &value, &other), ==, HYDRAULICS_INVALID_ARGUMENT);
    g_assert_cmpint (weir_tilted_head (0.01, bad[i], &value), ==, HYDRAULICS_INVALID_ARGUMENT);
  }
  Weir weir = samples[5];
  weir.end_contractions = 3;
  assert_refused (weir);
  weir = samples[0];
  weir.formula = WEIR_FORMULA_COUNT;
  assert_refused (weir);
  g_assert_cmpint (weir_discharge (&samples[0], 0.01, 0.02, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (weir_head (&samples[0], 1e12, 0.0, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpint (weir_submergence_ratio (0.01, 0.02, 1.5, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, ==, 7.0);
  /* Past the published limits the number comes with its warning. */
  g_assert_cmpint (weir_discharge (&samples[1], 0.06, 0.0, &value), ==, HYDRAULICS_OUT_OF_RANGE);
  g_assert_cmpfloat (value, <, 7.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weir/monotone-and-continuous", test_monotone_and_continuous);
  g_test_add_func ("/weir/both-sides-of-each-joint", test_both_sides_of_each_joint);
  g_test_add_func ("/weir/inverse", test_inverse);
  g_test_add_func ("/weir/no-head-no-flow", test_no_head_no_flow);
  g_test_add_func ("/weir/drowning", test_drowning);
  g_test_add_func ("/weir/strips-against-villemonte", test_strips_against_villemonte);
  g_test_add_func ("/weir/closed-comb-is-a-row-of-orifices", test_closed_comb_is_a_row_of_orifices);
  g_test_add_func ("/weir/covered", test_covered);
  g_test_add_func ("/weir/thick-crest-between-broad-and-sharp", test_thick_crest_between_broad_and_sharp);
  g_test_add_func ("/weir/kindsvater-against-fenton", test_kindsvater_against_fenton);
  g_test_add_func ("/weir/froude-similarity", test_froude_similarity);
  g_test_add_func ("/weir/tilted-crest", test_tilted_crest);
  g_test_add_func ("/weir/band", test_band);
  g_test_add_func ("/weir/caveats", test_caveats);
  g_test_add_func ("/weir/refuses", test_refuses);
  return g_test_run ();
}
