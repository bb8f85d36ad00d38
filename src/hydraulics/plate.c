/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* The deflection is sought as a sum of products f_i(x) g_j(y), x and y running from -1 to 1 over the pane, x across,
 * y upwards. The second derivative of each function is one Legendre polynomial, integrated twice so that the supports
 * hold; the load is symmetric in x, so only even ones are needed there. The factors c_ij make the energy
 *   1/2 integral of (w_xx + w_yy)2 - 2 (1 - nu)(w_xx w_yy - w_xy2) - 2 q w
 * least; free edges need no condition of their own. Functions whose degrees lie far apart do not meet in the energy: the
 * system is a narrow band. Lengths are counted in shorter sides, pressure in the pressure at the bottom, stiffness in
 * that of the plate, so that one system serves every pane. */

#include "hydraulics/plate.h"

#include "hydraulics/argument.h"
#include "hydraulics/constants.h"
#include "hydraulics/legendre.h"

#include <glib.h>

enum {
  N_ACROSS = 16, /* even polynomials */
  N_UP = 32,
  N_FUNCTIONS = 32, /* the larger of the two */
  N_TERMS = N_ACROSS * N_UP,
  BAND = 2 * N_UP + 4, /* two functions meet if they are at most 2 apart across and 4 apart upwards */
  DEGREE_MAX = 2 * N_ACROSS + 4, /* of the polynomials from which the functions are made */
  N_GAUSS = 38,                  /* exact for products of degree 75: the highest here is 71 */
  N_SAMPLES = 81,                /* places per side at which stresses are compared */
};

/* Value, first and second derivative of a function at one place. */
typedef struct {
  double value, first, second;
} Jet;

/* The functions along one side of the pane. They are known by the degree of their second derivative; -1 is the rigid
 * turn about a simply supported lower edge whose opposite is free. */
typedef struct {
  int n_functions;
  int first_degree, degree_step;
  bool clamped; /* at the lower edge; the other one is held alike or free */
  double slope; /* local coordinate per length: 2/side */
} Side;

typedef struct {
  Jet at[N_FUNCTIONS][N_SAMPLES];
} SideTable;

/* Integrals of products of two functions of a side, or of their derivatives. */
typedef struct {
  double values[N_FUNCTIONS][N_FUNCTIONS];
  double slopes[N_FUNCTIONS][N_FUNCTIONS];
  double curvatures[N_FUNCTIONS][N_FUNCTIONS];
  double curvature_value[N_FUNCTIONS][N_FUNCTIONS]; /* second derivative of the first, value of the second */
} SideProducts;

typedef struct {
  Side across, up;
  double poisson;
  PlateLoad load;
  double band[N_TERMS]
             [BAND + 1]; /* row i, column j at [i][j - i + BAND], j <= i; Cholesky's factor afterwards */
  double terms[N_TERMS]; /* load, then the factors c */
  double scale[N_TERMS]; /* to a unit diagonal */
} Ritz;

/* The polynomial of @degree integrated once from -1: it vanishes at both ends for a degree of 1 or more. */
static double
integral (const double *legendre, int degree)
{
  return (legendre[degree + 1] - legendre[degree - 1]) / (2.0 * degree + 1.0);
}

/* From degree 2 on the double integral vanishes with its slope at both ends, so it suits every support. */
static Jet
side_function (const Side *side, int index, double x, const double *legendre)
{
  int degree = side->first_degree + index * side->degree_step;
  Jet jet;

  if (degree < 0)
    jet = (Jet){1.0 + x, 1.0, 0.0};
  else if (degree == 0 && side->clamped)
    jet = (Jet){0.5 * (1.0 + x) * (1.0 + x), 1.0 + x, 1.0};
  else if (degree == 0)
    jet = (Jet){0.5 * (x * x - 1.0), x, 1.0};
  else if (degree == 1 && side->clamped)
    jet = (Jet){(x * x * x - 3.0 * x - 2.0) / 6.0, 0.5 * (x * x - 1.0), x};
  else if (degree == 1)
    jet = (Jet){(x * x * x - x) / 6.0, 0.5 * x * x - 1.0 / 6.0, x};
  else
    jet = (Jet){(integral (legendre, degree + 1) - integral (legendre, degree - 1)) / (2.0 * degree + 1.0),
                integral (legendre, degree), legendre[degree]};
  jet.first *= side->slope;
  jet.second *= side->slope * side->slope;
  return jet;
}

static void
tabulate (const Side *side, const double *places, int n_places, SideTable *table)
{
  double legendre[DEGREE_MAX + 1];

  for (int p = 0; p < n_places; p++) {
    legendre_values (DEGREE_MAX, places[p], legendre);
    for (int i = 0; i < side->n_functions; i++)
      table->at[i][p] = side_function (side, i, places[p], legendre);
  }
}

static void
integrate (const Side *side, const SideTable *table, const double *weights, SideProducts *products)
{
  for (int i = 0; i < side->n_functions; i++) {
    for (int k = 0; k < side->n_functions; k++) {
      double values = 0.0, slopes = 0.0, curvatures = 0.0, mixed = 0.0;
      for (int p = 0; p < N_GAUSS; p++) {
        Jet a = table->at[i][p], b = table->at[k][p];
        values += weights[p] * a.value * b.value;
        slopes += weights[p] * a.first * b.first;
        curvatures += weights[p] * a.second * b.second;
        mixed += weights[p] * a.second * b.value;
      }
      products->values[i][k] = values;
      products->slopes[i][k] = slopes;
      products->curvatures[i][k] = curvatures;
      products->curvature_value[i][k] = mixed;
    }
  }
}

static double
energy_product (const SideProducts *x, const SideProducts *y, double poisson, int i, int j, int k, int l)
{
  return x->curvatures[i][k] * y->values[j][l] + x->values[i][k] * y->curvatures[j][l] +
         poisson * (x->curvature_value[i][k] * y->curvature_value[l][j] +
                    x->curvature_value[k][i] * y->curvature_value[j][l]) +
         2.0 * (1.0 - poisson) * x->slopes[i][k] * y->slopes[j][l];
}

static double
load_at (PlateLoad load, double y)
{
  return load == PLATE_UNIFORM ? 1.0 : 0.5 * (1.0 - y);
}

static void
assemble (Ritz *ritz)
{
  double nodes[N_GAUSS], weights[N_GAUSS];
  SideTable across_table, up_table;
  SideProducts x, y;

  legendre_gauss (N_GAUSS, nodes, weights);
  tabulate (&ritz->across, nodes, N_GAUSS, &across_table);
  tabulate (&ritz->up, nodes, N_GAUSS, &up_table);
  integrate (&ritz->across, &across_table, weights, &x);
  integrate (&ritz->up, &up_table, weights, &y);

  for (int row = 0; row < N_TERMS; row++) {
    int i = row / N_UP, j = row % N_UP;
    double across_load = 0.0, up_load = 0.0;
    for (int p = 0; p < N_GAUSS; p++) {
      across_load += weights[p] * across_table.at[i][p].value;
      up_load += weights[p] * load_at (ritz->load, nodes[p]) * up_table.at[j][p].value;
    }
    ritz->terms[row] = across_load * up_load;
    for (int column = MAX (0, row - BAND); column <= row; column++)
      ritz->band[row][column - row + BAND] =
          energy_product (&x, &y, ritz->poisson, i, j, column / N_UP, column % N_UP);
  }
}

/* Cholesky's factor of the scaled system, in place. */
static HydraulicsStatus
factorise (Ritz *ritz)
{
  for (int i = 0; i < N_TERMS; i++)
    ritz->scale[i] = 1.0 / sqrt (ritz->band[i][BAND]);
  for (int i = 0; i < N_TERMS; i++) {
    double *row = ritz->band[i] + BAND - i; /* so that row[j] is column j */
    int first = MAX (0, i - BAND);
    for (int j = first; j <= i; j++) {
      const double *other = ritz->band[j] + BAND - j;
      double sum = row[j] * ritz->scale[i] * ritz->scale[j];
      for (int k = MAX (first, j - BAND); k < j; k++)
        sum -= row[k] * other[k];
      if (i > j)
        row[j] = sum / other[j];
      else if (sum > 0.0)
        row[i] = sqrt (sum);
      else
        return HYDRAULICS_SINGULAR;
    }
  }
  return HYDRAULICS_OK;
}

/* The load in terms[] becomes the factors of the deflection. */
static void
substitute (Ritz *ritz)
{
  double *terms = ritz->terms;

  for (int i = 0; i < N_TERMS; i++) {
    const double *row = ritz->band[i] + BAND - i;
    double sum = terms[i] * ritz->scale[i];
    for (int k = MAX (0, i - BAND); k < i; k++)
      sum -= row[k] * terms[k];
    terms[i] = sum / row[i];
  }
  for (int i = N_TERMS - 1; i >= 0; i--) {
    const double *row = ritz->band[i] + BAND - i;
    terms[i] /= row[i];
    for (int k = MAX (0, i - BAND); k < i; k++)
      terms[k] -= row[k] * terms[i];
    terms[i] *= ritz->scale[i];
  }
}

typedef struct {
  double deflection, moment, principal_moment;
} Peaks;

static void
raise_peaks (Peaks *peaks, double w, double w_xx, double w_yy, double w_xy, double poisson)
{
  double across = w_xx + poisson * w_yy;
  double up = w_yy + poisson * w_xx;
  double twist = (1.0 - poisson) * w_xy;
  double principal = 0.5 * fabs (across + up) + hypot (0.5 * (across - up), twist);

  peaks->deflection = fmax (peaks->deflection, fabs (w));
  peaks->moment = fmax (peaks->moment, fmax (fabs (across), fabs (up)));
  peaks->principal_moment = fmax (peaks->principal_moment, principal);
}

/* Compares the pane at places that crowd towards the edges, where clamped panes are stressed most. */
static Peaks
find_peaks (const Ritz *ritz)
{
  double across_places[N_SAMPLES], up_places[N_SAMPLES];
  SideTable across_table, up_table;
  Peaks peaks = {0.0, 0.0, 0.0};

  for (int p = 0; p < N_SAMPLES; p++) {
    across_places[p] = sin (0.5 * G_PI * p / (N_SAMPLES - 1)); /* the right half is enough */
    up_places[p] = -cos (G_PI * p / (N_SAMPLES - 1));
  }
  tabulate (&ritz->across, across_places, N_SAMPLES, &across_table);
  tabulate (&ritz->up, up_places, N_SAMPLES, &up_table);

  for (int q = 0; q < N_SAMPLES; q++) {
    Jet strip[N_ACROSS] = {{0.0, 0.0, 0.0}};
    for (int i = 0; i < N_ACROSS; i++) {
      for (int j = 0; j < N_UP; j++) {
        strip[i].value += ritz->terms[i * N_UP + j] * up_table.at[j][q].value;
        strip[i].first += ritz->terms[i * N_UP + j] * up_table.at[j][q].first;
        strip[i].second += ritz->terms[i * N_UP + j] * up_table.at[j][q].second;
      }
    }
    for (int p = 0; p < N_SAMPLES; p++) {
      double w = 0.0, w_xx = 0.0, w_yy = 0.0, w_xy = 0.0;
      for (int i = 0; i < N_ACROSS; i++) {
        Jet f = across_table.at[i][p];
        w += f.value * strip[i].value;
        w_xx += f.second * strip[i].value;
        w_yy += f.value * strip[i].second;
        w_xy += f.first * strip[i].first;
      }
      raise_peaks (&peaks, w, w_xx, w_yy, w_xy, ritz->poisson);
    }
  }
  return peaks;
}

static HydraulicsStatus
check (const Plate *plate)
{
  if ((guint) plate->edges >= N_PLATE_EDGES || (guint) plate->load >= N_PLATE_LOADS ||
      !argument_is_positive (plate->width_m) || !argument_is_positive (plate->height_m) ||
      !argument_is_positive (plate->thickness_m) || !argument_is_positive (plate->young_pa) ||
      !argument_is_not_negative (plate->poisson) || plate->poisson >= 0.5 ||
      !argument_is_not_negative (plate->load == PLATE_UNIFORM ? plate->pressure_pa : plate->density_kg_m3))
    return HYDRAULICS_INVALID_ARGUMENT;
  double aspect = plate->width_m / plate->height_m;
  return aspect >= PLATE_ASPECT_MIN && aspect <= PLATE_ASPECT_MAX ? HYDRAULICS_OK : HYDRAULICS_OUT_OF_RANGE;
}

/* Peaks for a pressure of 1 at the bottom, a stiffness of 1 and a shorter side of 1. */
static HydraulicsStatus
solve (const Plate *plate, Ritz *ritz, Peaks *ret_peaks)
{
  bool clamped = plate->edges == PLATE_CLAMPED_4 || plate->edges == PLATE_FREE_TOP_3_CLAMPED;
  bool free_top = plate->edges == PLATE_FREE_TOP_3_SUPPORTED || plate->edges == PLATE_FREE_TOP_3_CLAMPED;
  int held_alike = clamped ? 2 : 0;
  int free_above = clamped ? 0 : -1;
  double unit_m = fmin (plate->width_m, plate->height_m);

  ritz->across = (Side){N_ACROSS, held_alike, 2, clamped, 2.0 * unit_m / plate->width_m};
  ritz->up = (Side){N_UP, free_top ? free_above : held_alike, 1, clamped, 2.0 * unit_m / plate->height_m};
  ritz->poisson = plate->poisson;
  ritz->load = plate->load;
  assemble (ritz);
  HydraulicsStatus status = factorise (ritz);
  if (status != HYDRAULICS_OK)
    return status;
  substitute (ritz);
  *ret_peaks = find_peaks (ritz);
  return HYDRAULICS_OK;
}

HydraulicsStatus
plate_bend (const Plate *plate, PlateBending *ret_bending)
{
  Peaks peaks = {0.0, 0.0, 0.0};
  HydraulicsStatus status = check (plate);

  if (status != HYDRAULICS_OK)
    return status;
  Ritz *ritz = g_new (Ritz, 1); /* too large for the stack of a thread */
  status = solve (plate, ritz, &peaks);
  g_free (ritz);
  if (status != HYDRAULICS_OK)
    return status;

  double pressure_pa = plate->load == PLATE_UNIFORM ? plate->pressure_pa
                                                    : plate->density_kg_m3 * GRAVITY_M_S2 * plate->height_m;
  double unit_m = fmin (plate->width_m, plate->height_m);
  double slenderness = unit_m / plate->thickness_m;
  double stress_pa = 6.0 * pressure_pa * slenderness * slenderness;
  double flexibility = 12.0 * (1.0 - plate->poisson * plate->poisson) / plate->young_pa;
  PlateBending bending = {
      .max_deflection_m = peaks.deflection * pressure_pa * flexibility * pow (slenderness, 3.0) * unit_m,
      .max_bending_stress_pa = peaks.moment * stress_pa,
      .max_principal_stress_pa = peaks.principal_moment * stress_pa,
  };
  if (!isfinite (bending.max_deflection_m) || !isfinite (bending.max_principal_stress_pa))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_bending = bending;
  return bending.max_deflection_m > 0.5 * plate->thickness_m ? HYDRAULICS_OUT_OF_RANGE : HYDRAULICS_OK;
}
