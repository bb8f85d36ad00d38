/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How long a drawing of the fixture takes at 1920 x 1080: scene, layout, painting, all of it, and the overlay alone.
 * Prints milliseconds, the middle of many runs; reports, never fails. */
#include "tests/drawing/fixture.h"

#include <stdio.h>
#include <stdlib.h>

#include "drawing/painter.h"

#define RUNS   101
#define WIDTH  1920
#define HEIGHT 1080

typedef struct {
  Design *design;
  Catalogue *catalogue;
  Evaluation *evaluation;
  NumberStyle style;
  Scene *scene;
  TextEngine *engine;
  Layout *layout;
  DrawingView view;
  cairo_t *cr;
} Bench;

static void
run_scene (Bench *b)
{
  SceneOptions options = {.kind = SCENE_SYSTEM, .style = &b->style};
  scene_free (b->scene);
  b->scene = scene_build (b->design, b->catalogue, b->evaluation, &options);
}

static void
run_layout (Bench *b)
{
  layout_free (b->layout);
  b->layout = layout_new (b->scene, &b->view, b->engine, NULL);
}

static void
run_paint (Bench *b)
{
  painter_draw_base (b->cr, b->scene, b->layout, &b->view, palette_get (PALETTE_LIGHT), b->engine);
}

static void
run_all (Bench *b)
{
  run_scene (b);
  run_layout (b);
  run_paint (b);
}

static void
run_overlay (Bench *b)
{
  PainterOverlay overlay = {.selected = design_index (b->design, "riser"), .hovered = -1, .dragged = -1};
  painter_draw_overlay (b->cr, b->scene, &b->view, palette_get (PALETTE_LIGHT), b->engine, &overlay);
}

static int
by_size (const void *a, const void *b)
{
  double first = *(const double *) a, second = *(const double *) b;
  return first < second ? -1 : first > second;
}

static void
measure (const char *name, void (*run) (Bench *), Bench *b)
{
  double times[RUNS];
  for (unsigned i = 0; i < RUNS; i++) {
    gint64 start = g_get_monotonic_time ();
    run (b);
    times[i] = (double) (g_get_monotonic_time () - start) / 1000;
  }
  qsort (times, RUNS, sizeof *times, by_size);
  printf ("%-28s %7.2f ms\n", name, times[RUNS / 2]);
}

int
main (void)
{
  Bench b = {.design = fixture_design (), .catalogue = fixture_catalogue (), .style = number_style_metric ()};
  b.evaluation = fixture_evaluation (b.design);
  run_scene (&b);
  b.engine = text_engine_new (false);
  b.view = drawing_view_screen (WIDTH, HEIGHT, 1);
  b.view = layout_fit (b.scene, &b.view, b.engine);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  b.cr = cairo_create (surface);
  run_layout (&b);
  measure ("scene", run_scene, &b);
  measure ("layout", run_layout, &b);
  measure ("paint", run_paint, &b);
  measure ("scene, layout and paint", run_all, &b);
  measure ("overlay", run_overlay, &b);
  cairo_destroy (b.cr);
  cairo_surface_destroy (surface);
  layout_free (b.layout);
  text_engine_free (b.engine);
  scene_free (b.scene);
  g_free (b.evaluation);
  catalogue_unref (b.catalogue);
  design_unref (b.design);
  return 0;
}
