/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The table of checks and what a check works with. Adding a check is one row of CHECKS (finding.h), one function here and
 * one row of the table in checks.c. */
#pragma once

#include "solver/band-private.h"

typedef struct {
  const System *system;
  Workspace *workspace;
  Evaluation *evaluation;
  MarginList *list; /* notes all margins and finds nothing: a point of the bands */
  Finding spare;    /* written to when there is no room for more */
} Judge;

typedef void (*CheckFunc) (Judge *judge);

/* Judges everything by the table, and puts stops first. */
void judge (const System *system, Workspace *workspace, Evaluation *evaluation);

/* Asks every check, in the order of the table. */
void judge_all (Judge *judge);

/* A margin that a check measures, of a value that should be at least `limit`, or at most. */
typedef struct {
  CheckId check;
  Grade grade;
  int part;
  double value, limit; /* likely */
  double judged;       /* the value at the check's own corner; the band may make it worse */
  bool most;           /* the limit is the most that may be */
  bool certain;        /* it is found whatever the margin */
} Measure;

/* Notes the margin; adds a finding where its judged end is negative, and returns NULL where it is not. */
Finding *judge_measure (Judge *judge, const Measure *measure);

/* Tells a finding of the least that may be against another limit than the one that it fell under: the least that is
 * wanted. Its margin grows by the difference. */
void judge_against (Finding *finding, double wanted);

/* Adds a finding whose band is the value alone; the caller may widen it and add seconds and a remedy. */
Finding *judge_add (Judge *judge, CheckId check, Grade grade, int part, double value, double limit,
                    double margin);
void finding_second (Finding *finding, double value);
void finding_mend (Finding *finding, int part, FieldId field, double value);

/* judge_measure () of a value without a corner of its own. */
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
