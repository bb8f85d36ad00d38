/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Item numbers in circles with leaders (ISO 6433) round a figure, in two columns left and right of it. */
#pragma once

#include "sheet/page.h"

typedef struct {
  unsigned number;
  double x, y; /* what the leader points to, points on the page */
} Balloon;

/* Width that a column of balloons takes beside the figure. */
#define BALLOON_COLUMN (11 * SHEET_MM)

/* Places the balloons beside `figure` within `room`, which reaches over it by BALLOON_COLUMN on either side. Those for
 * which there is no room are left out, from the end; returns how many. */
unsigned balloons_draw (Page *page, TextEngine *engine, Rect room, const Balloon *balloons, unsigned n);
