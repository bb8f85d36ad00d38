/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/bench-figures.h"

#include <math.h>

static void
take_points (const CurvePoint *points, unsigned n, BenchCurve *curve)
{
  curve->n = n;
  for (unsigned i = 0; i < n; i++) {
    curve->flow_m3s[i] = points[i].flow_m3s;
    curve->head_m[i] = points[i].head_m;
  }
}

static void
fill_pump_curves (BenchFigures *figures, System *system)
{
  CurvePoint points[BENCH_POINTS];

  for (unsigned i = 0; i < figures->n_rows; i++) {
    const CompareRow *row = &figures->rows[i];

    if (!system_set_pump_curve (system, 0, row->curve, row->watts))
      continue;
    take_points (points, solver_curve_pump (system, 0, row->speed, BENCH_POINTS, points),
                 &figures->at_speed[i]);
    take_points (points, solver_curve_pump (system, 0, 1, BENCH_POINTS, points), &figures->at_full[i]);
  }
}

static void
fill_limits (BenchFigures *figures, System *system)
{
  Workspace *workspace = workspace_new (system);
  Evaluation *evaluation = evaluation_new ();
  CurvePoint points[BENCH_POINTS];
  double most_m3s = 0;

  evaluate (system, workspace, NULL, evaluation);
  for (unsigned i = 0; i < figures->n_rows; i++)
    if (isfinite (figures->rows[i].full_flow_m3s))
      most_m3s = fmax (most_m3s, figures->rows[i].full_flow_m3s);
  take_points (
      points,
      solver_curve_loop (system, workspace, evaluation, 0, false, 1.2 * most_m3s, BENCH_POINTS, points),
      &figures->loop);
  solver_target_band (system, evaluation, &figures->target_low_m3s, &figures->target_high_m3s);
  figures->drain_limit_m3s = evaluation->totals.drain_capacity_m3s;
  evaluation_free (evaluation);
  workspace_free (workspace);
}

static bool
same_pump (const CompareRow *a, const CompareRow *b)
{
  return g_str_equal (a->curve, b->curve) && a->watts == b->watts;
}

/* The installed pump comes first; the same pump of the catalogue would only be the same line twice. */
static void
drop_doubles (BenchFigures *figures)
{
  unsigned kept = 0;

  for (unsigned i = 0; i < figures->n_rows; i++)
    if (i == 0 || figures->rows[i].origin != COMPARE_CATALOGUE ||
        figures->rows[0].origin != COMPARE_INSTALLED || !same_pump (&figures->rows[i], &figures->rows[0]))
      figures->rows[kept++] = figures->rows[i];
  figures->n_rows = kept;
}

BenchFigures *
bench_figures_new (Design *design, Catalogue *catalogue)
{
  BenchFigures *figures = g_atomic_rc_box_new0 (BenchFigures);
  g_autoptr (System) system = system_compile (design, catalogue, NULL, NULL);

  figures->design = design_ref (design);
  figures->catalogue = catalogue_ref (catalogue);
  figures->drain_limit_m3s = figures->target_low_m3s = figures->target_high_m3s = (double) NAN;
  figures->rows = g_new0 (CompareRow, COMPARE_MOST);
  figures->n_rows = compare_pumps (design, catalogue, figures->rows, COMPARE_MOST);
  drop_doubles (figures);
  figures->at_speed = g_new0 (BenchCurve, MAX (1, figures->n_rows));
  figures->at_full = g_new0 (BenchCurve, MAX (1, figures->n_rows));
  if (system != NULL && figures->n_rows > 0) {
    fill_limits (figures, system);
    fill_pump_curves (figures, system);
  }
  return figures;
}

BenchFigures *
bench_figures_ref (BenchFigures *figures)
{
  return g_atomic_rc_box_acquire (figures);
}

static void
clear (gpointer data)
{
  BenchFigures *figures = data;

  g_free (figures->rows);
  g_free (figures->at_speed);
  g_free (figures->at_full);
  catalogue_unref (figures->catalogue);
  design_unref (figures->design);
}

void
bench_figures_unref (BenchFigures *figures)
{
  if (figures != NULL)
    g_atomic_rc_box_release_full (figures, clear);
}

int
bench_compare_merit (const CompareRow *a, const CompareRow *b)
{
  const int bad_a = (a->reaches_target ? 0 : 2) + (a->stops > 0 ? 1 : 0);
  const int bad_b = (b->reaches_target ? 0 : 2) + (b->stops > 0 ? 1 : 0);

  if (bad_a != bad_b)
    return bad_a < bad_b ? -1 : 1;
  return a->power_w < b->power_w ? -1 : a->power_w > b->power_w ? 1 : 0;
}
