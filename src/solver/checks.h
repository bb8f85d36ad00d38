/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The table of checks and what a check works with. Adding a check is one row of CHECKS (finding.h), one function here and
 * one row of the table in checks.c. */
#pragma once

#include "solver/model.h"

typedef struct {
  const System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  Finding spare; /* written to when there is no room for more */
} Judge;

typedef void (*CheckFunc) (Judge *judge);

/* Judges everything by the table, and puts stops first. */
void judge (const System *system, Workspace *workspace, Evaluation *evaluation);

/* Adds a finding whose band is the value alone; the caller may widen it and add seconds and a remedy. */
Finding *judge_add (Judge *judge, CheckId check, Grade grade, int part, double value, double limit,
                    double margin);
void finding_second (Finding *finding, double value);
void finding_mend (Finding *finding, int part, FieldId field, double value);

/* Adds a finding with `grade` where value - limit (least) or limit - value (most) is negative; NULL where it is not. */
Finding *judge_least (Judge *judge, CheckId check, Grade grade, int part, double value, double limit);
Finding *judge_most (Judge *judge, CheckId check, Grade grade, int part, double value, double limit);

/* The state of a chamber by its index. */
const VesselState *judged_chamber (const Judge *judge, unsigned chamber);

/* True where some pump runs below full speed, so that it can be raised. */
bool speed_can_be_raised (const Judge *judge);

/* The speed of the only pump that gives `flow_m3s` at an edge (-1, 0, 1), as a remedy; nothing with several pumps or
 * where no speed does. */
void remedy_by_speed (Judge *judge, Finding *finding, int edge, double flow_m3s);

#define X(id, word, quantity, text) void check_##id (Judge *judge);
CHECKS (X)
#undef X
