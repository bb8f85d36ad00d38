/* SPDX-License-Identifier: LGPL-2.1-or-later */
#pragma once

/* Flow in a full round pipe: friction factor, head loss with its slope, and the dimensions that standards give to
 * pipe and to solvent-cement sockets. Head is in metres of the fluid itself, so that density enters only through the
 * Reynolds number. */

#include "hydraulics/status.h"

#include <glib.h>

/* A fluid as pipe flow sees it. */
typedef struct {
  double density_kgm3;          /* > 0 */
  double dynamic_viscosity_pas; /* > 0 */
} Fluid;

/* A straight run of one bore with its local losses. */
typedef struct {
  double length_m; /* >= 0; 0 is a local loss alone */
  double bore_m;   /* inside diameter, > 0 */
  double
      roughness_m; /* equivalent sand roughness, 0 <= roughness <= 0.05 bore (the Colebrook-White data end there) */
  double k;        /* sum of the local loss coefficients on the velocity in this bore, >= 0 */
} PipeRun;

typedef enum {
  PIPE_REGIME_LAMINAR,   /* Re <= 2000 */
  PIPE_REGIME_BRIDGE,    /* 2000 < Re < 4000: interpolated, see pipe_friction_factor() */
  PIPE_REGIME_TURBULENT, /* Re >= 4000 */
} PipeRegime;

/* Where the regimes meet, in Reynolds numbers on the bore. */
#define PIPE_REYNOLDS_LAMINAR_END     2000.0
#define PIPE_REYNOLDS_TURBULENT_START 4000.0

/* Largest relative roughness of the Colebrook-White relation (Moody 1944, range of the chart). */
#define PIPE_RELATIVE_ROUGHNESS_MAX 0.05

typedef struct {
  double head_m;          /* lost from inlet to outlet; has the sign of the flow */
  double slope_sm2;       /* d head / d flow, s/m2, > 0 where length or k is > 0 */
  double velocity_ms;     /* mean velocity; has the sign of the flow */
  double reynolds;        /* |velocity| bore / kinematic viscosity */
  double friction_factor; /* Darcy; 0 at zero flow, where only the product with the flow has a limit */
  PipeRegime regime;
} PipeLoss;

/**
 * pipe_friction_factor:
 * @reynolds: > 0
 * @relative_roughness: roughness / bore, 0 to 0.05
 * @ret_factor: (out): Darcy friction factor
 *
 * Re <= 2000: Hagen-Poiseuille, f = 64 / Re; roughness does not enter.
 * Re >= 4000: Colebrook-White, 1/sqrt f = -2 log10 (rr / 3.7 + 2.51 / (Re sqrt f)), solved to machine precision by
 *   Newton's method in 1/sqrt f (Colebrook 1939, constants 3.7 and 2.51).
 * Between them no law holds: the flow may be either. The bridge is the cubic Hermite interpolant of f Re^2 (the head
 *   loss in viscous units) over Re, with value and slope of both neighbours: head loss is continuously differentiable
 *   and rises with flow for every admitted roughness (both end slopes stay inside the monotonicity region of Fritsch
 *   and Carlson 1980: at most three times the secant).
 *
 * Returns: HYDRAULICS_INVALID_ARGUMENT for a value that is not finite, Re <= 0 or a negative roughness;
 *   HYDRAULICS_OUT_OF_RANGE (no output) above relative roughness 0.05.
 */
HydraulicsStatus pipe_friction_factor (double reynolds, double relative_roughness, double *ret_factor);

/**
 * pipe_loss:
 * @run: the pipe
 * @fluid: the fluid
 * @flow_m3s: of either sign, or 0
 * @ret_loss: (out): loss and its slope
 *
 * Darcy-Weisbach with local losses: h = (f L / D + k) V |V| / (2 g), g = 9.80665 m/s2.
 * Below 1 mm/s the local part k V^2 / (2 g) becomes the cubic (V0 V / 2) (1 + (V / V0)^2) k / (2 g), V0 = 1 mm/s, which
 * meets it with value and slope and leaves the slope at zero flow positive; the two differ by less than 1e-8 m per unit
 * of k. (An exactly quadratic law has no slope at rest and would make a network singular there.)
 *
 * Returns: HYDRAULICS_INVALID_ARGUMENT for a value that is not finite or outside what PipeRun and Fluid admit,
 *   HYDRAULICS_OUT_OF_RANGE (no output) above relative roughness 0.05.
 */
HydraulicsStatus pipe_loss (const PipeRun *run, const Fluid *fluid, double flow_m3s, PipeLoss *ret_loss);

/**
 * pipe_flow_at_loss:
 * @head_m: the loss to be spent, of either sign
 * @ret_flow_m3s: (out): the flow at which pipe_loss() gives @head_m
 *
 * The inverse of pipe_loss(), to a few roundings: Newton's method inside a bracket.
 * Returns: as pipe_loss(); HYDRAULICS_NO_SOLUTION if length and k are both 0.
 */
HydraulicsStatus pipe_flow_at_loss (const PipeRun *run, const Fluid *fluid, double head_m,
                                    double *ret_flow_m3s);

/* Series of pipe by standard. X (member, standard, series): the words are the keys of catalogues and documents. */
#define PIPE_SERIES(X)                                                                                       \
  X (ASTM_D1785_SCHEDULE_40, "astm-d1785", "schedule-40")                                                    \
  X (ASTM_D1785_SCHEDULE_80, "astm-d1785", "schedule-80")                                                    \
  X (ISO_1452_SDR_21, "iso-1452-2", "sdr-21")                                                                \
  X (ISO_1452_SDR_13_6, "iso-1452-2", "sdr-13.6")

#define PIPE_SERIES_MEMBER(member, standard, series) PIPE_##member,
typedef enum { PIPE_SERIES (PIPE_SERIES_MEMBER) N_PIPE_SERIES } PipeSeries;
#undef PIPE_SERIES_MEMBER

/* One size. Inch series: @nominal is the NPS number (0.5, 0.75, 1, 1.25 ...); metric: the outside diameter in mm. */
typedef struct {
  double nominal;
  double outside_m;
  double wall_m; /* minimum wall */
  double
      bore_m; /* outside less two minimum walls: the largest bore; makers' average bores are up to 0.6 mm smaller */
} PipeDimensions;

/**
 * pipe_series_from_key:
 * @standard: "astm-d1785" or "iso-1452-2"
 * @series: "schedule-40", "schedule-80", "sdr-21", "sdr-13.6"
 * @ret_series: (out): the series
 * Returns: HYDRAULICS_INVALID_ARGUMENT for other words
 */
HydraulicsStatus pipe_series_from_key (const char *standard, const char *series, PipeSeries *ret_series);

/* The words of a series; NULL for a number outside the list. */
const char *pipe_series_standard (PipeSeries series);
const char *pipe_series_key (PipeSeries series);

/**
 * pipe_series_sizes:
 * @ret_count: (out): how many
 * Returns: (transfer none): the sizes of a series in rising order, constant for the life of the program; NULL and a
 *   count of 0 for a number outside the list. ASTM D1785 Tables 1 and 2 (minimum walls); EN ISO 1452-2:2009 Table 2,
 *   whose walls are outside diameter / SDR rounded up to 0.1 mm (ISO 4065), least 1.5 mm.
 */
const PipeDimensions *pipe_series_sizes (PipeSeries series, guint *ret_count);

/**
 * pipe_size:
 * @nominal: as PipeDimensions; matched within 1e-6
 * @ret_size: (out): the size
 * Returns: HYDRAULICS_OUT_OF_RANGE (no output) if the series has no such size
 */
HydraulicsStatus pipe_size (PipeSeries series, double nominal, PipeDimensions *ret_size);

/* Solvent-cement sockets by standard. */
#define SOCKET_SERIES(X)                                                                                     \
  X (ASTM_D2466_SCHEDULE_40, "astm-d2466", "schedule-40")                                                    \
  X (ASTM_D2467_SCHEDULE_80, "astm-d2467", "schedule-80")                                                    \
  X (ISO_727_PVC_U, "iso-727-1", "pvc-u")

#define SOCKET_SERIES_MEMBER(member, standard, series) SOCKET_##member,
typedef enum { SOCKET_SERIES (SOCKET_SERIES_MEMBER) N_SOCKET_SERIES } SocketSeries;
#undef SOCKET_SERIES_MEMBER

/* As the functions of PipeSeries. */
HydraulicsStatus socket_series_from_key (const char *standard, const char *series, SocketSeries *ret_series);
const char *socket_series_standard (SocketSeries series);
const char *socket_series_key (SocketSeries series);

/* The sockets into which a pipe of @series is cemented when nothing else is said. */
SocketSeries socket_series_for_pipe (PipeSeries series);

/**
 * socket_depth:
 * @nominal: as PipeDimensions
 * @ret_depth_m: (out): minimum socket length, m: how far the pipe goes in
 *
 * ASTM D2466 and D2467, socket dimensions (minimum C); ISO 727-1 and EN ISO 1452-3: 0.5 d + 6 mm, sizes 12 to 160.
 * Returns: HYDRAULICS_OUT_OF_RANGE (no output) if the series has no such size
 */
HydraulicsStatus socket_depth (SocketSeries series, double nominal, double *ret_depth_m);
