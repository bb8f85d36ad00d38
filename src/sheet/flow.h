/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pages filled from top to bottom and from column to column; a new page begins where the last column is full. */
#pragma once

#include "sheet/page.h"

typedef struct {
  TextEngine *engine;
  Rect content;     /* inside of the frame, above the title block */
  GPtrArray *pages; /* of Page, owned */
  Page *page;       /* the one being filled */
  char *title;      /* of the section */
  unsigned columns; /* of a page without a figure */
  Rect regions[4];
  unsigned n_regions, region;
  double y;     /* where the next block goes */
  bool compact; /* rows of tables stand closer */
} Flow;

void flow_init (Flow *flow, TextEngine *engine, Rect content);
void flow_clear (Flow *flow);

/* Lays a section out by `build`. Where its last of several pages is left with hardly more than a leftover, it is laid out
 * once more with closer rows, and stays so if that spares the page. `build` must do the same each time. */
void flow_balanced (Flow *flow, void (*build) (void *data), void *data);

/* Begins a section on a new page, with `columns` columns. */
void flow_section (Flow *flow, const char *title, unsigned columns);

/* Puts a figure into the upper left corner of a page just begun and lets text run beside it, where there are
 * `least_beside` points, and below it; takes it. NULL is left out. Returns its place. */
Rect flow_figure (Flow *flow, Figure *figure, double least_beside);

/* Place and width of the column, and its height that is left. */
double flow_x (const Flow *flow);
double flow_width (const Flow *flow);
double flow_left (const Flow *flow);

/* Height of a column of a page without a figure: more than this is nowhere to be had. */
double flow_most (const Flow *flow);

/* Goes on to a place with so much room: the next column or page where there is less. True when it moved. */
bool flow_need (Flow *flow, double height);

/* Goes on in the next column of this page, where there is one. */
void flow_column (Flow *flow);

/* The widest column that is still to come, on this page or the next; and goes on in the next one. */
double flow_widest_next (const Flow *flow);
void flow_next (Flow *flow);

void flow_gap (Flow *flow, double height);

/* Goes on with a new page of the section, with `columns` columns from there on. */
void flow_page (Flow *flow, unsigned columns);

/* Lets what follows run in `columns` columns, below what is on this page already; on a new page where little is left. */
void flow_split (Flow *flow, unsigned columns);

/* Between columns, and between a figure and what is beside or below it. */
#define GUTTER (6 * SHEET_MM)

/* What a heading takes with the gap above it. */
#define FLOW_HEADING (1.3 * TEXT_HEADING + 11)

/* A heading, kept together with at least `follows` points below it. */
void flow_heading (Flow *flow, const char *text, double follows);

/* A paragraph, which may go on in the next column. */
void flow_paragraph (Flow *flow, const char *text, double size, bool bold);
void flow_indented (Flow *flow, const char *text, double size, bool bold, double indent);
