/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Speeds for wanted flows, and the curves of the pump bench: all by the return loop and the drains of the evaluation. */
#include <string.h>

#include "solver/model.h"

#define SPEED_STEPS     60
#define SPEED_SLACK     1e-7
#define LOOP_POINTS_MAX 200

/* Flow of all displays. The drains are set anew for it, as on the day of filling; the settings that the workspace shows
 * are put back. */
static double
flow_at (const System *system, Workspace *workspace, const LoopRule *rule)
{
  State *scratch = &workspace->scratch;
  double valve_k[EVALUATION_DRAINS_MAX], wanted_z[EVALUATION_OVERFLOWS_MAX], flow_m3s = 0;

  memcpy (valve_k, workspace->valve_k, sizeof valve_k);
  memcpy (wanted_z, workspace->wanted_z, sizeof wanted_z);
  return_loop_solve (system, workspace, rule, SETTING_TUNE, scratch);
  memcpy (workspace->valve_k, valve_k, sizeof valve_k);
  memcpy (workspace->wanted_z, wanted_z, sizeof wanted_z);
  if (scratch->status != HYDRAULICS_OK)
    return NO_NUMBER;
  for (unsigned i = 0; i < system->n_tanks; i++)
    flow_m3s += scratch->tank_m3s[i];
  return flow_m3s;
}

static LoopRule
as_set (const System *system, int edge)
{
  LoopRule rule = {.edge = edge, .aged = edge < 0};

  for (unsigned i = 0; i < system->n_pumps; i++)
    rule.speed[i] = system->pumps[i].speed;
  return rule;
}

/* A speed that was tried, and by how much its flow is over the wanted one. */
typedef struct {
  double speed, over_m3s;
} Trial;

/* The next speed to try: by the secant, a little short of the root, so that the lower end closes in; by halves where that
 * leads outside, and now and then where it takes long. */
static double
next_speed (const Trial *low, const Trial *high, const Trial *last, const Trial *before, double aim_m3s,
            unsigned step)
{
  const double slope = (last->over_m3s - before->over_m3s) / (last->speed - before->speed);
  const double speed = last->speed + (aim_m3s - last->over_m3s) / slope;

  return speed > low->speed && speed < high->speed && (step < 8 || step % 2 == 0)
             ? speed
             : 0.5 * (low->speed + high->speed);
}

/* Flow of all displays at the speeds as set, from an evaluation of this very system; NAN if there is none. */
static double
known_flow (const System *system, const Workspace *workspace, int edge, bool evaluated)
{
  const State *state = edge < 0 ? &workspace->slow : edge > 0 ? &workspace->fast_open : &workspace->running;
  double flow_m3s = 0;

  if (!evaluated || state->status != HYDRAULICS_OK)
    return NO_NUMBER;
  for (unsigned i = 0; i < system->n_tanks; i++)
    flow_m3s += state->tank_m3s[i];
  return flow_m3s;
}

/* Two speeds about the wanted one. False where no speed from 0.3 to 1 gives the flow. */
static bool
bracket_speed (const System *system, Workspace *workspace, unsigned pump, LoopRule *rule, double known_m3s,
               double flow_m3s, Trial *ret_low, Trial *ret_high)
{
  const double set = rule->speed[pump], over_m3s = known_m3s - flow_m3s;
  Trial low, high = {set, over_m3s};

  if (!(over_m3s >= 0)) {
    rule->speed[pump] = 1;
    high = (Trial){1, flow_at (system, workspace, rule) - flow_m3s};
    if (!(high.over_m3s >= 0))
      return false;
  }
  /* Static head makes flow fall faster than speed: as a rule this is below the root and not far from it. */
  low.speed = fmax (PUMP_SPEED_MIN, high.speed * flow_m3s / (flow_m3s + high.over_m3s));
  if (over_m3s < 0 && set > low.speed) {
    low = (Trial){set, over_m3s};
  } else {
    rule->speed[pump] = low.speed;
    low.over_m3s = flow_at (system, workspace, rule) - flow_m3s;
  }
  if (low.over_m3s > 0) {
    rule->speed[pump] = low.speed = PUMP_SPEED_MIN;
    low.over_m3s = flow_at (system, workspace, rule) - flow_m3s;
  }
  *ret_low = low;
  *ret_high = high;
  return low.over_m3s <= 0;
}

/* Ended on the side on which the flow is not more than asked for. */
bool
loop_speed_for_flow (const System *system, Workspace *workspace, unsigned pump, int edge, bool evaluated,
                     double flow_m3s, double *ret_speed)
{
  const double known_m3s = known_flow (system, workspace, edge, evaluated);
  LoopRule rule = as_set (system, edge);
  Trial low, high, last, before;

  if (pump >= system->n_pumps || !(flow_m3s > 0) ||
      !bracket_speed (system, workspace, pump, &rule, known_m3s, flow_m3s, &low, &high))
    return false;
  last = low;
  before = high;
  for (unsigned i = 0;
       i < SPEED_STEPS && high.speed - low.speed > SPEED_SLACK && low.over_m3s < -SPEED_SLACK * flow_m3s;
       i++) {
    const double speed = next_speed (&low, &high, &last, &before, -0.5 * SPEED_SLACK * flow_m3s, i);

    /* Near the speed at which a pump begins to lift the state hangs on where it is sought from: then each time afresh. */
    rule.after = low.over_m3s > -flow_m3s ? &workspace->scratch : NULL;
    rule.speed[pump] = speed;
    before = last;
    last = (Trial){speed, flow_at (system, workspace, &rule) - flow_m3s};
    if (!isfinite (last.over_m3s))
      return false;
    *(last.over_m3s <= 0 ? &low : &high) = last;
  }
  *ret_speed = low.speed;
  return true;
}

bool
solver_speed_for_turnover (const System *system, Workspace *workspace, const Evaluation *evaluation,
                           unsigned pump, double turnover_per_h, double *ret_speed)
{
  return isfinite (evaluation->totals.display_water_m3) &&
         loop_speed_for_flow (system, workspace, pump, 0, false,
                              turnover_per_h * evaluation->totals.display_water_m3 / 3600, ret_speed);
}

unsigned
solver_curve_pump (const System *system, unsigned pump, double speed, unsigned n, CurvePoint *points)
{
  if (pump >= system->n_pumps || n < 2 || !system->pumps[pump].curve_ok)
    return 0;
  const PumpCurve *curve = &system->pumps[pump].curve;

  for (unsigned i = 0; i < n; i++) {
    PumpHead head;

    const double flow_m3s = curve->flow_at_end_m3s * speed * i / (n - 1);

    if (pump_head (curve, speed, 1, flow_m3s, &head) > HYDRAULICS_OUT_OF_RANGE)
      return 0;
    points[i] = (CurvePoint){flow_m3s, head.head_m};
  }
  return n;
}

/* The loop asks at each flow for the head of a pump that gives just this flow: one that is all but flat at that head. */
unsigned
solver_curve_loop (const System *system, Workspace *workspace, const Evaluation *evaluation, unsigned pump,
                   bool aged, double most_m3s, unsigned n, CurvePoint *points)
{
  Network *network = aged ? workspace->aged : workspace->clean;
  const PumpModel *model = pump < system->n_pumps ? &system->pumps[pump] : NULL;
  unsigned found = 0;

  if (model == NULL || n < 2 || n > LOOP_POINTS_MAX || !(most_m3s > 0) ||
      evaluation->status == EVALUATION_NOT_SOLVED)
    return 0;
  for (unsigned i = 0; i < system->n_pumps; i++) {
    const PumpUnit unit = {.curve = system->pumps[i].curve,
                           .speed = system->pumps[i].curve_ok ? system->pumps[i].speed : 0,
                           .tolerance = 1};

    network_set_pump (network, system->pumps[i].link, &unit);
  }
  return_loop_set_branches (system, network, false);
  return_loop_set_levels (system, network, workspace->running.display_z, workspace->running.chamber_z);
  /* The pump is taken out and its flow fed in where it delivers: the head there is what the loop asks for. */
  network_set_shut (network, model->link, true);
  for (unsigned i = 0; i < n; i++) {
    const double flow_m3s = most_m3s * fmax ((double) i / (n - 1), 1e-6);

    network_set_outflow (network, model->delivery_node, -flow_m3s);
    if (network_solve (network) != HYDRAULICS_OK)
      continue;
    points[found].flow_m3s = i == 0 ? 0 : flow_m3s;
    points[found++].head_m =
        network_head (network, model->delivery_node) - workspace->running.chamber_z[model->chamber];
  }
  network_set_outflow (network, model->delivery_node, 0);
  network_set_shut (network, model->link, false);
  network_reset (network);
  return found;
}

unsigned
solver_curve_drain (const System *system, Workspace *workspace, unsigned overflow, bool primed, unsigned n,
                    CurvePoint *points)
{
  const CapacityRule rule = {.primed = primed, .k_factor = 1};
  double low_z = NO_LIMIT, high_z;

  if (overflow >= system->n_overflows || n < 2)
    return 0;
  high_z = system->overflows[overflow].lowest_rim_z;
  for (unsigned i = 0; i < system->overflows[overflow].n_drains; i++)
    low_z = fmin (low_z, system->drains[system->overflows[overflow].first_drain + i].pipe.mouth_level_m);
  if (!(low_z < high_z))
    return 0;
  for (unsigned i = 0; i < n; i++) {
    points[i].head_m = low_z + (high_z - low_z) * i / (n - 1);
    points[i].flow_m3s = overflow_capacity (system, &workspace->running, overflow, points[i].head_m, &rule);
  }
  return n;
}

void
solver_target_band (const System *system, const Evaluation *evaluation, double *ret_low_m3s,
                    double *ret_high_m3s)
{
  const double target = field_number (system, system->job, FIELD_JOB_TURNOVER),
               tolerance = field_number (system, system->job, FIELD_JOB_TURNOVER_TOLERANCE),
               volume_m3 = evaluation->totals.display_water_m3;

  *ret_low_m3s = target * (1 - tolerance) * volume_m3 / 3600;
  *ret_high_m3s = target * (1 + tolerance) * volume_m3 / 3600;
}
