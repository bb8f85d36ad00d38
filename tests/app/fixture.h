/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* What tests of widgets share: the demo design as a document, and waiting for a condition instead of a time. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/common/selection.h"
#include "files/catalogue-file.h"
#include "files/document.h"

static inline Document *
fixture_document (void)
{
  g_autoptr (GBytes) bytes = g_resources_lookup_data ("/io/github/downcomer/Downcomer/demo/sound.downcomer",
                                                      G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  g_autoptr (Catalogue) catalogue = catalogue_built_in ();
  g_autoptr (GError) error = NULL;
  g_autoptr (Project) project = bytes != NULL ? document_from_bytes (bytes, "demo", &error) : NULL;

  g_assert_no_error (error);
  g_assert_nonnull (project);
  return document_new (project, catalogue);
}

/* Lets the main loop run until a condition holds; fails after five seconds, or after a minute for what a thread computes
 * (under sanitizers, beside other work). */
#define fixture_wait(condition)      fixture_wait_for (condition, 5)
#define fixture_wait_long(condition) fixture_wait_for (condition, 60)
#define fixture_wait_for(condition, seconds)                                                                 \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    const gint64 until = g_get_monotonic_time () + (seconds) *G_USEC_PER_SEC;                                \
                                                                                                             \
    while (!(condition) && g_get_monotonic_time () < until)                                                  \
      g_main_context_iteration (NULL, FALSE);                                                                \
    g_assert_true (condition);                                                                               \
  }                                                                                                          \
  G_STMT_END

/* A window with one child, shown and mapped; it holds the child. */
static inline GtkWindow *
fixture_window (GtkWidget *child)
{
  GtkWindow *window = GTK_WINDOW (gtk_window_new ());

  gtk_window_set_default_size (window, 340, 700);
  gtk_window_set_child (window, child);
  gtk_window_present (window);
  fixture_wait (gtk_widget_get_mapped (child));
  return window;
}

static inline void
fixture_close (GtkWindow *window)
{
  gtk_window_destroy (window);
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

/* Puts a text into an entry and applies it, as typing and Enter do. */
static inline void
fixture_type (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
}

/* The given value of a number, to be compared. */
static inline double
fixture_number (Document *document, const char *key, FieldId field)
{
  Design *design = document_get_design (document);

  return design_number (design, design_find (design, key), field);
}

static inline gboolean
fixture_given (Document *document, const char *key, FieldId field)
{
  return part_is_given (design_find (document_get_design (document), key), field);
}
