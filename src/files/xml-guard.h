/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Reads XML that a stranger may have written. Only UTF-8, no document type declaration and so no entities, no network,
 * no file beside the one given, and the limits of files/limits.h, kept while parsing. */
#pragma once

#include <glib.h>
#include <libxml/tree.h>

#include "files/files-error.h"

/* Makes the XML library ready, once, however many threads ask first: its own start is not safe against that. Whoever
 * calls the library by another way than this header asks for it first. */
void xml_guard_start (void);

/**
 * xml_guard_parse:
 * @bytes: the content of the file
 * @name: how sentences name the file
 * @error: FILES_ERROR_NOT_DOWNCOMER, _MALFORMED, _UNSAFE or _TOO_LARGE
 *
 * Returns: (transfer full): the document with its root, or NULL; free with xmlFreeDoc
 */
xmlDoc *xml_guard_parse (GBytes *bytes, const char *name, GError **error);

/* Value of an attribute that is in no namespace, or NULL. Free with g_free. */
char *xml_guard_attribute (const xmlNode *element, const char *attribute);

/* The first attribute of an element that is not in `allowed` (ended by NULL), or NULL. */
const char *xml_guard_stray_attribute (const xmlNode *element, const char *const *allowed);

/* Next element of a list of siblings from `node` on. `ret_stray` is set to the first node in between that is neither
 * white space nor a comment, and left alone where there is none. */
xmlNode *xml_guard_element (xmlNode *node, xmlNode **ret_stray);

/* Line of an element, or of the first letter of a text. */
long xml_guard_line (const xmlNode *node);

/* Text of an element that holds nothing else, or NULL where it holds elements. Free with g_free. */
char *xml_guard_text (xmlNode *element);

/* True when the text has only characters that XML 1.0 can hold. */
gboolean xml_guard_can_hold (const char *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (xmlDoc, xmlFreeDoc)
