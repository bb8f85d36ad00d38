/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What is written beside pipes: how much moves through them, how fast and how it sounds; for the plumber also what pipe it
 * is, how long from corner to corner, and where it falls. */
#include "drawing/scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A piece that rises or falls less than this along its way is laid with a fall, not meant as a slope of its own. */
#define STEEPEST_FALL 0.35

const char *
run_title (Builder *b, const Part *run)
{
  const char *name = part_name (b, run);
  PipeSize size = run_size (b, run);
  if (b->options.projection != PROJECTION_ISOMETRIC || size.name == NULL)
    return name;
  /* Translators: the name of a pipe run and its size. */
  return take_text (b->scene, g_strdup_printf (_ ("%s, %s"), name, _ (size.name)));
}

/* The word is what tells a quiet pipe from one that gulps; the texture of its water says the same. */
static const char *
sound_of (PipeTexture texture, bool drain)
{
  if (!drain)
    return NULL;
  switch (texture) {
  case TEXTURE_QUIET:
    return C_ ("water in a drain", "quiet");
  case TEXTURE_GULPING:
    return C_ ("water in a drain", "gulping");
  case TEXTURE_PRIMED:
    return C_ ("water in a drain", "full");
  case TEXTURE_NONE:
    break;
  }
  return NULL;
}

static void
annotate_flow (Builder *b, const Part *run, int part, const ScenePoint *path, unsigned n)
{
  if (!(b->readings.velocity_ms[part] > 1e-4) || !(b->readings.flow_m3s[part] > 0))
    return;
  g_autofree char *flow =
      units_format (b->readings.flow_m3s[part], QUANTITY_FLOW, &b->style, NULL, UNITS_MEASURE);
  g_autofree char *velocity =
      units_format (b->readings.velocity_ms[part], QUANTITY_VELOCITY, &b->style, NULL, UNITS_MEASURE);
  const char *sound = b->readings.backwards[part]
                          ? C_ ("water in a return run", "runs back")
                          : sound_of (b->readings.texture[part], part_kind (run) == PART_DRAIN);
  char *text = sound != NULL ? g_strdup_printf ("%s · %s · %s", flow, velocity, sound)
                             : g_strdup_printf ("%s · %s", flow, velocity);
  SceneItem *label = add_label (b, part, ANCHOR_PATH, path, n, take_text (b->scene, text),
                                b->options.projection == PROJECTION_ISOMETRIC ? 56 : 44);
  if (label != NULL)
    label->layer = LAYER_FLOW;
}

/* Lengths from corner to corner on the pipe's axis, each along its piece, and the fall of what is laid nearly level. */
static void
annotate_lengths (Builder *b, const Part *run, int part)
{
  Point3 space[MAX_RUN_POINTS];
  unsigned n = MIN (geometry_run (b->design, run, space, MAX_RUN_POINTS), MAX_RUN_POINTS);
  double outside = run_size (b, run).outside_m;
  for (unsigned i = 1; i < n; i++) {
    Point3 d = {space[i].x - space[i - 1].x, space[i].y - space[i - 1].y, space[i].z - space[i - 1].z};
    double level = hypot (d.x, d.y), length = hypot (level, d.z);
    if (!(length > 1.5 * outside))
      continue;
    ScenePoint ends[] = {project (b, space[i - 1]), project (b, space[i])};
    const char *text = length_text (b, length);
    bool falls = fabs (d.z) > 1e-4 && fabs (d.z) < STEEPEST_FALL * level;
    if (falls) {
      g_autofree char *percent =
          units_format (fabs (d.z) / level, QUANTITY_RATIO, &b->style, NULL, UNITS_MEASURE);
      /* Translators: length of a pipe, then how much it falls or rises along its way, in per cent. */
      text = take_text (b->scene, d.z < 0 ? g_strdup_printf (_ ("%s, falls %s"), text, percent)
                                          : g_strdup_printf (_ ("%s, rises %s"), text, percent));
    }
    SceneItem *label = add_label (b, part, ANCHOR_PATH, ends, 2, text, falls ? 60 : 57);
    if (label != NULL)
      label->layer = LAYER_DIMENSIONS;
  }
}

void
annotate_run (Builder *b, const Part *run, const ScenePoint *path, unsigned n)
{
  int part = part_index (b, run);
  annotate_flow (b, run, part, path, n);
  if (b->options.projection == PROJECTION_ISOMETRIC)
    annotate_lengths (b, run, part);
}

void
build_end_on (Builder *b, int part, ScenePoint at, double outside_m, int toward)
{
  enum { STEPS = 20 };
  ScenePoint circle[STEPS];
  double r = outside_m / 2, mark = 0.45 * r;
  for (unsigned i = 0; i < STEPS; i++)
    circle[i] = (ScenePoint){at.x + r * cos (2 * G_PI * i / STEPS), at.z + r * sin (2 * G_PI * i / STEPS)};
  add_area (b, ROLE_PIPE, LAYER_BODY, part, MATERIAL_BLANK, circle, STEPS);
  add_arc (b, ROLE_PIPE, LAYER_BODY, part, at.x, at.z, r, 0, 2 * G_PI);
  /* The head of an arrow that comes, or the feathers of one that goes. */
  if (toward > 0)
    add_arc (b, ROLE_CHEVRON, LAYER_FLOW, part, at.x, at.z, 0.3 * mark, 0, 2 * G_PI);
  if (toward < 0) {
    add_segment (b, ROLE_CHEVRON, LAYER_FLOW, part, at.x - mark, at.z - mark, at.x + mark, at.z + mark);
    add_segment (b, ROLE_CHEVRON, LAYER_FLOW, part, at.x - mark, at.z + mark, at.x + mark, at.z - mark);
  }
}
