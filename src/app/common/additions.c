/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/additions.h"

#include "design/choices.h"
#include "design/geometry.h"

#define N_(text) text

/* Fittings that a run is given; `argument` is the row. */
static const char *const fittings[] = {"union",       "ball-valve", "gate-valve",
                                       "check-valve", "bulkhead",   "strainer"};

double
addition_free_station (const Design *design, const Part *run)
{
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  double station_m = 0, best_m = 0, at_m = 0;

  geometry_run (design, run, points, n);
  for (unsigned i = 1; i < n; i++) {
    const double length_m = ABS (points[i].x - points[i - 1].x) + ABS (points[i].y - points[i - 1].y) +
                            ABS (points[i].z - points[i - 1].z);

    if (length_m > best_m) {
      best_m = length_m;
      at_m = station_m + length_m / 2;
    }
    station_m += length_m;
  }
  return at_m;
}

static Design *
add_fitting (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_add_fitting (design, key, fittings[argument],
                           addition_free_station (design, design_find (design, key)), ret_key, ret_problem);
}

static Design *
add_corner (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_add_corner (design, key, addition_free_station (design, design_find (design, key)), ret_key,
                          ret_problem);
}

static Design *
add_outlet (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_add_outlet (design, key, ret_key, ret_problem);
}

static Design *
add_fed_device (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_add_fed_device (design, key, argument, ret_key, ret_problem);
}

static Design *
divide_chamber (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_divide_chamber (design, key, ret_key, ret_problem);
}

/* A sump is divided in its widest chamber. */
static Design *
divide_sump (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  const Part *widest = NULL;

  for (unsigned i = 0; i < design_n_children (design, key, PART_CHAMBER); i++) {
    const Part *chamber = design_child (design, key, PART_CHAMBER, i);

    if (widest == NULL || geometry_inside (design, chamber).size.x > geometry_inside (design, widest).size.x)
      widest = chamber;
  }
  return edit_divide_chamber (design, widest != NULL ? part_key (widest) : "", ret_key, ret_problem);
}

static Design *
add_reservoir (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_add_reservoir (design, ret_key, ret_problem);
}

/* To a tank: as that one; to the design: as its first. */
static Design *
add_tank (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  const Part *part = key != NULL ? design_find (design, key) : NULL;

  if (part == NULL || part_kind (part) != PART_TANK)
    part = design_nth (design, PART_TANK, 0);
  return edit_add_tank (design, part_key (part), (EditFeed) argument, ret_key, ret_problem);
}

static Design *
add_overflow (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  return edit_add_overflow (design, key, ret_key, ret_problem);
}

/* To a pump: beside it; to a chamber: in it. */
static Design *
add_pump (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  const Part *part = design_find (design, key);
  const bool beside = part != NULL && part_kind (part) == PART_PUMP;

  return edit_add_pump (design, beside ? part_owner (part) : key, (EditPumpWay) argument, NULL, ret_key,
                        ret_problem);
}

static Design *
move_outside (const Design *design, const char *key, int argument, char *ret_key, Problem *ret_problem)
{
  Design *moved = edit_move_pump_outside (design, key, ret_problem);

  if (moved != NULL && ret_key != NULL)
    g_strlcpy (ret_key, key, MAX_KEY_BYTES + 1);
  return moved;
}

static const Addition additions[] = {
    {PART_TANK, N_ ("Overflow with drains"), add_overflow, 0},
    {PART_TANK, N_ ("Second tank from a tee in the return"), add_tank, EDIT_FEED_TEE},
    {PART_TANK, N_ ("Second tank with its own pump"), add_tank, EDIT_FEED_PUMP},
    {PART_OVERFLOW, N_ ("Throttled siphon"), edit_add_drain, DRAIN_SIPHON},
    {PART_OVERFLOW, N_ ("Trickle channel"), edit_add_drain, DRAIN_TRICKLE},
    {PART_OVERFLOW, N_ ("Dry emergency"), edit_add_drain, DRAIN_EMERGENCY},
    {PART_OVERFLOW, N_ ("Vented standpipe"), edit_add_drain, DRAIN_STANDPIPE},
    {PART_DRAIN, N_ ("Corner"), add_corner, 0},
    {PART_DRAIN, N_ ("Union"), add_fitting, 0},
    {PART_DRAIN, N_ ("Ball valve"), add_fitting, 1},
    {PART_DRAIN, N_ ("Gate valve"), add_fitting, 2},
    {PART_DRAIN, N_ ("Bulkhead"), add_fitting, 4},
    {PART_SUMP, N_ ("Baffle and chamber"), divide_sump, 0},
    {PART_CHAMBER, N_ ("Baffle through the middle"), divide_chamber, 0},
    {PART_CHAMBER, N_ ("Skimmer"), edit_add_device, DEVICE_SKIMMER},
    {PART_CHAMBER, N_ ("Heater"), edit_add_device, DEVICE_HEATER},
    {PART_CHAMBER, N_ ("Probe"), edit_add_device, DEVICE_PROBE},
    {PART_CHAMBER, N_ ("Reactor"), edit_add_device, DEVICE_REACTOR},
    {PART_CHAMBER, N_ ("Media"), edit_add_device, DEVICE_MEDIA},
    {PART_CHAMBER, N_ ("UV clarifier"), edit_add_device, DEVICE_UV},
    {PART_CHAMBER, N_ ("Chiller beside the sump"), edit_add_device, DEVICE_CHILLER},
    {PART_CHAMBER, N_ ("Other device"), edit_add_device, DEVICE_OTHER},
    {PART_CHAMBER, N_ ("Return pump with an outlet"), add_pump, EDIT_PUMP_OWN_OUTLET},
    {PART_PUMP, N_ ("Second pump into the same riser"), add_pump, EDIT_PUMP_JOINS},
    {PART_PUMP, N_ ("Second pump with its own outlet"), add_pump, EDIT_PUMP_OWN_OUTLET},
    {PART_PUMP, N_ ("Place beside the sump, with a valve"), move_outside, 0},
    {PART_RETURN, N_ ("Outlet with a tee"), add_outlet, 0},
    {PART_RETURN, N_ ("Branch to a reactor in the sump"), add_fed_device, DEVICE_REACTOR},
    {PART_RETURN, N_ ("Branch to a UV clarifier"), add_fed_device, DEVICE_UV},
    {PART_RETURN, N_ ("Branch to a chiller"), add_fed_device, DEVICE_CHILLER},
    {PART_RETURN, N_ ("Branch to the sump, plain pipe end"), add_fed_device, DEVICE_FEED},
    {PART_RETURN, N_ ("Corner"), add_corner, 0},
    {PART_RETURN, N_ ("Union"), add_fitting, 0},
    {PART_RETURN, N_ ("Ball valve"), add_fitting, 1},
    {PART_RETURN, N_ ("Gate valve"), add_fitting, 2},
    {PART_RETURN, N_ ("Check valve"), add_fitting, 3},
    {N_PART_KINDS, N_ ("Top-off reservoir"), add_reservoir, 0},
    {N_PART_KINDS, N_ ("Second tank from a tee in the return"), add_tank, EDIT_FEED_TEE},
    {N_PART_KINDS, N_ ("Second tank with its own pump"), add_tank, EDIT_FEED_PUMP},
};

const Addition *
addition_nth (unsigned n)
{
  return n < G_N_ELEMENTS (additions) ? &additions[n] : NULL;
}
