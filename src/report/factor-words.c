/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/factor-words.h"

#include <glib/gi18n-lib.h>

static const char *const names[] = {
    [FACTOR_FLOW] = N_ ("Return flow: a weak pump on aged pipe with K + 25 %, a strong pump on new pipe"),
    [FACTOR_DRAIN_AGE] = N_ ("Drain pipe, new or aged"),
    [FACTOR_LOSS] = N_ ("Loss coefficients of the drains"),
    [FACTOR_LIP] = N_ ("What a lip or an open mouth takes"),
    [FACTOR_WEIR] = N_ ("Head over a crest below 30 mm, 2 % from 60 mm on"),
    [FACTOR_SIPHON_MOUTH] = N_ ("Height of siphon mouths"),
    [FACTOR_OPEN_MOUTH] = N_ ("Height of the mouths of trickles and standpipes"),
    [FACTOR_EMERGENCY_MOUTH] = N_ ("Height of emergency mouths"),
    [FACTOR_CREST] = N_ ("Height of the crests"),
    [FACTOR_BAFFLE] = N_ ("Height of baffle edges and of the bypass lips of socks"),
    [FACTOR_BREAK] = N_ ("Level at which a siphon break stops the water"),
    [FACTOR_DRAIN_END] = N_ ("Height of the lower ends of drains"),
    [FACTOR_RUNNING_LEVEL] = N_ ("Level that the top-off keeps"),
    [FACTOR_PRIMING] = N_ ("Bores of water over its lip that prime a drain"),
};

G_STATIC_ASSERT (G_N_ELEMENTS (names) == N_FACTORS);

const char *
factor_name (FactorId factor)
{
  return (unsigned) factor < N_FACTORS ? _ (names[factor]) : "?";
}

static char *
end_words (const Factor *factor, double value, const NumberStyle *style)
{
  if (factor->quantity == QUANTITY_NONE)
    return g_strdup_printf ("%.2g", value);
  return units_format (value, factor->quantity, style, NULL, UNITS_MEASURE);
}

/* The flow and the age of the drains have their ends in the fields of the parts. */
static bool
is_by_fields (FactorId factor)
{
  return factor == FACTOR_FLOW || factor == FACTOR_DRAIN_AGE;
}

GPtrArray *
factor_lines (const NumberStyle *style)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (
      lines, g_strdup (_ ("Each of these is moved alone to either end, and what that does to a margin is "
                          "added as squares. A finding is judged by the end of its band, or by the worst "
                          "case that its check asks for where that is worse.")));
  for (unsigned i = 0; i < N_FACTORS; i++) {
    const Factor *factor = factor_info ((FactorId) i);
    g_autofree char *low = end_words (factor, factor->low, style),
                    *high = end_words (factor, factor->high, style);

    g_ptr_array_add (lines,
                     is_by_fields ((FactorId) i)
                         ? words_fill (_ ("{name}: by the fields of the parts (common practice, no source)"),
                                       "name", factor_name ((FactorId) i), NULL)
                         : words_fill (_ ("{name}: {low} to {high} (common practice, no source)"), "name",
                                       factor_name ((FactorId) i), "low", low, "high", high, NULL));
  }
  return lines;
}
