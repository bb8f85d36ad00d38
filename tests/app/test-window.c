/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The whole window, driven by its actions: what they allow, what is asked before work is lost, and what a crash leaves.
 * Run with fatal warnings, so that a window that does not die cleanly fails here. */
#include <glib/gstdio.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app/options/options-dialog.h"
#include "app/window/shortcuts.h"
#include "app/window/window-private.h"
#include "design/choices.h"
#include "files/recovery.h"
#include "fixture.h"

static Application *application;
static char *folder;

static Window *
open_window (void)
{
  Window *window = window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  fixture_wait (gtk_widget_get_mapped (GTK_WIDGET (window)));
  return window;
}

static void
act (Window *window, const char *action)
{
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), action, NULL));
}

/* Whether the button of an action can be pressed: what the user is told about it. */
static gboolean
allows_in (GtkWidget *widget, const char *action)
{
  const char *its =
      GTK_IS_ACTIONABLE (widget) ? gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)) : NULL;

  if (g_strcmp0 (its, action) == 0)
    return gtk_widget_is_sensitive (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (allows_in (child, action))
      return TRUE;
  return FALSE;
}

static gboolean
allows (Window *window, const char *action)
{
  return allows_in (GTK_WIDGET (window), action);
}

static void
change_crest (Window *window, double height_m)
{
  g_autofree char *key =
      g_strdup (part_key (design_nth (document_get_design (window->document), PART_OVERFLOW, 0)));

  g_assert_true (document_set_number (window->document, key, FIELD_OVERFLOW_CREST, height_m, NULL));
}

/* The dialog over a window, once it is shown. */
static GtkWindow *
dialog_over (Window *window)
{
  g_autoptr (GListModel) all = NULL;

  all = g_object_ref (gtk_window_get_toplevels ());
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWindow) each = g_list_model_get_item (all, i);

    if (gtk_window_get_transient_for (each) == GTK_WINDOW (window) &&
        gtk_widget_get_visible (GTK_WIDGET (each)))
      return each;
  }
  return NULL;
}

static gboolean
is_alive (GWeakRef *ref)
{
  g_autoptr (GObject) object = g_weak_ref_get (ref);

  return object != NULL;
}

static void
settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
discard (Window *window)
{
  window->may_close = TRUE;
  gtk_window_close (GTK_WINDOW (window));
  settle ();
}

static void
show_view (Window *window, const char *word)
{
  g_action_group_activate_action (G_ACTION_GROUP (window), "view", g_variant_new_string (word));
  settle ();
}

/* One view or all four; layers hold in each; the panes go when they are not wanted, and with the window. */
static void
test_views (void)
{
  Window *window = open_window ();

  show_view (window, "plan");
  g_assert_cmpint (canvas_get_projection (window->canvas), ==, PROJECTION_PLAN);
  g_assert_null (window->panes[1]);
  g_action_group_activate_action (G_ACTION_GROUP (window), "levels", NULL);
  show_view (window, "all");
  g_assert_cmpint (canvas_get_projection (window->canvas), ==, PROJECTION_FRONT);
  for (guint i = 0; i < N_SCENE_PROJECTIONS; i++) {
    g_assert_nonnull (window->panes[i]);
    g_assert_cmpint (canvas_get_projection (window->panes[i]), ==, (int) i);
  }
  act (window, "win.zoom-in");
  change_crest (window, 0.5);
  show_view (window, "end");
  g_assert_null (window->panes[3]);
  g_action_group_activate_action (G_ACTION_GROUP (window), "page", g_variant_new_string ("pumps"));
  show_view (window, "all");
  g_assert_cmpstr (gtk_stack_get_visible_child_name (window->stack), ==, "drawing");
  discard (window);
}

/* Each choice in the menu of the options is one step back: a variant, its change, the switch, the removal. */
static void
test_options (void)
{
  Window *window = open_window ();
  g_autoptr (Project) before = project_ref (document_get_project (window->document));
  g_autofree char *first = g_strdup (project_option_key (before, 0));
  GtkWindow *dialog;

  g_assert_false (project_n_options (before) > 1);
  act (window, "win.option-variant");
  g_assert_cmpuint (project_n_options (document_get_project (window->document)), ==, 2);
  g_assert_cmpuint (project_active (document_get_project (window->document)), ==, 1);
  change_crest (window, 0.5);
  act (window, "win.option-compare");
  dialog = dialog_over (window);
  g_assert_true (DOWNCOMER_IS_OPTIONS_DIALOG (dialog));
  options_dialog_compare (DOWNCOMER_OPTIONS_DIALOG (dialog), 1, 0);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (dialog), "options.show", NULL));
  g_assert_cmpuint (project_active (document_get_project (window->document)), ==, 0);
  g_assert_true (design_equal (document_get_design (window->document), project_active_design (before)));
  gtk_window_destroy (dialog);
  g_action_group_activate_action (
      G_ACTION_GROUP (window), "option",
      g_variant_new_string (project_option_key (document_get_project (window->document), 1)));
  g_assert_cmpuint (project_active (document_get_project (window->document)), ==, 1);
  act (window, "win.option-earlier");
  g_assert_cmpstr (project_option_key (document_get_project (window->document), 1), ==, first);
  act (window, "win.option-rename");
  dialog = dialog_over (window);
  g_assert_nonnull (dialog);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (dialog), "name.cancel", NULL));
  act (window, "win.option-remove");
  g_assert_cmpuint (project_n_options (document_get_project (window->document)), ==, 1);
  for (unsigned i = 0; i < 6; i++) /* removal, move, switch, show, crest, variant */
    act (window, "win.undo");
  g_assert_true (project_equal (document_get_project (window->document), before));
  g_assert_null (document_undo_label (window->document));
  discard (window);
}

static GFile *
in_folder (const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  return g_file_new_for_path (path);
}

/* The number of a process that has come and gone. */
static pid_t
ended_process (void)
{
  const pid_t child = fork ();

  if (child == 0)
    _exit (0);
  g_assert_cmpint (child, >, 0);
  g_assert_cmpint (waitpid (child, NULL, 0), ==, child);
  return child;
}

static void
test_life (void)
{
  Window *window = open_window ();
  GWeakRef ref;

  g_weak_ref_init (&ref, window);
  g_assert_false (document_is_modified (window->document));
  g_assert_true (window_is_unused (window));
  g_action_group_change_action_state (G_ACTION_GROUP (window), "page", g_variant_new_string ("pumps"));
  settle ();
  g_assert_cmpstr (gtk_stack_get_visible_child_name (window->stack), ==, "pumps");
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (window->side)));
  gtk_window_close (GTK_WINDOW (window));
  fixture_wait (!is_alive (&ref));
  g_weak_ref_clear (&ref);
}

static void
test_history (void)
{
  Window *window = open_window ();
  const double before = fixture_number (window->document, "overflow", FIELD_OVERFLOW_CREST);

  g_assert_false (allows (window, "win.undo"));
  g_assert_false (allows (window, "win.redo"));
  change_crest (window, before - 0.03);
  g_assert_true (document_is_modified (window->document));
  g_assert_true (g_str_has_prefix (gtk_label_get_text (window->title_label), "•"));
  g_assert_true (allows (window, "win.undo"));
  act (window, "win.undo");
  g_assert_cmpfloat (fixture_number (window->document, "overflow", FIELD_OVERFLOW_CREST), ==, before);
  g_assert_false (allows (window, "win.undo"));
  act (window, "win.redo");
  g_assert_cmpfloat (fixture_number (window->document, "overflow", FIELD_OVERFLOW_CREST), ==, before - 0.03);
  discard (window);
}

/* Every key of the table does something in a window. */
static void
test_shortcuts (void)
{
  Window *window = open_window ();

  for (guint n = 0; shortcut_nth (n) != NULL; n++) {
    const char *action = shortcut_nth (n)->action;
    g_autofree char *bare = g_strdup (strchr (action, '.') + 1);
    gboolean known = FALSE;
    const char *name = NULL;
    GType owner;
    const GVariantType *type;
    const char *property;

    if (strstr (bare, "::") != NULL)
      *strstr (bare, "::") = '\0';
    known = g_str_has_prefix (action, "app.")
                ? g_action_map_lookup_action (G_ACTION_MAP (application), bare) != NULL
                : g_action_map_lookup_action (G_ACTION_MAP (window), bare) != NULL;
    for (guint i = 0; !known && gtk_widget_class_query_action (GTK_WIDGET_GET_CLASS (window), i, &owner,
                                                               &name, &type, &property);
         i++)
      known = g_str_equal (name, action);
    g_test_message ("%s", action);
    g_assert_true (known);
  }
  gtk_window_close (GTK_WINDOW (window));
  settle ();
}

static void
test_files (void)
{
  Window *window = open_window ();
  g_autoptr (GFile) file = in_folder ("kept.downcomer");
  g_autoptr (GFile) broken = in_folder ("broken.downcomer");
  g_autoptr (Project) kept = NULL;

  /* As opened from disk: clean until changed, and saved in place. */
  g_assert_true (document_save (document_get_project (window->document), file, NULL, NULL));
  window_load (window, file);
  g_assert_true (g_file_equal (document_get_file (window->document), file));
  change_crest (window, 0.51);
  act (window, "win.save");
  g_assert_false (document_is_modified (window->document));
  kept = document_load (file, NULL, NULL);
  g_assert_true (project_equal (kept, document_get_project (window->document)));

  /* A broken file says so and takes nothing away. */
  g_assert_true (
      g_file_replace_contents (broken, "<project", 8, NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL, NULL));
  window_load (window, broken);
  g_assert_true (gtk_revealer_get_reveal_child (window->message_revealer));
  g_assert_nonnull (strstr (gtk_label_get_text (window->message_label), "broken.downcomer"));
  g_assert_true (project_equal (kept, document_get_project (window->document)));

  /* A folder that is gone: the change is kept in the window, and said. */
  {
    g_autoptr (GFile) nowhere = in_folder ("gone/design.downcomer");

    change_crest (window, 0.52);
    document_mark_saved (window->document, nowhere);
    change_crest (window, 0.53);
    act (window, "win.save");
    g_assert_true (document_is_modified (window->document));
    g_assert_true (gtk_revealer_get_reveal_child (window->message_revealer));
  }
  discard (window);
}

static void
answer (Window *window, int response)
{
  GtkWindow *dialog;

  gtk_window_close (GTK_WINDOW (window));
  fixture_wait ((dialog = dialog_over (window)) != NULL);
  gtk_dialog_response (GTK_DIALOG (dialog), response);
  settle ();
}

static void
test_guard (void)
{
  Window *window = open_window ();
  GWeakRef ref;

  g_weak_ref_init (&ref, window);
  change_crest (window, 0.5);
  answer (window, GTK_RESPONSE_CANCEL);
  g_assert_true (is_alive (&ref));
  answer (window, GTK_RESPONSE_DELETE_EVENT); /* Escape */
  g_assert_true (is_alive (&ref));

  /* Save without a name asks for one; giving none keeps window, work and the next question. */
  answer (window, 2);
  g_assert_nonnull (window->chooser);
  g_signal_emit_by_name (window->chooser, "response", GTK_RESPONSE_CANCEL);
  settle ();
  g_assert_false (window->may_close);
  g_assert_true (is_alive (&ref));

  answer (window, 1);
  fixture_wait (!is_alive (&ref));
  g_weak_ref_clear (&ref);
}

/* What a proposal puts into an unused window is work: closing asks. */
static void
test_proposal_is_work (void)
{
  Window *window = open_window ();

  document_mark_unsaved (window->document);
  g_assert_true (document_is_modified (window->document));
  g_assert_false (window_is_unused (window));
  answer (window, GTK_RESPONSE_CANCEL);
  discard (window);
}

/* The windows of the program, newest use first. */
static guint
n_windows (void)
{
  return g_list_length (gtk_application_get_windows (GTK_APPLICATION (application)));
}

static guint
n_copies (void)
{
  g_autofree char *path = g_build_filename (g_get_user_state_dir (), "downcomer", "recovery", NULL);
  g_autoptr (GPtrArray) copies = recovery_list (path);

  return copies->len;
}

static void
test_recovery (void)
{
  Window *window = open_window ();
  g_autoptr (Project) lost = NULL;

  /* A change and back leaves no copy; the copy of an open window is nobody else's to take. */
  change_crest (window, 0.49);
  g_assert_true (window_keep_recovery (window));
  g_assert_cmpuint (n_copies (), ==, 1);
  act (window, "win.undo");
  g_assert_true (window_keep_recovery (window));
  g_assert_cmpuint (n_copies (), ==, 0);
  act (window, "win.redo");

  /* A copy under the name of a process that is gone, as after a crash. */
  lost = project_ref (document_get_project (window->document));
  g_free (window->recovery_id);
  window->recovery_id = g_strdup_printf ("%ld-crash", (long) ended_process ());
  g_assert_true (window_keep_recovery (window));
  gtk_window_destroy (GTK_WINDOW (window));
  settle ();
  g_assert_cmpuint (n_copies (), ==, 1);
  g_assert_cmpuint (window_recover_all (application), ==, 1);
  g_assert_cmpuint (n_windows (), ==, 1);
  window = DOWNCOMER_WINDOW (gtk_application_get_windows (GTK_APPLICATION (application))->data);
  g_assert_true (project_equal (document_get_project (window->document), lost));
  g_assert_true (document_is_modified (window->document));
  g_assert_true (gtk_revealer_get_reveal_child (window->message_revealer));
  g_assert_cmpuint (n_copies (), ==, 1); /* its own */
  g_assert_cmpuint (window_recover_all (application), ==, 0);

  /* Closing it on purpose ends the matter. */
  discard (window);
  g_assert_cmpuint (n_copies (), ==, 0);
}

/* The entry for the name of the selected part: the only one whose placeholder is a name. */
static GtkWidget *
name_entry_in (GtkWidget *widget)
{
  GtkWidget *found =
      GTK_IS_ENTRY (widget) && gtk_entry_get_placeholder_text (GTK_ENTRY (widget)) != NULL ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = name_entry_in (child);
  return found;
}

/* Undo takes back what is half typed, and the design only where nothing is. */
static void
test_undo_of_typing (void)
{
  Window *window = open_window ();
  const char *tank = part_key (design_nth (document_get_design (window->document), PART_TANK, 0));
  g_autoptr (Project) crest = NULL;
  GtkWidget *entry;

  change_crest (window, 0.49);
  crest = project_ref (document_get_project (window->document));
  selection_set_key (window->selection, tank);
  settle ();
  entry = name_entry_in (GTK_WIDGET (window));
  g_assert_nonnull (entry);
  g_assert_true (gtk_widget_grab_focus (entry));
  gtk_editable_set_text (GTK_EDITABLE (entry), "Half a na");
  act (window, "win.undo");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), !=, "Half a na");
  g_assert_true (document_get_project (window->document) == crest);
  act (window, "win.undo");
  g_assert_true (document_get_project (window->document) != crest);
  g_assert_null (document_undo_label (window->document));
  discard (window);
}

static void
test_units_and_layers (void)
{
  Window *window = open_window ();
  const char *const toggles[] = {"power-off", "dimensions", "levels", "flow", "labels", "findings"};

  g_action_group_change_action_state (G_ACTION_GROUP (window), "units", g_variant_new_string ("us"));
  g_assert_cmpint (document_get_style (window->document)->system, ==, UNIT_SYSTEM_US);
  act (window, "win.undo");
  g_assert_cmpint (document_get_style (window->document)->system, ==, UNIT_SYSTEM_METRIC);
  for (guint i = 0; i < G_N_ELEMENTS (toggles); i++) {
    g_autoptr (GVariant) state = NULL;

    g_action_group_activate_action (G_ACTION_GROUP (window), toggles[i], NULL);
    state = g_action_group_get_action_state (G_ACTION_GROUP (window), toggles[i]);
    g_assert_false (g_variant_get_boolean (state));
  }
  discard (window);
}

static void
test_narrow (void)
{
  Window *window = open_window ();
  int least = 0;

  gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 1024);
  gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_VERTICAL, 1024, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 700);
  gtk_window_close (GTK_WINDOW (window));
  settle ();
}

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *child = g_build_filename (path, name, NULL);

    remove_tree (child);
  }
  g_remove (path);
}

int
main (int argc, char **argv)
{
  int result;

  /* Folders of the test's own, before anything asks for them. */
  folder = g_dir_make_tmp ("downcomer-window-XXXXXX", NULL);
  g_setenv ("XDG_STATE_HOME", folder, TRUE);
  g_setenv ("XDG_DATA_HOME", folder, TRUE);
  g_setenv ("XDG_CONFIG_HOME", folder, TRUE);
  gtk_test_init (&argc, &argv);
  application = application_new ();
  g_application_set_flags (G_APPLICATION (application),
                           G_APPLICATION_NON_UNIQUE | G_APPLICATION_HANDLES_OPEN);
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, NULL));
  g_test_add_func ("/window/views", test_views);
  g_test_add_func ("/window/options", test_options);
  g_test_add_func ("/window/life", test_life);
  g_test_add_func ("/window/history", test_history);
  g_test_add_func ("/window/shortcuts", test_shortcuts);
  g_test_add_func ("/window/files", test_files);
  g_test_add_func ("/window/guard", test_guard);
  g_test_add_func ("/window/proposal-is-work", test_proposal_is_work);
  g_test_add_func ("/window/recovery", test_recovery);
  g_test_add_func ("/window/undo-of-typing", test_undo_of_typing);
  g_test_add_func ("/window/units-and-layers", test_units_and_layers);
  g_test_add_func ("/window/narrow", test_narrow);
  result = g_test_run ();
  g_object_unref (application);
  remove_tree (folder);
  g_free (folder);
  return result;
}
