/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/siphon.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/constants.h"
#include "hydraulics/quiet.h"

#include <glib.h>
#include <math.h>

/* Fr = 1.6 (cover/D)^2 at the border of air entrainment: McDuffie 1977, from memory. */
static const double cover_factor = 1.6;

HydraulicsStatus
siphon_valve_coefficient (const DrainPipe *pipe, const Fluid *water, double box_level_m, double flow_m3s,
                          double *ret_coefficient)
{
  if (!isfinite (box_level_m) || !isfinite (pipe->end_level_m) || !argument_is_positive (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;

  PipeLoss loss;
  HydraulicsStatus status = pipe_loss (&pipe->run, water, flow_m3s, &loss);
  if (status != HYDRAULICS_OK)
    return status;
  double to_spend_m = box_level_m - pipe->end_level_m - loss.head_m;
  if (to_spend_m < 0.0)
    return HYDRAULICS_NO_SOLUTION;
  return answer_if_finite (to_spend_m * 2.0 * GRAVITY_M_S2 / (loss.velocity_ms * loss.velocity_ms),
                           ret_coefficient);
}

HydraulicsStatus
siphon_valve_opening (const DrainPipe *pipe, const Fluid *water, double box_level_m, double flow_m3s,
                      ValveKind valve, double *ret_opening)
{
  double coefficient = 0.0;
  HydraulicsStatus status = siphon_valve_coefficient (pipe, water, box_level_m, flow_m3s, &coefficient);

  if (status != HYDRAULICS_OK)
    return status;
  if (coefficient == 0.0)
    return HYDRAULICS_NO_SOLUTION;
  return valve_opening_for_k (valve, pipe->run.bore_m, coefficient, ret_opening);
}

HydraulicsStatus
siphon_pressure_head (const PipeRun *above, const Fluid *water, double box_level_m, double point_level_m,
                      double flow_m3s, double *ret_head_m)
{
  if (!isfinite (box_level_m) || !isfinite (point_level_m) || !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;

  PipeLoss loss;
  HydraulicsStatus status = pipe_loss (above, water, flow_m3s, &loss);
  if (status != HYDRAULICS_OK)
    return status;
  double velocity_head_m = loss.velocity_ms * loss.velocity_ms / (2.0 * GRAVITY_M_S2);
  return answer_if_finite (box_level_m - point_level_m - loss.head_m - velocity_head_m, ret_head_m);
}

HydraulicsStatus
siphon_mouth_cover (double diameter_m, double flow_m3s, double *ret_cover_m)
{
  double froude = 0.0;
  HydraulicsStatus status = quiet_froude_number (diameter_m, flow_m3s, &froude);

  if (status != HYDRAULICS_OK)
    return status;
  return answer_if_finite (diameter_m * sqrt (froude / cover_factor), ret_cover_m);
}

HydraulicsStatus
siphon_mouth_flow (double diameter_m, double cover_m, double *ret_flow_m3s)
{
  if (!argument_is_positive (diameter_m) || !argument_is_not_negative (cover_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  double diameters = cover_m / diameter_m;
  return quiet_self_venting_flow (diameter_m, cover_factor * diameters * diameters, QUIET_FROUDE_SUPERFICIAL,
                                  ret_flow_m3s);
}

HydraulicsStatus
siphon_starting (const SiphonStart *start, SiphonStarting *ret_starting)
{
  double froude = 0.0;

  if (!isfinite (start->crown_level_m) || !isfinite (start->spill_level_m) ||
      !isfinite (start->outlet_level_m) || !isfinite (start->sump_level_at_rest_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = quiet_froude_number (start->bore_m, start->starting_flow_m3s, &froude);
  if (status != HYDRAULICS_OK)
    return status;

  double depth_m = fmax (start->sump_level_at_rest_m - start->outlet_level_m, 0.0);
  double height_m = start->spill_level_m - start->crown_level_m;
  *ret_starting = (SiphonStarting){
      .froude = froude,
      .clears_air = froude >= QUIET_CLEARING_FROUDE,
      .outlet_depth_m = depth_m,
      .driving_height_m = height_m,
      .margin_m = height_m - depth_m,
      .may_start = height_m > depth_m,
  };
  return HYDRAULICS_OK;
}

HydraulicsStatus
siphon_tolerated_drift (double fall_m, double level_play_m, double *ret_share)
{
  if (!argument_is_positive (fall_m) || !argument_is_not_negative (level_play_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (level_play_m / (2.0 * fall_m), ret_share);
}

HydraulicsStatus
siphon_screen_coefficient (const SiphonScreen *screen, double bore_m, double *ret_coefficient)
{
  if (!argument_is_positive (screen->area_m2) || !argument_is_share (screen->open_fraction) ||
      screen->open_fraction == 0.0 || !argument_is_share (screen->blocked_share) ||
      !argument_is_positive (bore_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (screen->blocked_share == 1.0)
    return HYDRAULICS_NO_SOLUTION;

  double on_approach = 0.0;
  HydraulicsStatus status =
      fitting_screen_k (screen->open_fraction * (1.0 - screen->blocked_share), &on_approach);
  if (status != HYDRAULICS_OK)
    return status;
  double contraction = G_PI / 4.0 * bore_m * bore_m / screen->area_m2;
  return answer_if_finite (on_approach * contraction * contraction, ret_coefficient);
}

static bool
is_hang_over (const HangOverBox *box)
{
  return box->n_tubes > 0 && isfinite (box->crown_level_m) && isfinite (box->inner_rest_level_m) &&
         isfinite (box->outer_rest_level_m) && isfinite (box->tube.mouth_level_m) &&
         isfinite (box->tube.end_level_m);
}

HydraulicsStatus
hang_over_state (const HangOverBox *box, const Fluid *water, double flow_m3s, double outer_level_m,
                 HangOverState *ret_state)
{
  if (!is_hang_over (box) || !argument_is_not_negative (flow_m3s) || !isfinite (outer_level_m))
    return HYDRAULICS_INVALID_ARGUMENT;

  double tube_flow_m3s = flow_m3s / box->n_tubes;
  double froude = 0.0;
  PipeLoss loss;
  HydraulicsStatus status = pipe_loss (&box->tube.run, water, tube_flow_m3s, &loss);
  if (status == HYDRAULICS_OK)
    status = quiet_froude_number (box->tube.run.bore_m, tube_flow_m3s, &froude);
  if (status != HYDRAULICS_OK)
    return status;

  double inner_level_m = outer_level_m + loss.head_m;
  if (inner_level_m >= box->crown_level_m || inner_level_m <= box->tube.mouth_level_m ||
      outer_level_m <= box->tube.end_level_m)
    return HYDRAULICS_NO_SOLUTION;

  /* The tubes go on until both chambers stand alike, at the lower of the two lips. */
  double rest_level_m = fmin (box->inner_rest_level_m, box->outer_rest_level_m);
  double highest_end_m = fmax (box->tube.mouth_level_m, box->tube.end_level_m);
  *ret_state = (HangOverState){
      .level_difference_m = loss.head_m,
      .inner_level_m = inner_level_m,
      .froude = froude,
      .sweeps_bubbles = froude >= QUIET_CLEARING_FROUDE,
      .rest_cover_m = rest_level_m - highest_end_m,
      .keeps_prime_at_rest = rest_level_m > highest_end_m,
      .crown_suction_m = box->crown_level_m - inner_level_m,
  };
  return HYDRAULICS_OK;
}
