/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What lies over the base drawing. Each thing has a node of its own size, so that a moving pointer costs only what it
 * touches. */
#include <math.h>

#include "app/canvas/canvas-private.h"

#define OUTLINE_REACH 8.0f
#define PULSE_REACH   16.0

static void
append (Canvas *self, GtkSnapshot *snapshot, const graphene_rect_t *bounds, const PainterOverlay *overlay)
{
  const graphene_rect_t room = GRAPHENE_RECT_INIT (0, 0, (float) self->view.width, (float) self->view.height);
  graphene_rect_t seen;
  cairo_t *cr;

  if (!graphene_rect_intersection (bounds, &room, &seen))
    return;
  graphene_rect_round_extents (&seen, &seen);
  cr = gtk_snapshot_append_cairo (snapshot, &seen);
  painter_draw_overlay (cr, self->scene, &self->view, canvas_palette (self), self->engine, overlay);
  cairo_destroy (cr);
}

/* Outline of a part with its handles, some of which lie beside it. */
static gboolean
bounds_of (Canvas *self, int part, graphene_rect_t *bounds)
{
  if (!canvas_part_box (self, part, bounds))
    return FALSE;
  for (unsigned i = 0; i < scene_n_handles (self->scene, part); i++) {
    const SceneHandle *handle = scene_handle (self->scene, part, i);
    const graphene_point_t at =
        GRAPHENE_POINT_INIT ((float) CLAMP (view_x (&self->view, handle->x), -1e5, 1e5),
                             (float) CLAMP (view_y (&self->view, handle->z), -1e5, 1e5));

    graphene_rect_expand (bounds, &at, bounds);
  }
  graphene_rect_inset (bounds, -OUTLINE_REACH, -OUTLINE_REACH);
  return TRUE;
}

static void
snapshot_selection (Canvas *self, GtkSnapshot *snapshot)
{
  int parts[64];
  const unsigned n = canvas_handle_parts (self, parts, G_N_ELEMENTS (parts));

  /* The selected part is the first; it comes last, over the handles of its corners. */
  for (unsigned i = n; i-- > 0;) {
    const gboolean dragged =
        self->drag.base != NULL && self->drag.handle.part == parts[i] && self->activity == CANVAS_DRAGGING;
    const PainterOverlay overlay = {
        .selected = parts[i], .hovered = -1, .dragged = dragged ? (int) self->drag.number : -1};
    graphene_rect_t bounds;

    if (bounds_of (self, parts[i], &bounds))
      append (self, snapshot, &bounds, &overlay);
  }
}

static void
snapshot_guides (Canvas *self, GtkSnapshot *snapshot)
{
  for (unsigned i = 0; i < self->drag.n_guides; i++) {
    const PainterGuide *guide = &self->drag.guides[i];
    const PainterOverlay overlay = {
        .selected = -1, .hovered = -1, .dragged = -1, .n_guides = 1, .guides = guide};
    graphene_rect_t bounds;

    if (guide->axis == AXIS_X)
      graphene_rect_init (&bounds, (float) view_x (&self->view, guide->at) - 2, 0, 4,
                          (float) self->view.height);
    else
      graphene_rect_init (&bounds, 0, (float) view_y (&self->view, guide->at) - 2, (float) self->view.width,
                          4);
    append (self, snapshot, &bounds, &overlay);
  }
}

/* Further chosen parts: outlined, without handles. */
static void
snapshot_others (Canvas *self, GtkSnapshot *snapshot)
{
  const Design *design = document_get_design (self->document);

  for (guint i = 1; i < selection_count (self->selection); i++) {
    const int part = design_index (design, selection_get_keys (self->selection)[i]);
    const PainterOverlay overlay = {.selected = part, .bare = true, .hovered = -1, .dragged = -1};
    graphene_rect_t bounds;

    if (bounds_of (self, part, &bounds))
      append (self, snapshot, &bounds, &overlay);
  }
}

/* The mark of a finding on the drawing, in the base view; NULL where its layer is hidden or there was no room. */
static const LayoutMark *
mark_of (Canvas *self, const Finding *finding)
{
  static const SceneSymbol symbols[N_GRADES] = {
      [GRADE_STOP] = SYMBOL_STOP, [GRADE_CAUTION] = SYMBOL_CAUTION, [GRADE_NOTE] = SYMBOL_NOTE};

  for (guint i = 0; i < self->marks->len; i++) {
    const LayoutMark *mark = &g_array_index (self->marks, LayoutMark, i);

    if (scene_item (self->scene, mark->item)->part == finding->part &&
        mark->symbol == symbols[finding->grade])
      return mark;
  }
  return NULL;
}

static void
snapshot_ring (Canvas *self, GtkSnapshot *snapshot, const LayoutMark *mark)
{
  const Color color = canvas_palette (self)->selected;
  const double x = mark->x + self->view.origin_x - self->base_view.origin_x;
  const double y = mark->y + self->view.origin_y - self->base_view.origin_y;
  const double radius = 0.75 * mark->size + 3 + PULSE_REACH * self->pulse;
  const float reach = (float) radius + 3;
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT ((float) x - reach, (float) y - reach, 2 * reach, 2 * reach));

  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, color.red, color.green, color.blue);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
snapshot_finding (Canvas *self, GtkSnapshot *snapshot)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const int index = selection_get_finding (self->selection);
  const Color color = canvas_palette (self)->selected;
  const LayoutMark *mark;
  graphene_rect_t box;

  if (evaluation == NULL || index < 0 || (unsigned) index >= evaluation->n_findings)
    return;
  mark = mark_of (self, &evaluation->findings[index]);
  if (mark != NULL)
    snapshot_ring (self, snapshot, mark);
  if (self->pulse > 0 && canvas_part_box (self, evaluation->findings[index].part, &box)) {
    const float out = (float) (PULSE_REACH * self->pulse);
    const GdkRGBA edge = {(float) color.red, (float) color.green, (float) color.blue, 1};
    GskRoundedRect frame;

    graphene_rect_inset (&box, -out, -out);
    gsk_rounded_rect_init_from_rect (&frame, &box, 0);
    gtk_snapshot_append_border (snapshot, &frame, (float[4]){2, 2, 2, 2},
                                (GdkRGBA[4]){edge, edge, edge, edge});
  }
}

void
canvas_snapshot_overlay (Canvas *self, GtkSnapshot *snapshot)
{
  graphene_rect_t bounds;

  snapshot_guides (self, snapshot);
  if (self->hovered >= 0 && self->hovered != canvas_selected (self) &&
      bounds_of (self, self->hovered, &bounds)) {
    const PainterOverlay overlay = {.selected = -1, .hovered = self->hovered, .dragged = -1};

    append (self, snapshot, &bounds, &overlay);
  }
  snapshot_others (self, snapshot);
  snapshot_selection (self, snapshot);
  canvas_band_snapshot (self, snapshot);
  canvas_measure_snapshot (self, snapshot);
  snapshot_finding (self, snapshot);
}
