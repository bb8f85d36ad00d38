/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Build sheets from the window: as a PDF file, and on paper. */
#include <glib/gi18n.h>

#include "app/window/window-private.h"
#include "files/atomic-save.h"
#include "sheet/sheet.h"

static Sheet *
make_sheet (Window *self)
{
  Design *design = document_get_design (self->document);
  g_autoptr (Trace) trace = trace_new ();
  g_autoptr (Evaluation) evaluation = evaluation_new ();
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *date = g_date_time_format (now, "%Y-%m-%d");

  if (!evaluate_design (design, document_get_catalogue (self->document), trace, evaluation, NULL, NULL))
    return NULL;
  return sheet_new (design, document_get_catalogue (self->document), evaluation, trace,
                    document_get_style (self->document), date);
}

/* As a file */

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
export_to (Window *self, GFile *file)
{
  g_autoptr (Sheet) sheet = make_sheet (self);
  GByteArray *array = g_byte_array_new ();
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_file_get_path (file);
  cairo_status_t status = CAIRO_STATUS_NO_MEMORY;

  if (sheet != NULL)
    status = sheet_write_pdf (sheet, append_bytes, array);
  bytes = g_byte_array_free_to_bytes (array);
  if (status != CAIRO_STATUS_SUCCESS) {
    window_tell (self, cairo_status_to_string (status), TRUE);
  } else if (path == NULL) {
    window_tell (self, _ ("Sheets can only be written to a folder of this computer."), TRUE);
  } else if (!atomic_save (path, bytes, NULL, NULL, &error)) {
    window_tell (self, error->message, TRUE);
  } else {
    g_autofree char *sentence = g_strdup_printf (
        ngettext ("%u build sheet is in %s", "%u build sheets are in %s", sheet_n_pages (sheet)),
        sheet_n_pages (sheet), path);

    window_tell (self, sentence, FALSE);
  }
}

static void
on_export (GtkWidget *widget, const char *action, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);
  g_autofree char *title = document_dup_title (self->document);
  g_autofree char *name = NULL;

  g_strdelimit (title, "/\\", '-');
  name = g_strconcat (title, ".pdf", NULL);
  window_choose_file (self, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("Build sheets as PDF"), name, "*.pdf",
                      _ ("PDF documents"), export_to);
}

/* On paper */

static void
on_draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, gpointer sheet)
{
  sheet_draw_page (sheet, (unsigned) page, gtk_print_context_get_cairo_context (context));
}

static void
on_print_done (GtkPrintOperation *operation, GtkPrintOperationResult result, gpointer data)
{
  Window *self = DOWNCOMER_WINDOW (data);

  if (result == GTK_PRINT_OPERATION_RESULT_ERROR) {
    g_autoptr (GError) error = NULL;

    gtk_print_operation_get_error (operation, &error);
    window_tell (self, error != NULL ? error->message : _ ("Printing failed."), TRUE);
  } else if (result == GTK_PRINT_OPERATION_RESULT_APPLY) {
    g_set_object (&self->print_settings, gtk_print_operation_get_print_settings (operation));
  }
}

static void
on_print (GtkWidget *widget, const char *action, GVariant *parameter)
{
  Window *self = DOWNCOMER_WINDOW (widget);
  Sheet *sheet = make_sheet (self);
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) paper = NULL;
  g_autofree char *title = document_dup_title (self->document);
  double width_pt, height_pt;

  if (sheet == NULL)
    return;
  sheet_paper (sheet, &width_pt, &height_pt);
  paper = gtk_paper_size_new (MIN (width_pt, height_pt) > 600 ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);
  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_orientation (setup, width_pt > height_pt ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                              : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_n_pages (operation, (int) sheet_n_pages (sheet));
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  if (self->print_settings != NULL)
    gtk_print_operation_set_print_settings (operation, self->print_settings);
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_draw_page), sheet);
  g_signal_connect (operation, "done", G_CALLBACK (on_print_done), self);
  g_object_set_data_full (G_OBJECT (operation), "sheet", sheet, (GDestroyNotify) sheet_free);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (self), NULL);
}

void
window_install_print_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "win.export-sheet", NULL, on_export);
  gtk_widget_class_install_action (klass, "win.print", NULL, on_print);
}
