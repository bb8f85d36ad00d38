/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/root.h"

#include <float.h>
#include <math.h>

double
root_between (RootFunction f, gconstpointer data, double low, double at_low, double high, double at_high)
{
  double a = high, b = low, fa = at_high, fb = at_low;
  double t = 0.5;

  if (fa == 0.0)
    return a;
  if (fb == 0.0)
    return b;
  if (!isfinite (fa) || !isfinite (fb) || (fa > 0.0) == (fb > 0.0))
    return NAN;
  for (int i = 0; i < 200; i++) {
    double x = a + t * (b - a);
    double fx = f (x, data), c, fc;
    if (!isfinite (fx))
      return NAN;
    /* Keep a and b as the bracket, c as the point that was left. */
    if ((fx > 0.0) == (fa > 0.0)) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;

    double best = fabs (fa) < fabs (fb) ? a : b;
    double width = fabs (b - a);
    double least = 2.0 * DBL_EPSILON * fabs (best) + DBL_MIN;
    if (fa == 0.0 || width <= least)
      return best;
    double tl = least / width;
    double xi = (a - b) / (c - b), phi = (fa - fb) / (fc - fb);
    if (phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi)
      t = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
    else
      t = 0.5;
    t = fmin (fmax (t, 0.5 * tl), 1.0 - 0.5 * tl);
  }
  return fabs (fa) < fabs (fb) ? a : b;
}
