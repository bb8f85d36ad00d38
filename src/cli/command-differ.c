/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer differ`: what differs between two options of a project, and what it does. */
#include <glib/gi18n.h>

#include "cli/command.h"
#include "cli/json.h"
#include "report/difference.h"

typedef struct {
  GPtrArray *rows, *effects;
  char *names[2];
} Answer;

static void
answer_clear (Answer *answer)
{
  g_ptr_array_unref (answer->rows);
  g_ptr_array_unref (answer->effects);
  g_free (answer->names[0]);
  g_free (answer->names[1]);
}

static const char *
kind_word (DifferenceKind kind)
{
  return kind == DIFFERENCE_ADDED ? "added" : kind == DIFFERENCE_REMOVED ? "removed" : "changed";
}

static char *
json_text (const Answer *answer)
{
  Json json = json_begin ();

  json_open_object (&json, NULL);
  json_string (&json, "from", answer->names[0]);
  json_string (&json, "to", answer->names[1]);
  json_open_array (&json, "differences");
  for (guint i = 0; i < answer->rows->len; i++) {
    const DifferenceRow *row = g_ptr_array_index (answer->rows, i);

    json_open_object (&json, NULL);
    json_string (&json, "kind", kind_word (row->kind));
    json_string (&json, "path", row->path);
    json_string (&json, "what", row->what);
    json_string (&json, "from", row->before);
    json_string (&json, "to", row->after);
    json_close_object (&json);
  }
  json_close_array (&json);
  json_open_array (&json, "effects");
  for (guint i = 0; i < answer->effects->len; i++) {
    const DifferenceEffect *effect = g_ptr_array_index (answer->effects, i);

    json_open_object (&json, NULL);
    json_string (&json, "figure", effect->word);
    json_number (&json, "from", effect->before_si);
    json_number (&json, "to", effect->after_si);
    json_close_object (&json);
  }
  json_close_array (&json);
  json_close_object (&json);
  return json_end (&json);
}

static char *
plain_text (const Answer *answer)
{
  GString *text = g_string_new (NULL);
  g_autofree char *sentence = difference_sentence (answer->rows);

  g_string_append_printf (text, "%s → %s\n%s\n\n", answer->names[0], answer->names[1], sentence);
  for (guint i = 0; i < answer->rows->len; i++) {
    const DifferenceRow *row = g_ptr_array_index (answer->rows, i);

    g_string_append_printf (text, "  %s: %s → %s\n", row->what, row->before, row->after);
  }
  g_string_append_printf (text, "%s%s\n", answer->rows->len > 0 ? "\n" : "", _ ("What it does"));
  for (guint i = 0; i < answer->effects->len; i++) {
    const DifferenceEffect *effect = g_ptr_array_index (answer->effects, i);

    g_string_append_printf (text, "  %s: %s → %s", effect->name, effect->before, effect->after);
    if (effect->change[0] != '\0')
      g_string_append_printf (text, "  (%s)", effect->change);
    g_string_append_c (text, '\n');
  }
  return g_string_free (text, FALSE);
}

static Evaluation *
evaluated (Design *design, Catalogue *catalogue)
{
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  SystemStatus status;
  int part;

  return evaluate_design (design, catalogue, NULL, evaluation, &status, &part) ? g_steal_pointer (&evaluation)
                                                                               : NULL;
}

/* The two options: those named, else the first and the active one, else the first two. */
static int
find_options (const Options *options, const Project *project, unsigned ret_options[2])
{
  const unsigned named = g_strv_length (options->words) - 1;

  if (project_n_options (project) < 2)
    return command_fail (CLI_USAGE, _ ("%s has one option only; there is nothing to compare"),
                         options->words[0]);
  if (named == 1)
    return command_fail (CLI_USAGE, "%s", _ ("name two options, or none"));
  ret_options[0] = 0;
  ret_options[1] = project_active (project) > 0 ? project_active (project) : 1;
  for (unsigned i = 0; i < named; i++) {
    const int found = project_find_option (project, options->words[i + 1]);

    if (found < 0) {
      g_autofree char *quoted = command_quoted (options->words[i + 1]);

      return command_fail (CLI_USAGE, _ ("there is no option “%s” in this project"), quoted);
    }
    ret_options[i] = (unsigned) found;
  }
  return CLI_OK;
}

int
command_differ (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  unsigned which[2];
  int status = command_load (options, false, &loaded);

  if (status == CLI_OK)
    status = find_options (options, loaded.project, which);
  if (status != CLI_OK)
    return status;
  Design *a = project_design (loaded.project, which[0]), *b = project_design (loaded.project, which[1]);
  g_autoptr (Evaluation) before = evaluated (a, loaded.catalogue);
  g_autoptr (Evaluation) after = evaluated (b, loaded.catalogue);
  Answer answer = {.rows = difference_list (a, b, loaded.catalogue, &loaded.style),
                   .effects = difference_effects (before, after, &loaded.style),
                   .names = {difference_option_name (loaded.project, which[0]),
                             difference_option_name (loaded.project, which[1])}};
  g_autofree char *text = options->json ? json_text (&answer) : plain_text (&answer);

  answer_clear (&answer);
  return command_print (text);
}
