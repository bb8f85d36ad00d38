/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "given-hydraulics.h"

PipeRun
given_pipe_run (Given *given)
{
  return (PipeRun){.length_m = given_number (given, "length_m"),
                   .bore_m = given_number (given, "inside_diameter_m"),
                   .roughness_m = given_number (given, "roughness_m"),
                   .k = given_number (given, "k_sum")};
}

Fluid
given_fluid (Given *given)
{
  return (Fluid){.density_kgm3 = given_number (given, "density_kg_per_m3"),
                 .dynamic_viscosity_pas = given_number (given, "dynamic_viscosity_pa_s")};
}
