/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Text of labels that wrap: a unit such as "L/h" is never parted at its stroke. */
#pragma once

#include <gtk/gtk.h>

/* Sets the text where it differs, and whether the label is shown: not for NULL or "". */
void label_text_set (GtkLabel *label, const char *text);
