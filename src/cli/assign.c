/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "cli/assign.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cli/command.h"
#include "cli/near-path.h"
#include "design/path.h"
#include "design/pipe-text.h"
#include "files/files-error.h"
#include "units/parse.h"

/* The readings of an ambiguous text, each as it may be written: "300 gal/h, 300 imp gal/h". */
static char *
readings (const UnitsParseDetail *detail)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < detail->n_readings; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", detail->reading[i].text);
  return g_string_free (text, FALSE);
}

static char *
number_sentence (UnitsParseStatus status, const UnitsParseDetail *detail, const char *text)
{
  g_autofree char *quoted = command_quoted (text);

  if (status == UNITS_PARSE_AMBIGUOUS) {
    g_autofree char *list = readings (detail);

    return g_strdup_printf (_ ("“%s” can be read in more than one way (%s); write it out"), quoted, list);
  }
  return g_strdup_printf (_ ("“%s” is not understood: %s"), quoted, units_parse_status_text (status));
}

static bool
set_number (Draft *draft, const char *key, FieldId field, const char *text, Problem *problem,
            char **ret_sentence)
{
  const Quantity quantity = field_info (field)->quantity;
  const NumberStyle style = number_style_metric ();
  UnitsParseDetail detail;
  double value = 0;
  UnitsParseStatus status =
      units_parse (text, quantity, &style, quantity_si_unit (quantity), &value, &detail);

  if (status != UNITS_PARSE_OK) {
    *ret_sentence = number_sentence (status, &detail, text);
    return false;
  }
  return draft_set_number (draft, key, field, value, problem);
}

static bool
set_pipe (Draft *draft, const Design *design, const Part *part, const Catalogue *catalogue, FieldId field,
          const char *text, Problem *problem, char **ret_sentence)
{
  const char *now = design_text (design, part, field);
  g_autofree char *choices = NULL, *quoted = command_quoted (text);
  const PipeSize *size = pipe_text_find (catalogue, text, now, &choices);

  if (size != NULL)
    return draft_set_text (draft, part_key (part), field, size->key, problem);
  if (choices[0] != '\0')
    *ret_sentence = g_strdup_printf (_ ("“%s” can be more than one size: %s"), quoted, choices);
  else
    *ret_sentence = g_strdup_printf (
        _ ("“%s” is no size of the catalogue; write it as 1 1/2, 50 mm or sch40-1-1/2"), quoted);
  return false;
}

static bool
set_any (Draft *draft, const Design *design, const Part *part, const Catalogue *catalogue, FieldId field,
         const char *text, Problem *problem, char **ret_sentence)
{
  switch (field_info (field)->type) {
  case FIELD_NUMBER:
    return set_number (draft, part_key (part), field, text, problem, ret_sentence);
  case FIELD_PIPE:
    return set_pipe (draft, design, part, catalogue, field, text, problem, ret_sentence);
  case FIELD_PART:
    if (catalogue_find_fitting (catalogue, text) == NULL) {
      g_autofree char *quoted = command_quoted (text);

      *ret_sentence = g_strdup_printf (_ ("“%s” is no fitting of the catalogue"), quoted);
      return false;
    }
    return path_set_text (draft, part_key (part), field, text, problem);
  case FIELD_CHOICE:
  case FIELD_FLAG:
  case FIELD_TEXT:
  case FIELD_REF:
  case FIELD_CURVE:
  case N_FIELD_TYPES:
  default:
    return path_set_text (draft, part_key (part), field, text, problem);
  }
}

Design *
assign_text (const Design *design, const Catalogue *catalogue, const char *assignment, char **ret_sentence)
{
  const char *equals = strchr (assignment, '=');
  g_autofree char *path = equals != NULL ? g_strndup (assignment, (gsize) (equals - assignment)) : NULL;
  g_autoptr (Draft) draft = draft_new (design);
  const char *text = equals != NULL ? equals + 1 : "";
  const Part *part = NULL;
  FieldId field = N_FIELDS;
  Problem problem = {0};
  Design *changed = NULL;
  bool set;

  *ret_sentence = NULL;
  if (path == NULL) {
    *ret_sentence = g_strdup (_ ("a change is written PATH=VALUE, as in return-pump.speed=0.8"));
    return NULL;
  }
  if (!g_utf8_validate (text, -1, NULL)) {
    *ret_sentence = g_strdup (_ ("the value is not valid UTF-8; check the encoding of the terminal"));
    return NULL;
  }
  if (path_resolve (design, path, &part, &field, &problem)) {
    if (text[0] == '\0')
      set = draft_unset (draft, part_key (part), field, &problem);
    else
      set = set_any (draft, design, part, catalogue, field, text, &problem, ret_sentence);
    changed = set ? draft_commit (draft, &problem) : NULL;
  } else {
    *ret_sentence = near_path_sentence (design, path);
  }
  if (changed == NULL && *ret_sentence == NULL)
    *ret_sentence = files_problem_sentence (&problem, text);
  return changed;
}
