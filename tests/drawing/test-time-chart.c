/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "drawing/time-chart.h"
#include "tests/drawing/fixture.h"

#include <math.h>

static void
test_share (void)
{
  for (double time_s = 0; time_s <= 90; time_s += 1)
    g_assert_cmpfloat_with_epsilon (time_chart_time_at (time_chart_share (time_s, 90), 90), time_s, 1e-9);
  g_assert_cmpfloat_with_epsilon (time_chart_share (90, 90), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (time_chart_share (-5, 90), 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (time_chart_time_at (2, 90), 90, 1e-12);
}

typedef struct {
  cairo_surface_t *surface;
  TimeFrame frame;
} Painted;

static Painted
paint (const TimeChart *chart, int width, int height)
{
  g_autoptr (TextEngine) engine = text_engine_new (true);
  const DrawingView view = drawing_view_screen (width, height, 1);
  const NumberStyle style = number_style_metric ();
  Painted painted = {.surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height)};
  cairo_t *cr = cairo_create (painted.surface);

  painted.frame = time_chart_paint (cr, chart, &view, palette_get (PALETTE_LIGHT), &style, engine);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  return painted;
}

/* Dots of a colour in a column of the picture, within a tenth of each part. */
static unsigned
dots (const Painted *painted, int x, double y0, double y1, Color color)
{
  const unsigned char *data = cairo_image_surface_get_data (painted->surface);
  const int stride = cairo_image_surface_get_stride (painted->surface);
  unsigned n = 0;

  cairo_surface_flush (painted->surface);
  for (int y = (int) y0; y <= (int) y1; y++) {
    const unsigned char *p = data + y * stride + 4 * x;

    n += fabs (p[2] / 255.0 - color.red) < 0.1 && fabs (p[1] / 255.0 - color.green) < 0.1 &&
         fabs (p[0] / 255.0 - color.blue) < 0.1;
  }
  return n;
}

/* A level that runs over its rim is drawn above the line of the rim, one that does not below it. */
static void
test_over_the_rim (void)
{
  const double time_s[] = {0, 10, 20, 30}, over[] = {-0.05, 0.03, 0.03, 0.03},
               under[] = {-0.09, -0.09, -0.09, -0.09};
  const TimeTrace traces[] = {{"over", 4, time_s, over, 0, false}, {"under", 4, time_s, under, 1, false}};
  const TimeChart chart = {2, traces, 0, NULL, QUANTITY_LENGTH, 30, (double) NAN, "Height"};
  Painted painted = paint (&chart, 700, 300);
  const TimeFrame *f = &painted.frame;
  const double rim = f->y + f->high / (f->high - f->low) * f->height;
  const int x = (int) (f->x + 0.95 * f->width);
  const Palette *palette = palette_get (PALETTE_LIGHT);

  g_assert_cmpfloat (f->high, >=, 0.03);
  g_assert_cmpfloat (f->low, <=, -0.09);
  g_assert_cmpfloat_with_epsilon (f->end_s, 30, 1e-12);
  g_assert_cmpuint (dots (&painted, x, f->y, rim - 2, palette->curves[0]), >, 0);
  g_assert_cmpuint (dots (&painted, x, rim + 2, f->y + f->height, palette->curves[0]), ==, 0);
  g_assert_cmpuint (dots (&painted, x, rim + 2, f->y + f->height, palette->curves[1]), >, 0);
  g_assert_cmpuint (dots (&painted, x, f->y, rim - 2, palette->curves[1]), ==, 0);
  cairo_surface_destroy (painted.surface);
}

/* Flows go both ways and have no rim: water that runs back is under the line of 0. */
static void
test_flows (void)
{
  const double time_s[] = {0, 5, 30}, flow[] = {6e-4, -2e-4, -2e-4};
  const TimeTrace traces[] = {{"pump", 3, time_s, flow, 0, false}};
  const TimeChart chart = {1, traces, 0, NULL, QUANTITY_FLOW, 30, (double) NAN, "Flow"};
  Painted painted = paint (&chart, 700, 300);
  const TimeFrame *f = &painted.frame;
  const double zero = f->y + f->high / (f->high - f->low) * f->height;
  const int x = (int) (f->x + 0.95 * f->width);
  const Palette *palette = palette_get (PALETTE_LIGHT);

  g_assert_cmpfloat (f->high, >=, 6e-4);
  g_assert_cmpfloat (f->low, <=, -2e-4);
  g_assert_cmpuint (dots (&painted, x, zero + 2, f->y + f->height, palette->curves[0]), >, 0);
  g_assert_cmpuint (dots (&painted, x, f->y, f->y + f->height, palette->stop), ==, 0);
  cairo_surface_destroy (painted.surface);
}

static void
test_time_under_a_place (void)
{
  const TimeChart chart = {.quantity = QUANTITY_LENGTH, .end_s = 60, .now_s = 30, .up = "Height"};
  Painted painted = paint (&chart, 500, 200);
  const TimeFrame *f = &painted.frame;

  g_assert_cmpfloat_with_epsilon (time_chart_time (f, f->x), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (time_chart_time (f, f->x + f->width / 2), 15, 1e-9);
  g_assert_cmpfloat_with_epsilon (time_chart_time (f, -100), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (time_chart_time (f, 1e6), 60, 1e-9);
  g_assert_cmpuint (dots (&painted, (int) (f->x + sqrt (0.5) * f->width), f->y, f->y + f->height,
                          palette_get (PALETTE_LIGHT)->selected),
                    >, 50);
  cairo_surface_destroy (painted.surface);
}

static void
test_poor_data (void)
{
  const double time_s[] = {0, (double) NAN, 5}, height_m[] = {(double) NAN, 1, INFINITY};
  const TimeTrace traces[] = {{NULL, 3, time_s, height_m, 99, true}, {"empty", 0, NULL, NULL, 0, false}};
  const TimeMark marks[] = {{(double) NAN, "A", true}, {-1, "B", false}, {1e9, NULL, false}};
  TimeChart chart = {2, traces, 3, marks, QUANTITY_LENGTH, (double) NAN, 1e9, "Height"};
  const int sizes[][2] = {{700, 300}, {20, 10}, {1, 1}};

  for (unsigned i = 0; i < G_N_ELEMENTS (sizes); i++) {
    Painted painted = paint (&chart, sizes[i][0], sizes[i][1]);

    g_assert_true (painted.frame.high > painted.frame.low && painted.frame.end_s > 0);
    cairo_surface_destroy (painted.surface);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/time-chart/share", test_share);
  g_test_add_func ("/drawing/time-chart/over-the-rim", test_over_the_rim);
  g_test_add_func ("/drawing/time-chart/flows", test_flows);
  g_test_add_func ("/drawing/time-chart/time-under-a-place", test_time_under_a_place);
  g_test_add_func ("/drawing/time-chart/poor-data", test_poor_data);
  return g_test_run ();
}
