/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What follows the pointer: hover, selection by a doubled outline, handles, guides and the live number of a drag. */
#include "drawing/painter-private.h"

#include <math.h>

static void
part_path (const Paint *paint, int part)
{
  cairo_t *cr = paint->cr;
  cairo_new_path (cr);
  for (unsigned i = 0; i < scene_n_items (paint->scene); i++) {
    const SceneItem *item = scene_item (paint->scene, i);
    const ScenePoint *p = scene_points (paint->scene, item);
    if (item->part != part || !view_shows (paint->view, item->layer))
      continue;
    bool outline = item->shape == SHAPE_LINE &&
                   (item->role == ROLE_CUT || item->role == ROLE_OUTLINE || item->role == ROLE_PIPE ||
                    item->role == ROLE_DEVICE || item->role == ROLE_FITTING || item->role == ROLE_SURFACE);
    if (outline) {
      cairo_new_sub_path (cr);
      for (unsigned k = 0; k < item->n; k++)
        cairo_line_to (cr, CLAMP (view_x (paint->view, p[k].x), -20000, 20000),
                       CLAMP (view_y (paint->view, p[k].z), -20000, 20000));
      if (item->closed)
        cairo_close_path (cr);
    } else if (item->shape == SHAPE_ARC) {
      cairo_new_sub_path (cr);
      cairo_arc (cr, view_x (paint->view, p->x), view_y (paint->view, p->z),
                 MIN (item->radius * paint->view->scale, 20000), item->from, item->to);
    }
  }
}

/* Two lines with the sheet between them: seen on any ground, and without colour. */
static void
paint_double (const Paint *paint, int part)
{
  cairo_t *cr = paint->cr;
  double wide = paint->view->line;
  part_path (paint, part);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  color_set (cr, paint->palette->selected);
  cairo_set_line_width (cr, 4 * wide);
  cairo_stroke_preserve (cr);
  color_set (cr, paint->palette->sheet);
  cairo_set_line_width (cr, 1.8 * wide);
  cairo_stroke_preserve (cr);
  color_set (cr, paint->palette->selected);
  cairo_set_line_width (cr, 0.6 * wide);
  cairo_stroke (cr);
}

static void
paint_hover (const Paint *paint, int part)
{
  part_path (paint, part);
  cairo_set_dash (paint->cr, NULL, 0, 0);
  color_set (paint->cr, paint->palette->selected);
  cairo_set_line_width (paint->cr, 0.8 * paint->view->line); /* weaker than a selection */
  cairo_stroke (paint->cr);
}

static void
paint_handles (const Paint *paint, const PainterOverlay *overlay)
{
  cairo_t *cr = paint->cr;
  double width = 1, half = round (0.36 * paint->view->text);
  for (unsigned i = 0; i < scene_n_handles (paint->scene, overlay->selected); i++) {
    const SceneHandle *handle = scene_handle (paint->scene, overlay->selected, i);
    double x = paint_snap (paint, CLAMP (view_x (paint->view, handle->x), -20000, 20000), width);
    double y = paint_snap (paint, CLAMP (view_y (paint->view, handle->z), -20000, 20000), width);
    cairo_rectangle (cr, x - half, y - half, 2 * half, 2 * half);
    color_set (cr, (int) i == overlay->dragged ? paint->palette->selected : paint->palette->sheet);
    cairo_fill_preserve (cr);
    color_set (cr, paint->palette->selected);
    cairo_set_line_width (cr, paint->view->line);
    cairo_stroke (cr);
  }
}

static void
paint_guides (const Paint *paint, const PainterOverlay *overlay)
{
  cairo_t *cr = paint->cr;
  double dashes[] = {4 * paint->view->line, 2 * paint->view->line};
  cairo_set_dash (cr, dashes, 2, 0);
  color_set (cr, paint->palette->selected);
  cairo_set_line_width (cr, 1);
  for (unsigned i = 0; i < overlay->n_guides; i++) {
    const PainterGuide *guide = &overlay->guides[i];
    if (guide->axis == AXIS_X) {
      double x = paint_snap (paint, view_x (paint->view, guide->at), 1);
      cairo_move_to (cr, x, 0);
      cairo_line_to (cr, x, paint->view->height);
    } else {
      double y = paint_snap (paint, view_y (paint->view, guide->at), 1);
      cairo_move_to (cr, 0, y);
      cairo_line_to (cr, paint->view->width, y);
    }
    cairo_stroke (cr);
  }
  cairo_set_dash (cr, NULL, 0, 0);
}

/* On a plate of the sheet's colour beside the pointer, kept inside the view. */
static void
paint_live (const Paint *paint, const PainterOverlay *overlay)
{
  cairo_t *cr = paint->cr;
  double width, height, size = paint->view->text, pad = 0.4 * size;
  text_engine_measure (paint->engine, overlay->live, size, true, &width, &height);
  double x = CLAMP (overlay->live_x + 1.2 * size, pad, MAX (pad, paint->view->width - width - 2 * pad));
  double y =
      CLAMP (overlay->live_y - 1.2 * size - height, pad, MAX (pad, paint->view->height - height - pad));
  cairo_rectangle (cr, paint_snap (paint, x - pad, 1), paint_snap (paint, y - pad / 2, 1),
                   round (width + 2 * pad), round (height + pad));
  color_set (cr, paint->palette->sheet);
  cairo_fill_preserve (cr);
  color_set (cr, paint->palette->selected);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  text_engine_draw (paint->engine, cr, overlay->live, x, y, size, true, false);
}

void
painter_draw_overlay (cairo_t *cr, const Scene *scene, const DrawingView *view, const Palette *palette,
                      TextEngine *engine, const PainterOverlay *overlay)
{
  Paint paint = {.cr = cr, .scene = scene, .view = view, .palette = palette, .engine = engine};
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, view->width, view->height);
  cairo_clip (cr);
  paint_guides (&paint, overlay);
  if (overlay->hovered >= 0 && overlay->hovered != overlay->selected)
    paint_hover (&paint, overlay->hovered);
  if (overlay->selected >= 0) {
    paint_double (&paint, overlay->selected);
    if (!overlay->bare)
      paint_handles (&paint, overlay);
  }
  if (overlay->live != NULL)
    paint_live (&paint, overlay);
  cairo_restore (cr);
}
