/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/canvas/canvas.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-private.h"
#include "app/canvas/canvas-words.h"

#define PAN_MARGIN  192.0 /* how much more than the view the node holds while it is panned, logical pixels */
#define NOTE_OFFSET 18.0
#define MIN_WIDTH   240
#define MIN_HEIGHT  180

G_DEFINE_FINAL_TYPE (Canvas, canvas, GTK_TYPE_WIDGET)

enum { SIGNAL_EDIT_PART, N_SIGNALS };

static guint signals[N_SIGNALS];

const Palette *
canvas_palette (Canvas *self)
{
  return theme_get_palette (self->theme);
}

const Part *
canvas_part_of (Canvas *self, int index)
{
  const Design *design = document_get_design (self->document);

  return index >= 0 && (unsigned) index < design_n_parts (design) ? design_part (design, (unsigned) index)
                                                                  : NULL;
}

int
canvas_selected (Canvas *self)
{
  const char *key = self->selection != NULL ? selection_get_key (self->selection) : NULL;

  return key != NULL ? design_index (document_get_design (self->document), key) : -1;
}

void
canvas_edit (Canvas *self, const char *key)
{
  g_autofree char *kept = g_strdup (key); /* it may be that of the selection */

  if (self->selection == NULL)
    return;
  selection_set_key (self->selection, kept);
  g_signal_emit (self, signals[SIGNAL_EDIT_PART], 0, kept);
}

/* The base drawing. */

static gboolean
base_is_good (Canvas *self)
{
  const DrawingView *view = &self->view, *base = &self->base_view;
  const double x = view->origin_x - base->origin_x, y = view->origin_y - base->origin_y;

  if (self->base == NULL || (base->quick && !document_in_gesture (self->document)) ||
      self->base_serial != document_get_serial (self->document) ||
      self->base_ground != theme_get_ground (self->theme) || base->scale != view->scale ||
      base->layers != view->layers || base->device_scale != view->device_scale)
    return FALSE;
  /* At rest it is the view itself, so that labels are placed for what is seen. */
  if (!self->moving)
    return x == 0 && y == 0 && base->width == view->width && base->height == view->height;
  return x <= 0 && y <= 0 && x + base->width >= view->width && y + base->height >= view->height;
}

static void
keep_marks (Canvas *self, const Layout *layout)
{
  g_array_set_size (self->marks, 0);
  for (guint i = 0; i < layout->marks->len; i++) {
    const LayoutMark *mark = &g_array_index (layout->marks, LayoutMark, i);

    if (mark->role == ROLE_FINDING)
      g_array_append_val (self->marks, *mark);
  }
}

/* What was laid out before in a view like this, so that labels stay where they are under a hand. */
static const Layout *
layout_before (Canvas *self)
{
  return self->layout != NULL && document_in_gesture (self->document) &&
                 self->base_view.scale == self->view.scale && self->base_view.layers == self->view.layers
             ? self->layout
             : NULL;
}

static void
draw_base (Canvas *self)
{
  const double margin = self->moving ? PAN_MARGIN : 0;
  const Layout *before = layout_before (self);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  Layout *layout;
  cairo_t *cr;

  self->base_view = self->view;
  /* While a value is under a hand, here or in another view, edges are coarser and labels stay where they are. */
  self->base_view.quick = document_in_gesture (self->document);
  self->base_view.width += 2 * margin;
  self->base_view.height += 2 * margin;
  self->base_view.origin_x += margin;
  self->base_view.origin_y += margin;
  self->base_serial = document_get_serial (self->document);
  self->base_ground = theme_get_ground (self->theme);
  layout = layout_new (self->scene, &self->base_view, self->engine, before);
  g_clear_pointer (&self->layout, layout_free);
  self->layout = layout;
  keep_marks (self, layout);
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) self->base_view.width, (float) self->base_view.height));
  painter_draw_base (cr, self->scene, layout, &self->base_view, canvas_palette (self), self->engine);
  cairo_destroy (cr);
  g_clear_pointer (&self->base, gsk_render_node_unref);
  self->base = gtk_snapshot_free_to_node (snapshot);
}

static void
canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  Canvas *self = DOWNCOMER_CANVAS (widget);

  if (self->scene == NULL || self->view.width < 1 || self->view.height < 1)
    return;
  if (!base_is_good (self))
    draw_base (self);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot,
                          &GRAPHENE_POINT_INIT ((float) (self->view.origin_x - self->base_view.origin_x),
                                                (float) (self->view.origin_y - self->base_view.origin_y)));
  if (self->base != NULL)
    gtk_snapshot_append_node (snapshot, self->base);
  gtk_snapshot_restore (snapshot);
  canvas_snapshot_overlay (self, snapshot);
  for (CanvasPart *part = canvas_next_child (self, NULL, 1); part != NULL;
       part = canvas_next_child (self, part, 1))
    gtk_widget_snapshot_child (widget, GTK_WIDGET (part), snapshot);
  gtk_widget_snapshot_child (widget, self->note, snapshot);
  if (self->entry != NULL)
    gtk_widget_snapshot_child (widget, self->entry, snapshot);
}

/* The note beside the pointer. */

void
canvas_show_note (Canvas *self, double x, double y, const char *markup)
{
  g_clear_handle_id (&self->tell_source, g_source_remove);
  self->note_x = x;
  self->note_y = y;
  gtk_label_set_markup (GTK_LABEL (self->note), markup);
  gtk_widget_set_visible (self->note, TRUE);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

void
canvas_hide_note (Canvas *self)
{
  gtk_widget_set_visible (self->note, FALSE);
}

/* Right above a place, or on the other side where there is no room. */
static void
place_beside (GtkWidget *child, double x, double y, int width, int height)
{
  int w, h;
  graphene_point_t at;
  double left = x + NOTE_OFFSET, top;

  if (child == NULL || !gtk_widget_should_layout (child))
    return;
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &w, NULL, NULL);
  w = MIN (w, width);
  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, w, NULL, &h, NULL, NULL);
  if (left + w > width)
    left = x - NOTE_OFFSET - w;
  top = y - NOTE_OFFSET - h;
  if (top < 0)
    top = y + NOTE_OFFSET;
  graphene_point_init (&at, (float) CLAMP (left, 0, MAX (0, width - w)),
                       (float) CLAMP (top, 0, MAX (0, height - h)));
  gtk_widget_allocate (child, w, h, -1, gsk_transform_translate (NULL, &at));
}

static void
canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? MIN_WIDTH : MIN_HEIGHT;
  *natural = 3 * *minimum;
}

static void
canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  Canvas *self = DOWNCOMER_CANVAS (widget);

  canvas_view_resized (self, width, height);
  canvas_place_children (self);
  place_beside (self->note, self->note_x, self->note_y, width, height);
  place_beside (self->entry, self->entry_x, self->entry_y, width, height);
  if (self->menu != NULL)
    gtk_popover_present (GTK_POPOVER (self->menu));
}

static gboolean
canvas_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  Canvas *self = DOWNCOMER_CANVAS (widget);
  const Part *part;
  g_autofree char *markup = NULL;
  int index;
  graphene_rect_t box;

  if (self->document == NULL || self->activity != CANVAS_IDLE || canvas_measuring (self) ||
      canvas_entry_is_open (self) || (self->menu != NULL && gtk_widget_get_visible (self->menu)))
    return FALSE;
  if (keyboard) {
    GtkWidget *focus = gtk_widget_get_focus_child (widget);

    index = focus != NULL && DOWNCOMER_IS_CANVAS_PART (focus)
                ? canvas_part_get_index (DOWNCOMER_CANVAS_PART (focus))
                : -1;
  } else {
    index = canvas_pick (self, x, y);
  }
  part = canvas_part_of (self, index);
  if (part == NULL || !canvas_part_box (self, index, &box))
    return FALSE;
  markup = canvas_tooltip (document_get_design (self->document), document_get_evaluation (self->document),
                           part, document_get_style (self->document));
  gtk_tooltip_set_markup (tooltip, markup);
  if (keyboard)
    gtk_tooltip_set_tip_area (tooltip, &(GdkRectangle){(int) box.origin.x, (int) box.origin.y,
                                                       (int) box.size.width, (int) box.size.height});
  return TRUE;
}

/* The model. */

void
canvas_build (Canvas *self)
{
  const SceneOptions options = {
      .kind = SCENE_SYSTEM, .projection = self->projection, .style = document_get_style (self->document)};

  g_clear_pointer (&self->scene, scene_free);
  self->scene = scene_build (document_get_design (self->document), document_get_catalogue (self->document),
                             document_get_evaluation (self->document), &options);
  self->hovered = -1;
}

static void
on_document_changed (Canvas *self)
{
  if (canvas_dragging (self) && !document_in_gesture (self->document)) {
    canvas_drag_drop (self);
    canvas_entry_cancel (self);
  }
  canvas_choose_left (self);
  canvas_build (self);
  canvas_view_follow (self);
  if (document_in_gesture (self->document)) {
    canvas_sync_moving (self);
    canvas_settle_later (self);
  } else {
    canvas_sync_children (self);
  }
}

static void
on_selection_changed (Canvas *self)
{
  self->picked_x = self->picked_y = (double) NAN; /* handles take precedence where they are shown */
  if (g_strcmp0 (self->held_key, selection_get_key (self->selection)) != 0)
    canvas_hold (self, NULL, 0);
  canvas_sync_selected (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_finding_changed (Canvas *self)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const int index = selection_get_finding (self->selection);

  canvas_stop_pulse (self);
  if (evaluation != NULL && index >= 0 && (unsigned) index < evaluation->n_findings) {
    canvas_reveal (self, evaluation->findings[index].part);
    canvas_pulse (self);
  }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
canvas_set_model (Canvas *canvas, Document *document, Selection *selection, Theme *theme)
{
  g_return_if_fail (DOWNCOMER_IS_CANVAS (canvas) && canvas->document == NULL);

  canvas->document = g_object_ref (document);
  canvas->selection = g_object_ref (selection);
  canvas->theme = g_object_ref (theme);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_document_changed), canvas);
  g_signal_connect_swapped (selection, "notify::key", G_CALLBACK (on_selection_changed), canvas);
  g_signal_connect_swapped (selection, "notify::others", G_CALLBACK (on_selection_changed), canvas);
  g_signal_connect_swapped (selection, "notify::finding", G_CALLBACK (on_finding_changed), canvas);
  g_signal_connect_swapped (theme, "changed", G_CALLBACK (gtk_widget_queue_draw), canvas);
  on_document_changed (canvas);
}

static void
canvas_dispose (GObject *object)
{
  Canvas *self = DOWNCOMER_CANVAS (object);
  GtkWidget *child;

  canvas_stop_pulse (self);
  g_clear_handle_id (&self->settle_source, g_source_remove);
  canvas_untell (self);
  if (self->document != NULL) {
    canvas_nudge_end (self);
    canvas_drag_cancel (self);
    g_signal_handlers_disconnect_by_data (self->document, self);
    g_signal_handlers_disconnect_by_data (self->selection, self);
    g_signal_handlers_disconnect_by_data (self->theme, self);
  }
  g_hash_table_remove_all (self->parts);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  self->note = self->entry = self->menu = NULL;
  g_clear_pointer (&self->layout, layout_free);
  g_clear_pointer (&self->base, gsk_render_node_unref);
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  g_clear_object (&self->theme);
  G_OBJECT_CLASS (canvas_parent_class)->dispose (object);
}

static void
canvas_finalize (GObject *object)
{
  Canvas *self = DOWNCOMER_CANVAS (object);

  g_hash_table_unref (self->parts);
  g_array_unref (self->marks);
  g_free (self->held_key);
  scene_free (self->scene);
  text_engine_free (self->engine);
  G_OBJECT_CLASS (canvas_parent_class)->finalize (object);
}

static void
canvas_class_init (CanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = canvas_dispose;
  object_class->finalize = canvas_finalize;
  widget_class->snapshot = canvas_snapshot;
  widget_class->measure = canvas_measure;
  widget_class->size_allocate = canvas_size_allocate;
  widget_class->query_tooltip = canvas_query_tooltip;
  widget_class->focus = canvas_move_focus;
  canvas_install_actions (widget_class);
  gtk_widget_class_set_css_name (widget_class, "canvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST);
  signals[SIGNAL_EDIT_PART] = g_signal_new ("edit-part", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                            NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
canvas_init (Canvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->view = drawing_view_screen (0, 0, 1);
  self->fitted = TRUE;
  self->engine = text_engine_new (false);
  self->marks = g_array_new (FALSE, FALSE, sizeof (LayoutMark));
  self->parts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->hovered = self->picked = self->press_part = -1;
  self->picked_x = self->picked_y = self->click_x = self->click_y = (double) NAN;

  self->note = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->note), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->note), 42);
  gtk_label_set_xalign (GTK_LABEL (self->note), 0);
  gtk_widget_add_css_class (self->note, "canvas-note");
  gtk_widget_set_can_target (self->note, FALSE);
  gtk_widget_set_visible (self->note, FALSE);
  gtk_widget_set_parent (self->note, widget);

  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Drawing"),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  _ ("The parts of the system in the order in which water flows"), -1);
  canvas_add_pointer (self);
  canvas_add_keys (self);
}
