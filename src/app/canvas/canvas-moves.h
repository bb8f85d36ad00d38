/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What a handle moves: the fields behind it, and with a part that is dragged as a whole those of the other chosen parts.
 * Pure from a design and values to a design; the canvas is only asked for scene and selection. */
#pragma once

#include "app/canvas/canvas.h"
#include "drawing/scene.h"

typedef struct {
  char *key; /* of the part */
  FieldId field;
  SceneAxis axis;
  double gain, start; /* start: of a number */
  gboolean body;      /* by a handle that moves the part as a whole */
} CanvasMove;

/* Of a handle of the scene that is shown; GArray of CanvasMove. Those of the handle come first. A chosen part whose
 * owner is chosen too goes with it and has no move of its own. */
GArray *canvas_moves_new (Canvas *canvas, const SceneHandle *handle);

/* The first move along an axis: its value is what a drag asks for. NULL where there is none. */
const CanvasMove *canvas_moves_lead (const GArray *moves, SceneAxis axis);

/* The design with the leads at these values (NAN: left alone) and the others as far along, or NULL with the problem. */
Design *canvas_moves_apply (const GArray *moves, const Design *base, const double values[N_SCENE_AXES],
                            Problem *ret_problem);

/* The same with the corners carried along that hang on what was moved, where pipes were square; owned. */
Design *canvas_moves_carry (const GArray *moves, const Design *base, Design *moved);

/* How far the zero of a move's field lies from where it was: what has come into another chamber counts from its left. */
double canvas_moves_shift (const CanvasMove *move, const Design *base, const Design *now);

/* True for a part that one of the moves belongs to. */
gboolean canvas_moves_has (const GArray *moves, const char *key);

/* The words of the undo step. Newly allocated. */
char *canvas_moves_label (const Design *design, const GArray *moves);

/* What a note beside a part says: `head` (markup, may be NULL), the figures that follow, its worst finding, what is refused.
 * Markup, newly allocated. */
char *canvas_moves_note (Canvas *canvas, const Part *part, const char *head, const Problem *problem);

/* Shows the values of the axes that are engaged beside a place, what follows from them, and what refused more. */
void canvas_moves_say (Canvas *canvas, const GArray *moves, const gboolean engaged[N_SCENE_AXES],
                       const Problem *problem, double x, double y);
