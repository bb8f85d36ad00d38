/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/view.h"

#include <glib.h>

DrawingView
drawing_view_screen (double width, double height, double device_scale)
{
  return (DrawingView){.scale = 1,
                       .width = width,
                       .height = height,
                       .text = 12,
                       .line = 1.6,
                       .device_scale = device_scale,
                       .layers = ALL_LAYERS};
}

DrawingView
drawing_view_paper (double width, double height)
{
  /* ISO 128-2 line group 0.35: wide 0.35 mm, narrow 0.18 mm. Letters: 8.5 pt stand 2.2 mm with capitals of Inter at 0.73. */
  return (DrawingView){.scale = 1,
                       .width = width,
                       .height = height,
                       .text = 9.8,
                       .line = 0.35 * 72 / 25.4,
                       .layers = ALL_LAYERS};
}

double
view_x (const DrawingView *view, double x_m)
{
  return view->origin_x + x_m * view->scale;
}

double
view_y (const DrawingView *view, double z_m)
{
  return view->origin_y - z_m * view->scale;
}

double
view_to_x (const DrawingView *view, double x)
{
  return (x - view->origin_x) / view->scale;
}

double
view_to_z (const DrawingView *view, double y)
{
  return (view->origin_y - y) / view->scale;
}

bool
view_shows (const DrawingView *view, SceneLayer layer)
{
  return (view->layers & LAYER_BIT (layer)) != 0;
}

DrawingView
drawing_view_zoom (const DrawingView *view, double x, double y, double factor)
{
  DrawingView zoomed = *view;
  zoomed.scale = CLAMP (view->scale * factor, 5, 100000);
  double real = zoomed.scale / view->scale;
  zoomed.origin_x = x - (x - view->origin_x) * real;
  zoomed.origin_y = y - (y - view->origin_y) * real;
  return zoomed;
}
