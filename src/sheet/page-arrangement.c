/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* General arrangement: the whole system in side elevation, the verdict and the key figures. */
#include <glib/gi18n-lib.h>

#include "report/summary.h"
#include "sheet/build.h"

/* Beside a wide drawing the figures are set smaller, so that they stay on the sheet with it. */
#define NARROW      (66 * SHEET_MM)
#define TEXT_NARROW 8.4

static void
add_figures (Build *build)
{
  static const TableColumn columns[] = {{NULL, COLUMN_TEXT}, {NULL, COLUMN_NUMBER}};
  g_autoptr (GPtrArray) figures = summary_figures (build->evaluation, &build->style);
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  if (flow_width (&build->flow) < NARROW)
    table_set_size (table, TEXT_NARROW);
  for (unsigned i = 0; i < figures->len; i++) {
    const SummaryFigure *figure = g_ptr_array_index (figures, i);

    table_add (table, g_strdup (figure->name), g_strdup (figure->value));
  }
  table_flow (table, &build->flow, _ ("Key figures"));
}

void
build_arrangement_page (Build *build)
{
  Flow *flow = &build->flow;
  g_autofree char *verdict = summary_verdict (build->evaluation);

  flow_section (flow, _ ("General arrangement"), 2);
  build_figure (build, SCENE_SYSTEM, ALL_LAYERS, flow->content.height, 48 * SHEET_MM);
  flow_heading (flow, _ ("Verdict"), 20);
  flow_paragraph (flow, verdict, TEXT_BODY, true);
  add_figures (build);
  build_note (build,
              _ ("Lines of a long dash and two dots: levels after a power cut, and parts lifted out."));
  if (build->evaluation->n_findings > 0)
    build_note (
        build,
        _ ("Letters on the drawing are the marks of the findings, on a sheet of their own: octagon stop, "
           "triangle caution, circle note."));
}
