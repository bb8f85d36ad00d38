/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One budget of water, running and at rest; evaporation, top-off, power; the totals. */
#include "design/choices.h"
#include "hydraulics/heat.h"
#include "solver/model.h"

#define SECONDS_A_DAY       86400.0
#define FRESH_KG_M3         998.0
#define LIKELY_ACTIVITY     0.5
#define SIZING_ACTIVITY     1.0
#define ASSUMED_SHARE_A_DAY 0.01
#define ASSUMED_SHARE_MOST  0.02

/* What tank, boxes and pipes hold while running, and at rest. */
static double
boxes_running (const Evaluation *evaluation)
{
  double m3 = 0;

  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    if (evaluation->vessels[i].kind != VESSEL_TANK && evaluation->vessels[i].kind != VESSEL_CHAMBER)
      m3 += evaluation->vessels[i].running_m3;
  return m3;
}

static double
sum_vessels (const Evaluation *evaluation, VesselKind kind)
{
  double m3 = 0;

  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    if (evaluation->vessels[i].kind == kind)
      m3 += evaluation->vessels[i].running_m3;
  return m3;
}

static void
balance (const System *system, Trace *trace, Evaluation *evaluation)
{
  Totals *totals = &evaluation->totals;
  double pipes_m3 = 0, displaced_m3 = 0, rest_m3 = evaluation->drain_back.spilled_m3, running_m3;
  const double tanks_m3 = sum_vessels (evaluation, VESSEL_TANK), boxes_m3 = boxes_running (evaluation),
               chambers_m3 = sum_vessels (evaluation, VESSEL_CHAMBER);

  for (unsigned i = 0; i < evaluation->n_runs; i++)
    pipes_m3 += evaluation->runs[i].above_sump_m3;
  for (unsigned i = 0; i < evaluation->n_drains; i++)
    pipes_m3 += evaluation->drains[i].above_sump_m3;
  for (unsigned i = 0; i < evaluation->n_tanks; i++) {
    displaced_m3 += tank_volume_m3 (system, &system->tanks[i], evaluation->tanks[i].display_z) -
                    evaluation->tanks[i].net_water_m3;
    totals->display_water_m3 += evaluation->tanks[i].water_m3;
  }
  for (unsigned i = 0; i < evaluation->n_vessels; i++)
    rest_m3 += evaluation->vessels[i].power_off_m3;
  running_m3 = tanks_m3 + boxes_m3 + chambers_m3 + pipes_m3;
  totals->total_water_m3 = running_m3 - displaced_m3;
  totals->power_off_water_m3 = rest_m3 - displaced_m3;
  trace_add (trace, STEP_TOTAL_WATER, SCENARIO_RUNNING, -1,
             (double[]){totals->total_water_m3, tanks_m3, boxes_m3, chambers_m3, pipes_m3, displaced_m3});
}

static double
open_surface_m2 (const System *system)
{
  double area_m2 = 0;

  for (unsigned i = 0; i < system->n_tanks; i++)
    area_m2 += system->tanks[i].area_m2 * (1 - field_number (system, system->tanks[i].part, FIELD_TANK_LID));
  for (unsigned i = 0; i < system->n_overflows; i++)
    if (system->overflows[i].kind == OVERFLOW_OUTSIDE)
      area_m2 += system->overflows[i].inner.area_m2;
    else if (system->overflows[i].outer.there)
      area_m2 += system->overflows[i].outer.area_m2 + system->overflows[i].tube_side.area_m2;
  for (unsigned i = 0; i < system->n_chambers; i++)
    area_m2 += system->chambers[i].area_m2;
  return area_m2;
}

static double
evaporation (const System *system, double activity)
{
  const Evaporation surface = {.area_m2 = open_surface_m2 (system),
                               .water_c = field_number (system, system->room, FIELD_ROOM_WATER_TEMPERATURE),
                               .salinity_g_kg = field_number (system, system->room, FIELD_ROOM_SALINITY),
                               .air_c = field_number (system, system->room, FIELD_ROOM_AIR_TEMPERATURE),
                               .relative_humidity = field_number (system, system->room, FIELD_ROOM_HUMIDITY),
                               .air_speed_m_s = field_number (system, system->room, FIELD_ROOM_AIR_SPEED),
                               .activity_factor = activity,
                               .open_share = 1};
  double rate_kg_s = 0;

  heat_evaporation_rate (&surface, &rate_kg_s);
  return fmax (rate_kg_s, 0) / FRESH_KG_M3;
}

static bool
room_is_given (const System *system)
{
  const Part *room = design_part (system->design, (unsigned) system->room);

  return part_is_given (room, FIELD_ROOM_AIR_TEMPERATURE) || part_is_given (room, FIELD_ROOM_HUMIDITY) ||
         part_is_given (room, FIELD_ROOM_AIR_SPEED);
}

static void
evaporate (const System *system, Trace *trace, Totals *totals)
{
  const double measured_m3 = field_number (system, system->room, FIELD_ROOM_EVAPORATION);
  const bool measured =
      part_is_given (design_part (system->design, (unsigned) system->room), FIELD_ROOM_EVAPORATION) &&
      measured_m3 > 0;

  if (measured) {
    totals->evaporation_m3s = totals->fast_evaporation_m3s = measured_m3 / SECONDS_A_DAY;
  } else if (room_is_given (system)) {
    totals->evaporation_m3s = evaporation (system, LIKELY_ACTIVITY);
    totals->fast_evaporation_m3s = evaporation (system, SIZING_ACTIVITY);
  } else {
    totals->evaporation_assumed = true;
    totals->evaporation_m3s = ASSUMED_SHARE_A_DAY * totals->total_water_m3 / SECONDS_A_DAY;
    totals->fast_evaporation_m3s = fmax (evaporation (system, SIZING_ACTIVITY), totals->evaporation_m3s);
    totals->fast_evaporation_m3s =
        fmin (totals->fast_evaporation_m3s, ASSUMED_SHARE_MOST * totals->total_water_m3 / SECONDS_A_DAY);
  }
  trace_add (trace, STEP_EVAPORATION, SCENARIO_RUNNING, system->room,
             (double[]){totals->evaporation_m3s, totals->fast_evaporation_m3s, open_surface_m2 (system),
                        field_number (system, system->room, FIELD_ROOM_WATER_TEMPERATURE),
                        field_number (system, system->room, FIELD_ROOM_AIR_TEMPERATURE),
                        field_number (system, system->room, FIELD_ROOM_HUMIDITY)});
}

static double
how_long (double volume_m3, double rate_m3s)
{
  return rate_m3s > 0 ? volume_m3 / rate_m3s : NO_LIMIT;
}

static void
top_off (const System *system, Trace *trace, Evaluation *evaluation)
{
  Totals *totals = &evaluation->totals;
  double reserve_m3 = NO_LIMIT;

  for (unsigned i = 0; i < system->n_pumps; i++)
    reserve_m3 = fmin (reserve_m3, return_pool_area_m2 (system) * fmax (evaluation->pumps[i].cover_m, 0));
  totals->reserve_s = how_long (isfinite (reserve_m3) ? reserve_m3 : 0, totals->fast_evaporation_m3s);
  totals->top_off_days = totals->slow_top_off_days = NO_NUMBER;
  trace_add (trace, STEP_TOP_OFF, SCENARIO_RUNNING, system->sump,
             (double[]){totals->reserve_s, reserve_m3, totals->fast_evaporation_m3s});
  if (system->reservoir < 0)
    return;
  const double reservoir_m3 = field_number (system, system->reservoir, FIELD_RESERVOIR_VOLUME);

  totals->top_off_days = how_long (reservoir_m3, totals->evaporation_m3s) / SECONDS_A_DAY;
  totals->slow_top_off_days = how_long (reservoir_m3, totals->fast_evaporation_m3s) / SECONDS_A_DAY;
  trace_add (trace, STEP_TOP_OFF, SCENARIO_RUNNING, system->reservoir,
             (double[]){totals->top_off_days * SECONDS_A_DAY, reservoir_m3, totals->evaporation_m3s});
}

static void
add_up (const System *system, const Workspace *workspace, Evaluation *evaluation)
{
  Totals *totals = &evaluation->totals;

  for (unsigned i = 0; i < system->n_tanks; i++) {
    totals->flow_m3s += workspace->running.tank_m3s[i];
    totals->fast_flow_m3s += workspace->fast_open.tank_m3s[i];
    totals->slow_flow_m3s += workspace->slow.tank_m3s[i];
    totals->full_speed_flow_m3s += workspace->full_speed.tank_m3s[i];
    totals->freeboard_m = i == 0 ? evaluation->tanks[0].freeboard_m
                                 : fmin (totals->freeboard_m, evaluation->tanks[i].freeboard_m);
  }
  if (totals->display_water_m3 > 0) {
    totals->turnover_per_h = 3600 * totals->flow_m3s / totals->display_water_m3;
    totals->fast_turnover_per_h = 3600 * totals->fast_flow_m3s / totals->display_water_m3;
    totals->slow_turnover_per_h = 3600 * totals->slow_flow_m3s / totals->display_water_m3;
  }
  for (unsigned i = 0; i < evaluation->n_runs; i++)
    totals->return_velocity_ms = fmax (totals->return_velocity_ms, fabs (evaluation->runs[i].velocity_ms));
  for (unsigned i = 0; i < evaluation->n_pumps; i++) {
    totals->pump_head_m = fmax (totals->pump_head_m, evaluation->pumps[i].head_m);
    totals->pump_power_w += evaluation->pumps[i].power_w;
    totals->yearly_kwh += evaluation->pumps[i].yearly_kwh;
    totals->yearly_cost += evaluation->pumps[i].yearly_cost;
    totals->connected_w += system->pumps[i].watts;
  }
  for (unsigned i = 0; i < system->n_devices; i++)
    totals->connected_w += system->devices[i].watts;
}

static void
add_up_overflows (Evaluation *evaluation)
{
  Totals *totals = &evaluation->totals;

  totals->drain_margin = totals->flood_margin_m = NO_NUMBER;
  for (unsigned i = 0; i < evaluation->n_overflows; i++) {
    const OverflowState *overflow = &evaluation->overflows[i];

    totals->drain_capacity_m3s += overflow->capacity_m3s;
    totals->drain_blocked_m3s += overflow->blocked_capacity_m3s;
    totals->overflow_head_m = fmax (totals->overflow_head_m, overflow->head_m);
    if (overflow->flow_m3s > 0)
      totals->drain_margin = fmin (overflow->capacity_m3s / overflow->flow_m3s - 1,
                                   isnan (totals->drain_margin) ? NO_LIMIT : totals->drain_margin);
    if (!isnan (overflow->flood_unprimed_margin_m))
      totals->flood_margin_m = fmin (overflow->flood_unprimed_margin_m,
                                     isnan (totals->flood_margin_m) ? NO_LIMIT : totals->flood_margin_m);
  }
}

static void
describe_devices (const System *system, const Workspace *workspace, Evaluation *evaluation)
{
  const unsigned first_chamber = evaluation->n_vessels - system->n_chambers;
  const double ceiling_z = field_number (system, system->stand, FIELD_STAND_FLOOR) +
                           field_number (system, system->stand, FIELD_STAND_HEIGHT);

  evaluation->n_devices = system->n_devices;
  for (unsigned i = 0; i < system->n_devices; i++) {
    const DeviceModel *device = &system->devices[i];
    const VesselState *vessel = &evaluation->vessels[first_chamber + device->chamber];

    evaluation->devices[i] = (DeviceState){.part = device->part,
                                           .chamber = vessel->part,
                                           .depth_m = vessel->running_z - device->stands_z,
                                           .lowest_depth_m = vessel->lowest_z - device->stands_z,
                                           .room_m = ceiling_z - device->stands_z - device->height_m,
                                           .feed = -1,
                                           .flow_m3s = NO_NUMBER,
                                           .fast_flow_m3s = NO_NUMBER,
                                           .slow_flow_m3s = NO_NUMBER};
  }
  for (unsigned i = 0; i < system->n_feeds; i++) {
    DeviceState *device = &evaluation->devices[system->feeds[i].device];

    device->feed = (int) i;
    device->flow_m3s = workspace->running.feed_m3s[i];
    device->fast_flow_m3s = workspace->fast_open.feed_m3s[i];
    device->slow_flow_m3s = workspace->slow.feed_m3s[i];
  }
}

/* Lowest level in normal use: a chamber falls to its power-off level, the return pool as well by a day of evaporation. */
static void
lowest_levels (const System *system, Evaluation *evaluation)
{
  const unsigned first_chamber = evaluation->n_vessels - system->n_chambers;
  const double fall_m =
      evaluation->totals.fast_evaporation_m3s * SECONDS_A_DAY / fmax (return_pool_area_m2 (system), 1e-6);
  const double datum_z = evaluation->vessels[first_chamber + system->datum].running_z;
  bool pool = true;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    VesselState *vessel = &evaluation->vessels[first_chamber + i];
    const unsigned low = MIN (i, system->datum), high = MAX (i, system->datum);
    double edge_z = NO_LIMIT;

    pool = true;
    for (unsigned k = low; k < high; k++)
      pool = pool && system->baffles[k].gap_m > 0;
    /* A still chamber behind an edge stands at the edge. */
    if (i < system->datum && system->baffles[i].gap_m <= 0)
      edge_z = system->baffles[i].crest_z;
    if (i > system->datum && system->baffles[i - 1].gap_m <= 0)
      edge_z = system->baffles[i - 1].crest_z;
    vessel->lowest_z = fmin (fmin (vessel->running_z, vessel->power_off_z), edge_z);
    if (pool)
      vessel->lowest_z = fmax (fmin (vessel->lowest_z, datum_z - fall_m), vessel->bottom_z);
  }
}

void
fill_budget (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  balance (system, trace, evaluation);
  add_up (system, workspace, evaluation);
  add_up_overflows (evaluation);
  evaporate (system, trace, &evaluation->totals);
  top_off (system, trace, evaluation);
  fill_upkeep (system, workspace, trace, evaluation);
  lowest_levels (system, evaluation);
  describe_devices (system, workspace, evaluation);
  evaluation->totals.highest_power_off_z = evaluation->drain_back.highest_z;
  trace_add (trace, STEP_RETURN_FLOW, SCENARIO_RUNNING, -1, &evaluation->totals.flow_m3s);
}
