/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The one step from space to the plane of a drawing. */
#include "drawing/scene-private.h"

#include <math.h>

SceneProjection
scene_projection (const Scene *scene)
{
  return scene->projection;
}

ScenePoint
scene_project (const Scene *scene, Point3 point)
{
  switch (scene->projection) {
  case PROJECTION_END:
    return (ScenePoint){point.y, point.z};
  case PROJECTION_PLAN:
    return (ScenePoint){point.x, point.y};
  case PROJECTION_ISOMETRIC:
    /* ISO 5456-3: the three axes 120 degrees apart, lengths along them true. */
    return (ScenePoint){(point.x + point.y) * sqrt (0.75), point.z + (point.y - point.x) / 2};
  case PROJECTION_FRONT:
  case N_SCENE_PROJECTIONS:
    break;
  }
  return (ScenePoint){point.x, point.z};
}

ScenePoint
project (const Builder *b, Point3 point)
{
  return scene_project (b->scene, point);
}

double
depth_of (const Builder *b, Point3 point)
{
  switch (b->options.projection) {
  case PROJECTION_END:
    return -point.x;
  case PROJECTION_PLAN:
    return -point.z;
  case PROJECTION_ISOMETRIC:
    return (point.y - point.x - point.z) / sqrt (3);
  case PROJECTION_FRONT:
  case N_SCENE_PROJECTIONS:
    break;
  }
  return point.y;
}

SceneBox
seen (const Builder *b, Box3 box)
{
  Point3 from = box.origin, to = {from.x + box.size.x, from.y + box.size.y, from.z + box.size.z};
  ScenePoint low = project (b, from), high = project (b, to);
  if (b->options.projection == PROJECTION_ISOMETRIC) {
    low = (ScenePoint){project (b, from).x, project (b, (Point3){to.x, from.y, from.z}).z};
    high = (ScenePoint){project (b, to).x, project (b, (Point3){from.x, to.y, to.z}).z};
  }
  return (SceneBox){low.x, low.z, high.x, high.z};
}

bool
is_elevation (const Builder *b)
{
  return b->options.projection == PROJECTION_FRONT || b->options.projection == PROJECTION_END;
}

SceneBox
front_of (Box3 box)
{
  return (SceneBox){box.origin.x, box.origin.z, box.origin.x + box.size.x, box.origin.z + box.size.z};
}
