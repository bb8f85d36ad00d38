/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the files of the edits share: edit.c (parts), edit-runs.c (pipes), edit-branches.c (tees and outlets),
 * edit-feeds.c (branches to devices), edit-ways.c (where there is room, and how a new pipe runs), edit-tanks.c, edit-pumps.c. Inside the design folder only. */
#pragma once

#include "design/edit.h"
#include "design/geometry.h"

/* Coordinates nearer than this are the same to a plumber. */
#define SAME_M 0.001

/* Commits a draft where `ok`, frees it, and hands out the key of the part that was added. */
Design *edit_finish (Draft *draft, bool ok, const char *key, char *ret_key, Problem *ret_problem);

/* The part of this key and kind, or NULL with the problem. */
const Part *edit_find (const Design *design, const char *key, PartKind kind, Problem *ret_problem);

/* Copies every given field of a part to another part of the same kind in the draft. */
bool edit_copy_fields (Draft *draft, const Part *from, const char *to, Problem *ret_problem);

/* The same for some fields. */
bool edit_copy_some (Draft *draft, const Part *from, const char *to, const FieldId *fields, unsigned n,
                     Problem *ret_problem);

/* Place of a part among all of its kind. */
unsigned edit_place (const Design *design, const Part *part);

/* Hands a whole design on, with the key of what was added to it. */
Design *edit_give (Design *design, const char *key, char *ret_key);

/* edit-runs.c */
extern const FieldId edit_corner_fields[3], edit_tee_fields[3];

double edit_distance (Point3 a, Point3 b);

/* The drain or return run of this key, or NULL with the problem. */
const Part *edit_find_run (const Design *design, const char *key, Problem *ret_problem);

/* Sets those coordinates of a corner or tee in which `point` differs from `before`; all of them where it is NULL. */
bool edit_set_point (Draft *draft, const char *key, const FieldId fields[3], Point3 point,
                     const Point3 *before, Problem *ret_problem);

/* Copies corners (from the n-th on) and fittings (from a station on, which become `add_m` more) of one run to another in
 * the draft; a corner's unknown coordinates are given, as the point before it may be another one there. */
bool edit_copy_run (Draft *draft, const Design *design, const Part *from, unsigned first_corner,
                    double from_station_m, const char *to, double add_m, Problem *ret_problem);

/* Removes corners (from the n-th on) and fittings (from a station on) of a run. */
bool edit_cut_run (Draft *draft, const Design *design, const Part *run, unsigned first_corner,
                   double station_m, Problem *ret_problem);

/* A fitting in a draft. */
bool edit_put_fitting (Draft *draft, const char *run, const char *type, double station_m,
                       Problem *ret_problem);

Design *edit_remove_corner (const Design *design, const Part *corner, Problem *ret_problem);

/* edit-branches.c */

/* Cuts a return run `station_m` from its start (NAN: at its highest corner, else in the middle of its last piece) by a
 * tee: what lies behind becomes a run of its own to the old end. The keys are owned by the draft. */
bool edit_split_run (Draft *draft, const Design *design, const Part *run, double station_m, Point3 *ret_point,
                     const char **ret_tee, Problem *ret_problem);

/* An outlet without a run in a tank, as the model (NULL: as usual) is, in the widest gap between those that are there. */
Design *edit_hang_outlet (const Design *design, const Part *tank, const Part *model, char *ret_key,
                          Problem *ret_problem);

/* The first run that ends at an outlet or tee, or NULL, and how many do. */
const Part *edit_run_to (const Design *design, const Part *end, unsigned *ret_count);

/* Takes every tee that has one run in and one run out out of the pipe. */
Design *edit_join_tees (const Design *design, Problem *ret_problem);
Design *edit_remove_outlet (const Design *design, const Part *outlet, Problem *ret_problem);

/* Removes a run that leads to a device, and takes its tee out of the pipe; the device stays. */
Design *edit_remove_branch (const Design *design, const Part *run, Problem *ret_problem);

/* edit-feeds.c: a device with the runs that lead to it. */
Design *edit_remove_device (const Design *design, const Part *device, Problem *ret_problem);
Design *edit_unfeed (const Design *design, const char *device,
                     Problem *ret_problem); /* takes those runs away */

/* edit-route.c */
#define SQUARE_M 0.0005 /* less than the finest step of a hand */

/* What lies behind a place on a run goes along by so much, and keeps its distance from the end. */
bool edit_shift_fittings (Draft *draft, const Design *design, const Part *run, double from_m, double by_m);

/* Adds a corner at a point before the run's corner of that number. */
bool edit_add_corner_at (Draft *draft, const Design *design, const char *run, unsigned number, Point3 point);

/* edit-falls.c: drains go across along an axis, with a fall. Where the ends of such a piece have moved apart across it, the
 * piece beside it takes that up, or one more does, with the same fall. Takes `design` over. */
Design *edit_square_falls (const Design *before, Design *design, const char *drain);

/* edit-ways.c */
typedef struct {
  double from, to;
} EditSpan;

/* The widest part of a span that none of the others takes; they are sorted by it. Its ends are equal where all is taken. */
EditSpan edit_widest_gap (EditSpan whole, EditSpan *taken, unsigned n);

/* Lays corners along the points of a way from `from` to `end`, leaving out those that lie where the pipe is already. */
bool edit_lay (Draft *draft, const char *run, Point3 from, const Point3 *way, unsigned n, Point3 end,
               Problem *ret_problem);

#define EDIT_WAY_MOST 5

/* The way from a point to above an outlet: up behind the tanks where it starts lower, along the edge, forward over the
 * mouth. `aside_m` keeps it clear of pipes that went there before. Returns the number of points. */
unsigned edit_way_to_outlet (const Design *design, const Part *outlet, Point3 from, double aside_m,
                             Point3 way[EDIT_WAY_MOST]);

/* Leads drains that go straight down to their chamber: down under the stand's top, across with a fall of 2 %, down. Those
 * already over their chamber stay. `only` is the one to lead, or NULL for all of the overflow. */
Design *edit_lead_drains (const Design *design, const char *overflow, const char *only, Problem *ret_problem);

/* Fittings of a drain of one design on a drain of another: those near its mouth keep their distance from it, the others
 * their share of the way. A valve is to be set anew unless its opening is copied. */
bool edit_copy_fittings (Draft *draft, const Design *from, const Part *drain, const Design *design,
                         const Part *to, bool with_opening, Problem *ret_problem);

/* edit-tanks.c: an overflow with its drains, as `model`, in a tank. */
Design *edit_copy_overflow (const Design *design, const Part *model, const char *tank, char *ret_key,
                            Problem *ret_problem);

/* edit-pumps.c */

/* The widest room in a chamber beside its pumps and devices, from its left. */
EditSpan edit_gap_in_chamber (const Design *design, const Part *chamber);

/* Place of one more thing in a chamber, from its left: in the widest gap between pumps and devices, and where it does not
 * fit there, at the end that is farther from the first of them: they then stand one behind the other. */
double edit_place_in_chamber (const Design *design, const Part *chamber, double length_m);
Design *edit_remove_pump (const Design *design, const Part *pump, Problem *ret_problem);
