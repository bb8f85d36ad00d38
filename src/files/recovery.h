/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Recovery copies: unsaved work kept in a folder of the program's own, to be offered after a crash. A copy is a document
 * `<id>.downcomer`, with a small key file `<id>.origin` that says which file it belongs to. */
#pragma once

#include <gio/gio.h>

#include "design/project.h"
#include "files/files-error.h"

typedef struct {
  char *id;         /* name of the copy: letters, digits and hyphens */
  char *path;       /* of the copy, to be loaded with document_load() */
  char *origin;     /* path of the file that was worked on, or NULL for one never saved */
  GDateTime *saved; /* when the copy was made */
} RecoveryCopy;

void recovery_copy_free (RecoveryCopy *copy);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RecoveryCopy, recovery_copy_free)

/**
 * recovery_write:
 * @folder: made where it is missing, for the user alone; the program gives one under g_get_user_state_dir()
 * @id: names the copy, 1 to 64 letters, digits and hyphens; an earlier copy of the same name is replaced
 * @origin: path of the file that is worked on, or NULL
 * @error: FILES_ERROR_UNWRITABLE, or as document_to_bytes()
 */
gboolean recovery_write (const char *folder, const char *id, const Project *project, const char *origin,
                         GError **error);

/**
 * recovery_list:
 * Returns: (transfer full) (element-type RecoveryCopy): the copies in a folder, newest first; empty where there is none
 */
GPtrArray *recovery_list (const char *folder);

/* Removes a copy; it is no error when there is none. */
void recovery_discard (const char *folder, const char *id);
