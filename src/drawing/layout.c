/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/layout-private.h"

#include <math.h>

bool
item_is_shown (const DrawingView *view, const SceneItem *item)
{
  if (item->shape == SHAPE_LEVEL && !view_shows (view, LAYER_LEVELS))
    return false;
  if (item->shape == SHAPE_LABEL && item->role == ROLE_LABEL && !view_shows (view, LAYER_LABELS))
    return false;
  return view_shows (view, item->layer);
}

double
layout_figure_size (const DrawingView *view)
{
  return view->device_scale > 0 ? 0.94 * view->text : view->text;
}

int
swing (int step)
{
  int far = (step + 1) / 2;
  return step % 2 != 0 ? -far : far;
}

bool
boxes_overlap (LayoutBox a, LayoutBox b)
{
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool
segment_meets_box (double x0, double y0, double x1, double y1, LayoutBox box)
{
  double p[] = {x0 - x1, x1 - x0, y0 - y1, y1 - y0};
  double q[] = {x0 - box.x, box.x + box.width - x0, y0 - box.y, box.y + box.height - y0};
  double from = 0, to = 1;
  for (unsigned i = 0; i < 4; i++) {
    if (fabs (p[i]) < 1e-12) {
      if (q[i] < 0)
        return false;
      continue;
    }
    if (p[i] < 0)
      from = MAX (from, q[i] / p[i]);
    else
      to = MIN (to, q[i] / p[i]);
  }
  return from <= to;
}

bool
layout_is_free (const LayoutJob *job, LayoutBox box)
{
  const Layout *layout = job->layout;
  for (unsigned i = 0; i < layout->texts->len; i++)
    if (boxes_overlap (g_array_index (layout->texts, LayoutText, i).box, box))
      return false;
  for (unsigned i = 0; i < layout->lines->len; i++) {
    const LayoutLine *line = &g_array_index (layout->lines, LayoutLine, i);
    if (segment_meets_box (line->x0, line->y0, line->x1, line->y1, box))
      return false;
  }
  for (unsigned i = 0; i < layout->marks->len; i++) {
    const LayoutMark *mark = &g_array_index (layout->marks, LayoutMark, i);
    LayoutBox around = {mark->x - mark->size / 2, mark->y - mark->size / 2, mark->size, mark->size};
    if (boxes_overlap (around, box))
      return false;
  }
  return true;
}

void
layout_add_text (LayoutJob *job, unsigned item, const char *text, LayoutBox box, double size, bool upwards,
                 SceneRole role)
{
  LayoutText added = {.item = item, .text = text, .box = box, .size = size, .upwards = upwards, .role = role};
  g_array_append_val (job->layout->texts, added);
}

void
layout_add_line (LayoutJob *job, unsigned item, double x0, double y0, double x1, double y1, unsigned strokes,
                 SceneRole role)
{
  LayoutLine line = {item, x0, y0, x1, y1, strokes, role};
  g_array_append_val (job->layout->lines, line);
}

SceneBox
layout_cut_to_view (const DrawingView *view, SceneBox box)
{
  return (SceneBox){CLAMP (box.x0, 0, view->width), CLAMP (box.z0, 0, view->height),
                    CLAMP (box.x1, 0, view->width), CLAMP (box.z1, 0, view->height)};
}

static GArray *
collect_devices (const Scene *scene, const DrawingView *view)
{
  GArray *devices = g_array_new (FALSE, FALSE, sizeof (SceneBox));
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    if (item->shape != SHAPE_AREA || item->role != ROLE_DEVICE || !view_shows (view, item->layer))
      continue;
    const ScenePoint *p = scene_points (scene, item);
    SceneBox box = {view_x (view, p[0].x), view_y (view, p[2].z), view_x (view, p[2].x),
                    view_y (view, p[0].z)};
    box = layout_cut_to_view (view, box);
    g_array_append_val (devices, box);
  }
  return devices;
}

bool
layout_hits_device (const LayoutJob *job, LayoutBox box, SceneBox thing)
{
  for (unsigned i = 0; i < job->devices->len; i++) {
    SceneBox d = g_array_index (job->devices, SceneBox, i);
    bool same = fabs (d.x0 - thing.x0) < 1 && fabs (d.x1 - thing.x1) < 1 && fabs (d.z0 - thing.z0) < 1 &&
                fabs (d.z1 - thing.z1) < 1;
    if (!same && boxes_overlap (box, (LayoutBox){d.x0, d.z0, d.x1 - d.x0, d.z1 - d.z0}))
      return true;
  }
  return false;
}

Layout *
layout_new (const Scene *scene, const DrawingView *view, TextEngine *engine, const Layout *before)
{
  Layout *layout = g_new0 (Layout, 1);
  layout->texts = g_array_new (FALSE, FALSE, sizeof (LayoutText));
  layout->lines = g_array_new (FALSE, FALSE, sizeof (LayoutLine));
  layout->marks = g_array_new (FALSE, FALSE, sizeof (LayoutMark));
  layout->bands = g_array_new (FALSE, FALSE, sizeof (LayoutBox));
  layout->places = g_array_new (FALSE, FALSE, sizeof (LayoutPlace));
  layout->strings = g_string_chunk_new (256);
  LayoutJob job = {.scene = scene, .view = view, .engine = engine, .layout = layout, .before = before};
  layout->n_parts = scene_n_parts (scene);
  if (before != NULL && before->n_parts != layout->n_parts)
    job.before = NULL;
  job.occupancy = occupancy_new (scene, view);
  job.devices = collect_devices (scene, view);
  layout_bands (&job);
  layout_dimensions (&job);
  layout_levels (&job);
  layout_labels (&job);
  occupancy_free (job.occupancy);
  g_array_unref (job.devices);
  return layout;
}

void
layout_free (Layout *layout)
{
  if (layout == NULL)
    return;
  g_array_unref (layout->texts);
  g_array_unref (layout->lines);
  g_array_unref (layout->marks);
  g_array_unref (layout->bands);
  g_array_unref (layout->places);
  g_string_chunk_free (layout->strings);
  g_free (layout);
}

LayoutMargins
layout_margins (const Scene *scene, const DrawingView *view, TextEngine *engine)
{
  double least = 1.5 * view->text;
  LayoutMargins margins = {least, least, least, least};
  double *sides[] = {[SIDE_LEFT] = &margins.left, [SIDE_BOTTOM] = &margins.bottom, [SIDE_TOP] = &margins.top};
  for (SceneSide side = SIDE_LEFT; side <= SIDE_TOP; side++) {
    unsigned place, n = dimension_ranks (scene, side, 0, &place);
    if (n > 0 && view_shows (view, LAYER_DIMENSIONS))
      *sides[side] = dimension_offset (view, n - 1) + (side == SIDE_BOTTOM ? 1 : 2.2) * view->text;
  }
  if (view_shows (view, LAYER_LEVELS))
    margins.right = MAX (margins.right, ladder_width (scene, view, engine));
  return margins;
}

DrawingView
layout_centre (const Scene *scene, const DrawingView *view, TextEngine *engine, double scale)
{
  LayoutMargins m = layout_margins (scene, view, engine);
  SceneBox box = scene_outline (scene);
  DrawingView placed = *view;
  placed.scale = scale;
  double spare_x = view->width - m.left - m.right - (box.x1 - box.x0) * scale;
  double spare_y = view->height - m.top - m.bottom - (box.z1 - box.z0) * scale;
  placed.origin_x = m.left + spare_x / 2 - box.x0 * scale;
  placed.origin_y = m.top + spare_y / 2 + box.z1 * scale;
  if (view->device_scale > 0) {
    placed.origin_x = round (placed.origin_x);
    placed.origin_y = round (placed.origin_y);
  }
  return placed;
}

DrawingView
layout_fit (const Scene *scene, const DrawingView *view, TextEngine *engine)
{
  LayoutMargins m = layout_margins (scene, view, engine);
  SceneBox box = scene_outline (scene);
  double width = MAX (view->width - m.left - m.right, view->width / 8);
  double height = MAX (view->height - m.top - m.bottom, view->height / 8);
  double scale = MIN (width / MAX (box.x1 - box.x0, 1e-3), height / MAX (box.z1 - box.z0, 1e-3));
  return layout_centre (scene, view, engine, CLAMP (scale, 5, 100000));
}
