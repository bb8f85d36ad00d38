/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What the canvas adds to a design and takes away: fittings and corners at the pointer, the chosen parts as a whole. Each
 * is one step of the history; a refusal says why beside the part and changes nothing. */
#include <glib/gi18n.h>
#include <math.h>

#include "app/canvas/canvas-private.h"
#include "app/canvas/canvas-words.h"
#include "app/common/additions.h"
#include "design/edit.h"

#define RUN_REACH 24.0 /* logical pixels from a run within which the pointer means a place on it */
#define TELL_MS   5000

static gboolean
on_told (gpointer data)
{
  Canvas *self = DOWNCOMER_CANVAS (data);

  self->tell_source = 0;
  canvas_hide_note (self);
  return G_SOURCE_REMOVE;
}

void
canvas_untell (Canvas *self)
{
  if (self->tell_source == 0)
    return;
  g_clear_handle_id (&self->tell_source, g_source_remove);
  if (self->note != NULL)
    canvas_hide_note (self);
}

void
canvas_remark (Canvas *self, const char *markup)
{
  graphene_rect_t box;
  graphene_point_t at;

  graphene_point_init (&at, (float) self->pointer_x, (float) self->pointer_y);
  if (!self->pointer_inside) {
    if (canvas_part_box (self, canvas_selected (self), &box))
      graphene_rect_get_center (&box, &at);
    else
      graphene_point_init (&at, (float) self->view.width / 2, (float) self->view.height / 2);
  }
  canvas_untell (self);
  canvas_show_note (self, (double) at.x, (double) at.y, markup);
  self->tell_source = g_timeout_add (TELL_MS, on_told, self);
}

void
canvas_tell (Canvas *self, const char *sentence)
{
  g_autofree char *markup = g_markup_escape_text (sentence, -1);

  canvas_remark (self, markup);
  gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
refuse (Canvas *self, const Problem *problem)
{
  g_autofree char *sentence = g_strdup_printf (_ ("Not possible: %s."), _ (problem_text (problem->code)));

  canvas_tell (self, sentence);
}

/* Takes a new design, chooses what was added, and lets go of it. */
static gboolean
take (Canvas *self, Design *design, const char *label, const char *key, const Problem *problem)
{
  if (design == NULL) {
    refuse (self, problem);
    return FALSE;
  }
  document_apply (self->document, design, label);
  design_unref (design);
  if (key != NULL) {
    selection_set_key (self->selection, key);
    if (canvas_child (self, key) != NULL)
      gtk_widget_grab_focus (GTK_WIDGET (canvas_child (self, key)));
  }
  return TRUE;
}

void
canvas_add (Canvas *self, unsigned n)
{
  const Addition *addition = addition_nth (n);
  char key[MAX_KEY_BYTES + 1] = "";
  Problem problem = {0};
  g_autofree char *label = NULL;
  Design *changed;

  g_return_if_fail (addition != NULL);
  label = g_strdup_printf (_ ("Add %s"), _ (addition->name));
  changed = addition->add (document_get_design (self->document), selection_get_key (self->selection),
                           addition->argument, key, &problem);
  take (self, changed, label, key[0] != '\0' ? key : NULL, &problem);
}

/* The run in work: the chosen one, or that of the chosen corner or fitting. */
static const Part *
run_in_work (Canvas *self)
{
  const Design *design = document_get_design (self->document);
  const Part *part = canvas_part_of (self, canvas_selected (self));

  if (part != NULL && (part_kind (part) == PART_CORNER || part_kind (part) == PART_FITTING))
    part = design_owner (design, part);
  return part != NULL && (part_kind (part) == PART_DRAIN || part_kind (part) == PART_RETURN) ? part : NULL;
}

gboolean
canvas_has_run (Canvas *self)
{
  return run_in_work (self) != NULL;
}

/* The place on a run that the pointer, or the place of the menu, is near to. */
static gboolean
at_pointer (Canvas *self, const Part *run, double *ret_station)
{
  const double x = self->menu_set ? self->menu_x : self->pointer_x;
  const double y = self->menu_set ? self->menu_y : self->pointer_y;
  double distance;

  return (self->menu_set || self->pointer_inside) &&
         canvas_station_at (self, document_get_design (self->document), run, x, y, ret_station, &distance) &&
         distance <= RUN_REACH;
}

/* Where something goes on a run: at the pointer where it is near, else where there is room. */
static double
place_on (Canvas *self, const Part *run)
{
  double station;

  return at_pointer (self, run, &station) ? station
                                          : addition_free_station (document_get_design (self->document), run);
}

gboolean
canvas_insert (Canvas *self, const char *type)
{
  const Part *run = run_in_work (self);
  char key[MAX_KEY_BYTES + 1];
  Problem problem = {.code = PROBLEM_NONE};
  g_autofree char *run_key = NULL;

  if (run == NULL) {
    canvas_tell (self, _ ("Choose a drain or a return run first."));
    return FALSE;
  }
  run_key = g_strdup (part_key (run));
  if (g_str_equal (type, "valve"))
    type = part_kind (run) == PART_DRAIN ? "gate-valve" : "ball-valve";
  return take (self,
               edit_add_fitting (document_get_design (self->document), run_key, type, place_on (self, run),
                                 key, &problem),
               _ ("Add fitting"), key, &problem);
}

gboolean
canvas_insert_corner (Canvas *self)
{
  const Part *run = run_in_work (self);
  char key[MAX_KEY_BYTES + 1];
  Problem problem = {.code = PROBLEM_NONE};

  if (run == NULL) {
    canvas_tell (self, _ ("Choose a drain or a return run first."));
    return FALSE;
  }
  return take (self,
               edit_add_corner (document_get_design (self->document), part_key (run), place_on (self, run),
                                key, &problem),
               _ ("Add corner"), key, &problem);
}

gboolean
canvas_insert_tee (Canvas *self)
{
  const Part *run = run_in_work (self);
  char key[MAX_KEY_BYTES + 1];
  Problem problem = {.code = PROBLEM_NONE};
  double station;

  if (run == NULL || part_kind (run) != PART_RETURN) {
    canvas_tell (self, _ ("A tee with an outlet goes into a return run: choose one first."));
    return FALSE;
  }
  /* At the pointer, else where the run branches best. */
  return take (self,
               edit_add_branch (document_get_design (self->document), part_key (run),
                                at_pointer (self, run, &station) ? station : (double) NAN, NULL, key,
                                &problem),
               _ ("Add outlet with a tee"), key, &problem);
}

/* The design without the chosen parts, or NULL with the problem of the first that cannot go. What has gone with an owner
 * need not go again. */
static Design *
without_chosen (Canvas *self, Problem *problem)
{
  Design *design = design_ref (document_get_design (self->document));

  for (guint i = 0; i < selection_count (self->selection); i++) {
    const char *key = selection_get_keys (self->selection)[i];
    Design *next;

    if (design_find (design, key) == NULL)
      continue;
    next = edit_remove (design, key, problem);
    design_unref (design);
    if (next == NULL)
      return NULL;
    design = next;
  }
  return design;
}

gboolean
canvas_delete (Canvas *self)
{
  const Design *design = document_get_design (self->document);
  const guint n = selection_count (self->selection);
  g_autofree char *name = NULL, *label = NULL;
  Problem problem = {.code = PROBLEM_NONE};

  if (n == 0)
    return FALSE;
  name = words_part (design, design_find (design, selection_get_key (self->selection)));
  label = n > 1 ? g_strdup_printf (ngettext ("Remove %u part", "Remove %u parts", n), n)
                : g_strdup_printf (_ ("Remove %s"), name);
  return take (self, without_chosen (self, &problem), label, NULL, &problem);
}
