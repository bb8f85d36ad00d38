/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Text: measured and drawn in one family, Inter, with tabular figures. A TextEngine keeps shaped text, so that the
 * same words cost little the second time; it belongs to one thread. */
#pragma once

#include <cairo.h>
#include <glib.h>
#include <stdbool.h>

#define DRAWING_FONT "Inter"

typedef struct _TextEngine TextEngine;

/* For paper hinting is off, so that every machine makes the same page; for a screen letters are hinted lightly. */
TextEngine *text_engine_new (bool paper);
void text_engine_free (TextEngine *engine);

/* Width of a text (lines parted by \n are centred) and height of its lines (ascent and descent), in the unit of `size`. */
void text_engine_measure (TextEngine *engine, const char *text, double size, bool bold, double *ret_width,
                          double *ret_height);

/* Draws with the current source. x and y are the top left corner of the box; with `upwards` the text runs from the
 * bottom to the top and x and y are the lower left corner. */
void text_engine_draw (TextEngine *engine, cairo_t *cr, const char *text, double x, double y, double size,
                       bool bold, bool upwards);

/* True when the family is not installed: then another is taken, and pages differ between machines. */
bool drawing_font_missing (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TextEngine, text_engine_free)
