/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The pieces of a run in one row: straight lengths, bends at its corners, fittings along it. */
#include "design/catalogue.h"
#include "design/choices.h"
#include "design/geometry.h"
#include "hydraulics/fitting.h"
#include "solver/model.h"

#define RADIANS_90 (G_PI / 2)
/* Bore for which Crane's f_T is given: the relation's own range. */
#define CRANE_BORE_LEAST_M 0.005
#define CRANE_BORE_MOST_M  1.0
/* A hose or a swept bend turns on a radius of several bores. */
#define SWEEP_RADIUS 2.0
#define HOSE_RADIUS  4.0
/* Roughness of a hose where none is given: common practice, no source. */
#define HOSE_ROUGHNESS_M 0.00001
/* Largest relative roughness of the Colebrook-White relation, see pipe.h. */
#define ROUGHEST PIPE_RELATIVE_ROUGHNESS_MAX

static double
crane_bore (double bore_m)
{
  return CLAMP (bore_m, CRANE_BORE_LEAST_M, CRANE_BORE_MOST_M);
}

static double
k_of (FittingKind kind, double bore_m, double shape)
{
  double k = 0;

  fitting_k (kind, crane_bore (bore_m), shape, &k);
  return k;
}

/* K of a bend. Between the angles that fittings are made in, K runs on straight lines, so that a dragged corner has no
 * jumps; at 45 and 90 degrees it is Crane's. */
static double
bend_k (BendKind bend, bool hose, double angle, double bore_m)
{
  const double k45 = k_of (FITTING_ELBOW_45, bore_m, 0), k90 = k_of (FITTING_ELBOW_90, bore_m, 0);

  if (angle <= 0)
    return 0;
  if (bend == BEND_SWEEP || (bend == BEND_AUTO && hose))
    return k_of (FITTING_BEND_90, bore_m, hose ? HOSE_RADIUS : SWEEP_RADIUS) * angle / RADIANS_90;
  if (bend == BEND_TWO_45)
    return 2 * k45 * angle / RADIANS_90;
  if (angle <= RADIANS_90 / 2)
    return k45 * angle / (RADIANS_90 / 2);
  return k45 + (k90 - k45) * (angle - RADIANS_90 / 2) / (RADIANS_90 / 2);
}

/* K of the bend at inner point i: the corner part is the (i - 1)-th child of the run. */
static double
corner_k (const System *system, const Part *run, const Point3 *points, unsigned n, unsigned i, double bore_m,
          bool hose)
{
  const Part *corner = design_child (system->design, part_key (run), PART_CORNER, i - 1);
  const BendKind bend =
      corner != NULL ? (BendKind) design_choice (system->design, corner, FIELD_CORNER_BEND) : BEND_AUTO;

  return bend_k (bend, hose, geometry_bend (points, n, i), bore_m);
}

static double
fitting_class_k (const FittingType *type, double bore_m)
{
  if (type->k > 0)
    return type->k;
  switch (type->class_) {
  case FITTING_CLASS_GATE_VALVE:
    return k_of (FITTING_GATE_VALVE, bore_m, 0);
  case FITTING_CLASS_BALL_VALVE:
    return k_of (FITTING_BALL_VALVE, bore_m, 0);
  case FITTING_CLASS_CHECK_VALVE:
    return k_of (FITTING_AQUARIUM_CHECK, bore_m, 0);
  case FITTING_CLASS_STRAINER:
    return k_of (FITTING_BULKHEAD_STRAINER, bore_m, 0);
  case FITTING_CLASS_TEE_RUN:
    return k_of (FITTING_TEE_RUN, bore_m, 0);
  case FITTING_CLASS_REDUCER:
  case FITTING_CLASS_BULKHEAD:
  case FITTING_CLASS_UNION:
  case FITTING_CLASS_OTHER:
  case N_FITTING_CLASSES:
  default:
    return k_of (FITTING_UNION, bore_m, 0);
  }
}

static double
throttled_k (DrainValve valve, double bore_m, double open_k, double opening)
{
  const ValveKind kind = valve == VALVE_IS_BALL ? VALVE_BALL : VALVE_GATE;
  double k = 0, full = 0;

  valve_k (kind, crane_bore (bore_m), opening, &k);
  valve_k (kind, crane_bore (bore_m), 1, &full);
  return fmax (0, k - full) + open_k;
}

double
drain_valve_k (const DrainModel *drain, double opening)
{
  return throttled_k (drain->valve, drain->pipe.run.bore_m, drain->valve_k_open, opening);
}

typedef struct {
  const System *system;
  const Part *run;
  bool keep_valve_apart;
  RunPieces *pieces;
} FittingPass;

static bool
add_fitting (FittingPass *pass, const Part *fitting, SystemStatus *ret_status, int *ret_part)
{
  const Design *design = pass->system->design;
  RunPieces *pieces = pass->pieces;
  const double station_m =
      CLAMP (design_number (design, fitting, FIELD_FITTING_STATION), 0, pieces->length_m);
  const double given_k = design_number (design, fitting, FIELD_FITTING_K);
  const double opening = design_number (design, fitting, FIELD_FITTING_OPENING);
  const char *key = design_text (design, fitting, FIELD_FITTING_TYPE);
  const FittingType *type = key != NULL ? catalogue_find_fitting (pass->system->catalogue, key) : NULL;
  double k;

  if (type == NULL) {
    *ret_status = SYSTEM_UNKNOWN_FITTING;
    *ret_part = design_index (design, part_key (fitting));
    return false;
  }
  k = given_k > 0 ? given_k : fitting_class_k (type, pieces->bore_m);
  if (type->class_ == FITTING_CLASS_CHECK_VALVE) {
    pieces->has_check = true;
    pieces->cracking_m += type->cracking_m > 0 ? type->cracking_m : FITTING_CHECK_CRACKING_HEAD_M;
    pieces->check_z = geometry_run_at (design, pass->run, station_m, NULL).z;
  }
  if (type->class_ == FITTING_CLASS_GATE_VALVE || type->class_ == FITTING_CLASS_BALL_VALVE) {
    const DrainValve valve = type->class_ == FITTING_CLASS_GATE_VALVE ? VALVE_IS_GATE : VALVE_IS_BALL;

    /* The last valve of a drain is the one that it is set by. */
    if (pass->keep_valve_apart && station_m >= pieces->valve_station_m) {
      if (pieces->valve != VALVE_NONE)
        pieces->k += throttled_k (pieces->valve, pieces->bore_m, pieces->valve_k_open, pieces->valve_opening);
      pieces->valve = valve;
      pieces->valve_part = design_index (design, part_key (fitting));
      pieces->valve_given = part_is_given (fitting, FIELD_FITTING_OPENING);
      pieces->valve_opening = opening;
      pieces->valve_k_open = k;
      pieces->valve_station_m = station_m;
      pieces->valve_z = geometry_run_at (design, pass->run, station_m, NULL).z;
      return true;
    }
    k = throttled_k (valve, pieces->bore_m, k, opening);
  }
  if (!isfinite (k))
    pieces->shut = true;
  else
    pieces->k += k;
  return true;
}

/* K of the plain fittings between the mouth and the valve that a drain is set by; all bends count as above it, which is
 * the careful side. */
static double
k_above_valve (const System *system, const Part *run, const RunPieces *pieces, double bends_k)
{
  const Design *design = system->design;
  double k = bends_k;

  for (unsigned i = 0; i < design_n_children (design, part_key (run), PART_FITTING); i++) {
    const Part *fitting = design_child (design, part_key (run), PART_FITTING, i);
    const FittingType *type =
        catalogue_find_fitting (system->catalogue, design_text (design, fitting, FIELD_FITTING_TYPE));
    const double given_k = design_number (design, fitting, FIELD_FITTING_K);

    if (design_index (design, part_key (fitting)) != pieces->valve_part &&
        design_number (design, fitting, FIELD_FITTING_STATION) <= pieces->valve_station_m)
      k += given_k > 0 ? given_k : fitting_class_k (type, pieces->bore_m);
  }
  return k;
}

double
run_roughness_m (const System *system, const Part *run)
{
  const bool drain = part_kind (run) == PART_DRAIN;
  const FieldId field = drain ? FIELD_DRAIN_ROUGHNESS : FIELD_RETURN_ROUGHNESS;
  const PipeSize *pipe = catalogue_find_pipe (
      system->catalogue, design_text (system->design, run, drain ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE));
  double roughness_m = design_number (system->design, run, field);

  if (pipe == NULL)
    return roughness_m;
  if (pipe->hose && !part_is_given (run, field))
    roughness_m = fmax (roughness_m, HOSE_ROUGHNESS_M);
  return fmin (roughness_m, ROUGHEST * pipe->inside_m);
}

static void
add_segments (const Point3 *points, unsigned n, GArray *segments, RunPieces *pieces)
{
  pieces->first_segment = segments->len;
  pieces->n_segments = n - 1;
  pieces->highest_z = pieces->lowest_z = points[0].z;
  for (unsigned i = 0; i + 1 < n; i++) {
    const double dx = points[i + 1].x - points[i].x, dy = points[i + 1].y - points[i].y,
                 dz = points[i + 1].z - points[i].z;
    const Segment segment = {.length_m = sqrt (dx * dx + dy * dy + dz * dz),
                             .low_z = fmin (points[i].z, points[i + 1].z),
                             .high_z = fmax (points[i].z, points[i + 1].z)};

    g_array_append_val (segments, segment);
    pieces->length_m += segment.length_m;
    pieces->highest_z = fmax (pieces->highest_z, segment.high_z);
    pieces->lowest_z = fmin (pieces->lowest_z, segment.low_z);
  }
}

bool
run_pieces (const System *system, const Part *run, bool keep_valve_apart, GArray *segments,
            RunPieces *ret_pieces, SystemStatus *ret_status, int *ret_part)
{
  const Design *design = system->design;
  const FieldId size = part_kind (run) == PART_DRAIN ? FIELD_DRAIN_SIZE : FIELD_RETURN_SIZE;
  const unsigned n = geometry_run (design, run, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, MAX (n, 2));
  RunPieces pieces = {.valve_part = -1};
  FittingPass pass = {system, run, keep_valve_apart, &pieces};
  const char *key = design_text (design, run, size);
  const PipeSize *pipe = key != NULL ? catalogue_find_pipe (system->catalogue, key) : NULL;

  if (pipe == NULL || n < 2) {
    *ret_status = SYSTEM_UNKNOWN_PIPE;
    *ret_part = design_index (design, part_key (run));
    return false;
  }
  geometry_run (design, run, points, n);
  pieces.bore_m = pipe->inside_m;
  add_segments (points, n, segments, &pieces);
  for (unsigned i = 1; i + 1 < n; i++)
    pieces.k += corner_k (system, run, points, n, i, pieces.bore_m, pipe->hose);
  const double bends_k = pieces.k;

  for (unsigned i = 0; i < design_n_children (design, part_key (run), PART_FITTING); i++)
    if (!add_fitting (&pass, design_child (design, part_key (run), PART_FITTING, i), ret_status, ret_part))
      return false;
  pieces.k_above_valve = k_above_valve (system, run, &pieces, bends_k);
  *ret_pieces = pieces;
  return true;
}

double
segments_volume_above (const System *system, unsigned first, unsigned n, double bore_m, double level_z)
{
  double length_m = 0;

  for (unsigned i = first; i < first + n; i++) {
    const Segment *segment = &system->segments[i];

    if (segment->low_z >= level_z)
      length_m += segment->length_m;
    else if (segment->high_z > level_z)
      length_m += segment->length_m * (segment->high_z - level_z) / (segment->high_z - segment->low_z);
  }
  return length_m * G_PI / 4 * bore_m * bore_m;
}
