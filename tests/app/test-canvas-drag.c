/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a handle in hand and an arrow key change, as one step of the history, and what is refused. */
#include <math.h>

#include "design/geometry.h"
#include "tests/app/canvas-fixture.h"

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

/* What the findings say, grade by grade, in one text. */
static char *
judgement (const Evaluation *evaluation)
{
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < evaluation->n_findings; i++)
    g_string_append_printf (text, "%d %d %d %.9g\n", evaluation->findings[i].check,
                            evaluation->findings[i].part, evaluation->findings[i].grade,
                            evaluation->findings[i].lower);
  return g_string_free (text, FALSE);
}

/* A step that comes back to the start says what was said before; the end judges by bands found anew. */
static void
test_judged_while_dragging (Fixture *f, gconstpointer data)
{
  g_autofree char *before = judgement (document_get_evaluation (f->document)), *back = NULL, *end = NULL,
                  *fresh = NULL;
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  const double crest_m = number (f, "overflow", FIELD_OVERFLOW_CREST);

  selection_set_key (f->selection, "overflow");
  press_handle (f, "overflow", FIELD_OVERFLOW_CREST);
  move (f, 0, 60);
  g_assert_true (document_in_gesture (f->document));
  g_assert_true (document_set_number (f->document, "overflow", FIELD_OVERFLOW_CREST, crest_m, NULL));
  back = judgement (document_get_evaluation (f->document));
  g_assert_cmpstr (back, ==, before);
  move (f, 0, 80);
  let_go (f, 0, 80);
  g_assert_false (document_in_gesture (f->document));
  end = judgement (document_get_evaluation (f->document));
  g_assert_true (evaluate_design (document_get_design (f->document), document_get_catalogue (f->document),
                                  NULL, evaluation, NULL, NULL));
  fresh = judgement (evaluation);
  g_assert_cmpstr (end, ==, fresh);
  g_assert_cmpstr (end, !=, before);
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

/* A design that cannot be computed is still drawn, named and changed. */
static void
test_no_evaluation (Fixture *f, gconstpointer data)
{
  g_assert_true (document_set_text (f->document, "siphon", FIELD_DRAIN_SIZE, "no-such-pipe", NULL));
  g_assert_null (document_get_evaluation (f->document));
  g_assert_nonnull (draw (f));
  selection_set_finding (f->selection, 3, "siphon");
  test_drag_one_axis (f, data);
  g_assert_nonnull (draw (f));
}

/* Hands that know no measure: whatever is dragged, zoomed and undone, in the end all of it can be undone. */
static void
test_storm (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const double lengths[] = {0, 3, 40, 700, 1e6};

  for (guint i = 0; i < 60; i++) {
    const int part = g_test_rand_int_range (0, (int) design_n_parts (document_get_design (f->document)));
    const unsigned n = scene_n_handles (f->canvas->scene, part);
    const double sign = g_test_rand_bit () ? 1 : -1;
    const double dx = sign * lengths[g_test_rand_int_range (0, 5)];
    const double dy = lengths[g_test_rand_int_range (0, 5)];

    selection_set_key (f->selection,
                       part_key (design_part (document_get_design (f->document), (unsigned) part)));
    if (n > 0 && canvas_drag_begin (f->canvas, part, (unsigned) g_test_rand_int_range (0, (int) n))) {
      canvas_drag_to (f->canvas, dx, dy, g_test_rand_bit ());
      if (i % 7 == 0)
        canvas_drag_cancel (f->canvas);
      canvas_drag_end (f->canvas);
    }
    canvas_nudge (f->canvas, g_test_rand_bit () ? AXIS_X : AXIS_Z, g_test_rand_bit () ? 1 : -1, TRUE);
    canvas_nudge_end (f->canvas);
    canvas_zoom_at (f->canvas, dy, dx, i % 3 == 0 ? 0.2 : 3);
    canvas_reveal (f->canvas, part);
    g_assert_nonnull (draw (f));
  }
  while (document_undo_label (f->document) != NULL)
    document_undo (f->document);
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* How far from upright or level, in metres, the pieces of runs are that were so before. */
static double
out_of_square (const Design *before, const Design *after, PartKind kind)
{
  double worst_m = 0;

  for (unsigned i = 0; i < design_count (before, kind); i++) {
    const Part *run = design_nth (before, kind, i);
    Point3 was[16], now[16];
    const unsigned n = geometry_run (before, run, was, 16);

    const unsigned n_now = geometry_run (after, design_find (after, part_key (run)), now, 16);

    /* A drain that had to turn aside goes along walls all the same. */
    for (unsigned k = 1; n_now != n && k < n_now; k++) {
      const double dx = fabs (now[k].x - now[k - 1].x), dy = fabs (now[k].y - now[k - 1].y);

      g_assert_cmpint (kind, ==, PART_DRAIN);
      g_assert_true (fmin (dx, dy) <= fmax (0.0006, 0.02 * fmax (dx, dy)));
    }
    if (n_now != n)
      continue;
    for (unsigned k = 1; k < n; k++) {
      if (fabs (was[k].x - was[k - 1].x) < 1e-6)
        worst_m = fmax (worst_m, fabs (now[k].x - now[k - 1].x));
      if (fabs (was[k].z - was[k - 1].z) < 1e-6)
        worst_m = fmax (worst_m, fabs (now[k].z - now[k - 1].z));
    }
  }
  return worst_m;
}

/* A tank, an overflow or a sump that is moved takes the corners along that hang on it, in one step. */
static void
test_carry (Fixture *f, gconstpointer data)
{
  static const char *const keys[] = {"tank", "overflow", "sump"};
  g_autoptr (Design) before = design_ref (document_get_design (f->document));

  for (unsigned i = 0; i < G_N_ELEMENTS (keys); i++) {
    g_assert_nonnull (design_find (before, keys[i]));
    selection_set_key (f->selection, keys[i]);
    g_assert_true (canvas_nudge (f->canvas, AXIS_X, 1, TRUE));
    canvas_nudge_end (f->canvas);
    g_test_message ("%s", keys[i]);
    g_assert_false (design_equal (before, document_get_design (f->document)));
    g_assert_cmpfloat (out_of_square (before, document_get_design (f->document), PART_DRAIN), <, 1e-6);
    g_assert_cmpfloat (out_of_square (before, document_get_design (f->document), PART_RETURN), <, 1e-6);
    document_undo (f->document);
    g_assert_true (design_equal (before, document_get_design (f->document)));
  }
}

/* A device that is dragged over a baffle belongs to the next chamber, also where the place is typed; one step back it stands
 * in the first again. */
static void
test_over_a_baffle (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const Part *device = design_nth (before, PART_DEVICE, 0), *owner = design_owner (before, device);
  const char *device_key = part_key (device);
  const Box3 box = geometry_outside (before, device);
  const Box3 next =
      geometry_inside (before, design_nth (before, PART_CHAMBER, design_count (before, PART_CHAMBER) - 1));
  const double away = pixels (f, next.origin.x + next.size.x / 2 - box.origin.x - box.size.x / 2);
  const Part *now;
  double left;

  selection_set_key (f->selection, device_key);
  press_handle (f, device_key, FIELD_DEVICE_X);
  move (f, away / 2, 0);
  move (f, away, 0);
  now = design_find (document_get_design (f->document), device_key);
  g_assert_cmpstr (part_owner (now), !=, part_key (owner));
  left = geometry_outside (document_get_design (f->document), now).origin.x;
  g_assert_cmpfloat (left, >, box.origin.x + 0.1);
  /* What is typed counts from the chamber that it stands in now. */
  g_assert_true (canvas_drag_set (f->canvas, AXIS_X, 0.01, NULL));
  now = design_find (document_get_design (f->document), device_key);
  if (g_strcmp0 (part_owner (now), part_key (owner)) != 0)
    g_assert_cmpfloat_with_epsilon (number (f, device_key, FIELD_DEVICE_X), 0.01, 1e-6);
  let_go (f, away, 0);
  document_undo (f->document);
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_null (document_undo_label (f->document));
}

/* A tank that is moved comes in line by either edge, not by its handle alone, and a line shows with what. */
static void
test_edges_snap (Fixture *f, gconstpointer data)
{
  const Design *design = document_get_design (f->document);
  SceneBox stand, tank;
  double dx;

  g_assert_true (scene_part_bounds (f->canvas->scene, index_of (f, "stand"), &stand));
  g_assert_true (scene_part_bounds (f->canvas->scene, index_of (f, "tank"), &tank));
  selection_set_key (f->selection, "tank");
  for (unsigned i = 0; i < scene_n_handles (f->canvas->scene, index_of (f, "tank")); i++) {
    const SceneHandle *handle = scene_handle (f->canvas->scene, index_of (f, "tank"), i);

    if (handle->body)
      press (f, view_x (&f->canvas->view, handle->x), view_y (&f->canvas->view, handle->z));
  }
  dx = pixels (f, stand.x0 - tank.x0);
  move (f, dx / 2, 0);
  move (f, dx + 2, 0);
  g_assert_cmpuint (f->canvas->drag.n_guides, ==, 1);
  design = document_get_design (f->document);
  /* Some edge or middle lies on the guide. */
  const Box3 now = geometry_outside (design, design_find (design, "tank"));
  const double at = f->canvas->drag.guides[0].at;
  const double off = fmin (fabs (now.origin.x - at), fmin (fabs (now.origin.x + now.size.x - at),
                                                           fabs (now.origin.x + now.size.x / 2 - at)));

  g_assert_cmpfloat (off, <, 2e-4);
  canvas_drag_to (f->canvas, dx + 2, 0, CANVAS_HOLD_FREE);
  g_assert_cmpuint (f->canvas->drag.n_guides, ==, 0);
  let_go (f, dx + 2, 0);
}

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    return 77;
  g_test_init (&argc, &argv, NULL);
  CANVAS_TEST ("drag", test_drag);
  CANVAS_TEST ("drag-home", test_drag_home);
  CANVAS_TEST ("drag-one-axis", test_drag_one_axis);
  CANVAS_TEST ("escape", test_escape);
  CANVAS_TEST ("refusal", test_refusal);
  CANVAS_TEST ("reset-while-dragging", test_reset_while_dragging);
  CANVAS_TEST ("drag/judged", test_judged_while_dragging);
  CANVAS_TEST ("destroy-while-dragging", test_destroy_while_dragging);
  CANVAS_TEST ("nudge", test_nudge);
  CANVAS_TEST ("nudge-us", test_nudge_us);
  CANVAS_TEST ("carry", test_carry);
  CANVAS_TEST ("over-a-baffle", test_over_a_baffle);
  CANVAS_TEST ("edges-snap", test_edges_snap);
  CANVAS_TEST ("no-evaluation", test_no_evaluation);
  CANVAS_TEST ("storm", test_storm);
  return g_test_run ();
}
