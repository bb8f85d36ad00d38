/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the builders of a scene (scene-*.c) share: the scene being built, what is known of its water, and the calls
 * that add primitives. Builders draw from the back to the front. */
#pragma once

#include "design/choices.h"
#include "design/geometry.h"
#include "drawing/readings.h"
#include "drawing/scene.h"

#define MAX_RUN_POINTS 64

struct _Scene {
  SceneProjection projection;
  GArray *items;   /* SceneItem */
  GArray *points;  /* ScenePoint */
  GArray *handles; /* SceneHandle */
  GStringChunk *texts;
  char **keys; /* of the parts, NULL at the end */
  unsigned n_parts;
  SceneBox *boxes; /* of the parts, by scene_measure () */
  const char *level_head;
  SceneBox outline; /* dimensions and the ladder of levels stand outside of it */
};

typedef struct {
  Scene *scene;
  const Design *design;
  const Catalogue *catalogue;
  Readings readings;
  SceneOptions options;
  NumberStyle style;
} Builder;

/* Measures the parts as far as they are built, for scene_part_bounds (). */
void scene_measure (Scene *scene);

/* Builders, each for its subject; they add nothing for parts that the design does not have. What lies `behind` the tank
 * is built before it, the rest after it. */
void build_stand (Builder *b);
void build_tanks (Builder *b);
void build_overflow (Builder *b, bool behind);
void build_sump (Builder *b);
void build_devices (Builder *b);
void build_reservoir (Builder *b);
void build_runs (Builder *b, bool behind);
void build_outlets (Builder *b);
void build_dimensions (Builder *b);
void build_levels (Builder *b);
void build_findings (Builder *b);
void build_handles (Builder *b);

/* Other projections: each draws its vessels; the rest is shared. */
void build_sump_end (Builder *b);
void build_plan (Builder *b);
void build_isometric (Builder *b);
void build_view_dimensions (Builder *b);
void build_view_handles (Builder *b);
void build_fitting_handle (Builder *b, const Part *fitting); /* the same in every projection (handles.c) */
void build_size_handle (Builder *b, const Part *run);

/* Surface of water that is seen from the side, with its triangle at `share` of the width, and that after the power has
 * failed; the water under it (scene-tank.c). */
void build_water (Builder *b, int part, SceneBox in, double level);
void build_surface (Builder *b, int part, SceneBox in, double share, double running, double off);
/* A pipe that comes straight at the reader or goes away: a circle, with a dot or a cross where water moves. */
void build_end_on (Builder *b, int part, ScenePoint at, double outside_m, int toward);

/* A hang-over siphon box: what hangs behind the pane, and the tubes over the rim. */
void build_siphon_box_behind (Builder *b, const Part *overflow);
void build_siphon_tubes (Builder *b, const Part *overflow);

/* The pipe of a run; a usual size where the catalogue does not have it. */
PipeSize run_size (const Builder *b, const Part *run);

/* Index of a part in the design. */
int part_index (const Builder *b, const Part *part);

/* Numeric field of a part. */
double number_of (const Builder *b, const Part *part, FieldId field);

/* The name of a part as the whole program has it, and a shorter one (number and role of a chamber) for narrow places. Owned by the
 * scene. */
const char *part_name (Builder *b, const Part *part);
const char *short_name (Builder *b, const Part *part);

/* A length as dimensions write it: a number without symbol, in the reader's unit. Owned by the scene. */
const char *length_text (Builder *b, double metres);

/* Adders. Each returns the new item for further settings, or NULL when a coordinate is not finite; the pointer is good
 * until the next call. */
SceneItem *add_line (Builder *b, SceneRole role, SceneLayer layer, int part, const ScenePoint *points,
                     unsigned n, bool closed);
SceneItem *add_segment (Builder *b, SceneRole role, SceneLayer layer, int part, double x0, double z0,
                        double x1, double z1);
SceneItem *add_area (Builder *b, SceneRole role, SceneLayer layer, int part, SceneMaterial material,
                     const ScenePoint *points, unsigned n);
SceneItem *add_arc (Builder *b, SceneRole role, SceneLayer layer, int part, double x, double z, double radius,
                    double from, double to);
SceneItem *add_symbol (Builder *b, SceneRole role, SceneLayer layer, int part, SceneSymbol symbol, double x,
                       double z);
SceneItem *add_label (Builder *b, int part, SceneAnchor anchor, const ScenePoint *points, unsigned n,
                      const char *text, unsigned importance);
SceneItem *add_dimension (Builder *b, int part, SceneSide side, unsigned rank, double x0, double z0,
                          double x1, double z1, unsigned importance);

/* Boxes by their corners: filled, outlined, or both (a cut solid). */
SceneItem *add_box_area (Builder *b, SceneRole role, SceneLayer layer, int part, SceneMaterial material,
                         SceneBox box);
SceneItem *add_box_line (Builder *b, SceneRole role, SceneLayer layer, int part, SceneBox box);
void add_cut_box (Builder *b, int part, SceneMaterial material, SceneBox box);
/* A label of a box. The others are of a room and within (SceneAnchor). */
void add_label_box (Builder *b, int part, SceneBox box, const char *text, unsigned importance);
void add_label_room (Builder *b, int part, SceneBox box, const char *text, unsigned importance);
void add_label_within (Builder *b, int part, SceneBox box, const char *text, unsigned importance);

/* A level no higher than the rim of its vessel; NAN stays NAN. */
double level_under (double level, double rim);

/* Text kept by the scene. */
const char *keep_text (Scene *scene, const char *text);
const char *take_text (Scene *scene, char *text);

/* Points and boxes of space as they are seen (scene-project.c), and how far away: larger is farther. The box of an
 * isometric view is the smallest upright one around its picture. */
ScenePoint project (const Builder *b, Point3 point);
SceneBox seen (const Builder *b, Box3 box);
double depth_of (const Builder *b, Point3 point);
bool is_elevation (const Builder *b);

/* The front of a box in space, whatever the projection. */
SceneBox front_of (Box3 box);
bool box_is_real (SceneBox box);

/* Outline of a pipe along a centre line (pipe-shape.c): corners rounded to `bend` radius where it fits. Appends to
 * `ret_left` and `ret_right` (GArray of ScenePoint), the walls at half `width` to both sides. */
void pipe_walls (const ScenePoint *centre, unsigned n, double width, GArray *ret_left, GArray *ret_right);
/* The centre line with its corners rounded, appended to `ret`. */
void pipe_centre (const ScenePoint *corners, unsigned n, double bend, GArray *ret);
/* Point and direction (unit vector) at a distance along a polyline. */
ScenePoint path_at (const ScenePoint *points, unsigned n, double along, ScenePoint *ret_direction);
double path_length (const ScenePoint *points, unsigned n);
/* The piece of a polyline between two distances, appended to `ret`. */
void path_piece (const ScenePoint *points, unsigned n, double from, double to, GArray *ret);

/* What a run is called, and what is written beside it: flow, speed and sound; in an isometric view also its size, its
 * lengths from corner to corner, and falls (scene-annotate.c). */
const char *run_title (Builder *b, const Part *run);
void annotate_run (Builder *b, const Part *run, const ScenePoint *path, unsigned n);

/* Fittings along a run, drawn at a place with the run's direction (scene-fittings.c). */
void draw_fitting (Builder *b, int part, FittingClass class_, ScenePoint at, ScenePoint direction,
                   double outside_m, double length_m);
