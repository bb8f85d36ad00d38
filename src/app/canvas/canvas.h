/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The drawing in a window: shows a document's design and evaluation, and is where parts are chosen and dragged. It is as
 * large as its window lets it be and pans and zooms itself. Each part that a person would name is a child (canvas-part.h)
 * for keyboard and screen reader. Signal "edit-part" (key): the person wants to type values of that part. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/common/selection.h"
#include "app/common/theme.h"
#include "drawing/scene.h"

#define DOWNCOMER_TYPE_CANVAS (canvas_get_type ())
G_DECLARE_FINAL_TYPE (Canvas, canvas, DOWNCOMER, CANVAS, GtkWidget)

/* Shows a document in the colours of a theme; selection is shared with the other views. All three are kept. */
void canvas_set_model (Canvas *canvas, Document *document, Selection *selection, Theme *theme);

/* From where the design is looked at; the front at first. Zoom and place of each projection are remembered. */
void canvas_set_projection (Canvas *canvas, SceneProjection projection);
SceneProjection canvas_get_projection (Canvas *canvas);

/* The whole drawing in the room there is, also after the room changes, until it is zoomed or panned. */
void canvas_fit (Canvas *canvas);

/* Zooms by a factor (> 0) about the middle. */
void canvas_zoom (Canvas *canvas, double factor);

/* Shows or hides a layer of the drawing. */
void canvas_show_layer (Canvas *canvas, SceneLayer layer, gboolean shown);
