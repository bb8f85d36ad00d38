/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The beginning of a rehearsal: the running system, and what its plan does to it. */
#include <string.h>

#include "design/choices.h"
#include "hydraulics/constants.h"
#include "hydraulics/siphon.h"
#include "solver/rehearsal-model.h"

/* An open share below this is shut. */
#define OPEN_LEAST 1e-3
/* Nothing siphons out of a tank that holds no more than this. */
#define EMPTY_M 0.001
/* Below this full-bore Froude number a pipe vents itself (Hills 1983): air that enters stays, and it runs full no more. */
#define VENTING_FROUDE 0.3
/* What a film fills of an upright pipe (Wyly & Eaton, as in drain-back.c). */
#define STACK_FILL_MOST (1.0 / 3.0)

/* Joins the pumps that reach an end of the pipe to one group; returns it, or NO_PLACE where none does. */
static unsigned
join_pumps (const System *system, unsigned end, bool feeds, unsigned *of_pump)
{
  unsigned first = NO_PLACE;

  for (unsigned i = 0; i < system->n_pumps; i++) {
    const unsigned from = of_pump[i];

    if (feeds ? !system->pumps[i].reaches_feed[end] : !system->pumps[i].reaches[end])
      continue;
    if (first == NO_PLACE)
      first = from;
    for (unsigned k = 0; k < system->n_pumps; k++)
      if (of_pump[k] == from)
        of_pump[k] = first;
  }
  return first;
}

static void
join_groups (Rehearser *rehearser)
{
  const System *system = rehearser->system;
  unsigned of_pump[EVALUATION_PUMPS_MAX], of_outlet[EVALUATION_OUTLETS_MAX], of_feed[EVALUATION_FEEDS_MAX];

  for (unsigned i = 0; i < system->n_pumps; i++)
    of_pump[i] = i;
  /* Twice: what joins pumps later changes what was found before. */
  for (unsigned round = 0; round < 2; round++) {
    for (unsigned o = 0; o < system->n_outlets; o++)
      of_outlet[o] = join_pumps (system, o, false, of_pump);
    for (unsigned f = 0; f < system->n_feeds; f++)
      of_feed[f] = join_pumps (system, f, true, of_pump);
  }
  rehearser->n_groups = 0;
  for (unsigned g = 0; g < system->n_pumps; g++) {
    Group group = {0};

    for (unsigned i = 0; i < system->n_pumps; i++)
      if (of_pump[i] == g)
        group.pumps[group.n_pumps++] = i;
    for (unsigned o = 0; o < system->n_outlets; o++)
      if (of_outlet[o] == g)
        group.outlets[group.n_outlets++] = o;
    for (unsigned f = 0; f < system->n_feeds; f++)
      if (of_feed[f] == g)
        group.feeds[group.n_feeds++] = f;
    if (group.n_pumps > 0)
      rehearser->groups[rehearser->n_groups++] = group;
  }
}

static bool
solve_start (Rehearser *rehearser)
{
  const System *system = rehearser->system;
  Workspace *workspace = rehearser->workspace;
  const RehearsalPlan *plan = &rehearser->plan;
  LoopRule rule = {.edge = 0};

  for (unsigned i = 0; i < system->n_pumps; i++)
    rule.speed[i] = system->pumps[i].speed;
  return_loop_solve (system, workspace, &rule, SETTING_TUNE, &workspace->running);
  rehearser->start = workspace->running;
  if (plan->edge != 0 && workspace->running.status == HYDRAULICS_OK) {
    rule.edge = plan->edge;
    rule.aged = plan->edge < 0;
    return_loop_solve (system, workspace, &rule, SETTING_AS_SET, &rehearser->start);
  }
  return rehearser->start.status == HYDRAULICS_OK;
}

static void
start_network (Rehearser *rehearser)
{
  const System *system = rehearser->system;
  const bool aged = rehearser->plan.edge < 0;

  rehearser->network = aged ? rehearser->aged : rehearser->clean;
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const PumpModel *pump = &system->pumps[i];
    const PumpUnit unit = {.curve = pump->curve,
                           .speed = pump->curve_ok ? pump->speed : 0,
                           .tolerance = 1 + rehearser->plan.edge * pump->tolerance};

    network_set_pump (rehearser->network, pump->link, &unit);
    rehearser->pumps[i].network_speed = unit.speed;
  }
  for (unsigned i = 0; i < system->n_runs; i++)
    network_set_k (rehearser->network, system->runs[i].link,
                   rehearser->plan.run_shut[i] ? NO_LIMIT
                                               : system->runs[i].pipe.k * (aged ? 1 + K_SCATTER : 1));
  for (unsigned i = 0; i < system->n_runs; i++)
    rehearser->run_check[i] = -1;
  for (unsigned i = 0; i < system->n_pumps; i++)
    rehearser->pump_check[i] = -1;
  network_reset (rehearser->network);
}

static bool
run_is_held (const Rehearser *rehearser, unsigned pump)
{
  const System *system = rehearser->system;
  bool any = false;

  for (unsigned i = 0; i < system->n_runs; i++)
    if (system->runs[i].from == system->pumps[pump].delivery_node) {
      any = true;
      if (!system->runs[i].has_check || system->runs[i].feeds_device || rehearser->plan.check_stuck)
        return false;
    }
  return any;
}

static void
start_pump (Rehearser *rehearser, unsigned index)
{
  const System *system = rehearser->system;
  const PumpModel *model = &system->pumps[index];
  PumpNow *pump = &rehearser->pumps[index];
  const double chamber_z = rehearser->start.chamber_z[model->chamber];

  pump->rise_m = fmax (model->highest_z - chamber_z, 0);
  pump->check = run_is_held (rehearser, index);
  pump->filled = pump->on = true;
  pump->set_speed = !model->curve_ok ? 0 : model->speed;
  if (model->curve_ok && isfinite (rehearser->plan.speed[index]))
    pump->set_speed = rehearser->plan.speed[index];
  pump->speed = pump->set_speed;
  pump->riser = (PipeRun){.bore_m = 0.02, .k = 1};
  for (unsigned i = 0; i < system->n_runs; i++)
    if (system->runs[i].from == model->delivery_node) {
      const double area_m2 = G_PI / 4 * system->runs[i].pipe.bore_m * system->runs[i].pipe.bore_m;
      const double share = area_m2 / model->curve.flow_at_end_m3s;

      pump->riser = system->runs[i].pipe;
      pump->riser.k += model->curve.a * share * share * 2 * GRAVITY_M_S2;
      break;
    }
}

static void
start_outlet (Rehearser *rehearser, unsigned index)
{
  const OutletModel *model = &rehearser->system->outlets[index];
  const TankModel *tank = &rehearser->system->tanks[model->tank];
  const double drop_m = rehearser->plan.outlet_drop_m[index];
  OutletNow *outlet = &rehearser->outlets[index];

  outlet->z =
      drop_m > 0 ? fmax (model->z - drop_m, fmin (model->z, tank->bottom_z + model->bore_m / 2)) : model->z;
  outlet->stops_z = outlet->z + model->bore_m / 2;
  if (model->has_break && !rehearser->plan.break_plugged)
    outlet->stops_z = fmax (outlet->stops_z, model->break_z - (model->z - outlet->z) -
                                                 (rehearser->plan.edge > 0 ? BREAK_LATE_M : 0));
  outlet->stops_z = fmax (outlet->stops_z, tank->bottom_z + EMPTY_M);
  outlet->air = !(outlet->z < rehearser->start.display_z[model->tank]) ||
                !(outlet->stops_z < rehearser->start.display_z[model->tank]);
}

double
drain_break_z (const Rehearser *rehearser, unsigned drain)
{
  const DrainPipe *pipe = &rehearser->drains[drain].pipe;
  const double diameter_m = pipe->mouth_diameter_m;
  const double venting_m3s =
      VENTING_FROUDE * G_PI / 4 * diameter_m * diameter_m * sqrt (GRAVITY_M_S2 * diameter_m);
  double full_m3s = venting_m3s, cover_m = 0;

  if (pipe->mouth_level_m > pipe->end_level_m)
    pipe_flow_at_loss (&pipe->run, &rehearser->system->fluid, pipe->mouth_level_m - pipe->end_level_m,
                       &full_m3s);
  siphon_mouth_cover (diameter_m, fmin (full_m3s, venting_m3s), &cover_m);
  return pipe->mouth_level_m + cover_m;
}

static void
start_drain (Rehearser *rehearser, unsigned index)
{
  const System *system = rehearser->system;
  const DrainModel *model = &system->drains[index];
  const bool aged = rehearser->plan.edge < 0;
  DrainNow *drain = &rehearser->drains[index];

  drain->valve_k = drain_valve_k_at (rehearser->workspace, model, index, SETTING_AS_SET);
  drain->shut = model->blocked || !isfinite (drain->valve_k);
  drain->clean = drain_pipe_in (system, &rehearser->start, index, drain->shut ? 0 : drain->valve_k, aged, 1);
  drain->pipe = drain->clean;
  drain->may_prime = !drain->shut && model->primed_counts && !rehearser->plan.siphon_fails[index] &&
                     (model->role == DRAIN_SIPHON || model->role == DRAIN_EMERGENCY);
  drain->prime = model->role == DRAIN_SIPHON && model->primed_counts && !drain->shut &&
                         !rehearser->plan.siphon_lost[index]
                     ? PRIME_FULL
                     : PRIME_NONE;
  drain->break_z = drain->shut ? 0 : drain_break_z (rehearser, index);
  drain->stack_m3s = drain->full_m3s = 0;
  if (drain->shut)
    return;
  quiet_stack_flow (model->pipe.run.bore_m, STACK_FILL_MOST, &drain->stack_m3s);
  pipe_flow_at_loss (&drain->pipe.run, &system->fluid,
                     fmax (model->pipe.mouth_level_m - drain->pipe.end_level_m, drain->pipe.run.bore_m),
                     &drain->full_m3s);
}

static void
fill_places (Rehearser *rehearser)
{
  const System *system = rehearser->system;
  const State *start = &rehearser->start;
  double *y = rehearser->y;

  memset (y, 0, sizeof rehearser->y);
  for (unsigned i = 0; i < system->n_tanks; i++)
    y[rehearser->tank_at + i] =
        prism_volume (&rehearser->places[rehearser->tank_at + i].prism, start->display_z[i]);
  for (unsigned i = 0; i < system->n_overflows; i++) {
    const unsigned inner = rehearser->inner_at[i], box = rehearser->box_at[i];

    y[box] = prism_volume (&rehearser->places[box].prism, start->box_z[i]);
    if (inner != box)
      y[inner] = prism_volume (&rehearser->places[inner].prism, start->inner_z[i]);
  }
  for (unsigned i = 0; i < system->n_chambers; i++)
    y[rehearser->chamber_at + i] =
        fmax (prism_volume (&rehearser->places[rehearser->chamber_at + i].prism, start->chamber_z[i]), 0);
  for (unsigned i = 0; i < system->n_drains; i++)
    y[rehearser->drain_at + i] = drain_content_m3 (system, start, i, false);
  for (unsigned i = 0; i < system->n_pumps; i++)
    y[rehearser->pump_at + i] = rehearser->pumps[i].full_m3;
  if (rehearser->reservoir_at != NO_PLACE && !rehearser->plan.reservoir_empty)
    y[rehearser->reservoir_at] = field_number (system, system->reservoir, FIELD_RESERVOIR_VOLUME);
}

void
rehearser_set_checks (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  for (unsigned i = 0; i < system->n_runs; i++) {
    const RunModel *run = &system->runs[i];
    bool check = run->has_check && !(rehearser->plan.check_stuck && !rehearser->power);

    for (unsigned o = 0; o < system->n_outlets && !check && !rehearser->power; o++)
      check = system->outlets[o].run == (int) i && rehearser->outlets[o].air;
    /* A device gives nothing back: what stands in it stays, or its mouth lies in air. */
    for (unsigned f = 0; f < system->n_feeds; f++)
      check = check || system->feeds[f].node == run->to;
    if (rehearser->run_check[i] == (int) check)
      continue;
    rehearser->run_check[i] = check;
    network_set_check (rehearser->network, run->link, check, run->has_check ? run->cracking_m : 0);
  }
  /* Water that runs back through a pump is no duty of the steady loop; here it is what counts. */
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const bool check = rehearser->power;

    if (rehearser->pump_check[i] == (int) check)
      continue;
    rehearser->pump_check[i] = check;
    network_set_check (rehearser->network, system->pumps[i].link, check, 0);
  }
}

static double
ramp (const Rehearser *rehearser, double t)
{
  return rehearser->plan.block_s > 0 ? CLAMP (t / rehearser->plan.block_s, 0, 1) : 1;
}

static void
block_drain (Rehearser *rehearser, unsigned index, double share)
{
  const DrainModel *model = &rehearser->system->drains[index];
  DrainNow *drain = &rehearser->drains[index];
  const double open = 1 - share;

  drain->shut = model->blocked || !isfinite (drain->valve_k) || open < OPEN_LEAST;
  if (drain->shut)
    return;
  drain->pipe = drain->clean;
  drain->pipe.mouth_diameter_m *= sqrt (open);
  drain->pipe.run.k += model->entry_k * (1 / (open * open) - 1);
}

static void
set_speeds (Rehearser *rehearser, double t)
{
  for (unsigned i = 0; i < rehearser->system->n_pumps; i++) {
    PumpNow *pump = &rehearser->pumps[i];
    const double since_s = fmax (t - rehearser->coast_from_s, 0);
    double speed = pump->set_speed;

    if (!rehearser->power)
      speed *= fmax (1 - since_s / COAST_S, 0);
    pump->speed = speed;
    /* The affinity laws end there. */
    speed = speed < PUMP_SPEED_MIN ? 0 : speed;
    if (fabs (speed - pump->network_speed) > 0) {
      pump->network_speed = speed;
      network_set_speed (rehearser->network, rehearser->system->pumps[i].link, speed);
    }
  }
}

bool
rehearser_is_moving (const Rehearser *rehearser, double t)
{
  return (!rehearser->power && t < rehearser->coast_from_s + COAST_S) ||
         (rehearser->blocks && t < rehearser->plan.block_s);
}

void
rehearser_set_moment (Rehearser *rehearser, double t)
{
  const double share = ramp (rehearser, t);

  set_speeds (rehearser, t);
  if (!rehearser->blocks)
    return;
  for (unsigned i = 0; i < rehearser->system->n_drains; i++)
    if (rehearser->plan.drain_blocked[i] > 0)
      block_drain (rehearser, i, share * rehearser->plan.drain_blocked[i]);
  for (unsigned i = 0; i < rehearser->system->n_overflows; i++)
    rehearser->covered[i] = share * rehearser->plan.crest_covered[i];
}

static bool
blocks_anything (const Rehearser *rehearser)
{
  for (unsigned i = 0; i < rehearser->system->n_drains; i++)
    if (rehearser->plan.drain_blocked[i] > 0)
      return true;
  for (unsigned i = 0; i < rehearser->system->n_overflows; i++)
    if (rehearser->plan.crest_covered[i] > 0)
      return true;
  return false;
}

bool
rehearser_start (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  rehearser->t = 0;
  rehearser->failed = false;
  rehearser->power = true;
  rehearser->coast_from_s = 0;
  rehearser->top_off_on = rehearser->top_off_cut = false;
  rehearser->top_off_since_s = 0;
  rehearser->rests_noted = rehearser->blocked_noted = false;
  rehearser->n_watches = 0;
  rehearser->blocks = blocks_anything (rehearser);
  memset (rehearser->covered, 0, sizeof rehearser->covered);
  if (!solve_start (rehearser))
    return false;
  join_groups (rehearser);
  for (unsigned i = 0; i < system->n_pumps; i++)
    start_pump (rehearser, i);
  start_network (rehearser);
  for (unsigned i = 0; i < system->n_outlets; i++)
    start_outlet (rehearser, i);
  for (unsigned i = 0; i < system->n_drains; i++)
    start_drain (rehearser, i);
  rehearser_make_places (rehearser);
  fill_places (rehearser);
  rehearser->top_off_on = rehearser->plan.top_off_stuck && rehearser->reservoir_at != NO_PLACE;
  return true;
}
