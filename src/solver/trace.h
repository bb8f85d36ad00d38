/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The record of a calculation. `evaluate` hands each step to an optional Trace at the place where it computes it, so
 * that the explanation shows the numbers that were used and there is never a second formula for it. */
#pragma once

#include <stdbool.h>
#include <glib.h>

#include "units/quantity.h"

/* Which state of the system a step belongs to. */
typedef enum {
  SCENARIO_NONE,              /* true in every state */
  SCENARIO_RUNNING,           /* likely pump, set speed, new pipe: what is drawn */
  SCENARIO_FAST,              /* fast pump edge, set speed, new pipe: floods and drains are judged with it */
  SCENARIO_FULL_SPEED,        /* fast pump edge, full speed, new pipe */
  SCENARIO_SLOW,              /* slow pump edge, set speed, aged pipe, K + 25 %: turnover is judged with it */
  SCENARIO_FLOOD_UNPRIMED,    /* every drain but the emergency shut, the emergency not primed */
  SCENARIO_FLOOD_PRIMED,      /* the same with the emergency primed where it may be counted */
  SCENARIO_FLOOD_FULL_SPEED,  /* the same at full speed */
  SCENARIO_POWER_OFF,         /* drain-back after a power cut */
  SCENARIO_POWER_OFF_PLUGGED, /* the same with the siphon breaks plugged */
  SCENARIO_TRANSFER,          /* way down blocked */
  SCENARIO_PRIME_LOST,        /* the tubes of a hang-over siphon box carry nothing */
  SCENARIO_TRANSFER_RESERVOIR, /* the same with the whole reservoir following */
  N_SCENARIOS
} Scenario;

#define STEP_SYMBOLS_MAX 10

/* A symbol of a formula: how it is written, what it means (marked for translation) and its quantity. */
typedef struct {
  const char *symbol;
  const char *meaning;
  Quantity quantity;
} StepSymbol;

/* Kinds of steps, in the order of the explanation. The rows are in steps.c. */
typedef enum {
  STEP_WATER,
  STEP_PIPE_RUN,
  STEP_STATIC_HEAD,
  STEP_PUMP_DUTY,
  STEP_RETURN_FLOW,
  STEP_OVERFLOW_HEAD,
  STEP_COMB_HEAD,
  STEP_COMB_HALF,
  STEP_PASSAGE,
  STEP_SEAL,
  STEP_TUBES,
  STEP_TUBE_AIR,
  STEP_DISPLAY_LEVEL,
  STEP_DISPLAY_WATER,
  STEP_TURNOVER,
  STEP_BAFFLE,
  STEP_DRAIN_PIPE,
  STEP_QUIET,
  STEP_UNPRIMED,
  STEP_PRIMED,
  STEP_VALVE,
  STEP_COVER,
  STEP_DRIFT,
  STEP_START,
  STEP_BOX_LEVEL,
  STEP_FLOOD,
  STEP_REST_LEVEL,
  STEP_BACK_DISPLAY,
  STEP_BACK_BOX,
  STEP_BACK_RUN,
  STEP_BACK_DRAIN,
  STEP_BACK_TOTAL,
  STEP_FREE_CHAMBER,
  STEP_FREE_TOTAL,
  STEP_POWER_OFF_LEVEL,
  STEP_TRANSFER,
  STEP_EMERGENCY_TAKES,
  STEP_TOTAL_WATER,
  STEP_EVAPORATION,
  STEP_TOP_OFF,
  STEP_BREAK,
  STEP_SUCTION,
  STEP_NPSH,
  STEP_HEAT,
  STEP_SALT,
  STEP_POWER,
  STEP_COST,
  N_STEPS
} StepId;

/* What a kind of step is: the first symbol is its result. */
typedef struct {
  StepId id;
  const char *title;   /* marked for translation */
  const char *formula; /* in the symbols, with operators and functions as printed: "V = A (z1 - z0)" */
  StepSymbol symbols[STEP_SYMBOLS_MAX]; /* ended by a NULL symbol where there are fewer */
  const char *source; /* document and equation, or "common practice" (marked for translation) */
} StepInfo;

/* The row of a kind, never NULL for a valid id; how many symbols it has. */
const StepInfo *step_info (StepId id);
unsigned step_n_symbols (StepId id);

/* One step that was computed: the values of its row's symbols, in their order. part is -1 for the whole system. */
typedef struct {
  StepId id;
  Scenario scenario;
  int part;
  double values[STEP_SYMBOLS_MAX];
} Step;

typedef struct _Trace Trace;

Trace *trace_new (void);
void trace_free (Trace *trace);

/* Forgets all steps. */
void trace_clear (Trace *trace);

unsigned trace_n_steps (const Trace *trace);
const Step *trace_step (const Trace *trace, unsigned index);

/* Records a step; does nothing where trace is NULL. `values` has step_n_symbols (id) numbers. */
void trace_add (Trace *trace, StepId id, Scenario scenario, int part, const double *values);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Trace, trace_free)
