/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "given-hydraulics.h"
#include "handlers.h"

static HydraulicsStatus
friction_factor (Given *given, double *ret_got)
{
  return pipe_friction_factor (given_number (given, "re"), given_number (given, "relative_roughness"),
                               ret_got);
}

static HydraulicsStatus
pipe_head_loss (Given *given, double *ret_got)
{
  PipeRun run = given_pipe_run (given);
  Fluid fluid = given_fluid (given);
  PipeLoss loss;
  HydraulicsStatus status = pipe_loss (&run, &fluid, given_number (given, "flow_m3_per_s"), &loss);

  if (status == HYDRAULICS_OK)
    *ret_got = loss.head_m;
  return status;
}

/* Standard and series belong together: neither word alone is wrong. */
static HydraulicsStatus
known_series (Given *given, HydraulicsStatus status)
{
  if (status != HYDRAULICS_OK)
    given_complain (given, "no series \"%s\" in the standard \"%s\"", given_word (given, "series"),
                    given_word (given, "standard"));
  return status;
}

static HydraulicsStatus
given_size (Given *given, PipeDimensions *ret_size)
{
  PipeSeries series;
  HydraulicsStatus status = known_series (
      given, pipe_series_from_key (given_word (given, "standard"), given_word (given, "series"), &series));

  return status == HYDRAULICS_OK ? pipe_size (series, given_number (given, "nominal"), ret_size) : status;
}

static HydraulicsStatus
pipe_inside_diameter (Given *given, double *ret_got)
{
  PipeDimensions size;
  HydraulicsStatus status = given_size (given, &size);

  if (status == HYDRAULICS_OK)
    *ret_got = size.bore_m;
  return status;
}

static HydraulicsStatus
pipe_outside_diameter (Given *given, double *ret_got)
{
  PipeDimensions size;
  HydraulicsStatus status = given_size (given, &size);

  if (status == HYDRAULICS_OK)
    *ret_got = size.outside_m;
  return status;
}

static HydraulicsStatus
pipe_wall (Given *given, double *ret_got)
{
  PipeDimensions size;
  HydraulicsStatus status = given_size (given, &size);

  if (status == HYDRAULICS_OK)
    *ret_got = size.wall_m;
  return status;
}

static HydraulicsStatus
depth_of_socket (Given *given, double *ret_got)
{
  SocketSeries series;
  HydraulicsStatus status = known_series (
      given, socket_series_from_key (given_word (given, "standard"), given_word (given, "series"), &series));

  return status == HYDRAULICS_OK ? socket_depth (series, given_number (given, "nominal"), ret_got) : status;
}

const Handler pipe_handlers[] = {
    {"friction_factor", friction_factor},
    {"pipe_head_loss", pipe_head_loss},
    {"pipe_inside_diameter", pipe_inside_diameter},
    {"pipe_outside_diameter", pipe_outside_diameter},
    {"pipe_wall", pipe_wall},
    {"socket_depth", depth_of_socket},
    {NULL, NULL},
};
