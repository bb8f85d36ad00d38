/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/schema.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <libxml/relaxng.h>
#include <locale.h>

#include "files/resource-data.h"
#include "files/xml-guard.h"

/* The library reads numbers by sscanf, so this thread must not have a decimal comma while it does. All else of its
 * locale stays: GLib decides once, at the first sentence it is asked for, whether this program is translated at all. */
typedef struct {
  locale_t plain;
  locale_t before;
} PlainNumbers;

static PlainNumbers
plain_numbers_begin (void)
{
  locale_t own = duplocale (uselocale ((locale_t) 0));
  PlainNumbers numbers = {.plain = newlocale (LC_NUMERIC_MASK, "C", own)};

  if (numbers.plain == (locale_t) 0 && own != (locale_t) 0)
    freelocale (own);
  numbers.before = numbers.plain != (locale_t) 0 ? uselocale (numbers.plain) : (locale_t) 0;
  return numbers;
}

static void
plain_numbers_end (PlainNumbers numbers)
{
  if (numbers.plain == (locale_t) 0)
    return;
  uselocale (numbers.before);
  freelocale (numbers.plain);
}

static gpointer
compile (gpointer data)
{
  g_autoptr (GBytes) bytes = resource_data (RESOURCE_SCHEMA);
  gsize size = 0;
  const char *text = g_bytes_get_data (bytes, &size);

  xml_guard_start ();
  xmlRelaxNGParserCtxt *parser = xmlRelaxNGNewMemParserCtxt (text, (int) size);
  xmlRelaxNG *schema = xmlRelaxNGParse (parser);
  xmlRelaxNGFreeParserCtxt (parser);
  g_assert (schema != NULL); /* shipped with the program, and compiled by a test */
  return schema;
}

/* Keeps the first refusal that knows its line, or the first at all. */
static void
keep_first (void *data, xmlError *error)
{
  xmlError *first = data;

  if (first->code == XML_ERR_OK || (first->line <= 0 && error->line > 0))
    xmlCopyError (error, first);
}

gboolean
schema_check (const xmlDoc *document, const char *name, GError **error)
{
  static GOnce once = G_ONCE_INIT;
  PlainNumbers numbers = plain_numbers_begin ();
  xmlRelaxNG *schema = g_once (&once, compile, NULL);
  xmlRelaxNGValidCtxt *context = xmlRelaxNGNewValidCtxt (schema);
  xmlError first = {.code = XML_ERR_OK};

  xmlRelaxNGSetValidStructuredErrors (context, keep_first, &first);
  int result = xmlRelaxNGValidateDoc (context, (xmlDoc *) (gpointer) document);
  xmlRelaxNGFreeValidCtxt (context);
  plain_numbers_end (numbers);
  if (result != 0) {
    g_autofree char *what = g_strdup (first.message != NULL ? first.message : "");
    g_strdelimit (what, "\n", ' ');
    files_error_set (error, FILES_ERROR_BAD_STRUCTURE, name, first.line,
                     /* Translators: the XML library's own words */
                     _ ("the document does not follow its schema (%s); open a copy that was saved earlier."),
                     g_strstrip (what));
  }
  xmlResetError (&first);
  return result == 0;
}
