/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* How much one drain pipe, or several that share an overflow box, carry at a box level, and the level that
 * a flow needs.
 *
 * Unprimed and primed are different questions and never mixed: an unprimed pipe takes water over its lip as
 * a round weir, then as an orifice, and full bore at last when friction or a valve holds it back; a primed
 * one is full of water from the mouth to the end and is driven by the whole fall. Whether a drain is quiet
 * is asked in quiet.h, how a siphon is set, starts and stays primed in siphon.h.
 *
 * All levels are heights over one datum of the caller, m. */

#include <stdbool.h>

#include "hydraulics/pipe.h"
#include "hydraulics/status.h"

typedef struct {
  double mouth_level_m;    /* lip of the standpipe, or top of a mouth that lies on its side */
  double mouth_diameter_m; /* inside diameter at the lip, > 0; the bore unless there is a funnel */
  double end_level_m;      /* surface that drowns the lower end, else the centre of the free end */
  PipeRun run;             /* mouth to end; its k holds entrance, screen, fittings, valve and exit (1.0) */
  double mouth_factor;     /* on what the lip takes unprimed at a head, > 0; 0 is 1 */
} DrainPipe;

typedef enum {
  DRAIN_DRY,      /* box level at or below the lip */
  DRAIN_LIP_WEIR, /* round weir over the lip */
  DRAIN_ORIFICE,  /* mouth flooded, the mouth is the narrow place */
  DRAIN_FULL,     /* full bore: friction, fittings and valve are the narrow place */
  DRAIN_GULPING,  /* primed, but the mouth's cover is only just enough: it draws air at times and is loud */
  DRAIN_REGIME_COUNT
} DrainRegime;

/* Head over the lip, in diameters of the mouth, up to which a lip flows as a weir: 0.60/(4 x 0.414), where
 * both relations give the same flow; the source prints 0.362. */
#define DRAIN_LIP_JOINT (0.60 / (4.0 * 0.414))
/* Cover over the mouth, in diameters, that must be had below every rim for a primed capacity to count
 * (common practice). */
#define DRAIN_PRIMING_COVER 1.5

/**
 * drain_lip_flow:
 * @diameter_m: inside diameter of the mouth, > 0
 * @head_m: box level over the lip, 0 or more
 * @ret_flow_m3s: (out): 0.414 sqrt(2g) pi D h^1.5 up to h = DRAIN_LIP_JOINT D, 0.60 A sqrt(2 g h) above
 *
 * Round bottom orifice, EPA SWMM Reference Manual vol. II. Least certain below 50 mm bore.
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus drain_lip_flow (double diameter_m, double head_m, double *ret_flow_m3s);

/**
 * drain_lip_head:
 * The inverse of drain_lip_flow(), in closed form: @ret_head_m for @flow_m3s, 0 or more.
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus drain_lip_head (double diameter_m, double flow_m3s, double *ret_head_m);

/**
 * drain_flow:
 * @pipe: the pipe
 * @water: its water
 * @primed: FALSE: the least of lip weir or orifice at the box level over the lip, and full bore
 *   from box level to end (pipe_flow_at_loss()).
 *   TRUE: the least of full bore and the flow that the cover of the mouth admits without air,
 *   Fr = 1.6 (cover/D)^2 with the mouth's diameter (siphon_mouth_cover()); where the cover governs, the
 *   regime says DRAIN_GULPING: the level then hovers there, the mean flow being what comes in
 * @box_level_m: the level that the capacity belongs to
 * @ret_flow_m3s: (out): never falls as the level rises and is continuous; 0 at or below the lip
 * @ret_regime: (out) (nullable): what governs
 *
 * A box level not above the end level gives no flow, whatever stands over the lip: nothing drives it.
 * Returns: OK; INVALID_ARGUMENT; NOT_CONVERGED; OUT_OF_RANGE without a value for a pipe too rough for
 *   pipe_loss()
 */
HydraulicsStatus drain_flow (const DrainPipe *pipe, const Fluid *water, bool primed, double box_level_m,
                             double *ret_flow_m3s, DrainRegime *ret_regime);

/**
 * drain_level:
 * @pipe, @water, @primed: as in drain_flow()
 * @flow_m3s: 0 or more; 0 gives the lip, or the end if that is higher
 * @ret_level_m: (out): the box level that the flow needs: the highest that one of the limits asks for
 * @ret_regime: (out) (nullable): which one
 *
 * The exact inverse of drain_flow(). Continuous: a relative step of 1e-6 in flow moves it by less than 1e-4
 * of the head over the lip, except where a throttled pipe turns from lip to full bore, where the level
 * changes steeply but without a jump.
 * Returns: as drain_flow()
 */
HydraulicsStatus drain_level (const DrainPipe *pipe, const Fluid *water, bool primed, double flow_m3s,
                              double *ret_level_m, DrainRegime *ret_regime);

/**
 * drain_priming_level:
 * @pipe: the pipe
 * @ret_level_m: (out): mouth + DRAIN_PRIMING_COVER x mouth diameter (common practice, no source): a primed capacity counts only if this
 *   lies below every rim and lip that would spill before
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus drain_priming_level (const DrainPipe *pipe, double *ret_level_m);

/* Several pipes in one box. */
#define DRAIN_BRANCHES_MAX 8

typedef struct {
  DrainPipe pipe;
  bool primed;
  bool shut; /* plugged or its valve closed: carries nothing, its geometry is not looked at */
} DrainBranch;

typedef struct {
  double total_m3s;
  double share_m3s[DRAIN_BRANCHES_MAX]; /* per branch, in their order; their sum is total_m3s */
  DrainRegime regime[DRAIN_BRANCHES_MAX];
} DrainShares;

/**
 * drain_branches_flow:
 * @branches, @n_branches: 1 to DRAIN_BRANCHES_MAX pipes of one box
 * @water: their water
 * @box_level_m: common level
 * @ret_shares: (out): what each and all carry at this level, each by drain_flow()
 * Returns: OK; INVALID_ARGUMENT; TOO_LARGE for more branches than that; NOT_CONVERGED
 */
HydraulicsStatus drain_branches_flow (const DrainBranch *branches, unsigned n_branches, const Fluid *water,
                                      double box_level_m, DrainShares *ret_shares);

/**
 * drain_branches_level:
 * @branches, @n_branches, @water: as in drain_branches_flow()
 * @flow_m3s: what all carry together, 0 or more
 * @near_m: where the level is looked for first, as one that a little other flow had; not finite: nothing is known
 * @ret_level_m: (out): the common box level, by a bracketed root to the
 *   spacing of doubles; at no flow the lowest level at
 *   which any pipe begins to run
 * @ret_shares: (out) (nullable): what each carries; total_m3s is @flow_m3s to 1e-9 relative
 *
 * Returns: as drain_branches_flow(); NO_SOLUTION if every branch is shut
 */
HydraulicsStatus drain_branches_level (const DrainBranch *branches, unsigned n_branches, const Fluid *water,
                                       double flow_m3s, double near_m, double *ret_level_m,
                                       DrainShares *ret_shares);
