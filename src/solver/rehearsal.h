/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A rehearsal: a failure played through in time on a compiled system, by the relations of the steady solver.
 *
 *   Rehearser *rehearser = rehearser_new (system);
 *   failure_set_up (system, evaluation, FAILURE_POWER_CUT, NULL, &plan);            (scenario.h)
 *   rehearse (rehearser, &plan, trace, NULL, rehearsal);
 *
 * The state is the water in every tank, box, chamber, drain and return pipe, in the reservoir and on the floor; which
 * drains run full, which outlets have drawn air, what the floats say. Volumes are integrated, so that not a drop is lost;
 * levels follow from the exact geometry. Everything is SI; levels and names in _z are heights above the room floor.
 *
 * Rehearsing allocates nothing, prints nothing and has no state but the rehearser: threads may share a system, each with a
 * rehearser of its own. A number that does not apply is NAN. */
#pragma once

#include "solver/evaluation.h"
#include "solver/system.h"

/* What is played. A time is in seconds from the beginning; INFINITY is never. Made by rehearsal_plan_init () and the
 * rows of scenario.h, two of which may be laid over each other. */
typedef struct {
  int edge; /* of the pumps: -1 slow, 0 likely, 1 fast: siphon breaks are then 5 mm late as well */
  double power_off_s, power_on_s;
  double horizon_s;                   /* the longest that is played */
  double speed[EVALUATION_PUMPS_MAX]; /* of each pump after the beginning; NAN as set */
  bool run_shut[EVALUATION_RUNS_MAX];
  bool check_stuck;                             /* no check valve closes */
  bool break_plugged;                           /* no siphon break lets air in */
  double outlet_drop_m[EVALUATION_OUTLETS_MAX]; /* lowered by so much, its break with it */
  /* Shares of mouths and crests that are covered rise evenly from 0 to these within block_s. */
  double drain_blocked[EVALUATION_DRAINS_MAX];
  double crest_covered[EVALUATION_OVERFLOWS_MAX];
  double block_s;
  bool siphon_fails[EVALUATION_DRAINS_MAX];  /* once it has lost its prime it never runs full again */
  bool tubes_lost[EVALUATION_OVERFLOWS_MAX]; /* of a siphon box: full of air from the beginning */
  bool siphon_lost[EVALUATION_DRAINS_MAX];   /* it loses it at the beginning */
  bool sock_clogged[EVALUATION_CHAMBERS_MAX];
  double top_off_m3s;   /* of the top-off's pump */
  bool top_off_stuck;   /* runs on whatever the float says; a cut-out still stops it */
  bool top_off_siphons; /* the full reservoir runs on through its tube */
  bool reservoir_empty;
  double evaporation_m3s; /* 0 in all but long rehearsals */
} RehearsalPlan;

/* Nothing fails: the running system for an hour. */
void rehearsal_plan_init (RehearsalPlan *plan);

/* What happens, in the order of time. X (id, word). The word is that of machine output and never changes. */
#define REHEARSAL_EVENTS(X)                                                                                  \
  X (POWER_OFF, "power-off")                                                                                 \
  X (PUMP_RESTS, "pump-rests") /* has coasted down */                                                        \
  X (POWER_ON, "power-on")                                                                                   \
  X (PIPE_FULL, "pipe-full")   /* the return pipe is full again: water reaches the outlets */                \
  X (OUTLET_AIR, "outlet-air") /* outlet or break uncovered without pump: the back-siphon ends */            \
  X (OUTLET_UNCOVERED, "outlet-uncovered") /* the same while the pump runs */                                \
  X (PIPE_EMPTY, "pipe-empty")             /* the return pipe has run out */                                 \
  X (PRIMED, "primed")                     /* a drain runs full */                                           \
  X (PRIME_LOST, "prime-lost")             /* a drain drew air and runs full no more */                      \
  X (LIP_REACHED, "lip-reached")           /* box level over the lip of a drain that was dry */              \
  X (LIP_DRY, "lip-dry")                                                                                     \
  X (CREST_DROWNED, "crest-drowned") /* box level over the crest of its overflow */                          \
  X (CREST_DRY, "crest-dry")         /* display no longer over the crest */                                  \
  X (BAFFLE_OVERTOPPED, "baffle-overtopped")                                                                 \
  X (PUMP_DRY, "pump-dry") /* suction uncovered */                                                           \
  X (PUMP_WET, "pump-wet")                                                                                   \
  X (SPILL_BEGINS, "spill-begins")                                                                           \
  X (SPILL_ENDS, "spill-ends")                                                                               \
  X (TOP_OFF_STARTS, "top-off-starts")                                                                       \
  X (TOP_OFF_STOPS, "top-off-stops")                                                                         \
  X (TOP_OFF_CUT_OUT, "top-off-cut-out")                                                                     \
  X (RESERVOIR_EMPTY, "reservoir-empty")                                                                     \
  X (BLOCKED, "blocked") /* what was being blocked is blocked as far as it goes */                           \
  X (AT_REST, "at-rest")

typedef enum {
#define X(id, word) REHEARSAL_##id,
  REHEARSAL_EVENTS (X)
#undef X
      N_REHEARSAL_EVENTS
} RehearsalEventKind;

const char *rehearsal_event_word (RehearsalEventKind kind);

#define REHEARSAL_EVENTS_MAX 200

typedef struct {
  RehearsalEventKind kind;
  double time_s;
  int part;       /* index in the design, or -1 */
  double level_z; /* of the vessel concerned, or NAN */
} RehearsalEvent;

/* A vessel through the rehearsal, in the order and with the kinds of Evaluation.vessels. A box inside its tank has no
 * freeboard of its own: what runs over its rim is in the tank. */
typedef struct {
  VesselKind kind;
  int part;
  double rim_z;
  double start_z, end_z;
  double peak_z, peak_s;
  double lowest_z, lowest_s;
  double
      least_freeboard_m; /* rim less peak, negative where it spills; NAN where it has no rim over the floor */
} RehearsalVessel;

typedef struct {
  int part; /* tank, overflow or sump */
  double m3;
  double first_s;
} RehearsalSpill;

#define REHEARSAL_SPILLS_MAX (EVALUATION_TANKS_MAX + EVALUATION_OVERFLOWS_MAX + 1)

typedef enum {
  REHEARSAL_OK,
  REHEARSAL_CANCELLED,
  REHEARSAL_NOT_SOLVED, /* a flow could not be found: nothing after end_s is known */
  N_REHEARSAL_STATUSES
} RehearsalStatus;

/* A short English clause for logs and tests; never NULL. */
const char *rehearsal_status_text (RehearsalStatus status);

typedef struct {
  RehearsalStatus status;
  double end_s; /* the last moment that was played */
  double
      rest_s; /* at rest: less than 0.1 % of what drained, or 5 mL, is still to come; NAN where it never rests */
  double spilled_m3;
  unsigned n_spills;
  RehearsalSpill spills[REHEARSAL_SPILLS_MAX];
  unsigned n_vessels;
  RehearsalVessel vessels[EVALUATION_VESSELS_MAX];
  double pump_dry_s; /* the first suction is uncovered while its pump runs; NAN where none is */
  int pump_dry_part;
  double matters_s; /* first moment at which water leaves a vessel or a pump runs dry; NAN */
  double
      drained_m3; /* that ran down from tanks, boxes and pipes into the sump, less what was lifted, at the end */
  double water_error; /* of the budget, as a share of all water */
  unsigned n_events;
  RehearsalEvent events[REHEARSAL_EVENTS_MAX];
  bool events_cut;              /* there were more */
  unsigned n_steps, n_rejected; /* of the integration */
} Rehearsal;

Rehearsal *rehearsal_new (void);
void rehearsal_free (Rehearsal *rehearsal);

/* The first event of a kind, of a part or of any (-1); NULL where there is none. */
const RehearsalEvent *rehearsal_event (const Rehearsal *rehearsal, RehearsalEventKind kind, int part);
const RehearsalVessel *rehearsal_vessel (const Rehearsal *rehearsal, int part, VesselKind kind);

/* One moment. Vessels in the order of Rehearsal.vessels; the others in the order of the arrays of Evaluation. */
typedef struct {
  double time_s;
  double level_z[EVALUATION_VESSELS_MAX];
  double pump_speed[EVALUATION_PUMPS_MAX];
  double pump_m3s[EVALUATION_PUMPS_MAX];     /* through the pump; negative backwards */
  double outlet_m3s[EVALUATION_OUTLETS_MAX]; /* into the tank; negative while it siphons back */
  double feed_m3s[EVALUATION_FEEDS_MAX];     /* through a fed device into its chamber */
  double overflow_m3s[EVALUATION_OVERFLOWS_MAX];
  double drain_m3s[EVALUATION_DRAINS_MAX]; /* in at the mouth */
  bool drain_primed[EVALUATION_DRAINS_MAX];
  double baffle_m3s[EVALUATION_BAFFLES_MAX]; /* from left to right */
  double pipe_fill[EVALUATION_PUMPS_MAX];    /* share of the return pipe above the sump that is water */
  double reservoir_m3;
  double spilled_m3;
} RehearsalFrame;

/* The moments of one rehearsal, close enough that a straight line between them is right to the eye: at every event, and
 * where the integration stepped. When its room is full every other one is dropped. */
typedef struct _RehearsalTrace RehearsalTrace;

/* @capacity: the most frames, at least 16. */
RehearsalTrace *rehearsal_trace_new (unsigned capacity);
void rehearsal_trace_free (RehearsalTrace *trace);
unsigned rehearsal_trace_n_frames (const RehearsalTrace *trace);
const RehearsalFrame *rehearsal_trace_frame (const RehearsalTrace *trace, unsigned index);

/* The moment @time_s, between two frames by a straight line; the nearest frame before the first and after the last.
 * False, and nothing written, for an empty trace or a time that is not finite. */
bool rehearsal_trace_at (const RehearsalTrace *trace, double time_s, RehearsalFrame *ret_frame);

typedef struct _Rehearser Rehearser;

/* Copies what it patches of the system, which must outlive it and not be patched meanwhile. */
Rehearser *rehearser_new (const System *system);
void rehearser_free (Rehearser *rehearser);

/* Coarser or finer than usual: the tolerance on levels, m, 1e-9 to 1e-3. For tests. */
void rehearser_set_tolerance (Rehearser *rehearser, double level_m);

/**
 * rehearse:
 * @plan: what fails
 * @trace: (nullable): cleared, then filled
 * @cancelled: (nullable): read at every step (g_atomic_int_get); not 0 ends the rehearsal
 * @ret_rehearsal: filled in every case as far as it went
 *
 * Begins with the steady state of the plan's edge, with the valves as they are set for the likely flow. Where there is no
 * steady state it begins with levels at the rim, as evaluate () does.
 * Returns: the status, also in the rehearsal
 */
RehearsalStatus rehearse (Rehearser *rehearser, const RehearsalPlan *plan, RehearsalTrace *trace,
                          const int *cancelled, Rehearsal *ret_rehearsal);

/* The steady evaluation with levels, flows, speeds and primes of one moment in their places and no finding, so that it is
 * drawn as any other. Runs and outlets through which water goes back have negative flow and velocity. */
void rehearsal_show (const System *system, const Evaluation *steady, const RehearsalFrame *frame,
                     Evaluation *ret_moment);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rehearsal, rehearsal_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RehearsalTrace, rehearsal_trace_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rehearser, rehearser_free)
