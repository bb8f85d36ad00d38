/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/rehearsal-summary.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "report/rehearsal-words.h"
#include "report/words.h"

static bool
has_finding (const Rehearsed *rehearsed, RehearsalCheck check)
{
  for (unsigned i = 0; i < rehearsed->n_findings; i++)
    if (rehearsed->findings[i].check == check)
      return true;
  return false;
}

static bool
spills_likely (const Rehearsed *rehearsed)
{
  return has_finding (rehearsed, REHEARSED_SPILLS);
}

static bool
spills_fast (const Rehearsed *rehearsed)
{
  return has_finding (rehearsed, REHEARSED_SPILLS_FAST);
}

bool
rehearsal_spills (const Rehearsed *rehearsed)
{
  return spills_likely (rehearsed) || spills_fast (rehearsed);
}

const Rehearsal *
rehearsal_judged (const Rehearsed *rehearsed)
{
  return spills_fast (rehearsed) ? &rehearsed->fast : &rehearsed->rehearsal;
}

bool
rehearsal_is_known (const Rehearsed *rehearsed)
{
  return rehearsed->reason == FAILURE_APPLIES && rehearsed->rehearsal.status == REHEARSAL_OK;
}

static bool
is_unknown (const Rehearsed *rehearsed)
{
  return rehearsed->reason == FAILURE_APPLIES && rehearsed->rehearsal.status != REHEARSAL_OK;
}

/* Names of the failures of which `holds` is true, or NULL where it is of none. */
static char *
names_of (const Rehearsed *rehearsed, unsigned n, bool (*holds) (const Rehearsed *rehearsed))
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  for (unsigned i = 0; i < n; i++)
    if (holds (&rehearsed[i]))
      g_ptr_array_add (names, rehearsal_name (rehearsed[i].failures, rehearsed[i].n_failures));
  if (names->len == 0)
    return NULL;
  g_ptr_array_add (names, NULL);
  return g_strjoinv ("; ", (char **) names->pdata);
}

static const Rehearsed *
soonest (const Rehearsed *rehearsed, unsigned n)
{
  const Rehearsed *found = NULL;

  for (unsigned i = 0; i < n; i++)
    if (rehearsal_is_known (&rehearsed[i]) && isfinite (rehearsal_judged (&rehearsed[i])->matters_s) &&
        (found == NULL || rehearsal_judged (&rehearsed[i])->matters_s < rehearsal_judged (found)->matters_s))
      found = &rehearsed[i];
  return found;
}

static void
append (GString *text, char *sentence)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", sentence);
  g_free (sentence);
}

static void
append_harm (GString *text, const Rehearsed *first, const NumberStyle *style)
{
  g_autofree char *name = rehearsal_name (first->failures, first->n_failures);
  g_autofree char *time =
      units_format (rehearsal_judged (first)->matters_s, QUANTITY_TIME, style, NULL, UNITS_MEASURE);

  append (text, words_fill (_ ("The soonest to do harm is {failure}: somebody must be there within {time}."),
                            "failure", name, "time", time, NULL));
}

char *
rehearsal_summary (const Rehearsed *rehearsed, unsigned n, const NumberStyle *style)
{
  GString *text = g_string_new (NULL);
  const unsigned used = rehearsed != NULL ? n : 0;
  g_autofree char *spilling = names_of (rehearsed, used, spills_likely);
  g_autofree char *spilling_fast = names_of (rehearsed, used, spills_fast);
  g_autofree char *known = names_of (rehearsed, used, rehearsal_is_known);
  g_autofree char *unknown = names_of (rehearsed, used, is_unknown);
  const Rehearsed *first = soonest (rehearsed, used);

  if (known == NULL && unknown == NULL)
    append (text, g_strdup (_ ("Nothing can be rehearsed: the design does not run.")));
  else if (spilling != NULL)
    append (text, words_fill (_ ("Water runs onto the floor in these failures: {failures}."), "failures",
                              spilling, NULL));
  else if (spilling_fast == NULL && known != NULL && first != NULL)
    append (text, g_strdup (_ ("No failure that was rehearsed puts water on the floor.")));
  else if (spilling_fast == NULL && known != NULL)
    append (text,
            g_strdup (_ ("No failure that was rehearsed puts water on the floor or lets a pump run dry.")));
  if (spilling_fast != NULL)
    append (text,
            words_fill (_ ("Water runs onto the floor only with the pumps at the top of their tolerance: "
                           "{failures}."),
                        "failures", spilling_fast, NULL));
  if (first != NULL)
    append_harm (text, first, style);
  if (unknown != NULL)
    append (text, words_fill (_ ("Could not be computed to the end, so that it is not known what happens: "
                                 "{failures}."),
                              "failures", unknown, NULL));
  return g_string_free (text, FALSE);
}

static const char *
edge_words (int edge)
{
  if (edge < 0)
    return _ ("the weakest pump and aged pipes");
  return edge > 0
             ? _ ("the strongest pump and new pipes")
             : _ ("the likely pump and pipes, and where the floor stays dry with the strongest pump too");
}

char *
rehearsal_assumptions (const FailureOptions *options, const NumberStyle *style)
{
  const struct {
    double value;
    Quantity quantity;
  } values[] = {{options->horizon_s, QUANTITY_TIME},   {options->absence_s, QUANTITY_TIME},
                {options->block_s, QUANTITY_TIME},     {options->power_off_s, QUANTITY_TIME},
                {options->top_off_m3s, QUANTITY_FLOW}, {options->outlet_drop_m, QUANTITY_LENGTH}};
  char *texts[G_N_ELEMENTS (values)], *sentence;

  for (unsigned i = 0; i < G_N_ELEMENTS (values); i++) {
    const Quantity quantity = values[i].quantity;

    /* Times were chosen, so they are round. */
    texts[i] = units_format (values[i].value, quantity, style,
                             units_unit_for_value (values[i].value, quantity, style),
                             quantity == QUANTITY_TIME ? UNITS_EXACT : UNITS_MEASURE);
  }
  sentence = words_fill (
      _ ("Each failure is played on the running system, with {edge}, until all is at rest or for {longest} "
         "at least; an empty reservoir for {absence}. A drain clogs within {block}; the power comes back "
         "after {off}; the top-off gives {flow}; a return outlet is lowered by {drop}."),
      "edge", edge_words (options->edge), "longest", texts[0], "absence", texts[1], "block", texts[2], "off",
      texts[3], "flow", texts[4], "drop", texts[5], NULL);
  for (unsigned i = 0; i < G_N_ELEMENTS (values); i++)
    g_free (texts[i]);
  return sentence;
}

const char *
rehearsal_caution (void)
{
  return _ ("A rehearsal is a calculation, not a test with water: unplug the pump and watch before anybody "
            "leaves the system alone.");
}
