/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Is an unprimed drain quiet? The least of three limits: air can rise against the water (self-venting), the
 * water in the stack stays a film on the wall (annular flow), and each sloped run stays part full. Noise is
 * a matter of comfort, never of safety: this is not a capacity. */

#include "hydraulics/status.h"

/* Hills, "Designing piping for gravity flow", Chem. Eng., 5 Sept 1983, on the superficial (full-bore)
 * velocity: self-venting below 0.3, air entrained between 0.3 and 1, air swept along above 1. */
#define QUIET_SELF_VENTING_FROUDE 0.3
#define QUIET_CLEARING_FROUDE     1.0
/* Part of a stack's section that water may take: 1/4 (cautious) to 1/3 (Wyly & Eaton, NBS Monograph 31,
 * 1961). */
#define QUIET_STACK_FILL 0.25

typedef enum {
  QUIET_FROUDE_SUPERFICIAL, /* 4Q / (pi D^2 sqrt(g D)), the one that the borders above belong to */
  QUIET_FROUDE_J_STAR, /* Q / (sqrt(g) D^2.5), by pi/4 smaller; 0.3 in it allows 27 % more than the source */
  QUIET_FROUDE_BASIS_COUNT
} QuietFroudeBasis;

/**
 * quiet_froude_number:
 * @bore_m: > 0
 * @flow_m3s: 0 or more
 * @ret_froude: (out): 4Q / (pi D^2 sqrt(g D)), on the superficial velocity (Hills 1983)
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus quiet_froude_number (double bore_m, double flow_m3s, double *ret_froude);

/**
 * quiet_self_venting_flow:
 * @bore_m: > 0
 * @number, @basis: Froude number, 0 or more, and how it is made
 * @ret_flow_m3s: (out): the flow that has it
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus quiet_self_venting_flow (double bore_m, double number, QuietFroudeBasis basis,
                                          double *ret_flow_m3s);

/**
 * quiet_self_venting_diameter:
 * @flow_m3s: 0 or more
 * @froude: on the superficial velocity, > 0
 * @ret_bore_m: (out): the bore in which the flow has it
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus quiet_self_venting_diameter (double flow_m3s, double froude, double *ret_bore_m);

/**
 * quiet_stack_flow:
 * @bore_m: > 0
 * @fill_ratio: part of the section that is water, 0 to 1/3
 * @ret_flow_m3s: (out): 27.8 r^(5/3) D^(8/3) in US gallons a minute and inches: a film at terminal velocity
 *
 * Wyly & Eaton, NBS Monograph 31 (1961). Derived for stacks of 75 mm and more, tall enough to reach
 * terminal velocity.
 * Returns: OK; OUT_OF_RANGE with a value for a fill over 1/3, where plugs form; INVALID_ARGUMENT
 */
HydraulicsStatus quiet_stack_flow (double bore_m, double fill_ratio, double *ret_flow_m3s);

typedef struct {
  double bore_m;
  double slope;       /* fall over length, > 0 */
  double manning_n;   /* 0.009 for smooth plastic */
  double depth_ratio; /* depth over bore that is allowed, more than 0, at most 1 */
} QuietSlopedRun;

typedef enum {
  QUIET_LIMIT_SELF_VENTING,
  QUIET_LIMIT_STACK,
  QUIET_LIMIT_SLOPED_RUN,
  QUIET_LIMIT_COUNT
} QuietLimitKind;

typedef struct {
  double flow_m3s;         /* the least of all */
  QuietLimitKind kind;     /* which one that is; the first named at equal flows */
  unsigned run;            /* with QUIET_LIMIT_SLOPED_RUN: which run, else 0 */
  double self_venting_m3s; /* at QUIET_SELF_VENTING_FROUDE */
  double stack_m3s;
  double sloped_m3s; /* the least of the sloped runs; infinite without any */
} QuietLimit;

/**
 * quiet_limit:
 * @bore_m: narrowest bore of the vertical part, > 0
 * @stack_fill: as in quiet_stack_flow(), more than 0, at most 1/3; QUIET_STACK_FILL unless there is a reason
 * @runs, @n_runs: part-full sloped runs, or NULL and 0
 * @ret_limit: (out): the quiet limit, and what it is made of
 * Returns: OK; INVALID_ARGUMENT
 */
HydraulicsStatus quiet_limit (double bore_m, double stack_fill, const QuietSlopedRun *runs, unsigned n_runs,
                              QuietLimit *ret_limit);
