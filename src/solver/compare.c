/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/compare.h"

#include <math.h>

#include "design/draft.h"
#include "solver/band.h"

#define FULL_SPEED 1.0

/* What all rows are judged with. */
typedef struct {
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  double target_per_h;
} Bench;

/* The speed to judge a pump at, from an evaluation of it at full speed. */
static void
choose_speed (const Bench *bench, CompareRow *row)
{
  double speed;

  row->target_speed = NAN;
  if (solver_speed_for_turnover (bench->system, bench->workspace, bench->evaluation, 0, bench->target_per_h,
                                 &speed) &&
      speed >= row->least_speed) {
    row->reaches_target = true;
    row->target_speed = row->speed = speed;
  } else {
    const bool weak = !(bench->evaluation->totals.turnover_per_h >= bench->target_per_h);

    row->speed = weak ? FULL_SPEED : row->least_speed;
  }
}

static void
take_figures (const Evaluation *evaluation, CompareRow *row)
{
  const Totals *totals = &evaluation->totals;

  if (evaluation->n_pumps > 0) {
    row->status = evaluation->pumps[0].status;
    row->estimate = evaluation->pumps[0].estimate;
    row->flow_m3s = evaluation->pumps[0].flow_m3s;
    row->head_m = evaluation->pumps[0].head_m;
  }
  row->turnover_per_h = totals->turnover_per_h;
  row->velocity_ms = totals->return_velocity_ms;
  row->drain_margin = totals->drain_margin;
  row->flood_margin_m = totals->flood_margin_m;
  row->power_w = totals->pump_power_w;
  row->yearly_cost = totals->yearly_cost;
  row->stops = evaluation_count (evaluation, GRADE_STOP);
  row->cautions = evaluation_count (evaluation, GRADE_CAUTION);
}

/* Judges one candidate; false where its curve cannot be used. */
static bool
judge (const Bench *bench, CompareRow *row)
{
  if (!system_set_pump_curve (bench->system, 0, row->curve, row->watts) ||
      !system_set_pump_speed (bench->system, 0, FULL_SPEED))
    return false;
  workspace_set_bands (bench->workspace, false);
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
  row->full_flow_m3s = bench->evaluation->n_pumps > 0 ? bench->evaluation->pumps[0].flow_m3s : (double) NAN;
  choose_speed (bench, row);
  if (!system_set_pump_speed (bench->system, 0, row->speed))
    return false;
  workspace_set_bands (bench->workspace, true);
  evaluate (bench->system, bench->workspace, NULL, bench->evaluation);
  take_figures (bench->evaluation, row);
  return true;
}

static void
judge_into (const Bench *bench, CompareRow row, CompareRow *rows, unsigned max, unsigned *n)
{
  if (*n < max && judge (bench, &row))
    rows[(*n)++] = row;
}

/* The least speed of the installed pump is that of the candidate it was taken from: same curve, same power. One that is
 * none of them is taken as adjustable. */
static double
installed_least_speed (const Design *design, const Catalogue *catalogue, const Part *pump)
{
  const char *curve = design_text (design, pump, FIELD_PUMP_CURVE);
  const double watts = design_number (design, pump, FIELD_PUMP_WATTS);

  for (unsigned i = 0; i < design_count (design, PART_CANDIDATE); i++) {
    const Part *own = design_nth (design, PART_CANDIDATE, i);

    if (g_str_equal (design_text (design, own, FIELD_CANDIDATE_CURVE), curve) &&
        design_number (design, own, FIELD_CANDIDATE_WATTS) == watts)
      return design_number (design, own, FIELD_CANDIDATE_MIN_SPEED);
  }
  for (unsigned i = 0; i < catalogue_n_pumps (catalogue); i++)
    if (g_str_equal (catalogue_pump (catalogue, i)->curve, curve) &&
        catalogue_pump (catalogue, i)->watts == watts)
      return catalogue_pump (catalogue, i)->min_speed;
  return field_info (FIELD_PUMP_SPEED)->min;
}

static void
judge_all (const Bench *bench, const Design *design, const Catalogue *catalogue, CompareRow *rows,
           unsigned max, unsigned *n)
{
  const Part *pump = design_part (design, (unsigned) system_pump_part (bench->system, 0));

  judge_into (bench,
              (CompareRow){.origin = COMPARE_INSTALLED,
                           .key = part_key (pump),
                           .name = part_label (pump),
                           .curve = design_text (design, pump, FIELD_PUMP_CURVE),
                           .watts = design_number (design, pump, FIELD_PUMP_WATTS),
                           .least_speed = installed_least_speed (design, catalogue, pump)},
              rows, max, n);
  for (unsigned i = 0; i < design_count (design, PART_CANDIDATE); i++) {
    const Part *own = design_nth (design, PART_CANDIDATE, i);

    judge_into (bench,
                (CompareRow){.origin = COMPARE_OWN,
                             .key = part_key (own),
                             .name = part_label (own),
                             .curve = design_text (design, own, FIELD_CANDIDATE_CURVE),
                             .watts = design_number (design, own, FIELD_CANDIDATE_WATTS),
                             .least_speed = design_number (design, own, FIELD_CANDIDATE_MIN_SPEED)},
                rows, max, n);
  }
  for (unsigned i = 0; i < catalogue_n_pumps (catalogue); i++) {
    const PumpType *type = catalogue_pump (catalogue, i);

    judge_into (bench,
                (CompareRow){.origin = COMPARE_CATALOGUE,
                             .key = type->key,
                             .name = type->name,
                             .curve = type->curve,
                             .watts = type->watts,
                             .least_speed = type->min_speed},
                rows, max, n);
  }
}

unsigned
compare_pumps (Design *design, Catalogue *catalogue, CompareRow *rows, unsigned max)
{
  const Part *job = design_nth (design, PART_JOB, 0);
  Bench bench = {.system = system_compile (design, catalogue, NULL, NULL)};
  unsigned n = 0;

  if (bench.system != NULL && system_n_pumps (bench.system) > 0 && job != NULL) {
    bench.workspace = workspace_new (bench.system);
    bench.evaluation = evaluation_new ();
    bench.target_per_h = design_number (design, job, FIELD_JOB_TURNOVER);
    judge_all (&bench, design, catalogue, rows, max, &n);
    workspace_free (bench.workspace);
    evaluation_free (bench.evaluation);
  }
  system_free (bench.system);
  return n;
}

Design *
compare_use (const Design *design, const CompareRow *row, Problem *ret_problem)
{
  const Part *pump = design_nth (design, PART_PUMP, 0);
  g_autoptr (Draft) draft = draft_new (design);
  const char *key = part_key (pump);

  if (row->origin != COMPARE_INSTALLED &&
      (!draft_set_text (draft, key, FIELD_PUMP_CURVE, row->curve, ret_problem) ||
       !draft_set_number (draft, key, FIELD_PUMP_WATTS, row->watts, ret_problem) ||
       (row->name != NULL && !draft_set_label (draft, key, row->name, ret_problem))))
    return NULL;
  if (!draft_set_number (draft, key, FIELD_PUMP_SPEED, row->speed, ret_problem))
    return NULL;
  return draft_commit (draft, ret_problem);
}
