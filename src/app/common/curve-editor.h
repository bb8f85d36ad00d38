/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A button that says what a pump curve is ("6 points, to 3.1 m and 1,330 L/h") and opens its points for editing: typed
 * or pasted lines of flow and head, or the curve of a pump of the catalogue. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"

#define DOWNCOMER_TYPE_CURVE_EDITOR (curve_editor_get_type ())
G_DECLARE_FINAL_TYPE (CurveEditor, curve_editor, DOWNCOMER, CURVE_EDITOR, GtkWidget)

/* The document must outlive the editor. */
GtkWidget *curve_editor_new (Document *document, FieldId field);
GtkWidget *curve_editor_get_button (CurveEditor *editor);

/* Shows the curve of a part; what is being edited in the popover stays. */
void curve_editor_refresh (CurveEditor *editor, const char *key);

/* For the popover's own button and for tests: reads the text, applies it and returns TRUE, or shows what is wrong. */
gboolean curve_editor_apply (CurveEditor *editor, const char *text);
const char *curve_editor_get_problem (CurveEditor *editor);
