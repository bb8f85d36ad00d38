/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* An evaluation: all that is true of a design while it runs and when it is switched off, as plain data. Windows, sheets
 * and command line show it; nothing else computes. It holds no pointers, so it is copied by assignment (it is large:
 * keep it on the heap, evaluation_new).
 *
 * Everything is SI. Levels, and names that end in _z, are heights above the room floor in metres. `part` is the index of
 * a part in the design that was evaluated. Flows "fast" and "slow" are the edges that are judged: fast is the pump's
 * upper tolerance with new pipe, slow its lower tolerance with aged pipe and K + 25 %.
 * A number that was not computed, or does not apply, is NAN, never a made-up one: test with isfinite. */
#pragma once

#include "solver/finding.h"
#include "solver/trace.h"

/* Most of a kind in one evaluation: those of part_kind_limit (). */
#define EVALUATION_TANKS_MAX     8
#define EVALUATION_OVERFLOWS_MAX 16
#define EVALUATION_DRAINS_MAX    48
#define EVALUATION_CHAMBERS_MAX  24
#define EVALUATION_BAFFLES_MAX   23
#define EVALUATION_PUMPS_MAX     8
#define EVALUATION_RUNS_MAX      40
#define EVALUATION_OUTLETS_MAX   20
#define EVALUATION_DEVICES_MAX   100
#define EVALUATION_FEEDS_MAX     20 /* devices that a return run feeds */
#define EVALUATION_VESSELS_MAX   (EVALUATION_TANKS_MAX + 3 * EVALUATION_OVERFLOWS_MAX + EVALUATION_CHAMBERS_MAX)
#define EVALUATION_LINES_MAX     160
#define EVALUATION_FINDINGS_MAX  400

/* Explicit outcome. In every case the numbers that are finite are right and may be shown. */
typedef enum {
  EVALUATION_OK,
  EVALUATION_NO_STEADY_STATE, /* a drain cannot carry the duty flow: levels of that tank and box stand at their rims */
  EVALUATION_NO_FLOW,    /* no pump lifts water to any display */
  EVALUATION_NOT_SOLVED, /* the return network gave no answer; flows and what follows from them are NAN */
  N_EVALUATION_STATUSES
} EvaluationStatus;

/* A short English clause for logs and tests; never NULL. */
const char *evaluation_status_text (EvaluationStatus status);

typedef enum { VESSEL_TANK, VESSEL_BOX_INNER, VESSEL_BOX_TUBES, VESSEL_BOX_OUTER, VESSEL_CHAMBER } VesselKind;

/* Water in a vessel. A box inside the tank or outside it is VESSEL_BOX_INNER; of a pair the box inside the tank is
 * INNER and the one behind the pane OUTER, both with the part of the overflow. The outer box of a hang-over siphon box has a
 * tube side, TUBES, before the wall that holds the seal; OUTER is the drain side behind that wall. */
typedef struct {
  VesselKind kind;
  int part;
  double bottom_z, rim_z;
  double area_m2;     /* plan area of the water; of a tank beside an inside box */
  double running_z;   /* level while running; of a chamber over its rim where it cannot pass its flow */
  double power_off_z; /* level after the pump stopped and all has run back */
  double power_off_plugged_z; /* the same with the siphon breaks plugged */
  double lowest_z;            /* lowest level in normal use: for devices that must stay wet */
  double flood_z; /* level with every drain but the emergency shut, not primed; at the rim where it spills */
  double running_m3; /* water while running */
  double power_off_m3;
  double power_off_plugged_m3;
  double free_m3; /* of a chamber: room between its running level and the rim, less what stands in it */
} VesselState;

/* A return run. `k` holds bends, fittings and ends; loss is friction and k together. */
typedef struct {
  int part;
  double flow_m3s, velocity_ms;
  double length_m, bore_m;
  double k;
  double loss_m;
  double highest_z;     /* of its axis */
  double volume_m3;     /* inside the pipe */
  double above_sump_m3; /* of it, above the running level of the pump's chamber: it drains back */
  bool has_check_valve;
} RunState;

typedef enum {
  PUMP_STATE_OK,
  PUMP_STATE_BEYOND_CURVE, /* runs past the last point of its curve */
  PUMP_STATE_TOO_WEAK,     /* does not reach its static head: no flow */
  PUMP_STATE_NO_CURVE      /* the curve cannot be used */
} PumpStatus;

typedef struct {
  int part;
  PumpStatus status;
  bool estimate;           /* its curve is made of two points: all of its figures are an estimate */
  int chamber;             /* part of the chamber it draws from */
  double speed;            /* ratio of full speed */
  double flow_m3s, head_m; /* likely duty point at its set speed */
  double fast_flow_m3s, slow_flow_m3s;
  double full_speed_flow_m3s; /* fast edge at full speed */
  double static_head_m; /* from its chamber's level to the surfaces or outlets it feeds, the least of them */
  double lift_m;        /* highest point of the pipe over the running level: to be lifted over at the start */
  double shutoff_head_m; /* at no flow and set speed */
  double last_flow_m3s;  /* end of its curve at set speed */
  double power_w;        /* electrical, at set speed */
  double yearly_kwh, yearly_cost;
  double suction_velocity_ms;
  double suction_z;
  double cover_m;        /* water over the suction at the running level */
  double cover_wanted_m; /* maker's, or of an outside pump ANSI/HI 9.8 where that is more */
  double suction_loss_m; /* in the suction pipe of an outside pump; NAN for a submerged one */
  double npsh_m;         /* available; NAN for a submerged pump */
  double npsh_wanted_m;  /* required by its maker */
  double dry_z;          /* return level at which it draws air: the centre of the suction */
} PumpState;

/* Which of the limits a quiet drain meets first. */
typedef enum { QUIET_BY_SELF_VENTING, QUIET_BY_STACK, QUIET_BY_SLOPED_RUN, N_QUIET_BY } QuietBy;

/* What governs the flow in a drain now. */
typedef enum {
  DRAIN_STATE_DRY,
  DRAIN_STATE_LIP_WEIR, /* runs over its lip */
  DRAIN_STATE_ORIFICE,
  DRAIN_STATE_FULL,
  DRAIN_STATE_GULPING, /* full, but its mouth draws air at times */
  DRAIN_STATE_BLOCKED
} DrainRegimeState;

typedef struct {
  int part;
  int role;     /* DrainRole */
  int overflow; /* part of the overflow it stands in */
  int chamber;  /* part of the chamber it ends in */
  double mouth_z, end_z;
  double
      end_level_z; /* what its lower end meets while running: the chamber's surface, or its own end in air */
  double bore_m, length_m, k; /* k with entrance, exit and valve as it is judged */
  double volume_m3;           /* inside the pipe */
  double above_sump_m3;       /* water in it while running, above its end level: it drains back */
  /* Is it quiet? */
  double quiet_m3s;
  QuietBy quiet_by;
  /* How much does it carry? Each capacity with the box level that it belongs to. */
  double wanted_z;                         /* wanted box level */
  double unprimed_m3s, primed_m3s;         /* at wanted_z, valves open */
  double rim_z;                            /* box level from which something spills */
  double unprimed_rim_m3s, primed_rim_m3s; /* at rim_z, valves open */
  bool primed_counts;                      /* its lip can be flooded by 1.5 bores below every rim */
  double priming_z;                        /* box level that floods it so */
  /* While running, at the likely flow. */
  double flow_m3s;
  DrainRegimeState regime;
  bool primed;
  double froude; /* full-bore Froude number of that flow */
  /* A siphon: valve, cover, drift, start; NAN for the others. */
  bool has_valve;
  bool valve_is_given;  /* the opening is given; otherwise it is taken as set for the wanted box level */
  double valve_k;       /* K of the valve at that setting */
  double valve_opening; /* its opening, 0 to 1; NAN where the open pipe carries less than that flow */
  double valve_z;
  double valve_pressure_m; /* pressure head above the valve */
  double cover_m, cover_needed_m;
  double drift; /* change of flow that it takes up until a next lip, dQ/Q */
  double drift_play_m;
  double start_froude;
  bool clears_air;
  bool may_start;
  double start_likely_m; /* height that pushes the air out less the depth of the end after drain-back */
  double start_margin_m; /* the same at the end of its band */
} DrainState;

typedef struct {
  int part;
  int tank;
  double crest_z;
  double flow_m3s;
  double head_m;                  /* display over crest at the likely flow; negative never */
  double head_low_m, head_high_m; /* band of the weir formula */
  double half_covered_head_m;     /* comb or crest half covered */
  double tilted_head_m;           /* head over the low end of a crest out of level */
  bool drowned;                   /* the box stands over the crest */
  bool chokes;                    /* a closed comb runs full */
  double box_z;                   /* box level (of a pair the outer box) */
  double inner_box_z;             /* of a pair the inner box; else box_z */
  double wanted_box_z;            /* where the box should run */
  double lowest_rim_z;            /* lowest of the rims of tank and box */
  double display_z;
  double skimming_m2s;    /* flow per metre of crest */
  double gap_loading_m2s; /* flow per metre of open gap */
  double
      capacity_m3s; /* all its drains, full bore where it may be counted, box at its wanted level, valves open */
  double rim_capacity_m3s; /* the same with the box at its rim */
  double
      blocked_capacity_m3s; /* every drain but the emergency shut, box at its rim, full bore where counted */
  double blocked_unprimed_capacity_m3s; /* the same without priming */
  /* Of a hang-over siphon box; NAN and false for the other kinds. */
  bool hangs_over;
  double tube_side_z;       /* surface between the tubes and the wall that holds the seal */
  double tube_fall_m;       /* inner box less tube side */
  double tube_capacity_m3s; /* through all tubes with the inner box at the crest: K scatter judged */
  double tube_froude;       /* full-bore Froude number in a tube; the same of the slow flow: */
  double slow_tube_froude;
  double tube_suction_m;    /* crown over the inner surface: suction that draws air in at a leak */
  double tube_rest_cover_m; /* water over the tubes' ends when nothing flows */
  bool tube_restarts;       /* they stay covered, so the tubes run again by themselves if no air came in */
  bool carries;             /* the fast flow has a steady level under the rims */
  /* Flood test at the fast flow: box and display levels, and the margin to the lowest rim that they meet. */
  double flood_unprimed_box_z, flood_unprimed_display_z, flood_unprimed_margin_m;
  double flood_primed_box_z, flood_primed_display_z, flood_primed_margin_m;
  double flood_full_speed_margin_m; /* at full speed, primed where it may be counted */
} OverflowState;

typedef struct {
  int part;
  int tank;
  double flow_m3s;
  double nozzle_velocity_ms;
  double z;           /* centre of the mouth */
  double submerged_m; /* running surface over the centre; negative in air */
  bool siphons;       /* its mouth lies under the running surface */
  bool has_break;
  double break_z;
  double break_head_m; /* pressure head at the break while running: below 0 it draws air */
  double stops_z;      /* display level at which its back-siphon ends */
} OutletState;

typedef struct {
  int part;
  double display_z, fast_z, full_speed_z; /* level at the likely flow, and at the edges */
  double rim_z;
  double freeboard_m; /* at the fast flow, to the lowest rim or brace */
  double full_speed_freeboard_m;
  double rest_z, rest_plugged_z; /* where the display comes to rest after a power cut */
  double flow_m3s;               /* returned to it */
  double water_m3;               /* inside to the running surface, less rock: what turnover counts */
  double net_water_m3;           /* less substrate too: for salt */
  double turnover_per_h, fast_turnover_per_h, slow_turnover_per_h;
  double room_m3; /* between running surface and rim */
} TankState;

typedef struct {
  int part;
  double flow_m3s; /* past the baffle, from left to right */
  double head_m;   /* difference of levels that drives it */
} BaffleState;

typedef struct {
  int part;
  int chamber;
  double depth_m;        /* water above its underside while running */
  double lowest_depth_m; /* at the lowest level */
  double room_m;         /* from its top to the underside of the stand's top */
  int feed;              /* its place among the devices that a return run feeds, or -1 */
  double flow_m3s, fast_flow_m3s, slow_flow_m3s; /* that it gets; NAN where none feeds it */
} DeviceState;

/* What runs back after a power cut, and where to. The lines add up to the total exactly. */
typedef enum {
  BACK_DISPLAY_WEIR,   /* display slice from the running surface to the crest, over the weir */
  BACK_DISPLAY_SIPHON, /* slice from there to the rest level, back through the return */
  BACK_BOX,            /* box content above its lowest drain mouth */
  BACK_RUN,            /* return pipe above the sump */
  BACK_DRAIN,          /* water in a drain */
  N_BACK_KINDS
} BackKind;

typedef struct {
  BackKind kind;
  int part;    /* tank, overflow, return run or drain */
  int chamber; /* part of the chamber in which it arrives */
  double m3;
} BackLine;

typedef struct {
  unsigned n_lines;
  BackLine lines[EVALUATION_LINES_MAX];
  double total_m3;       /* sum of the lines in their order */
  double free_m3;        /* sum over the chambers of VesselState.free_m3 */
  double margin_m3;      /* free less total, or minus what spills where that is worse */
  double spilled_m3;     /* on the floor */
  double highest_z;      /* highest power-off level of a chamber */
  double freeboard_m;    /* rim less that level */
  double upper_total_m3; /* pessimistic edge: fast flow, break 5 mm late, weir +18 %, drains full */
  double upper_margin_m3;
  double upper_freeboard_m;
  double upper_spilled_m3;
} DrainBack;

/* The way down wholly blocked, the pump runs on until it draws air. */
typedef struct {
  int tank;
  double
      pumped_m3; /* water that it lifts: return chamber, what its neighbours give, under a comb the boxes */
  double reservoir_m3;     /* the whole reservoir, where there is one */
  double room_overflow_m3; /* room with the overflow blocked: the display alone */
  double room_drain_m3;    /* room with the drains blocked: display and boxes */
  double margin_m3;        /* room (under a comb that of the display alone) less what is pumped */
  double margin_reservoir_m3;
  /* Tubes of a hang-over siphon box without prime carry nothing; NAN without such a box. */
  double prime_pumped_m3; /* return chamber, what its neighbours and the outer box give */
  double prime_room_m3;   /* display and inner box */
  double prime_margin_m3;
  bool prime_lost; /* margin_m3 and pumped_m3 are those of the lost prime, which is the worse */
  bool cut_out;    /* a cut-out stops the top-off */
} Transfer;

typedef struct {
  double flow_m3s, fast_flow_m3s, slow_flow_m3s, full_speed_flow_m3s; /* returned to all displays */
  double turnover_per_h, fast_turnover_per_h, slow_turnover_per_h;    /* flow over display_water_m3 */
  double return_velocity_ms;                                          /* largest in a return run */
  double pump_head_m;                                                 /* largest of the pumps */
  double display_water_m3;
  double
      total_water_m3; /* everywhere while running, less rock and substrate: the water budget, and for salt */
  double power_off_water_m3;   /* the same after drain-back, what was spilled included: equal to 1e-9 */
  double evaporation_m3s;      /* likely */
  double fast_evaporation_m3s; /* for sizing: activity factor 1 */
  bool evaporation_assumed;    /* 1 % of the water a day, as the room is not given */
  double top_off_days,
      slow_top_off_days; /* likely; at the fast evaporation. INFINITY where nothing evaporates */
  double held_bubble_m;  /* smallest that still rises in every bubble trap; INFINITY: none, NAN: no trap */
  double salt_kg;        /* dissolved in all of its water at the salinity of the room */
  double diluted_g_kg;   /* salinity after the whole reservoir ran in; NAN without one */
  double
      heater_w; /* holds the temperature at the fast evaporation, without lamps; 0 where nothing is wanted */
  double
      surplus_w; /* to be cooled away at the likely evaporation, without lamps; 0 where it is cold enough */
  double reserve_s; /* from the running level until a pump draws air, without top-off, fast evaporation */
  double pump_power_w, connected_w;
  double yearly_kwh, yearly_cost;
  double drain_capacity_m3s; /* all overflows: OverflowState.capacity_m3s */
  double drain_blocked_m3s;
  double drain_margin;        /* worst overflow: capacity over its flow, less 1 */
  double flood_margin_m;      /* worst overflow: flood_unprimed_margin_m; NAN without any emergency */
  double freeboard_m;         /* worst tank */
  double overflow_head_m;     /* largest */
  double emergency_takes_m3;  /* taken from the return chamber while the emergency carries all */
  double emergency_return_z;  /* return level then */
  double highest_power_off_z; /* of the sump */
} Totals;

typedef struct {
  EvaluationStatus status;
  unsigned n_tanks, n_overflows, n_drains, n_vessels, n_baffles, n_pumps, n_runs, n_outlets, n_devices,
      n_findings;
  TankState tanks[EVALUATION_TANKS_MAX];
  OverflowState overflows[EVALUATION_OVERFLOWS_MAX];
  DrainState drains[EVALUATION_DRAINS_MAX];
  VesselState vessels[EVALUATION_VESSELS_MAX];
  BaffleState baffles[EVALUATION_BAFFLES_MAX];
  PumpState pumps[EVALUATION_PUMPS_MAX];
  RunState runs[EVALUATION_RUNS_MAX];
  OutletState outlets[EVALUATION_OUTLETS_MAX];
  DeviceState devices[EVALUATION_DEVICES_MAX];
  Transfer transfers[EVALUATION_TANKS_MAX]; /* one a tank */
  DrainBack drain_back;
  DrainBack plugged; /* with every siphon break plugged */
  Totals totals;
  Finding
      findings[EVALUATION_FINDINGS_MAX]; /* stops first, then cautions, then notes; within a grade by check */
  bool findings_cut;                     /* there were more than fit */
} Evaluation;

Evaluation *evaluation_new (void);
void evaluation_free (Evaluation *evaluation);

/* The state of a part, or NULL where it has none. */
const VesselState *evaluation_vessel (const Evaluation *evaluation, int part, VesselKind kind);
const RunState *evaluation_run (const Evaluation *evaluation, int part);
const PumpState *evaluation_pump (const Evaluation *evaluation, int part);
const DrainState *evaluation_drain (const Evaluation *evaluation, int part);
const OverflowState *evaluation_overflow (const Evaluation *evaluation, int part);
const OutletState *evaluation_outlet (const Evaluation *evaluation, int part);
const TankState *evaluation_tank (const Evaluation *evaluation, int part);

/* The first finding of a check, or NULL; how many findings have a grade; whether there is no stop. */
const Finding *evaluation_finding (const Evaluation *evaluation, CheckId check);
unsigned evaluation_count (const Evaluation *evaluation, Grade grade);
bool evaluation_is_sound (const Evaluation *evaluation);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Evaluation, evaluation_free)
