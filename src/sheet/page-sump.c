/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* For the sump builder: the sump in section, its panels and baffles, the chambers with their levels, the two marks, and
 * what stands in it at which depth of water. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "design/choices.h"
#include "design/geometry.h"
#include "report/words.h"
#include "sheet/build.h"

typedef struct {
  const char *name;
  unsigned count;
  double length_m, width_m, thickness_m;
} Panel;

static void
add_panel (Build *build, Table *table, const Panel *panel)
{
  table_add (table, g_strdup_printf ("%u", panel->count), g_strdup (panel->name),
             build_size (build, panel->length_m), build_size (build, panel->width_m),
             build_bore (build, panel->thickness_m));
}

/* The bottom carries the walls, and the ends stand between front and back: said on the sheet. */
static void
add_panels (Build *build, const Part *sump)
{
  static const TableColumn columns[] = {{N_ ("Number"), COLUMN_NUMBER},
                                        {N_ ("Panel"), COLUMN_TEXT},
                                        {N_ ("Length"), COLUMN_BUILT},
                                        {N_ ("Height or width"), COLUMN_BUILT},
                                        {N_ ("Thickness"), COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const double length = build_number (build, sump, FIELD_SUMP_LENGTH);
  const double width = build_number (build, sump, FIELD_SUMP_WIDTH);
  const double glass = build_number (build, sump, FIELD_SUMP_GLASS);
  const double bottom = build_number (build, sump, FIELD_SUMP_BOTTOM);
  const double wall = build_number (build, sump, FIELD_SUMP_HEIGHT) - bottom;
  const Panel panels[] = {{_ ("Bottom, under the walls"), 1, length, width, bottom},
                          {_ ("Front and back"), 2, length, wall, glass},
                          {_ ("Ends, between front and back"), 2, width - 2 * glass, wall, glass}};

  for (unsigned i = 0; i < G_N_ELEMENTS (panels); i++)
    add_panel (build, table, &panels[i]);
  for (unsigned i = 0; i < design_n_children (build->design, part_key (sump), PART_BAFFLE); i++) {
    const Part *baffle = design_child (build->design, part_key (sump), PART_BAFFLE, i);
    g_autofree char *name = words_part (build->design, baffle);
    const Panel panel = {name, 1, width - 2 * glass,
                         build_number (build, baffle, FIELD_BAFFLE_HEIGHT) -
                             build_number (build, baffle, FIELD_BAFFLE_GAP),
                         build_number (build, baffle, FIELD_BAFFLE_THICKNESS)};

    add_panel (build, table, &panel);
  }
  table_flow (table, &build->flow, _ ("Panels, sizes without joints"));
  build_note (
      build,
      _ ("Take off the joints as you make them. Thicknesses are what the designer assumed: have panes, "
         "bracing and joints dimensioned by someone who does so for a living. Free edges ground; a "
         "baffle that is lifted out needs guides and play."));
}

static void
add_baffles (Build *build, const Part *sump)
{
  static const TableColumn columns[] = {{N_ ("Baffle"), COLUMN_TEXT},
                                        {N_ ("Water passes"), COLUMN_TEXT},
                                        {N_ ("Left face from inside left"), COLUMN_BUILT},
                                        {N_ ("Top edge"), COLUMN_BUILT},
                                        {N_ ("Gap beneath"), COLUMN_BUILT},
                                        {N_ ("Service"), COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < design_n_children (build->design, part_key (sump), PART_BAFFLE); i++) {
    const Part *baffle = design_child (build->design, part_key (sump), PART_BAFFLE, i);
    const int kind = design_choice (build->design, baffle, FIELD_BAFFLE_KIND);
    const int service = design_choice (build->design, baffle, FIELD_BAFFLE_SERVICE);

    table_add (table, words_part (build->design, baffle), g_strdup (words_choice (FIELD_BAFFLE_KIND, kind)),
               build_field (build, baffle, FIELD_BAFFLE_X), build_field (build, baffle, FIELD_BAFFLE_HEIGHT),
               build_field (build, baffle, FIELD_BAFFLE_GAP),
               g_strdup (words_choice (FIELD_BAFFLE_SERVICE, service)));
  }
  table_flow (table, &build->flow, _ ("Baffles, heights above the inside bottom"));
}

/* The two lines that are marked on the sump, at the chamber of each pump. */
static void
add_marks (Build *build, const Part *sump)
{
  static const TableColumn columns[] = {{N_ ("Mark on the pane"), COLUMN_TEXT},
                                        {N_ ("Above the inside bottom"), COLUMN_BUILT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const double bottom = geometry_inside (build->design, sump).origin.z;

  for (unsigned i = 0; i < build->evaluation->n_pumps; i++) {
    const VesselState *chamber =
        evaluation_vessel (build->evaluation, build->evaluation->pumps[i].chamber, VESSEL_CHAMBER);

    if (chamber == NULL)
      continue;
    const Part *part = design_part (build->design, (unsigned) chamber->part);
    g_autofree char *name = words_part (build->design, part);

    if (design_owner (build->design, part) != sump)
      continue;
    table_add (table, g_strdup_printf (_ ("%s: fill no higher with the pump off"), name),
               build_size (build, chamber->power_off_z - bottom));
    table_add (table, g_strdup_printf (_ ("%s: never below while running"), name),
               build_size (build, chamber->running_z - bottom));
  }
  table_flow (table, &build->flow, _ ("Two marks to leave on the sump"));
}

static char *
level_text (const Build *build, double z, double bottom)
{
  return build_size (build, z - bottom);
}

static void
add_chambers (Build *build, const Part *sump)
{
  static const TableColumn columns[] = {
      {N_ ("Chamber"), COLUMN_TEXT},   {N_ ("Inside length"), COLUMN_BUILT},
      {N_ ("Running"), COLUMN_NUMBER}, {N_ ("Power off"), COLUMN_NUMBER},
      {N_ ("Lowest"), COLUMN_NUMBER},  {N_ ("Free above running"), COLUMN_NUMBER},
      {N_ ("Socks"), COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const double bottom = geometry_inside (build->design, sump).origin.z;

  for (unsigned i = 0; i < design_n_children (build->design, part_key (sump), PART_CHAMBER); i++) {
    const Part *chamber = design_child (build->design, part_key (sump), PART_CHAMBER, i);
    const int index = design_index (build->design, part_key (chamber));
    const VesselState *state = evaluation_vessel (build->evaluation, index, VESSEL_CHAMBER);
    const int socks = (int) build_number (build, chamber, FIELD_CHAMBER_SOCKS);

    table_add (table, words_part (build->design, chamber),
               build_size (build, geometry_inside (build->design, chamber).size.x),
               level_text (build, state != NULL ? state->running_z : (double) NAN, bottom),
               level_text (build, state != NULL ? state->power_off_z : (double) NAN, bottom),
               level_text (build, state != NULL ? state->lowest_z : (double) NAN, bottom),
               build_measure (build, state != NULL ? state->free_m3 : (double) NAN, QUANTITY_VOLUME),
               socks > 0 ? g_strdup_printf ("%d", socks) : NULL);
  }
  table_flow (table, &build->flow, _ ("Chambers from left to right, levels above the inside bottom"));
}

static char *
depth_text (const Build *build, const Part *device)
{
  g_autofree char *depth = build_field (build, device, FIELD_DEVICE_DEPTH);
  g_autofree char *play = build_field (build, device, FIELD_DEVICE_DEPTH_TOLERANCE);

  if (!(build_number (build, device, FIELD_DEVICE_DEPTH) > 0))
    return g_strdup ("–");
  return g_strdup_printf ("%s ±%s", depth, play);
}

static double
running_depth (const Build *build, const Part *device)
{
  const int index = design_index (build->design, part_key (device));

  for (unsigned i = 0; i < build->evaluation->n_devices; i++)
    if (build->evaluation->devices[i].part == index)
      return build->evaluation->devices[i].depth_m;
  return NAN;
}

static void
add_device (Build *build, Table *table, const Part *device)
{
  const Part *chamber = design_owner (build->design, device);

  table_add (table, words_part (build->design, device), words_part (build->design, chamber),
             build_box (build, build_number (build, device, FIELD_DEVICE_LENGTH),
                        build_number (build, device, FIELD_DEVICE_WIDTH),
                        build_number (build, device, FIELD_DEVICE_HEIGHT)),
             build_field (build, device, FIELD_DEVICE_STANDS), depth_text (build, device),
             build_size (build, running_depth (build, device)),
             build_field (build, device, FIELD_DEVICE_ROOM));
}

static void
add_pump (Build *build, Table *table, const Part *pump)
{
  const Part *chamber = design_owner (build->design, pump);

  table_add (
      table, words_part (build->design, pump), words_part (build->design, chamber),
      build_box (build, build_number (build, pump, FIELD_PUMP_LENGTH),
                 build_number (build, pump, FIELD_PUMP_WIDTH), build_number (build, pump, FIELD_PUMP_HEIGHT)),
      design_choice (build->design, pump, FIELD_PUMP_PLACING) == PUMP_OUTSIDE ? g_strdup (_ ("outside"))
                                                                              : NULL,
      NULL, NULL, NULL);
}

static void
add_devices (Build *build, const Part *sump)
{
  static const TableColumn columns[] = {{N_ ("Device"), COLUMN_TEXT},
                                        {N_ ("Chamber"), COLUMN_TEXT},
                                        {N_ ("Length × width × height"), COLUMN_NUMBER},
                                        {N_ ("Stands at"), COLUMN_NUMBER},
                                        {N_ ("Water depth wanted"), COLUMN_NUMBER},
                                        {N_ ("Water depth running"), COLUMN_NUMBER},
                                        {N_ ("Room above"), COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));

  for (unsigned i = 0; i < design_n_parts (build->design); i++) {
    const Part *part = design_part (build->design, i), *chamber = design_owner (build->design, part);

    if (chamber == NULL || design_owner (build->design, chamber) != sump)
      continue;
    if (part_kind (part) == PART_DEVICE)
      add_device (build, table, part);
    if (part_kind (part) == PART_PUMP)
      add_pump (build, table, part);
  }
  table_flow (table, &build->flow, _ ("What stands in the sump"));
}

void
build_sump_pages (Build *build)
{
  const unsigned layers = ALL_LAYERS & ~LAYER_BIT (LAYER_FINDINGS);
  Flow *flow = &build->flow;

  for (unsigned i = 0; i < design_count (build->design, PART_SUMP); i++) {
    const Part *sump = design_nth (build->design, PART_SUMP, i);
    unsigned before;

    flow_section (flow, _ ("Sump"), 2);
    if (i == 0)
      build_figure (build, SCENE_SUMP, layers, 0.62 * flow->content.height, 95 * SHEET_MM);
    add_panels (build, sump);
    add_marks (build, sump);
    /* From the next page on over the whole width: tables of many columns. */
    flow->columns = 1;
    before = flow->pages->len;
    add_baffles (build, sump);
    if (flow->pages->len == before)
      flow_page (flow, 1);
    add_chambers (build, sump);
    add_devices (build, sump);
  }
}
