/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* How water goes from place to place at one moment. Each flow is taken from one place and given to another, and so is
 * each of its slopes: the rates and the columns of the Jacobian add up to nothing, and no drop is lost. */
#include <string.h>

#include "design/choices.h"
#include "hydraulics/constants.h"
#include "solver/rehearsal-model.h"

/* Between two surfaces closer than this a flow is taken as proportional to their difference: its true law has no slope
 * there. */
#define LEVEL_M 5e-5
/* Steps of level and of a pipe's share from which slopes are taken. */
#define SLOPE_STEP_M     1e-7
#define SLOPE_STEP_SHARE 1e-5
/* Rims are taken as sheets of this thickness; a holder's lip too. */
#define RIM_THICKNESS_M 0.006
#define PASSAGE_K       1.5
/* Below this much inside it a drain is a hole: what enters, leaves. */
#define HOLE_M3 1e-6
/* How soon a pipe fuller than full is full. */
#define OVERFULL_S 0.05
/* Inside of a top-off tube, and its length (common practice). */
#define TUBE_BORE_M   0.006
#define TUBE_LENGTH_M 2.0
#define TUBE_K        1.5
/* Below this an emptying place gives less and less. */
#define LAST_M3 2e-5
#define LAST_M  0.0005

/* A flow between places by the levels of at most two; each level's slope is found by moving it. */
typedef double (*FlowLaw) (const FlowPass *pass, unsigned index);

void
flow_move (FlowPass *pass, unsigned from, unsigned to, double m3s)
{
  pass->rate[from] -= m3s;
  pass->rate[to] += m3s;
}

void
flow_slope (FlowPass *pass, unsigned from, unsigned to, unsigned by, double slope_per_z)
{
  const unsigned n = pass->rehearser->n_places;
  const double slope = slope_per_z / pass->area_m2[by];

  if (!isfinite (slope))
    return;
  pass->jacobian[from * n + by] -= slope;
  pass->jacobian[to * n + by] += slope;
}

/* The last of a vessel leaves it more and more slowly: no law takes more than there is. */
static double
flow_by (const FlowPass *pass, FlowLaw law, unsigned index, unsigned from, unsigned to)
{
  const double m3s = law (pass, index);
  const unsigned source = m3s > 0 ? from : to;
  const Place *place = &pass->rehearser->places[source];
  double depth_m;

  if (place->kind != PLACE_VESSEL)
    return m3s;
  depth_m = pass->z[source] - place->prism.z[0];
  return depth_m < LAST_M ? m3s * fmax (depth_m / LAST_M, 0) : m3s;
}

static double
move_by (FlowPass *pass, FlowLaw law, unsigned index, unsigned from, unsigned to, unsigned by_1,
         unsigned by_2)
{
  const double m3s = flow_by (pass, law, index, from, to);
  const unsigned by[2] = {by_1, by_2};

  flow_move (pass, from, to, m3s);
  for (unsigned i = 0; pass->jacobian != NULL && i < 2; i++) {
    const unsigned k = by[i];
    const bool pipe = k != NO_PLACE && pass->rehearser->places[k].kind == PLACE_PIPE;
    const double kept = k == NO_PLACE ? 0 : pass->z[k];
    double step = SLOPE_STEP_M;

    if (k == NO_PLACE || (i == 1 && by_1 == by_2))
      continue;
    if (pipe)
      step = SLOPE_STEP_SHARE * fmax (pass->rehearser->places[k].tolerance_m3 * 10000, 1e-6);
    pass->z[k] = kept + step;
    flow_slope (pass, from, to, k, (flow_by (pass, law, index, from, to) - m3s) / step);
    pass->z[k] = kept;
  }
  return m3s;
}

/* Free or drowned flow of a weir between two surfaces over its crest, of the sign of their difference. */
static double
weir_between (const Weir *weir, double crest_z, double a_z, double b_z)
{
  const double head_m = fmax (a_z, b_z) - crest_z, below_m = fmax (fmin (a_z, b_z) - crest_z, 0);
  const double drop_m = head_m - below_m;
  double m3s = 0;

  if (!(head_m > 0))
    return 0;
  if (below_m > 0 && drop_m < LEVEL_M) {
    const double least_m = fmin (LEVEL_M, 0.5 * head_m);

    if (drop_m < least_m) {
      weir_discharge (weir, head_m, head_m - least_m, &m3s);
      m3s *= drop_m / least_m;
      return a_z > b_z ? m3s : -m3s;
    }
  }
  weir_discharge (weir, head_m, below_m, &m3s);
  return a_z > b_z ? m3s : -m3s;
}

static double
over_crest (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const OverflowModel *overflow = &rehearser->system->overflows[index];
  const double tank_z = pass->z[rehearser->tank_at + overflow->tank],
               box_z = pass->z[rehearser->inner_at[index]];

  if (!(rehearser->covered[index] > 0))
    return weir_between (&overflow->weir, overflow->crest_z, tank_z, box_z);
  Weir covered = overflow->weir;

  covered.covered_share = 1 - (1 - covered.covered_share) * (1 - rehearser->covered[index]);
  return weir_between (&covered, overflow->crest_z, tank_z, box_z);
}

/* Through holes of a loss coefficient, above their floor. */
static double
through_passages (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const OverflowModel *overflow = &rehearser->system->overflows[index];
  const double floor_z = overflow->inner.floor_z;
  const double drop_m =
      fmax (pass->z[rehearser->inner_at[index]], floor_z) - fmax (pass->z[rehearser->box_at[index]], floor_z);
  const double area_m2 =
      overflow->n_passages * G_PI / 4 * overflow->passage_bore_m * overflow->passage_bore_m;
  const double driven_m = fmax (fabs (drop_m), LEVEL_M);
  const double m3s = area_m2 * sqrt (2 * GRAVITY_M_S2 * driven_m / PASSAGE_K);

  return copysign (fabs (drop_m) < LEVEL_M ? m3s * fabs (drop_m) / LEVEL_M : m3s, drop_m);
}

/* Through full siphon tubes over the rim; what stands on their far side beyond its seal is too little to follow. */
static double
through_tubes (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;

  if (rehearser->plan.tubes_lost[index])
    return 0;
  return hang_over_flow (rehearser->system, &rehearser->system->overflows[index],
                         pass->z[rehearser->inner_at[index]], pass->z[rehearser->box_at[index]]);
}

/* Where a drain ends: the chamber, or the holder of its clogged socks. */
static unsigned
end_place (const Rehearser *rehearser, unsigned drain)
{
  const unsigned chamber = rehearser->system->drains[drain].chamber;

  return rehearser->holder_at[chamber] != NO_PLACE ? rehearser->holder_at[chamber]
                                                   : rehearser->chamber_at + chamber;
}

static double
into_drain (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const DrainModel *model = &rehearser->system->drains[index];
  const DrainNow *drain = &rehearser->drains[index];
  const double box_z = pass->z[rehearser->box_at[model->overflow]];
  DrainPipe pipe = drain->pipe;
  double m3s = 0;

  if (!(box_z > pipe.mouth_level_m))
    return 0;
  pipe.end_level_m = fmax (model->end_z, pass->z[end_place (rehearser, index)]);
  drain_flow (&pipe, &rehearser->system->fluid, drain->prime == PRIME_FULL, box_z, &m3s, NULL);
  return m3s;
}

/* A pipe that runs part full gives what its film carries (Q ~ fill^(5/3), Wyly & Eaton), at most its full flow. */
static double
out_of_drain (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const DrainNow *drain = &rehearser->drains[index];
  const double m3 = pass->z[rehearser->drain_at + index], fill = fmax (m3 / drain->full_m3, 0);
  const double film_m3s = drain->stack_m3s * pow (3 * fill, 5.0 / 3.0);

  return fmin (film_m3s, drain->full_m3s) + fmax (m3 - drain->full_m3, 0) / OVERFULL_S;
}

static double
past_baffle (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const BaffleModel *baffle = &rehearser->system->baffles[index];
  const double left_z = pass->z[rehearser->chamber_at + index],
               right_z = pass->z[rehearser->chamber_at + index + 1];
  const double above_z = fmax (left_z, right_z), below_z = fmin (left_z, right_z);
  const double bottom_z = rehearser->system->chambers[index].bottom_z;
  double m3s;

  if (baffle->gap_m <= 0 && above_z <= baffle->crest_z)
    return 0;
  if (above_z - below_z < LEVEL_M)
    m3s = baffle_flow_m3s (baffle, bottom_z, above_z, above_z - LEVEL_M) * (above_z - below_z) / LEVEL_M;
  else
    m3s = baffle_flow_m3s (baffle, bottom_z, above_z, below_z);
  return left_z > right_z ? m3s : -m3s;
}

static double
over_rim (double level_z, double rim_z, double length_m)
{
  const Weir rim = {.formula = WEIR_THICK_CREST,
                    .crest_length_m = length_m,
                    .channel_width_m = length_m,
                    .crest_height_m = 0.1,
                    .crest_thickness_m = RIM_THICKNESS_M};
  double m3s = 0;

  if (level_z > rim_z)
    weir_discharge (&rim, level_z - rim_z, 0, &m3s);
  return m3s;
}

static double
over_tank_rim (const FlowPass *pass, unsigned index)
{
  const TankModel *tank = &pass->rehearser->system->tanks[index];

  return over_rim (pass->z[pass->rehearser->tank_at + index], tank->rim_z,
                   2 * (tank->length_m + tank->width_m));
}

static double
over_box_rim (const FlowPass *pass, unsigned index)
{
  const OverflowModel *overflow = &pass->rehearser->system->overflows[index];
  const BoxModel *box = overflow->outer.there ? &overflow->outer : &overflow->inner;

  return over_rim (pass->z[pass->rehearser->box_at[index]], box->rim_z, 2 * (box->length_m + box->width_m));
}

static double
over_sump_rim (const FlowPass *pass, unsigned index)
{
  const System *system = pass->rehearser->system;
  const ChamberModel *chamber = &system->chambers[index];
  const double width_m = chamber->area_m2 / chamber->length_m;
  const unsigned ends = (index == 0 ? 1u : 0u) + (index + 1 == system->n_chambers ? 1u : 0u);

  return over_rim (pass->z[pass->rehearser->chamber_at + index], chamber->rim_z,
                   2 * chamber->length_m + ends * width_m);
}

static double
over_holder_lip (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const ChamberModel *chamber = &rehearser->system->chambers[index];
  const Weir lip = {.formula = WEIR_THICK_CREST,
                    .crest_length_m = chamber->bypass_length_m,
                    .channel_width_m = chamber->bypass_length_m,
                    .crest_height_m = fmax (chamber->bypass_z - chamber->bottom_z, 0.01),
                    .crest_thickness_m = RIM_THICKNESS_M};

  return weir_between (&lip, chamber->bypass_z, pass->z[rehearser->holder_at[index]],
                       pass->z[rehearser->chamber_at + index]);
}

static double
over_holder_rim (const FlowPass *pass, unsigned index)
{
  const ChamberModel *chamber = &pass->rehearser->system->chambers[index];

  return over_rim (pass->z[pass->rehearser->holder_at[index]], chamber->rim_z, 2 * chamber->length_m);
}

/* Back through the pump at rest, driven by the water that is left in the pipe. */
static double
out_of_riser (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const PumpNow *pump = &rehearser->pumps[index];
  const double m3 = pass->z[rehearser->pump_at + index];
  double m3s = 0;

  if (m3 > 0)
    pipe_flow_at_loss (&pump->riser, &rehearser->system->fluid, pump->rise_m * m3 / pump->full_m3, &m3s);
  return m3s;
}

static double
reservoir_gives (const FlowPass *pass, unsigned index)
{
  const Rehearser *rehearser = pass->rehearser;
  const Prism *prism = &rehearser->places[rehearser->reservoir_at].prism;
  const double over_m = pass->z[rehearser->reservoir_at] - prism->z[0];
  const double last = CLAMP (over_m * prism->area_m2[0] / LAST_M3, 0, 1);
  double m3s = rehearser->top_off_on ? rehearser->plan.top_off_m3s : 0;

  (void) index;
  if (rehearser->plan.top_off_siphons) {
    const PipeRun tube = {
        .length_m = TUBE_LENGTH_M, .bore_m = TUBE_BORE_M, .roughness_m = 1.5e-6, .k = TUBE_K};
    const double fall_m =
        pass->z[rehearser->reservoir_at] -
        fmax (rehearser->tube_end_z, pass->z[rehearser->chamber_at + rehearser->system->datum]);
    double siphon_m3s = 0;

    if (fall_m > 0)
      pipe_flow_at_loss (&tube, &rehearser->system->fluid, fall_m, &siphon_m3s);
    m3s = fmax (m3s, siphon_m3s);
  }
  return m3s * last;
}

static void
flow_overflow (FlowPass *pass, unsigned index)
{
  Rehearser *rehearser = pass->rehearser;
  const OverflowModel *overflow = &rehearser->system->overflows[index];
  const unsigned tank = rehearser->tank_at + overflow->tank, inner = rehearser->inner_at[index],
                 box = rehearser->box_at[index];
  const double over_m3s = move_by (pass, over_crest, index, tank, inner, tank, inner);
  double passage_m3s = 0;

  if (overflow->outer.there)
    passage_m3s = move_by (pass, overflow->hangs_over ? through_tubes : through_passages, index, inner, box,
                           inner, box);
  if (rehearser->box_floor_at[index] != NO_PLACE)
    move_by (pass, over_box_rim, index, box, rehearser->box_floor_at[index], box, NO_PLACE);
  if (pass->flows != NULL) {
    pass->flows->overflow_m3s[index] = over_m3s;
    pass->flows->passage_m3s[index] = passage_m3s;
  }
}

static void
flow_drain (FlowPass *pass, unsigned index)
{
  Rehearser *rehearser = pass->rehearser;
  const DrainNow *drain = &rehearser->drains[index];
  const unsigned box = rehearser->box_at[rehearser->system->drains[index].overflow],
                 content = rehearser->drain_at + index, end = end_place (rehearser, index);
  const bool through = drain->prime == PRIME_FULL || !(drain->full_m3 > HOLE_M3);
  double m3s = 0;

  if (!drain->shut)
    m3s = move_by (pass, into_drain, index, box, through ? end : content, box, end);
  if (!through && drain->prime != PRIME_FILLING)
    move_by (pass, out_of_drain, index, content, end, content, NO_PLACE);
  if (pass->flows != NULL)
    pass->flows->drain_m3s[index] = m3s;
}

static void
flow_sump (FlowPass *pass)
{
  Rehearser *rehearser = pass->rehearser;
  const System *system = rehearser->system;

  for (unsigned i = 0; i < system->n_chambers; i++) {
    const unsigned chamber = rehearser->chamber_at + i, holder = rehearser->holder_at[i];

    if (i + 1 < system->n_chambers) {
      const double m3s = move_by (pass, past_baffle, i, chamber, chamber + 1, chamber, chamber + 1);

      if (pass->flows != NULL)
        pass->flows->baffle_m3s[i] = m3s;
    }
    if (pass->z[chamber] + SLOPE_STEP_M > system->chambers[i].rim_z)
      move_by (pass, over_sump_rim, i, chamber, rehearser->sump_floor_at, chamber, NO_PLACE);
    if (holder == NO_PLACE)
      continue;
    move_by (pass, over_holder_lip, i, holder, chamber, holder, chamber);
    move_by (pass, over_holder_rim, i, holder, rehearser->sump_floor_at, holder, NO_PLACE);
  }
}

/* Shared over the tanks by their plan. Constant: it has no slope. */
static void
evaporate (FlowPass *pass)
{
  Rehearser *rehearser = pass->rehearser;
  const System *system = rehearser->system;
  double area_m2 = 0;

  for (unsigned i = 0; i < system->n_tanks; i++)
    area_m2 += system->tanks[i].area_m2;
  for (unsigned i = 0; i < system->n_tanks; i++)
    if (pass->z[rehearser->tank_at + i] > system->tanks[i].bottom_z)
      flow_move (pass, rehearser->tank_at + i, rehearser->air_at,
                 rehearser->plan.evaporation_m3s * system->tanks[i].area_m2 / area_m2);
}

bool
pipe_runs_out (const Rehearser *rehearser, unsigned pump)
{
  const System *system = rehearser->system;

  if (rehearser->power || rehearser->pumps[pump].check || !(rehearser->pumps[pump].full_m3 > 0))
    return false;
  for (unsigned o = 0; o < system->n_outlets; o++)
    if (system->pumps[pump].reaches[o] && !rehearser->outlets[o].air)
      return false;
  return rehearser->pumps[pump].network_speed <= 0;
}

static void
add_all (FlowPass *pass)
{
  Rehearser *rehearser = pass->rehearser;
  const System *system = rehearser->system;

  for (unsigned i = 0; i < system->n_tanks; i++)
    move_by (pass, over_tank_rim, i, rehearser->tank_at + i, rehearser->tank_floor_at + i,
             rehearser->tank_at + i, NO_PLACE);
  for (unsigned i = 0; i < system->n_overflows; i++)
    flow_overflow (pass, i);
  for (unsigned i = 0; i < system->n_drains; i++)
    flow_drain (pass, i);
  flow_sump (pass);
  for (unsigned i = 0; i < system->n_pumps; i++)
    if (pipe_runs_out (rehearser, i)) {
      const unsigned riser = rehearser->pump_at + i;
      const double m3s = move_by (pass, out_of_riser, i, riser,
                                  rehearser->chamber_at + system->pumps[i].chamber, riser, NO_PLACE);

      if (pass->flows != NULL)
        pass->flows->pump_m3s[i] -= m3s;
    }
  if (rehearser->reservoir_at != NO_PLACE && (rehearser->top_off_on || rehearser->plan.top_off_siphons))
    move_by (pass, reservoir_gives, 0, rehearser->reservoir_at, rehearser->chamber_at + system->datum,
             rehearser->reservoir_at,
             rehearser->plan.top_off_siphons ? rehearser->chamber_at + system->datum : NO_PLACE);
  if (rehearser->air_at != NO_PLACE)
    evaporate (pass);
}

bool
rehearser_rates (Rehearser *rehearser, double t, const double *y, double *ret_rate, double *ret_jacobian,
                 FlowsNow *ret_flows)
{
  FlowPass *pass = &rehearser->pass;
  const unsigned n = rehearser->n_places;

  pass->rehearser = rehearser;
  pass->rate = ret_rate;
  pass->jacobian = ret_jacobian;
  pass->flows = ret_flows;
  if (rehearser_is_moving (rehearser, t) || rehearser->moved) {
    rehearser_set_moment (rehearser, t);
    rehearser->moved = rehearser_is_moving (rehearser, t);
  }
  rehearser_read_levels (rehearser, y, pass->z, pass->area_m2);
  memset (ret_rate, 0, n * sizeof *ret_rate);
  if (ret_jacobian != NULL)
    memset (ret_jacobian, 0, (gsize) n * n * sizeof *ret_jacobian);
  if (ret_flows != NULL)
    memset (ret_flows, 0, sizeof *ret_flows);
  if (!flow_return (pass)) {
    rehearser->failed = true;
    return false;
  }
  add_all (pass);
  for (unsigned i = 0; i < n; i++)
    if (!isfinite (ret_rate[i]))
      return false;
  return true;
}
