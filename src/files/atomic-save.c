/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/atomic-save.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gunixoutputstream.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

/* Symbolic links followed one after another before it is taken for a ring. */
#define MAX_LINKS 32

/* Names tried for the temporary file. */
#define MAX_NAMES 100

static gboolean
unwritable (GError **error, const char *path, const char *cause)
{
  return files_error_set (
      error, FILES_ERROR_UNWRITABLE, path, 0,
      /* Translators: the system's own words for the cause */
      _ ("the file could not be saved (%s), and what was there before is untouched; free some "
         "room or save it in another place."),
      cause);
}

/* What to do depends on the cause: room on the disk helps nobody whose folder is not there. */
static gboolean
unwritable_errno (GError **error, const char *path, int code)
{
  g_autofree char *folder = g_path_get_dirname (path);

  if ((code == ENOENT || code == ENOTDIR) && !g_file_test (folder, G_FILE_TEST_IS_DIR))
    return files_error_set (
        error, FILES_ERROR_UNWRITABLE, path, 0,
        _ ("there is no folder %s to save it in; make that folder or save it in another one."), folder);
  switch (code) {
  case EACCES:
  case EPERM:
  case EROFS:
    return files_error_set (
        error, FILES_ERROR_UNWRITABLE, path, 0,
        _ ("you are not allowed to write it there (%s), and what was there before is untouched; save it in "
           "another place."),
        g_strerror (code));
  case EISDIR:
    return files_error_set (error, FILES_ERROR_UNWRITABLE, path, 0,
                            _ ("that is a folder, not a file; save it under another name."));
  default:
    return unwritable (error, path, g_strerror (code));
  }
}

/* The file at the end of a chain of symbolic links, which need not exist. */
static char *
resolve_links (const char *path, GError **error)
{
  g_autofree char *at = g_strdup (path);

  for (int i = 0; i < MAX_LINKS; i++) {
    g_autofree char *target = g_file_read_link (at, NULL);
    if (target == NULL)
      return g_steal_pointer (&at);
    g_autofree char *folder = g_path_get_dirname (at);
    g_free (at);
    at = g_path_is_absolute (target) ? g_steal_pointer (&target) : g_build_filename (folder, target, NULL);
  }
  unwritable_errno (error, path, ELOOP);
  return NULL;
}

static gboolean
write_stream (int fd, GBytes *bytes, const AtomicHooks *hooks, GCancellable *cancellable, GError **error)
{
  g_autoptr (GOutputStream) plain = g_unix_output_stream_new (fd, FALSE);
  g_autoptr (GOutputStream) stream =
      hooks != NULL && hooks->wrap != NULL ? hooks->wrap (plain, hooks->data) : g_object_ref (plain);
  gsize size = 0;
  gsize written = 0;
  const char *data = g_bytes_get_data (bytes, &size);

  return g_output_stream_write_all (stream, data, size, &written, cancellable, error) &&
         g_output_stream_flush (stream, cancellable, error) &&
         g_output_stream_close (stream, cancellable, error);
}

/* Passes on a cancellation as it is and puts everything else into our own sentence. */
static gboolean
stream_failed (GError *cause, const char *path, GError **error)
{
  if (g_error_matches (cause, G_IO_ERROR, G_IO_ERROR_CANCELLED)) {
    g_propagate_error (error, cause);
    return FALSE;
  }
  unwritable (error, path, cause->message);
  g_error_free (cause);
  return FALSE;
}

/* Opens a new file beside `target`; its name is returned through `ret_name`. */
static int
open_temporary (const char *target, mode_t mode, char **ret_name)
{
  g_autofree char *folder = g_path_get_dirname (target);
  int fd = -1;

  for (int i = 0; i < MAX_NAMES && fd < 0; i++) {
    /* Short and of its own, so that a target whose name is as long as names may be can still be saved. */
    g_autofree char *leaf = g_strdup_printf (".downcomer-%08x", g_random_int ());
    g_autofree char *name = g_build_filename (folder, leaf, NULL);
    fd = g_open (name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, (int) mode);
    if (fd >= 0)
      *ret_name = g_steal_pointer (&name);
    else if (errno != EEXIST)
      break;
  }
  return fd;
}

static void
sync_folder (const char *target)
{
  g_autofree char *folder = g_path_get_dirname (target);
  int fd = g_open (folder, O_RDONLY | O_CLOEXEC, 0);

  /* Some file systems cannot do this for a folder; the file itself is safe by then. */
  if (fd >= 0) {
    (void) fsync (fd);
    (void) close (fd);
  }
}

/* Gives the temporary file the owner and permissions of the file that it replaces. */
static int
take_over (int fd, const struct stat *old)
{
  mode_t mode = old->st_mode & 07777;

  /* Only root may give a file away; where that fails, no one may gain rights by the wrong owner. */
  if (fchown (fd, old->st_uid, old->st_gid) != 0)
    mode &= (mode_t) ~(S_ISUID | S_ISGID);
  return fchmod (fd, mode);
}

static gboolean
fill_and_rename (int fd, const char *temporary, const char *target, const struct stat *old, GBytes *bytes,
                 const AtomicHooks *hooks, GCancellable *cancellable, GError **error)
{
  GError *cause = NULL;
  gboolean fine = write_stream (fd, bytes, hooks, cancellable, &cause);

  if (!fine)
    stream_failed (cause, target, error);
  if (fine && old != NULL && take_over (fd, old) != 0)
    fine = unwritable_errno (error, target, errno);
  if (fine && fsync (fd) != 0)
    fine = unwritable_errno (error, target, errno);
  if (close (fd) != 0 && fine)
    fine = unwritable_errno (error, target, errno);
  if (fine && g_rename (temporary, target) != 0)
    fine = unwritable_errno (error, target, errno);
  return fine;
}

/* A device or a pipe cannot be replaced: writes into it. */
static gboolean
write_through (const char *target, GBytes *bytes, const AtomicHooks *hooks, GCancellable *cancellable,
               GError **error)
{
  GError *cause = NULL;
  int fd = g_open (target, O_WRONLY | O_CLOEXEC, 0);

  if (fd < 0)
    return unwritable_errno (error, target, errno);
  gboolean fine = write_stream (fd, bytes, hooks, cancellable, &cause);
  if (!fine)
    stream_failed (cause, target, error);
  if (close (fd) != 0 && fine)
    fine = unwritable_errno (error, target, errno);
  return fine;
}

gboolean
atomic_save (const char *path, GBytes *bytes, const AtomicHooks *hooks, GCancellable *cancellable,
             GError **error)
{
  g_autofree char *target = NULL;
  g_autofree char *temporary = NULL;
  struct stat old;

  /* Links such as /dev/stdout may lead to what has no name: only the system can follow them. */
  if (stat (path, &old) == 0 && !S_ISREG (old.st_mode) && !S_ISDIR (old.st_mode))
    return write_through (path, bytes, hooks, cancellable, error);
  target = resolve_links (path, error);
  if (target == NULL)
    return FALSE;
  gboolean exists = stat (target, &old) == 0;
  if (exists && S_ISDIR (old.st_mode))
    return unwritable_errno (error, target, EISDIR);
  if (exists && access (target, W_OK) != 0)
    return unwritable_errno (error, target, errno);
  int fd = open_temporary (target, exists ? 0600 : 0666, &temporary);
  if (fd < 0)
    return unwritable_errno (error, target, errno);
  if (!fill_and_rename (fd, temporary, target, exists ? &old : NULL, bytes, hooks, cancellable, error)) {
    (void) g_unlink (temporary);
    return FALSE;
  }
  sync_folder (target);
  return TRUE;
}
