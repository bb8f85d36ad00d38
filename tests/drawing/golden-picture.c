/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/drawing/golden-picture.h"

#include "tests/drawing/fixture.h"
#include "tests/drawing/picture.h"

#define WIDTH  960
#define HEIGHT 720
#define BLOCK  4

const GoldenPicture golden_pictures[] = {
    {"front-light.png", PALETTE_LIGHT, PROJECTION_FRONT, false, 0},
    {"front-dark.png", PALETTE_DARK, PROJECTION_FRONT, false, 0},
    {"end-light.png", PALETTE_LIGHT, PROJECTION_END, false, 0},
    {"end-dark.png", PALETTE_DARK, PROJECTION_END, false, 0},
    {"plan-light.png", PALETTE_LIGHT, PROJECTION_PLAN, false, 0},
    {"plan-dark.png", PALETTE_DARK, PROJECTION_PLAN, false, 0},
    {"isometric-light.png", PALETTE_LIGHT, PROJECTION_ISOMETRIC, false, 0},
    {"isometric-dark.png", PALETTE_DARK, PROJECTION_ISOMETRIC, false, 0},
    {"front-paper.png", PALETTE_PAPER, PROJECTION_FRONT, false, 0},
    {"three-front-light.png", PALETTE_LIGHT, PROJECTION_FRONT, true, 0},
    {"three-end-dark.png", PALETTE_DARK, PROJECTION_END, true, 0},
    {"three-plan-light.png", PALETTE_LIGHT, PROJECTION_PLAN, true, 0},
    {"three-isometric-dark.png", PALETTE_DARK, PROJECTION_ISOMETRIC, true, 0},
    {"three-power-off-light.png", PALETTE_LIGHT, PROJECTION_FRONT, true, 4},
    {"three-power-off-dark.png", PALETTE_DARK, PROJECTION_ISOMETRIC, true, 4},
};
const unsigned n_golden_pictures = G_N_ELEMENTS (golden_pictures);

static unsigned char
mean_of_block (const unsigned char *pixels, int stride, int channel)
{
  unsigned sum = 0;
  for (int y = 0; y < BLOCK; y++)
    for (int x = 0; x < BLOCK; x++)
      sum += pixels[y * stride + 4 * x + channel];
  return (unsigned char) ((sum + BLOCK * BLOCK / 2) / (BLOCK * BLOCK));
}

static cairo_surface_t *
reduced (cairo_surface_t *full)
{
  cairo_surface_t *small = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH / BLOCK, HEIGHT / BLOCK);
  const unsigned char *from = cairo_image_surface_get_data (full);
  unsigned char *to = cairo_image_surface_get_data (small);
  int from_stride = cairo_image_surface_get_stride (full), to_stride = cairo_image_surface_get_stride (small);
  cairo_surface_flush (small);
  for (int y = 0; y < HEIGHT / BLOCK; y++)
    for (int x = 0; x < WIDTH / BLOCK; x++)
      for (int k = 0; k < 3; k++)
        to[y * to_stride + 4 * x + k] =
            mean_of_block (from + y * BLOCK * from_stride + 4 * x * BLOCK, from_stride, k);
  cairo_surface_mark_dirty (small);
  return small;
}

cairo_surface_t *
golden_picture_draw (const GoldenPicture *picture)
{
  g_autoptr (Scene) scene = picture->three ? fixture_three_view (picture->view, picture->after_s)
                                           : fixture_view (SCENE_SYSTEM, picture->view, true);
  g_autoptr (TextEngine) engine = text_engine_new (true);
  DrawingView view = drawing_view_screen (WIDTH, HEIGHT, 1);
  view = layout_fit (scene, &view, engine);
  cairo_surface_t *full = picture_of (scene, &view, picture->palette, 0);
  cairo_surface_t *small = reduced (full);
  cairo_surface_destroy (full);
  return small;
}
