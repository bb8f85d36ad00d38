/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pictures of whole drawings that golden/ keeps. A golden is drawn large enough to read and kept at a quarter of that size:
 * each pixel is the mean of a block, so that the last bit of an edge drawn by another version of cairo is nothing, and a
 * pipe that moved is not. */
#pragma once

#include "drawing/painter.h"

typedef struct {
  const char *name; /* of the file in golden/ */
  PaletteKind palette;
  SceneProjection view;
  bool three;     /* three tanks as the solver has them, else the fixture with its evaluation by hand */
  double after_s; /* since the power failed; 0 while it runs */
} GoldenPicture;

extern const GoldenPicture golden_pictures[];
extern const unsigned n_golden_pictures;

/* Draws one at its reduced size. Free with cairo_surface_destroy. */
cairo_surface_t *golden_picture_draw (const GoldenPicture *picture);
