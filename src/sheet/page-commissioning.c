/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For the day of filling, and for the owner afterwards: settings, steps with blanks, cautions. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "report/advice.h"
#include "report/rehearsal-summary.h"
#include "sheet/build.h"

static void
add_settings (Build *build)
{
  static const TableColumn columns[] = {
      {N_ ("Setting"), COLUMN_TEXT}, {N_ ("Value"), COLUMN_BUILT}, {N_ ("As set"), COLUMN_BLANK}};
  g_autoptr (GPtrArray) settings = advice_settings (build->design, build->evaluation, &build->style);
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < settings->len; i++) {
    const AdviceStep *step = g_ptr_array_index (settings, i);

    table_add (table, g_strdup (step->action), g_strdup (step->predicted), NULL);
  }
  table_flow (table, &build->flow, _ ("Settings"));
}

static void
add_steps (Build *build)
{
  static const TableColumn columns[] = {{N_ ("Step"), COLUMN_NUMBER},
                                        {N_ ("Do and measure"), COLUMN_TEXT},
                                        {N_ ("Predicted"), COLUMN_NUMBER},
                                        {N_ ("Measured, or done"), COLUMN_BLANK}};
  g_autoptr (GPtrArray) steps = advice_commissioning (build->design, build->evaluation, &build->style);
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < steps->len; i++) {
    const AdviceStep *step = g_ptr_array_index (steps, i);

    table_add (table, g_strdup_printf ("%u", i + 1), g_strdup (step->action), g_strdup (step->predicted),
               NULL);
  }
  table_flow (table, &build->flow, _ ("Commissioning"));
  flow_gap (&build->flow, 6);
  flow_need (&build->flow, 30);
  flow_paragraph (&build->flow, _ ("Date, by whom, remarks:"), TEXT_BODY, false);
  for (unsigned i = 0; i < 2; i++) {
    flow_need (&build->flow, 8 * SHEET_MM);
    build->flow.y += 8 * SHEET_MM;
    page_line (build->flow.page, flow_x (&build->flow), build->flow.y,
               flow_x (&build->flow) + flow_width (&build->flow), build->flow.y, LINE_NARROW);
  }
}

static void
add_upkeep_row (Build *build, Table *table, const char *name, double value, Quantity quantity)
{
  if (isfinite (value) && value > 0)
    table_add (table, g_strdup (name), build_measure (build, value, quantity));
}

/* What the owner lives with, in the order of how often it is met. */
static void
add_upkeep (Build *build)
{
  static const TableColumn columns[] = {{N_ ("What to expect"), COLUMN_TEXT},
                                        {N_ ("Predicted"), COLUMN_NUMBER}};
  const Totals *totals = &build->evaluation->totals;
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  add_upkeep_row (build, table, _ ("Evaporation a day, likely"), totals->evaporation_m3s * 86400,
                  QUANTITY_VOLUME);
  add_upkeep_row (build, table, _ ("Evaporation a day, at the most"), totals->fast_evaporation_m3s * 86400,
                  QUANTITY_VOLUME);
  add_upkeep_row (build, table, _ ("The full reservoir lasts"), totals->top_off_days * 86400, QUANTITY_TIME);
  add_upkeep_row (build, table, _ ("Without top-off the pump draws air after"), totals->reserve_s,
                  QUANTITY_TIME);
  add_upkeep_row (build, table, _ ("Salt for all of the water"), totals->salt_kg, QUANTITY_MASS);
  add_upkeep_row (build, table, _ ("Salinity after the whole reservoir ran in"), totals->diluted_g_kg,
                  QUANTITY_SALINITY);
  add_upkeep_row (build, table, _ ("Heater, at the least"), totals->heater_w, QUANTITY_POWER);
  add_upkeep_row (build, table, _ ("Heat to be cooled away, besides the lamps"), totals->surplus_w,
                  QUANTITY_POWER);
  add_upkeep_row (build, table, _ ("Smallest bubble that the bubble trap holds back"), totals->held_bubble_m,
                  QUANTITY_DIAMETER);
  table_flow (table, &build->flow, _ ("Living with it"));
  build_note (build,
              _ ("Evaporation by ASHRAE after Carrier, good to some 30 %; heat by evaporation, panes and "
                 "pumps in the room as given, without lamps. Bubbles scatter by 10 to 20 %. Socks are "
                 "changed every 3 to 5 days to begin with (common practice)."));
}

/* What the owner wants to know before a journey. */
static void
add_failures (Build *build)
{
  g_autofree char *summary = rehearsal_summary (build->rehearsed, N_FAILURES, &build->style);

  flow_heading (&build->flow, _ ("When something fails"), 40);
  flow_paragraph (&build->flow, summary, TEXT_BODY, false);
  build_note (build, rehearsal_caution ());
}

static void
add_cautions (Build *build)
{
  static const TableColumn columns[] = {{NULL, COLUMN_NUMBER}, {NULL, COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < advice_n_cautions (); i++)
    table_add (table, g_strdup_printf ("%u", i + 1), g_strdup (advice_caution (i)));
  table_flow (table, &build->flow, _ ("Cautions"));
}

void
build_commissioning_pages (Build *build)
{
  flow_section (&build->flow, _ ("Settings and commissioning"), 2);
  add_settings (build);
  add_steps (build);
  add_upkeep (build);
  add_failures (build);
  add_cautions (build);
}
