/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Legendre polynomials on -1 to 1, and the quadrature that belongs to them (Abramowitz & Stegun, chapters 22 and 25). */

/* Values of the polynomials of degree 0 to @degree, 1 or more, at @x. */
void legendre_values (int degree, double x, double *ret_values);

/* Nodes and weights of Gauss's rule with @n_points of them, 1 to 64: exact up to the degree 2 n_points - 1. */
void legendre_gauss (int n_points, double *ret_nodes, double *ret_weights);
