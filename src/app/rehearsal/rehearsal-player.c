/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The moment that is shown: stage, cursor, slider, time and event follow one number. */
#include <glib/gi18n.h>
#include <math.h>

#include "app/common/drop-down.h"
#include "app/rehearsal/rehearsal-page-private.h"
#include "drawing/time-chart.h"

/* Played evenly over the chart, a rehearsal takes this long. */
#define WATCHED_S 25.0

/* Times real time; 0: evenly over the chart, whose axis gives the first seconds more room than the last minutes. */
static const double speeds[] = {0, 1, 5, 20, 60, 300, 1800, 7200};

/* Translators: speeds of playing, as times real time or as what passes in a second. */
static const char *const speed_names[] = {
    N_ ("Even over the chart"), N_ ("Real time"),      N_ ("5 times"),         N_ ("20 times"),
    N_ ("1 min a second"),      N_ ("5 min a second"), N_ ("30 min a second"), N_ ("2 h a second")};

void
rehearsal_player_fill_speeds (RehearsalPage *self)
{
  const char *names[G_N_ELEMENTS (speed_names) + 1] = {NULL};

  for (guint i = 0; i < G_N_ELEMENTS (speed_names); i++)
    names[i] = _ (speed_names[i]);
  drop_down_set (self->speed, names, 0);
}

static void
select_event (RehearsalPage *self, int event)
{
  GtkListBoxRow *row = event >= 0 ? gtk_list_box_get_row_at_index (self->events, event) : NULL;

  if (row != gtk_list_box_get_selected_row (self->events))
    gtk_list_box_select_row (self->events, row);
}

/* "1.2 L on the floor"; NULL while it is dry. */
static char *
words_of_puddle (RehearsalPage *self, const RehearsalFrame *frame)
{
  g_autofree char *spilled = NULL;

  if (frame->spilled_m3 < 5e-7)
    return NULL;
  spilled = units_format (frame->spilled_m3, QUANTITY_VOLUME, document_get_style (self->document), NULL,
                          UNITS_MEASURE);
  /* Translators: %s is a volume. */
  return g_strdup_printf (_ ("%s on the floor"), spilled);
}

/* "Pump off · 1.2 L on the floor · The siphon draws air ..." */
static char *
words_of_moment (RehearsalPage *self, const RehearsalFrame *frame, const char *puddle, int event)
{
  const NumberStyle *style = document_get_style (self->document);
  GString *words = g_string_new (NULL);
  double pumped_m3s = 0;

  for (unsigned i = 0; i < self->play->steady->n_pumps; i++)
    pumped_m3s += frame->pump_m3s[i];
  if (pumped_m3s > 1e-7) {
    g_autofree char *flow = units_format (pumped_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE);

    /* Translators: %s is a flow. */
    g_string_append_printf (words, _ ("The pumps move %s"), flow);
  } else
    g_string_append (words, pumped_m3s < -1e-7 ? _ ("Water runs back through the pumps")
                                               : _ ("The pumps move nothing"));
  if (puddle != NULL)
    g_string_append_printf (words, " · %s", puddle);
  if (event >= 0) {
    g_autofree char *letter = rehearsal_event_letter ((unsigned) event);
    g_autofree char *sentence =
        rehearsal_event_sentence (self->play->design, &self->play->rehearsed->rehearsal.events[event]);

    g_string_append_printf (words, " · %s: %s", letter, sentence);
  }
  return g_string_free (words, FALSE);
}

static void
show_moment (RehearsalPage *self)
{
  const NumberStyle *style = document_get_style (self->document);
  g_autofree char *time = units_format (self->now_s, QUANTITY_TIME, style, NULL, UNITS_MEASURE);
  const int event = rehearsal_play_event_at (self->play, self->now_s);
  g_autofree char *words = NULL, *puddle = NULL;
  RehearsalFrame frame;

  gtk_label_set_text (self->time, time);
  gtk_range_set_value (self->scale, time_chart_share (self->now_s, rehearsal_traces_get_end (self->traces)));
  if (!rehearsal_trace_at (self->play->trace, self->now_s, &frame))
    return;
  puddle = words_of_puddle (self, &frame);
  words = words_of_moment (self, &frame, puddle, event);
  gtk_label_set_text (self->now_label, words);
  rehearsal_show (self->play->system, self->play->steady, &frame, self->moment);
  rehearsal_stage_show (self->stage, self->play->design, document_get_catalogue (self->document),
                        self->moment, style, puddle, words);
  rehearsal_traces_set_now (self->traces, self->now_s);
  select_event (self, event);
}

/* Nothing to play: the design as it stands, without water where none is known. */
static void
show_nothing (RehearsalPage *self)
{
  gtk_label_set_text (self->time, "");
  gtk_label_set_text (self->now_label, "");
  rehearsal_stage_show (self->stage, document_get_design (self->document),
                        document_get_catalogue (self->document), document_get_evaluation (self->document),
                        document_get_style (self->document), NULL, _ ("The system runs"));
  rehearsal_traces_set_now (self->traces, (double) NAN);
}

void
rehearsal_player_seek (RehearsalPage *self, double time_s)
{
  if (self->play == NULL || !rehearsal_play_is_shown (self->play))
    return;
  self->now_s = CLAMP (time_s, 0, rehearsal_traces_get_end (self->traces));
  show_moment (self);
}

static void
show_playing (RehearsalPage *self)
{
  const gboolean playing = self->tick != 0;

  gtk_button_set_icon_name (self->play_button,
                            playing ? "media-playback-pause-symbolic" : "media-playback-start-symbolic");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->play_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  playing ? _ ("Pause") : _ ("Play"), -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->play_button), playing ? _ ("Pause") : _ ("Play"));
}

void
rehearsal_player_stop (RehearsalPage *self)
{
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  show_playing (self);
}

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  RehearsalPage *self = DOWNCOMER_REHEARSAL_PAGE (widget);
  const gint64 now_us = gdk_frame_clock_get_frame_time (clock);
  const double speed = speeds[MIN (gtk_drop_down_get_selected (self->speed), G_N_ELEMENTS (speeds) - 1)];
  const double passed_s = self->tick_us > 0 ? (double) (now_us - self->tick_us) * 1e-6 : 0;
  const double end_s = rehearsal_traces_get_end (self->traces);

  self->tick_us = now_us;
  if (speed > 0)
    rehearsal_player_seek (self, self->now_s + passed_s * speed);
  else
    rehearsal_player_seek (
        self, time_chart_time_at (time_chart_share (self->now_s, end_s) + passed_s / WATCHED_S, end_s));
  if (self->now_s < end_s)
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  show_playing (self);
  return G_SOURCE_REMOVE;
}

void
rehearsal_player_toggle (RehearsalPage *self)
{
  if (self->tick != 0) {
    rehearsal_player_stop (self);
    return;
  }
  if (self->play == NULL || !rehearsal_play_is_shown (self->play))
    return;
  if (self->now_s >= rehearsal_traces_get_end (self->traces))
    rehearsal_player_seek (self, 0);
  self->tick_us = 0;
  self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), on_tick, NULL, NULL);
  show_playing (self);
}

void
rehearsal_player_step (RehearsalPage *self, gboolean forward)
{
  const Rehearsal *rehearsal;
  int event;

  if (self->play == NULL || !rehearsal_play_is_shown (self->play))
    return;
  rehearsal = &self->play->rehearsed->rehearsal;
  event = forward ? rehearsal_play_event_after (self->play, self->now_s)
                  : rehearsal_play_event_at (self->play, self->now_s - 1e-3);
  rehearsal_player_stop (self);
  if (event >= 0)
    rehearsal_player_seek (self, rehearsal->events[event].time_s);
  else
    rehearsal_player_seek (self, forward ? rehearsal_traces_get_end (self->traces) : 0);
}

static GtkWidget *
event_row (const RehearsalPlay *play, unsigned index, const NumberStyle *style)
{
  const RehearsalEvent *event = &play->rehearsed->rehearsal.events[index];
  g_autofree char *letter = rehearsal_event_letter (index);
  g_autofree char *time = units_format (event->time_s, QUANTITY_TIME, style, NULL, UNITS_MEASURE);
  g_autofree char *sentence = rehearsal_event_sentence (play->design, event);
  g_autofree char *text = g_strdup_printf ("%s  %s  %s", letter, time, sentence);
  GtkWidget *label = gtk_label_new (text), *row = gtk_list_box_row_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "figures");
  if (rehearsal_event_is_grave (event))
    gtk_widget_add_css_class (label, "stop");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  return row;
}

static void
fill_events (RehearsalPage *self)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (self->events))) != NULL)
    gtk_list_box_remove (self->events, row);
  for (unsigned i = 0; rehearsal_play_is_shown (self->play) && i < self->play->rehearsed->rehearsal.n_events;
       i++)
    gtk_list_box_append (self->events, event_row (self->play, i, document_get_style (self->document)));
}

void
rehearsal_player_load (RehearsalPage *self)
{
  double end_s;

  rehearsal_traces_set (self->traces, self->play, self->beside, document_get_style (self->document));
  end_s = rehearsal_traces_get_end (self->traces);
  fill_events (self);
  if (!rehearsal_play_is_shown (self->play)) {
    rehearsal_player_stop (self);
    show_nothing (self);
    return;
  }
  self->now_s = MIN (self->now_s, end_s);
  show_moment (self);
}
