/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Bending of a rectangular glass or acrylic pane under water or a uniform pressure.
 * Thin elastic plate of constant thickness, small deflections, no membrane action: for a pane that bends by more than
 * half its thickness the answer is on the safe side. Silicone joints are simple supports, never clamped. Acrylic
 * creeps: give its long-term modulus. Advice only: panes are checked by a licensed person, and local codes govern. */

#include "hydraulics/status.h"

typedef enum {
  PLATE_SIMPLY_SUPPORTED_4,
  PLATE_CLAMPED_4,
  PLATE_FREE_TOP_3_SUPPORTED, /* upper edge free, the others simply supported: a rimless tank */
  PLATE_FREE_TOP_3_CLAMPED,   /* upper edge free, the others clamped */
  N_PLATE_EDGES
} PlateEdges;

typedef enum {
  PLATE_UNIFORM,     /* the same pressure everywhere */
  PLATE_HYDROSTATIC, /* water to the upper edge: 0 there, rho g height at the bottom */
  N_PLATE_LOADS
} PlateLoad;

typedef struct {
  PlateEdges edges;
  PlateLoad load;
  double pressure_pa;   /* of a uniform load, 0 or more */
  double density_kg_m3; /* of the water of a hydrostatic load, 0 or more */
  double width_m;       /* horizontal side, above 0 */
  double height_m;      /* vertical side, above 0 */
  double thickness_m;   /* above 0 */
  double young_pa;      /* above 0 */
  double poisson;       /* 0 to below 0.5; glass 0.22 to 0.24, acrylic 0.37 */
} Plate;

typedef struct {
  double max_deflection_m;
  double max_bending_stress_pa; /* 6 M/t2 with the larger of Mx and My, as handbooks print it */
  double
      max_principal_stress_pa; /* with twisting: never smaller; governs a wide pane with a free top at its corners */
} PlateBending;

#define PLATE_ASPECT_MIN 0.1
#define PLATE_ASPECT_MAX 20.0

/**
 * plate_bend:
 * @ret_bending: (out): the largest values anywhere in the pane
 * Returns: HYDRAULICS_OUT_OF_RANGE without numbers for width/height outside PLATE_ASPECT_MIN to PLATE_ASPECT_MAX; with
 *   them if the deflection exceeds half the thickness. HYDRAULICS_INVALID_ARGUMENT for NaN, infinity or a bad sign
 * Method: Ritz minimum of the plate's energy (Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed.,
 *   art. 80-82) with products of integrated Legendre polynomials, 16 across and 32 upwards; some 1 ms. Deflection within
 *   0.3 %, stress within 0.6 % of Levy's series and of a finer solution. Where a clamped edge meets a free one the moments
 *   settle slowly (Williams, Journal of Applied Mechanics 19, 1952): PLATE_FREE_TOP_3_CLAMPED under uniform load is good
 *   to 1.5 % for width/height of 0.3 to 5, and up to 4 % high below
 */
HydraulicsStatus plate_bend (const Plate *plate, PlateBending *ret_bending);
