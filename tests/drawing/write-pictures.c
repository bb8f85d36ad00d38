/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* `write-pictures FOLDER` draws the pictures of golden/ anew; write-golden runs it. */
#include <stdio.h>

#include "drawing/text.h"
#include "tests/drawing/golden-picture.h"

int
main (int argc, char **argv)
{
  if (argc != 2)
    return 64;
  if (drawing_font_missing ()) {
    fprintf (stderr, "The font %s is not installed: pictures without it are of no use.\n", DRAWING_FONT);
    return 1;
  }
  for (unsigned i = 0; i < n_golden_pictures; i++) {
    g_autofree char *path = g_build_filename (argv[1], golden_pictures[i].name, NULL);
    cairo_surface_t *surface = golden_picture_draw (&golden_pictures[i]);
    cairo_status_t status = cairo_surface_write_to_png (surface, path);
    cairo_surface_destroy (surface);
    if (status != CAIRO_STATUS_SUCCESS) {
      fprintf (stderr, "%s: %s\n", path, cairo_status_to_string (status));
      return 1;
    }
  }
  return 0;
}
