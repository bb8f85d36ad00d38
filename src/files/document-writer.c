/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include <glib/gi18n-lib.h>
#include <libxml/xmlwriter.h>
#include <string.h>

#include "design/path.h"
#include "files/document-private.h"
#include "files/limits.h"
#include "files/xml-guard.h"

typedef struct {
  xmlTextWriter *xml;
  const char *name;
  guint elements;
  gboolean failed; /* the library refused a call: out of memory */
  GError **error;
} Writer;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (xmlTextWriter, xmlFreeTextWriter)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (xmlBuffer, xmlBufferFree)

static void
note (Writer *writer, int result)
{
  if (result < 0)
    writer->failed = TRUE;
}

static void
start (Writer *writer, const char *element)
{
  writer->elements++;
  note (writer, xmlTextWriterStartElement (writer->xml, (const xmlChar *) element));
}

static void
attribute (Writer *writer, const char *name, const char *value)
{
  if (value != NULL)
    note (writer, xmlTextWriterWriteAttribute (writer->xml, (const xmlChar *) name, (const xmlChar *) value));
}

static void
end (Writer *writer)
{
  note (writer, xmlTextWriterEndElement (writer->xml));
}

static gboolean
write_field (Writer *writer, const Design *design, const Part *part, FieldId field)
{
  const char *word = field_info (field)->name;
  g_autofree char *text = path_value_text (design, part, field);

  if (text == NULL || !xml_guard_can_hold (text))
    return files_error_set (writer->error, FILES_ERROR_BAD_VALUE, writer->name, 0,
                            _ ("“%s.%s” has characters that a document cannot hold; type it again."),
                            part_key (part), word);
  start (writer, word);
  note (writer, xmlTextWriterWriteString (writer->xml, (const xmlChar *) text));
  end (writer);
  return TRUE;
}

static gboolean
check_label (Writer *writer, const char *label, const char *key)
{
  if (label == NULL || (xml_guard_can_hold (label) && strlen (label) <= MAX_TEXT_BYTES))
    return TRUE;
  return files_error_set (
      writer->error, FILES_ERROR_BAD_VALUE, writer->name, 0,
      _ ("the label of “%s” is too long or has characters that a document cannot hold; type it "
         "again."),
      key);
}

static gboolean
write_part (Writer *writer, const Design *design, const Part *part)
{
  PartKind kind = part_kind (part);
  FieldId first = field_first (kind);
  gboolean fine = check_label (writer, part_label (part), part_key (part));

  start (writer, part_kind_word (kind));
  attribute (writer, "key", part_key (part));
  attribute (writer, "label", part_label (part));
  attribute (writer, "of", part_owner (part));
  for (size_t i = 0; fine && i < field_count (kind); i++)
    if (part_is_given (part, first + (FieldId) i))
      fine = write_field (writer, design, part, first + (FieldId) i);
  end (writer);
  return fine;
}

static gboolean
write_option (Writer *writer, const Project *project, unsigned option)
{
  const Design *design = project_design (project, option);
  const char *key = project_option_key (project, option);
  gboolean fine = check_label (writer, project_option_label (project, option), key);

  start (writer, "option");
  attribute (writer, "key", key);
  attribute (writer, "label", project_option_label (project, option));
  for (unsigned i = 0; fine && i < design_n_parts (design); i++)
    fine = write_part (writer, design, design_part (design, i));
  end (writer);
  return fine;
}

static gboolean
write_project (Writer *writer, const Project *project)
{
  gboolean fine = TRUE;

  note (writer, xmlTextWriterSetIndent (writer->xml, 1));
  note (writer, xmlTextWriterSetIndentString (writer->xml, (const xmlChar *) "  "));
  note (writer, xmlTextWriterStartDocument (writer->xml, NULL, "UTF-8", NULL));
  start (writer, "project");
  attribute (writer, "xmlns", DOCUMENT_NAMESPACE);
  attribute (writer, "version", DOCUMENT_VERSION);
  attribute (writer, "active", project_option_key (project, project_active (project)));
  for (unsigned i = 0; fine && i < project_n_options (project); i++)
    fine = write_option (writer, project, i);
  note (writer, xmlTextWriterEndDocument (writer->xml));
  note (writer, xmlTextWriterFlush (writer->xml));
  return fine;
}

GBytes *
document_to_bytes (const Project *project, const char *name, GError **error)
{
  xml_guard_start ();
  g_autoptr (xmlBuffer) buffer = xmlBufferCreate ();
  g_autoptr (xmlTextWriter) xml = buffer != NULL ? xmlNewTextWriterMemory (buffer, 0) : NULL;
  Writer writer = {.xml = xml, .name = name, .error = error};

  if (xml != NULL && !write_project (&writer, project))
    return NULL;
  if (xml == NULL || writer.failed) {
    files_error_set (error, FILES_ERROR_UNWRITABLE, name, 0,
                     _ ("there is not enough memory to save the document."));
    return NULL;
  }
  if (writer.elements > FILES_MAX_ELEMENTS || (guint) xmlBufferLength (buffer) > FILES_MAX_BYTES) {
    files_error_set (error, FILES_ERROR_TOO_LARGE, name, 0,
                     _ ("the project has grown too large for one document; save some options on their own."));
    return NULL;
  }
  return g_bytes_new (xmlBufferContent (buffer), (gsize) xmlBufferLength (buffer));
}
