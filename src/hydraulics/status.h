/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* What a relation says about its own answer. Every function of this layer that can fail returns one of these and
 * writes its `ret_` outputs only on HYDRAULICS_OK, or on HYDRAULICS_OUT_OF_RANGE where its docstring says so. */
#define HYDRAULICS_STATUSES(X)                                                                               \
  X (OK, "computed")                                                                                         \
  X (OUT_OF_RANGE, "a value lies outside the range for which the relation was established")                  \
  X (INVALID_ARGUMENT, "a value is missing, not a number, or not physically possible")                       \
  X (NOT_CONVERGED, "the iteration did not reach its tolerance")                                             \
  X (NO_SOLUTION, "no state satisfies the equations")                                                        \
  X (SINGULAR, "the equations do not determine the state")                                                   \
  X (TOO_LARGE, "the problem is larger than the space given for it")

#define HYDRAULICS_STATUS_MEMBER(name, text) HYDRAULICS_##name,
typedef enum { HYDRAULICS_STATUSES (HYDRAULICS_STATUS_MEMBER) } HydraulicsStatus;
#undef HYDRAULICS_STATUS_MEMBER

/**
 * hydraulics_status_text:
 * Returns: a short English clause for logs and tests, never NULL; "unknown status" for a number outside the list.
 */
const char *hydraulics_status_text (HydraulicsStatus status);
