/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The return loop against the levels that its own flow makes: outlets under the surface push against the display, which
 * rises with the flow over the crest. One bracketed search a tank, converged to 1e-11 m. */
#include <string.h>

#include "hydraulics/constants.h"
#include "solver/model.h"

#define ITERATIONS 80
#define SETTLED_M  1e-11
#define ACCEPTED_M 1e-9
#define FORESIGHT  4
#define FORESEEN_M 1e-6
/* What rounding leaves of no flow. */
#define NO_FLOW_M3S 1e-15

static PumpUnit
unit_of (const PumpModel *pump, const LoopRule *rule, unsigned index)
{
  const double speed = !pump->curve_ok ? 0 : rule->full_speed ? 1.0 : rule->speed[index];

  return (PumpUnit){.curve = pump->curve, .speed = speed, .tolerance = 1 + rule->edge * pump->tolerance};
}

/* Where nothing ran to a tank a pump may stand at the edge of lifting, with two states to fall into: then begin afresh. */
static bool
goes_on (const System *system, const State *after)
{
  if (after == NULL || after->status != HYDRAULICS_OK)
    return false;
  for (unsigned i = 0; i < system->n_tanks; i++)
    if (!(after->tank_m3s[i] > 0))
      return false;
  return true;
}

void
return_loop_set_branches (const System *system, Network *network, bool shut)
{
  for (unsigned i = 0; i < system->n_runs && system->n_feeds > 0; i++)
    network_set_shut (network, system->runs[i].link,
                      system->runs[i].shut || (shut && !system->runs[i].feeds_display));
}

void
return_loop_set_levels (const System *system, Network *network, const double *display_z,
                        const double *chamber_z)
{
  for (unsigned i = 0; i < system->n_outlets; i++)
    network_set_level (network, system->outlets[i].node,
                       fmax (system->outlets[i].z, display_z[system->outlets[i].tank]));
  for (unsigned i = 0; i < system->n_feeds; i++)
    network_set_level (network, system->feeds[i].node,
                       fmax (system->feeds[i].z, chamber_z[system->feeds[i].chamber]));
  for (unsigned i = 0; i < system->n_pumps; i++)
    network_set_level (network, system->pumps[i].suction_node, chamber_z[system->pumps[i].chamber]);
}

static Network *
prepare (const System *system, Workspace *workspace, const LoopRule *rule)
{
  Network *network = rule->aged ? workspace->aged : workspace->clean;

  for (unsigned i = 0; i < system->n_pumps; i++) {
    const PumpUnit unit = unit_of (&system->pumps[i], rule, i);

    network_set_pump (network, system->pumps[i].link, &unit);
  }
  return_loop_set_branches (system, network, rule->branches_shut);
  /* Results must not hang on what was solved before, not even in their last digits: only on what belongs to them. */
  if (!goes_on (system, rule->after))
    network_reset (network);
  return network;
}

static HydraulicsStatus
flows_at_levels (const System *system, Network *network, const double *display_z, State *state)
{
  HydraulicsStatus status;

  return_loop_set_levels (system, network, display_z, state->chamber_z);
  status = network_solve (network);
  if (status != HYDRAULICS_OK)
    return status;
  for (unsigned i = 0; i < system->n_tanks; i++)
    state->tank_m3s[i] = 0;
  for (unsigned i = 0; i < system->n_outlets; i++) {
    state->outlet_m3s[i] = network_level_inflow (network, system->outlets[i].node);
    state->tank_m3s[system->outlets[i].tank] += state->outlet_m3s[i];
  }
  for (unsigned i = 0; i < system->n_feeds; i++)
    state->feed_m3s[i] = network_level_inflow (network, system->feeds[i].node);
  for (unsigned i = 0; i < system->n_tanks; i++)
    if (state->tank_m3s[i] < NO_FLOW_M3S)
      state->tank_m3s[i] = 0;
  for (unsigned i = 0; i < system->n_pumps; i++)
    state->pump_m3s[i] = network_flow (network, system->pumps[i].link);
  return HYDRAULICS_OK;
}

/* Search of one tank's level: the computed level less the assumed one falls as the assumed one rises. */
typedef struct {
  double low_z, high_z, last_z, last_error;
  bool has_last;
} LevelSearch;

static double
next_level (LevelSearch *search, double level_z, double error)
{
  double step = error, next_z;

  if (error > 0)
    search->low_z = level_z;
  else
    search->high_z = level_z;
  if (search->has_last && fabs (level_z - search->last_z) > 0) {
    const double slope = (error - search->last_error) / (level_z - search->last_z);

    if (slope < -1e-6)
      step = -error / slope;
  }
  next_z = level_z + step;
  if (search->low_z > search->high_z) { /* other tanks moved meanwhile */
    search->low_z = -NO_LIMIT;
    search->high_z = NO_LIMIT;
  }
  if (!(next_z > search->low_z && next_z < search->high_z) && isfinite (search->low_z) &&
      isfinite (search->high_z))
    next_z = 0.5 * (search->low_z + search->high_z);
  search->last_z = level_z;
  search->last_error = error;
  search->has_last = true;
  return next_z;
}

/* How far the surfaces that the network was solved for are off those that its flows make. A surface below a free outlet
 * is none of its concern. */
static double
surfaces_moved (const System *system, const double *display_z, const double *chamber_z, const State *state)
{
  double moved = 0;

  for (unsigned i = 0; i < system->n_outlets; i++) {
    const OutletModel *outlet = &system->outlets[i];

    moved = fmax (moved, fabs (fmax (outlet->z, state->display_z[outlet->tank]) -
                               fmax (outlet->z, display_z[outlet->tank])));
  }
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const unsigned chamber = system->pumps[i].chamber;

    moved = fmax (moved, fabs (state->chamber_z[chamber] - chamber_z[chamber]));
  }
  for (unsigned i = 0; i < system->n_feeds; i++) {
    const FeedModel *feed = &system->feeds[i];

    moved = fmax (moved, fabs (fmax (feed->z, state->chamber_z[feed->chamber]) -
                               fmax (feed->z, chamber_z[feed->chamber])));
  }
  return moved;
}

/* Whether every search has closed in as far as levels count. */
static bool
all_closed_in (const System *system, const LevelSearch *search)
{
  for (unsigned i = 0; i < system->n_tanks; i++)
    if (!(search[i].high_z - search[i].low_z < SETTLED_M))
      return false;
  return true;
}

static void
read_network (const System *system, const Network *network, State *state)
{
  for (unsigned i = 0; i < system->n_pumps; i++)
    state->pump_head_m[i] = network_head (network, system->pumps[i].delivery_node) -
                            network_head (network, system->pumps[i].inlet_node);
  for (unsigned i = 0; i < system->n_runs; i++) {
    state->run_m3s[i] = network_flow (network, system->runs[i].link);
    state->run_loss_m[i] = network_loss (network, system->runs[i].link);
  }
}

/* @after may be the same as @state. */
static void
start_state (const System *system, const State *after, State *state)
{
  State start = {.status = HYDRAULICS_NOT_CONVERGED};
  const bool warm = goes_on (system, after);

  for (unsigned i = 0; i < system->n_chambers; i++)
    start.chamber_z[i] = fmin (system->chambers[i].level_z, system->chambers[i].rim_z);
  for (unsigned i = 0; i < system->n_tanks; i++) {
    const TankModel *tank = &system->tanks[i];

    if (warm)
      start.display_z[i] = after->display_z[i];
    else
      start.display_z[i] = tank->n_overflows > 0
                               ? fmin (system->overflows[tank->first_overflow].crest_z + 0.01, tank->rim_z)
                               : tank->rim_z;
  }
  for (unsigned i = 0; i < system->n_overflows; i++)
    start.box_z[i] = warm ? after->box_z[i] : -NO_LIMIT;
  *state = start;
}

/* Before the first levels are known, all of a tank's flow is put through its first drain. */
static void
guess_drains (const System *system, State *state)
{
  for (unsigned i = 0; i < system->n_tanks; i++) {
    const TankModel *tank = &system->tanks[i];

    if (tank->n_overflows > 0 && system->overflows[tank->first_overflow].n_drains > 0)
      state->drain_m3s[system->overflows[tank->first_overflow].first_drain] = state->tank_m3s[i];
  }
}

/* Levels with the boxes as they last stood: all that counts unless a box drowns its crest, and far cheaper than the drains
 * behind them. Several overflows of one tank share its flow by their drains, and a level at the rim is found with them. */
static bool
displays_by_boxes (const System *system, const double *tank_m3s, const State *boxes, double *ret_display_z)
{
  for (unsigned i = 0; i < system->n_tanks; i++) {
    const TankModel *tank = &system->tanks[i];

    if (tank->n_overflows != 1)
      return false;
    ret_display_z[i] = overflow_display_z (system, &system->overflows[tank->first_overflow], tank_m3s[i],
                                           boxes->box_z[tank->first_overflow], NULL);
    if (!(ret_display_z[i] < tank->rim_z))
      return false;
  }
  return true;
}

/* Brings the levels near to those of the loop before the drains are asked. Leaves them where it cannot. */
static HydraulicsStatus
foresee_levels (const System *system, Network *network, State *state, double *level_z)
{
  double display_z[EVALUATION_TANKS_MAX], first_z[EVALUATION_TANKS_MAX];
  LevelSearch search[EVALUATION_TANKS_MAX];

  memcpy (first_z, level_z, sizeof first_z);
  for (unsigned i = 0; i < system->n_tanks; i++)
    search[i] = (LevelSearch){.low_z = -NO_LIMIT, .high_z = NO_LIMIT};
  for (unsigned iteration = 0; iteration < FORESIGHT; iteration++) {
    double moved = 0;
    HydraulicsStatus status = flows_at_levels (system, network, level_z, state);

    if (status != HYDRAULICS_OK)
      return status;
    if (!displays_by_boxes (system, state->tank_m3s, state, display_z)) {
      memcpy (level_z, first_z, sizeof first_z);
      return HYDRAULICS_OK;
    }
    for (unsigned i = 0; i < system->n_tanks; i++) {
      moved = fmax (moved, fabs (display_z[i] - level_z[i]));
      level_z[i] = next_level (&search[i], level_z[i], display_z[i] - level_z[i]);
    }
    if (moved < FORESEEN_M)
      break;
  }
  return HYDRAULICS_OK;
}

void
return_loop_solve (const System *system, Workspace *workspace, const LoopRule *rule, ValveSetting setting,
                   State *state)
{
  Network *network = prepare (system, workspace, rule);
  LevelSearch search[EVALUATION_TANKS_MAX];
  double level_z[EVALUATION_TANKS_MAX] = {0}, chamber_z[EVALUATION_CHAMBERS_MAX], worst = NO_LIMIT;

  start_state (system, rule->after, state);
  for (unsigned i = 0; i < system->n_tanks; i++) {
    search[i] = (LevelSearch){.low_z = -NO_LIMIT, .high_z = NO_LIMIT};
    level_z[i] = state->display_z[i];
  }
  state->status = foresee_levels (system, network, state, level_z);
  for (unsigned iteration = 0; iteration < ITERATIONS && state->status == HYDRAULICS_OK; iteration++) {
    state->status = flows_at_levels (system, network, level_z, state);
    if (state->status != HYDRAULICS_OK)
      return;
    if (iteration == 0)
      guess_drains (system, state);
    memcpy (chamber_z, state->chamber_z, sizeof chamber_z);
    levels_at_flow (system, workspace, setting, state);
    worst = surfaces_moved (system, level_z, chamber_z, state);
    if (worst < SETTLED_M || all_closed_in (system, search))
      break;
    for (unsigned i = 0; i < system->n_tanks; i++)
      level_z[i] = next_level (&search[i], level_z[i], state->display_z[i] - level_z[i]);
  }
  if (!(worst < ACCEPTED_M)) {
    /* A level at a jump, as where a siphon begins to gulp: the levels are right, the flow is that of the bracket. */
    for (unsigned i = 0; i < system->n_tanks; i++)
      if (!(search[i].high_z - search[i].low_z < ACCEPTED_M))
        state->status = HYDRAULICS_NOT_CONVERGED;
  }
  read_network (system, network, state);
}
