/* SPDX-License-Identifier: LGPL-2.1-or-later */
/* The way of the water through the parts: the order in which they are walked, and from where to where it goes. */
#pragma once

#include "design/design.h"

/* Indices of all parts from display to display: each run is followed by what is on it, each chamber by what stands in it,
 * each tee by the runs that leave it; what holds the water and the rest come last. Array of int; free with g_array_unref. */
GArray *canvas_flow_order (const Design *design);

/* "Water comes from ... and goes to ..." for a part that water passes, or NULL. Free with g_free. */
char *canvas_flow_words (const Design *design, const Part *part);
