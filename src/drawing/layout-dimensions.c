/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Places dimensions after ISO 129-1: lines in ranks outside the outline, extension lines with a gap, oblique strokes, the
 * number above its line and readable from below or from the right. */
#include "drawing/layout-private.h"

#include <math.h>

unsigned
dimension_ranks (const Scene *scene, SceneSide side, unsigned rank, unsigned *ret_place)
{
  unsigned used = 0;
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    if (item->shape == SHAPE_DIMENSION && item->side == side && item->rank < 32)
      used |= 1u << item->rank;
  }
  unsigned n = 0;
  *ret_place = 0;
  for (unsigned r = 0; r < 32; r++)
    if (used & (1u << r)) {
      if (r < rank)
        (*ret_place)++;
      n++;
    }
  return n;
}

double
dimension_offset (const DrawingView *view, unsigned place)
{
  return (2.0 + 2.0 * place) * view->text;
}

/* A dimension in a frame of its own: `along` runs with the dimension line, `out` away from the outline. */
typedef struct {
  unsigned index;
  const SceneItem *item;
  bool upright;                          /* the line runs up */
  double from, to;                       /* ends along, in user units, from < to */
  double feature_from, feature_to, line; /* across */
  bool cut_from, cut_to;                 /* the end is out of sight */
} Frame;

static LayoutBox
text_box (const Frame *f, double at, double width, double height, double view_text)
{
  double gap = 0.08 * view_text;
  if (f->upright)
    return (LayoutBox){f->line - gap - height, at, height, width};
  return (LayoutBox){at, f->line - gap - height, width, height};
}

/* Numbers of neighbours in a chain would read as one without a gap between them. */
static bool
is_clear (const LayoutJob *job, const Frame *f, LayoutBox box)
{
  double gap = 0.45 * job->view->text;
  if (f->upright)
    return layout_is_free (job, (LayoutBox){box.x, box.y - gap, box.width, box.height + 2 * gap});
  return layout_is_free (job, (LayoutBox){box.x - gap, box.y, box.width + 2 * gap, box.height});
}

/* Over the line, from its middle outwards. */
static bool
place_over (LayoutJob *job, const Frame *f, double width, double height)
{
  double size = layout_figure_size (job->view), room = f->to - f->from - width;
  for (int step = 0; step <= 8; step++) {
    double at = f->from + (0.5 + swing (step) * 0.1) * room;
    LayoutBox box = text_box (f, at, width, height, job->view->text);
    if (!is_clear (job, f, box))
      continue;
    layout_add_text (job, f->index, f->item->value, box, size, f->upright, ROLE_DIMENSION);
    return true;
  }
  return false;
}

/* The ladder of levels, which is placed later, begins at the outline's right end. */
static bool
is_in_ladder (const LayoutJob *job, const Frame *f, LayoutBox box)
{
  bool ladder =
      view_shows (job->view, LAYER_LEVELS) && !f->upright && scene_projection (job->scene) != PROJECTION_PLAN;
  return ladder && box.x + box.width > view_x (job->view, scene_outline (job->scene).x1);
}

/* Beyond one of the ends, with the line carried on under the number. */
static bool
place_beyond (LayoutJob *job, const Frame *f, double width, double height)
{
  double size = layout_figure_size (job->view), pad = 0.7 * job->view->text;
  for (unsigned i = 0; i < 2; i++) {
    double start = i == 0 ? f->to : f->from, end = i == 0 ? f->to + pad + width : f->from - pad - width;
    LayoutBox box = text_box (f, i == 0 ? f->to + pad : end, width, height, job->view->text);
    if (!is_clear (job, f, box) || is_in_ladder (job, f, box))
      continue;
    layout_add_text (job, f->index, f->item->value, box, size, f->upright, ROLE_DIMENSION);
    if (f->upright)
      layout_add_line (job, f->index, f->line, start, f->line, end, 0, ROLE_DIMENSION);
    else
      layout_add_line (job, f->index, start, f->line, end, f->line, 0, ROLE_DIMENSION);
    return true;
  }
  return false;
}

/* A number wider than its dimension may stand higher where no other line is: nearest to the outline. */
static bool
place_raised (LayoutJob *job, const Frame *f, double width, double height)
{
  if (f->item->rank != 0 || f->upright)
    return false;
  LayoutBox box = text_box (f, (f->from + f->to - width) / 2, width, height, job->view->text);
  box.y -= 0.75 * height;
  if (!is_clear (job, f, box))
    return false;
  layout_add_text (job, f->index, f->item->value, box, layout_figure_size (job->view), false, ROLE_DIMENSION);
  return true;
}

/* False when there is room nowhere. */
static bool
place_number (LayoutJob *job, const Frame *f)
{
  double size = layout_figure_size (job->view), width, height, pad = 0.3 * job->view->text;
  text_engine_measure (job->engine, f->item->value, size, false, &width, &height);
  if (f->to - f->from >= width + pad)
    return place_over (job, f, width, height);
  return place_raised (job, f, width, height) || place_beyond (job, f, width, height);
}

static void
place_outside (LayoutJob *job, const Frame *f, double sign)
{
  double gap = 0.3 * job->view->text, over = 0.3 * job->view->text;
  if (f->to - f->from < 0.25 * job->view->text || !place_number (job, f)) {
    job->layout->n_dropped++;
    return;
  }
  double ends[] = {f->from, f->to}, features[] = {f->feature_from, f->feature_to};
  for (unsigned i = 0; i < 2; i++) {
    double start = features[i] + sign * gap, end = f->line + sign * over;
    if ((end - start) * sign <= 0 || (i == 0 ? f->cut_from : f->cut_to))
      continue;
    if (f->upright)
      layout_add_line (job, f->index, start, ends[i], end, ends[i], 0, ROLE_DIMENSION);
    else
      layout_add_line (job, f->index, ends[i], start, ends[i], end, 0, ROLE_DIMENSION);
  }
  unsigned strokes = (f->cut_from ? 0 : 1u) | (f->cut_to ? 0 : 2u);
  if (f->upright)
    layout_add_line (job, f->index, f->line, f->from, f->line, f->to, strokes, ROLE_DIMENSION);
  else
    layout_add_line (job, f->index, f->from, f->line, f->to, f->line, strokes, ROLE_DIMENSION);
}

/* Keeps a dimension out of the bands of other sides: an end that is out of sight has no stroke. */
static void
cut (const LayoutJob *job, Frame *f)
{
  double least = f->upright ? job->inner.z0 : job->inner.x0,
         most = f->upright ? job->inner.z1 : job->inner.x1;
  if (job->view->device_scale <= 0 || job->layout->bands->len == 0)
    return;
  f->cut_from = f->from < least;
  f->cut_to = f->to > most;
  f->from = MAX (f->from, least);
  f->to = MIN (f->to, most);
}

static void
place_dimension (LayoutJob *job, unsigned index, const SceneItem *item)
{
  const DrawingView *view = job->view;
  const ScenePoint *p = scene_points (job->scene, item);
  unsigned place;
  dimension_ranks (job->scene, item->side, item->rank, &place);
  double x0 = view_x (view, p[0].x), x1 = view_x (view, p[1].x), y0 = view_y (view, p[0].z),
         y1 = view_y (view, p[1].z);
  Frame f = {.index = index, .item = item};
  if (item->side == SIDE_LEFT) {
    f.upright = true;
    f.from = MIN (y0, y1);
    f.to = MAX (y0, y1);
    f.feature_from = y0 < y1 ? x0 : x1;
    f.feature_to = y0 < y1 ? x1 : x0;
  } else {
    f.from = MIN (x0, x1);
    f.to = MAX (x0, x1);
    f.feature_from = x0 < x1 ? y0 : y1;
    f.feature_to = x0 < x1 ? y1 : y0;
  }
  f.line = dimension_line (job, item, place);
  dimension_sticks (job, item, place, &f.line);
  if (f.line < 0 || f.line > (f.upright ? view->width : view->height))
    return;
  cut (job, &f);
  place_outside (job, &f, item->side == SIDE_BOTTOM ? 1 : -1);
}

/* In place, only where it is seen large enough to be read as part of the drawing: upright, beside its points. */
static void
place_in_place (LayoutJob *job, unsigned index, const SceneItem *item)
{
  const DrawingView *view = job->view;
  const ScenePoint *p = scene_points (job->scene, item);
  double size = layout_figure_size (view), width, height;
  text_engine_measure (job->engine, item->value, size, false, &width, &height);
  double top = view_y (view, MAX (p[0].z, p[1].z)), bottom = view_y (view, MIN (p[0].z, p[1].z));
  double least = item->rank == 0 ? 12 * view->text : 1.5 * width;
  if (bottom - top < least || view->scale * 0.04 < 2.2 * view->text)
    return;
  static const double offsets[] = {1.9, 3.4, 5.0, 7.0};
  for (unsigned i = 0; i < G_N_ELEMENTS (offsets); i++) {
    Frame f = {.index = index, .item = item, .upright = true, .from = top, .to = bottom};
    f.line = view_x (view, p[0].x) + offsets[i] * view->text;
    f.feature_from = f.feature_to = view_x (view, p[0].x);
    LayoutBox box = text_box (&f, (top + bottom - width) / 2, width, height, view->text);
    /* Anywhere along the line will do, as long as the number stands on nothing. */
    for (int step = 0; step <= 8; step++) {
      double at = 0.5 + swing (step) * 0.1;
      box.y = top + at * (bottom - top - width);
      LayoutBox line = {f.line - 0.3 * view->text, top, 0.6 * view->text, bottom - top};
      if (!layout_is_inside (job, box) || !layout_is_inside (job, line) || !layout_is_free (job, box) ||
          layout_hits_device (job, box, (SceneBox){0, 0, 0, 0}) ||
          layout_hits_device (job, line, (SceneBox){0, 0, 0, 0}) ||
          !occupancy_is_free (job->occupancy, box.x, box.y, box.width, box.height) ||
          !occupancy_is_free (job->occupancy, f.line - 1, top + 3, 2, bottom - top - 6))
        continue;
      layout_add_text (job, index, item->value, box, size, true, ROLE_DIMENSION);
      layout_add_line (job, index, f.line, top, f.line, bottom, 3, ROLE_DIMENSION);
      layout_add_line (job, index, f.feature_from + 0.3 * view->text, top, f.line + 0.3 * view->text, top, 0,
                       ROLE_DIMENSION);
      return;
    }
  }
  job->layout->n_dropped++;
}

/* The more important first, so that it keeps its place. */
static int
by_importance (const void *a, const void *b, void *data)
{
  const LayoutJob *job = data;
  unsigned first = *(const unsigned *) a, second = *(const unsigned *) b;
  unsigned i = scene_item (job->scene, first)->importance, k = scene_item (job->scene, second)->importance;
  if (i != k)
    return i > k ? -1 : 1;
  return first < second ? -1 : first > second;
}

void
layout_dimensions (LayoutJob *job)
{
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (unsigned));
  for (unsigned i = 0; i < scene_n_items (job->scene); i++) {
    const SceneItem *item = scene_item (job->scene, i);
    if (item->shape == SHAPE_DIMENSION && item_is_shown (job->view, item))
      g_array_append_val (order, i);
  }
  g_array_sort_with_data (order, by_importance, job);
  for (unsigned i = 0; i < order->len; i++) {
    unsigned index = g_array_index (order, unsigned, i);
    const SceneItem *item = scene_item (job->scene, index);
    if (item->side != SIDE_IN_PLACE)
      place_dimension (job, index, item);
  }
  for (unsigned i = 0; i < order->len; i++) {
    unsigned index = g_array_index (order, unsigned, i);
    const SceneItem *item = scene_item (job->scene, index);
    if (item->side == SIDE_IN_PLACE)
      place_in_place (job, index, item);
  }
}
