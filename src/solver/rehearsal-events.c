/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Levels at which something happens: each is watched from one side, and turns when the level passes it. */
#include "design/choices.h"
#include "solver/rehearsal-model.h"

/* How far a level must come back before the same thing can happen again. */
#define PLAY_M 0.0005
/* The tail over a crest never ends: it counts as dry from here on. */
#define CREST_DRY_M 0.0005
#define RIM_PLAY_M  0.0001
#define WET_PLAY_M  0.002
/* A float switch turns its pump on so far below the level at which it turns it off (common practice). */
#define FLOAT_PLAY_M 0.005
/* A high-level switch sits so far over the running display (common practice). */
#define HIGH_LEVEL_M 0.010
#define EMPTY_SHARE  0.02
#define LAST_M3      1e-5

static double
box_level (const Rehearser *rehearser, unsigned drain, const double *y)
{
  return rehearser_level (rehearser, rehearser->box_at[rehearser->system->drains[drain].overflow], y);
}

static double
chamber_level (const Rehearser *rehearser, unsigned chamber, const double *y)
{
  return rehearser_level (rehearser, rehearser->chamber_at + chamber, y);
}

/* A pipe runs full once its mouth is flooded well below every rim, and the water over its crown outweighs that over its
 * end: siphon_starting (). */
static double
priming_value (const Rehearser *rehearser, unsigned index, const double *y)
{
  const DrainModel *model = &rehearser->system->drains[index];
  const DrainPipe *pipe = &rehearser->drains[index].pipe;
  const double box_z = box_level (rehearser, index, y);
  const double depth_m = fmax (chamber_level (rehearser, model->chamber, y) - model->end_z, 0);
  double priming_z = model->priming_z;

  drain_priming_level (pipe, &priming_z);
  return fmin (box_z - priming_z, box_z - model->highest_z - depth_m);
}

static double
rim_value (const Rehearser *rehearser, unsigned index, const double *y)
{
  const System *system = rehearser->system;
  double rim_z, level_z;

  if (index < system->n_tanks) {
    rim_z = system->tanks[index].rim_z;
    level_z = rehearser_level (rehearser, rehearser->tank_at + index, y);
  } else if (index < system->n_tanks + system->n_overflows) {
    const unsigned overflow = index - system->n_tanks;
    const OverflowModel *model = &system->overflows[overflow];

    rim_z = model->outer.there ? model->outer.rim_z : model->inner.rim_z;
    level_z = rehearser_level (rehearser, rehearser->box_at[overflow], y);
  } else {
    const unsigned chamber = index - system->n_tanks - system->n_overflows;

    rim_z = system->chambers[chamber].rim_z;
    level_z = chamber_level (rehearser, chamber, y);
    if (rehearser->holder_at[chamber] != NO_PLACE)
      level_z = fmax (level_z, rehearser_level (rehearser, rehearser->holder_at[chamber], y));
  }
  return level_z - rim_z;
}

static double
plain_value (const Rehearser *rehearser, const Watch *watch, const double *y)
{
  const System *system = rehearser->system;
  const unsigned i = watch->index;

  switch (watch->kind) {
  case WATCH_OUTLET:
    return rehearser_level (rehearser, rehearser->tank_at + system->outlets[i].tank, y) -
           rehearser->outlets[i].stops_z;
  case WATCH_PRIMING:
    return priming_value (rehearser, i, y);
  case WATCH_FILLED:
    return y[rehearser->drain_at + i] - rehearser->drains[i].full_m3;
  case WATCH_BREAKS:
    return box_level (rehearser, i, y) - rehearser->drains[i].break_z;
  case WATCH_LIP:
    return box_level (rehearser, i, y) - system->drains[i].pipe.mouth_level_m;
  case WATCH_CREST:
    return rehearser_level (rehearser, rehearser->tank_at + system->overflows[i].tank, y) -
           system->overflows[i].crest_z - CREST_DRY_M;
  case WATCH_DROWNED:
    return rehearser_level (rehearser, rehearser->inner_at[i], y) - system->overflows[i].crest_z;
  case WATCH_BAFFLE:
    return fmax (chamber_level (rehearser, i, y), chamber_level (rehearser, i + 1, y)) -
           system->baffles[i].crest_z;
  case WATCH_DRY:
    return chamber_level (rehearser, system->pumps[i].chamber, y) - system->pumps[i].suction_z;
  case WATCH_PIPE_FULL:
    return y[rehearser->pump_at + i] - rehearser->pumps[i].full_m3;
  case WATCH_PIPE_EMPTY:
    return y[rehearser->pump_at + i] - EMPTY_SHARE * rehearser->pumps[i].full_m3;
  case WATCH_RIM:
    return rim_value (rehearser, i, y);
  case WATCH_FLOAT:
    return chamber_level (rehearser, system->datum, y) - rehearser->start.chamber_z[system->datum];
  case WATCH_HIGH_LEVEL:
    return rehearser_level (rehearser, rehearser->tank_at + i, y) - rehearser->start.display_z[i] -
           HIGH_LEVEL_M;
  case WATCH_RESERVOIR:
    return y[rehearser->reservoir_at] - LAST_M3;
  default:
    return 0;
  }
}

/* How much the turning point moves once a watch has turned to the other side: up for those that matter as a level falls,
 * down for those that matter as it rises. */
static double
play_of (const Watch *watch)
{
  switch (watch->kind) {
  case WATCH_LIP:
  case WATCH_DROWNED:
  case WATCH_BAFFLE:
    return watch->above ? PLAY_M : 0;
  case WATCH_RIM:
    return watch->above ? RIM_PLAY_M : 0;
  case WATCH_OUTLET:
  case WATCH_CREST:
    return watch->above ? 0 : -PLAY_M;
  case WATCH_DRY:
    return watch->above ? 0 : -WET_PLAY_M;
  case WATCH_FLOAT:
    return watch->above ? FLOAT_PLAY_M : 0;
  case WATCH_PIPE_EMPTY:
  case WATCH_RESERVOIR:
    return watch->above ? 0 : -LAST_M3;
  case WATCH_PRIMING:
  case WATCH_FILLED:
  case WATCH_BREAKS:
  case WATCH_PIPE_FULL:
  case WATCH_HIGH_LEVEL:
  default:
    return 0;
  }
}

double
watch_value (const Rehearser *rehearser, const Watch *watch, const double *y)
{
  return plain_value (rehearser, watch, y) + play_of (watch);
}

static bool
is_watched (const Rehearser *rehearser, WatchKind kind, unsigned i)
{
  const System *system = rehearser->system;

  switch (kind) {
  case WATCH_PRIMING:
    return rehearser->drains[i].prime == PRIME_NONE && rehearser->drains[i].may_prime &&
           !rehearser->drains[i].shut;
  case WATCH_FILLED:
    return rehearser->drains[i].prime == PRIME_FILLING;
  case WATCH_BREAKS:
    return rehearser->drains[i].prime != PRIME_NONE;
  case WATCH_LIP:
    return system->drains[i].role != DRAIN_SIPHON && !rehearser->drains[i].shut;
  case WATCH_DRY:
    return rehearser->pumps[i].speed > 0;
  case WATCH_PIPE_FULL:
    return rehearser->power && !rehearser->pumps[i].filled;
  case WATCH_PIPE_EMPTY:
    return pipe_runs_out (rehearser, i);
  case WATCH_RIM:
    return i < system->n_tanks || i >= system->n_tanks + system->n_overflows ||
           rehearser->box_floor_at[i - system->n_tanks] != NO_PLACE;
  case WATCH_FLOAT:
    return rehearser->power && !rehearser->plan.top_off_stuck && !rehearser->plan.reservoir_empty &&
           !rehearser->top_off_cut;
  case WATCH_HIGH_LEVEL:
    return rehearser->top_off_on && !rehearser->top_off_cut &&
           (int) field_number (system, system->reservoir, FIELD_RESERVOIR_CUT_OUT) == CUT_OUT_HIGH_LEVEL;
  case WATCH_RESERVOIR:
    return rehearser->y[rehearser->reservoir_at] > LAST_M3;
  case WATCH_OUTLET:
  case WATCH_CREST:
  case WATCH_DROWNED:
  case WATCH_BAFFLE:
  default:
    return true;
  }
}

/* On which side of it a level is that stands about its turning point: what is on stays on. */
static bool
begins_above (const Rehearser *rehearser, const Watch *watch)
{
  switch (watch->kind) {
  case WATCH_FLOAT:
    return !rehearser->top_off_on;
  case WATCH_BREAKS:
  case WATCH_PIPE_EMPTY:
    return true;
  case WATCH_PRIMING:
  case WATCH_FILLED:
  case WATCH_PIPE_FULL:
  case WATCH_HIGH_LEVEL:
    return false;
  case WATCH_OUTLET:
  case WATCH_LIP:
  case WATCH_CREST:
  case WATCH_DROWNED:
  case WATCH_BAFFLE:
  case WATCH_DRY:
  case WATCH_RIM:
  case WATCH_RESERVOIR:
  default:
    return plain_value (rehearser, watch, rehearser->y) > 0;
  }
}

static void
add_watches (Rehearser *rehearser, WatchKind kind, unsigned n)
{
  for (unsigned i = 0; i < n; i++) {
    Watch watch = {.kind = kind, .index = i};
    bool known = false;

    if (!is_watched (rehearser, kind, i) || rehearser->n_watches == WATCHES_MAX)
      continue;
    for (unsigned k = 0; k < rehearser->n_before && !known; k++)
      if (rehearser->before[k].kind == kind && rehearser->before[k].index == i) {
        known = true;
        watch.above = rehearser->before[k].above;
      }
    if (!known)
      watch.above = begins_above (rehearser, &watch);
    rehearser->watches[rehearser->n_watches++] = watch;
  }
}

/* What was watched already keeps its side. */
void
rehearser_make_watches (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  memcpy (rehearser->before, rehearser->watches, rehearser->n_watches * sizeof *rehearser->watches);
  rehearser->n_before = rehearser->n_watches;
  rehearser->n_watches = 0;
  add_watches (rehearser, WATCH_OUTLET, system->n_outlets);
  add_watches (rehearser, WATCH_PRIMING, system->n_drains);
  add_watches (rehearser, WATCH_FILLED, system->n_drains);
  add_watches (rehearser, WATCH_BREAKS, system->n_drains);
  add_watches (rehearser, WATCH_LIP, system->n_drains);
  add_watches (rehearser, WATCH_CREST, system->n_overflows);
  add_watches (rehearser, WATCH_DROWNED, system->n_overflows);
  add_watches (rehearser, WATCH_BAFFLE, system->n_chambers > 0 ? system->n_chambers - 1 : 0);
  add_watches (rehearser, WATCH_DRY, system->n_pumps);
  add_watches (rehearser, WATCH_PIPE_FULL, system->n_pumps);
  add_watches (rehearser, WATCH_PIPE_EMPTY, system->n_pumps);
  add_watches (rehearser, WATCH_RIM, system->n_tanks + system->n_overflows + system->n_chambers);
  if (rehearser->reservoir_at == NO_PLACE)
    return;
  add_watches (rehearser, WATCH_FLOAT, 1);
  add_watches (rehearser, WATCH_HIGH_LEVEL, system->n_tanks);
  add_watches (rehearser, WATCH_RESERVOIR, 1);
}

static void
fire_drain (Rehearser *rehearser, const Watch *watch, Rehearsal *rehearsal)
{
  DrainNow *drain = &rehearser->drains[watch->index];
  const int part = rehearser->system->drains[watch->index].part;
  const double box_z = box_level (rehearser, watch->index, rehearser->y);

  if (watch->kind == WATCH_PRIMING) {
    drain->prime = PRIME_FILLING;
    drain->break_z = drain_break_z (rehearser, watch->index);
  } else if (watch->kind == WATCH_FILLED) {
    drain->prime = PRIME_FULL;
    rehearser_note (rehearser, rehearsal, REHEARSAL_PRIMED, part, box_z);
  } else {
    if (drain->prime == PRIME_FULL)
      rehearser_note (rehearser, rehearsal, REHEARSAL_PRIME_LOST, part, box_z);
    drain->prime = PRIME_NONE;
  }
}

static void
fire_outlet (Rehearser *rehearser, const Watch *watch, Rehearsal *rehearsal)
{
  const OutletModel *outlet = &rehearser->system->outlets[watch->index];
  const double level_z = rehearser_level (rehearser, rehearser->tank_at + outlet->tank, rehearser->y);
  const bool was_air = rehearser->outlets[watch->index].air;

  /* Without a pump, air that is in stays in. */
  if (!watch->above)
    rehearser->outlets[watch->index].air = true;
  else if (rehearser->power)
    rehearser->outlets[watch->index].air = false;
  if (!watch->above && !was_air)
    rehearser_note (rehearser, rehearsal,
                    rehearser->power ? REHEARSAL_OUTLET_UNCOVERED : REHEARSAL_OUTLET_AIR, outlet->part,
                    level_z);
  rehearser_set_checks (rehearser);
}

static void
fire_rim (Rehearser *rehearser, const Watch *watch, Rehearsal *rehearsal)
{
  const System *system = rehearser->system;
  const unsigned i = watch->index;
  const int part = i < system->n_tanks ? system->tanks[i].part
                   : i < system->n_tanks + system->n_overflows
                       ? system->overflows[i - system->n_tanks].part
                       : system->chambers[i - system->n_tanks - system->n_overflows].part;

  rehearser_note (rehearser, rehearsal, watch->above ? REHEARSAL_SPILL_BEGINS : REHEARSAL_SPILL_ENDS, part,
                  NO_NUMBER);
  if (watch->above && isnan (rehearsal->matters_s))
    rehearsal->matters_s = rehearser->t;
}

static void
fire_pump (Rehearser *rehearser, const Watch *watch, Rehearsal *rehearsal)
{
  const PumpModel *pump = &rehearser->system->pumps[watch->index];
  const double level_z = chamber_level (rehearser, pump->chamber, rehearser->y);

  if (watch->kind == WATCH_PIPE_FULL) {
    rehearser->pumps[watch->index].filled = true;
    rehearser_note (rehearser, rehearsal, REHEARSAL_PIPE_FULL, pump->part, NO_NUMBER);
  } else if (watch->kind == WATCH_PIPE_EMPTY) {
    rehearser_note (rehearser, rehearsal, REHEARSAL_PIPE_EMPTY, pump->part, NO_NUMBER);
  } else {
    rehearser_note (rehearser, rehearsal, watch->above ? REHEARSAL_PUMP_WET : REHEARSAL_PUMP_DRY, pump->part,
                    level_z);
    if (!watch->above && isnan (rehearsal->pump_dry_s)) {
      rehearsal->pump_dry_s = rehearser->t;
      rehearsal->pump_dry_part = pump->part;
    }
    if (!watch->above && isnan (rehearsal->matters_s))
      rehearsal->matters_s = rehearser->t;
  }
}

static void
fire_top_off (Rehearser *rehearser, const Watch *watch, Rehearsal *rehearsal)
{
  const int part = rehearser->system->reservoir;

  if (watch->kind == WATCH_RESERVOIR) {
    if (!watch->above)
      rehearser_note (rehearser, rehearsal, REHEARSAL_RESERVOIR_EMPTY, part, NO_NUMBER);
  } else if (watch->kind == WATCH_HIGH_LEVEL) {
    rehearser->top_off_on = false;
    rehearser->top_off_cut = true;
    rehearser_note (rehearser, rehearsal, REHEARSAL_TOP_OFF_CUT_OUT, part, NO_NUMBER);
  } else {
    rehearser->top_off_on = !watch->above;
    rehearser->top_off_since_s = rehearser->t;
    rehearser_note (rehearser, rehearsal, watch->above ? REHEARSAL_TOP_OFF_STOPS : REHEARSAL_TOP_OFF_STARTS,
                    part, chamber_level (rehearser, rehearser->system->datum, rehearser->y));
  }
}

static void
fire_notice (Rehearser *rehearser, const Watch *watch, Rehearsal *rehearsal)
{
  const System *system = rehearser->system;
  const unsigned i = watch->index;

  if (watch->kind == WATCH_LIP)
    rehearser_note (rehearser, rehearsal, watch->above ? REHEARSAL_LIP_REACHED : REHEARSAL_LIP_DRY,
                    system->drains[i].part, box_level (rehearser, i, rehearser->y));
  else if (watch->kind == WATCH_CREST && !watch->above)
    rehearser_note (
        rehearser, rehearsal, REHEARSAL_CREST_DRY, system->overflows[i].part,
        rehearser_level (rehearser, rehearser->tank_at + system->overflows[i].tank, rehearser->y));
  else if (watch->kind == WATCH_DROWNED && watch->above)
    rehearser_note (rehearser, rehearsal, REHEARSAL_CREST_DROWNED, system->overflows[i].part,
                    rehearser_level (rehearser, rehearser->inner_at[i], rehearser->y));
  else if (watch->kind == WATCH_BAFFLE && watch->above)
    rehearser_note (rehearser, rehearsal, REHEARSAL_BAFFLE_OVERTOPPED, system->baffles[i].part,
                    system->baffles[i].crest_z);
}

void
watch_fire (Rehearser *rehearser, Watch *watch, Rehearsal *rehearsal)
{
  watch->above = !watch->above;
  switch (watch->kind) {
  case WATCH_PRIMING:
  case WATCH_FILLED:
  case WATCH_BREAKS:
    fire_drain (rehearser, watch, rehearsal);
    break;
  case WATCH_OUTLET:
    fire_outlet (rehearser, watch, rehearsal);
    break;
  case WATCH_RIM:
    fire_rim (rehearser, watch, rehearsal);
    break;
  case WATCH_DRY:
  case WATCH_PIPE_FULL:
  case WATCH_PIPE_EMPTY:
    fire_pump (rehearser, watch, rehearsal);
    break;
  case WATCH_FLOAT:
  case WATCH_HIGH_LEVEL:
  case WATCH_RESERVOIR:
    fire_top_off (rehearser, watch, rehearsal);
    break;
  case WATCH_LIP:
  case WATCH_CREST:
  case WATCH_DROWNED:
  case WATCH_BAFFLE:
  default:
    fire_notice (rehearser, watch, rehearsal);
  }
}
