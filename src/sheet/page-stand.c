/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For the cabinet maker: the stand in section, its clear sizes and door, what stands in it, the weights that it carries,
 * and where pipes pass through its top. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "design/choices.h"
#include "design/geometry.h"
#include "report/words.h"
#include "sheet/build.h"
#include "sheet/strength.h"
#include "sheet/weight.h"

static void
add_sizes (Build *build, const Part *stand)
{
  static const FieldId fields[] = {
      FIELD_STAND_LENGTH,     FIELD_STAND_WIDTH,       FIELD_STAND_HEIGHT,
      FIELD_STAND_DOOR_WIDTH, FIELD_STAND_DOOR_HEIGHT, FIELD_STAND_FLOOR,
      FIELD_STAND_TOP,        FIELD_STAND_WALL,        FIELD_STAND_SOCKET_HEIGHT};
  static const TableColumn columns[] = {{N_ ("Clear sizes"), COLUMN_TEXT}, {N_ ("Size"), COLUMN_BUILT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const Box3 out = geometry_outside (build->design, stand);

  for (unsigned i = 0; i < G_N_ELEMENTS (fields); i++)
    table_add (table, g_strdup (words_field (fields[i])), build_field (build, stand, fields[i]));
  table_add (table, g_strdup (_ ("Outside length")), build_size (build, out.size.x));
  table_add (table, g_strdup (_ ("Outside width")), build_size (build, out.size.y));
  table_flow (table, &build->flow, _ ("Stand"));
  build_note (
      build,
      _ ("The sump goes in through the door opening: hinges, frame and handles must leave it clear. The "
         "top must be flat and level under the whole tank. Sockets hang high and off the splash line; "
         "every cable makes a drip loop."));
}

static void
add_content (Build *build, Table *table, const Part *part, const char *remark)
{
  const Box3 box = geometry_outside (build->design, part),
             in = geometry_inside (build->design, design_nth (build->design, PART_STAND, 0));

  table_add (table, words_part (build->design, part), build_box (build, box.size.x, box.size.y, box.size.z),
             build_size (build, box.origin.x - in.origin.x), g_strdup (remark));
}

static void
add_contents (Build *build)
{
  static const TableColumn columns[] = {{N_ ("What stands inside"), COLUMN_TEXT},
                                        {N_ ("Length × width × height"), COLUMN_NUMBER},
                                        {N_ ("From the left"), COLUMN_NUMBER},
                                        {N_ ("Remark"), COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < design_count (build->design, PART_SUMP); i++)
    add_content (build, table, design_nth (build->design, PART_SUMP, i), _ ("keep the room above it clear"));
  for (unsigned i = 0; i < design_count (build->design, PART_RESERVOIR); i++)
    add_content (build, table, design_nth (build->design, PART_RESERVOIR, i), _ ("to be filled by hand"));
  for (unsigned i = 0; i < design_count (build->design, PART_PUMP); i++) {
    const Part *pump = design_nth (build->design, PART_PUMP, i);

    if (design_choice (build->design, pump, FIELD_PUMP_PLACING) == PUMP_OUTSIDE)
      add_content (build, table, pump, _ ("on a soft mat, lower than the water"));
  }
  table_flow (table, &build->flow, _ ("Inside the stand"));
}

static void
add_weights (Build *build, const Part *stand)
{
  static const TableColumn columns[] = {{N_ ("Weight, filled"), COLUMN_TEXT}, {N_ ("Mass"), COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const Weights weights = weights_of (build->design, build->evaluation);
  g_autofree char *glass = build_measure (build, WEIGHT_GLASS_KG_M3, QUANTITY_DENSITY);
  g_autofree char *rock = build_measure (build, WEIGHT_ROCK_KG_M3, QUANTITY_DENSITY);
  g_autofree char *basis = g_strdup_printf (_ ("Glass is taken as %s (EN 572-1), the solids of rock and "
                                               "substrate as %s (common practice, no source); "
                                               "braces, lights and devices are not in it."),
                                            glass, rock);

  table_add (table, g_strdup (_ ("Water in the display and its boxes")),
             build_measure (build, weights.display_water_kg, QUANTITY_MASS));
  table_add (table, g_strdup (_ ("Glass of the display")),
             build_measure (build, weights.tank_glass_kg, QUANTITY_MASS));
  table_add (table, g_strdup (_ ("Rock and substrate, about")),
             build_measure (build, weights.rock_kg, QUANTITY_MASS));
  table_add (table, g_strdup (_ ("On the top of the stand")),
             build_measure (build, weights.on_top_kg, QUANTITY_MASS));
  table_embolden (table);
  table_add (table, g_strdup (_ ("Water in sump and pipes after a power cut, and reservoir")),
             build_measure (build, weights.sump_water_kg, QUANTITY_MASS));
  table_add (table, g_strdup (_ ("Glass of the sump")),
             build_measure (build, weights.sump_glass_kg, QUANTITY_MASS));
  table_add (table, g_strdup (_ ("On the floor, without the stand itself")),
             build_measure (build, weights.total_kg, QUANTITY_MASS));
  table_embolden (table);
  table_flow (table, &build->flow, _ ("What the stand carries"));
  flow_gap (&build->flow, 4);
  flow_paragraph (
      &build->flow,
      _ ("Caution: have the structure of the stand and the floor under it checked by a licensed person, with "
         "the weight on its feet and not only on its plan. Local codes come first."),
      TEXT_BODY, true);
  build_note (build, basis);
  build_strength (build, stand, &weights);
}

/* Where a leg of a run meets the middle of a panel of the stand. */
typedef struct {
  Box3 in;      /* of the stand */
  double top_z; /* middle of its top */
  double back_y;
} Panels;

static bool
is_between (double value, double from, double size)
{
  return value > from && value < from + size;
}

static void
add_hole (Build *build, Table *table, const Part *run, Point3 at, const Panels *panels, const char *where)
{
  const FieldId field = part_kind (run) == PART_DRAIN ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE;
  const PipeSize *size = catalogue_find_pipe (build->catalogue, design_text (build->design, run, field));
  const bool through_top = fabs (at.z - panels->top_z) < 1e-9;

  table_add (table, words_part (build->design, run),
             build_bore (build, size != NULL ? size->outside_m : (double) NAN),
             build_size (build, at.x - panels->in.origin.x),
             through_top ? build_size (build, at.y - panels->in.origin.y) : g_strdup ("–"),
             through_top ? g_strdup ("–") : build_size (build, at.z - panels->in.origin.z), g_strdup (where));
}

static void
add_leg_holes (Build *build, Table *table, const Part *run, const Point3 *a, const Point3 *b,
               const Panels *panels)
{
  const Box3 *in = &panels->in;

  if ((a->z - panels->top_z) * (b->z - panels->top_z) < 0) {
    const double t = (panels->top_z - a->z) / (b->z - a->z);
    const Point3 at = {a->x + t * (b->x - a->x), a->y + t * (b->y - a->y), panels->top_z};

    if (is_between (at.x, in->origin.x, in->size.x) && is_between (at.y, in->origin.y, in->size.y))
      add_hole (build, table, run, at, panels, _ ("through the top"));
    else
      add_hole (build, table, run, at, panels, _ ("passes beside the stand"));
  }
  if ((a->y - panels->back_y) * (b->y - panels->back_y) < 0) {
    const double t = (panels->back_y - a->y) / (b->y - a->y);
    const Point3 at = {a->x + t * (b->x - a->x), panels->back_y, a->z + t * (b->z - a->z)};

    if (is_between (at.x, in->origin.x, in->size.x) && is_between (at.z, in->origin.z, in->size.z))
      add_hole (build, table, run, at, panels, _ ("through the back"));
  }
}

static void
add_run_holes (Build *build, Table *table, const Part *run, const Panels *panels)
{
  const unsigned n = geometry_run (build->design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);

  geometry_run (build->design, run, points, n);
  for (unsigned i = 0; i + 1 < n; i++)
    add_leg_holes (build, table, run, &points[i], &points[i + 1], panels);
}

static void
add_holes (Build *build, const Part *stand)
{
  static const TableColumn columns[] = {{N_ ("Pipe"), COLUMN_TEXT},
                                        {N_ ("Outside"), COLUMN_NUMBER},
                                        {N_ ("Centre from inside left"), COLUMN_BUILT},
                                        {N_ ("from inside front"), COLUMN_BUILT},
                                        {N_ ("above inside floor"), COLUMN_BUILT},
                                        {N_ ("Where"), COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const Box3 in = geometry_inside (build->design, stand), out = geometry_outside (build->design, stand);
  const Panels panels = {in, (in.origin.z + in.size.z + out.origin.z + out.size.z) / 2,
                         (in.origin.y + in.size.y + out.origin.y + out.size.y) / 2};

  for (unsigned i = 0; i < design_count (build->design, PART_DRAIN); i++)
    add_run_holes (build, table, design_nth (build->design, PART_DRAIN, i), &panels);
  for (unsigned i = 0; i < design_count (build->design, PART_RETURN); i++)
    add_run_holes (build, table, design_nth (build->design, PART_RETURN, i), &panels);
  if (!table_fits (table, &build->flow))
    flow_page (&build->flow, 1);
  flow_heading (&build->flow, _ ("Holes for pipes and cables"), 160);
  flow_paragraph (&build->flow,
                  _ ("Hole sizes are taken from the part in hand: bulkhead nuts and unions are wider than "
                     "their pipe. Agree the holes with the plumber before cutting, and seal the edges. A "
                     "cable hole goes high in the back or side, above the power-off level, as wide as the "
                     "largest plug."),
                  TEXT_SMALL, false);
  flow_gap (&build->flow, 4);
  table_flow (table, &build->flow, NULL);
}

void
build_stand_pages (Build *build)
{
  const unsigned layers = ALL_LAYERS & ~LAYER_BIT (LAYER_FINDINGS);
  const Part *stand = design_nth (build->design, PART_STAND, 0);
  Flow *flow = &build->flow;

  if (stand == NULL)
    return;
  flow_section (flow, _ ("Stand"), 2);
  build_figure (build, SCENE_STAND, layers, flow->content.height, 60 * SHEET_MM);
  add_sizes (build, stand);
  add_contents (build);
  add_weights (build, stand);
  add_holes (build, stand);
}
