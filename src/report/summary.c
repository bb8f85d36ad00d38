/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "report/summary.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

char *
summary_verdict (const Evaluation *evaluation)
{
  const unsigned stops = evaluation_count (evaluation, GRADE_STOP);
  const unsigned cautions = evaluation_count (evaluation, GRADE_CAUTION);
  const unsigned notes = evaluation_count (evaluation, GRADE_NOTE);
  g_autofree char *stop_words =
      g_strdup_printf (ngettext ("%u stop finding", "%u stop findings", stops), stops);
  g_autofree char *caution_words =
      g_strdup_printf (ngettext ("%u caution", "%u cautions", cautions), cautions);
  g_autofree char *note_words = g_strdup_printf (ngettext ("%u note", "%u notes", notes), notes);

  if (stops == 0)
    return g_strdup_printf (_ ("Sound: no stop finding, %s, %s."), caution_words, note_words);
  return g_strdup_printf (_ ("Not sound: %s, %s, %s."), stop_words, caution_words, note_words);
}

static char *
percent (double ratio)
{
  return isfinite (ratio) ? g_strdup_printf ("%+.0f" UNITS_SPACE "%%", ratio * 100)
                          : g_strdup (UNITS_NO_VALUE);
}

char *
summary_line (const Evaluation *evaluation, const NumberStyle *style)
{
  const Totals *totals = &evaluation->totals;
  g_autofree char *flow = units_format (totals->flow_m3s, QUANTITY_FLOW, style, NULL, UNITS_MEASURE);
  g_autofree char *turnover =
      units_format (totals->turnover_per_h, QUANTITY_TURNOVER, style, NULL, UNITS_MEASURE);
  g_autofree char *margin = percent (totals->drain_margin);

  return words_fill (_ ("Return {flow} · turnover {turnover} · drain margin {margin}"), "flow", flow,
                     "turnover", turnover, "margin", margin, NULL);
}

static void
figure_free (void *data)
{
  SummaryFigure *figure = data;

  g_free (figure->value);
  g_free (figure);
}

static void
add (GPtrArray *list, const char *name, char *value, const StepId steps[SUMMARY_STEPS_MAX + 1])
{
  SummaryFigure *figure = g_new (SummaryFigure, 1);

  *figure = (SummaryFigure){.name = name, .value = value};
  memcpy (figure->steps, steps, sizeof figure->steps);
  g_ptr_array_add (list, figure);
}

GPtrArray *
summary_figures (const Evaluation *evaluation, const NumberStyle *style)
{
  const Totals *totals = &evaluation->totals;
  const DrainBack *back = &evaluation->drain_back;
  GPtrArray *list = g_ptr_array_new_with_free_func (figure_free);
  const StepId top_off[SUMMARY_STEPS_MAX + 1] = {STEP_TOP_OFF, STEP_EVAPORATION, N_STEPS};
  const struct {
    const char *name;
    double value;
    Quantity quantity;
    StepId steps[SUMMARY_STEPS_MAX + 1];
  } rows[] = {
      {_ ("Flow returned to the display"),
       totals->flow_m3s,
       QUANTITY_FLOW,
       {STEP_RETURN_FLOW, STEP_PUMP_DUTY, N_STEPS}},
      {_ ("Turnover"), totals->turnover_per_h, QUANTITY_TURNOVER, {STEP_TURNOVER, N_STEPS}},
      {_ ("Largest velocity in the return"),
       totals->return_velocity_ms,
       QUANTITY_VELOCITY,
       {STEP_PIPE_RUN, N_STEPS}},
      {_ ("Head of the pump"),
       totals->pump_head_m,
       QUANTITY_HEAD,
       {STEP_PUMP_DUTY, STEP_STATIC_HEAD, STEP_PIPE_RUN, N_STEPS}},
      {_ ("Head over the crest"),
       totals->overflow_head_m,
       QUANTITY_LENGTH,
       {STEP_OVERFLOW_HEAD, STEP_COMB_HEAD, STEP_TUBES, N_STEPS}},
      {_ ("Freeboard of the display"),
       totals->freeboard_m,
       QUANTITY_LENGTH,
       {STEP_DISPLAY_LEVEL, STEP_OVERFLOW_HEAD, STEP_COMB_HEAD, N_STEPS}},
      {_ ("Drain capacity at the wanted box level"),
       totals->drain_capacity_m3s,
       QUANTITY_FLOW,
       {STEP_PRIMED, STEP_UNPRIMED, STEP_DRAIN_PIPE, N_STEPS}},
      {_ ("Emergency capacity, box at its rim"),
       totals->drain_blocked_m3s,
       QUANTITY_FLOW,
       {STEP_UNPRIMED, STEP_PRIMED, STEP_EMERGENCY_TAKES, N_STEPS}},
      {_ ("Margin of the flood test"), totals->flood_margin_m, QUANTITY_LENGTH, {STEP_FLOOD, N_STEPS}},
      {_ ("Drain-back"),
       back->total_m3,
       QUANTITY_VOLUME,
       {STEP_BACK_TOTAL, STEP_BACK_DISPLAY, STEP_BACK_BOX, STEP_BACK_RUN, N_STEPS}},
      {_ ("Free in the sump"), back->free_m3, QUANTITY_VOLUME, {STEP_FREE_TOTAL, STEP_FREE_CHAMBER, N_STEPS}},
      {_ ("Freeboard of the sump after a power cut"),
       back->freeboard_m,
       QUANTITY_LENGTH,
       {STEP_POWER_OFF_LEVEL, N_STEPS}},
      {_ ("Total water"), totals->total_water_m3, QUANTITY_VOLUME, {STEP_TOTAL_WATER, N_STEPS}},
      {_ ("Electric power of the return"), totals->pump_power_w, QUANTITY_POWER, {STEP_POWER, N_STEPS}},
      {_ ("Cost of a year"), totals->yearly_cost, QUANTITY_MONEY, {STEP_COST, STEP_POWER, N_STEPS}}};

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    add (list, rows[i].name, units_format (rows[i].value, rows[i].quantity, style, NULL, UNITS_MEASURE),
         rows[i].steps);
  if (isfinite (totals->top_off_days))
    add (list, _ ("Days of top-off"), g_strdup_printf ("%.1f", totals->top_off_days), top_off);
  return list;
}
