/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Several overflows of one tank share its flow at one display level. What the drains carry counts only where a box drowns
 * its crest: as long as none does, the weirs alone say who takes how much. */
#include "hydraulics/bracket.h"
#include "solver/model.h"

/* How often valves are set anew for the flow that the setting lets pass. */
#define TUNINGS     6
#define DOUBT_STEPS 10
/* Drains and weir of one box that agree no better than this stand at a jump of a drain. */
#define AGREED 1e-9

typedef struct {
  const System *system;
  Workspace *workspace;
  ValveSetting setting;
  const TankModel *tank;
  unsigned overflow;
  State *state;
  double flow_m3s;
} SharePass;

/* Level behind the crest with the box at a level, but no lower than its floor. */
static double
behind_crest_z (const System *system, const OverflowModel *model, double flow_m3s, double box_z)
{
  const double floor_z = model->outer.there ? model->outer.floor_z : model->inner.floor_z;

  return overflow_inner_z (system, model, flow_m3s, fmax (box_z, floor_z));
}

/* Flow over a crest from a display level to a level behind it. */
static double
weir_gives (const OverflowModel *model, double display_z, double inner_z)
{
  const double stands_m = display_z - model->crest_z, below_m = fmax (inner_z - model->crest_z, 0);
  double flow_m3s = 0, head_m = stands_m;

  /* The head that a doubted one belongs to: the band is a share that hardly changes, so a few steps close in. */
  for (unsigned i = 0; i < DOUBT_STEPS && model->head_doubt != 0 && stands_m > 0; i++)
    head_m *= stands_m / overflow_doubted_head_m (model, head_m);

  if (head_m > below_m)
    weir_discharge (&model->weir, head_m, below_m, &flow_m3s);
  return flow_m3s;
}

static HydraulicsStatus
free_flow_of_display (double display_z, const void *data, double *ret_value)
{
  const SharePass *pass = data;

  *ret_value = 0;
  for (unsigned i = pass->tank->first_overflow; i < pass->tank->first_overflow + pass->tank->n_overflows; i++)
    *ret_value += weir_gives (&pass->system->overflows[i], display_z, -NO_LIMIT);
  return HYDRAULICS_OK;
}

typedef struct {
  const System *system;
  const OverflowModel *model;
  const DrainBranch *branches;
  unsigned n_branches;
  double display_z;
} BoxPass;

static double
drains_carry (const BoxPass *pass, double box_z)
{
  DrainShares shares;

  return drain_branches_flow (pass->branches, pass->n_branches, &pass->system->fluid, box_z, &shares) ==
                 HYDRAULICS_OK
             ? shares.total_m3s
             : 0;
}

/* By how much the drains carry more at a box level than the weir then gives: rises with the level. */
static HydraulicsStatus
drains_over_weir (double box_z, const void *data, double *ret_value)
{
  const BoxPass *pass = data;
  const double carried_m3s = drains_carry (pass, box_z);

  *ret_value = carried_m3s - weir_gives (pass->model, pass->display_z,
                                         behind_crest_z (pass->system, pass->model, carried_m3s, box_z));
  return HYDRAULICS_OK;
}

/* A full box stands at its rim. */
static HydraulicsStatus
display_of_full_box (double flow_m3s, const void *data, double *ret_value)
{
  const BoxPass *pass = data;

  *ret_value =
      fmin (overflow_display_z (pass->system, pass->model, flow_m3s, pass->model->lowest_rim_z, NULL), 1e6);
  return HYDRAULICS_OK;
}

static double
lowest_lip_z (const BoxPass *pass)
{
  double lip_z = pass->model->crest_z;

  for (unsigned i = 0; i < pass->n_branches; i++)
    lip_z = fmin (lip_z, pass->branches[i].pipe.mouth_level_m);
  return lip_z;
}

/* What passes a crest and the drains behind it, with valves as they are; `free_m3s` if the box did not matter. */
static double
flow_by_box (const BoxPass *pass, double free_m3s)
{
  const OverflowModel *model = pass->model;
  const double rim_z = model->lowest_rim_z, top_z = fmin (rim_z, pass->display_z);
  /* The box level that would just not drown the crest. */
  const double brim_z = model->crest_z - (overflow_inner_z (pass->system, model, free_m3s, rim_z) - rim_z);
  double low_z = lowest_lip_z (pass), box_z, excess_m3s = 0, flow_m3s = 0;

  if (behind_crest_z (pass->system, model, free_m3s, brim_z) <= model->crest_z + 1e-12 &&
      drains_carry (pass, brim_z) >= free_m3s)
    return free_m3s;
  if (!(low_z < top_z))
    low_z = top_z;
  drains_over_weir (top_z, pass, &excess_m3s);
  if (excess_m3s < 0) {
    return bracket_invert (display_of_full_box, pass, pass->display_z, 0, free_m3s, &flow_m3s) ==
                   HYDRAULICS_OK
               ? flow_m3s
               : free_m3s;
  }
  if (bracket_invert (drains_over_weir, pass, 0, low_z, top_z, &box_z) != HYDRAULICS_OK)
    return 0;
  flow_m3s = drains_carry (pass, box_z);
  drains_over_weir (box_z, pass, &excess_m3s);
  return fmin (fabs (excess_m3s) <= AGREED * flow_m3s ? flow_m3s : flow_m3s - excess_m3s, free_m3s);
}

static HydraulicsStatus
display_of_flow (double flow_m3s, const void *data, double *ret_value)
{
  const SharePass *pass = data;

  *ret_value = fmin (
      overflow_at_flow (pass->system, pass->workspace, pass->setting, pass->overflow, flow_m3s, pass->state),
      1e6);
  return HYDRAULICS_OK;
}

/* What one overflow takes at a display level. Valves that are set for the flow are set until it no longer changes. */
static double
overflow_takes (const SharePass *pass, double display_z)
{
  const OverflowModel *model = &pass->system->overflows[pass->overflow];
  const double free_m3s = weir_gives (model, display_z, -NO_LIMIT);
  double flow_m3s = free_m3s;
  DrainBranch branches[DRAIN_BRANCHES_MAX];
  BoxPass box = {pass->system, model, branches, 0, display_z};

  if (free_m3s <= 0 || (model->hangs_over && !hang_over_holds (model)))
    return 0;
  box.n_branches =
      overflow_branches (pass->system, pass->workspace, pass->state, pass->overflow, pass->setting, branches);
  for (unsigned i = 0; i < TUNINGS; i++) {
    const double before_m3s = flow_m3s;

    if (pass->setting == SETTING_TUNE && box.n_branches > 0)
      overflow_tune (pass->system, pass->workspace, pass->state, pass->overflow, flow_m3s, branches);
    flow_m3s = flow_by_box (&box, free_m3s);
    if (pass->setting != SETTING_TUNE || fabs (flow_m3s - before_m3s) <= 1e-13 * free_m3s)
      return flow_m3s;
  }
  flow_m3s = 0;
  bracket_invert (display_of_flow, pass, display_z, 0, free_m3s, &flow_m3s);
  return flow_m3s;
}

/* What all overflows of a tank take at one display level. */
static HydraulicsStatus
flow_of_display (double level_z, const void *data, double *ret_value)
{
  SharePass pass = *(const SharePass *) data;

  *ret_value = 0;
  for (unsigned i = 0; i < pass.tank->n_overflows; i++) {
    pass.overflow = pass.tank->first_overflow + i;
    const double flow_m3s = overflow_takes (&pass, level_z);

    pass.state->overflow_m3s[pass.overflow] = flow_m3s;
    *ret_value += flow_m3s;
  }
  return HYDRAULICS_OK;
}

/* Whether every overflow of a tank, given what its weir takes alone, keeps its crest free. */
static bool
weirs_decide (const SharePass *pass, double level_z)
{
  double sum_m3s;

  free_flow_of_display (level_z, pass, &sum_m3s);
  for (unsigned i = pass->tank->first_overflow; i < pass->tank->first_overflow + pass->tank->n_overflows;
       i++) {
    const OverflowModel *model = &pass->system->overflows[i];
    const double share = weir_gives (model, level_z, -NO_LIMIT) / sum_m3s;

    overflow_at_flow (pass->system, pass->workspace, pass->setting, i, share * pass->flow_m3s, pass->state);
    if (pass->state->inner_z[i] > model->crest_z)
      return false;
  }
  return true;
}

/* The display when nothing runs: as low as the lowest of its overflows lets it fall. */
static double
still_display_z (const SharePass *pass)
{
  double level_z = NO_LIMIT;

  for (unsigned i = pass->tank->first_overflow; i < pass->tank->first_overflow + pass->tank->n_overflows; i++)
    level_z =
        fmin (level_z, overflow_at_flow (pass->system, pass->workspace, pass->setting, i, 0, pass->state));
  return level_z;
}

double
overflow_shared_display_z (const System *system, Workspace *workspace, ValveSetting setting,
                           const TankModel *tank, double flow_m3s, State *state)
{
  const SharePass pass = {system, workspace, setting, tank, 0, state, flow_m3s};
  const double low_z = fmin (tank_lowest_crest_z (system, tank), tank->rim_z);
  double level_z = tank->rim_z, sum_m3s = 0;

  if (!(flow_m3s > 0))
    return still_display_z (&pass);
  if (bracket_invert (free_flow_of_display, &pass, flow_m3s, low_z, tank->rim_z, &level_z) == HYDRAULICS_OK) {
    if (weirs_decide (&pass, level_z))
      return level_z;
    level_z = tank->rim_z;
    bracket_invert (flow_of_display, &pass, flow_m3s, low_z, tank->rim_z, &level_z);
  }
  flow_of_display (level_z, &pass, &sum_m3s);
  for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++) {
    /* What is left by rounding, or by overflows that cannot take it all, is shared in proportion. */
    const double share = sum_m3s > 0 ? state->overflow_m3s[i] / sum_m3s : 1.0 / tank->n_overflows;

    overflow_at_flow (system, workspace, setting, i, share * flow_m3s, state);
  }
  return level_z;
}
