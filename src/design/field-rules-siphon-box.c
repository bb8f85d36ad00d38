/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Rules of the fields of a hang-over siphon box. */
#include <math.h>

#include "design/choices.h"
#include "design/field-rules.h"
#include "design/geometry.h"
#include "hydraulics/constants.h"

#define MM            0.001
#define HOUR_S        3600.0
#define TUBES_MOST    12
#define SEAL_UNDER_M  (120 * MM)
#define COVER_M       (50 * MM)
#define FLOOR_CLEAR_M (15 * MM)

/* Flow that the job wants through the water of an overflow's tank, m3/s. */
static double
target_flow (const Design *design, const Part *overflow)
{
  const Part *tank = design_owner (design, overflow), *job = design_nth (design, PART_JOB, 0);

  if (tank == NULL || job == NULL)
    return 0;

  const Box3 inside = geometry_inside (design, tank);
  const double depth_m = geometry_crest (design, overflow) - inside.origin.z;

  return design_number (design, job, FIELD_JOB_TURNOVER) * inside.size.x * inside.size.y * depth_m *
         (1 - design_number (design, tank, FIELD_TANK_ROCK)) / HOUR_S;
}

/* At a full-bore Froude number of 1 water sweeps bubbles out of a crown. */
double
rule_tubes (const Design *design, const Part *part)
{
  const double bore_m = design_number (design, part, FIELD_OVERFLOW_TUBE_BORE);
  const double each_m3s = G_PI / 4 * bore_m * bore_m * sqrt (GRAVITY_M_S2 * bore_m);

  return CLAMP (round (target_flow (design, part) / each_m3s), 1, TUBES_MOST);
}

double
rule_crown (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_OVERFLOW_TUBE_BORE) + 10 * MM;
}

double
rule_seal (const Design *design, const Part *part)
{
  return fmax (design_number (design, part, FIELD_OVERFLOW_CREST) - SEAL_UNDER_M,
               field_info (FIELD_OVERFLOW_SEAL)->min);
}

double
rule_overflow_tube_end (const Design *design, const Part *part)
{
  const double floor_m = design_number (design, part, FIELD_OVERFLOW_BOX_RIM) -
                         design_number (design, part, FIELD_OVERFLOW_BOX_DEPTH);

  return fmax (fmax (design_number (design, part, FIELD_OVERFLOW_SEAL) - COVER_M, floor_m + FLOOR_CLEAR_M),
               field_info (FIELD_OVERFLOW_TUBE_END)->min);
}

double
rule_tube_side (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_OVERFLOW_TUBE_BORE) + 20 * MM;
}
