/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/turnover.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"

#define SECONDS_PER_HOUR 3600.0

static HydraulicsStatus
quotient (double amount, double divisor, double *ret_quotient)
{
  if (!argument_is_not_negative (amount) || !argument_is_positive (divisor))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (amount / divisor, ret_quotient);
}

HydraulicsStatus
turnover_rate (double flow_m3s, double volume_m3, double *ret_turnover_per_h)
{
  return quotient (SECONDS_PER_HOUR * flow_m3s, volume_m3, ret_turnover_per_h);
}

HydraulicsStatus
turnover_flow (double turnover_per_h, double volume_m3, double *ret_flow_m3s)
{
  if (!argument_is_not_negative (turnover_per_h) || !argument_is_not_negative (volume_m3))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (turnover_per_h * volume_m3 / SECONDS_PER_HOUR, ret_flow_m3s);
}

HydraulicsStatus
turnover_retention_time (double volume_m3, double flow_m3s, double *ret_time_s)
{
  return quotient (volume_m3, flow_m3s, ret_time_s);
}

HydraulicsStatus
turnover_bucket_flow (double volume_m3, double time_s, double *ret_flow_m3s)
{
  return quotient (volume_m3, time_s, ret_flow_m3s);
}
