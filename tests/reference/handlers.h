/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* One row of a handler table answers one quantity: it reads its keys and calls one public function of src. No formula
 * and no constant of physics stands here, or the tables would check the test instead of the program. */

#include "given.h"

#include "hydraulics/status.h"

/**
 * HandlerFunc:
 * @given: the row's keys; what is missing complains by itself
 * @ret_got: (out): the number in the row's unit. It is compared on HYDRAULICS_OK, and on HYDRAULICS_OUT_OF_RANGE if
 *   the function gave a number all the same.
 */
typedef HydraulicsStatus (*HandlerFunc) (Given *given, double *ret_got);

typedef struct {
  const char *quantity;
  HandlerFunc run;
} Handler;

/* handlers-NAME.c defines `const Handler NAME_handlers[]`, ended by a row of NULL. */
#define HANDLER_TABLES(X)                                                                                    \
  X (bubble)                                                                                                 \
  X (drain)                                                                                                  \
  X (fitting)                                                                                                \
  X (heat)                                                                                                   \
  X (network)                                                                                                \
  X (pipe)                                                                                                   \
  X (practice)                                                                                               \
  X (practice_flow)                                                                                          \
  X (pump)                                                                                                   \
  X (structure)                                                                                              \
  X (water)                                                                                                  \
  X (weir)

#define HANDLER_TABLE_DECLARE(name) extern const Handler name##_handlers[];
HANDLER_TABLES (HANDLER_TABLE_DECLARE)
#undef HANDLER_TABLE_DECLARE

/* The handler of a quantity, or NULL. */
const Handler *handler_find (const char *quantity);
