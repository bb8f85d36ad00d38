/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Drains of the system: pipe with its losses, valve, sloped runs, where it ends. */
#include "design/choices.h"
#include "design/geometry.h"
#include "hydraulics/fitting.h"
#include "solver/model.h"

/* A share of the mouth above this leaves no pipe to speak of. */
#define PLUG_WHOLE 0.999
/* Runs steeper than this count as upright; a level run is taken to fall a little, as laid. */
#define UPRIGHT_SLOPE     0.85
#define LEAST_SLOPE       0.005
#define QUIET_DEPTH_RATIO 0.5
#define MANNING_PLASTIC   0.009
/* Contraction of the sheet that leaves an upright end sideways over a bottom, as of a sharp orifice. */
#define CURTAIN_COEFFICIENT 0.60

static double
entry_k (EntryKind entry)
{
  double k = 0.5;

  switch (entry) {
  case ENTRY_FLUSH:
    fitting_k (FITTING_ENTRANCE_FLUSH, 0.05, 0, &k);
    break;
  case ENTRY_PROJECTING:
    fitting_k (FITTING_ENTRANCE_PROJECTING, 0.05, 0, &k);
    break;
  case ENTRY_STRAINER:
    fitting_k (FITTING_BULKHEAD_STRAINER, 0.05, 0, &k);
    break;
  case ENTRY_STRAINER_HALF:
    fitting_k (FITTING_BULKHEAD_STRAINER_HALF, 0.05, 0, &k);
    break;
  }
  return k;
}

/* What stands before the mouth of a drain: its loss on the pipe's velocity head, and the clear opening over the section of
 * the pipe, at most 1. */
typedef struct {
  double k, open;
} Mouth;

/* A strainer of known holes: the flush entrance behind it and the screen of what is left open. */
static Mouth
strainer (const Design *design, const Part *part, double bore_m, double blocked)
{
  const double face = design_number (design, part, FIELD_DRAIN_STRAINER_FACE);
  const double free = design_number (design, part, FIELD_DRAIN_STRAINER_OPEN) * (1 - blocked);
  const SiphonScreen screen = {.area_m2 = face * G_PI / 4 * bore_m * bore_m,
                               .open_fraction = design_number (design, part, FIELD_DRAIN_STRAINER_OPEN),
                               .blocked_share = blocked};
  double k = 0;

  siphon_screen_coefficient (&screen, bore_m, &k);
  return (Mouth){.k = entry_k (ENTRY_FLUSH) + k, .open = fmin (face * free, 1)};
}

static Mouth
mouth_of (const Design *design, const Part *part, double bore_m)
{
  const EntryKind entry = (EntryKind) design_choice (design, part, FIELD_DRAIN_ENTRY);
  const double plug = fmin (design_number (design, part, FIELD_DRAIN_PLUG), PLUG_WHOLE);
  const bool half = entry == ENTRY_STRAINER_HALF;

  if (design_number (design, part, FIELD_DRAIN_STRAINER_OPEN) > 0 && (half || entry == ENTRY_STRAINER))
    return strainer (design, part, bore_m, half ? 1 - 0.5 * (1 - plug) : plug);
  return (Mouth){.k = entry_k (entry) / ((1 - plug) * (1 - plug)), .open = 1 - plug};
}

static void
find_sloped (const System *system, const GArray *segments, DrainModel *drain)
{
  for (unsigned i = 0; i < drain->n_segments; i++) {
    const Segment *segment = &g_array_index (segments, Segment, drain->first_segment + i);
    const double slope = segment->length_m > 0 ? (segment->high_z - segment->low_z) / segment->length_m : 1;

    if (slope < UPRIGHT_SLOPE && drain->n_sloped < SLOPED_RUNS_MAX)
      drain->sloped[drain->n_sloped++] = (QuietSlopedRun){.bore_m = drain->pipe.run.bore_m,
                                                          .slope = fmax (slope, LEAST_SLOPE),
                                                          .manning_n = MANNING_PLASTIC,
                                                          .depth_ratio = QUIET_DEPTH_RATIO};
  }
}

/* Height of an upright end above the bottom. One that lies level is not held up by it. */
static double
end_clearance (const System *system, const GArray *segments, const RunPieces *pieces, unsigned chamber,
               double end_z)
{
  const Segment *last = &g_array_index (segments, Segment, pieces->first_segment + pieces->n_segments - 1);

  return last->length_m > 0 && (last->high_z - last->low_z) / last->length_m >= UPRIGHT_SLOPE
             ? end_z - system->chambers[chamber].bottom_z
             : NO_LIMIT;
}

/* Loss of the end on the velocity in the bore. Close above a bottom the water must leave through the ring pi D c, which is
 * narrower than the bore below a quarter of it: 1 / (4 Cd c / D)^2 from the definition of the orifice, never less than
 * the velocity head. */
static double
exit_k (double bore_m, double clearance_m)
{
  const double ring = 4 * CURTAIN_COEFFICIENT * clearance_m / bore_m;

  return ring < 1 ? 1 / (ring * ring) : 1;
}

static unsigned
chamber_of (const System *system, const Part *drain)
{
  const Part *chamber = design_target (system->design, drain, FIELD_DRAIN_TO);
  const int part = chamber != NULL ? design_index (system->design, part_key (chamber)) : -1;

  for (unsigned i = 0; i < system->n_chambers; i++)
    if (system->chambers[i].part == part)
      return i;
  return 0;
}

static void
set_valve (DrainModel *drain, const RunPieces *pieces)
{
  drain->valve = pieces->valve;
  drain->valve_part = pieces->valve_part;
  drain->valve_given = pieces->valve_given;
  drain->valve_opening = pieces->valve_opening;
  drain->valve_k_open = pieces->valve_k_open;
  drain->valve_z = pieces->valve_z;
  drain->k_above_valve = pieces->k_above_valve;
  drain->length_above_valve_m = pieces->valve_station_m;
}

static bool
add_drain (System *system, unsigned overflow, const Part *part, GArray *segments, SystemStatus *ret_status,
           int *ret_part)
{
  const Design *design = system->design;
  const double plug = design_number (design, part, FIELD_DRAIN_PLUG);
  DrainModel *drain = &system->drains[system->n_drains];
  RunPieces pieces;
  double own_roughness_m, end_z, clearance_m;
  Mouth mouth;
  unsigned chamber;

  if (!run_pieces (system, part, true, segments, &pieces, ret_status, ret_part))
    return false;
  own_roughness_m = run_roughness_m (system, part);
  mouth = mouth_of (design, part, pieces.bore_m);
  chamber = chamber_of (system, part);
  end_z = geometry_drain_end (design, part);
  clearance_m = end_clearance (system, segments, &pieces, chamber, end_z);
  *drain = (DrainModel){.part = design_index (design, part_key (part)),
                        .role = design_choice (design, part, FIELD_DRAIN_ROLE),
                        .overflow = overflow,
                        .chamber = chamber,
                        .blocked = plug >= PLUG_WHOLE || pieces.shut || !(clearance_m > 0),
                        .pipe = {.mouth_level_m = geometry_mouth (design, part),
                                 .mouth_diameter_m = pieces.bore_m * sqrt (mouth.open),
                                 .end_level_m = end_z,
                                 .run = {.length_m = pieces.length_m,
                                         .bore_m = pieces.bore_m,
                                         .roughness_m = own_roughness_m,
                                         .k = mouth.k + pieces.k + exit_k (pieces.bore_m, clearance_m)}},
                        .aged_roughness_m = fmin (
                            fmax (field_number (system, system->room, FIELD_ROOM_PIPE_AGE), own_roughness_m),
                            0.05 * pieces.bore_m),
                        .end_z = end_z,
                        .clearance_m = clearance_m,
                        .highest_z = pieces.highest_z,
                        .lowest_z = pieces.lowest_z,
                        .first_segment = pieces.first_segment,
                        .n_segments = pieces.n_segments,
                        .rim_z = system->overflows[overflow].lowest_rim_z,
                        .volume_m3 = pieces.length_m * G_PI / 4 * pieces.bore_m * pieces.bore_m};
  set_valve (drain, &pieces);
  drain->k_above_valve += mouth.k;
  drain->entry_k = mouth.k;
  drain_priming_level (&drain->pipe, &drain->priming_z);
  drain->primed_counts = !drain->blocked && drain->priming_z <= drain->rim_z;
  find_sloped (system, segments, drain);
  system->n_drains++;
  return true;
}

bool
compile_drains (System *system, GArray *segments, SystemStatus *ret_status, int *ret_part)
{
  const Design *design = system->design;

  for (unsigned i = 0; i < system->n_overflows; i++) {
    OverflowModel *overflow = &system->overflows[i];
    const Part *part = design_part (design, (unsigned) overflow->part);
    const unsigned n = design_n_children (design, part_key (part), PART_DRAIN);

    overflow->first_drain = system->n_drains;
    overflow->n_drains = n;
    if (n > DRAIN_BRANCHES_MAX || system->n_drains + n > EVALUATION_DRAINS_MAX) {
      *ret_status = SYSTEM_TOO_LARGE;
      *ret_part = overflow->part;
      return false;
    }
    for (unsigned k = 0; k < n; k++)
      if (!add_drain (system, i, design_child (design, part_key (part), PART_DRAIN, k), segments, ret_status,
                      ret_part))
        return false;
  }
  return true;
}
