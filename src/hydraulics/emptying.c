/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/emptying.h"

#include "hydraulics/answer.h"
#include "hydraulics/argument.h"
#include "hydraulics/constants.h"
#include "hydraulics/legendre.h"

#include <glib.h>
#include <math.h>

static bool
are_heads (double head_start_m, double head_end_m)
{
  return argument_is_not_negative (head_start_m) && argument_is_not_negative (head_end_m);
}

/* sqrt a - sqrt b without the loss of digits between near heads; a >= b. */
static double
root_difference (double a, double b)
{
  return a > b ? (a - b) / (sqrt (a) + sqrt (b)) : 0.0;
}

HydraulicsStatus
emptying_time_orifice (double area_m2, double cd_area_m2, double head_start_m, double head_end_m,
                       double *ret_time_s)
{
  if (!argument_is_positive (area_m2) || !argument_is_positive (cd_area_m2) ||
      !are_heads (head_start_m, head_end_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (head_end_m > head_start_m)
    return HYDRAULICS_NO_SOLUTION;
  double pace = 2.0 * area_m2 / (cd_area_m2 * sqrt (2.0 * GRAVITY_M_S2));
  return answer_if_finite (pace * root_difference (head_start_m, head_end_m), ret_time_s);
}

/* a + ln (1 - a) for small a, where its two terms cancel. */
static double
log_remainder (double a)
{
  double sum = 0.0;

  for (int power = 16; power >= 2; power--)
    sum = sum * a + 1.0 / power;
  return -sum * a * a;
}

HydraulicsStatus
emptying_time_orifice_inflow (double area_m2, double cd_area_m2, double inflow_m3s, double head_start_m,
                              double head_end_m, double *ret_time_s)
{
  if (!argument_is_positive (area_m2) || !argument_is_positive (cd_area_m2) ||
      !argument_is_not_negative (inflow_m3s) || !are_heads (head_start_m, head_end_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (head_start_m == head_end_m) {
    *ret_time_s = 0.0;
    return HYDRAULICS_OK;
  }
  if (inflow_m3s == 0.0)
    return emptying_time_orifice (area_m2, cd_area_m2, head_start_m, head_end_m, ret_time_s);

  double k = cd_area_m2 * sqrt (2.0 * GRAVITY_M_S2);
  double start_m3s = k * sqrt (head_start_m), end_m3s = k * sqrt (head_end_m);
  bool rises = head_end_m > head_start_m;
  if (rises ? inflow_m3s <= end_m3s : inflow_m3s >= end_m3s)
    return HYDRAULICS_NO_SOLUTION;

  double a = start_m3s / inflow_m3s, b = end_m3s / inflow_m3s;
  double pace_m3s =
      fmax (a, b) < 0.1
          ? inflow_m3s * (log_remainder (a) - log_remainder (b))
          : start_m3s - end_m3s + inflow_m3s * log ((inflow_m3s - start_m3s) / (inflow_m3s - end_m3s));
  return answer_if_finite (2.0 * area_m2 / (k * k) * pace_m3s, ret_time_s);
}

HydraulicsStatus
emptying_time_weir (double area_m2, double crest_length_m, double weir_coefficient, double head_start_m,
                    double head_end_m, double *ret_time_s)
{
  if (!argument_is_positive (area_m2) || !argument_is_positive (crest_length_m) ||
      !argument_is_positive (weir_coefficient) || !are_heads (head_start_m, head_end_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (head_end_m > head_start_m || (head_end_m == 0.0 && head_start_m > 0.0))
    return HYDRAULICS_NO_SOLUTION;
  double difference = root_difference (head_start_m, head_end_m);
  return answer_if_finite (difference > 0.0 ? 2.0 * area_m2 / (weir_coefficient * crest_length_m) *
                                                  difference / (sqrt (head_start_m) * sqrt (head_end_m))
                                            : 0.0,
                           ret_time_s);
}

HydraulicsStatus
emptying_time_pipe (double area_m2, double bore_m, double length_m, double friction_factor,
                    double loss_coefficient, double head_start_m, double head_end_m, double *ret_time_s)
{
  if (!argument_is_positive (bore_m) || !argument_is_not_negative (length_m) ||
      !argument_is_not_negative (friction_factor) || !argument_is_not_negative (loss_coefficient))
    return HYDRAULICS_INVALID_ARGUMENT;
  double resistance = loss_coefficient + friction_factor * length_m / bore_m;
  if (!argument_is_positive (resistance))
    return HYDRAULICS_INVALID_ARGUMENT;
  double section_m2 = G_PI / 4.0 * bore_m * bore_m;
  return emptying_time_orifice (area_m2, section_m2 / sqrt (resistance), head_start_m, head_end_m,
                                ret_time_s);
}

enum { PANELS = 16, NODES = 8 };

/* dt/ds of a vessel of unit area in s = sqrt h, where the flow of a full pipe is nearly straight. */
static HydraulicsStatus
time_slope (const PipeRun *pipe, const Fluid *water, double root, double *ret_slope)
{
  double flow_m3s = 0.0;
  HydraulicsStatus status = pipe_flow_at_loss (pipe, water, root * root, &flow_m3s);

  if (status != HYDRAULICS_OK)
    return status;
  return answer_if_finite (2.0 * root / flow_m3s, ret_slope);
}

HydraulicsStatus
emptying_time_pipe_colebrook (double area_m2, const PipeRun *pipe, const Fluid *water, double head_start_m,
                              double head_end_m, double *ret_time_s)
{
  if (!argument_is_positive (area_m2) || !are_heads (head_start_m, head_end_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  if (head_end_m > head_start_m || (head_end_m == 0.0 && head_start_m > 0.0))
    return HYDRAULICS_NO_SOLUTION;

  double nodes[NODES], weights[NODES];
  legendre_gauss (NODES, nodes, weights);
  double half = root_difference (head_start_m, head_end_m) / (2.0 * PANELS);
  double time_s = 0.0;
  for (int i = 0; half > 0.0 && i < PANELS * NODES; i++) {
    int panel = i / NODES, node = i % NODES;
    double root = sqrt (head_end_m) + (2 * panel + 1 + nodes[node]) * half;
    double slope = 0.0;
    HydraulicsStatus status = time_slope (pipe, water, root, &slope);
    if (status != HYDRAULICS_OK)
      return status;
    time_s += weights[node] * half * slope;
  }
  return answer_if_finite (area_m2 * time_s, ret_time_s);
}

HydraulicsStatus
emptying_time_two_tanks (double area1_m2, double area2_m2, double cd_area_m2, double head_start_m,
                         double head_end_m, double *ret_time_s)
{
  if (!argument_is_positive (area1_m2) || !argument_is_positive (area2_m2))
    return HYDRAULICS_INVALID_ARGUMENT;
  /* The difference falls as the level of one vessel whose area is that of both in series. */
  double series_m2 = 1.0 / (1.0 / area1_m2 + 1.0 / area2_m2);
  return emptying_time_orifice (series_m2, cd_area_m2, head_start_m, head_end_m, ret_time_s);
}
