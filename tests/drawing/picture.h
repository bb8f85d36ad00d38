/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pictures for pairs that must look equal. */
#pragma once

#include "drawing/painter.h"

/* Paints a scene at an offset into a fresh picture; asserts that cairo met no error. Free with cairo_surface_destroy. */
cairo_surface_t *picture_of (const Scene *scene, const DrawingView *view, PaletteKind palette, int offset);

/* Pixels of `a` that differ by more than `tolerance` in a channel from `b`, whose picture is moved by `offset`. */
unsigned picture_difference (cairo_surface_t *a, cairo_surface_t *b, int offset, int tolerance);
