/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What can be wrong with a file, as GError: a code for the program, and one sentence that names the file, the line,
 * the part and the field for the person. */
#pragma once

#include <glib.h>

#include "design/draft.h"

#define FILES_ERROR (files_error_quark ())

typedef enum {
  FILES_ERROR_UNREADABLE,    /* missing, a folder, no permission, a failing disk */
  FILES_ERROR_UNWRITABLE,    /* could not be saved; what was there before is untouched */
  FILES_ERROR_NOT_DOWNCOMER, /* not XML at all, or another kind of document */
  FILES_ERROR_NEWER_VERSION, /* made by a newer version of the program */
  FILES_ERROR_MALFORMED,     /* broken XML */
  FILES_ERROR_UNSAFE,        /* a document type declaration, which could carry entities */
  FILES_ERROR_TOO_LARGE,     /* over a limit of files/limits.h */
  FILES_ERROR_BAD_STRUCTURE, /* an element, attribute or part that is missing, unknown or twice there */
  FILES_ERROR_BAD_VALUE,     /* a value that its field does not take */
  FILES_ERROR_AMBIGUOUS      /* text that can be read in two ways */
} FilesError;

GQuark files_error_quark (void);

/* Sets an error whose sentence is preceded by the file's name, and by its line where `line` is above 0.
 * Returns FALSE, so that a failing function can return it. */
gboolean files_error_set (GError **error, FilesError code, const char *name, long line, const char *format,
                          ...) G_GNUC_PRINTF (5, 6);

/* A refusal of the design layer as one sentence without file and line: part, field, reason and what is allowed.
 * `found` is the text that was refused, or NULL. Free with g_free. */
char *files_problem_sentence (const Problem *problem, const char *found);
