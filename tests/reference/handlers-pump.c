/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "given-hydraulics.h"
#include "handlers.h"

#include "hydraulics/pump.h"

/* Most pumps in one row. */
#define PUMPS_MAX 8

static HydraulicsStatus
affinity_flow (Given *given, double *ret_got)
{
  return pump_affinity_flow (given_number (given, "value"), given_number (given, "speed_ratio"), ret_got);
}

static HydraulicsStatus
affinity_head (Given *given, double *ret_got)
{
  return pump_affinity_head (given_number (given, "value"), given_number (given, "speed_ratio"), ret_got);
}

static HydraulicsStatus
affinity_power (Given *given, double *ret_got)
{
  return pump_affinity_power (given_number (given, "value"), given_number (given, "speed_ratio"), ret_got);
}

static HydraulicsStatus
hydraulic_power (Given *given, double *ret_got)
{
  return pump_hydraulic_power (given_number (given, "flow_m3_per_s"), given_number (given, "head_m"),
                               given_number (given, "density_kg_per_m3"), ret_got);
}

/* curve=A,B,C or points=q:h|q:h|... */
static HydraulicsStatus
given_curve (Given *given, PumpCurve *ret_curve)
{
  double values[2 * PUMP_POINTS_MAX], flow[PUMP_POINTS_MAX], head[PUMP_POINTS_MAX];

  if (given_has (given, "curve")) {
    if (given_numbers (given, "curve", ",", values, 3) == 3)
      return pump_curve_from_power_law (values[0], values[1], values[2], ret_curve);
    given_complain (given, "key \"curve\": \"%s\" is not A,B,C", given_word (given, "curve"));
    return HYDRAULICS_INVALID_ARGUMENT;
  }
  guint n = (guint) given_numbers (given, "points", ":|", values, G_N_ELEMENTS (values)) / 2;
  for (guint i = 0; i < n; i++) {
    flow[i] = values[2 * i];
    head[i] = values[2 * i + 1];
  }
  return pump_curve_from_points (n, flow, head, ret_curve);
}

/* curves=A,B,C|A,B,C|... */
static HydraulicsStatus
given_pumps (Given *given, PumpUnit *pumps, guint *ret_n_pumps)
{
  double values[3 * PUMPS_MAX];
  gsize n = given_numbers (given, "curves", ",|", values, G_N_ELEMENTS (values)) / 3;

  for (gsize i = 0; i < n; i++) {
    pumps[i] = (PumpUnit){.speed = 1.0, .tolerance = 1.0};
    HydraulicsStatus status =
        pump_curve_from_power_law (values[3 * i], values[3 * i + 1], values[3 * i + 2], &pumps[i].curve);
    if (status != HYDRAULICS_OK)
      return status;
  }
  *ret_n_pumps = (guint) n;
  return n > 0 ? HYDRAULICS_OK : HYDRAULICS_INVALID_ARGUMENT;
}

static PumpLoop
given_loop (Given *given)
{
  return (PumpLoop){.pipe = given_pipe_run (given),
                    .fluid = given_fluid (given),
                    .static_head_m = given_number (given, "static_head_m")};
}

static HydraulicsStatus
operating_point_flow (Given *given, double *ret_got)
{
  PumpUnit pump = {.speed = 1.0, .tolerance = 1.0};
  PumpLoop loop = given_loop (given);
  OperatingPoint point;
  HydraulicsStatus status = given_curve (given, &pump.curve);

  if (status == HYDRAULICS_OK)
    status = pump_operating_point (&pump, &loop, &point);
  if (status == HYDRAULICS_OK)
    *ret_got = point.flow_m3s;
  return status;
}

typedef HydraulicsStatus (*ManyPumps) (guint n_pumps, const PumpUnit *pumps, const PumpLoop *loop,
                                       OperatingPoint *ret_point);

static HydraulicsStatus
flow_of_many (Given *given, ManyPumps many, double *ret_got)
{
  PumpUnit pumps[PUMPS_MAX];
  PumpLoop loop = given_loop (given);
  OperatingPoint point;
  guint n_pumps = 0;
  HydraulicsStatus status = given_pumps (given, pumps, &n_pumps);

  if (status == HYDRAULICS_OK)
    status = many (n_pumps, pumps, &loop, &point);
  if (status == HYDRAULICS_OK)
    *ret_got = point.flow_m3s;
  return status;
}

static HydraulicsStatus
parallel_pumps_flow (Given *given, double *ret_got)
{
  return flow_of_many (given, pumps_in_parallel_operating_point, ret_got);
}

static HydraulicsStatus
series_pumps_flow (Given *given, double *ret_got)
{
  return flow_of_many (given, pumps_in_series_operating_point, ret_got);
}

static HydraulicsStatus
speed_for_flow (Given *given, double *ret_got)
{
  PumpCurve curve;
  PumpLoop loop = given_loop (given);
  HydraulicsStatus status = given_curve (given, &curve);

  return status == HYDRAULICS_OK
             ? pump_speed_for_flow (&curve, 1.0, &loop, given_number (given, "flow_m3_per_s"), ret_got)
             : status;
}

static HydraulicsStatus
npsh_available (Given *given, double *ret_got)
{
  return pump_npsh_available (
      given_number (given, "surface_pressure_pa"), given_number (given, "vapour_pressure_pa"),
      given_number (given, "density_kg_per_m3"), given_number (given, "surface_above_pump_m"),
      given_number (given, "suction_loss_m"), ret_got);
}

static HydraulicsStatus
iso9906_band (Given *given, double *ret_got)
{
  static const char *const words[] = {"flow", "head"};
  PumpGrade grade;
  PumpBand band;
  guint of = given_choice (given, "of", words, G_N_ELEMENTS (words));
  HydraulicsStatus status = pump_grade_from_key (given_word (given, "grade"), &grade);

  if (status == HYDRAULICS_OK)
    status = pump_grade_band (grade, &band);
  else
    given_complain (given, "key \"grade\": unknown word \"%s\"", given_word (given, "grade"));
  if (status == HYDRAULICS_OK)
    *ret_got = of == 0 ? band.flow_up_percent : band.head_up_percent;
  return status;
}

const Handler pump_handlers[] = {
    {"pump_affinity_flow", affinity_flow},
    {"pump_affinity_head", affinity_head},
    {"pump_affinity_power", affinity_power},
    {"pump_hydraulic_power", hydraulic_power},
    {"operating_point_flow", operating_point_flow},
    {"parallel_pumps_flow", parallel_pumps_flow},
    {"series_pumps_flow", series_pumps_flow},
    {"speed_for_flow", speed_for_flow},
    {"npsh_available", npsh_available},
    {"iso9906_band", iso9906_band},
    {NULL, NULL},
};
