/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/xml-guard.h"

#include <glib/gi18n-lib.h>
#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

#include "files/limits.h"

typedef enum {
  GUARD_FINE,
  GUARD_DOCTYPE,
  GUARD_DEPTH,
  GUARD_ELEMENTS,
  GUARD_ATTRIBUTES,
  GUARD_NAME
} GuardVerdict;

/* What was met so far; hangs on the parser. */
typedef struct {
  GuardVerdict verdict;
  long line;
  guint depth;
  guint elements;
} Guard;

static void
guard_stop (xmlParserCtxt *parser, GuardVerdict verdict)
{
  Guard *guard = parser->_private;

  if (guard->verdict == GUARD_FINE) {
    guard->verdict = verdict;
    guard->line = parser->input != NULL ? parser->input->line : 0;
  }
  xmlStopParser (parser);
}

/* Called when a document type declaration begins, before its internal subset is looked at. */
static void
on_doctype (void *data, const xmlChar *name, const xmlChar *external_id, const xmlChar *system_id)
{
  guard_stop (data, GUARD_DOCTYPE);
}

static void
on_start (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri, int n_namespaces,
          const xmlChar **namespaces, int n_attributes, int n_defaulted, const xmlChar **attributes)
{
  xmlParserCtxt *parser = data;
  Guard *guard = parser->_private;

  if (guard->verdict != GUARD_FINE)
    return;
  guard->depth++;
  guard->elements++;
  if (guard->depth > FILES_MAX_DEPTH)
    guard_stop (parser, GUARD_DEPTH);
  else if (guard->elements > FILES_MAX_ELEMENTS)
    guard_stop (parser, GUARD_ELEMENTS);
  else if ((guint) n_attributes + (guint) n_namespaces > FILES_MAX_ATTRIBUTES)
    guard_stop (parser, GUARD_ATTRIBUTES);
  else if (strlen ((const char *) name) > FILES_MAX_NAME)
    guard_stop (parser, GUARD_NAME);
  else
    xmlSAX2StartElementNs (data, name, prefix, uri, n_namespaces, namespaces, n_attributes, n_defaulted,
                           attributes);
}

static void
on_end (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri)
{
  xmlParserCtxt *parser = data;
  Guard *guard = parser->_private;

  if (guard->verdict != GUARD_FINE)
    return;
  guard->depth--;
  xmlSAX2EndElementNs (data, name, prefix, uri);
}

/* Refuses what is not text in UTF-8, before the parser guesses at an encoding. */
static gboolean
check_text (const char *data, gsize size, const char *name, GError **error)
{
  if (size > FILES_MAX_BYTES)
    return files_error_set (error, FILES_ERROR_TOO_LARGE, name, 0,
                            _ ("the file is larger than %u MB, more than any design needs."),
                            FILES_MAX_BYTES / 1024 / 1024);
  if (size == 0)
    return files_error_set (error, FILES_ERROR_NOT_DOWNCOMER, name, 0,
                            _ ("the file is empty; open a copy that was saved earlier."));
  if (size >= 2 && (memcmp (data, "\xff\xfe", 2) == 0 || memcmp (data, "\xfe\xff", 2) == 0 ||
                    memcmp (data, "<\0", 2) == 0 || memcmp (data, "\0<", 2) == 0))
    return files_error_set (error, FILES_ERROR_NOT_DOWNCOMER, name, 0,
                            _ ("the file is written in UTF-16 or UTF-32; save it as UTF-8."));
  if (!g_utf8_validate_len (data, size, NULL))
    return files_error_set (
        error, FILES_ERROR_NOT_DOWNCOMER, name, 0,
        _ ("the file is not text in UTF-8, so it is not a Downcomer document or it is damaged."));
  return TRUE;
}

static gboolean
verdict_error (const Guard *guard, const char *name, GError **error)
{
  switch (guard->verdict) {
  case GUARD_FINE:
    return TRUE;
  case GUARD_DOCTYPE:
    return files_error_set (
        error, FILES_ERROR_UNSAFE, name, guard->line,
        _ ("the file has a document type declaration, which could pull in other files; remove it."));
  case GUARD_DEPTH:
    return files_error_set (error, FILES_ERROR_TOO_LARGE, name, guard->line,
                            _ ("elements are nested more than %u deep, which no design is."),
                            FILES_MAX_DEPTH);
  case GUARD_ELEMENTS:
    return files_error_set (error, FILES_ERROR_TOO_LARGE, name, guard->line,
                            _ ("the file has more than %u elements, more than any design needs."),
                            FILES_MAX_ELEMENTS);
  case GUARD_ATTRIBUTES:
    return files_error_set (error, FILES_ERROR_TOO_LARGE, name, guard->line,
                            _ ("an element has more than %u attributes, more than any part has."),
                            FILES_MAX_ATTRIBUTES);
  case GUARD_NAME:
    return files_error_set (error, FILES_ERROR_TOO_LARGE, name, guard->line,
                            _ ("the name of an element is longer than %u bytes."), FILES_MAX_NAME);
  default:
    g_assert_not_reached ();
  }
}

static gboolean
malformed_error (xmlParserCtxt *parser, const char *name, GError **error)
{
  const xmlError *cause = xmlCtxtGetLastError (parser);
  g_autofree char *what = g_strdup (cause != NULL && cause->message != NULL ? cause->message : "");

  g_strdelimit (what, "\n", ' ');
  g_strstrip (what);
  if (cause != NULL && cause->code == XML_ERR_DOCUMENT_EMPTY)
    return files_error_set (
        error, FILES_ERROR_NOT_DOWNCOMER, name, cause->line,
        _ ("the file does not begin like an XML document, so it is not a Downcomer document."));
  return files_error_set (
      error, FILES_ERROR_MALFORMED, name, cause != NULL ? cause->line : 0,
      /* Translators: the XML library's own words for what is broken */
      _ ("the file breaks off or is damaged here (%s); open a copy that was saved earlier."), what);
}

/* Only UTF-8 may be declared: the bytes are UTF-8, so another name would turn them into other letters. */
static gboolean
check_encoding (const xmlDoc *document, const char *name, GError **error)
{
  const char *encoding = (const char *) document->encoding;

  if (encoding == NULL || g_ascii_strcasecmp (encoding, "UTF-8") == 0 ||
      g_ascii_strcasecmp (encoding, "US-ASCII") == 0)
    return TRUE;
  return files_error_set (
      error, FILES_ERROR_NOT_DOWNCOMER, name, 1,
      _ ("the file says that it is written in another encoding than UTF-8; save it as UTF-8."));
}

static gpointer
start_library (gpointer data)
{
  xmlInitParser ();
  return NULL;
}

void
xml_guard_start (void)
{
  static GOnce once = G_ONCE_INIT;

  g_once (&once, start_library, NULL);
}

xmlDoc *
xml_guard_parse (GBytes *bytes, const char *name, GError **error)
{
  gsize size = 0;
  const char *data = g_bytes_get_data (bytes, &size);
  Guard guard = {.verdict = GUARD_FINE};

  if (!check_text (data, size, name, error))
    return NULL;
  xml_guard_start ();
  xmlParserCtxt *parser = xmlNewParserCtxt ();
  if (parser == NULL) {
    files_error_set (error, FILES_ERROR_UNREADABLE, name, 0,
                     _ ("there is not enough memory to read the file."));
    return NULL;
  }
  parser->_private = &guard;
  parser->sax->internalSubset = on_doctype;
  parser->sax->startElementNs = on_start;
  parser->sax->endElementNs = on_end;
  g_autoptr (xmlDoc) document = xmlCtxtReadMemory (parser, data, (int) size, NULL, NULL,
                                                   XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING |
                                                       XML_PARSE_NOCDATA | XML_PARSE_BIG_LINES);
  gboolean fine = FALSE;
  if (guard.verdict != GUARD_FINE)
    verdict_error (&guard, name, error);
  else if (document == NULL || xmlDocGetRootElement (document) == NULL)
    malformed_error (parser, name, error);
  else
    fine = check_encoding (document, name, error);
  /* A stopped parser may leave its half-built tree behind. */
  if (parser->myDoc != NULL && parser->myDoc != document)
    xmlFreeDoc (parser->myDoc);
  parser->myDoc = NULL;
  xmlFreeParserCtxt (parser);
  return fine ? g_steal_pointer (&document) : NULL;
}

char *
xml_guard_attribute (const xmlNode *element, const char *attribute)
{
  xmlChar *value = xmlGetNoNsProp (element, (const xmlChar *) attribute);
  char *copy = g_strdup ((const char *) value);

  xmlFree (value);
  return copy;
}

const char *
xml_guard_stray_attribute (const xmlNode *element, const char *const *allowed)
{
  for (const xmlAttr *attribute = element->properties; attribute != NULL; attribute = attribute->next)
    if (attribute->ns != NULL || !g_strv_contains (allowed, (const char *) attribute->name))
      return (const char *) attribute->name;
  return NULL;
}

xmlNode *
xml_guard_element (xmlNode *node, xmlNode **ret_stray)
{
  for (; node != NULL; node = node->next) {
    if (node->type == XML_ELEMENT_NODE)
      return node;
    if (node->type != XML_COMMENT_NODE && !xmlIsBlankNode (node)) {
      *ret_stray = node;
      return NULL;
    }
  }
  return NULL;
}

long
xml_guard_line (const xmlNode *node)
{
  long line = xmlGetLineNo (node);

  if (node->type != XML_TEXT_NODE)
    return line;
  /* The parser gives a text the line of its end: go back to the first letter that is seen. */
  const char *text = (const char *) node->content;
  for (text += strspn (text, " \t\r\n"); (text = strchr (text, '\n')) != NULL; text++)
    line--;
  return line;
}

char *
xml_guard_text (xmlNode *element)
{
  GString *text = g_string_new (NULL);

  for (const xmlNode *node = element->children; node != NULL; node = node->next) {
    if (node->type == XML_TEXT_NODE || node->type == XML_CDATA_SECTION_NODE)
      g_string_append (text, (const char *) node->content);
    else if (node->type != XML_COMMENT_NODE) {
      g_string_free (text, TRUE);
      return NULL;
    }
  }
  return g_string_free (text, FALSE);
}

gboolean
xml_guard_can_hold (const char *text)
{
  if (!g_utf8_validate (text, -1, NULL))
    return FALSE;
  for (; *text != '\0'; text = g_utf8_next_char (text)) {
    gunichar c = g_utf8_get_char (text);
    if ((c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0xfffe || c == 0xffff)
      return FALSE;
  }
  return TRUE;
}
