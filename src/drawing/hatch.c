/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Materials. On a screen a flat tone with sparse hatching in the hair colour for what is cut; on paper hatching alone,
 * after ISO 128-3 where it names a pattern and in the usual manner of each trade else: glass by groups of three short
 * strokes, plastics by crossed lines, timber by lines along 45 degrees, water by broken level lines, the ground by groups of strokes.
 * Spacing belongs to the view, so that a pattern stays the same at every scale. */
#include "drawing/painter-private.h"

#include <math.h>

#define MAX_STROKES 600

static void
flat (const Paint *paint, Color color)
{
  color_set (paint->cr, color);
  cairo_fill_preserve (paint->cr);
}

/* Parallel lines over the clip, `pitch` apart, at 45 degrees (rising with `sign` 1); in groups of `group` lines a
 * quarter of the pitch apart. */
static void
slanted (const Paint *paint, double pitch, int sign, unsigned group)
{
  double x0, y0, x1, y1;
  cairo_clip_extents (paint->cr, &x0, &y0, &x1, &y1);
  double height = y1 - y0, run = x1 - x0 + height;
  if (run / pitch > MAX_STROKES)
    pitch = run / MAX_STROKES;
  /* The phase hangs on the scene, so that the pattern moves with it. */
  double phase = paint->view->origin_x + sign * paint->view->origin_y;
  double base = sign > 0 ? x0 + y0 : x0 - y1;
  double first = floor ((base - phase) / pitch) * pitch + phase;
  for (double c = first; c <= base + run + pitch; c += pitch)
    for (unsigned k = 0; k < group; k++) {
      double at = c + k * pitch / 4;
      if (sign > 0) { /* x + y = at */
        cairo_move_to (paint->cr, at - y0, y0);
        cairo_line_to (paint->cr, at - y1, y1);
      } else { /* x - y = at */
        cairo_move_to (paint->cr, at + y0, y0);
        cairo_line_to (paint->cr, at + y1, y1);
      }
    }
}

/* Broken level lines, every other row shifted. */
static void
level_dashes (const Paint *paint, double pitch, double dash)
{
  double x0, y0, x1, y1;
  cairo_clip_extents (paint->cr, &x0, &y0, &x1, &y1);
  double phase_x = paint->view->origin_x, phase_y = paint->view->origin_y;
  if ((y1 - y0) / pitch * (x1 - x0) / dash > 20.0 * MAX_STROKES)
    return;
  double row = floor ((y0 - phase_y) / pitch);
  for (double y = row * pitch + phase_y; y <= y1; y += pitch, row++) {
    double shift = fmod (fabs (row), 2) * 1.5 * dash;
    double first = floor ((x0 - phase_x - shift) / (3 * dash)) * 3 * dash + phase_x + shift;
    for (double x = first; x <= x1; x += 3 * dash) {
      cairo_move_to (paint->cr, x, y);
      cairo_line_to (paint->cr, x + dash, y);
    }
  }
}

/* Scattered points, the same at every redraw. */
static void
grains (const Paint *paint, double pitch)
{
  double x0, y0, x1, y1;
  cairo_clip_extents (paint->cr, &x0, &y0, &x1, &y1);
  double phase_x = paint->view->origin_x, phase_y = paint->view->origin_y;
  double first_column = floor ((x0 - phase_x) / pitch), last_column = ceil ((x1 - phase_x) / pitch);
  double first_row = floor ((y0 - phase_y) / pitch), last_row = ceil ((y1 - phase_y) / pitch);
  if ((last_column - first_column) * (last_row - first_row) > 20.0 * MAX_STROKES)
    return;
  for (double row = first_row; row <= last_row; row++)
    for (double column = first_column; column <= last_column; column++) {
      guint hash = (guint) ((gint64) row * 73856093) ^ (guint) ((gint64) column * 19349663);
      hash ^= hash >> 13;
      hash *= 0x5bd1e995u;
      double x = phase_x + (column + (hash >> 8 & 0xff) / 255.0) * pitch;
      double y = phase_y + (row + (hash >> 16 & 0xff) / 255.0) * pitch;
      cairo_move_to (paint->cr, x, y);
      cairo_line_to (paint->cr, x + 0.01 * pitch, y);
    }
}

static void
hatch (const Paint *paint, SceneMaterial material)
{
  double unit = paint->view->text;
  switch (material) {
  case MATERIAL_GLASS:
    slanted (paint, 1.3 * unit, 1, 3);
    break;
  case MATERIAL_PLASTIC:
    slanted (paint, 0.5 * unit, 1, 1);
    slanted (paint, 0.5 * unit, -1, 1);
    break;
  case MATERIAL_TIMBER:
    slanted (paint, 0.55 * unit, 1, 1);
    break;
  case MATERIAL_GROUND:
    slanted (paint, 1.1 * unit, 1, 3);
    break;
  case MATERIAL_WATER:
    level_dashes (paint, 1.1 * unit, 1.0 * unit);
    break;
  case MATERIAL_WATER_OFF:
    level_dashes (paint, 0.55 * unit, 0.35 * unit);
    break;
  case MATERIAL_SAND:
    grains (paint, 0.5 * unit);
    break;
  case MATERIAL_ROCK:
    slanted (paint, 1.6 * unit, -1, 1);
    break;
  case MATERIAL_SOCK:
    slanted (paint, 0.5 * unit, 1, 1);
    slanted (paint, 0.5 * unit, -1, 1);
    break;
  case MATERIAL_NONE:
  case MATERIAL_BLANK:
  case N_SCENE_MATERIALS:
    break;
  }
}

static Color
tone (const Palette *p, SceneMaterial material)
{
  switch (material) {
  case MATERIAL_WATER:
    return p->water;
  case MATERIAL_WATER_OFF:
    return p->water_off;
  case MATERIAL_SAND:
    return p->sand;
  case MATERIAL_ROCK:
    return p->rock;
  case MATERIAL_TIMBER:
  case MATERIAL_PLASTIC:
  case MATERIAL_GLASS:
  case MATERIAL_SOCK:
    return p->solid;
  case MATERIAL_NONE:
  case MATERIAL_BLANK:
  case MATERIAL_GROUND:
  case N_SCENE_MATERIALS:
    break;
  }
  return p->sheet;
}

void
paint_material (const Paint *paint, SceneMaterial material)
{
  const Palette *p = paint->palette;
  bool tinted = !p->hatched && (material == MATERIAL_WATER || material == MATERIAL_WATER_OFF ||
                                material == MATERIAL_ROCK || material == MATERIAL_BLANK);
  if (material != MATERIAL_GROUND)
    flat (paint, tone (p, material));
  if (!tinted && material != MATERIAL_BLANK) {
    cairo_save (paint->cr);
    cairo_clip (paint->cr);
    hatch (paint, material);
    cairo_set_dash (paint->cr, NULL, 0, 0);
    color_set (paint->cr, p->hair);
    if (p->hatched)
      color_set (paint->cr, p->ink);
    bool dots = material == MATERIAL_SAND;
    cairo_set_line_cap (paint->cr, dots ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_width (paint->cr, (dots ? 0.8 : p->hatched ? 0.3 : 0.5) * paint->view->line);
    if (dots && !p->hatched)
      color_set (paint->cr, p->soft);
    cairo_stroke (paint->cr);
    cairo_restore (paint->cr);
  }
  cairo_new_path (paint->cr);
}
