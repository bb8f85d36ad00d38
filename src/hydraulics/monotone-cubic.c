/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/monotone-cubic.h"

#include <math.h>

/* The parabola's slope at the end of two intervals, cut back where it would break the shape of the first. */
static double
end_slope (double h0, double h1, double d0, double d1)
{
  double slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);

  if (slope * d0 <= 0.0)
    return 0.0;
  if (d0 * d1 <= 0.0 && fabs (slope) > 3.0 * fabs (d0))
    return 3.0 * d0;
  return slope;
}

static double
secant (guint i, const double *x, const double *y)
{
  return (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
}

void
monotone_cubic_slopes (guint n, const double *x, const double *y, double *ret_slopes)
{
  if (n == 2) {
    ret_slopes[0] = ret_slopes[1] = secant (0, x, y);
    return;
  }
  for (guint i = 1; i + 1 < n; i++) {
    double h0 = x[i] - x[i - 1], h1 = x[i + 1] - x[i];
    double d0 = secant (i - 1, x, y), d1 = secant (i, x, y);
    double w0 = 2.0 * h1 + h0, w1 = h1 + 2.0 * h0;
    ret_slopes[i] = d0 * d1 > 0.0 ? (w0 + w1) / (w0 / d0 + w1 / d1) : 0.0;
  }
  ret_slopes[0] = end_slope (x[1] - x[0], x[2] - x[1], secant (0, x, y), secant (1, x, y));
  ret_slopes[n - 1] =
      end_slope (x[n - 1] - x[n - 2], x[n - 2] - x[n - 3], secant (n - 2, x, y), secant (n - 3, x, y));
}

void
monotone_cubic_at (guint n, const double *x, const double *y, const double *slopes, double at,
                   double *ret_value, double *ret_derivative)
{
  guint i = 0;

  while (i + 2 < n && at > x[i + 1])
    i++;
  double h = x[i + 1] - x[i], dy = y[i + 1] - y[i], t = (at - x[i]) / h;
  double m0 = slopes[i] * h, m1 = slopes[i + 1] * h;
  double c2 = 3.0 * dy - 2.0 * m0 - m1, c3 = m0 + m1 - 2.0 * dy;
  *ret_value = y[i] + t * (m0 + t * (c2 + t * c3));
  *ret_derivative = (m0 + t * (2.0 * c2 + t * 3.0 * c3)) / h;
}
