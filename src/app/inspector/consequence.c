/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/inspector/consequence.h"

#include <glib/gi18n.h>
#include <math.h>

#include "design/choices.h"

typedef struct {
  const Design *design;
  const Evaluation *evaluation;
  int part;
  const NumberStyle *style;
} Context;

/* A sentence with up to three numbers, or NULL where one of them was not computed. */
typedef struct {
  double value;
  Quantity quantity;
} Number;

static char *
clause (const Context *c, const char *sentence, Number a, Number b, Number d)
{
  g_autofree char *first = units_format (a.value, a.quantity, c->style, NULL, UNITS_MEASURE);
  g_autofree char *second = units_format (b.value, b.quantity, c->style, NULL, UNITS_MEASURE);
  g_autofree char *third = units_format (d.value, d.quantity, c->style, NULL, UNITS_MEASURE);

  if (!isfinite (a.value) || !isfinite (b.value) || !isfinite (d.value))
    return NULL;
  return words_fill (sentence, "0", first, "1", second, "2", third, NULL);
}

#define NOTHING                                                                                              \
  (Number)                                                                                                   \
  {                                                                                                          \
    0, QUANTITY_NONE                                                                                         \
  }
#define LENGTH(value_m) ((Number){(value_m), QUANTITY_LENGTH})
#define FLOW(value_m3s) ((Number){(value_m3s), QUANTITY_FLOW})

static const TankState *
tank_of (const Context *c, const OverflowState *overflow)
{
  return overflow != NULL ? evaluation_tank (c->evaluation, overflow->tank) : NULL;
}

static char *
crest_tilt (const Context *c)
{
  const OverflowState *overflow = evaluation_overflow (c->evaluation, c->part);

  return overflow == NULL ? NULL
                          : clause (c, _ ("{0} of water over its low end"), LENGTH (overflow->tilted_head_m),
                                    NOTHING, NOTHING);
}

static char *
crest (const Context *c)
{
  const OverflowState *overflow = evaluation_overflow (c->evaluation, c->part);
  const TankState *tank = tank_of (c, overflow);

  if (tank == NULL)
    return NULL;
  return clause (c, _ ("Display {0} over it, {1} of freeboard"), LENGTH (overflow->head_m),
                 LENGTH (tank->freeboard_m), NOTHING);
}

static char *
crest_length (const Context *c)
{
  const OverflowState *overflow = evaluation_overflow (c->evaluation, c->part);

  if (overflow == NULL)
    return NULL;
  return clause (c, _ ("{0} over each metre"), FLOW (overflow->skimming_m2s), NOTHING, NOTHING);
}

static char *
box_rim (const Context *c)
{
  const OverflowState *overflow = evaluation_overflow (c->evaluation, c->part);

  if (overflow == NULL)
    return NULL;
  return clause (c, _ ("Water stands {0} under the lowest rim"),
                 LENGTH (overflow->lowest_rim_z - overflow->box_z), NOTHING, NOTHING);
}

static char *
drain_size (const Context *c)
{
  const DrainState *drain = evaluation_drain (c->evaluation, c->part);

  if (drain == NULL)
    return NULL;
  if (drain->role == DRAIN_SIPHON)
    return clause (c, _ ("Carries {0} open, {1} flow now"), FLOW (drain->primed_m3s), FLOW (drain->flow_m3s),
                   NOTHING);
  if (drain->role == DRAIN_EMERGENCY)
    return clause (c, _ ("Carries {0} with the box at its rim"),
                   FLOW (drain->primed_counts ? drain->primed_rim_m3s : drain->unprimed_rim_m3s), NOTHING,
                   NOTHING);
  return clause (c, _ ("Carries {0}, quiet up to {1}"), FLOW (drain->unprimed_m3s), FLOW (drain->quiet_m3s),
                 NOTHING);
}

static char *
drain_mouth (const Context *c)
{
  const DrainState *drain = evaluation_drain (c->evaluation, c->part);
  const OverflowState *overflow = drain != NULL ? evaluation_overflow (c->evaluation, drain->overflow) : NULL;

  if (overflow == NULL)
    return NULL;
  if (overflow->box_z < drain->mouth_z)
    return clause (c, _ ("{0} above the water in the box"), LENGTH (drain->mouth_z - overflow->box_z),
                   NOTHING, NOTHING);
  return clause (c, _ ("{0} under water, takes {1}"), LENGTH (overflow->box_z - drain->mouth_z),
                 FLOW (drain->flow_m3s), NOTHING);
}

static char *
drain_end (const Context *c)
{
  const DrainState *drain = evaluation_drain (c->evaluation, c->part);
  const VesselState *chamber =
      drain != NULL ? evaluation_vessel (c->evaluation, drain->chamber, VESSEL_CHAMBER) : NULL;
  double over_m;

  if (chamber == NULL)
    return NULL;
  over_m = drain->end_z - chamber->running_z;
  return clause (c, over_m >= 0 ? _ ("{0} above the running level") : _ ("{0} under the running level"),
                 LENGTH (fabs (over_m)), NOTHING, NOTHING);
}

static char *
fitting_opening (const Context *c)
{
  const Part *fitting = design_part (c->design, (unsigned) c->part);
  const DrainState *drain = evaluation_drain (c->evaluation, design_index (c->design, part_owner (fitting)));

  if (drain == NULL || !drain->has_valve || drain->valve_is_given)
    return NULL;
  return clause (c, _ ("Set by the level: {0} open"), (Number){drain->valve_opening, QUANTITY_RATIO}, NOTHING,
                 NOTHING);
}

static char *
drain_back (const Context *c)
{
  const DrainBack *back = &c->evaluation->drain_back;

  return clause (c, _ ("{0} run back, {1} are free"), (Number){back->total_m3, QUANTITY_VOLUME},
                 (Number){back->free_m3, QUANTITY_VOLUME}, NOTHING);
}

static char *
sump_freeboard (const Context *c)
{
  return clause (c, _ ("{0} stay dry after a power cut"), LENGTH (c->evaluation->drain_back.freeboard_m),
                 NOTHING, NOTHING);
}

static char *
chamber_level (const Context *c)
{
  const VesselState *chamber = evaluation_vessel (c->evaluation, c->part, VESSEL_CHAMBER);

  if (chamber == NULL)
    return NULL;
  return clause (
      c, _ ("Runs at {0}, {1} with the pump off, rim {2}"), LENGTH (chamber->running_z - chamber->bottom_z),
      LENGTH (chamber->power_off_z - chamber->bottom_z), LENGTH (chamber->rim_z - chamber->bottom_z));
}

static char *
baffle_height (const Context *c)
{
  for (unsigned i = 0; i < c->evaluation->n_baffles; i++) {
    const BaffleState *baffle = &c->evaluation->baffles[i];

    if (baffle->part == c->part)
      return clause (c, _ ("{0} pass it, levels {1} apart"), FLOW (baffle->flow_m3s), LENGTH (baffle->head_m),
                     NOTHING);
  }
  return NULL;
}

static const DeviceState *
device_state (const Context *c)
{
  for (unsigned i = 0; i < c->evaluation->n_devices; i++)
    if (c->evaluation->devices[i].part == c->part)
      return &c->evaluation->devices[i];
  return NULL;
}

static char *
device_depth (const Context *c)
{
  const DeviceState *device = device_state (c);

  if (device == NULL)
    return NULL;
  return clause (c, _ ("Stands {0} deep, {1} at the lowest level"), LENGTH (device->depth_m),
                 LENGTH (fmax (0, device->lowest_depth_m)), NOTHING);
}

static char *
device_room (const Context *c)
{
  const DeviceState *device = device_state (c);

  return device != NULL ? clause (c, _ ("{0} are free above it"), LENGTH (device->room_m), NOTHING, NOTHING)
                        : NULL;
}

static char *
pump_duty (const Context *c)
{
  const PumpState *pump = evaluation_pump (c->evaluation, c->part);

  if (pump == NULL)
    return NULL;
  return clause (c, _ ("{0} against {1}"), FLOW (pump->flow_m3s), (Number){pump->head_m, QUANTITY_HEAD},
                 NOTHING);
}

static char *
pump_power (const Context *c)
{
  const PumpState *pump = evaluation_pump (c->evaluation, c->part);

  if (pump == NULL)
    return NULL;
  return clause (c, _ ("{0} as set, {1} a year"), (Number){pump->power_w, QUANTITY_POWER},
                 (Number){pump->yearly_cost, QUANTITY_MONEY}, NOTHING);
}

static char *
pump_cover (const Context *c)
{
  const PumpState *pump = evaluation_pump (c->evaluation, c->part);

  return pump != NULL ? clause (c, _ ("{0} of water over it"), LENGTH (pump->cover_m), NOTHING, NOTHING)
                      : NULL;
}

static char *
return_size (const Context *c)
{
  const RunState *run = evaluation_run (c->evaluation, c->part);

  if (run == NULL)
    return NULL;
  return clause (c, _ ("{0}, {1} of head lost"), (Number){run->velocity_ms, QUANTITY_VELOCITY},
                 (Number){run->loss_m, QUANTITY_HEAD}, NOTHING);
}

static char *
outlet_bore (const Context *c)
{
  const OutletState *outlet = evaluation_outlet (c->evaluation, c->part);

  if (outlet == NULL)
    return NULL;
  return clause (c, _ ("{0} leave at {1}"), FLOW (outlet->flow_m3s),
                 (Number){outlet->nozzle_velocity_ms, QUANTITY_VELOCITY}, NOTHING);
}

static char *
outlet_height (const Context *c)
{
  const OutletState *outlet = evaluation_outlet (c->evaluation, c->part);

  if (outlet == NULL)
    return NULL;
  return clause (
      c, outlet->submerged_m >= 0 ? _ ("{0} under the running surface") : _ ("{0} above the running surface"),
      LENGTH (fabs (outlet->submerged_m)), NOTHING, NOTHING);
}

static char *
outlet_break (const Context *c)
{
  const OutletState *outlet = evaluation_outlet (c->evaluation, c->part);
  const TankState *tank = outlet != NULL ? evaluation_tank (c->evaluation, outlet->tank) : NULL;

  if (tank == NULL)
    return NULL;
  if (!outlet->siphons)
    return g_strdup (_ ("Cannot siphon: it ends above the water"));
  return clause (c, _ ("Its siphon ends {0} under the running surface"),
                 LENGTH (fmax (0, tank->display_z - outlet->stops_z)), NOTHING, NOTHING);
}

static char *
top_off (const Context *c)
{
  const double days = c->evaluation->totals.top_off_days;

  return clause (c, _ ("Lasts {0}"), (Number){days * 86400, QUANTITY_TIME}, NOTHING, NOTHING);
}

static char *
turnover (const Context *c)
{
  return clause (c, _ ("Now {0}"), (Number){c->evaluation->totals.turnover_per_h, QUANTITY_TURNOVER}, NOTHING,
                 NOTHING);
}

static char *
evaporation (const Context *c)
{
  return clause (c, _ ("Reckoned with {0} a day"),
                 (Number){c->evaluation->totals.evaporation_m3s * 86400, QUANTITY_VOLUME}, NOTHING, NOTHING);
}

static char *
circuit (const Context *c)
{
  return clause (c, _ ("{0} are connected"), (Number){c->evaluation->totals.connected_w, QUANTITY_POWER},
                 NOTHING, NOTHING);
}

static char *
tank_rim (const Context *c)
{
  const TankState *tank = evaluation_tank (c->evaluation, c->part);

  if (tank == NULL)
    return NULL;
  return clause (c, _ ("{0} of freeboard while running"), LENGTH (tank->freeboard_m), NOTHING, NOTHING);
}

static char *
tank_water (const Context *c)
{
  const TankState *tank = evaluation_tank (c->evaluation, c->part);

  if (tank == NULL)
    return NULL;
  return clause (c, _ ("Holds {0} of water"), (Number){tank->water_m3, QUANTITY_VOLUME}, NOTHING, NOTHING);
}

#define MAX_STEPS 4

/* The last column: the steps of the calculation that it follows from, the governing one first. */
static const struct {
  FieldId field;
  char *(*words) (const Context *);
  StepId steps[MAX_STEPS + 1];
} consequences[] = {
    {FIELD_JOB_TURNOVER, turnover, {STEP_TURNOVER, N_STEPS}},
    {FIELD_ROOM_EVAPORATION, evaporation, {STEP_EVAPORATION, N_STEPS}},
    {FIELD_ROOM_CIRCUIT, circuit, {N_STEPS}},
    {FIELD_TANK_HEIGHT, tank_water, {STEP_DISPLAY_WATER, N_STEPS}},
    {FIELD_TANK_RIM, tank_rim, {STEP_DISPLAY_LEVEL, STEP_OVERFLOW_HEAD, N_STEPS}},
    {FIELD_OVERFLOW_CREST,
     crest,
     {STEP_OVERFLOW_HEAD, STEP_COMB_HEAD, STEP_TUBES, STEP_DISPLAY_LEVEL, N_STEPS}},
    {FIELD_OVERFLOW_TILT, crest_tilt, {STEP_OVERFLOW_HEAD, STEP_COMB_HEAD, N_STEPS}},
    {FIELD_OVERFLOW_LENGTH, crest_length, {STEP_OVERFLOW_HEAD, STEP_COMB_HEAD, N_STEPS}},
    {FIELD_OVERFLOW_BOX_RIM, box_rim, {STEP_BOX_LEVEL, N_STEPS}},
    {FIELD_DRAIN_SIZE, drain_size, {STEP_PRIMED, STEP_UNPRIMED, STEP_QUIET, STEP_DRAIN_PIPE, N_STEPS}},
    {FIELD_DRAIN_MOUTH, drain_mouth, {STEP_COVER, STEP_BOX_LEVEL, N_STEPS}},
    {FIELD_DRAIN_END, drain_end, {N_STEPS}},
    {FIELD_FITTING_OPENING, fitting_opening, {STEP_VALVE, N_STEPS}},
    {FIELD_SUMP_HEIGHT, drain_back, {STEP_BACK_TOTAL, STEP_FREE_TOTAL, STEP_FREE_CHAMBER, N_STEPS}},
    {FIELD_SUMP_LIP, sump_freeboard, {STEP_POWER_OFF_LEVEL, N_STEPS}},
    {FIELD_CHAMBER_LEVEL, chamber_level, {STEP_POWER_OFF_LEVEL, STEP_FREE_CHAMBER, N_STEPS}},
    {FIELD_BAFFLE_HEIGHT, baffle_height, {STEP_BAFFLE, N_STEPS}},
    {FIELD_DEVICE_DEPTH, device_depth, {N_STEPS}},
    {FIELD_DEVICE_ROOM, device_room, {N_STEPS}},
    {FIELD_PUMP_SPEED, pump_duty, {STEP_PUMP_DUTY, STEP_STATIC_HEAD, STEP_PIPE_RUN, N_STEPS}},
    {FIELD_PUMP_WATTS, pump_power, {STEP_POWER, STEP_COST, N_STEPS}},
    {FIELD_PUMP_SUCTION, pump_cover, {STEP_SUCTION, N_STEPS}},
    {FIELD_RETURN_SIZE, return_size, {STEP_PIPE_RUN, N_STEPS}},
    {FIELD_OUTLET_BORE, outlet_bore, {N_STEPS}},
    {FIELD_OUTLET_HEIGHT, outlet_height, {N_STEPS}},
    {FIELD_OUTLET_BREAK, outlet_break, {STEP_BREAK, STEP_REST_LEVEL, STEP_BACK_DISPLAY, N_STEPS}},
    {FIELD_RESERVOIR_VOLUME, top_off, {STEP_TOP_OFF, STEP_EVAPORATION, N_STEPS}}};

char *
consequence_words (const Design *design, const Evaluation *evaluation, int part, FieldId field,
                   const NumberStyle *style)
{
  const Context context = {.design = design, .evaluation = evaluation, .part = part, .style = style};

  if (evaluation == NULL || part < 0)
    return NULL;
  for (unsigned i = 0; i < G_N_ELEMENTS (consequences); i++)
    if (consequences[i].field == field)
      return consequences[i].words (&context);
  return NULL;
}

const StepId *
consequence_steps (FieldId field)
{
  for (unsigned i = 0; i < G_N_ELEMENTS (consequences); i++)
    if (consequences[i].field == field && consequences[i].steps[0] != N_STEPS)
      return consequences[i].steps;
  return NULL;
}
