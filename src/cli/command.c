/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "cli/command.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "cli/assign.h"
#include "files/atomic-save.h"
#include "files/catalogue-file.h"
#include "files/document.h"
#include "report/words.h"

int
command_fail (int status, const char *format, ...)
{
  va_list arguments;
  g_autofree char *sentence = NULL;

  va_start (arguments, format);
  sentence = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  for (char *c = sentence; *c != '\0'; c++) /* a file may be named so as to write on the terminal */
    if (g_ascii_iscntrl (*c))
      *c = '?';
  g_printerr ("downcomer: %s\n", sentence);
  return status;
}

int
command_fail_set (const char *option, const char *assignment, const char *sentence)
{
  g_autofree char *quoted = command_quoted (assignment);

  return command_fail (CLI_USAGE, "%s%s: %s", option, quoted, sentence);
}

char *
command_quoted (const char *text)
{
  enum { QUOTED = 60 };
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *start = NULL;

  if (g_utf8_strlen (valid, -1) <= QUOTED)
    return g_steal_pointer (&valid);
  start = g_utf8_substring (valid, 0, QUOTED);
  return g_strconcat (start, "…", NULL);
}

NumberStyle
command_locale_style (UnitSystem system)
{
  const struct lconv *conv = localeconv ();
  g_autofree char *decimal = g_locale_to_utf8 (conv->decimal_point, -1, NULL, NULL, NULL);
  g_autofree char *thousands = g_locale_to_utf8 (conv->thousands_sep, -1, NULL, NULL, NULL);
  g_autofree char *currency = g_locale_to_utf8 (conv->currency_symbol, -1, NULL, NULL, NULL);
  NumberStyle style = number_style_from_separators (system, decimal, thousands);

  if (currency != NULL)
    g_strlcpy (style.currency, currency, sizeof style.currency);
  return style;
}

void
loaded_clear (Loaded *loaded)
{
  g_clear_pointer (&loaded->catalogue, catalogue_unref);
  g_clear_pointer (&loaded->project, project_unref);
  g_clear_pointer (&loaded->evaluation, evaluation_free);
  g_clear_pointer (&loaded->trace, trace_free);
}

static int
apply_sets (const Options *options, Loaded *loaded)
{
  for (char **set = options->sets; set != NULL && *set != NULL; set++) {
    g_autofree char *sentence = NULL;
    g_autoptr (Design) changed =
        assign_text (project_active_design (loaded->project), loaded->catalogue, *set, &sentence);
    Project *next;

    if (changed == NULL)
      return command_fail_set ("--set ", *set, sentence);
    next = project_with_design (loaded->project, changed);
    project_unref (loaded->project);
    loaded->project = next;
  }
  return CLI_OK;
}

static int
run_evaluation (const char *name, Loaded *loaded)
{
  SystemStatus status = SYSTEM_OK;
  int part = -1;
  Design *design = project_active_design (loaded->project);

  loaded->evaluation = evaluation_new ();
  loaded->trace = trace_new ();
  if (evaluate_design (design, loaded->catalogue, loaded->trace, loaded->evaluation, &status, &part))
    return CLI_OK;
  if (part >= 0)
    return command_fail (CLI_UNREADABLE, "%s: %s: %s", name, part_key (design_part (design, (unsigned) part)),
                         system_status_text (status));
  return command_fail (CLI_UNREADABLE, "%s: %s", name, system_status_text (status));
}

int
command_load (const Options *options, bool evaluate, Loaded *ret_loaded)
{
  const char *name = options->words[0];
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (name);
  g_autoptr (GError) error = NULL;
  g_auto (Loaded) loaded = {0};
  const NumberStyle signs = command_locale_style (UNIT_SYSTEM_METRIC);
  int status;

  loaded.project = document_load (file, NULL, &error);
  if (loaded.project == NULL)
    return command_fail (CLI_UNREADABLE, "%s", error->message);
  loaded.catalogue = catalogue_built_in ();
  status = apply_sets (options, &loaded);
  if (status == CLI_OK && evaluate)
    status = run_evaluation (name, &loaded);
  if (status != CLI_OK)
    return status;
  loaded.style = words_style (project_active_design (loaded.project), &signs);
  *ret_loaded = loaded;
  loaded = (Loaded){0};
  return CLI_OK;
}

int
command_print (const char *text)
{
  if (fputs (text, stdout) < 0 || fflush (stdout) != 0)
    return command_fail (CLI_UNWRITABLE, "%s", _ ("standard output cannot be written to"));
  return CLI_OK;
}

int
command_write (const char *path, GBytes *bytes)
{
  g_autoptr (GError) error = NULL;
  gsize size;
  const void *data = g_bytes_get_data (bytes, &size);

  if (strcmp (path, "-") == 0) {
    if (fwrite (data, 1, size, stdout) != size || fflush (stdout) != 0)
      return command_fail (CLI_UNWRITABLE, "%s", _ ("standard output cannot be written to"));
    return CLI_OK;
  }
  if (!atomic_save (path, bytes, NULL, NULL, &error))
    return command_fail (CLI_UNWRITABLE, "%s", error->message);
  return CLI_OK;
}

int
command_verdict (const Evaluation *evaluation)
{
  return evaluation_is_sound (evaluation) ? CLI_OK : CLI_NOT_SOUND;
}
