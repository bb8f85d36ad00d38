/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The return network of the system: pumps, runs, tees and outlets as nodes and links. */
#include "design/choices.h"
#include "design/curve.h"
#include "design/geometry.h"
#include "hydraulics/constants.h"
#include "hydraulics/fitting.h"
#include "solver/model.h"

#define NOZZLE_COEFFICIENT 0.95
/* Roughness of an old suction pipe: as of an old return, common practice. */
#define SUCTION_AGED_M 0.00005
/* Difference of two cosines that counts as none. */
#define STRAIGHT_SLACK 1e-6

typedef struct {
  System *system;
  GArray *nodes, *links, *tees; /* NetworkNode, NetworkLink, NetworkTee */
  GHashTable *node_of;          /* part index + 1 -> node + 1 */
} Builder;

static guint
add_node (Builder *builder, NetworkNodeKind kind, double level_m)
{
  const NetworkNode node = {.kind = kind, .level_m = level_m};

  g_array_append_val (builder->nodes, node);
  return builder->nodes->len - 1;
}

static void
remember_node (Builder *builder, int part, guint node)
{
  g_hash_table_insert (builder->node_of, GINT_TO_POINTER (part + 1), GUINT_TO_POINTER (node + 1));
}

static bool
node_of (const Builder *builder, const Part *part, guint *ret_node)
{
  const int index = part != NULL ? design_index (builder->system->design, part_key (part)) : -1;
  const guint found = GPOINTER_TO_UINT (g_hash_table_lookup (builder->node_of, GINT_TO_POINTER (index + 1)));

  if (index < 0 || found == 0)
    return false;
  *ret_node = found - 1;
  return true;
}

bool
solver_pump_curve (const char *points, PumpCurve *ret_curve)
{
  CurvePoints given;

  if (!curve_read (points, &given))
    return false;
  if (given.n > 2)
    return pump_curve_from_points (given.n, given.flow_m3s, given.head_m, ret_curve) == HYDRAULICS_OK;

  /* Two points do not make a curve: H = A - B Q^2 through both. */
  const double b = (given.head_m[0] - given.head_m[1]) /
                   (given.flow_m3s[1] * given.flow_m3s[1] - given.flow_m3s[0] * given.flow_m3s[0]);
  const double a = given.head_m[0] + b * given.flow_m3s[0] * given.flow_m3s[0];

  return pump_curve_estimate (a, sqrt (a / b), ret_curve) == HYDRAULICS_OK;
}

bool
system_set_pump_curve (System *system, unsigned pump, const char *curve, double watts)
{
  PumpCurve made;

  if (pump >= system->n_pumps || !isfinite (watts) || watts < 0 || !solver_pump_curve (curve, &made))
    return false;
  system->pumps[pump].curve = made;
  system->pumps[pump].curve_ok = true;
  system->pumps[pump].watts = watts;
  return true;
}

bool
system_set_pump_speed (System *system, unsigned pump, double speed)
{
  if (pump >= system->n_pumps || !(speed >= PUMP_SPEED_MIN && speed <= 1.0))
    return false;
  system->pumps[pump].speed = speed;
  return true;
}

static unsigned
chamber_of (const System *system, const Part *chamber)
{
  for (unsigned i = 0; i < system->n_chambers; i++)
    if (chamber != NULL && system->chambers[i].part == design_index (system->design, part_key (chamber)))
      return i;
  return 0;
}

/* An outside pump draws through a pipe of its own, whose loss its head must make good. */
static void
add_suction (Builder *builder, const Part *part, PumpModel *pump)
{
  const Design *design = builder->system->design;
  NetworkLink link;

  pump->inlet_node = pump->suction_node;
  if (!pump->outside)
    return;
  pump->suction = (PipeRun){.length_m = design_number (design, part, FIELD_PUMP_SUCTION_LENGTH),
                            .bore_m = pump->suction_bore_m,
                            .roughness_m = 0.0000015,
                            .k = design_number (design, part, FIELD_PUMP_SUCTION_K)};
  pump->inlet_node = add_node (builder, NETWORK_JUNCTION, 0);
  link = network_link_pipe (pump->suction_node, pump->inlet_node, pump->suction.length_m,
                            pump->suction.bore_m, pump->suction.roughness_m, pump->suction.k);
  pump->suction_link = builder->links->len;
  g_array_append_val (builder->links, link);
}

static void
add_pump (Builder *builder, const Part *part)
{
  System *system = builder->system;
  const Design *design = system->design;
  const unsigned index = system->n_pumps++;
  PumpModel *pump = &system->pumps[index];
  const double datum = geometry_datum (design, part);
  NetworkLink link;

  *pump = (PumpModel){.part = design_index (design, part_key (part)),
                      .chamber = chamber_of (system, design_owner (design, part)),
                      .speed = design_number (design, part, FIELD_PUMP_SPEED),
                      .tolerance = design_number (design, part, FIELD_PUMP_TOLERANCE),
                      .outside = design_choice (design, part, FIELD_PUMP_PLACING) == PUMP_OUTSIDE,
                      .suction_z = datum + design_number (design, part, FIELD_PUMP_SUCTION),
                      .suction_bore_m = design_number (design, part, FIELD_PUMP_SUCTION_BORE),
                      .cover_m = design_number (design, part, FIELD_PUMP_COVER),
                      .npsh_m = design_number (design, part, FIELD_PUMP_NPSH),
                      .outlet_z = datum + design_number (design, part, FIELD_PUMP_OUTLET_HEIGHT),
                      .length_m = design_number (design, part, FIELD_PUMP_LENGTH),
                      .width_m = design_number (design, part, FIELD_PUMP_WIDTH),
                      .height_m = design_number (design, part, FIELD_PUMP_HEIGHT)};
  pump->highest_z = pump->outlet_z;
  if (!system_set_pump_curve (system, index, design_text (design, part, FIELD_PUMP_CURVE),
                              design_number (design, part, FIELD_PUMP_WATTS))) {
    /* A design keeps its curves well-formed; a pump without one is held at rest. */
    pump_curve_estimate (0.001, 1e-6, &pump->curve);
    pump->curve_ok = false;
  }
  pump->suction_node = add_node (builder, NETWORK_LEVEL, system->chambers[pump->chamber].level_z);
  pump->delivery_node = add_node (builder, NETWORK_JUNCTION, 0);
  add_suction (builder, part, pump);
  link = network_link_pump (pump->inlet_node, pump->delivery_node, &pump->curve, pump->speed, 1.0);
  link.check = true; /* water that runs back through a pump at rest is drain-back, not a duty */
  pump->link = builder->links->len;
  g_array_append_val (builder->links, link);
  remember_node (builder, pump->part, pump->delivery_node);
}

static void
add_outlet (Builder *builder, const Part *part)
{
  System *system = builder->system;
  const Design *design = system->design;
  OutletModel *outlet = &system->outlets[system->n_outlets++];
  const int tank = design_index (design, part_owner (part));

  *outlet =
      (OutletModel){.part = design_index (design, part_key (part)),
                    .submerged_kind = design_choice (design, part, FIELD_OUTLET_KIND) == OUTLET_SUBMERGED,
                    .z = geometry_outlet (design, part),
                    .bore_m = design_number (design, part, FIELD_OUTLET_BORE),
                    .has_break = design_choice (design, part, FIELD_OUTLET_BREAK) != 0,
                    .break_z = geometry_break (design, part),
                    .pump = -1,
                    .run = -1};
  for (unsigned i = 0; i < system->n_tanks; i++)
    if (system->tanks[i].part == tank)
      outlet->tank = i;
  outlet->node = add_node (builder, NETWORK_LEVEL, outlet->z);
  remember_node (builder, outlet->part, outlet->node);
}

/* A device to which a run leads becomes an end of the network. */
static bool
add_feed (Builder *builder, const Part *device)
{
  System *system = builder->system;
  const int part = design_index (system->design, part_key (device));
  guint node;
  FeedModel *feed;

  if (node_of (builder, device, &node))
    return true;
  if (system->n_feeds == EVALUATION_FEEDS_MAX)
    return false;
  feed = &system->feeds[system->n_feeds++];
  *feed = (FeedModel){.part = part,
                      .z = geometry_outside (system->design, device).origin.z +
                           design_number (system->design, device, FIELD_DEVICE_OUTFLOW)};
  for (unsigned i = 0; i < system->n_devices; i++)
    if (system->devices[i].part == part)
      feed->device = i;
  feed->chamber = system->devices[feed->device].chamber;
  feed->node = add_node (builder, NETWORK_LEVEL, feed->z);
  remember_node (builder, part, feed->node);
  return true;
}

static bool
add_feeds (Builder *builder)
{
  const Design *design = builder->system->design;

  for (unsigned i = 0; i < design_count (design, PART_RETURN); i++) {
    const Part *target = design_target (design, design_nth (design, PART_RETURN, i), FIELD_RETURN_TO);

    if (target != NULL && part_kind (target) == PART_DEVICE && !add_feed (builder, target))
      return false;
  }
  return true;
}

/* Loss of a device, exit included, on the velocity in the pipe that feeds it: h = h0 (Q/Q0)^2 is a loss coefficient on the
 * velocity that the pipe has at Q0. */
static double
feed_k (const Design *design, const Part *device, double bore_m)
{
  const double velocity_ms =
      design_number (design, device, FIELD_DEVICE_LOSS_FLOW) / (G_PI / 4 * bore_m * bore_m);

  return 1.0 + design_number (design, device, FIELD_DEVICE_LOSS_HEAD) * 2 * GRAVITY_M_S2 /
                   (velocity_ms * velocity_ms);
}

/* Loss of an outlet, exit included, on the velocity in the pipe that feeds it. A mouth wider than the pipe saves part of
 * the exit loss, as a sudden enlargement and then an exit. */
static double
outlet_k (double nozzle_m, double bore_m)
{
  double k = 1.0, enlargement = 0;

  if (nozzle_m < bore_m) {
    fitting_nozzle_k (nozzle_m, bore_m, NOZZLE_COEFFICIENT, &k);
    return k;
  }
  fitting_expansion_k (bore_m, nozzle_m, &enlargement);
  return enlargement + pow (bore_m / nozzle_m, 4);
}

static bool
add_run (Builder *builder, const Part *part, GArray *segments, SystemStatus *ret_status, int *ret_part)
{
  System *system = builder->system;
  const Design *design = system->design;
  RunModel *run = &system->runs[system->n_runs];
  const Part *target = design_target (design, part, FIELD_RETURN_TO);
  RunPieces pieces;
  NetworkLink link;
  guint from, to;

  if (!run_pieces (system, part, false, segments, &pieces, ret_status, ret_part))
    return false;
  if (!node_of (builder, design_owner (design, part), &from) || !node_of (builder, target, &to) ||
      from == to) {
    *ret_status = SYSTEM_BAD_NETWORK;
    *ret_part = design_index (design, part_key (part));
    return false;
  }
  *run = (RunModel){.part = design_index (design, part_key (part)),
                    .pipe = {.length_m = pieces.length_m,
                             .bore_m = pieces.bore_m,
                             .roughness_m = run_roughness_m (system, part),
                             .k = pieces.k},
                    .highest_z = pieces.highest_z,
                    .volume_m3 = pieces.length_m * G_PI / 4 * pieces.bore_m * pieces.bore_m,
                    .first_segment = pieces.first_segment,
                    .n_segments = pieces.n_segments,
                    .has_check = pieces.has_check,
                    .cracking_m = pieces.cracking_m,
                    .check_z = pieces.check_z,
                    .pump = -1,
                    .shut = pieces.shut,
                    .from = from,
                    .to = to};
  run->aged_roughness_m = fmin (fmax (design_number (design, part, FIELD_RETURN_AGED), run->pipe.roughness_m),
                                0.05 * pieces.bore_m);
  for (unsigned i = 0; i < system->n_outlets; i++)
    if (system->outlets[i].node == to) {
      OutletModel *outlet = &system->outlets[i];

      outlet->nozzle_k = outlet_k (outlet->bore_m, pieces.bore_m);
      outlet->feed_bore_m = pieces.bore_m;
      outlet->run = (int) system->n_runs;
      run->pipe.k += outlet->nozzle_k;
    }
  if (part_kind (target) == PART_DEVICE)
    run->pipe.k += feed_k (design, target, pieces.bore_m);
  link =
      network_link_pipe (from, to, run->pipe.length_m, run->pipe.bore_m, run->pipe.roughness_m, run->pipe.k);
  /* Neither a device nor, where a branch leads down to the sump, a display gives water back to a running loop: that it does at
   * rest is drain-back. */
  link.check = run->has_check || (system->n_feeds > 0 && part_kind (target) != PART_TEE);
  link.cracking_head_m = run->cracking_m;
  link.shut = pieces.shut;
  run->link = builder->links->len;
  g_array_append_val (builder->links, link);
  system->n_runs++;
  return true;
}

/* What each pump feeds, by following the runs downstream. */
static void
follow_runs (System *system)
{
  for (unsigned p = 0; p < system->n_pumps; p++) {
    PumpModel *pump = &system->pumps[p];
    bool fed[EVALUATION_RUNS_MAX] = {false};
    bool more = true;

    while (more) {
      more = false;
      for (unsigned i = 0; i < system->n_runs; i++) {
        bool reached = system->runs[i].from == pump->delivery_node;

        for (unsigned k = 0; k < system->n_runs && !reached; k++)
          reached = fed[k] && system->runs[k].to == system->runs[i].from;
        if (!reached || fed[i])
          continue;
        fed[i] = more = true;
        if (system->runs[i].pump < 0)
          system->runs[i].pump = (int) p;
        pump->highest_z = fmax (pump->highest_z, system->runs[i].highest_z);
        for (unsigned o = 0; o < system->n_outlets; o++)
          if (system->outlets[o].node == system->runs[i].to) {
            pump->reaches[o] = true;
            if (system->outlets[o].pump < 0)
              system->outlets[o].pump = (int) p;
          }
        for (unsigned k = 0; k < system->n_feeds; k++)
          pump->reaches_feed[k] = pump->reaches_feed[k] || system->feeds[k].node == system->runs[i].to;
      }
    }
  }
}

/* Which runs some outlet lies behind, and which some device. */
static void
mark_ways (System *system)
{
  bool more = true;

  while (more) {
    more = false;
    for (unsigned i = 0; i < system->n_runs; i++) {
      RunModel *run = &system->runs[i];
      bool display = false, device = false;

      for (unsigned o = 0; o < system->n_outlets; o++)
        display = display || system->outlets[o].node == run->to;
      for (unsigned f = 0; f < system->n_feeds; f++)
        device = device || system->feeds[f].node == run->to;
      for (unsigned k = 0; k < system->n_runs; k++)
        if (system->runs[k].from == run->to) {
          display = display || system->runs[k].feeds_display;
          device = device || system->runs[k].feeds_device;
        }
      more = more || display != run->feeds_display || device != run->feeds_device;
      run->feeds_display = display;
      run->feeds_device = device;
    }
  }
}

static bool
make_networks (Builder *builder, SystemStatus *ret_status, int *ret_part)
{
  System *system = builder->system;
  NetworkFault fault;

  if (network_new ((const NetworkNode *) (void *) builder->nodes->data, builder->nodes->len,
                   (const NetworkLink *) (void *) builder->links->data, builder->links->len,
                   (const NetworkTee *) (void *) builder->tees->data, builder->tees->len, &system->fluid,
                   &system->clean, &fault) != HYDRAULICS_OK) {
    *ret_status = SYSTEM_BAD_NETWORK;
    *ret_part = -1;
    return false;
  }
  system->aged = network_copy (system->clean);
  for (unsigned i = 0; i < system->n_runs; i++) {
    PipeRun pipe = system->runs[i].pipe;

    pipe.roughness_m = system->runs[i].aged_roughness_m;
    pipe.k *= 1 + K_SCATTER;
    network_set_pipe (system->aged, system->runs[i].link, &pipe);
  }
  for (unsigned i = 0; i < system->n_pumps; i++) {
    PipeRun suction = system->pumps[i].suction;

    suction.roughness_m = fmin (SUCTION_AGED_M, PIPE_RELATIVE_ROUGHNESS_MAX * suction.bore_m);
    suction.k *= 1 + K_SCATTER;
    if (system->pumps[i].outside)
      network_set_pipe (system->aged, system->pumps[i].suction_link, &suction);
  }
  return true;
}

/* Direction in which a run leaves a node: from its end there to its first other point. Zero where it has no length. */
static Point3
leaves_node (const System *system, const RunModel *run, guint node)
{
  const Part *part = design_part (system->design, (unsigned) run->part);
  const unsigned n = geometry_run (system->design, part, NULL, 0);
  g_autofree Point3 *points = g_new (Point3, n);
  const bool starts = run->from == node;
  Point3 way = {0};
  double length_m = 0;

  geometry_run (system->design, part, points, n);
  for (unsigned i = 1; i < n && !(length_m > 0); i++) {
    const Point3 here = points[starts ? 0 : n - 1], there = points[starts ? i : n - 1 - i];

    way = (Point3){there.x - here.x, there.y - here.y, there.z - here.z};
    length_m = sqrt (way.x * way.x + way.y * way.y + way.z * way.z);
  }
  return length_m > 0 ? (Point3){way.x / length_m, way.y / length_m, way.z / length_m} : (Point3){0};
}

/* Which of three runs at a node is the branch of the tee: the one beside the pair that lies straightest. Where no pair
 * does, the last in the file. */
static unsigned
branch_of_tee (const System *system, const guint at[3], guint node)
{
  Point3 way[3];
  unsigned branch = 2;
  double straightest = 1;

  for (unsigned i = 0; i < 3; i++)
    way[i] = leaves_node (system, &system->runs[at[i]], node);
  for (unsigned k = 0; k < 3; k++) {
    const unsigned i = 2 - k;
    const Point3 a = way[(i + 1) % 3], b = way[(i + 2) % 3];
    const double cosine = a.x * b.x + a.y * b.y + a.z * b.z;

    if (cosine < straightest - STRAIGHT_SLACK) {
      straightest = cosine;
      branch = i;
    }
  }
  return branch;
}

/* A run narrower than the widest one at its node is let down to its bore there: a bush is a sudden change, the careful
 * side of a conical reducer. */
static void
add_size_change (Builder *builder, RunModel *run, guint node, double widest_m)
{
  double k = 0;

  if (!(run->pipe.bore_m < widest_m))
    return;
  if (run->from == node)
    fitting_contraction_k (widest_m, run->pipe.bore_m, &k);
  else
    fitting_expansion_k (run->pipe.bore_m, widest_m, &k);
  run->pipe.k += k;
  g_array_index (builder->links, NetworkLink, run->link).pipe.k += k;
}

/* Where other than three runs meet: a joint of two, or a cross, of which each arm that leaves turns off as from a tee. */
static void
add_joint_loss (Builder *builder, guint node)
{
  System *system = builder->system;
  double widest_m = 0, k = 0;
  unsigned n = 0;

  for (unsigned i = 0; i < system->n_runs; i++)
    if (system->runs[i].from == node || system->runs[i].to == node) {
      widest_m = fmax (widest_m, system->runs[i].pipe.bore_m);
      n++;
    }
  for (unsigned i = 0; i < system->n_runs && n != 3; i++) {
    RunModel *run = &system->runs[i];

    if (run->from != node && run->to != node)
      continue;
    add_size_change (builder, run, node, widest_m);
    if (n > 3 && run->from == node &&
        fitting_k (FITTING_TEE_BRANCH, run->pipe.bore_m, 0, &k) == HYDRAULICS_OK) {
      run->pipe.k += k;
      g_array_index (builder->links, NetworkLink, run->link).pipe.k += k;
    }
  }
}

/* A tee with exactly three runs gets losses that follow the split: its run is the pair that lies straightest. So a riser
 * that meets a level pipe in its middle parts evenly, and one that only gives off an arm keeps its straight way. */
static void
add_tee_loss (Builder *builder, guint node)
{
  System *system = builder->system;
  guint at[3];
  unsigned n = 0, branch;
  NetworkTee tee = {.node = node, .angle_deg = 90};

  for (unsigned i = 0; i < system->n_runs; i++)
    if (system->runs[i].from == node || system->runs[i].to == node) {
      if (n == 3)
        return;
      at[n++] = i;
    }
  if (n != 3)
    return;
  branch = branch_of_tee (system, at, node);

  RunModel *first = &system->runs[at[branch == 0 ? 1 : 0]], *second = &system->runs[at[branch == 2 ? 1 : 2]];

  tee.run[0] = first->link;
  tee.run[1] = second->link;
  tee.branch = system->runs[at[branch]].link;
  tee.run_m = fmax (first->pipe.bore_m, second->pipe.bore_m);
  tee.branch_m = fmin (system->runs[at[branch]].pipe.bore_m, 2 * tee.run_m);
  g_array_append_val (builder->tees, tee);
  /* The branch's own bore is in the relation of the tee. */
  add_size_change (builder, first, node, tee.run_m);
  add_size_change (builder, second, node, tee.run_m);
}

static bool
build (Builder *builder, GArray *segments, SystemStatus *ret_status, int *ret_part)
{
  System *system = builder->system;
  const Design *design = system->design;
  const unsigned pumps = design_count (design, PART_PUMP), tees = design_count (design, PART_TEE),
                 outlets = design_count (design, PART_OUTLET), runs = design_count (design, PART_RETURN);

  if (pumps > EVALUATION_PUMPS_MAX || outlets > EVALUATION_OUTLETS_MAX || runs > EVALUATION_RUNS_MAX) {
    *ret_status = SYSTEM_TOO_LARGE;
    *ret_part = -1;
    return false;
  }
  for (unsigned i = 0; i < pumps; i++)
    add_pump (builder, design_nth (design, PART_PUMP, i));
  for (unsigned i = 0; i < tees; i++)
    remember_node (builder, design_index (design, part_key (design_nth (design, PART_TEE, i))),
                   add_node (builder, NETWORK_JUNCTION, 0));
  for (unsigned i = 0; i < outlets; i++)
    add_outlet (builder, design_nth (design, PART_OUTLET, i));
  if (!add_feeds (builder)) {
    *ret_status = SYSTEM_TOO_LARGE;
    *ret_part = -1;
    return false;
  }
  for (unsigned i = 0; i < runs; i++)
    if (!add_run (builder, design_nth (design, PART_RETURN, i), segments, ret_status, ret_part))
      return false;
  for (unsigned i = 0; i < tees; i++) {
    const Part *tee = design_nth (design, PART_TEE, i);
    guint node;

    if (node_of (builder, tee, &node)) {
      add_joint_loss (builder, node);
      add_tee_loss (builder, node);
    }
  }
  follow_runs (system);
  mark_ways (system);
  return make_networks (builder, ret_status, ret_part);
}

bool
compile_return (System *system, GArray *segments, SystemStatus *ret_status, int *ret_part)
{
  Builder builder = {.system = system,
                     .nodes = g_array_new (FALSE, FALSE, sizeof (NetworkNode)),
                     .links = g_array_new (FALSE, FALSE, sizeof (NetworkLink)),
                     .tees = g_array_new (FALSE, FALSE, sizeof (NetworkTee)),
                     .node_of = g_hash_table_new (NULL, NULL)};
  const bool done = build (&builder, segments, ret_status, ret_part);

  g_array_unref (builder.nodes);
  g_array_unref (builder.links);
  g_array_unref (builder.tees);
  g_hash_table_unref (builder.node_of);
  return done;
}
