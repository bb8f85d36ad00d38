/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/legendre.h"

#include <math.h>

#include <glib.h>

enum { N_POINTS_MAX = 64 };

void
legendre_values (int degree, double x, double *ret_values)
{
  ret_values[0] = 1.0;
  ret_values[1] = x;
  for (int n = 1; n < degree; n++)
    ret_values[n + 1] = ((2.0 * n + 1.0) * x * ret_values[n] - n * ret_values[n - 1]) / (n + 1.0);
}

void
legendre_gauss (int n_points, double *ret_nodes, double *ret_weights)
{
  double p[N_POINTS_MAX + 1];

  g_assert (n_points >= 1 && n_points <= N_POINTS_MAX);
  for (int i = 0; i < n_points; i++) {
    /* Newton's step doubles the digits; the start is good to 1e-3 of the distance between nodes. */
    double x = cos (G_PI * (i + 0.75) / (n_points + 0.5)), slope = 1.0;
    for (int k = 0; k < 6; k++) {
      legendre_values (n_points, x, p);
      slope = n_points * (p[n_points - 1] - x * p[n_points]) / (1.0 - x * x);
      x -= p[n_points] / slope;
    }
    ret_nodes[i] = x;
    ret_weights[i] = 2.0 / ((1.0 - x * x) * slope * slope);
  }
}
