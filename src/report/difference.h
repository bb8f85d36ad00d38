/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What differs between two designs, and what it does: for the options of a job side by side in the window and on the
 * command line. */
#pragma once

#include "design/project.h"
#include "report/words.h"

/* The name of an option: its label, else "Option 2" by its place. Newly allocated. */
char *difference_option_name (const Project *project, unsigned option);

typedef enum { DIFFERENCE_CHANGED, DIFFERENCE_ADDED, DIFFERENCE_REMOVED } DifferenceKind;

/* One difference. `path` is "key.field", the key of a part, or the word of a kind whose order differs. Texts are in the
 * reader's language and units; a value that is not given says that it is assumed. */
typedef struct {
  DifferenceKind kind;
  char *path;
  char *what;   /* "Display tank: outside length" */
  char *before; /* "not there" where the part was added */
  char *after;
} DifferenceRow;

/* The differences from one design to another, in the order of the parts: fields given otherwise, names, owners, the order
 * of parts of a kind, and parts that only one of them has (without what these own). Parts are told apart by their keys.
 * Array of DifferenceRow with its free function set; empty for equal designs. */
GPtrArray *difference_list (const Design *before, const Design *after, const Catalogue *catalogue,
                            const NumberStyle *style);

typedef enum { EFFECT_WORSE = -1, EFFECT_NEUTRAL, EFFECT_BETTER } EffectSense;

/* One figure of both evaluations. */
typedef struct {
  const char *word; /* for machines: "flow_m3_per_s" */
  const char *name; /* translated */
  double before_si, after_si;
  char *before, *after;
  char *change; /* with its sign; empty where nothing changes as it is written */
  EffectSense sense;
} DifferenceEffect;

/* What the differences do: flow, turnover, margins of drain, flood test and drain-back, freeboards, power, cost, findings.
 * Either may be NULL, where a design does not compute: its figures are then missing. Array of DifferenceEffect. */
GPtrArray *difference_effects (const Evaluation *before, const Evaluation *after, const NumberStyle *style);

/* "2 values differ, 1 part more, none fewer." */
char *difference_sentence (const GPtrArray *rows);
