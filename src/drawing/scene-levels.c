/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Levels: the ladder at the right margin, each rung with its height above the stand's floor and above the inside bottom
 * of its own vessel. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Where heights are counted from, and the vessel that they are counted in. */
typedef struct {
  Builder *b;
  double floor;  /* of the stand */
  double bottom; /* inside of the vessel, or NAN */
} Datum;

/* A level of a part that runs from x0 to x1. */
static void
add_rung (const Datum *datum, SceneRole role, int part, double x0, double x1, double z, const char *name,
          unsigned importance)
{
  Builder *b = datum->b;
  if (!isfinite (x0) || !isfinite (x1) || !isfinite (z))
    return;
  SceneItem item = {.shape = SHAPE_LEVEL, .role = role, .part = part, .text = name, .importance = importance};
  item.layer = role == ROLE_POWER_OFF ? LAYER_POWER_OFF : LAYER_LEVELS;
  item.value = length_text (b, z - datum->floor);
  if (isfinite (datum->bottom))
    item.own = length_text (b, z - datum->bottom);
  item.first = b->scene->points->len;
  item.n = 2;
  ScenePoint ends[] = {{x0, z}, {x1, z}};
  g_array_append_vals (b->scene->points, ends, 2);
  g_array_append_val (b->scene->items, item);
}

/* A translated phrase with the part's name in the place of its %s. */
static const char *
named (Builder *b, const char *phrase, const Part *part)
{
  GString *text = g_string_new (phrase);
  g_string_replace (text, "%s", short_name (b, part), 1);
  return take_text (b->scene, g_string_free (text, FALSE));
}

/* Several tanks are told apart by name. */
static void
tank_rungs (Builder *b, double floor, const Part *tank)
{
  bool several = design_count (b->design, PART_TANK) > 1;
  int part = part_index (b, tank);
  SceneBox in = seen (b, geometry_inside (b->design, tank));
  Datum datum = {b, floor, in.z0};
  add_rung (&datum, ROLE_LEVEL, part, in.x0, in.x1, in.z1, _ ("Rim"), several ? 40 : 60);
  add_rung (&datum, ROLE_SURFACE, part, in.x0, in.x1, b->readings.running_m[part],
            several ? named (b, _ ("%s, running"), tank) : _ ("Display, running"), 95);
  add_rung (&datum, ROLE_POWER_OFF, part, in.x0, in.x1, b->readings.off_m[part],
            several ? named (b, _ ("%s, power off"), tank) : _ ("Display, power off"), 55);
}

static void
overflow_rungs (Builder *b, double floor, const Part *overflow)
{
  int part = part_index (b, overflow);
  SceneBox box = seen (b, geometry_inside (b->design, overflow));
  SceneBox drained = seen (b, geometry_drain_box (b->design, overflow));
  Datum crest = {b, floor, geometry_datum (b->design, overflow)}, inside = {b, floor, drained.z0};
  add_rung (&crest, ROLE_LEVEL, part, box.x0, box.x1, geometry_crest (b->design, overflow), _ ("Crest"), 90);
  int kind = design_choice (b->design, overflow, FIELD_OVERFLOW_KIND);
  bool two = kind == OVERFLOW_PAIR || kind == OVERFLOW_HANG_OVER;
  if (kind == OVERFLOW_HANG_OVER) {
    add_rung (&inside, ROLE_LEVEL, part, drained.x0, drained.x1, geometry_seal (b->design, overflow),
              _ ("Seal"), 68);
    add_rung (&crest, ROLE_LEVEL, part, box.x0, box.x1, geometry_crown (b->design, overflow), _ ("Crown"),
              64);
  }
  double running = two ? b->readings.outer_running_m[part] : b->readings.running_m[part];
  add_rung (&inside, ROLE_SURFACE, part, drained.x0, drained.x1, running,
            design_count (b->design, PART_OVERFLOW) > 1 ? named (b, _ ("%s, running"), overflow)
                                                        : _ ("Box, running"),
            80);
  for (unsigned k = 0; k < design_n_children (b->design, part_key (overflow), PART_DRAIN); k++) {
    const Part *drain = design_child (b->design, part_key (overflow), PART_DRAIN, k);
    Point3 mouth[1];
    if (geometry_run (b->design, drain, mouth, 1) > 0) {
      double x = project (b, mouth[0]).x;
      add_rung (&inside, ROLE_LEVEL, part_index (b, drain), x, x, geometry_mouth (b->design, drain),
                named (b, _ ("Lip, %s"), drain), 65);
    }
  }
}

/* Neighbouring chambers at one level share a rung: only the last of them, the nearest to the margin, gets it. */
static bool
same_as_next (Builder *b, const Part *sump, unsigned i, const double *levels)
{
  if (i + 1 >= design_n_children (b->design, part_key (sump), PART_CHAMBER))
    return false;
  const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
  const Part *next = design_child (b->design, part_key (sump), PART_CHAMBER, i + 1);
  return fabs (levels[part_index (b, chamber)] - levels[part_index (b, next)]) < 1e-3;
}

static void
sump_rungs (Builder *b, double floor, const Part *sump)
{
  SceneBox in = seen (b, geometry_inside (b->design, sump));
  Datum datum = {b, floor, in.z0};
  add_rung (&datum, ROLE_LEVEL, part_index (b, sump), in.x0, in.x1, in.z1, _ ("Sump rim"), 70);
  for (unsigned i = 0; i < design_n_children (b->design, part_key (sump), PART_CHAMBER); i++) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
    int part = part_index (b, chamber);
    SceneBox room = seen (b, geometry_inside (b->design, chamber));
    bool pumped = design_choice (b->design, chamber, FIELD_CHAMBER_ROLE) == CHAMBER_RETURN;
    if (!same_as_next (b, sump, i, b->readings.running_m))
      add_rung (&datum, ROLE_SURFACE, part, room.x0, room.x1, b->readings.running_m[part],
                named (b, _ ("%s, running"), chamber), pumped ? 94 : 72);
    if (!same_as_next (b, sump, i, b->readings.off_m))
      add_rung (&datum, ROLE_POWER_OFF, part, room.x0, room.x1, b->readings.off_m[part],
                named (b, _ ("%s, power off"), chamber), pumped ? 88 : 58);
  }
}

void
build_levels (Builder *b)
{
  const Part *stand = design_nth (b->design, PART_STAND, 0);
  double floor = stand != NULL ? geometry_inside (b->design, stand).origin.z : 0;
  g_autofree char *unit = units_symbol (units_unit_for (QUANTITY_LENGTH, &b->style), &b->style);
  /* Translators: %s is a unit of length. Head of two columns of levels: above the stand's floor, above the vessel's bottom. */
  b->scene->level_head =
      take_text (b->scene, g_strdup_printf (_ ("Levels, %s: over floor, over own bottom"), unit));
  if (b->options.kind == SCENE_STAND || !is_elevation (b))
    return;
  if (b->options.kind == SCENE_SYSTEM) {
    for (unsigned i = 0; i < design_count (b->design, PART_TANK); i++)
      tank_rungs (b, floor, design_nth (b->design, PART_TANK, i));
    for (unsigned i = 0; i < design_count (b->design, PART_OVERFLOW); i++)
      overflow_rungs (b, floor, design_nth (b->design, PART_OVERFLOW, i));
  }
  for (unsigned i = 0; i < design_count (b->design, PART_SUMP); i++)
    sump_rungs (b, floor, design_nth (b->design, PART_SUMP, i));
}
