/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Draws the fixture: `draw-fixture dump KIND WATER [VIEW]` writes the text of its scene (how the files in golden/ are made), and
 * `draw-fixture png OUT PALETTE WIDTH HEIGHT SCALE [KIND [X Z ZOOM]]` a picture, zoomed about a place in metres;
 * KIND may be KIND:VIEW, a number of SceneProjection, and KIND `many` is the design of 200 parts; `draw-fixture chart OUT PALETTE` the chart of pumps. */
#include "tests/drawing/fixture.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "drawing/painter.h"

static int
draw (int argc, char **argv)
{
  double width = g_ascii_strtod (argv[4], NULL), height = g_ascii_strtod (argv[5], NULL);
  double scale = g_ascii_strtod (argv[6], NULL);
  PaletteKind kind = (PaletteKind) atoi (argv[3]);
  bool paper = kind == PALETTE_PAPER;
  const char *view_number = argc > 7 ? strchr (argv[7], ':') : NULL;
  SceneProjection projection = (SceneProjection) (view_number != NULL ? atoi (view_number + 1) : 0);
  g_autoptr (Scene) scene =
      argc > 7 && argv[7][0] == 'm'
          ? fixture_many_view (projection)
          : fixture_view (argc > 7 ? (SceneKind) atoi (argv[7]) : SCENE_SYSTEM, projection, true);
  g_autoptr (TextEngine) engine = text_engine_new (paper);
  DrawingView view = paper ? drawing_view_paper (width, height) : drawing_view_screen (width, height, scale);
  view = layout_fit (scene, &view, engine);
  if (argc > 10) {
    double x = view_x (&view, g_ascii_strtod (argv[8], NULL)),
           y = view_y (&view, g_ascii_strtod (argv[9], NULL));
    view = drawing_view_zoom (&view, x, y, g_ascii_strtod (argv[10], NULL));
    view.origin_x = round (view.origin_x + width / 2 - x);
    view.origin_y = round (view.origin_y + height / 2 - y);
  }
  g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
  cairo_surface_t *surface =
      cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (width * scale), (int) (height * scale));
  cairo_surface_set_device_scale (surface, scale, scale);
  cairo_t *cr = cairo_create (surface);
  painter_draw_base (cr, scene, layout, &view, palette_get (kind), engine);
  if (argc > 11) {
    PainterGuide guide = {AXIS_Z, 0.4};
    PainterOverlay overlay = {.hovered = -1, .selected = -1, .dragged = 0, .n_guides = 1, .guides = &guide};
    for (int i = 0; i < (int) scene_n_parts (scene); i++)
      if (strcmp (scene_part_key (scene, i), argv[11]) == 0)
        overlay.selected = i;
    overlay.live = "412 mm";
    overlay.live_x = width / 2;
    overlay.live_y = height / 2;
    painter_draw_overlay (cr, scene, &view, palette_get (kind), engine, &overlay);
  }
  cairo_status_t status = cairo_surface_write_to_png (surface, argv[2]);
  printf ("%s, %u texts left out\n", cairo_status_to_string (status), layout->n_dropped);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return status == CAIRO_STATUS_SUCCESS ? 0 : 1;
}

static int
draw_chart (char **argv)
{
  double scale = 2, width = 760, height = 460;
  g_autoptr (TextEngine) engine = text_engine_new (false);
  DrawingView view = drawing_view_screen (width, height, scale);
  NumberStyle style = number_style_metric ();
  cairo_surface_t *surface =
      cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (width * scale), (int) (height * scale));
  cairo_surface_set_device_scale (surface, scale, scale);
  cairo_t *cr = cairo_create (surface);
  chart_paint (cr, fixture_chart (), &view, palette_get ((PaletteKind) atoi (argv[3])), &style, engine);
  cairo_status_t status = cairo_surface_write_to_png (surface, argv[2]);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return status == CAIRO_STATUS_SUCCESS ? 0 : 1;
}

int
main (int argc, char **argv)
{
  if (argc >= 7 && strcmp (argv[1], "png") == 0)
    return draw (argc, argv);
  if (argc == 4 && strcmp (argv[1], "chart") == 0)
    return draw_chart (argv);
  if (argc < 4 || argc > 5 || strcmp (argv[1], "dump") != 0)
    return 64;
  g_autoptr (Scene) scene = fixture_view (
      (SceneKind) atoi (argv[2]), (SceneProjection) (argc > 4 ? atoi (argv[4]) : 0), atoi (argv[3]) != 0);
  g_autofree char *text = scene_dump (scene);
  fputs (text, stdout);
  return 0;
}
