/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "tests/solver/rehearsal-by-gsl.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include "solver/rehearsal-model.h"

#define FIRST_STEP_S 1e-4
#define HALVINGS     40
#define STEPS_MOST   2000000

typedef struct {
  Rehearser *rehearser;
  Rehearsal *rehearsal;
  gsl_odeiv2_system system;
  gsl_odeiv2_driver *driver;
  double longest_s, step_s;
} Play;

static int
rate_for_gsl (double t, const double *y, double *ret_rate, void *data)
{
  return rehearser_rates (data, t, y, ret_rate, NULL, NULL) ? GSL_SUCCESS : GSL_EBADFUNC;
}

static int
jacobian_for_gsl (double t, const double *y, double *ret_jacobian, double *ret_time, void *data)
{
  Rehearser *rehearser = data;
  double rate[PLACES_MAX];

  memset (ret_time, 0, rehearser->n_places * sizeof *ret_time);
  return rehearser_rates (rehearser, t, y, rate, ret_jacobian, NULL) ? GSL_SUCCESS : GSL_EBADFUNC;
}

static void
look_at (Play *play)
{
  Rehearser *rehearser = play->rehearser;

  rehearser_rates (rehearser, rehearser->t, rehearser->y, rehearser->rate, NULL, &rehearser->flows);
  rehearser_read_levels (rehearser, rehearser->y, rehearser->z, rehearser->area_m2);
  for (unsigned i = 0; i < play->rehearsal->n_vessels; i++) {
    RehearsalVessel *vessel = &play->rehearsal->vessels[i];
    const double level_z = rehearser->z[rehearser_vessel_place (rehearser, i)];

    vessel->peak_z = fmax (vessel->peak_z, level_z);
    vessel->lowest_z = fmin (vessel->lowest_z, level_z);
  }
}

/* Fires what stands on the other side; whether anything did. */
static bool
fire_all (Play *play)
{
  Rehearser *rehearser = play->rehearser;
  bool any = false;

  for (unsigned k = 0; k < rehearser->n_watches; k++)
    if ((watch_value (rehearser, &rehearser->watches[k], rehearser->y) > 0) != rehearser->watches[k].above) {
      watch_fire (rehearser, &rehearser->watches[k], play->rehearsal);
      rehearser_make_watches (rehearser);
      any = true;
      k = (unsigned) -1;
    }
  return any;
}

static bool
turned (const Rehearser *rehearser, const double *y)
{
  for (unsigned k = 0; k < rehearser->n_watches; k++)
    if ((watch_value (rehearser, &rehearser->watches[k], y) > 0) != rehearser->watches[k].above)
      return true;
  return false;
}

/* From the moment's y over `span_s`. */
static bool
integrate (Play *play, double span_s, double *ret_y)
{
  double t = play->rehearser->t, step_s = fmin (FIRST_STEP_S, span_s);
  const double end = t + span_s;

  memcpy (ret_y, play->rehearser->y, play->rehearser->n_places * sizeof *ret_y);
  gsl_odeiv2_driver_reset (play->driver);
  while (t < end)
    if (gsl_odeiv2_evolve_apply (play->driver->e, play->driver->c, play->driver->s, &play->system, &t, end,
                                 &step_s, ret_y) != GSL_SUCCESS)
      return false;
  return true;
}

/* The moment within a step at which the first watch turns. */
static bool
halve (Play *play, double span_s)
{
  Rehearser *rehearser = play->rehearser;
  double low = 0, high = span_s, y[PLACES_MAX];

  for (unsigned i = 0; i < HALVINGS && high - low > 1e-9; i++) {
    const double middle = 0.5 * (low + high);

    if (!integrate (play, middle, y))
      return false;
    if (turned (rehearser, y))
      high = middle;
    else
      low = middle;
  }
  if (!integrate (play, high, y))
    return false;
  memcpy (rehearser->y, y, rehearser->n_places * sizeof *y);
  rehearser->t += high;
  return true;
}

static bool
one_step (Play *play)
{
  Rehearser *rehearser = play->rehearser;
  const double next_s = rehearser_next_switch (rehearser);
  const double end = fmin (next_s, rehearser->t + play->longest_s);
  double y[PLACES_MAX], t = rehearser->t;

  memcpy (y, rehearser->y, rehearser->n_places * sizeof *y);
  if (gsl_odeiv2_evolve_apply (play->driver->e, play->driver->c, play->driver->s, &play->system, &t, end,
                               &play->step_s, y) != GSL_SUCCESS)
    return false;
  play->rehearsal->n_steps++;
  if (turned (rehearser, y)) {
    if (!halve (play, t - rehearser->t))
      return false;
    look_at (play);
    fire_all (play);
  } else {
    memcpy (rehearser->y, y, rehearser->n_places * sizeof *y);
    rehearser->t = t;
    look_at (play);
    if (t < next_s)
      return true;
    rehearser_switch (rehearser, play->rehearsal);
    rehearser_make_watches (rehearser);
    fire_all (play);
  }
  gsl_odeiv2_driver_reset (play->driver);
  play->step_s = FIRST_STEP_S;
  look_at (play);
  return true;
}

static bool
play_on (Play *play)
{
  Rehearser *rehearser = play->rehearser;

  rehearser_switch (rehearser, play->rehearsal);
  rehearser_make_watches (rehearser);
  fire_all (play);
  look_at (play);
  while (rehearser->t < rehearser->plan.horizon_s && play->rehearsal->n_steps < STEPS_MOST) {
    if (rehearser_rests (rehearser)) {
      play->rehearsal->rest_s = rehearser->t;
      return true;
    }
    if (!one_step (play))
      return false;
  }
  return rehearser->t >= rehearser->plan.horizon_s;
}

bool
rehearse_by_gsl (Rehearser *rehearser, const RehearsalPlan *plan, double tolerance, double longest_s,
                 Rehearsal *ret_rehearsal)
{
  Play play = {
      .rehearser = rehearser, .rehearsal = ret_rehearsal, .longest_s = longest_s, .step_s = FIRST_STEP_S};
  double scale[PLACES_MAX];
  bool done;

  *ret_rehearsal = (Rehearsal){.rest_s = NO_NUMBER, .pump_dry_s = NO_NUMBER, .matters_s = NO_NUMBER};
  rehearser->plan = *plan;
  if (!rehearser_start (rehearser))
    return false;
  verdict_begin (rehearser, ret_rehearsal);
  for (unsigned i = 0; i < rehearser->n_places; i++)
    scale[i] = rehearser->places[i].tolerance_m3;
  play.system = (gsl_odeiv2_system){rate_for_gsl, jacobian_for_gsl, rehearser->n_places, rehearser};
  play.driver = gsl_odeiv2_driver_alloc_scaled_new (&play.system, gsl_odeiv2_step_msbdf, FIRST_STEP_S,
                                                    tolerance, 0, 1, 0, scale);
  gsl_set_error_handler_off ();
  done = play_on (&play);
  gsl_odeiv2_driver_free (play.driver);
  verdict_end (rehearser, ret_rehearsal);
  return done;
}
