/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Saves a file in one step: a reader sees the old content or the new one, never a part, also after a power cut.
 * The content goes to a temporary file in the same folder, is flushed to the disk and takes the place of the old one. */
#pragma once

#include <gio/gio.h>

#include "files/files-error.h"

/* What a caller may put around the saving. Tests use it to make the disk fail. */
typedef struct {
  /* Wraps the stream to the temporary file: returns a new reference that takes what is written. NULL for none. */
  GOutputStream *(*wrap) (GOutputStream *stream, gpointer data);
  gpointer data;
} AtomicHooks;

/**
 * atomic_save:
 * @path: where to; a symbolic link is followed, so that the link stays and its target is saved
 * @bytes: the content
 * @hooks: or NULL
 * @error: FILES_ERROR_UNWRITABLE, or G_IO_ERROR_CANCELLED
 *
 * Keeps the permissions (and, where it may, owner and group) of an existing file; a new one gets those of the user's
 * mask. A write-protected file is not replaced. What is not a regular file (a device, a pipe) is written to as it stands.
 * Returns: TRUE when the content is safe on the disk under @path; else the old content is, and nothing else is left.
 */
gboolean atomic_save (const char *path, GBytes *bytes, const AtomicHooks *hooks, GCancellable *cancellable,
                      GError **error);
