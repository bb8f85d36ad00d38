/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Legendre polynomials on -1 to 1, and the quadrature that belongs to them (Abramowitz & Stegun, chapters 22 and 25). */

/* Value, first and second derivative of a function at one place. */
typedef struct {
  double value, first, second;
} Jet;

/* The polynomial of this degree, 0 or more, at @x. */
Jet legendre_polynomial (int degree, double x);

/* Nodes and weights of Gauss's rule with @n_points of them, 1 or more: exact up to the degree 2 n_points - 1. */
void legendre_gauss (int n_points, double *ret_nodes, double *ret_weights);
