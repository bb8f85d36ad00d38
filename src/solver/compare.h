/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Pumps side by side on the loop of one design: those of the catalogue, the design's own candidates, and the one that is
 * installed. Each is judged at the speed that gives the target turnover, or at the nearest that it has. */
#pragma once

#include "design/catalogue.h"
#include "design/draft.h"
#include "solver/system.h"

typedef enum { COMPARE_INSTALLED, COMPARE_OWN, COMPARE_CATALOGUE } CompareOrigin;

typedef struct {
  CompareOrigin origin;
  const char *key;     /* of the part or of the catalogue entry; lives as long as design and catalogue */
  const char *name;    /* label of the part, or name of the catalogue entry; NULL for a part without label */
  const char *curve;   /* canonical points */
  double watts;        /* electrical, at full speed */
  double least_speed;  /* of its controller; 1 where it has none */
  bool estimate;       /* its curve is made of two points: a name that is shown says so */
  PumpStatus status;   /* at `speed` */
  bool reaches_target; /* some speed of its range gives the target turnover */
  double target_speed; /* that speed; NAN where there is none */
  double speed;        /* what the figures below are for: the target speed, else the nearest of its range */
  double flow_m3s, head_m; /* duty point */
  double full_flow_m3s;    /* at full speed */
  double turnover_per_h;
  double velocity_ms;  /* largest in the return: a measure of noise */
  double drain_margin; /* as Totals */
  double flood_margin_m;
  double power_w, yearly_cost;
  unsigned stops, cautions; /* findings of the whole design with it */
} CompareRow;

#define COMPARE_MOST 300

/* Fills at most `max` rows: the installed pump first, then the design's own candidates, then the catalogue. Returns how
 * many; 0 where the design does not compile. The first return pump of the design is the one that is replaced. */
unsigned compare_pumps (Design *design, Catalogue *catalogue, CompareRow *rows, unsigned max);

/* The design with the pump of a row installed, at its `speed`. NULL with the problem where that is refused. */
Design *compare_use (const Design *design, const CompareRow *row, Problem *ret_problem);
