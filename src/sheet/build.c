/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/build.h"

#include "sheet/paragraph.h"
#include "solver/system.h"

Rehearsed *
build_rehearse (Design *design, Catalogue *catalogue, const Evaluation *evaluation)
{
  System *system = system_compile (design, catalogue, NULL, NULL);
  g_autoptr (Rehearser) rehearser = NULL;
  Rehearsed *rehearsed;

  if (system == NULL)
    return NULL;
  rehearser = rehearser_new (system);
  rehearsed = g_new0 (Rehearsed, N_FAILURES);
  for (unsigned i = 0; i < N_FAILURES; i++) {
    const FailureId failure = (FailureId) i;

    rehearse_failures (system, evaluation, rehearser, &failure, 1, NULL, NULL, NULL, &rehearsed[i]);
  }
  g_clear_pointer (&rehearser, rehearser_free);
  system_free (system);
  return rehearsed;
}

char *
build_size (const Build *build, double length_m)
{
  return units_format (length_m, QUANTITY_LENGTH, &build->style, NULL, UNITS_BUILD);
}

char *
build_bore (const Build *build, double diameter_m)
{
  return units_format (diameter_m, QUANTITY_DIAMETER, &build->style, NULL, UNITS_BUILD);
}

char *
build_measure (const Build *build, double value, Quantity quantity)
{
  return units_format (value, quantity, &build->style, NULL, UNITS_MEASURE);
}

char *
build_box (const Build *build, double length_m, double width_m, double height_m)
{
  const Unit *unit = units_unit_for (QUANTITY_LENGTH, &build->style);
  const double sizes[] = {length_m, width_m, height_m};
  g_autofree char *symbol = units_symbol (unit, &build->style);
  GString *text = g_string_new (NULL);

  for (unsigned i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_autofree char *number =
        units_format_number (sizes[i], QUANTITY_LENGTH, &build->style, unit, UNITS_BUILD);

    g_string_append_printf (text, "%s%s", i > 0 ? " × " : "", number);
  }
  g_string_append_printf (text, UNITS_SPACE "%s", symbol);
  return g_string_free (text, FALSE);
}

double
build_number (const Build *build, const Part *part, FieldId field)
{
  return design_number (build->design, part, field);
}

char *
build_field (const Build *build, const Part *part, FieldId field)
{
  return units_format (build_number (build, part, field), field_info (field)->quantity, &build->style, NULL,
                       UNITS_BUILD);
}

static Rect
put_figure (Build *build, SceneKind kind, SceneProjection projection, unsigned layers, double height,
            double least_beside)
{
  Figure *figure = figure_new (build->design, build->catalogue, build->evaluation, &build->style, kind,
                               projection, layers, build->engine, build->flow.content.width, height);

  return flow_figure (&build->flow, figure, least_beside);
}

Rect
build_figure (Build *build, SceneKind kind, unsigned layers, double height, double least_beside)
{
  return put_figure (build, kind, PROJECTION_FRONT, layers, height, least_beside);
}

Rect
build_view (Build *build, SceneProjection projection, unsigned layers, double height, double least_beside)
{
  return put_figure (build, SCENE_SYSTEM, projection, layers, height, least_beside);
}

void
build_note (Build *build, const char *text)
{
  g_autoptr (GPtrArray) lines =
      paragraph_break (build->engine, text, flow_width (&build->flow), TEXT_SMALL, false);

  flow_gap (&build->flow, 3);
  flow_need (&build->flow, lines->len * PARAGRAPH_PITCH * TEXT_SMALL);
  flow_paragraph (&build->flow, text, TEXT_SMALL, false);
}
