/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Contrast of every pair that is read, by WCAG 2.1 (definition of contrast ratio): text and lines at least 4.5 : 1. */
#include "drawing/palette.h"

#include <glib.h>

static void
check (const char *what, PaletteKind kind, Color a, Color b, double least)
{
  if (color_contrast (a, b) < least)
    g_error ("palette %d, %s: %.2f : 1", kind, what, color_contrast (a, b));
}

static void
test_contrast (void)
{
  for (PaletteKind kind = PALETTE_LIGHT; kind < N_PALETTES; kind++) {
    const Palette *p = palette_get (kind);
    const Color grounds[] = {p->ground, p->sheet, p->water, p->water_off};
    for (unsigned i = 0; i < G_N_ELEMENTS (grounds); i++) {
      check ("ink", kind, p->ink, grounds[i], 4.5);
      check ("soft ink", kind, p->soft, grounds[i], 4.5);
      check ("surface", kind, p->surface, grounds[i], 4.5);
      check ("selected", kind, p->selected, grounds[i], 4.5);
      check ("stop", kind, p->stop, grounds[i], 4.5);
      check ("caution", kind, p->caution, grounds[i], 4.5);
      check ("note", kind, p->note, grounds[i], 4.5);
      check ("sound", kind, p->sound, grounds[i], 4.5);
    }
    for (unsigned i = 0; i < N_CURVE_COLORS; i++) {
      check ("curve", kind, p->curves[i], p->sheet, 4.5);
      check ("curve in the band", kind, p->curves[i], p->water, 3);
    }
  }
}

/* Known answers: black on white is 21 : 1; #767676 on white is 4.54 : 1, the grey that is quoted for the limit. */
static void
test_formula (void)
{
  const Color white = {1, 1, 1}, black = {0, 0, 0}, grey = {0x76 / 255.0, 0x76 / 255.0, 0x76 / 255.0};
  g_assert_cmpfloat_with_epsilon (color_contrast (white, black), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (color_contrast (grey, white), 4.54, 0.005);
  g_assert_cmpfloat_with_epsilon (color_contrast (grey, grey), 1, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/palette/formula", test_formula);
  g_test_add_func ("/drawing/palette/contrast", test_contrast);
  return g_test_run ();
}
