/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/figure.h"

#include <math.h>

/* Points that a metre takes on paper at 1:1. */
#define METRE_PT (1000 * 72 / 25.4)

/* The painter sets figures and names at 0.94 of this: capitals of 2.5 mm. */
#define FIGURE_TEXT 10.5

typedef struct {
  double width, height;
} Extent;

static Extent
margins (const Scene *scene, const DrawingView *view, TextEngine *engine)
{
  SceneBox box = scene_outline (scene);
  DrawingView wide = *view, high = *view;
  double width = box.x1 - box.x0, height = box.z1 - box.z0;

  /* Fitted in one way with all room in the other, what is left of the room is the margins. */
  wide.width = 1e4 * width;
  wide.height = 1e8 * height;
  high.height = 1e4 * height;
  high.width = 1e8 * width;
  wide = layout_fit (scene, &wide, engine);
  high = layout_fit (scene, &high, engine);
  return (Extent){wide.width - width * wide.scale, high.height - height * high.scale};
}

/* Denominators of ISO 5455: 1, 2, 5 and these by tens. */
static unsigned
denominator (unsigned index)
{
  static const unsigned steps[] = {1, 2, 5};
  unsigned value = steps[index % 3];

  for (unsigned i = 0; i < index / 3; i++)
    value *= 10;
  return value;
}

/* Height that the ladder of levels takes with all its rungs. */
static double
ladder_height (const Scene *scene, const DrawingView *view)
{
  unsigned n = 0;

  for (unsigned i = 0; i < scene_n_items (scene); i++)
    n += scene_item (scene, i)->shape == SHAPE_LEVEL && view_shows (view, scene_item (scene, i)->layer);
  return view_shows (view, LAYER_LEVELS) ? (1.32 * n + 2.4) * view->text : 0;
}

Figure *
figure_new (const Design *design, const Catalogue *catalogue, const Evaluation *evaluation,
            const NumberStyle *style, SceneKind kind, SceneProjection projection, unsigned layers,
            TextEngine *engine, double width, double height)
{
  SceneOptions options = {.kind = kind, .projection = projection, .style = style, .simple = true};
  Scene *scene = scene_build (design, catalogue, evaluation, &options);
  SceneBox box = scene_outline (scene);
  DrawingView view = drawing_view_paper (width, height);
  Figure *figure;
  Extent rest;
  unsigned index = 0;

  if (!(box.x1 > box.x0) || !(box.z1 > box.z0)) {
    scene_free (scene);
    return NULL;
  }
  view.text = FIGURE_TEXT;
  view.layers = layers;
  rest = margins (scene, &view, engine);
  /* Where the ladder of levels would take most of the room it is left out: its heights are in the tables as well. */
  if (rest.width > 0.65 * width) {
    view.layers &= ~LAYER_BIT (LAYER_LEVELS);
    rest = margins (scene, &view, engine);
  }
  /* Nothing that a design may hold is larger than 1:1,000 on a page. */
  while (index < 9 && ((box.x1 - box.x0) * METRE_PT / denominator (index) + rest.width > width ||
                       (box.z1 - box.z0) * METRE_PT / denominator (index) + rest.height > height))
    index++;
  figure = g_new0 (Figure, 1);
  figure->scene = scene;
  figure->scale = denominator (index);
  view.width = MIN (width, (box.x1 - box.x0) * METRE_PT / figure->scale + rest.width);
  view.height = (box.z1 - box.z0) * METRE_PT / figure->scale + rest.height;
  view.height = MIN (height, MAX (view.height, ladder_height (scene, &view)));
  figure->view = layout_centre (scene, &view, engine, METRE_PT / figure->scale);
  figure->layout = layout_new (scene, &figure->view, engine, NULL);
  return figure;
}

void
figure_free (Figure *figure)
{
  if (figure == NULL)
    return;
  layout_free (figure->layout);
  scene_free (figure->scene);
  g_free (figure);
}

void
figure_draw (const Figure *figure, TextEngine *engine, cairo_t *cr, double x, double y)
{
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_rectangle (cr, 0, 0, figure->view.width, figure->view.height);
  cairo_clip (cr);
  cairo_new_path (cr);
  painter_draw (cr, figure->scene, figure->layout, &figure->view, palette_get (PALETTE_PAPER), engine);
  cairo_restore (cr);
}
