/* SPDX-License-Identifier: LGPL-2.1-or-later */
#include "app/common/document.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

#include "report/words.h"
#include "solver/band.h"

typedef struct {
  Project *project;
  char *label; /* of the step that led here */
} Entry;

struct _Document {
  GObject parent_instance;

  Catalogue *catalogue;
  GArray *history; /* of Entry */
  guint index;
  Project *saved; /* as on disk, or NULL where it never was */
  GFile *file;
  gboolean unsaved; /* whatever the history says */

  gboolean in_gesture, gesture_pushed;
  char *gesture_label;

  Evaluation *evaluation;
  Workspace *workspace; /* of the evaluation, or NULL: its bands are held during a gesture */
  Design *judged;       /* that the workspace was made for */
  gboolean evaluated, held;
  SystemStatus status;
  int fault;
  guint serial;
  NumberStyle signs, style;
};

G_DEFINE_FINAL_TYPE (Document, document, G_TYPE_OBJECT)

enum { SIGNAL_CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
entry_clear (void *data)
{
  Entry *entry = data;

  project_unref (entry->project);
  g_free (entry->label);
}

static Entry *
entry_at (Document *self, guint index)
{
  return &g_array_index (self->history, Entry, index);
}

/* Decimal and thousands signs and currency of the locale, as the units folder never asks it. */
static NumberStyle
locale_signs (void)
{
  const struct lconv *conv = localeconv ();
  g_autofree char *decimal = g_locale_to_utf8 (conv->decimal_point, -1, NULL, NULL, NULL);
  g_autofree char *thousands = g_locale_to_utf8 (conv->thousands_sep, -1, NULL, NULL, NULL);
  g_autofree char *currency = g_locale_to_utf8 (conv->currency_symbol, -1, NULL, NULL, NULL);
  NumberStyle style = number_style_from_separators (UNIT_SYSTEM_METRIC, decimal, thousands);

  if (currency != NULL)
    g_strlcpy (style.currency, currency, sizeof style.currency);
  return style;
}

static void
document_finalize (GObject *object)
{
  Document *self = DOWNCOMER_DOCUMENT (object);

  g_clear_pointer (&self->history, g_array_unref);
  project_unref (self->saved);
  catalogue_unref (self->catalogue);
  evaluation_free (self->evaluation);
  g_clear_pointer (&self->workspace, workspace_free);
  g_clear_pointer (&self->judged, design_unref);
  g_clear_object (&self->file);
  g_free (self->gesture_label);
  G_OBJECT_CLASS (document_parent_class)->finalize (object);
}

static void
document_class_init (DocumentClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = document_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
}

static void
document_init (Document *self)
{
  self->history = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_array_set_clear_func (self->history, entry_clear);
  self->evaluation = evaluation_new ();
  self->signs = locale_signs ();
  self->fault = -1;
}

static gboolean
same_parts (const Design *a, const Design *b)
{
  if (a == NULL || design_n_parts (a) != design_n_parts (b))
    return FALSE;
  for (unsigned i = 0; i < design_n_parts (a); i++)
    if (strcmp (part_key (design_part (a, i)), part_key (design_part (b, i))) != 0)
      return FALSE;
  return TRUE;
}

/* A step of a gesture holds the bands of the margins as they were when it began: finding them takes a dozen times as long
 * as all else, and holding them lets no grade flicker as leaving them out would. The end of the gesture finds them. */
static gboolean
evaluate_active (Document *self)
{
  Design *design = document_get_design (self);
  System *system = system_compile (design, self->catalogue, &self->status, &self->fault);
  Workspace *workspace;

  if (system == NULL)
    return FALSE;
  workspace = workspace_new (system);
  self->held = self->in_gesture && self->workspace != NULL && same_parts (self->judged, design);
  if (self->held)
    workspace_hold_bands (workspace, self->workspace);
  evaluate (system, workspace, NULL, self->evaluation);
  system_free (system);
  workspace_free (self->workspace);
  self->workspace = workspace;
  g_clear_pointer (&self->judged, design_unref);
  self->judged = design_ref (design);
  return TRUE;
}

/* Evaluates the active design and tells the views of the new pair. */
static void
changed (Document *self)
{
  Design *design = document_get_design (self);

  self->fault = -1;
  self->evaluated = evaluate_active (self);
  self->style = words_style (design, &self->signs);
  self->serial++;
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
find_bands (Document *self)
{
  g_clear_pointer (&self->workspace, workspace_free);
  changed (self);
}

Document *
document_new (Project *project, Catalogue *catalogue)
{
  Document *self = g_object_new (DOWNCOMER_TYPE_DOCUMENT, NULL);

  self->catalogue = catalogue_ref (catalogue);
  document_reset (self, project, NULL);
  return self;
}

void
document_reset (Document *document, Project *project, GFile *file)
{
  const Entry entry = {.project = project_ref (project), .label = NULL};

  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  g_array_set_size (document->history, 0);
  g_array_append_val (document->history, entry);
  document->index = 0;
  document->in_gesture = FALSE;
  document->unsaved = FALSE;
  g_clear_pointer (&document->saved, project_unref);
  g_set_object (&document->file, file);
  if (file != NULL)
    document->saved = project_ref (project);
  changed (document);
}

Project *
document_get_project (Document *document)
{
  return entry_at (document, document->index)->project;
}

Design *
document_get_design (Document *document)
{
  return project_active_design (document_get_project (document));
}

Catalogue *
document_get_catalogue (Document *document)
{
  return document->catalogue;
}

const Evaluation *
document_get_evaluation (Document *document)
{
  return document->evaluated ? document->evaluation : NULL;
}

SystemStatus
document_get_status (Document *document, int *ret_part)
{
  if (ret_part != NULL)
    *ret_part = document->fault;
  return document->status;
}

guint
document_get_serial (Document *document)
{
  return document->serial;
}

const NumberStyle *
document_get_style (Document *document)
{
  return &document->style;
}

static void
push (Document *self, Project *project, const char *label)
{
  const Entry entry = {.project = project_ref (project), .label = g_strdup (label)};

  g_array_set_size (self->history, self->index + 1);
  g_array_append_val (self->history, entry);
  self->index++;
}

void
document_apply (Document *document, Design *design, const char *label)
{
  g_autoptr (Project) project = NULL;

  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  if (design_equal (design, document_get_design (document)))
    return;
  project = project_with_design (document_get_project (document), design);
  if (document->in_gesture && document->gesture_pushed) {
    Entry *tip = entry_at (document, document->index);

    project_unref (tip->project);
    tip->project = project_ref (project);
  } else {
    push (document, project, document->in_gesture ? document->gesture_label : label);
    document->gesture_pushed = document->in_gesture;
  }
  changed (document);
}

void
document_apply_project (Document *document, Project *project, const char *label)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  if (document->in_gesture || project_equal (project, document_get_project (document)))
    return;
  push (document, project, label);
  changed (document);
}

void
document_begin (Document *document, const char *label)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  document->in_gesture = TRUE;
  document->gesture_pushed = FALSE;
  g_free (document->gesture_label);
  document->gesture_label = g_strdup (label);
}

static void
drop_tip (Document *self)
{
  g_array_set_size (self->history, self->index);
  self->index--;
}

void
document_end (Document *document)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  if (document->gesture_pushed &&
      project_equal (document_get_project (document), entry_at (document, document->index - 1)->project))
    drop_tip (document);
  document->gesture_pushed = FALSE;
  /* Views that are told still see the gesture, whose last change this is. */
  if (document->in_gesture && document->held)
    find_bands (document);
  document->in_gesture = FALSE;
}

void
document_cancel (Document *document)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  if (document->in_gesture && document->gesture_pushed) {
    drop_tip (document);
    document->in_gesture = document->gesture_pushed = FALSE;
    changed (document);
  }
  document->in_gesture = FALSE;
}

gboolean
document_in_gesture (Document *document)
{
  return document->in_gesture;
}

static gboolean
apply_field (Document *self, Design *design, FieldId field)
{
  g_autofree char *label = NULL;

  if (design == NULL)
    return FALSE;
  label = g_strdup_printf (_ ("Change %s"), words_field (field));
  document_apply (self, design, label);
  design_unref (design);
  return TRUE;
}

gboolean
document_set_number (Document *document, const char *key, FieldId field, double value, Problem *ret_problem)
{
  return apply_field (
      document, design_with_number (document_get_design (document), key, field, value, ret_problem), field);
}

gboolean
document_set_text (Document *document, const char *key, FieldId field, const char *text, Problem *ret_problem)
{
  return apply_field (
      document, design_with_text (document_get_design (document), key, field, text, ret_problem), field);
}

gboolean
document_unset (Document *document, const char *key, FieldId field, Problem *ret_problem)
{
  return apply_field (document, design_without (document_get_design (document), key, field, ret_problem),
                      field);
}

const char *
document_undo_label (Document *document)
{
  return document->index > 0 ? entry_at (document, document->index)->label : NULL;
}

const char *
document_redo_label (Document *document)
{
  return document->index + 1 < document->history->len ? entry_at (document, document->index + 1)->label
                                                      : NULL;
}

void
document_undo (Document *document)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  if (document->in_gesture || document->index == 0)
    return;
  document->index--;
  changed (document);
}

void
document_redo (Document *document)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  if (document->in_gesture || document->index + 1 >= document->history->len)
    return;
  document->index++;
  changed (document);
}

GFile *
document_get_file (Document *document)
{
  return document->file;
}

gboolean
document_is_modified (Document *document)
{
  Project *project = document_get_project (document);

  if (document->unsaved)
    return TRUE;
  if (document->saved == NULL)
    return document->index > 0;
  return !project_equal (document->saved, project);
}

void
document_mark_saved (Document *document, GFile *file)
{
  Project *project = project_ref (document_get_project (document));

  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  project_unref (document->saved);
  document->saved = project;
  document->unsaved = FALSE;
  g_set_object (&document->file, file);
  g_signal_emit (document, signals[SIGNAL_CHANGED], 0);
}

void
document_mark_unsaved (Document *document)
{
  g_return_if_fail (DOWNCOMER_IS_DOCUMENT (document));
  document->unsaved = TRUE;
  g_signal_emit (document, signals[SIGNAL_CHANGED], 0);
}

char *
document_dup_title (Document *document)
{
  const Part *job = design_nth (document_get_design (document), PART_JOB, 0);
  const char *title = job != NULL ? design_text (document_get_design (document), job, FIELD_JOB_TITLE) : NULL;

  if (title != NULL && title[0] != '\0')
    return g_strdup (title);
  if (document->file != NULL)
    return g_file_get_basename (document->file);
  return g_strdup (_ ("Unsaved design"));
}
