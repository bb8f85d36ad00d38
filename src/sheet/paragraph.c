/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/paragraph.h"

#include <pango/pango.h>
#include <string.h>

/* Rounding of widths that were summed. */
#define SLACK 0.01

static double
width_of (TextEngine *engine, const char *text, double size, bool bold)
{
  double width = 0, height = 0;

  if (text[0] != '\0')
    text_engine_measure (engine, text, size, bold, &width, &height);
  return width;
}

/* Parts of a text between the places where a line may end, with the space behind them; "\n" stands alone. */
static GPtrArray *
split (const char *text)
{
  GPtrArray *parts = g_ptr_array_new_with_free_func (g_free);
  const int n = (int) g_utf8_strlen (text, -1);
  PangoLogAttr *attributes = g_new0 (PangoLogAttr, n + 1);
  const char *start = text, *at = text;

  pango_get_log_attrs (text, (int) strlen (text), -1, pango_language_get_default (), attributes, n + 1);
  for (int i = 0; i < n; i++, at = g_utf8_next_char (at)) {
    if (attributes[i].is_line_break && at > start) {
      g_ptr_array_add (parts, g_strndup (start, (gsize) (at - start)));
      start = at;
    }
    if (*at == '\n') {
      if (at > start)
        g_ptr_array_add (parts, g_strndup (start, (gsize) (at - start)));
      g_ptr_array_add (parts, g_strdup ("\n"));
      start = at + 1;
    }
  }
  if (*start != '\0')
    g_ptr_array_add (parts, g_strdup (start));
  g_free (attributes);
  return parts;
}

static void
end_line (GPtrArray *lines, GString *line)
{
  g_ptr_array_add (lines, g_strchomp (g_strdup (line->str)));
  g_string_truncate (line, 0);
}

/* Longest beginning of a word, of one letter at least, that fits. */
static gsize
fitting_bytes (TextEngine *engine, const char *word, double width, double size, bool bold)
{
  gsize bytes = (gsize) (g_utf8_next_char (word) - word);

  while (word[bytes] != '\0') {
    gsize next = bytes + (gsize) (g_utf8_next_char (word + bytes) - (word + bytes));
    g_autofree char *head = g_strndup (word, next);

    if (width_of (engine, head, size, bold) > width + SLACK)
      break;
    bytes = next;
  }
  return bytes;
}

/* Width of a part without the space at its end. Words come again and again, so they are measured one by one: the engine
 * keeps them, and kerning does not reach over a space. */
static double
bare_width (TextEngine *engine, const char *part, double size, bool bold)
{
  g_autofree char *bare = g_strchomp (g_strdup (part));

  return width_of (engine, bare, size, bold);
}

GPtrArray *
paragraph_break (TextEngine *engine, const char *text, double width, double size, bool bold)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) parts = split (text);
  g_autoptr (GString) line = g_string_new (NULL);
  double used = 0; /* of the line, with the space at its end */

  for (unsigned i = 0; i < parts->len; i++) {
    const char *part = g_ptr_array_index (parts, i);

    double bare;

    if (part[0] == '\n') {
      end_line (lines, line);
      continue;
    }
    bare = bare_width (engine, part, size, bold);
    if (line->len > 0 && used + bare > width + SLACK)
      end_line (lines, line);
    used = line->len > 0 ? used : 0;
    while (line->len == 0 && bare > width + SLACK) {
      gsize bytes = fitting_bytes (engine, part, width, size, bold);

      if (part[bytes] == '\0')
        break;
      g_string_append_len (line, part, (gssize) bytes);
      end_line (lines, line);
      part += bytes;
      bare = bare_width (engine, part, size, bold);
    }
    g_string_append (line, part);
    used += width_of (engine, part, size, bold);
  }
  if (line->len > 0 || lines->len == 0)
    end_line (lines, line);
  return lines;
}

char *
paragraph_cut (TextEngine *engine, const char *text, double width, double size, bool bold)
{
  double dots = width_of (engine, "…", size, bold);
  g_autofree char *head = NULL;

  if (width_of (engine, text, size, bold) <= width + SLACK)
    return g_strdup (text);
  head = g_strndup (text, fitting_bytes (engine, text, MAX (width - dots, 0), size, bold));
  return g_strconcat (g_strchomp (head), "…", NULL);
}

double
paragraph_natural (TextEngine *engine, const char *text, double size, bool bold)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  double widest = 0;

  for (unsigned i = 0; lines[i] != NULL; i++)
    widest = MAX (widest, width_of (engine, lines[i], size, bold));
  return widest;
}

double
paragraph_least (TextEngine *engine, const char *text, double size, bool bold)
{
  g_autoptr (GPtrArray) parts = split (text);
  double widest = 0;

  for (unsigned i = 0; i < parts->len; i++)
    widest = MAX (widest, bare_width (engine, g_ptr_array_index (parts, i), size, bold));
  return widest;
}
