/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* One loop of a pump, eleven pipes and three ends, solved from cold and again after its valve was moved, beside the same
 * equations in GSL's multiroot solver: Powell's hybrid method with its own scaling and the exact Jacobian, over flows and
 * heads together, from the same start. Prints nanoseconds and ratios. Both are timed as the least of several rounds. */

#include "hydraulics/network.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>
#include <math.h>

enum { SUMP, J1, J2, J3, J4, J5, J6, J7, J8, J9, LEFT, RIGHT, N_NODES };
enum { N_LINKS = 12, VALVE = 10 };

#define ROUNDS 7

static const Fluid water = {998.2, 1.002e-3}; /* 20 degC */
static NetworkNode nodes[N_NODES];
static NetworkLink links[N_LINKS];

static void
make_loop (void)
{
  static const struct {
    guint from, to;
    double length_m, bore_m, k;
  } pipes[] = {{J1, J2, 0.3, 0.0266, 1.2},   {J2, J3, 0.4, 0.0266, 0.6},    {J3, J4, 0.4, 0.0266, 0.9},
               {J4, J5, 0.4, 0.0266, 0.9},   {J5, J6, 0.5, 0.0209, 1.5},    {J5, J7, 0.5, 0.0209, 1.5},
               {J6, LEFT, 0.2, 0.0209, 1.0}, {J7, RIGHT, 0.2, 0.0209, 1.0}, {J3, J8, 0.3, 0.0158, 2.0},
               {J8, J9, 0.3, 0.0158, 30.0},  {J9, SUMP, 0.5, 0.0158, 1.0}};
  PumpCurve curve;

  pump_curve_from_three_points ((const double[]){0.0, 0.8e-3, 1.4e-3}, (const double[]){3.0, 2.2, 0.5},
                                &curve);
  for (guint i = 0; i < N_NODES; i++)
    nodes[i] = (NetworkNode){.kind = NETWORK_JUNCTION};
  nodes[SUMP] = (NetworkNode){.kind = NETWORK_LEVEL, .level_m = 0.25};
  nodes[LEFT] = (NetworkNode){.kind = NETWORK_LEVEL, .level_m = 1.40};
  nodes[RIGHT] = (NetworkNode){.kind = NETWORK_LEVEL, .level_m = 1.35};
  links[0] = network_link_pump (SUMP, J1, &curve, 1.0, 1.0);
  for (guint i = 0; i < G_N_ELEMENTS (pipes); i++)
    links[i + 1] = network_link_pipe (pipes[i].from, pipes[i].to, pipes[i].length_m, pipes[i].bore_m, 1.5e-6,
                                      pipes[i].k);
}

/* The unknowns for GSL: flows in L/s, then the heads of J1 to J9 in m. */
#define N_UNKNOWNS (N_LINKS + J9)

static double
head_of (const gsl_vector *x, guint node)
{
  return nodes[node].kind == NETWORK_LEVEL ? nodes[node].level_m : gsl_vector_get (x, N_LINKS + node - J1);
}

static void
loss_of (guint link, double flow, double *ret_loss, double *ret_slope)
{
  PumpHead head;
  PipeLoss loss;

  if (links[link].kind == NETWORK_PUMP) {
    pump_head (&links[link].pump.curve, 1.0, 1.0, flow, &head);
    *ret_loss = -head.head_m;
    *ret_slope = -head.slope_sm2;
  } else {
    pipe_loss (&links[link].pipe, &water, flow, &loss);
    *ret_loss = loss.head_m;
    *ret_slope = loss.slope_sm2;
  }
}

static int
residuals_and_jacobian (const gsl_vector *x, void *data, gsl_vector *f, gsl_matrix *jacobian)
{
  if (f != NULL)
    gsl_vector_set_zero (f);
  if (jacobian != NULL)
    gsl_matrix_set_zero (jacobian);
  for (guint i = 0; i < N_LINKS; i++) {
    double loss, slope, flow = gsl_vector_get (x, i);
    guint ends[2] = {links[i].from, links[i].to};
    loss_of (i, 1e-3 * flow, &loss, &slope);
    if (f != NULL)
      gsl_vector_set (f, i, loss - head_of (x, ends[0]) + head_of (x, ends[1]));
    if (jacobian != NULL)
      gsl_matrix_set (jacobian, i, i, 1e-3 * slope);
    for (guint end = 0; end < 2; end++) {
      if (nodes[ends[end]].kind == NETWORK_LEVEL)
        continue;
      guint row = N_LINKS + ends[end] - J1;
      double sign = end == 0 ? -1.0 : 1.0;
      if (f != NULL)
        gsl_vector_set (f, row, gsl_vector_get (f, row) + sign * flow);
      if (jacobian != NULL) {
        gsl_matrix_set (jacobian, i, row, sign);
        gsl_matrix_set (jacobian, row, i, sign);
      }
    }
  }
  return GSL_SUCCESS;
}

static int
residuals (const gsl_vector *x, void *data, gsl_vector *f)
{
  return residuals_and_jacobian (x, data, f, NULL);
}

static int
jacobian_only (const gsl_vector *x, void *data, gsl_matrix *jacobian)
{
  return residuals_and_jacobian (x, data, NULL, jacobian);
}

/* Runs GSL from @x until the residuals are below 1e-9; leaves the solution there. Returns the iterations. */
static guint
solve_by_gsl (gsl_multiroot_fdfsolver *solver, gsl_vector *x)
{
  gsl_multiroot_function_fdf system = {residuals, jacobian_only, residuals_and_jacobian, N_UNKNOWNS, NULL};
  guint n = 0;

  gsl_multiroot_fdfsolver_set (solver, &system, x);
  while (n < 200 && gsl_multiroot_test_residual (solver->f, 1e-9) == GSL_CONTINUE) {
    n++;
    if (gsl_multiroot_fdfsolver_iterate (solver) != GSL_SUCCESS)
      break;
  }
  gsl_vector_memcpy (x, solver->x);
  return n;
}

static void
start_of_gsl (gsl_vector *x)
{
  for (guint i = 0; i < N_UNKNOWNS; i++)
    gsl_vector_set (x, i,
                    i < N_LINKS && links[i].kind == NETWORK_PIPE
                        ? 1e3 * G_PI_4 * links[i].pipe.bore_m * links[i].pipe.bore_m
                        : 1.0);
}

typedef struct {
  Network *network;
  gsl_multiroot_fdfsolver *solver;
  gsl_vector *x;
} Bench;

static void
ours_cold (Bench *bench, guint turn)
{
  network_reset (bench->network);
  network_solve (bench->network);
}

static void
ours_again (Bench *bench, guint turn)
{
  network_set_k (bench->network, VALVE, turn % 2 ? 30.0 : 40.0);
  network_solve (bench->network);
}

static void
gsl_cold (Bench *bench, guint turn)
{
  start_of_gsl (bench->x);
  solve_by_gsl (bench->solver, bench->x);
}

static void
gsl_again (Bench *bench, guint turn)
{
  links[VALVE].pipe.k = turn % 2 ? 30.0 : 40.0;
  solve_by_gsl (bench->solver, bench->x);
}

static double
nanoseconds (void (*solve) (Bench *, guint), Bench *bench, guint count)
{
  double least = INFINITY;

  for (guint round = 0; round < ROUNDS; round++) {
    gint64 start = g_get_monotonic_time ();
    for (guint i = 0; i < count; i++)
      solve (bench, i);
    least = fmin (least, 1e3 * (double) (g_get_monotonic_time () - start) / count);
  }
  return least;
}

int
main (void)
{
  Bench bench = {0};

  make_loop ();
  gsl_set_error_handler_off ();
  if (network_new (nodes, N_NODES, links, N_LINKS, NULL, 0, &water, &bench.network, NULL) != HYDRAULICS_OK ||
      network_solve (bench.network) != HYDRAULICS_OK)
    return 1;
  bench.solver = gsl_multiroot_fdfsolver_alloc (gsl_multiroot_fdfsolver_hybridsj, N_UNKNOWNS);
  bench.x = gsl_vector_alloc (N_UNKNOWNS);
  start_of_gsl (bench.x);
  guint gsl_iterations = solve_by_gsl (bench.solver, bench.x);
  double flow = 1e3 * network_flow (bench.network, 0), gsl_flow = gsl_vector_get (bench.x, 0);
  g_print ("duty flow: %.7f L/s in %u iterations; GSL %.7f L/s in %u\n", flow,
           network_statistics (bench.network)->iterations, gsl_flow, gsl_iterations);

  double cold = nanoseconds (ours_cold, &bench, 20000), reference = nanoseconds (gsl_cold, &bench, 200);
  g_print ("from cold: %.0f ns; GSL %.0f ns; ratio %.4f\n", cold, reference, cold / reference);
  double again = nanoseconds (ours_again, &bench, 20000),
         reference_again = nanoseconds (gsl_again, &bench, 200);
  g_print ("after one valve moved: %.0f ns; GSL %.0f ns; ratio %.4f\n", again, reference_again,
           again / reference_again);

  gsl_vector_free (bench.x);
  gsl_multiroot_fdfsolver_free (bench.solver);
  network_free (bench.network);
  return fabs (flow - gsl_flow) < 1e-6 ? 0 : 1;
}
