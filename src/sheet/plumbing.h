/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The plumbing as lists: runs cut into pieces of pipe between bends and fittings, and the parts that join them, each kind
 * of part with one item number. */
#pragma once

#include "design/catalogue.h"
#include "design/design.h"
#include "design/geometry.h"
#include "units/format.h"

/* One straight piece of pipe, from the last joint to the next. */
typedef struct {
  double axis_m; /* between the centres of what it joins */
  double
      cut_m; /* to the bottoms of the sockets; NAN where the standards do not say, 0 or less where there is no room */
  bool turns;        /* ends in a bend */
  double dx, dy, dz; /* the way it runs */
  char *joins;       /* what is at its end: "90° elbow", a fitting, the end of the run */
} PipePiece;

typedef struct {
  const Part *part;
  const PipeSize *size; /* NULL where the catalogue has none */
  unsigned item;
  unsigned n_points;
  Point3 *points;
  double length_m;
  GArray *pieces; /* PipePiece */
} PlumbingRun;

/* A kind of fitting in one size. */
typedef struct {
  unsigned item;
  char *name;
  const PipeSize *size;
  unsigned count;
  GString *places; /* "Return riser at 150 mm, ..." */
  GArray *at;      /* Point3, those of fittings on a run: where their numbers point to */
} PlumbingPart;

typedef struct {
  GPtrArray *runs;  /* PlumbingRun */
  GPtrArray *parts; /* PlumbingPart */
} Plumbing;

/* `style` writes the places along a run. */
Plumbing *plumbing_new (const Design *design, const Catalogue *catalogue, const NumberStyle *style);
void plumbing_free (Plumbing *plumbing);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Plumbing, plumbing_free)
