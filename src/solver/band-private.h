/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside of the bands: margins noted while checks are asked, and what moves them. Only files of this folder include it. */
#pragma once

#include "solver/band.h"
#include "solver/model.h"

/* One margin that a check measured, in the order in which it was measured. */
typedef struct {
  CheckId check;
  int part;
  unsigned nth; /* of this check and part */
  double value, limit, margin;
} Margin;

typedef struct {
  Margin *margins;
  unsigned n, room;
} MarginList;

/* Adds a margin; `nth` follows from what is in the list. */
void margin_list_add (MarginList *list, CheckId check, int part, double value, double limit, double margin);

/* Squares of the shifts of one number, down and up, and the widest shift down. */
typedef struct {
  double likely, down2, up2, widest_m;
  int widest;
} Spread;

/* Numbers of the evaluation that several checks rest on: they are narrowed to the judged end of their band, so that every
 * check and every view reads the same. */
#define JUDGED_NUMBERS_MAX                                                                                   \
  (3 * EVALUATION_OVERFLOWS_MAX + 2 * EVALUATION_TANKS_MAX + 4 + EVALUATION_DRAINS_MAX)

typedef struct {
  double down, up;
} Shift;

struct _Bands {
  bool wanted, there;
  bool held; /* widths come from `kept`, only the likely point is computed */
  System *moved;
  Evaluation *scratch;
  MarginList likely, tried; /* tried: of the last point, and after a judgement the corners of the checks */
  Spread *spreads;          /* of the likely margins */
  unsigned spread_room;
  MarginList kept; /* the margins whose widths are held, and those widths */
  Spread *kept_spreads;
  unsigned kept_room;
  unsigned n_numbers;
  Spread numbers[JUDGED_NUMBERS_MAX];
  Shift *shifts, number_shifts[JUDGED_NUMBERS_MAX];
};

/* States that a point takes its flows from. */
typedef struct {
  State running, fast, fast_open, full_speed, slow, running_shut;
} PointStates;

/* The workspace's bands with the moved system a copy of this one. */
Bands *workspace_take_bands (Workspace *workspace, const System *system);

/* Moves a copy of `base` to a point: `at` has N_FACTORS numbers from -1 to 1. What it moves, it moves from `base`. */
void factors_move (const System *base, const double *at, System *moved);
bool factor_is_there (const System *system, FactorId factor);

/* All margins at a state, its levels found again; with `base` the full speed of it as well. Leaves the workspace's states
 * changed. */
void point_margins (const System *moved, Workspace *workspace, const State *state, const PointStates *base,
                    MarginList *list);
