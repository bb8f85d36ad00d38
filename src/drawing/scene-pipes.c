/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Runs: drains and return pipes as their real double lines with elbows, fittings, water and flow, from the back to the
 * front. Runs that would hide each other exactly are drawn aside, and their label says by how much. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MAX_CHEVRONS 200

typedef struct {
  const Part *part;
  int index;
  double outside, bore;
  Point3 space[MAX_RUN_POINTS]; /* as the design has it */
  unsigned n_space;
  ScenePoint corners[MAX_RUN_POINTS]; /* its front, moved aside where needed */
  unsigned n;
  double depth; /* y of its middle: larger is farther back */
  double aside;
} Run;

static void
read_run (Builder *b, const Part *part, FieldId size_field, Run *run)
{
  *run = (Run){.part = part, .index = part_index (b, part), .outside = 0.033, .bore = 0.027};
  const char *key = design_text (b->design, part, size_field);
  const PipeSize *size = key != NULL && b->catalogue != NULL ? catalogue_find_pipe (b->catalogue, key) : NULL;
  if (size != NULL) {
    run->outside = size->outside_m;
    run->bore = size->inside_m;
  }
  run->n_space = MIN (geometry_run (b->design, part, run->space, MAX_RUN_POINTS), MAX_RUN_POINTS);
  for (unsigned i = 0; i < run->n_space; i++) {
    ScenePoint p = {run->space[i].x, run->space[i].z};
    run->depth += run->space[i].y / run->n_space;
    if (run->n == 0 || hypot (p.x - run->corners[run->n - 1].x, p.z - run->corners[run->n - 1].z) > 1e-6)
      run->corners[run->n++] = p;
  }
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
    Point3 at = geometry_run_at (b->design, run->part, number_of (b, part, FIELD_FITTING_STATION), &segment);
    ScenePoint here = {at.x + run->aside, at.z}, direction = {0, 1};
    if (segment + 1 < run->n_space) {
      double dx = run->space[segment + 1].x - run->space[segment].x;
      double dz = run->space[segment + 1].z - run->space[segment].z;
      double d = hypot (dx, dz);
      if (d > 1e-6)
        direction = (ScenePoint){dx / d, dz / d};
    }
    double length =
        type != NULL && type->length_m > 0 ? type->length_m * run->bore / 0.025 : 2 * run->outside;
    int index = part_index (b, part);
    draw_fitting (b, index, type != NULL ? type->class_ : FITTING_OTHER, here, direction, run->outside,
                  length);
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
      if (d < 1.2 * reach)
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

static void
label_run (Builder *b, const Run *run)
{
  const char *name = part_name (b, run->part);
  if (run->aside > 0)
    name = take_text (b->scene,
                      g_strdup_printf (_ ("%s (drawn %s to the right)"), name, length_text (b, run->aside)));
  /* Of the path only its longest pieces are tried, so that the name stands where the run is seen best. */
  add_label (b, run->index, ANCHOR_PATH, run->corners, run->n, name,
             part_kind (run->part) == PART_DRAIN ? 78 : 72);
}

/* A run seen end on, going straight back: a circle with its centre. */
static void
build_end_view (Builder *b, const Run *run)
{
  if (run->n == 1)
    add_arc (b, ROLE_PIPE, LAYER_BODY, run->index, run->corners[0].x, run->corners[0].z, run->outside / 2, 0,
             2 * G_PI);
}

static void
build_run (Builder *b, const Run *run)
{
  if (run->n < 2) {
    build_end_view (b, run);
    return;
  }
  g_autoptr (GArray) centre = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_centre (run->corners, run->n, run->outside, centre);
  const ScenePoint *line = &g_array_index (centre, ScenePoint, 0);
  if (centre->len < 2)
    return;
  area_between (b, ROLE_PIPE, LAYER_BODY, run->index, MATERIAL_PIPE, line, centre->len, run->outside);
  area_between (b, ROLE_PIPE, LAYER_BODY, run->index, MATERIAL_BLANK, line, centre->len, run->bore);
  build_texture (b, run, line, centre->len);
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  g_autoptr (GArray) right = g_array_new (FALSE, FALSE, sizeof (ScenePoint));
  pipe_walls (line, centre->len, run->outside, left, right);
  for (unsigned i = right->len; i > 0; i--)
    g_array_append_val (left, g_array_index (right, ScenePoint, i - 1));
  add_line (b, ROLE_PIPE, LAYER_BODY, run->index, &g_array_index (left, ScenePoint, 0), left->len, true);
  build_elbows (b, run);
  build_chevrons (b, run, line, centre->len);
  build_fittings (b, run);
  label_run (b, run);
}

/* An outlet: nozzle at the mouth and the siphon break's holes on its pipe. */
static void
build_outlet (Builder *b, const Part *outlet)
{
  int part = part_index (b, outlet);
  Box3 box = geometry_inside (b->design, design_owner (b->design, outlet));
  double x = box.origin.x + number_of (b, outlet, FIELD_OUTLET_X), z = geometry_outlet (b->design, outlet);
  double bore = number_of (b, outlet, FIELD_OUTLET_BORE);
  add_arc (b, ROLE_FITTING, LAYER_BODY, part, x, z, bore / 2, 0, 2 * G_PI);
  add_arc (b, ROLE_FITTING, LAYER_BODY, part, x, z, 0.75 * bore, 0, 2 * G_PI);
  SceneBox around = {x - bore, z - bore, x + bore, z + bore};
  add_label_box (b, part, around, part_name (b, outlet), 68);
  if (number_of (b, outlet, FIELD_OUTLET_BREAK) > 0.5) {
    double at = geometry_break (b->design, outlet), r = number_of (b, outlet, FIELD_OUTLET_BREAK_BORE) / 2;
    add_arc (b, ROLE_FITTING, LAYER_BODY, part, x, at, MAX (r, 0.003), 0, 2 * G_PI);
    SceneBox hole = {x - 2 * r, at - 2 * r, x + 2 * r, at + 2 * r};
    add_label_box (b, part, hole, _ ("Siphon break"), 48);
  }
}

static void
build_tee (Builder *b, const Part *tee, const Run *runs, unsigned n)
{
  double outside = 0.033;
  for (unsigned i = 0; i < n; i++)
    if (design_owner (b->design, runs[i].part) == tee)
      outside = MAX (outside, runs[i].outside);
  Box3 stand = {{0, 0, 0}, {0, 0, 0}};
  const Part *part = design_nth (b->design, PART_STAND, 0);
  if (part != NULL)
    stand = geometry_inside (b->design, part);
  double x = stand.origin.x + number_of (b, tee, FIELD_TEE_X), z = number_of (b, tee, FIELD_TEE_Z),
         r = 0.68 * outside;
  SceneBox box = {x - r, z - r, x + r, z + r};
  int index = part_index (b, tee);
  add_box_area (b, ROLE_FITTING, LAYER_BODY, index, MATERIAL_BLANK, box);
  add_box_line (b, ROLE_FITTING, LAYER_BODY, index, box);
  add_label_box (b, index, box, part_name (b, tee), 46);
}

/* True when a run goes up or down behind the back pane of the tank for most of the tank's height that it passes. */
static bool
passes_behind (const Builder *b, const Run *run)
{
  const Part *tank = design_nth (b->design, PART_TANK, 0);
  if (tank == NULL)
    return false;
  Box3 box = geometry_outside (b->design, tank);
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
    read_run (b, design_nth (b->design, PART_DRAIN, i), FIELD_DRAIN_SIZE, &runs[n++]);
  for (unsigned i = 0; i < returns; i++)
    read_run (b, design_nth (b->design, PART_RETURN, i), FIELD_RETURN_SIZE, &runs[n++]);
  move_aside (runs, n);
  qsort (runs, n, sizeof *runs, by_depth);
  for (unsigned i = 0; i < n; i++)
    if (passes_behind (b, &runs[i]) == behind)
      build_run (b, &runs[i]);
  if (behind)
    return;
  for (unsigned i = 0; i < design_count (b->design, PART_TEE); i++)
    build_tee (b, design_nth (b->design, PART_TEE, i), runs, n);
  for (unsigned i = 0; i < design_count (b->design, PART_OUTLET); i++)
    build_outlet (b, design_nth (b->design, PART_OUTLET, i));
}
