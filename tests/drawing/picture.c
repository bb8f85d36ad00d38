/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/drawing/picture.h"

#include <stdlib.h>

cairo_surface_t *
picture_of (const Scene *scene, const DrawingView *view, PaletteKind palette, int offset)
{
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Layout) layout = layout_new (scene, view, engine, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) view->width + 2 * offset,
                                                         (int) view->height + 2 * offset);
  cairo_t *cr = cairo_create (surface);
  cairo_translate (cr, offset, offset);
  painter_draw_base (cr, scene, layout, view, palette_get (palette), engine);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

unsigned
picture_difference (cairo_surface_t *a, cairo_surface_t *b, int offset, int tolerance)
{
  const unsigned char *first = cairo_image_surface_get_data (a), *second = cairo_image_surface_get_data (b);
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a);
  int first_stride = cairo_image_surface_get_stride (a), second_stride = cairo_image_surface_get_stride (b);
  unsigned different = 0;
  g_assert_cmpint (cairo_image_surface_get_width (b), >=, width + offset);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++) {
      const unsigned char *p = first + y * first_stride + 4 * x;
      const unsigned char *q = second + (y + offset) * second_stride + 4 * (x + offset);
      bool same = true;
      for (int k = 0; k < 3; k++)
        same = same && abs (p[k] - q[k]) <= tolerance;
      different += !same;
    }
  return different;
}
