/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the stand and the floor carry. Advice only: a licensed person checks structure and floor. */
#pragma once

#include "design/design.h"
#include "solver/evaluation.h"

/* Soda-lime glass, EN 572-1. Rock and sand: the mineral of both is near this (common practice, no source). */
#define WEIGHT_GLASS_KG_M3 2500.0
#define WEIGHT_ROCK_KG_M3  2700.0

/* Kilograms; NAN where the evaluation does not know the water. */
typedef struct {
  double display_water_kg; /* displays and boxes while running, less rock and substrate */
  double tank_glass_kg;
  double rock_kg; /* rock and substrate */
  double on_top_kg;
  double sump_water_kg; /* all other water, after drain-back, and the full reservoir */
  double sump_glass_kg;
  double total_kg;
  double density_kg_m3; /* of the water */
} Weights;

Weights weights_of (const Design *design, const Evaluation *evaluation);
