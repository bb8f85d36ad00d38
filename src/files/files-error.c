/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "config.h"

#include "files/files-error.h"

#include <glib/gi18n-lib.h>

#include "units/format.h"

/* Longest piece of a file that a sentence quotes, in characters. */
#define QUOTED 60

G_DEFINE_QUARK (downcomer - files - error - quark, files_error)

gboolean
files_error_set (GError **error, FilesError code, const char *name, long line, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *sentence = g_strdup_vprintf (format, arguments);
  va_end (arguments);

  if (line > 0)
    /* Translators: file name, line number, sentence that says what is wrong there */
    g_set_error (error, FILES_ERROR, (gint) code, _ ("%s, line %ld: %s"), name, line, sentence);
  else
    /* Translators: file name, sentence that says what is wrong with it */
    g_set_error (error, FILES_ERROR, (gint) code, _ ("%s: %s"), name, sentence);
  return FALSE;
}

/* The range of a number with its unit, "0.15 to 4 m". */
static char *
range_text (const FieldInfo *info)
{
  char least[UNITS_SHORTEST_SIZE];
  char most[UNITS_SHORTEST_SIZE];
  const Unit *unit = quantity_si_unit (info->quantity);

  /* Translators: least and most allowed value, and the unit, which may be empty */
  g_autofree char *text = g_strdup_printf (_ ("%s to %s %s"), units_shortest (info->min, least),
                                           units_shortest (info->max, most), unit->symbol);
  return g_strdup (g_strchomp (text));
}

static char *
choices_text (const FieldInfo *info)
{
  GString *text = g_string_new (NULL);

  for (const FieldChoice *choice = info->choices; choice != NULL && choice->word != NULL; choice++)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", choice->word);
  return g_string_free (text, FALSE);
}

/* What the field takes, where that helps: a range or the words of its choices; else NULL. */
static char *
allowed_text (const Problem *problem)
{
  if (problem->field >= N_FIELDS)
    return NULL;
  const FieldInfo *info = field_info (problem->field);
  if (info->type == FIELD_NUMBER)
    return range_text (info);
  if (info->type == FIELD_CHOICE || info->type == FIELD_FLAG)
    return choices_text (info);
  return NULL;
}

static const char *
reason_text (const Problem *problem)
{
  if (problem->code == PROBLEM_WRONG_TYPE && problem->field < N_FIELDS &&
      field_info (problem->field)->type == FIELD_NUMBER)
    return _ ("it takes a plain number, with a decimal point and without a unit");
  return _ (problem_text (problem->code));
}

static char *
shortened (const char *text)
{
  if (g_utf8_strlen (text, -1) <= QUOTED)
    return g_strdup (text);
  g_autofree char *start = g_utf8_substring (text, 0, QUOTED);
  return g_strconcat (start, "…", NULL);
}

char *
files_problem_sentence (const Problem *problem, const char *found)
{
  const char *kind = (unsigned) problem->kind < N_PART_KINDS ? part_kind_word (problem->kind) : "";
  g_autofree char *key = g_utf8_make_valid (problem->part, -1); /* it may be cut short within a letter */
  const char *reason = reason_text (problem);
  g_autofree char *allowed = allowed_text (problem);
  g_autofree char *quoted = found != NULL ? shortened (found) : NULL;

  if (problem->field < N_FIELDS && quoted != NULL && allowed != NULL)
    /* Translators: part kind, part key, field, value found, reason, what is allowed */
    return g_strdup_printf (_ ("%s “%s”, field “%s” cannot be “%s”: %s (allowed: %s)."), kind, key,
                            field_info (problem->field)->name, quoted, reason, allowed);
  if (problem->field < N_FIELDS && quoted != NULL)
    /* Translators: part kind, part key, field, value found, reason */
    return g_strdup_printf (_ ("%s “%s”, field “%s” cannot be “%s”: %s."), kind, key,
                            field_info (problem->field)->name, quoted, reason);
  if (problem->field < N_FIELDS)
    /* Translators: part kind, part key, field, reason */
    return g_strdup_printf (_ ("%s “%s”, field “%s”: %s."), kind, key, field_info (problem->field)->name,
                            reason);
  if (*key != '\0')
    /* Translators: part kind, part key, reason */
    return g_strdup_printf (_ ("%s “%s”: %s."), kind, key, reason);
  /* Translators: part kind, reason */
  return g_strdup_printf (_ ("%s: %s."), kind, reason);
}
