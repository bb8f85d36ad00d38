/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A document: the project in work, its history, its file and the evaluation of its active design. Every change goes
 * through document_apply; undo is a list of earlier projects. Views get design and evaluation only as a pair, on the
 * signal "changed", which is emitted after both are set. Evaluation is synchronous (well under a frame): within a gesture
 * the bands of the margins keep the widths that they had before, and its end finds them anew. */
#pragma once

#include <gio/gio.h>

#include "design/project.h"
#include "solver/system.h"
#include "units/format.h"

#define DOWNCOMER_TYPE_DOCUMENT (document_get_type ())
G_DECLARE_FINAL_TYPE (Document, document, DOWNCOMER, DOCUMENT, GObject)

Document *document_new (Project *project, Catalogue *catalogue);

/* Takes a project as the only entry of a new history, saved when it came from `file` (may be NULL). */
void document_reset (Document *document, Project *project, GFile *file);

Project *document_get_project (Document *document);
Design *document_get_design (Document *document);
Catalogue *document_get_catalogue (Document *document);

/* The evaluation of document_get_design, or NULL where the design does not compile; then the status says why and
 * `ret_part` (may be NULL) is the index of the part at fault or -1. Owned by the document, replaced at each change. */
const Evaluation *document_get_evaluation (Document *document);
SystemStatus document_get_status (Document *document, int *ret_part);

/* Grows by one with every pair of design and evaluation. */
guint document_get_serial (Document *document);

/* How numbers of this document are written: its own units with the signs of the locale. */
const NumberStyle *document_get_style (Document *document);

/* Makes `design` the active design as one undo step named `label` ("Move baffle"). An equal design changes nothing.
 * document_apply_project does so with a whole project: another option active, one more, one renamed.
 * Between document_begin and document_end all changes are one step; document_cancel restores the design before.
 * document_end emits "changed" once more where the bands were held, as yet in the gesture. */
void document_apply (Document *document, Design *design, const char *label);
void document_apply_project (Document *document, Project *project, const char *label);
void document_begin (Document *document, const char *label);
void document_end (Document *document);
void document_cancel (Document *document);
gboolean document_in_gesture (Document *document);

/* Changes one field; FALSE with the problem, and nothing changed, where it is refused. */
gboolean document_set_number (Document *document, const char *key, FieldId field, double value,
                              Problem *ret_problem);
gboolean document_set_text (Document *document, const char *key, FieldId field, const char *text,
                            Problem *ret_problem);
gboolean document_unset (Document *document, const char *key, FieldId field, Problem *ret_problem);

/* History: labels are those of the step that would be undone or redone, or NULL. */
const char *document_undo_label (Document *document);
const char *document_redo_label (Document *document);
void document_undo (Document *document);
void document_redo (Document *document);

/* File and saving: modified is a comparison with the project that was saved last. */
GFile *document_get_file (Document *document);
gboolean document_is_modified (Document *document);
void document_mark_saved (Document *document, GFile *file);

/* Counts as modified until it is saved or reset: for work that is new or was recovered. */
void document_mark_unsaved (Document *document);

/* The title of the job, else the file's name, else "Unsaved design". Newly allocated. */
char *document_dup_title (Document *document);
