/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/occupancy.h"

#include <math.h>

/* Largest grid; a view with more cells gets coarser ones. */
#define MAX_CELLS 400000.0

struct _Occupancy {
  int columns, rows;
  double cell;
  unsigned *sums; /* (columns + 1) x (rows + 1): taken cells above and to the left */
};

static void
take (Occupancy *o, int column, int row)
{
  if (column >= 0 && row >= 0 && column < o->columns && row < o->rows)
    o->sums[(row + 1) * (o->columns + 1) + column + 1] = 1;
}

/* Cuts a line to the grid (Liang and Barsky), so that far zooms cost no more. */
static bool
clip (const Occupancy *o, double *x0, double *y0, double *x1, double *y1)
{
  double dx = *x1 - *x0, dy = *y1 - *y0, from = 0, to = 1;
  double p[] = {-dx, dx, -dy, dy};
  double q[] = {*x0, o->columns - *x0, *y0, o->rows - *y0};
  for (unsigned i = 0; i < 4; i++) {
    if (fabs (p[i]) < 1e-12) {
      if (q[i] < 0)
        return false;
      continue;
    }
    double t = q[i] / p[i];
    if (p[i] < 0)
      from = MAX (from, t);
    else
      to = MIN (to, t);
  }
  if (from > to)
    return false;
  double x = *x0, y = *y0;
  *x0 = x + from * dx;
  *y0 = y + from * dy;
  *x1 = x + to * dx;
  *y1 = y + to * dy;
  return true;
}

static void
take_line (Occupancy *o, double x0, double y0, double x1, double y1)
{
  x0 /= o->cell;
  y0 /= o->cell;
  x1 /= o->cell;
  y1 /= o->cell;
  if (!clip (o, &x0, &y0, &x1, &y1))
    return;
  int steps = (int) ceil (2 * MAX (fabs (x1 - x0), fabs (y1 - y0))) + 1;
  for (int i = 0; i <= steps; i++) {
    double t = (double) i / steps;
    take (o, (int) floor (x0 + t * (x1 - x0)), (int) floor (y0 + t * (y1 - y0)));
  }
}

/* Fills a polygon row by row. */
static void
take_area (Occupancy *o, const DrawingView *view, const ScenePoint *p, unsigned n)
{
  double top = INFINITY, bottom = -INFINITY;
  for (unsigned i = 0; i < n; i++) {
    top = MIN (top, view_y (view, p[i].z));
    bottom = MAX (bottom, view_y (view, p[i].z));
  }
  int first = (int) CLAMP (floor (top / o->cell), 0, o->rows),
      last = (int) CLAMP (ceil (bottom / o->cell), 0, o->rows);
  for (int row = first; row < last; row++) {
    double y = (row + 0.5) * o->cell, cross[64];
    unsigned found = 0;
    for (unsigned i = 0; i < n && found < G_N_ELEMENTS (cross); i++) {
      double y0 = view_y (view, p[i].z), y1 = view_y (view, p[(i + 1) % n].z);
      if ((y0 <= y) == (y1 <= y))
        continue;
      double x0 = view_x (view, p[i].x), x1 = view_x (view, p[(i + 1) % n].x);
      double x = x0 + (y - y0) / (y1 - y0) * (x1 - x0);
      unsigned k = found++;
      for (; k > 0 && cross[k - 1] > x; k--)
        cross[k] = cross[k - 1];
      cross[k] = x;
    }
    for (unsigned i = 0; i + 1 < found; i += 2) {
      int from = (int) CLAMP (floor (cross[i] / o->cell), 0, o->columns);
      int to = (int) CLAMP (floor (cross[i + 1] / o->cell), -1, o->columns - 1);
      for (int column = from; column <= to; column++)
        take (o, column, row);
    }
  }
}

/* Areas on which text must not stand: pipes and their fittings, and what is hatched on any ground. */
static bool
is_unreadable (const SceneItem *item)
{
  switch (item->material) {
  case MATERIAL_GLASS:
  case MATERIAL_PLASTIC:
  case MATERIAL_TIMBER:
  case MATERIAL_SAND:
  case MATERIAL_SOCK:
  case MATERIAL_GROUND:
  case MATERIAL_ROCK:
    return true;
  case MATERIAL_NONE:
  case MATERIAL_BLANK:
  case MATERIAL_WATER:
  case MATERIAL_WATER_OFF:
  case MATERIAL_PIPE:
  case N_SCENE_MATERIALS:
    break;
  }
  return item->role == ROLE_PIPE || item->role == ROLE_FITTING;
}

static void
take_item (Occupancy *o, const Scene *scene, const DrawingView *view, const SceneItem *item)
{
  const ScenePoint *p = scene_points (scene, item);
  if (item->shape == SHAPE_AREA && is_unreadable (item))
    take_area (o, view, p, item->n);
  if (item->shape == SHAPE_LINE)
    for (unsigned i = 0; i + 1 < item->n + (item->closed ? 1 : 0); i++)
      take_line (o, view_x (view, p[i].x), view_y (view, p[i].z), view_x (view, p[(i + 1) % item->n].x),
                 view_y (view, p[(i + 1) % item->n].z));
  if (item->shape == SHAPE_ARC) {
    double x = view_x (view, p->x), y = view_y (view, p->z), r = item->radius * view->scale;
    for (unsigned i = 0; i < 24; i++)
      take_line (o, x + r * cos (i * G_PI / 12), y + r * sin (i * G_PI / 12),
                 x + r * cos ((i + 1) * G_PI / 12), y + r * sin ((i + 1) * G_PI / 12));
  }
  if (item->shape == SHAPE_SYMBOL) {
    double x = view_x (view, p->x), y = view_y (view, p->z);
    for (int i = -3; i <= 3; i++)
      take_line (o, x - 0.5 * view->text, y + i * view->text / 4, x + 0.5 * view->text,
                 y + i * view->text / 4);
  }
}

Occupancy *
occupancy_new (const Scene *scene, const DrawingView *view)
{
  Occupancy *o = g_new0 (Occupancy, 1);
  double width = CLAMP (view->width, 1, 1e5), height = CLAMP (view->height, 1, 1e5);
  o->cell = MAX (view->text / 4, sqrt (width * height / MAX_CELLS));
  o->columns = (int) ceil (width / o->cell);
  o->rows = (int) ceil (height / o->cell);
  unsigned stride = (unsigned) o->columns + 1;
  o->sums = g_new0 (unsigned, stride *((unsigned) o->rows + 1));
  for (unsigned i = 0; i < scene_n_items (scene); i++) {
    const SceneItem *item = scene_item (scene, i);
    if (view_shows (view, item->layer))
      take_item (o, scene, view, item);
  }
  for (unsigned row = 1; row <= (unsigned) o->rows; row++) {
    unsigned in_row = 0;
    for (unsigned column = 1; column < stride; column++) {
      in_row += o->sums[row * stride + column];
      o->sums[row * stride + column] = in_row + o->sums[(row - 1) * stride + column];
    }
  }
  return o;
}

void
occupancy_free (Occupancy *occupancy)
{
  if (occupancy == NULL)
    return;
  g_free (occupancy->sums);
  g_free (occupancy);
}

bool
occupancy_is_free (const Occupancy *o, double x, double y, double width, double height)
{
  if (!(x >= 0 && y >= 0) || x + width > o->columns * o->cell || y + height > o->rows * o->cell)
    return false;
  int x0 = (int) (x / o->cell), y0 = (int) (y / o->cell);
  int x1 = MIN ((int) ((x + width) / o->cell), o->columns - 1),
      y1 = MIN ((int) ((y + height) / o->cell), o->rows - 1);
  int stride = o->columns + 1;
  unsigned sum = o->sums[(y1 + 1) * stride + x1 + 1] - o->sums[y0 * stride + x1 + 1] -
                 o->sums[(y1 + 1) * stride + x0] + o->sums[y0 * stride + x0];
  return sum == 0;
}

unsigned
occupancy_crossings (const Occupancy *o, double x0, double y0, double x1, double y1)
{
  int steps = (int) ceil (hypot (x1 - x0, y1 - y0) / o->cell) + 1;
  unsigned crossings = 0;
  bool inside = false;
  for (int i = 0; i <= steps; i++) {
    double t = (double) i / steps;
    bool taken = !occupancy_is_free (o, x0 + t * (x1 - x0), y0 + t * (y1 - y0), 0, 0);
    crossings += taken && !inside;
    inside = taken;
  }
  return crossings;
}
