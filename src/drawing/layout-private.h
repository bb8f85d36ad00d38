/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Shared by layout.c, layout-dimensions.c, layout-levels.c and labels.c. */
#pragma once

#include "drawing/layout.h"
#include "drawing/occupancy.h"

typedef struct {
  const Scene *scene;
  const DrawingView *view;
  TextEngine *engine;
  Layout *layout;
  const Layout *before; /* NULL where every label is to look for the best place */
  Occupancy *occupancy;
  SceneBox inner;             /* of the view, less its bands; user units, y down */
  double left, right, bottom; /* between and above which labels may stand */
  double room;                /* for labels: 1 is enough, less is a crowd */
  GArray *devices;            /* SceneBox of every solid thing, user units, y down, cut to the view */
} LayoutJob;

/* Room in user units that a view needs around the outline of a scene, at any scale. */
typedef struct {
  double left, top, right, bottom;
} LayoutMargins;

LayoutMargins layout_margins (const Scene *scene, const DrawingView *view, TextEngine *engine);

void layout_bands (LayoutJob *job);
void layout_dimensions (LayoutJob *job);
void layout_levels (LayoutJob *job);
void layout_labels (LayoutJob *job);

/* Width of the ladder with its leaders, 0 when it is empty. */
double ladder_width (const Scene *scene, const DrawingView *view, TextEngine *engine);

/* Ranks in use on a side, and the place of a rank among them. */
unsigned dimension_ranks (const Scene *scene, SceneSide side, unsigned rank, unsigned *ret_place);

/* Distance from the outline to the n-th dimension line (from 0). */
double dimension_offset (const DrawingView *view, unsigned place);

/* Where the line of a dimension belongs, and whether it stands in a band instead (then where). */
double dimension_line (const LayoutJob *job, const SceneItem *item, unsigned place);
bool dimension_sticks (const LayoutJob *job, const SceneItem *item, unsigned place, double *ret_line);

/* True when a box lies within the view and in no band. */
bool layout_is_inside (const LayoutJob *job, LayoutBox box);

/* Size of the figures of dimensions and levels. Paper has no smaller text than its least: capitals of 2.5 mm. */
double layout_figure_size (const DrawingView *view);

bool item_is_shown (const DrawingView *view, const SceneItem *item);

/* 0, -1, 1, -2, 2 ...: places to try, from the middle outwards. */
int swing (int step);

bool boxes_overlap (LayoutBox a, LayoutBox b);
bool segment_meets_box (double x0, double y0, double x1, double y1, LayoutBox box);

/* The part of a box (user units) that is in sight. */
SceneBox layout_cut_to_view (const DrawingView *view, SceneBox box);

/* True when a box meets a device or pump other than `thing`: a name there would be read as the device's. */
bool layout_hits_device (const LayoutJob *job, LayoutBox box, SceneBox thing);

/* True when no text, mark or leader placed already meets the box. */
bool layout_is_free (const LayoutJob *job, LayoutBox box);

void layout_add_text (LayoutJob *job, unsigned item, const char *text, LayoutBox box, double size,
                      bool upwards, SceneRole role);
void layout_add_line (LayoutJob *job, unsigned item, double x0, double y0, double x1, double y1,
                      unsigned strokes, SceneRole role);
