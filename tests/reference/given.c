/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "given.h"

#include <math.h>
#include <string.h>

struct Given {
  GHashTable *values; /* char * -> char *, owned */
  char *folder;
  char *complaint;
};

void
given_free (Given *given)
{
  if (given == NULL)
    return;
  g_hash_table_unref (given->values);
  g_free (given->folder);
  g_free (given->complaint);
  g_free (given);
}

Given *
given_parse (const char *text, const char *folder, char **ret_complaint)
{
  g_autoptr (GHashTable) values = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_auto (GStrv) pairs = g_strsplit (text, ";", -1);

  for (gsize i = 0; pairs[i] != NULL; i++) {
    const char *equals = strchr (pairs[i], '=');
    if (equals == NULL || equals == pairs[i]) {
      *ret_complaint = g_strdup_printf ("\"%s\" is not key=value", pairs[i]);
      return NULL;
    }
    char *key = g_strndup (pairs[i], (gsize) (equals - pairs[i]));
    if (!g_hash_table_insert (values, g_strstrip (key), g_strstrip (g_strdup (equals + 1)))) {
      *ret_complaint = g_strdup_printf ("\"%s\" gives a key a second time", pairs[i]);
      return NULL;
    }
  }
  Given *given = g_new0 (Given, 1);
  given->values = g_steal_pointer (&values);
  given->folder = g_strdup (folder);
  return given;
}

const char *
given_complaint (const Given *given)
{
  return given->complaint;
}

void
given_complain (Given *given, const char *format, ...)
{
  va_list args;

  if (given->complaint != NULL)
    return;
  va_start (args, format);
  given->complaint = g_strdup_vprintf (format, args);
  va_end (args);
}

gboolean
given_has (const Given *given, const char *key)
{
  return g_hash_table_contains (given->values, key);
}

const char *
given_word (Given *given, const char *key)
{
  const char *word = g_hash_table_lookup (given->values, key);

  if (word != NULL)
    return word;
  given_complain (given, "key \"%s\" is missing", key);
  return "";
}

double
given_number (Given *given, const char *key)
{
  const char *word = given_word (given, key);
  char *end = NULL;
  double value = g_ascii_strtod (word, &end);

  if (end != word && *end == '\0')
    return value;
  given_complain (given, "key \"%s\": \"%s\" is not a number", key, word);
  return NAN;
}

double
given_number_or (Given *given, const char *key, double otherwise)
{
  return given_has (given, key) ? given_number (given, key) : otherwise;
}

guint
given_choice (Given *given, const char *key, const char *const *words, guint n_words)
{
  const char *word = given_word (given, key);

  for (guint i = 0; i < n_words; i++) {
    if (strcmp (words[i], word) == 0)
      return i;
  }
  given_complain (given, "key \"%s\": unknown word \"%s\"", key, word);
  return 0;
}

gsize
given_numbers (Given *given, const char *key, const char *separators, double *values, gsize max)
{
  const char *word = given_word (given, key);
  const char *at = word;

  for (gsize count = 0; count < max; count++) {
    char *end = NULL;
    values[count] = g_ascii_strtod (at, &end);
    if (end == at || (*end != '\0' && strchr (separators, *end) == NULL))
      break;
    if (*end == '\0')
      return count + 1;
    at = end + 1;
  }
  given_complain (given, "key \"%s\": \"%s\" is not a list of up to %" G_GSIZE_FORMAT " numbers", key, word,
                  max);
  return 0;
}

char *
given_path (Given *given, const char *key)
{
  return g_build_filename (given->folder, given_word (given, key), NULL);
}
