/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/painter-private.h"

#include <math.h>

/* How a role is drawn: width as a share of the wide line, dashes in widths of the wide line (ISO 128-2 proportions). */
typedef enum { INK, SOFT, HAIR, SURFACE } Tone;

typedef struct {
  double width;
  Tone tone;
  unsigned n_dashes;
  double dashes[6];
} LineStyle;

static const LineStyle styles[N_SCENE_ROLES] = {
    [ROLE_WATER] = {0.5, SURFACE, 0, {0}},
    [ROLE_WATER_OFF] = {0.5, SURFACE, 0, {0}},
    [ROLE_PIPE_WATER] = {0.5, SURFACE, 0, {0}},
    [ROLE_MATERIAL] = {0.5, SOFT, 0, {0}},
    [ROLE_FLOOR] = {1, INK, 0, {0}},
    [ROLE_CUT] = {1, INK, 0, {0}},
    [ROLE_OUTLINE] = {1, INK, 0, {0}},
    [ROLE_THIN] = {0.5, SOFT, 0, {0}},
    [ROLE_HIDDEN] = {0.5, SOFT, 2, {6, 1.5}},
    [ROLE_CENTRE] = {0.5, SOFT, 4, {12, 1.5, 0.5, 1.5}},
    [ROLE_ALTERNATIVE] = {0.5, SOFT, 6, {12, 1.5, 0.5, 1.5, 0.5, 1.5}},
    [ROLE_SURFACE] = {0.8, SURFACE, 0, {0}},
    [ROLE_POWER_OFF] = {0.6, SURFACE, 6, {12, 1.5, 0.5, 1.5, 0.5, 1.5}},
    [ROLE_PIPE] = {0.8, INK, 0, {0}},
    [ROLE_FITTING] = {0.7, INK, 0, {0}},
    [ROLE_DEVICE] = {0.8, INK, 0, {0}},
    [ROLE_CHEVRON] = {1.1, SURFACE, 0, {0}},
    [ROLE_DIMENSION] = {0.5, SOFT, 0, {0}},
    [ROLE_LEVEL] = {0.5, SOFT, 0, {0}},
    [ROLE_LABEL] = {0.5, SOFT, 0, {0}},
    [ROLE_FINDING] = {0.9, INK, 0, {0}},
};

static Color
tone_color (const Palette *palette, Tone tone)
{
  switch (tone) {
  case SOFT:
    return palette->soft;
  case HAIR:
    return palette->hair;
  case SURFACE:
    return palette->surface;
  case INK:
    break;
  }
  return palette->ink;
}

double
paint_line_style (const Paint *paint, SceneRole role)
{
  const LineStyle *style = &styles[role];
  double dashes[6], wide = paint->view->line;
  for (unsigned i = 0; i < style->n_dashes; i++)
    dashes[i] = style->dashes[i] * wide;
  double width = style->width * wide;
  /* On a screen a line of whole pixels is crisp; none is thinner than one. */
  if (paint->view->device_scale > 0)
    width = MAX (1, round (width * paint->view->device_scale)) / paint->view->device_scale;
  color_set (paint->cr, tone_color (paint->palette, style->tone));
  cairo_set_dash (paint->cr, dashes, (int) style->n_dashes, 0);
  cairo_set_line_width (paint->cr, width);
  cairo_set_line_cap (paint->cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (paint->cr, CAIRO_LINE_JOIN_MITER);
  return width;
}

double
paint_snap (const Paint *paint, double coordinate, double width)
{
  double scale = paint->view->device_scale;
  if (scale <= 0)
    return coordinate;
  double pixels = round (width * scale);
  bool odd = fmod (pixels, 2) > 0.5;
  return odd ? (floor (coordinate * scale) + 0.5) / scale : round (coordinate * scale) / scale;
}

/* Far beyond the view a coordinate says no more than its side, and cairo's fixed point would overflow. */
static double
bounded (double coordinate)
{
  return CLAMP (coordinate, -20000, 20000);
}

static void
add_path (const Paint *paint, const SceneItem *item, double width)
{
  const ScenePoint *p = scene_points (paint->scene, item);
  cairo_new_sub_path (paint->cr);
  for (unsigned i = 0; i < item->n; i++) {
    double x = bounded (view_x (paint->view, p[i].x)), y = bounded (view_y (paint->view, p[i].z));
    if (item->upright) {
      x = paint_snap (paint, x, width);
      y = paint_snap (paint, y, width);
    }
    cairo_line_to (paint->cr, x, y);
  }
  if (item->closed)
    cairo_close_path (paint->cr);
}

void
paint_path (const Paint *paint, const SceneItem *item, double width)
{
  cairo_new_path (paint->cr);
  add_path (paint, item, width);
}

/* Lines of one role that follow each other are one stroke, which costs far less than one each. */
typedef struct {
  const Paint *paint;
  SceneRole role;
  double width;
  bool begun;
} Stroke;

static void
stroke_end (Stroke *stroke)
{
  if (stroke->begun)
    cairo_stroke (stroke->paint->cr);
  stroke->begun = false;
}

static void
stroke_add (Stroke *stroke, const SceneItem *item)
{
  if (stroke->role != item->role)
    stroke_end (stroke);
  if (!stroke->begun) {
    stroke->width = paint_line_style (stroke->paint, item->role);
    if (item->role == ROLE_CHEVRON)
      cairo_set_line_join (stroke->paint->cr, CAIRO_LINE_JOIN_ROUND);
    cairo_new_path (stroke->paint->cr);
  }
  stroke->role = item->role;
  stroke->begun = true;
  add_path (stroke->paint, item, stroke->width);
}

void
paint_surface_mark (const Paint *paint, double x, double y)
{
  cairo_t *cr = paint->cr;
  double size = 0.75 * paint->view->text;
  double width = paint_line_style (paint, ROLE_SURFACE);
  cairo_set_line_width (cr, width);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  y = paint_snap (paint, y, width);
  cairo_new_path (cr);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x - size / 2, y - 0.85 * size);
  cairo_line_to (cr, x + size / 2, y - 0.85 * size);
  cairo_close_path (cr);
  for (int i = 1; i <= 2; i++) {
    double line = paint_snap (paint, y + i * 0.3 * size, width), half = (i == 1 ? 0.36 : 0.2) * size;
    cairo_move_to (cr, x - half, line);
    cairo_line_to (cr, x + half, line);
  }
  cairo_stroke (cr);
}

static bool
is_in_view (const Paint *paint, const SceneItem *item)
{
  const ScenePoint *p = scene_points (paint->scene, item);
  double x0 = INFINITY, y0 = INFINITY, x1 = -INFINITY, y1 = -INFINITY;
  double reach = item->radius * paint->view->scale + 2 * paint->view->text;
  for (unsigned i = 0; i < item->n; i++) {
    double x = view_x (paint->view, p[i].x), y = view_y (paint->view, p[i].z);
    x0 = MIN (x0, x);
    x1 = MAX (x1, x);
    y0 = MIN (y0, y);
    y1 = MAX (y1, y);
  }
  return x1 + reach >= 0 && y1 + reach >= 0 && x0 - reach <= paint->view->width &&
         y0 - reach <= paint->view->height;
}

static void
paint_item (const Paint *paint, const SceneItem *item)
{
  const ScenePoint *p = scene_points (paint->scene, item);
  switch (item->shape) {
  case SHAPE_AREA:
    paint_path (paint, item, 2 / MAX (paint->view->device_scale, 1));
    paint_material (paint, item->material);
    break;
  case SHAPE_ARC:
    paint_line_style (paint, item->role);
    cairo_new_path (paint->cr);
    cairo_arc (paint->cr, bounded (view_x (paint->view, p->x)), bounded (view_y (paint->view, p->z)),
               MIN (item->radius * paint->view->scale, 20000), item->from, item->to);
    cairo_stroke (paint->cr);
    break;
  case SHAPE_SYMBOL:
    if (item->symbol == SYMBOL_SURFACE)
      paint_surface_mark (paint, view_x (paint->view, p->x), view_y (paint->view, p->z));
    break;
  case SHAPE_LINE:
  case SHAPE_LABEL:
  case SHAPE_LEVEL:
  case SHAPE_DIMENSION:
  case N_SCENE_SHAPES:
    break;
  }
}

void
painter_draw (cairo_t *cr, const Scene *scene, const Layout *layout, const DrawingView *view,
              const Palette *palette, TextEngine *engine)
{
  Tiles tiles = {{NULL}};
  Paint paint = {.cr = cr, .scene = scene, .view = view, .palette = palette, .engine = engine};
  Stroke stroke = {.paint = &paint};
  if (view->device_scale > 0 && !palette->hatched)
    paint.tiles = &tiles;
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, view->width, view->height);
  cairo_clip (cr);
  if (view->quick)
    cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    if (!view_shows (view, item->layer) || !is_in_view (&paint, item))
      continue;
    if (item->shape == SHAPE_LINE) {
      stroke_add (&stroke, item);
    } else if (item->shape != SHAPE_LABEL) {
      stroke_end (&stroke);
      paint_item (&paint, item);
    }
  }
  stroke_end (&stroke);
  paint_notes (&paint, layout);
  tiles_clear (&tiles);
  cairo_restore (cr);
}

void
painter_draw_base (cairo_t *cr, const Scene *scene, const Layout *layout, const DrawingView *view,
                   const Palette *palette, TextEngine *engine)
{
  color_set (cr, palette->sheet);
  cairo_rectangle (cr, 0, 0, view->width, view->height);
  cairo_fill (cr);
  painter_draw (cr, scene, layout, view, palette, engine);
}
