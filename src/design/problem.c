/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/problem.h"

#include <glib.h>
#include <string.h>

#define N_(text) text

static const char *const problem_texts[N_PROBLEMS] = {
#define X(id, text) text,
    PROBLEMS (X)
#undef X
};

const char *
problem_text (ProblemCode code)
{
  g_assert ((unsigned) code < N_PROBLEMS);
  return problem_texts[code];
}

bool
problem_set (Problem *ret_problem, ProblemCode code, const char *key, PartKind kind, FieldId field,
             double value)
{
  if (ret_problem != NULL) {
    *ret_problem = (Problem){.code = code, .kind = kind, .field = field, .value = value};
    g_strlcpy (ret_problem->part, key != NULL ? key : "", sizeof ret_problem->part);
  }
  return false;
}

bool
key_is_good (const char *key)
{
  const size_t length = strlen (key);

  if (length == 0 || length > MAX_KEY_BYTES || !g_ascii_islower (key[0]) || key[length - 1] == '-')
    return false;
  for (size_t i = 0; i < length; i++) {
    const bool hyphen = key[i] == '-' && key[i - 1] != '-';

    if (!g_ascii_islower (key[i]) && !g_ascii_isdigit (key[i]) && !hyphen)
      return false;
  }
  return true;
}

bool
text_is_good (const char *text)
{
  if (strlen (text) > MAX_TEXT_BYTES || !g_utf8_validate (text, -1, NULL))
    return false;
  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    if (g_unichar_iscntrl (g_utf8_get_char (c)) || g_utf8_get_char (c) == 0xFFFE ||
        g_utf8_get_char (c) == 0xFFFF)
      return false;
  return true;
}
