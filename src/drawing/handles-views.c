/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be dragged in the end elevation and in the plan: the same parts as in the front (handles.c), by the coordinates
 * that the view shows. An isometric view is for reading. */
#include "drawing/scene-private.h"

#include <math.h>

/* Along which axis of space a field moves its handle. */
typedef enum { ALONG_X, ALONG_Y, ALONG_Z } Along;

typedef struct {
  FieldId field;
  Along along;
  double gain;
} Move;

#define MOST_MOVES 3

/* A handle of the moves that the view shows; none where it shows none. Ended by a gain of 0 where fewer. */
static void
put (Builder *b, const Part *part, bool body, Point3 at, const Move moves[MOST_MOVES])
{
  const bool end = b->options.projection == PROJECTION_END;
  const ScenePoint place = project (b, at);
  SceneHandle handle = {.part = part_index (b, part), .x = place.x, .z = place.z, .body = body};
  for (SceneAxis axis = AXIS_X; axis <= AXIS_Z; axis++) {
    const Along shown = axis == AXIS_X ? (end ? ALONG_Y : ALONG_X) : end ? ALONG_Z : ALONG_Y;
    for (unsigned i = 0; i < MOST_MOVES && fabs (moves[i].gain) > 0; i++)
      if (moves[i].along == shown && handle.n_moves < G_N_ELEMENTS (handle.moves))
        handle.moves[handle.n_moves++] = (SceneMove){moves[i].field, axis, moves[i].gain};
  }
  if (handle.n_moves > 0 && isfinite (place.x) && isfinite (place.z))
    g_array_append_val (b->scene->handles, handle);
}

static void
one (Builder *b, const Part *part, Point3 at, FieldId field, Along along, double gain)
{
  put (b, part, false, at, (const Move[MOST_MOVES]){{field, along, gain}});
}

/* A point of a box, each coordinate as a share of its size. */
static Point3
in_box (Box3 box, double x, double y, double z)
{
  return (Point3){box.origin.x + x * box.size.x, box.origin.y + y * box.size.y,
                  box.origin.z + z * box.size.z};
}

/* The right end, the back and the top of a box. Gains of 2 for what grows to both sides. */
static void
far_edges (Builder *b, const Part *part, Box3 box, FieldId length, double x_gain, FieldId width,
           double y_gain, FieldId height)
{
  one (b, part, in_box (box, 1, 0.5, 0.5), length, ALONG_X, x_gain);
  one (b, part, in_box (box, 0.5, 1, 0.5), width, ALONG_Y, y_gain);
  one (b, part, in_box (box, 0.5, 0.5, 1), height, ALONG_Z, 1);
}

/* The left end and the front: the other edge stays, so the place follows the size. */
static void
left_edge (Builder *b, const Part *part, Box3 box, FieldId length, FieldId x)
{
  put (b, part, false, in_box (box, 0, 0.5, 0.5),
       (const Move[MOST_MOVES]){{length, ALONG_X, -1}, {x, ALONG_X, 1}});
}

static void
front_edge (Builder *b, const Part *part, Box3 box, FieldId width, FieldId y)
{
  put (b, part, false, in_box (box, 0.5, 0, 0.5),
       (const Move[MOST_MOVES]){{width, ALONG_Y, -1}, {y, ALONG_Y, 1}});
}

static void
stand_handles (Builder *b, const Part *stand)
{
  const Box3 box = geometry_inside (b->design, stand);
  far_edges (b, stand, box, FIELD_STAND_LENGTH, 1, FIELD_STAND_WIDTH, 1, FIELD_STAND_HEIGHT);
  one (b, stand, in_box (box, 0.5, 0.5, 0), FIELD_STAND_FLOOR, ALONG_Z, 1);
}

/* A tank stands in the middle where its place is not given, and so grows to both sides. */
static void
tank_handles (Builder *b, const Part *tank)
{
  const Box3 box = geometry_outside (b->design, tank), in = geometry_inside (b->design, tank);
  const double sand = number_of (b, tank, FIELD_TANK_SUBSTRATE);
  far_edges (b, tank, box, FIELD_TANK_LENGTH, part_is_given (tank, FIELD_TANK_X) ? 1 : 2, FIELD_TANK_WIDTH,
             part_is_given (tank, FIELD_TANK_Y) ? 1 : 2, FIELD_TANK_HEIGHT);
  left_edge (b, tank, box, FIELD_TANK_LENGTH, FIELD_TANK_X);
  front_edge (b, tank, box, FIELD_TANK_WIDTH, FIELD_TANK_Y);
  put (b, tank, true, in_box (box, 0.5, 0.5, 0),
       (const Move[MOST_MOVES]){{FIELD_TANK_X, ALONG_X, 1}, {FIELD_TANK_Y, ALONG_Y, 1}});
  one (b, tank, in_box (in, 0.5, 0.75, 1), FIELD_TANK_RIM, ALONG_Z, 1);
  one (b, tank, (Point3){in.origin.x, in.origin.y + 0.25 * in.size.y, in.origin.z + sand},
       FIELD_TANK_SUBSTRATE, ALONG_Z, 1);
}

/* Inside boxes lean on the back pane and grow to the front, those outside to the back; the inner one of two is half as wide
 * as said. */
static void
overflow_handles (Builder *b, const Part *overflow)
{
  const Box3 in = geometry_inside (b->design, overflow);
  const int kind = design_choice (b->design, overflow, FIELD_OVERFLOW_KIND);
  const bool outside = kind == OVERFLOW_OUTSIDE;
  const double share = kind == OVERFLOW_PAIR || kind == OVERFLOW_HANG_OVER ? 2 : 1;
  Point3 crest = in_box (in, 0.5, outside ? 0 : 0.5, 0);
  crest.z = geometry_crest (b->design, overflow);
  one (b, overflow, crest, FIELD_OVERFLOW_CREST, ALONG_Z, 1);
  one (b, overflow, in_box (in, 0.5, 0.5, 0), FIELD_OVERFLOW_BOX_DEPTH, ALONG_Z, -1);
  one (b, overflow, in_box (in, 0.5, outside ? 1 : 0, 0.5), FIELD_OVERFLOW_BOX_WIDTH, ALONG_Y,
       outside ? 1 : -share);
  one (b, overflow, in_box (in, 1, 0.5, 0.5), FIELD_OVERFLOW_BOX_LENGTH, ALONG_X,
       part_is_given (overflow, FIELD_OVERFLOW_X) ? 1 : 2);
  left_edge (b, overflow, in, FIELD_OVERFLOW_BOX_LENGTH, FIELD_OVERFLOW_X);
  put (b, overflow, true, in_box (in, 0.5, 0.5, 0.5),
       (const Move[MOST_MOVES]){{FIELD_OVERFLOW_X, ALONG_X, 1}});
}

static void
drain_handles (Builder *b, const Part *drain)
{
  Point3 points[MAX_RUN_POINTS];
  const unsigned n = MIN (geometry_run (b->design, drain, points, MAX_RUN_POINTS), MAX_RUN_POINTS);
  if (n < 2)
    return;
  put (b, drain, true, points[0],
       (const Move[MOST_MOVES]){
           {FIELD_DRAIN_X, ALONG_X, 1}, {FIELD_DRAIN_Y, ALONG_Y, 1}, {FIELD_DRAIN_MOUTH, ALONG_Z, 1}});
  one (b, drain, points[n - 1], FIELD_DRAIN_END, ALONG_Z, 1);
}

static void
sump_handles (Builder *b, const Part *sump)
{
  const Box3 box = geometry_outside (b->design, sump);
  far_edges (b, sump, box, FIELD_SUMP_LENGTH, 1, FIELD_SUMP_WIDTH, 1, FIELD_SUMP_HEIGHT);
  left_edge (b, sump, box, FIELD_SUMP_LENGTH, FIELD_SUMP_X);
  front_edge (b, sump, box, FIELD_SUMP_WIDTH, FIELD_SUMP_Y);
  put (b, sump, true, in_box (box, 0.5, 0.5, 0),
       (const Move[MOST_MOVES]){{FIELD_SUMP_X, ALONG_X, 1}, {FIELD_SUMP_Y, ALONG_Y, 1}});
}

static void
chamber_handles (Builder *b, const Part *chamber)
{
  const Box3 in = geometry_inside (b->design, chamber);
  Point3 at = in_box (in, 0.5, 0.75, 0);
  at.z += number_of (b, chamber, FIELD_CHAMBER_LEVEL);
  if (design_choice (b->design, chamber, FIELD_CHAMBER_ROLE) == CHAMBER_RETURN)
    one (b, chamber, at, FIELD_CHAMBER_LEVEL, ALONG_Z, 1);
}

static void
baffle_handles (Builder *b, const Part *baffle)
{
  const Box3 box = geometry_outside (b->design, baffle);
  put (b, baffle, false, in_box (box, 0.5, 0.5, 1),
       (const Move[MOST_MOVES]){{FIELD_BAFFLE_X, ALONG_X, 1}, {FIELD_BAFFLE_HEIGHT, ALONG_Z, 1}});
  one (b, baffle, in_box (box, 0.5, 0.5, 0), FIELD_BAFFLE_GAP, ALONG_Z, 1);
}

/* Devices and pumps stand in the middle between front and back. */
static void
device_handles (Builder *b, const Part *device)
{
  const Box3 box = geometry_outside (b->design, device);
  put (b, device, true, in_box (box, 0.5, 0.5, 0),
       (const Move[MOST_MOVES]){{FIELD_DEVICE_X, ALONG_X, 1}, {FIELD_DEVICE_STANDS, ALONG_Z, 1}});
  far_edges (b, device, box, FIELD_DEVICE_LENGTH, part_is_given (device, FIELD_DEVICE_X) ? 1 : 2,
             FIELD_DEVICE_WIDTH, 2, FIELD_DEVICE_HEIGHT);
}

static void
pump_handles (Builder *b, const Part *pump)
{
  const Box3 box = geometry_outside (b->design, pump);
  const Part *sump = design_nth (b->design, PART_SUMP, 0);
  Point3 suction = in_box (box, 0.5, 0.5, 0);
  put (b, pump, true, in_box (box, 0.5, 0.5, 0.5), (const Move[MOST_MOVES]){{FIELD_PUMP_X, ALONG_X, 1}});
  suction.z = sump != NULL ? geometry_inside (b->design, sump).origin.z : suction.z;
  suction.z += number_of (b, pump, FIELD_PUMP_SUCTION);
  one (b, pump, suction, FIELD_PUMP_SUCTION, ALONG_Z, 1);
}

static void
outlet_handles (Builder *b, const Part *outlet)
{
  Point3 at = geometry_outside (b->design, outlet).origin;
  put (b, outlet, true, at,
       (const Move[MOST_MOVES]){
           {FIELD_OUTLET_X, ALONG_X, 1}, {FIELD_OUTLET_Y, ALONG_Y, 1}, {FIELD_OUTLET_HEIGHT, ALONG_Z, 1}});
  at.z = geometry_break (b->design, outlet);
  if (design_choice (b->design, outlet, FIELD_OUTLET_BREAK) != 0)
    one (b, outlet, at, FIELD_OUTLET_BREAK_HEIGHT, ALONG_Z, 1);
}

static void
reservoir_handles (Builder *b, const Part *reservoir)
{
  const Box3 box = geometry_outside (b->design, reservoir);
  far_edges (b, reservoir, box, FIELD_RESERVOIR_LENGTH, 1, FIELD_RESERVOIR_WIDTH, 1, FIELD_RESERVOIR_HEIGHT);
  left_edge (b, reservoir, box, FIELD_RESERVOIR_LENGTH, FIELD_RESERVOIR_X);
  put (b, reservoir, true, in_box (box, 0.5, 0.5, 0),
       (const Move[MOST_MOVES]){{FIELD_RESERVOIR_X, ALONG_X, 1}});
}

static void
point_handle (Builder *b, const Part *part, FieldId x, FieldId y, FieldId z)
{
  put (b, part, true, geometry_outside (b->design, part).origin,
       (const Move[MOST_MOVES]){{x, ALONG_X, 1}, {y, ALONG_Y, 1}, {z, ALONG_Z, 1}});
}

static void
part_handles (Builder *b, const Part *part)
{
  static const struct {
    PartKind kind;
    void (*add) (Builder *b, const Part *part);
  } rows[] = {{PART_STAND, stand_handles},         {PART_TANK, tank_handles},
              {PART_OVERFLOW, overflow_handles},   {PART_DRAIN, drain_handles},
              {PART_SUMP, sump_handles},           {PART_CHAMBER, chamber_handles},
              {PART_BAFFLE, baffle_handles},       {PART_DEVICE, device_handles},
              {PART_PUMP, pump_handles},           {PART_OUTLET, outlet_handles},
              {PART_RESERVOIR, reservoir_handles}, {PART_FITTING, build_fitting_handle}};
  if (part_kind (part) == PART_TEE)
    point_handle (b, part, FIELD_TEE_X, FIELD_TEE_Y, FIELD_TEE_Z);
  else if (part_kind (part) == PART_CORNER)
    point_handle (b, part, FIELD_CORNER_X, FIELD_CORNER_Y, FIELD_CORNER_Z);
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    if (part_kind (part) == rows[i].kind)
      rows[i].add (b, part);
}

void
build_view_handles (Builder *b)
{
  if (b->options.projection == PROJECTION_ISOMETRIC)
    return;
  for (unsigned i = 0; i < design_n_parts (b->design); i++) {
    const Part *part = design_part (b->design, i);
    part_handles (b, part);
    if (part_kind (part) == PART_DRAIN || part_kind (part) == PART_RETURN)
      build_size_handle (b, part);
  }
}
