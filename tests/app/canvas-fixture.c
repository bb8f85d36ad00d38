/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/app/canvas-fixture.h"

#include "files/catalogue-file.h"
#include "files/document.h"
#include "files/resource-data.h"

#define DEMO "/io/github/downcomer/Downcomer/demo/sound.downcomer"

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

void
canvas_fixture_set_up (Fixture *f, gconstpointer data)
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

void
canvas_fixture_tear_down (Fixture *f, gconstpointer data)
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

double
number (Fixture *f, const char *key, FieldId field)
{
  const Design *design = document_get_design (f->document);

  return design_number (design, design_find (design, key), field);
}

int
index_of (Fixture *f, const char *key)
{
  return design_index (document_get_design (f->document), key);
}

GtkEventController *
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

void
press (Fixture *f, double x, double y)
{
  g_signal_emit_by_name (controller (f, GTK_TYPE_GESTURE_DRAG), "drag-begin", x, y);
}

void
move (Fixture *f, double dx, double dy)
{
  g_signal_emit_by_name (controller (f, GTK_TYPE_GESTURE_DRAG), "drag-update", dx, dy);
}

void
let_go (Fixture *f, double dx, double dy)
{
  g_signal_emit_by_name (controller (f, GTK_TYPE_GESTURE_DRAG), "drag-end", dx, dy);
}

void
click (Fixture *f, double x, double y)
{
  press (f, x, y);
  let_go (f, 0, 0);
}

gboolean
key (Fixture *f, guint keyval, GdkModifierType state)
{
  gboolean handled = FALSE;

  g_signal_emit_by_name (controller (f, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed", keyval, 0, state,
                         &handled);
  g_signal_emit_by_name (controller (f, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-released", keyval, 0, state);
  return handled;
}

/* Presses the handle of the selected part that moves a field, in the middle. */
void
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

double
pixels (Fixture *f, double metres)
{
  return metres * f->canvas->view.scale;
}

GskRenderNode *
draw (Fixture *f)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderNode *whole;

  /* A note that has just been shown has no place yet. */
  GTK_WIDGET_GET_CLASS (f->canvas)->size_allocate (GTK_WIDGET (f->canvas),
                                                   gtk_widget_get_width (GTK_WIDGET (f->canvas)),
                                                   gtk_widget_get_height (GTK_WIDGET (f->canvas)), -1);
  GTK_WIDGET_GET_CLASS (f->canvas)->snapshot (GTK_WIDGET (f->canvas), snapshot);
  whole = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (whole);
  gsk_render_node_unref (whole);
  return f->canvas->base;
}
