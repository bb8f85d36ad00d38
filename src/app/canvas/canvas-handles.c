/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Whose handles are shown: those of the part in work, and of what shapes it: a run comes with its corners, a corner with
 * the others, a chamber with the baffles beside it, an overflow with the mouths of its drains. */
#include <math.h>

#include "app/canvas/canvas-private.h"
#include "design/geometry.h"

/* The wall of a thin pipe lies close to its middle, where a pull bends it: only its square counts. */
#define SIZE_REACH 5.0

typedef struct {
  int *parts;
  unsigned n, max;
} Parts;

static void
add (Parts *parts, const Design *design, const Part *part)
{
  const int index = part != NULL ? design_index (design, part_key (part)) : -1;

  for (unsigned i = 0; i < parts->n; i++)
    if (parts->parts[i] == index)
      return;
  if (index >= 0 && parts->n < parts->max)
    parts->parts[parts->n++] = index;
}

static void
add_children (Parts *parts, const Design *design, const Part *owner, PartKind kind)
{
  for (unsigned i = 0; owner != NULL && i < design_n_children (design, part_key (owner), kind); i++)
    add (parts, design, design_child (design, part_key (owner), kind, i));
}

unsigned
canvas_handle_parts (Canvas *self, int parts[], unsigned max)
{
  const Design *design = document_get_design (self->document);
  const Part *part = canvas_part_of (self, canvas_selected (self));
  Parts found = {.parts = parts, .max = max};

  if (part == NULL || self->scene == NULL)
    return 0;
  add (&found, design, part);
  switch ((int) part_kind (part)) {
  case PART_DRAIN:
  case PART_RETURN:
    add_children (&found, design, part, PART_CORNER);
    break;
  case PART_CORNER:
    add_children (&found, design, design_owner (design, part), PART_CORNER);
    break;
  case PART_CHAMBER:
    add (&found, design, geometry_baffle_left (design, part));
    add (&found, design, geometry_baffle_right (design, part));
    break;
  case PART_OVERFLOW:
    add_children (&found, design, part, PART_DRAIN);
    break;
  default:
    break;
  }
  return found.n;
}

gboolean
canvas_handle_at (Canvas *self, double x, double y, int *ret_part, unsigned *ret_number)
{
  int parts[64];
  const unsigned n = canvas_handle_parts (self, parts, G_N_ELEMENTS (parts));
  double nearest = self->by_touch ? TOUCH_REACH : HANDLE_REACH;
  gboolean found = FALSE;

  for (unsigned i = 0; i < n; i++)
    for (unsigned k = 0; k < scene_n_handles (self->scene, parts[i]); k++) {
      const SceneHandle *handle = scene_handle (self->scene, parts[i], k);
      const double distance =
          hypot (view_x (&self->view, handle->x) - x, view_y (&self->view, handle->z) - y);

      if (canvas_is_size (handle) && !self->by_touch && distance > SIZE_REACH)
        continue;
      if (distance < nearest) {
        nearest = distance;
        *ret_part = parts[i];
        *ret_number = k;
        found = TRUE;
      }
    }
  return found;
}

void
canvas_hold (Canvas *self, const char *key, unsigned number)
{
  char *kept = g_strdup (key);

  g_free (self->held_key);
  self->held_key = kept;
  self->held_number = number;
}

gboolean
canvas_is_held (Canvas *self, int part, unsigned number)
{
  const Part *held = canvas_part_of (self, part);

  return held != NULL && self->held_number == number && g_strcmp0 (part_key (held), self->held_key) == 0;
}

/* The place on a piece from a to b that is nearest to (x, y), as a share of it, and how far away it is. */
static double
nearest_share (double ax, double ay, double bx, double by, double x, double y, double *ret_distance)
{
  const double dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
  const double share = square > 0 ? CLAMP (((x - ax) * dx + (y - ay) * dy) / square, 0.0, 1.0) : 0;

  *ret_distance = hypot (ax + share * dx - x, ay + share * dy - y);
  return share;
}

gboolean
canvas_station_at (Canvas *self, const Design *design, const Part *run, double x, double y,
                   double *ret_station, double *ret_distance)
{
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, MAX (n, 1));
  double passed = 0, best = INFINITY;

  geometry_run (design, run, points, n);
  for (unsigned i = 1; i < n; i++) {
    const Point3 a = points[i - 1], b = points[i];
    const double length =
        sqrt ((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y) + (b.z - a.z) * (b.z - a.z));
    const ScenePoint p = scene_project (self->scene, a), q = scene_project (self->scene, b);
    double distance;
    const double share =
        nearest_share (view_x (&self->view, p.x), view_y (&self->view, p.z), view_x (&self->view, q.x),
                       view_y (&self->view, q.z), x, y, &distance);

    if (distance < best) {
      best = distance;
      *ret_station = passed + share * length;
    }
    passed += length;
  }
  if (ret_distance != NULL)
    *ret_distance = best;
  return isfinite (best);
}
