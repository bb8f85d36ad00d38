/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pairs of pictures that must look equal, no cairo error at any zoom, and files that can and cannot be written. */
#include "tests/drawing/fixture.h"
#include "tests/drawing/picture.h"

#include <glib/gstdio.h>
#include <math.h>

#include "drawing/export.h"

#define WIDTH  640
#define HEIGHT 480

static DrawingView
fitted (const Scene *scene)
{
  g_autoptr (TextEngine) engine = text_engine_new (true);
  DrawingView view = drawing_view_screen (WIDTH, HEIGHT, 1);
  return layout_fit (scene, &view, engine);
}

/* Nothing may depend on where the drawing lies on its surface. */
static void
test_offset (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  DrawingView view = fitted (scene);
  for (PaletteKind palette = PALETTE_LIGHT; palette < N_PALETTES; palette++) {
    cairo_surface_t *plain = picture_of (scene, &view, palette, 0),
                    *moved = picture_of (scene, &view, palette, 47);
    g_assert_cmpuint (picture_difference (plain, moved, 47, 1), ==, 0);
    cairo_surface_destroy (plain);
    cairo_surface_destroy (moved);
  }
}

typedef void (*Change) (Evaluation *evaluation);

static void
forget_findings (Evaluation *evaluation)
{
  evaluation->n_findings = 0;
}

static void
forget_power_off (Evaluation *evaluation)
{
  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    evaluation->vessels[i].power_off_z = (double) NAN;
}

static void
forget_motion (Evaluation *evaluation)
{
  for (unsigned i = 0; i < evaluation->n_runs; i++)
    evaluation->runs[i].velocity_ms = 1e-6;
  for (unsigned i = 0; i < evaluation->n_drains; i++)
    evaluation->drains[i].bore_m = 1e3;
}

/* A hidden layer looks as if what it shows were not there. */
static void
test_hidden_layer (void)
{
  static const struct {
    SceneLayer layer;
    Change change;
  } rows[] = {
      {LAYER_FINDINGS, forget_findings}, {LAYER_POWER_OFF, forget_power_off}, {LAYER_FLOW, forget_motion}};
  g_autoptr (Design) design = fixture_design ();
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  NumberStyle style = number_style_metric ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  g_autoptr (Scene) whole = fixture_scene (SCENE_SYSTEM, true);
  DrawingView view = fitted (whole);
  cairo_surface_t *all = picture_of (whole, &view, PALETTE_LIGHT, 0);
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree Evaluation *evaluation = fixture_evaluation (design);
    rows[i].change (evaluation);
    g_autoptr (Scene) without = scene_build (design, catalogue, evaluation, &options);
    DrawingView hiding = view;
    hiding.layers &= ~LAYER_BIT (rows[i].layer);
    cairo_surface_t *absent = picture_of (without, &view, PALETTE_LIGHT, 0);
    cairo_surface_t *hidden = picture_of (whole, &hiding, PALETTE_LIGHT, 0);
    g_assert_cmpuint (picture_difference (absent, hidden, 0, 1), ==, 0);
    g_assert_cmpuint (picture_difference (absent, all, 0, 1), >, 0);
    cairo_surface_destroy (absent);
    cairo_surface_destroy (hidden);
  }
  cairo_surface_destroy (all);
}

/* Recorded drawing commands, as PDF and SVG get them, say the same as painting at once. */
static void
test_recorded (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  DrawingView view = fitted (scene);
  view.device_scale = 0;
  g_autoptr (TextEngine) engine = text_engine_new (true);
  g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
  cairo_rectangle_t extent = {0, 0, WIDTH, HEIGHT};
  cairo_surface_t *record = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, &extent);
  cairo_t *cr = cairo_create (record);
  painter_draw_base (cr, scene, layout, &view, palette_get (PALETTE_PAPER), engine);
  cairo_destroy (cr);
  cairo_surface_t *played = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cr = cairo_create (played);
  cairo_set_source_surface (cr, record, 0, 0);
  cairo_paint (cr);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (played);
  cairo_surface_t *direct = picture_of (scene, &view, PALETTE_PAPER, 0);
  g_assert_cmpuint (picture_difference (direct, played, 0, 2), ==, 0);
  cairo_surface_destroy (direct);
  cairo_surface_destroy (played);
  cairo_surface_destroy (record);
}

static void
draw_zoomed (double length, double zoom, double device_scale)
{
  g_autoptr (Design) design = fixture_sized (length);
  g_autoptr (Catalogue) catalogue = fixture_catalogue ();
  g_autofree Evaluation *evaluation = fixture_evaluation (design);
  NumberStyle style = number_style_us ();
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &style};
  g_autoptr (Scene) scene = scene_build (design, catalogue, evaluation, &options);
  g_autoptr (TextEngine) engine = text_engine_new (false);
  DrawingView view = drawing_view_screen (WIDTH, HEIGHT, device_scale);
  view = layout_fit (scene, &view, engine);
  view = drawing_view_zoom (&view, WIDTH / 3.0, HEIGHT / 1.5, zoom);
  g_autoptr (Layout) layout = layout_new (scene, &view, engine, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  painter_draw_base (cr, scene, layout, &view, palette_get (PALETTE_DARK), engine);
  PainterGuide guides[] = {{AXIS_X, 0.4}, {AXIS_Z, 1e9}};
  for (int part = -1; part < (int) scene_n_parts (scene); part++) {
    PainterOverlay overlay = {
        .selected = part, .hovered = part / 2, .dragged = 0, .n_guides = 2, .guides = guides};
    overlay.live = "12 mm";
    painter_draw_overlay (cr, scene, &view, palette_get (PALETTE_LIGHT), engine, &overlay);
  }
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
test_any_zoom (void)
{
  draw_zoomed (1.5, 1, 1);
  draw_zoomed (1.5, 300, 2);
  draw_zoomed (1.5, 1e-9, 1);
  draw_zoomed (0.2, 20, 1);
  draw_zoomed (20, 1, 2);
}

/* A view without room draws what it can. */
static void
test_no_room (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  g_autoptr (TextEngine) engine = text_engine_new (false);
  DrawingView view = drawing_view_screen (3, 2, 1);
  view = layout_fit (scene, &view, engine);
  cairo_surface_destroy (picture_of (scene, &view, PALETTE_LIGHT, 0));
}

static void
test_files (void)
{
  g_autoptr (Scene) scene = fixture_scene (SCENE_SYSTEM, true);
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("drawing-XXXXXX", &error);
  g_assert_no_error (error);
  g_autofree char *pdf = g_build_filename (folder, "a.pdf", NULL),
                  *svg = g_build_filename (folder, "a.svg", NULL);
  g_autofree char *png = g_build_filename (folder, "a.png", NULL),
                  *missing = g_build_filename (folder, "b", "a", NULL);
  const Palette *paper = palette_get (PALETTE_PAPER);
  g_assert_true (drawing_to_pdf (scene, paper, 842, 595, pdf, &error));
  g_assert_true (drawing_to_svg (scene, paper, 842, 595, svg, &error));
  g_assert_true (drawing_to_png (scene, paper, 640, 480, 1, png, &error));
  g_assert_no_error (error);
  g_autofree char *content = NULL;
  gsize length = 0;
  g_assert_true (g_file_get_contents (pdf, &content, &length, NULL));
  g_assert_true (g_str_has_prefix (content, "%PDF"));
  g_assert_false (drawing_to_pdf (scene, paper, 842, 595, missing, &error));
  g_assert_error (error, DRAWING_ERROR, DRAWING_ERROR_WRITE);
  g_clear_error (&error);
  g_assert_false (drawing_to_svg (scene, paper, 842, 595, missing, &error));
  g_clear_error (&error);
  g_assert_false (drawing_to_png (scene, paper, 640, 480, 1, missing, &error));
  g_assert_nonnull (error);
  g_unlink (pdf);
  g_unlink (svg);
  g_unlink (png);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/painter/offset", test_offset);
  g_test_add_func ("/drawing/painter/hidden-layer", test_hidden_layer);
  g_test_add_func ("/drawing/painter/recorded", test_recorded);
  g_test_add_func ("/drawing/painter/any-zoom", test_any_zoom);
  g_test_add_func ("/drawing/painter/no-room", test_no_room);
  g_test_add_func ("/drawing/painter/files", test_files);
  return g_test_run ();
}
