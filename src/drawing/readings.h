/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a drawing needs of an evaluation, by index of the part: the one place of this folder that reads its structs. */
#pragma once

#include "design/design.h"
#include "solver/evaluation.h"

/* How water lies in a pipe; drawn as its texture, never as a colour. */
typedef enum {
  TEXTURE_NONE,    /* dry, blocked or unknown */
  TEXTURE_QUIET,   /* a film along the walls round a core of air */
  TEXTURE_GULPING, /* slugs with air between them */
  TEXTURE_PRIMED   /* full */
} PipeTexture;

typedef struct {
  int part;
  Grade grade;
} MarkedPart;

/* Arrays of one entry a part; levels are NAN and velocities 0 where unknown or not applicable. */
typedef struct {
  bool known;
  double *running_m; /* level above the room floor while running: tanks, overflows (box), chambers */
  double *off_m;     /* level after the power has failed */
  double *outer_running_m,
      *outer_off_m; /* of the outer box of a pair, the drain side of a hang-over siphon box */
  double *tube_side_running_m, *tube_side_off_m; /* of a hang-over siphon box */
  double *velocity_ms; /* mean velocity in a run, or that of its water where it does not run full */
  bool *backwards;     /* the water in a return run goes against its drawn direction, as after a power cut */
  double *flow_m3s;    /* through a run; 0 where unknown */
  PipeTexture *texture;
  unsigned n_marks;
  MarkedPart *marks; /* in the order of the findings */
} Readings;

/* `evaluation` may be NULL: nothing is known. */
void readings_init (Readings *readings, const Design *design, const Evaluation *evaluation);
void readings_clear (Readings *readings);
