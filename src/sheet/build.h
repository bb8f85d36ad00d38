/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Inside this folder only: what the pages are built from, one function for each of them (page-*.c). */
#pragma once

#include "design/catalogue.h"
#include "design/design.h"
#include "sheet/flow.h"
#include "sheet/table.h"
#include "solver/evaluation.h"
#include "solver/rehearsal-judge.h"
#include "solver/trace.h"
#include "units/format.h"

typedef struct {
  const Design *design;
  const Catalogue *catalogue;
  const Evaluation *evaluation;
  const Trace *trace;
  const Rehearsed *rehearsed; /* of every failure; NULL where the design does not compile */
  NumberStyle style;
  TextEngine *engine;
  Flow flow;
} Build;

void build_arrangement_page (Build *build);
void build_view_pages (Build *build);
void build_plumbing_pages (Build *build);
void build_sump_pages (Build *build);
void build_stand_pages (Build *build);
void build_findings_pages (Build *build);
void build_rehearsal_pages (Build *build);
void build_commissioning_pages (Build *build);
void build_calculation_pages (Build *build);

/* Plays every failure of the design with the usual options: N_FAILURES of them, to be freed, or NULL where the design does
 * not compile. */
Rehearsed *build_rehearse (Design *design, Catalogue *catalogue, const Evaluation *evaluation);

/* A number as it is built or measured, in the units of the sheets; "—" where it is not known. Newly allocated. */
char *build_size (const Build *build, double length_m);
char *build_bore (const Build *build, double diameter_m);
char *build_measure (const Build *build, double value, Quantity quantity);

/* "200 × 150 × 480 mm". */
char *build_box (const Build *build, double length_m, double width_m, double height_m);

/* The value of a field as it is built. */
char *build_field (const Build *build, const Part *part, FieldId field);
double build_number (const Build *build, const Part *part, FieldId field);

/* A figure with these layers as large as the page's width and `height` allow, put on it; `least_beside` as of flow_figure. */
Rect build_figure (Build *build, SceneKind kind, unsigned layers, double height, double least_beside);

/* The same of the whole system, looked at from another side. */
Rect build_view (Build *build, SceneProjection projection, unsigned layers, double height,
                 double least_beside);

/* A note under a table or figure, in small text with a gap above. */
void build_note (Build *build, const char *text);
