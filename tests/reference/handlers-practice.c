/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/heat.h"
#include "hydraulics/tank.h"
#include "hydraulics/water.h"
#include "units/quantity.h"

static HydraulicsStatus
run_water_mass (Given *given, double *ret_got)
{
  return water_mass (given_number (given, "volume_m3"), given_number (given, "density_kg_per_m3"), ret_got);
}

static HydraulicsStatus
run_tank_volume (Given *given, double *ret_got)
{
  TankBox box = {
      .outside_length_m = given_number (given, "outside_length_m"),
      .outside_width_m = given_number (given, "outside_width_m"),
      .outside_height_m = given_number (given, "outside_height_m"),
      .pane_thickness_m = given_number (given, "glass_thickness_m"),
      .bottom_thickness_m = given_number (given, "bottom_thickness_m"),
  };

  return tank_water_volume (&box, given_number (given, "fill_height_m"), ret_got);
}

static HydraulicsStatus
run_evaporation_days (Given *given, double *ret_got)
{
  return heat_reservoir_days (given_number (given, "reservoir_volume_m3"),
                              given_number (given, "evaporation_kg_per_s"),
                              given_number (given, "density_kg_per_m3"), ret_got);
}

static HydraulicsStatus
run_unit_convert (Given *given, double *ret_got)
{
  const char *from = given_word (given, "from"), *to = given_word (given, "to");

  switch (units_convert_words (given_number (given, "value"), from, to, ret_got)) {
  case UNITS_CONVERT_OK:
    return HYDRAULICS_OK;
  case UNITS_CONVERT_UNKNOWN_FROM:
    given_complain (given, "unknown unit \"%s\"", from);
    break;
  case UNITS_CONVERT_UNKNOWN_TO:
    given_complain (given, "unknown unit \"%s\"", to);
    break;
  case UNITS_CONVERT_MISMATCH:
    given_complain (given, "\"%s\" and \"%s\" measure different things", from, to);
    break;
  case UNITS_CONVERT_NOT_FINITE:
    break;
  }
  return HYDRAULICS_INVALID_ARGUMENT;
}

const Handler practice_handlers[] = {
    {"water_mass", run_water_mass},
    {"tank_volume", run_tank_volume},
    {"evaporation_days", run_evaporation_days},
    {"unit_convert", run_unit_convert},
    {NULL, NULL},
};
