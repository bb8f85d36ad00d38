/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The system from its end and from above, dimensioned, and its pipes in an isometric view for the one who glues them. */
#include <glib/gi18n-lib.h>

#include "sheet/build.h"

#define BESIDE      (48 * SHEET_MM)
#define LEAST_NOTES (30 * SHEET_MM) /* below a drawing */
#define VIEW_LAYERS (ALL_LAYERS & ~LAYER_BIT (LAYER_FINDINGS))

/* The plan beside the end elevation where it has the same scale there, else on a page of its own. */
static void
add_plan (Build *build)
{
  Flow *flow = &build->flow;
  const double room = flow_left (flow) - LEAST_NOTES;
  Figure *beside =
      figure_new (build->design, build->catalogue, build->evaluation, &build->style, SCENE_SYSTEM,
                  PROJECTION_PLAN, VIEW_LAYERS, build->engine, flow_width (flow), MAX (room, 1));
  g_autofree char *scale = beside != NULL ? g_strdup_printf ("1:%u", beside->scale) : NULL;

  if (beside != NULL && g_strcmp0 (scale, flow->page->scale) == 0 && beside->view.height <= room &&
      beside->view.width <= flow_width (flow)) {
    page_figure (flow->page, beside, flow_x (flow), flow->y);
    flow->y += beside->view.height + GUTTER;
    return;
  }
  figure_free (beside);
  flow_page (flow, 2);
  build_view (build, PROJECTION_PLAN, VIEW_LAYERS, flow->content.height, BESIDE);
}

static void
add_elevation (Build *build)
{
  Flow *flow = &build->flow;

  flow_section (flow, _ ("End elevation and plan"), 2);
  build_view (build, PROJECTION_END, VIEW_LAYERS, flow->content.height, BESIDE);
  add_plan (build);
  flow_heading (flow, _ ("How these are seen"), 20);
  build_note (
      build,
      _ ("End elevation: looked at from the right, cut across the sump, the front of the stand at the left. "
         "The "
         "water is that of the chamber at the right; the surfaces of the others are lines behind it. Dashed: "
         "edges of the baffles. A long dash and two dots: levels after a power cut."));
  build_note (
      build,
      _ ("Plan: cut under the top of the stand, its front below. A long dash and two dots: the tank and its "
         "overflow, which stand over the cut. Pipes that rise or fall are circles: a dot where water comes "
         "up, a "
         "cross where it goes down."));
}

/* Wider than its drawing, for names and lengths beside the pipes. */
static void
add_isometric (Build *build)
{
  const unsigned layers = ALL_LAYERS & ~(LAYER_BIT (LAYER_FINDINGS) | LAYER_BIT (LAYER_POWER_OFF));
  Flow *flow = &build->flow;
  Figure *figure;

  flow_section (flow, _ ("Pipes, isometric"), 2);
  figure = figure_new (build->design, build->catalogue, build->evaluation, &build->style, SCENE_SYSTEM,
                       PROJECTION_ISOMETRIC, layers, build->engine, flow->content.width - BESIDE - GUTTER,
                       flow->content.height);
  if (figure != NULL) {
    const double spare = flow->content.width - BESIDE - GUTTER - figure->view.width;

    figure->view.width += spare;
    figure->view.origin_x += spare / 2;
    layout_free (figure->layout);
    figure->layout = layout_new (figure->scene, &figure->view, build->engine, NULL);
  }
  flow_figure (flow, figure, BESIDE - 1);
  flow_heading (flow, _ ("Looked at from the front, right and above"), 20);
  build_note (
      build,
      _ ("Lengths run from corner to corner on the pipe's axis, so they are not cutting lengths: those "
         "are in the cut list, with their sockets. Vessels are thin boxes with their water."));
  build_note (build,
              _ ("Turn every union, valve and check valve so that a hand reaches it, and let the check valve "
                 "point with the flow."));
}

void
build_view_pages (Build *build)
{
  add_elevation (build);
  add_isometric (build);
}
