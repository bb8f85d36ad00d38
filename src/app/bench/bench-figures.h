/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the pump bench shows, computed at once and never changed: the pumps compared on the loop of one design, their
 * curves, the curve of the loop and the limits of the chart. Shared by counting; may be made in any thread. */
#pragma once

#include "app/bench/bench-curve.h"
#include "solver/compare.h"

typedef struct {
  Design *design;
  Catalogue *catalogue;
  unsigned n_rows;
  CompareRow *rows;               /* keys and names belong to design and catalogue */
  BenchCurve *at_speed, *at_full; /* of each row, at the speed it is judged at and at full speed */
  BenchCurve loop;
  double drain_limit_m3s; /* what all drains carry with the box at its wanted level; NAN: unknown */
  double target_low_m3s, target_high_m3s; /* NAN: unknown */
} BenchFigures;

/* Compares the pumps on a design; a catalogue pump that is the installed one is left out. No rows where the design does
 * not compile. */
BenchFigures *bench_figures_new (Design *design, Catalogue *catalogue);
BenchFigures *bench_figures_ref (BenchFigures *figures);
void bench_figures_unref (BenchFigures *figures);

/* Orders rows by merit: what reaches the target and has no stop finding, then the least power. */
int bench_compare_merit (const CompareRow *a, const CompareRow *b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BenchFigures, bench_figures_unref)
