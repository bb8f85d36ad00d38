/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/page.h"

#include <math.h>

static void
mark_free (void *data)
{
  Mark *mark = data;

  g_free (mark->text);
  figure_free (mark->figure);
  g_free (mark);
}

Page *
page_new (const char *title)
{
  Page *page = g_new0 (Page, 1);

  page->title = g_strdup (title);
  page->scale = g_strdup ("–");
  page->marks = g_ptr_array_new_with_free_func (mark_free);
  return page;
}

void
page_free (Page *page)
{
  if (page == NULL)
    return;
  g_free (page->title);
  g_free (page->scale);
  g_ptr_array_unref (page->marks);
  g_free (page);
}

static Mark *
add (Page *page, MarkKind kind, double x, double y, double width, double height)
{
  Mark *mark = g_new0 (Mark, 1);

  mark->kind = kind;
  mark->box = (Rect){x, y, width, height};
  g_ptr_array_add (page->marks, mark);
  return mark;
}

double
page_text (Page *page, TextEngine *engine, const char *text, double x, double y, double size, bool bold)
{
  double width = 0, height = 0;
  Mark *mark;

  if (text == NULL || text[0] == '\0')
    return 0;
  text_engine_measure (engine, text, size, bold, &width, &height);
  mark = add (page, MARK_TEXT, x, y, width, height);
  mark->text = g_strdup (text);
  mark->size = size;
  mark->bold = bold;
  return width;
}

void
page_line (Page *page, double x0, double y0, double x1, double y1, double width)
{
  add (page, MARK_LINE, x0, y0, x1 - x0, y1 - y0)->width = width;
}

void
page_centre_line (Page *page, double x0, double y0, double x1, double y1)
{
  add (page, MARK_CENTRE_LINE, x0, y0, x1 - x0, y1 - y0)->width = LINE_NARROW;
}

void
page_box (Page *page, Rect box, double width)
{
  add (page, MARK_BOX, box.x, box.y, box.width, box.height)->width = width;
}

void
page_filled_box (Page *page, Rect box)
{
  add (page, MARK_FILLED_BOX, box.x, box.y, box.width, box.height);
}

void
page_circle (Page *page, double x, double y, double radius, double width)
{
  add (page, MARK_CIRCLE, x - radius, y - radius, 2 * radius, 2 * radius)->width = width;
}

void
page_dot (Page *page, double x, double y, double radius)
{
  add (page, MARK_DOT, x - radius, y - radius, 2 * radius, 2 * radius);
}

void
page_grade (Page *page, Grade grade, double x, double y, double radius)
{
  const MarkKind kind = grade == GRADE_STOP ? MARK_STOP : grade == GRADE_CAUTION ? MARK_CAUTION : MARK_DOT;

  add (page, kind, x - radius, y - radius, 2 * radius, 2 * radius);
}

void
page_figure (Page *page, Figure *figure, double x, double y)
{
  add (page, MARK_FIGURE, x, y, figure->view.width, figure->view.height)->figure = figure;
}

static void
draw_line (const Mark *mark, cairo_t *cr)
{
  /* Long-dashed dotted narrow line, ISO 128-2 number 04. */
  static const double dashes[] = {24 * LINE_NARROW, 3 * LINE_NARROW, 0.5 * LINE_NARROW, 3 * LINE_NARROW};

  cairo_set_dash (cr, dashes, mark->kind == MARK_CENTRE_LINE ? (int) G_N_ELEMENTS (dashes) : 0, 0);
  cairo_move_to (cr, mark->box.x, mark->box.y);
  cairo_rel_line_to (cr, mark->box.width, mark->box.height);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_round (const Mark *mark, cairo_t *cr)
{
  double radius = mark->box.width / 2;

  cairo_new_sub_path (cr);
  cairo_arc (cr, mark->box.x + radius, mark->box.y + radius, radius, 0, 2 * G_PI);
  if (mark->kind == MARK_DOT) {
    cairo_fill (cr);
    return;
  }
  /* An item number hides what it stands on. */
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_stroke (cr);
}

/* A triangle stands on its side, an octagon on one of its eight. */
static void
draw_polygon (const Mark *mark, cairo_t *cr)
{
  const unsigned n = mark->kind == MARK_STOP ? 8 : 3;
  const double radius = mark->box.width / 2, x = mark->box.x + radius;
  const double y = mark->box.y + radius * (n == 3 ? 1.2 : 1), r = radius * (n == 3 ? 1.2 : 1.04);

  for (unsigned i = 0; i < n; i++) {
    const double angle = 2 * G_PI * i / n - G_PI / 2 + (n == 8 ? G_PI / 8 : 0);

    cairo_line_to (cr, x + r * cos (angle), y + r * sin (angle));
  }
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
draw_mark (const Mark *mark, TextEngine *engine, cairo_t *cr)
{
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, mark->width);
  switch (mark->kind) {
  case MARK_TEXT:
    text_engine_draw (engine, cr, mark->text, mark->box.x, mark->box.y, mark->size, mark->bold, false);
    break;
  case MARK_LINE:
  case MARK_CENTRE_LINE:
    draw_line (mark, cr);
    break;
  case MARK_BOX:
    cairo_rectangle (cr, mark->box.x, mark->box.y, mark->box.width, mark->box.height);
    cairo_stroke (cr);
    break;
  case MARK_FILLED_BOX:
    cairo_rectangle (cr, mark->box.x, mark->box.y, mark->box.width, mark->box.height);
    cairo_fill (cr);
    break;
  case MARK_CIRCLE:
  case MARK_DOT:
    draw_round (mark, cr);
    break;
  case MARK_STOP:
  case MARK_CAUTION:
    draw_polygon (mark, cr);
    break;
  case MARK_FIGURE:
    figure_draw (mark->figure, engine, cr, mark->box.x, mark->box.y);
    break;
  default:
    break;
  }
}

void
page_draw (const Page *page, TextEngine *engine, cairo_t *cr)
{
  for (unsigned i = 0; i < page->marks->len; i++) {
    cairo_save (cr);
    cairo_new_path (cr);
    draw_mark (g_ptr_array_index (page->marks, i), engine, cr);
    cairo_restore (cr);
  }
}
