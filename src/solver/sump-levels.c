/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Running levels in the sump: from the chamber whose level the top-off keeps, upstream past each baffle. */
#include "hydraulics/bracket.h"
#include "hydraulics/orifice.h"
#include "solver/model.h"

/* Below this a flow past a baffle is none. */
#define STILL_M3S 1e-12

static Weir
baffle_weir (const BaffleModel *baffle)
{
  return (Weir){.formula = WEIR_THICK_CREST,
                .crest_length_m = baffle->width_m,
                .channel_width_m = baffle->width_m,
                .crest_height_m = fmax (baffle->crest_z, 0.01),
                .crest_thickness_m = baffle->thickness_m};
}

/* Area of the gap beneath, no more than what the water below the baffle fills. */
static double
gap_area (const BaffleModel *baffle, double bottom_z, double below_z)
{
  return baffle->width_m * fmin (baffle->gap_m, fmax (below_z - bottom_z, 0.001));
}

typedef struct {
  const BaffleModel *baffle;
  double area_m2, below_z;
} BafflePass;

static HydraulicsStatus
baffle_flow (double above_z, const void *data, double *ret_value)
{
  const BafflePass *pass = data;
  const Weir weir = baffle_weir (pass->baffle);
  const double head_m = above_z - pass->baffle->crest_z;
  double over_m3s = 0, under_m3s = 0;

  if (head_m > 0)
    weir_discharge (&weir, head_m, fmin (fmax (pass->below_z - pass->baffle->crest_z, 0), head_m), &over_m3s);
  orifice_discharge (GAP_COEFFICIENT, pass->area_m2, fmax (above_z - pass->below_z, 0), &under_m3s);
  *ret_value = over_m3s + under_m3s;
  return HYDRAULICS_OK;
}

double
baffle_flow_m3s (const BaffleModel *baffle, double bottom_z, double above_z, double below_z)
{
  const double area_m2 = baffle->gap_m > 0 ? gap_area (baffle, bottom_z, below_z) : 0;
  const BafflePass pass = {baffle, area_m2, below_z};
  double flow_m3s = 0;

  baffle_flow (above_z, &pass, &flow_m3s);
  return flow_m3s;
}

/* Level above a baffle at a flow that passes it towards `below_z`. */
double
baffle_upstream_z (const BaffleModel *baffle, double bottom_z, double flow_m3s, double below_z)
{
  const Weir weir = baffle_weir (baffle);
  const BafflePass pass = {baffle, gap_area (baffle, bottom_z, below_z), below_z};
  double over_m = 0, under_m = 0, level_z;

  weir_head (&weir, flow_m3s, fmax (below_z - baffle->crest_z, 0), &over_m);
  if (baffle->gap_m <= 0)
    return fmax (baffle->crest_z + over_m, below_z);
  orifice_head (GAP_COEFFICIENT, pass.area_m2, flow_m3s, &under_m);
  if (below_z + under_m <= baffle->crest_z)
    return below_z + under_m;
  level_z = fmin (below_z + under_m, fmax (baffle->crest_z + over_m, below_z));
  /* Both ways run: the level lies under what either alone would need. */
  bracket_invert (baffle_flow, &pass, flow_m3s, fmax (below_z, baffle->crest_z), level_z, &level_z);
  return level_z;
}

/* Level of a chamber behind a baffle that nothing passes: joined by a gap, or as full as its edge. */
static double
still_z (const BaffleModel *baffle, double beside_z, double rim_z)
{
  return baffle->gap_m > 0 || beside_z > baffle->crest_z ? beside_z : fmin (baffle->crest_z, rim_z);
}

static double
next_z (const System *system, unsigned baffle_index, unsigned chamber, double towards_known_m3s,
        double known_z)
{
  const BaffleModel *baffle = &system->baffles[baffle_index];
  const ChamberModel *model = &system->chambers[chamber];

  if (towards_known_m3s > STILL_M3S)
    return baffle_upstream_z (baffle, model->bottom_z, towards_known_m3s, known_z);
  if (towards_known_m3s >= -STILL_M3S)
    return still_z (baffle, known_z, model->rim_z);
  /* Water runs away from the kept level to another pump: over a free edge its chamber stands at its own level. */
  if (baffle->gap_m > 0) {
    double fall_m = 0;

    orifice_head (GAP_COEFFICIENT, gap_area (baffle, model->bottom_z, known_z), -towards_known_m3s, &fall_m);
    return fmax (known_z - fall_m, model->bottom_z);
  }
  return fmin (model->level_z, known_z);
}

void
sump_levels (const System *system, State *state)
{
  double net_m3s[EVALUATION_CHAMBERS_MAX] = {0};
  double across_m3s = 0;

  for (unsigned i = 0; i < system->n_drains; i++)
    net_m3s[system->drains[i].chamber] += state->drain_m3s[i];
  for (unsigned i = 0; i < system->n_feeds; i++)
    net_m3s[system->feeds[i].chamber] += state->feed_m3s[i];
  for (unsigned i = 0; i < system->n_pumps; i++)
    net_m3s[system->pumps[i].chamber] -= state->pump_m3s[i];
  for (unsigned i = 0; i + 1 < system->n_chambers; i++) {
    across_m3s += net_m3s[i];
    state->baffle_m3s[i] = fabs (across_m3s) < 1e-9 * fabs (state->pump_m3s[0]) ? 0 : across_m3s;
  }
  state->chamber_z[system->datum] =
      fmin (system->chambers[system->datum].level_z, system->chambers[system->datum].rim_z);
  for (unsigned i = system->datum; i-- > 0;)
    state->chamber_z[i] = next_z (system, i, i, state->baffle_m3s[i], state->chamber_z[i + 1]);
  for (unsigned i = system->datum + 1; i < system->n_chambers; i++)
    state->chamber_z[i] = next_z (system, i - 1, i, -state->baffle_m3s[i - 1], state->chamber_z[i - 1]);
}

/* The chambers that stand with the return chamber, joined by gaps: first and last. */
static void
return_pool (const System *system, unsigned *ret_first, unsigned *ret_last)
{
  unsigned first = system->datum, last = system->datum;

  while (first > 0 && system->baffles[first - 1].gap_m > 0)
    first--;
  while (last + 1 < system->n_chambers && system->baffles[last].gap_m > 0)
    last++;
  *ret_first = first;
  *ret_last = last;
}

double
return_pool_area_m2 (const System *system)
{
  unsigned first, last;
  double area_m2 = 0;

  return_pool (system, &first, &last);
  for (unsigned i = first; i <= last; i++)
    area_m2 += system->chambers[i].area_m2;
  return area_m2;
}

double
return_usable_m3 (const System *system, const State *state, double low_z)
{
  unsigned first, last;
  double volume_m3 = 0, held_z;

  return_pool (system, &first, &last);
  for (unsigned i = first; i <= last; i++)
    volume_m3 += system->chambers[i].area_m2 * fmax (state->chamber_z[i] - low_z, 0);
  held_z = low_z;
  for (unsigned i = first; i-- > 0;) {
    if (system->baffles[i].gap_m <= 0)
      held_z = fmax (held_z, system->baffles[i].crest_z);
    volume_m3 += system->chambers[i].area_m2 * fmax (state->chamber_z[i] - held_z, 0);
  }
  held_z = low_z;
  for (unsigned i = last + 1; i < system->n_chambers; i++) {
    if (system->baffles[i - 1].gap_m <= 0)
      held_z = fmax (held_z, system->baffles[i - 1].crest_z);
    volume_m3 += system->chambers[i].area_m2 * fmax (state->chamber_z[i] - held_z, 0);
  }
  return volume_m3;
}
