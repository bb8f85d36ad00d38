/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the solver takes from a catalogue, apart from the hydraulics: the one place that reads it. */
#pragma once

#include "solver/system.h"

typedef enum {
  SIZES_UNION,
  SIZES_GATE,
  SIZES_BALL,
  SIZES_CHECK,
  SIZES_BULKHEAD,
  SIZES_STRAINER,
  SIZES_REDUCER,
  SIZES_TEE_RUN,
  SIZES_OTHER
} SizesFitting;

typedef struct {
  double inside_m;
  bool hose;
} PipeFigures;

typedef struct {
  SizesFitting fitting;
  double k;          /* on the pipe's velocity head, open; 0: by its class */
  double cracking_m; /* of a check valve */
} FittingFigures;

/* False where the catalogue has no such key. */
bool sizes_pipe (const Catalogue *catalogue, const char *key, PipeFigures *ret_figures);
bool sizes_fitting (const Catalogue *catalogue, const char *key, FittingFigures *ret_figures);

Catalogue *sizes_ref (Catalogue *catalogue);
void sizes_unref (Catalogue *catalogue);
