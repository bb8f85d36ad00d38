/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "given-hydraulics.h"
#include "handlers.h"

#include "hydraulics/emptying.h"
#include "hydraulics/open_channel.h"
#include "hydraulics/quiet.h"
#include "hydraulics/siphon.h"

static OpenChannel
sloped_pipe (Given *given)
{
  return (OpenChannel){.bore_m = given_number (given, "inside_diameter_m"),
                       .slope = given_number (given, "slope"),
                       .law = OPEN_CHANNEL_MANNING,
                       .manning_n = given_number (given, "manning_n")};
}

static HydraulicsStatus
stack_capacity (Given *given, double *ret_got)
{
  return quiet_stack_flow (given_number (given, "inside_diameter_m"), given_number (given, "fill_ratio"),
                           ret_got);
}

static HydraulicsStatus
siphon_flow (Given *given, double *ret_got)
{
  const PipeRun run = given_pipe_run (given);
  const Fluid water = given_fluid (given);

  return pipe_flow_at_loss (&run, &water, given_number (given, "height_m"), ret_got);
}

static HydraulicsStatus
siphon_valve_k (Given *given, double *ret_got)
{
  const DrainPipe pipe = {.end_level_m = 0.0, .run = given_pipe_run (given)};
  const Fluid water = given_fluid (given);

  return siphon_valve_coefficient (&pipe, &water, given_number (given, "height_m"),
                                   given_number (given, "flow_m3_per_s"), ret_got);
}

static HydraulicsStatus
partly_full_flow (Given *given, double *ret_got)
{
  const OpenChannel channel = sloped_pipe (given);

  return open_channel_flow (&channel, given_number (given, "depth_ratio"), ret_got);
}

static HydraulicsStatus
partly_full_depth (Given *given, double *ret_got)
{
  const OpenChannel channel = sloped_pipe (given);

  return open_channel_depth (&channel, given_number (given, "flow_m3_per_s"), ret_got);
}

static HydraulicsStatus
self_venting_flow (Given *given, double *ret_got)
{
  gboolean superficial = given_has (given, "froude");

  return quiet_self_venting_flow (given_number (given, "inside_diameter_m"),
                                  given_number (given, superficial ? "froude" : "j_star"),
                                  superficial ? QUIET_FROUDE_SUPERFICIAL : QUIET_FROUDE_J_STAR, ret_got);
}

static HydraulicsStatus
self_venting_diameter (Given *given, double *ret_got)
{
  return quiet_self_venting_diameter (given_number (given, "flow_m3_per_s"), given_number (given, "froude"),
                                      ret_got);
}

enum { KIND_ORIFICE, KIND_ORIFICE_INFLOW, KIND_WEIR, KIND_PIPE, KIND_PIPE_COLEBROOK };
static const char *const emptying_kinds[] = {"orifice", "orifice_inflow", "weir", "pipe", "pipe_colebrook"};

static HydraulicsStatus
emptying_by_pipe (Given *given, double area_m2, double start_m, double end_m, double *ret_got)
{
  const PipeRun run = given_pipe_run (given);
  const Fluid water = given_fluid (given);

  return emptying_time_pipe_colebrook (area_m2, &run, &water, start_m, end_m, ret_got);
}

static HydraulicsStatus
emptying (Given *given, double *ret_got)
{
  double area_m2 = given_number (given, "area_m2");
  double start_m = given_number (given, "head_start_m"), end_m = given_number (given, "head_end_m");

  switch (given_choice (given, "kind", emptying_kinds, G_N_ELEMENTS (emptying_kinds))) {
  case KIND_ORIFICE_INFLOW:
    return emptying_time_orifice_inflow (area_m2, given_number (given, "cd_area_m2"),
                                         given_number (given, "inflow_m3_per_s"), start_m, end_m, ret_got);
  case KIND_WEIR:
    return emptying_time_weir (area_m2, given_number (given, "crest_length_m"),
                               given_number (given, "weir_coefficient"), start_m, end_m, ret_got);
  case KIND_PIPE:
    return emptying_time_pipe (area_m2, given_number (given, "inside_diameter_m"),
                               given_number (given, "length_m"), given_number (given, "friction_factor"),
                               given_number (given, "k_sum"), start_m, end_m, ret_got);
  case KIND_PIPE_COLEBROOK:
    return emptying_by_pipe (given, area_m2, start_m, end_m, ret_got);
  default:
    return emptying_time_orifice (area_m2, given_number (given, "cd_area_m2"), start_m, end_m, ret_got);
  }
}

static HydraulicsStatus
two_tank_emptying (Given *given, double *ret_got)
{
  return emptying_time_two_tanks (given_number (given, "area1_m2"), given_number (given, "area2_m2"),
                                  given_number (given, "cd_area_m2"), given_number (given, "head_start_m"),
                                  given_number (given, "head_end_m"), ret_got);
}

const Handler drain_handlers[] = {
    {"emptying_time", emptying},
    {"partly_full_depth", partly_full_depth},
    {"partly_full_pipe_flow", partly_full_flow},
    {"self_venting_diameter", self_venting_diameter},
    {"self_venting_flow", self_venting_flow},
    {"siphon_flow", siphon_flow},
    {"siphon_valve_k", siphon_valve_k},
    {"stack_capacity", stack_capacity},
    {"two_tank_emptying", two_tank_emptying},
    {NULL, NULL},
};
