/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/rehearsal/rehearsal-page.h"

#include <glib/gi18n.h>

#include "app/common/drop-down.h"
#include "app/common/template.h"
#include "app/rehearsal/rehearsal-overview.h"
#include "app/rehearsal/rehearsal-page-private.h"
#include "drawing/time-chart.h"

G_DEFINE_FINAL_TYPE (RehearsalPage, rehearsal_page, GTK_TYPE_BOX)

/* Beside the main loop */

typedef struct {
  Design *design, *other; /* other: to be played beside it, or NULL */
  Catalogue *catalogue;
  FailureId failures[REHEARSED_TOGETHER_MAX];
  unsigned n;
} Request;

typedef struct {
  RehearsalPlay *play, *beside;
} Plays;

static void
request_free (gpointer data)
{
  Request *request = data;

  design_unref (request->design);
  g_clear_pointer (&request->other, design_unref);
  catalogue_unref (request->catalogue);
  g_free (request);
}

static void
overview_free (gpointer data)
{
  rehearsal_overview_free (data);
}

static gpointer
compute_all (gpointer data)
{
  Request *request = data;

  return rehearsal_overview_new (request->design, request->catalogue);
}

static void
plays_free (gpointer data)
{
  Plays *plays = data;

  rehearsal_play_unref (plays->play);
  g_clear_pointer (&plays->beside, rehearsal_play_unref);
  g_free (plays);
}

static gpointer
compute_play (gpointer data)
{
  Request *request = data;
  Plays *plays = g_new0 (Plays, 1);

  plays->play = rehearsal_play_new (request->design, request->catalogue, request->failures, request->n, TRUE);
  if (request->other != NULL)
    plays->beside =
        rehearsal_play_new (request->other, request->catalogue, request->failures, request->n, FALSE);
  return plays;
}

/* What is chosen */

/* The failure in a place of the drop-down of second ones, which leaves out the first. */
static gboolean
second_failure (RehearsalPage *self, FailureId *ret_failure)
{
  const guint chosen = gtk_drop_down_get_selected (self->second);

  if (chosen == 0 || chosen == GTK_INVALID_LIST_POSITION)
    return FALSE;
  *ret_failure = (FailureId) (chosen - 1 >= (guint) self->failure ? chosen : chosen - 1);
  return TRUE;
}

/* The design to be laid beside: an option of the project, or this one with a remedy; NULL for none. Newly referenced. */
static Design *
design_beside (RehearsalPage *self)
{
  Project *project = document_get_project (self->document);
  const guint chosen = gtk_drop_down_get_selected (self->beside_choice);
  const unsigned active = project_active (project), n_options = project_n_options (project);
  unsigned remedy;

  if (chosen == 0 || chosen == GTK_INVALID_LIST_POSITION)
    return NULL;
  if (chosen < n_options)
    return design_ref (project_design (project, chosen - 1 >= active ? chosen : chosen - 1));
  remedy = chosen - n_options;
  if (self->play == NULL || remedy >= self->play->n_remedies)
    return NULL;
  return rehearsal_play_mend (self->play, remedy);
}

static Request *
new_request (RehearsalPage *self)
{
  Request *request = g_new0 (Request, 1);

  request->design = design_ref (document_get_design (self->document));
  request->catalogue = catalogue_ref (document_get_catalogue (self->document));
  return request;
}

static void
ask_play (RehearsalPage *self)
{
  Request *request = new_request (self);

  request->failures[request->n++] = self->failure;
  if (second_failure (self, &request->failures[request->n]))
    request->n++;
  request->other = design_beside (self);
  latest_job_ask (self->play_job, request);
}

static void
refresh (RehearsalPage *self)
{
  if (self->document == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self))) {
    self->stale = TRUE;
    return;
  }
  self->stale = FALSE;
  latest_job_ask (self->all_job, new_request (self));
  ask_play (self);
}

/* Answers */

static void
on_all (gpointer answer, gpointer owner)
{
  RehearsalPage *self = owner;
  RehearsalOverview *overview = answer;
  g_autofree char *sentence = rehearsal_overview_sentence (overview);
  const gboolean wet = overview->n_spill > 0;

  for (unsigned i = 0; i < N_FAILURES; i++)
    rehearsal_row_set (DOWNCOMER_REHEARSAL_ROW (gtk_list_box_get_row_at_index (self->list, (int) i)),
                       overview->design, overview->all[i], document_get_style (self->document));
  gtk_label_set_text (self->summary, sentence);
  gtk_widget_remove_css_class (GTK_WIDGET (self->summary), wet ? "sound" : "stop");
  gtk_widget_add_css_class (GTK_WIDGET (self->summary), wet ? "stop" : "sound");
}

/* The list of what may be laid beside, its choice kept where it is still there. */
static void
fill_beside (RehearsalPage *self)
{
  Project *project = document_get_project (self->document);
  const NumberStyle *style = document_get_style (self->document);
  const guint chosen = gtk_drop_down_get_selected (self->beside_choice);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (names, g_strdup (_ ("Nothing")));
  for (unsigned i = 0; i < project_n_options (project); i++)
    if (i != project_active (project)) {
      const char *label = project_option_label (project, i);

      /* Translators: name of an option that has none; %u is its number. */
      g_ptr_array_add (names, label != NULL ? g_strdup (label) : g_strdup_printf (_ ("Option %u"), i + 1));
    }
  for (unsigned i = 0; self->play != NULL && i < self->play->n_remedies; i++)
    g_ptr_array_add (names, rehearsal_remedy_sentence (self->play->design, &self->play->remedies[i], style));
  g_ptr_array_add (names, NULL);
  self->filling = TRUE;
  drop_down_set (self->beside_choice, (const char *const *) names->pdata,
                 chosen < names->len - 1 ? chosen : 0);
  self->filling = FALSE;
}

static void
fill_second (RehearsalPage *self)
{
  const char *names[N_FAILURES + 1] = {_ ("Nothing else")}; /* all but the first, and the end */
  guint n = 1;

  for (unsigned i = 0; i < N_FAILURES; i++)
    if (i != (unsigned) self->failure)
      names[n++] = rehearsal_failure_name ((FailureId) i);
  names[n] = NULL;
  self->filling = TRUE;
  drop_down_set (self->second, names, 0);
  self->filling = FALSE;
}

static void
fill_remedies (RehearsalPage *self)
{
  const NumberStyle *style = document_get_style (self->document);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->remedies))) != NULL)
    gtk_box_remove (self->remedies, child);
  for (unsigned i = 0; i < self->play->n_remedies; i++) {
    g_autofree char *sentence =
        rehearsal_remedy_sentence (self->play->design, &self->play->remedies[i], style);
    GtkWidget *grid = gtk_grid_new (), *label = gtk_label_new (sentence), *button = gtk_button_new ();

    gtk_label_set_xalign (GTK_LABEL (label), 0);
    gtk_label_set_wrap (GTK_LABEL (label), TRUE);
    gtk_widget_set_hexpand (label, TRUE);
    gtk_widget_add_css_class (label, "figures");
    gtk_button_set_label (GTK_BUTTON (button), _ ("Apply"));
    gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
    gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "rehearsal.mend");
    gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "i", (int) i);
    gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence,
                                    -1);
    gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
    gtk_grid_attach (GTK_GRID (grid), label, 0, 0, 1, 1);
    gtk_grid_attach (GTK_GRID (grid), button, 1, 0, 1, 1);
    gtk_box_append (self->remedies, grid);
  }
}

static void
show_verdict (RehearsalPage *self)
{
  const Rehearsed *rehearsed = self->play->rehearsed;
  const NumberStyle *style = document_get_style (self->document);
  GString *text = g_string_new (NULL);

  if (rehearsed == NULL)
    g_string_append (text, _ ("The design does not run, so nothing can be rehearsed."));
  else if (rehearsed->reason != FAILURE_APPLIES)
    g_string_append (text, rehearsal_reason_sentence (rehearsed->reason));
  else {
    g_autofree char *name = rehearsal_name (rehearsed->failures, rehearsed->n_failures);

    g_string_append_printf (text, "%s: ", name);
    if (rehearsed->n_findings == 0)
      g_string_append (text, _ ("The floor stays dry."));
    for (unsigned i = 0; i < rehearsed->n_findings; i++) {
      g_autofree char *sentence =
          rehearsal_finding_sentence (self->play->design, &rehearsed->findings[i], style);

      g_string_append_printf (text, i > 0 ? " %s" : "%s", sentence);
    }
  }
  gtk_label_set_text (self->verdict, text->str);
  g_string_free (text, TRUE);
}

static void
on_play (gpointer answer, gpointer owner)
{
  RehearsalPage *self = owner;
  Plays *plays = answer;

  g_clear_pointer (&self->play, rehearsal_play_unref);
  g_clear_pointer (&self->beside, rehearsal_play_unref);
  self->play = rehearsal_play_ref (plays->play);
  if (plays->beside != NULL)
    self->beside = rehearsal_play_ref (plays->beside);
  show_verdict (self);
  fill_remedies (self);
  fill_beside (self);
  rehearsal_player_load (self);
}

/* What the person does */

static void
on_row_selected (RehearsalPage *self, GtkListBoxRow *row)
{
  if (row == NULL || rehearsal_row_get_failure (DOWNCOMER_REHEARSAL_ROW (row)) == self->failure)
    return;
  rehearsal_player_stop (self);
  self->failure = rehearsal_row_get_failure (DOWNCOMER_REHEARSAL_ROW (row));
  self->now_s = 0;
  fill_second (self);
  ask_play (self);
}

static void
on_beside_chosen (RehearsalPage *self)
{
  if (self->filling)
    return;
  rehearsal_player_stop (self);
  ask_play (self);
}

static gboolean
on_scale (RehearsalPage *self, GtkScrollType scroll, double value)
{
  rehearsal_player_stop (self);
  rehearsal_player_seek (self, time_chart_time_at (value, rehearsal_traces_get_end (self->traces)));
  return TRUE;
}

static void
on_sought (RehearsalPage *self, double time_s)
{
  rehearsal_player_stop (self);
  rehearsal_player_seek (self, time_s);
}

static void
on_flows_toggled (RehearsalPage *self, GtkToggleButton *button)
{
  rehearsal_traces_set_kind (self->traces,
                             gtk_toggle_button_get_active (button) ? TRACES_FLOWS : TRACES_LEVELS);
  if (self->play != NULL)
    rehearsal_player_load (self);
}

static void
on_event_activated (RehearsalPage *self, GtkListBoxRow *row)
{
  const int event = gtk_list_box_row_get_index (row);

  if (self->play == NULL || event >= (int) self->play->rehearsed->rehearsal.n_events)
    return;
  rehearsal_player_stop (self);
  rehearsal_player_seek (self, self->play->rehearsed->rehearsal.events[event].time_s);
}

static void
on_play_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  rehearsal_player_toggle (DOWNCOMER_REHEARSAL_PAGE (widget));
}

static void
on_step_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  rehearsal_player_step (DOWNCOMER_REHEARSAL_PAGE (widget), g_str_equal (name, "rehearsal.next-event"));
}

/* A remedy as one undo step; the design that is shown then is the mended one. */
static void
on_mend_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  RehearsalPage *self = DOWNCOMER_REHEARSAL_PAGE (widget);
  const int index = g_variant_get_int32 (parameter);
  g_autoptr (Design) mended = NULL;

  if (self->play == NULL || index < 0 || index >= (int) self->play->n_remedies ||
      self->play->design != document_get_design (self->document))
    return;
  mended = rehearsal_play_mend (self->play, (unsigned) index);
  if (mended != NULL)
    document_apply (self->document, mended, _ ("Mend a rehearsal"));
}

/* The widget */

static void
rehearsal_page_map (GtkWidget *widget)
{
  RehearsalPage *self = DOWNCOMER_REHEARSAL_PAGE (widget);

  GTK_WIDGET_CLASS (rehearsal_page_parent_class)->map (widget);
  if (self->stale)
    refresh (self);
}

static void
rehearsal_page_unmap (GtkWidget *widget)
{
  rehearsal_player_stop (DOWNCOMER_REHEARSAL_PAGE (widget));
  GTK_WIDGET_CLASS (rehearsal_page_parent_class)->unmap (widget);
}

static void
rehearsal_page_dispose (GObject *object)
{
  RehearsalPage *self = DOWNCOMER_REHEARSAL_PAGE (object);

  g_clear_pointer (&self->all_job, latest_job_free);
  g_clear_pointer (&self->play_job, latest_job_free);
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (rehearsal_page_parent_class)->dispose (object);
}

static void
rehearsal_page_finalize (GObject *object)
{
  RehearsalPage *self = DOWNCOMER_REHEARSAL_PAGE (object);

  g_clear_pointer (&self->play, rehearsal_play_unref);
  g_clear_pointer (&self->beside, rehearsal_play_unref);
  evaluation_free (self->moment);
  G_OBJECT_CLASS (rehearsal_page_parent_class)->finalize (object);
}

static void
bind_template (GtkWidgetClass *klass)
{
  gtk_widget_class_bind_template_child (klass, RehearsalPage, list);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, events);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, summary);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, verdict);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, time);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, now_label);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, remedies);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, second_slot);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, second_label);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, beside_slot);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, beside_label);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, speed_slot);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, play_button);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, scale);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, stage);
  gtk_widget_class_bind_template_child (klass, RehearsalPage, traces);
  gtk_widget_class_bind_template_callback (klass, on_row_selected);
  gtk_widget_class_bind_template_callback (klass, on_scale);
  gtk_widget_class_bind_template_callback (klass, on_sought);
  gtk_widget_class_bind_template_callback (klass, on_event_activated);
  gtk_widget_class_bind_template_callback (klass, on_flows_toggled);
}

static void
rehearsal_page_class_init (RehearsalPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rehearsal_page_dispose;
  G_OBJECT_CLASS (klass)->finalize = rehearsal_page_finalize;
  widget_class->map = rehearsal_page_map;
  widget_class->unmap = rehearsal_page_unmap;
  g_type_ensure (DOWNCOMER_TYPE_REHEARSAL_STAGE);
  g_type_ensure (DOWNCOMER_TYPE_REHEARSAL_TRACES);
  template_set (widget_class, "rehearsal-page.ui");
  bind_template (widget_class);
  gtk_widget_class_install_action (widget_class, "rehearsal.play", NULL, on_play_action);
  gtk_widget_class_install_action (widget_class, "rehearsal.next-event", NULL, on_step_action);
  gtk_widget_class_install_action (widget_class, "rehearsal.previous-event", NULL, on_step_action);
  gtk_widget_class_install_action (widget_class, "rehearsal.mend", "i", on_mend_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_n, 0, "rehearsal.next-event", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_p, 0, "rehearsal.previous-event", NULL);
}

/* A drop-down in its slot of the template, named by the label beside it. */
static GtkDropDown *
add_drop_down (GtkWidget *slot, GtkWidget *label, const char *name)
{
  GtkWidget *drop_down = drop_down_new ();

  gtk_widget_set_hexpand (drop_down, label != NULL);
  gtk_box_append (GTK_BOX (slot), drop_down);
  drop_down_set_name (GTK_DROP_DOWN (drop_down), name);
  if (label != NULL)
    gtk_accessible_update_relation (GTK_ACCESSIBLE (drop_down), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label,
                                    NULL, -1);
  else
    gtk_accessible_update_property (GTK_ACCESSIBLE (drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return GTK_DROP_DOWN (drop_down);
}

static void
rehearsal_page_init (RehearsalPage *self)
{
  static const LatestJobKind all = {compute_all, on_all, request_free, overview_free},
                             play = {compute_play, on_play, request_free, plays_free};

  gtk_widget_init_template (GTK_WIDGET (self));
  self->moment = evaluation_new ();
  self->all_job = latest_job_new (&all, self);
  self->play_job = latest_job_new (&play, self);
  self->second = add_drop_down (self->second_slot, self->second_label, _ ("Together with"));
  self->beside_choice = add_drop_down (self->beside_slot, self->beside_label, _ ("Thin beside it"));
  self->speed = add_drop_down (self->speed_slot, NULL, _ ("Speed"));
  gtk_widget_set_size_request (GTK_WIDGET (self->speed), 150, -1);
  gtk_range_set_range (self->scale, 0, 1);
  gtk_range_set_increments (self->scale, 0.01, 0.1);
  rehearsal_player_fill_speeds (self);
  for (unsigned i = 0; i < N_FAILURES; i++)
    gtk_list_box_append (self->list, rehearsal_row_new ((FailureId) i));
  gtk_list_box_select_row (self->list, gtk_list_box_get_row_at_index (self->list, 0));
  fill_second (self);
  g_signal_connect_swapped (self->second, "notify::selected", G_CALLBACK (on_beside_chosen), self);
  g_signal_connect_swapped (self->beside_choice, "notify::selected", G_CALLBACK (on_beside_chosen), self);
}

void
rehearsal_page_set_model (RehearsalPage *page, Document *document, Theme *theme)
{
  g_return_if_fail (DOWNCOMER_IS_REHEARSAL_PAGE (page));
  g_set_object (&page->document, document);
  rehearsal_stage_set_theme (page->stage, theme);
  rehearsal_traces_set_theme (page->traces, theme);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (refresh), page);
  refresh (page);
}

void
rehearsal_page_choose (RehearsalPage *page, FailureId failure)
{
  gtk_list_box_select_row (page->list, gtk_list_box_get_row_at_index (page->list, (int) failure));
}

RehearsalPlay *
rehearsal_page_get_play (RehearsalPage *page)
{
  return page->play;
}

double
rehearsal_page_get_now (RehearsalPage *page)
{
  return page->now_s;
}

void
rehearsal_page_seek (RehearsalPage *page, double time_s)
{
  rehearsal_player_seek (page, time_s);
}

gboolean
rehearsal_page_is_playing (RehearsalPage *page)
{
  return page->tick != 0;
}
