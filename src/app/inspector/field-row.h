/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* One row of the inspector: a field of a part with the control that suits its type, a button that makes it unknown
 * again, what is wrong with what was typed, and what the value leads to. A value that nobody gave is shown as its default
 * in soft italics. Every change is one undo step of the document. */
#pragma once

#include <gtk/gtk.h>

#include "app/common/document.h"
#include "app/inspector/field-units.h"

#define DOWNCOMER_TYPE_FIELD_ROW (field_row_get_type ())
G_DECLARE_FINAL_TYPE (FieldRow, field_row, DOWNCOMER, FIELD_ROW, GtkBox)

GtkWidget *field_row_new (Document *document, FieldUnits *units, FieldId field);
FieldId field_row_get_field (FieldRow *row);

/* Shows the field of another part of its kind; what was being typed is forgotten. */
void field_row_set_part (FieldRow *row, const char *key);

/* Follows the document in place; what is being typed stays. */
void field_row_refresh (FieldRow *row);

/* The control: QuantityEntry, GtkEntry, FieldChoices, GtkSwitch or CurveEditor. */
GtkWidget *field_row_get_control (FieldRow *row);

/* The slider under the entry of what is found by feeling (pump speed, valve opening), or NULL. */
GtkWidget *field_row_get_slider (FieldRow *row);

/* The button beside the consequence that shows how it was computed, or NULL where there is none now. */
GtkWidget *field_row_get_formula (FieldRow *row);

/* The sentence shown below it, or NULL. */
const char *field_row_get_problem (FieldRow *row);
