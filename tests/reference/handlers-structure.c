/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "handlers.h"

#include "hydraulics/beam.h"
#include "hydraulics/load.h"
#include "hydraulics/plate.h"

static const char *const plate_edge_words[N_PLATE_EDGES] = {
    [PLATE_SIMPLY_SUPPORTED_4] = "simply_supported_4",
    [PLATE_CLAMPED_4] = "clamped_4",
    [PLATE_FREE_TOP_3_SUPPORTED] = "free_top_3_supported",
    [PLATE_FREE_TOP_3_CLAMPED] = "free_top_3_clamped",
};
static const char *const plate_load_words[N_PLATE_LOADS] = {
    [PLATE_UNIFORM] = "uniform",
    [PLATE_HYDROSTATIC] = "hydrostatic",
};
static const char *const beam_support_words[N_BEAM_SUPPORTS] = {
    [BEAM_SIMPLE] = "simple",
    [BEAM_FIXED] = "fixed",
    [BEAM_CANTILEVER] = "cantilever",
};
static const char *const beam_load_words[N_BEAM_LOADS] = {
    [BEAM_POINT] = "point",
    [BEAM_UNIFORM] = "uniform",
    [BEAM_TRIANGULAR] = "triangular",
};
static const char *const section_words[N_SECTION_SHAPES] = {
    [SECTION_RECTANGLE] = "rectangle",
    [SECTION_RECTANGULAR_TUBE] = "rectangular_tube",
    [SECTION_ROUND_TUBE] = "round_tube",
};

static HydraulicsStatus
bend (Given *given, PlateBending *ret_bending)
{
  Plate plate = {
      .edges = (PlateEdges) given_choice (given, "edges", plate_edge_words, N_PLATE_EDGES),
      .load = (PlateLoad) given_choice (given, "load", plate_load_words, N_PLATE_LOADS),
      .width_m = given_number (given, "a_m"),
      .height_m = given_number (given, "b_m"),
      .thickness_m = given_number (given, "thickness_m"),
      .young_pa = given_number (given, "e_pa"),
      .poisson = given_number (given, "nu"),
  };

  if (plate.load == PLATE_UNIFORM)
    plate.pressure_pa = given_number (given, "pressure_pa");
  else
    plate.density_kg_m3 = given_number (given, "density_kg_per_m3");
  return plate_bend (&plate, ret_bending);
}

static HydraulicsStatus
run_plate_max_stress (Given *given, double *ret_got)
{
  PlateBending bending = {.max_bending_stress_pa = *ret_got};
  HydraulicsStatus status = bend (given, &bending);

  *ret_got = bending.max_bending_stress_pa;
  return status;
}

static HydraulicsStatus
run_plate_max_deflection (Given *given, double *ret_got)
{
  PlateBending bending = {.max_deflection_m = *ret_got};
  HydraulicsStatus status = bend (given, &bending);

  *ret_got = bending.max_deflection_m;
  return status;
}

static Beam
read_beam (Given *given)
{
  Beam beam = {
      .support = (BeamSupport) given_choice (given, "support", beam_support_words, N_BEAM_SUPPORTS),
      .load = (BeamLoad) given_choice (given, "load", beam_load_words, N_BEAM_LOADS),
      .length_m = given_number (given, "length_m"),
  };

  beam.load_value = given_number (given, beam.load == BEAM_POINT ? "force_n" : "line_load_n_per_m");
  return beam;
}

static HydraulicsStatus
run_beam_max_deflection (Given *given, double *ret_got)
{
  Beam beam = read_beam (given);

  beam.young_pa = given_number (given, "e_pa");
  beam.second_moment_m4 = given_number (given, "second_moment_m4");
  return beam_max_deflection (&beam, ret_got);
}

static HydraulicsStatus
run_beam_max_moment (Given *given, double *ret_got)
{
  Beam beam = read_beam (given);

  return beam_max_moment (&beam, ret_got);
}

static Section
read_section (Given *given)
{
  Section section = {.shape = (SectionShape) given_choice (given, "shape", section_words, N_SECTION_SHAPES)};

  if (section.shape == SECTION_ROUND_TUBE) {
    section.height_m = given_number (given, "outside_diameter_m");
  } else {
    section.width_m = given_number (given, "width_m");
    section.height_m = given_number (given, "height_m");
  }
  if (section.shape != SECTION_RECTANGLE)
    section.wall_m = given_number (given, "wall_m");
  return section;
}

static HydraulicsStatus
run_second_moment (Given *given, double *ret_got)
{
  Section section = read_section (given);

  return section_second_moment (&section, ret_got);
}

static HydraulicsStatus
run_section_modulus (Given *given, double *ret_got)
{
  Section section = read_section (given);

  return section_modulus (&section, ret_got);
}

static HydraulicsStatus
run_column_buckling_load (Given *given, double *ret_got)
{
  return column_buckling_load (given_number (given, "e_pa"), given_number (given, "second_moment_m4"),
                               given_number (given, "length_m"),
                               given_number (given, "effective_length_factor"), ret_got);
}

/* A row gives either the depth of water on a panel that reaches the surface, or a sunk panel. */
static HydraulicsStatus
run_hydrostatic_force (Given *given, double *ret_got)
{
  gboolean reaches_surface = given_has (given, "depth_m");
  WettedPanel panel = {
      .width_m = given_number (given, "width_m"),
      .height_m = given_number (given, reaches_surface ? "depth_m" : "height_m"),
      .top_depth_m = reaches_surface ? 0.0 : given_number (given, "top_depth_m"),
  };

  return load_hydrostatic_force (&panel, given_number (given, "density_kg_per_m3"), ret_got);
}

static HydraulicsStatus
run_centre_of_pressure (Given *given, double *ret_got)
{
  return load_centre_of_pressure (given_number (given, "top_depth_m"), given_number (given, "height_m"),
                                  ret_got);
}

static HydraulicsStatus
run_floor_pressure (Given *given, double *ret_got)
{
  return load_floor_pressure (given_number (given, "mass_kg"), given_number (given, "area_m2"), ret_got);
}

const Handler structure_handlers[] = {
    {"plate_max_stress", run_plate_max_stress},
    {"plate_max_deflection", run_plate_max_deflection},
    {"beam_max_deflection", run_beam_max_deflection},
    {"beam_max_moment", run_beam_max_moment},
    {"second_moment", run_second_moment},
    {"section_modulus", run_section_modulus},
    {"column_buckling_load", run_column_buckling_load},
    {"hydrostatic_force", run_hydrostatic_force},
    {"centre_of_pressure", run_centre_of_pressure},
    {"floor_pressure", run_floor_pressure},
    {NULL, NULL},
};
