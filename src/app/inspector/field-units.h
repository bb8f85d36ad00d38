/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Units of single fields: a person may see one field in another unit than the project's ("pump power in hp"). They are
 * remembered in the settings under "kind.field"; without settings they last as long as the object. Signal "changed". */
#pragma once

#include <gio/gio.h>

#include "design/field.h"
#include "units/format.h"

#define DOWNCOMER_TYPE_FIELD_UNITS (field_units_get_type ())
G_DECLARE_FINAL_TYPE (FieldUnits, field_units, DOWNCOMER, FIELD_UNITS, GObject)

/* Reads the program's settings, where their schema is installed. */
FieldUnits *field_units_new (void);

/* The unit that a number field is shown and read in: its own, else that of the style. Never NULL. */
const Unit *field_units_get (FieldUnits *units, FieldId field, const NumberStyle *style);

/* True when the field has a unit of its own. */
gboolean field_units_is_own (FieldUnits *units, FieldId field);

/* Gives a field a unit by its machine word; NULL or "" returns to that of the project. Words that do not measure the
 * field's quantity change nothing. */
void field_units_set (FieldUnits *units, FieldId field, const char *word);
