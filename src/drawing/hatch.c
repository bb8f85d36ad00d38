/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Materials. On a screen a flat tone with sparse hatching in the hair colour for what is cut; on paper hatching alone,
 * after ISO 128-3 where it names a pattern and in the usual manner of each trade else: glass by groups of three short
 * strokes, plastics by crossed lines, timber by lines along 45 degrees, water by broken level lines, the ground by groups of strokes.
 * Spacing belongs to the view, so that a pattern stays the same at every scale. */
#include "drawing/painter-private.h"

#include <math.h>

#define MAX_STROKES 600

/* Water lets what stands behind it show through, and has its exact tint over the bare sheet. */
#define WATER_OPACITY 0.62

static double
over_sheet (double wanted, double sheet)
{
  return CLAMP ((wanted - (1 - WATER_OPACITY) * sheet) / WATER_OPACITY, 0, 1);
}

static void
flat (const Paint *paint, Color color, bool clear)
{
  Color sheet = paint->palette->sheet;
  if (clear && paint->palette->hatched)
    return;
  if (clear)
    cairo_set_source_rgba (paint->cr, over_sheet (color.red, sheet.red),
                           over_sheet (color.green, sheet.green), over_sheet (color.blue, sheet.blue),
                           WATER_OPACITY);
  else
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
  case MATERIAL_PIPE:
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
  case MATERIAL_PIPE:
    return p->solid;
  case MATERIAL_NONE:
  case MATERIAL_BLANK:
  case MATERIAL_GROUND:
  case N_SCENE_MATERIALS:
    break;
  }
  return p->sheet;
}

static bool
is_water (SceneMaterial material)
{
  return material == MATERIAL_WATER || material == MATERIAL_WATER_OFF;
}

/* On a screen the tones of water and rock say enough. */
static bool
has_hatching (const Palette *palette, SceneMaterial material)
{
  if (material == MATERIAL_NONE || material == MATERIAL_BLANK || material == MATERIAL_PIPE)
    return false;
  return palette->hatched || (!is_water (material) && material != MATERIAL_ROCK);
}

/* The lines of a material over the clip, in the colour and width of hatching. */
static void
stroke_hatching (const Paint *paint, SceneMaterial material)
{
  const Palette *p = paint->palette;
  cairo_t *cr = paint->cr;
  bool dots = material == MATERIAL_SAND;
  cairo_new_path (cr);
  hatch (paint, material);
  cairo_set_dash (cr, NULL, 0, 0);
  color_set (cr, p->hatched ? p->ink : dots ? p->soft : p->hair);
  cairo_set_line_cap (cr, dots ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_width (cr, (dots ? 0.8 : p->hatched ? 0.3 : 0.5) * paint->view->line);
  cairo_stroke (cr);
}

/* Period of a pattern both ways, in sizes of text. */
static double
period (SceneMaterial material)
{
  switch (material) {
  case MATERIAL_GLASS:
    return 1.3;
  case MATERIAL_TIMBER:
    return 0.55;
  case MATERIAL_GROUND:
    return 1.1;
  case MATERIAL_PLASTIC:
  case MATERIAL_SOCK:
  case MATERIAL_SAND:
    return 0.5;
  case MATERIAL_WATER:
  case MATERIAL_WATER_OFF:
  case MATERIAL_ROCK:
  case MATERIAL_NONE:
  case MATERIAL_BLANK:
  case MATERIAL_PIPE:
  case N_SCENE_MATERIALS:
    break;
  }
  return 1;
}

/* A square of whole device pixels that holds whole periods: the text size is stretched by a fraction of a pixel. */
static cairo_pattern_t *
make_tile (const Paint *paint, SceneMaterial material)
{
  double scale = paint->view->device_scale;
  double pixels = MAX (1, round (period (material) * paint->view->text * scale));
  int periods = material == MATERIAL_SAND ? 16 : (int) MAX (1, ceil (24 / pixels));
  int side = (int) pixels * periods;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, side, side);
  DrawingView view = *paint->view;
  view.origin_x = view.origin_y = 0;
  view.text = pixels / period (material) / scale;
  Paint tile = *paint;
  tile.view = &view;
  tile.cr = cairo_create (surface);
  cairo_scale (tile.cr, scale, scale);
  stroke_hatching (&tile, material);
  cairo_destroy (tile.cr);
  cairo_pattern_t *pattern = cairo_pattern_create_for_surface (surface);
  cairo_surface_destroy (surface);
  cairo_pattern_set_extend (pattern, CAIRO_EXTEND_REPEAT);
  cairo_pattern_set_filter (pattern, CAIRO_FILTER_NEAREST);
  cairo_matrix_t matrix;
  cairo_matrix_init_scale (&matrix, scale, scale);
  cairo_matrix_translate (&matrix, -round (paint->view->origin_x * scale) / scale,
                          -round (paint->view->origin_y * scale) / scale);
  cairo_pattern_set_matrix (pattern, &matrix);
  return pattern;
}

void
tiles_clear (Tiles *tiles)
{
  for (unsigned i = 0; i < N_SCENE_MATERIALS; i++)
    g_clear_pointer (&tiles->tiles[i], cairo_pattern_destroy);
}

void
paint_material (const Paint *paint, SceneMaterial material)
{
  const Palette *p = paint->palette;
  cairo_t *cr = paint->cr;
  if (material != MATERIAL_GROUND)
    flat (paint, tone (p, material), is_water (material));
  if (has_hatching (p, material) && paint->tiles != NULL) {
    if (paint->tiles->tiles[material] == NULL)
      paint->tiles->tiles[material] = make_tile (paint, material);
    cairo_set_source (cr, paint->tiles->tiles[material]);
    cairo_fill (cr);
  } else if (has_hatching (p, material)) {
    cairo_save (cr);
    cairo_clip (cr);
    stroke_hatching (paint, material);
    cairo_restore (cr);
  }
  cairo_new_path (cr);
}
