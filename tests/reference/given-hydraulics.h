/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* The keys that pipe, pump and network tables share, read into the values of src/hydraulics. */

#include "given.h"

#include "hydraulics/pipe.h"

/* length_m, inside_diameter_m, roughness_m, k_sum. */
PipeRun given_pipe_run (Given *given);

/* density_kg_per_m3, dynamic_viscosity_pa_s. */
Fluid given_fluid (Given *given);
