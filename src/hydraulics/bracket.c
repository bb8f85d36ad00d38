/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/bracket.h"

#include "hydraulics/root.h"

#include <math.h>

typedef struct {
  BracketFunc relation;
  const void *data;
  double wanted;
  HydraulicsStatus *status; /* the first failure, or OK */
} Search;

static double
excess (double x, gconstpointer data)
{
  const Search *search = data;
  double value = NAN;
  HydraulicsStatus status = search->relation (x, search->data, &value);

  if (status == HYDRAULICS_OUT_OF_RANGE && !isnan (value))
    status = HYDRAULICS_OK;
  if (status == HYDRAULICS_OK && isnan (value))
    status = HYDRAULICS_NOT_CONVERGED;
  if (status != HYDRAULICS_OK) {
    if (*search->status == HYDRAULICS_OK)
      *search->status = status;
    return NAN;
  }
  return value - search->wanted;
}

HydraulicsStatus
bracket_invert (BracketFunc relation, const void *data, double wanted, double low, double high, double *ret_x)
{
  HydraulicsStatus status = HYDRAULICS_OK;
  const Search search = {relation, data, wanted, &status};

  if (!isfinite (wanted) || !isfinite (low) || !isfinite (high) || low > high)
    return HYDRAULICS_INVALID_ARGUMENT;
  double at_low = excess (low, &search), at_high = excess (high, &search);
  if (status == HYDRAULICS_OK && (at_low > 0.0 || at_high < 0.0))
    status = HYDRAULICS_NO_SOLUTION;
  if (status != HYDRAULICS_OK)
    return status;

  double x = at_low == 0.0 ? low : root_between (excess, &search, low, at_low, high, at_high);
  if (status == HYDRAULICS_OK && isnan (x))
    status = HYDRAULICS_NOT_CONVERGED;
  if (status == HYDRAULICS_OK)
    *ret_x = x;
  return status;
}

HydraulicsStatus
bracket_near (BracketFunc relation, const void *data, double wanted, double near, double reach, double *ret_x)
{
  HydraulicsStatus status = HYDRAULICS_OK;
  const Search search = {relation, data, wanted, &status};
  double x = near, far = near;

  if (!isfinite (wanted) || !isfinite (near) || !(reach > 0.0))
    return HYDRAULICS_INVALID_ARGUMENT;
  double at_x = excess (x, &search), at_far = at_x;
  for (double step = reach / 4096.0; step <= reach && status == HYDRAULICS_OK && at_far * at_x > 0.0;
       step *= 16.0) {
    x = far;
    at_x = at_far;
    far = at_x > 0.0 ? near - step : near + step;
    at_far = excess (far, &search);
  }
  if (status != HYDRAULICS_OK)
    return status;
  if (at_x * at_far > 0.0)
    return HYDRAULICS_NO_SOLUTION;

  double found = at_x == 0.0 ? x : root_between (excess, &search, x, at_x, far, at_far);
  if (status == HYDRAULICS_OK && isnan (found))
    status = HYDRAULICS_NOT_CONVERGED;
  if (status == HYDRAULICS_OK)
    *ret_x = found;
  return status;
}
