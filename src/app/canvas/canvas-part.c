/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/canvas/canvas-part.h"

#include "app/canvas/canvas-private.h"

struct _CanvasPart {
  GtkWidget parent_instance;

  Canvas *canvas; /* the parent, which outlives its children */
  char *key;
  char *label, *description;
  int index;
  gboolean selected;
  double x, y;
};

G_DEFINE_FINAL_TYPE (CanvasPart, canvas_part, GTK_TYPE_WIDGET)

static void
on_select (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CanvasPart *self = DOWNCOMER_CANVAS_PART (widget);

  if (self->canvas->selection != NULL)
    selection_set_key (self->canvas->selection, self->key);
}

static void
on_edit (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CanvasPart *self = DOWNCOMER_CANVAS_PART (widget);

  canvas_edit (self->canvas, self->key);
}

static gboolean
canvas_part_contains (GtkWidget *widget, double x, double y)
{
  CanvasPart *self = DOWNCOMER_CANVAS_PART (widget);

  /* The box comes first: the toolkit asks for any point. */
  return x >= 0 && y >= 0 && x <= gtk_widget_get_width (widget) && y <= gtk_widget_get_height (widget) &&
         canvas_pick (self->canvas, self->x + x, self->y + y) == self->index;
}

static void
canvas_part_finalize (GObject *object)
{
  CanvasPart *self = DOWNCOMER_CANVAS_PART (object);

  g_free (self->key);
  g_free (self->label);
  g_free (self->description);
  G_OBJECT_CLASS (canvas_part_parent_class)->finalize (object);
}

static void
canvas_part_class_init (CanvasPartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = canvas_part_finalize;
  widget_class->contains = canvas_part_contains;
  gtk_widget_class_set_css_name (widget_class, "part");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
  /* The last one is the first that a reader is offered. */
  gtk_widget_class_install_action (widget_class, "part.edit", NULL, on_edit);
  gtk_widget_class_install_action (widget_class, "part.select", NULL, on_select);
}

static void
canvas_part_init (CanvasPart *self)
{
  self->index = -1;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, FALSE, -1);
}

GtkWidget *
canvas_part_new (Canvas *canvas, const char *key)
{
  CanvasPart *self = g_object_new (DOWNCOMER_TYPE_CANVAS_PART, NULL);

  self->canvas = canvas;
  self->key = g_strdup (key);
  return GTK_WIDGET (self);
}

const char *
canvas_part_get_key (CanvasPart *part)
{
  return part->key;
}

int
canvas_part_get_index (CanvasPart *part)
{
  return part->index;
}

void
canvas_part_set_index (CanvasPart *part, int index)
{
  part->index = index;
}

static gboolean
replace (char **place, const char *text)
{
  if (g_strcmp0 (*place, text) == 0)
    return FALSE;
  g_free (*place);
  *place = g_strdup (text);
  return TRUE;
}

void
canvas_part_tell (CanvasPart *part, const char *label, const char *description)
{
  if (replace (&part->label, label))
    gtk_accessible_update_property (GTK_ACCESSIBLE (part), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  if (replace (&part->description, description))
    gtk_accessible_update_property (GTK_ACCESSIBLE (part), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description,
                                    -1);
}

void
canvas_part_set_selected (CanvasPart *part, gboolean selected)
{
  if (part->selected == selected)
    return;
  part->selected = selected;
  gtk_accessible_update_state (GTK_ACCESSIBLE (part), GTK_ACCESSIBLE_STATE_SELECTED, selected, -1);
}

void
canvas_part_place (CanvasPart *part, double x, double y, double width, double height)
{
  GtkWidget *widget = GTK_WIDGET (part);
  const graphene_point_t corner = GRAPHENE_POINT_INIT ((float) x, (float) y);
  const int w = MAX (1, (int) width), h = MAX (1, (int) height);

  part->x = x;
  part->y = y;
  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
  gtk_widget_allocate (widget, w, h, -1, gsk_transform_translate (NULL, &corner));
}
