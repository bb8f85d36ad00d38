/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Recovery copies: written while work is unsaved, taken up again by the next run after a crash. */
#include <errno.h>
#include <glib/gi18n.h>
#include <signal.h>
#include <unistd.h>

#include "app/window/window-private.h"
#include "files/document.h"
#include "files/recovery.h"

/* The most that a crash may cost: seconds from a change until it is in the copy. */
#define RECOVERY_SECONDS 3

static char *
recovery_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "downcomer", "recovery", NULL);
}

/* The process is part of the name: a copy whose process still runs is somebody's work, not what a crash left. */
char *
window_new_recovery_id (void)
{
  g_autofree char *uuid = g_uuid_string_random ();

  return g_strdup_printf ("%ld-%.8s", (long) getpid (), uuid);
}

static gboolean
process_runs (const char *id)
{
  const gint64 pid = g_ascii_strtoll (id, NULL, 10);

  return pid > 0 && pid <= G_MAXINT && (kill ((pid_t) pid, 0) == 0 || errno == EPERM);
}

static gboolean
write_copy (Window *self, GError **error)
{
  g_autofree char *folder = recovery_folder ();
  GFile *file = document_get_file (self->document);
  g_autofree char *origin = file != NULL ? g_file_get_path (file) : NULL;

  return recovery_write (folder, self->recovery_id, document_get_project (self->document), origin, error);
}

gboolean
window_keep_recovery (Window *self)
{
  g_autoptr (GError) error = NULL;

  if (!document_is_modified (self->document)) {
    g_autofree char *folder = recovery_folder ();

    recovery_discard (folder, self->recovery_id); /* what was undone is no work to take up */
    return TRUE;
  }
  if (write_copy (self, &error))
    return TRUE;
  window_tell (self, error->message, TRUE);
  return FALSE;
}

static gboolean
on_recovery (gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);

  if (document_in_gesture (self->document))
    return G_SOURCE_CONTINUE;
  self->recovery_source = 0;
  self->recovery_failed = !window_keep_recovery (self); /* said once; the next save begins anew */
  return G_SOURCE_REMOVE;
}

void
window_start_recovery (Window *self)
{
  if (self->recovery_source == 0 && !self->recovery_failed)
    self->recovery_source = g_timeout_add_seconds (RECOVERY_SECONDS, on_recovery, self);
}

void
window_stop_recovery (Window *self)
{
  g_autofree char *folder = recovery_folder ();

  g_clear_handle_id (&self->recovery_source, g_source_remove);
  self->recovery_failed = FALSE;
  recovery_discard (folder, self->recovery_id);
}

void
window_recover (Window *window, Project *project, const char *origin)
{
  g_autofree char *sentence =
      origin != NULL
          ? g_strdup_printf (
                _ ("This is unsaved work on %s that was recovered. Save it under a name, or close "
                   "the window to discard it."),
                origin)
          : g_strdup (_ ("This is unsaved work that was recovered. Save it under a name, or close the window "
                         "to discard it."));

  document_reset (window->document, project, NULL);
  document_mark_unsaved (window->document);
  canvas_fit (window->canvas);
  window_tell (window, sentence, FALSE);
}

guint
window_recover_all (Application *application)
{
  g_autofree char *folder = recovery_folder ();
  g_autoptr (GPtrArray) copies = recovery_list (folder);
  guint n = 0;

  for (guint i = 0; i < copies->len; i++) {
    const RecoveryCopy *copy = g_ptr_array_index (copies, i);
    g_autoptr (GFile) file = g_file_new_for_path (copy->path);
    g_autoptr (Project) project = NULL;
    Window *window;

    if (process_runs (copy->id))
      continue;
    project = document_load (file, NULL, NULL);
    if (project == NULL)
      continue; /* left where it is: somebody may mend it by hand */
    window = window_new (application);
    window_recover (window, project, copy->origin);
    gtk_window_present (GTK_WINDOW (window));
    /* The old copy goes only when the window has one of its own. */
    if (write_copy (window, NULL))
      recovery_discard (folder, copy->id);
    n++;
  }
  return n;
}
