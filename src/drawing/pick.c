/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Picking: which part lies under the pointer, by distance in user units and by what is drawn on top. */
#include "drawing/scene.h"

#include <math.h>

#define MAX_PILE 64

static double
distance_to_segment (double x, double y, double x0, double y0, double x1, double y1)
{
  double dx = x1 - x0, dy = y1 - y0, square = dx * dx + dy * dy;
  double t = square > 0 ? CLAMP (((x - x0) * dx + (y - y0) * dy) / square, 0, 1) : 0;
  return hypot (x - x0 - t * dx, y - y0 - t * dy);
}

static bool
is_inside (const ScenePoint *p, unsigned n, double x, double z)
{
  bool inside = false;
  for (unsigned i = 0, k = n - 1; i < n; k = i++)
    if ((p[i].z > z) != (p[k].z > z) && x < (p[k].x - p[i].x) * (z - p[i].z) / (p[k].z - p[i].z) + p[i].x)
      inside = !inside;
  return inside;
}

/* Distance of a primitive from a place, or infinity when it cannot be picked. */
static double
item_distance (const Scene *scene, const SceneItem *item, const DrawingView *view, double x, double y)
{
  const ScenePoint *p = scene_points (scene, item);
  double nearest = INFINITY;
  switch (item->shape) {
  case SHAPE_LINE:
    for (unsigned i = 0; i + 1 < item->n + (item->closed ? 1 : 0); i++) {
      const ScenePoint *a = &p[i], *b = &p[(i + 1) % item->n];
      nearest = MIN (nearest, distance_to_segment (x, y, view_x (view, a->x), view_y (view, a->z),
                                                   view_x (view, b->x), view_y (view, b->z)));
    }
    break;
  case SHAPE_AREA:
    if (is_inside (p, item->n, view_to_x (view, x), view_to_z (view, y)))
      nearest = 0;
    break;
  case SHAPE_ARC: {
    double r = hypot (x - view_x (view, p->x), y - view_y (view, p->z));
    nearest = fabs (r - item->radius * view->scale);
    break;
  }
  case SHAPE_SYMBOL:
    nearest = MAX (0, hypot (x - view_x (view, p->x), y - view_y (view, p->z)) - view->text / 2);
    break;
  case SHAPE_LABEL:
  case SHAPE_LEVEL:
  case SHAPE_DIMENSION:
  case N_SCENE_SHAPES:
    break;
  }
  return nearest;
}

/* Lines come before the areas that they lie on; among either the later role, then the one painted later, is on top. */
static int
height_of (const SceneItem *item)
{
  return (item->shape == SHAPE_AREA ? 0 : N_SCENE_ROLES) + (int) item->role;
}

/* True when hit a lies over hit b. */
static bool
lies_over (const Scene *scene, const SceneHit *a, const SceneHit *b)
{
  const SceneItem *first = scene_item (scene, a->item), *second = scene_item (scene, b->item);
  if (height_of (first) != height_of (second))
    return height_of (first) > height_of (second);
  if (fabs (a->distance - b->distance) > 0.5)
    return a->distance < b->distance;
  return a->item > b->item;
}

static void
enter (const Scene *scene, SceneHit *hits, unsigned max, unsigned *n, SceneHit hit)
{
  unsigned place = 0;
  while (place < *n && lies_over (scene, &hits[place], &hit)) {
    if (hits[place].part == hit.part)
      return;
    place++;
  }
  for (unsigned i = place; i < *n; i++)
    if (hits[i].part == hit.part) {
      for (; i > place; i--)
        hits[i] = hits[i - 1];
      hits[place] = hit;
      return;
    }
  if (place >= max)
    return;
  unsigned last = MIN (*n, max - 1);
  for (unsigned i = last; i > place; i--)
    hits[i] = hits[i - 1];
  hits[place] = hit;
  *n = last + 1;
}

unsigned
scene_pick_all (const Scene *scene, const DrawingView *view, double x, double y, double tolerance,
                SceneHit *hits, unsigned max)
{
  SceneHit pile[MAX_PILE];
  unsigned n = 0;
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    if (item->part < 0 || !view_shows (view, item->layer))
      continue;
    double distance = item_distance (scene, item, view, x, y);
    if (distance <= tolerance)
      enter (scene, pile, MAX_PILE, &n, (SceneHit){item->part, i, distance});
  }
  for (unsigned i = 0; i < MIN (n, max); i++)
    hits[i] = pile[i];
  return n;
}

int
scene_pick (const Scene *scene, const DrawingView *view, double x, double y, double tolerance, int after)
{
  SceneHit hits[MAX_PILE];
  unsigned n = MIN (scene_pick_all (scene, view, x, y, tolerance, hits, MAX_PILE), MAX_PILE);
  for (unsigned i = 0; i < n; i++)
    if (hits[i].part == after)
      return hits[(i + 1) % n].part;
  return n > 0 ? hits[0].part : -1;
}
