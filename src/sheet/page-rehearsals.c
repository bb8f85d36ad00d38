/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For designer and owner: the failures that were rehearsed, against the vessels, on one sheet. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "report/rehearsal-summary.h"
#include "report/rehearsal-words.h"
#include "report/words.h"
#include "sheet/build.h"

/* Small enough that all failures are on one sheet. */
#define SIZE 8.4

/* Columns beside the vessels: the failure, and what it comes to. */
#define N_BEFORE 1
#define N_AFTER  3

#define VESSELS_MAX (TABLE_COLUMNS_MAX - N_BEFORE - N_AFTER)

/* Parts that have a rim over the floor, in the order of the vessels. */
typedef struct {
  int parts[EVALUATION_VESSELS_MAX];
  unsigned n;
} Vessels;

/* All failures see the same vessels: those of any that was played. */
static Vessels
find_vessels (const Build *build)
{
  Vessels found = {.n = 0};
  const Rehearsal *rehearsal = NULL;

  for (unsigned i = 0; build->rehearsed != NULL && i < N_FAILURES; i++)
    if (rehearsal_is_known (&build->rehearsed[i]))
      rehearsal = &build->rehearsed[i].rehearsal;
  for (unsigned i = 0; rehearsal != NULL && i < rehearsal->n_vessels; i++) {
    const RehearsalVessel *vessel = &rehearsal->vessels[i];

    if (isfinite (vessel->least_freeboard_m) && (found.n == 0 || found.parts[found.n - 1] != vessel->part))
      found.parts[found.n++] = vessel->part;
  }
  return found;
}

/* The finding that water runs over the rim of a part; a chamber spills over the rim of its sump. */
static const RehearsalFinding *
find_spill (const Build *build, const Rehearsed *rehearsed, int part, double freeboard_m)
{
  const PartKind kind = part_kind (design_part (build->design, (unsigned) part));

  for (unsigned i = 0; i < rehearsed->n_findings; i++) {
    const RehearsalFinding *finding = &rehearsed->findings[i];

    if ((finding->check != REHEARSED_SPILLS && finding->check != REHEARSED_SPILLS_FAST) || finding->part < 0)
      continue;
    if (finding->part == part)
      return finding;
    if (kind == PART_CHAMBER && freeboard_m <= 0 &&
        part_kind (design_part (build->design, (unsigned) finding->part)) == PART_SUMP)
      return finding;
  }
  return NULL;
}

static double
least_freeboard (const Rehearsal *rehearsal, int part)
{
  double least_m = INFINITY;

  for (unsigned i = 0; i < rehearsal->n_vessels; i++)
    if (rehearsal->vessels[i].part == part)
      least_m = fmin (least_m, rehearsal->vessels[i].least_freeboard_m);
  return least_m;
}

/* Sets a cell; returns whether it is marked, and how. */
static bool
vessel_cell (const Build *build, const Rehearsed *rehearsed, int part, char **ret_cell, Grade *ret_grade)
{
  const double least_m = least_freeboard (rehearsal_judged (rehearsed), part);
  const RehearsalFinding *spill = find_spill (build, rehearsed, part, least_m);

  if (spill != NULL) {
    *ret_cell = g_strdup (C_ ("vessel", "spills"));
    *ret_grade = spill->grade;
    return true;
  }
  *ret_cell = units_format_number (fmax (least_m, 0), QUANTITY_LENGTH, &build->style, NULL, UNITS_BUILD);
  *ret_grade = GRADE_CAUTION;
  return least_m < REHEARSAL_FREEBOARD_M;
}

static char *
time_cell (const Build *build, double time_s)
{
  return isfinite (time_s) ? build_measure (build, time_s, QUANTITY_TIME) : NULL;
}

static void
add_row (const Build *build, Table *table, const Rehearsed *rehearsed, const int *parts, unsigned n,
         bool last)
{
  const Rehearsal *rehearsal = rehearsal_judged (rehearsed);
  const bool wet = rehearsal_spills (rehearsed);
  char *cells[TABLE_COLUMNS_MAX] = {NULL};
  bool marked[TABLE_COLUMNS_MAX] = {false};
  Grade grades[TABLE_COLUMNS_MAX];
  unsigned k = N_BEFORE;

  cells[0] = rehearsal_name (rehearsed->failures, rehearsed->n_failures);
  for (unsigned i = 0; i < n; i++, k++)
    marked[k] = vessel_cell (build, rehearsed, parts[i], &cells[k], &grades[k]);
  if (last) {
    cells[k++] = wet ? build_measure (build, rehearsal->spilled_m3, QUANTITY_VOLUME) : NULL;
    cells[k++] = time_cell (build, rehearsal->pump_dry_s);
    cells[k++] = time_cell (build, rehearsal->matters_s);
  }
  table_add_cells (table, cells, k);
  for (unsigned i = 0; i < k; i++)
    if (marked[i])
      table_mark (table, i, grades[i]);
  if (wet)
    table_embolden (table);
}

static Table *
matrix_new (const Build *build, const int *parts, unsigned n, bool last)
{
  static const char *const heads[N_AFTER] = {N_ ("On the floor"), N_ ("Pump runs dry after"),
                                             N_ ("Somebody there within")};
  TableColumn columns[TABLE_COLUMNS_MAX] = {{N_ ("Failure"), COLUMN_TEXT}};
  unsigned k = N_BEFORE;
  Table *table;

  for (unsigned i = 0; i < n; i++)
    columns[k++] = (TableColumn){NULL, COLUMN_NUMBER};
  for (unsigned i = 0; last && i < N_AFTER; i++)
    columns[k++] = (TableColumn){heads[i], COLUMN_NUMBER};
  table = table_new (columns, k);
  table_set_size (table, SIZE);
  table_tighten (table);
  table_spread (table);
  for (unsigned i = 0; i < n; i++) {
    g_autofree char *name = words_part (build->design, design_part (build->design, (unsigned) parts[i]));

    table_set_head (table, N_BEFORE + i, name);
  }
  return table;
}

/* As many tables as the vessels need, all but the last without what the failure comes to. */
static void
add_matrix (Build *build, const Vessels *vessels)
{
  const unsigned n_tables = (vessels->n + VESSELS_MAX - 1) / VESSELS_MAX;
  g_autofree char *symbol = units_symbol (units_unit_for (QUANTITY_LENGTH, &build->style), &build->style);
  g_autofree char *heading = words_fill (_ ("Least freeboard, {unit}"), "unit", symbol, NULL);

  for (unsigned t = 0; t < n_tables; t++) {
    const unsigned from = t * vessels->n / n_tables, to = (t + 1) * vessels->n / n_tables;
    const bool last = t + 1 == n_tables;
    g_autoptr (Table) table = matrix_new (build, vessels->parts + from, to - from, last);

    for (unsigned i = 0; i < N_FAILURES; i++)
      if (rehearsal_is_known (&build->rehearsed[i]))
        add_row (build, table, &build->rehearsed[i], vessels->parts + from, to - from, last);
    table_flow (table, &build->flow, heading);
  }
}

static void
add_key (Build *build)
{
  g_autofree char *limit = build_size (build, REHEARSAL_FREEBOARD_M);
  g_autofree char *text =
      words_fill (_ ("Octagon: over this rim onto the floor. Triangle: less than the {limit} of freeboard "
                     "wanted, or over "
                     "the rim with the strongest pump alone. Empty: not while the failure is played."),
                  "limit", limit, NULL);

  build_note (build, text);
}

/* What is not in the matrix, a line each. */
static void
add_left_out (Build *build)
{
  static const TableColumn columns[] = {{NULL, COLUMN_TEXT}, {NULL, COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  table_set_size (table, TEXT_SMALL);
  table_tighten (table);
  for (unsigned i = 0; i < N_FAILURES; i++) {
    const Rehearsed *rehearsed = &build->rehearsed[i];

    if (rehearsal_is_known (rehearsed))
      continue;
    table_add (table, rehearsal_name (rehearsed->failures, rehearsed->n_failures),
               g_strdup (rehearsed->reason != FAILURE_APPLIES
                             ? rehearsal_reason_sentence (rehearsed->reason)
                             : _ ("It could not be computed to the end: what happens is not known.")));
    if (rehearsed->reason == FAILURE_APPLIES)
      table_embolden (table);
  }
  table_flow (table, &build->flow, _ ("Not in the table"));
}

void
build_rehearsal_pages (Build *build)
{
  Flow *flow = &build->flow;
  const Vessels vessels = find_vessels (build);
  g_autofree char *summary = rehearsal_summary (build->rehearsed, N_FAILURES, &build->style);
  g_autofree char *assumptions = NULL;
  FailureOptions options;

  failure_options_init (&options);
  assumptions = rehearsal_assumptions (&options, &build->style);
  flow_section (flow, _ ("Rehearsals"), 1);
  flow_paragraph (flow, summary, TEXT_BODY, true);
  flow_gap (flow, 3);
  flow_paragraph (flow, rehearsal_caution (), TEXT_BODY, false);
  if (build->rehearsed == NULL)
    return;
  add_matrix (build, &vessels);
  if (vessels.n > 0)
    add_key (build);
  flow_split (flow, 2);
  add_left_out (build);
  flow_column (flow);
  flow_heading (flow, _ ("Assumed in every rehearsal"), 30);
  flow_paragraph (flow, assumptions, TEXT_SMALL, false);
}
