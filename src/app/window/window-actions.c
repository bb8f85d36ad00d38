/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Actions on what is shown and on history; their states follow from the document in one function. */
#include <glib/gi18n.h>

#include "app/common/quantity-entry.h"
#include "app/common/typed-text.h"
#include "app/start/new-dialog.h"
#include "app/window/window-private.h"
#include "design/choices.h"
#include "drawing/view.h"
#include "report/advice.h"

/* Layers of the drawing that the menu switches, by the name of their stateful action. */
static const struct {
  const char *action;
  SceneLayer layer;
} layers[] = {{"power-off", LAYER_POWER_OFF}, {"dimensions", LAYER_DIMENSIONS}, {"levels", LAYER_LEVELS},
              {"flow", LAYER_FLOW},           {"labels", LAYER_LABELS},         {"findings", LAYER_FINDINGS}};

/* What is being typed, or was refused, is taken back first: the design has not followed it. */
static gboolean
take_back_typed (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);
  GtkWidget *entry = focus != NULL ? gtk_widget_get_ancestor (focus, DOWNCOMER_TYPE_QUANTITY_ENTRY) : NULL;

  if (entry == NULL)
    return typed_text_take_back (focus);
  if (!quantity_entry_is_typed (DOWNCOMER_QUANTITY_ENTRY (entry)))
    return FALSE;
  quantity_entry_restore (DOWNCOMER_QUANTITY_ENTRY (entry));
  return TRUE;
}

static void
on_undo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (!take_back_typed (GTK_WINDOW (widget)))
    document_undo (DOWNCOMER_WINDOW (widget)->document);
}

static void
on_redo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  document_redo (DOWNCOMER_WINDOW (widget)->document);
}

static void
on_close (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
zoom (gpointer canvas, gpointer name)
{
  if (g_str_equal (name, "win.zoom-fit"))
    canvas_fit (canvas);
  else
    canvas_zoom (canvas, g_str_equal (name, "win.zoom-in") ? 1.25 : 1 / 1.25);
}

static void
on_zoom (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);

  window_each_canvas (self, zoom, (gpointer) name);
}

static void
on_next_finding (GtkWidget *widget, const char *name, GVariant *parameter)
{
  findings_panel_choose_next (DOWNCOMER_WINDOW (widget)->findings);
}

static void
on_explain (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_action_group_activate_action (G_ACTION_GROUP (widget), "page", g_variant_new_string ("drawing"));
  inspector_explain (DOWNCOMER_WINDOW (widget)->inspector);
}

static void
on_new (GtkWidget *widget, const char *name, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);

  new_dialog_present (self, self->application);
}

/* The toolkit leaves the search button of its help window without a name. */
static void
name_search (GtkWidget *widget)
{
  if (GTK_IS_TOGGLE_BUTTON (widget))
    gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Search"), -1);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    name_search (child);
}

/* Built when asked for, not with every window as the toolkit would. */
static void
on_help (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (GtkBuilder) builder =
      gtk_builder_new_from_resource ("/io/github/downcomer/Downcomer/help-overlay.ui");
  GtkWindow *help = GTK_WINDOW (gtk_builder_get_object (builder, "help_overlay"));

  gtk_window_set_title (help, _ ("Keyboard shortcuts"));
  name_search (gtk_window_get_titlebar (help));
  gtk_window_set_transient_for (help, GTK_WINDOW (widget));
  gtk_window_present (help);
}

static void
on_cautions (GtkWidget *widget, const char *name, GVariant *parameter)
{
  GString *text = g_string_new (NULL);
  GtkWidget *dialog;

  for (unsigned i = 0; i < advice_n_cautions (); i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n\n" : "", advice_caution (i));
  dialog =
      gtk_message_dialog_new (GTK_WINDOW (widget), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                              GTK_MESSAGE_WARNING, GTK_BUTTONS_CLOSE, "%s", _ ("Before anything is built"));
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", text->str);
  g_string_free (text, TRUE);
  g_signal_connect (dialog, "response", G_CALLBACK (gtk_window_destroy), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* Stateful actions live in the window's own action map, so that menus show their state. */

static void
show_layers (gpointer canvas, gpointer window)
{
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++) {
    g_autoptr (GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (window), layers[i].action);

    canvas_show_layer (canvas, layers[i].layer, g_variant_get_boolean (state));
  }
}

static void
on_layer (GSimpleAction *action, GVariant *state, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);

  g_simple_action_set_state (action, state);
  window_each_canvas (self, show_layers, self);
}

/* The bench compares a dozen pumps and is half of all widgets: made when somebody looks at it. */
static void
ensure_bench (Window *self)
{
  if (self->bench != NULL)
    return;
  self->bench = g_object_new (DOWNCOMER_TYPE_PUMP_BENCH, "hexpand", TRUE, NULL);
  gtk_box_append (GTK_BOX (self->bench_slot), GTK_WIDGET (self->bench));
  pump_bench_set_model (self->bench, self->document, application_get_theme (self->application));
}

static void
ensure_rehearsals (Window *self)
{
  if (self->rehearsals != NULL)
    return;
  self->rehearsals = g_object_new (DOWNCOMER_TYPE_REHEARSAL_PAGE, "hexpand", TRUE, NULL);
  gtk_box_append (GTK_BOX (self->rehearsal_slot), GTK_WIDGET (self->rehearsals));
  rehearsal_page_set_model (self->rehearsals, self->document, application_get_theme (self->application));
}

static void
on_page (GSimpleAction *action, GVariant *state, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);
  const char *page = g_variant_get_string (state, NULL);

  if (g_str_equal (page, "pumps"))
    ensure_bench (self);
  if (g_str_equal (page, "rehearsals"))
    ensure_rehearsals (self);
  gtk_stack_set_visible_child_name (self->stack, page);
  gtk_widget_set_visible (GTK_WIDGET (self->side),
                          g_str_equal (page, "drawing")); /* the bench takes the width */
  gtk_widget_set_visible (self->view_switch, g_str_equal (page, "drawing"));
  g_simple_action_set_state (action, state);
}

static void
on_view (GSimpleAction *action, GVariant *state, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);

  g_action_group_activate_action (G_ACTION_GROUP (self), "page", g_variant_new_string ("drawing"));
  window_show_view (self, g_variant_get_string (state, NULL));
  window_each_canvas (self, show_layers, self);
  g_simple_action_set_state (action, state);
}

static void
on_units (GSimpleAction *action, GVariant *state, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);
  const Part *job = design_nth (document_get_design (self->document), PART_JOB, 0);
  const int units =
      g_str_equal (g_variant_get_string (state, NULL), "us") ? UNITS_CHOICE_US : UNITS_CHOICE_METRIC;

  if (job != NULL)
    document_set_number (self->document, part_key (job), FIELD_JOB_UNITS, units, NULL);
  window_arrange_views (self);
}

static void
add_stateful (Window *self, const char *name, const char *type, GVariant *state, GCallback callback)
{
  g_autoptr (GSimpleAction) action =
      g_simple_action_new_stateful (name, type != NULL ? G_VARIANT_TYPE (type) : NULL, state);

  g_signal_connect (action, "change-state", callback, self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (action));
}

static void
ensure_stateful (Window *self)
{
  if (g_action_map_lookup_action (G_ACTION_MAP (self), "page") != NULL)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    add_stateful (self, layers[i].action, NULL, g_variant_new_boolean (TRUE), G_CALLBACK (on_layer));
  add_stateful (self, "page", "s", g_variant_new_string ("drawing"), G_CALLBACK (on_page));
  add_stateful (self, "view", "s", g_variant_new_string ("front"), G_CALLBACK (on_view));
  add_stateful (self, "units", "s", g_variant_new_string ("metric"), G_CALLBACK (on_units));
}

void
window_update_actions (Window *self)
{
  Design *design = document_get_design (self->document);
  const Part *job = design_nth (design, PART_JOB, 0);
  const gboolean us = job != NULL && design_choice (design, job, FIELD_JOB_UNITS) == UNITS_CHOICE_US;
  GtkWidget *widget = GTK_WIDGET (self);

  ensure_stateful (self);
  gtk_widget_action_set_enabled (widget, "win.undo", document_undo_label (self->document) != NULL);
  gtk_widget_action_set_enabled (widget, "win.redo", document_redo_label (self->document) != NULL);
  gtk_widget_action_set_enabled (widget, "win.export-sheet",
                                 document_get_evaluation (self->document) != NULL);
  gtk_widget_action_set_enabled (widget, "win.print", document_get_evaluation (self->document) != NULL);
  g_simple_action_set_state (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), "units")),
                             g_variant_new_string (us ? "us" : "metric"));
}

void
window_install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "win.undo", NULL, on_undo);
  gtk_widget_class_install_action (klass, "win.redo", NULL, on_redo);
  gtk_widget_class_install_action (klass, "win.close", NULL, on_close);
  gtk_widget_class_install_action (klass, "win.zoom-in", NULL, on_zoom);
  gtk_widget_class_install_action (klass, "win.zoom-out", NULL, on_zoom);
  gtk_widget_class_install_action (klass, "win.zoom-fit", NULL, on_zoom);
  gtk_widget_class_install_action (klass, "win.explain", NULL, on_explain);
  gtk_widget_class_install_action (klass, "win.next-finding", NULL, on_next_finding);
  gtk_widget_class_install_action (klass, "win.new", NULL, on_new);
  gtk_widget_class_install_action (klass, "win.show-help-overlay", NULL, on_help);
  gtk_widget_class_install_action (klass, "win.cautions", NULL, on_cautions);
}
