/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Which places of a view are taken by lines and pipes: a coarse grid with a table of sums, so that asking about a box
 * costs the same however much is drawn. */
#pragma once

#include "drawing/scene.h"

typedef struct _Occupancy Occupancy;

/* Of all stroked lines and pipe areas of the scene that the view shows. */
Occupancy *occupancy_new (const Scene *scene, const DrawingView *view);
void occupancy_free (Occupancy *occupancy);

/* How often a line enters something drawn. */
unsigned occupancy_crossings (const Occupancy *occupancy, double x0, double y0, double x1, double y1);

/* True when nothing is drawn in the box (user units); what lies outside the view counts as taken. */
bool occupancy_is_free (const Occupancy *occupancy, double x, double y, double width, double height);
