/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The pipe of a run in another size of the catalogue: by the keys that step through them, from the menu, or by the wall of
 * the pipe, which is pulled from size to size. */
#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-moves.h"
#include "app/canvas/canvas-private.h"
#include "design/edit.h"
#include "design/pipe-series.h"
#include "report/words.h"
#include "units/format.h"

/* Walls of neighbouring sizes lie a few millimetres apart: from afar a size is as many logical pixels of pull. */
#define SIZE_PIXELS 12.0

gboolean
canvas_is_size (const SceneHandle *handle)
{
  return field_info (handle->moves[0].field)->type == FIELD_PIPE;
}

static const char *
size_of (const Design *design, const Part *run)
{
  return design_text (design, run, edit_size_field (run));
}

/* Of a run, or of the corner or fitting on it; NULL for the rest. */
static const Part *
run_of (const Design *design, const Part *part)
{
  const PartKind kind = part != NULL ? part_kind (part) : N_PART_KINDS;

  if (kind == PART_CORNER || kind == PART_FITTING)
    return design_owner (design, part);
  return kind == PART_DRAIN || kind == PART_RETURN ? part : NULL;
}

/* What the new pipe is and what follows from it, beside the run. */
static void
remark (Canvas *self, const char *run_key)
{
  const Design *design = document_get_design (self->document);
  const Part *run = design_find (design, run_key);
  const Problem none = {.code = PROBLEM_NONE};
  g_autofree char *size = NULL, *head = NULL, *markup = NULL;

  if (run == NULL)
    return;
  size = canvas_size_words (self, size_of (design, run));
  head = g_markup_printf_escaped (C_ ("field and value", "%s<b>%s %s</b>"), "",
                                  words_field (edit_size_field (run)), size);
  markup = canvas_moves_note (self, run, head, &none);
  canvas_remark (self, markup);
}

static void
apply (Canvas *self, Design *design)
{
  g_autofree char *label = g_strdup_printf (_ ("Change %s"), words_field (FIELD_RETURN_SIZE));

  document_apply (self->document, design, label);
}

/* Every chosen run by as many sizes, as one step; where one of them has no further size, none of them. */
gboolean
canvas_size_step (Canvas *self, int steps)
{
  const Catalogue *catalogue = document_get_catalogue (self->document);
  g_autoptr (Design) design = design_ref (document_get_design (self->document));
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *first = NULL;

  for (guint i = 0; i < selection_count (self->selection); i++) {
    const Part *run = run_of (design, design_find (design, selection_get_keys (self->selection)[i]));
    Problem problem = {.code = PROBLEM_NONE};
    Design *next;

    if (run == NULL || !g_hash_table_add (seen, g_strdup (part_key (run))))
      continue;
    if (first == NULL)
      first = g_strdup (part_key (run));
    next = edit_step_pipe (design, catalogue, part_key (run), steps, &problem);
    if (next == NULL) {
      g_autofree char *size = canvas_size_words (self, size_of (design, run));
      g_autofree char *sentence = g_strdup_printf (C_ ("pipe size, why not another", "%s. Not possible: %s."),
                                                   size, _ (problem_text (problem.code)));

      canvas_tell (self, sentence);
      return FALSE;
    }
    design_unref (design);
    design = next;
  }
  if (first == NULL) {
    canvas_tell (self, _ ("Choose a drain or a return run first."));
    return FALSE;
  }
  apply (self, design);
  remark (self, first);
  return TRUE;
}

static gboolean
set_size (Canvas *self, const char *run, const char *size)
{
  Problem problem = {.code = PROBLEM_NONE};
  g_autoptr (Design) design = edit_set_pipe (document_get_design (self->document),
                                             document_get_catalogue (self->document), run, size, &problem);

  if (design == NULL) {
    g_autofree char *sentence = g_strdup_printf (_ ("Not possible: %s."), _ (problem_text (problem.code)));

    canvas_tell (self, sentence);
    return FALSE;
  }
  apply (self, design);
  remark (self, run);
  return TRUE;
}

char *
canvas_size_words (Canvas *self, const char *key)
{
  const Catalogue *catalogue = document_get_catalogue (self->document);
  const PipeSize *size = key != NULL ? catalogue_find_pipe (catalogue, key) : NULL;

  return g_strdup (size != NULL ? size->name : key != NULL ? key : "");
}

/* Pulling the wall */

/* How far the wall is pulled, in logical pixels, when it stands at a size of the series. */
static double
pull_of (const GPtrArray *sizes, int at, int size, double scale)
{
  const PipeSize *from = g_ptr_array_index (sizes, at), *to = g_ptr_array_index (sizes, size);
  const double wall = fabs (to->outside_m - from->outside_m) / 2 * scale;
  const double pull = fmax (wall, SIZE_PIXELS * abs (size - at));

  return size < at ? -pull : pull;
}

/* The size that a pull from the one at `at` means, and whether it would go further. */
static int
pulled_to (const GPtrArray *sizes, int at, double pixels, double scale, ProblemCode *ret_code)
{
  const int last = (int) sizes->len - 1;
  int best = at;

  for (int i = 0; i <= last; i++)
    if (fabs (pull_of (sizes, at, i, scale) - pixels) < fabs (pull_of (sizes, at, best, scale) - pixels))
      best = i;
  *ret_code = pixels > pull_of (sizes, at, last, scale) + SIZE_PIXELS ? PROBLEM_THICKEST_PIPE
              : pixels < pull_of (sizes, at, 0, scale) - SIZE_PIXELS  ? PROBLEM_THINNEST_PIPE
                                                                      : PROBLEM_NONE;
  return best;
}

void
canvas_size_drag (Canvas *self, double dx, double dy)
{
  CanvasDrag *drag = &self->drag;
  const CanvasMove *move = &g_array_index (drag->moves, CanvasMove, 0);
  const Catalogue *catalogue = document_get_catalogue (self->document);
  const char *key = size_of (drag->base, design_find (drag->base, drag->key));
  g_autoptr (GPtrArray) sizes = pipe_series (catalogue, key);
  Problem problem = {.code = sizes->len > 0 ? PROBLEM_NONE : PROBLEM_NO_SUCH_PIPE, .field = N_FIELDS};
  int at = 0, to;

  drag->engaged[move->axis] = TRUE;
  while (at + 1 < (int) sizes->len && !g_str_equal (((PipeSize *) g_ptr_array_index (sizes, at))->key, key))
    at++;
  if (sizes->len > 0) {
    g_autoptr (Design) design = NULL;

    to = pulled_to (sizes, at, move->axis == AXIS_X ? dx : -dy, self->view.scale, &problem.code);
    design = edit_set_pipe (drag->base, catalogue, drag->key,
                            ((PipeSize *) g_ptr_array_index (sizes, to))->key, NULL);
    if (design != NULL)
      apply (self, design);
    if (!canvas_dragging (self))
      return;
  }
  canvas_moves_say (self, drag->moves, drag->engaged, &problem, self->press_x + dx, self->press_y + dy);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* The menu */

static void
on_size (GSimpleAction *action, GVariant *state, gpointer canvas)
{
  Canvas *self = DOWNCOMER_CANVAS (canvas);
  const Design *design = document_get_design (self->document);
  const Part *run = run_of (design, canvas_part_of (self, canvas_selected (self)));

  if (run != NULL && set_size (self, part_key (run), g_variant_get_string (state, NULL)))
    g_simple_action_set_state (action, state);
}

/* "1 1/2" schedule 40, 0.9 m/s": the velocity in it at the flow that the run has now. */
static char *
item_words (Canvas *self, const PipeSize *size, double flow_m3s)
{
  const double velocity_ms = fabs (flow_m3s) / (G_PI / 4 * size->inside_m * size->inside_m);
  g_autofree char *velocity = NULL;

  if (!isfinite (velocity_ms))
    return g_strdup (size->name);
  velocity =
      units_format (velocity_ms, QUANTITY_VELOCITY, document_get_style (self->document), NULL, UNITS_BUILD);
  return g_strdup_printf (C_ ("pipe size and velocity", "%s, %s"), size->name, velocity);
}

GMenuModel *
canvas_size_menu (Canvas *self)
{
  const Design *design = document_get_design (self->document);
  const Evaluation *evaluation = document_get_evaluation (self->document);
  const Part *run = run_of (design, canvas_part_of (self, canvas_selected (self)));
  const char *key = run != NULL ? size_of (design, run) : NULL;
  g_autoptr (GPtrArray) sizes = pipe_series (document_get_catalogue (self->document), key);
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();
  g_autoptr (GSimpleAction) action = NULL;
  g_autoptr (GMenu) items = g_menu_new ();
  const RunState *state = NULL;
  GMenu *menu;

  if (sizes->len == 0)
    return NULL;
  if (evaluation != NULL)
    state = evaluation_run (evaluation, design_index (design, part_key (run)));
  action = g_simple_action_new_stateful ("size", G_VARIANT_TYPE_STRING, g_variant_new_string (key));
  g_signal_connect_object (action, "change-state", G_CALLBACK (on_size), self, 0);
  g_action_map_add_action (G_ACTION_MAP (group), G_ACTION (action));
  gtk_widget_insert_action_group (GTK_WIDGET (self), "pipe", G_ACTION_GROUP (group));
  for (guint i = 0; i < sizes->len; i++) {
    const PipeSize *size = g_ptr_array_index (sizes, i);
    g_autofree char *words = item_words (self, size, state != NULL ? state->flow_m3s : (double) NAN);
    g_autoptr (GMenuItem) item = g_menu_item_new (words, NULL);

    g_menu_item_set_action_and_target (item, "pipe.size", "s", size->key);
    g_menu_append_item (items, item);
  }
  menu = g_menu_new ();
  g_menu_append_section (menu, state != NULL ? _ ("Velocity at the present flow") : NULL,
                         G_MENU_MODEL (items));
  return G_MENU_MODEL (menu);
}
