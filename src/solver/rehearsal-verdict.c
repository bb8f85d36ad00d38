/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a rehearsal has come to: peaks, lowest levels, what spilled, and when all is at rest. */
#include "design/choices.h"
#include "solver/rehearsal-model.h"

/* At rest: still to come is less than this share of what drained, or this much. */
#define REST_SHARE 1e-3
#define REST_M3    5e-6
/* A running system rests when it would take this long to move as much. */
#define STEADY_S 300.0
#define CALM_S   10.0
/* Less on the floor is the last digit of the integration. */
#define DROP_M3 1e-6

double
rehearser_level (const Rehearser *rehearser, unsigned place, const double *y)
{
  double area_m2;

  return prism_level (&rehearser->places[place].prism, y[place], &area_m2);
}

/* Vessels are numbered as those of an evaluation; the places of tanks, boxes and chambers stand in the same order. */
unsigned
rehearser_vessel_place (const Rehearser *rehearser, unsigned vessel)
{
  (void) rehearser;
  return vessel;
}

void
rehearser_note (const Rehearser *rehearser, Rehearsal *rehearsal, RehearsalEventKind kind, int part,
                double level_z)
{
  if (rehearsal->n_events == REHEARSAL_EVENTS_MAX) {
    rehearsal->events_cut = true;
    return;
  }
  rehearsal->events[rehearsal->n_events++] =
      (RehearsalEvent){.kind = kind, .time_s = rehearser->t, .part = part, .level_z = level_z};
}

static double
sum_of (const Rehearser *rehearser, const double *y)
{
  double m3 = 0;

  for (unsigned i = 0; i < rehearser->n_places; i++)
    m3 += y[i];
  return m3;
}

/* Water in tanks, boxes and pipes. */
static double
upper_m3 (const Rehearser *rehearser)
{
  double m3 = 0;

  for (unsigned i = 0; i < rehearser->chamber_at; i++)
    m3 += rehearser->y[i];
  for (unsigned i = rehearser->drain_at; i < rehearser->pump_at + rehearser->system->n_pumps; i++)
    m3 += rehearser->y[i];
  return m3;
}

static void
add_vessel (const Rehearser *rehearser, Rehearsal *rehearsal, VesselKind kind, int part, double rim_z)
{
  RehearsalVessel *vessel = &rehearsal->vessels[rehearsal->n_vessels];
  const double level_z = rehearser_level (rehearser, rehearsal->n_vessels, rehearser->y);

  *vessel = (RehearsalVessel){.kind = kind,
                              .part = part,
                              .rim_z = rim_z,
                              .start_z = level_z,
                              .end_z = level_z,
                              .peak_z = level_z,
                              .lowest_z = level_z,
                              .least_freeboard_m = NO_NUMBER};
  rehearsal->n_vessels++;
}

static void
add_spill (Rehearsal *rehearsal, int part)
{
  rehearsal->spills[rehearsal->n_spills++] = (RehearsalSpill){.part = part, .m3 = 0, .first_s = NO_NUMBER};
}

void
verdict_begin (Rehearser *rehearser, Rehearsal *rehearsal)
{
  const System *system = rehearser->system;

  for (unsigned i = 0; i < system->n_tanks; i++)
    add_vessel (rehearser, rehearsal, VESSEL_TANK, system->tanks[i].part, system->tanks[i].rim_z);
  for (unsigned i = 0; i < system->n_overflows; i++) {
    const OverflowModel *overflow = &system->overflows[i];

    add_vessel (rehearser, rehearsal, VESSEL_BOX_INNER, overflow->part, overflow->inner.rim_z);
    if (overflow->outer.there)
      add_vessel (rehearser, rehearsal, VESSEL_BOX_OUTER, overflow->part, overflow->outer.rim_z);
  }
  for (unsigned i = 0; i < system->n_chambers; i++)
    add_vessel (rehearser, rehearsal, VESSEL_CHAMBER, system->chambers[i].part, system->chambers[i].rim_z);
  rehearser->first_m3 = sum_of (rehearser, rehearser->y);
  rehearser->first_upper_m3 = upper_m3 (rehearser);
}

/* In a step much longer than the time in which a level answers, its slopes are the tolerance magnified, and a cubic drawn
 * from them swings far out. Up to this many answers they move it by less than some tolerances. */
#define ANSWERS_MAX 10.0

static bool
slopes_tell (const Rehearser *rehearser, unsigned place, double step_s)
{
  const double *row = &rehearser->jacobians[rehearser->jacobian][place * rehearser->n_places];
  double sum = 0;

  for (unsigned i = 0; i < rehearser->n_places; i++)
    sum += fabs (row[i]);
  return sum * step_s < ANSWERS_MAX;
}

/* Greatest and least of a place within a step, by the cubic: at its ends, or where its slope is nothing. */
static void
look_within (const Rehearser *rehearser, unsigned place, double step_s, RehearsalVessel *vessel)
{
  const double y0 = rehearser->y[place], y1 = rehearser->next_y[place];
  const double f0 = step_s * rehearser->rate[place], f1 = step_s * rehearser->next_rate[place];
  const double a = 6 * (y0 - y1) + 3 * (f0 + f1), b = -6 * (y0 - y1) - 4 * f0 - 2 * f1, c = f0;
  double shares[3] = {1, -1, -1};

  if (f0 * f1 < 0 && slopes_tell (rehearser, place, step_s)) {
    const double root = sqrt (fmax (b * b - 4 * a * c, 0));

    shares[1] = fabs (a) > 0 ? (-b + root) / (2 * a) : -c / b;
    shares[2] = fabs (a) > 0 ? (-b - root) / (2 * a) : -1;
  }
  for (unsigned i = 0; i < 3; i++) {
    double area_m2, level_z;

    if (!(shares[i] > 0 && shares[i] <= 1))
      continue;
    level_z = prism_level (&rehearser->places[place].prism,
                           hermite (y0, f0 / step_s, y1, f1 / step_s, step_s, shares[i]), &area_m2);
    if (level_z > vessel->peak_z) {
      vessel->peak_z = level_z;
      vessel->peak_s = rehearser->t + shares[i] * step_s;
    }
    if (level_z < vessel->lowest_z) {
      vessel->lowest_z = level_z;
      vessel->lowest_s = rehearser->t + shares[i] * step_s;
    }
  }
}

void
verdict_step (const Rehearser *rehearser, double step_s, Rehearsal *rehearsal)
{
  for (unsigned i = 0; i < rehearsal->n_vessels; i++)
    look_within (rehearser, rehearser_vessel_place (rehearser, i), step_s, &rehearsal->vessels[i]);
}

static double
first_spill (const Rehearsal *rehearsal, int part)
{
  for (unsigned i = 0; i < rehearsal->n_events; i++) {
    const RehearsalEvent *event = &rehearsal->events[i];

    if (event->kind == REHEARSAL_SPILL_BEGINS && event->part == part)
      return event->time_s;
  }
  return NO_NUMBER;
}

static void
add_spilled (const Rehearser *rehearser, Rehearsal *rehearsal, unsigned place, int part)
{
  if (!(rehearser->y[place] > 0))
    return;
  add_spill (rehearsal, part);
  rehearsal->spills[rehearsal->n_spills - 1].m3 = rehearser->y[place];
  rehearsal->spills[rehearsal->n_spills - 1].first_s = first_spill (rehearsal, part);
  rehearsal->spilled_m3 += rehearser->y[place];
}

static void
collect_spills (const Rehearser *rehearser, Rehearsal *rehearsal)
{
  const System *system = rehearser->system;

  for (unsigned i = 0; i < system->n_tanks; i++)
    add_spilled (rehearser, rehearsal, rehearser->tank_floor_at + i, system->tanks[i].part);
  for (unsigned i = 0; i < system->n_overflows; i++)
    if (rehearser->box_floor_at[i] != NO_PLACE)
      add_spilled (rehearser, rehearsal, rehearser->box_floor_at[i], system->overflows[i].part);
  add_spilled (rehearser, rehearsal, rehearser->sump_floor_at, system->sump);
  /* The sump spills when the first of its chambers does. */
  for (unsigned i = 0; i < rehearsal->n_spills; i++)
    for (unsigned c = 0; rehearsal->spills[i].part == system->sump && c < system->n_chambers; c++) {
      const double first_s = first_spill (rehearsal, system->chambers[c].part);

      if (!(rehearsal->spills[i].first_s <= first_s) && isfinite (first_s))
        rehearsal->spills[i].first_s = first_s;
    }
  /* No event says when: it ran over from the beginning, or the list of events was full by then. */
  for (unsigned i = 0; i < rehearsal->n_spills; i++)
    if (isnan (rehearsal->spills[i].first_s) && rehearsal->spills[i].m3 > DROP_M3) {
      rehearsal->spills[i].first_s = rehearsal->events_cut ? fmax (rehearsal->matters_s, 0) : 0;
      rehearsal->matters_s = fmin (rehearsal->matters_s, rehearsal->spills[i].first_s);
    }
}

void
verdict_end (const Rehearser *rehearser, Rehearsal *rehearsal)
{
  const System *system = rehearser->system;

  rehearsal->end_s = rehearser->t;
  for (unsigned i = 0; i < rehearsal->n_vessels; i++) {
    RehearsalVessel *vessel = &rehearsal->vessels[i];
    const OverflowModel *overflow = NULL;

    vessel->end_z = rehearser_level (rehearser, rehearser_vessel_place (rehearser, i), rehearser->y);
    for (unsigned k = 0; k < system->n_overflows; k++)
      if (system->overflows[k].part == vessel->part)
        overflow = &system->overflows[k];
    /* What runs over the rim of a box inside the tank is in the tank. */
    if (vessel->kind != VESSEL_BOX_INNER || (overflow != NULL && overflow->kind == OVERFLOW_OUTSIDE))
      vessel->least_freeboard_m = vessel->rim_z - vessel->peak_z;
  }
  collect_spills (rehearser, rehearsal);
  rehearsal->drained_m3 = rehearser->first_upper_m3 - upper_m3 (rehearser);
  rehearsal->water_error =
      fabs (sum_of (rehearser, rehearser->y) - rehearser->first_m3) / rehearser->first_m3;
}

static double
tank_still_m3 (const Rehearser *rehearser, unsigned tank)
{
  const System *system = rehearser->system;
  const TankModel *model = &system->tanks[tank];
  const Prism *prism = &rehearser->places[rehearser->tank_at + tank].prism;
  double rest_z = model->rim_z;

  for (unsigned i = model->first_overflow; i < model->first_overflow + model->n_overflows; i++)
    if (rehearser->covered[i] < 1 || !rehearser->system->overflows[i].closed_comb)
      rest_z = fmin (rest_z, fmax (system->overflows[i].crest_z,
                                   fmin (rehearser->z[rehearser->inner_at[i]], model->rim_z)));
  for (unsigned o = 0; o < system->n_outlets; o++) {
    const int run = system->outlets[o].run;

    if (system->outlets[o].tank == tank && run >= 0 && rehearser->run_check[run] != 1)
      rest_z = fmin (rest_z, rehearser->outlets[o].stops_z);
  }
  return fmax (rehearser->y[rehearser->tank_at + tank] - prism_volume (prism, rest_z), 0);
}

static double
box_still_m3 (const Rehearser *rehearser, unsigned index)
{
  const OverflowModel *model = &rehearser->system->overflows[index];
  const unsigned inner = rehearser->inner_at[index], box = rehearser->box_at[index];
  double rest_z = rehearser->z[box], m3 = 0;

  for (unsigned i = model->first_drain; i < model->first_drain + model->n_drains; i++)
    if (!rehearser->drains[i].shut)
      rest_z = fmin (rest_z, rehearser->system->drains[i].pipe.mouth_level_m);
  m3 = rehearser->area_m2[box] * fmax (rehearser->z[box] - rest_z, 0);
  if (inner != box)
    m3 += rehearser->area_m2[inner] *
          fmax (rehearser->z[inner] - fmax (rehearser->z[box], model->inner.floor_z), 0);
  return m3;
}

static double
still_m3 (const Rehearser *rehearser)
{
  const System *system = rehearser->system;
  double m3 = 0;

  for (unsigned i = 0; i < system->n_tanks; i++)
    m3 += tank_still_m3 (rehearser, i);
  for (unsigned i = 0; i < system->n_overflows; i++)
    m3 += box_still_m3 (rehearser, i);
  for (unsigned i = 0; i < system->n_drains; i++)
    m3 += fmax (rehearser->y[rehearser->drain_at + i], 0);
  for (unsigned i = 0; i < system->n_pumps; i++)
    if (pipe_runs_out (rehearser, i))
      m3 += fmax (rehearser->y[rehearser->pump_at + i], 0);
  for (unsigned i = 0; i < system->n_chambers; i++) {
    const unsigned chamber = rehearser->chamber_at + i;

    m3 += rehearser->area_m2[chamber] * fmax (rehearser->z[chamber] - system->chambers[i].rim_z, 0);
  }
  return m3;
}

bool
rehearser_rests (const Rehearser *rehearser)
{
  const RehearsalPlan *plan = &rehearser->plan;
  double moving = 0, chambers = 0, limit_m3;

  if (rehearser_next_switch (rehearser) < plan->horizon_s || plan->evaporation_m3s > 0)
    return false;
  for (unsigned i = 0; i < rehearser->n_places; i++) {
    moving += fabs (rehearser->rate[i]);
    if (i >= rehearser->chamber_at && i < rehearser->drain_at)
      chambers += fabs (rehearser->rate[i]);
  }
  if (moving * STEADY_S < REST_M3)
    return true;
  if (rehearser->power)
    return false;
  limit_m3 = fmax (REST_SHARE * fabs (rehearser->first_upper_m3 - upper_m3 (rehearser)), REST_M3);
  return still_m3 (rehearser) < limit_m3 && chambers * CALM_S < limit_m3 &&
         !(plan->top_off_siphons && moving * CALM_S > limit_m3);
}
