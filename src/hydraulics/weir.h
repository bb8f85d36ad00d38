/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Crests that water runs over: sharp, broad and thick ones, and combs (rows of teeth), free or drowned from
 * below. Heads are measured from the crest to the still surface upstream; the velocity of approach is not
 * added. A weir is a plain value; discharge and head are inverse to each other and grow together over the
 * whole range, from zero on.
 *
 * The formulas were tested at heads above 30 mm. Display tanks run at 5 to 20 mm: the number is then the
 * best there is, with the band of weir_head_band(); weir_caveats() says which limits of the tests it
 * leaves. */

#include <stdbool.h>

#include "hydraulics/status.h"

typedef enum {
  WEIR_KINDSVATER_CARTER, /* sharp crest, any contraction: take it unless there is a reason for another */
  WEIR_REHBOCK,           /* sharp crest over the full width of the channel */
  WEIR_FRANCIS,           /* sharp crest, 0 to 2 end contractions, deep approach */
  WEIR_BROAD_CREST,       /* critical flow on a long horizontal crest, coefficient given */
  WEIR_THICK_CREST,       /* square-edged plate: broad at small heads, sharp when the nappe springs clear */
  WEIR_COMB,              /* a row of teeth: equal openings between bars, open or closed above */
  WEIR_FORMULA_COUNT
} WeirFormula;

typedef struct {
  WeirFormula formula;
  double crest_length_m;  /* across the flow, bars of a comb included; > 0 */
  double channel_width_m; /* Kindsvater-Carter: width of the water in front of the crest, >= crest_length_m */
  double crest_height_m;  /* Kindsvater-Carter, Rehbock: crest over the floor in front of it, > 0 */
  int end_contractions;   /* Francis: 0, 1 or 2 */
  double discharge_coefficient; /* broad crest (0.848 square edge, 0.95 well rounded), comb (about 0.60) */
  double crest_thickness_m;     /* thick crest: along the flow, > 0 */
  double gap_m;                 /* comb: clear width of one opening, > 0 */
  double bar_m;                 /* comb: width of the bar between two openings, >= 0 */
  double opening_height_m;      /* comb: from crest (sill of the openings) to the top of the bars, > 0 */
  bool closed_above;    /* comb: a rail joins the bars at the top; the row becomes orifices and chokes */
  double covered_share; /* any: share of the crest or of every opening that is covered, 0 to 1 */
} Weir;

/* Coefficient of one opening of a comb: a sharp-edged slot in a plate (common practice, no source). */
#define WEIR_COMB_DISCHARGE_COEFFICIENT 0.60
/* Square-edged broad crest (Bos, Discharge measurement structures; ISO 3846). */
#define WEIR_BROAD_DISCHARGE_COEFFICIENT 0.848

/* Limits of the tests behind a formula that a head leaves; any number of them together. */
typedef enum {
  WEIR_CAVEAT_NONE = 0,
  WEIR_CAVEAT_LOW_HEAD = 1 << 0,         /* head below 30 mm */
  WEIR_CAVEAT_SHORT_CREST = 1 << 1,      /* crest shorter than 0.15 m */
  WEIR_CAVEAT_SHALLOW_APPROACH = 1 << 2, /* crest less than 0.1 m over the floor in front */
  WEIR_CAVEAT_HIGH_HEAD = 1 << 3, /* head over its published share of crest height, length or thickness */
  WEIR_CAVEAT_STILL = 1 << 4      /* head below 3 mm: surface tension may hold the water back altogether */
} WeirCaveats;

/**
 * weir_discharge:
 * @weir: any formula
 * @head_m: surface over the crest, upstream; 0 or more. 0 gives no flow
 * @head_below_m: surface over the crest, downstream (the overflow box); 0 or less is a free nappe. At most
 *   @head_m
 * @ret_flow_m3s: (out): flow, m3/s
 *
 * Kindsvater-Carter: Q = (2/3) sqrt(2g) (a + b h/P) (L + kb) (h + 0.001)^1.5, a, b, kb linear in L/B
 * between the printed values (ISO 1438; USBR Water Measurement Manual, chapter 7; L/B below 0.2 from memory
 * of Bos). Rehbock: (2/3) sqrt(2g) (0.602 + 0.083 h/P) L (h + 0.0012)^1.5. Francis: 3.33 (L - 0.1 n h)
 * h^1.5 in feet (USBR). Broad crest: Cd (2/3)^1.5 sqrt(g) L h^1.5 (Bos; ISO 3846), the head taken as total.
 * Thick crest: Hager & Schwalt 1994, 0.42 sqrt(2g) L h^1.5 (1 - (2/9)/(1 + (h/t)^4)), from memory; its ends
 * agree with the broad (0.848) and the sharp crest. The additions of 1 and 1.2 mm would let water flow at
 * no head: below 3 mm they go smoothly to zero. Comb: every horizontal strip flows under its own head, Cd b
 * sqrt(2 g (h - max (z, h_below))) dz, through the openings up to their top and, if open above, over the
 * whole length beyond it. Strips below both surfaces are a drowned orifice. Drowned crests other than
 * combs: Villemonte 1947, weir_submergence_ratio() with exponent 1.5. A covered share takes away length (of
 * openings, in a comb: bars that are overtopped stay open above).
 *
 * Returns: OK; OUT_OF_RANGE with a value where h/P is over 2.5 (the coefficient is then held) or, for
 *   Francis with end contractions, h over L/3 (the effective length is held from h = 3 L/n on), or h over
 *   1.5 times the thickness of a broad crest that gives one;
 *   OUT_OF_RANGE without a value if @head_below_m is over @head_m (water runs back: exchange the sides);
 *   INVALID_ARGUMENT for geometry that cannot be, negative or non-finite heads.
 */
HydraulicsStatus weir_discharge (const Weir *weir, double head_m, double head_below_m, double *ret_flow_m3s);

/**
 * weir_head:
 * @weir: any formula
 * @flow_m3s: 0 or more
 * @head_below_m: as in weir_discharge()
 * @ret_head_m: (out): surface over the crest upstream, m; at no flow the greater of 0 and @head_below_m
 *
 * The inverse of weir_discharge() by a bracketed root, to 1e-12 relative of the head.
 *
 * Returns: as weir_discharge() at the head found, value included; NO_SOLUTION if the weir passes nothing at
 *   any head (wholly covered); INVALID_ARGUMENT; OUT_OF_RANGE without a value above 1000 m of head.
 */
HydraulicsStatus weir_head (const Weir *weir, double flow_m3s, double head_below_m, double *ret_head_m);

/**
 * weir_caveats:
 * @weir: any formula
 * @head_m: head that was found or given
 * Returns: which limits of the published tests are left (ISO 1438 for sharp crests, Francis h <= L/3, broad
 *   crest h/t <= 0.33 if a thickness is given); the relation still answers, with more doubt
 */
WeirCaveats weir_caveats (const Weir *weir, double head_m);

/**
 * weir_head_band:
 * @head_m: computed head, m, 0 or more
 * @ret_low_m, @ret_high_m: (out): -10 % and +18 % of it, m: the scatter of the head at a given flow below
 *   30 mm (spread of the formulas themselves; common practice, no source). From 30 mm on the band narrows
 *   to the 3 % of ISO 1438 on the flow, 2 % on the head, over the next 30 mm.
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus weir_head_band (double head_m, double *ret_low_m, double *ret_high_m);

/**
 * weir_submergence_ratio:
 * @head_m, @head_below_m: surfaces over the crest, m; 0 <= @head_below_m <= @head_m, @head_m > 0
 * @exponent: of the free weir: 1.5 rectangular, 2.5 triangular
 * @ret_ratio: (out): share of the free flow at the same @head_m, 0 to 1: (1 - (h2/h1)^n)^0.385
 *
 * Villemonte 1947; EPA SWMM Reference Manual vol. II, Eq. 6-26.
 *
 * Returns: OK; OUT_OF_RANGE without a value if the water below stands higher; INVALID_ARGUMENT
 */
HydraulicsStatus weir_submergence_ratio (double head_m, double head_below_m, double exponent,
                                         double *ret_ratio);

/**
 * weir_opening_count:
 * @weir: a comb
 * @ret_count: (out): whole openings with a bar between each two that fit the crest length
 * Returns: OK; NO_SOLUTION if not even one fits; INVALID_ARGUMENT, also for a weir that is no comb
 */
HydraulicsStatus weir_opening_count (const Weir *weir, int *ret_count);

/**
 * weir_tilted_head:
 * @head_m: head over a level crest that carries the flow, m, 0 or more
 * @rise_m: how much higher one end of the crest lies than the other, m, 0 or more
 * @ret_head_m: (out): head over the middle of the tilted crest for the same flow, m; never more than
 *   @head_m, as the low end gains more than the high end loses. Over the low end there is @rise_m/2 more.
 *   While part of the crest is dry it may be negative
 *
 * The mean of h^1.5 along the crest is that of the level one (strips side by side).
 * Returns: OK or INVALID_ARGUMENT
 */
HydraulicsStatus weir_tilted_head (double head_m, double rise_m, double *ret_head_m);
