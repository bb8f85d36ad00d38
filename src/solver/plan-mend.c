/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/plan-mend.h"

#include <math.h>
#include <string.h>

#include "solver/band.h"

#define MOST_USES 12

/* A pump whose range ends near the target will do: shares of the wanted flow. */
#define LEAST_OF_TARGET 0.95
#define MOST_OF_TARGET  1.2

/* Sizes of one series of the catalogue */

static bool
in_series (const Plan *plan, const PipeSize *size)
{
  return plan->request.us
             ? g_str_has_prefix (size->key, "sch40-")
             : g_str_has_prefix (size->key, "metric-") && !g_str_has_suffix (size->key, "-sdr21");
}

/* The smallest size with at least this bore, or NULL. */
static const PipeSize *
size_for (const Plan *plan, const Catalogue *catalogue, double bore_m)
{
  const PipeSize *found = NULL;

  for (unsigned i = 0; i < catalogue_n_pipes (catalogue); i++) {
    const PipeSize *size = catalogue_pipe (catalogue, i);

    if (in_series (plan, size) && size->inside_m >= bore_m &&
        (found == NULL || size->inside_m < found->inside_m))
      found = size;
  }
  return found;
}

static const PipeSize *
next_size (const Plan *plan, const Catalogue *catalogue, const PipeSize *size)
{
  return size_for (plan, catalogue, size->inside_m * 1.001);
}

/* The box must hold its pipes side by side. */
static void
fit_box (Plan *plan)
{
  const double gap_m = 0.025;
  double length_m = gap_m, widest_m = 0;
  const PipeSize *sizes[] = {plan->drain, plan->emergency, plan->trickle};

  for (unsigned i = 0; i < G_N_ELEMENTS (sizes); i++)
    if (sizes[i] != NULL) {
      length_m += 1.3 * sizes[i]->outside_m + gap_m;
      widest_m = fmax (widest_m, sizes[i]->outside_m);
    }
  plan->box_length_m = fmax (plan->box_length_m, length_m);
  plan->box_width_m = fmax (plan->box_width_m, 1.3 * widest_m + 0.03);
}

/* Open siphon over the fall from box to sump, K of about 4 with friction: Q = A sqrt(2 g H/K). Its bore for 2.2 x flow. */
static double
siphon_bore (const Plan *plan)
{
  const double fall_m = plan->request.stand_m[2] + 0.6 * plan->request.tank_m[2];
  const double velocity_ms = sqrt (2 * 9.80665 * fall_m / 4.0);

  return sqrt (4 * 2.2 * plan->flow_m3s / (G_PI * velocity_ms));
}

/* Lip weir of 15 mm head, coefficient 0.414: the bore of an emergency that takes the flow and a fifth unprimed. */
static double
lip_bore (const Plan *plan)
{
  const double head_m = fmax (0.015, plan->crest_drop_m - 0.02);

  return 1.2 * plan->flow_m3s / (0.414 * sqrt (2 * 9.80665) * G_PI * pow (head_m, 1.5));
}

bool
plan_first_sizes (Plan *plan, const Catalogue *catalogue, ProposalLimit *ret_limit)
{
  const double return_bore_m = sqrt (4 * plan->flow_m3s / (G_PI * 1.4));
  const PipeSize *largest = size_for (plan, catalogue, 0);

  for (const PipeSize *size = largest; size != NULL; size = next_size (plan, catalogue, size))
    largest = size;
  plan->pipe = size_for (plan, catalogue, fmax (return_bore_m, 0.016));
  plan->drain = size_for (plan, catalogue, fmax (siphon_bore (plan), 0.019));
  plan->emergency = size_for (plan, catalogue, fmax (lip_bore (plan), 0.03));
  plan->trickle = size_for (plan, catalogue, 0.019);
  if (plan->emergency == NULL)
    plan->emergency = largest;
  if (plan->pipe == NULL || plan->drain == NULL || plan->trickle == NULL) {
    *ret_limit = (ProposalLimit){.code = LIMIT_DRAIN, .value = plan->flow_m3s};
    return false;
  }
  fit_box (plan);
  return true;
}

/* The pump */

unsigned
plan_faults (const Evaluation *evaluation)
{
  return evaluation_count (evaluation, GRADE_STOP) * 1000 + evaluation_count (evaluation, GRADE_CAUTION);
}

/* Rounds a speed to what a controller takes: whole per cent, upwards. */
static double
whole_percent (double speed)
{
  return fmin (1, ceil (speed * 100 - 1e-6) / 100);
}

/* A loop to try pumps on. Its display water hardly depends on the pump, so one evaluation serves all speeds. */
typedef struct {
  System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  double target_per_h;
} Stand;

static double
flow_at_speed (const Stand *stand, double speed, Evaluation *scratch)
{
  if (!system_set_pump_speed (stand->system, 0, speed))
    return NAN;
  evaluate (stand->system, stand->workspace, NULL, scratch);
  return scratch->totals.flow_m3s;
}

/* The speed at which a pump gives the target, or an end of its range that comes near to it; false where it has none.
 * `most_m3s` is raised to the flow at full speed of a pump that is too weak. */
static bool
speed_for_target (const Stand *stand, const PumpType *type, Evaluation *scratch, double *ret_speed,
                  double *most_m3s)
{
  const double wanted_m3s = stand->target_per_h * stand->evaluation->totals.display_water_m3 / 3600;
  double speed, flow_m3s;

  if (!system_set_pump_curve (stand->system, 0, type->curve, type->watts))
    return false;
  if (solver_speed_for_turnover (stand->system, stand->workspace, stand->evaluation, 0, stand->target_per_h,
                                 &speed) &&
      speed >= type->min_speed) {
    *ret_speed = whole_percent (speed);
    return true;
  }
  flow_m3s = flow_at_speed (stand, 1, scratch);
  *ret_speed = 1;
  if (flow_m3s > wanted_m3s) {
    *ret_speed = type->min_speed;
    flow_m3s = flow_at_speed (stand, type->min_speed, scratch);
  } else if (flow_m3s > *most_m3s) {
    *most_m3s = flow_m3s;
  }
  return flow_m3s >= LEAST_OF_TARGET * wanted_m3s && flow_m3s <= MOST_OF_TARGET * wanted_m3s;
}

static bool
is_better (const Evaluation *evaluation, unsigned least, double best_watts)
{
  return plan_faults (evaluation) < least ||
         (plan_faults (evaluation) == least && evaluation->totals.pump_power_w < best_watts);
}

/* Bands only add faults, so a pump that loses without them is not asked again. */
static bool
beats (const Stand *stand, Evaluation *evaluation, unsigned least, double best_watts)
{
  evaluate (stand->system, stand->workspace, NULL, evaluation);
  if (!is_better (evaluation, least, best_watts))
    return false;
  workspace_set_bands (stand->workspace, true);
  evaluate (stand->system, stand->workspace, NULL, evaluation);
  workspace_set_bands (stand->workspace, false);
  return is_better (evaluation, least, best_watts);
}

/* Of all pumps that reach the target the one with the fewest faults, of these the one with the fewest watts. */
static bool
choose_among_all (const Stand *stand, const Catalogue *catalogue, Plan *plan)
{
  const PumpType *best = NULL;
  unsigned least = G_MAXUINT;
  double best_watts = INFINITY;
  g_autoptr (Evaluation) evaluation = evaluation_new ();

  for (unsigned i = 0; i < catalogue_n_pumps (catalogue); i++) {
    const PumpType *type = catalogue_pump (catalogue, i);
    double speed;

    if (!speed_for_target (stand, type, evaluation, &speed, &plan->most_m3s) ||
        !system_set_pump_speed (stand->system, 0, speed))
      continue;
    if (beats (stand, evaluation, least, best_watts)) {
      best = type;
      least = plan_faults (evaluation);
      best_watts = evaluation->totals.pump_power_w;
      plan->speed = speed;
    }
  }
  if (best == NULL)
    return false;
  plan->pump = best;
  return true;
}

static bool
keep_pump (const Stand *stand, Plan *plan)
{
  g_autoptr (Evaluation) scratch = evaluation_new ();

  return speed_for_target (stand, plan->pump, scratch, &plan->speed, &plan->most_m3s);
}

/* Sets pump and speed of a plan on the loop of `design`. A pump that was chosen before and still does is kept. */
static bool
set_pump (Plan *plan, Design *design, Catalogue *catalogue, Evaluation *evaluation, bool again)
{
  Stand stand = {.system = system_compile (design, catalogue, NULL, NULL), .evaluation = evaluation};
  bool set = false;

  if (stand.system != NULL) {
    stand.workspace = workspace_new (stand.system);
    workspace_set_bands (stand.workspace, false);
    stand.target_per_h = design_number (design, design_nth (design, PART_JOB, 0), FIELD_JOB_TURNOVER);
    evaluate (stand.system, stand.workspace, NULL, evaluation);
    set = (!again && keep_pump (&stand, plan)) || choose_among_all (&stand, catalogue, plan);
    workspace_free (stand.workspace);
  }
  system_free (stand.system);
  return set;
}

Design *
plan_choose_pump (Plan *plan, Catalogue *catalogue, Evaluation *evaluation)
{
  const bool first = plan->pump == NULL;
  g_autoptr (Design) base = NULL;
  g_autoptr (Design) design = NULL;

  if (first && catalogue_n_pumps (catalogue) > 0)
    plan->pump = catalogue_pump (catalogue, catalogue_n_pumps (catalogue) - 1);
  base = plan->pump != NULL ? plan_build (plan, NULL) : NULL;
  if (base == NULL || !set_pump (plan, base, catalogue, evaluation, first))
    return NULL;
  design = plan_build (plan, NULL);
  if (design == NULL || !evaluate_design (design, catalogue, NULL, evaluation, NULL, NULL))
    return NULL;
  return g_steal_pointer (&design);
}

/* What mends what. Each changes one number by a step and says whether it could. */

static bool
larger_drain (Plan *plan, const Catalogue *catalogue)
{
  const PipeSize *next = next_size (plan, catalogue, plan->drain);

  if (next == NULL)
    return false;
  plan->drain = next;
  fit_box (plan);
  return true;
}

static bool
smaller_drain (Plan *plan, const Catalogue *catalogue)
{
  const PipeSize *found = NULL;

  for (const PipeSize *size = size_for (plan, catalogue, 0); size != NULL && size != plan->drain;
       size = next_size (plan, catalogue, size))
    found = size;
  if (found == NULL)
    return false;
  plan->drain = found;
  return true;
}

static bool
larger_emergency (Plan *plan, const Catalogue *catalogue)
{
  const PipeSize *next = next_size (plan, catalogue, plan->emergency);

  if (next == NULL)
    return false;
  plan->emergency = next;
  fit_box (plan);
  return true;
}

static bool
larger_pipe (Plan *plan, const Catalogue *catalogue)
{
  const PipeSize *next = next_size (plan, catalogue, plan->pipe);

  if (next == NULL)
    return false;
  plan->pipe = next;
  return true;
}

static bool
lower_crest (Plan *plan, const Catalogue *catalogue)
{
  if (plan->crest_drop_m > 0.3 * plan->request.tank_m[2])
    return false;
  plan->crest_drop_m += 0.01;
  return true;
}

static bool
longer_weir (Plan *plan, const Catalogue *catalogue)
{
  const double inside_m = plan->request.tank_m[0] - 2 * fmax (0.006, plan->request.tank_m[2] / 50) - 0.004;

  if (plan->box_length_m >= inside_m - 0.001)
    return lower_crest (plan, catalogue);
  plan->box_length_m = fmin (inside_m, plan->box_length_m * 1.25);
  return true;
}

static bool
lower_levels (Plan *plan, const Catalogue *catalogue)
{
  if (plan->depth_m <= 0.085)
    return false;
  plan->depth_m = fmax (0.08, plan->depth_m - 0.01);
  plan->return_level_m = plan->depth_m - fmin (0.06, 0.3 * plan->depth_m);
  return true;
}

static bool
lower_return (Plan *plan, const Catalogue *catalogue)
{
  if (plan->return_level_m <= plan->suction_m + 0.035)
    return false;
  plan->return_level_m -= 0.01;
  return true;
}

static bool
raise_return (Plan *plan, const Catalogue *catalogue)
{
  if (plan->return_level_m >= plan->depth_m - 0.02)
    return false;
  plan->return_level_m += 0.01;
  return true;
}

static bool
narrower_return (Plan *plan, const Catalogue *catalogue)
{
  if (plan->return_share <= 0.13)
    return lower_return (plan, catalogue);
  plan->return_share -= 0.02;
  return true;
}

static bool
wider_return (Plan *plan, const Catalogue *catalogue)
{
  if (plan->return_share >= 0.4)
    return raise_return (plan, catalogue);
  plan->return_share += 0.03;
  return true;
}

static bool
raise_outlets (Plan *plan, const Catalogue *catalogue)
{
  if (plan->outlet_drop_m <= 0.021)
    return false;
  plan->outlet_drop_m -= 0.005;
  return true;
}

static bool
wider_nozzle (Plan *plan, const Catalogue *catalogue)
{
  plan->nozzle_m *= 1.1;
  return plan->nozzle_m < 0.1;
}

static bool
narrower_nozzle (Plan *plan, const Catalogue *catalogue)
{
  plan->nozzle_m /= 1.1;
  return plan->nozzle_m > 0.005;
}

static bool
smaller_reservoir (Plan *plan, const Catalogue *catalogue)
{
  if (plan->reservoir_length_m <= 0.06)
    return false;
  plan->reservoir_length_m -= 0.02;
  return true;
}

/* A longer reservoir at the cost of the sump beside it. */
static bool
larger_reservoir (Plan *plan, const Catalogue *catalogue)
{
  if (plan->reservoir_length_m <= 0 || plan->reservoir_length_m > 0.25 * plan->request.stand_m[0] ||
      plan->sump_m[0] < 0.5)
    return false;
  plan->reservoir_length_m += 0.03;
  plan->sump_m[0] -= 0.03;
  return true;
}

static const struct {
  CheckId check;
  bool (*mend) (Plan *plan, const Catalogue *catalogue);
} mends[] = {
    {CHECK_DRAIN_OVERRUN, larger_drain},
    {CHECK_DRAIN_SHORT, larger_drain},
    {CHECK_DRAIN_NOISE, larger_drain},
    {CHECK_FLOOD_FAILED, larger_emergency},
    {CHECK_FLOOD_PRIMED_ONLY, larger_emergency},
    {CHECK_FLOOD_FULL_SPEED, larger_emergency},
    {CHECK_DRAIN_FULL_SPEED, larger_drain},
    {CHECK_FLOOD_FREEBOARD, lower_crest},
    {CHECK_DISPLAY_OVER_RIM, longer_weir},
    {CHECK_DISPLAY_FREEBOARD, longer_weir},
    {CHECK_WEIR_LOADING, longer_weir},
    {CHECK_COMB_CHOKES, longer_weir},
    {CHECK_HEIGHTS_GAP, lower_crest},
    {CHECK_BOX_OVER_RIM, lower_crest},
    {CHECK_WEIR_DROWNED, lower_crest},
    {CHECK_TRANSFER_FAILED, narrower_return},
    {CHECK_DRAIN_BACK_FLOODS, lower_levels},
    {CHECK_DRAIN_BACK_FREEBOARD, lower_levels},
    {CHECK_DRAIN_BACK_PLUGGED, raise_outlets},
    {CHECK_SUMP_OVER_RIM, lower_levels},
    {CHECK_SUCTION_COVER, raise_return},
    {CHECK_EMERGENCY_RUNS_DRY, wider_return},
    {CHECK_RESERVE_SHORT, wider_return},
    {CHECK_RETURN_VELOCITY, larger_pipe},
    {CHECK_NOZZLE_VELOCITY, wider_nozzle},
    {CHECK_BREAK_SUCTION, narrower_nozzle},
    {CHECK_TURNOVER_LOW, larger_pipe},
    {CHECK_TOP_OFF_SHORT, larger_reservoir},
    {CHECK_TOP_OFF_FLOODS, smaller_reservoir},
    {CHECK_TOP_OFF_POWER_CUT, smaller_reservoir},
};

/* A finding of a siphon's range may ask for more or for less. */
static bool
mend_one (Plan *plan, const Catalogue *catalogue, const Finding *finding, MendState *state)
{
  if (state->used[finding->check] >= MOST_USES)
    return false;
  state->used[finding->check]++;
  if (finding->check == CHECK_SIPHON_RANGE)
    return finding->value < finding->limit ? larger_drain (plan, catalogue) : smaller_drain (plan, catalogue);
  for (unsigned i = 0; i < G_N_ELEMENTS (mends); i++)
    if (mends[i].check == finding->check && mends[i].mend (plan, catalogue))
      return true;
  return false;
}

bool
plan_mend (Plan *plan, const Catalogue *catalogue, const Evaluation *evaluation, MendState *state)
{
  for (unsigned i = 0; i < evaluation->n_findings && evaluation->findings[i].grade != GRADE_NOTE; i++)
    if (mend_one (plan, catalogue, &evaluation->findings[i], state))
      return true;
  return false;
}
