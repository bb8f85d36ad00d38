/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Paints a layout: dimension lines, leaders, level triangles, marks of findings and all text. */
#include "drawing/painter-private.h"

#include <math.h>

static void
paint_stroke_end (const Paint *paint, double x, double y)
{
  double half = 0.28 * paint->view->text;
  cairo_move_to (paint->cr, x - half, y + half);
  cairo_line_to (paint->cr, x + half, y - half);
}

static void
paint_line (const Paint *paint, const LayoutLine *line)
{
  double width = paint_line_style (paint, line->role);
  bool level = line->y0 == line->y1, upright = line->x0 == line->x1;
  if (line->role == ROLE_LEVEL || line->role == ROLE_LABEL)
    color_set (paint->cr, line->role == ROLE_LEVEL ? paint->palette->hair : paint->palette->soft);
  double x0 = line->x0, y0 = line->y0, x1 = line->x1, y1 = line->y1;
  if (level)
    y0 = y1 = paint_snap (paint, y0, width);
  if (upright)
    x0 = x1 = paint_snap (paint, x0, width);
  cairo_new_path (paint->cr);
  cairo_move_to (paint->cr, x0, y0);
  cairo_line_to (paint->cr, x1, y1);
  cairo_stroke (paint->cr);
  if (line->role == ROLE_LABEL) { /* a leader that ends within an outline ends in a dot: ISO 128-2 */
    cairo_arc (paint->cr, x1, y1, 0.14 * paint->view->text, 0, 2 * G_PI);
    cairo_fill (paint->cr);
  }
  if (line->strokes) {
    if (line->strokes & 1u)
      paint_stroke_end (paint, x0, y0);
    if (line->strokes & 2u)
      paint_stroke_end (paint, x1, y1);
    cairo_set_line_width (paint->cr, 1.4 * width);
    cairo_stroke (paint->cr);
  }
}

static void
polygon (cairo_t *cr, double x, double y, double radius, unsigned n, double turn)
{
  cairo_new_path (cr);
  for (unsigned i = 0; i < n; i++) {
    double angle = turn + 2 * G_PI * i / n;
    cairo_line_to (cr, x + radius * sin (angle), y - radius * cos (angle));
  }
  cairo_close_path (cr);
}

static Color
grade_color (const Palette *palette, SceneSymbol symbol)
{
  switch (symbol) {
  case SYMBOL_STOP:
    return palette->stop;
  case SYMBOL_CAUTION:
    return palette->caution;
  case SYMBOL_NOTE:
    return palette->note;
  case SYMBOL_SURFACE:
  case N_SCENE_SYMBOLS:
    break;
  }
  return palette->surface;
}

/* A filled shape by grade with its letter cut out in the sheet's colour. */
static void
paint_finding (const Paint *paint, const LayoutMark *mark)
{
  cairo_t *cr = paint->cr;
  double r = mark->size / 2, drop = 0;
  if (mark->symbol == SYMBOL_STOP) {
    polygon (cr, mark->x, mark->y, 1.06 * r, 8, G_PI / 8);
  } else if (mark->symbol == SYMBOL_CAUTION) {
    drop = 0.16 * r;
    polygon (cr, mark->x, mark->y + drop, 1.24 * r, 3, 0);
  } else {
    cairo_new_path (cr);
    cairo_arc (cr, mark->x, mark->y, r, 0, 2 * G_PI);
  }
  color_set (cr, grade_color (paint->palette, mark->symbol));
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_fill (cr);
  const char *letter = scene_item (paint->scene, mark->item)->text;
  double width, height, size = 0.82 * paint->view->text * (mark->symbol == SYMBOL_CAUTION ? 0.9 : 1);
  if (letter[1] != '\0')
    size *= 0.78;
  text_engine_measure (paint->engine, letter, size, true, &width, &height);
  color_set (cr, paint->palette->sheet);
  text_engine_draw (paint->engine, cr, letter, mark->x - width / 2, mark->y - height / 2 + 1.6 * drop, size,
                    true, false);
}

static void
paint_level_triangle (const Paint *paint, const LayoutMark *mark)
{
  cairo_t *cr = paint->cr;
  double width = paint_line_style (paint, mark->role == ROLE_POWER_OFF ? ROLE_SURFACE : mark->role),
         size = mark->size;
  double y = paint_snap (paint, mark->y, width);
  cairo_set_line_width (cr, width);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_new_path (cr);
  cairo_move_to (cr, mark->x, y);
  cairo_line_to (cr, mark->x - size / 2, y - 0.85 * size);
  cairo_line_to (cr, mark->x + size / 2, y - 0.85 * size);
  cairo_close_path (cr);
  cairo_stroke (cr);
}

static void
paint_text (const Paint *paint, const LayoutText *text)
{
  const Palette *p = paint->palette;
  Color color = p->ink;
  if (p->hatched && text->role != ROLE_DIMENSION) { /* no text stands on hatching */
    color_set (paint->cr, p->sheet);
    cairo_rectangle (paint->cr, text->box.x - 0.2 * text->size, text->box.y,
                     text->box.width + 0.4 * text->size, text->box.height);
    cairo_fill (paint->cr);
  }
  if (text->role == ROLE_DIMENSION || text->soft)
    color = p->soft;
  else if (text->role == ROLE_SURFACE || text->role == ROLE_POWER_OFF)
    color = p->surface;
  else if (text->role == ROLE_FINDING)
    color = grade_color (p, scene_item (paint->scene, text->item)->symbol);
  color_set (paint->cr, color);
  double x = text->box.x, y = text->box.y;
  if (text->upwards)
    y += text->box.height;
  if (paint->view->device_scale > 0) {
    x = round (x * paint->view->device_scale) / paint->view->device_scale;
    y = round (y * paint->view->device_scale) / paint->view->device_scale;
  }
  text_engine_draw (paint->engine, paint->cr, text->text, x, y, text->size, text->role == ROLE_FINDING,
                    text->upwards);
}

/* The sheet laid over the edge of the drawing, with a hair line where it begins. */
static void
paint_band (const Paint *paint, LayoutBox box)
{
  cairo_t *cr = paint->cr;
  double width = paint_line_style (paint, ROLE_DIMENSION);
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  color_set (cr, paint->palette->sheet);
  cairo_fill (cr);
  color_set (cr, paint->palette->hair);
  if (box.height > box.width) {
    double x = paint_snap (paint, box.x + box.width, width);
    cairo_move_to (cr, x, box.y);
    cairo_line_to (cr, x, box.y + box.height);
  } else {
    double y = paint_snap (paint, box.y > 0 ? box.y : box.height, width);
    cairo_move_to (cr, box.x, y);
    cairo_line_to (cr, box.x + box.width, y);
  }
  cairo_stroke (cr);
}

void
paint_notes (const Paint *paint, const Layout *layout)
{
  for (unsigned i = 0; i < layout->bands->len; i++)
    paint_band (paint, g_array_index (layout->bands, LayoutBox, i));
  for (unsigned i = 0; i < layout->lines->len; i++)
    paint_line (paint, &g_array_index (layout->lines, LayoutLine, i));
  for (unsigned i = 0; i < layout->marks->len; i++) {
    const LayoutMark *mark = &g_array_index (layout->marks, LayoutMark, i);
    if (mark->role == ROLE_FINDING)
      paint_finding (paint, mark);
    else
      paint_level_triangle (paint, mark);
  }
  for (unsigned i = 0; i < layout->texts->len; i++)
    paint_text (paint, &g_array_index (layout->texts, LayoutText, i));
}
