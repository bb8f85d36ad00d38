/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the two halves of geometry (vessels, runs) share. */
#pragma once

#include "design/geometry.h"

double geometry_stand_top (const Design *design);
Box3 geometry_first_sump_inside (const Design *design);
Box3 geometry_tank_inside (const Design *design, const Part *tank);
Box3 geometry_pump_box (const Design *design, const Part *pump);

Point3 geometry_corner_point (const Design *design, const Part *corner);
Point3 geometry_tee_point (const Design *design, const Part *tee);
Point3 geometry_outlet_point (const Design *design, const Part *outlet);
