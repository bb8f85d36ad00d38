/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Colours of a drawing. Every colour that carries text or a line that must be read keeps 4.5 : 1 on the sheet and on the
 * water (WCAG 2.1, contrast ratio); `hair` carries no information. */
#pragma once

#include <cairo.h>
#include <stdbool.h>

typedef struct {
  double red, green, blue;
} Color;

#define N_CURVE_COLORS 8

typedef struct {
  Color ground, sheet;    /* around the sheet; where the drawing lies */
  Color ink, soft, hair;  /* outlines and names; dimensions and quiet text; grid and hatching */
  Color water, water_off; /* tints */
  Color surface;          /* surface lines and chevrons */
  Color selected;
  Color stop, caution, note, sound;
  Color sand, rock, solid; /* fills of materials on a screen */
  Color curves[N_CURVE_COLORS];
  bool hatched; /* materials by their hatching alone, for print */
} Palette;

typedef enum { PALETTE_LIGHT, PALETTE_DARK, PALETTE_HIGH_CONTRAST, PALETTE_PAPER, N_PALETTES } PaletteKind;

/* One of the palettes of the program; never NULL, and constant. High contrast is black on white for a light ground. */
const Palette *palette_get (PaletteKind kind);

/* Contrast ratio of two colours, 1 to 21 (WCAG 2.1, definitions of contrast ratio and relative luminance). */
double color_contrast (Color a, Color b);

void color_set (cairo_t *cr, Color color);
