/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the water asks for day by day: salt for all of it, its salinity after an overfill, heat or cooling; and which
 * bubbles reach the pump. */
#include "design/choices.h"
#include "hydraulics/bubble.h"
#include "hydraulics/heat.h"
#include "solver/model.h"

#define FRESH_KG_M3 998.0
/* Glass by EN 673; air side by ISO 6946 (1 / 0.13); water side: common practice, no source. */
#define GLASS_W_MK  1.0
#define AIR_W_M2K   7.7
#define WATER_W_M2K 200.0
/* Of a pump outside, the share of its power that ends in the water: common practice, 60 to 70 %. */
#define OUTSIDE_HEAT 0.65

/* Transmittance times area of the upright panes of a vessel up to its level. Bottoms stand on wood and foam. */
static double
panes_w_k (const System *system, int part, FieldId glass, double length_m, double width_m, double depth_m)
{
  double u_w_m2k = 0;

  heat_pane_u_value (field_number (system, part, glass), GLASS_W_MK, WATER_W_M2K, AIR_W_M2K, &u_w_m2k);
  return u_w_m2k * 2 * (length_m + width_m) * fmax (depth_m, 0);
}

static double
all_panes_w_k (const System *system, const Evaluation *evaluation)
{
  const ChamberModel *kept = &system->chambers[system->datum];
  double ua_w_k = panes_w_k (system, system->sump, FIELD_SUMP_GLASS,
                             field_number (system, system->sump, FIELD_SUMP_LENGTH),
                             field_number (system, system->sump, FIELD_SUMP_WIDTH),
                             fmin (kept->level_z, kept->rim_z) - kept->bottom_z);

  for (unsigned i = 0; i < system->n_tanks; i++) {
    const TankModel *tank = &system->tanks[i];

    ua_w_k += panes_w_k (system, tank->part, FIELD_TANK_GLASS, tank->length_m, tank->width_m,
                         evaluation->tanks[i].display_z - tank->bottom_z);
  }
  return ua_w_k;
}

static double
pump_heat_w (const System *system, const Evaluation *evaluation)
{
  double heat_w = 0;

  for (unsigned i = 0; i < system->n_pumps; i++)
    heat_w += (system->pumps[i].outside ? OUTSIDE_HEAT : 1) * evaluation->pumps[i].power_w;
  return heat_w;
}

/* Heat that must be put in, negative where it must be taken out. The heat of lamps is left out: the water must also hold
 * its temperature at night. */
static double
balance_w (const System *system, const Evaluation *evaluation, double evaporation_m3s, Scenario scenario,
           Trace *trace)
{
  const HeatBalance balance = {.evaporation_kg_s = evaporation_m3s * FRESH_KG_M3,
                               .latent_heat_j_kg = system->water.latent_heat_j_kg,
                               .ua_w_k = all_panes_w_k (system, evaluation),
                               .water_c = field_number (system, system->room, FIELD_ROOM_WATER_TEMPERATURE),
                               .air_c = field_number (system, system->room, FIELD_ROOM_AIR_TEMPERATURE),
                               .pump_heat_w = pump_heat_w (system, evaluation)};
  double power_w = NO_NUMBER;

  if (heat_heater_power (&balance, &power_w) == HYDRAULICS_OK)
    trace_add (trace, STEP_HEAT, scenario, system->room,
               (double[]){power_w, balance.evaporation_kg_s, balance.latent_heat_j_kg, balance.ua_w_k,
                          balance.water_c, balance.air_c, balance.pump_heat_w});
  return power_w;
}

/* The chamber in which the water goes down the fastest lets the largest bubbles by. */
static double
held_bubble_m (const System *system, const State *state)
{
  const BubbleWater water = {system->water.density_kg_m3, system->water.dynamic_viscosity_pa_s,
                             system->water.surface_tension_n_m};
  double largest_m = NO_NUMBER;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    const double flow_m3s = fmax (i > 0 ? fabs (state->baffle_m3s[i - 1]) : 0,
                                  i + 1 < system->n_chambers ? fabs (state->baffle_m3s[i]) : 0);
    double held_m = NO_LIMIT;

    if (system->chambers[i].role != CHAMBER_TRAP || !(flow_m3s > 0))
      continue;
    bubble_smallest_held (flow_m3s / system->chambers[i].area_m2, &water, &held_m);
    largest_m = isnan (largest_m) ? held_m : fmax (largest_m, held_m);
  }
  return largest_m;
}

void
fill_upkeep (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  Totals *totals = &evaluation->totals;
  const double salinity = field_number (system, system->room, FIELD_ROOM_SALINITY);
  const double needed_w = balance_w (system, evaluation, totals->fast_evaporation_m3s, SCENARIO_NONE, trace);
  const double likely_w = balance_w (system, evaluation, totals->evaporation_m3s, SCENARIO_RUNNING, trace);

  totals->heater_w = isnan (needed_w) ? needed_w : fmax (needed_w, 0);
  totals->surplus_w = isnan (likely_w) ? likely_w : fmax (-likely_w, 0);
  totals->held_bubble_m = held_bubble_m (system, &workspace->running);
  totals->salt_kg = totals->diluted_g_kg = NO_NUMBER;
  water_salt_mass (fmax (totals->total_water_m3, 0),
                   field_number (system, system->room, FIELD_ROOM_WATER_TEMPERATURE), salinity,
                   &totals->salt_kg);
  if (salinity > 0)
    trace_add (trace, STEP_SALT, SCENARIO_RUNNING, system->room,
               (double[]){totals->salt_kg, totals->total_water_m3, system->water.density_kg_m3, salinity});
  if (system->reservoir < 0)
    return;
  /* Salt stays, fresh water comes to it: shares by mass. */
  const double water_kg = totals->total_water_m3 * system->water.density_kg_m3;
  const double added_kg = FRESH_KG_M3 * field_number (system, system->reservoir, FIELD_RESERVOIR_VOLUME);

  totals->diluted_g_kg = water_kg + added_kg > 0 ? salinity * water_kg / (water_kg + added_kg) : NO_NUMBER;
}
