/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/open_channel.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/bracket.h"
#include "hydraulics/constants.h"

#include <math.h>
#include <stddef.h>

/* Colebrook-White was drawn up to this relative roughness (Moody 1944). */
static const double relative_roughness_max = 0.05;
/* Below this product Re sqrt f the turbulent law means nothing and the laminar one holds alone. */
static const double viscous_limit = 16.0;

typedef struct {
  double area_m2;
  double hydraulic_radius_m;
} Segment;

static Segment
wetted_segment (double bore_m, double depth_ratio)
{
  double angle = 4.0 * asin (sqrt (depth_ratio));
  double square = angle * angle;
  /* angle - sin angle, without its cancellation in a thin film. */
  double excess = angle < 0.1 ? angle * square / 6.0 * (1.0 - square / 20.0 * (1.0 - square / 42.0))
                              : angle - sin (angle);
  double area_m2 = bore_m * bore_m / 8.0 * excess;

  return (Segment){area_m2, depth_ratio > 0.0 ? 2.0 * area_m2 / (bore_m * angle) : 0.0};
}

static bool
is_well_formed (const OpenChannel *channel)
{
  if (!argument_is_positive (channel->bore_m) || !argument_is_positive (channel->slope) ||
      channel->slope > 1.0)
    return false;

  switch (channel->law) {
  case OPEN_CHANNEL_MANNING:
    return argument_is_positive (channel->manning_n);
  case OPEN_CHANNEL_COLEBROOK:
    return argument_is_not_negative (channel->roughness_m) &&
           channel->roughness_m <= relative_roughness_max * channel->bore_m &&
           argument_is_positive (channel->kinematic_viscosity_m2s);
  case OPEN_CHANNEL_LAW_COUNT:
    break;
  }
  return false;
}

static double
colebrook_velocity (const OpenChannel *channel, double hydraulic_radius_m)
{
  double diameter_m = 4.0 * hydraulic_radius_m;
  double shear_m_s = sqrt (2.0 * GRAVITY_M_S2 * diameter_m * channel->slope);
  double viscous = diameter_m * shear_m_s / channel->kinematic_viscosity_m2s;
  double laminar_m_s = shear_m_s * viscous / 64.0;

  if (viscous < viscous_limit)
    return laminar_m_s;
  double roughness = fmin (channel->roughness_m / diameter_m, relative_roughness_max);
  double turbulent_m_s = -2.0 * shear_m_s * log10 (roughness / 3.7 + 2.51 / viscous);
  return fmin (laminar_m_s, turbulent_m_s);
}

static double
mean_velocity (const OpenChannel *channel, double hydraulic_radius_m)
{
  if (hydraulic_radius_m <= 0.0)
    return 0.0;
  if (channel->law == OPEN_CHANNEL_COLEBROOK)
    return colebrook_velocity (channel, hydraulic_radius_m);
  double root = cbrt (hydraulic_radius_m);
  return root * root * sqrt (channel->slope) / channel->manning_n;
}

static double
segment_flow (const OpenChannel *channel, double depth_ratio)
{
  Segment segment = wetted_segment (channel->bore_m, depth_ratio);

  return segment.area_m2 * mean_velocity (channel, segment.hydraulic_radius_m);
}

HydraulicsStatus
open_channel_flow (const OpenChannel *channel, double depth_ratio, double *ret_flow_m3s)
{
  if (!is_well_formed (channel) || !argument_is_share (depth_ratio))
    return HYDRAULICS_INVALID_ARGUMENT;
  return answer_if_finite (segment_flow (channel, depth_ratio), ret_flow_m3s);
}

HydraulicsStatus
open_channel_velocity (const OpenChannel *channel, double depth_ratio, double *ret_velocity_m_s)
{
  if (!is_well_formed (channel) || !argument_is_share (depth_ratio))
    return HYDRAULICS_INVALID_ARGUMENT;
  Segment segment = wetted_segment (channel->bore_m, depth_ratio);
  return answer_if_finite (mean_velocity (channel, segment.hydraulic_radius_m), ret_velocity_m_s);
}

/* Depth of the greatest flow, by golden section where the flow has its one hump. */
static double
fullest_depth (const OpenChannel *channel)
{
  const double golden = 0.6180339887498949;
  double low = 0.8, high = 1.0;
  double left = high - golden * (high - low), right = low + golden * (high - low);
  double at_left = segment_flow (channel, left), at_right = segment_flow (channel, right);

  while (high - low > 1e-9) {
    if (at_left < at_right) {
      low = left;
      left = right;
      at_left = at_right;
      right = low + golden * (high - low);
      at_right = segment_flow (channel, right);
    } else {
      high = right;
      right = left;
      at_right = at_left;
      left = high - golden * (high - low);
      at_left = segment_flow (channel, left);
    }
  }
  return 0.5 * (low + high);
}

static HydraulicsStatus
flow_relation (double depth_ratio, const void *data, double *ret_flow_m3s)
{
  return answer_if_finite (segment_flow (data, depth_ratio), ret_flow_m3s);
}

HydraulicsStatus
open_channel_depth (const OpenChannel *channel, double flow_m3s, double *ret_depth_ratio)
{
  if (!is_well_formed (channel) || !argument_is_not_negative (flow_m3s))
    return HYDRAULICS_INVALID_ARGUMENT;
  return bracket_invert (flow_relation, channel, flow_m3s, 0.0, fullest_depth (channel), ret_depth_ratio);
}

HydraulicsStatus
open_channel_capacity (const OpenChannel *channel, double *ret_flow_m3s, double *ret_depth_ratio)
{
  if (!is_well_formed (channel))
    return HYDRAULICS_INVALID_ARGUMENT;
  double depth_ratio = fullest_depth (channel);
  HydraulicsStatus status = answer_if_finite (segment_flow (channel, depth_ratio), ret_flow_m3s);
  if (status == HYDRAULICS_OK && ret_depth_ratio != NULL)
    *ret_depth_ratio = depth_ratio;
  return status;
}
