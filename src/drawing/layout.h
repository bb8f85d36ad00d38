/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The layout of a view: where all that has a fixed size on screen or paper goes (dimensions, the ladder of levels, marks
 * of findings, labels with their leaders), in user units. Labels avoid each other, lines and pipes, and the least
 * important are left out where there is no room. */
#pragma once

#include "drawing/scene.h"
#include "drawing/text.h"

typedef struct {
  double x, y, width, height;
} LayoutBox;

typedef struct {
  unsigned item;    /* of the scene */
  const char *text; /* owned by the scene */
  LayoutBox box;
  double size;
  bool bold, upwards, soft; /* soft: in the quieter ink */
  SceneRole role;
} LayoutText;

/* What ends a line: nothing, or the oblique stroke of a dimension at its start (bit 1), its end (bit 2) or both. */
typedef struct {
  unsigned item;
  double x0, y0, x1, y1;
  unsigned strokes;
  SceneRole role; /* ROLE_DIMENSION, ROLE_LEVEL (leader of a rung), ROLE_LABEL (leader of a label) */
} LayoutLine;

/* A mark: the triangle of a level standing on its line, or the shape of a finding round its letter. */
typedef struct {
  unsigned item;
  SceneRole role;
  SceneSymbol symbol;
  double x, y, size; /* centre; of a level's triangle its lower tip */
} LayoutMark;

/* Where a label came to stand, so that it can stay there while something is dragged. */
typedef struct {
  int part;
  unsigned nth;         /* among the labels of its part */
  double width, height; /* of what it names */
  bool placed, folded, leader;
  double x, y, to_x,
      to_y; /* middle of its box, and the end of its leader, from the middle of what it names */
} LayoutPlace;

typedef struct {
  GArray *texts; /* LayoutText */
  GArray *lines; /* LayoutLine */
  GArray *marks; /* LayoutMark */
  GArray
      *bands; /* LayoutBox: strips along the edges of the view, under dimensions that would be out of sight */
  GArray *places;        /* LayoutPlace of every label */
  unsigned n_parts;      /* of the scene */
  unsigned n_dropped;    /* texts for which there was no room */
  GStringChunk *strings; /* texts that only a view has */
} Layout;

/* `before` is NULL, or a layout of the scene as it was a moment ago, in a view of the same scale: labels of what has kept
 * its size then stay beside it where they still fit, and only the others look for a place. */
Layout *layout_new (const Scene *scene, const DrawingView *view, TextEngine *engine, const Layout *before);
void layout_free (Layout *layout);

/* The view moved and scaled so that the scene with all its margins fits into the view's size. */
DrawingView layout_fit (const Scene *scene, const DrawingView *view, TextEngine *engine);

/* The same view at a given scale (user units a metre), with the scene in its middle. */
DrawingView layout_centre (const Scene *scene, const DrawingView *view, TextEngine *engine, double scale);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Layout, layout_free)
