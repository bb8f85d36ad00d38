/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/path.h"

#include <string.h>

#include "units/parse.h"

bool
path_resolve (const Design *design, const char *path, const Part **ret_part, FieldId *ret_field,
              Problem *ret_problem)
{
  const char *dot = strchr (path, '.');
  g_autofree char *key = dot != NULL ? g_strndup (path, (gsize) (dot - path)) : g_strdup (path);
  const Part *part = design_find (design, key);

  if (part == NULL)
    return problem_set (ret_problem, PROBLEM_UNKNOWN_PART, key, PART_JOB, N_FIELDS, 0);
  if (dot == NULL || !field_find (part_kind (part), dot + 1, ret_field))
    return problem_set (ret_problem, PROBLEM_UNKNOWN_FIELD, key, part_kind (part), N_FIELDS, 0);
  *ret_part = part;
  return true;
}

char *
path_value_text (const Design *design, const Part *part, FieldId field)
{
  const FieldInfo *info = field_info (field);
  char buffer[UNITS_SHORTEST_SIZE];

  switch (info->type) {
  case FIELD_NUMBER:
    return g_strdup (units_shortest (design_number (design, part, field), buffer));
  case FIELD_CHOICE:
  case FIELD_FLAG:
    return g_strdup (info->choices[design_choice (design, part, field)].word);
  case FIELD_TEXT:
  case FIELD_REF:
  case FIELD_PIPE:
  case FIELD_PART:
  case FIELD_CURVE:
    return g_strdup (design_text (design, part, field));
  case N_FIELD_TYPES:
  default:
    return NULL;
  }
}

bool
path_set_text (Draft *draft, const char *key, FieldId field, const char *text, Problem *ret_problem)
{
  const FieldInfo *info = field_info (field);
  double number;

  switch (info->type) {
  case FIELD_NUMBER:
    if (!units_parse_si (text, &number))
      return problem_set (ret_problem, PROBLEM_WRONG_TYPE, key, info->kind, field, 0);
    return draft_set_number (draft, key, field, number, ret_problem);
  case FIELD_CHOICE:
  case FIELD_FLAG:
    if (field_choice_index (info, text) < 0)
      return problem_set (ret_problem, PROBLEM_BAD_CHOICE, key, info->kind, field, 0);
    return draft_set_number (draft, key, field, field_choice_index (info, text), ret_problem);
  case FIELD_TEXT:
  case FIELD_REF:
  case FIELD_PIPE:
  case FIELD_PART:
  case FIELD_CURVE:
  case N_FIELD_TYPES:
  default:
    return draft_set_text (draft, key, field, text, ret_problem);
  }
}
