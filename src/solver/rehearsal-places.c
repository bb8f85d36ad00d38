/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Where water can be: one number for the water in each place, and the level that it makes. */
#include "design/choices.h"
#include "design/geometry.h"
#include "solver/rehearsal-model.h"

/* No plan is taken as smaller than this share of the whole: what stands in a chamber never fills it from wall to wall. */
#define LEAST_SHARE 1e-3
/* What a pipe may be wrong by, of its own water; what the floor may. */
#define PIPE_TOLERANCE  1e-4
#define FLOOR_TOLERANCE 5e-7
/* Inside plan of a reservoir over its outside plan, as its default volume is reckoned. */
#define RESERVOIR_INSIDE 0.9
/* Plan that one sock takes in its holder (common practice: a ring of 180 mm). */
#define SOCK_AREA_M2 0.0254

double
prism_level (const Prism *prism, double m3, double *ret_area_m2)
{
  unsigned k = 0;

  while (k + 1 < prism->n && m3 >= prism->m3[k + 1])
    k++;
  *ret_area_m2 = prism->area_m2[k];
  return prism->z[k] + (m3 - prism->m3[k]) / prism->area_m2[k];
}

double
prism_volume (const Prism *prism, double level_z)
{
  unsigned k = 0;

  while (k + 1 < prism->n && level_z >= prism->z[k + 1])
    k++;
  return prism->m3[k] + prism->area_m2[k] * (level_z - prism->z[k]);
}

/* Another area from a height on, at or above the last. */
static void
add_piece (Prism *prism, double z, double area_m2)
{
  const unsigned n = prism->n;

  if (n == PIECES_MAX)
    return;
  prism->m3[n] = n == 0 ? 0 : prism->m3[n - 1] + prism->area_m2[n - 1] * (z - prism->z[n - 1]);
  prism->z[n] = z;
  prism->area_m2[n] = area_m2;
  prism->n++;
}

static unsigned
add_place (Rehearser *rehearser, PlaceKind kind)
{
  rehearser->places[rehearser->n_places] = (Place){.kind = kind, .tolerance_m3 = FLOOR_TOLERANCE};
  return rehearser->n_places++;
}

static Prism *
add_vessel (Rehearser *rehearser, double bottom_z, double area_m2)
{
  Place *place = &rehearser->places[add_place (rehearser, PLACE_VESSEL)];

  add_piece (&place->prism, bottom_z, area_m2);
  /* What is wrong in a large vessel is found again in the small one that the pump draws from. */
  place->tolerance_m3 =
      fmin (area_m2, rehearser->system->chambers[rehearser->system->datum].area_m2) * rehearser->tolerance_m;
  return &place->prism;
}

/* Beside the boxes inside it, from their undersides on. */
static void
add_tank (Rehearser *rehearser, const TankModel *tank)
{
  const System *system = rehearser->system;
  Prism *prism = add_vessel (rehearser, tank->bottom_z, tank->area_m2);
  double taken_m2 = 0, above_z = -NO_LIMIT;

  for (unsigned k = 0; k < tank->n_overflows; k++) {
    const OverflowModel *next = NULL;
    double next_z = NO_LIMIT;

    for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++) {
      const OverflowModel *overflow = &system->overflows[i];
      const double low_z = fmax (overflow->footprint_low_z, tank->bottom_z);

      if (overflow->footprint_m2 > 0 && low_z > above_z && low_z < next_z) {
        next = overflow;
        next_z = low_z;
      }
    }
    if (next == NULL)
      break;
    for (unsigned i = tank->first_overflow; i < tank->first_overflow + tank->n_overflows; i++)
      if (system->overflows[i].footprint_m2 > 0 &&
          fabs (fmax (system->overflows[i].footprint_low_z, tank->bottom_z) - next_z) <= 0)
        taken_m2 += system->overflows[i].footprint_m2;
    add_piece (prism, next_z, tank->area_m2 - taken_m2);
    above_z = next_z;
  }
}

static void
add_chamber (Rehearser *rehearser, const ChamberModel *chamber, double running_z)
{
  const double above_m2 = chamber->area_m2 * fmax (1 - chamber->filled, LEAST_SHARE);

  if (running_z > chamber->bottom_z) {
    Prism *prism = add_vessel (rehearser, chamber->bottom_z, chamber->area_m2);

    add_piece (prism, running_z, above_m2);
  } else {
    add_vessel (rehearser, chamber->bottom_z, above_m2);
  }
}

static void
add_pipes (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  rehearser->drain_at = rehearser->n_places;
  for (unsigned i = 0; i < system->n_drains; i++) {
    const DrainModel *drain = &system->drains[i];
    const double end_z = fmax (drain->end_z, rehearser->start.chamber_z[drain->chamber]);
    Place *place = &rehearser->places[add_place (rehearser, PLACE_PIPE)];

    rehearser->drains[i].full_m3 = segments_volume_above (system, drain->first_segment, drain->n_segments,
                                                          drain->pipe.run.bore_m, end_z);
    place->tolerance_m3 = fmax (PIPE_TOLERANCE * rehearser->drains[i].full_m3, FLOOR_TOLERANCE);
  }
  rehearser->pump_at = rehearser->n_places;
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const double chamber_z = rehearser->start.chamber_z[system->pumps[i].chamber];
    Place *place = &rehearser->places[add_place (rehearser, PLACE_PIPE)];
    PumpNow *pump = &rehearser->pumps[i];

    pump->full_m3 = 0;
    for (unsigned k = 0; k < system->n_runs; k++)
      if (system->runs[k].pump == (int) i)
        pump->full_m3 +=
            segments_volume_above (system, system->runs[k].first_segment, system->runs[k].n_segments,
                                   system->runs[k].pipe.bore_m, chamber_z);
    place->tolerance_m3 = fmax (PIPE_TOLERANCE * pump->full_m3, FLOOR_TOLERANCE);
  }
}

static void
add_reservoir (Rehearser *rehearser)
{
  const System *system = rehearser->system;
  Box3 box;

  rehearser->reservoir_at = NO_PLACE;
  if (system->reservoir < 0)
    return;
  box = geometry_outside (system->design, design_part (system->design, (unsigned) system->reservoir));
  rehearser->reservoir_base_z = box.origin.z;
  rehearser->tube_end_z = system->chambers[system->datum].bottom_z +
                          field_number (system, system->reservoir, FIELD_RESERVOIR_TUBE_END);
  rehearser->reservoir_at = rehearser->n_places;
  add_vessel (rehearser, box.origin.z,
              fmax (RESERVOIR_INSIDE * box.size.x * box.size.y,
                    field_number (system, system->reservoir, FIELD_RESERVOIR_VOLUME) / box.size.z));
}

static void
add_floors (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  rehearser->tank_floor_at = rehearser->n_places;
  for (unsigned i = 0; i < system->n_tanks; i++)
    add_place (rehearser, PLACE_FLOOR);
  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    rehearser->box_floor_at[i] = overflow->outer.there || overflow->kind == OVERFLOW_OUTSIDE
                                     ? add_place (rehearser, PLACE_FLOOR)
                                     : NO_PLACE;
  }
  rehearser->sump_floor_at = add_place (rehearser, PLACE_FLOOR);
  rehearser->air_at = rehearser->plan.evaporation_m3s > 0 ? add_place (rehearser, PLACE_AIR) : NO_PLACE;
}

static void
add_holders (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    const ChamberModel *chamber = &system->chambers[i];

    rehearser->holder_at[i] = NO_PLACE;
    if (!rehearser->plan.sock_clogged[i] || !(chamber->socks > 0))
      continue;
    rehearser->holder_at[i] = rehearser->n_places;
    add_vessel (rehearser, fmin (chamber->bypass_z, rehearser->start.chamber_z[i]),
                SOCK_AREA_M2 * chamber->socks);
  }
}

void
rehearser_make_places (Rehearser *rehearser)
{
  const System *system = rehearser->system;

  rehearser->n_places = 0;
  rehearser->tank_at = 0;
  for (unsigned i = 0; i < system->n_tanks; i++)
    add_tank (rehearser, &system->tanks[i]);
  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    rehearser->inner_at[i] = rehearser->box_at[i] = rehearser->n_places;
    add_vessel (rehearser, overflow->inner.floor_z, overflow->inner.area_m2);
    if (!overflow->outer.there)
      continue;
    rehearser->box_at[i] = rehearser->n_places;
    add_vessel (rehearser, overflow->outer.floor_z, overflow->outer.area_m2);
  }
  rehearser->chamber_at = rehearser->n_places;
  for (unsigned i = 0; i < system->n_chambers; i++)
    add_chamber (rehearser, &system->chambers[i], rehearser->start.chamber_z[i]);
  add_pipes (rehearser);
  add_holders (rehearser);
  add_reservoir (rehearser);
  add_floors (rehearser);
  rehearser->room.n = rehearser->n_places;
}

void
rehearser_read_levels (const Rehearser *rehearser, const double *y, double *ret_z, double *ret_area_m2)
{
  for (unsigned i = 0; i < rehearser->n_places; i++) {
    if (rehearser->places[i].kind == PLACE_VESSEL) {
      ret_z[i] = prism_level (&rehearser->places[i].prism, y[i], &ret_area_m2[i]);
    } else {
      ret_z[i] = y[i];
      ret_area_m2[i] = 1;
    }
  }
}
