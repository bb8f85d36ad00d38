/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A whole design proposed from tank and stand size alone: the largest sump that passes the door and leaves working
 * room, the kind of drain, pipe sizes, pump and speed for the target. What is proposed is sound; where nothing sound is
 * found, the limit that forbids it is named. */
#pragma once

#include "design/catalogue.h"
#include "design/draft.h"
#include "solver/system.h"

typedef struct {
  double tank_m[3];      /* outside length, width, height */
  double stand_m[3];     /* inside length, width, height of the stand */
  double door_m[2];      /* width and height of the door; 0 takes the defaults */
  double turnover_per_h; /* 0 takes the default for the tank */
  bool us;               /* US units and paper */
} ProposalRequest;

/* What forbids a proposal. */
typedef enum {
  LIMIT_NONE,
  LIMIT_TANK_SIZE,  /* a size of the tank is out of the program's range: value, least or most */
  LIMIT_STAND_SIZE, /* the same of the stand */
  LIMIT_TANK_STAND, /* the tank overhangs the stand by too much: overhang, most */
  LIMIT_SUMP_ROOM,  /* no sump fits the stand: room in its smallest direction, what is needed */
  LIMIT_PUMP,       /* no pump of the catalogue reaches the target: flow wanted, most */
  LIMIT_DRAIN,      /* no pipe of the catalogue carries it: flow, most */
  LIMIT_DRAIN_BACK, /* no sump that fits takes what runs back: volume, most */
  LIMIT_FINDING,    /* a stop finding stays in the best proposal: `check` */
  N_LIMIT_CODES
} LimitCode;

typedef struct {
  LimitCode code;
  unsigned axis; /* 0 length, 1 width, 2 height */
  double value, bound;
  CheckId check;
} ProposalLimit;

/* The proposed design, evaluated as sound, or NULL with the limit. */
Design *proposal_make (const ProposalRequest *request, Catalogue *catalogue, ProposalLimit *ret_limit);
