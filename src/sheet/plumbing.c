/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/plumbing.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>

#include "design/choices.h"
#include "report/words.h"
#include "sheet/take-off.h"

/* Elbows are made for these angles; the tolerance is what a joint gives. */
#define DEGREES(angle) ((angle) *180 / G_PI)
#define JOINT_PLAY     3.0

/* Laying lengths in the catalogue are for this bore. */
#define CATALOGUE_BORE_M 0.025

typedef struct {
  const Design *design;
  const Catalogue *catalogue;
  const NumberStyle *style;
  Plumbing *plumbing;
} Job;

/* A place along a run where a pipe ends. */
typedef struct {
  double station;
  double take_off; /* on either side; NAN where unknown */
  bool turns;
  char *name;
} Node;

static void
run_free (void *data)
{
  PlumbingRun *run = data;

  for (unsigned i = 0; i < run->pieces->len; i++)
    g_free (g_array_index (run->pieces, PipePiece, i).joins);
  g_array_unref (run->pieces);
  g_free (run->points);
  g_free (run);
}

static void
part_free (void *data)
{
  PlumbingPart *part = data;

  g_free (part->name);
  g_string_free (part->places, TRUE);
  g_array_unref (part->at);
  g_free (part);
}

/* Counts a part, with a row of its own where there is none of its name and size yet. */
static void
count_part (Job *job, const char *name, const PipeSize *size, unsigned count, const char *place,
            const Point3 *at)
{
  GPtrArray *parts = job->plumbing->parts;
  PlumbingPart *row = NULL;

  for (unsigned i = 0; i < parts->len && row == NULL; i++) {
    PlumbingPart *known = g_ptr_array_index (parts, i);

    if (known->size == size && g_str_equal (known->name, name))
      row = known;
  }
  if (row == NULL) {
    row = g_new0 (PlumbingPart, 1);
    row->item = job->plumbing->runs->len + parts->len + 1;
    row->name = g_strdup (name);
    row->size = size;
    row->places = g_string_new (NULL);
    row->at = g_array_new (FALSE, FALSE, sizeof (Point3));
    g_ptr_array_add (parts, row);
  }
  row->count += count;
  if (place != NULL)
    g_string_append_printf (row->places, "%s%s", row->places->len > 0 ? "; " : "", place);
  if (at != NULL)
    g_array_append_vals (row->at, at, 1);
}

static double
elbow_take_off (const PipeSize *size, bool right_angle)
{
  double length = 0;

  if (size == NULL || size->hose ||
      !take_off_elbow (size->key, size->standard, size->nominal_in, size->outside_m, right_angle, &length))
    return NAN;
  return length;
}

static void
add_node (GArray *nodes, double station, double take_off, bool turns, char *name)
{
  Node node = {station, take_off, turns, name};

  g_array_append_val (nodes, node);
}

/* The bend at inner point i, as a node and in the list of parts. */
static void
add_bend (Job *job, const PlumbingRun *run, unsigned i, double station, GArray *nodes)
{
  const Part *corner = design_child (job->design, part_key (run->part), PART_CORNER, i - 1);
  const double angle = DEGREES (geometry_bend (run->points, run->n_points, i));
  const int kind = corner != NULL ? design_choice (job->design, corner, FIELD_CORNER_BEND) : BEND_AUTO;
  g_autofree char *name = NULL;
  double take_off = NAN;
  unsigned count = 1;

  if (angle < 1)
    return;
  if (run->size != NULL && run->size->hose) {
    add_node (nodes, station, 0, true, g_strdup (_ ("bend in the hose")));
    return;
  }
  if (kind == BEND_SWEEP) {
    name = g_strdup_printf (_ ("Long sweep, %.0f°"), angle);
  } else if (kind == BEND_TWO_45) {
    name = g_strdup (_ ("Elbow, 45°"));
    count = 2;
  } else if (fabs (angle - 90) <= JOINT_PLAY) {
    name = g_strdup (_ ("Elbow, 90°"));
    take_off = elbow_take_off (run->size, true);
  } else if (fabs (angle - 45) <= JOINT_PLAY) {
    name = g_strdup (_ ("Elbow, 45°"));
    take_off = elbow_take_off (run->size, false);
  } else {
    name = g_strdup_printf (_ ("Bend of %.0f°, no stock elbow"), angle);
  }
  add_node (nodes, station, take_off, true, count == 2 ? g_strdup (_ ("Two elbows, 45°")) : g_strdup (name));
  count_part (job, name, run->size, count, NULL, NULL);
}

/* From the centre of a fitting to the bottom of its socket. */
static double
half_length (const FittingType *type, const PipeSize *size)
{
  return type != NULL && size != NULL ? type->length_m / 2 * size->inside_m / CATALOGUE_BORE_M : (double) NAN;
}

static void
add_fittings (Job *job, const PlumbingRun *run, GArray *nodes)
{
  g_autofree char *run_name = words_part (job->design, run->part);

  for (unsigned i = 0; i < design_n_children (job->design, part_key (run->part), PART_FITTING); i++) {
    const Part *fitting = design_child (job->design, part_key (run->part), PART_FITTING, i);
    const double station = MIN (design_number (job->design, fitting, FIELD_FITTING_STATION), run->length_m);
    const char *key = design_text (job->design, fitting, FIELD_FITTING_TYPE);
    const FittingType *type = catalogue_find_fitting (job->catalogue, key);
    const char *name = type != NULL ? _ (type->name) : key;
    g_autofree char *along = units_format (station, QUANTITY_LENGTH, job->style, NULL, UNITS_BUILD);
    g_autofree char *place = g_strdup_printf (C_ ("place along a run", "%s at %s"), run_name, along);
    unsigned segment;
    Point3 at = geometry_run_at (job->design, run->part, station, &segment);

    add_node (nodes, station, half_length (type, run->size), false, g_strdup (name));
    count_part (job, name, run->size, 1, place, &at);
  }
}

/* A drain that leaves its box through the floor needs a bulkhead there, whether it is listed as a fitting or not. */
static void
add_bulkhead (Job *job, const PlumbingRun *run, GArray *nodes)
{
  const Part *overflow = design_owner (job->design, run->part);
  const double floor = geometry_drain_box (job->design, overflow).origin.z;
  const Point3 *first = &run->points[0], *next = &run->points[1];
  const FittingType *bulkhead = NULL;
  g_autofree char *name = words_part (job->design, run->part);
  g_autofree char *place = g_strdup_printf (_ ("%s, floor of its box"), name);

  for (unsigned i = 0; i < catalogue_n_fittings (job->catalogue) && bulkhead == NULL; i++)
    if (catalogue_fitting (job->catalogue, i)->class_ == FITTING_CLASS_BULKHEAD)
      bulkhead = catalogue_fitting (job->catalogue, i);
  for (unsigned i = 0; i < design_n_children (job->design, part_key (run->part), PART_FITTING); i++) {
    const Part *fitting = design_child (job->design, part_key (run->part), PART_FITTING, i);
    const FittingType *type =
        catalogue_find_fitting (job->catalogue, design_text (job->design, fitting, FIELD_FITTING_TYPE));

    if (type != NULL && type->class_ == FITTING_CLASS_BULKHEAD)
      return;
  }
  if (run->n_points < 2 || first->z <= floor || next->z >= floor ||
      hypot (next->x - first->x, next->y - first->y) > 1e-3)
    return;
  add_node (nodes, first->z - floor, half_length (bulkhead, run->size), false, g_strdup (_ ("Bulkhead")));
  count_part (job, _ ("Bulkhead, hole from the part in hand"), run->size, 1, place,
              &(Point3){first->x, first->y, floor});
}

static int
by_station (const void *a, const void *b)
{
  const Node *first = a, *second = b;

  return first->station < second->station ? -1 : first->station > second->station;
}

static bool
starts_at_tee (const Design *design, const Part *run)
{
  const Part *owner = design_owner (design, run);

  return part_kind (run) == PART_RETURN && owner != NULL && part_kind (owner) == PART_TEE;
}

static void
add_end (Job *job, const PlumbingRun *run, GArray *nodes)
{
  const Part *target =
      part_kind (run->part) == PART_RETURN ? design_target (job->design, run->part, FIELD_RETURN_TO) : NULL;

  if (target == NULL)
    add_node (nodes, run->length_m, 0, false, g_strdup (_ ("open end")));
  else
    add_node (nodes, run->length_m, part_kind (target) == PART_TEE ? elbow_take_off (run->size, true) : 0,
              false, words_part (job->design, target));
}

/* Direction of a run on its way to a station. */
static void
set_direction (const PlumbingRun *run, double station, PipePiece *piece)
{
  double past = 0;

  for (unsigned i = 0; i + 1 < run->n_points; i++) {
    const Point3 *a = &run->points[i], *b = &run->points[i + 1];
    const double dx = b->x - a->x, dy = b->y - a->y, dz = b->z - a->z,
                 length = sqrt (dx * dx + dy * dy + dz * dz);

    if (length > 0 && (station <= past + length || i + 2 == run->n_points)) {
      piece->dx = dx / length;
      piece->dy = dy / length;
      piece->dz = dz / length;
      return;
    }
    past += length;
  }
}

static void
cut_run (Job *job, PlumbingRun *run)
{
  g_autoptr (GArray) nodes = g_array_new (FALSE, TRUE, sizeof (Node));
  double station = 0, from = 0,
         take_off = starts_at_tee (job->design, run->part) ? elbow_take_off (run->size, true) : 0;

  for (unsigned i = 1; i < run->n_points; i++) {
    const Point3 *a = &run->points[i - 1], *b = &run->points[i];

    station +=
        sqrt ((b->x - a->x) * (b->x - a->x) + (b->y - a->y) * (b->y - a->y) + (b->z - a->z) * (b->z - a->z));
    if (i + 1 < run->n_points)
      add_bend (job, run, i, station, nodes);
  }
  if (part_kind (run->part) == PART_DRAIN)
    add_bulkhead (job, run, nodes);
  add_fittings (job, run, nodes);
  g_array_sort (nodes, by_station);
  add_end (job, run, nodes);
  for (unsigned i = 0; i < nodes->len; i++) {
    Node *node = &g_array_index (nodes, Node, i);
    PipePiece piece = {.axis_m = node->station - from, .turns = node->turns, .joins = node->name};

    piece.cut_m = piece.axis_m - take_off - node->take_off;
    set_direction (run, (from + node->station) / 2, &piece);
    g_array_append_val (run->pieces, piece);
    from = node->station;
    take_off = node->take_off;
  }
}

static void
add_run (Job *job, const Part *part, FieldId size)
{
  PlumbingRun *run = g_new0 (PlumbingRun, 1);

  run->part = part;
  run->size = catalogue_find_pipe (job->catalogue, design_text (job->design, part, size));
  run->item = job->plumbing->runs->len + 1;
  run->n_points = geometry_run (job->design, part, NULL, 0);
  run->points = g_new0 (Point3, run->n_points);
  geometry_run (job->design, part, run->points, run->n_points);
  run->length_m = geometry_run_length (job->design, part);
  run->pieces = g_array_new (FALSE, FALSE, sizeof (PipePiece));
  g_ptr_array_add (job->plumbing->runs, run);
}

static void
add_strainer (Job *job, const PlumbingRun *run)
{
  const int entry = design_choice (job->design, run->part, FIELD_DRAIN_ENTRY);
  g_autofree char *name = words_part (job->design, run->part);

  if (entry == ENTRY_STRAINER || entry == ENTRY_STRAINER_HALF)
    count_part (job, _ ("Slotted strainer"), run->size, 1, name, &run->points[0]);
}

static void
add_tee (Job *job, const Part *tee)
{
  const PipeSize *size = NULL;
  g_autofree char *name = words_part (job->design, tee);
  Point3 at = {0};

  for (unsigned i = 0; i < job->plumbing->runs->len; i++) {
    const PlumbingRun *run = g_ptr_array_index (job->plumbing->runs, i);

    if (part_kind (run->part) == PART_RETURN &&
        design_target (job->design, run->part, FIELD_RETURN_TO) == tee) {
      size = run->size;
      at = run->points[run->n_points - 1];
    }
  }
  count_part (job, _ ("Tee"), size, 1, g_str_equal (name, _ ("Tee")) ? NULL : name, &at);
}

Plumbing *
plumbing_new (const Design *design, const Catalogue *catalogue, const NumberStyle *style)
{
  Plumbing *plumbing = g_new0 (Plumbing, 1);
  Job job = {design, catalogue, style, plumbing};

  plumbing->runs = g_ptr_array_new_with_free_func (run_free);
  plumbing->parts = g_ptr_array_new_with_free_func (part_free);
  for (unsigned i = 0; i < design_count (design, PART_DRAIN); i++)
    add_run (&job, design_nth (design, PART_DRAIN, i), FIELD_DRAIN_SIZE);
  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++)
    add_run (&job, design_nth (design, PART_RETURN, i), FIELD_RETURN_SIZE);
  for (unsigned i = 0; i < plumbing->runs->len; i++) {
    PlumbingRun *run = g_ptr_array_index (plumbing->runs, i);

    if (part_kind (run->part) == PART_DRAIN)
      add_strainer (&job, run);
    cut_run (&job, run);
  }
  for (unsigned i = 0; i < design_count (design, PART_TEE); i++)
    add_tee (&job, design_nth (design, PART_TEE, i));
  return plumbing;
}

void
plumbing_free (Plumbing *plumbing)
{
  if (plumbing == NULL)
    return;
  g_ptr_array_unref (plumbing->runs);
  g_ptr_array_unref (plumbing->parts);
  g_free (plumbing);
}
