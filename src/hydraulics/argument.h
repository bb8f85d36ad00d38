/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* The questions that nearly every relation asks of what it is given. NaN and infinities fail both. */

#include <math.h>
#include <stdbool.h>

static inline bool
argument_is_positive (double value)
{
  return isfinite (value) && value > 0.0;
}

static inline bool
argument_is_not_negative (double value)
{
  return isfinite (value) && value >= 0.0;
}

static inline bool
argument_is_share (double value)
{
  return value >= 0.0 && value <= 1.0;
}
