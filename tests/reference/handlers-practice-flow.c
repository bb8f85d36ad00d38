/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/turnover.h"

static HydraulicsStatus
run_bucket_flow (Given *given, double *ret_got)
{
  return turnover_bucket_flow (given_number (given, "volume_m3"), given_number (given, "seconds"), ret_got);
}

static HydraulicsStatus
run_turnover (Given *given, double *ret_got)
{
  return turnover_rate (given_number (given, "flow_m3_per_s"), given_number (given, "volume_m3"), ret_got);
}

static HydraulicsStatus
run_turnover_flow (Given *given, double *ret_got)
{
  return turnover_flow (given_number (given, "turnover_per_h"), given_number (given, "volume_m3"), ret_got);
}

static HydraulicsStatus
run_retention_time (Given *given, double *ret_got)
{
  return turnover_retention_time (given_number (given, "volume_m3"), given_number (given, "flow_m3_per_s"),
                                  ret_got);
}

const Handler practice_flow_handlers[] = {
    {"bucket_flow", run_bucket_flow},
    {"turnover", run_turnover},
    {"turnover_flow", run_turnover_flow},
    {"retention_time", run_retention_time},
    {NULL, NULL},
};
