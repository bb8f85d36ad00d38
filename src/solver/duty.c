/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pumps, runs, outlets and tanks at their duty: flows, heads, velocities, suctions, siphon breaks, turnover. */
#include "design/choices.h"
#include "hydraulics/constants.h"
#include "solver/model.h"

#define STANDARD_PRESSURE_PA 101325.0
#define SECONDS_A_YEAR       (365.25 * 86400)
#define NO_FLOW_M3S          1e-9

static double
circle_m2 (double bore_m)
{
  return G_PI / 4 * bore_m * bore_m;
}

/* To the lowest display that a pump feeds; where it feeds devices alone, to the lowest of them. */
static double
static_head (const System *system, const PumpModel *pump, const State *state)
{
  double least_m = NO_LIMIT, to_feed_m = NO_LIMIT;

  for (unsigned i = 0; i < system->n_outlets; i++)
    if (pump->reaches[i])
      least_m = fmin (least_m, fmax (system->outlets[i].z, state->display_z[system->outlets[i].tank]) -
                                   state->chamber_z[pump->chamber]);
  if (isfinite (least_m))
    return least_m;
  for (unsigned i = 0; i < system->n_feeds; i++)
    if (pump->reaches_feed[i])
      to_feed_m = fmin (to_feed_m, fmax (system->feeds[i].z, state->chamber_z[system->feeds[i].chamber]) -
                                       state->chamber_z[pump->chamber]);
  return isfinite (to_feed_m) ? to_feed_m : NO_NUMBER;
}

static double
shutoff_head (const PumpModel *pump, double speed, double factor)
{
  PumpHead head = {.head_m = NO_NUMBER};

  if (pump->curve_ok)
    pump_head (&pump->curve, speed, factor, 0, &head);
  return head.head_m;
}

static PumpStatus
pump_status (const System *system, const Workspace *workspace, unsigned index, const PumpState *state)
{
  const PumpModel *pump = &system->pumps[index];

  if (!pump->curve_ok)
    return PUMP_STATE_NO_CURVE;
  if (!(state->flow_m3s > NO_FLOW_M3S))
    return PUMP_STATE_TOO_WEAK;
  return state->flow_m3s > state->last_flow_m3s ? PUMP_STATE_BEYOND_CURVE : PUMP_STATE_OK;
}

static void
describe_suction (const System *system, unsigned index, Trace *trace, PumpState *ret_pump)
{
  const PumpModel *pump = &system->pumps[index];
  double cover_m = 0;
  PipeLoss loss = {0};

  ret_pump->suction_velocity_ms = ret_pump->flow_m3s / circle_m2 (pump->suction_bore_m);
  ret_pump->cover_wanted_m = pump->cover_m;
  ret_pump->npsh_m = ret_pump->suction_loss_m = NO_NUMBER;
  ret_pump->npsh_wanted_m = pump->npsh_m;
  if (!pump->outside)
    return;
  if (ret_pump->flow_m3s > 0 &&
      pump_suction_cover (ret_pump->flow_m3s, pump->suction_bore_m, &cover_m) == HYDRAULICS_OK) {
    ret_pump->cover_wanted_m = fmax (cover_m, pump->cover_m);
    trace_add (trace, STEP_SUCTION, SCENARIO_RUNNING, pump->part,
               (double[]){cover_m, pump->suction_bore_m, ret_pump->flow_m3s, ret_pump->cover_m});
  }
  if (pipe_loss (&pump->suction, &system->fluid, ret_pump->flow_m3s, &loss) != HYDRAULICS_OK)
    return;
  ret_pump->suction_loss_m = loss.head_m;
  trace_add (trace, STEP_PIPE_RUN, SCENARIO_RUNNING, pump->part,
             (double[]){loss.head_m, ret_pump->flow_m3s, loss.velocity_ms, pump->suction.bore_m,
                        pump->suction.length_m, pump->suction.roughness_m, pump->suction.k, 0});
  if (pump_npsh_available (STANDARD_PRESSURE_PA, system->water.vapour_pressure_pa,
                           system->water.density_kg_m3, ret_pump->cover_m, fmax (loss.head_m, 0),
                           &ret_pump->npsh_m) == HYDRAULICS_OK)
    trace_add (trace, STEP_NPSH, SCENARIO_RUNNING, pump->part,
               (double[]){ret_pump->npsh_m, STANDARD_PRESSURE_PA, system->water.vapour_pressure_pa,
                          system->water.density_kg_m3, ret_pump->cover_m, loss.head_m});
}

static void
describe_power (const System *system, unsigned index, Trace *trace, PumpState *ret_pump)
{
  const PumpModel *pump = &system->pumps[index];
  const double price = field_number (system, system->room, FIELD_ROOM_PRICE);

  ret_pump->power_w = pump->watts;
  pump_affinity_power (pump->watts, pump->speed, &ret_pump->power_w);
  ret_pump->yearly_kwh = ret_pump->power_w * SECONDS_A_YEAR / 3.6e6;
  ret_pump->yearly_cost = ret_pump->yearly_kwh * price;
  trace_add (trace, STEP_POWER, SCENARIO_RUNNING, pump->part,
             (double[]){ret_pump->power_w, pump->watts, pump->speed});
  trace_add (trace, STEP_COST, SCENARIO_RUNNING, pump->part,
             (double[]){ret_pump->yearly_cost, ret_pump->power_w, price});
}

static void
describe_pump (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
               PumpState *ret_pump)
{
  const PumpModel *pump = &system->pumps[index];
  const State *state = &workspace->running;
  const double level_z = state->chamber_z[pump->chamber];

  *ret_pump =
      (PumpState){.part = pump->part,
                  .chamber = system->chambers[pump->chamber].part,
                  .speed = pump->speed,
                  .estimate = pump->curve.kind == PUMP_CURVE_ESTIMATE,
                  .flow_m3s = state->pump_m3s[index],
                  .head_m = state->pump_head_m[index],
                  .fast_flow_m3s = workspace->fast_open.pump_m3s[index],
                  .slow_flow_m3s = workspace->slow.pump_m3s[index],
                  .full_speed_flow_m3s = workspace->full_speed.pump_m3s[index],
                  .static_head_m = static_head (system, pump, state),
                  .lift_m = pump->highest_z - level_z,
                  .shutoff_head_m = shutoff_head (pump, pump->speed, 1),
                  .last_flow_m3s = pump->curve_ok ? pump->curve.flow_at_end_m3s * pump->speed : NO_NUMBER,
                  .suction_z = pump->suction_z,
                  .cover_m = level_z - pump->suction_z,
                  .dry_z = pump->suction_z};
  ret_pump->status = pump_status (system, workspace, index, ret_pump);
  trace_add (trace, STEP_STATIC_HEAD, SCENARIO_RUNNING, pump->part,
             (double[]){ret_pump->static_head_m, ret_pump->static_head_m + level_z, level_z});
  for (unsigned i = 0; i < 4; i++) {
    const Scenario scenarios[] = {SCENARIO_RUNNING, SCENARIO_FAST, SCENARIO_FULL_SPEED, SCENARIO_SLOW};
    const State *states[] = {state, &workspace->fast, &workspace->full_speed, &workspace->slow};
    const double factor = i == 0 ? 1 : i == 3 ? 1 - pump->tolerance : 1 + pump->tolerance;

    trace_add (trace, STEP_PUMP_DUTY, scenarios[i], pump->part,
               (double[]){states[i]->pump_m3s[index], states[i]->pump_head_m[index], i == 2 ? 1 : pump->speed,
                          factor});
  }
  describe_suction (system, index, trace, ret_pump);
  describe_power (system, index, trace, ret_pump);
}

static void
describe_run (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
              RunState *ret_run)
{
  const RunModel *run = &system->runs[index];
  const State *state = &workspace->running;
  const unsigned chamber = run->pump >= 0 ? system->pumps[run->pump].chamber : system->datum;

  *ret_run = (RunState){.part = run->part,
                        .flow_m3s = state->run_m3s[index],
                        .velocity_ms = state->run_m3s[index] / circle_m2 (run->pipe.bore_m),
                        .length_m = run->pipe.length_m,
                        .bore_m = run->pipe.bore_m,
                        .k = run->pipe.k,
                        .loss_m = state->run_loss_m[index],
                        .highest_z = run->highest_z,
                        .volume_m3 = run->volume_m3,
                        .above_sump_m3 = segments_volume_above (system, run->first_segment, run->n_segments,
                                                                run->pipe.bore_m, state->chamber_z[chamber]),
                        .has_check_valve = run->has_check};
  trace_add (trace, STEP_PIPE_RUN, SCENARIO_RUNNING, run->part,
             (double[]){ret_run->loss_m, ret_run->flow_m3s, ret_run->velocity_ms, run->pipe.bore_m,
                        run->pipe.length_m, run->pipe.roughness_m, run->pipe.k, run->cracking_m});
}

static void
describe_outlet (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
                 OutletState *ret_outlet)
{
  const OutletModel *outlet = &system->outlets[index];
  const State *state = &workspace->running;
  const double surface_z = state->display_z[outlet->tank];
  const double flow_m3s = state->outlet_m3s[index];

  *ret_outlet = (OutletState){.part = outlet->part,
                              .tank = system->tanks[outlet->tank].part,
                              .flow_m3s = flow_m3s,
                              .nozzle_velocity_ms = flow_m3s / circle_m2 (outlet->bore_m),
                              .z = outlet->z,
                              .submerged_m = surface_z - outlet->z,
                              .has_break = outlet->has_break,
                              .break_z = outlet->has_break ? outlet->break_z : NO_NUMBER,
                              .break_head_m = NO_NUMBER,
                              .stops_z = NO_NUMBER};
  if (!outlet->has_break || !(outlet->feed_bore_m > 0))
    return;
  /* Total head in the pipe at the break: what the outlet meets, and the loss of the nozzle beyond it. */
  const double pipe_head_m = pow (flow_m3s / circle_m2 (outlet->feed_bore_m), 2) / (2 * GRAVITY_M_S2);

  ret_outlet->break_head_m =
      fmax (surface_z, outlet->z) + outlet->nozzle_k * pipe_head_m - pipe_head_m - outlet->break_z;
  trace_add (trace, STEP_BREAK, SCENARIO_RUNNING, outlet->part,
             (double[]){ret_outlet->break_head_m, fmax (surface_z, outlet->z), outlet->break_z,
                        outlet->nozzle_k, flow_m3s, outlet->feed_bore_m});
}

static double
least_rim_freeboard (const System *system, const TankModel *tank, double level_z)
{
  return tank->rim_z - level_z;
}

static double
over_volume (double flow_m3s, double volume_m3)
{
  return volume_m3 > 0 ? 3600 * flow_m3s / volume_m3 : NO_NUMBER;
}

static void
describe_tank (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
               TankState *ret_tank)
{
  const TankModel *tank = &system->tanks[index];
  const double display_z = workspace->running.display_z[index];
  const double gross_m3 = tank_volume_m3 (system, tank, display_z);
  double high_m = 0, low_m, head_m;

  *ret_tank = (TankState){.part = tank->part,
                          .display_z = display_z,
                          .fast_z = workspace->fast.display_z[index],
                          .full_speed_z = workspace->full_speed.display_z[index],
                          .rim_z = tank->rim_z,
                          .rest_z = NO_NUMBER,
                          .rest_plugged_z = NO_NUMBER,
                          .flow_m3s = workspace->running.tank_m3s[index],
                          .water_m3 = gross_m3 * (1 - tank->rock)};
  ret_tank->net_water_m3 =
      fmax (ret_tank->water_m3 -
                0.6 * tank->area_m2 * fmin (tank->substrate_m, fmax (display_z - tank->bottom_z, 0)),
            0);
  /* Freeboards are judged with the high edge of the weir's band on the fast flow. */
  head_m = ret_tank->fast_z - tank_lowest_crest_z (system, tank);
  if (!system->exact && head_m > 0 && weir_head_band (head_m, &low_m, &high_m) == HYDRAULICS_OK)
    high_m -= head_m;
  ret_tank->freeboard_m = least_rim_freeboard (system, tank, ret_tank->fast_z + high_m);
  ret_tank->full_speed_freeboard_m = least_rim_freeboard (system, tank, ret_tank->full_speed_z + high_m);
  ret_tank->turnover_per_h = over_volume (ret_tank->flow_m3s, ret_tank->water_m3);
  ret_tank->fast_turnover_per_h = over_volume (workspace->fast_open.tank_m3s[index], ret_tank->water_m3);
  ret_tank->slow_turnover_per_h = over_volume (workspace->slow.tank_m3s[index], ret_tank->water_m3);
  ret_tank->room_m3 = tank_volume_m3 (system, tank, tank->rim_z) - gross_m3;
  trace_add (trace, STEP_DISPLAY_WATER, SCENARIO_RUNNING, tank->part,
             (double[]){ret_tank->water_m3, gross_m3, tank->rock});
  trace_add (trace, STEP_TURNOVER, SCENARIO_RUNNING, tank->part,
             (double[]){ret_tank->turnover_per_h, ret_tank->flow_m3s, ret_tank->water_m3});
  trace_add (trace, STEP_TURNOVER, SCENARIO_SLOW, tank->part,
             (double[]){ret_tank->slow_turnover_per_h, workspace->slow.tank_m3s[index], ret_tank->water_m3});
}

void
fill_return (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  trace_add (trace, STEP_WATER, SCENARIO_NONE, system->room,
             (double[]){system->water.density_kg_m3, system->water.dynamic_viscosity_pa_s});
  evaluation->n_tanks = system->n_tanks;
  evaluation->n_runs = system->n_runs;
  evaluation->n_outlets = system->n_outlets;
  evaluation->n_pumps = system->n_pumps;
  evaluation->n_baffles = system->n_chambers > 0 ? system->n_chambers - 1 : 0;
  for (unsigned i = 0; i < system->n_runs; i++)
    describe_run (system, workspace, i, trace, &evaluation->runs[i]);
  for (unsigned i = 0; i < system->n_pumps; i++)
    describe_pump (system, workspace, i, trace, &evaluation->pumps[i]);
  for (unsigned i = 0; i < system->n_outlets; i++)
    describe_outlet (system, workspace, i, trace, &evaluation->outlets[i]);
  for (unsigned i = 0; i < system->n_tanks; i++)
    describe_tank (system, workspace, i, trace, &evaluation->tanks[i]);
  for (unsigned i = 0; i < evaluation->n_baffles; i++) {
    const State *state = &workspace->running;

    evaluation->baffles[i] = (BaffleState){.part = system->baffles[i].part,
                                           .flow_m3s = state->baffle_m3s[i],
                                           .head_m = fabs (state->chamber_z[i] - state->chamber_z[i + 1])};
    trace_add (trace, STEP_BAFFLE, SCENARIO_RUNNING, system->baffles[i].part,
               (double[]){fmax (state->chamber_z[i], state->chamber_z[i + 1]), state->baffle_m3s[i],
                          system->baffles[i].crest_z, fmin (state->chamber_z[i], state->chamber_z[i + 1]),
                          system->baffles[i].width_m, system->baffles[i].gap_m});
  }
}
