/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The words of each check, marked for translation. Sentences are filled with
 *   {part} {other}     names of the two parts
 *   {value} {limit}    with unit;  {margin} {over} sizes of judged margin and of value less limit
 *   {spare} {percent}  "15 mm to spare", "15 mm short" or "15 mm over", absolute and in per cent of the limit, with the
 *                      judged edge of the band where it reads otherwise than {value}
 *   {0} {1} {2}        second values;  {axis} {pane} {vessel} words chosen by them
 * A new check is one row in solver/finding.h and one here. */
#pragma once

#include "solver/finding.h"

typedef struct {
  const char *title, *sentence, *meaning, *advice;
  Quantity seconds[FINDING_SECONDS_MAX]; /* quantities of the second values */
} FindingWords;

/* The row of a check; never NULL for a valid id, and no text is NULL. */
const FindingWords *finding_words (CheckId check);
