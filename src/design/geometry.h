/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Measures derived from a design and stored nowhere: levels above the room floor, inside sizes, chamber widths and the
 * polylines of runs. Drawing and solver both read them here, so they cannot disagree. Metres. */
#pragma once

#include "design/design.h"

typedef struct {
  double x, y, z;
} Point3;

/* An upright box: lowest corner and size. */
typedef struct {
  Point3 origin;
  Point3 size;
} Box3;

/* Outside and inside of a vessel (tank, sump, overflow box, reservoir) or the outline of a stand, pump or device.
 * A chamber has only an inside. For a tank and a sump the inside reaches up to the rim (tank: the underside of its
 * rim or brace); for an overflow box up to its own rim. */
Box3 geometry_outside (const Design *design, const Part *part);
Box3 geometry_inside (const Design *design, const Part *part);

/* Height above the room floor of the zero of a part's height fields: the underside of the tank for tank, overflow,
 * drain mouth and outlet; the sump's inside bottom for sump, chamber, baffle, device, pump; else the room floor. */
double geometry_datum (const Design *design, const Part *part);

/* Inside width of a chamber along x, its plan area, and the two baffles beside it (NULL at the end panes). */
double geometry_chamber_area (const Design *design, const Part *chamber);
const Part *geometry_baffle_left (const Design *design, const Part *chamber);
const Part *geometry_baffle_right (const Design *design, const Part *chamber);

/* Inside of the box of an overflow in which the drains stand: the outer box of a pair, the drain side of a hang-over
 * siphon box, else geometry_inside. */
Box3 geometry_drain_box (const Design *design, const Part *overflow);

/* Of a hang-over siphon box: whether an overflow is one; inside of its tube side, between the pane and the wall that holds
 * the seal; top of that wall; highest point inside its tubes; how many there are (0 of another kind); and the axis of
 * one, from its end in the tank over the rim to its end behind. */
#define GEOMETRY_TUBE_POINTS 4
bool geometry_hangs_over (const Design *design, const Part *overflow);
Box3 geometry_tube_side (const Design *design, const Part *overflow);
double geometry_seal (const Design *design, const Part *overflow);
double geometry_crown (const Design *design, const Part *overflow);
unsigned geometry_tubes (const Design *design, const Part *overflow);
void geometry_tube (const Design *design, const Part *overflow, unsigned tube,
                    Point3 points[GEOMETRY_TUBE_POINTS]);

/* The polyline of a run (drain or return): both ports and the corners between them, at most `max` points.
 * Returns the number of points of the run, which may exceed `max`. */
unsigned geometry_run (const Design *design, const Part *run, Point3 *points, unsigned max);

/* Length of a run, and the angle (radians, 0 = straight) of the bend at point i. */
double geometry_run_length (const Design *design, const Part *run);
double geometry_bend (const Point3 *points, unsigned n, unsigned i);

/* The point of its run before a corner, or before a tee on the run that feeds it: what an unknown coordinate takes. */
Point3 geometry_before (const Design *design, const Part *part);

/* The point at `station` metres along a run from its start, and the index of its segment (may be NULL); of a run whose n
 * points (at least 2) are at hand, and of one that has to be looked at. */
Point3 geometry_along (const Point3 *points, unsigned n, double station, unsigned *ret_segment);
Point3 geometry_run_at (const Design *design, const Part *run, double station, unsigned *ret_segment);

/* Crest of an overflow, mouth (lip) and end of a drain, centre of an outlet, centre of its siphon break: z. */
double geometry_crest (const Design *design, const Part *overflow);
double geometry_mouth (const Design *design, const Part *drain);
double geometry_drain_end (const Design *design, const Part *drain);
double geometry_outlet (const Design *design, const Part *outlet);
double geometry_break (const Design *design, const Part *outlet);
