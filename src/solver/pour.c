/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Where water comes to rest in the sump: it fills the chamber in which it arrives, spills over the lowest edge beside it,
 * rises with its neighbours once they are joined, and goes on the floor over the rim. Chambers with a gap beneath their
 * baffle are one pool from the start. Every litre is in a pool or on the floor: nothing is lost by rounding. */
#include "solver/model.h"

/* Relative slack when a neighbour is found full to the common edge. */
#define FULL_SLACK 1e-12

double
chamber_volume_m3 (const ChamberModel *chamber, double running_z, double level_z)
{
  const double below_m = fmax (fmin (level_z, running_z) - chamber->bottom_z, 0);
  const double above_m = fmax (level_z - fmax (running_z, chamber->bottom_z), 0);

  return chamber->area_m2 * (below_m + (1 - chamber->filled) * above_m);
}

typedef struct {
  unsigned first, last;
  double m3;
} Pool;

typedef struct {
  const System *system;
  const double *running_z;
  Pool pools[EVALUATION_CHAMBERS_MAX];
  unsigned n_pools;
  double spilled_m3;
} Basin;

static double
pool_volume (const Basin *basin, const Pool *pool, double level_z)
{
  double m3 = 0;

  for (unsigned i = pool->first; i <= pool->last; i++)
    m3 += chamber_volume_m3 (&basin->system->chambers[i], basin->running_z[i], level_z);
  return m3;
}

/* Level at which a pool holds its volume, no higher than its rim. Volume over level is a straight line between the bottoms
 * and running levels of its chambers: the piece is found, and a chord across it is exact. */
static double
pool_level (const Basin *basin, const Pool *pool)
{
  const ChamberModel *chambers = basin->system->chambers;
  double low_z = chambers[pool->first].bottom_z, high_z = chambers[pool->first].rim_z;
  double low_m3 = pool_volume (basin, pool, low_z), high_m3 = pool_volume (basin, pool, high_z);

  for (unsigned i = 2 * pool->first; i <= 2 * pool->last + 1; i++) {
    const double z = i % 2 == 0 ? chambers[i / 2].bottom_z : basin->running_z[i / 2];

    if (!(z > low_z && z < high_z))
      continue;
    const double m3 = pool_volume (basin, pool, z);

    if (m3 < pool->m3) {
      low_z = z;
      low_m3 = m3;
    } else {
      high_z = z;
      high_m3 = m3;
    }
  }
  if (pool->m3 <= low_m3)
    return low_z;
  return pool->m3 < high_m3 ? low_z + (high_z - low_z) * (pool->m3 - low_m3) / (high_m3 - low_m3) : high_z;
}

static double
edge_z (const Basin *basin, unsigned baffle)
{
  return fmin (basin->system->baffles[baffle].crest_z, basin->system->chambers[0].rim_z);
}

static void
merge (Basin *basin, unsigned left)
{
  basin->pools[left].last = basin->pools[left + 1].last;
  basin->pools[left].m3 += basin->pools[left + 1].m3;
  for (unsigned i = left + 1; i + 1 < basin->n_pools; i++)
    basin->pools[i] = basin->pools[i + 1];
  basin->n_pools--;
}

/* The lowest way out of a pool: to the left, to the right, or over the rim (`ret_step` 0). */
static double
way_out (const Basin *basin, unsigned at, int *ret_step)
{
  const Pool *pool = &basin->pools[at];
  const double rim_z = basin->system->chambers[0].rim_z;
  const double left_z = at > 0 ? edge_z (basin, pool->first - 1) : NO_LIMIT;
  const double right_z = at + 1 < basin->n_pools ? edge_z (basin, pool->last) : NO_LIMIT;

  *ret_step = 0;
  if (fmin (left_z, right_z) >= rim_z)
    return rim_z;
  *ret_step = left_z < right_z ? -1 : 1;
  if (left_z == right_z) /* the emptier side first */
    *ret_step = basin->pools[at - 1].m3 / pool_volume (basin, &basin->pools[at - 1], left_z) <
                        basin->pools[at + 1].m3 / pool_volume (basin, &basin->pools[at + 1], right_z)
                    ? -1
                    : 1;
  return fmin (left_z, right_z);
}

static void
pour_into (Basin *basin, unsigned at, double m3)
{
  while (m3 > 0) {
    int step;
    const double out_z = way_out (basin, at, &step);
    const double room_m3 = fmax (pool_volume (basin, &basin->pools[at], out_z) - basin->pools[at].m3, 0);
    unsigned beside;

    if (m3 <= room_m3) {
      basin->pools[at].m3 += m3;
      return;
    }
    basin->pools[at].m3 += room_m3;
    m3 -= room_m3;
    if (step == 0) {
      basin->spilled_m3 += m3;
      return;
    }
    beside = step < 0 ? at - 1 : at + 1;
    if (basin->pools[beside].m3 >= pool_volume (basin, &basin->pools[beside], out_z) * (1 - FULL_SLACK)) {
      at = MIN (at, beside);
      merge (basin, at);
    } else {
      at = beside;
    }
  }
}

static unsigned
pool_of (const Basin *basin, unsigned chamber)
{
  unsigned at = 0;

  while (basin->pools[at].last < chamber)
    at++;
  return at;
}

void
pour (const System *system, const double *running_z, const double *added_m3, Pour *ret_pour)
{
  Basin basin = {.system = system, .running_z = running_z};

  for (unsigned i = 0; i < system->n_chambers; i++) {
    if (i > 0 && system->baffles[i - 1].gap_m > 0)
      basin.pools[basin.n_pools - 1].last = i;
    else
      basin.pools[basin.n_pools++] = (Pool){.first = i, .last = i};
  }
  for (unsigned i = 0; i < system->n_chambers; i++)
    pour_into (&basin, pool_of (&basin, i),
               chamber_volume_m3 (&system->chambers[i], running_z[i], running_z[i]));
  for (unsigned i = 0; i < system->n_chambers; i++)
    pour_into (&basin, pool_of (&basin, i), added_m3[i]);
  *ret_pour = (Pour){.spilled_m3 = basin.spilled_m3};
  for (unsigned p = 0; p < basin.n_pools; p++) {
    const double level_z = pool_level (&basin, &basin.pools[p]);

    for (unsigned i = basin.pools[p].first; i <= basin.pools[p].last; i++) {
      ret_pour->level_z[i] = level_z;
      ret_pour->m3[i] = chamber_volume_m3 (&system->chambers[i], running_z[i], level_z);
    }
  }
}
