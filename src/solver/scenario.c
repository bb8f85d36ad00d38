/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/scenario.h"

#include <string.h>

#include "design/choices.h"
#include "design/geometry.h"
#include "solver/model.h"

#define HOUR_S 3600.0
/* Time beyond the emptying of the reservoir, for the levels to settle. */
#define AFTER_S 120.0

typedef struct {
  const System *system;
  const Evaluation *evaluation;
} Case;

/* The main drain: that with the greatest flow while all is well; -1 where none carries any. */
static int
main_drain (const Case *now)
{
  int found = -1;
  double most_m3s = 0;

  for (unsigned i = 0; i < now->system->n_drains; i++)
    if (!now->system->drains[i].blocked && now->evaluation->drains[i].flow_m3s > most_m3s) {
      most_m3s = now->evaluation->drains[i].flow_m3s;
      found = (int) i;
    }
  return found;
}

static unsigned
main_overflow (const Case *now)
{
  unsigned found = 0;

  for (unsigned i = 1; i < now->system->n_overflows; i++)
    if (now->evaluation->overflows[i].flow_m3s > now->evaluation->overflows[found].flow_m3s)
      found = i;
  return found;
}

/* Whether water that no longer leaves by a run has another outlet to leave by. */
static bool
another_takes_over (const System *system, int run, int outlet)
{
  for (unsigned p = 0; p < system->n_pumps; p++) {
    bool fed = false, other = false;

    for (unsigned f = 0; f < system->n_feeds; f++)
      fed = fed ||
            (outlet < 0 && system->pumps[p].reaches_feed[f] && system->feeds[f].node == system->runs[run].to);
    for (unsigned k = 0; k < system->n_outlets; k++)
      other = other || (system->pumps[p].reaches[k] && system->outlets[k].run != run);
    if (other && (outlet < 0 ? fed : system->pumps[p].reaches[outlet]))
      return true;
  }
  return false;
}

/* The run to an outlet or a device with the greatest flow that another outlet of its pumps could take over; -1 without one. */
static int
main_branch (const Case *now)
{
  const System *system = now->system;
  int found = -1;
  double most_m3s = 0;

  for (unsigned i = 0; i < system->n_runs; i++) {
    int outlet = -1;
    bool ends = false;

    for (unsigned o = 0; o < system->n_outlets; o++)
      if (system->outlets[o].run == (int) i)
        outlet = (int) o;
    for (unsigned f = 0; f < system->n_feeds; f++)
      ends = ends || system->feeds[f].node == system->runs[i].to;
    if ((outlet >= 0 || ends) && now->evaluation->runs[i].flow_m3s > most_m3s &&
        another_takes_over (system, (int) i, outlet)) {
      most_m3s = now->evaluation->runs[i].flow_m3s;
      found = (int) i;
    }
  }
  return found;
}

static bool
has_role (const Case *now, DrainRole role)
{
  for (unsigned i = 0; i < now->system->n_drains; i++)
    if (now->system->drains[i].role == (int) role && !now->system->drains[i].blocked)
      return true;
  return false;
}

static double
display_z (const Case *now, unsigned outlet)
{
  return now->evaluation->tanks[now->system->outlets[outlet].tank].display_z;
}

static FailureReason
always (const Case *now, const FailureOptions *options)
{
  return FAILURE_APPLIES;
}

static FailureReason
with_main_drain (const Case *now, const FailureOptions *options)
{
  return main_drain (now) >= 0 ? FAILURE_APPLIES : FAILURE_NO_STEADY_STATE;
}

static FailureReason
with_overflow (const Case *now, const FailureOptions *options)
{
  return now->system->n_overflows > 0 ? FAILURE_APPLIES : FAILURE_NO_STEADY_STATE;
}

/* As in the transfer test: a comb can be covered from end to end, a plain crest not. */
static FailureReason
with_comb (const Case *now, const FailureOptions *options)
{
  if (now->system->n_overflows == 0)
    return FAILURE_NO_STEADY_STATE;
  return now->system->overflows[main_overflow (now)].weir.formula == WEIR_COMB ? FAILURE_APPLIES
                                                                               : FAILURE_PLAIN_CREST;
}

static FailureReason
with_siphon (const Case *now, const FailureOptions *options)
{
  for (unsigned i = 0; i < now->system->n_drains; i++)
    if (now->evaluation->drains[i].primed)
      return FAILURE_APPLIES;
  return FAILURE_NO_SIPHON;
}

static FailureReason
with_siphon_and_trickle (const Case *now, const FailureOptions *options)
{
  if (with_siphon (now, options) != FAILURE_APPLIES)
    return FAILURE_NO_SIPHON;
  return has_role (now, DRAIN_TRICKLE) ? FAILURE_APPLIES : FAILURE_NO_TRICKLE;
}

static FailureReason
with_tubes (const Case *now, const FailureOptions *options)
{
  for (unsigned i = 0; i < now->system->n_overflows; i++)
    if (now->system->overflows[i].hangs_over)
      return FAILURE_APPLIES;
  return FAILURE_NO_TUBES;
}

static FailureReason
with_break (const Case *now, const FailureOptions *options)
{
  for (unsigned o = 0; o < now->system->n_outlets; o++)
    if (now->system->outlets[o].has_break && now->system->outlets[o].z < display_z (now, o))
      return FAILURE_APPLIES;
  return FAILURE_NO_BREAK;
}

static FailureReason
with_check (const Case *now, const FailureOptions *options)
{
  for (unsigned i = 0; i < now->system->n_runs; i++)
    if (now->system->runs[i].has_check)
      return FAILURE_APPLIES;
  return FAILURE_NO_CHECK_VALVE;
}

static FailureReason
with_reservoir (const Case *now, const FailureOptions *options)
{
  return now->system->reservoir >= 0 ? FAILURE_APPLIES : FAILURE_NO_RESERVOIR;
}

static FailureReason
with_tube (const Case *now, const FailureOptions *options)
{
  const System *system = now->system;
  double tube_z;

  if (system->reservoir < 0)
    return FAILURE_NO_RESERVOIR;
  tube_z = system->chambers[system->datum].bottom_z +
           field_number (system, system->reservoir, FIELD_RESERVOIR_TUBE_END);
  return !(field_number (system, system->reservoir, FIELD_RESERVOIR_TUBE_BREAK) > 0) &&
                 tube_z < reservoir_full_z (system)
             ? FAILURE_APPLIES
             : FAILURE_TUBE_OPEN;
}

static FailureReason
with_branch (const Case *now, const FailureOptions *options)
{
  return main_branch (now) >= 0 ? FAILURE_APPLIES : FAILURE_NO_BRANCH;
}

static FailureReason
with_speed (const Case *now, const FailureOptions *options)
{
  for (unsigned i = 0; i < now->system->n_pumps; i++)
    if (now->system->pumps[i].speed < 1)
      return FAILURE_APPLIES;
  return FAILURE_FULL_SPEED_ALREADY;
}

static FailureReason
with_sock (const Case *now, const FailureOptions *options)
{
  for (unsigned i = 0; i < now->system->n_chambers; i++)
    if (now->system->chambers[i].socks > 0)
      return FAILURE_APPLIES;
  return FAILURE_NO_SOCK;
}

static FailureReason
with_low_outlet (const Case *now, const FailureOptions *options)
{
  for (unsigned o = 0; o < now->system->n_outlets; o++)
    if (now->system->outlets[o].z - options->outlet_drop_m < display_z (now, o))
      return FAILURE_APPLIES;
  return FAILURE_NO_OUTLET_BELOW;
}

static void
cut_power (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  plan->power_off_s = fmin (plan->power_off_s, 0);
}

static void
return_power (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  plan->power_off_s = fmin (plan->power_off_s, 0);
  plan->power_on_s = options->power_off_s;
  plan->horizon_s = fmax (plan->horizon_s, options->power_off_s + options->horizon_s);
}

static void
keep_siphons_open (const Case *now, RehearsalPlan *plan)
{
  for (unsigned i = 0; i < now->system->n_drains; i++)
    plan->siphon_fails[i] = now->system->drains[i].role == DRAIN_SIPHON;
}

static void
return_unprimed (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  return_power (now, options, plan);
  keep_siphons_open (now, plan);
}

static void
block_drain (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  const int drain = main_drain (now);

  if (drain >= 0)
    plan->drain_blocked[drain] = 1;
}

static void
clog_drain (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  block_drain (now, options, plan);
  plan->block_s = options->block_s;
  plan->horizon_s = fmax (plan->horizon_s, options->block_s + options->horizon_s);
}

static void
cover_half (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  double *covered = &plan->crest_covered[main_overflow (now)];

  *covered = fmax (*covered, 0.5);
}

static void
cover_all (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  plan->crest_covered[main_overflow (now)] = 1;
}

static void
lose_siphon (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  keep_siphons_open (now, plan);
  for (unsigned i = 0; i < now->system->n_drains; i++)
    plan->siphon_lost[i] = plan->siphon_fails[i];
}

static void
lose_siphon_and_trickle (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  lose_siphon (now, options, plan);
  for (unsigned i = 0; i < now->system->n_drains; i++)
    if (now->system->drains[i].role == DRAIN_TRICKLE)
      plan->drain_blocked[i] = 1;
}

static void
lose_tubes (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  for (unsigned i = 0; i < now->system->n_overflows; i++)
    plan->tubes_lost[i] = now->system->overflows[i].hangs_over;
}

static void
plug_break (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  cut_power (now, options, plan);
  plan->break_plugged = true;
}

static void
stick_check (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  cut_power (now, options, plan);
  plan->check_stuck = true;
}

/* How long the reservoir lasts at the top-off's flow. */
static double
emptied_s (const Case *now, const FailureOptions *options)
{
  return field_number (now->system, now->system->reservoir, FIELD_RESERVOIR_VOLUME) / options->top_off_m3s +
         AFTER_S;
}

static void
stick_top_off (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  plan->top_off_stuck = true;
  plan->horizon_s = fmax (plan->horizon_s, emptied_s (now, options) + options->horizon_s);
}

static void
stick_top_off_and_cut (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  stick_top_off (now, options, plan);
  plan->power_off_s = fmin (plan->power_off_s, emptied_s (now, options));
}

static void
siphon_reservoir (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  plan->top_off_siphons = true;
  plan->horizon_s = fmax (plan->horizon_s, 12 * HOUR_S);
}

static void
empty_reservoir (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  plan->reservoir_empty = true;
  plan->evaporation_m3s = fmax (now->evaluation->totals.fast_evaporation_m3s, 0);
  plan->horizon_s = fmax (plan->horizon_s, options->absence_s);
}

static void
shut_branch (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  const int run = main_branch (now);

  if (run >= 0)
    plan->run_shut[run] = true;
}

static void
run_full_speed (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  for (unsigned i = 0; i < now->system->n_pumps; i++)
    plan->speed[i] = 1;
}

static void
clog_sock (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  for (unsigned i = 0; i < now->system->n_chambers; i++)
    plan->sock_clogged[i] = now->system->chambers[i].socks > 0;
}

static void
lower_outlet (const Case *now, const FailureOptions *options, RehearsalPlan *plan)
{
  cut_power (now, options, plan);
  for (unsigned o = 0; o < now->system->n_outlets; o++)
    plan->outlet_drop_m[o] = options->outlet_drop_m;
}

typedef struct {
  const char *word;
  FailureReason (*applies) (const Case *now, const FailureOptions *options);
  void (*set_up) (const Case *now, const FailureOptions *options, RehearsalPlan *plan);
} FailureRow;

static const FailureRow rows[] = {
    [FAILURE_POWER_CUT] = {"power-cut", always, cut_power},
    [FAILURE_POWER_RETURNS] = {"power-returns", always, return_power},
    [FAILURE_POWER_RETURNS_UNPRIMED] = {"power-returns-unprimed", with_siphon, return_unprimed},
    [FAILURE_DRAIN_CLOGS] = {"drain-clogs", with_main_drain, clog_drain},
    [FAILURE_DRAIN_BLOCKED] = {"drain-blocked", with_main_drain, block_drain},
    [FAILURE_OVERFLOW_HALF] = {"overflow-half-covered", with_overflow, cover_half},
    [FAILURE_OVERFLOW_COVERED] = {"overflow-covered", with_comb, cover_all},
    [FAILURE_SIPHON_FAILS] = {"siphon-fails", with_siphon, lose_siphon},
    [FAILURE_SIPHON_AND_TRICKLE] = {"siphon-fails-trickle-blocked", with_siphon_and_trickle,
                                    lose_siphon_and_trickle},
    [FAILURE_TUBES_LOST] = {"siphon-box-unprimed", with_tubes, lose_tubes},
    [FAILURE_BREAK_PLUGGED] = {"break-plugged", with_break, plug_break},
    [FAILURE_CHECK_STUCK] = {"check-valve-stuck", with_check, stick_check},
    [FAILURE_TOP_OFF_STUCK] = {"top-off-stuck", with_reservoir, stick_top_off},
    [FAILURE_TOP_OFF_POWER_CUT] = {"top-off-stuck-power-cut", with_reservoir, stick_top_off_and_cut},
    [FAILURE_RESERVOIR_SIPHONS] = {"reservoir-siphons", with_tube, siphon_reservoir},
    [FAILURE_RESERVOIR_EMPTY] = {"reservoir-empty", always, empty_reservoir},
    [FAILURE_BRANCH_SHUT] = {"branch-shut", with_branch, shut_branch},
    [FAILURE_FULL_SPEED] = {"full-speed", with_speed, run_full_speed},
    [FAILURE_SOCK_CLOGGED] = {"sock-clogged", with_sock, clog_sock},
    [FAILURE_OUTLET_LOWERED] = {"outlet-lowered", with_low_outlet, lower_outlet},
};

G_STATIC_ASSERT (G_N_ELEMENTS (rows) == N_FAILURES);

const char *
failure_word (FailureId failure)
{
  return failure < N_FAILURES ? rows[failure].word : "unknown";
}

bool
failure_find (const char *word, FailureId *ret_failure)
{
  for (unsigned i = 0; i < N_FAILURES; i++)
    if (g_strcmp0 (word, rows[i].word) == 0) {
      *ret_failure = (FailureId) i;
      return true;
    }
  return false;
}

static const FailureOptions *
options_or (const FailureOptions *options, FailureOptions *usual)
{
  if (options != NULL)
    return options;
  failure_options_init (usual);
  return usual;
}

FailureReason
failure_applies (const System *system, const Evaluation *evaluation, FailureId failure,
                 const FailureOptions *options)
{
  const Case now = {system, evaluation};
  FailureOptions usual;

  if (evaluation->status == EVALUATION_NOT_SOLVED || evaluation->status == EVALUATION_NO_FLOW)
    return FAILURE_NO_STEADY_STATE;
  return rows[failure].applies (&now, options_or (options, &usual));
}

void
failure_set_up (const System *system, const Evaluation *evaluation, FailureId failure,
                const FailureOptions *options, RehearsalPlan *plan)
{
  const Case now = {system, evaluation};
  FailureOptions usual;
  const FailureOptions *used = options_or (options, &usual);

  if (failure_applies (system, evaluation, failure, used) != FAILURE_APPLIES)
    return;
  plan->edge = used->edge;
  plan->top_off_m3s = used->top_off_m3s;
  plan->horizon_s = fmax (plan->horizon_s, used->horizon_s);
  rows[failure].set_up (&now, used, plan);
}
