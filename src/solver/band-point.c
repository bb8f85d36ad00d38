/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A system with its shared factors moved, and its states and margins there. Flows of the return are not solved again where a
 * level moves by millimetres: 3 mm on 1.5 m of head are a thousandth of the flow. */
#include <string.h>

#include "design/choices.h"
#include "solver/band-private.h"
#include "solver/checks.h"

/* Value of a factor at -1 to 1 of its band, from its likely one. */
static double
shift_of (FactorId factor, double at)
{
  const Factor *info = factor_info (factor);

  return at < 0 ? -at * (info->low - info->likely) : at * (info->high - info->likely);
}

static FactorId
mouth_factor (const DrainModel *drain)
{
  switch ((DrainRole) drain->role) {
  case DRAIN_SIPHON:
    return FACTOR_SIPHON_MOUTH;
  case DRAIN_EMERGENCY:
    return FACTOR_EMERGENCY_MOUTH;
  case DRAIN_STANDPIPE:
  case DRAIN_TRICKLE:
  default:
    return FACTOR_OPEN_MOUTH;
  }
}

/* Whether it counts as primed stays: the priming level tells how near that is. */
static void
move_drain (const DrainModel *base, const double *at, DrainModel *drain)
{
  const FactorId mouth = mouth_factor (base);
  const double raised_m = shift_of (mouth, at[mouth]),
               end_m = shift_of (FACTOR_DRAIN_END, at[FACTOR_DRAIN_END]);
  const double loss = 1 + shift_of (FACTOR_LOSS, at[FACTOR_LOSS]);

  drain->pipe.mouth_level_m = base->pipe.mouth_level_m + raised_m;
  drain->highest_z = base->highest_z + raised_m;
  drain->priming_z = base->priming_z + raised_m +
                     shift_of (FACTOR_PRIMING, at[FACTOR_PRIMING]) * base->pipe.mouth_diameter_m;
  drain->end_z = base->end_z + end_m;
  drain->clearance_m = base->clearance_m + end_m;
  drain->pipe.end_level_m = base->pipe.end_level_m + end_m;
  drain->pipe.mouth_factor = 1 + shift_of (FACTOR_LIP, at[FACTOR_LIP]);
  drain->pipe.run.k = base->pipe.run.k * loss;
  drain->valve_k_open = base->valve_k_open * loss;
  drain->k_above_valve = base->k_above_valve * loss;
  drain->pipe.run.roughness_m =
      base->pipe.run.roughness_m +
      fmax (at[FACTOR_DRAIN_AGE], 0) * (base->aged_roughness_m - base->pipe.run.roughness_m);
}

void
factors_move (const System *base, const double *at, System *moved)
{
  const double crest_m = shift_of (FACTOR_CREST, at[FACTOR_CREST]),
               baffle_m = shift_of (FACTOR_BAFFLE, at[FACTOR_BAFFLE]),
               break_m = shift_of (FACTOR_BREAK, at[FACTOR_BREAK]),
               loss = 1 + shift_of (FACTOR_LOSS, at[FACTOR_LOSS]);

  moved->exact = true;
  for (unsigned i = 0; i < base->n_overflows; i++) {
    moved->overflows[i].crest_z = base->overflows[i].crest_z + crest_m;
    moved->overflows[i].comb_top_z = base->overflows[i].comb_top_z + crest_m;
    moved->overflows[i].top_z = base->overflows[i].top_z + baffle_m;
    moved->overflows[i].tubes.tube.run.k = base->overflows[i].tubes.tube.run.k * loss;
    moved->overflows[i].head_doubt = at[FACTOR_WEIR];
  }
  for (unsigned i = 0; i < base->n_drains; i++)
    move_drain (&base->drains[i], at, &moved->drains[i]);
  for (unsigned i = 0; i + 1 < base->n_chambers; i++)
    moved->baffles[i].crest_z = base->baffles[i].crest_z + baffle_m;
  for (unsigned i = 0; i < base->n_chambers; i++)
    moved->chambers[i].bypass_z = base->chambers[i].bypass_z + baffle_m;
  for (unsigned i = 0; i < base->n_outlets; i++)
    moved->outlets[i].break_z = base->outlets[i].break_z + break_m;
  if (base->n_chambers > 0)
    moved->chambers[base->datum].level_z =
        base->chambers[base->datum].level_z + shift_of (FACTOR_RUNNING_LEVEL, at[FACTOR_RUNNING_LEVEL]);
}

/* Whether a factor has anything to move, so that it need not be tried. */
bool
factor_is_there (const System *system, FactorId factor)
{
  if (factor == FACTOR_SIPHON_MOUTH || factor == FACTOR_OPEN_MOUTH || factor == FACTOR_EMERGENCY_MOUTH) {
    for (unsigned i = 0; i < system->n_drains; i++)
      if (mouth_factor (&system->drains[i]) == factor)
        return true;
    return false;
  }
  if (factor == FACTOR_BREAK) {
    for (unsigned i = 0; i < system->n_outlets; i++)
      if (system->outlets[i].has_break)
        return true;
    return false;
  }
  return true;
}

/* Everything at one state: no edge differs from it, but the flow at full speed. */
void
point_margins (const System *moved, Workspace *workspace, const State *state, const PointStates *base,
               MarginList *list)
{
  Bands *bands = workspace->bands;
  Evaluation *scratch = bands->scratch;
  Judge work = {.system = moved, .workspace = workspace, .evaluation = scratch, .list = list};

  list->n = 0;
  if (base != NULL) {
    workspace->fast = base->fast;
    levels_at_flow (moved, workspace, SETTING_TUNE, &workspace->fast);
    workspace->full_speed = base->full_speed;
    levels_at_flow (moved, workspace, SETTING_AS_SET, &workspace->full_speed);
  }
  workspace->running = *state;
  levels_at_flow (moved, workspace, SETTING_TUNE, &workspace->running);
  workspace->fast = workspace->fast_open = workspace->slow = workspace->running;
  if (base == NULL)
    workspace->full_speed = workspace->running;
  evaluate_states (moved, workspace, NULL, scratch);
  judge_all (&work);
}

static void
move_network (const System *system, Workspace *workspace, const FactorPoint *point)
{
  for (unsigned i = 0; i < system->n_runs; i++) {
    PipeRun pipe = system->runs[i].pipe;

    pipe.roughness_m += point->return_age * (system->runs[i].aged_roughness_m - pipe.roughness_m);
    pipe.k *= 1 + point->return_loss * K_SCATTER;
    network_set_pipe (workspace->clean, system->runs[i].link, &pipe);
  }
}

unsigned
factor_point_margins (const System *system, Workspace *workspace, const FactorPoint *point, Band *ret_bands,
                      unsigned n)
{
  static const FactorPoint likely = {0};
  Bands *bands = workspace_take_bands (workspace, system);
  LoopRule rule = {.edge = point->pump};
  State state;

  for (unsigned i = 0; i < system->n_pumps; i++)
    rule.speed[i] = system->pumps[i].speed;
  factors_move (system, point->at, bands->moved);
  move_network (system, workspace, point);
  return_loop_solve (bands->moved, workspace, &rule, SETTING_TUNE, &state);
  move_network (system, workspace, &likely);
  if (state.status != HYDRAULICS_OK)
    return 0;
  point_margins (bands->moved, workspace, &state, NULL, &bands->tried);
  for (unsigned i = 0; i < MIN (n, bands->tried.n); i++) {
    const Margin *margin = &bands->tried.margins[i];

    ret_bands[i] = (Band){.check = margin->check,
                          .part = margin->part,
                          .nth = margin->nth,
                          .value = margin->value,
                          .limit = margin->limit,
                          .margin = margin->margin,
                          .low = margin->margin,
                          .high = margin->margin,
                          .widest = -1};
  }
  return bands->tried.n;
}
