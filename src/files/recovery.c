/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/recovery.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "files/atomic-save.h"
#include "files/document.h"

#define ORIGIN_SUFFIX ".origin"
#define GROUP         "Recovery"
#define MAX_ID        64

void
recovery_copy_free (RecoveryCopy *copy)
{
  if (copy == NULL)
    return;
  g_free (copy->id);
  g_free (copy->path);
  g_free (copy->origin);
  g_clear_pointer (&copy->saved, g_date_time_unref);
  g_free (copy);
}

static gboolean
valid_id (const char *id)
{
  gsize length = strlen (id);

  for (gsize i = 0; i < length; i++)
    if (!g_ascii_isalnum (id[i]) && id[i] != '-')
      return FALSE;
  return length > 0 && length <= MAX_ID;
}

static char *
path_in (const char *folder, const char *id, const char *suffix)
{
  g_autofree char *leaf = g_strconcat (id, suffix, NULL);
  return g_build_filename (folder, leaf, NULL);
}

/* The note is written before the document, so that a document in the folder always has its note. */
static gboolean
write_origin (const char *folder, const char *id, const char *origin, GError **error)
{
  g_autoptr (GKeyFile) note = g_key_file_new ();
  g_autofree char *path = path_in (folder, id, ORIGIN_SUFFIX);
  gsize size = 0;

  if (origin == NULL) {
    (void) g_unlink (path);
    return TRUE;
  }
  g_autofree char *uri =
      g_filename_to_uri (origin, NULL, NULL); /* a path need not be UTF-8; a URI always is */
  g_key_file_set_string (note, GROUP, "Origin", uri != NULL ? uri : "");
  char *text = g_key_file_to_data (note, &size, NULL);
  g_autoptr (GBytes) bytes = g_bytes_new_take (text, size);
  return atomic_save (path, bytes, NULL, NULL, error);
}

gboolean
recovery_write (const char *folder, const char *id, const Project *project, const char *origin,
                GError **error)
{
  g_return_val_if_fail (valid_id (id), FALSE);
  g_autofree char *path = path_in (folder, id, DOCUMENT_SUFFIX);
  g_autoptr (GBytes) bytes = document_to_bytes (project, path, error);

  if (bytes == NULL)
    return FALSE;
  if (g_mkdir_with_parents (folder, 0700) != 0)
    return files_error_set (error, FILES_ERROR_UNWRITABLE, folder, 0,
                            _ ("the folder for recovery copies could not be made (%s)."), g_strerror (errno));
  return write_origin (folder, id, origin, error) && atomic_save (path, bytes, NULL, NULL, error);
}

static char *
read_origin (const char *folder, const char *id)
{
  g_autoptr (GKeyFile) note = g_key_file_new ();
  g_autofree char *path = path_in (folder, id, ORIGIN_SUFFIX);

  if (!g_key_file_load_from_file (note, path, G_KEY_FILE_NONE, NULL))
    return NULL;
  g_autofree char *uri = g_key_file_get_string (note, GROUP, "Origin", NULL);
  return uri != NULL ? g_filename_from_uri (uri, NULL, NULL) : NULL;
}

static RecoveryCopy *
copy_at (const char *folder, const char *leaf)
{
  gsize stem = strlen (leaf) - MIN (strlen (leaf), strlen (DOCUMENT_SUFFIX));
  g_autofree char *id = g_strndup (leaf, stem);
  g_autofree char *path = g_build_filename (folder, leaf, NULL);
  GStatBuf status;

  if (!g_str_has_suffix (leaf, DOCUMENT_SUFFIX) || !valid_id (id) || g_stat (path, &status) != 0)
    return NULL;
  RecoveryCopy *copy = g_new0 (RecoveryCopy, 1);
  copy->origin = read_origin (folder, id);
  copy->saved = g_date_time_new_from_unix_utc (status.st_mtime);
  copy->id = g_steal_pointer (&id);
  copy->path = g_steal_pointer (&path);
  return copy;
}

static gint
newest_first (gconstpointer a, gconstpointer b)
{
  const RecoveryCopy *const *first = a;
  const RecoveryCopy *const *second = b;
  gint order = g_date_time_compare ((*second)->saved, (*first)->saved);

  return order != 0 ? order : strcmp ((*first)->id, (*second)->id);
}

GPtrArray *
recovery_list (const char *folder)
{
  GPtrArray *copies = g_ptr_array_new_with_free_func ((GDestroyNotify) recovery_copy_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *leaf = NULL;

  while (dir != NULL && (leaf = g_dir_read_name (dir)) != NULL) {
    RecoveryCopy *copy = copy_at (folder, leaf);
    if (copy != NULL)
      g_ptr_array_add (copies, copy);
  }
  g_ptr_array_sort (copies, newest_first);
  return copies;
}

void
recovery_discard (const char *folder, const char *id)
{
  g_return_if_fail (valid_id (id));
  g_autofree char *document = path_in (folder, id, DOCUMENT_SUFFIX);
  g_autofree char *note = path_in (folder, id, ORIGIN_SUFFIX);

  (void) g_unlink (document);
  (void) g_unlink (note);
}
