/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The order of an evaluation: four states of the system, what follows from them, and the judgement. */
#include "design/choices.h"
#include <string.h>

#include "solver/checks.h"
#include "solver/model.h"

/* A pump that turns out fast or slow is tuned to on the day of filling like any other, so its drains are set for it; only
 * a raised speed meets a drain that was set for less. The likely state comes last: its valve settings and wanted levels
 * are the ones that stay in the workspace and are shown.
 *
 * The most that a display may get, and by which floods are judged, comes with the branches shut that only feed devices. */
void
solve_states (const System *system, Workspace *workspace)
{
  LoopRule fast = {.edge = 1}, fast_open, full_speed, slow, likely, likely_shut;

  for (unsigned i = 0; i < system->n_pumps; i++)
    fast.speed[i] = system->pumps[i].speed;
  full_speed = slow = likely = fast_open = fast;
  fast.branches_shut = full_speed.branches_shut = true;
  full_speed.full_speed = true;
  full_speed.after = &workspace->fast;
  slow.edge = -1;
  slow.aged = true;
  likely.edge = 0;
  likely.after = &workspace->full_speed;
  likely_shut = likely;
  likely_shut.branches_shut = true;
  if (system->n_feeds > 0)
    return_loop_solve (system, workspace, &fast_open, SETTING_TUNE, &workspace->fast_open);
  return_loop_solve (system, workspace, &fast, SETTING_TUNE, &workspace->fast);
  if (system->n_feeds == 0)
    workspace->fast_open = workspace->fast;
  return_loop_solve (system, workspace, &full_speed, SETTING_AS_SET, &workspace->full_speed);
  return_loop_solve (system, workspace, &slow, SETTING_TUNE, &workspace->slow);
  if (system->n_feeds > 0)
    return_loop_solve (system, workspace, &likely_shut, SETTING_TUNE, &workspace->running_shut);
  return_loop_solve (system, workspace, &likely, SETTING_TUNE, &workspace->running);
  if (system->n_feeds == 0)
    workspace->running_shut = workspace->running;
}

static VesselState
vessel_of (VesselKind kind, int part, double bottom_z, double rim_z, double area_m2)
{
  return (VesselState){.kind = kind,
                       .part = part,
                       .bottom_z = bottom_z,
                       .rim_z = rim_z,
                       .area_m2 = area_m2,
                       .flood_z = NO_NUMBER,
                       .lowest_z = NO_NUMBER};
}

static void
add_tanks (const System *system, const Workspace *workspace, Evaluation *evaluation)
{
  for (unsigned i = 0; i < system->n_tanks; i++) {
    const TankModel *tank = &system->tanks[i];
    VesselState *vessel = &evaluation->vessels[evaluation->n_vessels++];
    double area_m2 = tank->area_m2;

    for (unsigned k = tank->first_overflow; k < tank->first_overflow + tank->n_overflows; k++)
      area_m2 -= system->overflows[k].footprint_m2;
    *vessel = vessel_of (VESSEL_TANK, tank->part, tank->bottom_z, tank->rim_z, area_m2);
    vessel->running_z = workspace->running.display_z[i];
    vessel->running_m3 = tank_volume_m3 (system, tank, vessel->running_z);
    vessel->free_m3 = NO_NUMBER;
  }
}

static void
add_box (const System *system, unsigned overflow, const BoxModel *box, VesselKind kind, double running_z,
         Evaluation *evaluation)
{
  VesselState *vessel = &evaluation->vessels[evaluation->n_vessels++];

  *vessel = vessel_of (kind, system->overflows[overflow].part, box->floor_z, box->rim_z, box->area_m2);
  vessel->running_z = running_z;
  vessel->power_off_z = vessel->power_off_plugged_z = box_rest_z (system, overflow, box, running_z);
  vessel->running_m3 = box->area_m2 * (running_z - box->floor_z);
  vessel->power_off_m3 = vessel->power_off_plugged_m3 = box->area_m2 * (vessel->power_off_z - box->floor_z);
  vessel->free_m3 = NO_NUMBER;
}

static void
add_chambers (const System *system, const Workspace *workspace, Evaluation *evaluation)
{
  for (unsigned i = 0; i < system->n_chambers; i++) {
    const ChamberModel *chamber = &system->chambers[i];
    VesselState *vessel = &evaluation->vessels[evaluation->n_vessels++];
    const double running_z = workspace->running.chamber_z[i];

    *vessel = vessel_of (VESSEL_CHAMBER, chamber->part, chamber->bottom_z, chamber->rim_z, chamber->area_m2);
    vessel->running_z = running_z;
    vessel->running_m3 = chamber_volume_m3 (chamber, running_z, running_z);
    vessel->free_m3 = chamber_volume_m3 (chamber, running_z, chamber->rim_z) -
                      chamber_volume_m3 (chamber, running_z, fmin (running_z, chamber->rim_z));
  }
}

static void
add_vessels (const System *system, const Workspace *workspace, Evaluation *evaluation)
{
  const State *state = &workspace->running;

  evaluation->n_vessels = 0;
  add_tanks (system, workspace, evaluation);
  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    if (overflow->outer.there) {
      add_box (system, i, &overflow->inner, VESSEL_BOX_INNER, state->inner_z[i], evaluation);
      if (overflow->hangs_over)
        add_box (system, i, &overflow->tube_side, VESSEL_BOX_TUBES, state->tube_side_z[i], evaluation);
      add_box (system, i, &overflow->outer, VESSEL_BOX_OUTER, state->box_z[i], evaluation);
    } else {
      add_box (system, i, &overflow->inner, VESSEL_BOX_INNER, state->box_z[i], evaluation);
    }
  }
  add_chambers (system, workspace, evaluation);
}

/* Rest and flood levels of tanks and boxes, known after drain-back and flood test. */
static void
finish_vessels (const System *system, Evaluation *evaluation)
{
  for (unsigned i = 0; i < evaluation->n_tanks; i++) {
    const TankModel *tank = &system->tanks[i];
    VesselState *vessel = &evaluation->vessels[i];

    vessel->power_off_z = evaluation->tanks[i].rest_z;
    vessel->power_off_plugged_z = evaluation->tanks[i].rest_plugged_z;
    vessel->power_off_m3 = tank_volume_m3 (system, tank, vessel->power_off_z);
    vessel->power_off_plugged_m3 = tank_volume_m3 (system, tank, vessel->power_off_plugged_z);
    vessel->lowest_z = vessel->power_off_z;
    for (unsigned k = tank->first_overflow; k < tank->first_overflow + tank->n_overflows; k++)
      vessel->flood_z = fmin (evaluation->overflows[k].flood_unprimed_display_z, tank->rim_z);
  }
  for (unsigned i = evaluation->n_tanks; i < evaluation->n_vessels; i++) {
    VesselState *vessel = &evaluation->vessels[i];
    const OverflowState *overflow = evaluation_overflow (evaluation, vessel->part);

    if (vessel->kind == VESSEL_CHAMBER || overflow == NULL)
      continue;
    vessel->lowest_z = vessel->power_off_z;
    vessel->flood_z = fmin (overflow->flood_unprimed_box_z, vessel->rim_z);
  }
}

static bool
states_solved (const Workspace *workspace)
{
  return workspace->running.status == HYDRAULICS_OK && workspace->fast.status == HYDRAULICS_OK &&
         workspace->full_speed.status == HYDRAULICS_OK && workspace->slow.status == HYDRAULICS_OK &&
         workspace->fast_open.status == HYDRAULICS_OK && workspace->running_shut.status == HYDRAULICS_OK;
}

static EvaluationStatus
status_of (const System *system, const Workspace *workspace, const Evaluation *evaluation)
{
  if (!states_solved (workspace))
    return EVALUATION_NOT_SOLVED;
  if (!(evaluation->totals.flow_m3s > 1e-9))
    return EVALUATION_NO_FLOW;
  for (unsigned i = 0; i < system->n_overflows; i++)
    if (!workspace->running.carries[i])
      return EVALUATION_NO_STEADY_STATE;
  return EVALUATION_OK;
}

/* Without flows nothing that follows from them may be shown. */
static void
blank (Evaluation *evaluation)
{
  Totals *totals = &evaluation->totals;

  *totals = (Totals){.flow_m3s = NO_NUMBER,
                     .fast_flow_m3s = NO_NUMBER,
                     .slow_flow_m3s = NO_NUMBER,
                     .full_speed_flow_m3s = NO_NUMBER,
                     .turnover_per_h = NO_NUMBER,
                     .fast_turnover_per_h = NO_NUMBER,
                     .slow_turnover_per_h = NO_NUMBER,
                     .return_velocity_ms = NO_NUMBER,
                     .pump_head_m = NO_NUMBER,
                     .display_water_m3 = NO_NUMBER,
                     .total_water_m3 = NO_NUMBER,
                     .power_off_water_m3 = NO_NUMBER,
                     .evaporation_m3s = NO_NUMBER,
                     .fast_evaporation_m3s = NO_NUMBER,
                     .top_off_days = NO_NUMBER,
                     .slow_top_off_days = NO_NUMBER,
                     .reserve_s = NO_NUMBER,
                     .pump_power_w = NO_NUMBER,
                     .connected_w = NO_NUMBER,
                     .yearly_kwh = NO_NUMBER,
                     .yearly_cost = NO_NUMBER,
                     .drain_capacity_m3s = NO_NUMBER,
                     .drain_blocked_m3s = NO_NUMBER,
                     .drain_margin = NO_NUMBER,
                     .flood_margin_m = NO_NUMBER,
                     .freeboard_m = NO_NUMBER,
                     .overflow_head_m = NO_NUMBER,
                     .emergency_takes_m3 = NO_NUMBER,
                     .emergency_return_z = NO_NUMBER,
                     .highest_power_off_z = NO_NUMBER};
  evaluation->drain_back = evaluation->plugged = (DrainBack){.total_m3 = NO_NUMBER,
                                                             .free_m3 = NO_NUMBER,
                                                             .margin_m3 = NO_NUMBER,
                                                             .spilled_m3 = NO_NUMBER,
                                                             .highest_z = NO_NUMBER,
                                                             .freeboard_m = NO_NUMBER,
                                                             .upper_total_m3 = NO_NUMBER,
                                                             .upper_margin_m3 = NO_NUMBER,
                                                             .upper_freeboard_m = NO_NUMBER,
                                                             .upper_spilled_m3 = NO_NUMBER};
}

void
evaluate_states (const System *system, Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  evaluation->n_findings = 0;
  evaluation->totals = (Totals){0};
  add_vessels (system, workspace, evaluation);
  fill_return (system, workspace, trace, evaluation);
  fill_overflows (system, workspace, trace, evaluation);
  fill_drains (system, workspace, trace, evaluation);
  fill_drain_back (system, workspace, trace, evaluation);
  fill_starts (system, workspace, trace, evaluation);
  if (!system->exact)
    bands_narrow (workspace, evaluation);
  finish_vessels (system, evaluation);
  fill_transfer (system, workspace, trace, evaluation);
  fill_budget (system, workspace, trace, evaluation);
  evaluation->status = status_of (system, workspace, evaluation);
}

void
evaluate (const System *system, Workspace *workspace, Trace *trace, Evaluation *evaluation)
{
  memset (evaluation, 0, sizeof *evaluation);
  if (trace != NULL)
    trace_clear (trace);
  solve_states (system, workspace);
  if (!states_solved (workspace)) {
    evaluation->status = EVALUATION_NOT_SOLVED;
    blank (evaluation);
    bands_forget (workspace);
  } else {
    bands_fill (system, workspace);
    evaluate_states (system, workspace, trace, evaluation);
  }
  judge (system, workspace, evaluation);
}

bool
evaluate_design (Design *design, Catalogue *catalogue, Trace *trace, Evaluation *evaluation,
                 SystemStatus *ret_status, int *ret_part)
{
  System *system = system_compile (design, catalogue, ret_status, ret_part);
  Workspace *workspace;

  if (system == NULL)
    return false;
  workspace = workspace_new (system);
  evaluate (system, workspace, trace, evaluation);
  workspace_free (workspace);
  system_free (system);
  return true;
}
