/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A window on one document: header bar, drawing or pump bench, inspector and findings, status line, message bar.
 * It builds its children, hands them document and selection, and holds the actions `win.*`; it knows no water. */
#pragma once

#include "app/common/document.h"
#include "app/common/selection.h"
#include "app/window/application.h"

#define DOWNCOMER_TYPE_WINDOW (window_get_type ())
G_DECLARE_FINAL_TYPE (Window, window, DOWNCOMER, WINDOW, GtkApplicationWindow)

/* A window on a new design from the usual tank and stand. */
Window *window_new (Application *application);

/* A window on a file; where it cannot be read, a new design with the reason in the message bar. */
Window *window_new_for_file (Application *application, GFile *file);

Document *window_get_document (Window *window);
Selection *window_get_selection (Window *window);

/* Whether another design may take the place of this one, which was never touched nor saved. */
gboolean window_is_unused (Window *window);

/* Loads a file into the window, or says in its message bar why not and leaves everything as it was. */
void window_load (Window *window, GFile *file);

/* Shows work that an earlier run left unsaved; `origin` is the path of its file or NULL. Takes its recovery copy over. */
void window_recover (Window *window, Project *project, const char *origin);

/* Opens a window for each recovery copy whose process is gone. Returns how many. */
guint window_recover_all (Application *application);

/* Shows a sentence in the message bar until it is dismissed; an error is announced as one. */
void window_tell (Window *window, const char *sentence, gboolean error);
