/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inspector: every field of the selected part, what each leads to, and the parts that belong to it. With nothing
 * selected it shows the key figures and all parts. It follows the document in place: rows keep focus and typed text
 * while the drawing is dragged. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/common/selection.h"

#define DOWNCOMER_TYPE_INSPECTOR (inspector_get_type ())
G_DECLARE_FINAL_TYPE (Inspector, inspector, DOWNCOMER, INSPECTOR, GtkBox)

/* Both are kept until others are set or the inspector goes; NULL and NULL let go. */
void inspector_set_model (Inspector *inspector, Document *document, Selection *selection);

/* The row of a field of the part that is shown, or NULL. It is revealed where it was folded away. */
GtkWidget *inspector_get_row (Inspector *inspector, FieldId field);

/* Shows the calculation behind the row that has the focus, else of the part that is shown, else of the whole design:
 * each step with its relation, numbers, result and source. */
void inspector_explain (Inspector *inspector);
