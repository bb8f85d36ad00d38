/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Bands: how far what is not known exactly moves the margin of each check.
 *
 * What is uncertain is a short list of factors that all checks share. Each is moved alone to either end, the levels and all
 * that follows from them are computed again, and the shifts of a margin are added as squares: first-order propagation of
 * independent doubts, evenly likely between their ends. That holds the middle 90 % of what sampling gives (a test samples)
 * where adding the shifts themselves would not: with eight factors of equal weight it is near three times too wide, and a
 * design would be condemned for a mishap in which everything goes wrong at once.
 *
 * Some checks have a corner of their own that their definition asks for: a flood is judged with a strong pump, new pipe,
 * a shy lip and a shy crest together. Such a check is judged by the worse of that corner and the band. */
#pragma once

#include "solver/system.h"

/* X (id, word, quantity, low, likely, high, meaning, source). Low, likely and high are shares, lengths or multiples of the
 * bore by the meaning; those of FLOW are fields of each pump and run. */
#define FACTORS(X)                                                                                           \
  X (FLOW, "return-flow", RATIO, -0.15, 0, 0.15,                                                             \
     "flow of the return: from a weak pump (its tolerance) on aged pipe with K + 25 % to a strong one on "   \
     "new pipe",                                                                                             \
     "pump tolerance, aged roughness: fields of the parts; common practice, no source")                      \
  X (DRAIN_AGE, "drain-age", RATIO, 0, 0, 1, "roughness of the drains: new to aged",                         \
     "aged roughness of the room; common practice, no source")                                               \
  X (LOSS, "loss-coefficients", RATIO, -0.25, 0, 0.25, "share of every K of the drains, valves included",    \
     "common practice, no source")                                                                           \
  X (LIP, "lip-coefficient", RATIO, -0.10, 0, 0.10,                                                          \
     "share of what a lip or an open mouth takes at a head; nobody measured below 50 mm of bore",            \
     "common practice, no source")                                                                           \
  X (WEIR, "weir-head", RATIO, -0.10, 0, 0.18,                                                               \
     "share of the head over a crest below 30 mm, tapering to 2 % above 60 mm",                              \
     "the formulas were tested above 30 mm only; common practice, no source")                                \
  X (SIPHON_MOUTH, "siphon-mouths", LENGTH, -0.003, 0, 0.003, "height of the mouths of siphons",             \
     "building tolerance; common practice, no source")                                                       \
  X (OPEN_MOUTH, "open-mouths", LENGTH, -0.003, 0, 0.003, "height of the mouths of trickles and standpipes", \
     "building tolerance; common practice, no source")                                                       \
  X (EMERGENCY_MOUTH, "emergency-mouths", LENGTH, -0.003, 0, 0.003, "height of the mouths of emergencies",   \
     "building tolerance; common practice, no source")                                                       \
  X (CREST, "crests", LENGTH, -0.003, 0, 0.003, "height of the crests",                                      \
     "building tolerance; common practice, no source")                                                       \
  X (BAFFLE, "baffles", LENGTH, -0.003, 0, 0.003,                                                            \
     "height of the edges of the baffles and of the bypass lips of socks",                                   \
     "building tolerance; common practice, no source")                                                       \
  X (BREAK, "siphon-breaks", LENGTH, -0.005, 0, 0.003,                                                       \
     "level at which a siphon break stops the back-siphon: set 3 mm off, or 5 mm late",                      \
     "building tolerance; a break is not instant; common practice, no source")                               \
  X (DRAIN_END, "drain-ends", LENGTH, -0.003, 0, 0.003, "height of the lower ends of the drains",            \
     "building tolerance; common practice, no source")                                                       \
  X (RUNNING_LEVEL, "running-level", LENGTH, -0.003, 0, 0.003, "level that the top-off keeps",               \
     "setting of the sensor; common practice, no source")                                                    \
  X (PRIMING, "priming-rule", NONE, 1.0, 1.5, 2.0, "bores of water over its lip that prime a drain",         \
     "rule of thumb, the least certain of all; common practice, no source")

typedef enum {
#define X(id, word, quantity, low, likely, high, meaning, source) FACTOR_##id,
  FACTORS (X)
#undef X
      N_FACTORS
} FactorId;

typedef struct {
  const char *word; /* of machine output */
  Quantity quantity;
  double low, likely, high;
  const char *meaning, *source; /* in a developer's words */
} Factor;

const Factor *factor_info (FactorId factor);

/* What a check measured, failed or not: its margin with every factor likely, and the ends of its band, low being the
 * judged one unless the check's own `corner` is worse. `nth` counts the measures of one check and part. */
typedef struct {
  CheckId check;
  int part;
  unsigned nth;
  double value, limit;
  double margin, low, high;
  double corner; /* NAN where the check was not asked for it */
  int widest;    /* FactorId that lowers it most, or -1 where none does */
} Band;

/* The bands of the last evaluate () with this workspace, in the order of the checks; those whose margin is no number are
 * left out. Returns how many there are; fills at most `n`. */
unsigned workspace_bands (const Workspace *workspace, Band *ret_bands, unsigned n);

/* A search that throws most candidates away may leave the bands out: findings are then judged by the corners alone, which
 * never grades worse than with bands. What it keeps it evaluates with them. On at first. */
void workspace_set_bands (Workspace *workspace, bool with_bands);

/* Takes over the widths of the bands that `earlier` found for a design of the same parts, so that the next evaluations look
 * for margins alone, at a tenth of the time: while a person drags, the widths hardly change, and the same rule goes on
 * grading. `earlier` has no bands afterwards. Where it had none, this workspace finds its own. */
void workspace_hold_bands (Workspace *workspace, Workspace *earlier);

/* A point of the factors, each from -1 (its low) over 0 (likely) to 1 (its high); of FLOW its three causes apart. */
typedef struct {
  double at[N_FACTORS]; /* at[FACTOR_FLOW] is not read */
  double pump;          /* -1 to 1 of each pump's tolerance */
  double return_age;    /* 0 new, 1 aged */
  double return_loss;   /* -1 to 1 of 25 % on the K of the return runs */
} FactorPoint;

/* The margins at one point, solved there without any doubt added: what sampling looks at. They are written to `ret_bands`
 * with margin, low and high alike, and their number is returned; 0 where the point has no solution. */
unsigned factor_point_margins (const System *system, Workspace *workspace, const FactorPoint *point,
                               Band *ret_bands, unsigned n);
