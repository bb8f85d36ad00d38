/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The document: a project as XML. Namespace urn:downcomer:1,
 *   <project version="1" active="option-1"> <option key label> parts in the order of the design
 * A part is an element named by the word of its kind with its key, its label if it has one and its owner as `of`; its
 * given fields are child elements named by their words, in the order of the field table, holding canonical text. A field
 * that is unknown is absent. Saving what was loaded gives the same bytes. Comments are read over and not kept. */
#pragma once

#include <gio/gio.h>

#include "design/project.h"
#include "files/files-error.h"

#define DOCUMENT_NAMESPACE "urn:downcomer:1"
#define DOCUMENT_SUFFIX    ".downcomer"
#define DOCUMENT_MIME_TYPE "application/vnd.downcomer+xml"

/**
 * document_from_bytes:
 * @name: how sentences name the document, usually its path
 * @error: FILES_ERROR, a sentence with file, line, part and field
 *
 * Reads a document whole or not at all. The bytes may come from a stranger: see files/xml-guard.h.
 * Returns: (transfer full): the project, or NULL
 */
Project *document_from_bytes (GBytes *bytes, const char *name, GError **error);

/**
 * document_to_bytes:
 * @name: how sentences name the document
 * @error: FILES_ERROR_TOO_LARGE or _BAD_VALUE for a project that could not be read again
 *
 * Returns: (transfer full): UTF-8, the same in every locale, or NULL
 */
GBytes *document_to_bytes (const Project *project, const char *name, GError **error);

/**
 * document_load:
 * @error: as document_from_bytes(), FILES_ERROR_UNREADABLE, or G_IO_ERROR_CANCELLED
 *
 * Returns: (transfer full): the project in a file, or NULL
 */
Project *document_load (GFile *file, GCancellable *cancellable, GError **error);

/**
 * document_save:
 * @error: as document_to_bytes(), FILES_ERROR_UNWRITABLE, or G_IO_ERROR_CANCELLED
 *
 * Saves in one step (files/atomic-save.h): on failure the file is as it was before.
 * Returns: whether the project is saved
 */
gboolean document_save (const Project *project, GFile *file, GCancellable *cancellable, GError **error);
