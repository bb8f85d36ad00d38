/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Plane geometry of pipes: rounded centre lines and their two walls. */
#include "drawing/scene-private.h"

#include <math.h>

#define BEND_STEPS 6

static ScenePoint
between (ScenePoint a, ScenePoint b, double t)
{
  return (ScenePoint){a.x + t * (b.x - a.x), a.z + t * (b.z - a.z)};
}

static double
distance (ScenePoint a, ScenePoint b)
{
  return hypot (b.x - a.x, b.z - a.z);
}

static void
append (GArray *points, ScenePoint p)
{
  if (points->len > 0 && distance (g_array_index (points, ScenePoint, points->len - 1), p) < 1e-7)
    return;
  g_array_append_val (points, p);
}

/* A corner b between a and c, rounded by a quadratic curve that leaves the legs at `cut` from it: close to an arc for
 * the angles that fittings make, and without its special cases. */
static void
round_corner (ScenePoint a, ScenePoint b, ScenePoint c, double cut, GArray *ret)
{
  ScenePoint start = between (b, a, cut / distance (a, b)), end = between (b, c, cut / distance (b, c));
  double ux = (a.x - b.x) / distance (a, b), uz = (a.z - b.z) / distance (a, b);
  double vx = (c.x - b.x) / distance (b, c), vz = (c.z - b.z) / distance (b, c);
  /* Weight of a rational quadratic that makes it a circle: the cosine of half the angle turned through. */
  double half = sqrt (MAX (0, (1 - (ux * vx + uz * vz)) / 2));
  for (unsigned i = 0; i <= BEND_STEPS; i++) {
    double t = (double) i / BEND_STEPS;
    double w0 = (1 - t) * (1 - t), w1 = 2 * half * t * (1 - t), w2 = t * t, sum = w0 + w1 + w2;
    append (ret, (ScenePoint){(w0 * start.x + w1 * b.x + w2 * end.x) / sum,
                              (w0 * start.z + w1 * b.z + w2 * end.z) / sum});
  }
}

void
pipe_centre (const ScenePoint *corners, unsigned n, double bend, GArray *ret)
{
  for (unsigned i = 0; i < n; i++) {
    if (i == 0 || i + 1 == n) {
      append (ret, corners[i]);
      continue;
    }
    double before = distance (corners[i - 1], corners[i]), after = distance (corners[i], corners[i + 1]);
    double share_before = i == 1 ? before : before / 2, share_after = i + 2 == n ? after : after / 2;
    double cut = MIN (bend, 0.98 * MIN (share_before, share_after));
    if (cut > 1e-6)
      round_corner (corners[i - 1], corners[i], corners[i + 1], cut, ret);
    else
      append (ret, corners[i]);
  }
}

/* Unit normal to the left of the way from a to b. */
static ScenePoint
normal (ScenePoint a, ScenePoint b)
{
  double d = distance (a, b);
  return (ScenePoint){-(b.z - a.z) / d, (b.x - a.x) / d};
}

void
pipe_walls (const ScenePoint *centre, unsigned n, double width, GArray *ret_left, GArray *ret_right)
{
  for (unsigned i = 0; i < n; i++) {
    ScenePoint before = normal (centre[i == 0 ? 0 : i - 1], centre[i == 0 ? 1 : i]);
    ScenePoint after = normal (centre[i + 1 == n ? n - 2 : i], centre[i + 1 == n ? n - 1 : i + 1]);
    ScenePoint sum = {before.x + after.x, before.z + after.z};
    double square = sum.x * sum.x + sum.z * sum.z;
    /* The mitre; a way that turns straight back gets the plain normal. */
    double scale = square > 0.2 ? 2 / square : 0.5;
    if (square <= 0.2)
      sum = (ScenePoint){2 * before.x, 2 * before.z};
    double dx = sum.x * scale * width / 2, dz = sum.z * scale * width / 2;
    ScenePoint left = {centre[i].x + dx, centre[i].z + dz}, right = {centre[i].x - dx, centre[i].z - dz};
    g_array_append_val (ret_left, left);
    g_array_append_val (ret_right, right);
  }
}

double
path_length (const ScenePoint *points, unsigned n)
{
  double length = 0;
  for (unsigned i = 1; i < n; i++)
    length += distance (points[i - 1], points[i]);
  return length;
}

ScenePoint
path_at (const ScenePoint *points, unsigned n, double along, ScenePoint *ret_direction)
{
  for (unsigned i = 1; i < n; i++) {
    double d = distance (points[i - 1], points[i]);
    if ((along <= d || i + 1 == n) && d > 0) {
      *ret_direction = (ScenePoint){(points[i].x - points[i - 1].x) / d, (points[i].z - points[i - 1].z) / d};
      return between (points[i - 1], points[i], CLAMP (along / d, 0, 1));
    }
    along -= d;
  }
  *ret_direction = (ScenePoint){0, 1};
  return points[0];
}

void
path_piece (const ScenePoint *points, unsigned n, double from, double to, GArray *ret)
{
  ScenePoint direction;
  double at = 0;
  append (ret, path_at (points, n, from, &direction));
  for (unsigned i = 1; i + 1 < n; i++) {
    at += distance (points[i - 1], points[i]);
    if (at > from && at < to)
      append (ret, points[i]);
  }
  append (ret, path_at (points, n, to, &direction));
}
