/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

#include "hydraulics/status.h"

#include <math.h>

/* Ends a relation whose arguments were admitted one by one but may be absurd together: an answer too large for a number
 * is not written, and the arguments are to blame. */
static inline HydraulicsStatus
answer_if_finite (double value, double *ret_value)
{
  if (!isfinite (value))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_value = value;
  return HYDRAULICS_OK;
}
