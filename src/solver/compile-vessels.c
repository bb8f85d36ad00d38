/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Vessels of the system: tanks, overflows with their boxes, chambers and baffles of the sump, devices. */
#include "design/choices.h"
#include "design/geometry.h"
#include "hydraulics/fitting.h"
#include "solver/model.h"

/* Most of a tank's plan that its inside boxes can take. */
#define BOXES_MOST_SHARE 0.95

static int
index_of (const System *system, const Part *part)
{
  return design_index (system->design, part_key (part));
}

static bool
too_large (const Part *part, const System *system, SystemStatus *ret_status, int *ret_part)
{
  *ret_status = SYSTEM_TOO_LARGE;
  *ret_part = index_of (system, part);
  return false;
}

static Weir
weir_of (const System *system, const Part *overflow, const Part *tank)
{
  const Design *design = system->design;
  const bool outside = design_choice (design, overflow, FIELD_OVERFLOW_KIND) == OVERFLOW_OUTSIDE;
  Weir weir = {.formula = WEIR_THICK_CREST,
               .crest_length_m = design_number (design, overflow, FIELD_OVERFLOW_LENGTH),
               .channel_width_m = design_number (design, overflow, FIELD_OVERFLOW_LENGTH),
               .crest_thickness_m = outside ? design_number (design, tank, FIELD_TANK_GLASS)
                                            : design_number (design, overflow, FIELD_OVERFLOW_WALL),
               .crest_height_m =
                   fmax (geometry_crest (design, overflow) - geometry_inside (design, tank).origin.z, 0.01)};

  if (design_choice (design, overflow, FIELD_OVERFLOW_WEIR) == WEIR_TOOTHED) {
    int openings;
    Weir comb = weir;

    comb.formula = WEIR_COMB;
    comb.gap_m = design_number (design, overflow, FIELD_OVERFLOW_GAP);
    comb.bar_m = design_number (design, overflow, FIELD_OVERFLOW_TOOTH);
    comb.opening_height_m = design_number (design, overflow, FIELD_OVERFLOW_TOOTH_HEIGHT);
    comb.discharge_coefficient = WEIR_COMB_DISCHARGE_COEFFICIENT;
    comb.closed_above = design_choice (design, overflow, FIELD_OVERFLOW_CLOSED) != 0;
    /* A crest too short for a single gap is taken as plain. */
    if (weir_opening_count (&comb, &openings) == HYDRAULICS_OK)
      return comb;
  }
  return weir;
}

static BoxModel
box_of (Box3 box)
{
  return (BoxModel){.there = true,
                    .area_m2 = box.size.x * box.size.y,
                    .floor_z = box.origin.z,
                    .rim_z = box.origin.z + box.size.z,
                    .length_m = box.size.x,
                    .width_m = box.size.y};
}

static double
fitting_or_none (FittingKind kind, double bore_m)
{
  double k = 0;

  fitting_k (kind, bore_m, 0, &k);
  return k;
}

/* Tubes from below the surface of the inner box over the rim: two elbows, both ends projecting into their box. */
static void
add_tubes (const System *system, const Part *overflow, OverflowModel *model)
{
  const Design *design = system->design;
  const double bore_m = design_number (design, overflow, FIELD_OVERFLOW_TUBE_BORE);
  const double area_m2 = G_PI / 4 * bore_m * bore_m;
  Point3 axis[GEOMETRY_TUBE_POINTS];
  double length_m = 0;

  geometry_tube (design, overflow, 0, axis);
  for (unsigned i = 1; i < GEOMETRY_TUBE_POINTS; i++)
    length_m += fabs (axis[i].z - axis[i - 1].z) + fabs (axis[i].y - axis[i - 1].y);
  model->tubes = (HangOverBox){.tube = {.mouth_level_m = axis[0].z,
                                        .mouth_diameter_m = bore_m,
                                        .end_level_m = axis[GEOMETRY_TUBE_POINTS - 1].z,
                                        .run = {.length_m = length_m,
                                                .bore_m = bore_m,
                                                .roughness_m = field_info (FIELD_DRAIN_ROUGHNESS)->fallback,
                                                .k = fitting_or_none (FITTING_ENTRANCE_PROJECTING, bore_m) +
                                                     2 * fitting_or_none (FITTING_ELBOW_90, bore_m) +
                                                     fitting_or_none (FITTING_EXIT, bore_m)}},
                               .n_tubes = geometry_tubes (design, overflow),
                               .crown_level_m = geometry_crown (design, overflow),
                               .inner_rest_level_m = model->crest_z,
                               .outer_rest_level_m = model->top_z};
  model->tubes_m3 = model->tubes.n_tubes * area_m2 * length_m;
}

static void
add_hang_over (const System *system, const Part *overflow, OverflowModel *model)
{
  model->hangs_over = true;
  model->outer = box_of (geometry_drain_box (system->design, overflow));
  model->tube_side = box_of (geometry_tube_side (system->design, overflow));
  model->top_z = geometry_seal (system->design, overflow);
  model->seal = (Weir){.formula = WEIR_THICK_CREST,
                       .crest_length_m = model->tube_side.length_m,
                       .channel_width_m = model->tube_side.length_m,
                       .crest_thickness_m = design_number (system->design, overflow, FIELD_OVERFLOW_WALL),
                       .crest_height_m = fmax (model->top_z - model->tube_side.floor_z, 0.01)};
  add_tubes (system, overflow, model);
}

static void
add_overflow (System *system, unsigned tank, const Part *overflow)
{
  const Design *design = system->design;
  const Part *tank_part = design_owner (design, overflow);
  OverflowModel *model = &system->overflows[system->n_overflows++];
  const double wall_m = design_number (design, overflow, FIELD_OVERFLOW_WALL);
  int openings;

  *model = (OverflowModel){.part = index_of (system, overflow),
                           .kind = design_choice (design, overflow, FIELD_OVERFLOW_KIND),
                           .tank = tank,
                           .crest_z = geometry_crest (design, overflow),
                           .tilt_m = design_number (design, overflow, FIELD_OVERFLOW_TILT),
                           .weir = weir_of (system, overflow, tank_part),
                           .inner = box_of (geometry_inside (design, overflow))};
  model->top_z = model->crest_z;
  model->open_length_m = model->weir.crest_length_m;
  if (model->weir.formula == WEIR_COMB && weir_opening_count (&model->weir, &openings) == HYDRAULICS_OK) {
    model->open_length_m = openings * model->weir.gap_m;
    model->closed_comb = model->weir.closed_above;
    model->comb_top_z = model->crest_z + model->weir.opening_height_m;
  }
  if (model->kind == OVERFLOW_PAIR) {
    model->outer = box_of (geometry_drain_box (design, overflow));
    model->passage_bore_m = design_number (design, overflow, FIELD_OVERFLOW_PASSAGE_BORE);
    model->n_passages = fmax (1, round (design_number (design, overflow, FIELD_OVERFLOW_PASSAGES)));
  }
  if (model->kind == OVERFLOW_HANG_OVER)
    add_hang_over (system, overflow, model);
  if (model->kind != OVERFLOW_OUTSIDE) {
    const TankModel *in = &system->tanks[tank];

    /* Walls against a pane lie outside the water; boxes never take all of the tank's plan. */
    model->footprint_m2 = fmin (fmin (model->inner.length_m + 2 * wall_m, in->length_m) *
                                    fmin (model->inner.width_m + wall_m, in->width_m),
                                BOXES_MOST_SHARE * in->area_m2 / in->n_overflows);
    model->footprint_low_z = model->inner.floor_z - wall_m;
  }
  model->box_rim_z = model->outer.there ? fmin (model->outer.rim_z, model->inner.rim_z) : model->inner.rim_z;
  model->lowest_rim_z = fmin (model->box_rim_z, system->tanks[tank].rim_z);
}

static bool
compile_tanks (System *system, SystemStatus *ret_status, int *ret_part)
{
  const Design *design = system->design;

  for (unsigned i = 0; i < design_count (design, PART_TANK); i++) {
    const Part *tank = design_nth (design, PART_TANK, i);
    const Box3 inside = geometry_inside (design, tank);
    TankModel *model;

    if (system->n_tanks == EVALUATION_TANKS_MAX)
      return too_large (tank, system, ret_status, ret_part);
    model = &system->tanks[system->n_tanks];
    *model = (TankModel){.part = index_of (system, tank),
                         .bottom_z = inside.origin.z,
                         .rim_z = inside.origin.z + inside.size.z,
                         .length_m = inside.size.x,
                         .width_m = inside.size.y,
                         .area_m2 = inside.size.x * inside.size.y,
                         .rock = design_number (design, tank, FIELD_TANK_ROCK),
                         .substrate_m = design_number (design, tank, FIELD_TANK_SUBSTRATE),
                         .first_overflow = system->n_overflows,
                         .n_overflows = design_n_children (design, part_key (tank), PART_OVERFLOW)};
    if (system->n_overflows + model->n_overflows > EVALUATION_OVERFLOWS_MAX)
      return too_large (tank, system, ret_status, ret_part);
    for (unsigned k = 0; k < model->n_overflows; k++)
      add_overflow (system, system->n_tanks, design_child (design, part_key (tank), PART_OVERFLOW, k));
    system->n_tanks++;
  }
  return true;
}

static void
add_baffle (System *system, const Part *baffle, const Box3 *sump)
{
  const Design *design = system->design;

  system->baffles[system->n_baffles++] =
      (BaffleModel){.part = index_of (system, baffle),
                    .kind = design_choice (design, baffle, FIELD_BAFFLE_KIND),
                    .crest_z = sump->origin.z + design_number (design, baffle, FIELD_BAFFLE_HEIGHT),
                    .gap_m = design_number (design, baffle, FIELD_BAFFLE_GAP),
                    .thickness_m = design_number (design, baffle, FIELD_BAFFLE_THICKNESS),
                    .width_m = sump->size.y};
}

static void
add_chamber (System *system, const Part *chamber, const Box3 *sump)
{
  const Design *design = system->design;
  const Box3 inside = geometry_inside (design, chamber);

  system->chambers[system->n_chambers++] =
      (ChamberModel){.part = index_of (system, chamber),
                     .role = design_choice (design, chamber, FIELD_CHAMBER_ROLE),
                     .area_m2 = inside.size.x * inside.size.y,
                     .length_m = inside.size.x,
                     .bottom_z = sump->origin.z,
                     .rim_z = sump->origin.z + sump->size.z,
                     .filled = design_number (design, chamber, FIELD_CHAMBER_FILLED),
                     .level_z = sump->origin.z + design_number (design, chamber, FIELD_CHAMBER_LEVEL),
                     .socks = design_number (design, chamber, FIELD_CHAMBER_SOCKS),
                     .sock_flow_m3s = design_number (design, chamber, FIELD_CHAMBER_SOCK_FLOW),
                     .bypass_z = sump->origin.z + design_number (design, chamber, FIELD_CHAMBER_BYPASS),
                     .bypass_length_m = design_number (design, chamber, FIELD_CHAMBER_BYPASS_LENGTH),
                     .sock_length_m = design_number (design, chamber, FIELD_CHAMBER_SOCK_LENGTH)};
}

static bool
compile_sump (System *system, SystemStatus *ret_status, int *ret_part)
{
  const Design *design = system->design;
  const Part *sump = design_nth (design, PART_SUMP, 0);
  const Box3 inside = geometry_inside (design, sump);
  const unsigned chambers = design_n_children (design, part_key (sump), PART_CHAMBER);

  if (chambers > EVALUATION_CHAMBERS_MAX)
    return too_large (sump, system, ret_status, ret_part);
  for (unsigned i = 0; i < chambers; i++)
    add_chamber (system, design_child (design, part_key (sump), PART_CHAMBER, i), &inside);
  for (unsigned i = 0; i + 1 < chambers; i++)
    add_baffle (system, design_child (design, part_key (sump), PART_BAFFLE, i), &inside);
  return true;
}

/* Index of a chamber by its part, or 0. */
static unsigned
chamber_index (const System *system, const Part *chamber)
{
  const int part = chamber != NULL ? index_of (system, chamber) : -1;

  for (unsigned i = 0; i < system->n_chambers; i++)
    if (system->chambers[i].part == part)
      return i;
  return 0;
}

static void
compile_devices (System *system)
{
  const Design *design = system->design;
  const unsigned n = MIN (design_count (design, PART_DEVICE), EVALUATION_DEVICES_MAX);

  for (unsigned i = 0; i < n; i++) {
    const Part *device = design_nth (design, PART_DEVICE, i);

    system->devices[system->n_devices++] =
        (DeviceModel){.part = index_of (system, device),
                      .kind = design_choice (design, device, FIELD_DEVICE_KIND),
                      .chamber = chamber_index (system, design_owner (design, device)),
                      .flow_least_m3s = design_number (design, device, FIELD_DEVICE_FLOW_LEAST),
                      .flow_most_m3s = design_number (design, device, FIELD_DEVICE_FLOW_MOST),
                      .length_m = design_number (design, device, FIELD_DEVICE_LENGTH),
                      .width_m = design_number (design, device, FIELD_DEVICE_WIDTH),
                      .height_m = design_number (design, device, FIELD_DEVICE_HEIGHT),
                      .stands_z = geometry_outside (design, device).origin.z,
                      .depth_m = design_number (design, device, FIELD_DEVICE_DEPTH),
                      .tolerance_m = design_number (design, device, FIELD_DEVICE_DEPTH_TOLERANCE),
                      .wet_m = design_number (design, device, FIELD_DEVICE_WET),
                      .room_m = design_number (design, device, FIELD_DEVICE_ROOM),
                      .watts = design_number (design, device, FIELD_DEVICE_WATTS)};
  }
}

bool
compile_vessels (System *system, SystemStatus *ret_status, int *ret_part)
{
  if (!compile_tanks (system, ret_status, ret_part) || !compile_sump (system, ret_status, ret_part))
    return false;
  compile_devices (system);
  return true;
}
