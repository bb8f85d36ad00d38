/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "design/catalogue.h"
#include "design/choices.h"
#include "solver/model.h"

const char *
system_status_text (SystemStatus status)
{
  switch (status) {
  case SYSTEM_OK:
    return "compiled";
  case SYSTEM_UNKNOWN_PIPE:
    return "the size of a run is not in the catalogue";
  case SYSTEM_UNKNOWN_FITTING:
    return "the type of a fitting is not in the catalogue";
  case SYSTEM_BAD_NETWORK:
    return "the return runs do not join a pump with an outlet";
  case SYSTEM_TOO_LARGE:
    return "there are more parts of a kind than can be evaluated";
  case SYSTEM_BAD_WATER:
    return "the water is outside the range of its relations";
  case N_SYSTEM_STATUSES:
  default:
    return "unknown status";
  }
}

static int
first_of (const Design *design, PartKind kind)
{
  const Part *part = design_nth (design, kind, 0);

  return part != NULL ? design_index (design, part_key (part)) : -1;
}

static bool
compile_water (System *system)
{
  if (water_properties (field_number (system, system->room, FIELD_ROOM_WATER_TEMPERATURE),
                        field_number (system, system->room, FIELD_ROOM_SALINITY),
                        &system->water) != HYDRAULICS_OK)
    return false;
  system->fluid = (Fluid){.density_kgm3 = system->water.density_kg_m3,
                          .dynamic_viscosity_pas = system->water.dynamic_viscosity_pa_s};
  return true;
}

/* The top-off keeps the level of the chamber that the first pump draws from. */
static void
find_datum (System *system)
{
  system->datum = system->pumps[0].chamber;
  for (unsigned i = 0; i < system->n_pumps; i++)
    if (system->chambers[system->pumps[i].chamber].role == CHAMBER_RETURN)
      system->datum = system->pumps[i].chamber;
}

static bool
compile (System *system, SystemStatus *ret_status, int *ret_part)
{
  g_autoptr (GArray) segments = g_array_new (FALSE, FALSE, sizeof (Segment));

  *ret_part = system->room;
  *ret_status = SYSTEM_BAD_WATER;
  if (!compile_water (system))
    return false;
  if (!compile_vessels (system, ret_status, ret_part) ||
      !compile_drains (system, segments, ret_status, ret_part) ||
      !compile_return (system, segments, ret_status, ret_part))
    return false;
  find_datum (system);
  system->n_segments = segments->len;
  system->segments = g_new0 (Segment, MAX (segments->len, 1));
  for (unsigned i = 0; i < segments->len; i++)
    system->segments[i] = g_array_index (segments, Segment, i);
  return true;
}

System *
system_compile (Design *design, Catalogue *catalogue, SystemStatus *ret_status, int *ret_part)
{
  System *system = g_new0 (System, 1);
  SystemStatus status = SYSTEM_OK;
  int part = -1;

  system->design = design_ref (design);
  system->catalogue = catalogue_ref (catalogue);
  system->room = first_of (design, PART_ROOM);
  system->job = first_of (design, PART_JOB);
  system->stand = first_of (design, PART_STAND);
  system->sump = first_of (design, PART_SUMP);
  system->reservoir = first_of (design, PART_RESERVOIR);
  if (!compile (system, &status, &part)) {
    system_free (system);
    system = NULL;
  } else {
    status = SYSTEM_OK;
    part = -1;
  }
  if (ret_status != NULL)
    *ret_status = status;
  if (ret_part != NULL)
    *ret_part = part;
  return system;
}

void
system_free (System *system)
{
  if (system == NULL)
    return;
  design_unref (system->design);
  catalogue_unref (system->catalogue);
  g_free (system->segments);
  network_free (system->clean);
  network_free (system->aged);
  g_free (system);
}

const Design *
system_design (const System *system)
{
  return system->design;
}

unsigned
system_n_pumps (const System *system)
{
  return system->n_pumps;
}

int
system_pump_part (const System *system, unsigned pump)
{
  return pump < system->n_pumps ? system->pumps[pump].part : -1;
}

Workspace *
workspace_new (const System *system)
{
  Workspace *workspace = g_new0 (Workspace, 1);

  workspace->clean = network_copy (system->clean);
  workspace->aged = network_copy (system->aged);
  workspace->bands = bands_new ();
  return workspace;
}

void
workspace_free (Workspace *workspace)
{
  if (workspace == NULL)
    return;
  network_free (workspace->clean);
  network_free (workspace->aged);
  bands_free (workspace->bands);
  g_free (workspace);
}
