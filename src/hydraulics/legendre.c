/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/legendre.h"

#include <math.h>

#include <glib.h>

Jet
legendre_polynomial (int degree, double x)
{
  Jet before = {0.0, 0.0, 0.0};
  Jet here = {1.0, 0.0, 0.0};

  for (int n = 0; n < degree; n++) {
    double odd = 2.0 * n + 1.0;
    Jet next = {
        .value = (odd * x * here.value - n * before.value) / (n + 1.0),
        .first = before.first + odd * here.value,
        .second = before.second + odd * here.first,
    };
    before = here;
    here = next;
  }
  return here;
}

void
legendre_gauss (int n_points, double *ret_nodes, double *ret_weights)
{
  for (int i = 0; i < n_points; i++) {
    /* Newton's step doubles the digits; the start is good to 1e-3 of the distance between nodes. */
    double x = cos (G_PI * (i + 0.75) / (n_points + 0.5));
    for (int k = 0; k < 8; k++) {
      Jet p = legendre_polynomial (n_points, x);
      x -= p.value / p.first;
    }
    double slope = legendre_polynomial (n_points, x).first;
    ret_nodes[i] = x;
    ret_weights[i] = 2.0 / ((1.0 - x * x) * slope * slope);
  }
}
