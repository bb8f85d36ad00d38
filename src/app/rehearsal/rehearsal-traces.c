/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/rehearsal/rehearsal-traces.h"

#include <glib/gi18n.h>
#include <math.h>

#include "drawing/time-chart.h"
#include "report/words.h"

#define KEY_STEPS 100 /* presses of an arrow key from one end to the other */
#define MARKS_MAX 64

struct _RehearsalTraces {
  GtkWidget parent_instance;

  Theme *theme;
  TextEngine *engine;
  NumberStyle style;
  TracesKind kind;
  TimeTrace traces[TIME_CHART_MAX_TRACES];
  char *names[TIME_CHART_MAX_TRACES];
  double *times[TIME_CHART_MAX_TRACES], *values[TIME_CHART_MAX_TRACES];
  TimeMark marks[MARKS_MAX];
  char *letters[MARKS_MAX];
  TimeChart chart;
  TimeFrame frame; /* of the last picture */
};

G_DEFINE_FINAL_TYPE (RehearsalTraces, rehearsal_traces, GTK_TYPE_WIDGET)

enum { SIGNAL_SOUGHT, N_SIGNALS };

static guint signals[N_SIGNALS];

char *
rehearsal_event_letter (unsigned index)
{
  GString *letters = g_string_new (NULL);

  for (int rest = (int) index; rest >= 0; rest = rest / 26 - 1)
    g_string_prepend_c (letters, (char) ('A' + rest % 26));
  return g_string_free (letters, FALSE);
}

static void
rehearsal_traces_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RehearsalTraces *self = DOWNCOMER_REHEARSAL_TRACES (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  const DrawingView view = drawing_view_screen (width, height, gtk_widget_get_scale_factor (widget));
  cairo_t *cr;

  if (width < 1 || height < 1)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  self->frame =
      time_chart_paint (cr, &self->chart, &view, theme_get_palette (self->theme), &self->style, self->engine);
  cairo_destroy (cr);
  if (gtk_widget_has_visible_focus (widget))
    gtk_snapshot_render_focus (snapshot, gtk_widget_get_style_context (widget), 1, 1, width - 2, height - 2);
}

static void
rehearsal_traces_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 260 : 170;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 210;
}

static void
seek (RehearsalTraces *self, double time_s)
{
  g_signal_emit (self, signals[SIGNAL_SOUGHT], 0, CLAMP (time_s, 0, self->chart.end_s));
}

static void
on_pressed (RehearsalTraces *self, int n, double x, double y)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  seek (self, time_chart_time (&self->frame, x));
}

static void
on_dragged (GtkGestureDrag *gesture, double dx, double dy, gpointer data)
{
  RehearsalTraces *self = DOWNCOMER_REHEARSAL_TRACES (data);
  double x, y;

  gtk_gesture_drag_get_start_point (gesture, &x, &y);
  seek (self, time_chart_time (&self->frame, x + dx));
}

static gboolean
on_key (RehearsalTraces *self, guint key, guint code, GdkModifierType state)
{
  const double end_s = self->chart.end_s,
               share = isfinite (self->chart.now_s) ? time_chart_share (self->chart.now_s, end_s) : 0;

  switch (key) {
  case GDK_KEY_Left:
    seek (self, time_chart_time_at (share - 1.0 / KEY_STEPS, end_s));
    return TRUE;
  case GDK_KEY_Right:
    seek (self, time_chart_time_at (share + 1.0 / KEY_STEPS, end_s));
    return TRUE;
  case GDK_KEY_Home:
    seek (self, 0);
    return TRUE;
  case GDK_KEY_End:
    seek (self, self->chart.end_s);
    return TRUE;
  default:
    return FALSE;
  }
}

static void
clear (RehearsalTraces *self)
{
  for (unsigned i = 0; i < self->chart.n_traces; i++) {
    g_clear_pointer (&self->names[i], g_free);
    g_clear_pointer (&self->times[i], g_free);
    g_clear_pointer (&self->values[i], g_free);
  }
  for (unsigned i = 0; i < self->chart.n_marks; i++)
    g_clear_pointer (&self->letters[i], g_free);
  self->chart = (TimeChart){.traces = self->traces,
                            .marks = self->marks,
                            .end_s = 1,
                            .now_s = (double) NAN,
                            .quantity = self->kind == TRACES_LEVELS ? QUANTITY_LENGTH : QUANTITY_FLOW,
                            .up = self->kind == TRACES_LEVELS ? _ ("Water over the rim") : _ ("Flow")};
}

static void
rehearsal_traces_dispose (GObject *object)
{
  rehearsal_traces_set_theme (DOWNCOMER_REHEARSAL_TRACES (object), NULL);
  G_OBJECT_CLASS (rehearsal_traces_parent_class)->dispose (object);
}

static void
rehearsal_traces_finalize (GObject *object)
{
  RehearsalTraces *self = DOWNCOMER_REHEARSAL_TRACES (object);

  clear (self);
  text_engine_free (self->engine);
  G_OBJECT_CLASS (rehearsal_traces_parent_class)->finalize (object);
}

static void
rehearsal_traces_class_init (RehearsalTracesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rehearsal_traces_dispose;
  G_OBJECT_CLASS (klass)->finalize = rehearsal_traces_finalize;
  widget_class->snapshot = rehearsal_traces_snapshot;
  widget_class->measure = rehearsal_traces_measure;
  signals[SIGNAL_SOUGHT] = g_signal_new ("sought", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
rehearsal_traces_init (RehearsalTraces *self)
{
  GtkGesture *click = gtk_gesture_click_new (), *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->engine = text_engine_new (false);
  self->style = number_style_metric ();
  clear (self);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Chart of levels over time"), -1);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (on_pressed), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_dragged), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

void
rehearsal_traces_set_theme (RehearsalTraces *traces, Theme *theme)
{
  if (traces->theme != NULL)
    g_signal_handlers_disconnect_by_data (traces->theme, traces);
  g_set_object (&traces->theme, theme);
  if (theme != NULL)
    g_signal_connect_swapped (theme, "changed", G_CALLBACK (gtk_widget_queue_draw), traces);
}

/* Tanks and the chambers: what can run on the floor. A box empties into its tank and drains, and would crowd the chart. */
static gboolean
is_charted (const RehearsalPlay *play, unsigned vessel)
{
  const VesselState *state = &play->steady->vessels[vessel];

  return state->kind == VESSEL_TANK || state->kind == VESSEL_CHAMBER || state->kind == VESSEL_BOX_OUTER;
}

typedef unsigned (*Values) (const RehearsalPlay *play, unsigned index, double **ret_time_s,
                            double **ret_value);

/* One more trace, of the n-th part of its kind. */
static void
add_trace (RehearsalTraces *self, const RehearsalPlay *play, int part, unsigned index, Values values,
           unsigned kind, gboolean thin)
{
  const unsigned at = self->chart.n_traces;

  if (at >= TIME_CHART_MAX_TRACES || part < 0)
    return;
  self->names[at] = thin ? NULL : words_part (play->design, design_part (play->design, (unsigned) part));
  self->traces[at] = (TimeTrace){.name = self->names[at], .kind = kind, .thin = thin};
  self->traces[at].n = values (play, index, &self->times[at], &self->values[at]);
  self->traces[at].time_s = self->times[at];
  self->traces[at].value = self->values[at];
  self->chart.n_traces++;
}

static void
add_traces (RehearsalTraces *self, const RehearsalPlay *play, gboolean thin)
{
  const Evaluation *steady = play->steady;
  unsigned kind = 0;

  for (unsigned i = 0; self->kind == TRACES_LEVELS && i < steady->n_vessels; i++)
    if (is_charted (play, i))
      add_trace (self, play, steady->vessels[i].part, i, rehearsal_play_heights, kind++, thin);
  for (unsigned i = 0; self->kind == TRACES_FLOWS && i < steady->n_pumps; i++)
    add_trace (self, play, steady->pumps[i].part, i, rehearsal_play_pump_flow, kind++, thin);
  for (unsigned i = 0; self->kind == TRACES_FLOWS && i < steady->n_drains; i++)
    add_trace (self, play, steady->drains[i].part, i, rehearsal_play_drain_flow, kind++, thin);
}

static void
add_marks (RehearsalTraces *self, const Rehearsal *rehearsal)
{
  for (unsigned i = 0; i < MIN (rehearsal->n_events, MARKS_MAX); i++) {
    self->letters[i] = rehearsal_event_letter (i);
    self->marks[i] = (TimeMark){.time_s = rehearsal->events[i].time_s,
                                .letter = self->letters[i],
                                .grave = rehearsal_event_is_grave (&rehearsal->events[i])};
    self->chart.n_marks++;
  }
}

void
rehearsal_traces_set (RehearsalTraces *traces, RehearsalPlay *play, RehearsalPlay *other,
                      const NumberStyle *style)
{
  g_return_if_fail (DOWNCOMER_IS_REHEARSAL_TRACES (traces));
  clear (traces);
  traces->style = *style;
  if (play != NULL && rehearsal_play_is_shown (play)) {
    traces->chart.end_s = rehearsal_play_length (play);
    add_traces (traces, play, FALSE);
    add_marks (traces, &play->rehearsed->rehearsal);
  }
  if (other != NULL && rehearsal_play_is_shown (other)) {
    traces->chart.end_s = MAX (traces->chart.end_s, rehearsal_play_length (other));
    add_traces (traces, other, TRUE);
  }
  gtk_widget_queue_draw (GTK_WIDGET (traces));
}

void
rehearsal_traces_set_now (RehearsalTraces *traces, double time_s)
{
  traces->chart.now_s = time_s;
  gtk_widget_queue_draw (GTK_WIDGET (traces));
}

double
rehearsal_traces_get_end (RehearsalTraces *traces)
{
  return traces->chart.end_s;
}

void
rehearsal_traces_set_kind (RehearsalTraces *traces, TracesKind kind)
{
  traces->kind = kind;
}
