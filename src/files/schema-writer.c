/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include <libxml/xmlwriter.h>

#include "design/draft.h"
#include "files/document-private.h"
#include "files/schema.h"
#include "files/xml-guard.h"
#include "units/format.h"

#define RNG_NAMESPACE   "http://relaxng.org/ns/structure/1.0"
#define DATA_TYPES      "http://www.w3.org/2001/XMLSchema-datatypes"
#define NOTES_NAMESPACE "http://relaxng.org/ns/compatibility/annotations/1.0"

#define KEY_PATTERN    "[a-z]([a-z0-9\\-])*"
#define NUMBER_PATTERN "[+\\-]?([0-9]+(\\.[0-9]*)?|\\.[0-9]+)([eE][+\\-]?[0-9]+)?"
#define POINT_PATTERN  NUMBER_PATTERN ":" NUMBER_PATTERN

static const char heading[] =
    " The Downcomer document, written from the field table of src/design by tests/files/write-schema. ";

static const xmlChar *
xml (const char *text)
{
  return (const xmlChar *) text;
}

static void
start (xmlTextWriter *writer, const char *element)
{
  xmlTextWriterStartElement (writer, xml (element));
}

static void
attribute (xmlTextWriter *writer, const char *name, const char *value)
{
  xmlTextWriterWriteAttribute (writer, xml (name), xml (value));
}

static void
end (xmlTextWriter *writer)
{
  xmlTextWriterEndElement (writer);
}

static void
simple (xmlTextWriter *writer, const char *element, const char *text)
{
  xmlTextWriterWriteElement (writer, xml (element), xml (text));
}

static void
param (xmlTextWriter *writer, const char *name, const char *value)
{
  start (writer, "param");
  attribute (writer, "name", name);
  xmlTextWriterWriteString (writer, xml (value));
  end (writer);
}

static void
param_number (xmlTextWriter *writer, const char *name, double value)
{
  char buffer[UNITS_SHORTEST_SIZE];
  param (writer, name, units_shortest (value, buffer));
}

static void
reference (xmlTextWriter *writer, const char *name)
{
  start (writer, "ref");
  attribute (writer, "name", name);
  end (writer);
}

/* A named piece: text of a pattern and a greatest length. */
static void
define_text (xmlTextWriter *writer, const char *name, const char *pattern, unsigned least, unsigned most)
{
  start (writer, "define");
  attribute (writer, "name", name);
  start (writer, "data");
  attribute (writer, "type", "string");
  if (pattern != NULL)
    param (writer, "pattern", pattern);
  param_number (writer, "minLength", least);
  param_number (writer, "maxLength", most);
  end (writer);
  end (writer);
}

static void
optional_attribute (xmlTextWriter *writer, const char *name, const char *type)
{
  start (writer, "optional");
  start (writer, "attribute");
  attribute (writer, "name", name);
  reference (writer, type);
  end (writer);
  end (writer);
}

static void
required_attribute (xmlTextWriter *writer, const char *name, const char *type)
{
  start (writer, "attribute");
  attribute (writer, "name", name);
  reference (writer, type);
  end (writer);
}

static void
write_number (xmlTextWriter *writer, const FieldInfo *info)
{
  start (writer, "data");
  attribute (writer, "type", "double");
  param (writer, "pattern", NUMBER_PATTERN);
  param_number (writer, "minInclusive", info->min);
  param_number (writer, "maxInclusive", info->max);
  end (writer);
}

static void
write_choices (xmlTextWriter *writer, const FieldInfo *info)
{
  start (writer, "choice");
  for (const FieldChoice *choice = info->choices; choice->word != NULL; choice++)
    simple (writer, "value", choice->word);
  end (writer);
}

static void
write_type (xmlTextWriter *writer, const FieldInfo *info)
{
  static const char *const names[N_FIELD_TYPES] = {[FIELD_TEXT] = "text",
                                                   [FIELD_REF] = "key",
                                                   [FIELD_PIPE] = "catalogue-key",
                                                   [FIELD_PART] = "catalogue-key",
                                                   [FIELD_CURVE] = "curve"};

  if (info->type == FIELD_NUMBER)
    write_number (writer, info);
  else if (info->type == FIELD_CHOICE || info->type == FIELD_FLAG)
    write_choices (writer, info);
  else
    reference (writer, names[info->type]);
}

static void
write_field (xmlTextWriter *writer, const FieldInfo *info)
{
  const char *unit = quantity_si_unit (info->quantity)->symbol;
  g_autofree char *note = info->type == FIELD_NUMBER && *unit != '\0'
                              ? g_strdup_printf ("%s [%s]", info->help, unit)
                              : g_strdup (info->help);

  start (writer, "optional");
  start (writer, "element");
  attribute (writer, "name", info->name);
  simple (writer, "a:documentation", note);
  write_type (writer, info);
  end (writer);
  end (writer);
}

static void
write_part (xmlTextWriter *writer, PartKind kind)
{
  start (writer, "define");
  attribute (writer, "name", part_kind_word (kind));
  start (writer, "element");
  attribute (writer, "name", part_kind_word (kind));
  required_attribute (writer, "key", "key");
  optional_attribute (writer, "label", "text");
  if (part_kind_owners (kind) != 0)
    required_attribute (writer, "of", "key");
  start (writer, "interleave");
  for (size_t i = 0; i < field_count (kind); i++)
    write_field (writer, field_info (field_first (kind) + (FieldId) i));
  end (writer);
  end (writer);
  end (writer);
}

static void
write_option (xmlTextWriter *writer)
{
  start (writer, "define");
  attribute (writer, "name", "option");
  start (writer, "element");
  attribute (writer, "name", "option");
  required_attribute (writer, "key", "key");
  optional_attribute (writer, "label", "text");
  start (writer, "zeroOrMore");
  start (writer, "choice");
  for (PartKind kind = 0; kind < N_PART_KINDS; kind++)
    reference (writer, part_kind_word (kind));
  end (writer);
  end (writer);
  end (writer);
  end (writer);
}

static void
write_start (xmlTextWriter *writer)
{
  start (writer, "start");
  start (writer, "element");
  attribute (writer, "name", "project");
  required_attribute (writer, "version", "version");
  required_attribute (writer, "active", "key");
  start (writer, "oneOrMore");
  reference (writer, "option");
  end (writer);
  end (writer);
  end (writer);
}

char *
schema_write (void)
{
  xml_guard_start ();
  xmlBuffer *buffer = xmlBufferCreate ();
  xmlTextWriter *writer = xmlNewTextWriterMemory (buffer, 0);

  xmlTextWriterSetIndent (writer, 1);
  xmlTextWriterSetIndentString (writer, xml ("  "));
  xmlTextWriterStartDocument (writer, NULL, "UTF-8", NULL);
  xmlTextWriterWriteComment (writer, xml (heading));
  start (writer, "grammar");
  attribute (writer, "xmlns", RNG_NAMESPACE);
  attribute (writer, "xmlns:a", NOTES_NAMESPACE);
  attribute (writer, "ns", DOCUMENT_NAMESPACE);
  attribute (writer, "datatypeLibrary", DATA_TYPES);
  write_start (writer);
  write_option (writer);
  for (PartKind kind = 0; kind < N_PART_KINDS; kind++)
    write_part (writer, kind);
  define_text (writer, "version", DOCUMENT_VERSION_PATTERN, 1, 6);
  define_text (writer, "key", KEY_PATTERN, 1, MAX_KEY_BYTES);
  define_text (writer, "text", NULL, 0, MAX_TEXT_BYTES);
  define_text (writer, "catalogue-key", NULL, 1, MAX_TEXT_BYTES);
  define_text (writer, "curve", POINT_PATTERN "([ |]+" POINT_PATTERN ")*", 7, 64 * MAX_CURVE_POINTS);
  end (writer);
  xmlTextWriterEndDocument (writer);
  xmlFreeTextWriter (writer);
  char *text = g_strdup ((const char *) xmlBufferContent (buffer));
  xmlBufferFree (buffer);
  return text;
}
