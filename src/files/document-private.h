/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What reader, writer and schema of the document share. */
#pragma once

#include <libxml/tree.h>

#include "files/document.h"

/* This program reads the first version only; a later file of the same main version may be read as long as it holds
 * nothing that is unknown here. */
#define DOCUMENT_VERSION         "1"
#define DOCUMENT_VERSION_PATTERN "1(\\.[0-9]{1,4})?"

/* Reads the tree of a document; the bytes were parsed by xml_guard_parse(). */
Project *document_read (const xmlDoc *document, const char *name, GError **error);
