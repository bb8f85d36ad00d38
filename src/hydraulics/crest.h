/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Two pieces that weirs, combs, slots and notches share. Arguments are not checked. */

/* No crest or notch of the trade is known to run free below this head, m (common practice, no source). */
#define CREST_STILL_HEAD_M 0.003

/* Search for a head ends here, m: more is a slip of the caller. */
#define CREST_HEAD_MAX_M 1000.0

/**
 * crest_effective_head:
 * @head_m: 0 or more
 * @addition_m: what viscosity and surface tension add to the head in the formulas of Kindsvater and
 *   Rehbock; above -0.002
 * Returns: head + addition from CREST_STILL_HEAD_M on; below, the addition goes to zero by 3t^2 - 2t^3 with
 *   the head, so that no head gives no flow. Grows with the head, once continuously differentiable
 */
double crest_effective_head (double head_m, double addition_m);

/**
 * crest_strips:
 * @head_m, @head_below_m: surfaces over a datum, upstream and downstream, m; the upstream one is not the
 *   lower
 * @bottom_m, @top_m: of an opening over the same datum, m; bottom <= top, which may be INFINITY
 * Returns: the integral of sqrt (head - max (z, head_below)) dz over the wetted opening, m^1.5: horizontal
 *   strips, each under its own head where the nappe is free, and under the difference of levels where it is
 *   drowned. Times Cd b sqrt(2g) it is a flow
 */
double crest_strips (double head_m, double head_below_m, double bottom_m, double top_m);
