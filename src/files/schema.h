/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The RELAX NG schema of the document: written from the field table, shipped as resources/downcomer.rng, and the last
 * gate of every loaded document. */
#pragma once

#include <libxml/tree.h>

#include "files/files-error.h"

/* The schema that the field table asks for, as UTF-8 text. Free with g_free. */
char *schema_write (void);

/**
 * schema_check:
 * @name: how sentences name the document
 * @error: FILES_ERROR_BAD_STRUCTURE with the first element that the shipped schema refuses
 *
 * Safe to call from several threads; the schema is compiled at the first call.
 */
gboolean schema_check (const xmlDoc *document, const char *name, GError **error);
