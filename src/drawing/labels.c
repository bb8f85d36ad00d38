/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Places labels and marks of findings, the most important first: inside the thing that they name where it is clear, else
 * beside it, else farther off with a leader that crosses as little as possible. What finds no room is left out; nothing
 * ever overlaps. */
#include "drawing/layout-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A label that costs more than this is better left out: it would stand too far off, or its leader cross too much. */
#define DEAREST_LABEL 20.0
#define DEAREST_SMALL 6.5 /* of a small thing */
/* Below so much room a label, in squares of the text's size, what is not a main thing must stand nearer to be named. */
#define ROOM_A_LABEL              100.0
#define MAIN_THING                80 /* importance */
#define COST_A_CROSSING           2.5
#define COST_OF_CROSSING_A_LEADER 10.0
#define COST_OF_FOLDING           0.8 /* into two lines */

typedef struct {
  unsigned index, nth; /* item, and which one of the labels of its part */
  const SceneItem *item;
  const char *text;
  double size, width, height; /* of the text or mark */
  double pad;
  SceneBox thing; /* what it names, in user units, y down: x0 <= x1, z0 <= z1; cut to the view */
  double hug;     /* distance from the thing's edge that needs no leader */
} Label;

typedef struct {
  LayoutBox box;
  bool leader;
  double from_x, from_y, to_x, to_y;
  double cost;
} Place;

static bool
fits (const LayoutJob *job, const Label *l, LayoutBox box)
{
  LayoutBox padded = {box.x - l->pad, box.y - l->pad / 2, box.width + 2 * l->pad, box.height + l->pad};
  return padded.x >= job->left && padded.x + padded.width <= job->right &&
         padded.y + padded.height <= job->bottom &&
         occupancy_is_free (job->occupancy, padded.x, padded.y, padded.width, padded.height) &&
         layout_is_free (job, padded) && !layout_hits_device (job, padded, l->thing);
}

static void
put (LayoutJob *job, const Label *l, const Place *place)
{
  LayoutBox box = place->box;
  if (place->leader)
    layout_add_line (job, l->index, place->from_x, place->from_y, place->to_x, place->to_y, false,
                     ROLE_LABEL);
  if (l->item->role != ROLE_FINDING) {
    layout_add_text (job, l->index, l->text, box, l->size, false, ROLE_LABEL);
    return;
  }
  LayoutMark mark = {l->index,  ROLE_FINDING, l->item->symbol, box.x + box.height / 2, box.y + box.height / 2,
                     box.height};
  g_array_append_val (job->layout->marks, mark);
  if (l->item->value != NULL) {
    double width, height, size = 0.8 * job->view->text;
    text_engine_measure (job->engine, l->item->value, size, true, &width, &height);
    LayoutBox beside = {box.x + box.width - width, box.y + (box.height - height) / 2, width, height};
    layout_add_text (job, l->index, l->item->value, beside, size, false, ROLE_FINDING);
  }
}

/* Whether two segments cross. */
static bool
segments_cross (const Place *a, const LayoutLine *b)
{
  double ax = a->to_x - a->from_x, ay = a->to_y - a->from_y, bx = b->x1 - b->x0, by = b->y1 - b->y0;
  double d = ax * by - ay * bx, cx = b->x0 - a->from_x, cy = b->y0 - a->from_y;
  if (fabs (d) < 1e-9)
    return false;
  double t = (cx * by - cy * bx) / d, u = (cx * ay - cy * ax) / d;
  return t >= 0 && t <= 1 && u >= 0 && u <= 1;
}

/* Leaders that cross lead the eye to the wrong thing. */
static bool
crosses_leader (const LayoutJob *job, const Place *place)
{
  for (unsigned i = 0; i < job->layout->lines->len; i++) {
    const LayoutLine *line = &g_array_index (job->layout->lines, LayoutLine, i);
    if (line->role == ROLE_LABEL && segments_cross (place, line))
      return true;
  }
  return false;
}

/* A leader goes from the label to the nearest point of what it names, and never over another text. */
static bool
lead (const LayoutJob *job, const Label *l, Place *place)
{
  LayoutBox box = place->box;
  double from_x = CLAMP (place->to_x, box.x, box.x + box.width);
  double from_y = CLAMP (place->to_y, box.y, box.y + box.height);
  /* From the middle of the near side: a leader that starts at a letter's edge looks like part of it. */
  if (from_x <= box.x || from_x >= box.x + box.width)
    from_y = box.y + box.height / 2;
  double gap = 0.25 * job->view->text, d = hypot (place->to_x - from_x, place->to_y - from_y);
  if (d < 2 * gap)
    return false;
  /* A dot on a device would name the device. */
  LayoutBox dot = {place->to_x - 1, place->to_y - 1, 2, 2};
  if (layout_hits_device (job, dot, l->thing))
    return false;
  place->leader = true;
  place->from_x = from_x + gap * (place->to_x - from_x) / d;
  place->from_y = from_y + gap * (place->to_y - from_y) / d;
  for (unsigned i = 0; i < job->layout->texts->len; i++)
    if (segment_meets_box (place->from_x, place->from_y, place->to_x, place->to_y,
                           g_array_index (job->layout->texts, LayoutText, i).box))
      return false;
  if (crosses_leader (job, place)) {
    if (l->item->role != ROLE_FINDING) /* a name may be left out, a finding may not */
      return false;
    place->cost += COST_OF_CROSSING_A_LEADER;
  }
  unsigned crossings =
      occupancy_crossings (job->occupancy, place->from_x, place->from_y, place->to_x, place->to_y);
  place->cost += COST_A_CROSSING * (crossings > 1 ? crossings - 1 : 0);
  return true;
}

/* Takes a place into account: `at_x`, `at_y` is the label's middle; with a leader to `to` when it is not NULL. */
static void
consider (const LayoutJob *job, const Label *l, double at_x, double at_y, const ScenePoint *to, double cost,
          Place *best)
{
  Place place = {.box = {at_x - l->width / 2, at_y - l->height / 2, l->width, l->height}, .cost = cost};
  if (cost >= best->cost || !fits (job, l, place.box))
    return;
  if (to != NULL) {
    place.to_x = to->x;
    place.to_y = to->z;
    if (!lead (job, l, &place) || place.cost >= best->cost)
      return;
  }
  *best = place;
}

static void
consider_inside (const LayoutJob *job, const Label *l, Place *best)
{
  double room_x = l->thing.x1 - l->thing.x0 - l->width - 2 * l->pad;
  double room_y = l->thing.z1 - l->thing.z0 - l->height - l->pad;
  if (room_x < 0 || room_y < 0)
    return;
  double x = (l->thing.x0 + l->thing.x1) / 2, y = (l->thing.z0 + l->thing.z1) / 2;
  for (int i = 0; i <= 10; i++)
    for (int k = 0; k <= 10; k++) {
      /* 0, -0.1, 0.1, -0.2 ... of the room each way, from the middle. */
      double share_x = swing (i) * 0.1, share_y = swing (k) * 0.1;
      consider (job, l, x + share_x * room_x, y + share_y * room_y, NULL, fabs (share_x) + fabs (share_y),
                best);
    }
}

static void
consider_around (const LayoutJob *job, const Label *l, Place *best)
{
  static const double directions[][2] = {{1, 0},    {-1, 0},    {0, -1},   {0, 1},     {1, -1},  {-1, -1},
                                         {1, 1},    {-1, 1},    {1, -0.5}, {-1, -0.5}, {1, 0.5}, {-1, 0.5},
                                         {0.5, -1}, {-0.5, -1}, {0.5, 1},  {-0.5, 1}};
  static const double rings[] = {0, 0.9, 1.8, 3, 4.5, 6, 8};
  double x = (l->thing.x0 + l->thing.x1) / 2, y = (l->thing.z0 + l->thing.z1) / 2;
  double half_x = (l->thing.x1 - l->thing.x0 + l->width) / 2,
         half_y = (l->thing.z1 - l->thing.z0 + l->height) / 2;
  for (unsigned r = l->item->anchor == ANCHOR_ROOM ? 1 : 0;
       r < G_N_ELEMENTS (rings) && 1.1 + rings[r] < best->cost; r++)
    for (unsigned i = 0; i < G_N_ELEMENTS (directions); i++) {
      double far = l->hug + rings[r] * job->view->text;
      double at_x = x + directions[i][0] * (half_x + far), at_y = y + directions[i][1] * (half_y + far);
      /* A little into the thing, so that the leader's dot lies on it. */
      double in_x = MIN (0.4 * job->view->text, (l->thing.x1 - l->thing.x0) / 3);
      double in_y = MIN (0.4 * job->view->text, (l->thing.z1 - l->thing.z0) / 3);
      ScenePoint to = {CLAMP (at_x, l->thing.x0 + in_x, l->thing.x1 - in_x),
                       CLAMP (at_y, l->thing.z0 + in_y, l->thing.z1 - in_y)};
      consider (job, l, at_x, at_y, r == 0 ? NULL : &to, 1.1 + rings[r] + 0.02 * i, best);
    }
}

/* Beside the pieces of a path, the longer ones first. */
static void
consider_along (const LayoutJob *job, const Label *l, Place *best)
{
  const ScenePoint *p = scene_points (job->scene, l->item);
  static const double rings[] = {0, 1, 2.2, 4, 6, 8, 10, 12};
  for (unsigned i = 1; i < l->item->n; i++) {
    double x0 = view_x (job->view, p[i - 1].x), y0 = view_y (job->view, p[i - 1].z);
    double x1 = view_x (job->view, p[i].x), y1 = view_y (job->view, p[i].z), d = hypot (x1 - x0, y1 - y0);
    if (d < 3 * job->view->text)
      continue;
    for (unsigned r = 0; r < G_N_ELEMENTS (rings); r++)
      for (int step = 0; step <= 16; step++)
        for (int side = 1; side >= -1; side -= 2) {
          double share = 0.5 + swing (step) * 0.055;
          ScenePoint on = {x0 + share * (x1 - x0), y0 + share * (y1 - y0)};
          double across_x = side * (y1 - y0) / d, across_y = -side * (x1 - x0) / d;
          double far = l->hug + fabs (across_x) * l->width / 2 + fabs (across_y) * l->height / 2 +
                       rings[r] * job->view->text;
          double cost =
              1.2 * rings[r] + fabs (share - 0.5) + 40 * job->view->text / (d + 40 * job->view->text);
          consider (job, l, on.x + across_x * far, on.z + across_y * far, r == 0 ? NULL : &on, cost, best);
        }
  }
}

/* Half the drawn width of the run that a path names, so that its label clears the walls. */
static double
half_width (const LayoutJob *job, const SceneItem *item)
{
  for (unsigned i = 0; i < scene_n_items (job->scene); i++) {
    const SceneItem *other = scene_item (job->scene, i);
    if (other->part == item->part && other->shape == SHAPE_AREA && other->role == ROLE_PIPE &&
        other->n >= 4) {
      const ScenePoint *p = scene_points (job->scene, other);
      return hypot (p[0].x - p[other->n - 1].x, p[0].z - p[other->n - 1].z) / 2 * job->view->scale;
    }
  }
  return 0;
}

static bool
measure_thing (LayoutJob *job, Label *l)
{
  const ScenePoint *p = scene_points (job->scene, l->item);
  SceneBox box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
  for (unsigned i = 0; i < l->item->n; i++) {
    double x = view_x (job->view, p[i].x), y = view_y (job->view, p[i].z);
    box = (SceneBox){MIN (box.x0, x), MIN (box.z0, y), MAX (box.x1, x), MAX (box.z1, y)};
  }
  if (MAX (box.x1 - box.x0, box.z1 - box.z0) < l->item->least * job->view->text)
    return false;
  if (box.x1 < 0 || box.z1 < 0 || box.x0 > job->view->width || box.z0 > job->view->height)
    return false;
  l->thing = layout_cut_to_view (job->view, box);
  return true;
}

static void
consider_all (const LayoutJob *job, const Label *l, Place *best)
{
  if (l->item->anchor == ANCHOR_PATH && l->item->n > 1) {
    consider_along (job, l, best);
    return;
  }
  consider_inside (job, l, best);
  if (l->item->anchor != ANCHOR_WITHIN)
    consider_around (job, l, best);
}

/* Breaks a name at the space nearest to its middle; false for a short one, or one without a space. */
static bool
fold (LayoutJob *job, Label *l)
{
  long length = g_utf8_strlen (l->text, -1), best = length;
  const char *at = NULL;
  for (const char *p = strchr (l->text, ' '); p != NULL; p = strchr (p + 1, ' ')) {
    long off = labs (2 * g_utf8_pointer_to_offset (l->text, p) - length);
    if (off < best) {
      best = off;
      at = p;
    }
  }
  if (at == NULL || length < 9)
    return false;
  g_autofree char *folded = g_strdup (l->text);
  folded[at - l->text] = '\n';
  l->text = g_string_chunk_insert (job->layout->strings, folded);
  text_engine_measure (job->engine, l->text, l->size, false, &l->width, &l->height);
  return true;
}

/* Size of a label or mark, and what it keeps clear of. */
static Label
label_of (LayoutJob *job, unsigned index, const SceneItem *item)
{
  double text = job->view->text;
  Label l = {
      .index = index, .item = item, .text = item->text, .size = text, .pad = 0.3 * text, .hug = 0.5 * text};
  if (item->role == ROLE_FINDING) {
    double width = 0, height;
    if (item->value != NULL)
      text_engine_measure (job->engine, item->value, 0.8 * text, true, &width, &height);
    l.height = 1.5 * text;
    l.width = l.height + (width > 0 ? width + 0.2 * text : 0);
    l.pad = 0.1 * text;
    l.hug = 0.45 * text;
  } else {
    text_engine_measure (job->engine, l.text, l.size, false, &l.width, &l.height);
  }
  return l;
}

/* Notes where a label came to stand; NULL where it found no room. */
static void
keep (LayoutJob *job, const Label *l, const Place *place, bool folded)
{
  double x = (l->thing.x0 + l->thing.x1) / 2, y = (l->thing.z0 + l->thing.z1) / 2;
  LayoutPlace kept = {.part = l->item->part,
                      .nth = l->nth,
                      .width = l->thing.x1 - l->thing.x0,
                      .height = l->thing.z1 - l->thing.z0,
                      .placed = place != NULL,
                      .folded = folded};
  if (place != NULL) {
    kept.leader = place->leader;
    kept.x = place->box.x + place->box.width / 2 - x;
    kept.y = place->box.y + place->box.height / 2 - y;
    kept.to_x = place->to_x - x;
    kept.to_y = place->to_y - y;
  }
  g_array_append_val (job->layout->places, kept);
}

/* Leaves a label where it was, or out where it was out. False where it has to look for a place. */
static bool
stay (LayoutJob *job, const Label *label)
{
  const LayoutPlace *was = NULL;
  for (unsigned i = 0; job->before != NULL && was == NULL && i < job->before->places->len; i++) {
    const LayoutPlace *place = &g_array_index (job->before->places, LayoutPlace, i);
    if (place->part == label->item->part && place->nth == label->nth)
      was = place;
  }
  Label l = *label;
  if (was == NULL || fabs (was->width - (l.thing.x1 - l.thing.x0)) > 0.5 ||
      fabs (was->height - (l.thing.z1 - l.thing.z0)) > 0.5 || (was->folded && !fold (job, &l)))
    return false;
  if (!was->placed) {
    job->layout->n_dropped++;
    keep (job, label, NULL, was->folded);
    return true;
  }
  double x = (l.thing.x0 + l.thing.x1) / 2, y = (l.thing.z0 + l.thing.z1) / 2;
  Place place = {.cost = INFINITY};
  consider (job, &l, x + was->x, y + was->y, was->leader ? &(ScenePoint){x + was->to_x, y + was->to_y} : NULL,
            0, &place);
  if (!isfinite (place.cost))
    return false;
  put (job, &l, &place);
  keep (job, &l, &place, was->folded);
  return true;
}

static void
place_label (LayoutJob *job, unsigned index, unsigned nth, const SceneItem *item)
{
  Label l = label_of (job, index, item);
  bool finding = item->role == ROLE_FINDING;
  l.nth = nth;
  if (!measure_thing (job, &l))
    return;
  if (item->anchor == ANCHOR_PATH && item->n > 1)
    l.hug += half_width (job, item);
  if (stay (job, &l))
    return;
  /* A note gives way where there is no room: the list has it, and what is worse keeps its place. */
  bool kept = finding && item->symbol != SYMBOL_NOTE;
  double dearest = kept                    ? 1000
                   : finding               ? DEAREST_LABEL * job->room
                   : item->importance < 55 ? DEAREST_SMALL
                                           : DEAREST_LABEL;
  if (!finding && item->importance < MAIN_THING)
    dearest *= job->room;
  Place best = {.cost = dearest};
  consider_all (job, &l, &best);
  Label in_two = l;
  Place folded = {.cost = MIN (best.cost, dearest) - COST_OF_FOLDING};
  double limit = folded.cost;
  if (!finding && fold (job, &in_two))
    consider_all (job, &in_two, &folded);
  if (folded.cost < limit) {
    put (job, &in_two, &folded);
    keep (job, &in_two, &folded, true);
  } else if (best.cost < dearest) {
    put (job, &l, &best);
    keep (job, &l, &best, false);
  } else {
    job->layout->n_dropped++;
    keep (job, &l, NULL, false);
  }
}

/* A label that waits for its turn. */
typedef struct {
  unsigned index, nth;
} Turn;

static int
by_importance (const void *a, const void *b, void *data)
{
  const LayoutJob *job = data;
  unsigned first = ((const Turn *) a)->index, second = ((const Turn *) b)->index;
  unsigned i = scene_item (job->scene, first)->importance, k = scene_item (job->scene, second)->importance;
  if (i != k)
    return i > k ? -1 : 1;
  return first < second ? -1 : first > second;
}

/* The outermost places for labels: between the dimensions on the left and the ladder on the right. */
static void
set_limits (LayoutJob *job, bool ladder)
{
  SceneBox outline = scene_outline (job->scene), bounds = scene_bounds (job->scene);
  bool grounded = outline.z0 < bounds.z0;
  job->left = 0;
  job->right = job->view->width;
  job->bottom = job->view->height;
  unsigned place;
  if (view_shows (job->view, LAYER_DIMENSIONS) && dimension_ranks (job->scene, SIDE_BOTTOM, 0, &place) > 0)
    job->bottom = MIN (job->bottom, view_y (job->view, bounds.z0) + (grounded ? 0 : 1.6 * job->view->text));
  if (view_shows (job->view, LAYER_DIMENSIONS) && dimension_ranks (job->scene, SIDE_LEFT, 0, &place) > 0)
    job->left = MAX (0, view_x (job->view, outline.x0) - 1.6 * job->view->text);
  if (ladder)
    job->right = view_x (job->view, outline.x1) + 0.4 * job->view->text;
}

void
layout_labels (LayoutJob *job)
{
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (Turn));
  set_limits (job, job->layout->marks->len > 0);
  for (unsigned i = 0; i < scene_n_items (job->scene); i++) {
    const SceneItem *item = scene_item (job->scene, i);
    if (item->shape != SHAPE_LABEL || !item_is_shown (job->view, item))
      continue;
    Turn turn = {.index = i};
    for (unsigned k = 0; k < order->len; k++)
      turn.nth += scene_item (job->scene, g_array_index (order, Turn, k).index)->part == item->part;
    g_array_append_val (order, turn);
  }
  g_array_sort_with_data (order, by_importance, job);
  double squares = job->view->width * job->view->height / (job->view->text * job->view->text);
  job->room = CLAMP (squares / (order->len + 1) / ROOM_A_LABEL, 0.2, 1);
  for (unsigned i = 0; i < order->len; i++) {
    const Turn *turn = &g_array_index (order, Turn, i);
    place_label (job, turn->index, turn->nth, scene_item (job->scene, turn->index));
  }
}
