/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Bands: on a screen, dimensions whose place outside the outline is out of sight while what they measure is in sight stand
 * in a band along the edge of the view, so that a close look at the sump still shows its widths. */
#include "drawing/layout-private.h"

#include <math.h>

/* Ranks that a band has room for, the nearest to the outline first. */
#define BAND_RANKS 2

double
dimension_line (const LayoutJob *job, const SceneItem *item, unsigned place)
{
  const DrawingView *view = job->view;
  SceneBox outline = scene_outline (job->scene);
  double offset = dimension_offset (view, place);
  if (item->side == SIDE_LEFT)
    return view_x (view, outline.x0) - offset;
  return item->side == SIDE_BOTTOM ? view_y (view, outline.z0) + offset : view_y (view, outline.z1) - offset;
}

/* Where the line of a rank stands in the band of its side. */
static double
band_line (const LayoutJob *job, SceneSide side, unsigned place)
{
  double text = job->view->text, out = 2.0 * (BAND_RANKS - 1 - (int) MIN (place, BAND_RANKS - 1));
  return side == SIDE_BOTTOM ? job->view->height - (0.7 + out) * text : (1.6 + out) * text;
}

/* True when both what is measured and enough of the length are in sight. */
static bool
is_in_sight (const LayoutJob *job, const SceneItem *item)
{
  const DrawingView *view = job->view;
  const ScenePoint *p = scene_points (job->scene, item);
  double x0 = view_x (view, MIN (p[0].x, p[1].x)), x1 = view_x (view, MAX (p[0].x, p[1].x));
  double y0 = view_y (view, MAX (p[0].z, p[1].z)), y1 = view_y (view, MIN (p[0].z, p[1].z));
  double across = MIN (x1, view->width) - MAX (x0, 0), up = MIN (y1, view->height) - MAX (y0, 0);
  return item->side == SIDE_LEFT ? across >= 0 && up > 3 * view->text : up >= 0 && across > 3 * view->text;
}

bool
dimension_sticks (const LayoutJob *job, const SceneItem *item, unsigned place, double *ret_line)
{
  if (job->view->device_scale <= 0 || place >= BAND_RANKS || !is_in_sight (job, item))
    return false;
  double natural = dimension_line (job, item, place), band = band_line (job, item->side, place);
  if (item->side == SIDE_BOTTOM ? natural <= band : natural >= band)
    return false;
  *ret_line = band;
  return true;
}

static void
add_band (LayoutJob *job, SceneSide side)
{
  const DrawingView *view = job->view;
  double deep = (side == SIDE_BOTTOM ? 4.1 : 4.2) * view->text;
  LayoutBox box = {0, 0, view->width, deep};
  if (side == SIDE_BOTTOM) {
    box.y = view->height - deep;
    job->inner.z1 = box.y;
  } else if (side == SIDE_TOP) {
    job->inner.z0 = deep;
  } else {
    box = (LayoutBox){0, 0, deep, view->height};
    job->inner.x0 = deep;
  }
  g_array_append_val (job->layout->bands, box);
}

void
layout_bands (LayoutJob *job)
{
  bool sticks[SIDE_IN_PLACE] = {false};
  job->inner = (SceneBox){0, 0, job->view->width, job->view->height};
  for (unsigned i = 0; i < scene_n_items (job->scene); i++) {
    const SceneItem *item = scene_item (job->scene, i);
    unsigned place;
    double line;
    if (item->shape != SHAPE_DIMENSION || item->side == SIDE_IN_PLACE || !item_is_shown (job->view, item))
      continue;
    dimension_ranks (job->scene, item->side, item->rank, &place);
    sticks[item->side] = sticks[item->side] || dimension_sticks (job, item, place, &line);
  }
  for (SceneSide side = SIDE_LEFT; side < SIDE_IN_PLACE; side++)
    if (sticks[side])
      add_band (job, side);
}

bool
layout_is_inside (const LayoutJob *job, LayoutBox box)
{
  return box.x >= job->inner.x0 && box.y >= job->inner.z0 && box.x + box.width <= job->inner.x1 &&
         box.y + box.height <= job->inner.z1;
}
