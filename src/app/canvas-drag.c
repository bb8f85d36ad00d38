/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A handle in hand, and the same by the arrow keys. All of a drag is one step of the history; so is a row of nudges. */
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "app/canvas-private.h"
#include "app/canvas-snap.h"
#include "app/canvas-words.h"
#include "report/finding-words.h"

#define FIRST_PIXELS  3.0 /* from where the main axis of a drag follows; nearer, the field keeps what it had */
#define SECOND_PIXELS 10.0 /* and the other axis */
#define NUDGE_MS      1200
#define HALVINGS      12

/* A handle moves a field along each axis at most. */
static unsigned
n_moves (const SceneHandle *handle)
{
  return MIN (handle->n_moves, G_N_ELEMENTS (handle->moves));
}

static char *
move_label (const Design *design, const Part *part)
{
  g_autofree char *name = words_part (design, part);

  return g_strdup_printf (_ ("Move %s"), name);
}

/* Says under the changed values what follows from them: of a corner, for its run. */
static void
say (Canvas *self, const char *key, const FieldId fields[], unsigned n, const Problem *problem, double x,
     double y)
{
  const Design *design = document_get_design (self->document);
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const NumberStyle *style = document_get_style (self->document);
  const Part *part = design_find (design, key);
  const Part *judged = part_kind (part) == PART_CORNER ? design_owner (design, part) : part;
  const Finding *finding = canvas_worst_finding (evaluation, design_index (design, part_key (judged)));
  g_autofree char *figures = canvas_figures (design, evaluation, judged, style, FALSE);
  g_autofree char *refusal = problem->code != PROBLEM_NONE ? canvas_problem (problem, style) : NULL;
  GString *text = g_string_new (NULL);
  const char *lines[] = {figures, finding != NULL ? finding_title (finding->check) : NULL, refusal};

  for (unsigned i = 0; i < n; i++) {
    g_autofree char *value = units_format (design_number (design, part, fields[i]),
                                           field_info (fields[i])->quantity, style, NULL, UNITS_BUILD);
    g_autofree char *line = g_markup_printf_escaped (
        C_ ("field and value", "%s<b>%s %s</b>"), text->len > 0 ? "\n" : "", words_field (fields[i]), value);

    g_string_append (text, line);
  }
  for (unsigned i = 0; i < G_N_ELEMENTS (lines); i++) {
    const gboolean graded = i == 1 && finding != NULL;
    g_autofree char *line = lines[i] == NULL ? NULL
                            : graded
                                ? g_markup_printf_escaped ("%s: %s", words_grade (finding->grade), lines[i])
                                : g_markup_escape_text (lines[i], -1);

    if (line != NULL)
      g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
  }
  canvas_show_note (self, x, y, text->str);
  g_string_free (text, TRUE);
}

gboolean
canvas_dragging (Canvas *self)
{
  return self->drag.base != NULL;
}

gboolean
canvas_drag_begin (Canvas *self, int part, unsigned number)
{
  CanvasDrag *drag = &self->drag;
  Design *design = document_get_design (self->document);
  const SceneHandle *handle = scene_handle (self->scene, part, number);
  g_autofree char *label = NULL;

  if (handle == NULL || canvas_dragging (self))
    return FALSE;
  canvas_nudge_end (self);
  *drag = (CanvasDrag){.base = design_ref (design),
                       .key = g_strdup (part_key (design_part (design, (unsigned) part))),
                       .handle = *handle,
                       .number = number};
  for (unsigned k = 0; k < n_moves (handle); k++) {
    drag->start[k] = design_number (design, design_part (design, (unsigned) part), handle->moves[k].field);
    drag->last[k] = (double) NAN;
    drag->targets[k] = canvas_snap_targets (self->scene, design, part, handle->moves[k].axis);
  }
  label = move_label (design, design_part (design, (unsigned) part));
  document_begin (self->document, label);
  return TRUE;
}

void
canvas_drag_drop (Canvas *self)
{
  CanvasDrag *drag = &self->drag;

  g_clear_pointer (&drag->base, design_unref);
  g_clear_pointer (&drag->key, g_free);
  for (unsigned k = 0; k < G_N_ELEMENTS (drag->targets); k++)
    g_clear_pointer (&drag->targets[k], g_array_unref);
  drag->n_guides = 0;
  if (self->activity == CANVAS_DRAGGING)
    self->activity = CANVAS_IDLE;
  if (self->note != NULL)
    canvas_hide_note (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* The design with these values of the handle's fields (NAN: as it was), or NULL with the problem. */
static Design *
design_at (const CanvasDrag *drag, const double values[2], Problem *problem)
{
  g_autoptr (Draft) draft = draft_new (drag->base);

  for (unsigned k = 0; k < n_moves (&drag->handle); k++)
    if (isfinite (values[k]) &&
        !draft_set_number (draft, drag->key, drag->handle.moves[k].field, values[k], problem))
      return NULL;
  return draft_commit (draft, problem);
}

static gboolean
is_good (const CanvasDrag *drag, const double values[2], Problem *problem)
{
  g_autoptr (Design) design = design_at (drag, values, problem);

  return design != NULL;
}

/* Brings one value as far towards what is wanted as the design allows: the handle stops at the limit, and does not stay
 * where the pointer was seen last before it. */
static void
go_towards (const CanvasDrag *drag, double values[2], unsigned k, double wanted, double grid,
            Problem *problem)
{
  const FieldInfo *info = field_info (drag->handle.moves[k].field);
  const double before = values[k];
  double good = isfinite (before) ? before : drag->start[k], bad = wanted;

  values[k] = wanted;
  if (!isfinite (wanted) || is_good (drag, values, problem))
    return;
  values[k] = bad = CLAMP (wanted, info->min, info->max);
  if (is_good (drag, values, NULL))
    return;
  for (unsigned i = 0; i < HALVINGS; i++) {
    const double middle = canvas_snap_round ((good + bad) / 2, grid);

    values[k] = middle;
    if (middle == good || middle == bad)
      break;
    if (is_good (drag, values, NULL))
      good = middle;
    else
      bad = middle;
  }
  values[k] = good == drag->start[k] ? before : good;
}

/* What the pointer asks of a move of the handle; NAN leaves its field alone. */
static double
wanted_value (Canvas *self, unsigned k, double dx, double dy, gboolean snapping)
{
  CanvasDrag *drag = &self->drag;
  const SceneMove *move = &drag->handle.moves[k];
  const gboolean along_x = move->axis == AXIS_X;
  const double pixels = along_x ? dx : -dy, across = along_x ? dy : dx;
  const double from = along_x ? drag->handle.x : drag->handle.z;
  const gboolean main_axis = n_moves (&drag->handle) == 1 || fabs (pixels) >= fabs (across);
  const NumberStyle *style = document_get_style (self->document);
  double offset = pixels / self->view.scale, target;

  if (fabs (pixels) >= (main_axis ? FIRST_PIXELS : SECOND_PIXELS))
    drag->engaged[k] = TRUE;
  if (!drag->engaged[k] || fabs (pixels) < FIRST_PIXELS)
    return (double) NAN;
  if (snapping && canvas_snap_find (drag->targets[k], from + offset, self->view.scale, &target)) {
    offset = target - from;
    drag->guides[drag->n_guides++] = (PainterGuide){move->axis, target};
    return canvas_snap_round (drag->start[k] + move->gain * offset, 0);
  }
  return canvas_snap_round (drag->start[k] + move->gain * offset,
                            snapping ? canvas_snap_grid (style, self->view.scale) : 0);
}

void
canvas_drag_to (Canvas *self, double dx, double dy, gboolean snapping)
{
  CanvasDrag *drag = &self->drag;
  double values[2] = {drag->last[0], drag->last[1]};
  Problem problem = {.code = PROBLEM_NONE};
  g_autoptr (Design) design = NULL;
  g_autofree char *label = NULL;
  FieldId fields[2];
  unsigned n = 0;

  if (!canvas_dragging (self))
    return;
  drag->n_guides = 0;
  for (unsigned k = 0; k < n_moves (&drag->handle); k++)
    go_towards (drag, values, k, wanted_value (self, k, dx, dy, snapping),
                canvas_snap_grid (document_get_style (self->document), self->view.scale), &problem);
  if (problem.code != PROBLEM_NONE)
    drag->n_guides = 0;
  design = design_at (drag, values, NULL);
  if (design == NULL)
    return;
  memcpy (drag->last, values, sizeof values);
  label = move_label (drag->base, design_find (drag->base, drag->key));
  document_apply (self->document, design, label);
  if (!canvas_dragging (self))
    return;
  for (unsigned k = 0; k < n_moves (&drag->handle); k++)
    if (drag->engaged[k])
      fields[n++] = drag->handle.moves[k].field;
  say (self, drag->key, fields, n, &problem, self->press_x + dx, self->press_y + dy);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
canvas_drag_end (Canvas *self)
{
  if (!canvas_dragging (self))
    return;
  document_end (self->document);
  canvas_drag_drop (self);
  canvas_view_follow (self);
}

void
canvas_drag_cancel (Canvas *self)
{
  if (!canvas_dragging (self))
    return;
  document_cancel (self->document);
  canvas_drag_drop (self);
}

/* Nudging. */

/* The first handle of the selected part that moves along an axis, and which of its moves. */
static const SceneHandle *
handle_along (Canvas *self, SceneAxis axis, unsigned *ret_move)
{
  const int part = canvas_selected (self);

  for (unsigned i = 0; part >= 0 && i < scene_n_handles (self->scene, part); i++) {
    const SceneHandle *handle = scene_handle (self->scene, part, i);

    for (unsigned k = 0; k < n_moves (handle); k++)
      if (handle->moves[k].axis == axis) {
        *ret_move = k;
        return handle;
      }
  }
  return NULL;
}

gboolean
canvas_can_nudge (Canvas *self)
{
  const int part = canvas_selected (self);

  return part >= 0 && self->scene != NULL && scene_n_handles (self->scene, part) > 0;
}

void
canvas_nudge_end (Canvas *self)
{
  if (self->nudge_source == 0)
    return;
  g_clear_handle_id (&self->nudge_source, g_source_remove);
  document_end (self->document);
  if (self->note != NULL)
    canvas_hide_note (self);
  canvas_view_follow (self);
}

static gboolean
on_nudge_over (gpointer data)
{
  canvas_nudge_end (DOWNCOMER_CANVAS (data));
  return G_SOURCE_REMOVE;
}

gboolean
canvas_nudge (Canvas *self, SceneAxis axis, int direction, gboolean far)
{
  Design *design = document_get_design (self->document);
  unsigned k;
  const SceneHandle *handle = handle_along (self, axis, &k);
  const Part *part;
  Problem problem = {.code = PROBLEM_NONE};
  g_autoptr (Design) moved = NULL;
  g_autofree char *label = NULL, *key = NULL;
  double value, x, y;
  FieldId field;

  if (handle == NULL || canvas_dragging (self))
    return FALSE;
  part = design_part (design, (unsigned) handle->part);
  key = g_strdup (part_key (part));
  label = move_label (design, part);
  field = handle->moves[k].field;
  value = canvas_snap_step (design_number (design, part, field), document_get_style (self->document),
                            handle->moves[k].gain < 0 ? -direction : direction, far);
  if (self->nudge_source == 0)
    document_begin (self->document, label);
  g_clear_handle_id (&self->nudge_source, g_source_remove);
  self->nudge_source = g_timeout_add (NUDGE_MS, on_nudge_over, self);
  moved = design_with_number (design, key, field, value, &problem);
  if (moved != NULL)
    document_apply (self->document, moved, label);
  handle = handle_along (self, axis, &k); /* of the scene as it is now */
  if (handle != NULL) {
    x = view_x (&self->view, handle->x);
    y = view_y (&self->view, handle->z);
    say (self, key, &field, 1, &problem, x, y);
  }
  return TRUE;
}
