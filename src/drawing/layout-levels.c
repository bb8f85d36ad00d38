/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The ladder of levels: rungs at the right margin, in order of height, moved apart just enough to be read; each with a
 * leader from its level, a triangle standing on the line, its height above the stand's floor, that above the inside
 * bottom of its vessel in brackets, and its name. Where the margin is out of sight, levels are labels in the drawing. */
#include "drawing/layout-private.h"

#include <math.h>

/* Share of a view that a drawing is to have beside its ladder. */
#define LEAST_SHARE 0.6

#define MAX_RUNGS  64
#define RUNG_PITCH 1.3

/* Of the line over the ladder, which on a screen may be a little smaller. */
static double
head_size (const DrawingView *view)
{
  return view->device_scale > 0 ? 0.86 * view->text : view->text;
}

typedef struct {
  unsigned index;
  const SceneItem *item;
  double y;      /* of the level */
  double placed; /* of its rung */
} Rung;

typedef struct {
  double gap, elbow, triangle, value, own, name; /* widths of the columns */
} Columns;

static Columns
columns_of (const Scene *scene, const DrawingView *view, TextEngine *engine)
{
  Columns c = {0.6 * view->text, 1.6 * view->text, 1.4 * view->text, 0, 0, 0};
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    if (item->shape != SHAPE_LEVEL || !item_is_shown (view, item))
      continue;
    const char *texts[] = {item->value, item->own, item->text};
    double *widths[] = {&c.value, &c.own, &c.name};
    for (unsigned k = 0; k < 3; k++) {
      double width, height;
      if (texts[k] == NULL)
        continue;
      text_engine_measure (engine, texts[k], layout_figure_size (view), false, &width, &height);
      *widths[k] = MAX (*widths[k], width);
    }
  }
  return c;
}

/* In a small pane a long design would have less room than its ladder: there the levels stand in the drawing instead. */
static bool
is_crowded_out (const Scene *scene, const DrawingView *view, double ladder)
{
  SceneBox box = scene_outline (scene);
  double left = view->width - ladder;
  return view->device_scale > 0 && left < LEAST_SHARE * view->width &&
         left * (box.z1 - box.z0) < LEAST_SHARE * view->height * (box.x1 - box.x0);
}

double
ladder_width (const Scene *scene, const DrawingView *view, TextEngine *engine)
{
  Columns c = columns_of (scene, view, engine);
  if (c.value <= 0)
    return 0;
  double head, height;
  text_engine_measure (engine, scene_level_head (scene), head_size (view), false, &head, &height);
  double width = c.gap + c.elbow + MAX (head, c.triangle + c.value + c.own + c.name) + 2.2 * view->text;
  return is_crowded_out (scene, view, width) ? 0 : width;
}

static int
by_height (const void *a, const void *b)
{
  const Rung *first = a, *second = b;
  if (first->y != second->y)
    return first->y < second->y ? -1 : 1;
  return first->index < second->index ? -1 : 1;
}

/* Drops the least important rungs until `n` at their pitch fit into the height. */
static unsigned
drop_rungs (LayoutJob *job, Rung *rungs, unsigned n, double room)
{
  while (n > 0 && n * RUNG_PITCH * job->view->text > room) {
    unsigned least = 0;
    for (unsigned i = 1; i < n; i++)
      if (rungs[i].item->importance < rungs[least].item->importance)
        least = i;
    for (unsigned i = least; i + 1 < n; i++)
      rungs[i] = rungs[i + 1];
    n--;
    job->layout->n_dropped++;
  }
  return n;
}

/* Least moves that keep the pitch: neighbours too close are joined to blocks round the mean of their wishes. */
static void
spread (Rung *rungs, unsigned n, double pitch, double top, double bottom)
{
  struct {
    unsigned first, n;
    double sum; /* of the wished places of the block's first rung */
  } blocks[MAX_RUNGS];
  unsigned n_blocks = 0;
  for (unsigned i = 0; i < n; i++) {
    blocks[n_blocks].first = i;
    blocks[n_blocks].n = 1;
    blocks[n_blocks].sum = rungs[i].y;
    n_blocks++;
    while (n_blocks > 1) {
      unsigned a = n_blocks - 2, z = n_blocks - 1;
      double start = blocks[a].sum / blocks[a].n, next = blocks[z].sum / blocks[z].n;
      if (start + blocks[a].n * pitch <= next)
        break;
      blocks[a].sum += blocks[z].sum - (double) blocks[z].n * blocks[a].n * pitch;
      blocks[a].n += blocks[z].n;
      n_blocks--;
    }
  }
  for (unsigned i = 0; i < n_blocks; i++)
    for (unsigned k = 0; k < blocks[i].n; k++)
      rungs[blocks[i].first + k].placed = blocks[i].sum / blocks[i].n + k * pitch;
  for (unsigned i = 0; i < n; i++)
    rungs[i].placed = MAX (rungs[i].placed, top + i * pitch);
  for (unsigned i = 0; i < n; i++)
    rungs[i].placed = MIN (rungs[i].placed, bottom - (n - 1 - i) * pitch);
}

static void
rung_text (LayoutJob *job, const Rung *rung, const char *text, double x, double width, bool right)
{
  double size = layout_figure_size (job->view), w, h;
  if (text == NULL)
    return;
  text_engine_measure (job->engine, text, size, false, &w, &h);
  LayoutBox box = {right ? x + width - w : x, rung->placed - 0.06 * job->view->text - h, w, h};
  layout_add_text (job, rung->index, text, box, size, false, rung->item->role);
  g_array_index (job->layout->texts, LayoutText, job->layout->texts->len - 1).soft =
      rung->item->role == ROLE_LEVEL || text == rung->item->own;
}

static void
place_rung (LayoutJob *job, const Rung *rung, const Columns *c, double margin)
{
  const DrawingView *view = job->view;
  const ScenePoint *p = scene_points (job->scene, rung->item);
  double from = view_x (view, p[1].x) + 0.3 * view->text, x = margin + c->gap;
  double end = x + c->elbow + c->triangle + c->value + c->own + 0.9 * view->text;
  layout_add_line (job, rung->index, MIN (from, x), rung->y, x, rung->y, 0, ROLE_LEVEL);
  layout_add_line (job, rung->index, x, rung->y, x + c->elbow, rung->placed, 0, ROLE_LEVEL);
  layout_add_line (job, rung->index, x + c->elbow, rung->placed, end, rung->placed, 0, ROLE_LEVEL);
  x += c->elbow;
  LayoutMark mark = {rung->index,           rung->item->role, SYMBOL_SURFACE,
                     x + 0.55 * view->text, rung->placed,     0.8 * view->text};
  g_array_append_val (job->layout->marks, mark);
  x += c->triangle;
  rung_text (job, rung, rung->item->value, x, c->value, true);
  x += c->value + 0.7 * view->text;
  rung_text (job, rung, rung->item->own, x, c->own, true);
  x += c->own + 0.7 * view->text;
  rung_text (job, rung, rung->item->text, x, c->name, false);
}

/* Above the surface itself, as near to its right end as there is room: where the ladder is out of sight. */
static void
place_in_drawing (LayoutJob *job, unsigned index, const SceneItem *item)
{
  const DrawingView *view = job->view;
  const ScenePoint *p = scene_points (job->scene, item);
  double x0 = MAX (view_x (view, p[0].x), 0), x1 = MIN (view_x (view, p[1].x), view->width);
  double y = view_y (view, p->z), size = layout_figure_size (view), triangle = 1.3 * view->text, width,
         height;
  g_autofree char *both =
      item->own != NULL ? g_strdup_printf ("%s (%s)", item->value, item->own) : g_strdup (item->value);
  text_engine_measure (job->engine, both, size, false, &width, &height);
  for (double right = x1 - 0.5 * view->text; right - width - triangle > x0; right -= 0.5 * view->text) {
    LayoutBox box = {right - width, y - height - 1.5, width, height}, whole = box;
    whole.x -= triangle;
    whole.width += triangle;
    whole.height -= 1;
    if (!layout_is_inside (job, whole) || !layout_is_free (job, whole) ||
        layout_hits_device (job, whole, (SceneBox){0, 0, 0, 0}) ||
        !occupancy_is_free (job->occupancy, whole.x, whole.y, whole.width,
                            whole.height - job->view->text / 4))
      continue;
    layout_add_text (job, index, g_string_chunk_insert (job->layout->strings, both), box, size, false,
                     item->role);
    LayoutMark mark = {index, item->role,      SYMBOL_SURFACE, right - width - 0.7 * view->text,
                       y,     0.8 * view->text};
    g_array_append_val (job->layout->marks, mark);
    return;
  }
  job->layout->n_dropped++;
}

static void
layout_in_drawing (LayoutJob *job)
{
  for (unsigned i = 0; i < scene_n_items (job->scene); i++) {
    const SceneItem *item = scene_item (job->scene, i);
    if (item->shape == SHAPE_LEVEL && item_is_shown (job->view, item) && item->role != ROLE_LEVEL)
      place_in_drawing (job, i, item);
  }
}

/* What the two columns are, above the topmost rung. */
static void
place_head (LayoutJob *job, const Columns *c, double margin, double y)
{
  const DrawingView *view = job->view;
  const char *head = scene_level_head (job->scene);
  double size = head_size (view), width, height;
  text_engine_measure (job->engine, head, size, false, &width, &height);
  LayoutBox box = {margin + c->gap + c->elbow + 0.2 * view->text, y - height, width, height};
  layout_add_text (job, 0, head, box, size, false, ROLE_LEVEL);
  g_array_index (job->layout->texts, LayoutText, job->layout->texts->len - 1).soft = true;
}

/* Like levels of like parts, as the crests of tanks of one make: one rung says it for all. */
static bool
is_said (const LayoutJob *job, const Rung *rungs, unsigned n, const SceneItem *item)
{
  double z = scene_points (job->scene, item)->z;
  for (unsigned i = 0; i < n; i++)
    if (fabs (scene_points (job->scene, rungs[i].item)->z - z) < 5e-4 &&
        g_strcmp0 (rungs[i].item->text, item->text) == 0 && g_strcmp0 (rungs[i].item->own, item->own) == 0)
      return true;
  return false;
}

void
layout_levels (LayoutJob *job)
{
  const DrawingView *view = job->view;
  Rung rungs[MAX_RUNGS];
  unsigned n = 0;
  double margin = view_x (view, scene_outline (job->scene).x1),
         width = ladder_width (job->scene, view, job->engine);
  /* Half a unit: a view that was fitted is exactly as wide as its margins ask. */
  if (width <= 0 || margin < 0 || margin + width > view->width + view->text) {
    layout_in_drawing (job);
    return;
  }
  for (unsigned i = 0; i < scene_n_items (job->scene) && n < MAX_RUNGS; i++) {
    const SceneItem *item = scene_item (job->scene, i);
    double y = item->shape == SHAPE_LEVEL ? view_y (view, scene_points (job->scene, item)->z) : 0;
    if (item->shape == SHAPE_LEVEL && item_is_shown (view, item) && y >= 0 && y <= view->height &&
        !is_said (job, rungs, n, item))
      rungs[n++] = (Rung){i, item, y, y};
  }
  double top = 3.2 * view->text, bottom = view->height - 0.5 * view->text;
  n = drop_rungs (job, rungs, n, bottom - top);
  qsort (rungs, n, sizeof *rungs, by_height);
  Columns c = columns_of (job->scene, view, job->engine);
  spread (rungs, n, RUNG_PITCH * view->text, top, bottom);
  for (unsigned i = 0; i < n; i++)
    place_rung (job, &rungs[i], &c, margin);
  if (n > 0)
    place_head (job, &c, margin, rungs[0].placed - 1.5 * view->text);
}
