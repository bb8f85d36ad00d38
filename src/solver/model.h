/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside of the solver: the compiled system and its workspace. Flat arrays, indices instead of keys, levels above the
 * room floor. Only files of this folder include it, and the benchmark that gives its equations to another solver. */
#pragma once

#include <math.h>

#include "hydraulics/drain.h"
#include "hydraulics/network.h"
#include "hydraulics/pipe.h"
#include "hydraulics/pump.h"
#include "hydraulics/quiet.h"
#include "hydraulics/siphon.h"
#include "hydraulics/water.h"
#include "hydraulics/weir.h"
#include "solver/band.h"
#include "solver/system.h"

/* As doubles, so that no conditional mixes them with floats. */
#define NO_NUMBER ((double) NAN)
#define NO_LIMIT  ((double) INFINITY)

/* Scatter of loss coefficients, and what is allowed for late siphon breaks and crooked crests (common practice). */
#define K_SCATTER 0.25
/* How much less than by its coefficient a lip may take: below 50 mm of bore nobody measured it; common practice. */
#define LIP_SCATTER  0.10
#define BREAK_LATE_M 0.005
/* Where the box should run: the trickle takes a little, or under the emergency lip, or under the crest (common practice). */
#define WANTED_TRICKLE_SHARE       0.03
#define WANTED_UNDER_CREST_M       0.035
#define WANTED_UNDER_EMERGENCY_M   0.020
#define WANTED_LEAST_UNDER_CREST_M 0.010
#define WANTED_OVER_LIP_M          0.005
#define GAP_COEFFICIENT            0.60

/* Straight piece of a run between two of its points. */
typedef struct {
  double length_m, low_z, high_z;
} Segment;

typedef struct {
  int part;
  double bottom_z, rim_z;
  double length_m, width_m, area_m2; /* whole inside plan */
  double rock, substrate_m;
  unsigned first_overflow, n_overflows;
} TankModel;

typedef struct {
  bool there;
  double area_m2, floor_z, rim_z;
  double length_m, width_m;
} BoxModel;

typedef struct {
  int part, kind;
  unsigned tank;
  double tilt_m; /* one end of the crest over the other */
  double crest_z;
  Weir weir;
  double open_length_m; /* sum of the gaps, or the crest */
  bool closed_comb;
  double comb_top_z;
  double top_z;           /* what its box should stay under: the crest, or the wall that holds a seal */
  BoxModel inner, outer;  /* outer of a pair and of a hang-over siphon box only */
  double footprint_m2;    /* of a box inside the tank, walls included; 0 for one outside */
  double footprint_low_z; /* underside of that box */
  double passage_bore_m, n_passages;
  bool hangs_over;    /* the two boxes are joined by siphon tubes over the rim: */
  BoxModel tube_side; /* of the outer box, before the wall that holds the seal */
  Weir seal;          /* that wall, its top at top_z */
  HangOverBox tubes;
  double tubes_m3;   /* inside of all tubes */
  double head_doubt; /* -1 to 1: where in the weir's band its head lies */
  double box_rim_z;  /* rim of the box that the drains stand in */
  double lowest_rim_z;
  unsigned first_drain, n_drains;
  double box_x;
} OverflowModel;

typedef enum { VALVE_NONE, VALVE_IS_GATE, VALVE_IS_BALL } DrainValve;

#define SLOPED_RUNS_MAX 16

typedef struct {
  int part, role;
  unsigned overflow, chamber;
  bool blocked;
  DrainPipe pipe; /* new; k without the valve; end level patched while solving */
  double aged_roughness_m;
  double end_z, highest_z, lowest_z;
  double
      clearance_m; /* of an upright end above the bottom of its chamber; NO_LIMIT where the end lies level */
  DrainValve valve;
  int valve_part;
  bool valve_given;
  double valve_opening, valve_k_open;
  double valve_z;
  double k_above_valve, length_above_valve_m;
  double entry_k; /* part of the pipe's k */
  unsigned first_segment, n_segments;
  QuietSlopedRun sloped[SLOPED_RUNS_MAX];
  unsigned n_sloped;
  bool primed_counts;
  double priming_z, rim_z;
  double volume_m3;
} DrainModel;

typedef struct {
  int part, role;
  double area_m2, length_m, bottom_z, rim_z;
  double filled;
  double level_z; /* running level field */
  double socks, sock_flow_m3s, sock_length_m;
  double bypass_z, bypass_length_m; /* lip of the socks' holder */
} ChamberModel;

typedef struct {
  int part, kind;
  double crest_z, gap_m, thickness_m, width_m;
} BaffleModel;

typedef struct {
  int part;
  unsigned chamber;
  bool curve_ok;
  PumpCurve curve;
  double watts, speed, tolerance;
  bool outside;
  double suction_z, suction_bore_m, cover_m, outlet_z;
  double npsh_m;   /* required */
  PipeRun suction; /* of an outside pump, from its chamber to its inlet */
  double length_m, width_m, height_m;
  guint suction_node, inlet_node, delivery_node, link, suction_link;
  double highest_z; /* of the runs that it feeds */
  bool reaches[EVALUATION_OUTLETS_MAX], reaches_feed[EVALUATION_FEEDS_MAX];
} PumpModel;

typedef struct {
  int part;
  guint link;
  PipeRun pipe;
  double aged_roughness_m;
  double highest_z, volume_m3;
  unsigned first_segment, n_segments;
  bool has_check;
  double cracking_m, check_z;
  int pump;           /* a pump that feeds it, or -1 */
  bool feeds_display; /* some outlet lies behind it; else it only leads back to the sump */
  bool feeds_device;  /* some device lies behind it: past a check valve, water still runs out there */
  bool shut;          /* by a valve of its own */
  guint from, to;
} RunModel;

typedef struct {
  int part;
  unsigned tank;
  bool submerged_kind;
  double z, bore_m;
  double nozzle_k; /* exit included, on the velocity in feed_bore_m */
  double feed_bore_m;
  bool has_break;
  double break_z;
  guint node;
  int pump;
  int run;
} OutletModel;

/* The end of return runs at a device, whose water goes back to its chamber. */
typedef struct {
  int part;
  unsigned device, chamber;
  double z; /* of its outflow: under the surface of its chamber where that is higher */
  guint node;
} FeedModel;

typedef struct {
  int part, kind;
  unsigned chamber;
  double flow_least_m3s, flow_most_m3s; /* wanted; 0 where not known */
  double length_m, width_m, height_m, stands_z, depth_m, tolerance_m, wet_m, room_m, watts;
} DeviceModel;

struct _System {
  Design *design;
  Catalogue *catalogue;
  Water water;
  Fluid fluid;
  int room, job, stand, sump, reservoir;
  TankModel tanks[EVALUATION_TANKS_MAX];
  OverflowModel overflows[EVALUATION_OVERFLOWS_MAX];
  DrainModel drains[EVALUATION_DRAINS_MAX];
  ChamberModel chambers[EVALUATION_CHAMBERS_MAX];
  BaffleModel baffles[EVALUATION_BAFFLES_MAX]; /* the n-th stands between chambers n and n + 1 */
  PumpModel pumps[EVALUATION_PUMPS_MAX];
  RunModel runs[EVALUATION_RUNS_MAX];
  OutletModel outlets[EVALUATION_OUTLETS_MAX];
  FeedModel feeds[EVALUATION_FEEDS_MAX];
  DeviceModel devices[EVALUATION_DEVICES_MAX];
  unsigned n_tanks, n_overflows, n_drains, n_chambers, n_baffles, n_pumps, n_runs, n_outlets, n_feeds,
      n_devices;
  unsigned datum; /* chamber whose running level the top-off keeps */
  Segment *segments;
  unsigned n_segments;
  Network *clean, *aged; /* patterns, copied by a workspace */
  bool exact;            /* a point of the bands: nothing is judged by a corner, no doubt is added */
};

/* One steady state: flows from the return network, and the levels that they make. */
typedef struct {
  HydraulicsStatus status;
  double pump_m3s[EVALUATION_PUMPS_MAX], pump_head_m[EVALUATION_PUMPS_MAX];
  double run_m3s[EVALUATION_RUNS_MAX], run_loss_m[EVALUATION_RUNS_MAX];
  double outlet_m3s[EVALUATION_OUTLETS_MAX];
  double feed_m3s[EVALUATION_FEEDS_MAX];
  double tank_m3s[EVALUATION_TANKS_MAX];
  double display_z[EVALUATION_TANKS_MAX];
  double overflow_m3s[EVALUATION_OVERFLOWS_MAX];
  double box_z[EVALUATION_OVERFLOWS_MAX], inner_z[EVALUATION_OVERFLOWS_MAX];
  double tube_side_z[EVALUATION_OVERFLOWS_MAX]; /* of hang-over siphon boxes */
  bool carries[EVALUATION_OVERFLOWS_MAX];
  double drain_m3s[EVALUATION_DRAINS_MAX];
  DrainRegime drain_regime[EVALUATION_DRAINS_MAX];
  double chamber_z[EVALUATION_CHAMBERS_MAX];
  double baffle_m3s[EVALUATION_BAFFLES_MAX];
} State;

typedef struct _Bands Bands;

struct _Workspace {
  Network *clean, *aged;
  Bands *bands;
  double valve_k[EVALUATION_DRAINS_MAX]; /* of each siphon as set at the likely flow; 0 without a valve */
  double wanted_z[EVALUATION_OVERFLOWS_MAX];
  State running, fast, full_speed, slow, scratch;
  /* Fast with the branches open that do not feed a display, and likely with them shut; the same where there are none. */
  State fast_open, running_shut;
};

/* Volume of a run's inside above a level, m3. */
double segments_volume_above (const System *system, unsigned first, unsigned n, double bore_m,
                              double level_z);

/* compile-*.c: each fills its arrays; false with the status and the part at fault. */
bool compile_vessels (System *system, SystemStatus *ret_status, int *ret_part);
bool compile_drains (System *system, GArray *segments, SystemStatus *ret_status, int *ret_part);
bool compile_return (System *system, GArray *segments, SystemStatus *ret_status, int *ret_part);

/* What the corners and fittings of a run do, see run-pieces.c. */
typedef struct {
  double length_m, bore_m;
  double k; /* bends and fittings, without throttling valve of a drain's siphon and without ends */
  double highest_z, lowest_z;
  bool has_check;
  double cracking_m, check_z;
  bool shut;
  DrainValve valve;
  int valve_part;
  bool valve_given;
  double valve_opening, valve_k_open, valve_z, valve_station_m, k_above_valve;
  unsigned first_segment, n_segments;
} RunPieces;

bool run_pieces (const System *system, const Part *run, bool keep_valve_apart, GArray *segments,
                 RunPieces *ret_pieces, SystemStatus *ret_status, int *ret_part);

/* Roughness of a run when new: as given, else by its kind of pipe; never more than its bore admits. */
double run_roughness_m (const System *system, const Part *run);

/* Loss coefficient of a drain's valve at an opening. */
double drain_valve_k (const DrainModel *drain, double opening);

/* sump-levels.c: chamber levels at the drain and pump flows of a state. */
void sump_levels (const System *system, State *state);
/* Flow past a baffle from a level to a lower one, over it and beneath. */
double baffle_flow_m3s (const BaffleModel *baffle, double bottom_z, double above_z, double below_z);
double baffle_upstream_z (const BaffleModel *baffle, double bottom_z, double flow_m3s, double below_z);

/* overflow.c */
typedef enum { SETTING_TUNE, SETTING_AS_SET, SETTING_OPEN } ValveSetting;
void levels_at_flow (const System *system, Workspace *workspace, ValveSetting setting, State *state);
/* Valve loss of a drain: as given, as set before, or open. */
double drain_valve_k_at (const Workspace *workspace, const DrainModel *drain, unsigned index,
                         ValveSetting setting);
double overflow_display_z (const System *system, const OverflowModel *overflow, double flow_m3s, double box_z,
                           double *ret_inner_z);
/* Level behind the crest: that of the box, or before the passages or tubes to an outer box. */
double overflow_inner_z (const System *system, const OverflowModel *overflow, double flow_m3s, double box_z);
/* Box and drains of one overflow at a flow, written to the state; returns the display level that it needs. */
double overflow_at_flow (const System *system, Workspace *workspace, ValveSetting setting, unsigned overflow,
                         double flow_m3s, State *state);
/* The drains of an overflow, at most DRAIN_BRANCHES_MAX; returns how many. */
unsigned overflow_branches (const System *system, const Workspace *workspace, const State *state,
                            unsigned overflow, ValveSetting setting, DrainBranch *branches);
/* Sets the valves of siphons whose opening is not given, so that the box runs at its wanted level, and returns that
 * level. */
double overflow_tune (const System *system, Workspace *workspace, const State *state, unsigned overflow,
                      double flow_m3s, DrainBranch *branches);
/* A head as it is at this place in the band of the weir. */
double overflow_doubted_head_m (const OverflowModel *overflow, double head_m);
double overflow_wanted_z (const System *system, unsigned overflow, double flow_m3s);

/* hang-over.c: surfaces on the tube side and in the inner box of a hang-over siphon box at a flow, the inner NO_LIMIT where
 * its tubes are no siphon; rest level of both when nothing flows, from the lowest lip on the drain side; and what its tubes
 * carry with the inner box at the crest, likely or with the scatter of K. */
double hang_over_tube_side_z (const OverflowModel *overflow, double flow_m3s, double box_z);
double hang_over_inner_z (const System *system, const OverflowModel *overflow, double flow_m3s, double box_z);
/* Whether the seal covers the tubes' ends at rest: otherwise they lose their prime at every stop and are no siphon. */
bool hang_over_holds (const OverflowModel *overflow);
double hang_over_rest_z (const OverflowModel *overflow, double lowest_lip_z, double running_z);
/* Flow through the tubes from a level in the inner box to one on the drain side; 0 where it is no siphon. */
double hang_over_flow (const System *system, const OverflowModel *overflow, double inner_z, double box_z);
double hang_over_capacity (const System *system, const OverflowModel *overflow, double box_z,
                           bool pessimistic);
void describe_hang_over (const System *system, const Workspace *workspace, unsigned index, Trace *trace,
                         OverflowState *ret_overflow);

/* Lowest crest of a tank, from which its head is the greatest; INFINITY without an overflow. */
double tank_lowest_crest_z (const System *system, const TankModel *tank);

/* Which drains count, and how, in a capacity. */
typedef struct {
  bool emergency_only, primed, aged;
  double k_factor;
} CapacityRule;
double overflow_capacity (const System *system, const State *state, unsigned overflow, double box_z,
                          const CapacityRule *rule);
/* Capacity at a level as it runs: siphons primed, the others not; valves as set or open. */
double overflow_running_capacity (const System *system, const Workspace *workspace, const State *state,
                                  unsigned overflow, double box_z, ValveSetting setting, bool judged);
/* Box level with only the emergency drains open, primed or not, likely or by the scatter of K and lips; NAN without any,
 * INFINITY where no level does. */
double overflow_emergency_z (const System *system, const State *state, unsigned overflow, double flow_m3s,
                             bool primed, bool judged);

/* The pipe of a drain in a state: end drowned by its chamber, k with a valve's. */
DrainPipe drain_pipe_in (const System *system, const State *state, unsigned drain, double valve_k, bool aged,
                         double k_factor);

/* overflow-share.c: several overflows of one tank at one display level, no higher than the rim; returns it. */
double overflow_shared_display_z (const System *system, Workspace *workspace, ValveSetting setting,
                                  const TankModel *tank, double flow_m3s, State *state);

/* return-loop.c */
typedef struct {
  bool full_speed, aged;
  bool branches_shut; /* every run that does not feed a display */
  double edge;        /* -1 slow, 0 likely, 1 fast */
  double speed[EVALUATION_PUMPS_MAX];
  const State *after; /* solved last, of new or aged pipe alike: go on from it; NULL begins afresh */
} LoopRule;
/* Levels at the ends of the network, and which of its branches are shut. */
void return_loop_set_levels (const System *system, Network *network, const double *display_z,
                             const double *chamber_z);
void return_loop_set_branches (const System *system, Network *network, bool shut);
void return_loop_solve (const System *system, Workspace *workspace, const LoopRule *rule,
                        ValveSetting setting, State *state);

/* Speed of one pump, the others as set, at which all displays get `flow_m3s` at an edge (-1, 0, 1), not more by rounding.
 * Goes out from the states of the workspace where they are those of the system as it is now. False where no speed from
 * 0.3 to 1 does. */
bool loop_speed_for_flow (const System *system, Workspace *workspace, unsigned pump, int edge, bool evaluated,
                          double flow_m3s, double *ret_speed);

/* Surface of the full reservoir of a system that has one, reckoned from its outside plan as its default volume is. */
double reservoir_full_z (const System *system);

/* Water in a tank up to a level, rock and substrate not deducted: beside a box inside it. */
double tank_volume_m3 (const System *system, const TankModel *tank, double level_z);

/* pour.c: chambers filled by their own water and what is poured in. */
typedef struct {
  double m3[EVALUATION_CHAMBERS_MAX];
  double level_z[EVALUATION_CHAMBERS_MAX];
  double spilled_m3;
} Pour;
void pour (const System *system, const double *running_z, const double *added_m3, Pour *ret_pour);
double chamber_volume_m3 (const ChamberModel *chamber, double running_z, double level_z);

/* drain-back.c: rest level of a box, water in a drain while it runs. */
double box_rest_z (const System *system, unsigned overflow, const BoxModel *box, double running_z);
double drain_content_m3 (const System *system, const State *state, unsigned index, bool upper);

/* band.c: the bands of a workspace, computed from its states, which are left as they were. */
Bands *bands_new (void);
void bands_free (Bands *bands);
void bands_forget (Workspace *workspace);
void bands_fill (const System *system, Workspace *workspace);
/* Moves the judged numbers of an evaluation to the ends of their bands, where those are worse than their corners. */
void bands_narrow (const Workspace *workspace, Evaluation *evaluation);
/* The band of one margin; false where it has none. `hint`: its index among all. */
bool bands_find (const Workspace *workspace, CheckId check, int part, unsigned nth, unsigned hint,
                 Band *ret_band);

/* Fills all but the findings from the states of the workspace. */
void evaluate_states (const System *system, Workspace *workspace, Trace *trace, Evaluation *evaluation);

/* Parts of evaluate (): the four states of the workspace; then each fills its own arrays. */
void solve_states (const System *system, Workspace *workspace);
void fill_return (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);
void fill_overflows (const System *system, Workspace *workspace, Trace *trace, Evaluation *evaluation);
void fill_drains (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);
void fill_drain_back (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);
void fill_starts (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);
/* The most that an overflow may get in the flood test on its judged edge, which is now `judged_m`, up to the fast flow; 0
 * where nothing passes. */
double flood_bearable_m3s (const System *system, const Workspace *workspace, unsigned overflow,
                           double judged_m);
void fill_transfer (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);
/* Day by day: salt, heat, bubbles. After evaporation and total water. */
void fill_upkeep (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);
void fill_budget (const System *system, const Workspace *workspace, Trace *trace, Evaluation *evaluation);

/* Volume between two levels of the return chamber and all that fall with it, and what upstream chambers give back. */
double return_usable_m3 (const System *system, const State *state, double low_z);
double return_pool_area_m2 (const System *system);

/* Field of a part by its index. */
static inline double
field_number (const System *system, int part, FieldId field)
{
  return design_number (system->design, design_part (system->design, (unsigned) part), field);
}
