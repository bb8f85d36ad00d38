/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Drawing by hand beyond one handle: exact values typed, parts moved as a whole and together, fittings and corners put on
 * runs, removal, and measuring. Each is one step of the history. */
#include <math.h>

#include "app/common/additions.h"
#include "tests/app/canvas-fixture.h"

/* The middle of a part, in logical pixels. */
static void
middle_of (Fixture *f, const char *part, double *ret_x, double *ret_y)
{
  graphene_rect_t box;

  g_assert_true (canvas_part_box (f->canvas, index_of (f, part), &box));
  *ret_x = (double) (box.origin.x + box.size.width / 2);
  *ret_y = (double) (box.origin.y + box.size.height / 2);
}

static void
click_held (Fixture *f, const char *part)
{
  selection_toggle (f->selection, part);
}

/* One step back is the design before, and there is no other. */
static void
assert_one_step (Fixture *f, const Design *before)
{
  g_assert_false (document_in_gesture (f->document));
  g_assert_false (design_equal (before, document_get_design (f->document)));
  document_undo (f->document);
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_null (document_undo_label (f->document));
}

static GtkEditable *
first_entry (Fixture *f, SceneAxis axis)
{
  g_assert_nonnull (f->canvas->entries[axis]);
  return GTK_EDITABLE (f->canvas->entries[axis]);
}

/* A number typed while a handle is in hand, with its unit; Enter sets it. */
static void
test_type_while_dragging (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 20);
  g_assert_true (key (f, GDK_KEY_5, 0));
  g_assert_true (canvas_entry_is_open (f->canvas));
  g_assert_cmpstr (gtk_editable_get_text (first_entry (f, AXIS_Z)), ==, "5");
  /* The hand may go on: it moves nothing while numbers are typed. */
  move (f, 0, 90);
  let_go (f, 0, 90);
  g_assert_true (canvas_entry_is_open (f->canvas));
  gtk_editable_set_text (first_entry (f, AXIS_Z), "53.5 cm");
  g_signal_emit_by_name (first_entry (f, AXIS_Z), "activate");
  g_assert_false (canvas_entry_is_open (f->canvas));
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), 0.535, 1e-12);
  assert_one_step (f, before);
}

/* Escape leaves everything as it was, also what the hand had moved before. */
static void
test_type_escape (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 40);
  g_assert_true (key (f, GDK_KEY_4, 0));
  canvas_entry_cancel (f->canvas);
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_null (document_undo_label (f->document));
  g_assert_false (canvas_dragging (f->canvas));
}

/* Without a pointer: choose, type, Enter. What is not understood or cannot be says so and stays open. */
static void
test_type_by_keyboard (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  selection_set_key (f->selection, "overflow");
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "overflow")));
  g_assert_true (key (f, GDK_KEY_Up, 0));
  g_assert_true (key (f, GDK_KEY_9, 0));
  gtk_editable_set_text (first_entry (f, AXIS_Z), "9 parsecs");
  g_signal_emit_by_name (first_entry (f, AXIS_Z), "activate");
  g_assert_true (canvas_entry_is_open (f->canvas));
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (f->canvas->entry_problem)), !=, "");
  gtk_editable_set_text (first_entry (f, AXIS_Z), "90 m");
  g_signal_emit_by_name (first_entry (f, AXIS_Z), "activate");
  g_assert_true (canvas_entry_is_open (f->canvas));
  gtk_editable_set_text (first_entry (f, AXIS_Z), "540");
  g_signal_emit_by_name (first_entry (f, AXIS_Z), "activate");
  g_assert_false (canvas_entry_is_open (f->canvas));
  g_assert_cmpfloat_with_epsilon (number (f, "overflow", FIELD_OVERFLOW_CREST), 0.54, 1e-12);
  document_undo (f->document); /* the number */
  document_undo (f->document); /* the arrow before it */
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* The left edge goes, the right one stays. */
static void
test_left_edge (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const double right = number (f, "sump", FIELD_SUMP_X) + number (f, "sump", FIELD_SUMP_LENGTH);

  selection_set_key (f->selection, "sump");
  for (unsigned i = 0; i < scene_n_handles (f->canvas->scene, index_of (f, "sump")); i++) {
    const SceneHandle *handle = scene_handle (f->canvas->scene, index_of (f, "sump"), i);

    if (handle->n_moves == 2)
      press (f, view_x (&f->canvas->view, handle->x), view_y (&f->canvas->view, handle->z));
  }
  move (f, 30, 0);
  let_go (f, 30, 0);
  g_assert_cmpfloat (number (f, "sump", FIELD_SUMP_X), >, 0.011);
  g_assert_cmpfloat_with_epsilon (number (f, "sump", FIELD_SUMP_X) + number (f, "sump", FIELD_SUMP_LENGTH),
                                  right, 1e-6);
  assert_one_step (f, before);
}

/* A chosen tank is moved by its body, and with the hand it stays chosen. */
static void
test_body (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const double x = number (f, "tank", FIELD_TANK_X);
  double px, py;

  selection_set_key (f->selection, "tank");
  middle_of (f, "tank", &px, &py);
  /* To the side of what hangs in the middle. */
  px += 60;
  g_assert_cmpint (canvas_pick (f->canvas, px, py), ==, index_of (f, "tank"));
  press (f, px, py);
  move (f, pixels (f, 0.1), 0);
  let_go (f, pixels (f, 0.1), 0);
  g_assert_cmpfloat_with_epsilon (number (f, "tank", FIELD_TANK_X), x + 0.1, 0.03);
  g_assert_cmpstr (selection_get_key (f->selection), ==, "tank");
  assert_one_step (f, before);
}

/* Two baffles go together by the same way; one whose owner goes too does not go twice. */
static void
test_together (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const char *first = part_key (design_nth (before, PART_OUTLET, 0));
  const char *second = part_key (design_nth (before, PART_OUTLET, 1));
  const double x0 = number (f, first, FIELD_OUTLET_X), x1 = number (f, second, FIELD_OUTLET_X);
  double went;

  selection_set_key (f->selection, first);
  click_held (f, second);
  g_assert_cmpuint (selection_count (f->selection), ==, 2);
  g_assert_cmpstr (selection_get_key (f->selection), ==, second);
  press_handle (f, second, FIELD_OUTLET_X);
  move (f, 30, 0);
  let_go (f, 30, 0);
  went = number (f, second, FIELD_OUTLET_X) - x1;
  g_assert_cmpfloat (went, >, 0.01);
  g_assert_cmpfloat_with_epsilon (number (f, first, FIELD_OUTLET_X) - x0, went, 1e-6);
  g_assert_cmpuint (selection_count (f->selection), ==, 2);
  assert_one_step (f, before);

  /* The same by an arrow. */
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, second)));
  g_assert_true (key (f, GDK_KEY_Right, GDK_SHIFT_MASK));
  canvas_nudge_end (f->canvas);
  g_assert_cmpfloat_with_epsilon (number (f, first, FIELD_OUTLET_X) - x0,
                                  number (f, second, FIELD_OUTLET_X) - x1, 1e-9);
  assert_one_step (f, before);

  /* With their tank they only go where it goes. */
  click_held (f, "tank");
  press_handle (f, "tank", FIELD_TANK_X);
  move (f, 40, 0);
  let_go (f, 40, 0);
  g_assert_cmpfloat (number (f, second, FIELD_OUTLET_X), ==, x1);
  assert_one_step (f, before);
}

static void
test_choose (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  gtk_widget_grab_focus (GTK_WIDGET (f->canvas));
  g_assert_true (key (f, GDK_KEY_a, GDK_CONTROL_MASK));
  g_assert_cmpuint (selection_count (f->selection), ==, g_hash_table_size (f->canvas->parts));
  gtk_test_accessible_assert_state (canvas_child (f->canvas, "sump"), GTK_ACCESSIBLE_STATE_SELECTED, TRUE);
  /* All of it cannot go; the reason is said and nothing has changed. */
  g_assert_true (key (f, GDK_KEY_Delete, 0) || TRUE);
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_true (gtk_widget_get_visible (f->canvas->note));
  g_assert_true (key (f, GDK_KEY_Escape, 0));
  g_assert_cmpuint (selection_count (f->selection), ==, 0);
  g_assert_false (gtk_widget_get_visible (f->canvas->note));
  /* A band over everything chooses it too. */
  f->canvas->press_x = f->canvas->press_y = -1000;
  canvas_band_to (f->canvas, 5000, 5000);
  canvas_band_end (f->canvas);
  g_assert_cmpuint (selection_count (f->selection), ==, g_hash_table_size (f->canvas->parts));
  g_assert_nonnull (draw (f));
}

/* Two devices, chosen and removed together, are one step. */
static void
test_delete (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const unsigned n = design_count (before, PART_DEVICE);
  const char *first = part_key (design_nth (before, PART_DEVICE, 0));
  const char *second = part_key (design_nth (before, PART_DEVICE, 1));

  selection_set_key (f->selection, first);
  click_held (f, second);
  gtk_widget_grab_focus (GTK_WIDGET (f->canvas));
  g_assert_true (key (f, GDK_KEY_Delete, 0));
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_DEVICE), ==, n - 2);
  assert_one_step (f, before);
  /* What the design needs stays, and says why. */
  selection_set_key (f->selection, "sump");
  g_assert_false (canvas_delete (f->canvas));
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (f->canvas->note)), "Not possible"));
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* V, U, C, B put a fitting on the run in work where the pointer is, K a corner, T a tee with an outlet. */
static void
test_insert (Fixture *f, gconstpointer data)
{
  static const struct {
    guint keyval;
    PartKind kind;
    const char *type; /* of a fitting on a return run */
  } rows[] = {{GDK_KEY_v, PART_FITTING, "ball-valve"},  {GDK_KEY_u, PART_FITTING, "union"},
              {GDK_KEY_C, PART_FITTING, "check-valve"}, {GDK_KEY_b, PART_FITTING, "bulkhead"},
              {GDK_KEY_k, PART_CORNER, NULL},           {GDK_KEY_t, PART_OUTLET, NULL}};
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const char *run = part_key (design_nth (before, PART_RETURN, 0));

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    const unsigned n = design_count (before, rows[i].kind);
    const Part *added;

    selection_set_key (f->selection, run);
    gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, run)));
    g_assert_true (key (f, rows[i].keyval, 0));
    g_assert_cmpuint (design_count (document_get_design (f->document), rows[i].kind), ==, n + 1);
    added = design_find (document_get_design (f->document), selection_get_key (f->selection));
    g_assert_cmpint (part_kind (added), ==, rows[i].kind);
    if (rows[i].type != NULL)
      g_assert_cmpstr (design_text (document_get_design (f->document), added, FIELD_FITTING_TYPE), ==,
                       rows[i].type);
    assert_one_step (f, before);
  }
  selection_set_key (f->selection, NULL);
  g_assert_true (key (f, GDK_KEY_v, 0));
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_true (gtk_widget_get_visible (f->canvas->note));
}

/* At the pointer: the station is the place of the run beneath it; a drag takes it along the run. */
static void
test_insert_at (Fixture *f, gconstpointer data)
{
  const Design *design = document_get_design (f->document);
  const Part *run = design_nth (design, PART_RETURN, 0);
  g_autofree char *run_key = g_strdup (part_key (run));
  g_autofree char *added = NULL;
  const SceneHandle *handle;
  double station, x, y, distance;

  selection_set_key (f->selection, run_key);
  middle_of (f, run_key, &x, &y);
  g_assert_true (canvas_station_at (f->canvas, design, run, x, y, &station, &distance));
  f->canvas->pointer_x = x;
  f->canvas->pointer_y = y;
  f->canvas->pointer_inside = TRUE;
  g_assert_true (canvas_insert (f->canvas, "union"));
  added = g_strdup (selection_get_key (f->selection));
  g_assert_cmpfloat_with_epsilon (number (f, added, FIELD_FITTING_STATION), station, 1e-9);
  handle = scene_handle (f->canvas->scene, index_of (f, added), 0);
  g_assert_nonnull (handle);
  press_handle (f, added, FIELD_FITTING_STATION);
  move (f, 0, 30);
  let_go (f, 0, 30);
  g_assert_cmpfloat (fabs (number (f, added, FIELD_FITTING_STATION) - station), >, 0.01);
}

/* A double click on a run, or a pull at it, gives it a corner. */
static void
test_bend (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const char *run = part_key (design_nth (before, PART_RETURN, 0));
  const unsigned n = design_count (before, PART_CORNER);
  double x, y;

  selection_set_key (f->selection, run);
  middle_of (f, run, &x, &y);
  f->canvas->pointer_x = x;
  f->canvas->pointer_y = y;
  f->canvas->pointer_inside = TRUE;
  f->canvas->press_twice = TRUE;
  click (f, x, y);
  f->canvas->press_twice = FALSE;
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_CORNER), ==, n + 1);
  assert_one_step (f, before);

  selection_set_key (f->selection, run);
  /* Where the run itself is on top. */
  for (; canvas_pick (f->canvas, x, y) != index_of (f, run); y -= 2)
    g_assert_cmpfloat (y, >, 0);
  press (f, x, y);
  move (f, 60, 0);
  let_go (f, 60, 0);
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_CORNER), ==, n + 1);
  g_assert_cmpint (
      part_kind (design_find (document_get_design (f->document), selection_get_key (f->selection))), ==,
      PART_CORNER);
  assert_one_step (f, before);

  /* Escape takes the corner back as well. */
  selection_set_key (f->selection, run);
  press (f, x, y);
  move (f, 60, 0);
  g_assert_true (key (f, GDK_KEY_Escape, 0));
  let_go (f, 60, 0);
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* A bend that is let go where it began leaves no corner and no step; pushed straight later, it goes in one. */
static void
test_unbend (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const char *run = part_key (design_nth (before, PART_RETURN, 0));
  const unsigned n = design_count (before, PART_CORNER);
  g_autofree char *corner = NULL;
  double x, y;

  selection_set_key (f->selection, run);
  middle_of (f, run, &x, &y);
  for (; canvas_pick (f->canvas, x, y) != index_of (f, run); y -= 2)
    g_assert_cmpfloat (y, >, 0);
  press (f, x, y);
  move (f, 60, 0);
  move (f, 0, 0);
  let_go (f, 0, 0);
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_CORNER), ==, n);
  g_assert_cmpstr (selection_get_key (f->selection), ==, run);
  g_assert_true (gtk_widget_get_visible (f->canvas->note));

  press (f, x, y);
  move (f, 60, 0);
  let_go (f, 60, 0);
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_CORNER), ==, n + 1);
  corner = g_strdup (selection_get_key (f->selection));
  press_handle (f, corner, FIELD_CORNER_X);
  move (f, -60, 0);
  let_go (f, -60, 0);
  g_assert_null (design_find (document_get_design (f->document), corner));
  document_undo (f->document);
  g_assert_nonnull (design_find (document_get_design (f->document), corner));
  while (document_undo_label (f->document) != NULL)
    document_undo (f->document);
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* Cut is copy and remove in one step; what cannot be copied stays. */
static void
test_cut (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const char *device = part_key (design_nth (before, PART_DEVICE, 0));
  const unsigned n = design_count (before, PART_DEVICE);

  gtk_widget_grab_focus (GTK_WIDGET (f->canvas));
  selection_set_key (f->selection, device);
  g_assert_true (key (f, GDK_KEY_x, GDK_CONTROL_MASK));
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_DEVICE), ==, n - 1);
  g_assert_true (key (f, GDK_KEY_v, GDK_CONTROL_MASK));
  g_assert_cmpuint (design_count (document_get_design (f->document), PART_DEVICE), ==, n);
  document_undo (f->document);
  assert_one_step (f, before);
  selection_set_key (f->selection, "stand");
  g_assert_false (canvas_cut (f->canvas));
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* A tank goes to the back in the plan and in the end view; its pipes stay square, in one step. An arrow that finds nothing to
 * move says so. */
static void
test_other_views (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const double y = number (f, "tank", FIELD_TANK_Y);

  for (SceneProjection v = PROJECTION_END; v <= PROJECTION_PLAN; v++) {
    const gboolean end = v == PROJECTION_END;

    canvas_set_projection (f->canvas, v);
    selection_set_key (f->selection, "tank");
    for (unsigned i = 0; i < scene_n_handles (f->canvas->scene, index_of (f, "tank")); i++) {
      const SceneHandle *handle = scene_handle (f->canvas->scene, index_of (f, "tank"), i);

      if (handle->body)
        press (f, view_x (&f->canvas->view, handle->x), view_y (&f->canvas->view, handle->z));
    }
    move (f, end ? pixels (f, 0.05) : 0, end ? 0 : -pixels (f, 0.05));
    let_go (f, end ? pixels (f, 0.05) : 0, end ? 0 : -pixels (f, 0.05));
    g_assert_cmpfloat_with_epsilon (number (f, "tank", FIELD_TANK_Y), y + 0.05, 0.03);
    g_assert_cmpfloat (number (f, "tank", FIELD_TANK_Y), >, y + 0.01);
    assert_one_step (f, before);
    gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, "tank")));
    g_assert_true (key (f, end ? GDK_KEY_Right : GDK_KEY_Up, 0));
    canvas_nudge_end (f->canvas);
    g_assert_cmpfloat_with_epsilon (number (f, "tank", FIELD_TANK_Y), y + 0.001, 0.00051);
    assert_one_step (f, before);
  }
  canvas_set_projection (f->canvas, PROJECTION_END);
  selection_set_key (f->selection, part_key (design_nth (before, PART_PUMP, 0)));
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, selection_get_key (f->selection))));
  g_assert_true (key (f, GDK_KEY_Left, 0));
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (f->canvas->note)), "does not move sideways"));
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* The running level follows the water line of the chosen return chamber. */
static void
test_water_line (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const Part *chamber = design_nth (before, PART_CHAMBER, design_count (before, PART_CHAMBER) - 1);
  const char *chamber_key = part_key (chamber);
  const double level = number (f, chamber_key, FIELD_CHAMBER_LEVEL);
  const SceneHandle *handle = scene_handle (f->canvas->scene, index_of (f, chamber_key), 0);
  double x = view_x (&f->canvas->view, handle->x) + 30;
  const double y = view_y (&f->canvas->view, handle->z) + 2;

  selection_set_key (f->selection, chamber_key);
  for (; canvas_pick (f->canvas, x, y) != index_of (f, chamber_key); x += 2)
    g_assert_cmpfloat (x, <, f->canvas->view.width);
  press (f, x, y);
  move (f, 0, -pixels (f, 0.05));
  let_go (f, 0, -pixels (f, 0.05));
  g_assert_cmpfloat (number (f, chamber_key, FIELD_CHAMBER_LEVEL), >, level + 0.02);
  assert_one_step (f, before);
}

static void
test_measure (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  SceneBox box;
  const char *said;

  g_assert_true (scene_part_bounds (f->canvas->scene, index_of (f, "tank"), &box));
  gtk_widget_grab_focus (GTK_WIDGET (f->canvas));
  g_assert_true (key (f, GDK_KEY_m, 0));
  /* Three pixels beside the corners: the points snap to them. */
  click (f, view_x (&f->canvas->view, box.x0) + 3, view_y (&f->canvas->view, box.z0));
  canvas_measure_move (f->canvas, view_x (&f->canvas->view, box.x1), view_y (&f->canvas->view, box.z0) + 3,
                       CANVAS_HOLD_NONE);
  said = gtk_label_get_text (GTK_LABEL (f->canvas->note));
  g_assert_nonnull (strstr (said, "1500"));
  g_assert_nonnull (draw (f));
  click (f, view_x (&f->canvas->view, box.x1), view_y (&f->canvas->view, box.z1));
  g_assert_cmpuint (f->canvas->measure.n, ==, 2);
  g_assert_true (key (f, GDK_KEY_Escape, 0));
  g_assert_false (canvas_measuring (f->canvas));
  g_assert_false (gtk_widget_get_visible (f->canvas->note));
  /* Without a pointer: between the middles of two chosen parts. */
  selection_set_key (f->selection, "tank");
  click_held (f, "sump");
  g_assert_true (key (f, GDK_KEY_m, 0));
  g_assert_cmpuint (f->canvas->measure.n, ==, 2);
  g_assert_true (key (f, GDK_KEY_Escape, 0));
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* Held keys: Control leaves snapping off, Shift keeps to one axis. */
static void
test_held_keys (Fixture *f, gconstpointer data)
{
  const double x = number (f, "level-baffle", FIELD_BAFFLE_X);

  selection_set_key (f->selection, "level-baffle");
  press_handle (f, "level-baffle", FIELD_BAFFLE_HEIGHT);
  move (f, 0, -20);
  canvas_drag_to (f->canvas, 15, -40, CANVAS_HOLD_STRAIGHT);
  g_assert_cmpfloat (number (f, "level-baffle", FIELD_BAFFLE_X), ==, x);
  canvas_drag_to (f->canvas, 15, -41, CANVAS_HOLD_FREE);
  g_assert_cmpuint (f->canvas->drag.n_guides, ==, 0);
  g_assert_cmpfloat (number (f, "level-baffle", FIELD_BAFFLE_X), !=, x);
  let_go (f, 15, -41);
}

/* Ctrl+C and Ctrl+V, and Ctrl+D: one more of what is chosen, chosen then. */
static void
test_copy (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const char *device = part_key (design_nth (before, PART_DEVICE, 0));
  const unsigned n = design_count (before, PART_DEVICE);
  static const guint keys[] = {GDK_KEY_v, GDK_KEY_d};

  gtk_widget_grab_focus (GTK_WIDGET (f->canvas));
  g_assert_true (key (f, GDK_KEY_c, GDK_CONTROL_MASK)); /* nothing: that is told */
  g_assert_true (gtk_widget_get_visible (f->canvas->note));
  selection_set_key (f->selection, device);
  g_assert_true (key (f, GDK_KEY_c, GDK_CONTROL_MASK));
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++) {
    selection_set_key (f->selection, device);
    g_assert_true (key (f, keys[i], GDK_CONTROL_MASK));
    g_assert_cmpuint (design_count (document_get_design (f->document), PART_DEVICE), ==, n + 1);
    g_assert_cmpstr (selection_get_key (f->selection), !=, device);
    assert_one_step (f, before);
  }
  selection_set_key (f->selection, "stand");
  g_assert_false (canvas_duplicate (f->canvas));
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* The menu of the drawing adds what the inspector offers, as one step, and chooses it. */
static void
test_add (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  unsigned tried = 0;

  for (unsigned n = 0; addition_nth (n) != NULL; n++) {
    const PartKind to = addition_nth (n)->to;
    const Part *owner = to < N_PART_KINDS ? design_nth (before, to, 0) : NULL;

    if (to < N_PART_KINDS && owner == NULL)
      continue;
    selection_set_key (f->selection, owner != NULL ? part_key (owner) : NULL);
    g_assert_true (gtk_widget_activate_action (GTK_WIDGET (f->canvas), "canvas.add", "u", n));
    if (document_get_design (f->document) == before) /* refused, as a second sump is */
      continue;
    g_assert_cmpuint (design_n_parts (document_get_design (f->document)), >, design_n_parts (before));
    g_assert_nonnull (design_find (document_get_design (f->document), selection_get_key (f->selection)));
    document_undo (f->document);
    g_assert_true (design_equal (document_get_design (f->document), before));
    g_assert_null (document_undo_label (f->document));
    tried++;
  }
  g_assert_cmpuint (tried, >, 8);
}

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    return 77;
  g_test_init (&argc, &argv, NULL);
  CANVAS_TEST ("type-while-dragging", test_type_while_dragging);
  CANVAS_TEST ("type-escape", test_type_escape);
  CANVAS_TEST ("type-by-keyboard", test_type_by_keyboard);
  CANVAS_TEST ("left-edge", test_left_edge);
  CANVAS_TEST ("body", test_body);
  CANVAS_TEST ("together", test_together);
  CANVAS_TEST ("choose", test_choose);
  CANVAS_TEST ("delete", test_delete);
  CANVAS_TEST ("insert", test_insert);
  CANVAS_TEST ("insert-at", test_insert_at);
  CANVAS_TEST ("bend", test_bend);
  CANVAS_TEST ("unbend", test_unbend);
  CANVAS_TEST ("cut", test_cut);
  CANVAS_TEST ("other-views", test_other_views);
  CANVAS_TEST ("water-line", test_water_line);
  CANVAS_TEST ("measure", test_measure);
  CANVAS_TEST ("copy", test_copy);
  CANVAS_TEST ("held-keys", test_held_keys);
  CANVAS_TEST ("add", test_add);
  return g_test_run ();
}
