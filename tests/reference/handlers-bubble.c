/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/bubble.h"

static const char *const formula_words[N_BUBBLE_FORMULAS] = {
    [BUBBLE_STOKES] = "stokes",
    [BUBBLE_HADAMARD_RYBCZYNSKI] = "hadamard_rybczynski",
    [BUBBLE_RIGID_SPHERE] = "rigid_sphere",
    [BUBBLE_GRACE] = "grace",
    [BUBBLE_MENDELSON] = "mendelson",
    [BUBBLE_SPHERICAL_CAP] = "spherical_cap",
};

static HydraulicsStatus
run_bubble_rise_velocity (Given *given, double *ret_got)
{
  BubbleFormula formula = (BubbleFormula) given_choice (given, "formula", formula_words, N_BUBBLE_FORMULAS);
  BubbleWater water = {
      .density_kg_m3 = given_number (given, "density_kg_per_m3"),
      .dynamic_viscosity_pa_s = given_number (given, "dynamic_viscosity_pa_s"),
      .surface_tension_n_m = given_number (given, "surface_tension_n_per_m"),
  };

  return bubble_rise_velocity (formula, given_number (given, "diameter_m"), &water, ret_got);
}

static HydraulicsStatus
run_settling_velocity (Given *given, double *ret_got)
{
  BubbleWater water = {
      .density_kg_m3 = given_number (given, "density_kg_per_m3"),
      .dynamic_viscosity_pa_s = given_number (given, "dynamic_viscosity_pa_s"),
  };

  return settling_velocity (given_number (given, "diameter_m"),
                            given_number (given, "particle_density_kg_per_m3"), &water, ret_got);
}

const Handler bubble_handlers[] = {
    {"bubble_rise_velocity", run_bubble_rise_velocity},
    {"settling_velocity", run_settling_velocity},
    {NULL, NULL},
};
