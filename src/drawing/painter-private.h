/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Shared by painter.c, paint-notes.c, paint-overlay.c and hatch.c. */
#pragma once

#include "drawing/painter.h"

/* Hatching as small repeated pictures, made once a redraw: on a screen it would cost more than all the rest. */
typedef struct {
  cairo_pattern_t *tiles[N_SCENE_MATERIALS];
} Tiles;

typedef struct {
  cairo_t *cr;
  const Scene *scene;
  const DrawingView *view;
  const Palette *palette;
  TextEngine *engine;
  Tiles *tiles; /* NULL: hatching as lines, for paper */
} Paint;

/* The path of a line or an area, aligned with device pixels where it runs along x and z. `width` is that of the line
 * that will be drawn along it. */
void paint_path (const Paint *paint, const SceneItem *item, double width);

/* Width, colour and dashes of a role's line. */
double paint_line_style (const Paint *paint, SceneRole role);

/* A coordinate moved so that a line of `width` there covers whole device pixels. */
double paint_snap (const Paint *paint, double coordinate, double width);

/* Fills the current path with a material and clears it. */
void paint_material (const Paint *paint, SceneMaterial material);

void tiles_clear (Tiles *tiles);

/* Dimensions, levels, labels and marks. */
void paint_notes (const Paint *paint, const Layout *layout);

/* The free surface of a liquid: an open triangle standing on the level and two short lines below it. */
void paint_surface_mark (const Paint *paint, double x, double y);
