/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Pumps: the head curve and its slope, speed, power, pumps side by side and in a row, the operating point on one loop,
 * NPSH and acceptance grades. Heads are in metres of the fluid pumped. A curve is a plain value without pointers: it is
 * copied by assignment. */

#include "hydraulics/pipe.h"
#include "hydraulics/status.h"

#include <stdbool.h>

/* Most points of one curve. */
#define PUMP_POINTS_MAX 16

/* Range of the affinity laws as a ratio to the speed of the curve: below it the efficiency falls away and small motors
 * stall, above it the motor is overloaded. Common practice, no source. A controller's per cent is not this ratio unless
 * its maker says that it is speed. */
#define PUMP_SPEED_MIN 0.3
#define PUMP_SPEED_MAX 1.2

typedef enum {
  PUMP_CURVE_POINTS,    /* monotone piecewise cubic through given points */
  PUMP_CURVE_POWER_LAW, /* H = A - B Q^C */
  PUMP_CURVE_ESTIMATE, /* H = A (1 - (Q / Q0)^2) from shut-off head and largest flow alone: an estimate, say so */
} PumpCurveKind;

typedef struct {
  PumpCurveKind kind;
  guint n_points;                    /* of a curve by points, 2 to 16; else 0 */
  double flow_m3s[PUMP_POINTS_MAX];  /* rising */
  double head_m[PUMP_POINTS_MAX];    /* not rising */
  double slope_sm2[PUMP_POINTS_MAX]; /* d head / d flow at the points, <= 0 */
  double a, b, c;                    /* of the power law: m, m / (m3/s)^C, - */
  double flow_at_end_m3s;            /* last point, or where the power law meets zero head */
} PumpCurve;

/* Where a flow stands on the curve. */
typedef enum {
  PUMP_ON_CURVE,
  PUMP_BELOW_CURVE, /* less than the first flow of a curve by points (or driven backwards): head is extended */
  PUMP_BEYOND_CURVE, /* more than the last flow: head is extended, the pump would run out */
} PumpRange;

typedef struct {
  double head_m;    /* gained from suction to delivery; may be negative beyond the curve's end */
  double slope_sm2; /* d head / d flow, s/m2, <= 0 */
  PumpRange range;
} PumpHead;

/**
 * pump_curve_from_points:
 * @n_points: 2 to PUMP_POINTS_MAX
 * @flow_m3s: strictly rising, the first >= 0
 * @head_m: not rising, at least one fall, the first > 0, none negative
 * @ret_curve: (out): monotone piecewise cubic (PCHIP) through the points: Fritsch and Carlson 1980 with the
 *   weighted harmonic mean of Fritsch and Butland 1984 inside and the shape-preserving three-point formula at the ends
 *   (as in SLATEC PCHIP and SciPy's PchipInterpolator)
 * Returns: HYDRAULICS_INVALID_ARGUMENT for anything else; a curve that rises with flow is unstable and is refused
 */
HydraulicsStatus pump_curve_from_points (guint n_points, const double *flow_m3s, const double *head_m,
                                         PumpCurve *ret_curve);

/**
 * pump_curve_from_power_law:
 * @a: shut-off head, m, > 0
 * @b: > 0
 * @c: 0.5 to 5
 * @ret_curve: (out): H = A - B Q^C
 * Returns: HYDRAULICS_INVALID_ARGUMENT for anything else
 */
HydraulicsStatus pump_curve_from_power_law (double a, double b, double c, PumpCurve *ret_curve);

/**
 * pump_curve_from_three_points:
 * @flow_m3s: three flows, the first 0, strictly rising
 * @head_m: three heads, strictly falling, the last >= 0
 * @ret_curve: (out): H = A - B Q^C through the three points: A = H0, C = ln ((H0 - H1) / (H0 - H2)) / ln (Q1 / Q2),
 *   B = (H0 - H1) / Q1^C (closed form)
 * Returns: HYDRAULICS_INVALID_ARGUMENT for other data, HYDRAULICS_OUT_OF_RANGE if C would leave 0.5 to 5
 */
HydraulicsStatus pump_curve_from_three_points (const double flow_m3s[3], const double head_m[3],
                                               PumpCurve *ret_curve);

/**
 * pump_curve_estimate:
 * @shutoff_head_m: > 0
 * @largest_flow_m3s: flow at zero head, > 0
 * @ret_curve: (out): parabola through both, kind PUMP_CURVE_ESTIMATE. Common practice, no source: two numbers do not
 *   give a curve, and whoever shows a result of it says "estimate".
 * Returns: HYDRAULICS_INVALID_ARGUMENT for anything else
 */
HydraulicsStatus pump_curve_estimate (double shutoff_head_m, double largest_flow_m3s, PumpCurve *ret_curve);

/**
 * pump_head:
 * @curve: a curve made by one of the functions above
 * @speed: ratio to the speed of the curve: PUMP_SPEED_MIN to PUMP_SPEED_MAX, or 0 for a pump at rest
 * @tolerance: t > 0: 1 as given, 0.85 and 1.15 for the edges of a +/-15 % catalogue. A curve may be off in head or in
 *   flow (ISO 9906:2012 tolerates both): above 1 the head is the larger of t h(q) and h(q / t), below 1 the smaller. Near
 *   shut-off, where the curve is flat, the head decides; where it is steep the flow
 * @flow_m3s: any
 * @ret_head: (out): head gained and its slope
 *
 * Affinity laws: H = speed^2 h (Q / speed) (Q ~ n, H ~ n^2; e.g. ISO 9906:2012, conversion to specified
 * speed). Outside the points the head goes on so that a network stays solvable, and says so by its range: beyond the
 * last point along its end tangent, made no flatter than the mean slope of the whole curve; a power law goes on as it is
 * up to twice its run-out flow and along its tangent after. Below the first point along its tangent; for negative flow
 * (driven backwards) by point symmetry about shut-off, so the head rises. At rest the impeller resists as
 * A tolerance (Q / Q_end)^2 in both directions (common practice, no source).
 *
 * Returns: HYDRAULICS_INVALID_ARGUMENT for a value that is not finite or a negative speed; HYDRAULICS_OUT_OF_RANGE for
 *   another speed outside the limits, with the head given all the same.
 */
HydraulicsStatus pump_head (const PumpCurve *curve, double speed, double tolerance, double flow_m3s,
                            PumpHead *ret_head);

/**
 * pump_flow_at_head:
 * @head_m: the head to be overcome
 * @ret_flow_m3s: (out): flow >= 0 at which pump_head() gives @head_m; the smallest where the curve is flat
 * Returns: as pump_head(); HYDRAULICS_NO_SOLUTION (no output) if the head at zero flow is less than @head_m: the pump
 *   is too weak and stands at zero behind a check valve
 */
HydraulicsStatus pump_flow_at_head (const PumpCurve *curve, double speed, double tolerance, double head_m,
                                    double *ret_flow_m3s);

/* Affinity laws at constant impeller diameter: flow ~ n, head ~ n^2, shaft power ~ n^3. @speed as in pump_head(), not 0;
 * HYDRAULICS_OUT_OF_RANGE gives the value all the same, HYDRAULICS_INVALID_ARGUMENT does not. */
HydraulicsStatus pump_affinity_flow (double flow_m3s, double speed, double *ret_flow_m3s);
HydraulicsStatus pump_affinity_head (double head_m, double speed, double *ret_head_m);
HydraulicsStatus pump_affinity_power (double shaft_power_w, double speed, double *ret_power_w);

/**
 * pump_hydraulic_power:
 * @ret_power_w: (out): rho g Q H (ISO 17769-1, pump power output)
 * Returns: HYDRAULICS_INVALID_ARGUMENT unless density > 0 and all are finite
 */
HydraulicsStatus pump_hydraulic_power (double flow_m3s, double head_m, double density_kgm3,
                                       double *ret_power_w);

/**
 * pump_shaft_power:
 * @efficiency: of the pump (shaft) or of pump and motor together (mains), 0 < efficiency <= 1
 * @ret_power_w: (out): hydraulic power / efficiency
 * Returns: as pump_hydraulic_power(), and HYDRAULICS_INVALID_ARGUMENT for another efficiency
 * Source: definition of the efficiency (ISO 17769-1).
 */
HydraulicsStatus pump_shaft_power (double flow_m3s, double head_m, double density_kgm3, double efficiency,
                                   double *ret_power_w);

/**
 * pump_efficiency_estimate:
 * @mains_power_w: rated input power of the whole pump
 * @ret_efficiency: (out): best efficiency of pump and motor together for that size: 0.15 at 10 W rising with the
 *   logarithm of the power to 0.50 at 1 kW, held outside. Common practice, no source: an estimate, label it.
 */
HydraulicsStatus pump_efficiency_estimate (double mains_power_w, double *ret_efficiency);

/* One pump at its setting. */
typedef struct {
  PumpCurve curve;
  double speed;     /* as in pump_head() */
  double tolerance; /* as in pump_head() */
} PumpUnit;

/* One pipe between two levels: what a pump works against. */
typedef struct {
  PipeRun pipe;
  Fluid fluid;
  double static_head_m; /* outlet level less suction level; negative: the water would run by itself */
} PumpLoop;

typedef struct {
  double flow_m3s;
  double head_m;   /* gained by the pump, or by all of them together */
  PumpRange range; /* the worst of all pumps */
} OperatingPoint;

/**
 * pump_operating_point:
 * @ret_point: (out): where pump head = static head + loss
 *
 * Both sides are monotone, so there is one root; it is bracketed first and found to the spacing of doubles. Flow is never
 * negative: a pump that cannot lift the static head has no operating point.
 * Returns: HYDRAULICS_NO_SOLUTION in that case; else as pump_head() and pipe_loss()
 */
HydraulicsStatus pump_operating_point (const PumpUnit *pump, const PumpLoop *loop, OperatingPoint *ret_point);

/**
 * pumps_in_parallel_operating_point:
 * @pumps: @n_pumps of them, each behind its own lossless check valve: at equal head the flows add, and a pump too weak
 *   for that head gives nothing
 * @ret_point: (out): the common flow and head
 * Returns: as pump_operating_point()
 */
HydraulicsStatus pumps_in_parallel_operating_point (guint n_pumps, const PumpUnit *pumps,
                                                    const PumpLoop *loop, OperatingPoint *ret_point);

/* pumps_in_series_operating_point: at equal flow the heads add; else as pumps_in_parallel_operating_point(). */
HydraulicsStatus pumps_in_series_operating_point (guint n_pumps, const PumpUnit *pumps, const PumpLoop *loop,
                                                  OperatingPoint *ret_point);

/**
 * pump_speed_for_flow:
 * @flow_m3s: wanted, > 0
 * @tolerance: as in pump_head()
 * @ret_speed: (out): speed ratio r with tolerance r^2 h (Q / r) = static head + loss
 * Returns: HYDRAULICS_OUT_OF_RANGE outside PUMP_SPEED_MIN to PUMP_SPEED_MAX, with the ratio given all the same;
 *   HYDRAULICS_NO_SOLUTION (no output) if no ratio up to 10 is enough or even a ratio of 0.01 gives too much
 */
HydraulicsStatus pump_speed_for_flow (const PumpCurve *curve, double tolerance, const PumpLoop *loop,
                                      double flow_m3s, double *ret_speed);

/**
 * pump_npsh_available:
 * @surface_pressure_pa: absolute, on the suction surface
 * @vapour_pressure_pa: of the water
 * @surface_above_pump_m: suction surface less the pump's datum; negative is a suction lift
 * @suction_loss_m: >= 0
 * @ret_npsh_m: (out): (p_surface - p_vapour) / (rho g) + z - loss, m (ANSI/HI 9.6.1, ISO 17769-1)
 * Returns: HYDRAULICS_INVALID_ARGUMENT for a density not above 0, a negative loss or a value that is not finite
 */
HydraulicsStatus pump_npsh_available (double surface_pressure_pa, double vapour_pressure_pa,
                                      double density_kgm3, double surface_above_pump_m, double suction_loss_m,
                                      double *ret_npsh_m);

/**
 * pump_suction_cover:
 * @flow_m3s: > 0
 * @mouth_m: outside diameter of the suction bell or inside diameter of a plain inlet, > 0
 * @ret_cover_m: (out): least depth of water over the mouth against vortices, S = D (1 + 2.3 Fr), Fr = V / sqrt (g D)
 *   (ANSI/HI 9.8). Submersibles: the maker's minimum rules.
 */
HydraulicsStatus pump_suction_cover (double flow_m3s, double mouth_m, double *ret_cover_m);

/* Acceptance grades of ISO 9906:2012, Table 8: tolerance of flow and head in per cent of the guarantee, upwards and
 * downwards. X (member, key, flow up, flow down, head up, head down). From memory, except the head of 2B. */
#define PUMP_GRADES(X)                                                                                       \
  X (1B, "1b", 5.0, 5.0, 3.0, 3.0)                                                                           \
  X (1E, "1e", 5.0, 5.0, 3.0, 3.0)                                                                           \
  X (1U, "1u", 10.0, 0.0, 6.0, 0.0)                                                                          \
  X (2B, "2b", 8.0, 8.0, 5.0, 5.0)                                                                           \
  X (2U, "2u", 16.0, 0.0, 10.0, 0.0)                                                                         \
  X (3B, "3b", 9.0, 9.0, 7.0, 7.0)

#define PUMP_GRADE_MEMBER(member, key, flow_up, flow_down, head_up, head_down) PUMP_GRADE_##member,
typedef enum { PUMP_GRADES (PUMP_GRADE_MEMBER) N_PUMP_GRADES } PumpGrade;
#undef PUMP_GRADE_MEMBER

typedef struct {
  double flow_up_percent, flow_down_percent; /* of the guaranteed flow, both >= 0 */
  double head_up_percent, head_down_percent; /* of the guaranteed head */
} PumpBand;

/* The grade of a key such as "2b"; HYDRAULICS_INVALID_ARGUMENT for another word. */
HydraulicsStatus pump_grade_from_key (const char *key, PumpGrade *ret_grade);

/* The tolerance of a grade; HYDRAULICS_INVALID_ARGUMENT for a number outside the list. The grades were written for pumps
 * of more than about 10 kW that are tested one by one: no small catalogue pump is held to them. */
HydraulicsStatus pump_grade_band (PumpGrade grade, PumpBand *ret_band);
