/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A row of the pump bench: one compared pump as an object for list models. Signal "changed" when its figures were
 * replaced by newer ones. */
#pragma once

#include <glib-object.h>

#include "app/bench/bench-figures.h"
#include "units/format.h"

/* The columns of numbers, in their order. */
typedef enum {
  BENCH_SPEED,
  BENCH_FLOW,
  BENCH_TURNOVER,
  BENCH_DRAIN_MARGIN,
  BENCH_FLOOD_MARGIN,
  BENCH_POWER,
  BENCH_COST,
  BENCH_VELOCITY,
  BENCH_HEAD,
  N_BENCH_COLUMNS
} BenchColumn;

#define DOWNCOMER_TYPE_BENCH_ROW (bench_row_get_type ())
G_DECLARE_FINAL_TYPE (BenchRow, bench_row, DOWNCOMER, BENCH_ROW, GObject)

/* A row of `figures`, by its index there. */
BenchRow *bench_row_new (BenchFigures *figures, unsigned index);
void bench_row_update (BenchRow *row, BenchFigures *figures, unsigned index);

const CompareRow *bench_row_get_figures (BenchRow *row);
const BenchCurve *bench_row_get_curve (BenchRow *row, gboolean full_speed);

/* Tells rows apart over all evaluations: origin and key. */
char *bench_row_dup_id (BenchRow *row);
gboolean bench_row_same (BenchRow *row, const CompareRow *other);

/* The name in full, and what is left of it for a label on the chart. Newly allocated. */
char *bench_row_dup_name (BenchRow *row);
char *bench_row_dup_short_name (BenchRow *row);
const char *bench_row_origin (BenchRow *row);

/* The speed to set: that of the comparison, brought up to a whole per cent, as controllers have it. */
double bench_row_speed (BenchRow *row);

/* The number of a column, in SI, and the number as text in the unit that heads the column. */
double bench_row_number (BenchRow *row, BenchColumn column);
char *bench_row_text (BenchRow *row, BenchColumn column, const NumberStyle *style);

/* Head of a column with its unit ("Flow, L/h"), and what it means in a sentence. */
char *bench_column_title (BenchColumn column, const NumberStyle *style);
const char *bench_column_help (BenchColumn column);

/* The verdict on the whole design with this pump: its grade (N_GRADES for sound), in a word, in a sentence. */
Grade bench_row_grade (BenchRow *row);
char *bench_row_verdict (BenchRow *row);
char *bench_row_sentence (BenchRow *row, const NumberStyle *style);

/* Whether its curve is asked for on the chart. Emits "changed". */
gboolean bench_row_get_shown (BenchRow *row);
void bench_row_set_shown (BenchRow *row, gboolean shown);
