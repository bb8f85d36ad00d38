/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/document.h"

#include <glib/gi18n-lib.h>

#include "files/atomic-save.h"
#include "files/document-private.h"
#include "files/limits.h"
#include "files/schema.h"
#include "files/xml-guard.h"

Project *
document_from_bytes (GBytes *bytes, const char *name, GError **error)
{
  g_autoptr (xmlDoc) tree = xml_guard_parse (bytes, name, error);

  if (tree == NULL)
    return NULL;
  g_autoptr (Project) project = document_read (tree, name, error);
  if (project == NULL || !schema_check (tree, name, error))
    return NULL;
  return g_steal_pointer (&project);
}

/* True when the error says that the user cancelled, which is not a fault of the file. */
static gboolean
was_cancelled (const GError *error)
{
  return g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static gboolean
unreadable (GError *cause, const char *name, GError **error)
{
  if (was_cancelled (cause)) {
    g_propagate_error (error, cause);
    return FALSE;
  }
  files_error_set (error, FILES_ERROR_UNREADABLE, name, 0,
                   /* Translators: the system's own words for the cause */
                   _ ("the file cannot be read (%s)."), cause->message);
  g_error_free (cause);
  return FALSE;
}

/* Refuses what would never end, or is no file at all. */
static gboolean
check_kind (GFile *file, const char *name, GCancellable *cancellable, GError **error)
{
  GError *cause = NULL;
  g_autoptr (GFileInfo) info =
      g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_TYPE "," G_FILE_ATTRIBUTE_STANDARD_SIZE,
                         G_FILE_QUERY_INFO_NONE, cancellable, &cause);
  if (info == NULL)
    return unreadable (cause, name, error);
  GFileType type = g_file_info_get_file_type (info);
  if (type == G_FILE_TYPE_DIRECTORY)
    return files_error_set (error, FILES_ERROR_UNREADABLE, name, 0, _ ("this is a folder, not a document."));
  if (type == G_FILE_TYPE_SPECIAL)
    return files_error_set (error, FILES_ERROR_UNREADABLE, name, 0, _ ("this is a device, not a document."));
  if (g_file_info_get_size (info) > (goffset) FILES_MAX_BYTES)
    return files_error_set (error, FILES_ERROR_TOO_LARGE, name, 0,
                            _ ("the file is larger than %u MB, more than any design needs."),
                            FILES_MAX_BYTES / 1024 / 1024);
  return TRUE;
}

/* At most one byte over the limit, however the file grows meanwhile. */
static GBytes *
read_bounded (GFile *file, const char *name, GCancellable *cancellable, GError **error)
{
  GError *cause = NULL;
  g_autoptr (GFileInputStream) stream = g_file_read (file, cancellable, &cause);
  g_autoptr (GByteArray) content = g_byte_array_new ();

  if (stream == NULL) {
    unreadable (cause, name, error);
    return NULL;
  }
  while (content->len <= FILES_MAX_BYTES) {
    g_autoptr (GBytes) piece =
        g_input_stream_read_bytes (G_INPUT_STREAM (stream), 65536, cancellable, &cause);
    if (piece == NULL) {
      unreadable (cause, name, error);
      return NULL;
    }
    gsize size = 0;
    gconstpointer data = g_bytes_get_data (piece, &size);
    if (size == 0)
      break;
    g_byte_array_append (content, data, (guint) size);
  }
  return g_byte_array_free_to_bytes (g_steal_pointer (&content));
}

Project *
document_load (GFile *file, GCancellable *cancellable, GError **error)
{
  g_autofree char *name = g_file_get_parse_name (file);

  if (!check_kind (file, name, cancellable, error))
    return NULL;
  g_autoptr (GBytes) bytes = read_bounded (file, name, cancellable, error);
  if (bytes == NULL)
    return NULL;
  return document_from_bytes (bytes, name, error);
}

/* A file without a local path is replaced by GIO, which writes beside it where the place allows that. */
static gboolean
save_elsewhere (GFile *file, const char *name, GBytes *bytes, GCancellable *cancellable, GError **error)
{
  GError *cause = NULL;
  gsize size = 0;
  const char *data = g_bytes_get_data (bytes, &size);

  if (g_file_replace_contents (file, data, size, NULL, FALSE, G_FILE_CREATE_NONE, NULL, cancellable, &cause))
    return TRUE;
  if (was_cancelled (cause)) {
    g_propagate_error (error, cause);
    return FALSE;
  }
  files_error_set (error, FILES_ERROR_UNWRITABLE, name, 0,
                   _ ("the document could not be saved (%s); save it in another place."), cause->message);
  g_error_free (cause);
  return FALSE;
}

gboolean
document_save (const Project *project, GFile *file, GCancellable *cancellable, GError **error)
{
  g_autofree char *name = g_file_get_parse_name (file);
  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GBytes) bytes = document_to_bytes (project, name, error);

  if (bytes == NULL)
    return FALSE;
  if (path == NULL)
    return save_elsewhere (file, name, bytes, cancellable, error);
  return atomic_save (path, bytes, NULL, cancellable, error);
}
