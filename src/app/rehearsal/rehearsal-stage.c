/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/rehearsal/rehearsal-stage.h"

#include <glib/gi18n.h>

#include "drawing/painter.h"

#define LAYERS                                                                                               \
  (LAYER_BIT (LAYER_BODY) | LAYER_BIT (LAYER_WATER) | LAYER_BIT (LAYER_DEVICES) | LAYER_BIT (LAYER_FLOW))

struct _RehearsalStage {
  GtkWidget parent_instance;

  Theme *theme;
  TextEngine *engine;
  Scene *scene;
  char *puddle;
};

G_DEFINE_FINAL_TYPE (RehearsalStage, rehearsal_stage, GTK_TYPE_WIDGET)

/* Water on the floor: a strip along it, with how much it is. */
static void
draw_puddle (RehearsalStage *self, cairo_t *cr, const DrawingView *view, const Palette *palette)
{
  const SceneBox box = scene_outline (self->scene);
  const double x = view_x (view, box.x0), width = view_x (view, box.x1) - x, floor_y = view_y (view, 0);
  const double depth = 0.7 * view->text;
  double text_width, text_height;

  if (self->puddle == NULL)
    return;
  color_set (cr, palette->water);
  cairo_rectangle (cr, x, floor_y - depth, width, depth);
  cairo_fill (cr);
  color_set (cr, palette->stop);
  cairo_set_line_width (cr, view->line);
  cairo_move_to (cr, x, floor_y - depth);
  cairo_line_to (cr, x + width, floor_y - depth);
  cairo_stroke (cr);
  text_engine_measure (self->engine, self->puddle, view->text, true, &text_width, &text_height);
  text_engine_draw (self->engine, cr, self->puddle, x + (width - text_width) / 2, floor_y + 0.4 * view->text,
                    view->text, true, false);
}

static void
rehearsal_stage_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RehearsalStage *self = DOWNCOMER_REHEARSAL_STAGE (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  const Palette *palette = theme_get_palette (self->theme);
  DrawingView view = drawing_view_screen (width, height, gtk_widget_get_scale_factor (widget));
  Layout *layout;
  cairo_t *cr;

  if (width < 1 || height < 1 || self->scene == NULL)
    return;
  view.layers = LAYERS;
  view = layout_fit (self->scene, &view, self->engine);
  layout = layout_new (self->scene, &view, self->engine, NULL);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  painter_draw_base (cr, self->scene, layout, &view, palette, self->engine);
  draw_puddle (self, cr, &view, palette);
  cairo_destroy (cr);
  layout_free (layout);
}

static void
rehearsal_stage_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                         int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 260 : 200;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 420;
}

static void
rehearsal_stage_dispose (GObject *object)
{
  rehearsal_stage_set_theme (DOWNCOMER_REHEARSAL_STAGE (object), NULL);
  G_OBJECT_CLASS (rehearsal_stage_parent_class)->dispose (object);
}

static void
rehearsal_stage_finalize (GObject *object)
{
  RehearsalStage *self = DOWNCOMER_REHEARSAL_STAGE (object);

  g_clear_pointer (&self->scene, scene_free);
  g_free (self->puddle);
  text_engine_free (self->engine);
  G_OBJECT_CLASS (rehearsal_stage_parent_class)->finalize (object);
}

static void
rehearsal_stage_class_init (RehearsalStageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rehearsal_stage_dispose;
  G_OBJECT_CLASS (klass)->finalize = rehearsal_stage_finalize;
  widget_class->snapshot = rehearsal_stage_snapshot;
  widget_class->measure = rehearsal_stage_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
rehearsal_stage_init (RehearsalStage *self)
{
  self->engine = text_engine_new (false);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The water at this moment"), -1);
}

void
rehearsal_stage_set_theme (RehearsalStage *stage, Theme *theme)
{
  if (stage->theme != NULL)
    g_signal_handlers_disconnect_by_data (stage->theme, stage);
  g_set_object (&stage->theme, theme);
  if (theme != NULL)
    g_signal_connect_swapped (theme, "changed", G_CALLBACK (gtk_widget_queue_draw), stage);
}

void
rehearsal_stage_show (RehearsalStage *stage, const Design *design, const Catalogue *catalogue,
                      const Evaluation *moment, const NumberStyle *style, const char *puddle,
                      const char *words)
{
  const SceneOptions options = {.kind = SCENE_SYSTEM, .style = style, .simple = true};

  g_return_if_fail (DOWNCOMER_IS_REHEARSAL_STAGE (stage));
  g_clear_pointer (&stage->scene, scene_free);
  stage->scene = scene_build (design, catalogue, moment, &options);
  g_free (stage->puddle);
  stage->puddle = g_strdup (puddle);
  gtk_accessible_update_property (GTK_ACCESSIBLE (stage), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (stage));
}
