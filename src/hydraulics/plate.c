/* SPDX-License-Identifier: LGPL-2.1-or-later */

/* The deflection is sought as a sum of products f_i(x) g_j(y), x and y running from -1 to 1 over the pane, x across,
 * y upwards. Each function is a Legendre polynomial times a factor that vanishes at the supports: (1 + x) at a simple
 * one, (1 + x)2 at a clamped one. The load is symmetric in x, so only even polynomials are needed there. The factors c_ij
 * make the energy
 *   1/2 integral of (w_xx + w_yy)2 - 2 (1 - nu)(w_xx w_yy - w_xy2) - 2 q w
 * least; free edges need no condition of their own. Lengths are counted in shorter sides, pressure in the pressure at the
 * bottom, stiffness in that of the plate, so that one small system serves every pane. */

#include "hydraulics/plate.h"

#include "hydraulics/argument.h"
#include "hydraulics/constants.h"
#include "hydraulics/legendre.h"

#include <glib.h>

enum {
  N_ACROSS = 10, /* even polynomials: up to degree 18 */
  N_UP = 14,     /* up to degree 13 */
  N_TERMS = N_ACROSS * N_UP,
  N_FUNCTIONS = 14, /* the larger of the two */
  N_GAUSS = 24,     /* exact for the square of the highest polynomial, of degree 44 */
  N_SAMPLES = 81,   /* places per side at which stresses are compared */
};

/* The functions along one side of the pane. */
typedef struct {
  int n_functions;
  int degree_step;
  int power_low, power_high; /* of the factors (1 + x) and (1 - x) */
  double slope;              /* local coordinate per length: 2/side */
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
  double matrix[N_TERMS][N_TERMS]; /* lower triangle; Cholesky's factor afterwards */
  double terms[N_TERMS];           /* load, then the factors c */
} Ritz;

/* (1 + sign x) to the power 0, 1 or 2. */
static Jet
support_factor (int power, double sign, double x)
{
  double base = 1.0 + sign * x;

  switch (power) {
  case 0:
    return (Jet){1.0, 0.0, 0.0};
  case 1:
    return (Jet){base, sign, 0.0};
  default:
    return (Jet){base * base, 2.0 * sign * base, 2.0};
  }
}

static Jet
product (Jet a, Jet b)
{
  return (Jet){
      .value = a.value * b.value,
      .first = a.first * b.value + a.value * b.first,
      .second = a.second * b.value + 2.0 * a.first * b.first + a.value * b.second,
  };
}

static Jet
side_function (const Side *side, int index, double x)
{
  Jet jet = legendre_polynomial (index * side->degree_step, x);

  jet = product (jet, support_factor (side->power_low, 1.0, x));
  jet = product (jet, support_factor (side->power_high, -1.0, x));
  jet.first *= side->slope;
  jet.second *= side->slope * side->slope;
  return jet;
}

static void
tabulate (const Side *side, const double *places, int n_places, SideTable *table)
{
  for (int i = 0; i < side->n_functions; i++) {
    for (int p = 0; p < n_places; p++)
      table->at[i][p] = side_function (side, i, places[p]);
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
    for (int column = 0; column <= row; column++)
      ritz->matrix[row][column] = energy_product (&x, &y, ritz->poisson, i, j, column / N_UP, column % N_UP);
  }
}

/* Solves the positive definite system in place, after scaling it to a unit diagonal. */
static HydraulicsStatus
solve (Ritz *ritz)
{
  double scale[N_TERMS];

  for (int i = 0; i < N_TERMS; i++)
    scale[i] = 1.0 / sqrt (ritz->matrix[i][i]);
  for (int i = 0; i < N_TERMS; i++) {
    for (int j = 0; j <= i; j++) {
      double sum = ritz->matrix[i][j] * scale[i] * scale[j];
      for (int k = 0; k < j; k++)
        sum -= ritz->matrix[i][k] * ritz->matrix[j][k];
      if (i > j)
        ritz->matrix[i][j] = sum / ritz->matrix[j][j];
      else if (sum > 0.0)
        ritz->matrix[i][i] = sqrt (sum);
      else
        return HYDRAULICS_SINGULAR;
    }
  }
  for (int i = 0; i < N_TERMS; i++) {
    double sum = ritz->terms[i] * scale[i];
    for (int k = 0; k < i; k++)
      sum -= ritz->matrix[i][k] * ritz->terms[k];
    ritz->terms[i] = sum / ritz->matrix[i][i];
  }
  for (int i = N_TERMS - 1; i >= 0; i--) {
    double sum = ritz->terms[i];
    for (int k = i + 1; k < N_TERMS; k++)
      sum -= ritz->matrix[k][i] * ritz->terms[k];
    ritz->terms[i] = sum / ritz->matrix[i][i];
  }
  for (int i = 0; i < N_TERMS; i++)
    ritz->terms[i] *= scale[i];
  return HYDRAULICS_OK;
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

HydraulicsStatus
plate_bend (const Plate *plate, PlateBending *ret_bending)
{
  HydraulicsStatus status = check (plate);
  if (status != HYDRAULICS_OK)
    return status;

  bool clamped = plate->edges == PLATE_CLAMPED_4 || plate->edges == PLATE_FREE_TOP_3_CLAMPED;
  bool free_top = plate->edges == PLATE_FREE_TOP_3_SUPPORTED || plate->edges == PLATE_FREE_TOP_3_CLAMPED;
  int held = clamped ? 2 : 1;
  double unit_m = fmin (plate->width_m, plate->height_m);
  Ritz ritz;
  ritz.across = (Side){N_ACROSS, 2, held, held, 2.0 * unit_m / plate->width_m};
  ritz.up = (Side){N_UP, 1, held, free_top ? 0 : held, 2.0 * unit_m / plate->height_m};
  ritz.poisson = plate->poisson;
  ritz.load = plate->load;
  assemble (&ritz);
  status = solve (&ritz);
  if (status != HYDRAULICS_OK)
    return status;

  Peaks peaks = find_peaks (&ritz);
  double pressure_pa = plate->load == PLATE_UNIFORM ? plate->pressure_pa
                                                    : plate->density_kg_m3 * GRAVITY_M_S2 * plate->height_m;
  double slenderness = unit_m / plate->thickness_m;
  double stress_pa = 6.0 * pressure_pa * slenderness * slenderness;
  double flexibility = 12.0 * (1.0 - plate->poisson * plate->poisson) / plate->young_pa;
  ret_bending->max_deflection_m =
      peaks.deflection * pressure_pa * flexibility * pow (slenderness, 3.0) * unit_m;
  ret_bending->max_bending_stress_pa = peaks.moment * stress_pa;
  ret_bending->max_principal_stress_pa = peaks.principal_moment * stress_pa;
  return ret_bending->max_deflection_m > 0.5 * plate->thickness_m ? HYDRAULICS_OUT_OF_RANGE : HYDRAULICS_OK;
}
