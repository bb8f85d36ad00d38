/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For the day of filling, and for the owner afterwards: settings, steps with blanks, cautions. */
#include <glib/gi18n-lib.h>

#include "report/advice.h"
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
  add_cautions (build);
}
