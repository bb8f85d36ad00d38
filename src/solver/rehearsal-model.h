/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside of the rehearsals: the places that hold water, numbered in one row, and what is on, off, full or broken. Only the
 * files rehearsal*.c include it. */
#pragma once

#include <string.h>

#include "solver/model.h"
#include "solver/rehearsal-rosenbrock.h"
#include "solver/rehearsal.h"

#define NO_PLACE G_MAXUINT
#define PLACES_MAX                                                                                           \
  (2 * EVALUATION_TANKS_MAX + 3 * EVALUATION_OVERFLOWS_MAX + 2 * EVALUATION_CHAMBERS_MAX +                   \
   EVALUATION_DRAINS_MAX + EVALUATION_PUMPS_MAX + 3)
#define PIECES_MAX  18
#define WATCHES_MAX 400
/* A pump that is switched off loses its speed within this time, evenly (small pumps; common practice, no source). */
#define COAST_S 1.0

/* Water over level as straight pieces: area above each height up to the next. */
typedef struct {
  unsigned n;
  double z[PIECES_MAX], m3[PIECES_MAX], area_m2[PIECES_MAX];
} Prism;

typedef enum { PLACE_VESSEL, PLACE_PIPE, PLACE_FLOOR, PLACE_AIR } PlaceKind;

/* A pipe's "level" is its water itself, m3. */
typedef struct {
  PlaceKind kind;
  Prism prism;
  double tolerance_m3;
} Place;

typedef enum { PRIME_NONE, PRIME_FILLING, PRIME_FULL } Prime;

typedef struct {
  double full_m3;   /* inside above its end */
  double stack_m3s; /* carried as a film at a third of its section */
  double full_m3s;  /* carried by its own fall, full */
  double valve_k;
  bool shut, may_prime;
  double break_z; /* box level at which a full one draws enough air to run full no more */
  Prime prime;
  DrainPipe clean, pipe; /* before it was blocked; now */
} DrainNow;

/* Pumps, outlets and fed devices that a piece of pipe joins. */
typedef struct {
  unsigned n_pumps, n_outlets, n_feeds;
  unsigned pumps[EVALUATION_PUMPS_MAX], outlets[EVALUATION_OUTLETS_MAX], feeds[EVALUATION_FEEDS_MAX];
} Group;

typedef struct {
  double full_m3; /* of the runs that it feeds, above its chamber */
  double rise_m;  /* of their highest point over the chamber */
  PipeRun riser;  /* the run that leaves it, with its own resistance at rest */
  bool check;     /* a check valve holds that water */
  bool filled, on;
  double set_speed, speed, network_speed;
} PumpNow;

typedef struct {
  double z, stops_z;
  bool air;
} OutletNow;

typedef enum {
  WATCH_OUTLET,
  WATCH_PRIMING,
  WATCH_FILLED,
  WATCH_BREAKS,
  WATCH_LIP,
  WATCH_CREST,
  WATCH_DROWNED,
  WATCH_BAFFLE,
  WATCH_DRY,
  WATCH_PIPE_FULL,
  WATCH_PIPE_EMPTY,
  WATCH_RIM,
  WATCH_FLOAT,
  WATCH_HIGH_LEVEL,
  WATCH_RESERVOIR,
} WatchKind;

typedef struct {
  WatchKind kind;
  unsigned index; /* of the drain, outlet, pump ... */
  bool above;
} Watch;

/* Flows of one moment, by the index of the model. */
typedef struct {
  double overflow_m3s[EVALUATION_OVERFLOWS_MAX];
  double passage_m3s[EVALUATION_OVERFLOWS_MAX];
  double drain_m3s[EVALUATION_DRAINS_MAX];
  double baffle_m3s[EVALUATION_BAFFLES_MAX];
  double pump_m3s[EVALUATION_PUMPS_MAX];
  double outlet_m3s[EVALUATION_OUTLETS_MAX];
  double feed_m3s[EVALUATION_FEEDS_MAX];
} FlowsNow;

/* Rates of one moment, and their Jacobian where it is wanted. */
typedef struct {
  Rehearser *rehearser;
  double z[PLACES_MAX], area_m2[PLACES_MAX];
  double *rate;
  double *jacobian; /* or NULL */
  FlowsNow *flows;  /* or NULL */
} FlowPass;

struct _Rehearser {
  const System *system;
  Workspace *workspace;  /* of its own: networks and valve settings */
  Network *clean, *aged; /* of its own, one of them in use */
  Network *network;
  int run_check[EVALUATION_RUNS_MAX],
      pump_check[EVALUATION_PUMPS_MAX]; /* as they are set in it; -1 unknown */
  RehearsalPlan plan;
  State start;
  double tolerance_m;
  /* Places: where each kind begins, or NO_PLACE. */
  unsigned n_places;
  unsigned tank_at, inner_at[EVALUATION_OVERFLOWS_MAX], box_at[EVALUATION_OVERFLOWS_MAX];
  unsigned chamber_at, drain_at, pump_at, reservoir_at, holder_at[EVALUATION_CHAMBERS_MAX];
  unsigned tank_floor_at, box_floor_at[EVALUATION_OVERFLOWS_MAX], sump_floor_at, air_at;
  Place places[PLACES_MAX];
  Group groups[EVALUATION_PUMPS_MAX];
  unsigned n_groups;
  DrainNow drains[EVALUATION_DRAINS_MAX];
  PumpNow pumps[EVALUATION_PUMPS_MAX];
  OutletNow outlets[EVALUATION_OUTLETS_MAX];
  double covered[EVALUATION_OVERFLOWS_MAX];
  bool blocks; /* the plan blocks something */
  bool power;
  double coast_from_s;
  bool top_off_on, top_off_cut;
  double top_off_since_s;
  double reservoir_base_z, tube_end_z;
  /* The moment. */
  double t;
  double y[PLACES_MAX], rate[PLACES_MAX], z[PLACES_MAX], area_m2[PLACES_MAX];
  FlowsNow flows;
  double jacobians[2][PLACES_MAX * PLACES_MAX];
  unsigned jacobian; /* which of them is that of the moment */
  FlowsNow next_flows;
  double next_y[PLACES_MAX], next_rate[PLACES_MAX], error[PLACES_MAX], dense_y[PLACES_MAX];
  double step_s;
  bool moved; /* the moment of the network is another than that of the last rates */
  FlowPass pass;
  RosenbrockRoom room;
  Watch watches[WATCHES_MAX], before[WATCHES_MAX];
  unsigned n_watches, n_before;
  double first_m3, first_upper_m3; /* all water, and that above the sump, at the beginning */
  bool rests_noted, blocked_noted;
  bool failed; /* a relation gave no answer */
};

/* rehearsal-places.c */
double prism_level (const Prism *prism, double m3, double *ret_area_m2);
double prism_volume (const Prism *prism, double level_z);
void rehearser_make_places (Rehearser *rehearser);
/* Fills z and area_m2 from volumes. */
void rehearser_read_levels (const Rehearser *rehearser, const double *y, double *ret_z, double *ret_area_m2);

/* rehearsal-start.c: everything at the beginning of a plan. False where there is no state to begin with. */
bool rehearser_start (Rehearser *rehearser);
/* Speeds, shares and valves of the moment; again after every switch. */
void rehearser_set_moment (Rehearser *rehearser, double t);
bool rehearser_is_moving (const Rehearser *rehearser, double t); /* something of it changes with time alone */
void rehearser_set_checks (Rehearser *rehearser);
double drain_break_z (const Rehearser *rehearser, unsigned drain);

/* rehearsal-flows.c: dy/dt, and its Jacobian where `jacobian` is wanted. */
bool rehearser_rates (Rehearser *rehearser, double t, const double *y, double *ret_rate, double *ret_jacobian,
                      FlowsNow *ret_flows);
bool pipe_runs_out (const Rehearser *rehearser, unsigned pump);
void flow_move (FlowPass *pass, unsigned from, unsigned to, double m3s);
void flow_slope (FlowPass *pass, unsigned from, unsigned to, unsigned by, double slope_per_z);
/* rehearsal-return.c: flows of the return network. */
bool flow_return (FlowPass *pass);

/* rehearsal-events.c */
void rehearser_make_watches (Rehearser *rehearser);
/* Positive above, negative below; a watch that is above turns a little lower than one that is below. */
double watch_value (const Rehearser *rehearser, const Watch *watch, const double *y);
/* Turns it, and does what follows at the moment of the rehearser. */
void watch_fire (Rehearser *rehearser, Watch *watch, Rehearsal *rehearsal);

/* rehearsal-clock.c: what is due by the clock alone. */
double rehearser_next_switch (const Rehearser *rehearser);
void rehearser_switch (Rehearser *rehearser, Rehearsal *rehearsal);

/* rehearsal-verdict.c */
double rehearser_level (const Rehearser *rehearser, unsigned place, const double *y);
unsigned rehearser_vessel_place (const Rehearser *rehearser, unsigned vessel);
void rehearser_note (const Rehearser *rehearser, Rehearsal *rehearsal, RehearsalEventKind kind, int part,
                     double level_z);
void verdict_begin (Rehearser *rehearser, Rehearsal *rehearsal);
/* A step from y, rate at t to next_y, next_rate, `step_s` later. */
void verdict_step (const Rehearser *rehearser, double step_s, Rehearsal *rehearsal);
void verdict_end (const Rehearser *rehearser, Rehearsal *rehearsal);
bool rehearser_rests (const Rehearser *rehearser);

/* rehearsal-trace.c */
void rehearsal_trace_clear (RehearsalTrace *trace);
void rehearsal_trace_add (RehearsalTrace *trace, const Rehearser *rehearser, double t, const double *y,
                          const FlowsNow *flows);
/* The moments within a step. */
void rehearsal_trace_step (RehearsalTrace *trace, Rehearser *rehearser, double step_s);

/* Water at a share of a step between two moments, by the cubic through values and rates. */
static inline double
hermite (double y0, double f0, double y1, double f1, double h, double share)
{
  const double s = share, s2 = s * s, s3 = s2 * s;

  return (2 * s3 - 3 * s2 + 1) * y0 + (s3 - 2 * s2 + s) * h * f0 + (3 * s2 - 2 * s3) * y1 +
         (s3 - s2) * h * f1;
}
