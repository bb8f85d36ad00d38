/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The choices of the field table as enums: the index that a choice field stores. Order is that of choices.c. */
#pragma once

typedef enum { UNITS_CHOICE_METRIC, UNITS_CHOICE_US } UnitsChoice;
typedef enum { PAPER_A4, PAPER_LETTER } PaperChoice;
typedef enum { OVERFLOW_INSIDE, OVERFLOW_OUTSIDE, OVERFLOW_PAIR, OVERFLOW_HANG_OVER } OverflowKind;
typedef enum { WEIR_PLAIN, WEIR_TOOTHED } WeirKind;
typedef enum { DRAIN_STANDPIPE, DRAIN_SIPHON, DRAIN_TRICKLE, DRAIN_EMERGENCY } DrainRole;
typedef enum { ENTRY_FLUSH, ENTRY_PROJECTING, ENTRY_STRAINER, ENTRY_STRAINER_HALF } EntryKind;
typedef enum {
  CHAMBER_INLET,
  CHAMBER_SKIMMER,
  CHAMBER_REFUGIUM,
  CHAMBER_MEDIA,
  CHAMBER_TRAP,
  CHAMBER_RETURN
} ChamberRole;
typedef enum { BAFFLE_OVER, BAFFLE_UNDER } BaffleKind;
typedef enum { SERVICE_FIXED, SERVICE_LIFTED_OUT } BaffleService;
typedef enum {
  DEVICE_SKIMMER,
  DEVICE_HEATER,
  DEVICE_PROBE,
  DEVICE_REACTOR,
  DEVICE_MEDIA,
  DEVICE_SOCK,
  DEVICE_OTHER,
  DEVICE_UV,
  DEVICE_CHILLER,
  DEVICE_FEED /* the plain end of a pipe, as over a refugium */
} DeviceKind;
typedef enum { PUMP_SUBMERGED, PUMP_OUTSIDE } PumpPlacing;
typedef enum { OUTLET_SUBMERGED, OUTLET_FREE } OutletKind;
typedef enum { BEND_AUTO, BEND_ELBOW, BEND_SWEEP, BEND_TWO_45 } BendKind;
typedef enum { PANE_UNKNOWN, PANE_ANNEALED, PANE_TEMPERED } PaneKind;
typedef enum { CUT_OUT_NONE, CUT_OUT_RUN_TIME, CUT_OUT_HIGH_LEVEL } CutOut;
