/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer fields` and `downcomer set`: the field table of a design, read and changed by path. */
#include <math.h>

#include "cli/assign.h"
#include "cli/command.h"
#include "cli/json.h"
#include "design/path.h"
#include "files/document.h"
#include "report/words.h"

static const char *
unit_word (const FieldInfo *info)
{
  return info->type == FIELD_NUMBER ? quantity_si_unit (info->quantity)->word : "";
}

static void
write_json_range (Json *json, const FieldInfo *info)
{
  if (info->type == FIELD_NUMBER) {
    json_open_array (json, "range");
    json_number (json, NULL, info->min);
    json_number (json, NULL, info->max);
    json_close_array (json);
  } else if (info->choices != NULL) {
    json_open_array (json, "range");
    for (const FieldChoice *choice = info->choices; choice->word != NULL; choice++)
      json_string (json, NULL, choice->word);
    json_close_array (json);
  } else {
    json_string (json, "range", NULL);
  }
}

static void
write_json_field (Json *json, const Design *design, const Part *part, FieldId field)
{
  const FieldInfo *info = field_info (field);
  g_autofree char *path = g_strdup_printf ("%s.%s", part_key (part), info->name);
  g_autofree char *value = path_value_text (design, part, field);

  json_open_object (json, NULL);
  json_string (json, "path", path);
  if (info->type == FIELD_NUMBER)
    json_number (json, "value", design_number (design, part, field));
  else
    json_string (json, "value", value);
  json_string (json, "unit", unit_word (info));
  write_json_range (json, info);
  json_string (json, "help", words_help (field));
  json_boolean (json, "given", part_is_given (part, field));
  json_close_object (json);
}

static char *
range_text (const FieldInfo *info)
{
  char least[UNITS_SHORTEST_SIZE], most[UNITS_SHORTEST_SIZE];
  GString *text = g_string_new (NULL);

  if (info->type == FIELD_NUMBER)
    g_string_printf (text, "%s..%s", units_shortest (info->min, least), units_shortest (info->max, most));
  for (const FieldChoice *choice = info->choices; choice != NULL && choice->word != NULL; choice++)
    g_string_append_printf (text, "%s%s", choice == info->choices ? "" : "|", choice->word);
  return g_string_free (text, FALSE);
}

/* One line a field: path, value (an assumed one in brackets), unit, range, help; parted by tabs. */
static void
append_line (GString *text, const Design *design, const Part *part, FieldId field)
{
  const FieldInfo *info = field_info (field);
  g_autofree char *value = path_value_text (design, part, field);
  g_autofree char *range = range_text (info);
  const gboolean given = part_is_given (part, field);

  g_string_append_printf (text, "%s.%s\t%s%s%s\t%s\t%s\t%s\n", part_key (part), info->name, given ? "" : "(",
                          value != NULL ? value : "", given ? "" : ")", unit_word (info), range,
                          words_help (field));
}

int
command_fields (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  g_autofree char *output = NULL;
  GString *text;
  Json json;
  const Design *design;
  int status = command_load (options, false, &loaded);

  if (status != CLI_OK)
    return status;
  design = project_active_design (loaded.project);
  text = g_string_new (NULL);
  json = json_begin ();
  json_open_array (&json, NULL);
  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const FieldId first = field_first (part_kind (part));

    for (FieldId id = first; id < first + field_count (part_kind (part)); id++) {
      write_json_field (&json, design, part, id);
      append_line (text, design, part, id);
    }
  }
  json_close_array (&json);
  output = json_end (&json);
  status = command_print (options->json ? output : text->str);
  g_string_free (text, TRUE);
  return status;
}

int
command_set (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  g_autoptr (GError) error = NULL;
  g_autoptr (Design) design = NULL;
  g_autoptr (Project) project = NULL;
  g_autoptr (GBytes) bytes = NULL;
  const int status = command_load (options, false, &loaded);

  if (status != CLI_OK)
    return status;
  design = design_ref (project_active_design (loaded.project));
  for (char **word = options->words + 1; *word != NULL; word++) {
    g_autofree char *sentence = NULL;
    Design *changed = assign_text (design, loaded.catalogue, *word, &sentence);

    if (changed == NULL)
      return command_fail_set ("", *word, sentence);
    design_unref (design);
    design = changed;
  }
  project = project_with_design (loaded.project, design);
  bytes = document_to_bytes (project, options->output, &error);
  if (bytes == NULL)
    return command_fail (CLI_UNWRITABLE, "%s", error->message);
  return command_write (options->output, bytes);
}
