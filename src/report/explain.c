/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/explain.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "report/factor-words.h"
#include "report/finding-words.h"
#include "report/summary.h"

static void
explain_step_free (void *data)
{
  ExplainStep *step = data;

  g_free (step->heading);
  g_free (step->formula);
  g_free (step->values);
  g_free (step->result);
  g_free (step->source);
  g_free (step);
}

const char *
explain_scenario (Scenario scenario)
{
  switch (scenario) {
  case SCENARIO_RUNNING:
    return _ ("running, likely flow");
  case SCENARIO_FAST:
    return _ ("running, upper edge of the pump");
  case SCENARIO_FULL_SPEED:
    return _ ("full speed, upper edge of the pump");
  case SCENARIO_SLOW:
    return _ ("running, lower edge of pump and aged pipe");
  case SCENARIO_FLOOD_UNPRIMED:
    return _ ("flood test, emergency not primed");
  case SCENARIO_FLOOD_PRIMED:
    return _ ("flood test, emergency primed");
  case SCENARIO_FLOOD_FULL_SPEED:
    return _ ("flood test at full speed");
  case SCENARIO_POWER_OFF:
    return _ ("power off");
  case SCENARIO_POWER_OFF_PLUGGED:
    return _ ("power off, siphon break plugged");
  case SCENARIO_TRANSFER:
    return _ ("transfer test");
  case SCENARIO_PRIME_LOST:
    return _ ("transfer test, prime of the siphon tubes lost");
  case SCENARIO_TRANSFER_RESERVOIR:
    return _ ("transfer test with the reservoir");
  case SCENARIO_NONE:
  case N_SCENARIOS:
  default:
    return "";
  }
}

static char *
symbol_words (const StepSymbol *symbol, double value, const NumberStyle *style)
{
  g_autofree char *number = symbol->quantity == QUANTITY_NONE && isfinite (value)
                                ? g_strdup_printf ("%.4g", value)
                                : units_format (value, symbol->quantity, style, NULL, UNITS_MEASURE);

  return g_strdup_printf ("%s = %s (%s)", symbol->symbol, number, _ (symbol->meaning));
}

static ExplainStep *
step_words (const Design *design, const Step *step, const NumberStyle *style)
{
  const StepInfo *info = step_info (step->id);
  const char *scenario = explain_scenario (step->scenario);
  g_autofree char *part =
      step->part >= 0 ? words_part (design, design_part (design, (unsigned) step->part)) : NULL;
  GString *heading = g_string_new (_ (info->title));
  GString *values = g_string_new (NULL);
  ExplainStep *words = g_new0 (ExplainStep, 1);

  if (part != NULL)
    g_string_append_printf (heading, " — %s", part);
  if (scenario[0] != '\0')
    g_string_append_printf (heading, " (%s)", scenario);
  for (unsigned i = 1; i < step_n_symbols (step->id); i++) {
    g_autofree char *text = symbol_words (&info->symbols[i], step->values[i], style);

    g_string_append_printf (values, "%s%s", i > 1 ? "; " : "", text);
  }
  words->heading = g_string_free (heading, FALSE);
  words->formula = g_strdup (info->formula);
  words->values = g_string_free (values, FALSE);
  words->result = symbol_words (&info->symbols[0], step->values[0], style);
  words->source = g_strdup (_ (info->source));
  return words;
}

GPtrArray *
explain_steps (const Design *design, const Trace *trace, const NumberStyle *style)
{
  GPtrArray *steps = g_ptr_array_new_with_free_func (explain_step_free);

  for (unsigned i = 0; i < trace_n_steps (trace); i++)
    g_ptr_array_add (steps, step_words (design, trace_step (trace, i), style));
  return steps;
}

static bool
belongs_to (const Design *design, int part, int owner)
{
  const Part *at = part >= 0 ? design_part (design, (unsigned) part) : NULL;

  while (at != NULL && design_index (design, part_key (at)) != owner)
    at = design_owner (design, at);
  return at != NULL;
}

/* Adds the steps of a kind (N_STEPS: of all) of a part (-1: of all). */
static void
add_steps_of (GPtrArray *steps, const Design *design, const Trace *trace, int part, StepId id,
              const NumberStyle *style)
{
  for (unsigned i = 0; i < trace_n_steps (trace); i++) {
    const Step *step = trace_step (trace, i);

    if ((id == N_STEPS || (step->id == id && step->scenario != SCENARIO_POWER_OFF_PLUGGED)) &&
        (part < 0 || belongs_to (design, step->part, part)))
      g_ptr_array_add (steps, step_words (design, step, style));
  }
}

GPtrArray *
explain_steps_of (const Design *design, const Trace *trace, int part, const StepId *ids,
                  const NumberStyle *style)
{
  static const StepId all[] = {N_STEPS, N_STEPS};
  GPtrArray *steps = g_ptr_array_new_with_free_func (explain_step_free);
  const Part *owner = part >= 0 ? design_owner (design, design_part (design, (unsigned) part)) : NULL;
  const int places[] = {part, owner != NULL ? design_index (design, part_key (owner)) : -1, -1};
  const StepId *wanted = ids != NULL ? ids : all;

  for (unsigned i = 0; i < G_N_ELEMENTS (places) && steps->len == 0; i++) {
    const StepId *id = wanted;

    do
      add_steps_of (steps, design, trace, places[i], *id, style);
    while (*id++ != N_STEPS && *id != N_STEPS);
  }
  return steps;
}

GPtrArray *
explain_assumptions (const Design *design, const Catalogue *catalogue, const NumberStyle *style)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (g_free);

  for (unsigned i = 0; i < design_n_parts (design); i++) {
    const Part *part = design_part (design, i);
    const PartKind kind = part_kind (part);

    if (kind == PART_CORNER || kind == PART_CANDIDATE)
      continue;
    for (FieldId id = field_first (kind); id < field_first (kind) + field_count (kind); id++) {
      const FieldType type = field_info (id)->type;

      if (part_is_given (part, id) || type == FIELD_TEXT || !design_applies (design, part, id))
        continue;
      g_autofree char *name = words_part (design, part);
      g_autofree char *value = words_value (design, catalogue, part, id, style);

      g_ptr_array_add (list, words_fill (C_ ("assumption", "{part}: {field} {value} ({basis})"), "field",
                                         words_field (id), "part", name, "value", value, "basis",
                                         words_basis (id), NULL));
    }
  }
  return list;
}

char *
explain_back_line (const Design *design, const BackLine *line)
{
  g_autofree char *part = words_part (design, design_part (design, (unsigned) line->part));

  switch (line->kind) {
  case BACK_DISPLAY_WEIR:
    return g_strdup_printf (_ ("%s, from the running surface to the crest"), part);
  case BACK_DISPLAY_SIPHON:
    return g_strdup_printf (_ ("%s, back through the return until air enters"), part);
  case BACK_BOX:
    return g_strdup_printf (_ ("Box of %s, to its lowest drain mouth"), part);
  case BACK_RUN:
    return g_strdup_printf (_ ("%s, pipe above the sump"), part);
  case BACK_DRAIN:
    return g_strdup_printf (_ ("%s, water in the pipe"), part);
  case N_BACK_KINDS:
  default:
    return g_strdup (part);
  }
}

/* Plain text */

static void
append_findings (GString *text, const Design *design, const Catalogue *catalogue,
                 const Evaluation *evaluation, const NumberStyle *style)
{
  g_string_append_printf (text, "%s\n", _ ("FINDINGS"));
  if (evaluation->n_findings == 0)
    g_string_append_printf (text, "  %s\n", _ ("None."));
  for (unsigned i = 0; i < evaluation->n_findings; i++) {
    const Finding *finding = &evaluation->findings[i];
    g_autofree char *sentence = finding_sentence (design, finding, style);
    g_autofree char *remedy = finding_remedy (design, catalogue, finding, style);

    g_string_append_printf (text, "  %s [%s] %s\n", words_grade (finding->grade), check_word (finding->check),
                            sentence);
    if (remedy != NULL)
      g_string_append_printf (text, "    %s\n", remedy);
  }
}

static void
append_steps (GString *text, const Design *design, const Trace *trace, const NumberStyle *style)
{
  g_autoptr (GPtrArray) steps = explain_steps (design, trace, style);

  g_string_append_printf (text, "\n%s\n", _ ("CALCULATION"));
  for (unsigned i = 0; i < steps->len; i++) {
    const ExplainStep *step = g_ptr_array_index (steps, i);

    g_string_append_printf (text, "\n%u. %s\n", i + 1, step->heading);
    g_string_append_printf (text, "   %s\n", step->formula);
    if (step->values[0] != '\0')
      g_string_append_printf (text, "   %s\n", step->values);
    g_string_append_printf (text, "   → %s\n", step->result);
    if (step->source[0] != '\0')
      g_string_append_printf (text, "   %s: %s\n", _ ("Source"), step->source);
  }
}

static void
append_drain_back (GString *text, const Design *design, const Evaluation *evaluation,
                   const NumberStyle *style)
{
  const DrainBack *back = &evaluation->drain_back;
  g_autofree char *total = units_format (back->total_m3, QUANTITY_VOLUME, style, NULL, UNITS_MEASURE);
  g_autofree char *room = units_format (back->free_m3, QUANTITY_VOLUME, style, NULL, UNITS_MEASURE);

  g_string_append_printf (text, "\n%s\n", _ ("DRAIN-BACK, LITRE BY LITRE"));
  for (unsigned i = 0; i < back->n_lines; i++) {
    g_autofree char *line = explain_back_line (design, &back->lines[i]);
    g_autofree char *amount = units_format (back->lines[i].m3, QUANTITY_VOLUME, style, NULL, UNITS_MEASURE);

    g_string_append_printf (text, "  %12s  %s\n", amount, line);
  }
  g_string_append_printf (text, "  %12s  %s\n  %12s  %s\n", total, _ ("in all"), room,
                          _ ("free in the sump above its running levels"));
}

char *
explain_text (const Design *design, const Catalogue *catalogue, const Evaluation *evaluation,
              const Trace *trace, const NumberStyle *style)
{
  GString *text = g_string_new (NULL);
  g_autofree char *verdict = summary_verdict (evaluation);
  g_autoptr (GPtrArray) assumptions = explain_assumptions (design, catalogue, style);
  g_autoptr (GPtrArray) factors = factor_lines (style);

  g_string_append_printf (text, "%s\n\n", verdict);
  append_findings (text, design, catalogue, evaluation, style);
  g_string_append_printf (text, "\n%s\n", _ ("ASSUMED, AS NOT GIVEN"));
  for (unsigned i = 0; i < assumptions->len; i++)
    g_string_append_printf (text, "  %s\n", (char *) g_ptr_array_index (assumptions, i));
  g_string_append_printf (text, "\n%s\n", _ ("UNCERTAIN"));
  for (unsigned i = 0; i < factors->len; i++)
    g_string_append_printf (text, "  %s\n", (char *) g_ptr_array_index (factors, i));
  append_steps (text, design, trace, style);
  append_drain_back (text, design, evaluation, style);
  return g_string_free (text, FALSE);
}
