/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One page as a list of marks in points from the upper left corner of the paper: texts, lines, boxes, circles and figures.
 * It is laid out once and drawn as often as wanted; tests read the marks to see that nothing leaves the frame. */
#pragma once

#include "drawing/text.h"
#include "sheet/figure.h"
#include "solver/finding.h"

/* Points a millimetre. */
#define SHEET_MM (72 / 25.4)

/* Sizes of text in points. A capital letter of Inter stands 0.727 of its size: 9.8 pt is the 2.5 mm and 13.65 pt the
 * 3.5 mm of ISO 3098, for words and for figures that something is built from. */
#define TEXT_SMALL   7.4
#define TEXT_BODY    9.8
#define TEXT_BUILT   13.65
#define TEXT_HEADING 12.0

/* Line widths of ISO 128-2, group 0.35. */
#define LINE_NARROW (0.18 * SHEET_MM)
#define LINE_WIDE   (0.35 * SHEET_MM)
#define LINE_FRAME  (0.7 * SHEET_MM)

typedef struct {
  double x, y, width, height;
} Rect;

typedef enum {
  MARK_TEXT,
  MARK_LINE,
  MARK_CENTRE_LINE,
  MARK_BOX,
  MARK_FILLED_BOX,
  MARK_CIRCLE,
  MARK_DOT,
  MARK_STOP,
  MARK_CAUTION,
  MARK_FIGURE
} MarkKind;

typedef struct {
  MarkKind kind;
  Rect box;     /* a line runs from x, y to x + width, y + height; a circle fills its box */
  double width; /* of the line */
  char *text;
  double size;
  bool bold;
  Figure *figure;
} Mark;

typedef struct {
  char *title; /* what the page is for */
  char *scale; /* of its figure, or "–" */
  GPtrArray *marks;
} Page;

Page *page_new (const char *title);
void page_free (Page *page);

/* Text with its upper left corner at x, y; returns its width. */
double page_text (Page *page, TextEngine *engine, const char *text, double x, double y, double size,
                  bool bold);
void page_line (Page *page, double x0, double y0, double x1, double y1, double width);
void page_centre_line (Page *page, double x0, double y0, double x1, double y1);
void page_box (Page *page, Rect box, double width);
void page_filled_box (Page *page, Rect box);
void page_circle (Page *page, double x, double y, double radius, double width);
void page_dot (Page *page, double x, double y, double radius);

/* The shape of a grade, as on the drawing, without a letter: an octagon for a stop, a triangle for a caution, and a dot. */
void page_grade (Page *page, Grade grade, double x, double y, double radius);

/* Takes the figure, with its upper left corner at x, y. */
void page_figure (Page *page, Figure *figure, double x, double y);

void page_draw (const Page *page, TextEngine *engine, cairo_t *cr);
