/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The canvas as a real widget in a window: what a click chooses, where zoom and pan lead, what a screen reader finds. */
#include <math.h>

#include "tests/app/canvas-fixture.h"

static void
test_children (Fixture *f, gconstpointer data)
{
  const char *const first[] = {"tank", "overflow", "siphon"};
  CanvasPart *part = NULL;
  guint n = 0;

  gtk_test_accessible_assert_role (f->canvas, GTK_ACCESSIBLE_ROLE_LIST);
  g_assert_true (
      gtk_test_accessible_has_property (GTK_ACCESSIBLE (f->canvas), GTK_ACCESSIBLE_PROPERTY_LABEL));
  while ((part = canvas_next_child (f->canvas, part, 1)) != NULL) {
    if (n < G_N_ELEMENTS (first))
      g_assert_cmpstr (canvas_part_get_key (part), ==, first[n]);
    n++;
    gtk_test_accessible_assert_role (part, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
    g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (part), GTK_ACCESSIBLE_PROPERTY_LABEL));
    gtk_test_accessible_assert_state (part, GTK_ACCESSIBLE_STATE_SELECTED, FALSE);
  }
  g_assert_cmpuint (n, >, 20);
  gtk_test_accessible_assert_property (canvas_child (f->canvas, "tank"), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Display tank");
  selection_set_key (f->selection, "tank");
  gtk_test_accessible_assert_state (canvas_child (f->canvas, "tank"), GTK_ACCESSIBLE_STATE_SELECTED, TRUE);
}

/* A child that stays is the same widget, so that the focus stays; one whose part went goes too. */
static void
test_children_follow (Fixture *f, gconstpointer data)
{
  CanvasPart *tank = canvas_child (f->canvas, "tank");
  g_autoptr (Draft) draft = draft_new (document_get_design (f->document));
  g_autoptr (Design) design = NULL;

  g_assert_true (draft_remove (draft, "skimmer", NULL));
  design = draft_commit (draft, NULL);
  g_assert_nonnull (design);
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "skimmer")));
  document_apply (f->document, design, "Remove");
  g_assert_null (canvas_child (f->canvas, "skimmer"));
  g_assert_true (canvas_child (f->canvas, "tank") == tank);
  document_undo (f->document);
  g_assert_nonnull (canvas_child (f->canvas, "skimmer"));
}

static void
test_click (Fixture *f, gconstpointer data)
{
  graphene_rect_t box;
  double x, y;

  g_assert_true (canvas_part_box (f->canvas, index_of (f, "return-pump"), &box));
  x = (double) (box.origin.x + box.size.width / 2);
  y = (double) (box.origin.y + box.size.height / 2);
  click (f, x, y);
  g_assert_cmpstr (selection_get_key (f->selection), ==, "return-pump");
  /* Again: what lies beneath it, and at last the pump again. */
  click (f, x, y);
  g_assert_cmpstr (selection_get_key (f->selection), !=, "return-pump");
  for (guint i = 0; i < 20 && g_strcmp0 (selection_get_key (f->selection), "return-pump") != 0; i++)
    click (f, x, y);
  g_assert_cmpstr (selection_get_key (f->selection), ==, "return-pump");
  click (f, f->canvas->view.width - 2, f->canvas->view.height - 2);
  g_assert_null (selection_get_key (f->selection));
  g_assert_false (document_is_modified (f->document));
}

/* The pointer hits the child of the part that the scene says is there. */
static void
test_contains (Fixture *f, gconstpointer data)
{
  graphene_rect_t box;
  GtkWidget *hit;

  g_assert_true (canvas_part_box (f->canvas, index_of (f, "return-pump"), &box));
  hit = gtk_widget_pick (GTK_WIDGET (f->canvas), (double) (box.origin.x + box.size.width / 2),
                         (double) (box.origin.y + box.size.height / 2), GTK_PICK_DEFAULT);
  g_assert_true (hit == GTK_WIDGET (canvas_child (f->canvas, "return-pump")));
  hit = gtk_widget_pick (GTK_WIDGET (f->canvas), f->canvas->view.width - 2, f->canvas->view.height - 2,
                         GTK_PICK_DEFAULT);
  g_assert_true (hit == GTK_WIDGET (f->canvas));
}

static void
on_edit_part (Canvas *canvas, const char *part, char **ret_key)
{
  *ret_key = g_strdup (part);
}

static void
test_walk (Fixture *f, gconstpointer data)
{
  GtkWidget *canvas = GTK_WIDGET (f->canvas);
  g_autofree char *edited = NULL;

  g_signal_connect (f->canvas, "edit-part", G_CALLBACK (on_edit_part), &edited);
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "tank")));
  g_assert_true (gtk_widget_child_focus (canvas, GTK_DIR_TAB_FORWARD));
  g_assert_true (gtk_widget_get_focus_child (canvas) == GTK_WIDGET (canvas_child (f->canvas, "overflow")));
  g_assert_true (key (f, GDK_KEY_Right, 0));
  g_assert_true (gtk_widget_get_focus_child (canvas) == GTK_WIDGET (canvas_child (f->canvas, "siphon")));
  g_assert_true (key (f, GDK_KEY_Up, 0));
  g_assert_true (gtk_widget_get_focus_child (canvas) == GTK_WIDGET (canvas_child (f->canvas, "overflow")));
  g_assert_null (selection_get_key (f->selection));
  g_assert_true (key (f, GDK_KEY_space, 0));
  g_assert_cmpstr (selection_get_key (f->selection), ==, "overflow");
  g_assert_true (key (f, GDK_KEY_Return, 0));
  g_assert_cmpstr (edited, ==, "overflow");
  g_assert_false (document_is_modified (f->document));
  g_clear_pointer (&edited, g_free);
  g_assert_true (
      gtk_widget_activate_action (GTK_WIDGET (canvas_child (f->canvas, "tank")), "part.edit", NULL));
  g_assert_cmpstr (edited, ==, "tank");
  /* At its end the canvas lets the focus go on. */
  gtk_widget_grab_focus (GTK_WIDGET (canvas_next_child (f->canvas, NULL, -1)));
  g_assert_false (gtk_widget_child_focus (canvas, GTK_DIR_TAB_FORWARD));
}

static void
test_view (Fixture *f, gconstpointer data)
{
  const DrawingView fitted = f->canvas->view;
  double x, z;

  x = view_to_x (&fitted, 300);
  z = view_to_z (&fitted, 200);
  canvas_zoom_at (f->canvas, 300, 200, 3);
  g_assert_cmpfloat_with_epsilon (f->canvas->view.scale, fitted.scale * 3, 1e-6);
  g_assert_cmpfloat_with_epsilon (view_x (&f->canvas->view, x), 300, 1);
  g_assert_cmpfloat_with_epsilon (view_y (&f->canvas->view, z), 200, 1);
  /* No pan and no zoom loses the drawing. */
  canvas_pan (f->canvas, 1e7, -1e7);
  g_assert_cmpfloat (view_x (&f->canvas->view, scene_outline (f->canvas->scene).x0), <, fitted.width);
  g_assert_cmpfloat (view_y (&f->canvas->view, scene_outline (f->canvas->scene).z0), >, 0);
  for (guint i = 0; i < 60; i++)
    canvas_zoom (f->canvas, 0.5);
  g_assert_cmpfloat (f->canvas->view.scale, >=, fitted.scale / 2 - 1e-9);
  for (guint i = 0; i < 60; i++)
    canvas_zoom (f->canvas, 2);
  g_assert_true (isfinite (f->canvas->view.scale));
  canvas_zoom (f->canvas, (double) NAN);
  canvas_zoom (f->canvas, -1);
  g_assert_true (isfinite (f->canvas->view.origin_x) && isfinite (f->canvas->view.scale));
  canvas_fit (f->canvas);
  g_assert_cmpfloat (f->canvas->view.scale, ==, fitted.scale);
  g_assert_cmpfloat (f->canvas->view.origin_x, ==, fitted.origin_x);
}

/* The base is drawn once for hover, selection and a pan, and anew for another zoom, layer or design. */
static void
test_base_is_kept (Fixture *f, gconstpointer data)
{
  GskRenderNode *first = draw (f), *panned;

  selection_set_key (f->selection, "tank");
  g_assert_true (draw (f) == first);
  canvas_pan (f->canvas, 5, 5);
  panned = draw (f);
  g_assert_true (panned != NULL);
  canvas_pan (f->canvas, 40, -30);
  canvas_pan (f->canvas, -90, 60);
  g_assert_true (draw (f) == panned);
  gsk_render_node_ref (panned);
  canvas_show_layer (f->canvas, LAYER_DIMENSIONS, FALSE);
  g_assert_true (draw (f) != panned);
  gsk_render_node_unref (panned);
}

/* Space and a drag move the paper, and do not take up the focused part. */
static void
test_space_pan (Fixture *f, gconstpointer data)
{
  const double x = f->canvas->view.origin_x;
  gboolean handled;

  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "tank")));
  g_signal_emit_by_name (controller (f, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed", GDK_KEY_space, 0, 0,
                         &handled);
  press (f, 300, 300);
  move (f, 30, 0);
  let_go (f, 30, 0);
  g_signal_emit_by_name (controller (f, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-released", GDK_KEY_space, 0, 0);
  g_assert_cmpfloat_with_epsilon (f->canvas->view.origin_x, x + 30, 0.51);
  g_assert_null (selection_get_key (f->selection));
  g_assert_false (document_is_modified (f->document));
}

/* Choosing a finding brings the part it judges into view. */
static void
test_finding (Fixture *f, gconstpointer data)
{
  const Evaluation *evaluation = document_get_evaluation (f->document);
  graphene_rect_t box, seen;
  const graphene_rect_t room =
      GRAPHENE_RECT_INIT (0, 0, (float) f->canvas->view.width, (float) f->canvas->view.height);

  g_assert_nonnull (evaluation);
  for (unsigned i = 0; i < evaluation->n_findings; i++) {
    const int part = evaluation->findings[i].part;

    if (part < 0 || !canvas_part_box (f->canvas, part, &box))
      continue;
    canvas_zoom (f->canvas, 20);
    canvas_pan (f->canvas, 1e6, 1e6);
    selection_set_finding (f->selection, (int) i,
                           part_key (design_part (document_get_design (f->document), (unsigned) part)));
    g_assert_true (canvas_part_box (f->canvas, part, &box));
    g_assert_true (graphene_rect_intersection (&box, &room, &seen));
    canvas_fit (f->canvas);
  }
}

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    return 77;
  g_test_init (&argc, &argv, NULL);
  CANVAS_TEST ("children", test_children);
  CANVAS_TEST ("children-follow", test_children_follow);
  CANVAS_TEST ("click", test_click);
  CANVAS_TEST ("contains", test_contains);
  CANVAS_TEST ("walk", test_walk);
  CANVAS_TEST ("view", test_view);
  CANVAS_TEST ("base-is-kept", test_base_is_kept);
  CANVAS_TEST ("space-pan", test_space_pan);
  CANVAS_TEST ("finding", test_finding);
  return g_test_run ();
}
