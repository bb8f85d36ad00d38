/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Whole drawings as pictures against golden/: the four views in light, dark and on paper, three tanks on one sump, and water
 * on its way back while the power is off. A picture that is another one is left in the build folder beside the golden. */
#include "drawing/text.h"
#include "tests/drawing/golden-picture.h"
#include "tests/drawing/picture.h"

/* Of 256 steps of a channel's block mean; a line one pixel wide changes it by a quarter of its contrast. */
#define TOLERANCE 20
/* Blocks of 43200 that may differ more: two or three letters that another FreeType sets elsewhere. */
#define MOST_DIFFERENT 40

static void
test_golden (gconstpointer data)
{
  const GoldenPicture *picture = data;
  if (drawing_font_missing ()) {
    g_test_skip ("the font Inter is not installed");
    return;
  }
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "drawing", "golden", picture->name, NULL);
  cairo_surface_t *want = cairo_image_surface_create_from_png (path);
  if (cairo_surface_status (want) != CAIRO_STATUS_SUCCESS)
    g_error ("%s: %s", path, cairo_status_to_string (cairo_surface_status (want)));
  cairo_surface_t *got = golden_picture_draw (picture);
  g_assert_cmpint (cairo_image_surface_get_width (got), ==, cairo_image_surface_get_width (want));
  g_assert_cmpint (cairo_image_surface_get_height (got), ==, cairo_image_surface_get_height (want));
  unsigned different = picture_difference (want, got, 0, TOLERANCE);
  if (different > MOST_DIFFERENT) {
    g_autofree char *kept = g_test_build_filename (G_TEST_BUILT, "drawing", picture->name, NULL);
    cairo_surface_write_to_png (got, kept);
    g_error ("%s is another picture in %u blocks: compare %s with it. If it is as wanted, run "
             "tests/drawing/write-golden BUILD-FOLDER",
             path, different, kept);
  }
  cairo_surface_destroy (want);
  cairo_surface_destroy (got);
}

/* The measure itself: one more line of a hair's width, as long as a quarter of the picture is high, does not pass. */
static void
test_measure (void)
{
  cairo_surface_t *running = golden_picture_draw (&golden_pictures[0]);
  cairo_surface_t *other = golden_picture_draw (&golden_pictures[0]);
  g_assert_cmpuint (picture_difference (running, other, 0, 0), ==, 0);
  cairo_t *cr = cairo_create (other);
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, 0.25);
  cairo_move_to (cr, 100, 60);
  cairo_line_to (cr, 100, 110);
  cairo_stroke (cr);
  cairo_destroy (cr);
  cairo_surface_flush (other);
  g_assert_cmpuint (picture_difference (running, other, 0, TOLERANCE), >, MOST_DIFFERENT);
  cairo_surface_destroy (running);
  cairo_surface_destroy (other);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (unsigned i = 0; i < n_golden_pictures; i++) {
    g_autofree char *path = g_strdup_printf ("/drawing/pictures/%s", golden_pictures[i].name);
    g_test_add_data_func (path, &golden_pictures[i], test_golden);
  }
  g_test_add_func ("/drawing/pictures/measure", test_measure);
  return g_test_run ();
}
