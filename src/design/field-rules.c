/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/field-rules.h"

#include <math.h>

#include "design/choices.h"
#include "design/geometry.h"

#define MM 0.001

/* A field of the first part of a kind; the smallest number allowed keeps a half-made draft finite. */
static double
first_number (const Design *design, PartKind kind, FieldId field)
{
  const Part *part = design_nth (design, kind, 0);

  return part != NULL ? design_number (design, part, field) : field_info (field)->min;
}

static double
owner_number (const Design *design, const Part *part, FieldId field)
{
  const Part *owner = design_owner (design, part);

  return owner != NULL && part_kind (owner) == field_info (field)->kind ? design_number (design, owner, field)
                                                                        : field_info (field)->min;
}

/* Place of a part among the children of its owner, and how many there are. */
static unsigned
place_among (const Design *design, const Part *part, unsigned *ret_n)
{
  const PartKind kind = part_kind (part);
  unsigned place = 0;

  *ret_n = design_n_children (design, part_owner (part), kind);
  while (place < *ret_n && design_child (design, part_owner (part), kind, place) != part)
    place++;
  return place;
}

static double
tank_inside_length (const Design *design, const Part *tank)
{
  return tank == NULL ? 0.1
                      : design_number (design, tank, FIELD_TANK_LENGTH) -
                            2 * design_number (design, tank, FIELD_TANK_GLASS);
}

static double
sump_inside_length (const Design *design)
{
  return first_number (design, PART_SUMP, FIELD_SUMP_LENGTH) -
         2 * first_number (design, PART_SUMP, FIELD_SUMP_GLASS);
}

static double
sump_inside_height (const Design *design)
{
  return first_number (design, PART_SUMP, FIELD_SUMP_HEIGHT) -
         first_number (design, PART_SUMP, FIELD_SUMP_BOTTOM);
}

/* Job */

double
rule_paper (const Design *design, const Part *part)
{
  return design_choice (design, part, FIELD_JOB_UNITS) == UNITS_CHOICE_US ? PAPER_LETTER : PAPER_A4;
}

double
rule_turnover (const Design *design, const Part *part)
{
  const double volume_m3 = first_number (design, PART_TANK, FIELD_TANK_LENGTH) *
                           first_number (design, PART_TANK, FIELD_TANK_WIDTH) *
                           first_number (design, PART_TANK, FIELD_TANK_HEIGHT);

  return volume_m3 > 2.0 ? 3.0 : 5.0;
}

/* Stand */

double
rule_door_width (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_STAND_LENGTH) - 100 * MM;
}

double
rule_door_height (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_STAND_HEIGHT) - 50 * MM;
}

double
rule_socket_height (const Design *design, const Part *part)
{
  return 0.85 * design_number (design, part, FIELD_STAND_HEIGHT);
}

/* Tank */

double
rule_tank_glass (const Design *design, const Part *part)
{
  return fmax (6 * MM, ceil (design_number (design, part, FIELD_TANK_HEIGHT) / 50 / MM - 1e-9) * MM);
}

double
rule_tank_bottom (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_TANK_GLASS);
}

double
rule_tank_rim (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_TANK_HEIGHT);
}

double
rule_tank_x (const Design *design, const Part *part)
{
  return (first_number (design, PART_STAND, FIELD_STAND_LENGTH) -
          design_number (design, part, FIELD_TANK_LENGTH)) /
         2;
}

double
rule_tank_y (const Design *design, const Part *part)
{
  return (first_number (design, PART_STAND, FIELD_STAND_WIDTH) -
          design_number (design, part, FIELD_TANK_WIDTH)) /
         2;
}

/* Overflow */

double
rule_crest (const Design *design, const Part *part)
{
  return owner_number (design, part, FIELD_TANK_RIM) - 40 * MM;
}

double
rule_box_length (const Design *design, const Part *part)
{
  const double inside_m = tank_inside_length (design, design_owner (design, part));

  return fmin (fmin (fmax (inside_m / 3, 150 * MM), 500 * MM), inside_m);
}

double
rule_crest_length (const Design *design, const Part *part)
{
  return design_number (design, part, FIELD_OVERFLOW_BOX_LENGTH);
}

double
rule_box_rim (const Design *design, const Part *part)
{
  return owner_number (design, part, FIELD_TANK_RIM);
}

double
rule_box_depth (const Design *design, const Part *part)
{
  const double room_m =
      owner_number (design, part, FIELD_TANK_RIM) - owner_number (design, part, FIELD_TANK_BOTTOM);

  return fmin (250 * MM, room_m - 20 * MM);
}

double
rule_box_x (const Design *design, const Part *part)
{
  return (tank_inside_length (design, design_owner (design, part)) -
          design_number (design, part, FIELD_OVERFLOW_BOX_LENGTH)) /
         2;
}

/* Drain */

/* Level at which the box is meant to stand: 35 mm under the crest, or a little under the wall that holds the seal. */
static double
box_level (const Design *design, const Part *drain)
{
  const Part *overflow = design_owner (design, drain);

  if (overflow != NULL && design_choice (design, overflow, FIELD_OVERFLOW_KIND) == OVERFLOW_HANG_OVER)
    return design_number (design, overflow, FIELD_OVERFLOW_SEAL) - 35 * MM;
  return owner_number (design, drain, FIELD_OVERFLOW_CREST) - 35 * MM;
}

double
rule_mouth (const Design *design, const Part *part)
{
  const double level_m = box_level (design, part);
  const double floor_m = owner_number (design, part, FIELD_OVERFLOW_BOX_RIM) -
                         owner_number (design, part, FIELD_OVERFLOW_BOX_DEPTH);

  switch ((DrainRole) design_choice (design, part, FIELD_DRAIN_ROLE)) {
  case DRAIN_SIPHON:
    return fmax (fmin (level_m - 20 * MM, floor_m + 40 * MM), level_m - 120 * MM);
  case DRAIN_TRICKLE:
    return level_m;
  case DRAIN_EMERGENCY:
    return level_m + 20 * MM;
  case DRAIN_STANDPIPE:
  default:
    return level_m - 25 * MM;
  }
}

double
rule_mouth_x (const Design *design, const Part *part)
{
  unsigned n;
  const unsigned place = place_among (design, part, &n);

  return owner_number (design, part, FIELD_OVERFLOW_BOX_LENGTH) * (place + 0.5) / MAX (n, 1);
}

double
rule_mouth_y (const Design *design, const Part *part)
{
  return owner_number (design, part, FIELD_OVERFLOW_BOX_WIDTH) / 2;
}

/* Surface of the chamber that a drain runs into: the edge of the baffle it runs over, else the running level. */
static double
inlet_level (const Design *design, const Part *chamber)
{
  const Part *baffle = chamber != NULL ? geometry_baffle_right (design, chamber) : NULL;
  const Part *pump = design_nth (design, PART_PUMP, 0);
  const Part *pumped = pump != NULL ? design_owner (design, pump) : NULL;

  if (baffle != NULL && design_choice (design, baffle, FIELD_BAFFLE_KIND) == BAFFLE_OVER)
    return design_number (design, baffle, FIELD_BAFFLE_HEIGHT);
  return pumped != NULL ? design_number (design, pumped, FIELD_CHAMBER_LEVEL) : 0.2;
}

double
rule_drain_end (const Design *design, const Part *part)
{
  if (design_choice (design, part, FIELD_DRAIN_ROLE) == DRAIN_EMERGENCY)
    return sump_inside_height (design);
  return inlet_level (design, design_target (design, part, FIELD_DRAIN_TO)) - 15 * MM;
}

const char *
rule_inlet_chamber (const Design *design, const Part *part)
{
  const Part *chamber = design_nth (design, PART_CHAMBER, 0);

  for (unsigned i = 0; i < design_count (design, PART_CHAMBER); i++) {
    const Part *each = design_nth (design, PART_CHAMBER, i);

    if (design_choice (design, each, FIELD_CHAMBER_ROLE) == CHAMBER_INLET) {
      chamber = each;
      break;
    }
  }
  return chamber != NULL ? part_key (chamber) : NULL;
}

/* Sump: as large as stand and door let in, beside a reservoir where there is one. */

double
rule_sump_length (const Design *design, const Part *part)
{
  const Part *reservoir = design_nth (design, PART_RESERVOIR, 0);
  double room_m = first_number (design, PART_STAND, FIELD_STAND_LENGTH) - 20 * MM;

  if (reservoir != NULL)
    room_m -= design_number (design, reservoir, FIELD_RESERVOIR_LENGTH) + 10 * MM;
  return fmin (room_m, first_number (design, PART_STAND, FIELD_STAND_DOOR_WIDTH) - 20 * MM);
}

double
rule_sump_width (const Design *design, const Part *part)
{
  return first_number (design, PART_STAND, FIELD_STAND_WIDTH) - 35 * MM;
}

double
rule_sump_height (const Design *design, const Part *part)
{
  return fmin (fmin (0.55 * first_number (design, PART_STAND, FIELD_STAND_HEIGHT), 450 * MM),
               first_number (design, PART_STAND, FIELD_STAND_DOOR_HEIGHT) - 10 * MM);
}

double
rule_running_level (const Design *design, const Part *part)
{
  const Part *baffle = geometry_baffle_left (design, part);
  double level_m = 0.45 * sump_inside_height (design);

  if (baffle != NULL)
    level_m = fmin (level_m, design_number (design, baffle, FIELD_BAFFLE_HEIGHT) - 30 * MM);
  return level_m;
}

double
rule_bypass_lip (const Design *design, const Part *part)
{
  return fmax (sump_inside_height (design) - 50 * MM, 20 * MM);
}

double
rule_baffle_x (const Design *design, const Part *part)
{
  unsigned n;
  const unsigned place = place_among (design, part, &n);

  return sump_inside_length (design) * (place + 1) / (n + 1);
}

double
rule_baffle_height (const Design *design, const Part *part)
{
  const bool under = design_choice (design, part, FIELD_BAFFLE_KIND) == BAFFLE_UNDER;

  return (under ? 0.7 : 0.6) * sump_inside_height (design);
}

double
rule_baffle_gap (const Design *design, const Part *part)
{
  return design_choice (design, part, FIELD_BAFFLE_KIND) == BAFFLE_UNDER ? 40 * MM : 0;
}

/* Pump, runs and outlets */

static double
owner_width (const Design *design, const Part *part)
{
  const Part *chamber = design_owner (design, part);

  return chamber != NULL ? geometry_inside (design, chamber).size.x : 0;
}

double
rule_pump_x (const Design *design, const Part *part)
{
  const double width_m = owner_width (design, part);

  if (design_choice (design, part, FIELD_PUMP_PLACING) == PUMP_OUTSIDE)
    return width_m + first_number (design, PART_SUMP, FIELD_SUMP_GLASS) + 50 * MM;
  return (width_m - design_number (design, part, FIELD_PUMP_LENGTH)) / 2;
}

const char *
rule_first_outlet (const Design *design, const Part *part)
{
  const Part *outlet = design_nth (design, PART_OUTLET, 0);

  return outlet != NULL ? part_key (outlet) : NULL;
}

double
rule_outlet_x (const Design *design, const Part *part)
{
  unsigned n;
  const unsigned place = place_among (design, part, &n);
  const double share = n > 1 ? 0.15 + 0.7 * place / (n - 1) : 0.15;

  return share * tank_inside_length (design, design_owner (design, part));
}

double
rule_outlet_y (const Design *design, const Part *part)
{
  return owner_number (design, part, FIELD_TANK_WIDTH) - 2 * owner_number (design, part, FIELD_TANK_GLASS) -
         60 * MM;
}

/* Crest of the first overflow of the tank of an outlet. */
static double
crest_of (const Design *design, const Part *outlet)
{
  const Part *overflow = design_child (design, part_owner (outlet), PART_OVERFLOW, 0);

  return overflow != NULL ? design_number (design, overflow, FIELD_OVERFLOW_CREST)
                          : owner_number (design, outlet, FIELD_TANK_RIM) - 40 * MM;
}

double
rule_outlet_height (const Design *design, const Part *part)
{
  return crest_of (design, part) - 40 * MM;
}

double
rule_break_height (const Design *design, const Part *part)
{
  return crest_of (design, part);
}

/* Corners and tees: a coordinate left open is that of the point before. */

double
rule_before_x (const Design *design, const Part *part)
{
  return geometry_before (design, part).x;
}

double
rule_before_y (const Design *design, const Part *part)
{
  return geometry_before (design, part).y;
}

double
rule_before_z (const Design *design, const Part *part)
{
  return geometry_before (design, part).z;
}

double
rule_opening (const Design *design, const Part *part)
{
  const Part *run = design_owner (design, part);
  const char *type = design_text (design, part, FIELD_FITTING_TYPE);
  const bool throttle = g_str_has_suffix (type, "-valve") && !g_str_has_prefix (type, "check");

  return throttle && run != NULL && part_kind (run) == PART_DRAIN &&
                 design_choice (design, run, FIELD_DRAIN_ROLE) == DRAIN_SIPHON
             ? 0.5
             : 1.0;
}

/* Reservoir: beside the sump. */

double
rule_reservoir_x (const Design *design, const Part *part)
{
  return first_number (design, PART_SUMP, FIELD_SUMP_X) +
         first_number (design, PART_SUMP, FIELD_SUMP_LENGTH) + 10 * MM;
}

double
rule_reservoir_volume (const Design *design, const Part *part)
{
  return 0.9 * design_number (design, part, FIELD_RESERVOIR_LENGTH) *
         design_number (design, part, FIELD_RESERVOIR_WIDTH) *
         design_number (design, part, FIELD_RESERVOIR_HEIGHT);
}

double
rule_tube_end (const Design *design, const Part *part)
{
  return fmax (sump_inside_height (design) + 20 * MM,
               design_number (design, part, FIELD_RESERVOIR_HEIGHT) -
                   first_number (design, PART_SUMP, FIELD_SUMP_BOTTOM) + 10 * MM);
}
