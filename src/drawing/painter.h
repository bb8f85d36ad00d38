/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The painter: draws a scene in a view to any cairo context; screen, PDF, SVG, PNG and print all come through here.
 * The base is what a canvas may keep while nothing changes; the overlay (selection, hover, handles, live numbers) is
 * drawn over it at every pointer motion. */
#pragma once

#include "drawing/layout.h"
#include "drawing/palette.h"

/* Draws the sheet's colour over the whole view, then the scene. `layout` is that of the same scene and view. */
void painter_draw_base (cairo_t *cr, const Scene *scene, const Layout *layout, const DrawingView *view,
                        const Palette *palette, TextEngine *engine);

/* The same without filling the ground: for a drawing among others on a page. */
void painter_draw (cairo_t *cr, const Scene *scene, const Layout *layout, const DrawingView *view,
                   const Palette *palette, TextEngine *engine);

/* A line across the view at a place that something snapped to. */
typedef struct {
  SceneAxis axis; /* AXIS_X: an upright line at x; AXIS_Z: a level one at z */
  double at;      /* metres */
} PainterGuide;

typedef struct {
  int selected, hovered; /* parts, or -1 */
  bool bare;             /* the selected part without its handles */
  int dragged;           /* handle in hand among those of the selected part, or -1 */
  unsigned n_guides;
  const PainterGuide *guides;
  const char *live;      /* number beside the pointer while dragging, or NULL */
  double live_x, live_y; /* user units */
} PainterOverlay;

void painter_draw_overlay (cairo_t *cr, const Scene *scene, const DrawingView *view, const Palette *palette,
                           TextEngine *engine, const PainterOverlay *overlay);
