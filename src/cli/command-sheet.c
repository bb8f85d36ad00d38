/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `downcomer sheet`: the build sheets as PDF, without a display. */
#include <glib/gi18n.h>

#include "cli/command.h"
#include "sheet/sheet.h"

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

int
command_sheet (const Options *options)
{
  g_auto (Loaded) loaded = {0};
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *date = g_date_time_format (now, "%Y-%m-%d");
  g_autoptr (Sheet) sheet = NULL;
  g_autoptr (GBytes) bytes = NULL;
  GByteArray *array;
  cairo_status_t drawn;
  int status = command_load (options, true, &loaded);

  if (status != CLI_OK)
    return status;
  array = g_byte_array_new ();
  sheet = sheet_new (project_active_design (loaded.project), loaded.catalogue, loaded.evaluation,
                     loaded.trace, &loaded.style, date);
  drawn = sheet_write_pdf (sheet, append_bytes, array);
  bytes = g_byte_array_free_to_bytes (array);
  if (drawn != CAIRO_STATUS_SUCCESS)
    return command_fail (CLI_UNWRITABLE, _ ("the sheets could not be drawn: %s"),
                         cairo_status_to_string (drawn));
  status = command_write (options->output, bytes);
  return status != CLI_OK ? status : command_verdict (loaded.evaluation);
}
