/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The view: how metres of a scene become user units of a cairo context (logical pixels on a screen, points on paper).
 * Nothing else multiplies by the scale. */
#pragma once

#include <stdbool.h>

/* Groups of primitives that can be shown or hidden. */
#define SCENE_LAYERS(X)                                                                                      \
  X (BODY, "body")                                                                                           \
  X (WATER, "water")                                                                                         \
  X (DEVICES, "devices")                                                                                     \
  X (FLOW, "flow")                                                                                           \
  X (POWER_OFF, "power-off")                                                                                 \
  X (LEVELS, "levels")                                                                                       \
  X (DIMENSIONS, "dimensions")                                                                               \
  X (LABELS, "labels")                                                                                       \
  X (FINDINGS, "findings")

typedef enum {
#define X(id, word) LAYER_##id,
  SCENE_LAYERS (X)
#undef X
      N_SCENE_LAYERS
} SceneLayer;

#define LAYER_BIT(layer) (1u << (layer))
#define ALL_LAYERS       ((1u << N_SCENE_LAYERS) - 1u)

typedef struct {
  double origin_x, origin_y; /* user units of the scene's x = 0, z = 0; y runs down */
  double scale;              /* user units per metre */
  double width, height;      /* room for the drawing, user units, from 0, 0 */
  double text;               /* size of ordinary text, user units */
  double line;               /* width of a wide line, user units; a narrow one is half of it */
  double device_scale;       /* device pixels per user unit, for alignment; 0 for none (paper) */
  unsigned layers;           /* bits of the layers shown */
  bool quick;                /* coarser edges, for a drawing in motion */
} DrawingView;

/* A view of a screen (text and lines in logical pixels) or of paper (points), at origin 0 and scale 1. */
DrawingView drawing_view_screen (double width, double height, double device_scale);
DrawingView drawing_view_paper (double width, double height);

double view_x (const DrawingView *view, double x_m);
double view_y (const DrawingView *view, double z_m);
double view_to_x (const DrawingView *view, double x);
double view_to_z (const DrawingView *view, double y);
bool view_shows (const DrawingView *view, SceneLayer layer);

/* The view zoomed by `factor` about a fixed place, the scale kept within 5 and 100,000 units a metre. */
DrawingView drawing_view_zoom (const DrawingView *view, double x, double y, double factor);
