/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/water.h"

static HydraulicsStatus
run_density (Given *given, double *ret_got)
{
  return water_density (given_number (given, "t_c"), given_number (given, "s_g_per_kg"), ret_got);
}

static HydraulicsStatus
run_dynamic_viscosity (Given *given, double *ret_got)
{
  return water_dynamic_viscosity (given_number (given, "t_c"), given_number (given, "s_g_per_kg"), ret_got);
}

static HydraulicsStatus
run_specific_heat (Given *given, double *ret_got)
{
  return water_specific_heat (given_number (given, "t_c"), given_number (given, "s_g_per_kg"), ret_got);
}

static HydraulicsStatus
run_vapour_pressure (Given *given, double *ret_got)
{
  return water_vapour_pressure (given_number (given, "t_c"), given_number (given, "s_g_per_kg"), ret_got);
}

static HydraulicsStatus
run_latent_heat (Given *given, double *ret_got)
{
  return water_latent_heat (given_number (given, "t_c"), given_number (given, "s_g_per_kg"), ret_got);
}

static HydraulicsStatus
run_surface_tension (Given *given, double *ret_got)
{
  return water_surface_tension (given_number (given, "t_c"), given_number (given, "s_g_per_kg"), ret_got);
}

static HydraulicsStatus
run_salt_mass (Given *given, double *ret_got)
{
  return water_salt_mass (given_number (given, "volume_m3"), given_number (given, "t_c"),
                          given_number (given, "s_g_per_kg"), ret_got);
}

const Handler water_handlers[] = {
    {"water_density", run_density},
    {"water_dynamic_viscosity", run_dynamic_viscosity},
    {"water_specific_heat", run_specific_heat},
    {"water_vapour_pressure", run_vapour_pressure},
    {"water_latent_heat", run_latent_heat},
    {"water_surface_tension", run_surface_tension},
    {"salt_mass", run_salt_mass},
    {NULL, NULL},
};
