/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/bench/bench-chart.h"

#include <glib/gi18n.h>
#include <math.h>

#define NEAR 8.0 /* logical pixels within which a curve is meant */

struct _BenchChart {
  GtkWidget parent_instance;

  Theme *theme;
  TextEngine *engine;
  NumberStyle style;
  ChartData data;
  ChartCurve curves[CHART_MAX_CURVES];
  BenchCurve points[CHART_MAX_CURVES];
  char *names[CHART_MAX_CURVES];
  ChartFrame frame; /* of the last picture */
};

G_DEFINE_FINAL_TYPE (BenchChart, bench_chart, GTK_TYPE_WIDGET)

enum { SIGNAL_CHOSEN, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
bench_chart_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BenchChart *self = DOWNCOMER_BENCH_CHART (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  const DrawingView view = drawing_view_screen (width, height, gtk_widget_get_scale_factor (widget));
  cairo_t *cr;

  if (width < 1 || height < 1)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  self->frame =
      chart_paint (cr, &self->data, &view, theme_get_palette (self->theme), &self->style, self->engine);
  cairo_destroy (cr);
}

static int
pick (BenchChart *self, double x, double y)
{
  return self->frame.width > 0 ? chart_pick (&self->data, &self->frame, x, y, NEAR) : -1;
}

static gboolean
bench_chart_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  BenchChart *self = DOWNCOMER_BENCH_CHART (widget);
  const int index = keyboard ? -1 : pick (self, x, y);
  const ChartFrame *frame = &self->frame;

  if (index >= 0) {
    const double flow_m3s = (x - frame->x) / frame->width * frame->flow_max_m3s;
    const double head_m = (frame->y + frame->height - y) / frame->height * frame->head_max_m;
    g_autofree char *flow = units_format (flow_m3s, QUANTITY_FLOW, &self->style, NULL, UNITS_MEASURE);
    g_autofree char *head = units_format (head_m, QUANTITY_HEAD, &self->style, NULL, UNITS_MEASURE);
    /* Translators: name of a curve, flow and head under the pointer. */
    g_autofree char *text = g_strdup_printf (_ ("%s: %s at %s"), self->names[index], flow, head);

    gtk_tooltip_set_text (tooltip, text);
  }
  return index >= 0;
}

static void
on_pressed (BenchChart *self, int n, double x, double y)
{
  const int index = pick (self, x, y);

  if (index >= 0)
    g_signal_emit (self, signals[SIGNAL_CHOSEN], 0, index);
}

static void
bench_chart_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                     int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 260 : 180;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 320;
}

static void
bench_chart_dispose (GObject *object)
{
  BenchChart *self = DOWNCOMER_BENCH_CHART (object);

  bench_chart_set_theme (self, NULL);
  G_OBJECT_CLASS (bench_chart_parent_class)->dispose (object);
}

static void
clear_curves (BenchChart *self)
{
  for (unsigned i = 0; i < self->data.n_curves; i++)
    g_clear_pointer (&self->names[i], g_free);
  self->data = (ChartData){.curves = self->curves,
                           .chosen = -1,
                           .drain_limit_m3s = (double) NAN,
                           .target_low_m3s = (double) NAN,
                           .target_high_m3s = (double) NAN};
}

static void
bench_chart_finalize (GObject *object)
{
  BenchChart *self = DOWNCOMER_BENCH_CHART (object);

  clear_curves (self);
  text_engine_free (self->engine);
  G_OBJECT_CLASS (bench_chart_parent_class)->finalize (object);
}

static void
bench_chart_class_init (BenchChartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bench_chart_dispose;
  G_OBJECT_CLASS (klass)->finalize = bench_chart_finalize;
  widget_class->snapshot = bench_chart_snapshot;
  widget_class->measure = bench_chart_measure;
  widget_class->query_tooltip = bench_chart_query_tooltip;
  signals[SIGNAL_CHOSEN] = g_signal_new ("chosen", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bench_chart_init (BenchChart *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  self->engine = text_engine_new (false);
  self->style = number_style_metric ();
  clear_curves (self);
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Chart of head over flow"), -1);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (on_pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}

void
bench_chart_set_theme (BenchChart *chart, Theme *theme)
{
  g_return_if_fail (DOWNCOMER_IS_BENCH_CHART (chart));
  if (chart->theme != NULL)
    g_signal_handlers_disconnect_by_data (chart->theme, chart);
  g_set_object (&chart->theme, theme);
  if (theme != NULL)
    g_signal_connect_swapped (theme, "changed", G_CALLBACK (gtk_widget_queue_draw), chart);
}

Theme *
bench_chart_get_theme (BenchChart *chart)
{
  return chart->theme;
}

void
bench_chart_begin (BenchChart *chart, const NumberStyle *style)
{
  g_return_if_fail (DOWNCOMER_IS_BENCH_CHART (chart));
  clear_curves (chart);
  chart->style = *style;
}

int
bench_chart_add (BenchChart *chart, ChartCurveKind kind, const char *name, const BenchCurve *curve,
                 double duty_flow_m3s, double duty_head_m)
{
  const unsigned index = chart->data.n_curves;

  if (index >= CHART_MAX_CURVES || curve->n < 2)
    return -1;
  chart->points[index] = *curve;
  chart->names[index] = g_strdup (name);
  chart->curves[index] = (ChartCurve){.kind = kind,
                                      .name = chart->names[index],
                                      .n = curve->n,
                                      .flow_m3s = chart->points[index].flow_m3s,
                                      .head_m = chart->points[index].head_m,
                                      .duty_flow_m3s = duty_flow_m3s,
                                      .duty_head_m = duty_head_m};
  chart->data.n_curves++;
  return (int) index;
}

void
bench_chart_set_limits (BenchChart *chart, double drain_limit_m3s, double target_low_m3s,
                        double target_high_m3s)
{
  chart->data.drain_limit_m3s = drain_limit_m3s;
  chart->data.target_low_m3s = target_low_m3s;
  chart->data.target_high_m3s = target_high_m3s;
}

void
bench_chart_end (BenchChart *chart, int chosen, const char *description)
{
  chart->data.chosen = chosen;
  gtk_accessible_update_property (GTK_ACCESSIBLE (chart), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description,
                                  -1);
  gtk_widget_queue_draw (GTK_WIDGET (chart));
}

unsigned
bench_chart_n_curves (BenchChart *chart)
{
  return chart->data.n_curves;
}
