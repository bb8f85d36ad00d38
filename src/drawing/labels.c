/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Places labels and marks of findings: the most important first, inside the thing that they name where it is clear,
 * else beside it, else farther off with a leader. What finds no room is left out; nothing ever overlaps. */
#include "drawing/layout-private.h"

#include <math.h>

typedef struct {
  unsigned index;
  const SceneItem *item;
  const char *text;
  double size, width, height; /* of the text or mark, with its padding */
  double pad;
  SceneBox thing; /* what it names, in user units, y down: x0 <= x1, z0 <= z1; cut to the view */
  double hug;     /* distance from the thing's edge that needs no leader */
} Label;

static bool
fits (const LayoutJob *job, const Label *l, LayoutBox box)
{
  LayoutBox padded = {box.x - l->pad, box.y - l->pad / 2, box.width + 2 * l->pad, box.height + l->pad};
  return occupancy_is_free (job->occupancy, padded.x, padded.y, padded.width, padded.height) &&
         layout_is_free (job, padded);
}

static void
put (LayoutJob *job, const Label *l, LayoutBox box)
{
  if (l->item->role != ROLE_FINDING) {
    layout_add_text (job, l->index, l->text, box, l->size, false,
                     l->item->shape == SHAPE_LEVEL ? l->item->role : ROLE_LABEL);
    return;
  }
  double diameter = box.height;
  LayoutMark mark = {l->index, ROLE_FINDING, l->item->symbol, box.x + diameter / 2, box.y + diameter / 2,
                     diameter};
  g_array_append_val (job->layout->marks, mark);
  if (l->item->value != NULL) {
    double width, height, size = 0.8 * job->view->text;
    text_engine_measure (job->engine, l->item->value, size, true, &width, &height);
    LayoutBox beside = {box.x + box.width - width, box.y + (diameter - height) / 2, width, height};
    layout_add_text (job, l->index, l->item->value, beside, size, false, ROLE_FINDING);
  }
}

static bool
try_at (LayoutJob *job, const Label *l, double middle_x, double middle_y)
{
  LayoutBox box = {middle_x - l->width / 2, middle_y - l->height / 2, l->width, l->height};
  if (!fits (job, l, box))
    return false;
  put (job, l, box);
  return true;
}

static bool
try_inside (LayoutJob *job, const Label *l)
{
  double room_x = l->thing.x1 - l->thing.x0 - l->width - 2 * l->pad;
  double room_y = l->thing.z1 - l->thing.z0 - l->height - l->pad;
  if (room_x < 0 || room_y < 0)
    return false;
  double x = (l->thing.x0 + l->thing.x1) / 2, y = (l->thing.z0 + l->thing.z1) / 2;
  static const double shares[][2] = {{0, 0},      {0, -0.5},   {0, 0.5},      {-0.5, 0},    {0.5, 0},
                                     {0, -0.25},  {0, 0.25},   {-0.25, 0},    {0.25, 0},    {-0.5, -0.5},
                                     {0.5, -0.5}, {-0.5, 0.5}, {0.5, 0.5},    {-0.4, 0},    {0.4, 0},
                                     {0, -0.4},   {0, 0.4},    {-0.25, -0.4}, {0.25, -0.4}, {-0.4, -0.4},
                                     {0.4, -0.4}, {-0.4, 0.4}, {0.4, 0.4},    {-0.1, -0.1}};
  for (unsigned i = 0; i < G_N_ELEMENTS (shares); i++)
    if (try_at (job, l, x + shares[i][0] * room_x, y + shares[i][1] * room_y))
      return true;
  return false;
}

/* A leader goes from the label to the nearest point of what it names, and never over another text. */
static bool
try_with_leader (LayoutJob *job, const Label *l, double middle_x, double middle_y, double to_x, double to_y)
{
  LayoutBox box = {middle_x - l->width / 2, middle_y - l->height / 2, l->width, l->height};
  if (!fits (job, l, box))
    return false;
  double from_x = CLAMP (to_x, box.x, box.x + box.width), from_y = CLAMP (to_y, box.y, box.y + box.height);
  /* From the middle of the near side: a leader that starts at a letter's edge looks like part of it. */
  if (from_y > box.y && from_y < box.y + box.height)
    from_y = box.y + box.height / 2;
  double gap = 0.25 * job->view->text, d = hypot (to_x - from_x, to_y - from_y);
  if (d < 2 * gap)
    return false;
  from_x += gap * (to_x - from_x) / d;
  from_y += gap * (to_y - from_y) / d;
  for (unsigned i = 0; i < job->layout->texts->len; i++)
    if (segment_meets_box (from_x, from_y, to_x, to_y, g_array_index (job->layout->texts, LayoutText, i).box))
      return false;
  put (job, l, box);
  layout_add_line (job, l->index, from_x, from_y, to_x, to_y, false, ROLE_LABEL);
  return true;
}

static bool
try_around (LayoutJob *job, const Label *l)
{
  static const double directions[][2] = {{1, 0}, {-1, 0}, {0, -1},   {0, 1},     {1, -1},   {-1, -1},
                                         {1, 1}, {-1, 1}, {1, -0.4}, {-1, -0.4}, {0.4, -1}, {-0.4, -1}};
  static const double rings[] = {0, 0.8, 1.8, 3.2, 5, 7, 9.5};
  double x = (l->thing.x0 + l->thing.x1) / 2, y = (l->thing.z0 + l->thing.z1) / 2;
  double half_x = (l->thing.x1 - l->thing.x0 + l->width) / 2,
         half_y = (l->thing.z1 - l->thing.z0 + l->height) / 2;
  for (unsigned r = 0; r < G_N_ELEMENTS (rings); r++)
    for (unsigned i = 0; i < G_N_ELEMENTS (directions); i++) {
      double far = l->hug + rings[r] * job->view->text;
      double at_x = x + directions[i][0] * (half_x + far), at_y = y + directions[i][1] * (half_y + far);
      if (r == 0 ? try_at (job, l, at_x, at_y)
                 : try_with_leader (job, l, at_x, at_y, CLAMP (at_x, l->thing.x0, l->thing.x1),
                                    CLAMP (at_y, l->thing.z0, l->thing.z1)))
        return true;
    }
  return false;
}

/* Beside the longest visible pieces of a path. */
static bool
try_along (LayoutJob *job, const Label *l)
{
  const ScenePoint *p = scene_points (job->scene, l->item);
  static const double shares[] = {0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9};
  for (unsigned ring = 0; ring < 5; ring++)
    for (unsigned s = 0; s < G_N_ELEMENTS (shares); s++)
      for (unsigned i = 1; i < l->item->n; i++) {
        double x0 = view_x (job->view, p[i - 1].x), y0 = view_y (job->view, p[i - 1].z);
        double x1 = view_x (job->view, p[i].x), y1 = view_y (job->view, p[i].z), d = hypot (x1 - x0, y1 - y0);
        double x = x0 + shares[s] * (x1 - x0), y = y0 + shares[s] * (y1 - y0);
        if (d < 3 * job->view->text)
          continue;
        for (int side = 1; side >= -1; side -= 2) {
          double across_x = side * (y1 - y0) / d, across_y = -side * (x1 - x0) / d;
          double reach = l->hug + fabs (across_x) * l->width / 2 + fabs (across_y) * l->height / 2;
          double far = reach + (ring == 0 ? 0 : (1 + 2 * ring) * job->view->text);
          if (ring == 0 ? try_at (job, l, x + across_x * far, y + across_y * far)
                        : try_with_leader (job, l, x + across_x * far, y + across_y * far, x, y))
            return true;
        }
      }
  return false;
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
  if (box.x1 < 0 || box.z1 < 0 || box.x0 > job->view->width || box.z0 > job->view->height)
    return false;
  l->thing = (SceneBox){MAX (box.x0, 0), MAX (box.z0, 0), MIN (box.x1, job->view->width),
                        MIN (box.z1, job->view->height)};
  return true;
}

static void
place_label (LayoutJob *job, unsigned index, const SceneItem *item, bool in_drawing)
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
    l.hug = 0.2 * text;
  } else {
    if (in_drawing)
      l.text = item->value;
    l.size = in_drawing ? 0.94 * text : text;
    text_engine_measure (job->engine, l.text, l.size, false, &l.width, &l.height);
  }
  if (!measure_thing (job, &l))
    return;
  bool placed;
  if (item->anchor == ANCHOR_PATH && item->n > 1) {
    l.hug += half_width (job, item);
    placed = try_along (job, &l);
  } else if (item->role == ROLE_FINDING) {
    placed = try_around (job, &l) || try_inside (job, &l);
  } else {
    placed = try_inside (job, &l) || try_around (job, &l);
  }
  if (!placed)
    job->layout->n_dropped++;
}

static int
by_importance (const void *a, const void *b, void *data)
{
  const LayoutJob *job = data;
  unsigned first = *(const unsigned *) a, second = *(const unsigned *) b;
  unsigned i = scene_item (job->scene, first)->importance, k = scene_item (job->scene, second)->importance;
  if (i != k)
    return i > k ? -1 : 1;
  return first < second ? -1 : first > second;
}

/* True when the ladder shows the level of this item already. */
static bool
is_in_ladder (const LayoutJob *job, unsigned index)
{
  for (unsigned i = 0; i < job->layout->marks->len; i++)
    if (g_array_index (job->layout->marks, LayoutMark, i).item == index)
      return true;
  return false;
}

void
layout_labels (LayoutJob *job)
{
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (unsigned));
  bool ladder = job->layout->marks->len > 0;
  for (unsigned i = 0; i < scene_n_items (job->scene); i++) {
    const SceneItem *item = scene_item (job->scene, i);
    bool wanted = item->shape == SHAPE_LABEL || (item->shape == SHAPE_LEVEL && item->role == ROLE_SURFACE &&
                                                 !ladder && !is_in_ladder (job, i));
    if (wanted && item_is_shown (job->view, item))
      g_array_append_val (order, i);
  }
  g_array_sort_with_data (order, by_importance, job);
  for (unsigned i = 0; i < order->len; i++) {
    unsigned index = g_array_index (order, unsigned, i);
    const SceneItem *item = scene_item (job->scene, index);
    place_label (job, index, item, item->shape == SHAPE_LEVEL);
  }
}
