/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Uniform flow in a part-full circular pipe on a slope: flow at a depth, depth at a flow, capacity, by
 * Manning's formula or by Colebrook-White for plastic, whose roughness Manning's n knows only roughly. */

#include "hydraulics/status.h"

typedef enum { OPEN_CHANNEL_MANNING, OPEN_CHANNEL_COLEBROOK, OPEN_CHANNEL_LAW_COUNT } OpenChannelLaw;

typedef struct {
  double bore_m; /* > 0 */
  double slope;  /* fall over length of pipe, > 0, at most 1 */
  OpenChannelLaw law;
  double manning_n;               /* Manning: s/m^(1/3), > 0 */
  double roughness_m;             /* Colebrook: 0 to 0.05 bore */
  double kinematic_viscosity_m2s; /* Colebrook: > 0 */
} OpenChannel;

/**
 * open_channel_flow:
 * @channel: the pipe
 * @depth_ratio: depth over bore, 0 to 1
 * @ret_flow_m3s: (out): A V of the wetted segment of hydraulic radius R. Manning: V = R^(2/3) sqrt(S)/n.
 *   Colebrook-White with 4R for the diameter: V = -2 sqrt(8 g R S) log10 (k/(14.8 R) + 2.51 nu/(4 R
 *   sqrt(8 g R S))), or the laminar g S R^2/(2 nu) where that is less; k/4R is held at 0.05 in films thinner
 *   than the data
 *
 * At 1 the pipe is full; the greatest flow stands at about 0.94. Uniform flow only: a short run has not
 * reached it.
 * Returns: OK; INVALID_ARGUMENT
 */
HydraulicsStatus open_channel_flow (const OpenChannel *channel, double depth_ratio, double *ret_flow_m3s);

/**
 * open_channel_velocity:
 * As open_channel_flow(): @ret_velocity_m_s, mean over the wetted segment; 0 at no depth.
 * Returns: OK; INVALID_ARGUMENT
 */
HydraulicsStatus open_channel_velocity (const OpenChannel *channel, double depth_ratio,
                                        double *ret_velocity_m_s);

/**
 * open_channel_depth:
 * @channel: the pipe
 * @flow_m3s: 0 or more
 * @ret_depth_ratio: (out): depth over bore, the lower of the two roots
 * Returns: OK; NO_SOLUTION above the capacity: the pipe runs full under pressure; INVALID_ARGUMENT;
 *   NOT_CONVERGED
 */
HydraulicsStatus open_channel_depth (const OpenChannel *channel, double flow_m3s, double *ret_depth_ratio);

/**
 * open_channel_capacity:
 * @channel: the pipe
 * @ret_flow_m3s: (out): the greatest part-full flow
 * @ret_depth_ratio: (out) (nullable): depth over bore at which it stands, 0.938 for Manning
 * Returns: OK; INVALID_ARGUMENT
 */
HydraulicsStatus open_channel_capacity (const OpenChannel *channel, double *ret_flow_m3s,
                                        double *ret_depth_ratio);
