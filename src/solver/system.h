/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The solver's door: a design compiled to a flat system, and the evaluation of that system.
 *
 *   System *system = system_compile (design, catalogue, &status);
 *   Workspace *workspace = workspace_new (system);
 *   evaluate (system, workspace, NULL, evaluation);
 *
 * Compiling joins ports to nodes, vessels to levels and the pieces of a run to one link. Evaluating allocates nothing and
 * has no state but its workspace: threads may share a system, each with a workspace of its own. */
#pragma once

#include "design/design.h"
#include "hydraulics/pump.h"
#include "solver/evaluation.h"
#include "solver/trace.h"

typedef struct _Catalogue Catalogue; /* design/catalogue.h */
typedef struct _System System;
typedef struct _Workspace Workspace;

typedef enum {
  SYSTEM_OK,
  SYSTEM_UNKNOWN_PIPE,    /* a run's size is not in the catalogue */
  SYSTEM_UNKNOWN_FITTING, /* a fitting's type is not in the catalogue */
  SYSTEM_BAD_NETWORK,     /* the return runs do not join a pump with an outlet */
  SYSTEM_TOO_LARGE,       /* more parts of a kind than an evaluation holds */
  SYSTEM_BAD_WATER,       /* water outside the range of its relations */
  N_SYSTEM_STATUSES
} SystemStatus;

/* A short English clause for logs and tests; never NULL. */
const char *system_status_text (SystemStatus status);

/* Compiles a design. Returns NULL with a status other than SYSTEM_OK where it cannot be evaluated at all; `ret_part`
 * (may be NULL) is then the index of the part at fault, or -1. Keeps references to design and catalogue. */
System *system_compile (Design *design, Catalogue *catalogue, SystemStatus *ret_status, int *ret_part);
void system_free (System *system);

const Design *system_design (const System *system);

/* How many pumps the system has, and the index in the design of one. */
unsigned system_n_pumps (const System *system);
int system_pump_part (const System *system, unsigned pump);

/* Patches one pump without compiling again: another curve (canonical points at full speed, as a FIELD_CURVE or
 * PumpType.curve) with its electrical power at full speed, or another speed (0.3 to 1). False, and nothing changed, for
 * what a design would refuse. A workspace made before the patch follows at its next evaluation. */
bool system_set_pump_curve (System *system, unsigned pump, const char *curve, double watts);
bool system_set_pump_speed (System *system, unsigned pump, double speed);

/* The curve through canonical points, as every result is computed from it: of kind PUMP_CURVE_ESTIMATE, a parabola, where
 * they are only two. False where they are no curve. */
bool solver_pump_curve (const char *points, PumpCurve *ret_curve);

Workspace *workspace_new (const System *system);
void workspace_free (Workspace *workspace);

/* Computes and judges everything. `trace` may be NULL; else it is cleared and filled. Never fails: what has no answer is
 * NAN and said by `evaluation->status`. */
void evaluate (const System *system, Workspace *workspace, Trace *trace, Evaluation *evaluation);

/* Compiles, evaluates and frees in one call. False where the design does not compile. */
bool evaluate_design (Design *design, Catalogue *catalogue, Trace *trace, Evaluation *evaluation,
                      SystemStatus *ret_status, int *ret_part);

/* The speed of `pump` (the others as set) at which the likely flow gives `turnover_per_h` over the display water of the
 * evaluation. False where no speed from 0.3 to 1 does; `ret_speed` is then untouched. */
bool solver_speed_for_turnover (const System *system, Workspace *workspace, const Evaluation *evaluation,
                                unsigned pump, double turnover_per_h, double *ret_speed);

/* Curves for charts. Each fills at most `n` points (n >= 2), flow rising, and returns how many: 0 where it has none. */
typedef struct {
  double flow_m3s;
  double head_m;
} CurvePoint;

/* Head of a pump over flow at a speed ratio. */
unsigned solver_curve_pump (const System *system, unsigned pump, double speed, unsigned n,
                            CurvePoint *points);

/* Head that the loop asks of `pump` at each flow up to `most_m3s`, the other pumps as set; aged takes old roughness. */
unsigned solver_curve_loop (const System *system, Workspace *workspace, const Evaluation *evaluation,
                            unsigned pump, bool aged, double most_m3s, unsigned n, CurvePoint *points);

/* What all drains carry over the box level (height above the room floor, in head_m), valves open. */
unsigned solver_curve_drain (const System *system, Workspace *workspace, unsigned overflow, bool primed,
                             unsigned n, CurvePoint *points);

/* Limits for the chart: the flow band that meets the target turnover, and what the drains carry. */
void solver_target_band (const System *system, const Evaluation *evaluation, double *ret_low_m3s,
                         double *ret_high_m3s);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (System, system_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Workspace, workspace_free)
