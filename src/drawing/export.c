/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/export.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <glib/gi18n-lib.h>

#include "drawing/painter.h"

GQuark
drawing_error_quark (void)
{
  return g_quark_from_static_string ("downcomer-drawing-error");
}

static bool
check (cairo_status_t status, const char *path, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return true;
  g_set_error (error, DRAWING_ERROR, DRAWING_ERROR_WRITE, _ ("The drawing could not be written to “%s”: %s."),
               path, cairo_status_to_string (status));
  return false;
}

static void
paint (cairo_surface_t *surface, const Scene *scene, const Palette *palette, const DrawingView *empty,
       bool paper)
{
  g_autoptr (TextEngine) engine = text_engine_new (paper);
  DrawingView view = layout_fit (scene, empty, engine);
  g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
  cairo_t *cr = cairo_create (surface);
  painter_draw_base (cr, scene, layout, &view, palette, engine);
  cairo_destroy (cr);
}

/* Paints, closes and frees a vector surface; its status after closing tells whether all reached the file. */
static bool
finish (cairo_surface_t *surface, const Scene *scene, const Palette *palette, double width, double height,
        const char *path, GError **error)
{
  DrawingView view = drawing_view_paper (width, height);
  if (cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS) {
    paint (surface, scene, palette, &view, true);
    cairo_surface_finish (surface);
  }
  cairo_status_t status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return check (status, path, error);
}

bool
drawing_to_pdf (const Scene *scene, const Palette *palette, double width, double height, const char *path,
                GError **error)
{
  return finish (cairo_pdf_surface_create (path, width, height), scene, palette, width, height, path, error);
}

bool
drawing_to_svg (const Scene *scene, const Palette *palette, double width, double height, const char *path,
                GError **error)
{
  return finish (cairo_svg_surface_create (path, width, height), scene, palette, width, height, path, error);
}

bool
drawing_to_png (const Scene *scene, const Palette *palette, int width, int height, double scale,
                const char *path, GError **error)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_surface_set_device_scale (surface, scale, scale);
  DrawingView view = drawing_view_screen (width / scale, height / scale, scale);
  cairo_status_t status = cairo_surface_status (surface);
  if (status == CAIRO_STATUS_SUCCESS) {
    paint (surface, scene, palette, &view, false);
    status = cairo_surface_write_to_png (surface, path);
  }
  cairo_surface_destroy (surface);
  return check (status, path, error);
}
