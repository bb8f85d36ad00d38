/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Why a change or a design is refused, as data, and the limits on its texts. */
#pragma once

#include <stdbool.h>

#include "design/field.h"

/* Why a change is refused: enum, and a sentence for people with at most one %s (marked for translation). */
#define PROBLEMS(X)                                                                                          \
  X (NONE, "")                                                                                               \
  X (UNKNOWN_PART, N_ ("there is no part with this key"))                                                    \
  X (UNKNOWN_FIELD, N_ ("this part has no such field"))                                                      \
  X (WRONG_TYPE, N_ ("the field takes another type of value"))                                               \
  X (NOT_FINITE, N_ ("the value is not a finite number"))                                                    \
  X (TOO_SMALL, N_ ("the value is below the least allowed"))                                                 \
  X (TOO_LARGE, N_ ("the value is above the most allowed"))                                                  \
  X (BAD_CHOICE, N_ ("the value is not one of the choices"))                                                 \
  X (BAD_KEY,                                                                                                \
     N_ ("a key is 1 to 40 lower-case letters, digits and single hyphens, and starts with a letter"))        \
  X (DUPLICATE_KEY, N_ ("another part has this key already"))                                                \
  X (BAD_TEXT, N_ ("the text is too long, or is not valid UTF-8, or has control characters"))                \
  X (BAD_CURVE, N_ ("a pump curve needs 2 to 16 points with rising flow and a head that never rises"))       \
  X (BAD_OWNER, N_ ("the part belongs to a part that is missing or of the wrong kind"))                      \
  X (BAD_REFERENCE, N_ ("the field names a part that is missing or of the wrong kind"))                      \
  X (TOO_MANY, N_ ("there are too many parts of this kind"))                                                 \
  X (MISSING_PART, N_ ("the design needs a part of this kind"))                                              \
  X (CHAMBERS_AND_BAFFLES, N_ ("a sump needs one chamber more than it has baffles"))                         \
  X (BAFFLE_ORDER, N_ ("baffles must stand inside the sump, in order, without overlap"))                     \
  X (WALLS_TOO_THICK, N_ ("the walls leave no room inside"))                                                 \
  X (HAS_CHILDREN, N_ ("other parts still belong to this part"))                                             \
  X (RUN_LOOP, N_ ("the return runs form a closed ring or leave a tee unfed"))                               \
  X (NO_ROOM, N_ ("there is no room for it beside what is there"))                                           \
  X (NOT_COPIED, N_ ("a part of this kind cannot be copied"))                                                \
  X (HELD, N_ ("a port holds this end of the pipe; put a corner between them"))                              \
  X (NO_SUCH_PIPE, N_ ("the catalogue has no pipe of this size"))                                            \
  X (THINNEST_PIPE, N_ ("this pipe is not made any thinner"))                                                \
  X (THICKEST_PIPE, N_ ("this pipe is not made any thicker"))

typedef enum {
#define X(id, text) PROBLEM_##id,
  PROBLEMS (X)
#undef X
      N_PROBLEMS
} ProblemCode;

#define MAX_KEY_BYTES    40
#define MAX_TEXT_BYTES   400
#define MAX_PARTS        2000
#define MAX_CURVE_POINTS 16

/* A refusal as data: `part` and `field` say where (part may be empty, field N_FIELDS where there is none). */
typedef struct {
  ProblemCode code;
  char part[MAX_KEY_BYTES + 1];
  PartKind kind;
  FieldId field;
  double value;
} Problem;

/* The sentence of a code, to be translated; never NULL, empty only for PROBLEM_NONE. */
const char *problem_text (ProblemCode code);

/* Fills a problem where it is asked for; always false, to be returned. */
bool problem_set (Problem *ret_problem, ProblemCode code, const char *key, PartKind kind, FieldId field,
                  double value);

/* True for a key that a part or option may have (PROBLEM_BAD_KEY), and for a text or label (PROBLEM_BAD_TEXT). */
bool key_is_good (const char *key);
bool text_is_good (const char *text);
