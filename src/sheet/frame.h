/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What every page has round its content: frame and centring marks (ISO 5457), the 100 mm or 4 in bar that checks the
 * printer (metric reference graduation of ISO 5457), title block (ISO 7200) and the symbol of the projection (ISO 5456-2). */
#pragma once

#include "sheet/page.h"

typedef struct {
  double width, height; /* of the paper, points */
  bool us;              /* bar in inches, third-angle projection */
} Paper;

typedef struct {
  const char *owner, *title, *number, *revision, *creator, *date;
} TitleWords;

/* Landscape paper of a design. */
Paper paper_new (bool letter, bool us);

/* Inside of the frame, and of it the room above the title block. */
Rect frame_inside (const Paper *paper);
Rect frame_content (const Paper *paper);

/* Adds frame and title block to page `number` (from 1) of `n`. */
void frame_draw (Page *page, TextEngine *engine, const Paper *paper, const TitleWords *words, unsigned number,
                 unsigned n);
