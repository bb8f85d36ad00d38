/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "csv.h"

#include <string.h>

static void
csv_record_free (gpointer data)
{
  CsvRecord *record = data;

  g_ptr_array_unref (record->fields);
  g_free (record);
}

/* Reads the quoted field that starts at *at, just behind its quote. */
static gboolean
read_quoted (const char **at, guint *line, GString *field)
{
  const char *p = *at;

  for (; *p != '\0'; p++) {
    if (*p == '\n')
      (*line)++;
    if (*p != '"') {
      g_string_append_c (field, *p);
      continue;
    }
    if (p[1] != '"') {
      *at = p + 1;
      return strchr (",\r\n", p[1]) != NULL; /* the terminating NUL is found as well */
    }
    g_string_append_c (field, '"');
    p++;
  }
  return FALSE;
}

static gboolean
read_field (const char **at, guint *line, GString *field)
{
  g_string_truncate (field, 0);
  if (**at == '"') {
    (*at)++;
    return read_quoted (at, line, field);
  }
  size_t length = strcspn (*at, ",\r\n");
  g_string_append_len (field, *at, (gssize) length);
  *at += length;
  return TRUE;
}

static gboolean
read_record (const char **at, guint *line, CsvRecord *record)
{
  g_autoptr (GString) field = g_string_new (NULL);

  record->line = *line;
  for (;;) {
    if (!read_field (at, line, field))
      return FALSE;
    g_ptr_array_add (record->fields, g_strdup (field->str));
    if (**at != ',')
      break;
    (*at)++;
  }
  if (**at == '\r')
    (*at)++;
  if (**at == '\n') {
    (*at)++;
    (*line)++;
  }
  return TRUE;
}

gboolean
csv_parse (const char *text, GPtrArray **ret_records, guint *ret_line)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (csv_record_free);
  guint line = 1;

  if (g_str_has_prefix (text, "\xef\xbb\xbf"))
    text += 3;
  while (*text != '\0') {
    if (*text == '\r' || *text == '\n') {
      line += *text == '\n';
      text++;
      continue;
    }
    CsvRecord *record = g_new0 (CsvRecord, 1);
    record->fields = g_ptr_array_new_with_free_func (g_free);
    g_ptr_array_add (records, record);
    if (!read_record (&text, &line, record)) {
      *ret_line = record->line;
      return FALSE;
    }
  }
  *ret_records = g_steal_pointer (&records);
  return TRUE;
}
