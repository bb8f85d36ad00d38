/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One design from several sides: what is chosen stays chosen, each side keeps its zoom, and a drag changes the coordinates
 * that are seen. */
#include <math.h>

#include "tests/app/canvas-fixture.h"

/* Each child of each view is chosen by its own key, and another view shows the same choice. */
static void
test_selection_is_shared (Fixture *f, gconstpointer data)
{
  selection_set_key (f->selection, "sump");
  for (SceneProjection v = PROJECTION_FRONT; v < N_SCENE_PROJECTIONS; v++) {
    graphene_rect_t box;

    canvas_set_projection (f->canvas, v);
    g_assert_cmpint (canvas_get_projection (f->canvas), ==, (int) v);
    g_assert_cmpstr (selection_get_key (f->selection), ==, "sump");
    g_assert_cmpint (canvas_selected (f->canvas), ==, index_of (f, "sump"));
    g_assert_nonnull (canvas_child (f->canvas, "sump"));
    g_assert_true (canvas_part_box (f->canvas, index_of (f, "sump"), &box));
    g_assert_nonnull (draw (f));
  }
}

static void
test_places_are_kept (Fixture *f, gconstpointer data)
{
  DrawingView front, plan;

  canvas_zoom (f->canvas, 2);
  front = f->canvas->view;
  canvas_set_projection (f->canvas, PROJECTION_PLAN);
  g_assert_true (f->canvas->fitted); /* never looked at: all of it */
  canvas_zoom (f->canvas, 3);
  plan = f->canvas->view;
  canvas_set_projection (f->canvas, PROJECTION_FRONT);
  g_assert_false (f->canvas->fitted);
  g_assert_cmpfloat_with_epsilon (f->canvas->view.scale, front.scale, 1e-9);
  g_assert_cmpfloat_with_epsilon (f->canvas->view.origin_x, front.origin_x, 1);
  g_assert_cmpfloat_with_epsilon (f->canvas->view.origin_y, front.origin_y, 1);
  canvas_set_projection (f->canvas, PROJECTION_PLAN);
  g_assert_cmpfloat_with_epsilon (f->canvas->view.scale, plan.scale, 1e-9);
}

static void
drag (Fixture *f, const char *part, FieldId field, double dx, double dy)
{
  selection_set_key (f->selection, part);
  press_handle (f, part, field);
  move (f, dx / 2, dy / 2);
  move (f, dx, dy);
  let_go (f, dx, dy);
}

/* Up on the plan is back in the room, to the right in the end elevation too. */
static void
test_drag_changes_what_is_seen (Fixture *f, gconstpointer data)
{
  const double width = number (f, "sump", FIELD_SUMP_WIDTH), height = number (f, "sump", FIELD_SUMP_HEIGHT);
  double now;

  canvas_set_projection (f->canvas, PROJECTION_PLAN);
  drag (f, "sump", FIELD_SUMP_WIDTH, 0, pixels (f, 0.05));
  now = number (f, "sump", FIELD_SUMP_WIDTH);
  g_assert_cmpfloat (now, <, width - 0.02);
  g_assert_cmpfloat (number (f, "sump", FIELD_SUMP_HEIGHT), ==, height);
  document_undo (f->document);
  g_assert_cmpfloat (number (f, "sump", FIELD_SUMP_WIDTH), ==, width);

  canvas_set_projection (f->canvas, PROJECTION_END);
  drag (f, "sump", FIELD_SUMP_WIDTH, -pixels (f, 0.05), 0);
  g_assert_cmpfloat (number (f, "sump", FIELD_SUMP_WIDTH), <, width - 0.02);
  document_undo (f->document);
  drag (f, "sump", FIELD_SUMP_HEIGHT, 0, pixels (f, 0.05));
  g_assert_cmpfloat (number (f, "sump", FIELD_SUMP_HEIGHT), <, height - 0.02);
}

/* A drag that is under way when the view changes is taken back. */
static void
test_switching_ends_a_drag (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  selection_set_key (f->selection, "sump");
  press_handle (f, "sump", FIELD_SUMP_HEIGHT);
  move (f, 0, 30);
  canvas_set_projection (f->canvas, PROJECTION_END);
  g_assert_false (canvas_dragging (f->canvas));
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_null (document_undo_label (f->document));
}

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    return 77;
  g_test_init (&argc, &argv, NULL);
  CANVAS_TEST ("views/selection", test_selection_is_shared);
  CANVAS_TEST ("views/places", test_places_are_kept);
  CANVAS_TEST ("views/drag", test_drag_changes_what_is_seen);
  CANVAS_TEST ("views/switching-ends-a-drag", test_switching_ends_a_drag);
  return g_test_run ();
}
