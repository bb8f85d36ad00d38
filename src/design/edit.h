/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Edits that touch more than one part, as pure functions from a design to a design: adding a thing with all that it
 * needs, and removing it so that what is left still hangs together. Every view that adds or removes uses these.
 * They return the new design, or NULL with the problem, and never change the one they are given. Where an edit adds a
 * part, its key is written to `ret_key` (room for MAX_KEY_BYTES + 1 bytes, may be NULL), only on success. */
#pragma once

#include "design/catalogue.h"
#include "design/draft.h"
#include "design/geometry.h"

/* Gives a part a label, or takes it away again where `label` is NULL or empty. */
Design *edit_rename (const Design *design, const char *key, const char *label, Problem *ret_problem);

/* A fitting of a catalogue key ("union", "gate-valve") on a run, `station_m` from its start. */
Design *edit_add_fitting (const Design *design, const char *run, const char *type, double station_m,
                          char *ret_key, Problem *ret_problem);

/* A corner on a run, `station_m` from its start, where the run passes already: the water takes the same way until the
 * corner is moved. It gives only the coordinates in which it differs from the point before. */
Design *edit_add_corner (const Design *design, const char *run, double station_m, char *ret_key,
                         Problem *ret_problem);

/* Moves a corner to a point, with the corners beside it where the pieces between lie along an axis, so that what was square
 * stays square. Along an axis in which a port would have to move too it stays; PROBLEM_HELD where that is so in all. */
Design *edit_move_corner (const Design *design, const char *corner, Point3 to, Problem *ret_problem);

/* Carries the corners of runs along whose ends have moved from `before` to `after` (a tank, overflow, sump, pump or outlet
 * that was moved), so that pieces along an axis stay along it: the corners that share a coordinate with the moved end. A
 * tee over a riser goes with it; a drain that leads aside ends over the same place in the sump. A drain
 * that is led along a wall, as seen from above, turns aside along the other with the same fall. A return
 * run whose ends hold one coordinate and move apart gets a piece across at its highest corner, with two corners where it has
 * none; coming back together takes it out. Where the result would not be a design it is left as in `after`. Never NULL;
 * owned. */
Design *edit_carry_corners (const Design *before, Design *after);

/* Takes out the corners of a run that turned the pipe in `before` and turn it no more, and `made` (a corner, may be NULL)
 * where it turns nothing. Never NULL; owned. */
Design *edit_drop_straight (const Design *before, Design *after, const char *run, const char *made);

/* The field that has the pipe size of a drain or return run. */
FieldId edit_size_field (const Part *run);

/* Gives a run the pipe of a catalogue key; PROBLEM_NO_SUCH_PIPE where the catalogue does not have it. */
Design *edit_set_pipe (const Design *design, const Catalogue *catalogue, const char *run, const char *size,
                       Problem *ret_problem);

/* Gives a run the pipe `steps` sizes up (below 0: down) in the series of its own. PROBLEM_THINNEST_PIPE and
 * PROBLEM_THICKEST_PIPE beyond the ends. */
Design *edit_step_pipe (const Design *design, const Catalogue *catalogue, const char *run, int steps,
                        Problem *ret_problem);

/* A device of a kind (DeviceKind) in a chamber. */
Design *edit_add_device (const Design *design, const char *chamber, int kind, char *ret_key,
                         Problem *ret_problem);

/* A device or pump in the sump that stands with its middle in another chamber is given to that one, where it stands: what it
 * says of water is of the chamber it is in. `key` may be any part; the rest is left as it is. Never NULL; owned. */
Design *edit_settle (Design *design, const char *key);

/* Divides a chamber by a baffle in its middle: one chamber and one baffle more. What stands in the chamber stays in
 * it; the new chamber lies behind it as the water flows, before it where it is the return chamber. Other baffles stay
 * where they are, but where none has a given place they all spread evenly again. `ret_key` is the new baffle. */
Design *edit_divide_chamber (const Design *design, const char *chamber, char *ret_key, Problem *ret_problem);

/* A drain of a role (DrainRole) in an overflow. A siphon comes with its valve. */
Design *edit_add_drain (const Design *design, const char *overflow, int role, char *ret_key,
                        Problem *ret_problem);

/* One more outlet, fed by a tee in a return run. The tee takes the place of the run's highest corner, else the middle
 * of its last piece; what lies behind it becomes a run of its own, and a new run leads from the tee to the new outlet,
 * which hangs in the widest gap between the outlets of that tank. The way of the water to the old outlet is the same.
 * `ret_key` is the new outlet. */
Design *edit_add_outlet (const Design *design, const char *run, char *ret_key, Problem *ret_problem);

/* The same with the tee `station_m` from the run's start (NAN: as edit_add_outlet) and the outlet in a tank of one's own
 * choice (NULL: as edit_add_outlet). The new pipe goes up behind the tanks, along the edge and forward over its mouth. */
Design *edit_add_branch (const Design *design, const char *run, double station_m, const char *tank,
                         char *ret_key, Problem *ret_problem);

/* A branch of a return run to a device in the sump, whose water goes back to its chamber: a tee `station_m` from the run's
 * start (NAN: where it comes clear of the sump), a run of the same pipe over the device and down on it, and a gate valve,
 * a quarter open, after the tee. `ret_key` is the new run. */
Design *edit_add_feed (const Design *design, const char *run, double station_m, const char *device,
                       char *ret_key, Problem *ret_problem);

/* The same with a new device of a kind (DeviceKind), which stands in the chamber with the widest room, in that of a pump only
 * where no other has any; a chiller beside the sump. PROBLEM_NO_ROOM where none has. `ret_key` is the device. */
Design *edit_add_fed_device (const Design *design, const char *run, int kind, char *ret_key,
                             Problem *ret_problem);

/* How a further tank or pump is fed. */
typedef enum {
  EDIT_FEED_TEE, /* from a tee in the return run of the model, with a valve to balance the tanks by */
  EDIT_FEED_PUMP /* by a pump of its own, as that of the model, in the same chamber */
} EditFeed;

typedef enum {
  EDIT_PUMP_JOINS,     /* into the riser of the pump that is there, each with a check valve of its own */
  EDIT_PUMP_OWN_OUTLET /* with a run and an outlet of its own */
} EditPumpWay;

/* One more display tank on the same sump, as the tank `model` with its first overflow and the drains of that; the drains
 * lead to the same chamber. Assumed: it stands on the stand beside the others, shorter if it must be but at least 0.4 m;
 * where the stand has no such room, beside it on a stand of its own of the same height, which is not part of the design.
 * `ret_key` is the tank. PROBLEM_MISSING_PART where no pump feeds the model. */
Design *edit_add_tank (const Design *design, const char *model, EditFeed feed, char *ret_key,
                       Problem *ret_problem);

/* One more overflow in a tank, as its first (else the design's first), with the drains of that, in the widest gap along
 * its back; its crest lies at the same height, so both run. PROBLEM_NO_ROOM below 0.1 m of box. */
Design *edit_add_overflow (const Design *design, const char *tank, char *ret_key, Problem *ret_problem);

/* One more return pump in a chamber, as the first there (else the design's first). It stands in the widest gap between
 * pumps and devices; where none is wide enough, at the far end: one behind the other. `tank` is where an outlet of its own
 * hangs (NULL: the tank of the first outlet). Removing the pump takes the joint out of the pipe again. */
Design *edit_add_pump (const Design *design, const char *chamber, EditPumpWay way, const char *tank,
                       char *ret_key, Problem *ret_problem);

/* Sets a pump beside the sump, at the end that is nearer to its chamber, with a ball valve after it to take it out by;
 * its suction then passes the pane, at its suction height and bore. */
Design *edit_move_pump_outside (const Design *design, const char *pump, Problem *ret_problem);

/* The top-off reservoir; a design has at most one. */
Design *edit_add_reservoir (const Design *design, char *ret_key, Problem *ret_problem);

/* A pump takes curve, power and size of a pump of the catalogue; its label becomes the name of that pump. */
Design *edit_take_pump (const Design *design, const char *pump, const PumpType *type, Problem *ret_problem);

/* One more of a part with what it owns, beside it: a device, fitting, drain, outlet or overflow in the same place, a tank
 * fed by a tee, a pump with an outlet of its own, a chamber divided, a candidate pump. PROBLEM_NOT_COPIED for the rest. */
Design *edit_duplicate (const Design *design, const char *key, char *ret_key, Problem *ret_problem);

/* True when edit_duplicate could do it: for buttons. */
bool edit_can_duplicate (const Design *design, const char *key);

/* Removes a part and what cannot be without it:
 *   chamber   with the baffle on its left (the first: on its right) and the devices in it, with the runs that
 *             feed them
 *   baffle    the two chambers beside it become one, named as the one that has the pump, else the left one
 *   outlet, or the run that leads to it: both; a tee that is left with one run is taken out of the pipe
 *   device    with the runs that feed it; the run to a device alone: the device stays
 *   corner    the rest of the run stays where it is
 *   pump      with its runs, and the tees and outlets that no other pump feeds
 *   others    with all that they own
 * PROBLEM_HAS_CHILDREN where a pump stands in a chamber that would go, or runs leave a tee; PROBLEM_MISSING_PART where
 * the design needs it. */
Design *edit_remove (const Design *design, const char *key, Problem *ret_problem);

/* True when edit_remove could do it: for buttons. */
bool edit_can_remove (const Design *design, const char *key);
