/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Rails and posts of a stand: bending of straight beams, buckling of columns, section properties.
 * Euler-Bernoulli: small deflections, no shear, elastic, self-weight only if it is in the load. Wood and acrylic creep:
 * give their long-term modulus. Advice only: structure is checked by a licensed person, and local codes govern.
 * HYDRAULICS_INVALID_ARGUMENT for NaN, infinity or a sign that the quantity cannot have. */

#include "hydraulics/status.h"

typedef enum { BEAM_SIMPLE, BEAM_FIXED, BEAM_CANTILEVER, N_BEAM_SUPPORTS } BeamSupport;

typedef enum {
  BEAM_POINT,   /* force, N: at mid-span, or at the tip of a cantilever */
  BEAM_UNIFORM, /* line load, N/m */
  BEAM_TRIANGULAR, /* line load at its peak, N/m, from 0 at one end to the peak at the other: the wall of a cantilever */
  N_BEAM_LOADS
} BeamLoad;

typedef struct {
  BeamSupport support;
  BeamLoad load;
  double load_value;       /* N for a point, N/m otherwise; 0 or more */
  double length_m;         /* span, above 0 */
  double young_pa;         /* above 0; not used by the moment */
  double second_moment_m4; /* above 0; not used by the moment */
} Beam;

/**
 * beam_max_deflection:
 * @ret_deflection_m: (out): the largest anywhere along the beam
 * Source: AISC Manual Table 3-23; Roark's Formulas Table 8.1; the triangular cases from the deflection line, see beam.c.
 */
HydraulicsStatus beam_max_deflection (const Beam *beam, double *ret_deflection_m);

/**
 * beam_max_moment:
 * @ret_moment_nm: (out): magnitude of the largest bending moment; stress = moment / section modulus
 * Source: as beam_max_deflection().
 */
HydraulicsStatus beam_max_moment (const Beam *beam, double *ret_moment_nm);

typedef enum {
  SECTION_RECTANGLE,
  SECTION_RECTANGULAR_TUBE,
  SECTION_ROUND_TUBE,
  N_SECTION_SHAPES
} SectionShape;

typedef struct {
  SectionShape shape;
  double width_m;  /* horizontal; not used by a round tube */
  double height_m; /* vertical; outside diameter of a round tube */
  double wall_m;   /* of the tubes, above 0, at most half of the outside: then the section is solid */
} Section;

/**
 * section_second_moment:
 * @ret_second_moment_m4: (out): about the horizontal axis; tubes with sharp corners
 * Source: b h3/12, the hollow as a difference; pi (D4 - d4)/64.
 */
HydraulicsStatus section_second_moment (const Section *section, double *ret_second_moment_m4);

/**
 * section_modulus:
 * @ret_modulus_m3: (out): second moment over half the height
 * Source: definition, with section_second_moment().
 */
HydraulicsStatus section_modulus (const Section *section, double *ret_modulus_m3);

/**
 * column_buckling_load:
 * @second_moment_m4: the least of the section
 * @effective_length_factor: 1 pinned ends, 0.5 both fixed, 0.7 fixed and pinned, 2 free standing
 * @ret_load_n: (out): pi2 E I / (K L)2. It is the load of failure of a perfect slender column; a short one crushes first
 * Source: Euler.
 */
HydraulicsStatus column_buckling_load (double young_pa, double second_moment_m4, double length_m,
                                       double effective_length_factor, double *ret_load_n);
