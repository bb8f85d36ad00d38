/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/bench/steady-gsl.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>

#include "design/choices.h"
#include "hydraulics/constants.h"

#define TOLERANCE      1e-9
#define MOST_STEPS     200
#define DIFFERENCE     1e-7 /* relative step of numerical derivatives */
#define LITRES         1e3
#define UNKNOWNS_MAX   200
#define JUNCTIONS_MAX  40
#define START_FLOW_M3S 5e-4
#define START_K        10.0

/* Where each unknown stands. */
typedef struct {
  unsigned pump, runs, heads, display, inner, box, drains, chambers, valve, count;
} Places;

struct _SteadyGsl {
  const System *system;
  SteadyRule rule;
  Places at;
  guint junctions[JUNCTIONS_MAX]; /* nodes whose head is unknown */
  unsigned n_junctions;
  int tuned_drain; /* the siphon whose valve is set; -1 without */
  double set_k;    /* of its valve, by the last state that set it */
  double tee_k[EVALUATION_RUNS_MAX];
  gsl_multiroot_fdfsolver *solver;
  gsl_vector *x;
  State scratch; /* levels of the sump are found in it */
  double rows[UNKNOWNS_MAX];
};

static void
add_junction (SteadyGsl *steady, guint node)
{
  for (unsigned i = 0; i < steady->system->n_outlets; i++)
    if (steady->system->outlets[i].node == node)
      return;
  for (unsigned i = 0; i < steady->n_junctions; i++)
    if (steady->junctions[i] == node)
      return;
  g_assert_cmpuint (steady->n_junctions, <, JUNCTIONS_MAX);
  steady->junctions[steady->n_junctions++] = node;
}

SteadyGsl *
steady_gsl_new (const System *system)
{
  SteadyGsl *steady = g_new0 (SteadyGsl, 1);
  Places *at = &steady->at;

  g_assert_true (system->n_tanks == 1 && system->n_overflows == 1 && system->n_pumps == 1 &&
                 !system->pumps[0].outside);
  steady->system = system;
  steady->tuned_drain = -1;
  for (unsigned i = 0; i < system->n_runs; i++) {
    add_junction (steady, system->runs[i].from);
    add_junction (steady, system->runs[i].to);
  }
  for (unsigned i = 0; i < system->n_drains; i++)
    if (system->drains[i].role == DRAIN_SIPHON && system->drains[i].valve != VALVE_NONE &&
        !system->drains[i].valve_given)
      steady->tuned_drain = (int) i;
  at->runs = at->pump + 1;
  at->heads = at->runs + system->n_runs;
  at->display = at->heads + steady->n_junctions;
  at->inner = at->display + 1;
  at->box = at->inner + 1;
  at->drains = at->box + 1;
  at->chambers = at->drains + system->n_drains;
  at->valve = at->chambers + system->n_chambers;
  at->count = at->valve + 1;
  g_assert_cmpuint (at->count, <=, UNKNOWNS_MAX);
  steady->solver = gsl_multiroot_fdfsolver_alloc (gsl_multiroot_fdfsolver_hybridsj, at->count);
  steady->x = gsl_vector_alloc (at->count);
  return steady;
}

void
steady_gsl_free (SteadyGsl *steady)
{
  gsl_multiroot_fdfsolver_free (steady->solver);
  gsl_vector_free (steady->x);
  g_free (steady);
}

unsigned
steady_gsl_n_unknowns (const SteadyGsl *steady)
{
  return steady->at.count;
}

static double
at (const gsl_vector *x, unsigned place)
{
  return gsl_vector_get (x, place);
}

/* Place of the unknown head of a node; the count where it is known. */
static unsigned
head_place (const SteadyGsl *steady, guint node)
{
  for (unsigned i = 0; i < steady->n_junctions; i++)
    if (steady->junctions[i] == node)
      return steady->at.heads + i;
  return steady->at.count;
}

/* Head of a node, and the place of the unknown that it follows one to one; the count where it follows none. */
static double
head_of (const SteadyGsl *steady, const gsl_vector *x, guint node, unsigned *ret_place)
{
  const System *system = steady->system;

  *ret_place = head_place (steady, node);
  if (*ret_place < steady->at.count)
    return at (x, *ret_place);
  for (unsigned i = 0; i < system->n_outlets; i++)
    if (system->outlets[i].node == node) {
      if (at (x, steady->at.display) > system->outlets[i].z)
        *ret_place = steady->at.display;
      return fmax (at (x, steady->at.display), system->outlets[i].z);
    }
  *ret_place = steady->at.chambers + system->pumps[0].chamber;
  return at (x, *ret_place);
}

static double
flow_to_tank (const SteadyGsl *steady, const gsl_vector *x)
{
  double flow = 0;

  for (unsigned i = 0; i < steady->system->n_runs; i++)
    for (unsigned k = 0; k < steady->system->n_outlets; k++)
      if (steady->system->runs[i].to == steady->system->outlets[k].node)
        flow += at (x, steady->at.runs + i);
  return flow / LITRES;
}

/* Loss of a link along its flow, and its slope, per L/s. */
static double
loss_of (const SteadyGsl *steady, unsigned link, double flow_l_s, double *ret_slope)
{
  const System *system = steady->system;

  if (link == steady->at.pump) {
    PumpHead head;

    pump_head (&system->pumps[0].curve, steady->rule.speed, steady->rule.edge, flow_l_s / LITRES, &head);
    *ret_slope = -head.slope_sm2 / LITRES;
    return -head.head_m;
  }
  const RunModel *model = &system->runs[link - steady->at.runs];
  PipeRun run = model->pipe;
  PipeLoss loss;

  run.k += steady->tee_k[link - steady->at.runs];
  if (steady->rule.aged)
    run.roughness_m = model->aged_roughness_m;
  pipe_loss (&run, &system->fluid, flow_l_s / LITRES, &loss);
  *ret_slope = loss.slope_sm2 / LITRES;
  return loss.head_m;
}

/* Row `link` of the equations: loss along a link; and what its flow adds to the balances of its ends. */
static void
link_row (const SteadyGsl *steady, const gsl_vector *x, unsigned link, gsl_vector *f, gsl_matrix *jacobian)
{
  const System *system = steady->system;
  const bool pump = link == steady->at.pump;
  const guint ends[2] = {pump ? system->pumps[0].suction_node : system->runs[link - steady->at.runs].from,
                         pump ? system->pumps[0].delivery_node : system->runs[link - steady->at.runs].to};
  double slope, residual = loss_of (steady, link, at (x, link), &slope);

  if (jacobian != NULL)
    gsl_matrix_set (jacobian, link, link, slope);
  for (unsigned end = 0; end < 2; end++) {
    const double sign = end == 0 ? -1 : 1;
    const unsigned row = head_place (steady, ends[end]);
    unsigned place;

    residual += sign * head_of (steady, x, ends[end], &place);
    if (jacobian != NULL && place < steady->at.count)
      gsl_matrix_set (jacobian, link, place, sign);
    if (row == steady->at.count)
      continue;
    if (jacobian != NULL)
      gsl_matrix_set (jacobian, row, link, sign);
    if (f != NULL)
      gsl_vector_set (f, row, gsl_vector_get (f, row) + sign * at (x, link));
  }
  if (f != NULL)
    gsl_vector_set (f, link, residual);
}

static void
drain_rows (SteadyGsl *steady, const gsl_vector *x, double *rows)
{
  const System *system = steady->system;

  for (unsigned i = 0; i < system->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];
    const double set_k = (int) i == steady->tuned_drain ? at (x, steady->at.valve)
                         : drain->valve == VALVE_NONE   ? 0
                                                        : drain_valve_k (drain, drain->valve_opening);
    const DrainPipe pipe = drain_pipe_in (system, &steady->scratch, i, fmax (set_k, 0), false, 1);
    double flow_m3s = 0;

    if (!drain->blocked)
      drain_flow (&pipe, &system->fluid, drain->role == DRAIN_SIPHON && drain->primed_counts,
                  at (x, steady->at.box), &flow_m3s, NULL);
    rows[steady->at.drains + i] = at (x, steady->at.drains + i) - LITRES * flow_m3s;
  }
}

/* The rows of levels and drains. */
static void
level_rows (SteadyGsl *steady, const gsl_vector *x, double *rows)
{
  const System *system = steady->system;
  const Places *place = &steady->at;
  const OverflowModel *overflow = &system->overflows[0];
  const double flow_m3s = flow_to_tank (steady, x), box_z = at (x, place->box);
  double over_m3s = 0, sum_l_s = 0, levels[EVALUATION_CHAMBERS_MAX];

  for (unsigned i = 0; i < system->n_chambers; i++)
    levels[i] = steady->scratch.chamber_z[i] = at (x, place->chambers + i);
  drain_rows (steady, x, rows);
  for (unsigned i = 0; i < system->n_drains; i++) {
    sum_l_s += at (x, place->drains + i);
    steady->scratch.drain_m3s[i] = at (x, place->drains + i) / LITRES;
  }
  steady->scratch.pump_m3s[0] = at (x, place->pump) / LITRES;
  sump_levels (system, &steady->scratch);
  for (unsigned i = 0; i < system->n_chambers; i++)
    rows[place->chambers + i] = levels[i] - steady->scratch.chamber_z[i];
  weir_discharge (&overflow->weir, fmax (at (x, place->display) - overflow->crest_z, 0),
                  at (x, place->inner) - overflow->crest_z, &over_m3s);
  rows[place->display] = LITRES * (over_m3s - flow_m3s);
  rows[place->inner] = at (x, place->inner) - overflow_inner_z (system, overflow, flow_m3s, box_z);
  rows[place->box] = sum_l_s - LITRES * flow_m3s;
  /* The valve is set for the wanted level, or stands as it was set for the state before. */
  if (steady->rule.tuned && steady->tuned_drain >= 0)
    rows[place->valve] = box_z - overflow_wanted_z (system, 0, flow_m3s);
  else
    rows[place->valve] = at (x, place->valve) - steady->set_k;
}

/* Numerical derivatives of the rows of levels, one column after the other. */
static void
level_derivatives (SteadyGsl *steady, const gsl_vector *x, gsl_matrix *jacobian)
{
  const Places *place = &steady->at;
  gsl_vector *moved = steady->x;
  double base[UNKNOWNS_MAX], rows[UNKNOWNS_MAX];

  gsl_vector_memcpy (moved, x);
  level_rows (steady, moved, base);
  for (unsigned column = 0; column < place->count; column++) {
    const double value = at (x, column), step = DIFFERENCE * fmax (fabs (value), 0.01);

    if (column >= place->heads && column < place->display)
      continue;
    gsl_vector_set (moved, column, value + step);
    level_rows (steady, moved, rows);
    gsl_vector_set (moved, column, value);
    for (unsigned row = place->display; row < place->count; row++)
      gsl_matrix_set (jacobian, row, column, (rows[row] - base[row]) / step);
  }
}

static int
equations (const gsl_vector *x, void *data, gsl_vector *f, gsl_matrix *jacobian)
{
  SteadyGsl *steady = data;

  if (f != NULL)
    gsl_vector_set_zero (f);
  if (jacobian != NULL) {
    gsl_matrix_set_zero (jacobian);
    level_derivatives (steady, x, jacobian);
  }
  for (unsigned link = 0; link < steady->at.heads; link++)
    link_row (steady, x, link, f, jacobian);
  if (f == NULL)
    return GSL_SUCCESS;
  level_rows (steady, x, steady->rows);
  for (unsigned row = steady->at.display; row < steady->at.count; row++)
    gsl_vector_set (f, row, steady->rows[row]);
  return GSL_SUCCESS;
}

static int
residuals (const gsl_vector *x, void *data, gsl_vector *f)
{
  return equations (x, data, f, NULL);
}

static int
derivatives (const gsl_vector *x, void *data, gsl_matrix *jacobian)
{
  return equations (x, data, NULL, jacobian);
}

static void
start (SteadyGsl *steady)
{
  const System *system = steady->system;
  const Places *place = &steady->at;
  const OverflowModel *overflow = &system->overflows[0];
  gsl_vector *x = steady->solver->x;

  gsl_vector_set_zero (x);
  for (unsigned i = 0; i < place->heads; i++)
    gsl_vector_set (x, i, LITRES * START_FLOW_M3S / (i == place->pump || i == place->runs ? 1 : 2));
  for (unsigned i = 0; i < steady->n_junctions; i++)
    gsl_vector_set (x, place->heads + i, overflow->crest_z + 0.2);
  gsl_vector_set (x, place->display, overflow->crest_z + 0.01);
  gsl_vector_set (x, place->box, overflow_wanted_z (system, 0, START_FLOW_M3S));
  gsl_vector_set (x, place->inner, at (x, place->box) + 0.01);
  for (unsigned i = 0; i < system->n_drains; i++)
    gsl_vector_set (x, place->drains + i,
                    system->drains[i].role == DRAIN_SIPHON ? LITRES * START_FLOW_M3S : 0);
  for (unsigned i = 0; i < system->n_chambers; i++)
    gsl_vector_set (x, place->chambers + i, system->chambers[i].level_z);
  gsl_vector_set (x, place->valve, steady->tuned_drain < 0 ? 0 : START_K);
}

/* The loss that tees and check valves add to the runs of the known state, as K. */
static void
hold_tees (SteadyGsl *steady)
{
  const System *system = steady->system;

  for (unsigned i = 0; i < system->n_runs; i++) {
    const double flow_m3s = steady->rule.known->run_m3s[i],
                 area_m2 = G_PI_4 * system->runs[i].pipe.bore_m * system->runs[i].pipe.bore_m;
    double slope;

    steady->tee_k[i] = 0;
    if (flow_m3s != 0)
      steady->tee_k[i] = (steady->rule.known->run_loss_m[i] -
                          loss_of (steady, steady->at.runs + i, LITRES * flow_m3s, &slope)) *
                         2 * GRAVITY_M_S2 * area_m2 * area_m2 / (flow_m3s * flow_m3s);
  }
}

unsigned
steady_gsl_solve (SteadyGsl *steady, const SteadyRule *rule, bool cold)
{
  gsl_multiroot_function_fdf system = {residuals, derivatives, equations, steady->at.count, steady};
  gsl_multiroot_fdfsolver *solver = steady->solver;
  unsigned n = 0;

  steady->rule = *rule;
  hold_tees (steady);
  if (cold)
    start (steady);
  gsl_multiroot_fdfsolver_set (solver, &system, solver->x);
  while (n < MOST_STEPS && gsl_multiroot_test_residual (solver->f, TOLERANCE) == GSL_CONTINUE) {
    n++;
    if (gsl_multiroot_fdfsolver_iterate (solver) != GSL_SUCCESS)
      break;
  }
  if (rule->tuned)
    steady->set_k = at (solver->x, steady->at.valve);
  return gsl_multiroot_test_residual (solver->f, TOLERANCE) == GSL_SUCCESS ? MAX (n, 1) : 0;
}

double
steady_gsl_difference (const SteadyGsl *steady)
{
  const State *known = steady->rule.known;
  const gsl_vector *x = steady->solver->x;
  const Places *place = &steady->at;
  double worst = fabs (at (x, place->pump) / (LITRES * known->pump_m3s[0]) - 1);

  for (unsigned i = 0; i < steady->system->n_drains; i++)
    worst = fmax (worst, fabs (at (x, place->drains + i) - LITRES * known->drain_m3s[i]) /
                             (LITRES * known->pump_m3s[0]));
  worst = fmax (worst, fabs (at (x, place->display) - known->display_z[0]));
  worst = fmax (worst, fabs (at (x, place->box) - known->box_z[0]));
  for (unsigned i = 0; i < steady->system->n_chambers; i++)
    worst = fmax (worst, fabs (at (x, place->chambers + i) - known->chamber_z[i]));
  return worst;
}
