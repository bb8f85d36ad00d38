/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The scene: everything that a view of a design shows, as a list of primitives in metres. Screen, PDF, SVG, PNG and
 * print are painted from it (painter.h), picking asks it, tests compare its dump. It knows nothing of pixels: sizes of
 * text, marks and dimension offsets belong to the view that it is painted in (view.h).
 * A design lies in space (design.h); a projection makes it plane: a scene's x runs to the right and its z up. */
#pragma once

#include "design/catalogue.h"
#include "design/geometry.h"
#include "drawing/view.h"
#include "solver/evaluation.h"
#include "units/format.h"

/* What of the design is shown. */
typedef enum {
  SCENE_SYSTEM, /* stand, tank and all between */
  SCENE_SUMP,   /* the sump alone, for the one who builds it */
  SCENE_STAND,  /* the stand alone, with the outline of what stands in it */
  N_SCENE_KINDS
} SceneKind;

/* From where. Elevations and the plan are sections as drawn for building: scene x is to the right and scene z up. Where
 * views stand beside each other they are placed in first angle, in third angle for a project in US units (ISO 5456-2). */
typedef enum {
  PROJECTION_FRONT, /* from the front: x to the right, z up */
  PROJECTION_END,   /* from the right: y to the right, so the front is at the left; z up */
  PROJECTION_PLAN, /* from above, cut under the stand's top: x to the right, y up; the tank only in outline */
  PROJECTION_ISOMETRIC, /* from the front, right and above (ISO 5456-3): the pipes, vessels as thin boxes */
  N_SCENE_PROJECTIONS
} SceneProjection;

typedef enum {
  SHAPE_LINE,      /* polyline, closed or open */
  SHAPE_AREA,      /* polygon, filled with its material, not stroked */
  SHAPE_ARC,       /* part of a circle round its one point */
  SHAPE_SYMBOL,    /* a mark of fixed size at its one point */
  SHAPE_LABEL,     /* text placed per view near its anchor */
  SHAPE_LEVEL,     /* entry of the ladder of levels, from its right end to the margin on the right */
  SHAPE_DIMENSION, /* dimension between its two points, on a side outside the outline, or in place */
  N_SCENE_SHAPES
} SceneShape;

/* What a primitive is to the reader; the painter gives each its line, and picking prefers the later ones. */
#define SCENE_ROLES(X)                                                                                       \
  X (WATER, "water")                                                                                         \
  X (WATER_OFF, "water-off")                                                                                 \
  X (PIPE_WATER, "pipe-water")                                                                               \
  X (MATERIAL, "material")                                                                                   \
  X (FLOOR, "floor")                                                                                         \
  X (CUT, "cut")                                                                                             \
  X (OUTLINE, "outline")                                                                                     \
  X (THIN, "thin")                                                                                           \
  X (HIDDEN, "hidden")                                                                                       \
  X (CENTRE, "centre")                                                                                       \
  X (ALTERNATIVE, "alternative")                                                                             \
  X (SURFACE, "surface")                                                                                     \
  X (POWER_OFF, "power-off")                                                                                 \
  X (PIPE, "pipe")                                                                                           \
  X (FITTING, "fitting")                                                                                     \
  X (DEVICE, "device")                                                                                       \
  X (CHEVRON, "chevron")                                                                                     \
  X (DIMENSION, "dimension")                                                                                 \
  X (LEVEL, "level")                                                                                         \
  X (LABEL, "label")                                                                                         \
  X (FINDING, "finding")

typedef enum {
#define X(id, word) ROLE_##id,
  SCENE_ROLES (X)
#undef X
      N_SCENE_ROLES
} SceneRole;

/* How an area is filled. On paper each has its hatching after ISO 128-3; on the screen most are a flat tone. */
#define SCENE_MATERIALS(X)                                                                                   \
  X (NONE, "none")                                                                                           \
  X (BLANK, "blank")                                                                                         \
  X (GLASS, "glass")                                                                                         \
  X (PLASTIC, "plastic")                                                                                     \
  X (TIMBER, "timber")                                                                                       \
  X (WATER, "water")                                                                                         \
  X (WATER_OFF, "water-off")                                                                                 \
  X (SAND, "sand")                                                                                           \
  X (ROCK, "rock")                                                                                           \
  X (SOCK, "sock")                                                                                           \
  X (PIPE, "pipe")                                                                                           \
  X (GROUND, "ground")

typedef enum {
#define X(id, word) MATERIAL_##id,
  SCENE_MATERIALS (X)
#undef X
      N_SCENE_MATERIALS
} SceneMaterial;

#define SCENE_SYMBOLS(X)                                                                                     \
  X (SURFACE, "surface")                                                                                     \
  X (STOP, "stop")                                                                                           \
  X (CAUTION, "caution")                                                                                     \
  X (NOTE, "note")

typedef enum {
#define X(id, word) SYMBOL_##id,
  SCENE_SYMBOLS (X)
#undef X
      N_SCENE_SYMBOLS
} SceneSymbol;

/* What a label is tied to: its points are a single point, two corners of a box, or a path. Of a room the name stands inside
 * or has a leader, since what is beside it is another room; within: inside or nowhere. */
typedef enum { ANCHOR_POINT, ANCHOR_BOX, ANCHOR_ROOM, ANCHOR_WITHIN, ANCHOR_PATH } SceneAnchor;

/* Where a dimension stands: outside the outline on one side, or in place between its points. */
typedef enum { SIDE_LEFT, SIDE_BOTTOM, SIDE_TOP, SIDE_IN_PLACE } SceneSide;

typedef struct {
  double x, z;
} ScenePoint;

typedef struct {
  double x0, z0, x1, z1;
} SceneBox;

typedef struct {
  SceneShape shape;
  SceneRole role;
  SceneLayer layer;
  SceneMaterial material;
  SceneSymbol symbol;
  SceneAnchor anchor;
  SceneSide side;
  int part;            /* index of the part in the design, or -1 */
  unsigned first, n;   /* its points within the scene's */
  unsigned rank;       /* dimension: how far out, 0 is nearest to the outline */
  double least;        /* label: shown where its thing is at least this long, in sizes of text; 0 always */
  unsigned importance; /* text: the least important is left out first; 0 to 100 */
  double radius, from, to; /* arc: metres, radians */
  const char *text;        /* label, letter of a finding, name of a level */
  const char *value;       /* number of a dimension or level, already formatted */
  const char *own;         /* level: height above the part's own inside bottom, formatted, or NULL */
  bool closed;
  bool upright; /* every edge runs along x or z: the painter may align it with pixels */
} SceneItem;

typedef struct {
  SceneKind kind;
  SceneProjection projection;
  const NumberStyle *style; /* how dimensions and levels are written; copied */
  bool simple;              /* leave out what only a screen needs: centre lines of corners */
} SceneOptions;

typedef struct _Scene Scene;

/* Builds the scene of a design. `evaluation` may be NULL: then no water, flow or finding is shown, since none is known.
 * Neither is kept. Never fails; what is not finite is left out. */
Scene *scene_build (const Design *design, const Catalogue *catalogue, const Evaluation *evaluation,
                    const SceneOptions *options);
void scene_free (Scene *scene);

/* Where a point of space lies in the scene, and how it is looked at. */
ScenePoint scene_project (const Scene *scene, Point3 point);
SceneProjection scene_projection (const Scene *scene);

/* Primitives in the order of painting, their points, and the key of a part by its index ("" for -1). */
unsigned scene_n_items (const Scene *scene);
const SceneItem *scene_item (const Scene *scene, unsigned index);
const ScenePoint *scene_points (const Scene *scene, const SceneItem *item);
const char *scene_part_key (const Scene *scene, int part);
unsigned scene_n_parts (const Scene *scene);

/* Box round all that is drawn in metres (not text, marks and dimensions); the unit square when there is nothing. */
SceneBox scene_bounds (const Scene *scene);

/* What dimensions and the ladder of levels stand outside of. */
SceneBox scene_outline (const Scene *scene);

/* Head of the ladder of levels: the unit of its numbers and what they are counted from. */
const char *scene_level_head (const Scene *scene);

/* Box round the primitives of one part. False, and nothing written, when the part is not drawn. */
bool scene_part_bounds (const Scene *scene, int part, SceneBox *ret_box);

/* One line a primitive: shape, role, layer, part, material, points to 1e-6 m and texts. Independent of the locale. */
char *scene_dump (const Scene *scene);

/* The letters that mark the finding at an index of an evaluation, on the drawing and in lists: A to Z, AA to ZZ. */
void scene_finding_letters (unsigned index, char letters[4]);

/* Words of the enums for the dump and tests. */
const char *scene_role_word (SceneRole role);

/* What lies within `tolerance` user units of a place in a view, topmost first, one entry a part. */
typedef struct {
  int part;
  unsigned item;
  double distance; /* user units */
} SceneHit;

/* Writes up to `max` hits and returns how many there are in all. */
unsigned scene_pick_all (const Scene *scene, const DrawingView *view, double x, double y, double tolerance,
                         SceneHit *hits, unsigned max);

/* The part to select on a click, or -1. With `after` the part selected already, repeated clicks walk down the pile. */
int scene_pick (const Scene *scene, const DrawingView *view, double x, double y, double tolerance, int after);

/* A place that can be dragged. Moving it by d metres along an axis changes `field` of the part by gain x d; the moves of
 * one axis belong together, the first of them is the one that is rounded and said. On the wall of a pipe it is the field of
 * its size: text, a key of the catalogue, and the gain is that of the outside diameter. */
typedef enum { AXIS_X, AXIS_Z, N_SCENE_AXES } SceneAxis;

typedef struct {
  FieldId field;
  SceneAxis axis;
  double gain;
} SceneMove;

typedef struct {
  int part;
  double x, z;
  bool body;        /* moves the part as a whole */
  unsigned n_moves; /* 1 or 2 */
  SceneMove moves[2];
} SceneHandle;

/* The handles of one part, or of all parts for -1: in the order of the design. */
unsigned scene_n_handles (const Scene *scene, int part);
const SceneHandle *scene_handle (const Scene *scene, int part, unsigned n);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Scene, scene_free)
