/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* A full siphon: how far its valve must be closed, what keeps it primed, whether it starts, how little it
 * regulates itself; screens before a mouth; and the siphon box that hangs over the edge of a tank without
 * holes. */

#include <stdbool.h>

#include "hydraulics/drain.h"
#include "hydraulics/fitting.h"

/**
 * siphon_valve_coefficient:
 * @pipe: the pipe without the valve: the k of its run holds everything else
 * @water: its water
 * @box_level_m: wanted box level; the fall is counted from here to the pipe's end level
 * @flow_m3s: wanted flow, > 0
 * @ret_coefficient: (out): K on the velocity head in the bore that the valve must add, 0 or more
 * Returns: OK; NO_SOLUTION if the open pipe carries less than the flow at this level; INVALID_ARGUMENT
 */
HydraulicsStatus siphon_valve_coefficient (const DrainPipe *pipe, const Fluid *water, double box_level_m,
                                           double flow_m3s, double *ret_coefficient);

/**
 * siphon_valve_opening:
 * @pipe, @water, @box_level_m, @flow_m3s: as in siphon_valve_coefficient()
 * @valve: what kind of valve stands in the run, of its bore
 * @ret_opening: (out): the opening, more than 0 to 1, at which the box stands at the wanted level, by
 *   valve_opening_for_k(). A first setting to tune from, never turns of a handle
 * Returns: OK; NO_SOLUTION if the pipe with its valve open carries less than the flow at this level;
 *   INVALID_ARGUMENT
 */
HydraulicsStatus siphon_valve_opening (const DrainPipe *pipe, const Fluid *water, double box_level_m,
                                       double flow_m3s, ValveKind valve, double *ret_opening);

/**
 * siphon_pressure_head:
 * @above: the part of the pipe from the mouth down to a point, its k without the exit
 * @water: its water
 * @box_level_m: box level, m
 * @point_level_m: the point, over the same datum: just above the valve, or the crown
 * @flow_m3s: 0 or more
 * @ret_head_m: (out): gauge pressure there as a head of the water: fall from the box less what was lost on
 *   the way and the velocity head. Negative: suction, which draws air at every leak and frees dissolved gas;
 *   a valve that sits low keeps it positive
 * Returns: OK; INVALID_ARGUMENT; as pipe_loss()
 */
HydraulicsStatus siphon_pressure_head (const PipeRun *above, const Fluid *water, double box_level_m,
                                       double point_level_m, double flow_m3s, double *ret_head_m);

/**
 * siphon_mouth_cover:
 * @diameter_m: of the mouth, > 0
 * @flow_m3s: 0 or more
 * @ret_cover_m: (out): water needed over the mouth so that it draws no air: D sqrt(Fr/1.6), Fr = 4Q/(pi D^2
 *   sqrt(g D))
 *
 * McDuffie 1977, from memory. Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus siphon_mouth_cover (double diameter_m, double flow_m3s, double *ret_cover_m);

/**
 * siphon_mouth_flow:
 * The inverse of siphon_mouth_cover(): the flow that @cover_m, 0 or more, admits without air.
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus siphon_mouth_flow (double diameter_m, double cover_m, double *ret_flow_m3s);

typedef struct {
  double bore_m;               /* > 0 */
  double starting_flow_m3s;    /* what the pipe carries while it still has to sweep its air out */
  double crown_level_m;        /* highest point of the siphon's inside: air must be pushed down from here */
  double spill_level_m;        /* highest box level while it primes: the lip of the emergency drain */
  double outlet_level_m;       /* mouth of the lower end */
  double sump_level_at_rest_m; /* surface over that end after drain-back, when the pump starts again */
} SiphonStart;

typedef struct {
  double froude;           /* full-bore Froude number of the starting flow */
  bool clears_air;         /* it is at least QUIET_CLEARING_FROUDE */
  double outlet_depth_m;   /* of the outlet below the surface at rest; 0 if it ends above it */
  double driving_height_m; /* from crown to spill level: all that can push the air out */
  double margin_m;         /* driving height less outlet depth */
  bool may_start;          /* the margin is positive */
} SiphonStarting;

/**
 * siphon_starting:
 * @start: the siphon when the pump comes back
 * @ret_starting: (out): does it push its air past the outlet, and does the flow sweep it along
 *
 * Two separate conditions: pressed water must outweigh the outlet's depth, or the air stays caught; and the
 * full-bore Froude number of about 1 (Hills 1983) at which bubbles are carried down. Without the second it
 * may still clear slowly through its mouth.
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus siphon_starting (const SiphonStart *start, SiphonStarting *ret_starting);

/**
 * siphon_tolerated_drift:
 * @fall_m: H, from box level to end level, > 0
 * @level_play_m: dz, how far the box level may move, 0 or more
 * @ret_share: (out): dQ/Q = dz/(2H): the change of flow that the siphon takes up by itself
 *
 * From Q ~ sqrt(H), constant friction factor. Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus siphon_tolerated_drift (double fall_m, double level_play_m, double *ret_share);

typedef struct {
  double area_m2;       /* whole face of the strainer, > 0 */
  double open_fraction; /* holes or slots over the whole face, clean, more than 0, at most 1 */
  double blocked_share; /* of the holes, 0 clean to 1 wholly covered */
} SiphonScreen;

/**
 * siphon_screen_coefficient:
 * @screen: strainer before the mouth
 * @bore_m: pipe whose velocity head the result belongs to, > 0
 * @ret_coefficient: (out): K to add: fitting_screen_k() of what is left open, brought from the velocity in
 *   front of the screen to that in the pipe
 * Returns: OK; NO_SOLUTION if wholly blocked; INVALID_ARGUMENT
 */
HydraulicsStatus siphon_screen_coefficient (const SiphonScreen *screen, double bore_m,
                                            double *ret_coefficient);

/* A siphon box that hangs over the rim: tubes carry water from an inner chamber, which the display fills
 * over its crest, to an outer one, which the drain empties. Without prime it carries nothing: such a box is
 * never safe by its capacity, it must pass with the prime lost. */
typedef struct {
  DrainPipe tube;       /* one tube, both ends drowned; mouth_level_m and end_level_m are its two open ends */
  unsigned n_tubes;     /* 1 or more, equal */
  double crown_level_m; /* highest point inside, above both ends */
  double inner_rest_level_m; /* surface in the inner chamber after the pump stops: the lip that holds it */
  double outer_rest_level_m; /* the same of the outer chamber: its drain's lip, or the weir in it */
} HangOverBox;

typedef struct {
  double level_difference_m; /* inner less outer surface at the flow */
  double inner_level_m;      /* inner surface that the flow needs */
  double froude;             /* full-bore, in one tube: below about 1 bubbles gather in the crown */
  bool sweeps_bubbles;
  double rest_cover_m;      /* least cover of the two ends at rest */
  bool keeps_prime_at_rest; /* both ends stay covered: it restarts by itself if the crown is tight */
  double crown_suction_m;   /* crown over the inner surface: suction that draws in air at any leak */
} HangOverState;

/**
 * hang_over_state:
 * @box: the box
 * @water: its water
 * @flow_m3s: through all tubes together, 0 or more
 * @outer_level_m: running surface of the outer chamber
 * @ret_state: (out): the two levels, and what the prime depends on
 *
 * Darcy-Weisbach through each tube with its share (pipe_loss()), Froude number as in quiet.h, hydrostatics at rest.
 * Returns: OK; NO_SOLUTION if the crown would lie below the inner surface (no siphon) or an end uncovered;
 *   INVALID_ARGUMENT
 */
HydraulicsStatus hang_over_state (const HangOverBox *box, const Fluid *water, double flow_m3s,
                                  double outer_level_m, HangOverState *ret_state);
