/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "cli/json.h"

#include <math.h>

#include "units/format.h"

Json
json_begin (void)
{
  return (Json){.text = g_string_new (NULL), .first = TRUE};
}

static void
append_quoted (GString *text, const char *value)
{
  g_string_append_c (text, '"');
  for (const char *c = value; *c != '\0'; c++)
    if (*c == '"' || *c == '\\')
      g_string_append_printf (text, "\\%c", *c);
    else if ((unsigned char) *c < 0x20)
      g_string_append_printf (text, "\\u%04x", (unsigned) (unsigned char) *c);
    else
      g_string_append_c (text, *c);
  g_string_append_c (text, '"');
}

static void
new_line (Json *json)
{
  g_string_append_c (json->text, '\n');
  for (unsigned i = 0; i < json->depth; i++)
    g_string_append (json->text, "  ");
}

static void
begin_value (Json *json, const char *name)
{
  if (!json->first)
    g_string_append_c (json->text, ',');
  if (json->depth > 0)
    new_line (json);
  if (name != NULL) {
    append_quoted (json->text, name);
    g_string_append (json->text, ": ");
  }
  json->first = FALSE;
}

static void
open_bracket (Json *json, const char *name, char bracket)
{
  begin_value (json, name);
  g_string_append_c (json->text, bracket);
  json->depth++;
  json->first = TRUE;
}

static void
close_bracket (Json *json, char bracket)
{
  json->depth--;
  if (!json->first)
    new_line (json);
  g_string_append_c (json->text, bracket);
  json->first = FALSE;
}

void
json_open_object (Json *json, const char *name)
{
  open_bracket (json, name, '{');
}

void
json_close_object (Json *json)
{
  close_bracket (json, '}');
}

void
json_open_array (Json *json, const char *name)
{
  open_bracket (json, name, '[');
}

void
json_close_array (Json *json)
{
  close_bracket (json, ']');
}

void
json_number (Json *json, const char *name, double value)
{
  char buffer[UNITS_SHORTEST_SIZE];

  begin_value (json, name);
  g_string_append (json->text, isfinite (value) ? units_shortest (value, buffer) : "null");
}

void
json_string (Json *json, const char *name, const char *value)
{
  begin_value (json, name);
  if (value != NULL)
    append_quoted (json->text, value);
  else
    g_string_append (json->text, "null");
}

void
json_boolean (Json *json, const char *name, gboolean value)
{
  begin_value (json, name);
  g_string_append (json->text, value ? "true" : "false");
}

char *
json_end (Json *json)
{
  g_string_append_c (json->text, '\n');
  return g_string_free (g_steal_pointer (&json->text), FALSE);
}
