/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/canvas/canvas-moves.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-private.h"
#include "app/canvas/canvas-snap.h"
#include "app/canvas/canvas-words.h"
#include "design/edit.h"
#include "design/geometry.h"
#include "report/finding-words.h"

static void
move_clear (void *data)
{
  g_free (((CanvasMove *) data)->key);
}

static void
append (GArray *moves, const Design *design, const SceneHandle *handle)
{
  const Part *part = design_part (design, (unsigned) handle->part);

  for (unsigned k = 0; k < handle->n_moves; k++) {
    const SceneMove *move = &handle->moves[k];
    const CanvasMove added = {.key = g_strdup (part_key (part)),
                              .field = move->field,
                              .axis = move->axis,
                              .gain = move->gain,
                              .start = field_info (move->field)->type == FIELD_NUMBER
                                           ? design_number (design, part, move->field)
                                           : 0,
                              .body = handle->body};

    g_array_append_val (moves, added);
  }
}

static gboolean
owner_is_chosen (Selection *selection, const Design *design, const Part *part)
{
  for (const Part *owner = design_owner (design, part); owner != NULL; owner = design_owner (design, owner))
    if (selection_contains (selection, part_key (owner)))
      return TRUE;
  return FALSE;
}

/* The handle that moves a part as a whole, or NULL. */
static const SceneHandle *
body_handle (const Scene *scene, int part)
{
  for (unsigned i = 0; i < scene_n_handles (scene, part); i++)
    if (scene_handle (scene, part, i)->body)
      return scene_handle (scene, part, i);
  return NULL;
}

GArray *
canvas_moves_new (Canvas *canvas, const SceneHandle *handle)
{
  const Design *design = document_get_design (canvas->document);
  const Part *lead = design_part (design, (unsigned) handle->part);
  GArray *moves = g_array_new (FALSE, FALSE, sizeof (CanvasMove));

  g_array_set_clear_func (moves, move_clear);
  append (moves, design, handle);
  if (!handle->body || canvas->selection == NULL || !selection_contains (canvas->selection, part_key (lead)))
    return moves;
  for (int i = 0; i < (int) design_n_parts (design); i++) {
    const Part *part = design_part (design, (unsigned) i);
    const SceneHandle *other = body_handle (canvas->scene, i);

    if (part != lead && other != NULL && selection_contains (canvas->selection, part_key (part)) &&
        !owner_is_chosen (canvas->selection, design, part))
      append (moves, design, other);
  }
  return moves;
}

const CanvasMove *
canvas_moves_lead (const GArray *moves, SceneAxis axis)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, CanvasMove, i).axis == axis)
      return &g_array_index (moves, CanvasMove, i);
  return NULL;
}

/* What a move asks for; NAN leaves its field alone. */
static double
wanted (const GArray *moves, const CanvasMove *move, const double values[N_SCENE_AXES])
{
  const CanvasMove *lead = canvas_moves_lead (moves, move->axis);
  const double value = values[move->axis];

  /* Sums of decimals stay decimals, also in sixteenths of an inch. */
  return move == lead || !isfinite (value)
             ? value
             : round ((move->start + move->gain * (value - lead->start) / lead->gain) * 1e7) / 1e7;
}

/* A corner in hand takes the corners beside it along where the pipe is square; NULL where a port holds it, or it is not
 * a corner alone. */
static Design *
move_corner (const GArray *moves, const Design *base, const double values[N_SCENE_AXES])
{
  const char *key = g_array_index (moves, CanvasMove, 0).key;
  const Part *corner = design_find (base, key);
  Point3 to;

  if (corner == NULL || part_kind (corner) != PART_CORNER)
    return NULL;
  to = (Point3){design_number (base, corner, FIELD_CORNER_X), design_number (base, corner, FIELD_CORNER_Y),
                design_number (base, corner, FIELD_CORNER_Z)};
  for (guint i = 0; i < moves->len; i++) {
    const CanvasMove *move = &g_array_index (moves, CanvasMove, i);
    const double value = wanted (moves, move, values);

    if (!g_str_equal (move->key, key))
      return NULL;
    if (isfinite (value))
      *(move->field == FIELD_CORNER_X ? &to.x : move->field == FIELD_CORNER_Y ? &to.y : &to.z) = value;
  }
  return edit_move_corner (base, key, to, NULL);
}

Design *
canvas_moves_apply (const GArray *moves, const Design *base, const double values[N_SCENE_AXES],
                    Problem *ret_problem)
{
  g_autoptr (Design) squared = move_corner (moves, base, values);
  g_autoptr (Draft) draft = draft_new (squared != NULL ? squared : base);

  for (guint i = 0; i < moves->len; i++) {
    const CanvasMove *move = &g_array_index (moves, CanvasMove, i);
    const double value = wanted (moves, move, values);

    if (isfinite (value) && !draft_set_number (draft, move->key, move->field, value, ret_problem))
      return NULL;
  }
  return draft_commit (draft, ret_problem);
}

/* What was moved over a baffle belongs to the chamber where it stands then. */
static Design *
settle (const GArray *moves, Design *moved)
{
  Design *design = design_ref (moved);

  for (guint i = 0; i < moves->len; i++) {
    Design *next = edit_settle (design, g_array_index (moves, CanvasMove, i).key);

    design_unref (design);
    design = next;
  }
  return design;
}

Design *
canvas_moves_carry (const GArray *moves, const Design *base, Design *moved)
{
  g_autoptr (Design) settled = settle (moves, moved);

  /* With corners among the chosen parts somebody says where they go. */
  for (guint i = 0; i < moves->len; i++) {
    const PartKind kind = part_kind (design_find (base, g_array_index (moves, CanvasMove, i).key));

    if (kind == PART_CORNER || kind == PART_TEE || kind == PART_FITTING)
      return design_ref (settled);
  }
  return edit_carry_corners (base, settled);
}

double
canvas_moves_shift (const CanvasMove *move, const Design *base, const Design *now)
{
  const Part *was = design_find (base, move->key), *part = design_find (now, move->key);
  const Part *owner_was = design_owner (base, was), *owner = part != NULL ? design_owner (now, part) : NULL;

  if ((move->field != FIELD_DEVICE_X && move->field != FIELD_PUMP_X) || owner == NULL || owner_was == NULL)
    return 0;
  return geometry_inside (now, owner).origin.x - geometry_inside (base, owner_was).origin.x;
}

gboolean
canvas_moves_has (const GArray *moves, const char *key)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_str_equal (g_array_index (moves, CanvasMove, i).key, key))
      return TRUE;
  return FALSE;
}

/* How many parts have moves. */
static unsigned
count_parts (const GArray *moves)
{
  unsigned n = 0;

  for (guint i = 0; i < moves->len; i++)
    n += i == 0 || !g_str_equal (g_array_index (moves, CanvasMove, i).key,
                                 g_array_index (moves, CanvasMove, i - 1).key);
  return n;
}

char *
canvas_moves_label (const Design *design, const GArray *moves)
{
  const unsigned n = count_parts (moves);
  const CanvasMove *first = &g_array_index (moves, CanvasMove, 0);
  const gboolean both =
      canvas_moves_lead (moves, AXIS_X) != NULL && canvas_moves_lead (moves, AXIS_Z) != NULL;
  g_autofree char *name = NULL;

  if (n > 1)
    return g_strdup_printf (ngettext ("Move %u part", "Move %u parts", n), n);
  if (!first->body && !both)
    return g_strdup_printf (_ ("Change %s"), words_field (first->field));
  name = words_part (design, design_find (design, first->key));
  return g_strdup_printf (_ ("Move %s"), name);
}

static void
add_line (GString *text, const char *markup)
{
  if (markup != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", markup);
}

static void
add_plain (GString *text, const char *line)
{
  g_autofree char *markup = line != NULL ? g_markup_escape_text (line, -1) : NULL;

  add_line (text, markup);
}

static char *
value_words (Canvas *canvas, const Design *design, const Part *part, FieldId field)
{
  if (field_info (field)->type == FIELD_PIPE)
    return canvas_size_words (canvas, design_text (design, part, field));
  return units_format (design_number (design, part, field), field_info (field)->quantity,
                       document_get_style (canvas->document), NULL, UNITS_BUILD);
}

/* The values of the part that leads. */
static void
add_values (GString *text, Canvas *canvas, const Part *part, const GArray *moves,
            const gboolean engaged[N_SCENE_AXES])
{
  for (guint i = 0; i < moves->len; i++) {
    const CanvasMove *move = &g_array_index (moves, CanvasMove, i);
    g_autofree char *value = NULL, *line = NULL;

    if (!engaged[move->axis] || !g_str_equal (move->key, part_key (part)))
      continue;
    value = value_words (canvas, document_get_design (canvas->document), part, move->field);
    line = g_markup_printf_escaped (C_ ("field and value", "%s<b>%s %s</b>"), "", words_field (move->field),
                                    value);
    add_line (text, line);
  }
}

/* Where a thing in the sump stands now. */
static void
add_chamber (GString *text, const Design *design, const Part *part)
{
  const Part *owner = design_owner (design, part);
  g_autofree char *name = NULL;

  if (owner == NULL || part_kind (owner) != PART_CHAMBER)
    return;
  name = words_part (design, owner);
  add_plain (text, name);
}

char *
canvas_moves_note (Canvas *canvas, const Part *part, const char *head, const Problem *problem)
{
  const Design *design = document_get_design (canvas->document);
  const Evaluation *evaluation = document_get_evaluation (canvas->document);
  const NumberStyle *style = document_get_style (canvas->document);
  /* What follows is said of a corner or fitting for its run. */
  const PartKind kind = part_kind (part);
  const Part *judged = kind == PART_CORNER || kind == PART_FITTING ? design_owner (design, part) : part;
  const Finding *finding = canvas_worst_finding (evaluation, design_index (design, part_key (judged)));
  g_autofree char *figures = canvas_figures (design, evaluation, judged, style, FALSE);
  GString *text = g_string_new (head);

  add_plain (text, figures);
  if (finding != NULL) {
    g_autofree char *line =
        g_markup_printf_escaped ("%s: %s", words_grade (finding->grade), finding_title (finding->check));

    add_line (text, line);
  }
  if (problem->code != PROBLEM_NONE) {
    g_autofree char *refusal = canvas_problem (problem, style);

    add_plain (text, refusal);
  }
  return g_string_free (text, FALSE);
}

void
canvas_moves_say (Canvas *canvas, const GArray *moves, const gboolean engaged[N_SCENE_AXES],
                  const Problem *problem, double x, double y)
{
  const Part *part =
      design_find (document_get_design (canvas->document), g_array_index (moves, CanvasMove, 0).key);
  g_autoptr (GString) head = g_string_new (NULL);
  g_autofree char *markup = NULL;

  add_values (head, canvas, part, moves, engaged);
  add_chamber (head, document_get_design (canvas->document), part);
  markup = canvas_moves_note (canvas, part, head->str, problem);
  canvas_show_note (canvas, x, y, markup);
}
