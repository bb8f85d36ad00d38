/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The catalogue: pipe sizes, fittings and candidate pumps that designs refer to by key. It is filled once (by the files
 * layer from resources) and only read afterwards, so threads may share it. Figures are in SI. */
#pragma once

#include <stdbool.h>
#include <glib.h>

typedef struct _Catalogue Catalogue;

/* A pipe or hose size. */
typedef struct {
  const char *key;      /* "sch40-1-1/2", "metric-50", "hose-25" */
  const char *name;     /* for people: `1 1/2" schedule 40` */
  const char *standard; /* "ASTM D1785", "EN ISO 1452-2", or "" */
  double inside_m, outside_m;
  double nominal_in; /* nominal inch size that Crane's f_T is looked up by */
  double socket_m;   /* socket depth of its fittings, 0 where there is none */
  bool hose;
} PipeSize;

/* What a fitting does to the water; elbows at corners are not listed, they come from the bend. */
typedef enum {
  FITTING_CLASS_UNION,
  FITTING_CLASS_GATE_VALVE,
  FITTING_CLASS_BALL_VALVE,
  FITTING_CLASS_CHECK_VALVE,
  FITTING_CLASS_BULKHEAD,
  FITTING_CLASS_STRAINER,
  FITTING_CLASS_REDUCER,
  FITTING_CLASS_TEE_RUN,
  FITTING_CLASS_OTHER,
  N_FITTING_CLASSES
} FittingClass;

typedef struct {
  const char *key; /* "gate-valve" */
  const char *name;
  FittingClass class_;
  double k; /* loss coefficient on the pipe's velocity head, fully open; 0: by Crane, from the class */
  double cracking_m; /* head that opens a check valve, m of water */
  double length_m;   /* laying length on the pipe's axis at 25 mm bore; scaled by bore for other sizes */
} FittingType;

typedef struct {
  const char *key;   /* "pump-a" */
  const char *name;  /* "Pump A, 40 W, variable speed" */
  const char *curve; /* canonical points, as a FIELD_CURVE */
  double watts;      /* electrical, at full speed */
  double min_speed;  /* lowest speed ratio of its controller; 1 where it has none */
  double length_m, width_m, height_m;
} PumpType;

Catalogue *catalogue_new (void);
Catalogue *catalogue_ref (Catalogue *catalogue);
void catalogue_unref (Catalogue *catalogue);

/* Adds a copy; false (and nothing added) when the key is taken or a figure is not finite and positive. */
bool catalogue_add_pipe (Catalogue *catalogue, const PipeSize *size);
bool catalogue_add_fitting (Catalogue *catalogue, const FittingType *type);
bool catalogue_add_pump (Catalogue *catalogue, const PumpType *type);

/* Entries in the order of adding. */
unsigned catalogue_n_pipes (const Catalogue *catalogue);
const PipeSize *catalogue_pipe (const Catalogue *catalogue, unsigned index);
unsigned catalogue_n_fittings (const Catalogue *catalogue);
const FittingType *catalogue_fitting (const Catalogue *catalogue, unsigned index);
unsigned catalogue_n_pumps (const Catalogue *catalogue);
const PumpType *catalogue_pump (const Catalogue *catalogue, unsigned index);

/* By key, or NULL. */
const PipeSize *catalogue_find_pipe (const Catalogue *catalogue, const char *key);
const FittingType *catalogue_find_fitting (const Catalogue *catalogue, const char *key);
const PumpType *catalogue_find_pump (const Catalogue *catalogue, const char *key);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Catalogue, catalogue_unref)
