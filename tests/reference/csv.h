/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Comma-separated values after RFC 4180: quoted fields may hold commas, doubled quotes and line ends. */

#include <glib.h>

typedef struct {
  guint line;        /* of the file, counted from 1, where the record starts */
  GPtrArray *fields; /* char *, owned */
} CsvRecord;

/**
 * csv_parse:
 * @text: the whole file, UTF-8, terminated by NUL; a byte order mark at its head is skipped
 * @ret_records: (out): CsvRecord *, owned; an empty line is no record
 * @ret_line: (out): where reading stopped, on failure
 * Returns: FALSE for an unclosed quote or for text after a closing quote
 */
gboolean csv_parse (const char *text, GPtrArray **ret_records, guint *ret_line);
