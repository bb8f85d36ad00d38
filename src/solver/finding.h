/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A finding: one judged fact of a design, as data. It is judged in checks-*.c by one row of the table of checks and put
 * into words by the report layer alone. Everything is SI; levels are heights above the room floor.
 *
 * Margins are in the limit's own unit and positive while the fact is safe. A finding is judged on its own pessimistic
 * edge: `value` is the likely value, `lower` and `upper` the edges of its band, `margin` the distance of the judged edge
 * from the limit. */
#pragma once

#include "design/field.h"

/* STOP: must not be built like this. CAUTION: works, but a likely event or setting harms. NOTE: worth knowing. */
typedef enum { GRADE_STOP, GRADE_CAUTION, GRADE_NOTE, N_GRADES } Grade;

/* Second values of a finding that its sentence may need, beside value and limit. */
#define FINDING_SECONDS_MAX 4

/* The checks: X (id, word, quantity of value and limit, what value and limit are, and the second values in order).
 * The word is the `id` of the finding in machine output and never changes. The text is for developers. */
#define CHECKS(X)                                                                                            \
  /* Steady state and drain */                                                                               \
  X (DRAIN_OVERRUN, "drain-overrun", FLOW,                                                                   \
     "what all drains carry with the box at its rim; duty flow, fast edge; "                                 \
     "[0] box level at that capacity [1] speed of the pump [2] flow at full speed")                          \
  X (DRAIN_FULL_SPEED, "drain-full-speed", FLOW,                                                             \
     "as drain-overrun, as set now; flow at full speed, fast edge; "                                         \
     "[0] box level at that capacity")                                                                       \
  X (DRAIN_SHORT, "drain-short", FLOW,                                                                       \
     "what all drains carry at the wanted box level with valves open; duty flow; "                           \
     "[0] wanted box level [1] box level at the duty flow")                                                  \
  X (DRAIN_NOISE, "drain-noise", FLOW, "flow in an unprimed drain; its quiet limit; [0] Froude number")      \
  X (SIPHON_RANGE, "siphon-range", RATIO,                                                                    \
     "open capacity over duty flow; least (1.5) or most (3) wanted; "                                        \
     "[0] open capacity")                                                                                    \
  X (SIPHON_NO_VALVE, "siphon-no-valve", NONE, "loss coefficient that a valve would have to add; 0")         \
  X (SIPHON_GULPS, "siphon-gulps", LENGTH, "water over the siphon's mouth; cover that its flow needs")       \
  X (SIPHON_SUCTION, "siphon-suction", HEAD, "pressure head above the valve; 0; [0] height of the valve")    \
  X (SIPHON_START, "siphon-start", LENGTH,                                                                   \
     "depth of the end below the sump's surface after drain-back; height that "                              \
     "pushes the air out; [0] Froude number of the starting flow")                                           \
  X (SIPHON_AIR, "siphon-air", NONE,                                                                         \
     "full-bore Froude number of the starting flow; 1, from which water sweeps air along")                   \
  X (SIPHON_PRIMING, "siphon-priming", LENGTH, "lip plus 1.5 bores; lowest rim or spilling lip")             \
  X (SIPHON_DRIFT, "siphon-drift", RATIO,                                                                    \
     "change of flow that the siphon takes up itself; pump tolerance; "                                      \
     "[0] play of the box level")                                                                            \
  X (SIPHON_END, "siphon-end", LENGTH,                                                                       \
     "depth of the siphon's end below the running surface; least or most wanted")                            \
  X (DRAIN_FLOOR, "drain-floor", LENGTH,                                                                     \
     "height of an upright end above the bottom; half its bore, below which it chokes")                      \
  X (EMERGENCY_END, "emergency-end", LENGTH, "height of its end; power-off level of its chamber plus 25 mm") \
  X (EMERGENCY_WET, "emergency-wet", FLOW, "flow in the emergency drain while all is well; 0")               \
  /* Flood and transfer */                                                                                   \
  X (FLOOD_FAILED, "flood-failed", LENGTH,                                                                   \
     "highest level with every drain but the emergency shut, primed where it "                               \
     "may be counted; lowest rim; [0] capacity of the emergency at the rim [1] duty flow [2] of the "        \
     "display: 1, of "                                                                                       \
     "the box: 0")                                                                                           \
  X (FLOOD_PRIMED_ONLY, "flood-primed-only", LENGTH,                                                         \
     "as flood-failed, unprimed; lowest rim; [0] level primed "                                              \
     "[1] duty flow")                                                                                        \
  X (FLOOD_FREEBOARD, "flood-freeboard", LENGTH, "freeboard in the flood test; 10 mm")                       \
  X (FLOOD_FULL_SPEED, "flood-full-speed", LENGTH,                                                           \
     "as flood-failed at full speed, fast edge; lowest rim; [0] flow")                                       \
  X (NO_EMERGENCY, "no-emergency", COUNT, "number of emergency drains; 1")                                   \
  X (EMERGENCY_RUNS_DRY, "emergency-runs-dry", LENGTH,                                                       \
     "return level while the emergency carries all; suction; "                                               \
     "[0] volume taken from the return chamber")                                                             \
  X (TRANSFER_FAILED, "transfer-failed", VOLUME,                                                             \
     "water that the pump can lift with the way down blocked; room in "                                      \
     "the display; [0] litres on the floor as a volume")                                                     \
  X (TRANSFER_RESERVOIR, "transfer-reservoir", VOLUME, "the same with the whole reservoir following; room")  \
  X (PRIME_LOST, "prime-lost", VOLUME,                                                                       \
     "water that the pump lifts once the tubes of a hang-over siphon box carry nothing; room in display "    \
     "and "                                                                                                  \
     "inner box; [0] litres on the floor as a volume")                                                       \
  X (TUBE_AIR, "tube-air", NONE,                                                                             \
     "full-bore Froude number in the tubes, slow edge judged; 1, from which water sweeps bubbles along")     \
  X (TUBES_SHORT, "tubes-short", FLOW,                                                                       \
     "what the tubes carry with the inner box at the crest; duty flow, fast edge")                           \
  X (SEAL_LOW, "seal-low", LENGTH, "water over the tubes' ends when nothing flows; least wanted")            \
  /* Heights and levels */                                                                                   \
  X (HEIGHTS_ORDER, "heights-order", LENGTH, "a height; the height that it must stay under (other part)")    \
  X (HEIGHTS_GAP, "heights-gap", LENGTH, "gap between two heights in the right order; gap wanted")           \
  X (DISPLAY_OVER_RIM, "display-over-rim", LENGTH, "display level; rim or brace; [0] head over the crest")   \
  X (DISPLAY_FREEBOARD, "display-freeboard", LENGTH,                                                         \
     "freeboard of the running display; 25 mm; [0] head over crest")                                         \
  X (DISPLAY_FULL_SPEED, "display-full-speed", LENGTH,                                                       \
     "freeboard of the display at full speed, fast edge; 10 mm")                                             \
  X (BOX_OVER_RIM, "box-over-rim", LENGTH, "box level; rim of the box")                                      \
  X (WEIR_DROWNED, "weir-drowned", LENGTH, "box level; crest")                                               \
  X (WEIR_LOADING, "weir-loading", LENGTH,                                                                   \
     "head over the crest; 15 mm; [0] flow per metre of open crest, m2/s")                                   \
  X (COMB_CHOKES, "comb-chokes", LENGTH, "display level with the comb half covered; rim")                    \
  /* Sump */                                                                                                 \
  X (SUMP_OVER_RIM, "sump-over-rim", LENGTH, "running level of a chamber; rim of the sump")                  \
  X (DRAIN_BACK_FLOODS, "drain-back-floods", VOLUME,                                                         \
     "drain-back; free volume that takes it; [0] volume on the "                                             \
     "floor [1] highest power-off level [2] rim")                                                            \
  X (DRAIN_BACK_FREEBOARD, "drain-back-freeboard", LENGTH,                                                   \
     "freeboard after drain-back; freeboard wanted; "                                                        \
     "[0] drain-back")                                                                                       \
  X (DRAIN_BACK_PLUGGED, "drain-back-plugged", VOLUME,                                                       \
     "drain-back with the siphon break plugged; free volume; "                                               \
     "[0] volume on the floor")                                                                              \
  X (CHECK_VALVE, "check-valve", VOLUME,                                                                     \
     "volume that a sound check valve would hold back; 0: it is not counted on")                             \
  X (SUMP_STAND, "sump-stand", LENGTH,                                                                       \
     "a size of the sump; what the stand has; [0] axis: 0 length, 1 width, 2 height")                        \
  X (SUMP_DOOR, "sump-door", LENGTH, "a size of the sump; what the door lets through; [0] axis")             \
  X (SUMP_ROOM, "sump-room", LENGTH, "room above the sump; room wanted for what is lifted out")              \
  X (SOCK_FLOW, "sock-flow", FLOW, "flow through the socks; what they carry clean; [0] number of socks")     \
  X (SOCK_CLOGGED, "sock-clogged", LENGTH,                                                                   \
     "level in the holder with the socks clogged, over its bypass lip; rim of the sump less 10 mm; "         \
     "[0] rim [1] flow, fast edge")                                                                          \
  X (SOCK_BACKS_UP, "sock-backs-up", FLOW,                                                                   \
     "what the drains carry against clogged socks, as set, box at its rim; flow, fast edge; "                \
     "[0] level in the holder")                                                                              \
  X (CHAMBER_VELOCITY, "chamber-velocity", VELOCITY, "mean velocity through a chamber; most wanted")         \
  X (BAFFLE_LEVEL, "baffle-level", LENGTH, "head that drives the flow past a baffle; 50 mm")                 \
  /* Return loop */                                                                                          \
  X (TURNOVER_LOW, "turnover-low", TURNOVER,                                                                 \
     "turnover, slow edge judged; least wanted; [0] speed that would do")                                    \
  X (TURNOVER_HIGH, "turnover-high", TURNOVER,                                                               \
     "turnover, fast edge judged; most wanted; [0] speed that would do")                                     \
  X (DISPLAY_STARVED, "display-starved", FLOW, "flow to a display whose pump runs; 0: branches take it all") \
  X (PUMP_TOO_WEAK, "pump-too-weak", HEAD, "head at no flow; static head")                                   \
  X (PUMP_START, "pump-start", HEAD,                                                                         \
     "head at no flow, slow edge; highest point of the pipe over the return level")                          \
  X (PUMP_BEYOND_CURVE, "pump-beyond-curve", FLOW, "flow of the pump; last point of its curve")              \
  X (RETURN_VELOCITY, "return-velocity", VELOCITY,                                                           \
     "velocity in a return run; 2.0 m/s, remarked on from 1.5")                                              \
  X (NOZZLE_VELOCITY, "nozzle-velocity", VELOCITY, "velocity at an outlet; 1 to 3 m/s")                      \
  X (SUCTION_VELOCITY, "suction-velocity", VELOCITY, "velocity in the suction of a pump; 1.0 m/s")           \
  X (SUCTION_COVER, "suction-cover", LENGTH, "water over the suction; cover wanted; [0] running level")      \
  X (NPSH, "npsh", HEAD, "suction surface over the pump's suction; 0 (flooded suction); [0] NPSH available") \
  X (NPSH_MARGIN, "npsh-margin", HEAD, "NPSH available; NPSH required and 0.5 m")                            \
  X (PUMP_ESTIMATE, "pump-estimate", COUNT, "points of a pump's curve; 3, with fewer it is an estimate")     \
  X (NO_BREAK, "no-break", LENGTH,                                                                           \
     "level at which an outlet without break stops its siphon; crest; "                                      \
     "[0] volume that it lets back below the crest")                                                         \
  X (BREAK_SUCTION, "break-suction", HEAD, "pressure head at the siphon break while running; 0")             \
  X (BREAK_LOW, "break-low", LENGTH, "height of the break; crest; [0] volume that it lets back")             \
  X (OUTLET_SPLASH, "outlet-splash", LENGTH, "height of a submerged outlet; running surface")                \
  /* Devices, top-off, electricity, panes */                                                                 \
  X (DEVICE_DEPTH, "device-depth", LENGTH, "depth of water at a device; depth wanted; [0] tolerance")        \
  X (DEVICE_DRY, "device-dry", LENGTH, "lowest level of its chamber; level that must stay wet")              \
  X (DEVICE_ROOM, "device-room", LENGTH, "room above a device; room wanted")                                 \
  X (DEVICE_FIT, "device-fit", LENGTH, "size of a device or pump; of its chamber; [0] axis")                 \
  X (DEVICE_FLOW_LOW, "device-flow-low", FLOW, "flow through a fed device, slow edge judged; least wanted")  \
  X (DEVICE_FLOW_HIGH, "device-flow-high", FLOW, "flow through a fed device, fast edge judged; most borne")  \
  X (TOP_OFF_SHORT, "top-off-short", TIME, "how long the reservoir lasts, fast evaporation; 7 days")         \
  X (TOP_OFF_NONE, "top-off-none", TIME, "how long until the pump draws air; 24 h")                          \
  X (RESERVE_SHORT, "reserve-short", TIME, "how long until the pump draws air without top-off; 24 h")        \
  X (TOP_OFF_FLOODS, "top-off-floods", VOLUME, "reservoir; free volume of the running sump")                 \
  X (TOP_OFF_POWER_CUT, "top-off-power-cut", VOLUME, "reservoir and drain-back; free volume of the sump")    \
  X (TOP_OFF_DILUTES, "top-off-dilutes", SALINITY,                                                           \
     "salinity after the whole reservoir ran in; least that is borne at once")                               \
  X (TOP_OFF_SIPHON, "top-off-siphon", LENGTH,                                                               \
     "end of the top-off tube; power-off level of the return chamber")                                       \
  X (TOP_OFF_RUNS_ON, "top-off-runs-on", LENGTH,                                                             \
     "end of the top-off tube; surface of the full reservoir, from which it can siphon")                     \
  X (CIRCUIT_LOAD, "circuit-load", POWER, "connected watts; 80 % of the circuit")                            \
  X (SOCKET_HEIGHT, "socket-height", LENGTH, "lowest socket; power-off level of the sump")                   \
  X (PANE_TEMPERED, "pane-tempered", COUNT, "holes through a tempered pane; 0; [0] pane: 0 bottom, 1 back")  \
  X (PANE_ASK, "pane-ask", COUNT, "holes through a pane of unknown kind; 0; [0] pane: 0 bottom, 1 back")     \
  /* What was not computed */                                                                                \
  X (NOT_SOLVED, "not-solved", NONE, "number of relations that gave no answer; 0")

typedef enum {
#define X(id, word, quantity, text) CHECK_##id,
  CHECKS (X)
#undef X
      N_CHECKS
} CheckId;

/* Checks whose margin has no band, by decision, and why. Every other margin has one, from the factors of band.h. */
#define CHECKS_WITHOUT_BAND(X)                                                                               \
  X (SIPHON_NO_VALVE, "a valve is there or it is not")                                                       \
  X (NO_EMERGENCY, "a count")                                                                                \
  X (HEIGHTS_GAP, "the gap that is wanted is itself the allowance for what building gets wrong")             \
  X (SIPHON_END, "the range that is wanted is itself the allowance for what building gets wrong")            \
  X (CHECK_VALVE, "told, not judged: nothing is counted on it")                                              \
  X (SUMP_STAND, "sizes given exactly")                                                                      \
  X (SUMP_DOOR, "sizes given exactly")                                                                       \
  X (SUMP_ROOM, "sizes given exactly")                                                                       \
  X (DEVICE_ROOM, "sizes given exactly")                                                                     \
  X (DEVICE_FIT, "sizes given exactly")                                                                      \
  X (DISPLAY_STARVED, "told where nothing arrives at all")                                                   \
  X (PUMP_BEYOND_CURVE, "the end moves with the curve: a strong pump's curve ends later too")                \
  X (PUMP_ESTIMATE, "a count")                                                                               \
  X (TOP_OFF_RUNS_ON, "sizes given exactly")                                                                 \
  X (CIRCUIT_LOAD, "plates of the devices, the largest that they draw")                                      \
  X (PANE_TEMPERED, "a count")                                                                               \
  X (PANE_ASK, "a count")                                                                                    \
  X (NOT_SOLVED, "a count")

/* What would mend a finding: set `field` of `part` to `value` (SI, choice index or flag). part is -1 where no single
 * field does. The value makes this finding go, on its own judged edge; others may come. */
typedef struct {
  int part;
  FieldId field;
  double value;
} Remedy;

typedef struct {
  CheckId check;
  Grade grade;
  int part;       /* index in the design of what is judged, or -1 for the whole system */
  int other_part; /* second part of a comparison, or -1 */
  Quantity quantity;
  double value, limit;
  double margin;          /* judged edge against limit, positive is safe */
  double relative_margin; /* margin over |limit|; 0 where the limit is 0 */
  double lower, upper;    /* band of `value` */
  int factor;             /* the shared factor (FactorId) that narrows the margin most, or -1 */
  unsigned n_seconds;
  double seconds[FINDING_SECONDS_MAX];
  Remedy remedy;
} Finding;

/* Word of a check ("drain-overrun"), the quantity of its value and limit, and what they are, in a developer's words.
 * Never NULL for a valid id. */
const char *check_word (CheckId check);
Quantity check_quantity (CheckId check);
const char *check_meaning (CheckId check);

/* Why the margin of a check has no band; NULL where it has one. */
const char *check_exact_reason (CheckId check);

/* Looks a check up by its word; false when there is none. */
bool check_find (const char *word, CheckId *ret_check);

/* Word of a grade: "stop", "caution", "note". */
const char *grade_word (Grade grade);
