/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "units/match.h"

#include <string.h>

typedef enum { COMPARE_EXACT, COMPARE_FIRST_EXACT, COMPARE_FREE } Compare;

static gboolean
same_character (char a, char b, Compare compare, gboolean is_first)
{
  if (compare == COMPARE_EXACT || (compare == COMPARE_FIRST_EXACT && is_first))
    return a == b;
  return g_ascii_tolower (a) == g_ascii_tolower (b);
}

/* End of the `n` bytes of `spelling` found at `start`, or `start` when they do not stand there. */
static gsize
match_spelling (const Typed *typed, gsize start, const char *spelling, gsize n, Compare compare)
{
  gsize at = start;

  for (gsize i = 0; i < n; i++) {
    gboolean loose = i > 0 && (spelling[i] == '/' || spelling[i - 1] == '/' || spelling[i] == ' ');

    if (loose)
      at = typed_skip_spaces (typed, at);
    if (spelling[i] == ' ')
      continue;
    if (!same_character (typed->c[at], spelling[i], compare, i == 0))
      return start;
    at++;
  }
  if (g_ascii_isalpha (typed->c[at - 1])) {
    if (typed->c[at] == '.' && !g_ascii_isdigit (typed->c[at + 1]))
      at++;
    else if (g_ascii_isalpha (typed->c[at]) || (guchar) typed->c[at] >= 0x80)
      return start;
  } else if (g_ascii_isdigit (typed->c[at - 1]) && g_ascii_isalnum (typed->c[at]))
    return start;
  return at;
}

static gsize
match_unit (const Typed *typed, gsize start, const Unit *unit)
{
  Compare symbol_case = strchr ("MG", unit->symbol[0]) != NULL ? COMPARE_FIRST_EXACT : COMPARE_FREE;
  gsize best = start;
  gsize end;

  /* Nobody types "number"; money and ratios have no word of their own. */
  if (*unit->symbol == '\0')
    return start;
  best = match_spelling (typed, start, unit->word, strlen (unit->word), COMPARE_EXACT);
  end = match_spelling (typed, start, unit->symbol, strlen (unit->symbol), symbol_case);
  best = MAX (best, end);
  for (const char *p = unit->spellings; *p != '\0';) {
    gsize n = strcspn (p, "|");

    end = match_spelling (typed, start, p, n, COMPARE_FREE);
    best = MAX (best, end);
    p += n + (p[n] == '|');
  }
  /* Raised figures have become plain ones, so m² is met by its word; capitals too (M2, FT3), short of M for milli. */
  if (best == start && symbol_case == COMPARE_FREE)
    best = match_spelling (typed, start, unit->word, strlen (unit->word), COMPARE_FREE);
  return best;
}

void
unit_match (const Typed *typed, gsize start, Quantity quantity, UnitMatch *ret)
{
  *ret = (UnitMatch){.end = start};
  for (guint i = 0; i < unit_count (); i++) {
    const Unit *unit = unit_at (i);
    gsize end = match_unit (typed, start, unit);

    if (end == start || end < ret->end)
      continue;
    if (end > ret->end) {
      ret->end = end;
      ret->n = 0;
      ret->misfit = NULL;
    }
    if (!quantity_accepts (quantity, unit))
      ret->misfit = unit;
    else if (ret->n < UNIT_MATCHES_MAX)
      ret->unit[ret->n++] = unit;
  }
  if (ret->n > 0)
    ret->misfit = NULL;
}
