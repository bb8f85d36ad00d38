/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* A drop-down for the fields that take one of several values: choices, sizes and fittings of the catalogue, other parts.
 * Signal "chosen" (string: the index of a choice, or the key) when the person chooses. */
#pragma once

#include <gtk/gtk.h>

#include "design/catalogue.h"
#include "design/design.h"

#define DOWNCOMER_TYPE_FIELD_CHOICES (field_choices_get_type ())
G_DECLARE_FINAL_TYPE (FieldChoices, field_choices, DOWNCOMER, FIELD_CHOICES, GtkWidget)

GtkWidget *field_choices_new (FieldId field);

/* The drop-down inside, which has the focus and the accessible name. */
GtkWidget *field_choices_get_drop_down (FieldChoices *choices);

/* Brings the list and the chosen entry in line with a design; nothing is announced. */
void field_choices_refresh (FieldChoices *choices, const Design *design, const Catalogue *catalogue,
                            const Part *part);
