/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/crest.h"

#include <math.h>

double
crest_effective_head (double head_m, double addition_m)
{
  double t = head_m / CREST_STILL_HEAD_M;
  double share = t < 1.0 ? t * t * (3.0 - 2.0 * t) : 1.0;

  return fmax (head_m + share * addition_m, 0.0);
}

double
crest_strips (double head_m, double head_below_m, double bottom_m, double top_m)
{
  double top = fmin (top_m, head_m);
  if (!(top > bottom_m))
    return 0.0;

  double drowned_to = fmin (fmax (head_below_m, bottom_m), top);
  double drowned = (drowned_to - bottom_m) * sqrt (head_m - fmin (head_below_m, head_m));
  double lower = head_m - drowned_to;
  double upper = head_m - top;
  return drowned + 2.0 / 3.0 * (lower * sqrt (lower) - upper * sqrt (upper));
}
