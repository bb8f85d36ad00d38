/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Writes the sheets of a fixture as PDF, to be looked at: `draw-sheet OUT.pdf [metric|us] [plain|huge|long|three]`. */
#include "tests/sheet/fixture.h"

#include <stdio.h>
#include <string.h>

static cairo_status_t
write_bytes (void *closure, const unsigned char *data, unsigned length)
{
  return fwrite (data, 1, length, closure) == length ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

int
main (int argc, char **argv)
{
  bool us = argc > 2 && strcmp (argv[2], "us") == 0;
  const char *kind = argc > 3 ? argv[3] : "plain";
  g_autoptr (Design) design = strcmp (kind, "huge") == 0    ? sheet_fixture_huge (us)
                              : strcmp (kind, "long") == 0  ? sheet_fixture_long_names (us)
                              : strcmp (kind, "three") == 0 ? sheet_fixture_three_tanks (us)
                                                            : sheet_fixture (us);
  g_autoptr (Sheet) sheet = strcmp (kind, "huge") == 0 ? sheet_fixture_lay_out_full (design, us)
                                                       : sheet_fixture_lay_out (design, us);
  FILE *file = argc > 1 ? fopen (argv[1], "wb") : NULL;
  cairo_status_t status;

  if (file == NULL)
    return 64;
  status = sheet_write_pdf (sheet, write_bytes, file);
  printf ("%u pages, %s\n", sheet_n_pages (sheet), cairo_status_to_string (status));
  return fclose (file) == 0 && status == CAIRO_STATUS_SUCCESS ? 0 : 1;
}
