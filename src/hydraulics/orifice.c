/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/orifice.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/constants.h"
#include "hydraulics/crest.h"

#include <glib.h>
#include <math.h>

#define FOOT_M 0.3048

HydraulicsStatus
orifice_discharge (double discharge_coefficient, double area_m2, double head_m, double *ret_flow_m3s)
{
  if (!argument_is_share (discharge_coefficient) || !argument_is_positive (area_m2) ||
      !argument_is_not_negative (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (discharge_coefficient * area_m2 * sqrt (2.0 * GRAVITY_M_S2 * head_m),
                           ret_flow_m3s);
}

HydraulicsStatus
orifice_head (double discharge_coefficient, double area_m2, double flow_m3s, double *ret_head_m)
{
  if (!argument_is_share (discharge_coefficient) || !argument_is_positive (area_m2) ||
      !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (flow_m3s > 0.0 && discharge_coefficient == 0.0)
    return HYDRAULICS_NO_SOLUTION;
  double velocity_m_s = flow_m3s > 0.0 ? flow_m3s / (discharge_coefficient * area_m2) : 0.0;
  return answer_if_finite (velocity_m_s * velocity_m_s / (2.0 * GRAVITY_M_S2), ret_head_m);
}

HydraulicsStatus
slot_discharge (double discharge_coefficient, double width_m, double head_top_m, double head_bottom_m,
                double *ret_flow_m3s)
{
  if (!argument_is_share (discharge_coefficient) || !argument_is_positive (width_m) ||
      !isfinite (head_top_m) || !argument_is_not_negative (head_bottom_m) || head_top_m > head_bottom_m)
    return HYDRAULICS_INVALID_ARGUMENT;
  double top_m = head_bottom_m - fmax (head_top_m, 0.0);
  return answer_if_finite (discharge_coefficient * width_m * sqrt (2.0 * GRAVITY_M_S2) *
                               crest_strips (head_bottom_m, 0.0, 0.0, top_m),
                           ret_flow_m3s);
}

static double
kindsvater_shen (double angle_deg, double head_m)
{
  double t = angle_deg;
  double coefficient = 0.607165052 + t * (-8.74466963e-4 + t * 6.10393334e-6);
  double addition_m = FOOT_M * (0.0144902648 + t * (-3.3955535e-4 + t * (3.29819003e-6 - t * 1.06215442e-8)));

  return 8.0 / 15.0 * coefficient * sqrt (2.0 * GRAVITY_M_S2) * tan (t * G_PI / 360.0) *
         pow (crest_effective_head (head_m, addition_m), 2.5);
}

/* 2.49 h^2.48 in feet and cubic feet a second. */
static double
cone (double head_m)
{
  return 2.49 * FOOT_M * FOOT_M * FOOT_M * pow (head_m / FOOT_M, 2.48);
}

HydraulicsStatus
notch_discharge (NotchFormula formula, double angle_deg, double head_m, double *ret_flow_m3s)
{
  if (!argument_is_positive (angle_deg) || angle_deg >= 180.0 || !argument_is_not_negative (head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status;
  switch (formula) {
  case NOTCH_KINDSVATER_SHEN:
    status = answer_if_finite (kindsvater_shen (angle_deg, head_m), ret_flow_m3s);
    return status == HYDRAULICS_OK && (angle_deg < 20.0 || angle_deg > 100.0) ? HYDRAULICS_OUT_OF_RANGE
                                                                              : status;
  case NOTCH_CONE:
    if (angle_deg != 90.0)
      return HYDRAULICS_OUT_OF_RANGE;
    return answer_if_finite (cone (head_m), ret_flow_m3s);
  case NOTCH_FORMULA_COUNT:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

typedef struct {
  NotchFormula formula;
  double angle_deg;
} Notch;

static HydraulicsStatus
notch_relation (double head_m, const void *data, double *ret_flow_m3s)
{
  const Notch *notch = data;

  return notch_discharge (notch->formula, notch->angle_deg, head_m, ret_flow_m3s);
}

HydraulicsStatus
notch_head (NotchFormula formula, double angle_deg, double flow_m3s, double *ret_head_m)
{
  const Notch notch = {formula, angle_deg};
  double most_m3s = NAN, head_m = NAN;

  if (!argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus range = notch_discharge (formula, angle_deg, CREST_HEAD_MAX_M, &most_m3s);
  if (isnan (most_m3s))
    return range;
  if (flow_m3s > most_m3s)
    return HYDRAULICS_OUT_OF_RANGE;
  HydraulicsStatus status = bracket_invert (notch_relation, &notch, flow_m3s, 0.0, CREST_HEAD_MAX_M, &head_m);
  if (status != HYDRAULICS_OK)
    return status;
  *ret_head_m = head_m;
  return range;
}
