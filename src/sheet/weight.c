/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "sheet/weight.h"

#include "design/geometry.h"
#include "hydraulics/water.h"

/* Share of a bed of sand or gravel that is solid (common practice, as for its displacement). */
#define SOLID_SHARE 0.6

/* Five panes: what the outside holds less the room inside, which ends at the top edge. */
static double
glass_kg (double length, double width, double height, double pane, double bottom)
{
  const double room = (length - 2 * pane) * (width - 2 * pane) * (height - bottom);

  return WEIGHT_GLASS_KG_M3 * (length * width * height - room);
}

static double
tank_glass (const Design *design, const Part *tank)
{
  return glass_kg (
      design_number (design, tank, FIELD_TANK_LENGTH), design_number (design, tank, FIELD_TANK_WIDTH),
      design_number (design, tank, FIELD_TANK_HEIGHT), design_number (design, tank, FIELD_TANK_GLASS),
      design_number (design, tank, FIELD_TANK_BOTTOM));
}

static double
sump_glass (const Design *design, const Part *sump)
{
  return glass_kg (
      design_number (design, sump, FIELD_SUMP_LENGTH), design_number (design, sump, FIELD_SUMP_WIDTH),
      design_number (design, sump, FIELD_SUMP_HEIGHT), design_number (design, sump, FIELD_SUMP_GLASS),
      design_number (design, sump, FIELD_SUMP_BOTTOM));
}

/* Solids in a display: the bed, and rock as the share of the water above it that it displaces. */
static double
rock_kg (const Design *design, const Part *tank, double display_z)
{
  const Box3 in = geometry_inside (design, tank);
  const double bed = design_number (design, tank, FIELD_TANK_SUBSTRATE), area = in.size.x * in.size.y;
  const double rock = design_number (design, tank, FIELD_TANK_ROCK) * area * (display_z - in.origin.z);

  return WEIGHT_ROCK_KG_M3 * (area * bed * SOLID_SHARE + rock);
}

Weights
weights_of (const Design *design, const Evaluation *evaluation)
{
  const Part *room = design_nth (design, PART_ROOM, 0);
  Weights weights = {0};
  double density = 1000, display_m3 = 0, reservoir_m3 = 0;

  water_density (design_number (design, room, FIELD_ROOM_WATER_TEMPERATURE),
                 design_number (design, room, FIELD_ROOM_SALINITY), &density);
  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    if (evaluation->vessels[i].kind != VESSEL_TANK && evaluation->vessels[i].kind != VESSEL_CHAMBER)
      display_m3 += evaluation->vessels[i].running_m3;
  for (unsigned i = 0; i < evaluation->n_tanks; i++) {
    const Part *tank = design_part (design, (unsigned) evaluation->tanks[i].part);

    weights.tank_glass_kg += tank_glass (design, tank);
    weights.rock_kg += rock_kg (design, tank, evaluation->tanks[i].display_z);
    display_m3 += evaluation->tanks[i].net_water_m3;
  }
  for (unsigned i = 0; i < design_count (design, PART_SUMP); i++)
    weights.sump_glass_kg += sump_glass (design, design_nth (design, PART_SUMP, i));
  for (unsigned i = 0; i < design_count (design, PART_RESERVOIR); i++)
    reservoir_m3 += design_number (design, design_nth (design, PART_RESERVOIR, i), FIELD_RESERVOIR_VOLUME);
  weights.density_kg_m3 = density;
  weights.display_water_kg = density * display_m3;
  weights.on_top_kg = weights.display_water_kg + weights.tank_glass_kg + weights.rock_kg;
  weights.sump_water_kg = density * (evaluation->totals.total_water_m3 - display_m3) + 1000 * reservoir_m3;
  weights.total_kg = weights.on_top_kg + weights.sump_water_kg + weights.sump_glass_kg;
  return weights;
}
