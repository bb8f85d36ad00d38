/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The rehearser: steps of the integration, each as long as its error allows and no longer than to the next event. */
#include "solver/rehearsal.h"

#include "solver/rehearsal-model.h"

#define TOLERANCE_M    2e-6
#define FIRST_STEP_S   1e-3
#define LEAST_STEP_S   1e-7
#define LONGEST_STEP_S 3600.0
#define STEPS_MAX      20000
#define PATIENCE       2000
#define SAFETY         0.9
#define GROW_MOST      6.0
#define SHRINK_MOST    0.2
/* At one moment no more can happen than this. */
#define AT_ONCE_MAX 64
#define BISECTIONS  44
/* How well a moment is met: the level, the time, and in how many steps at most. */
#define TURN_M     1e-9
#define TURN_S     1e-6
#define TURN_STEPS 12
#define SHORTEST_S 1e-12

const char *
rehearsal_event_word (RehearsalEventKind kind)
{
  static const char *const words[] = {
#define X(id, word) word,
      REHEARSAL_EVENTS (X)
#undef X
  };

  return kind < N_REHEARSAL_EVENTS ? words[kind] : "unknown";
}

const char *
rehearsal_status_text (RehearsalStatus status)
{
  switch (status) {
  case REHEARSAL_OK:
    return "played";
  case REHEARSAL_CANCELLED:
    return "cancelled";
  case REHEARSAL_NOT_SOLVED:
    return "a flow could not be found";
  case N_REHEARSAL_STATUSES:
  default:
    return "unknown status";
  }
}

void
rehearsal_plan_init (RehearsalPlan *plan)
{
  *plan = (RehearsalPlan){
      .power_off_s = NO_LIMIT, .power_on_s = NO_LIMIT, .horizon_s = 3600, .top_off_m3s = 1e-3 / 60};
  for (unsigned i = 0; i < EVALUATION_PUMPS_MAX; i++)
    plan->speed[i] = NO_NUMBER;
}

Rehearsal *
rehearsal_new (void)
{
  return g_new0 (Rehearsal, 1);
}

void
rehearsal_free (Rehearsal *rehearsal)
{
  g_free (rehearsal);
}

const RehearsalEvent *
rehearsal_event (const Rehearsal *rehearsal, RehearsalEventKind kind, int part)
{
  for (unsigned i = 0; i < rehearsal->n_events; i++)
    if (rehearsal->events[i].kind == kind && (part < 0 || rehearsal->events[i].part == part))
      return &rehearsal->events[i];
  return NULL;
}

const RehearsalVessel *
rehearsal_vessel (const Rehearsal *rehearsal, int part, VesselKind kind)
{
  for (unsigned i = 0; i < rehearsal->n_vessels; i++)
    if (rehearsal->vessels[i].part == part && rehearsal->vessels[i].kind == kind)
      return &rehearsal->vessels[i];
  return NULL;
}

Rehearser *
rehearser_new (const System *system)
{
  Rehearser *rehearser = g_new0 (Rehearser, 1);

  rehearser->system = system;
  rehearser->workspace = workspace_new (system);
  rehearser->clean = network_copy (system->clean);
  rehearser->aged = network_copy (system->aged);
  rehearser->tolerance_m = TOLERANCE_M;
  return rehearser;
}

void
rehearser_free (Rehearser *rehearser)
{
  if (rehearser == NULL)
    return;
  workspace_free (rehearser->workspace);
  network_free (rehearser->clean);
  network_free (rehearser->aged);
  g_free (rehearser);
}

void
rehearser_set_tolerance (Rehearser *rehearser, double level_m)
{
  rehearser->tolerance_m = CLAMP (level_m, 1e-9, 1e-3);
}

static bool
rate_of (double t, const double *y, double *ret_rate, void *data)
{
  return rehearser_rates (data, t, y, ret_rate, NULL, NULL);
}

/* Rates, flows, levels and Jacobian of the moment. */
static bool
look_afresh (Rehearser *rehearser)
{
  if (!rehearser_rates (rehearser, rehearser->t, rehearser->y, rehearser->rate,
                        rehearser->jacobians[rehearser->jacobian], &rehearser->flows))
    return false;
  memcpy (rehearser->z, rehearser->pass.z, rehearser->n_places * sizeof (double));
  memcpy (rehearser->area_m2, rehearser->pass.area_m2, rehearser->n_places * sizeof (double));
  return true;
}

/* Error of a step over what is allowed; a vessel below empty counts as wrong. */
static double
error_of (const Rehearser *rehearser, unsigned n_steps)
{
  /* Two surfaces that flutter about each other within the tolerance can hold the steps down for ever: then it is let
   * out by and by. */
  const double slack = n_steps > PATIENCE ? exp2 (fmin ((n_steps - PATIENCE) / (double) PATIENCE, 8)) : 1;
  double worst = 0;

  for (unsigned i = 0; i < rehearser->n_places; i++) {
    const double allowed_m3 = slack * rehearser->places[i].tolerance_m3;

    worst = fmax (worst, fabs (rehearser->error[i]) / allowed_m3);
    if (!isfinite (rehearser->next_y[i]))
      return NO_LIMIT;
    if (rehearser->next_y[i] < -10 * allowed_m3 && rehearser->next_y[i] < rehearser->y[i])
      worst = fmax (worst, 8);
  }
  return worst;
}

/* One step of at most `longest_s`; false where none can be made. */
static bool
try_steps (Rehearser *rehearser, double longest_s, double *ret_step_s, Rehearsal *rehearsal)
{
  double step_s = fmin (rehearser->step_s, longest_s);

  for (;;) {
    double error = NO_LIMIT, factor;

    if (rosenbrock_step (&rehearser->room, rate_of, rehearser, rehearser->jacobians[rehearser->jacobian],
                         rehearser->t, rehearser->y, rehearser->rate, step_s, rehearser->next_y,
                         rehearser->error))
      error = error_of (rehearser, rehearsal->n_steps);
    factor = CLAMP (SAFETY / cbrt (fmax (error, 1e-6)), SHRINK_MOST, GROW_MOST);
    if (error <= 1 || (step_s <= LEAST_STEP_S && isfinite (error))) {
      *ret_step_s = step_s;
      /* A step that was cut short by an event says little about how long the next may be. */
      if (step_s >= rehearser->step_s || factor < 1)
        rehearser->step_s = CLAMP (step_s * factor, LEAST_STEP_S, LONGEST_STEP_S);
      rehearser->failed = false;
      return true;
    }
    rehearsal->n_rejected++;
    if (step_s <= LEAST_STEP_S)
      return false;
    step_s = fmax (step_s * fmin (factor, 0.5), LEAST_STEP_S);
    rehearser->step_s = step_s;
  }
}

static void
dense_at (Rehearser *rehearser, double step_s, double share)
{
  for (unsigned i = 0; i < rehearser->n_places; i++)
    rehearser->dense_y[i] = hermite (rehearser->y[i], rehearser->rate[i], rehearser->next_y[i],
                                     rehearser->next_rate[i], step_s, share);
}

/* Share of the step at which the first watch turns; 1 where none does. */
static double
first_turn (Rehearser *rehearser, double step_s, Watch **ret_watch)
{
  double first = 1;

  *ret_watch = NULL;
  for (unsigned k = 0; k < rehearser->n_watches; k++) {
    Watch *watch = &rehearser->watches[k];
    double low = 0, high = first;

    if ((watch_value (rehearser, watch, rehearser->next_y) > 0) == watch->above)
      continue;
    for (unsigned i = 0; i < BISECTIONS && high - low > 1e-13; i++) {
      const double middle = 0.5 * (low + high);

      dense_at (rehearser, step_s, middle);
      if ((watch_value (rehearser, watch, rehearser->dense_y) > 0) == watch->above)
        low = middle;
      else
        high = middle;
    }
    if (*ret_watch == NULL || high < first) {
      first = high;
      *ret_watch = watch;
    }
  }
  return first;
}

/* Everything that stands on the other side of its turning point at this moment. */
static bool
fire_due (Rehearser *rehearser, Rehearsal *rehearsal)
{
  bool any = false;

  for (unsigned n = 0; n < AT_ONCE_MAX; n++) {
    bool fired = false;

    for (unsigned k = 0; k < rehearser->n_watches && !fired; k++) {
      Watch *watch = &rehearser->watches[k];

      if ((watch_value (rehearser, watch, rehearser->y) > 0) == watch->above)
        continue;
      watch_fire (rehearser, watch, rehearsal);
      fired = any = true;
    }
    if (!fired)
      break;
    rehearser_make_watches (rehearser);
  }
  return any;
}

/* Goes to the end of the step, whose rates are known; false where rates cannot be found. */
static bool
advance (Rehearser *rehearser, double step_s, RehearsalTrace *trace, Rehearsal *rehearsal)
{
  verdict_step (rehearser, step_s, rehearsal);
  if (trace != NULL)
    rehearsal_trace_step (trace, rehearser, step_s);
  rehearser->t += step_s;
  memcpy (rehearser->y, rehearser->next_y, rehearser->n_places * sizeof (double));
  memcpy (rehearser->rate, rehearser->next_rate, rehearser->n_places * sizeof (double));
  rehearser->flows = rehearser->next_flows;
  rehearser->jacobian = 1 - rehearser->jacobian;
  memcpy (rehearser->z, rehearser->pass.z, rehearser->n_places * sizeof (double));
  memcpy (rehearser->area_m2, rehearser->pass.area_m2, rehearser->n_places * sizeof (double));
  rehearsal->n_steps++;
  return true;
}

static bool
look_ahead (Rehearser *rehearser, double step_s)
{
  return rehearser_rates (rehearser, rehearser->t + step_s, rehearser->next_y, rehearser->next_rate,
                          rehearser->jacobians[1 - rehearser->jacobian], &rehearser->next_flows);
}

static bool
step_again (Rehearser *rehearser, double step_s)
{
  return rosenbrock_step (&rehearser->room, rate_of, rehearser, rehearser->jacobians[rehearser->jacobian],
                          rehearser->t, rehearser->y, rehearser->rate, step_s, rehearser->next_y,
                          rehearser->error);
}

/* Ends the step where the watch turns. The cubic that foresaw the moment is not as good as a step that ends there: the
 * step is made again, and its length mended by false position, until it ends at the turning point. */
static bool
step_to_turn (Rehearser *rehearser, const Watch *watch, double share, double *step_s)
{
  const double sign = watch->above ? 1 : -1;
  double low_s = 0, high_s = *step_s, at_s = fmax (share * *step_s, SHORTEST_S);
  double low = sign * watch_value (rehearser, watch, rehearser->y);
  double high = sign * watch_value (rehearser, watch, rehearser->next_y);

  for (unsigned i = 0; i < TURN_STEPS; i++) {
    double value;

    if (!step_again (rehearser, at_s))
      return false;
    value = sign * watch_value (rehearser, watch, rehearser->next_y);
    *step_s = at_s;
    if (fabs (value) < TURN_M || high_s - low_s < TURN_S)
      break;
    if (value > 0) {
      low_s = at_s;
      low = value;
      high *= 0.5;
    } else {
      high_s = at_s;
      high = value;
      low *= 0.5;
    }
    at_s = low_s + (high_s - low_s) * CLAMP (low / (low - high), 0.01, 0.99);
  }
  return look_ahead (rehearser, *step_s);
}

/* One step, ended by an event or by the clock where one comes first. */
static bool
step_once (Rehearser *rehearser, RehearsalTrace *trace, Rehearsal *rehearsal)
{
  const double next_s = rehearser_next_switch (rehearser);
  const double longest_s = next_s - rehearser->t;
  double step_s;
  Watch *watch;

  if (!try_steps (rehearser, longest_s, &step_s, rehearsal) || !look_ahead (rehearser, step_s))
    return false;

  const double share = first_turn (rehearser, step_s, &watch);

  if (watch != NULL && share < 1 && !step_to_turn (rehearser, watch, share, &step_s))
    return false;
  advance (rehearser, step_s, trace, rehearsal);
  if (watch != NULL) {
    watch_fire (rehearser, watch, rehearsal);
    rehearser_make_watches (rehearser);
  } else if (step_s >= longest_s) {
    rehearser->t = next_s;
    rehearser_switch (rehearser, rehearsal);
    rehearser_make_watches (rehearser);
  } else {
    return true;
  }
  fire_due (rehearser, rehearsal);
  /* Another law may hold from here on. */
  rehearser->step_s = fmin (rehearser->step_s, FIRST_STEP_S * 20);
  if (!look_afresh (rehearser))
    return false;
  if (trace != NULL)
    rehearsal_trace_add (trace, rehearser, rehearser->t, rehearser->y, &rehearser->flows);
  return true;
}

static RehearsalStatus
play (Rehearser *rehearser, RehearsalTrace *trace, const int *cancelled, Rehearsal *rehearsal)
{
  rehearser_switch (rehearser, rehearsal);
  rehearser_make_watches (rehearser);
  fire_due (rehearser, rehearsal);
  if (!look_afresh (rehearser))
    return REHEARSAL_NOT_SOLVED;
  if (trace != NULL)
    rehearsal_trace_add (trace, rehearser, rehearser->t, rehearser->y, &rehearser->flows);
  rehearser->step_s = FIRST_STEP_S;
  while (rehearser->t < rehearser->plan.horizon_s && rehearsal->n_steps < STEPS_MAX) {
    if (cancelled != NULL && g_atomic_int_get (cancelled) != 0)
      return REHEARSAL_CANCELLED;
    if (rehearser_rests (rehearser)) {
      rehearsal->rest_s = rehearser->t;
      rehearser_note (rehearser, rehearsal, REHEARSAL_AT_REST, -1, NO_NUMBER);
      break;
    }
    if (!step_once (rehearser, trace, rehearsal))
      return REHEARSAL_NOT_SOLVED;
  }
  return REHEARSAL_OK;
}

RehearsalStatus
rehearse (Rehearser *rehearser, const RehearsalPlan *plan, RehearsalTrace *trace, const int *cancelled,
          Rehearsal *ret_rehearsal)
{
  *ret_rehearsal = (Rehearsal){.status = REHEARSAL_NOT_SOLVED,
                               .rest_s = NO_NUMBER,
                               .pump_dry_s = NO_NUMBER,
                               .pump_dry_part = -1,
                               .matters_s = NO_NUMBER};
  if (trace != NULL)
    rehearsal_trace_clear (trace);
  rehearser->plan = *plan;
  if (!rehearser_start (rehearser))
    return REHEARSAL_NOT_SOLVED;
  verdict_begin (rehearser, ret_rehearsal);
  ret_rehearsal->status = play (rehearser, trace, cancelled, ret_rehearsal);
  verdict_end (rehearser, ret_rehearsal);
  return ret_rehearsal->status;
}
