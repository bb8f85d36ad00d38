/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The short answers: verdict, and the key figures of an evaluation as name and value, for the status line of the window,
 * the first sheet and the command line. */
#pragma once

#include "report/words.h"

/* "Sound: no stop finding, 2 cautions, 3 notes." or "Not sound: 1 stop finding, ..." */
char *summary_verdict (const Evaluation *evaluation);

/* Three figures in one line: flow returned, turnover, least margin of drain or flood test. */
char *summary_line (const Evaluation *evaluation, const NumberStyle *style);

#define SUMMARY_STEPS_MAX 4

/* A key figure: a translated name and a formatted value. */
typedef struct {
  const char *name;
  char *value;
  StepId steps[SUMMARY_STEPS_MAX +
               1]; /* of the calculation that led to it, the governing one first; ended by N_STEPS */
} SummaryFigure;

/* All key figures, in the order water flows; array of SummaryFigure with its free function set. */
GPtrArray *summary_figures (const Evaluation *evaluation, const NumberStyle *style);
