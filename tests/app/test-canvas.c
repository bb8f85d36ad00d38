/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The canvas as a real widget in a window: what a click chooses, what a drag and an arrow key change, what a screen
 * reader finds. Pointer and keys come in by the signals of the canvas's own controllers. */
#include <math.h>

#include "app/canvas-private.h"
#include "files/catalogue-file.h"
#include "files/document.h"
#include "files/resource-data.h"

#define DEMO "/io/github/downcomer/Downcomer/demo/sound.downcomer"

typedef struct {
  Document *document;
  Selection *selection;
  Theme *theme;
  GtkWidget *window;
  Canvas *canvas;
} Fixture;

static gboolean
on_deadline (gpointer data)
{
  *(gboolean *) data = TRUE;
  return G_SOURCE_REMOVE;
}

/* Runs the main loop until the canvas has its size. */
static void
wait_for_size (Canvas *canvas)
{
  gboolean late = FALSE;
  const guint source = g_timeout_add_seconds (20, on_deadline, &late);

  while (!late && (canvas->view.width < 100 || canvas->base == NULL))
    g_main_context_iteration (NULL, TRUE);
  g_assert_false (late);
  g_source_remove (source);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (GBytes) bytes = resource_data (DEMO);
  g_autoptr (Project) project = document_from_bytes (bytes, "demo", NULL);
  Catalogue *catalogue = catalogue_built_in ();

  g_assert_nonnull (project);
  f->document = document_new (project, catalogue);
  catalogue_unref (catalogue);
  f->selection = selection_new ();
  f->theme = theme_new (gdk_display_get_default ());
  f->canvas = g_object_new (DOWNCOMER_TYPE_CANVAS, NULL);
  canvas_set_model (f->canvas, f->document, f->selection, f->theme);
  f->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (f->window), 1000, 760);
  gtk_window_set_child (GTK_WINDOW (f->window), GTK_WIDGET (f->canvas));
  gtk_window_present (GTK_WINDOW (f->window));
  wait_for_size (f->canvas);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gpointer canvas = f->canvas, document = f->document, selection = f->selection;

  g_object_add_weak_pointer (G_OBJECT (f->canvas), &canvas);
  g_object_add_weak_pointer (G_OBJECT (f->document), &document);
  g_object_add_weak_pointer (G_OBJECT (f->selection), &selection);
  gtk_window_destroy (GTK_WINDOW (f->window));
  while (g_main_context_iteration (NULL, FALSE))
    continue;
  g_assert_null (canvas);
  g_object_unref (f->document);
  g_object_unref (f->selection);
  g_object_unref (f->theme);
  g_assert_null (document);
  g_assert_null (selection);
}

static double
number (Fixture *f, const char *key, FieldId field)
{
  const Design *design = document_get_design (f->document);

  return design_number (design, design_find (design, key), field);
}

static int
index_of (Fixture *f, const char *key)
{
  return design_index (document_get_design (f->document), key);
}

static GtkEventController *
controller (Fixture *f, GType type)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (GTK_WIDGET (f->canvas));

  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkEventController) each = g_list_model_get_item (all, i);

    if (G_TYPE_CHECK_INSTANCE_TYPE (each, type))
      return each; /* the widget holds it */
  }
  g_assert_not_reached ();
}

static void
press (Fixture *f, double x, double y)
{
  g_signal_emit_by_name (controller (f, GTK_TYPE_GESTURE_DRAG), "drag-begin", x, y);
}

static void
move (Fixture *f, double dx, double dy)
{
  g_signal_emit_by_name (controller (f, GTK_TYPE_GESTURE_DRAG), "drag-update", dx, dy);
}

static void
let_go (Fixture *f, double dx, double dy)
{
  g_signal_emit_by_name (controller (f, GTK_TYPE_GESTURE_DRAG), "drag-end", dx, dy);
}

static void
click (Fixture *f, double x, double y)
{
  press (f, x, y);
  let_go (f, 0, 0);
}

static gboolean
key (Fixture *f, guint keyval, GdkModifierType state)
{
  gboolean handled = FALSE;

  g_signal_emit_by_name (controller (f, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed", keyval, 0, state,
                         &handled);
  g_signal_emit_by_name (controller (f, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-released", keyval, 0, state);
  return handled;
}

/* Presses the handle of the selected part that moves a field, in the middle. */
static void
press_handle (Fixture *f, const char *part, FieldId field)
{
  const int index = index_of (f, part);

  for (unsigned i = 0; i < scene_n_handles (f->canvas->scene, index); i++) {
    const SceneHandle *handle = scene_handle (f->canvas->scene, index, i);

    for (unsigned k = 0; k < handle->n_moves; k++)
      if (handle->moves[k].field == field) {
        press (f, view_x (&f->canvas->view, handle->x), view_y (&f->canvas->view, handle->z));
        return;
      }
  }
  g_assert_not_reached ();
}

static double
pixels (Fixture *f, double metres)
{
  return metres * f->canvas->view.scale;
}

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
test_drag (Fixture *f, gconstpointer data)
{
  const double before = number (f, "overflow", FIELD_OVERFLOW_CREST);

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, pixels (f, 0.02));
  move (f, 0, pixels (f, 0.04));
  let_go (f, 0, pixels (f, 0.04));
  /* Down by 40 mm, to the grid or to an edge within six pixels. */
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), before - 0.04,
                                  0.0026 + 6 / f->canvas->view.scale);
  g_assert_cmpfloat (number (f, "overflow", FIELD_OVERFLOW_CREST), <, before);
  g_assert_false (document_in_gesture (f->document));
  document_undo (f->document);
  g_assert_cmpfloat (number (f, "overflow", FIELD_OVERFLOW_CREST), ==, before);
  g_assert_null (document_undo_label (f->document));
}

static void
test_drag_home (Fixture *f, gconstpointer data)
{
  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 30);
  g_assert_nonnull (document_undo_label (f->document));
  move (f, 0, 1);
  let_go (f, 0, 1);
  g_assert_null (document_undo_label (f->document));
  g_assert_false (document_is_modified (f->document));
}

/* Along one axis the field of the other stays as it was, unknown if it was unknown. */
static void
test_drag_one_axis (Fixture *f, gconstpointer data)
{
  const double x = number (f, "level-baffle", FIELD_BAFFLE_X);

  selection_set_key (f->selection, "level-baffle");
  press_handle (f, "level-baffle", FIELD_BAFFLE_HEIGHT);
  move (f, 4, -40);
  let_go (f, 4, -40);
  g_assert_cmpfloat (number (f, "level-baffle", FIELD_BAFFLE_X), ==, x);
  g_assert_nonnull (document_undo_label (f->document));
}

static void
test_escape (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 40);
  g_assert_false (design_equal (before, document_get_design (f->document)));
  g_assert_true (gtk_widget_get_visible (f->canvas->note));
  g_assert_true (key (f, GDK_KEY_Escape, 0));
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_false (gtk_widget_get_visible (f->canvas->note));
  /* What the pointer still does changes nothing, and the next Escape deselects. */
  move (f, 0, 60);
  let_go (f, 0, 60);
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_cmpstr (selection_get_key (f->selection), ==, "overflow");
  g_assert_true (key (f, GDK_KEY_Escape, 0));
  g_assert_null (selection_get_key (f->selection));
  g_assert_false (key (f, GDK_KEY_Escape, 0));
}

/* Beyond what the field takes the handle stops at the limit and says why. */
static void
test_refusal (Fixture *f, gconstpointer data)
{
  const double least = field_info (FIELD_OVERFLOW_CREST)->min;
  const char *said;

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, pixels (f, 0.3));
  move (f, 0, pixels (f, 5));
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), least, 0.005);
  said = gtk_label_get_text (GTK_LABEL (f->canvas->note));
  g_assert_nonnull (strstr (said, "No further"));
  move (f, 0, pixels (f, 0.02));
  g_assert_cmpfloat (number (f, "overflow", FIELD_OVERFLOW_CREST), >, 0.3);
  let_go (f, 0, pixels (f, 0.02));
}

/* Another file while a handle is in hand: the drag is forgotten, the new design untouched. */
static void
test_reset_while_dragging (Fixture *f, gconstpointer data)
{
  g_autoptr (Project) project = project_ref (document_get_project (f->document));

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 40);
  document_reset (f->document, project, NULL);
  move (f, 0, 60);
  let_go (f, 0, 60);
  g_assert_true (project_equal (project, document_get_project (f->document)));
}

static void
test_destroy_while_dragging (Fixture *f, gconstpointer data)
{
  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 40);
}

static void
test_nudge (Fixture *f, gconstpointer data)
{
  const double before = number (f, "overflow", FIELD_OVERFLOW_CREST);

  selection_set_key (f->selection, "overflow");
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "overflow")));
  g_assert_true (key (f, GDK_KEY_Up, 0));
  g_assert_true (key (f, GDK_KEY_Up, 0));
  g_assert_true (key (f, GDK_KEY_Down, GDK_SHIFT_MASK));
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), before - 0.008, 1e-12);
  /* The Control of Control+Z ends the row, which is one step. */
  g_assert_false (key (f, GDK_KEY_Control_L, 0));
  g_assert_false (document_in_gesture (f->document));
  document_undo (f->document);
  g_assert_cmpfloat (number (f, "overflow", FIELD_OVERFLOW_CREST), ==, before);
  g_assert_null (document_undo_label (f->document));
}

/* In US units a nudge is a sixteenth of an inch. */
static void
test_nudge_us (Fixture *f, gconstpointer data)
{
  g_assert_true (document_set_number (f->document, "job", FIELD_JOB_UNITS, 1, NULL));
  g_assert_true (document_set_number (f->document, "overflow", FIELD_OVERFLOW_CREST, 22 * 0.0254, NULL));
  selection_set_key (f->selection, "overflow");
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "overflow")));
  key (f, GDK_KEY_Up, 0);
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), 22.0625 * 0.0254, 1e-9);
  key (f, GDK_KEY_Down, GDK_SHIFT_MASK);
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), 21.5625 * 0.0254, 1e-9);
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

static GskRenderNode *
draw (Fixture *f)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderNode *whole;

  GTK_WIDGET_GET_CLASS (f->canvas)->snapshot (GTK_WIDGET (f->canvas), snapshot);
  whole = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (whole);
  gsk_render_node_unref (whole);
  return f->canvas->base;
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
#define ADD(name, function) g_test_add ("/canvas/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("children", test_children);
  ADD ("children-follow", test_children_follow);
  ADD ("click", test_click);
  ADD ("contains", test_contains);
  ADD ("drag", test_drag);
  ADD ("drag-home", test_drag_home);
  ADD ("drag-one-axis", test_drag_one_axis);
  ADD ("escape", test_escape);
  ADD ("refusal", test_refusal);
  ADD ("reset-while-dragging", test_reset_while_dragging);
  ADD ("destroy-while-dragging", test_destroy_while_dragging);
  ADD ("nudge", test_nudge);
  ADD ("nudge-us", test_nudge_us);
  ADD ("walk", test_walk);
  ADD ("view", test_view);
  ADD ("base-is-kept", test_base_is_kept);
  ADD ("finding", test_finding);
#undef ADD
  return g_test_run ();
}
