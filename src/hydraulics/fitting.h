/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Local losses: K of fittings, tees, valves, entrances, reducers, nozzles, screens and check valves; laying lengths for
 * cut lists; devices that have their own loss curve. Every K says on which velocity it stands. K scatters by +/-25 %
 * between makers (common practice, no source). Bores and lengths are m, flows m3/s, angles degrees, K has no unit.
 * All return HYDRAULICS_INVALID_ARGUMENT, and no output, for NaN, infinity, a bore not above 0 or a number that the part
 * cannot have; what else is said at each. */

#include "hydraulics/pipe.h"
#include "hydraulics/status.h"

#include <glib.h>

/* Fittings whose K is n f_T (Crane TP-410, resistance coefficients), on the velocity in their own bore.
 * X (member, key, n) */
#define FITTING_CRANE_KINDS(X)                                                                               \
  X (ELBOW_90, "elbow-90-standard", 30.0)                                                                    \
  X (ELBOW_45, "elbow-45-standard", 16.0)                                                                    \
  X (RETURN_BEND, "return-bend-close", 50.0)                                                                 \
  X (TEE_RUN, "tee-run", 20.0)                                                                               \
  X (TEE_BRANCH, "tee-branch", 60.0)                                                                         \
  X (GATE_VALVE, "gate-valve-open", 8.0)                                                                     \
  X (BALL_VALVE, "ball-valve-open", 3.0)                                                                     \
  X (GLOBE_VALVE, "globe-valve-open", 340.0)                                                                 \
  X (ANGLE_VALVE, "angle-valve-open", 150.0)                                                                 \
  X (BUTTERFLY_VALVE, "butterfly-valve-open", 45.0)                                                          \
  X (SWING_CHECK_ANGLED, "swing-check-angled", 100.0)                                                        \
  X (SWING_CHECK_STRAIGHT, "swing-check-straight", 50.0)                                                     \
  X (LIFT_CHECK_STRAIGHT, "lift-check-straight", 600.0)                                                      \
  X (LIFT_CHECK_ANGLED, "lift-check-angled", 55.0)                                                           \
  X (FOOT_VALVE_POPPET, "foot-valve-poppet", 420.0)                                                          \
  X (FOOT_VALVE_HINGED, "foot-valve-hinged", 75.0)

/* Fittings whose K does not depend on the size. X (member, key, k) */
#define FITTING_FIXED_KINDS(X)                                                                               \
  X (ENTRANCE_FLUSH, "entrance-flush", 0.5)            /* Crane TP-410 */                                    \
  X (ENTRANCE_PROJECTING, "entrance-projecting", 0.78) /* Crane TP-410 */                                    \
  X (EXIT, "exit", 1.0)                                /* Crane TP-410; the whole velocity head */           \
  X (UNION, "union", 0.08)                             /* common practice, no source */                      \
  X (COUPLING, "coupling", 0.08)                       /* common practice, no source */                      \
  X (BULKHEAD_STRAINER, "bulkhead-strainer", 1.5)      /* slotted strainer, clean: common practice */        \
  X (BULKHEAD_STRAINER_HALF, "bulkhead-strainer-half-covered", 3.0) /* common practice, no source */         \
  X (AQUARIUM_CHECK, "check-valve-plastic", 2.5) /* common practice; cracking head 0.05 m apart */

/* Fittings that need one more number. */
#define FITTING_SHAPED_KINDS(X)                                                                              \
  X (BEND_90, "bend-90")                   /* shape: bend radius to the axis / bore */                       \
  X (ENTRANCE_ROUNDED, "entrance-rounded") /* shape: edge radius / bore */                                   \
  X (USER, "user")                         /* shape: the K itself */

#define FITTING_MEMBER_3(member, key, number) FITTING_##member,
#define FITTING_MEMBER_2(member, key)         FITTING_##member,
typedef enum {
  FITTING_CRANE_KINDS (FITTING_MEMBER_3) FITTING_FIXED_KINDS (FITTING_MEMBER_3)
      FITTING_SHAPED_KINDS (FITTING_MEMBER_2) N_FITTING_KINDS
} FittingKind;
#undef FITTING_MEMBER_2
#undef FITTING_MEMBER_3

/* Head that opens a spring-loaded plastic check valve, m. Common practice, no source. */
#define FITTING_CHECK_CRACKING_HEAD_M 0.05

/* The kind of a key; HYDRAULICS_INVALID_ARGUMENT for another word. */
HydraulicsStatus fitting_kind_from_key (const char *key, FittingKind *ret_kind);

/* The key of a kind; NULL for a number outside the list. */
const char *fitting_kind_key (FittingKind kind);

/**
 * fitting_turbulent_friction:
 * @bore_m: 0.005 to 1
 * @ret_factor: (out): f_T, the fully rough friction factor of clean commercial steel pipe on which Crane TP-410 builds
 *   its K: the printed table of the editions before 2009 (0.027 at 1/2 in to 0.014 at 8 in) on straight lines over the
 *   bore of schedule 40; smaller and larger bores follow the rough-pipe law from its ends. The 2009 edition is up to
 *   0.001 lower; the older one is the careful side for a head loss. A plastic fitting has the same shape, so the same K.
 * Returns: HYDRAULICS_OUT_OF_RANGE (no output) outside the range
 */
HydraulicsStatus fitting_turbulent_friction (double bore_m, double *ret_factor);

/**
 * fitting_k:
 * @bore_m: bore of the pipe of its size, 0.005 to 1; ignored where K does not depend on the size
 * @shape: as FITTING_SHAPED_KINDS; ignored by other kinds
 * @ret_k: (out): on the velocity in @bore_m
 *
 * Crane TP-410: n f_T, with n of bends by r/d from 1 to 20 (20 at 1, 14 at 1.5, 12 at 2 and 3, 14 at 4, 17 at 6, 24 at
 * 8, 30 at 10, 34 at 12, 38 at 14, 42 at 16, 50 at 20; straight lines between). Rounded entrances by Crane's table: 0.5
 * at r/d 0, 0.28 at 0.02, 0.24 at 0.04, 0.15 at 0.06, 0.09 at 0.10, 0.04 from 0.15 on.
 * Returns: HYDRAULICS_INVALID_ARGUMENT for a negative or not finite value, HYDRAULICS_OUT_OF_RANGE (no output) for a
 *   bore or r/d outside the range
 */
HydraulicsStatus fitting_k (FittingKind kind, double bore_m, double shape, double *ret_k);

/**
 * fitting_k_by_nominal:
 * @nominal: inch size of schedule 40 pipe (ASTM D1785): 0.5, 0.75, 1 ...
 * @ret_k: (out): fitting_k() with the bore of that pipe
 * Returns: as fitting_k(); HYDRAULICS_OUT_OF_RANGE (no output) for a size that the standard has not
 */
HydraulicsStatus fitting_k_by_nominal (FittingKind kind, double nominal, double shape, double *ret_k);

/* fitting_rounded_entrance_k: fitting_k() of a flush entrance whose edge is rounded with @radius_m, on the velocity in
 * @bore_m. */
HydraulicsStatus fitting_rounded_entrance_k (double radius_m, double bore_m, double *ret_k);

/* f_T of the same sizes, see fitting_turbulent_friction(). */
HydraulicsStatus fitting_turbulent_friction_by_nominal (double nominal, double *ret_factor);

/**
 * fitting_k_on_bore:
 * @k: on the velocity in @bore_m
 * @ret_k: (out): the same loss on the velocity in @other_bore_m: K (other / bore)^4
 * Source: continuity: the velocity head goes with the inverse fourth power of the bore (Crane TP-410, Eq. 2-11).
 */
HydraulicsStatus fitting_k_on_bore (double k, double bore_m, double other_bore_m, double *ret_k);

/**
 * fitting_expansion_k:
 * @small_m: bore upstream; @large_m: bore downstream, not smaller
 * @ret_k: (out): sudden expansion on the velocity in the small bore, (1 - (d/D)^2)^2 (Borda-Carnot)
 * Returns: HYDRAULICS_INVALID_ARGUMENT also where the bores are exchanged
 */
HydraulicsStatus fitting_expansion_k (double small_m, double large_m, double *ret_k);

/* fitting_contraction_k: sudden contraction on the velocity in the small bore, 0.5 (1 - (d/D)^2) (Crane TP-410). */
HydraulicsStatus fitting_contraction_k (double large_m, double small_m, double *ret_k);

/**
 * fitting_reducer_k:
 * @from_m: bore upstream; @to_m: bore downstream
 * @cone_angle_deg: whole angle of the cone, 0 < angle <= 180; 180 is sudden
 * @ret_k: (out): on the velocity in the *small* bore, Crane TP-410 formulas 1 to 4: contraction 0.8 sin (a/2) (1 - b2)
 *   up to 45 degrees, 0.5 sqrt (sin (a/2)) (1 - b2) above; enlargement 2.6 sin (a/2) (1 - b2)^2 up to 45 degrees,
 *   (1 - b2)^2 above. b2 = (small / large)^2. 0 for equal bores.
 */
HydraulicsStatus fitting_reducer_k (double from_m, double to_m, double cone_angle_deg, double *ret_k);

/**
 * fitting_orifice_k:
 * @orifice_m: hole; @bore_m: pipe, larger than the hole
 * @discharge_coefficient: 0 < C <= 1; 0.61 for a sharp thin plate
 * @ret_k: (out): permanent loss on the pipe velocity, (sqrt (1 - b^4 (1 - C^2)) / (C b^2) - 1)^2 (ISO 5167-2)
 */
HydraulicsStatus fitting_orifice_k (double orifice_m, double bore_m, double discharge_coefficient,
                                    double *ret_k);

/**
 * fitting_nozzle_k:
 * @nozzle_m: mouth, not larger than @bore_m
 * @discharge_coefficient: 0 < C <= 1; 0.95 for a smooth taper, 0.6 for a plain hole
 * @ret_k: (out): loss of a nozzle that ends the pipe, *exit included*, on the velocity in the bore of the pipe:
 *   1 / (C b^2)^2 with b = nozzle / bore, from Q = C A sqrt (2 g H) with H the total head before the nozzle
 *   (definition of the discharge coefficient; Torricelli)
 */
HydraulicsStatus fitting_nozzle_k (double nozzle_m, double bore_m, double discharge_coefficient,
                                   double *ret_k);

/**
 * fitting_screen_k:
 * @open_fraction: open area / whole area of a perforated plate or grille, 0 < fraction <= 1
 * @ret_k: (out): on the approach velocity: ((0.707 sqrt (1 - s) + 1 - s) / s)^2 (Idelchik, Handbook of Hydraulic
 *   Resistance, thin perforated plate with sharp edges, turbulent; from memory)
 */
HydraulicsStatus fitting_screen_k (double open_fraction, double *ret_k);

/* Valves that can be set. */
typedef enum {
  VALVE_GATE,      /* opening: lift / full lift */
  VALVE_BALL,      /* quarter turn, as the plug cock; opening: 1 - closing angle / 90 degrees */
  VALVE_BUTTERFLY, /* as above */
  N_VALVE_KINDS
} ValveKind;

/**
 * valve_k_at_angle:
 * @kind: VALVE_BALL or VALVE_BUTTERFLY
 * @closing_angle_deg: 0 (open) to 90 (shut)
 * @ret_k: (out): Weisbach's table (Perry's Chemical Engineers' Handbook, additional frictional loss for valves),
 *   logarithm of K on straight lines between its angles, straight in K down to 0 below 5 degrees. Beyond its last angle
 *   (65 for the cock, 70 for the butterfly) K grows with the inverse square of the area that is left, a lens that
 *   vanishes at 82.5 degrees or a slit 1 - sin that vanishes at 90 (closed forms, joined with value; no source), and is
 *   INFINITY where it is shut.
 *   Handbooks spread by +/-25 %.
 */
HydraulicsStatus valve_k_at_angle (ValveKind kind, double closing_angle_deg, double *ret_k);

/**
 * valve_k:
 * @bore_m: of the pipe, for the K of the open valve, which is added as n f_T (fitting_k())
 * @opening: 0 (shut) to 1 (open)
 * @ret_k: (out): whole K on the velocity in the pipe, falling with @opening; INFINITY when shut, which a network takes
 *   as a shut link. Gate: Weisbach's table by eighths of lift (0.07 at 7/8, 0.26, 0.81, 2.06, 5.52, 17.0, 97.8 at 1/8).
 *   Other handbooks give twice as much at half lift: never turn it into turns of a handle.
 */
HydraulicsStatus valve_k (ValveKind kind, double bore_m, double opening, double *ret_k);

/**
 * valve_opening_for_k:
 * @k: wanted, > 0
 * @ret_opening: (out): the opening at which valve_k() gives it
 * Returns: HYDRAULICS_NO_SOLUTION if the open valve already has more
 */
HydraulicsStatus valve_opening_for_k (ValveKind kind, double bore_m, double k, double *ret_opening);

typedef enum {
  TEE_DIVERGING,  /* the combined flow comes in by one end of the run */
  TEE_CONVERGING, /* the combined flow goes out by one end of the run */
} TeeFlow;

typedef struct {
  double run_k;    /* from or to the straight leg */
  double branch_k; /* from or to the branch */
} TeeLoss;

/**
 * tee_k:
 * @run_m: bore of the run, on both sides; @branch_m: bore of the branch, not larger than twice @run_m
 * @run_flow_m3s: flow in the straight leg that is not the combined one, >= 0
 * @branch_flow_m3s: flow in the branch, >= 0; their sum > 0
 * @angle_deg: between branch and run, 30 to 90
 * @ret_loss: (out): both on the velocity of the *combined* flow in the run; negative values are right (the faster stream
 *   drags the slower)
 *
 * Crane TP-410 (2009, with errata), equations for tees and wyes, as printed, but for the jumps in their factors C and G
 * (2 to 6 %, where branch / combined flow is 0.4 or 0.6): just above those the new value is reached over 0.01 of the
 * share, so that K is continuous.
 * Returns: HYDRAULICS_INVALID_ARGUMENT, or HYDRAULICS_OUT_OF_RANGE (no output) for the angle
 */
HydraulicsStatus tee_k (TeeFlow flow, double run_m, double branch_m, double run_flow_m3s,
                        double branch_flow_m3s, double angle_deg, TeeLoss *ret_loss);

/* Shapes for which standards give a laying length. */
typedef enum {
  LAYING_ELBOW_90, /* centre of the crossing axes to the bottom of the socket; the same for each end of a tee */
  LAYING_ELBOW_45,
  LAYING_COUPLING, /* between the bottoms of its two sockets */
  N_LAYING_SHAPES
} LayingShape;

/**
 * fitting_laying_length:
 * @series: which standard
 * @nominal: inch or mm as in PipeDimensions
 * @ret_length_m: (out): least laying length, m: what to take off the axis length for a pipe that goes to the bottom of
 *   its socket
 *
 * EN ISO 1452-3 (ISO 264 series): 0.5 d + 1 mm for 90 degree elbows and tees, about 0.207 d + 1 mm for 45 degrees, 3 mm
 * for couplings (from memory). ASTM D2466 and D2467, minimum G, J and N (from memory). Makers' fittings are longer by up
 * to several millimetres: measure the part in hand before cutting.
 * Returns: HYDRAULICS_OUT_OF_RANGE (no output) if the standard has no such size
 */
HydraulicsStatus fitting_laying_length (SocketSeries series, LayingShape shape, double nominal,
                                        double *ret_length_m);

/* Most points of a loss curve. */
#define LOSS_POINTS_MAX 16

/* Loss of a device by points (a reactor, steriliser or chiller as its maker states it). A plain value. */
typedef struct {
  guint n_points; /* with the origin, which is always the first */
  double flow_m3s[LOSS_POINTS_MAX];
  double head_m[LOSS_POINTS_MAX];
  double slope_sm2[LOSS_POINTS_MAX];
} LossCurve;

/**
 * loss_curve_from_points:
 * @n_points: 1 to LOSS_POINTS_MAX - 1
 * @flow_m3s: > 0, strictly rising
 * @head_m: > 0, strictly rising
 * @ret_curve: (out): monotone piecewise cubic from the origin through the points; a single point gives the parabola
 */
HydraulicsStatus loss_curve_from_points (guint n_points, const double *flow_m3s, const double *head_m,
                                         LossCurve *ret_curve);

/**
 * loss_curve_head:
 * @flow_m3s: of either sign; the curve is odd
 * @ret_head_m: (out): loss; @ret_slope_sm2: (out): d loss / d flow, >= 0
 *
 * Beyond the last point it goes on with value and slope and the curvature of the parabola through origin and last point.
 * Returns: HYDRAULICS_OUT_OF_RANGE beyond the last point, with the outputs given all the same
 */
HydraulicsStatus loss_curve_head (const LossCurve *curve, double flow_m3s, double *ret_head_m,
                                  double *ret_slope_sm2);
