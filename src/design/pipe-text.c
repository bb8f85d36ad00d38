/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/pipe-text.h"

#include <string.h>

#include "design/pipe-series.h"

/* Lower case, without spaces, quotes and unit words, a space between whole and fraction as a hyphen: what keys end in. */
static char *
nominal_text (const char *text)
{
  g_autofree char *lower = g_ascii_strdown (text, -1);
  GString *nominal = g_string_new (NULL);

  for (const char *word = g_strstrip (lower); *word != '\0'; word++) {
    if (*word == '"' || g_str_has_prefix (word, "in") || g_str_has_prefix (word, "mm"))
      break;
    if (*word != ' ')
      g_string_append_c (nominal, *word);
    else if (g_ascii_isdigit (word[1]))
      g_string_append_c (nominal, '-');
  }
  return g_string_free (nominal, FALSE);
}

const PipeSize *
pipe_text_find (const Catalogue *catalogue, const char *text, const char *now, char **ret_choices)
{
  g_autofree char *nominal = nominal_text (text);
  const PipeSize *exact = catalogue_find_pipe (catalogue, text), *found = NULL;
  GString *choices = g_string_new (NULL);
  unsigned n = 0;

  for (unsigned i = 0; exact == NULL && i < catalogue_n_pipes (catalogue); i++) {
    const PipeSize *size = catalogue_pipe (catalogue, i);
    const gsize series = pipe_series_length (size->key);

    if (g_strcmp0 (size->name, text) == 0 || strcmp (size->key, nominal) == 0) {
      exact = size;
    } else if (nominal[0] != '\0' && strcmp (size->key + series, nominal) == 0) {
      g_string_append_printf (choices, "%s%s", n > 0 ? ", " : "", size->key);
      if (n == 0 || (now != NULL && strncmp (now, size->key, series) == 0))
        found = size;
      n++;
    }
  }
  *ret_choices = g_string_free (choices, FALSE);
  if (exact != NULL || n == 0)
    return exact;
  if (n > 1 && (now == NULL || strncmp (now, found->key, pipe_series_length (found->key)) != 0))
    return NULL;
  return found;
}
