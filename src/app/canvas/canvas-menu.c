/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The actions of the canvas and its context menu, by the secondary button or the Menu key: what can be put on the run in
 * work at that place, and what can be done with the chosen parts. */
#include <glib/gi18n.h>

#include "app/canvas/canvas-private.h"
#include "app/common/additions.h"
#include "design/edit.h"

static void
on_insert (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_insert (DOWNCOMER_CANVAS (widget), g_variant_get_string (parameter, NULL));
}

static void
on_corner (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_insert_corner (DOWNCOMER_CANVAS (widget));
}

static void
on_tee (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_insert_tee (DOWNCOMER_CANVAS (widget));
}

static void
on_delete (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_delete (DOWNCOMER_CANVAS (widget));
}

static void
on_copy (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_copy (DOWNCOMER_CANVAS (widget));
}

static void
on_cut (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_cut (DOWNCOMER_CANVAS (widget));
}

static void
on_paste (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_paste (DOWNCOMER_CANVAS (widget));
}

static void
on_duplicate (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_duplicate (DOWNCOMER_CANVAS (widget));
}

static void
on_measure (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_measure_begin (DOWNCOMER_CANVAS (widget));
}

static void
on_choose_all (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_choose_all (DOWNCOMER_CANVAS (widget));
}

static void
on_values (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Canvas *self = DOWNCOMER_CANVAS (widget);

  if (selection_get_key (self->selection) != NULL)
    canvas_edit (self, selection_get_key (self->selection));
}

static void
on_exact (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_entry_open (DOWNCOMER_CANVAS (widget), NULL);
}

static void
on_add (GtkWidget *widget, const char *name, GVariant *parameter)
{
  canvas_add (DOWNCOMER_CANVAS (widget), g_variant_get_uint32 (parameter));
}

void
canvas_install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "canvas.insert", "s", on_insert);
  gtk_widget_class_install_action (klass, "canvas.add", "u", on_add);
  gtk_widget_class_install_action (klass, "canvas.corner", NULL, on_corner);
  gtk_widget_class_install_action (klass, "canvas.tee", NULL, on_tee);
  gtk_widget_class_install_action (klass, "canvas.delete", NULL, on_delete);
  gtk_widget_class_install_action (klass, "canvas.copy", NULL, on_copy);
  gtk_widget_class_install_action (klass, "canvas.cut", NULL, on_cut);
  gtk_widget_class_install_action (klass, "canvas.paste", NULL, on_paste);
  gtk_widget_class_install_action (klass, "canvas.duplicate", NULL, on_duplicate);
  gtk_widget_class_install_action (klass, "canvas.measure", NULL, on_measure);
  gtk_widget_class_install_action (klass, "canvas.choose-all", NULL, on_choose_all);
  gtk_widget_class_install_action (klass, "canvas.values", NULL, on_values);
  gtk_widget_class_install_action (klass, "canvas.exact", NULL, on_exact);
}

static void
enable (Canvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  const Part *part = canvas_part_of (self, canvas_selected (self));
  const Design *design = document_get_design (self->document);
  const guint n = selection_count (self->selection);

  gtk_widget_action_set_enabled (widget, "canvas.delete",
                                 n > 1 || (part != NULL && edit_can_remove (design, part_key (part))));
  gtk_widget_action_set_enabled (widget, "canvas.cut",
                                 n > 1 || (part != NULL && edit_can_remove (design, part_key (part))));
  gtk_widget_action_set_enabled (widget, "canvas.values", part != NULL);
  gtk_widget_action_set_enabled (widget, "canvas.exact", canvas_can_nudge (self));
}

/* An item with the key that does the same on the drawing. */
static void
add_item (GMenu *menu, const char *label, const char *action, const char *accelerator)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, action);

  if (accelerator != NULL)
    g_menu_item_set_attribute (item, "accel", "s", accelerator);
  g_menu_append_item (menu, item);
}

static GMenuModel *
run_section (Canvas *self)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenuModel) sizes = canvas_size_menu (self);

  if (sizes != NULL)
    g_menu_append_submenu (menu, _ ("Pipe size"), sizes);
  add_item (menu, _ ("Add valve"), "canvas.insert::valve", "v");
  add_item (menu, _ ("Add union"), "canvas.insert::union", "u");
  add_item (menu, _ ("Add check valve"), "canvas.insert::check-valve", "c");
  add_item (menu, _ ("Add bulkhead"), "canvas.insert::bulkhead", "b");
  add_item (menu, _ ("Add outlet with a tee"), "canvas.tee", "t");
  add_item (menu, _ ("Add corner"), "canvas.corner", "k");
  return G_MENU_MODEL (menu);
}

/* What the one chosen part takes, or without one the design: as the inspector offers it, without the way there. */
static void
append_additions (Canvas *self, GMenu *menu)
{
  const Part *part = canvas_part_of (self, canvas_selected (self));
  const PartKind kind = part != NULL ? part_kind (part) : N_PART_KINDS;
  g_autoptr (GMenu) additions = g_menu_new ();

  for (unsigned n = 0; addition_nth (n) != NULL && selection_count (self->selection) < 2; n++)
    if (addition_nth (n)->to == kind) {
      g_autofree char *action = g_strdup_printf ("canvas.add(uint32 %u)", n);

      g_menu_append (additions, _ (addition_nth (n)->name), action);
    }
  if (g_menu_model_get_n_items (G_MENU_MODEL (additions)) > 0)
    g_menu_append_submenu (menu, _ ("Add a part"), G_MENU_MODEL (additions));
}

static GMenuModel *
part_section (Canvas *self)
{
  GMenu *menu = g_menu_new ();

  if (!canvas_has_run (self)) /* which has a section of its own */
    append_additions (self, menu);
  add_item (menu, _ ("Edit values"), "canvas.values", "Return");
  add_item (menu, _ ("Type its place or size"), "canvas.exact", NULL);
  add_item (menu, _ ("Cut"), "canvas.cut", "<Control>x");
  add_item (menu, _ ("Copy"), "canvas.copy", "<Control>c");
  add_item (menu, _ ("Duplicate"), "canvas.duplicate", "<Control>d");
  add_item (menu, _ ("Remove"), "canvas.delete", "Delete");
  return G_MENU_MODEL (menu);
}

static GMenuModel *
drawing_section (Canvas *self)
{
  GMenu *menu = g_menu_new ();

  if (selection_count (self->selection) == 0)
    append_additions (self, menu);
  add_item (menu, _ ("Paste"), "canvas.paste", "<Control>v");
  add_item (menu, _ ("Choose all"), "canvas.choose-all", "<Control>a");
  add_item (menu, _ ("Measure"), "canvas.measure", "m");
  add_item (menu, _ ("Fit to window"), "win.zoom-fit", NULL);
  return G_MENU_MODEL (menu);
}

static GMenuModel *
build (Canvas *self)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenuModel) run = canvas_has_run (self) ? run_section (self) : NULL, part = part_section (self),
                         drawing = drawing_section (self);

  if (run != NULL)
    g_menu_append_section (menu, NULL, run);
  if (selection_count (self->selection) > 0)
    g_menu_append_section (menu, NULL, part);
  g_menu_append_section (menu, NULL, drawing);
  return G_MENU_MODEL (menu);
}

/* After the chosen action has run, which comes later than this. */
static gboolean
forget_place (gpointer data)
{
  DOWNCOMER_CANVAS (data)->menu_set = FALSE;
  return G_SOURCE_REMOVE;
}

static void
on_closed (Canvas *self)
{
  g_idle_add_full (G_PRIORITY_LOW, forget_place, g_object_ref (self), g_object_unref);
}

void
canvas_menu_popup (Canvas *self, double x, double y)
{
  g_autoptr (GMenuModel) model = NULL;

  if (self->document == NULL || canvas_dragging (self))
    return;
  canvas_untell (self);
  self->menu_x = x;
  self->menu_y = y;
  self->menu_set = TRUE;
  enable (self);
  model = build (self);
  if (self->menu == NULL) {
    self->menu = gtk_popover_menu_new_from_model (model);
    gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
    gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->menu), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    _ ("Menu of the drawing"), -1);
    gtk_widget_insert_after (self->menu, GTK_WIDGET (self), NULL);
    g_signal_connect_swapped (self->menu, "closed", G_CALLBACK (on_closed), self);
  } else {
    gtk_popover_menu_set_menu_model (GTK_POPOVER_MENU (self->menu), model);
  }
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu), &(GdkRectangle){(int) x, (int) y, 1, 1});
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

void
canvas_menu_popup_at_part (Canvas *self)
{
  graphene_rect_t box;
  graphene_point_t at;

  graphene_point_init (&at, (float) self->view.width / 2, (float) self->view.height / 2);
  if (canvas_part_box (self, canvas_selected (self), &box))
    graphene_rect_get_center (&box, &at);
  canvas_menu_popup (self, CLAMP ((double) at.x, 0, self->view.width),
                     CLAMP ((double) at.y, 0, self->view.height));
  /* The middle of a part is no place on a run. */
  self->menu_set = FALSE;
}
