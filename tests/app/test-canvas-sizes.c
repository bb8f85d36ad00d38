/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The pipe of a run in another size: by keys, by the menu and by its wall, each as one step of the history. */
#include <math.h>

#include "design/edit.h"
#include "tests/app/canvas-fixture.h"

static const char *
size (Fixture *f, const char *run)
{
  const Design *design = document_get_design (f->document);
  const Part *part = design_find (design, run);

  return design_text (design, part, edit_size_field (part));
}

static const char *
first_run (Fixture *f)
{
  return part_key (design_nth (document_get_design (f->document), PART_RETURN, 0));
}

static void
test_keys (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  g_autofree char *run = g_strdup (first_run (f));
  g_autofree char *was = g_strdup (size (f, run));

  selection_set_key (f->selection, run);
  gtk_widget_grab_focus (GTK_WIDGET (canvas_child (f->canvas, run)));
  g_assert_true (key (f, GDK_KEY_Page_Up, 0));
  g_assert_cmpstr (size (f, run), !=, was);
  g_assert_true (gtk_widget_get_visible (f->canvas->note));
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (f->canvas->note)), "velocity"));
  g_assert_cmpstr (document_undo_label (f->document), ==, "Change Pipe size");
  document_undo (f->document);
  g_assert_true (design_equal (before, document_get_design (f->document)));
  g_assert_null (document_undo_label (f->document));

  /* To the end, where it says why. */
  for (unsigned i = 0; i < 20; i++)
    key (f, GDK_KEY_Page_Down, 0);
  g_assert_cmpstr (size (f, run), ==, "metric-20");
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (f->canvas->note)), "Not possible"));

  /* Nothing chosen: said, and nothing changed. */
  selection_set_key (f->selection, NULL);
  g_assert_true (key (f, GDK_KEY_Page_Up, 0));
  g_assert_cmpstr (size (f, run), ==, "metric-20");
}

/* Several runs are one step, and a fitting or corner stands for its run. */
static void
test_several (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  const Part *run = design_nth (before, PART_RETURN, 0), *other = design_nth (before, PART_RETURN, 1);

  selection_set_key (f->selection, part_key (design_child (before, part_key (run), PART_FITTING, 0)));
  selection_toggle (f->selection, part_key (run));
  selection_toggle (f->selection, part_key (other));
  g_assert_true (canvas_size_step (f->canvas, 1));
  g_assert_cmpstr (size (f, part_key (run)), !=, design_text (before, run, FIELD_RETURN_SIZE));
  g_assert_cmpstr (size (f, part_key (other)), !=, design_text (before, other, FIELD_RETURN_SIZE));
  g_assert_cmpstr (size (f, part_key (run)), ==, size (f, part_key (other)));
  document_undo (f->document);
  g_assert_true (design_equal (before, document_get_design (f->document)));
}

/* The wall goes from size to size in every view that is drawn to scale, back to where it was, and Escape restores it. */
static void
test_wall (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  g_autofree char *run = g_strdup (first_run (f));
  g_autofree char *was = g_strdup (size (f, run));

  for (SceneProjection v = PROJECTION_FRONT; v <= PROJECTION_PLAN; v++) {
    FieldId field;
    SceneHandle wall;
    double dx, dy;

    canvas_set_projection (f->canvas, v);
    selection_set_key (f->selection, run);
    wall = *scene_handle (f->canvas->scene, index_of (f, run), 0);
    g_assert_true (canvas_is_size (&wall));
    field = wall.moves[0].field;
    dx = wall.moves[0].axis == AXIS_X ? 1 : 0;
    dy = wall.moves[0].axis == AXIS_X ? 0 : -1;
    press_handle (f, run, field);
    move (f, 26 * dx, 26 * dy);
    g_assert_true (canvas_dragging (f->canvas));
    g_assert_cmpstr (size (f, run), !=, was);
    g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (f->canvas->note)), "mm PVC"));
    move (f, 4 * dx, 4 * dy);
    g_assert_cmpstr (size (f, run), ==, was);
    move (f, -2000 * dx, -2000 * dy);
    g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (f->canvas->note)), "No further"));
    g_assert_true (key (f, GDK_KEY_Escape, 0));
    let_go (f, -2000 * dx, -2000 * dy);
    g_assert_true (design_equal (before, document_get_design (f->document)));
    press_handle (f, run, field);
    move (f, 26 * dx, 26 * dy);
    let_go (f, 26 * dx, 26 * dy);
    g_assert_cmpstr (document_undo_label (f->document), ==, "Change Pipe size");
    document_undo (f->document);
    g_assert_true (design_equal (before, document_get_design (f->document)));
    g_assert_null (document_undo_label (f->document));
  }
}

/* A size is typed in the panel of values. */
static void
test_typed (Fixture *f, gconstpointer data)
{
  g_autoptr (Design) before = design_ref (document_get_design (f->document));
  g_autofree char *run = g_strdup (first_run (f));

  selection_set_key (f->selection, run);
  press_handle (f, run, FIELD_RETURN_SIZE);
  move (f, 40, 0);
  g_assert_true (key (f, GDK_KEY_2, 0));
  g_assert_false (canvas_entry_is_open (f->canvas));
  g_assert_false (canvas_dragging (f->canvas));
  g_assert_true (design_equal (before, document_get_design (f->document)));
  let_go (f, 40, 0);
}

static void
test_menu (Fixture *f, gconstpointer data)
{
  g_autofree char *run = g_strdup (first_run (f));
  g_autoptr (GMenuModel) none = NULL, menu = NULL;

  selection_set_key (f->selection, "sump");
  none = canvas_size_menu (f->canvas);
  g_assert_null (none);
  selection_set_key (f->selection, run);
  menu = canvas_size_menu (f->canvas);
  g_assert_nonnull (menu);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (f->canvas), "pipe.size", "s", "metric-63"));
  g_assert_cmpstr (size (f, run), ==, "metric-63");
  g_assert_cmpstr (document_undo_label (f->document), ==, "Change Pipe size");
}

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    return 77;
  g_test_init (&argc, &argv, NULL);
  CANVAS_TEST ("sizes/keys", test_keys);
  CANVAS_TEST ("sizes/several", test_several);
  CANVAS_TEST ("sizes/wall", test_wall);
  CANVAS_TEST ("sizes/typed", test_typed);
  CANVAS_TEST ("sizes/menu", test_menu);
  return g_test_run ();
}
