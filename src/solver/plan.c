/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "solver/plan.h"

#include <math.h>

#include "design/choices.h"

#define END_M         0.01 /* from the stand to the sump */
#define BAFFLE_M      0.006
#define FALL          0.02 /* of a run that lies */
#define TRAP_M        0.05
#define ABOVE_RIM_M   0.06 /* a return pipe over the tank's edge */
#define BEHIND_TANK_M 0.06
#define SOCK_PLAN_M   0.2  /* room that one sock takes in plan */
#define WEIR_M05S     1.84 /* Francis, for a first guess of heads */

/* A draft that remembers its first refusal, so that building reads as a list. */
typedef struct {
  Draft *draft;
  Problem *problem;
  bool ok;
} Builder;

static void
add (Builder *b, PartKind kind, const char *key, const char *owner)
{
  b->ok = b->ok && draft_add (b->draft, kind, key, NULL, owner, NULL, b->problem);
}

static void
put (Builder *b, const char *key, FieldId field, double value)
{
  b->ok = b->ok && draft_set_number (b->draft, key, field, value, b->problem);
}

static void
put_text (Builder *b, const char *key, FieldId field, const char *text)
{
  b->ok = b->ok && draft_set_text (b->draft, key, field, text, b->problem);
}

/* What can be built: whole millimetres. */
static double
whole (double metres)
{
  return round (metres * 1000) / 1000;
}

double
plan_sump_glass (double height_m)
{
  return height_m > 0.5 ? 0.010 : 0.008;
}

static double
plan_trap (const Plan *plan)
{
  return fmin (TRAP_M, 0.08 * plan->sump_m[0]);
}

/* Length of the inlet chamber: two fifths of what trap and return chamber leave. */
static double
plan_inlet (const Plan *plan)
{
  const double inside_m = plan->sump_m[0] - 2 * plan_sump_glass (plan->sump_m[2]);

  return 0.4 * (inside_m * (1 - plan->return_share) - 2 * plan_trap (plan) - 4 * BAFFLE_M);
}

static double
tank_top (const Plan *plan)
{
  const FieldInfo *floor = field_info (FIELD_STAND_FLOOR), *top = field_info (FIELD_STAND_TOP);

  return floor->fallback + plan->request.stand_m[2] + top->fallback + plan->request.tank_m[2];
}

static void
build_room (Builder *b, const Plan *plan)
{
  const ProposalRequest *request = &plan->request;

  add (b, PART_JOB, "job", NULL);
  add (b, PART_ROOM, "room", NULL);
  add (b, PART_STAND, "stand", NULL);
  add (b, PART_TANK, "display", NULL);
  if (request->us)
    put (b, "job", FIELD_JOB_UNITS, UNITS_CHOICE_US);
  if (request->turnover_per_h > 0)
    put (b, "job", FIELD_JOB_TURNOVER, request->turnover_per_h);
  put (b, "stand", FIELD_STAND_LENGTH, request->stand_m[0]);
  put (b, "stand", FIELD_STAND_WIDTH, request->stand_m[1]);
  put (b, "stand", FIELD_STAND_HEIGHT, request->stand_m[2]);
  if (request->door_m[0] > 0)
    put (b, "stand", FIELD_STAND_DOOR_WIDTH, request->door_m[0]);
  if (request->door_m[1] > 0)
    put (b, "stand", FIELD_STAND_DOOR_HEIGHT, request->door_m[1]);
  put (b, "display", FIELD_TANK_LENGTH, request->tank_m[0]);
  put (b, "display", FIELD_TANK_WIDTH, request->tank_m[1]);
  put (b, "display", FIELD_TANK_HEIGHT, request->tank_m[2]);
}

/* Passages through the back pane under about 10 mm of head: orifices of 0.6 at 0.27 m/s. */
static void
build_passages (Builder *b, const Plan *plan)
{
  const double area_m2 = plan->flow_m3s * 1.3 / 0.27;
  const double bore_m = fmin (fmax (sqrt (2 * area_m2 / G_PI), 0.03), 0.06);
  const double number = ceil (area_m2 / (G_PI / 4 * bore_m * bore_m) - 1e-9);

  put (b, "overflow", FIELD_OVERFLOW_PASSAGE_BORE, whole (bore_m));
  put (b, "overflow", FIELD_OVERFLOW_PASSAGES, fmin (fmax (number, 2), 12));
}

static double
tank_glass (const Plan *plan)
{
  return fmax (0.006, ceil (plan->request.tank_m[2] / 50 * 1000 - 1e-6) / 1000);
}

/* Left end of the tank's inside, from the left end of the stand's inside. */
static double
tank_left (const Plan *plan)
{
  return (plan->request.stand_m[0] - plan->request.tank_m[0]) / 2 + tank_glass (plan);
}

/* Place of a drain's mouth from the left end of the box: over its place in the inlet chamber where the box reaches there. */
static double
mouth_place (const Plan *plan, unsigned place, unsigned n)
{
  const double spread_m = fmin (plan_inlet (plan), plan->box_length_m) * (place + 0.5) / n;

  return spread_m + fmax (0, (plan->box_length_m - plan_inlet (plan)) / 2);
}

/* Left end of the box's inside: over the middle of the inlet chamber, within the tank. */
static double
box_left (const Plan *plan)
{
  const double inside_m = plan->request.tank_m[0] - 2 * tank_glass (plan);
  const double middle_m = END_M + plan_sump_glass (plan->sump_m[2]) + plan_inlet (plan) / 2;

  return fmin (fmax (middle_m - plan->box_length_m / 2, tank_left (plan)),
               tank_left (plan) + inside_m - plan->box_length_m);
}

/* A pair over the inlet chamber, so that its drains fall onto the inlet chamber; no hole in the bottom. */
static void
build_overflow (Builder *b, const Plan *plan)
{
  const double rim_m = plan->request.tank_m[2];

  add (b, PART_OVERFLOW, "overflow", "display");
  put (b, "overflow", FIELD_OVERFLOW_KIND, OVERFLOW_PAIR);
  put (b, "overflow", FIELD_OVERFLOW_X, whole (box_left (plan) - tank_left (plan)));
  build_passages (b, plan);
  put (b, "overflow", FIELD_OVERFLOW_CREST, whole (rim_m - plan->crest_drop_m));
  put (b, "overflow", FIELD_OVERFLOW_BOX_LENGTH, whole (plan->box_length_m));
  put (b, "overflow", FIELD_OVERFLOW_BOX_WIDTH, whole (plan->box_width_m));
  put (b, "overflow", FIELD_OVERFLOW_BOX_DEPTH, whole (plan->box_depth_m));
}

static void
build_corner (Builder *b, const char *run, unsigned number)
{
  g_autofree char *key = g_strdup_printf ("%s-corner-%u", run, number);

  add (b, PART_CORNER, key, run);
}

static void
put_corner (Builder *b, const char *run, unsigned number, FieldId field, double value)
{
  g_autofree char *key = g_strdup_printf ("%s-corner-%u", run, number);

  put (b, key, field, whole (value));
}

/* Down behind the tank, forward through the stand's back with a slight fall, and down into the inlet chamber: stock
 * elbows of 90 degrees. */
static void
build_drain_way (Builder *b, const Plan *plan, const char *key, unsigned place, unsigned n)
{
  const double floor_m = field_info (FIELD_STAND_FLOOR)->fallback;
  const double from_m = floor_m + 0.9 * plan->request.stand_m[2];
  const double x = END_M + plan_sump_glass (plan->sump_m[2]) + plan_inlet (plan) * (place + 0.5) / n;
  const double y = END_M + plan->sump_m[1] / 2;
  const double behind_y = (plan->request.stand_m[1] + plan->request.tank_m[1]) / 2 + plan->box_width_m / 2;
  const double across_m = hypot (x - box_left (plan) - mouth_place (plan, place, n), y - behind_y);

  build_corner (b, key, 1);
  put_corner (b, key, 1, FIELD_CORNER_Z, from_m);
  build_corner (b, key, 2);
  put_corner (b, key, 2, FIELD_CORNER_X, x);
  put_corner (b, key, 2, FIELD_CORNER_Y, y);
  put_corner (b, key, 2, FIELD_CORNER_Z, from_m - FALL * across_m);
}

/* A drain with its bulkhead and union, and a valve low on it where it is a siphon. */
static void
build_drain (Builder *b, const Plan *plan, const char *key, DrainRole role, const PipeSize *size,
             unsigned place, unsigned n)
{
  g_autofree char *union_key = g_strconcat (key, "-union", NULL);
  g_autofree char *valve_key = g_strconcat (key, "-valve", NULL);
  g_autofree char *bulkhead_key = g_strconcat (key, "-bulkhead", NULL);

  add (b, PART_DRAIN, key, "overflow");
  put (b, key, FIELD_DRAIN_ROLE, role);
  put_text (b, key, FIELD_DRAIN_SIZE, size->key);
  put_text (b, key, FIELD_DRAIN_TO, "inlet");
  put (b, key, FIELD_DRAIN_X, whole (mouth_place (plan, place, n)));
  build_drain_way (b, plan, key, place, n);
  add (b, PART_FITTING, bulkhead_key, key);
  put_text (b, bulkhead_key, FIELD_FITTING_TYPE, "bulkhead");
  put (b, bulkhead_key, FIELD_FITTING_STATION, whole (plan->box_depth_m * 0.8));
  add (b, PART_FITTING, union_key, key);
  put_text (b, union_key, FIELD_FITTING_TYPE, "union");
  put (b, union_key, FIELD_FITTING_STATION, whole (plan->box_depth_m + 0.1));
  if (role != DRAIN_SIPHON)
    return;
  add (b, PART_FITTING, valve_key, key);
  put_text (b, valve_key, FIELD_FITTING_TYPE, "gate-valve");
  put (b, valve_key, FIELD_FITTING_STATION,
       whole (plan->request.tank_m[2] + 0.12 + 0.35 * plan->request.stand_m[2] + plan->box_width_m));
}

/* Head of the flow over a baffle across the sump, for a first guess. */
static double
baffle_head (const Plan *plan)
{
  const double width_m = fmax (plan->sump_m[1] - 2 * plan_sump_glass (plan->sump_m[2]), 0.05);

  return pow (plan->flow_m3s / (WEIR_M05S * width_m), 2.0 / 3.0);
}

static void
build_baffle (Builder *b, const char *key, BaffleKind kind, double x, double height, double gap)
{
  add (b, PART_BAFFLE, key, "sump");
  put (b, key, FIELD_BAFFLE_KIND, kind);
  put (b, key, FIELD_BAFFLE_X, whole (x));
  put (b, key, FIELD_BAFFLE_HEIGHT, whole (height));
  put (b, key, FIELD_BAFFLE_GAP, whole (gap));
}

static void
build_chamber (Builder *b, const char *key, ChamberRole role)
{
  add (b, PART_CHAMBER, key, "sump");
  put (b, key, FIELD_CHAMBER_ROLE, role);
}

/* Socks that are wanted and fit, and are short enough to be lifted out. */
static void
build_socks (Builder *b, const Plan *plan, double chamber_m)
{
  const double flow_m3s = field_info (FIELD_CHAMBER_SOCK_FLOW)->fallback;
  const double length_m = plan->request.stand_m[2] - plan->sump_m[2] - 0.05;
  const double wanted = ceil (plan->flow_m3s * 1.15 / flow_m3s);
  const double room = floor (chamber_m / SOCK_PLAN_M) * floor (plan->sump_m[1] / SOCK_PLAN_M);

  if (length_m < 0.15 || fmin (wanted, room) < 1)
    return;
  put (b, "inlet", FIELD_CHAMBER_SOCKS, fmin (fmin (wanted, room), 12));
  put (b, "inlet", FIELD_CHAMBER_SOCK_LENGTH, whole (fmin (length_m, 0.4)));
}

/* Skimmer and heater, where they fit. */
static void
build_devices (Builder *b, const Plan *plan, double chamber_m)
{
  const double width_m = plan->sump_m[1] - 2 * plan_sump_glass (plan->sump_m[2]);
  const double height_m = fmin (plan->request.stand_m[2] - 0.17, 0.48);
  const double plan_m = fmin (fmin (chamber_m - 0.06, width_m - 0.06), 0.24);

  if (plan_m >= 0.1 && height_m >= plan->depth_m + 0.08) {
    add (b, PART_DEVICE, "skimmer", "skimming");
    put (b, "skimmer", FIELD_DEVICE_KIND, DEVICE_SKIMMER);
    put (b, "skimmer", FIELD_DEVICE_LENGTH, whole (plan_m));
    put (b, "skimmer", FIELD_DEVICE_WIDTH, whole (plan_m));
    put (b, "skimmer", FIELD_DEVICE_HEIGHT, whole (height_m));
    put (b, "skimmer", FIELD_DEVICE_DEPTH, whole (plan->depth_m));
    put (b, "skimmer", FIELD_DEVICE_WATTS, 20);
  }
  if (chamber_m >= 0.08) {
    add (b, PART_DEVICE, "heater", "skimming");
    put (b, "heater", FIELD_DEVICE_KIND, DEVICE_HEATER);
    put (b, "heater", FIELD_DEVICE_LENGTH, whole (fmin (chamber_m - 0.03, 0.3)));
    put (b, "heater", FIELD_DEVICE_WIDTH, 0.03);
    put (b, "heater", FIELD_DEVICE_HEIGHT, 0.03);
    put (b, "heater", FIELD_DEVICE_STANDS, 0.02);
    put (b, "heater", FIELD_DEVICE_WET, 0.03);
    put (b, "heater", FIELD_DEVICE_WATTS, 200);
  }
}

/* Inlet, skimmer chamber of constant depth, bubble trap over-under-over, return chamber. */
static void
build_sump (Builder *b, const Plan *plan)
{
  const double glass_m = plan_sump_glass (plan->sump_m[2]);
  const double inside_m = plan->sump_m[0] - 2 * glass_m, high_m = plan->sump_m[2] - glass_m;
  const double trap_m = plan_trap (plan), inlet_m = plan_inlet (plan);
  const double skimming_m = inside_m - inlet_m - 2 * trap_m - plan->return_share * inside_m - 4 * BAFFLE_M;
  const double head_m = baffle_head (plan);
  double x = inlet_m;

  add (b, PART_SUMP, "sump", NULL);
  put (b, "sump", FIELD_SUMP_LENGTH, whole (plan->sump_m[0]));
  put (b, "sump", FIELD_SUMP_WIDTH, whole (plan->sump_m[1]));
  put (b, "sump", FIELD_SUMP_HEIGHT, whole (plan->sump_m[2]));
  put (b, "sump", FIELD_SUMP_GLASS, glass_m);
  put (b, "sump", FIELD_SUMP_BOTTOM, glass_m);
  build_chamber (b, "inlet", CHAMBER_INLET);
  build_chamber (b, "skimming", CHAMBER_SKIMMER);
  build_chamber (b, "trap-down", CHAMBER_TRAP);
  build_chamber (b, "trap-up", CHAMBER_TRAP);
  build_chamber (b, "return-chamber", CHAMBER_RETURN);
  put (b, "return-chamber", FIELD_CHAMBER_LEVEL, whole (plan->return_level_m));
  build_baffle (b, "baffle-inlet", BAFFLE_OVER, x, fmin (plan->depth_m + 0.02, high_m), 0);
  x += BAFFLE_M + skimming_m;
  build_baffle (b, "baffle-depth", BAFFLE_OVER, x, plan->depth_m - head_m, 0);
  x += BAFFLE_M + trap_m;
  build_baffle (b, "baffle-under", BAFFLE_UNDER, x, fmin (plan->depth_m + 0.03, high_m),
                fmin (0.05, 0.35 * plan->depth_m));
  x += BAFFLE_M + trap_m;
  build_baffle (b, "baffle-return", BAFFLE_OVER, x,
                fmax (plan->depth_m - head_m - 0.03, plan->return_level_m), 0);
  build_socks (b, plan, inlet_m);
  build_devices (b, plan, skimming_m);
}

static void
build_pump (Builder *b, const Plan *plan)
{
  const double chamber_m = plan->return_share * (plan->sump_m[0] - 0.02);
  const double size_m = fmin (plan->pump->length_m > 0 ? plan->pump->length_m : 0.12, chamber_m - 0.01);

  add (b, PART_PUMP, "return-pump", "return-chamber");
  b->ok = b->ok && draft_set_label (b->draft, "return-pump", plan->pump->name, b->problem);
  put_text (b, "return-pump", FIELD_PUMP_CURVE, plan->pump->curve);
  put (b, "return-pump", FIELD_PUMP_WATTS, plan->pump->watts);
  put (b, "return-pump", FIELD_PUMP_SPEED, plan->speed);
  put (b, "return-pump", FIELD_PUMP_LENGTH, whole (fmax (size_m, 0.03)));
  put (b, "return-pump", FIELD_PUMP_SUCTION, whole (plan->suction_m));
  put (b, "return-pump", FIELD_PUMP_COVER, whole (fmin (0.05, 0.4 * plan->return_level_m)));
}

static void
add_corner (Builder *b, const char *run, unsigned number, FieldId field, double value)
{
  build_corner (b, run, number);
  put_corner (b, run, number, field, value);
}

/* Outlets stand right of the overflow: one at nine tenths, a second one half way to the box. */
static double
outlet_place (const Plan *plan, unsigned outlet)
{
  const double inside_m = plan->request.tank_m[0] - 2 * tank_glass (plan);
  const double right_m = 0.9 * inside_m,
               box_m = fmin (box_left (plan) - tank_left (plan) + plan->box_length_m + 0.05, 0.6 * inside_m);

  return outlet + 1 == plan->outlets ? right_m : (right_m + box_m) / 2;
}

/* Up from the pump, back, up behind the tank, along its edge and down into the water. */
static void
build_return (Builder *b, const Plan *plan)
{
  const ProposalRequest *request = &plan->request;
  const double behind_m = (request->stand_m[1] + request->tank_m[1]) / 2 + BEHIND_TANK_M;
  const double under_top_m = field_info (FIELD_STAND_FLOOR)->fallback + 0.75 * request->stand_m[2];
  const double edge_m = tank_top (plan) + ABOVE_RIM_M;
  const bool two = plan->outlets > 1;

  for (unsigned i = 0; i < plan->outlets; i++) {
    const char *key = i == 0 ? "outlet-left" : "outlet-right";

    add (b, PART_OUTLET, key, "display");
    put (b, key, FIELD_OUTLET_X, whole (outlet_place (plan, i)));
    put (b, key, FIELD_OUTLET_BORE, round (plan->nozzle_m * 1e4) / 1e4); /* tenths of a millimetre */
    put (b, key, FIELD_OUTLET_HEIGHT, whole (request->tank_m[2] - plan->crest_drop_m - plan->outlet_drop_m));
  }
  add (b, PART_RETURN, "return", "return-pump");
  put_text (b, "return", FIELD_RETURN_SIZE, plan->pipe->key);
  add_corner (b, "return", 1, FIELD_CORNER_Z, under_top_m);
  add_corner (b, "return", 2, FIELD_CORNER_Y, behind_m);
  add (b, PART_FITTING, "return-union", "return");
  put_text (b, "return-union", FIELD_FITTING_TYPE, "union");
  put (b, "return-union", FIELD_FITTING_STATION, whole (fmin (0.1, 0.2 * request->stand_m[2])));
  if (!two) {
    put_text (b, "return", FIELD_RETURN_TO, "outlet-left");
    add_corner (b, "return", 3, FIELD_CORNER_Z, edge_m);
  } else {
    add (b, PART_TEE, "tee", NULL);
    put (b, "tee", FIELD_TEE_Z, whole (edge_m));
    put_text (b, "return", FIELD_RETURN_TO, "tee");
  }
}

/* From the edge behind the tank to above an outlet. */
static void
build_last_leg (Builder *b, const Plan *plan, const char *run, unsigned number, double x)
{
  const ProposalRequest *request = &plan->request;
  const double outlet_y = request->stand_m[1] / 2 + request->tank_m[1] / 2 - tank_glass (plan) - 0.06;

  add_corner (b, run, number, FIELD_CORNER_X, x);
  add_corner (b, run, number + 1, FIELD_CORNER_Y, outlet_y);
}

static void
build_ends (Builder *b, const Plan *plan)
{
  static const char *const runs[] = {"return-left", "return-right"};
  static const char *const outlets[] = {"outlet-left", "outlet-right"};

  if (plan->outlets == 1) {
    build_last_leg (b, plan, "return", 4, tank_left (plan) + outlet_place (plan, 0));
    return;
  }
  for (unsigned i = 0; i < 2; i++) {
    add (b, PART_RETURN, runs[i], "tee");
    put_text (b, runs[i], FIELD_RETURN_TO, outlets[i]);
    put_text (b, runs[i], FIELD_RETURN_SIZE, plan->pipe->key);
    build_last_leg (b, plan, runs[i], 1, tank_left (plan) + outlet_place (plan, i));
  }
}

static void
build_reservoir (Builder *b, const Plan *plan)
{
  if (plan->reservoir_length_m <= 0)
    return;
  add (b, PART_RESERVOIR, "reservoir", NULL);
  put (b, "reservoir", FIELD_RESERVOIR_LENGTH, whole (plan->reservoir_length_m));
  put (b, "reservoir", FIELD_RESERVOIR_WIDTH, whole (plan->sump_m[1]));
  put (b, "reservoir", FIELD_RESERVOIR_HEIGHT, whole (plan->sump_m[2]));
  put (b, "reservoir", FIELD_RESERVOIR_CUT_OUT, CUT_OUT_RUN_TIME);
}

Design *
plan_build (const Plan *plan, Problem *ret_problem)
{
  g_autoptr (Draft) draft = draft_new (NULL);
  Builder b = {.draft = draft, .problem = ret_problem, .ok = true};

  build_room (&b, plan);
  build_overflow (&b, plan);
  build_sump (&b, plan);
  build_drain (&b, plan, "main-drain", DRAIN_SIPHON, plan->drain, 0, 3);
  build_drain (&b, plan, "trickle", DRAIN_TRICKLE, plan->trickle, 1, 3);
  build_drain (&b, plan, "emergency", DRAIN_EMERGENCY, plan->emergency, 2, 3);
  build_pump (&b, plan);
  build_return (&b, plan);
  build_ends (&b, plan);
  build_reservoir (&b, plan);
  return b.ok ? draft_commit (draft, ret_problem) : NULL;
}
