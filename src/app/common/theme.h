/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The look: one style sheet a ground (light, dark, high contrast). The desktop's dark preference is read from the settings
 * portal; high contrast from the theme's name; a manual choice wins. Signal "changed" when the ground changes. */
#pragma once

#include <gtk/gtk.h>

#include "drawing/palette.h"

typedef enum { GROUND_LIGHT, GROUND_DARK, GROUND_CONTRAST } ThemeGround;
typedef enum { APPEARANCE_SYSTEM, APPEARANCE_LIGHT, APPEARANCE_DARK } Appearance;

#define DOWNCOMER_TYPE_THEME (theme_get_type ())
G_DECLARE_FINAL_TYPE (Theme, theme, DOWNCOMER, THEME, GObject)

/* Takes hold of the style of a display; lives as long as the application. */
Theme *theme_new (GdkDisplay *display);
ThemeGround theme_get_ground (Theme *theme);

/* The colours of a drawing on that ground; of the light one where `theme` is NULL. */
const Palette *theme_get_palette (Theme *theme);
void theme_set_appearance (Theme *theme, Appearance appearance);
