/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Flow against the volume it passes: turnover, retention, and the bucket test that measures a flow.
 * HYDRAULICS_INVALID_ARGUMENT for NaN, infinity, a negative value, or 0 in a divisor. */

#include "hydraulics/status.h"

/**
 * turnover_rate:
 * @flow_m3s: 0 or more
 * @volume_m3: of the vessel, above 0
 * @ret_turnover_per_h: (out): 3600 Q/V, volumes moved in an hour; one turnover does not exchange all the water
 * Source: definition, common practice.
 */
HydraulicsStatus turnover_rate (double flow_m3s, double volume_m3, double *ret_turnover_per_h);

/**
 * turnover_flow:
 * @turnover_per_h: 0 or more
 * @volume_m3: of the vessel, 0 or more
 * @ret_flow_m3s: (out): the inverse of turnover_rate()
 * Source: definition.
 */
HydraulicsStatus turnover_flow (double turnover_per_h, double volume_m3, double *ret_flow_m3s);

/**
 * turnover_retention_time:
 * @volume_m3: of the chamber, 0 or more
 * @flow_m3s: through it, above 0
 * @ret_time_s: (out): V/Q, the mean: some of the water passes sooner
 * Source: definition.
 */
HydraulicsStatus turnover_retention_time (double volume_m3, double flow_m3s, double *ret_time_s);

/**
 * turnover_bucket_flow:
 * @volume_m3: of the vessel filled, 0 or more
 * @time_s: that it took, above 0; reading the watch to 0.5 s is the real uncertainty
 * @ret_flow_m3s: (out): volume over time
 * Source: the volumetric method, ISO 4185 in principle.
 */
HydraulicsStatus turnover_bucket_flow (double volume_m3, double time_s, double *ret_flow_m3s);
