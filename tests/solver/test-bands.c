/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Bands against what they stand for: sampling of the same factors, each evenly between its ends and apart from the others.
 * The seed is fixed; the long form samples more. */
#include <math.h>
#include <string.h>

#include "solver/band.h"
#include "tests/solver/fixture.h"

#define BANDS_MOST   600
#define SAMPLES      500
#define SAMPLES_LONG 5000
#define SEED         20250607
#define WIDEST       2.0
/* Share of the width by which the band may fall short of a quantile: first order misses where two factors push each other
 * (a strong pump on a shy lip), and 500 samples miss their own quantiles by some per cent. */
#define SLACK 0.10
/* Below this a band is of no consequence: a tenth of a millimetre, of a litre and so on. */
#define NOTHING 1e-4

typedef struct {
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  Band bands[BANDS_MOST];
  unsigned n;
} Bench;

static Bench *
bench_new (Draft *draft)
{
  Bench *bench = g_new0 (Bench, 1);

  bench->system = fixture_compile (draft);
  bench->workspace = workspace_new (bench->system);
  bench->evaluation = evaluation_new ();
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
  bench->n = workspace_bands (bench->workspace, bench->bands, BANDS_MOST);
  g_assert_cmpuint (bench->n, >, 20);
  g_assert_cmpuint (bench->n, <=, BANDS_MOST);
  return bench;
}

static void
bench_free (Bench *bench)
{
  workspace_free (bench->workspace);
  system_free (bench->system);
  evaluation_free (bench->evaluation);
  g_free (bench);
}

static const Band *
band_of (const Band *bands, unsigned n, CheckId check, int part, unsigned nth)
{
  for (unsigned i = 0; i < n; i++)
    if (bands[i].check == check && bands[i].part == part && bands[i].nth == nth)
      return &bands[i];
  return NULL;
}

static const Band *
first_band (const Bench *bench, CheckId check)
{
  for (unsigned i = 0; i < bench->n; i++)
    if (bench->bands[i].check == check)
      return &bench->bands[i];
  g_error ("%s was not measured", check_word (check));
}

/* Margin of a check at a point that moves one factor to one end. */
static double
moved_margin (const Bench *bench, const Band *band, FactorId factor, double at)
{
  Band moved[BANDS_MOST];
  FactorPoint point = {0};
  unsigned n;
  const Band *there;

  point.at[factor] = at;
  n = factor_point_margins (bench->system, bench->workspace, &point, moved, BANDS_MOST);
  there = band_of (moved, MIN (n, BANDS_MOST), band->check, band->part, band->nth);
  g_assert_nonnull (there);
  return there->margin;
}

static void
test_table (void)
{
  for (unsigned i = 0; i < N_FACTORS; i++) {
    const Factor *factor = factor_info ((FactorId) i);

    g_assert_cmpfloat (factor->low, <=, factor->likely);
    g_assert_cmpfloat (factor->likely, <=, factor->high);
    g_assert_cmpfloat (factor->low, <, factor->high);
    g_assert_cmpuint (strlen (factor->source), >, 5);
    for (unsigned k = 0; k < i; k++)
      g_assert_cmpstr (factor->word, !=, factor_info ((FactorId) k)->word);
  }
}

/* Each factor takes from the margin that it should, at the end at which it should. */
static void
test_directions (void)
{
  static const struct {
    CheckId check;
    FactorId factor;
    double at; /* where the margin is less */
  } cases[] = {{CHECK_FLOOD_FREEBOARD, FACTOR_LIP, -1},
               {CHECK_FLOOD_FREEBOARD, FACTOR_EMERGENCY_MOUTH, 1},
               {CHECK_DISPLAY_FREEBOARD, FACTOR_WEIR, 1},
               {CHECK_DISPLAY_FREEBOARD, FACTOR_CREST, 1},
               {CHECK_DRAIN_BACK_FREEBOARD, FACTOR_RUNNING_LEVEL, 1},
               {CHECK_DRAIN_BACK_FREEBOARD, FACTOR_BREAK, -1},
               {CHECK_SIPHON_PRIMING, FACTOR_PRIMING, 1},
               {CHECK_SIPHON_PRIMING, FACTOR_SIPHON_MOUTH, 1},
               {CHECK_SIPHON_GULPS, FACTOR_SIPHON_MOUTH, 1},
               {CHECK_SIPHON_START, FACTOR_DRAIN_END, -1},
               {CHECK_SUCTION_COVER, FACTOR_RUNNING_LEVEL, -1},
               {CHECK_DRAIN_OVERRUN, FACTOR_LOSS, 1},
               {CHECK_DRAIN_OVERRUN, FACTOR_DRAIN_AGE, 1},
               {CHECK_DEVICE_DEPTH, FACTOR_BAFFLE, -1},
               {CHECK_EMERGENCY_END, FACTOR_DRAIN_END, -1}};
  Bench *bench = bench_new (fixture_draft ());

  for (unsigned i = 0; i < G_N_ELEMENTS (cases); i++) {
    const Band *band = first_band (bench, cases[i].check);
    const double less = moved_margin (bench, band, cases[i].factor, cases[i].at);

    g_test_message ("%s by %s", check_word (cases[i].check), factor_info (cases[i].factor)->word);
    g_assert_cmpfloat (less, <, band->margin - 1e-7);
    g_assert_cmpfloat (band->low, <=, less + 1e-9);
    if (factor_info (cases[i].factor)->low < factor_info (cases[i].factor)->likely)
      g_assert_cmpfloat (moved_margin (bench, band, cases[i].factor, -cases[i].at), >, band->margin - 1e-9);
  }
  bench_free (bench);
}

/* A level that enters a margin by itself takes its own 3 mm from it, and two of them their squares. */
static void
test_levels_by_hand (void)
{
  Bench *bench = bench_new (fixture_draft ());
  const Band *cover = first_band (bench, CHECK_SUCTION_COVER), *order = NULL;

  g_assert_cmpfloat_with_epsilon (cover->margin - cover->low, 0.003, 1e-9);
  g_assert_cmpint (cover->widest, ==, FACTOR_RUNNING_LEVEL);
  order = first_band (bench, CHECK_HEIGHTS_ORDER);
  g_assert_cmpfloat_with_epsilon (order->margin - order->low, sqrt (2) * 0.003, 1e-9);
  bench_free (bench);
}

/* With no factor moved the margins are those of the likely state, and a band of nothing is nothing. */
static void
test_no_factor_moved (void)
{
  static const FactorPoint likely = {0};
  Bench *bench = bench_new (fixture_draft ());
  Band at[BANDS_MOST];
  const unsigned n = factor_point_margins (bench->system, bench->workspace, &likely, at, BANDS_MOST);

  for (unsigned i = 0; i < bench->n; i++) {
    const Band *there = band_of (at, n, bench->bands[i].check, bench->bands[i].part, bench->bands[i].nth);

    g_assert_nonnull (there);
    g_assert_cmpfloat (there->low, ==, there->high);
    g_assert_cmpfloat (bench->bands[i].low, <=, bench->bands[i].margin);
    g_assert_cmpfloat (bench->bands[i].high, >=, bench->bands[i].margin);
    if (bench->bands[i].widest < 0)
      g_assert_cmpfloat (bench->bands[i].low, ==, bench->bands[i].margin);
    /* What is defined at full speed keeps the fast edge of the pump, also while nothing else moves. */
    if (bench->bands[i].check != CHECK_FLOOD_FULL_SPEED && bench->bands[i].check != CHECK_DRAIN_FULL_SPEED &&
        bench->bands[i].check != CHECK_DISPLAY_FULL_SPEED)
      g_assert_cmpfloat_with_epsilon (there->margin, bench->bands[i].margin,
                                      1e-6 * fmax (1, fabs (bench->bands[i].margin)));
  }
  bench_free (bench);
}

/* Every finding of a check with a band is judged no better than the low end, and its band holds value and judged edge. */
static void
check_findings (const Bench *bench)
{
  for (unsigned i = 0; i < bench->evaluation->n_findings; i++) {
    const Finding *finding = &bench->evaluation->findings[i];

    g_assert_cmpfloat (finding->lower, <=, finding->value);
    g_assert_cmpfloat (finding->upper, >=, finding->value);
    if (check_exact_reason (finding->check) != NULL) {
      g_assert_cmpfloat (finding->lower, ==, finding->value);
      g_assert_cmpfloat (finding->upper, ==, finding->value);
      g_assert_cmpint (finding->factor, ==, -1);
    }
  }
}

static void
test_judged_no_better (void)
{
  Bench *bench = bench_new (fixture_draft ());
  g_autoptr (Evaluation) plain = evaluation_new ();

  check_findings (bench);
  for (unsigned i = 0; i < bench->n; i++) {
    const Band *band = &bench->bands[i];
    bool found = false;

    for (unsigned k = 0; k < bench->evaluation->n_findings && !found; k++)
      found = bench->evaluation->findings[k].check == band->check &&
              bench->evaluation->findings[k].part == band->part;
    if (check_exact_reason (band->check) == NULL && band->low < -1e-9 && band->check != CHECK_FLOOD_FAILED &&
        band->check != CHECK_FLOOD_PRIMED_ONLY && band->check != CHECK_TRANSFER_RESERVOIR &&
        band->check != CHECK_DRAIN_BACK_PLUGGED && band->check != CHECK_FLOOD_FULL_SPEED && !found)
      g_error ("%s: low %g, and no finding", check_word (band->check), band->low);
  }
  workspace_set_bands (bench->workspace, false);
  evaluate (bench->system, bench->workspace, NULL, plain);
  for (Grade grade = GRADE_STOP; grade <= GRADE_CAUTION; grade++)
    g_assert_cmpuint (evaluation_count (plain, grade), <=, evaluation_count (bench->evaluation, grade));
  bench_free (bench);
}

static void
assert_same_judgement (const Evaluation *a, const Evaluation *b)
{
  g_assert_cmpuint (a->n_findings, ==, b->n_findings);
  for (unsigned i = 0; i < a->n_findings; i++) {
    g_assert_cmpint (a->findings[i].check, ==, b->findings[i].check);
    g_assert_cmpint (a->findings[i].part, ==, b->findings[i].part);
    g_assert_cmpint (a->findings[i].grade, ==, b->findings[i].grade);
    g_assert_true (a->findings[i].lower == b->findings[i].lower ||
                   (isnan (a->findings[i].lower) && isnan (b->findings[i].lower)));
  }
  g_assert_cmpfloat (a->totals.flood_margin_m, ==, b->totals.flood_margin_m);
}

/* Widths that are held judge the design that they were found for as finding them does, and a design near to it nearly so;
 * a solve that failed meanwhile does not lose them. */
static void
test_held_widths (void)
{
  Draft *near = fixture_draft ();
  Bench *bench = bench_new (fixture_draft ()), *moved;
  g_autoptr (Workspace) same = workspace_new (bench->system);
  g_autoptr (Workspace) held = NULL;
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  Band bands[BANDS_MOST];

  workspace_hold_bands (same, bench->workspace);
  evaluate (bench->system, same, NULL, evaluation);
  assert_same_judgement (evaluation, bench->evaluation);

  must_set (near, "overflow", FIELD_OVERFLOW_CREST, 0.5455);
  moved = bench_new (near);
  held = workspace_new (moved->system);
  workspace_hold_bands (held, same);
  evaluate (moved->system, held, NULL, evaluation);
  g_assert_cmpuint (workspace_bands (held, bands, BANDS_MOST), ==, moved->n);
  for (unsigned i = 0; i < moved->n; i++) {
    const double width = moved->bands[i].high - moved->bands[i].low;

    g_assert_cmpint (bands[i].check, ==, moved->bands[i].check);
    g_assert_cmpfloat (bands[i].margin, ==, moved->bands[i].margin);
    if (isfinite (width))
      g_assert_cmpfloat_with_epsilon (bands[i].high - bands[i].low, width, 0.25 * width + NOTHING);
  }
  /* Nothing to take over: it finds its own. */
  evaluate (bench->system, bench->workspace, NULL, evaluation);
  assert_same_judgement (evaluation, bench->evaluation);
  bench_free (moved);
  bench_free (bench);
}

static FactorPoint
random_point (GRand *rand)
{
  FactorPoint point = {.pump = g_rand_double_range (rand, -1, 1),
                       .return_age = g_rand_double_range (rand, 0, 1),
                       .return_loss = g_rand_double_range (rand, -1, 1)};

  for (unsigned i = 0; i < N_FACTORS; i++)
    point.at[i] = factor_info ((FactorId) i)->low < factor_info ((FactorId) i)->likely
                      ? g_rand_double_range (rand, -1, 1)
                      : g_rand_double_range (rand, 0, 1);
  return point;
}

static int
by_size (const void *a, const void *b)
{
  const double left = *(const double *) a, right = *(const double *) b;

  return (left > right) - (left < right);
}

/* What is defined at a state of its own has no distribution about the likely one. */
static bool
is_sampled (CheckId check)
{
  return check != CHECK_FLOOD_FULL_SPEED && check != CHECK_DRAIN_FULL_SPEED &&
         check != CHECK_DISPLAY_FULL_SPEED;
}

/* The band holds the quantiles of 5 and 95 %, and is less than twice as wide as they are apart. */
static void
compare_band (const Band *band, double *samples, unsigned n)
{
  double low, high, judged, slack;

  qsort (samples, n, sizeof *samples, by_size);
  low = samples[(unsigned) (0.05 * n)];
  high = samples[n - 1 - (unsigned) (0.05 * n)];
  slack = SLACK * (high - low);
  if (high - low < NOTHING * fmax (1, fabs (band->margin)))
    return;
  g_test_message ("%s/%d: [%g %g] about %g, samples [%g %g]", check_word (band->check), band->part, band->low,
                  band->high, band->margin, low, high);
  /* A strong pump and a shy lip together push the water that the emergency takes further than both apart. */
  slack *= band->check == CHECK_EMERGENCY_RUNS_DRY ? 2.5 : 1;
  judged = isfinite (band->corner) ? fmin (band->low, band->corner) : band->low;
  if (judged > low + slack || band->high < high - slack)
    g_error ("%s/%d/%u: band [%g %g] about %g, samples [%g %g]", check_word (band->check), band->part,
             band->nth, band->low, band->high, band->margin, low, high);
  if (band->high - band->low > WIDEST * (high - low))
    g_error ("%s/%d/%u: band [%g %g] about %g is wide, samples [%g %g]", check_word (band->check), band->part,
             band->nth, band->low, band->high, band->margin, low, high);
}

static void
test_against_sampling (void)
{
  const unsigned n = g_test_slow () ? SAMPLES_LONG : SAMPLES;
  Bench *bench = bench_new (fixture_draft ());
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  g_autofree double *samples = g_new (double, (gsize) n *BANDS_MOST);
  g_autofree unsigned *n_of = g_new0 (unsigned, BANDS_MOST);
  g_autofree Band *at = g_new (Band, BANDS_MOST);

  for (unsigned s = 0; s < n; s++) {
    const FactorPoint point = random_point (rand);
    const unsigned found = factor_point_margins (bench->system, bench->workspace, &point, at, BANDS_MOST);

    for (unsigned i = 0; i < bench->n; i++) {
      const Band *band = &bench->bands[i],
                 *there = band_of (at, MIN (found, BANDS_MOST), band->check, band->part, band->nth);

      if (there != NULL && isfinite (there->margin))
        samples[(gsize) i * n + n_of[i]++] = there->margin;
    }
  }
  for (unsigned i = 0; i < bench->n; i++)
    if (is_sampled (bench->bands[i].check) && n_of[i] > n / 2)
      compare_band (&bench->bands[i], samples + (gsize) i * n, n_of[i]);
  bench_free (bench);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/solver/bands/table", test_table);
  g_test_add_func ("/solver/bands/directions", test_directions);
  g_test_add_func ("/solver/bands/levels", test_levels_by_hand);
  g_test_add_func ("/solver/bands/likely", test_no_factor_moved);
  g_test_add_func ("/solver/bands/judged", test_judged_no_better);
  g_test_add_func ("/solver/bands/held", test_held_widths);
  g_test_add_func ("/solver/bands/sampling", test_against_sampling);
  return g_test_run ();
}
