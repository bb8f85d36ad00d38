/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Runs: drains and return pipes as their real double lines with elbows, fittings, water and flow, from the back to the
 * front. Runs that would hide each other exactly are drawn aside, and their label says by how much. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MAX_CHEVRONS 200

/* A run behind the tank is drawn in two: above the tank's underside before the tank, below it after the sump. */
typedef enum { ALL, ABOVE, BELOW } Pieces;

typedef struct {
  const Part *part;
  int index;
  double outside, bore;
  Point3 space[MAX_RUN_POINTS]; /* as the design has it */
  unsigned n_space;
  ScenePoint corners[MAX_RUN_POINTS]; /* as it is seen, moved aside where needed */
  unsigned n;
  double depth; /* of its middle: larger is farther away */
  double aside;
  double covered; /* of its seen length, by what lies nearer */
  Pieces pieces;
  double cut; /* height at which it is cut in two */
} Run;

PipeSize
run_size (const Builder *b, const Part *run)
{
  FieldId field = part_kind (run) == PART_DRAIN ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE;
  const char *key = design_text (b->design, run, field);
  const PipeSize *size = key != NULL && b->catalogue != NULL ? catalogue_find_pipe (b->catalogue, key) : NULL;
  return size != NULL ? *size : (PipeSize){.key = "", .inside_m = 0.027, .outside_m = 0.033};
}

static void
read_run (Builder *b, const Part *part, Run *run)
{
  PipeSize size = run_size (b, part);
  *run = (Run){.part = part, .index = part_index (b, part), .outside = size.outside_m, .bore = size.inside_m};
  run->n_space = MIN (geometry_run (b->design, part, run->space, MAX_RUN_POINTS), MAX_RUN_POINTS);
  for (unsigned i = 0; i < run->n_space; i++) {
    ScenePoint p = project (b, run->space[i]);
    run->depth += depth_of (b, run->space[i]) / run->n_space;
    if (run->n == 0 || hypot (p.x - run->corners[run->n - 1].x, p.z - run->corners[run->n - 1].z) > 1e-6)
      run->corners[run->n++] = p;
  }
}

static bool
is_wanted (const Run *run, double z)
{
  return run->pieces == ALL || (z >= run->cut) == (run->pieces == ABOVE);
}

/* Length over which two upright pieces cover each other with their centres closer than a quarter of their width. */
static double
shared_length (const Run *a, const Run *other)
{
  double shared = 0;
  for (unsigned i = 1; i < a->n; i++)
    for (unsigned k = 1; k < other->n; k++) {
      if (fabs (a->corners[i].x - a->corners[i - 1].x) > 1e-3 ||
          fabs (other->corners[k].x - other->corners[k - 1].x) > 1e-3 ||
          fabs (a->corners[i].x - other->corners[k].x) > (a->outside + other->outside) / 8)
        continue;
      double low = MAX (MIN (a->corners[i].z, a->corners[i - 1].z),
                        MIN (other->corners[k].z, other->corners[k - 1].z));
      double high = MIN (MAX (a->corners[i].z, a->corners[i - 1].z),
                         MAX (other->corners[k].z, other->corners[k - 1].z));
      shared += MAX (0, high - low);
    }
  return shared;
}

static void
move_aside (Run *runs, unsigned n)
{
  for (unsigned i = 1; i < n; i++)
    for (unsigned tries = 0, k = 0; k < i && tries < 8; k++) {
      double step = 0.55 * (runs[i].outside + runs[k].outside);
      if (runs[i].n < 2 || shared_length (&runs[i], &runs[k]) < 3 * runs[i].outside)
        continue;
      for (unsigned p = 0; p < runs[i].n; p++)
        runs[i].corners[p].x += step;
      runs[i].aside += step;
      tries++;
      k = UINT_MAX; /* compare with all of them again */
    }
}

static int
by_depth (const void *a, const void *b)
{
  const Run *first = a, *second = b;
  if (first->depth != second->depth)
    return first->depth > second->depth ? -1 : 1;
  return first->index - second->index;
}

static void
area_between (Builder *b, SceneRole role, SceneLayer layer, int part, SceneMaterial material,
              const ScenePoint *centre, unsigned n, double width)
{
  if (n < 2)
    return;
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  g_autoptr (GArray) right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_walls (centre, n, width, left, right);
  for (unsigned i = right->len; i > 0; i--)
    g_array_append_val (left, g_array_index (right, ScenePoint, i - 1));
  add_area (b, role, layer, part, material, &g_array_index (left, ScenePoint, 0), left->len);
}

/* A strip of water along one side of the bore. */
static void
film (Builder *b, const Run *run, const ScenePoint *centre, unsigned n, double side)
{
  g_autoptr (GArray) outer_left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  g_autoptr (GArray) outer_right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  g_autoptr (GArray) inner_left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  g_autoptr (GArray) inner_right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_walls (centre, n, run->bore, outer_left, outer_right);
  pipe_walls (centre, n, 0.55 * run->bore, inner_left, inner_right);
  GArray *outer = side > 0 ? outer_left : outer_right, *inner = side > 0 ? inner_left : inner_right;
  for (unsigned i = inner->len; i > 0; i--)
    g_array_append_val (outer, g_array_index (inner, ScenePoint, i - 1));
  add_area (b, ROLE_PIPE_WATER, LAYER_WATER, run->index, MATERIAL_WATER,
            &g_array_index (outer, ScenePoint, 0), outer->len);
}

static void
slugs (Builder *b, const Run *run, const ScenePoint *centre, unsigned n)
{
  double length = path_length (centre, n), pitch = MAX (2.2 * run->bore, length / 60);
  for (double at = 0.2 * pitch; at < length; at += pitch) {
    g_autoptr (GArray) piece = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
    path_piece (centre, n, at, MIN (at + 0.6 * pitch, length), piece);
    area_between (b, ROLE_PIPE_WATER, LAYER_WATER, run->index, MATERIAL_WATER,
                  &g_array_index (piece, ScenePoint, 0), piece->len, run->bore);
  }
}

static void
build_texture (Builder *b, const Run *run, const ScenePoint *centre, unsigned n)
{
  switch (b->readings.texture[run->index]) {
  case TEXTURE_PRIMED:
    area_between (b, ROLE_PIPE_WATER, LAYER_WATER, run->index, MATERIAL_WATER, centre, n, run->bore);
    break;
  case TEXTURE_QUIET:
    film (b, run, centre, n, 1);
    film (b, run, centre, n, -1);
    break;
  case TEXTURE_GULPING:
    slugs (b, run, centre, n);
    break;
  case TEXTURE_NONE:
    break;
  }
}

/* Chevrons one second of travel apart, the first half a second from the start, so that crowded means slow. */
static void
build_chevrons (Builder *b, const Run *run, const ScenePoint *centre, unsigned n)
{
  double velocity = b->readings.velocity_ms[run->index], length = path_length (centre, n);
  if (!(velocity > 1e-4))
    return;
  double pitch = MAX (velocity, length / MAX_CHEVRONS), size = 0.36 * run->bore;
  double first = pitch < length ? MIN (pitch / 2, length / 2) : length / 2;
  for (double at = first; at < length; at += pitch) {
    ScenePoint d, p = path_at (centre, n, at, &d);
    if (!is_wanted (run, p.z))
      continue;
    if (b->readings.backwards[run->index])
      d = (ScenePoint){-d.x, -d.z};
    ScenePoint chevron[] = {{p.x - size * (d.x + d.z), p.z - size * (d.z - d.x)},
                            p,
                            {p.x - size * (d.x - d.z), p.z - size * (d.z + d.x)}};
    add_line (b, ROLE_CHEVRON, LAYER_FLOW, run->index, chevron, 3, false);
  }
}

static void
build_fittings (Builder *b, const Run *run)
{
  unsigned n = design_n_children (b->design, part_key (run->part), PART_FITTING);
  for (unsigned i = 0; i < n; i++) {
    const Part *part = design_child (b->design, part_key (run->part), PART_FITTING, i);
    const char *key = design_text (b->design, part, FIELD_FITTING_TYPE);
    const FittingType *type =
        key != NULL && b->catalogue != NULL ? catalogue_find_fitting (b->catalogue, key) : NULL;
    unsigned segment = 0;
    Point3 at =
        geometry_along (run->space, run->n_space, number_of (b, part, FIELD_FITTING_STATION), &segment);
    ScenePoint here = project (b, at), direction = {0, 1};
    here.x += run->aside;
    if (!is_wanted (run, here.z))
      continue;
    double seen_length = 1;
    if (segment + 1 < run->n_space) {
      ScenePoint from = project (b, run->space[segment]), to = project (b, run->space[segment + 1]);
      seen_length = hypot (to.x - from.x, to.z - from.z);
      if (seen_length > 1e-6)
        direction = (ScenePoint){(to.x - from.x) / seen_length, (to.z - from.z) / seen_length};
    }
    double length =
        type != NULL && type->length_m > 0 ? type->length_m * run->bore / 0.025 : 2 * run->outside;
    int index = part_index (b, part);
    if (seen_length > 1e-6 || b->options.projection == PROJECTION_FRONT)
      draw_fitting (b, index, type != NULL ? type->class_ : FITTING_CLASS_OTHER, here, direction,
                    run->outside, length);
    else
      add_arc (b, ROLE_FITTING, LAYER_BODY, index, here.x, here.z, 0.75 * run->outside, 0, 2 * G_PI);
    const char *name = part_label (part) != NULL ? part_name (b, part)
                       : type != NULL            ? keep_text (b->scene, _ (type->name))
                                                 : part_name (b, part);
    ScenePoint reach = {0.9 * run->outside, 0.5 * length};
    if (fabs (direction.x) > fabs (direction.z))
      reach = (ScenePoint){reach.z, reach.x};
    add_label_box (b, index,
                   (SceneBox){here.x - reach.x, here.z - reach.z, here.x + reach.x, here.z + reach.z}, name,
                   50);
  }
}

/* Sockets of the elbows: a slightly wider collar on both legs of each corner. */
static void
build_elbows (Builder *b, const Run *run)
{
  for (unsigned i = 1; i + 1 < run->n; i++) {
    ScenePoint here = run->corners[i];
    for (int side = -1; side <= 1; side += 2) {
      ScenePoint to = run->corners[(int) i + side];
      double d = hypot (to.x - here.x, to.z - here.z), reach = 1.35 * run->outside;
      if (d < 1.2 * reach || !is_wanted (run, here.z))
        continue;
      ScenePoint u = {(to.x - here.x) / d, (to.z - here.z) / d};
      ScenePoint ring[] = {
          {here.x + u.x * (reach - 0.45 * run->outside), here.z + u.z * (reach - 0.45 * run->outside)},
          {here.x + u.x * reach, here.z + u.z * reach}};
      g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
      g_autoptr (GArray) right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
      pipe_walls (ring, 2, 1.22 * run->outside, left, right);
      ScenePoint box[] = {g_array_index (left, ScenePoint, 0), g_array_index (left, ScenePoint, 1),
                          g_array_index (right, ScenePoint, 1), g_array_index (right, ScenePoint, 0)};
      add_area (b, ROLE_FITTING, LAYER_BODY, run->index, MATERIAL_BLANK, box, 4);
      add_line (b, ROLE_FITTING, LAYER_BODY, run->index, box, 4, true);
    }
  }
}

/* True of a run that lies behind another for most of what is seen of it: its name would be taken for the other's. */
static bool
is_hidden (const Builder *b, const Run *run)
{
  double length = path_length (run->corners, run->n);
  return b->options.projection == PROJECTION_END && run->covered > 0.6 * length;
}

/* The name goes along the piece in front, where it is seen best; a run wholly behind the tank is named there. */
static void
label_run (Builder *b, const Run *run)
{
  ScenePoint seen[MAX_RUN_POINTS + 1];
  unsigned n = 0;
  for (unsigned i = 0; i < run->n; i++) {
    bool wanted = is_wanted (run, run->corners[i].z);
    if (i > 0 && wanted != is_wanted (run, run->corners[i - 1].z) && n < MAX_RUN_POINTS) {
      double rise = run->corners[i].z - run->corners[i - 1].z, t = (run->cut - run->corners[i - 1].z) / rise;
      seen[n++] =
          (ScenePoint){run->corners[i - 1].x + t * (run->corners[i].x - run->corners[i - 1].x), run->cut};
      if (!wanted)
        break;
    }
    if (wanted)
      seen[n++] = run->corners[i];
  }
  if (is_hidden (b, run))
    return;
  bool wholly_above = true;
  for (unsigned i = 0; i < run->n; i++)
    wholly_above = wholly_above && run->corners[i].z >= run->cut;
  if (n < 1 || (run->pieces == ABOVE && !wholly_above))
    return;
  const char *name = run_title (b, run->part);
  if (run->aside > 0)
    name = take_text (b->scene,
                      g_strdup_printf (_ ("%s (drawn %s to the right)"), name, length_text (b, run->aside)));
  unsigned importance = part_kind (run->part) == PART_DRAIN ? 78 : 72;
  double r = run->outside / 2;
  ScenePoint end_on[] = {{seen[0].x - r, seen[0].z - r}, {seen[0].x + r, seen[0].z + r}};
  if (n == 1) {
    add_label (b, run->index, ANCHOR_BOX, end_on, 2, name, importance);
    return;
  }
  add_label (b, run->index, ANCHOR_PATH, seen, n, name, importance);
  annotate_run (b, run->part, seen, n);
}

/* The pieces of a run that are seen end on, from the farthest to the nearest. The front view, which draws a run in two
 * and beside others, shows only what is wholly so. */
static void
build_ends (Builder *b, const Run *run)
{
  if (b->options.projection == PROJECTION_FRONT && run->n > 1)
    return;
  for (unsigned i = 1; i < run->n_space; i++) {
    ScenePoint from = project (b, run->space[i - 1]), to = project (b, run->space[i]);
    double away = depth_of (b, run->space[i]) - depth_of (b, run->space[i - 1]);
    if (hypot (to.x - from.x, to.z - from.z) > 1e-6 || fabs (away) < run->outside / 2 ||
        !is_wanted (run, from.z))
      continue;
    bool moves = b->readings.velocity_ms[run->index] > 1e-4;
    build_end_on (b, run->index, from, run->outside, !moves ? 0 : away < 0 ? 1 : -1);
  }
}

/* One piece of a run: its wall, water and outline, open where it is cut. */
static void
build_piece (Builder *b, const Run *run, const ScenePoint *line, unsigned n, bool open_start, bool open_end)
{
  if (n < 2)
    return;
  area_between (b, ROLE_PIPE, LAYER_BODY, run->index, MATERIAL_PIPE, line, n, run->outside);
  area_between (b, ROLE_PIPE, LAYER_BODY, run->index, MATERIAL_BLANK, line, n, run->bore);
  build_texture (b, run, line, n);
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  g_autoptr (GArray) right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_walls (line, n, run->outside, left, right);
  ScenePoint *l = &g_array_index (left, ScenePoint, 0), *r = &g_array_index (right, ScenePoint, 0);
  if (!open_start && !open_end) {
    for (unsigned i = n; i > 0; i--)
      g_array_append_val (left, r[i - 1]);
    add_line (b, ROLE_PIPE, LAYER_BODY, run->index, &g_array_index (left, ScenePoint, 0), left->len, true);
    return;
  }
  add_line (b, ROLE_PIPE, LAYER_BODY, run->index, l, n, false);
  add_line (b, ROLE_PIPE, LAYER_BODY, run->index, r, n, false);
  if (!open_start)
    add_segment (b, ROLE_PIPE, LAYER_BODY, run->index, l[0].x, l[0].z, r[0].x, r[0].z);
  if (!open_end)
    add_segment (b, ROLE_PIPE, LAYER_BODY, run->index, l[n - 1].x, l[n - 1].z, r[n - 1].x, r[n - 1].z);
}

/* Calls build_piece for each stretch of the line on the wanted side of the cut. */
static void
build_pieces (Builder *b, const Run *run, const ScenePoint *line, unsigned n)
{
  g_autoptr (GArray) piece = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  bool open_start = false;
  for (unsigned i = 0; i < n; i++) {
    if (is_wanted (run, line[i].z))
      g_array_append_val (piece, line[i]);
    bool last = i + 1 == n, crosses = !last && is_wanted (run, line[i].z) != is_wanted (run, line[i + 1].z);
    if (crosses) {
      double t = (run->cut - line[i].z) / (line[i + 1].z - line[i].z);
      ScenePoint at = {line[i].x + t * (line[i + 1].x - line[i].x), run->cut};
      g_array_append_val (piece, at);
    }
    if (last || (crosses && is_wanted (run, line[i].z))) {
      build_piece (b, run, (const ScenePoint *) (const void *) piece->data, piece->len, open_start, crosses);
      g_array_set_size (piece, 0);
    }
    open_start = crosses || (open_start && piece->len > 0);
  }
}

static void
build_run (Builder *b, const Run *run)
{
  if (run->n < 2) {
    build_ends (b, run);
    build_fittings (b, run);
    label_run (b, run);
    return;
  }
  g_autoptr (GArray) centre = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_centre (run->corners, run->n, run->outside, centre);
  const ScenePoint *line = &g_array_index (centre, ScenePoint, 0);
  if (centre->len < 2)
    return;
  build_pieces (b, run, line, centre->len);
  build_elbows (b, run);
  build_ends (b, run);
  build_chevrons (b, run, line, centre->len);
  build_fittings (b, run);
  label_run (b, run);
}

/* True when a run goes up or down behind the back pane of the tank for most of the tank's height that it passes. */
static bool
passes_behind (const Builder *b, const Run *run, double *ret_cut)
{
  const Part *tank = design_nth (b->design, PART_TANK, 0);
  if (tank == NULL)
    return false;
  Box3 box = geometry_outside (b->design, tank);
  *ret_cut = box.origin.z;
  double back = box.origin.y + box.size.y, behind = 0, all = 0;
  for (unsigned i = 1; i < run->n_space; i++) {
    const Point3 *p = &run->space[i - 1], *q = &run->space[i];
    double low = MAX (MIN (p->z, q->z), box.origin.z);
    double length = MAX (0, MIN (MAX (p->z, q->z), box.origin.z + box.size.z) - low);
    all += length;
    behind += MIN (p->y, q->y) >= back ? length : 0;
  }
  return all > 0 && behind > 0.7 * all;
}

void
build_runs (Builder *b, bool behind)
{
  unsigned drains = design_count (b->design, PART_DRAIN), returns = design_count (b->design, PART_RETURN);
  g_autofree Run *runs = g_new0 (Run, drains + returns + 1);
  unsigned n = 0;
  for (unsigned i = 0; i < drains; i++)
    read_run (b, design_nth (b->design, PART_DRAIN, i), &runs[n++]);
  for (unsigned i = 0; i < returns; i++)
    read_run (b, design_nth (b->design, PART_RETURN, i), &runs[n++]);
  bool front = b->options.projection == PROJECTION_FRONT;
  if (front)
    move_aside (runs, n);
  qsort (runs, n, sizeof *runs, by_depth);
  for (unsigned i = 0; i < n && !front; i++)
    for (unsigned k = i + 1; k < n; k++)
      runs[i].covered = MAX (runs[i].covered, shared_length (&runs[i], &runs[k]));
  for (unsigned i = 0; i < n; i++) {
    if (front && passes_behind (b, &runs[i], &runs[i].cut))
      runs[i].pieces = behind ? ABOVE : BELOW;
    if (runs[i].pieces != ALL || !behind)
      build_run (b, &runs[i]);
  }
}
