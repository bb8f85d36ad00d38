/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a dragged value snaps to: a grid that can be built, edges of other parts, and their levels. Metres. */
#pragma once

#include <glib.h>

#include "app/canvas/canvas-moves.h"

/* Coordinates along an axis that a part may be brought in line with: edges, middles and handles of parts that the moves
 * (GArray of CanvasMove) do not take along.
 * Array of double; free with g_array_unref. */
GArray *canvas_snap_targets (const Scene *scene, const Design *design, const GArray *moves, SceneAxis axis);

/* What is brought in line along an axis when a handle is dragged, as distances from it: the handle itself, and where it moves
 * a part with edges as a whole its two edges and its middle. Array of double; free with g_array_unref. */
GArray *canvas_snap_edges (const Scene *scene, const Design *design, const SceneHandle *handle,
                           SceneAxis axis);

/* Of all edges of a handle the one nearest to a target within the reach of canvas_snap_find: by how much the handle has to
 * go further for it, and the target. FALSE, and nothing written, where there is none. */
gboolean canvas_snap_nearest (const GArray *targets, const GArray *edges, double coordinate, double scale,
                              double *ret_further, double *ret_target);

/* The nearest target within 6 logical pixels of a coordinate at a scale (pixels a metre). FALSE, and nothing written,
 * where there is none. */
gboolean canvas_snap_find (const GArray *targets, double coordinate, double scale, double *ret_target);

/* The grid at a scale: 5 mm or 1/4 in seen from afar, 1 mm or 1/16 in where a pixel is about a millimetre. */
double canvas_snap_grid (const NumberStyle *style, double scale);

/* A value on the grid, or with grid 0 to a tenth of a millimetre. */
double canvas_snap_round (double value, double grid);

/* One step (1 mm or 1/16 in), or with `far` ten steps (10 mm) or half an inch, up or down by the sign of `direction`. */
double canvas_snap_step (double value, const NumberStyle *style, int direction, gboolean far);
