/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "hydraulics/bracket.h"
#include "hydraulics/friction.h"
#include "hydraulics/pump-curve.h"
#include "hydraulics/pump.h"

#include <stdbool.h>

/* Widest speed ratios that pump_speed_for_flow() looks at. */
#define SPEED_LEAST 0.01
#define SPEED_MOST  10.0

/* A loop ready to be asked. */
typedef struct {
  FrictionPipe pipe;
  FrictionState guess;
  double static_head_m;
} Resistance;

static HydraulicsStatus
resistance_prepare (const PumpLoop *loop, Resistance *ret_resistance)
{
  Resistance resistance = {.static_head_m = loop->static_head_m};

  if (!isfinite (loop->static_head_m))
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = friction_prepare (&loop->pipe, &loop->fluid, &resistance.pipe, &resistance.guess);
  if (status == HYDRAULICS_OK)
    *ret_resistance = resistance;
  return status;
}

static double
resistance_at (const Resistance *resistance, double flow)
{
  FrictionState state = resistance->guess;
  double slope;

  return resistance->static_head_m + friction_loss (&resistance->pipe, &state, 1e-7, flow, &slope);
}

typedef struct {
  guint n_pumps;
  const PumpUnit *pumps;
  const PumpLoop *loop;
  Resistance resistance;
} Duty;

static HydraulicsStatus
duty_prepare (guint n_pumps, const PumpUnit *pumps, const PumpLoop *loop, Duty *ret_duty)
{
  Duty duty = {.n_pumps = n_pumps, .pumps = pumps, .loop = loop};
  HydraulicsStatus worst = HYDRAULICS_OK;
  PumpHead head;

  if (n_pumps == 0)
    return HYDRAULICS_INVALID_ARGUMENT;
  for (guint i = 0; i < n_pumps; i++) {
    HydraulicsStatus status = pump_head (&pumps[i].curve, pumps[i].speed, pumps[i].tolerance, 0.0, &head);
    if (status == HYDRAULICS_INVALID_ARGUMENT)
      return status;
    if (status != HYDRAULICS_OK)
      worst = status;
  }
  HydraulicsStatus status = resistance_prepare (loop, &duty.resistance);
  if (status != HYDRAULICS_OK)
    return status;
  *ret_duty = duty;
  return worst;
}

static double
head_in_series (const Duty *duty, double flow)
{
  double sum = 0.0, slope;

  for (guint i = 0; i < duty->n_pumps; i++)
    sum +=
        pump_curve_head (&duty->pumps[i].curve, duty->pumps[i].speed, duty->pumps[i].tolerance, flow, &slope);
  return sum;
}

/* What the loop asks for above what the pumps give: never falls with the flow. */
static HydraulicsStatus
series_lack (double flow, const void *data, double *ret_head_m)
{
  const Duty *duty = data;

  *ret_head_m = resistance_at (&duty->resistance, flow) - head_in_series (duty, flow);
  return HYDRAULICS_OK;
}

static PumpRange
worse (PumpRange a, PumpRange b)
{
  return b == PUMP_ON_CURVE ? a : a == PUMP_BEYOND_CURVE ? a : b;
}

HydraulicsStatus
pumps_in_series_operating_point (guint n_pumps, const PumpUnit *pumps, const PumpLoop *loop,
                                 OperatingPoint *ret_point)
{
  Duty duty;
  HydraulicsStatus status = duty_prepare (n_pumps, pumps, loop, &duty);

  if (status != HYDRAULICS_OK && status != HYDRAULICS_OUT_OF_RANGE)
    return status;
  OperatingPoint point = {.range = PUMP_ON_CURVE};
  double high = 0.0, lack = 0.0;
  series_lack (0.0, &duty, &lack);
  if (lack > 0.0)
    return HYDRAULICS_NO_SOLUTION;
  if (lack < 0.0) {
    for (guint i = 0; i < n_pumps; i++)
      high = fmax (high, pumps[i].curve.flow_at_end_m3s);
    for (int i = 0; i < 400 && series_lack (high, &duty, &lack) == HYDRAULICS_OK && lack < 0.0; i++)
      high *= 2.0;
    HydraulicsStatus found = bracket_invert (series_lack, &duty, 0.0, 0.0, high, &point.flow_m3s);
    if (found != HYDRAULICS_OK)
      return found;
  }
  point.head_m = head_in_series (&duty, point.flow_m3s);
  for (guint i = 0; i < n_pumps; i++) {
    PumpHead head;
    pump_head (&pumps[i].curve, pumps[i].speed, pumps[i].tolerance, point.flow_m3s, &head);
    point.range = worse (point.range, head.range);
  }
  *ret_point = point;
  return status;
}

HydraulicsStatus
pump_operating_point (const PumpUnit *pump, const PumpLoop *loop, OperatingPoint *ret_point)
{
  return pumps_in_series_operating_point (1, pump, loop, ret_point);
}

/* What one pump gives against a head: nothing behind its check valve if it is too weak. */
static double
flow_in_parallel (const PumpUnit *pump, double head)
{
  double flow;

  HydraulicsStatus status = pump_flow_at_head (&pump->curve, pump->speed, pump->tolerance, head, &flow);
  return status == HYDRAULICS_OK || status == HYDRAULICS_OUT_OF_RANGE ? flow : 0.0;
}

/* What the loop carries at a head above what the pumps give against it: never falls with the head. */
static HydraulicsStatus
parallel_lack (double head, const void *data, double *ret_flow_m3s)
{
  const Duty *duty = data;
  double sum = 0.0, through = 0.0;

  for (guint i = 0; i < duty->n_pumps; i++)
    sum += flow_in_parallel (&duty->pumps[i], head);
  HydraulicsStatus status =
      pipe_flow_at_loss (&duty->loop->pipe, &duty->loop->fluid, head - duty->loop->static_head_m, &through);
  if (status == HYDRAULICS_OK)
    *ret_flow_m3s = through - sum;
  return status;
}

HydraulicsStatus
pumps_in_parallel_operating_point (guint n_pumps, const PumpUnit *pumps, const PumpLoop *loop,
                                   OperatingPoint *ret_point)
{
  Duty duty;
  HydraulicsStatus status = duty_prepare (n_pumps, pumps, loop, &duty);

  if (status != HYDRAULICS_OK && status != HYDRAULICS_OUT_OF_RANGE)
    return status;
  double strongest = 0.0;
  for (guint i = 0; i < n_pumps; i++) {
    double slope;
    strongest =
        fmax (strongest, pump_curve_head (&pumps[i].curve, pumps[i].speed, pumps[i].tolerance, 0.0, &slope));
  }
  if (strongest < loop->static_head_m)
    return HYDRAULICS_NO_SOLUTION;

  OperatingPoint point = {.range = PUMP_ON_CURVE, .head_m = strongest};
  if (strongest > loop->static_head_m) {
    HydraulicsStatus found =
        bracket_invert (parallel_lack, &duty, 0.0, loop->static_head_m, strongest, &point.head_m);
    if (found != HYDRAULICS_OK)
      return found;
  }
  for (guint i = 0; i < n_pumps; i++) {
    double flow = flow_in_parallel (&pumps[i], point.head_m);
    PumpHead head;
    point.flow_m3s += flow;
    pump_head (&pumps[i].curve, pumps[i].speed, pumps[i].tolerance, flow, &head);
    point.range = worse (point.range, head.range);
  }
  *ret_point = point;
  return status;
}

typedef struct {
  const PumpCurve *curve;
  double tolerance, flow;
} SpeedQuestion;

static HydraulicsStatus
head_at_speed (double speed, const void *data, double *ret_head_m)
{
  const SpeedQuestion *question = data;
  double slope;

  *ret_head_m = pump_curve_head (question->curve, speed, question->tolerance, question->flow, &slope);
  return HYDRAULICS_OK;
}

HydraulicsStatus
pump_speed_for_flow (const PumpCurve *curve, double tolerance, const PumpLoop *loop, double flow_m3s,
                     double *ret_speed)
{
  Resistance resistance;

  if (!isfinite (tolerance) || tolerance <= 0.0 || !isfinite (flow_m3s) || flow_m3s <= 0.0)
    return HYDRAULICS_INVALID_ARGUMENT;
  HydraulicsStatus status = resistance_prepare (loop, &resistance);
  if (status != HYDRAULICS_OK)
    return status;
  SpeedQuestion question = {curve, tolerance, flow_m3s};
  double speed;
  status = bracket_invert (head_at_speed, &question, resistance_at (&resistance, flow_m3s), SPEED_LEAST,
                           SPEED_MOST, &speed);
  if (status != HYDRAULICS_OK)
    return status;
  *ret_speed = speed;
  return speed < PUMP_SPEED_MIN || speed > PUMP_SPEED_MAX ? HYDRAULICS_OUT_OF_RANGE : HYDRAULICS_OK;
}
