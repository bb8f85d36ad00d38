/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A drawing of the design on a page: the scene, layout and painter of the screen at a scale of ISO 5455. */
#pragma once

#include "drawing/painter.h"

typedef struct {
  Scene *scene;
  Layout *layout;
  DrawingView view;
  unsigned scale; /* 20 for 1:20 */
} Figure;

/* The figure of a design at the largest scale of ISO 5455 (1:1, 1:2, 1:5, 1:10 and so on by tens) at which it fits into
 * width and height, points; its view has the size that it takes. `layers` as of a view. NULL only where the scene has no
 * extent. `evaluation` may be NULL. */
Figure *figure_new (const Design *design, const Catalogue *catalogue, const Evaluation *evaluation,
                    const NumberStyle *style, SceneKind kind, SceneProjection projection, unsigned layers,
                    TextEngine *engine, double width, double height);
void figure_free (Figure *figure);

/* Draws it with its upper left corner at x, y. */
void figure_draw (const Figure *figure, TextEngine *engine, cairo_t *cr, double x, double y);
