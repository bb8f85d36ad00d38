/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The hang-over siphon box: what hangs behind the pane, and the tubes over the rim. */
#include <math.h>

#include "design/choices.h"
#include "design/geometry-private.h"

bool
geometry_hangs_over (const Design *design, const Part *overflow)
{
  return design_choice (design, overflow, FIELD_OVERFLOW_KIND) == OVERFLOW_HANG_OVER;
}

Box3
geometry_tube_side (const Design *design, const Part *overflow)
{
  Box3 box = geometry_drain_box (design, overflow);

  if (!geometry_hangs_over (design, overflow))
    return (Box3){.origin = box.origin};
  box.size.y = design_number (design, overflow, FIELD_OVERFLOW_TUBE_SIDE);
  box.origin.y -= design_number (design, overflow, FIELD_OVERFLOW_WALL) + box.size.y;
  return box;
}

double
geometry_seal (const Design *design, const Part *overflow)
{
  return geometry_stand_top (design) + design_number (design, overflow, FIELD_OVERFLOW_SEAL);
}

double
geometry_crown (const Design *design, const Part *overflow)
{
  const Part *tank = design_owner (design, overflow);

  return geometry_stand_top (design) + (tank != NULL ? design_number (design, tank, FIELD_TANK_HEIGHT) : 0) +
         design_number (design, overflow, FIELD_OVERFLOW_CROWN);
}

unsigned
geometry_tubes (const Design *design, const Part *overflow)
{
  return geometry_hangs_over (design, overflow)
             ? (unsigned) fmax (1, round (design_number (design, overflow, FIELD_OVERFLOW_TUBES)))
             : 0;
}

void
geometry_tube (const Design *design, const Part *overflow, unsigned tube, Point3 points[GEOMETRY_TUBE_POINTS])
{
  const Box3 inner = geometry_inside (design, overflow), outer = geometry_tube_side (design, overflow);
  const unsigned n = MAX (geometry_tubes (design, overflow), 1);
  const double bore_m = design_number (design, overflow, FIELD_OVERFLOW_TUBE_BORE);
  const double x = inner.origin.x + inner.size.x * (tube + 0.5) / n;
  const double end_z =
      geometry_stand_top (design) + design_number (design, overflow, FIELD_OVERFLOW_TUBE_END);
  const double axis_z = geometry_crown (design, overflow) - bore_m / 2;
  const double in_y = inner.origin.y + inner.size.y / 2, out_y = outer.origin.y + outer.size.y / 2;

  points[0] = (Point3){x, in_y, end_z};
  points[1] = (Point3){x, in_y, axis_z};
  points[2] = (Point3){x, out_y, axis_z};
  points[3] = (Point3){x, out_y, end_z};
}
