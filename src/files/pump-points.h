/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* Reads the points of a pump curve from text that was typed, pasted from a table or exported as CSV. */
#pragma once

#include "files/files-error.h"
#include "units/format.h"

/**
 * pump_points_parse:
 * @text: one point a line, flow and head; `#` begins a comment
 * @style: signs and unit system of the reader
 * @flow_unit: unit of a bare flow where the text itself names none, or NULL: then such a flow is refused
 * @head_unit: the same for a head
 * @ret_curve: (out) (transfer full): the points in rising order of flow, as a FIELD_CURVE takes them
 * @error: FILES_ERROR_BAD_VALUE, _AMBIGUOUS or _TOO_LARGE; names the line
 *
 * Columns are set apart by tabs, else semicolons, else commas or spaces. Units stand in a heading ("Flow (L/h); Head (m)",
 * which also says which column is which) or at the values ("1200 L/h 2.1 m"). What can be read in two ways is refused.
 * Returns: TRUE, or FALSE and @ret_curve untouched
 */
gboolean pump_points_parse (const char *text, const NumberStyle *style, const Unit *flow_unit,
                            const Unit *head_unit, char **ret_curve, GError **error);
