/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/drawing/fixture.h"

#include <math.h>

static void
test_step (void)
{
  g_assert_cmpfloat_with_epsilon (chart_step (5500, 6), 1000, 1e-9);
  g_assert_cmpfloat_with_epsilon (chart_step (6100, 6), 2000, 1e-9);
  g_assert_cmpfloat_with_epsilon (chart_step (0.23, 6), 0.05, 1e-12);
  g_assert_cmpfloat_with_epsilon (chart_step (6, 6), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (chart_step (0, 6), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (chart_step ((double) NAN, 6), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (chart_step (INFINITY, 6), 1, 1e-12);
}

static ChartFrame
paint (const ChartData *data, double width, double height, bool us)
{
  g_autoptr (TextEngine) engine = text_engine_new (true);
  DrawingView view = drawing_view_screen (width, height, 1);
  NumberStyle style = us ? number_style_us () : number_style_metric ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 800, 500);
  cairo_t *cr = cairo_create (surface);
  ChartFrame frame = chart_paint (cr, data, &view, palette_get (PALETTE_LIGHT), &style, engine);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return frame;
}

/* The axes hold every pump, and the pointer finds each curve where it is drawn. */
static void
test_frame_and_pick (void)
{
  const ChartData *data = fixture_chart ();
  for (int us = 0; us < 2; us++) {
    ChartFrame frame = paint (data, 800, 500, us);
    for (unsigned i = 0; i < data->n_curves; i++) {
      const ChartCurve *curve = &data->curves[i];
      if (curve->kind != CHART_PUMP)
        continue;
      g_assert_cmpfloat (curve->flow_m3s[curve->n - 1], <=, frame.flow_max_m3s);
      g_assert_cmpfloat (curve->head_m[0], <=, frame.head_max_m);
      double x = frame.x, y = frame.y + frame.height * (1 - curve->head_m[0] / frame.head_max_m);
      g_assert_cmpint (chart_pick (data, &frame, x, y, 1), ==, (int) i);
    }
    g_assert_cmpint (chart_pick (data, &frame, frame.x + frame.width, frame.y + frame.height, 5), ==, -1);
  }
}

static void
test_poor_data (void)
{
  double flow[] = {0, 0.001, (double) NAN}, head[] = {3, 2, 1};
  ChartCurve curves[] = {
      {.name = "one", .n = 3, .flow_m3s = flow, .head_m = head, .duty_flow_m3s = (double) NAN},
      {.name = NULL, .n = 0}};
  ChartData data = {2, curves, 7, (double) NAN, (double) NAN, 1};
  paint (&data, 800, 500, false);
  paint (&data, 10, 5, false);
  data.n_curves = 0;
  data.drain_limit_m3s = INFINITY;
  ChartFrame frame = paint (&data, 800, 500, true);
  g_assert_true (frame.flow_max_m3s > 0 && frame.head_max_m > 0);
  g_assert_cmpint (chart_pick (&data, &frame, 100, 100, 1000), ==, -1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/chart/step", test_step);
  g_test_add_func ("/drawing/chart/frame-and-pick", test_frame_and_pick);
  g_test_add_func ("/drawing/chart/poor-data", test_poor_data);
  return g_test_run ();
}
