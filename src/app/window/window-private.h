/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The inside of a window, for window.c (shape), window-actions.c (view and edit) and window-file.c (files and paper). */
#pragma once

#include "app/bench/pump-bench.h"
#include "app/canvas/canvas.h"
#include "app/findings/findings-panel.h"
#include "app/inspector/inspector.h"
#include "app/rehearsal/rehearsal-page.h"
#include "app/window/window.h"

struct _Window {
  GtkApplicationWindow parent_instance;

  Application *application;
  Document *document;
  Selection *selection;

  GtkMenuButton *menu_button, *options_button;
  GtkLabel *title_label, *subtitle_label, *message_label, *status_label, *options_label;
  GtkRevealer *message_revealer;
  GtkWidget *message_box;
  GtkPaned *paned, *side;
  GtkStack *stack;
  GtkGrid *views;
  Canvas *canvas;                     /* the first pane, which is always there */
  Canvas *panes[N_SCENE_PROJECTIONS]; /* with it; the others only while all views are shown */
  GtkWidget *view_switch;
  PumpBench *bench;          /* NULL until its page is first shown */
  RehearsalPage *rehearsals; /* likewise */
  GtkWidget *bench_slot, *rehearsal_slot;
  Inspector *inspector;
  FindingsPanel *findings;
  GMenu *recent_menu;

  GtkFileChooserNative *chooser; /* nobody else holds it while it is shown */
  GtkPrintSettings *print_settings;
  char *recovery_id;
  guint recovery_source;
  gboolean recovery_failed;
  gboolean may_close; /* unsaved work has been asked about */
};

/* window.c: a window on a project, which is that of `file` or, where that is NULL, a new one. */
Window *window_new_on (Application *application, Project *project, GFile *file);

/* window-actions.c: installs the actions of the class; brings their states in line with the document. */
void window_install_actions (GtkWidgetClass *klass);
void window_update_actions (Window *self);

/* window.c: an opened part of a canvas is edited in the inspector. */
void window_watch_canvas (Window *self, Canvas *canvas);

/* window-views.c: shows a view ("front", "end", "plan", "isometric") or "all"; puts the panes where they belong; calls a
 * function (of Canvas *) for each of them. */
void window_show_view (Window *self, const char *word);
void window_arrange_views (Window *self);
void window_each_canvas (Window *self, GFunc function, gpointer data);

/* window-file.c: the actions on files, and what asks before unsaved work is lost. window-recovery.c: recovery copies. */
void window_install_file_actions (GtkWidgetClass *klass);
void window_fill_recent (Window *self);
gboolean window_ask_before_close (Window *self);
char *window_new_recovery_id (void);
void window_start_recovery (Window *self);
void window_stop_recovery (Window *self);

/* Writes the copy now; FALSE where it cannot be written, which is told. */
gboolean window_keep_recovery (Window *self);

/* window-options.c: the options of the project: which is shown, variants, names, and what differs between them. */
void window_install_options_actions (GtkWidgetClass *klass);
void window_update_options (Window *self);

/* window-print.c: sheets as PDF and on paper. */
void window_install_print_actions (GtkWidgetClass *klass);

/* Remembers how a chooser of files is asked and answered. */
typedef void (*WindowFileFunc) (Window *self, GFile *file);
void window_choose_file (Window *self, GtkFileChooserAction action, const char *title, const char *name,
                         const char *pattern, const char *pattern_name, WindowFileFunc done);
