/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A part on the canvas, for keyboard and screen reader: a list item with name, description, state "selected" and the
 * actions part.select and part.edit. It draws nothing but its focus mark (style sheet, node "part"); where it is hit is
 * asked of the scene, so pointer, touch and reader agree with the drawing. */
#pragma once

#include "app/canvas/canvas.h"

#define DOWNCOMER_TYPE_CANVAS_PART (canvas_part_get_type ())
G_DECLARE_FINAL_TYPE (CanvasPart, canvas_part, DOWNCOMER, CANVAS_PART, GtkWidget)

GtkWidget *canvas_part_new (Canvas *canvas, const char *key);
const char *canvas_part_get_key (CanvasPart *part);

/* The index of the part in the design that is shown. */
int canvas_part_get_index (CanvasPart *part);
void canvas_part_set_index (CanvasPart *part, int index);

/* Tells the reader only what changed. */
void canvas_part_tell (CanvasPart *part, const char *label, const char *description);
void canvas_part_set_selected (CanvasPart *part, gboolean selected);

/* Gives the part its place on the canvas, in logical pixels. */
void canvas_part_place (CanvasPart *part, double x, double y, double width, double height);
