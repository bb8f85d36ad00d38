/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Levels: the ladder at the right margin, each rung with its height above the stand's floor and above the inside bottom
 * of its own vessel. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

typedef struct {
  int part;
  SceneLayer layer;
  SceneRole role;
  double x, z;
  double bottom; /* of the vessel that it belongs to, or NAN */
  const char *name;
  unsigned importance;
} Rung;

static void
add_rung (Builder *b, double floor, const Rung *rung)
{
  if (!isfinite (rung->x) || !isfinite (rung->z))
    return;
  SceneItem item = {.shape = SHAPE_LEVEL, .role = rung->role, .layer = rung->layer, .part = rung->part};
  item.importance = rung->importance;
  item.text = rung->name;
  item.value = length_text (b, rung->z - floor);
  if (isfinite (rung->bottom))
    item.own = length_text (b, rung->z - rung->bottom);
  item.first = b->scene->points->len;
  item.n = 1;
  ScenePoint at = {rung->x, rung->z};
  g_array_append_val (b->scene->points, at);
  g_array_append_val (b->scene->items, item);
}

/* A translated phrase with the part's name in the place of its %s. */
static const char *
named (Builder *b, const char *phrase, const Part *part)
{
  GString *text = g_string_new (phrase);
  g_string_replace (text, "%s", part_name (b, part), 1);
  return take_text (b->scene, g_string_free (text, FALSE));
}

static void
tank_rungs (Builder *b, double floor)
{
  const Part *tank = design_nth (b->design, PART_TANK, 0);
  if (tank == NULL)
    return;
  int part = part_index (b, tank);
  SceneBox in = front_of (geometry_inside (b->design, tank));
  Rung rim = {part, LAYER_LEVELS, ROLE_LEVEL, in.x1, in.z1, in.z0, _ ("Rim"), 60};
  add_rung (b, floor, &rim);
  Rung running = {
      part, LAYER_LEVELS, ROLE_SURFACE, in.x1, b->readings.running_m[part], in.z0, _ ("Display, running"),
      95};
  add_rung (b, floor, &running);
  Rung off = {
      part, LAYER_POWER_OFF, ROLE_POWER_OFF, in.x1, b->readings.off_m[part], in.z0, _ ("Display, power off"),
      55};
  add_rung (b, floor, &off);
}

static void
overflow_rungs (Builder *b, double floor)
{
  for (unsigned i = 0; i < design_count (b->design, PART_OVERFLOW); i++) {
    const Part *overflow = design_nth (b->design, PART_OVERFLOW, i);
    int part = part_index (b, overflow);
    SceneBox in = front_of (geometry_drain_box (b->design, overflow));
    Rung crest = {part,         LAYER_LEVELS, ROLE_LEVEL, in.x1, geometry_crest (b->design, overflow),
                  (double) NAN, _ ("Crest"),  90};
    add_rung (b, floor, &crest);
    Rung box = {
        part, LAYER_LEVELS, ROLE_SURFACE, in.x1, b->readings.running_m[part], in.z0, _ ("Box, running"), 80};
    add_rung (b, floor, &box);
    for (unsigned k = 0; k < design_n_children (b->design, part_key (overflow), PART_DRAIN); k++) {
      const Part *drain = design_child (b->design, part_key (overflow), PART_DRAIN, k);
      Point3 mouth[1];
      if (geometry_run (b->design, drain, mouth, 1) < 1)
        continue;
      Rung lip = {part_index (b, drain),
                  LAYER_LEVELS,
                  ROLE_LEVEL,
                  mouth[0].x,
                  geometry_mouth (b->design, drain),
                  in.z0,
                  named (b, _ ("Lip, %s"), drain),
                  65};
      add_rung (b, floor, &lip);
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
sump_rungs (Builder *b, const Part *sump, double floor)
{
  int index = part_index (b, sump);
  SceneBox in = front_of (geometry_inside (b->design, sump));
  Rung rim = {index, LAYER_LEVELS, ROLE_LEVEL, in.x1, in.z1, in.z0, _ ("Sump rim"), 70};
  add_rung (b, floor, &rim);
  for (unsigned i = 0; i < design_n_children (b->design, part_key (sump), PART_CHAMBER); i++) {
    const Part *chamber = design_child (b->design, part_key (sump), PART_CHAMBER, i);
    int part = part_index (b, chamber);
    SceneBox room = front_of (geometry_inside (b->design, chamber));
    bool pumped = design_choice (b->design, chamber, FIELD_CHAMBER_ROLE) == CHAMBER_RETURN;
    if (!same_as_next (b, sump, i, b->readings.running_m)) {
      Rung running = {part,
                      LAYER_LEVELS,
                      ROLE_SURFACE,
                      room.x1,
                      b->readings.running_m[part],
                      in.z0,
                      named (b, _ ("%s, running"), chamber),
                      pumped ? 94 : 72};
      add_rung (b, floor, &running);
    }
    if (!same_as_next (b, sump, i, b->readings.off_m)) {
      Rung off = {part,
                  LAYER_POWER_OFF,
                  ROLE_POWER_OFF,
                  room.x1,
                  b->readings.off_m[part],
                  in.z0,
                  named (b, _ ("%s, power off"), chamber),
                  pumped ? 88 : 58};
      add_rung (b, floor, &off);
    }
  }
}

void
build_levels (Builder *b)
{
  const Part *stand = design_nth (b->design, PART_STAND, 0);
  double floor = stand != NULL ? geometry_inside (b->design, stand).origin.z : 0;
  if (b->options.kind == SCENE_STAND)
    return;
  if (b->options.kind == SCENE_SYSTEM) {
    tank_rungs (b, floor);
    overflow_rungs (b, floor);
  }
  for (unsigned i = 0; i < design_count (b->design, PART_SUMP); i++)
    sump_rungs (b, design_nth (b->design, PART_SUMP, i), floor);
}
