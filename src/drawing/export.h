/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Drawings as files: the same scene and painter on cairo's PDF, SVG and image surfaces. */
#pragma once

#include "drawing/palette.h"
#include "drawing/scene.h"

#define DRAWING_ERROR (drawing_error_quark ())
GQuark drawing_error_quark (void);

typedef enum { DRAWING_ERROR_WRITE } DrawingError;

/* Writes the scene, fitted to the size. PDF and SVG: width and height in points (1/72 in). PNG: in pixels at `scale`
 * pixels for each unit of the drawing. Returns false and sets an error with one sentence when the file cannot be written. */
bool drawing_to_pdf (const Scene *scene, const Palette *palette, double width, double height,
                     const char *path, GError **error);
bool drawing_to_svg (const Scene *scene, const Palette *palette, double width, double height,
                     const char *path, GError **error);
bool drawing_to_png (const Scene *scene, const Palette *palette, int width, int height, double scale,
                     const char *path, GError **error);
