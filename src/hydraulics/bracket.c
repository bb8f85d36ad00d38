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

  double x = at_low == 0.0 ? low : root_in_bracket (excess, &search, low, high);
  if (status == HYDRAULICS_OK && isnan (x))
    status = HYDRAULICS_NOT_CONVERGED;
  if (status == HYDRAULICS_OK)
    *ret_x = x;
  return status;
}
