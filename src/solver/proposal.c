/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/proposal.h"

#include <math.h>

#include "solver/plan-mend.h"
#include "solver/plan.h"

/* Least sizes of a sump that is worth building, and rooms of common practice around it (defaults.md of the trade: 10 mm
 * at the ends, 25 mm on the plumbing side, 10 mm in the door). */
#define LEAST_SUMP_LENGTH_M 0.30
#define LEAST_SUMP_WIDTH_M  0.12
#define LEAST_SUMP_HEIGHT_M 0.16
#define END_ROOM_M          0.010
#define PLUMBING_ROOM_M     0.025
#define DOOR_ROOM_M         0.010
#define RESERVOIR_LENGTH_M  0.20
#define MOST_OVERHANG_M     0.20
#define MOST_ROUNDS         60
#define PATIENCE            12 /* rounds without a better design */

static double
clamp (double value, double least, double most)
{
  return fmin (fmax (value, least), most);
}

static bool
forbid (ProposalLimit *ret_limit, LimitCode code, unsigned axis, double value, double bound)
{
  *ret_limit = (ProposalLimit){.code = code, .axis = axis, .value = value, .bound = bound};
  return false;
}

static bool
check_sizes (const ProposalRequest *request, ProposalLimit *ret_limit)
{
  static const FieldId tank[] = {FIELD_TANK_LENGTH, FIELD_TANK_WIDTH, FIELD_TANK_HEIGHT};
  static const FieldId stand[] = {FIELD_STAND_LENGTH, FIELD_STAND_WIDTH, FIELD_STAND_HEIGHT};

  for (unsigned axis = 0; axis < 3; axis++) {
    const FieldInfo *infos[] = {field_info (tank[axis]), field_info (stand[axis])};
    const double sizes[] = {request->tank_m[axis], request->stand_m[axis]};

    for (unsigned i = 0; i < 2; i++)
      if (!(sizes[i] >= infos[i]->min && sizes[i] <= infos[i]->max))
        return forbid (ret_limit, i == 0 ? LIMIT_TANK_SIZE : LIMIT_STAND_SIZE, axis, sizes[i],
                       sizes[i] < infos[i]->min ? infos[i]->min : infos[i]->max);
  }
  for (unsigned axis = 0; axis < 2; axis++)
    if (request->tank_m[axis] - request->stand_m[axis] > MOST_OVERHANG_M)
      return forbid (ret_limit, LIMIT_TANK_STAND, axis, request->tank_m[axis] - request->stand_m[axis],
                     MOST_OVERHANG_M);
  return true;
}

/* The largest sump that passes the door, end first or long side first, and leaves working room above. */
static bool
size_sump (Plan *plan, ProposalLimit *ret_limit)
{
  static const double least[] = {LEAST_SUMP_LENGTH_M, LEAST_SUMP_WIDTH_M, LEAST_SUMP_HEIGHT_M};
  const double *stand = plan->request.stand_m;
  const double door_width = plan->request.door_m[0] > 0 ? plan->request.door_m[0] : stand[0] - 0.1;
  const double door_height = plan->request.door_m[1] > 0 ? plan->request.door_m[1] : stand[2] - 0.05;
  const double working = clamp (0.4 * stand[2], 0.15, 0.32);

  plan->reservoir_length_m = stand[0] >= 0.9 ? RESERVOIR_LENGTH_M : 0;
  plan->sump_m[0] = stand[0] - 2 * END_ROOM_M;
  if (plan->reservoir_length_m > 0)
    plan->sump_m[0] -= plan->reservoir_length_m + END_ROOM_M;
  plan->sump_m[0] = fmin (plan->sump_m[0], door_width - 2 * DOOR_ROOM_M);
  plan->sump_m[1] = stand[1] - END_ROOM_M - PLUMBING_ROOM_M;
  plan->sump_m[2] = fmin (fmin (stand[2] - working, door_height - DOOR_ROOM_M), 0.5);
  for (unsigned axis = 0; axis < 3; axis++)
    if (plan->sump_m[axis] < least[axis])
      return forbid (ret_limit, LIMIT_SUMP_ROOM, axis, plan->sump_m[axis], least[axis]);
  return true;
}

/* First guesses; the search mends them where the evaluation finds fault. */
static bool
first_plan (Plan *plan, const Catalogue *catalogue, ProposalLimit *ret_limit)
{
  const double *tank = plan->request.tank_m;
  const double glass = fmax (0.006, tank[2] / 50);
  const double inside_m = tank[0] - 2 * glass, deep_m = tank[1] - 2 * glass;
  const double volume_m3 = inside_m * deep_m * (tank[2] - glass - 0.04) * 0.88;
  const double turnover = plan->request.turnover_per_h > 0  ? plan->request.turnover_per_h
                          : tank[0] * tank[1] * tank[2] > 2 ? 3.0
                                                            : 5.0;
  double high_m;

  if (!size_sump (plan, ret_limit))
    return false;
  high_m = plan->sump_m[2] - plan_sump_glass (plan->sump_m[2]);
  plan->flow_m3s = turnover * volume_m3 / 3600;
  plan->crest_drop_m = 0.05;
  plan->box_length_m =
      clamp (plan->flow_m3s * 3.6e6 / 10 / 1000, 0.2, inside_m - 0.02); /* 10 L/h a millimetre */
  plan->box_width_m = clamp (0.12, 0.05, 0.3 * deep_m);
  plan->box_depth_m = clamp (0.25, 0.08, 0.7 * tank[2]);
  plan->depth_m = clamp (0.55 * high_m, 0.08, 0.21);
  plan->return_level_m = plan->depth_m - 0.06;
  plan->return_share = 0.24;
  plan->suction_m = 0.03;
  plan->outlets = tank[0] >= 1.0 ? 2 : 1;
  plan->nozzle_m = clamp (sqrt (4 * plan->flow_m3s / plan->outlets / (G_PI * 1.6)), 0.006, 0.06);
  plan->outlet_drop_m = clamp (0.04, 0.02, 0.2 * tank[2]);
  plan->speed = 1;
  return plan_first_sizes (plan, catalogue, ret_limit);
}

typedef struct {
  Design *design;
  unsigned faults;
  ProposalLimit limit; /* of its first stop finding */
} Best;

static ProposalLimit
limit_of (const Evaluation *evaluation, const Plan *plan)
{
  const Finding *finding = evaluation->n_findings > 0 ? &evaluation->findings[0] : NULL;
  ProposalLimit limit = {.code = LIMIT_NONE};

  if (finding == NULL || finding->grade != GRADE_STOP)
    return limit;
  limit = (ProposalLimit){
      .code = LIMIT_FINDING, .value = finding->value, .bound = finding->limit, .check = finding->check};
  if (finding->check == CHECK_DRAIN_BACK_FLOODS)
    limit.code = LIMIT_DRAIN_BACK;
  else if (finding->check == CHECK_DRAIN_OVERRUN || finding->check == CHECK_FLOOD_FAILED) {
    limit.code = LIMIT_DRAIN;
    limit.value = evaluation->totals.fast_flow_m3s;
    limit.bound = fmax (0, evaluation->totals.drain_blocked_m3s);
  } else if (finding->check == CHECK_PUMP_TOO_WEAK || finding->check == CHECK_PUMP_START) {
    limit.code = LIMIT_PUMP;
    limit.value = plan->flow_m3s;
    limit.bound = fmax (0, evaluation->totals.flow_m3s);
  }
  return limit;
}

/* Evaluates a plan with the best pump for it and keeps the design where it is the best so far. */
static bool
try_plan (Plan *plan, Catalogue *catalogue, Evaluation *evaluation, Best *best)
{
  g_autoptr (Design) design = plan_choose_pump (plan, catalogue, evaluation);

  if (design == NULL)
    return false;
  if (best->design == NULL || plan_faults (evaluation) < best->faults) {
    design_unref (best->design);
    best->design = g_steal_pointer (&design);
    best->faults = plan_faults (evaluation);
    best->limit = limit_of (evaluation, plan);
  }
  return true;
}

static void
search (Plan *plan, Catalogue *catalogue, Best *best)
{
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  MendState state = {0};
  unsigned idle = 0;

  for (unsigned round = 0; round < MOST_ROUNDS; round++) {
    const unsigned before = best->faults;

    if (!try_plan (plan, catalogue, evaluation, best) || best->faults == 0)
      return;
    idle = best->faults < before ? 0 : idle + 1;
    if (idle > PATIENCE)
      return;
    if (!plan_mend (plan, catalogue, evaluation, &state))
      return;
  }
}

Design *
proposal_make (const ProposalRequest *request, Catalogue *catalogue, ProposalLimit *ret_limit)
{
  Plan plan = {.request = *request};
  Best best = {.faults = G_MAXUINT, .limit = {.code = LIMIT_PUMP}};

  if (!check_sizes (request, ret_limit) || !first_plan (&plan, catalogue, ret_limit))
    return NULL;
  best.limit.value = plan.flow_m3s;
  search (&plan, catalogue, &best);
  if (best.design == NULL)
    best.limit.bound = plan.most_m3s;
  *ret_limit = best.limit;
  if (best.design == NULL || best.limit.code != LIMIT_NONE) {
    design_unref (best.design);
    return NULL;
  }
  return best.design;
}
