/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/window/window.h"

#include <glib/gi18n.h>

#include "app/common/template.h"
#include "app/start/starter.h"
#include "app/window/window-private.h"
#include "report/finding-words.h"
#include "report/summary.h"

#define RESOURCE_PATH "/io/github/downcomer/Downcomer/"

G_DEFINE_FINAL_TYPE (Window, window, GTK_TYPE_APPLICATION_WINDOW)

/* What the status line says: the verdict, the worst finding if it is a stop, and the main figures. */
static char *
status_words (Window *self)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const NumberStyle *style = document_get_style (self->document);
  g_autofree char *verdict = NULL;
  g_autofree char *line = NULL;

  if (evaluation == NULL)
    return g_strdup_printf (_ ("This design cannot be computed: %s."),
                            system_status_text (document_get_status (self->document, NULL)));
  verdict = summary_verdict (evaluation);
  line = summary_line (evaluation, style);
  if (evaluation->n_findings > 0 && evaluation->findings[0].grade == GRADE_STOP)
    return g_strdup_printf ("%s  %s — %s", verdict, finding_title (evaluation->findings[0].check), line);
  return g_strdup_printf ("%s  %s", verdict, line);
}

/* What is read out after the status line: the worst finding as a sentence. */
static void
tell_worst (Window *self)
{
  const Evaluation *evaluation = document_get_evaluation (self->document);
  g_autofree char *worst = NULL;

  if (evaluation != NULL && evaluation->n_findings > 0)
    worst = finding_sentence (document_get_design (self->document), &evaluation->findings[0],
                              document_get_style (self->document));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->status_label), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  worst != NULL ? worst : "", -1);
}

static void
on_document_changed (Window *self)
{
  g_autofree char *title = document_dup_title (self->document);
  g_autofree char *status = status_words (self);
  GFile *file = document_get_file (self->document);
  g_autofree char *path = file != NULL ? g_file_get_parse_name (file) : NULL;
  const gboolean modified = document_is_modified (self->document);
  g_autofree char *shown = g_strdup_printf (modified ? "• %s" : "%s", title);
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const gboolean sound = evaluation != NULL && evaluation_is_sound (evaluation);

  gtk_label_set_text (self->title_label, shown);
  gtk_label_set_text (self->subtitle_label, path != NULL ? path : _ ("Not saved yet"));
  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_label_set_text (self->status_label, status);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->status_label), status);
  tell_worst (self);
  window_start_recovery (self);
  gtk_widget_remove_css_class (GTK_WIDGET (self->status_label), sound ? "stop" : "sound");
  gtk_widget_add_css_class (GTK_WIDGET (self->status_label), sound ? "sound" : "stop");
  window_update_actions (self);
  window_update_options (self);
}

/* Enter on a part of the drawing goes on in the inspector. */
static void
on_edit_part (Window *self)
{
  gtk_widget_child_focus (GTK_WIDGET (self->inspector), GTK_DIR_TAB_FORWARD);
}

static void
on_message_close (Window *self)
{
  gtk_revealer_set_reveal_child (self->message_revealer, FALSE);
}

gboolean
window_is_unused (Window *window)
{
  return document_get_file (window->document) == NULL && !document_is_modified (window->document);
}

static gboolean
window_close_request (GtkWindow *window)
{
  Window *self = DOWNCOMER_WINDOW (window);
  GSettings *settings = application_get_settings (self->application);

  if (!self->may_close && document_is_modified (self->document))
    return window_ask_before_close (self);
  window_stop_recovery (self);
  if (settings != NULL) {
    int width, height;

    gtk_window_get_default_size (window, &width, &height);
    g_settings_set_boolean (settings, "window-maximized", gtk_window_is_maximized (window));
    if (width >= 640 && height >= 480) {
      g_settings_set_int (settings, "window-width", width);
      g_settings_set_int (settings, "window-height", height);
    }
  }
  return GTK_WINDOW_CLASS (window_parent_class)->close_request (window);
}

static void
window_dispose (GObject *object)
{
  Window *self = DOWNCOMER_WINDOW (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_handle_id (&self->recovery_source, g_source_remove);
  g_clear_object (&self->chooser);
  g_clear_object (&self->print_settings);
  gtk_widget_dispose_template (GTK_WIDGET (self), DOWNCOMER_TYPE_WINDOW);
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  g_clear_object (&self->recent_menu);
  G_OBJECT_CLASS (window_parent_class)->dispose (object);
}

static void
window_finalize (GObject *object)
{
  g_free (DOWNCOMER_WINDOW (object)->recovery_id);
  G_OBJECT_CLASS (window_parent_class)->finalize (object);
}

static void
window_class_init (WindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = window_dispose;
  object_class->finalize = window_finalize;
  GTK_WINDOW_CLASS (klass)->close_request = window_close_request;

  g_type_ensure (DOWNCOMER_TYPE_CANVAS);
  g_type_ensure (DOWNCOMER_TYPE_INSPECTOR);
  g_type_ensure (DOWNCOMER_TYPE_FINDINGS_PANEL);
  template_set (widget_class, "window.ui");
  gtk_widget_class_bind_template_child (widget_class, Window, menu_button);
  gtk_widget_class_bind_template_child (widget_class, Window, options_button);
  gtk_widget_class_bind_template_child (widget_class, Window, options_label);
  gtk_widget_class_bind_template_child (widget_class, Window, title_label);
  gtk_widget_class_bind_template_child (widget_class, Window, subtitle_label);
  gtk_widget_class_bind_template_child (widget_class, Window, message_label);
  gtk_widget_class_bind_template_child (widget_class, Window, message_box);
  gtk_widget_class_bind_template_child (widget_class, Window, message_revealer);
  gtk_widget_class_bind_template_child (widget_class, Window, status_label);
  gtk_widget_class_bind_template_child (widget_class, Window, paned);
  gtk_widget_class_bind_template_child (widget_class, Window, side);
  gtk_widget_class_bind_template_child (widget_class, Window, stack);
  gtk_widget_class_bind_template_child (widget_class, Window, views);
  gtk_widget_class_bind_template_child (widget_class, Window, view_switch);
  gtk_widget_class_bind_template_child (widget_class, Window, canvas);
  gtk_widget_class_bind_template_child (widget_class, Window, bench_slot);
  gtk_widget_class_bind_template_child (widget_class, Window, rehearsal_slot);
  gtk_widget_class_bind_template_child (widget_class, Window, inspector);
  gtk_widget_class_bind_template_child (widget_class, Window, findings);
  gtk_widget_class_bind_template_callback (widget_class, on_message_close);
  window_install_actions (widget_class);
  window_install_file_actions (widget_class);
  window_install_options_actions (widget_class);
  window_install_print_actions (widget_class);
}

/* Choosing in a submenu leaves the focus in what is hidden then, and no key would be heard (GTK 4.8). */
static void
on_menu_closed (Window *self)
{
  gtk_widget_grab_focus (gtk_widget_get_first_child (GTK_WIDGET (self->menu_button)));
}

static void
build_menu (Window *self)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource (RESOURCE_PATH "menu.ui");

  gtk_menu_button_set_menu_model (self->menu_button, G_MENU_MODEL (gtk_builder_get_object (builder, "menu")));
  g_signal_connect_swapped (gtk_menu_button_get_popover (self->menu_button), "closed",
                            G_CALLBACK (on_menu_closed), self);
  self->recent_menu = G_MENU (g_object_ref (gtk_builder_get_object (builder, "recent")));
  window_fill_recent (self);
}

static void
window_init (Window *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->recovery_id = window_new_recovery_id ();
  build_menu (self);
}

Window *
window_new (Application *application)
{
  g_autoptr (Project) project =
      starter_project (application_get_catalogue (application), application_get_settings (application));

  return window_new_on (application, project, NULL);
}

void
window_watch_canvas (Window *self, Canvas *canvas)
{
  g_signal_connect_swapped (canvas, "edit-part", G_CALLBACK (on_edit_part), self);
}

Window *
window_new_on (Application *application, Project *project, GFile *file)
{
  Window *self = g_object_new (DOWNCOMER_TYPE_WINDOW, "application", application, NULL);
  GSettings *settings = application_get_settings (application);

  self->application = application;
  self->document = document_new (project, application_get_catalogue (application));
  if (file != NULL)
    document_mark_saved (self->document, file);
  self->selection = selection_new ();
  self->panes[0] = self->canvas;
  canvas_set_model (self->canvas, self->document, self->selection, application_get_theme (application));
  inspector_set_model (self->inspector, self->document, self->selection);
  findings_panel_set_model (self->findings, self->document, self->selection);
  window_watch_canvas (self, self->canvas);
  g_signal_connect_swapped (self->document, "changed", G_CALLBACK (on_document_changed), self);
  on_document_changed (self);
  if (settings != NULL) {
    gtk_window_set_default_size (GTK_WINDOW (self), g_settings_get_int (settings, "window-width"),
                                 g_settings_get_int (settings, "window-height"));
    if (g_settings_get_boolean (settings, "window-maximized"))
      gtk_window_maximize (GTK_WINDOW (self));
  } else {
    gtk_window_set_default_size (GTK_WINDOW (self), 1280, 800);
  }
  return self;
}

Document *
window_get_document (Window *window)
{
  return window->document;
}

Selection *
window_get_selection (Window *window)
{
  return window->selection;
}

void
window_tell (Window *window, const char *sentence, gboolean error)
{
  gtk_label_set_text (window->message_label, sentence);
  if (error)
    gtk_widget_add_css_class (window->message_box, "error");
  else
    gtk_widget_remove_css_class (window->message_box, "error");
  gtk_revealer_set_reveal_child (window->message_revealer, TRUE);
}
