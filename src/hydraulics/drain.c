/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/drain.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/constants.h"
#include "hydraulics/siphon.h"

#include <glib.h>
#include <math.h>

static const double lip_coefficient = 0.414;
static const double mouth_coefficient = 0.60;

HydraulicsStatus
drain_lip_flow (double diameter_m, double head_m, double *ret_flow_m3s)
{
  if (!argument_is_positive (diameter_m) || !argument_is_not_negative (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;

  double fall_m_s = sqrt (2.0 * GRAVITY_M_S2 * head_m);
  double opening_m2 = head_m <= DRAIN_LIP_JOINT * diameter_m
                          ? lip_coefficient * G_PI * diameter_m * head_m
                          : mouth_coefficient * G_PI / 4.0 * diameter_m * diameter_m;
  return answer_if_finite (opening_m2 * fall_m_s, ret_flow_m3s);
}

HydraulicsStatus
drain_lip_head (double diameter_m, double flow_m3s, double *ret_head_m)
{
  if (!argument_is_positive (diameter_m) || !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;

  double fall = sqrt (2.0 * GRAVITY_M_S2);
  double as_weir_m = pow (flow_m3s / (lip_coefficient * fall * G_PI * diameter_m), 2.0 / 3.0);
  double root = flow_m3s / (mouth_coefficient * fall * G_PI / 4.0 * diameter_m * diameter_m);
  return answer_if_finite (as_weir_m <= DRAIN_LIP_JOINT * diameter_m ? as_weir_m : root * root, ret_head_m);
}

static bool
is_well_formed (const DrainPipe *pipe)
{
  return isfinite (pipe->mouth_level_m) && argument_is_positive (pipe->mouth_diameter_m) &&
         isfinite (pipe->end_level_m);
}

static double
mouth_factor (const DrainPipe *pipe)
{
  return pipe->mouth_factor > 0.0 ? pipe->mouth_factor : 1.0;
}

/* What the mouth lets in at a head over it, and which regime that is. */
static HydraulicsStatus
mouth_flow (const DrainPipe *pipe, bool primed, double head_m, double *ret_flow_m3s, DrainRegime *ret_regime)
{
  if (primed) {
    *ret_regime = DRAIN_GULPING;
    return siphon_mouth_flow (pipe->mouth_diameter_m, head_m, ret_flow_m3s);
  }
  *ret_regime = head_m <= DRAIN_LIP_JOINT * pipe->mouth_diameter_m ? DRAIN_LIP_WEIR : DRAIN_ORIFICE;

  HydraulicsStatus status = drain_lip_flow (pipe->mouth_diameter_m, head_m, ret_flow_m3s);
  if (status == HYDRAULICS_OK)
    *ret_flow_m3s *= mouth_factor (pipe);
  return status;
}

/* The inverse. */
static HydraulicsStatus
mouth_head (const DrainPipe *pipe, bool primed, double flow_m3s, double *ret_head_m, DrainRegime *ret_regime)
{
  HydraulicsStatus status =
      primed ? siphon_mouth_cover (pipe->mouth_diameter_m, flow_m3s, ret_head_m)
             : drain_lip_head (pipe->mouth_diameter_m, flow_m3s / mouth_factor (pipe), ret_head_m);

  if (status != HYDRAULICS_OK)
    return status;
  if (primed)
    *ret_regime = DRAIN_GULPING;
  else
    *ret_regime = *ret_head_m <= DRAIN_LIP_JOINT * pipe->mouth_diameter_m ? DRAIN_LIP_WEIR : DRAIN_ORIFICE;
  return HYDRAULICS_OK;
}

HydraulicsStatus
drain_flow (const DrainPipe *pipe, const Fluid *water, bool primed, double box_level_m, double *ret_flow_m3s,
            DrainRegime *ret_regime)
{
  if (!is_well_formed (pipe) || !isfinite (box_level_m))
    return HYDRAULICS_INVALID_ARGUMENT;

  double flow_m3s = 0.0;
  DrainRegime regime = DRAIN_DRY;
  double cover_m = box_level_m - pipe->mouth_level_m;
  PipeLoss loss;
  HydraulicsStatus status = HYDRAULICS_OK;
  if (cover_m > 0.0)
    status = mouth_flow (pipe, primed, cover_m, &flow_m3s, &regime);
  if (status == HYDRAULICS_OK)
    status = pipe_loss (&pipe->run, water, flow_m3s, &loss);
  if (status != HYDRAULICS_OK)
    return status;

  /* The costly inverse only where the pipe holds back what the mouth lets in. */
  double fall_m = fmax (box_level_m - pipe->end_level_m, 0.0);
  if (regime != DRAIN_DRY && loss.head_m > fall_m) {
    regime = DRAIN_FULL;
    status = pipe_flow_at_loss (&pipe->run, water, fall_m, &flow_m3s);
    if (status != HYDRAULICS_OK)
      return status;
  }
  *ret_flow_m3s = flow_m3s;
  if (ret_regime != NULL)
    *ret_regime = regime;
  return HYDRAULICS_OK;
}

HydraulicsStatus
drain_level (const DrainPipe *pipe, const Fluid *water, bool primed, double flow_m3s, double *ret_level_m,
             DrainRegime *ret_regime)
{
  if (!is_well_formed (pipe) || !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;

  double cover_m = 0.0;
  DrainRegime regime = DRAIN_DRY;
  PipeLoss loss;
  HydraulicsStatus status = mouth_head (pipe, primed, flow_m3s, &cover_m, &regime);
  if (status == HYDRAULICS_OK)
    status = pipe_loss (&pipe->run, water, flow_m3s, &loss);
  if (status != HYDRAULICS_OK)
    return status;

  double mouth_level_m = pipe->mouth_level_m + cover_m;
  double full_level_m = pipe->end_level_m + loss.head_m;
  if (full_level_m > mouth_level_m)
    regime = DRAIN_FULL;
  if (flow_m3s == 0.0)
    regime = DRAIN_DRY;
  status = answer_if_finite (fmax (mouth_level_m, full_level_m), ret_level_m);
  if (status == HYDRAULICS_OK && ret_regime != NULL)
    *ret_regime = regime;
  return status;
}

HydraulicsStatus
drain_priming_level (const DrainPipe *pipe, double *ret_level_m)
{
  if (!is_well_formed (pipe))
    return HYDRAULICS_INVALID_ARGUMENT;
  *ret_level_m = pipe->mouth_level_m + DRAIN_PRIMING_COVER * pipe->mouth_diameter_m;
  return HYDRAULICS_OK;
}
