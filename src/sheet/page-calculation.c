/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How each number was computed: drain-back litre by litre, what was assumed, and every step with its source. */
#include <glib/gi18n-lib.h>

#include "report/explain.h"
#include "report/factor-words.h"
#include "sheet/build.h"
#include "sheet/paragraph.h"

#define SIZE   TEXT_SMALL
#define INDENT 10.0

static void
add_back (Build *build, const DrainBack *back, const char *heading)
{
  static const TableColumn columns[] = {{NULL, COLUMN_TEXT}, {NULL, COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  table_set_size (table, SIZE);
  for (unsigned i = 0; i < back->n_lines; i++)
    table_add (table, explain_back_line (build->design, &back->lines[i]),
               build_measure (build, back->lines[i].m3, QUANTITY_VOLUME));
  table_add (table, g_strdup (_ ("In all")), build_measure (build, back->total_m3, QUANTITY_VOLUME));
  table_embolden (table);
  table_add (table, g_strdup (_ ("Free in the sump above its running levels")),
             build_measure (build, back->free_m3, QUANTITY_VOLUME));
  table_add (table, g_strdup (_ ("Still free then; below zero it spills on the floor")),
             build_measure (build, back->margin_m3, QUANTITY_VOLUME));
  table_embolden (table);
  table_flow (table, &build->flow, heading);
}

static void
add_assumptions (Build *build)
{
  g_autoptr (GPtrArray) list = explain_assumptions (build->design, build->catalogue, &build->style);

  if (list->len == 0)
    return;
  flow_heading (&build->flow, _ ("Assumed, as not given"), 30);
  for (unsigned i = 0; i < list->len; i++)
    flow_paragraph (&build->flow, g_ptr_array_index (list, i), SIZE, false);
}

static void
add_factors (Build *build)
{
  g_autoptr (GPtrArray) list = factor_lines (&build->style);

  flow_heading (&build->flow, _ ("Uncertain, and how much"), 30);
  for (unsigned i = 0; i < list->len; i++)
    flow_paragraph (&build->flow, g_ptr_array_index (list, i), SIZE, false);
}

static void
add_step (Build *build, unsigned number, const ExplainStep *step)
{
  Flow *flow = &build->flow;
  g_autofree char *heading = g_strdup_printf ("%u. %s", number, step->heading);
  g_autofree char *result = g_strdup_printf ("→ %s", step->result);

  flow_gap (flow, 4);
  flow_need (flow, 4 * PARAGRAPH_PITCH * SIZE);
  flow_paragraph (flow, heading, SIZE, true);
  flow_indented (flow, step->formula, SIZE, false, INDENT);
  if (step->values[0] != '\0')
    flow_indented (flow, step->values, SIZE, false, INDENT);
  flow_indented (flow, result, SIZE, true, INDENT);
  if (step->source[0] != '\0') {
    g_autofree char *source = g_strdup_printf (_ ("Source: %s"), step->source);

    flow_indented (flow, source, SIZE, false, INDENT);
  }
}

void
build_calculation_pages (Build *build)
{
  g_autoptr (GPtrArray) steps = explain_steps (build->design, build->trace, &build->style);

  flow_section (&build->flow, _ ("Calculation"), 2);
  add_back (build, &build->evaluation->drain_back, _ ("Drain-back after a power cut, line by line"));
  add_back (build, &build->evaluation->plugged, _ ("The same with every siphon break plugged"));
  add_assumptions (build);
  add_factors (build);
  if (steps->len > 0)
    flow_heading (&build->flow, _ ("How each number was computed"), 40);
  for (unsigned i = 0; i < steps->len; i++)
    add_step (build, i + 1, g_ptr_array_index (steps, i));
}
