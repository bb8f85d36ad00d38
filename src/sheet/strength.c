/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* First figures for whoever checks panes, rails and floor: bending of the display's panes, the wooden rail that carries its
 * weight, the load on the floor. Advice only. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "design/geometry.h"
#include "hydraulics/beam.h"
#include "hydraulics/load.h"
#include "hydraulics/plate.h"
#include "sheet/strength.h"

/* Annealed glass: 70 GPa and 0.23 by EN 572-1. Of its two limits the stricter: 7.2 MPa for a permanent load (from memory),
 * and 19.2 MPa over 3.8 (common practice, no source). */
#define GLASS_YOUNG_PA 70e9
#define GLASS_POISSON  0.23
#define GLASS_MOST_PA  (19.2e6 / 3.8)
/* Softwood C24 by EN 338, 11 GPa, over 1 + 0.6 for creep by EN 1995-1-1 (from memory); a common plank; common practice. */
#define WOOD_YOUNG_PA    6.9e9
#define RAIL_WIDTH_M     0.045
#define RAILS            2
#define DEFLECTION_SHARE (1.0 / 500)
#define TRIAL_MOMENT_M4  1e-6
#define STANDARD_GRAVITY 9.80665

/* A pane between two others, water up to its rim, its upper edge free. */
static void
add_pane (Build *build, Table *table, const char *name, double width_m, double height_m, double thickness_m,
          double density_kg_m3)
{
  const Plate plate = {.edges = PLATE_FREE_TOP_3_SUPPORTED,
                       .load = PLATE_HYDROSTATIC,
                       .density_kg_m3 = density_kg_m3,
                       .width_m = width_m,
                       .height_m = height_m,
                       .thickness_m = thickness_m,
                       .young_pa = GLASS_YOUNG_PA,
                       .poisson = GLASS_POISSON};
  PlateBending bending = {.max_principal_stress_pa = (double) NAN, .max_deflection_m = (double) NAN};
  const HydraulicsStatus status = plate_bend (&plate, &bending);
  const bool known = status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE;

  table_add (table, g_strdup (name), build_bore (build, thickness_m),
             build_measure (build, bending.max_deflection_m, QUANTITY_DIAMETER),
             build_measure (build, bending.max_principal_stress_pa, QUANTITY_STRESS),
             g_strdup (!known || isnan (bending.max_principal_stress_pa) ? _ ("not known")
                       : bending.max_principal_stress_pa > GLASS_MOST_PA ? _ ("too much without a brace")
                                                                         : _ ("within")));
}

static void
add_panes (Build *build, double density_kg_m3)
{
  static const TableColumn columns[] = {{N_ ("Pane, rimless, full to its rim"), COLUMN_TEXT},
                                        {N_ ("Glass"), COLUMN_NUMBER},
                                        {N_ ("Bends by"), COLUMN_NUMBER},
                                        {N_ ("Stress"), COLUMN_NUMBER},
                                        {N_ ("Against the limit"), COLUMN_TEXT}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  g_autofree char *limit = build_measure (build, GLASS_MOST_PA, QUANTITY_STRESS);
  g_autofree char *note = g_strdup_printf (
      _ ("Thin plates on three sides by the Ritz method, silicone as a simple support; annealed glass "
         "70 GPa (EN 572-1). The limit is %s: 19.2 MPa over 3.8 (common practice), stricter than 7.2 "
         "MPa for a permanent load (from memory). A brace or rim lowers the stress; a scratch or a "
         "hole raises it."),
      limit);

  for (unsigned i = 0; i < design_count (build->design, PART_TANK); i++) {
    const Part *tank = design_nth (build->design, PART_TANK, i);
    const double glass_m = build_number (build, tank, FIELD_TANK_GLASS),
                 height_m = fmin (build_number (build, tank, FIELD_TANK_RIM),
                                  build_number (build, tank, FIELD_TANK_HEIGHT)) -
                            build_number (build, tank, FIELD_TANK_BOTTOM);

    add_pane (build, table, _ ("Display, front and back"),
              build_number (build, tank, FIELD_TANK_LENGTH) - 2 * glass_m, height_m, glass_m, density_kg_m3);
    add_pane (build, table, _ ("Display, ends"), build_number (build, tank, FIELD_TANK_WIDTH) - 2 * glass_m,
              height_m, glass_m, density_kg_m3);
  }
  table_flow (table, &build->flow, _ ("Panes"));
  build_note (build, note);
}

/* Depth of a wooden rail that bends by no more than 1/500 of its span, two of them carrying the top between the ends. */
static double
rail_depth_m (double span_m, double on_top_kg)
{
  const Beam beam = {.support = BEAM_SIMPLE,
                     .load = BEAM_UNIFORM,
                     .load_value = on_top_kg * STANDARD_GRAVITY / RAILS / span_m,
                     .length_m = span_m,
                     .young_pa = WOOD_YOUNG_PA,
                     .second_moment_m4 = TRIAL_MOMENT_M4};
  double deflection_m = 0;

  if (beam_max_deflection (&beam, &deflection_m) != HYDRAULICS_OK)
    return (double) NAN;
  return cbrt (12 * TRIAL_MOMENT_M4 * deflection_m / (DEFLECTION_SHARE * span_m) / RAIL_WIDTH_M);
}

void
build_strength (Build *build, const Part *stand, const Weights *weights)
{
  static const TableColumn columns[] = {{N_ ("Stand and floor"), COLUMN_TEXT}, {N_ ("About"), COLUMN_NUMBER}};
  g_autoptr (Table) table = table_new (columns, G_N_ELEMENTS (columns));
  const Box3 out = geometry_outside (build->design, stand);
  g_autofree char *width = build_bore (build, RAIL_WIDTH_M);
  g_autofree char *rail = g_strdup_printf (
      _ ("Depth of each of two long rails of softwood, %s thick, free between the ends"), width);
  double pressure_pa = (double) NAN;

  add_panes (build, weights->density_kg_m3);
  load_floor_pressure (weights->total_kg, out.size.x * out.size.y, &pressure_pa);
  table_add (
      table, g_steal_pointer (&rail),
      build_size (build, rail_depth_m (build_number (build, stand, FIELD_STAND_LENGTH), weights->on_top_kg)));
  table_add (table, g_strdup (_ ("Load on the floor, spread over the whole plan of the stand")),
             build_measure (build, pressure_pa, QUANTITY_STRESS));
  table_flow (table, &build->flow, _ ("Rails and floor"));
  build_note (
      build,
      _ ("Rails: 1/500 of the span (common practice), softwood C24 (EN 338) with creep (EN 1995-1-1, from "
         "memory); a post in the middle makes them far lighter. On feet the floor is pressed many times as "
         "hard. First figures only: a licensed person decides, and local codes come first."));
}
