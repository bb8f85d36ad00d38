/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A writer of JSON (RFC 8259) with the numbers of this program: the shortest decimal that reads back the same, and null
 * for what is not known. Commas and line breaks are its own business. */
#pragma once

#include <glib.h>

typedef struct {
  GString *text;
  unsigned depth;
  gboolean first; /* nothing stands yet in the innermost object or array */
} Json;

Json json_begin (void);

/* `name` is NULL inside an array and at the top. */
void json_open_object (Json *json, const char *name);
void json_close_object (Json *json);
void json_open_array (Json *json, const char *name);
void json_close_array (Json *json);
void json_number (Json *json, const char *name, double value);
void json_string (Json *json, const char *name, const char *value);
void json_boolean (Json *json, const char *name, gboolean value);

/* The text with a last line break; frees the writer. */
char *json_end (Json *json);
